//! The program: command line, wiring, diagnostics.
fn main() {}
