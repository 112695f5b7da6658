//! A doubtful reference becomes a question to the writer: which of these is meant?
//!
//! Where words were read but it is not said of which string, which body or which direction they speak, each thing of the
//! question that they may mean is put to the test; those with which the doubt is gone are offered.

use super::cast::{Cast, Name, word_in};
use crate::lexicon::{self, Noun};
use crate::reading::Reading;
use model::{Diagnostic, Refusal, Severity, Span, Suggestion};

/// Words of what is asked or given, the word that ties them to a thing, and whether that is a join.
const TIES: &[(&[&str], &str, bool)] = &[
    (&["tension", "tensions", "thrust", "compression", "impulse"], "in", true),
    (&["reaction", "friction", "frictional", "force", "resultant"], "on", false),
    (&["speed", "acceleration", "deceleration", "velocity", "mass", "weight", "retardation"], "of", false),
    (&["distance"], "moved by", false),
];

/// Directions that may be meant.
const WAYS: &[&str] = &["upwards", "downwards", "up the slope", "down the slope", "towards the pulley"];

/// What may be meant by words that were read and left a doubt.
pub(super) fn candidates(text: &str, d: &Diagnostic, reading: &Reading, cast: &Cast) -> Vec<Suggestion> {
    let Some(place) = d.spans.first().copied().filter(|p| !p.of(text).trim().is_empty()) else {
        return Vec::new();
    };
    let doubt = d.severity == Severity::Error
        && matches!(d.refusal, Some(Refusal::Unread | Refusal::Incomplete))
        && !reading.unread.iter().any(|u| u.overlaps(place));
    let phrase = place.of(text);
    if !doubt || phrase.len() > 80 {
        return Vec::new();
    }
    if d.message.contains("which way") {
        let (slopes, runs) = (sloping(text), word_in(&text.to_lowercase(), "pulley"));
        let ways = WAYS
            .iter()
            .filter(|way| if way.contains("pulley") { runs } else { slopes == way.contains("slope") });
        return ways.map(|way| with(place, format!("{phrase} {way}"), way)).collect();
    }
    let lower = phrase.to_lowercase();
    let tie = TIES.iter().find(|(words, _, _)| words.iter().any(|w| word_in(&lower, w)));
    let Some((_, tie, join)) = tie else { return Vec::new() };
    let names: &[Name] = if *join { &cast.joins } else { &cast.bodies };
    // What is named already is no doubt.
    if !*join && names.iter().any(|n| n.is_in(phrase)) {
        return Vec::new();
    }
    if *join && names.len() < 2 {
        return Vec::new();
    }
    let stem = if *join { without_join(phrase) } else { phrase };
    names.iter().map(|n| with(place, format!("{stem} {tie} {}", n.says), &n.says)).collect()
}

fn with(place: Span, words: String, meant: &str) -> Suggestion {
    Suggestion::new(place, words, format!("if you mean: {meant}"))
}

fn sloping(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["slope", "inclined", "ramp", "hill", "incline", "slipway", "plane"].iter().any(|w| word_in(&lower, w))
}

/// `the tension in the string` as far as `the tension`: the string will be named anew.
fn without_join(phrase: &str) -> &str {
    let last = phrase.rsplit(' ').next().unwrap_or_default().to_lowercase();
    if !matches!(lexicon::noun(&last), Some(Noun::Link(_))) {
        return phrase;
    }
    let cut = [" in ", " of ", " on "].iter().filter_map(|tie| phrase.rfind(tie)).max();
    cut.and_then(|at| phrase.get(..at)).unwrap_or(phrase)
}
