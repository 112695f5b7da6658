//! Files are small and say one thing; nothing is left for later.

use super::File;
use crate::source;

/// More lines than this in one file are refused.
const TOO_LONG: usize = 800;
/// More lines than this earn a warning.
const LONG: usize = 600;

/// Code that stands for work not done.
const UNFINISHED: [&str; 3] = ["todo!", "unimplemented!", "#[ignore"];
/// Notes to oneself (in two halves, so that this file is not found by its own check).
const NOTES: [&str; 2] = [concat!("TO", "DO"), concat!("FIX", "ME")];

/// Complains of files that are too long, and of work put off.
pub(crate) fn check(files: &[File]) -> Vec<String> {
    let mut complaints = Vec::new();
    for file in files {
        let lines = file.text.lines().count();
        if lines >= TOO_LONG {
            complaints.push(format!("{}: {lines} lines; split it before {TOO_LONG}", file.path));
        }
        let code = source::code(&file.text);
        let unfinished =
            UNFINISHED.iter().filter(|_| file.path.ends_with(".rs")).map(|word| (word, code.as_str()));
        let notes = NOTES.iter().map(|word| (word, file.text.as_str()));
        for (word, text) in unfinished.chain(notes) {
            let lines = source::lines_with(text, word);
            complaints
                .extend(lines.iter().map(|line| format!("{}:{line}: {word} is work put off", file.path)));
        }
    }
    complaints
}

/// The files that grow long.
pub(crate) fn warnings(files: &[File]) -> Vec<String> {
    let long =
        files.iter().map(|f| (&f.path, f.text.lines().count())).filter(|(_, n)| (LONG..TOO_LONG).contains(n));
    long.map(|(path, lines)| format!("{path} has {lines} lines")).collect()
}

#[cfg(test)]
mod tests {
    use super::super::file;
    use super::*;

    #[test]
    fn long_files_are_warned_of_and_then_refused() {
        let long = |lines: usize| [file("crates/words/src/noun.rs", &"fn f() {}\n".repeat(lines))];
        assert!(warnings(&long(599)).is_empty() && check(&long(599)).is_empty());
        assert!(warnings(&long(600)).len() == 1 && check(&long(799)).is_empty());
        assert_eq!(check(&long(800)).len(), 1);
    }

    #[test]
    fn work_put_off_is_refused() {
        for code in ["fn f() { todo!() }", "unimplemented!(\"later\")", "#[ignore = \"slow\"]\n#[test]"] {
            assert_eq!(check(&[file("crates/paper/src/html.rs", code)]).len(), 1, "{code}");
        }
        assert_eq!(check(&[file("crates/paper/src/html.rs", concat!("// TO", "DO: more"))]).len(), 1);
        assert!(check(&[file("crates/paper/src/html.rs", "let a = \"todo!\"; // nothing to do")]).is_empty());
    }
}
