//! Writes a sample page of Marram Quay as HTML and PDF, to be looked at:
//! `cargo run -p paper --example leaf -- DIRECTORY`.

mod sample;

use std::error::Error;
use std::{env, fs, path::PathBuf};

fn main() -> Result<(), Box<dyn Error>> {
    let directory = PathBuf::from(env::args().nth(1).unwrap_or_else(|| ".".to_owned()));
    let page = sample::document();
    fs::write(directory.join("leaf.html"), paper::html_page(&page))?;
    fs::write(directory.join("leaf.pdf"), paper::pdf(&page)?)?;
    Ok(())
}
