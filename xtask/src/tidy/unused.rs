//! Dependencies that no line of code names.

use super::File;
use crate::manifest::{Dependency, Kind, Package};
use crate::source;

/// Complains of each dependency that is declared and not used where it is declared for.
pub(crate) fn check(packages: &[Package], files: &[File]) -> Vec<String> {
    packages.iter().flat_map(|package| of_package(package, files)).collect()
}

fn of_package(package: &Package, files: &[File]) -> Vec<String> {
    let below =
        |file: &&File| file.path.starts_with(&format!("{}/", package.folder)) && file.path.ends_with(".rs");
    let mut program = String::new();
    let mut tests = String::new();
    let mut build = String::new();
    for file in files.iter().filter(below) {
        let code = source::code(&file.text);
        let place = file.path.get(package.folder.len() + 1..).unwrap_or_default();
        if place == "build.rs" {
            build += &code;
        } else if place.starts_with("src/") {
            program += &source::without_tests(&code).0;
            tests += &code;
        } else {
            tests += &code;
        }
    }
    let unused = |dependency: &&Dependency| {
        let code = match dependency.kind {
            Kind::Normal => &program,
            Kind::Test => &tests,
            Kind::Build => &build,
        };
        source::lines_with(code, &format!("{}::", dependency.name.replace('-', "_"))).is_empty()
    };
    let names = package.dependencies.iter().filter(unused).map(|d| match d.kind {
        Kind::Normal => format!("{} does not use {}, apart perhaps from its tests", package.name, d.name),
        Kind::Test => format!("the tests of {} do not use {}", package.name, d.name),
        Kind::Build => format!("the build script of {} does not use {}", package.name, d.name),
    });
    names.collect()
}

#[cfg(test)]
mod tests {
    use super::super::file;
    use super::*;

    #[test]
    fn what_only_a_test_or_a_comment_names_is_not_used_by_the_program() {
        let dependency = |name: &str, kind| Dependency { name: name.to_owned(), kind, ours: false };
        let package = Package {
            name: "quay".to_owned(),
            folder: "crates/quay".to_owned(),
            dependencies: vec![
                dependency("dashu-int", Kind::Normal),
                dependency("serde", Kind::Normal),
                dependency("insta", Kind::Test),
                dependency("divan", Kind::Test),
            ],
        };
        let files = [
            file(
                "crates/quay/src/lib.rs",
                "//! serde::Serialize\nuse dashu_int::IBig;\n#[cfg(test)]\nmod tests { use serde::Serialize; }",
            ),
            file("crates/quay/tests/pins.rs", "insta::assert_snapshot!();"),
            file("crates/quayside/src/lib.rs", "use divan::Bencher;"),
        ];
        let complaints = check(&[package], &files);
        assert_eq!(complaints.len(), 2, "{complaints:?}");
        assert!(complaints[0].contains("serde") && complaints[1].contains("divan"));
    }
}
