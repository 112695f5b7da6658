//! A question that is written again, in either voice, has the same answers.

use std::path::PathBuf;
use words::{Voice, read, write};

/// The questions of the shelf, and every sixth of the corpus.
fn questions() -> Vec<PathBuf> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../");
    let in_folder = |folder: &str| {
        let files = std::fs::read_dir(format!("{root}{folder}")).into_iter().flatten().filter_map(Result::ok);
        let mut files: Vec<PathBuf> =
            files.map(|f| f.path()).filter(|f| f.extension().is_some_and(|e| e == "txt")).collect();
        files.sort();
        files
    };
    in_folder("shelf").into_iter().chain(in_folder("tests/questions").into_iter().step_by(6)).collect()
}

/// The answers, without how they are phrased; `None` where there are none.
fn answers(text: &str) -> Option<Vec<(String, String, String)>> {
    let work = worked::work(text, &worked::Settings::default()).work?;
    Some(work.answers.into_iter().map(|a| (a.part, a.quantity, a.exact)).collect())
}

#[test]
fn the_answers_stay_the_same() {
    let mut compared = 0;
    for file in questions() {
        let text = std::fs::read_to_string(&file).unwrap_or_default();
        let reading = read(&text);
        let Some(before) = reading.is_sound().then(|| answers(&text)).flatten() else { continue };
        for voice in [Voice::British, Voice::International] {
            let Ok(again) = write(&reading.situation, voice) else { continue };
            assert_eq!(answers(&again).as_ref(), Some(&before), "{}\n{again}", file.display());
            compared += 1;
        }
    }
    assert!(compared >= 80, "{compared} compared");
}
