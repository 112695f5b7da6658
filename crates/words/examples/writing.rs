//! Reads question files, writes each again in both voices and reads that: `cargo run -p words --example writing -- FILE...`.
//! With `FULL=1` it prints the texts.

use words::Voice;

fn main() {
    let full = std::env::var("FULL").is_ok();
    let (mut read, mut written) = (0, 0);
    for file in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&file).unwrap_or_default();
        let first = words::read(&text);
        if !first.is_sound() {
            continue;
        }
        for voice in [Voice::British, Voice::International] {
            read += 1;
            match words::write(&first.situation, voice) {
                Err(why) => println!("-- {file} {voice:?}: {}", why.message),
                Ok(again) => {
                    written += 1;
                    if full {
                        println!("== {file} {voice:?}\n{again}");
                    }
                }
            }
        }
    }
    println!("read {read}, written {written}");
}
