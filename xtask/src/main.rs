//! The project's own chores.
//!
//! - `cargo xtask tidy`: the cheap checks, without compiling anything.
//! - `cargo xtask test`: everything, cheap checks first; the last line is the count of tests.
//! - `cargo xtask measure`: speed, size and memory, for people to read.

use std::process::ExitCode;

mod browser;
mod counts;
mod manifest;
mod measure;
mod run;
mod source;
mod test;
mod tidy;

const USAGE: &str = "\
cargo xtask tidy       check what can be checked without compiling
cargo xtask test       run every check and test, and print the counts
cargo xtask measure    print speed, size and memory";

fn main() -> ExitCode {
    let asked: Vec<String> = std::env::args().skip(1).collect();
    let done = match asked.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["tidy"] => tidy::command(),
        ["test"] => test::command(),
        ["measure"] => measure::command(),
        ["help" | "--help" | "-h"] => {
            println!("{USAGE}");
            return ExitCode::SUCCESS;
        }
        _ => {
            eprintln!("{USAGE}");
            return ExitCode::from(2);
        }
    };
    match done {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(why) => {
            eprintln!("xtask: {why}");
            ExitCode::FAILURE
        }
    }
}
