//! The first page, the sample shelf and the corpora of tests.

use std::collections::BTreeSet;

/// The two commands that a newcomer needs.
const COMMANDS: [&str; 2] = ["cargo run --release", "cargo xtask test"];
/// So many questions stand on the shelf at least.
const FULL: usize = 24;
/// A first page with more lines than this before the commands is not read.
const BEFORE_THE_COMMANDS: usize = 25;

/// Complains where README.md does not give its two commands early, each on a line of its own in a code block,
/// or where the build server runs something else than README.md says.
pub(crate) fn readme(readme: &str, ci: &str) -> Vec<String> {
    let mut complaints = Vec::new();
    for command in COMMANDS {
        match readme.lines().position(|line| line.split('#').next().unwrap_or_default().trim() == command) {
            None => complaints.push(format!("README.md does not give the command: {command}")),
            Some(line) if line > BEFORE_THE_COMMANDS => {
                complaints.push(format!("README.md gives {command} only on line {}", line + 1));
            }
            Some(_) => {}
        }
    }
    let [_, test] = COMMANDS;
    if !ci.lines().any(|line| !line.trim_start().starts_with('#') && line.contains(test)) {
        complaints.push(format!(".ci/run does not run {test}"));
    }
    complaints
}

/// Complains of a shelf with gaps. Takes the names of its files.
pub(crate) fn shelf(names: &[String]) -> Vec<String> {
    let mut complaints = unpaired("shelf", names, "txt", "answers");
    let questions = names.iter().filter(|name| name.ends_with(".txt")).count();
    if questions < FULL {
        complaints.push(format!("shelf: {questions} questions, at least {FULL} are wanted"));
    }
    complaints
}

/// Complains of test questions without answers and of texts to be refused without a reason.
pub(crate) fn pairs(questions: &[String], refused: &[String]) -> Vec<String> {
    let mut complaints = unpaired("tests/questions", questions, "txt", "answers");
    complaints.extend(unpaired("tests/refused", refused, "txt", "expect"));
    complaints
}

fn unpaired(folder: &str, names: &[String], question: &str, expected: &str) -> Vec<String> {
    let stems = |ending: &str| -> BTreeSet<&str> {
        names.iter().filter_map(|name| name.strip_suffix(ending)?.strip_suffix('.')).collect()
    };
    let (questions, answers) = (stems(question), stems(expected));
    let without =
        questions.difference(&answers).map(|stem| format!("{folder}/{stem}.{question} has no .{expected}"));
    let alone =
        answers.difference(&questions).map(|stem| format!("{folder}/{stem}.{expected} has no .{question}"));
    without.chain(alone).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(stems: usize) -> Vec<String> {
        (0..stems).flat_map(|i| [format!("{i}.txt"), format!("{i}.answers")]).collect()
    }

    #[test]
    fn a_first_page_without_its_commands_is_told() {
        let ci = "#!/bin/bash\nexec cargo xtask test";
        assert!(
            readme("Tautline\n\n    cargo run --release   # opens the desk\n    cargo xtask test\n", ci)
                .is_empty()
        );
        assert_eq!(readme("Tautline: see `cargo run --release`.\n", ci).len(), 2, "in passing is not enough");
        let late = "word\n".repeat(30) + "cargo run --release\ncargo xtask test\n";
        assert_eq!(readme(&late, ci).len(), 2);
        assert_eq!(
            readme("cargo run --release\ncargo xtask test", "# cargo xtask test\ncargo test").len(),
            1
        );
    }

    #[test]
    fn a_shelf_with_gaps_is_told() {
        assert!(shelf(&names(24)).is_empty());
        assert_eq!(shelf(&names(23)).len(), 1);
        let mut gap = names(25);
        gap.retain(|name| name != "7.answers");
        assert_eq!(shelf(&gap), ["shelf/7.txt has no .answers"]);
    }

    #[test]
    fn test_questions_come_in_pairs() {
        assert!(pairs(&names(2), &["a.txt".to_owned(), "a.expect".to_owned()]).is_empty());
        assert_eq!(pairs(&["lone.answers".to_owned()], &["b.txt".to_owned()]).len(), 2);
    }
}
