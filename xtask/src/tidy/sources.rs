//! What the code of the core must not do: touch the world, guess, or round on the way to an answer.

use super::{CORE, File};
use crate::source;

/// Words that no code of the core may hold, each with the reason. Tests and measurements are free.
const BANNED: [(&str, &str); 17] = [
    ("std::fs", "the core reads and writes no files"),
    ("std::io", "the core does no input or output"),
    ("std::env", "the core does not ask where it runs"),
    ("std::net", "the core does not know of a network"),
    ("std::process", "the core starts and ends no programs"),
    ("std::time", "the core reads no clock"),
    ("Instant", "the core reads no clock"),
    ("SystemTime", "the core reads no clock"),
    ("std::thread", "the core spawns no threads"),
    ("rand", "the core takes its randomness as a seed"),
    ("HashMap", "its order changes from run to run: use BTreeMap"),
    ("HashSet", "its order changes from run to run: use BTreeSet"),
    ("unsafe", "there is no unsafe code"),
    ("println!", "the core prints nothing"),
    ("eprintln!", "the core prints nothing"),
    ("print!", "the core prints nothing"),
    ("dbg!", "the core prints nothing"),
];

/// Where doubles may stand, although an answer passes by: at the last step to pixels and plain JSON numbers.
const MAY_USE_FLOATS: [(&str, &str); 2] = [
    ("crates/exact/src/rational.rs", "to_f64, the nearest double of an exact number, for drawings and JSON"),
    ("crates/exact/src/enclosure.rs", "to_f64, the nearest double of a certified enclosure, for the same"),
];

/// The room of the core that works with pixels, and the one above it that passes its pictures on.
const PIXELS: [&str; 2] = ["figure", "worked"];

/// Complains of each forbidden word in the code of the core.
pub(crate) fn check(files: &[File]) -> Vec<String> {
    let mut outside_tests: Vec<String> = Vec::new();
    let mut complaints = Vec::new();
    let mut with_floats = Vec::new();
    for file in files {
        let Some(room) = room(&file.path) else { continue };
        let (code, tests) = source::without_tests(&source::code(&file.text));
        let folder = file.path.rsplit_once('/').map_or("", |(folder, _)| folder);
        outside_tests.extend(tests.iter().map(|name| format!("{folder}/{name}.rs")));
        for (word, why) in BANNED {
            let lines = source::lines_with(&code, word);
            complaints.extend(lines.iter().map(|line| (&file.path, *line, format!("{word}: {why}"))));
        }
        if PIXELS.contains(&room) {
            continue;
        }
        let mut floats = source::lines_with_decimals(&code);
        floats.extend(["f64", "f32"].iter().flat_map(|word| source::lines_with(&code, word)));
        // A function that is named after what it gives is a use of it as well.
        floats.extend(["to_f64", "to_f32"].iter().flat_map(|word| source::lines_with(&code, word)));
        floats.sort_unstable();
        floats.dedup();
        if MAY_USE_FLOATS.iter().any(|(path, _)| *path == file.path) {
            with_floats.extend((!floats.is_empty()).then_some(&file.path));
            continue;
        }
        let why = "a float on the way to an answer: use exact::Rational or exact::Value";
        complaints.extend(floats.iter().map(|line| (&file.path, *line, why.to_owned())));
    }
    let stale = MAY_USE_FLOATS.iter().filter(|(path, _)| {
        files.iter().any(|f| f.path == *path) && !with_floats.iter().any(|f| f.as_str() == *path)
    });
    complaints
        .into_iter()
        .filter(|(path, _, _)| !outside_tests.contains(path))
        .map(|(path, line, what)| format!("{path}:{line}: {what}"))
        .chain(
            stale.map(|(path, _)| {
                format!("{path}: allowed to use floats, and does not: take it off the list")
            }),
        )
        .collect()
}

/// The room of the core that this source file belongs to.
fn room(path: &str) -> Option<&str> {
    let (room, place) = path.strip_prefix("crates/")?.split_once('/')?;
    (CORE.contains(&room) && place.starts_with("src/") && place.ends_with(".rs")).then_some(room)
}

#[cfg(test)]
mod tests {
    use super::super::file;
    use super::*;

    #[test]
    fn each_forbidden_word_is_found_in_code_and_only_there() {
        for (word, _) in BANNED {
            let bad = check(&[file("crates/motion/src/solve.rs", &format!("fn f() {{\n    {word}\n}}"))]);
            assert!(bad.iter().any(|c| c.starts_with("crates/motion/src/solve.rs:2: ")), "{word}: {bad:?}");
            let good = format!(
                "//! No {word} here.\nconst A: &str = \"{word}\";\n#[cfg(test)]\nmod tests {{ {word} }}"
            );
            assert!(check(&[file("crates/motion/src/solve.rs", &good)]).is_empty(), "{word}");
            assert!(check(&[file("crates/desk/src/serve.rs", word)]).is_empty(), "the rim may: {word}");
            assert!(check(&[file("crates/motion/tests/laws.rs", word)]).is_empty(), "tests may: {word}");
        }
    }

    #[test]
    fn floats_stay_out_of_the_way_to_an_answer() {
        for code in ["fn g() -> f64 { 10 as f64 }", "let g = 9.8;", "let x = value.to_f64();"] {
            assert_eq!(check(&[file("crates/motion/src/solve.rs", code)]).len(), 1, "{code}");
            assert!(check(&[file("crates/figure/src/svg.rs", code)]).is_empty(), "drawings may: {code}");
            assert!(
                check(&[file("crates/exact/src/rational.rs", code)]).is_empty(),
                "the list allows it: {code}"
            );
        }
    }

    #[test]
    fn the_list_of_exceptions_holds_no_dead_names() {
        assert_eq!(check(&[file("crates/exact/src/rational.rs", "fn f() {}")]).len(), 1);
    }

    #[test]
    fn a_test_module_in_a_file_of_its_own_is_a_test() {
        let files = [
            file("crates/model/src/lib.rs", "#[cfg(test)]\nmod trials;"),
            file("crates/model/src/trials.rs", "use std::fs;"),
        ];
        assert!(check(&files).is_empty());
    }
}
