//! Suggestions for what was not understood, over every question that is refused: each is read further than before.

#![allow(clippy::expect_used, reason = "a test that lacks its material should fall")]

use model::Severity;
use std::fs;
use std::path::{Path, PathBuf};
use words::Reading;
use worked::{Settings, work};

/// The question on which a greasy floor and a strange word stand.
const QUESTION: &str = "A crate of mass 5 kg is pulled along a horizontal floor by a horizontal force of 20 N. The floor \
    is greasy with fish magnetism. Find the acceleration of the crate.";

fn refused() -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut found = Vec::new();
    for folder in ["tests/questions", "tests/refused"] {
        let entries =
            fs::read_dir(root.join(folder)).expect("the folder is there").flatten().map(|e| e.path());
        for path in entries.filter(|p| p.extension().is_some_and(|e| e == "txt")) {
            let text = fs::read_to_string(&path).expect("it can be read");
            if !words::read(&text).is_sound() {
                found.push((path, text));
            }
        }
    }
    found.sort();
    found
}

fn unread(text: &str, reading: &Reading) -> usize {
    reading.unread.iter().map(|s| s.of(text).split_whitespace().count()).sum()
}

fn errors(reading: &Reading) -> usize {
    reading.diagnostics.iter().filter(|d| d.severity == Severity::Error).count()
}

#[test]
fn every_suggestion_is_read_further() {
    let (mut phrases, mut helped, mut offered) = (0, 0, 0);
    for (path, text) in refused() {
        let before = words::read(&text);
        let mended = before.clone().mended(&text, &[]);
        phrases += before.unread.len();
        for d in &mended.diagnostics {
            helped += usize::from(!d.suggestions.is_empty());
            for s in &d.suggestions {
                offered += 1;
                let name = path.display();
                let changed = s.applied(&text).expect("its place lies in the text");
                let after = words::read(&changed);
                let fewer =
                    unread(&changed, &after) < unread(&text, &before) || errors(&after) < errors(&before);
                assert!(fewer && errors(&after) <= errors(&before), "{name}: {s:?}");
                assert!(after.situation.asks.len() >= before.situation.asks.len(), "{name}: {s:?}");
            }
        }
    }
    println!("{phrases} unread phrases; {helped} refusals with a suggestion, {offered} suggestions");
    assert!(phrases == 0 || helped > 0, "of {phrases} unread phrases none has a suggestion");
}

#[test]
fn a_phrase_is_ignored_at_the_askers_wish_and_it_is_said() {
    let refused = work(QUESTION, &Settings::default());
    assert!(!refused.answered());
    let settings = Settings { ignored: vec!["greasy with fish magnetism".to_owned()], ..Settings::default() };
    let worked = work(&QUESTION.replace("horizontal floor", "smooth horizontal floor"), &settings);
    // By hand: 20/5.
    assert!(worked.answered(), "{:?}", worked.diagnostics);
    assert_eq!(worked.work.map(|w| w.answers[0].exact.clone()).as_deref(), Some("4"));
    assert_eq!(worked.reading.ignored[0].of(&worked.question), "greasy with fish magnetism");
}

#[test]
fn what_tells_something_cannot_be_ignored() {
    let settings = Settings { ignored: vec!["20 N".to_owned()], ..Settings::default() };
    let worked = work(&QUESTION.replace("greasy with fish magnetism", "smooth"), &settings);
    assert_eq!(worked.refusal().and_then(|d| d.refusal), Some(model::Refusal::Contradictory));
}
