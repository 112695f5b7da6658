//! What the bodies are called: by a letter, or by a noun that no other body has.

use crate::lexicon::{Noun, noun, singular};
use model::{Form, Situation};
use std::collections::BTreeSet;

/// The name of a body.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Name {
    /// `block`, `car`.
    pub noun: String,
    /// `A`, where it has a letter.
    pub letter: Option<String>,
}

impl Name {
    /// When it is named for the first time: `a block A`, `an engine`.
    pub(super) fn first(&self) -> String {
        let a = article(&self.noun);
        match &self.letter {
            Some(l) => format!("{a} {} {l}", self.noun),
            None => format!("{a} {}", self.noun),
        }
    }
    /// Whenever it is named again: `A`, `the engine`.
    pub(super) fn again(&self) -> String {
        match &self.letter {
            Some(l) => l.clone(),
            None => format!("the {}", self.noun),
        }
    }
}

/// `a` or `an`.
pub(super) fn article(noun: &str) -> &'static str {
    if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}

/// The names of all bodies. What is called `the first block` and `the second block`, or by a number, gets a letter.
pub(super) fn of(s: &Situation) -> Vec<Name> {
    let mut names: Vec<Name> = s.bodies.iter().map(|b| told(&b.name, &b.label, b.form)).collect();
    let mut taken: BTreeSet<String> = s.quantities.iter().map(|q| q.letter.clone()).collect();
    taken.extend(s.letters.iter().map(|l| l.symbol.clone()));
    taken.extend(names.iter().filter_map(|n| n.letter.clone()));
    let nouns: Vec<String> = names.iter().map(|n| n.noun.clone()).collect();
    let free: Vec<String> = ('A'..='Z')
        .filter(|c| !matches!(c, 'G' | 'I' | 'K' | 'M' | 'N' | 'O' | 'T' | 'V'))
        .map(String::from)
        .filter(|l| !taken.contains(l))
        .collect();
    let mut free = free.into_iter();
    let mut used = BTreeSet::new();
    for name in &mut names {
        let shared = nouns.iter().filter(|n| **n == name.noun).count() > 1;
        let twice = name.letter.as_ref().is_some_and(|l| !used.insert(l.clone()));
        if twice || name.letter.is_none() && shared {
            name.letter = free.next();
        }
    }
    names
}

/// The noun and the letter in a name such as `the trailer`, `particle A`, `A`, `the load of stone`.
fn told(name: &str, label: &str, form: Form) -> Name {
    let is_letter = |w: &str| w.chars().count() == 1 && w.chars().all(|c| c.is_ascii_uppercase());
    let words: Vec<&str> = name.split(' ').filter(|w| *w != "the").collect();
    let letter = words.last().filter(|w| is_letter(w)).copied().or(Some(label).filter(|l| is_letter(l)));
    let noun_words = words.iter().take_while(|w| **w != "of").filter(|w| !is_letter(w));
    // What no lexicon knows may still be a body: `a lamp`.
    let is_body = |w: &String| !w.is_empty() && matches!(noun(w), Some(Noun::Body(_)) | None);
    let found = noun_words.last().map(|w| singular(w)).filter(is_body);
    // `a mass of mass 3 kg` is no English.
    let found = found.map(|w| if matches!(w.as_str(), "mass" | "point") { "particle".to_owned() } else { w });
    Name { noun: found.unwrap_or_else(|| usual(form).to_owned()), letter: letter.map(str::to_owned) }
}

/// What a body of this form is usually called.
fn usual(form: Form) -> &'static str {
    match form {
        Form::Particle => "particle",
        Form::Block => "block",
        Form::Vehicle => "car",
        Form::Trailer => "truck",
        Form::Lift => "lift",
        Form::Person => "man",
        Form::Load => "load",
        Form::Pulley => "pulley",
    }
}
