//! A question with slots: `The string {passes over|runs over|is led over} a pulley`. Every wording of every slot is tried
//! with the first wording of all the others, then some at random, so that what is read alone is also read together.

/// The texts of one file, each with the wording that was changed.
pub(crate) fn all(file: &str) -> Vec<(String, String)> {
    let pieces = pieces(file);
    let slots: Vec<usize> =
        (0..pieces.len()).filter(|&i| pieces.get(i).is_some_and(|p| p.len() > 1)).collect();
    let text = |chosen: &dyn Fn(usize) -> usize| -> String {
        let said = pieces.iter().enumerate().map(|(i, p)| p.get(chosen(i)).copied().unwrap_or_default());
        said.collect()
    };
    let mut texts = vec![("as it stands".to_owned(), text(&|_| 0))];
    for &slot in &slots {
        let Some(wordings) = pieces.get(slot) else { continue };
        for (n, wording) in wordings.iter().enumerate().skip(1) {
            texts.push(((*wording).to_owned(), text(&|i| if i == slot { n } else { 0 })));
        }
    }
    // As many mixtures as there are slots, from a fixed seed.
    let mut seed = 2026_u64;
    for n in 0..slots.len() {
        let mut next = |below: usize| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            usize::try_from(seed >> 33).unwrap_or_default() % below.max(1)
        };
        let mixture: Vec<usize> = pieces.iter().map(|p| next(p.len())).collect();
        texts.push((format!("mixture {}", n + 1), text(&|i| mixture.get(i).copied().unwrap_or_default())));
    }
    texts
}

/// Cuts a file at its braces: plain text is a piece with one wording.
fn pieces(file: &str) -> Vec<Vec<&str>> {
    let mut pieces = Vec::new();
    for (n, part) in file.split('{').enumerate() {
        let (slot, plain) = if n == 0 {
            (None, part)
        } else {
            part.split_once('}').map_or((None, part), |(s, p)| (Some(s), p))
        };
        pieces.extend(slot.map(|s| s.split('|').collect()));
        pieces.push(vec![plain]);
    }
    pieces
}

#[test]
fn each_wording_stands_once_alone_and_some_stand_together() {
    let texts = all("A {block|crate} is {pulled|dragged|hauled} along.");
    let said: Vec<&str> = texts.iter().map(|(_, t)| t.as_str()).collect();
    let alone = [
        "A block is pulled along.",
        "A crate is pulled along.",
        "A block is dragged along.",
        "A block is hauled along.",
    ];
    assert_eq!(said.get(..4), Some(alone.as_slice()));
    assert_eq!(said.len(), 6, "and a mixture for each slot");
}
