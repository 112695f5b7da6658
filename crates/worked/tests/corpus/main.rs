//! Every question on the shelf and every question of other hands, against answers that were worked out by hand and
//! with closed forms of textbooks; each `.answers` file names its sources beside its lines. Then the same of wordings:
//! questions whose phrases were changed one at a time.
//!
//! One wrong answer fails. What is refused is counted: `tests/README.md` says how many texts of each set are answered
//! at least, and a rise is written there.

#![allow(clippy::expect_used, clippy::panic, reason = "a test that lacks its material should fall")]

mod algebra;
mod changed;
mod compare;
mod defective;
mod expected;
mod rates;
mod wordings;

use compare::compare;
use expected::{Expected, expected};
use rates::Rates;
use std::fs;
use std::path::{Path, PathBuf};
use worked::Settings;

/// Works one text and counts it.
fn hold(rates: &mut Rates, name: &str, text: &str, expected: &[Expected]) {
    let worked = worked::work(text, &Settings::default());
    if let Some(why) = worked.refusal() {
        let kind = why.refusal.map_or("error", |r| r.word());
        let places: Vec<&str> = why.spans.iter().map(|s| s.of(text)).collect();
        rates.refused(name, format!("{kind}: {} {places:?}", why.message));
    } else {
        rates.answered(name, compare(&worked, expected));
    }
}

/// The questions of some folders, in order of name.
fn questions(folders: &[&str]) -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut found = Vec::new();
    for folder in folders {
        let entries = fs::read_dir(root.join(folder)).expect("the folder of questions is there");
        let files = entries.map(|e| e.expect("it can be listed").path());
        found.extend(files.filter(|f| f.extension().is_some_and(|e| e == "txt")));
    }
    found.sort();
    found
}

fn held(set: &str, folders: &[&str]) -> Rates {
    let mut rates = Rates::default();
    for path in questions(folders) {
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text = fs::read_to_string(&path).expect("the question can be read");
        hold(&mut rates, &name, &text, &expected(&path.with_extension("answers")));
    }
    rates.stand(set);
    rates
}

#[test]
fn of_the_questions_worked_on_none_is_answered_wrongly_and_few_are_refused() {
    let rates = held("work", &["shelf", "tests/questions"]);
    assert!(rates.texts() > 300, "the questions are there: {}", rates.texts());
}

#[test]
fn of_the_questions_only_measured_none_is_answered_wrongly_and_few_are_refused() {
    held("measured", &["tests/measured"]);
}

#[test]
fn a_change_that_matters_not_changes_no_answer() {
    let mut table = std::collections::BTreeMap::<&str, (usize, usize)>::new();
    let mut wrong = Vec::new();
    for path in questions(&["shelf", "tests/questions"]) {
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text = fs::read_to_string(&path).expect("the question can be read");
        let before = changed::work(&text);
        if before.refusal().is_some() {
            continue;
        }
        for (what, change) in changed::CHANGES {
            let Some(other) = change(&text, &before).filter(|other| *other != text) else { continue };
            let after = changed::work(&other);
            let (answered, of) = table.entry(what).or_default();
            *of += 1;
            if after.refusal().is_some() {
                continue;
            }
            *answered += 1;
            let (old, new) = (changed::answers(&before), changed::answers(&after));
            if old != new {
                wrong.push(format!("{name}: {what}: {new:?} but {old:?} before"));
            }
        }
    }
    for (what, (answered, of)) in &table {
        println!("{what}: answered alike {answered} of {of}");
        assert!(answered * 10 >= of * 8, "{what}: only {answered} of {of} are still answered");
    }
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_defective_question_is_answered_and_some_are_refused_for_what_is_wrong_with_them() {
    let mut rates = Rates::default();
    for path in questions(&["tests/defective"]) {
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text = fs::read_to_string(&path).expect("the question can be read");
        let expect = fs::read_to_string(path.with_extension("expect")).expect("a reason is expected");
        match defective::fault(&text, &expect) {
            defective::Outcome::Answered(how) => rates.answered(&name, vec![how]),
            defective::Outcome::Named => rates.answered(&name, Vec::new()),
            defective::Outcome::Otherwise(why) => rates.refused(&name, why),
        }
    }
    rates.stand("defective");
}

#[test]
fn a_change_of_one_phrase_changes_no_answer() {
    let mut rates = Rates::default();
    for path in questions(&["tests/wordings"]) {
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text = fs::read_to_string(&path).expect("the wordings can be read");
        let expected = expected(&path.with_extension("answers"));
        for (phrase, text) in wordings::all(&text) {
            hold(&mut rates, &format!("{name} {phrase:?}"), &text, &expected);
        }
    }
    rates.stand("wordings");
}
