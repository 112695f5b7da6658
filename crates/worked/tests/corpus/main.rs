//! Every question on the shelf and every question of other hands, against answers that were worked out by hand and
//! with closed forms of textbooks; each `.answers` file names its sources beside its lines.
//!
//! One wrong answer fails. Questions that are refused are counted: no fewer than [`FLOOR`] may be answered.

#![allow(clippy::expect_used, clippy::panic, reason = "a test that lacks its material should fall")]

mod algebra;
mod expected;

use expected::{Expected, expected};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use worked::{Settings, Worked};
use working::Answered;

/// So many questions are answered today. It only ever goes up.
const FLOOR: usize = 262;

#[test]
fn no_answer_is_wrong_and_few_are_missing() {
    let mut table = Vec::new();
    let mut wrong = Vec::new();
    let mut answered = 0;
    let questions = questions();
    assert!(questions.len() > 60, "the questions are there: {}", questions.len());
    for path in &questions {
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text = fs::read_to_string(path).expect("the question can be read");
        let worked = worked::work(&text, &Settings::default());
        if let Some(why) = worked.refusal() {
            let kind = why.refusal.map_or("error", |r| r.word());
            let places: Vec<&str> = why.spans.iter().map(|s| s.of(&text)).collect();
            table.push(format!("  -  {name}: {kind}: {} {places:?}", why.message));
            continue;
        }
        answered += 1;
        let troubles = compare(&worked, &expected(&path.with_extension("answers")));
        table.push(format!("{} {name}", if troubles.is_empty() { " ok " } else { "BAD " }));
        wrong.extend(troubles.into_iter().map(|t| format!("{name}: {t}")));
    }
    println!("{}\nanswered {answered} of {}", table.join("\n"), questions.len());
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
    assert!(answered >= FLOOR, "answered {answered} of {}, {FLOOR} before", questions.len());
}

/// All questions, in order of name.
fn questions() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut found = Vec::new();
    for folder in ["shelf", "tests/questions"] {
        let entries = fs::read_dir(root.join(folder)).expect("the folder of questions is there");
        let files = entries.map(|e| e.expect("it can be listed").path());
        found.extend(files.filter(|f| f.extension().is_some_and(|e| e == "txt")));
    }
    found.sort();
    found
}

/// Everything that differs between our answers and those expected, in words.
fn compare(worked: &Worked, expected: &[Expected]) -> Vec<String> {
    let ours: &[Answered] = worked.work.as_ref().map(|w| w.answers.as_slice()).unwrap_or_default();
    let mut troubles = Vec::new();
    if ours.len() != expected.len() {
        let parts: Vec<String> = ours.iter().map(|a| format!("({}) {}", a.part, a.asked)).collect();
        troubles.push(format!("{} answers, {} expected: {}", ours.len(), expected.len(), parts.join("; ")));
    }
    for (ours, expected) in ours.iter().zip(expected) {
        let here = format!("({}) {}", expected.part, expected.quantity);
        if ours.part != expected.part || ours.quantity != expected.quantity {
            troubles.push(format!("{here}: answered as ({}) {}", ours.part, ours.quantity));
        }
        if expected.quantity == "statement" {
            if ours.text.trim().is_empty() {
                troubles.push(format!("{here}: nothing is stated"));
            }
            continue;
        }
        if !same(&ours.exact, &expected.exact) {
            troubles.push(format!("{here}: {} but {} expected", ours.exact, expected.exact));
        }
        let unit = if expected.unit == "-" { "" } else { &expected.unit };
        if ours.unit_ascii != unit {
            troubles.push(format!("{here}: in {:?}, {unit:?} expected", ours.unit_ascii));
        }
    }
    troubles
}

/// Do two expressions have the same value, whatever their letters stand for?
fn same(ours: &str, theirs: &str) -> bool {
    // A set of values: the same signs between the same ends.
    if theirs.contains('<') {
        let signs = |text: &str| text.chars().filter(|c| matches!(c, '<' | '=')).collect::<String>();
        let ends =
            |text: &str| text.replace('=', "").split('<').map(|s| s.trim().to_owned()).collect::<Vec<_>>();
        let (a, b) = (ends(ours), ends(theirs));
        return signs(ours) == signs(theirs)
            && a.len() == b.len()
            && a.iter().zip(&b).all(|(a, b)| same(a, b));
    }
    let mut seed = 17_u64;
    (0..4).all(|_| {
        let mut letters = BTreeMap::new();
        let mut letter = |name: &str| {
            *letters.entry(name.to_owned()).or_insert_with(|| {
                // Any spread of numbers will do: the values are between 1 and 3.
                seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                1.0 + 2.0 * (seed >> 11) as f64 / (1_u64 << 53) as f64
            })
        };
        match (algebra::value(ours, &mut letter), algebra::value(theirs, &mut letter)) {
            (Ok(a), Ok(b)) => (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-6),
            _ => false,
        }
    })
}

#[test]
fn expressions_are_compared_by_value() {
    assert!(same("7/5*sqrt(2)", "1.4*2^(1/2)"));
    assert!(same("2*m*g*k/(1 + k)", "2*k*m*g/(k + 1)"));
    assert!(same("sin(40°)", "sin(40*pi/180)") && same("sin(30)", "1/2"));
    assert!(same("-(2 - 3)^2", "-1"));
    assert!(same("2/5 <= k <= 4/5", "0.4 <= k <= 0.8") && same("0 < M <= 2", "0 < M <= 4/2"));
    assert!(!same("0 < M < 2", "0 < M <= 2") && !same("0 < M", "0 < M <= 2"));
    for (one, other) in [("m*g", "m"), ("3/4", "0.7500001"), ("", "0"), ("2 +", "2"), ("(1", "1")] {
        assert!(!same(one, other), "{one:?} and {other:?}");
    }
}
