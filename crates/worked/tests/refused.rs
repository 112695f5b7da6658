//! Texts that must not be answered: each is refused, and for a reason that fits it.

use std::fs;
use std::path::Path;
use worked::Settings;

#[test]
fn what_cannot_be_answered_is_refused_for_a_reason_that_fits() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/refused");
    let mut texts: Vec<_> = fs::read_dir(folder)
        .expect("the texts are there")
        .map(|e| e.expect("they can be listed").path())
        .filter(|p| p.extension().is_some_and(|e| e == "txt"))
        .collect();
    texts.sort();
    assert!(texts.len() >= 30, "the texts are there: {}", texts.len());
    let mut wrong = Vec::new();
    for path in texts {
        let text = fs::read_to_string(&path).expect("the text can be read");
        let expect = fs::read_to_string(path.with_extension("expect")).expect("a reason is expected");
        let fitting: Vec<&str> =
            expect.lines().next().unwrap_or_default().split('|').map(str::trim).collect();
        let worked = worked::work(&text, &Settings::default());
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        match worked.refusal() {
            None => {
                let said: Vec<String> = worked
                    .work
                    .iter()
                    .flat_map(|w| &w.answers)
                    .map(|a| format!("{} = {}", a.asked, a.exact))
                    .collect();
                wrong.push(format!("{name}: answered: {}", said.join("; ")));
            }
            Some(why) => {
                let kind = why.refusal.map_or("error", |r| r.word());
                if !fitting.contains(&kind) {
                    let places: Vec<&str> = why.spans.iter().map(|s| s.of(&text)).collect();
                    wrong.push(format!(
                        "{name}: {kind}, not {}: {} {places:?}",
                        fitting.join(" or "),
                        why.message
                    ));
                }
            }
        }
        assert!(worked.work.is_none() || worked.answered(), "{name}: no answers without an answer");
    }
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}
