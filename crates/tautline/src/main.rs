//! The program: command line, wiring, diagnostics.
//!
//! Everything that touches the outside world stands here: files, the terminal, the JSON that other programs read.
//! The answers come from [`worked`], the pages from [`paper`], the desk from [`desk`].

mod input;
mod json;
mod options;
mod output;
mod report;
mod run;
mod sheet;
mod stages;
mod text;
mod wrap;

use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    run::run(options::Options::parse())
}
