//! Which crate may rest on which.

use super::CORE;
use crate::manifest::{Kind, Package};

/// What each crate may rest on, in its tests too. What is not here is not allowed.
const BELOW: [(&str, &[&str]); 11] = [
    ("exact", &[]),
    ("model", &["exact"]),
    ("words", &["exact", "model"]),
    ("motion", &["exact", "model"]),
    ("working", &["exact", "model", "motion"]),
    ("figure", &["exact", "model", "motion"]),
    ("worked", &["exact", "model", "words", "motion", "working", "figure"]),
    // `worked` hands out the plain values of the rooms below it, and `paper` writes them.
    ("paper", &CORE),
    ("desk", &["exact", "model", "words", "worked", "paper"]),
    ("tautline", &["exact", "model", "words", "motion", "working", "figure", "worked", "paper", "desk"]),
    ("xtask", &[]),
];

/// Libraries that shape the crate that uses them, and the one crate that may.
const HOMES: [(&str, &str); 5] =
    [("typst", "paper"), ("axum", "desk"), ("askama", "desk"), ("clap", "tautline"), ("miette", "tautline")];

/// The only libraries from outside that the core may rest on: whole numbers without end, and their fractions.
const OUTSIDE_OF_CORE: &str = "dashu-";

/// Complains of each dependency that goes up or sideways.
pub(crate) fn check(packages: &[Package]) -> Vec<String> {
    packages.iter().flat_map(of_package).collect()
}

fn of_package(package: &Package) -> Vec<String> {
    let name = package.name.as_str();
    let Some((_, below)) = BELOW.iter().find(|(crate_name, _)| *crate_name == name) else {
        return vec![format!("{name} has no place among the rooms: give it one in xtask/src/tidy/edges.rs")];
    };
    let mut wrong = Vec::new();
    for dependency in &package.dependencies {
        let on = dependency.name.as_str();
        if dependency.ours {
            if !below.contains(&on) {
                wrong.push(format!("{name} rests on {on}, which is not below it"));
            }
            continue;
        }
        let is_of =
            |library: &str| on == library || on.strip_prefix(library).is_some_and(|r| r.starts_with('-'));
        if let Some((library, home)) = HOMES.iter().find(|(library, home)| is_of(library) && *home != name) {
            wrong.push(format!("{name} uses {on}, but only {home} may know {library}"));
        }
        if CORE.contains(&name) && dependency.kind != Kind::Test && !on.starts_with(OUTSIDE_OF_CORE) {
            wrong.push(format!("{name} is of the core and rests on {on} from outside"));
        }
    }
    wrong
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::manifest::Dependency;

    fn complaints(name: &str, on: &str, kind: Kind, ours: bool) -> Vec<String> {
        let dependencies = vec![Dependency { name: on.to_owned(), kind, ours }];
        check(&[Package { name: name.to_owned(), folder: format!("crates/{name}"), dependencies }])
    }

    #[test]
    fn the_words_do_not_know_the_motion() {
        assert_eq!(complaints("words", "motion", Kind::Normal, true).len(), 1);
        assert_eq!(complaints("motion", "words", Kind::Test, true).len(), 1, "nor do their tests");
        assert_eq!(
            complaints("exact", "model", Kind::Normal, true).len(),
            1,
            "nothing rests on what is above"
        );
        assert!(complaints("words", "model", Kind::Normal, true).is_empty());
    }

    #[test]
    fn the_core_takes_nothing_from_outside_but_whole_numbers() {
        assert_eq!(complaints("model", "serde", Kind::Normal, false).len(), 1);
        assert_eq!(complaints("model", "cc", Kind::Build, false).len(), 1);
        assert!(complaints("exact", "dashu-int", Kind::Normal, false).is_empty());
        assert!(complaints("exact", "proptest", Kind::Test, false).is_empty(), "tests may use more");
    }

    #[test]
    fn libraries_that_shape_a_crate_have_one_home() {
        assert_eq!(complaints("desk", "typst-pdf", Kind::Normal, false).len(), 1);
        assert_eq!(complaints("tautline", "axum", Kind::Normal, false).len(), 1);
        assert!(complaints("paper", "typst-pdf", Kind::Normal, false).is_empty());
    }

    #[test]
    fn a_new_crate_is_given_its_place() {
        assert_eq!(complaints("cellar", "exact", Kind::Normal, true).len(), 1);
    }
}
