//! Every word of a question is accounted for, whatever the question.

use model::{Refusal, Severity};
use proptest::prelude::*;
use std::path::Path;

fn questions() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut found = Vec::new();
    for folder in ["shelf", "tests/questions"] {
        let Ok(entries) = std::fs::read_dir(root.join(folder)) else { continue };
        for entry in entries.flatten() {
            let path = entry.path();
            if path.extension().is_some_and(|e| e == "txt") {
                let text = std::fs::read_to_string(&path).unwrap_or_default();
                found.push((path.display().to_string(), text));
            }
        }
    }
    found.sort();
    found
}

#[test]
fn the_corpus_is_there() {
    assert!(questions().len() >= 64, "only {} questions", questions().len());
}

#[test]
fn notes_lie_in_order_and_never_over_one_another() {
    for (name, text) in questions() {
        let reading = words::read(&text);
        let mut last = 0;
        for note in &reading.notes {
            assert!(
                note.span.start >= last,
                "{name}: {:?} lies over what stands before",
                note.span.of(&text)
            );
            assert!(!note.span.of(&text).is_empty(), "{name}: an empty note");
            assert!(!note.means.is_empty(), "{name}: {:?} says nothing", note.span.of(&text));
            last = note.span.end;
        }
    }
}

#[test]
fn every_number_is_told_or_unread() {
    for (name, text) in questions() {
        let reading = words::read(&text);
        let mut at = 0;
        for piece in text.split_whitespace() {
            let start = at + text[at..].find(piece).unwrap();
            at = start + piece.len();
            if !piece.starts_with(|c: char| c.is_ascii_digit()) {
                continue;
            }
            let covered = reading.notes.iter().any(|n| n.span.start <= start && start < n.span.end)
                || reading.unread.iter().chain(&reading.layout).any(|s| s.start <= start && start < s.end);
            // The clock starts at t = 0, and Figure 2 shows it: places, not givens.
            let before = text[..start].trim_end().to_lowercase();
            let place = before.ends_with("t =") || before.ends_with("figure") || before.ends_with("fig.");
            assert!(covered || place, "{name}: the number {piece:?} at {start} vanished");
        }
    }
}

#[test]
fn a_sentence_that_nobody_prepared_stops_the_answer() {
    let odd = [
        "The goblin multiplies everything by seven.",
        "A third crate of mass 5 kg is dropped onto the first.",
        "The wind blows against them with 40 N.",
        "The pulley is rough.",
        "The string is elastic.",
        "A spring of stiffness 200 N per metre joins them too.",
    ];
    for (name, text) in questions() {
        for sentence in odd {
            let changed = format!("{sentence} {text}");
            let reading = words::read(&changed);
            assert!(!reading.is_sound(), "{name}: {sentence:?} was swallowed in silence");
        }
    }
}

#[test]
fn nothing_and_too_much_are_refused() {
    for text in ["", "   \n ", &"word ".repeat(10_000)] {
        let reading = words::read(text);
        assert_eq!(reading.diagnostics.first().and_then(|d| d.refusal), Some(Refusal::OffTopic));
    }
    let poem = "The sea is calm tonight, the lamps are lit along the harbour, and nobody asks for anything.";
    assert_eq!(words::read(poem).diagnostics.first().and_then(|d| d.refusal), Some(Refusal::OffTopic));
}

/// Phrases within phrases without end once ran the stack out; marks and powers once ran past their types.
#[test]
fn a_text_that_nests_or_counts_without_end_is_read_all_the_same() {
    for piece in [
        "which is joined to a block ",
        "a platform on whose floor stands ",
        "the rails of ",
        "the lift's ",
        "2(",
        "[3 + 9223372036854775807] ",
        "3e-2147483648 ",
        "2^1000000000 ",
        "3/4/",
    ] {
        let text = piece.repeat(19_900 / piece.len());
        let reading = words::read(&text);
        assert!(!reading.is_sound(), "{piece:?} repeated reads as a question");
    }
}

/// So many random cases, or as many as `PROPTEST_CASES` asks for.
fn config(cases: u32) -> ProptestConfig {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    ProptestConfig { cases: asked.unwrap_or(cases), failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config(400))]

    #[test]
    fn any_text_gives_a_reading(text in "\\PC{0,400}") {
        let reading = words::read(&text);
        for d in &reading.diagnostics {
            for s in &d.spans {
                prop_assert!(text.get(s.start..s.end).is_some(), "a span off the text");
            }
        }
    }

    /// Words of real questions in a wrong order: no panic, spans on the text, an error has a message.
    #[test]
    fn shuffled_questions_give_a_reading(seed in any::<u64>(), which in 0usize..64, cut in 0usize..200) {
        let all = questions();
        let (_, text) = &all[which % all.len()];
        let mut pieces: Vec<&str> = text.split(' ').collect();
        let mut state = seed | 1;
        for _ in 0..6 {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let (a, b) = ((state >> 33) as usize % pieces.len(), (state >> 12) as usize % pieces.len());
            pieces.swap(a, b);
        }
        pieces.truncate(pieces.len().saturating_sub(cut % 20).max(1));
        let text = pieces.join(" ");
        let reading = words::read(&text);
        for d in &reading.diagnostics {
            prop_assert!(!d.message.is_empty());
            for s in &d.spans {
                prop_assert!(text.get(s.start..s.end).is_some());
            }
            if d.severity == Severity::Error {
                prop_assert!(d.refusal.is_some());
            }
        }
    }
}
