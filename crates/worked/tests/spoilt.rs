//! Questions spoilt in many ways: cut short, words lost, doubled or moved, numbers changed, signs strewn in. Nothing may
//! fall over, and what is answered must still be vouched for.

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};
use worked::Settings;

/// A small generator with a fixed start: the same spoilt questions on every machine.
struct Dice(u64);

impl Dice {
    fn below(&mut self, n: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap_or(0) % n.max(1)
    }
}

const STRAY: [&str; 16] = [
    "0",
    "-5",
    "1e999",
    "99999999999999999999",
    "m",
    "k",
    "(",
    "$",
    "\u{202e}",
    "NaN",
    "kg",
    "°",
    "/",
    "Find",
    "2m",
    "\u{0}",
];

fn spoilt(text: &str, dice: &mut Dice) -> String {
    let mut words: Vec<&str> = text.split(' ').collect();
    for _ in 0..=dice.below(3) {
        let at = dice.below(words.len());
        match dice.below(6) {
            0 => words.truncate(at.max(3)),
            1 => {
                words.remove(at);
                words.push("Find");
            }
            2 => words.insert(at, STRAY[dice.below(STRAY.len())]),
            3 => {
                let other = dice.below(words.len());
                words.swap(at, other);
            }
            4 => words[at] = STRAY[dice.below(STRAY.len())],
            _ => {
                let numbers: Vec<usize> = (0..words.len())
                    .filter(|i| words[*i].starts_with(|c: char| c.is_ascii_digit()))
                    .collect();
                if let Some(place) = numbers.get(dice.below(numbers.len())) {
                    words[*place] = ["0", "-3", "0.0001", "1000000", "1/3", "2.5"][dice.below(6)];
                }
            }
        }
    }
    words.join(" ")
}

#[test]
fn spoilt_questions_never_fall_over() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut dice = Dice(2_026);
    let mut tried = 0;
    for folder in ["shelf", "tests/questions"] {
        let mut paths: Vec<_> =
            fs::read_dir(root.join(folder)).expect("it is there").flatten().map(|e| e.path()).collect();
        paths.sort();
        for path in paths.iter().filter(|p| p.extension().is_some_and(|e| e == "txt")) {
            let text = fs::read_to_string(path).expect("it can be read");
            for _ in 0..rounds() {
                let question = spoilt(&text, &mut dice);
                let begun = Instant::now();
                let worked = worked::work(&question, &Settings::default());
                assert!(begun.elapsed() < Duration::from_secs(5), "too long: {question}");
                tried += 1;
                assert_eq!(worked.work.is_some(), worked.answered(), "{question}");
                assert_ne!(worked.answered(), worked.refusal().is_some(), "{question}");
                if worked.answered() {
                    assert!(
                        worked.reading.unread.is_empty(),
                        "answered over words not understood: {question}"
                    );
                    for solved in &worked.solved {
                        assert_eq!(motion::check(&worked.reading.situation, solved), Ok(()), "{question}");
                    }
                }
                for place in worked.diagnostics.iter().flat_map(|d| &d.spans) {
                    assert!(question.get(place.start..place.end).is_some(), "{place:?} in {question}");
                }
            }
        }
    }
    assert!(tried > 100, "{tried}");
}

/// How often each question is spoilt; more on a machine with time to spare.
fn rounds() -> usize {
    std::env::var("TAUTLINE_ROUNDS").ok().and_then(|n| n.parse().ok()).unwrap_or(6)
}
