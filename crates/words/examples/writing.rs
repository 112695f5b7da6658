//! Reads question files, writes each again in both voices and reads that: `cargo run -p words --example writing -- FILE...`.
//! With `FULL=1` it prints the texts.

#![allow(dead_code, reason = "shares the comparison with the tests")]

#[path = "../tests/writing/facts.rs"]
mod facts;

use words::Voice;

fn main() {
    let full = std::env::var("FULL").is_ok();
    let (mut read, mut written, mut same) = (0, 0, 0);
    for file in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&file).unwrap_or_default();
        let first = words::read(&text);
        if !first.is_sound() {
            continue;
        }
        for voice in [Voice::British, Voice::International] {
            read += 1;
            let again = match words::write(&first.situation, voice) {
                Ok(again) => again,
                Err(why) => {
                    println!("-- {file} {voice:?}: {}", why.message);
                    continue;
                }
            };
            written += 1;
            let back = words::read(&again);
            let mut wrong: Vec<String> = back
                .diagnostics
                .iter()
                .filter(|d| d.severity == model::Severity::Error)
                .map(|d| format!("{} {:?}", d.message, d.spans.iter().map(|s| s.of(&again)).collect::<Vec<_>>()))
                .collect();
            if wrong.is_empty() {
                wrong = facts::differences(&first.situation, &back.situation);
            }
            if wrong.is_empty() {
                same += 1;
            }
            if full || !wrong.is_empty() {
                println!("== {file} {voice:?}\n{again}");
                wrong.iter().for_each(|w| println!("   !! {w}"));
            }
        }
    }
    println!("read {read}, written {written}, the same {same}");
}
