//! ARCHITECTURE.md names every crate and every library, and none that is not there.
//!
//! Crates are the headings below "The rooms", libraries the entries of the list below "Libraries":
//!
//! ```text
//! ### `exact`: exact numbers
//! - `dashu-int` (exact): why this one, and what else was weighed.
//! ```

use crate::manifest::Package;
use std::collections::BTreeSet;

const ROOMS: &str = "## The rooms";
const LIBRARIES: &str = "## Libraries";
/// An entry with fewer words than this gives no reason.
const WORDS_OF_A_REASON: usize = 8;

/// Complains of what is missing, of what does not exist, and of libraries without a reason.
pub(crate) fn check(architecture: &str, packages: &[Package]) -> Vec<String> {
    let rooms = section(architecture, ROOMS);
    let rooms = named(&rooms, "### `");
    let libraries = section(architecture, LIBRARIES);
    let listed = named(&libraries, "- `");
    let crates: BTreeSet<&str> = packages.iter().map(|p| p.name.as_str()).collect();
    let outside: BTreeSet<&str> =
        packages.iter().flat_map(|p| &p.dependencies).filter(|d| !d.ours).map(|d| d.name.as_str()).collect();
    let mut complaints = compare(ROOMS, "crate", &rooms, &crates);
    complaints.extend(compare(LIBRARIES, "library", &listed, &outside));
    let entries = libraries.iter().filter(|line| line.starts_with("- `"));
    let bare = entries.filter(|line| line.split_whitespace().count() < WORDS_OF_A_REASON);
    complaints.extend(bare.map(|line| format!("no reason is given: {line}")));
    complaints
}

fn compare(heading: &str, what: &str, named: &BTreeSet<&str>, real: &BTreeSet<&str>) -> Vec<String> {
    let missing =
        real.difference(named).map(|name| format!("the {what} {name} is not named under \"{heading}\""));
    let dead =
        named.difference(real).map(|name| format!("\"{heading}\" names a {what} that is not there: {name}"));
    missing.chain(dead).collect()
}

/// The lines below a heading, up to the next one of its rank; a list entry that runs over several lines is one.
fn section(text: &str, heading: &str) -> Vec<String> {
    let below = text.lines().skip_while(|line| line.trim() != heading).skip(1);
    let mut lines: Vec<String> = Vec::new();
    for line in below.take_while(|line| !line.starts_with("## ")) {
        match lines.last_mut() {
            Some(last) if line.starts_with("  ") && last.starts_with("- ") => {
                last.push(' ');
                last.push_str(line.trim());
            }
            _ => lines.push(line.to_owned()),
        }
    }
    lines
}

fn named<'l>(lines: &'l [String], opening: &str) -> BTreeSet<&'l str> {
    lines.iter().filter_map(|line| line.strip_prefix(opening)?.split('`').next()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::manifest::{Dependency, Kind};

    fn quay() -> Vec<Package> {
        let dependency = Dependency { name: "dashu-int".to_owned(), kind: Kind::Normal, ours: false };
        vec![Package {
            name: "exact".to_owned(),
            folder: "crates/exact".to_owned(),
            dependencies: vec![dependency],
        }]
    }

    const GOOD: &str = "## The rooms\n\n### `exact`: exact numbers\n\n## Libraries\n\n- `dashu-int` (exact): whole numbers \
                        without end,\n  in plain Rust.\n\n## More\n";

    #[test]
    fn a_true_handbook_passes() {
        assert_eq!(check(GOOD, &quay()), Vec::<String>::new());
    }

    #[test]
    fn what_is_missing_and_what_is_dead_is_told() {
        let missing = check("## The rooms\n## Libraries\n", &quay());
        assert_eq!(missing.len(), 2, "a crate and a library: {missing:?}");
        let dead = GOOD.replace(
            "## Libraries\n",
            "### `cellar`: dug out\n\n## Libraries\n\n- `serde` (exact): used long ago, and then no more.\n",
        );
        let dead = check(&dead, &quay());
        assert_eq!(dead.len(), 2, "a crate and a library: {dead:?}");
    }

    #[test]
    fn a_library_needs_a_reason() {
        let bare = GOOD.replace(": whole numbers without end,\n  in plain Rust.", "");
        assert_eq!(check(&bare, &quay()).len(), 1);
    }
}
