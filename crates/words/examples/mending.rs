//! Shows what is suggested for the questions in these files: each refusal with the changes that are read further.
//!
//! `cargo run -p words --example mending -- tests/questions/*.txt`

use std::process::ExitCode;

fn main() -> ExitCode {
    let (mut unread, mut helped) = (0, 0);
    for name in std::env::args().skip(1) {
        let Ok(text) = std::fs::read_to_string(&name) else {
            println!("cannot read {name}");
            return ExitCode::FAILURE;
        };
        let reading = words::read(&text).mended(&text, &[]);
        for d in reading.diagnostics.iter().filter(|d| d.severity == model::Severity::Error) {
            let places: Vec<&str> = d.spans.iter().map(|s| s.of(&text)).collect();
            println!("{name}: {} {places:?}", d.message);
            unread += 1;
            helped += usize::from(!d.suggestions.is_empty());
            for s in &d.suggestions {
                println!("    {:?}\n    -> {:?} ({})", s.span.of(&text), s.replacement, s.why);
            }
        }
    }
    println!("{unread} refusals, {helped} with a suggestion");
    ExitCode::SUCCESS
}
