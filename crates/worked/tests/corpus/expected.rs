//! Reads a file of expected answers: part, quantity, exact value, decimal, unit, with tabs between; `#` begins a
//! line that gives the source.

use std::fs;
use std::path::Path;

/// One expected answer.
pub(crate) struct Expected {
    pub(crate) part: String,
    pub(crate) quantity: String,
    pub(crate) exact: String,
    pub(crate) unit: String,
}

pub(crate) fn expected(path: &Path) -> Vec<Expected> {
    let text = fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let lines = text.lines().filter(|l| !l.trim().is_empty() && !l.starts_with('#'));
    lines
        .map(|line| {
            let columns: Vec<&str> = line.split('\t').collect();
            let [part, quantity, exact, _decimal, unit] = columns.as_slice() else {
                panic!("{}: five columns are wanted in {line:?}", path.display());
            };
            Expected {
                part: if *part == "-" { String::new() } else { (*part).to_owned() },
                quantity: (*quantity).to_owned(),
                exact: (*exact).to_owned(),
                unit: unit.trim().to_owned(),
            }
        })
        .collect()
}
