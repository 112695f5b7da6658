//! How many texts of a set are answered, and what `tests/README.md` promises of it.

use std::fs;
use std::path::Path;

/// The texts of one set, counted.
#[derive(Default)]
pub(crate) struct Rates {
    answered: usize,
    table: Vec<String>,
    wrong: Vec<String>,
}

impl Rates {
    pub(crate) fn texts(&self) -> usize {
        self.table.len()
    }
    pub(crate) fn refused(&mut self, name: &str, why: String) {
        self.table.push(format!("  -  {name}: {why}"));
    }
    pub(crate) fn answered(&mut self, name: &str, troubles: Vec<String>) {
        self.answered += 1;
        self.table.push(format!("{} {name}", if troubles.is_empty() { " ok " } else { "BAD " }));
        self.wrong.extend(troubles.into_iter().map(|t| format!("{name}: {t}")));
    }

    /// Prints the table, and fails if an answer is wrong or fewer are answered than `tests/README.md` says.
    pub(crate) fn stand(&self, set: &str) {
        let texts = self.texts();
        // What became of a measured question is for nobody to mend by.
        if set != "measured" {
            println!("{}", self.table.join("\n"));
        }
        println!("{set}: answered {} of {texts}", self.answered);
        assert!(self.wrong.is_empty(), "{} wrong:\n{}", self.wrong.len(), self.wrong.join("\n"));
        let promised = promised(set);
        assert!(
            texts >= promised.texts,
            "{set}: {texts} texts, {} promised in tests/README.md",
            promised.texts
        );
        assert!(
            self.answered >= promised.answered,
            "{set}: answered {} of {texts}, {} promised in tests/README.md",
            self.answered,
            promised.answered
        );
    }
}

struct Promised {
    texts: usize,
    answered: usize,
}

/// The row of a set in the table of `tests/README.md`: `| set | texts | answered | wrong |`.
fn promised(set: &str) -> Promised {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/README.md");
    let page = fs::read_to_string(path).expect("tests/README.md is there");
    let row = page.lines().find(|l| l.starts_with(&format!("| {set} |")));
    let row = row.unwrap_or_else(|| panic!("tests/README.md has no row for {set}"));
    let cells: Vec<&str> = row.split('|').map(str::trim).collect();
    let [_, _, texts, answered, "0", ..] = cells.as_slice() else {
        panic!("set, texts, answered and wrong (0) are wanted in {row:?}");
    };
    Promised {
        texts: texts.parse().expect("a count of texts"),
        answered: answered.parse().expect("a count of answers"),
    }
}
