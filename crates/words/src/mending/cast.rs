//! The names of a question's things, for sentences that are to speak of them.

use crate::lexicon;
use crate::reading::Reading;

/// Who and what there is, by name: `A`, `the truck`, `the tow-bar`, `the floor`.
#[derive(Clone, Debug, Default)]
pub(super) struct Cast {
    pub bodies: Vec<Name>,
    pub joins: Vec<Name>,
    pub grounds: Vec<Name>,
}

/// What a thing is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Name {
    /// As it is spoken of: `A`, `the truck`.
    pub says: String,
    /// Other words for it where it was brought in: the `crate` of `a crate A`.
    nouns: Vec<String>,
}

impl Name {
    /// Is it spoken of in the text? `the second truck` is where its last word stands.
    pub(super) fn is_in(&self, text: &str) -> bool {
        let lower = text.to_lowercase();
        let own = match self.says.strip_prefix("the ") {
            Some(noun) => word_in(&lower, noun.rsplit(' ').next().unwrap_or(noun)),
            None => word_in(text, &self.says),
        };
        own || self.nouns.iter().any(|noun| word_in(&lower, noun))
    }
}

impl Cast {
    pub(super) fn of(text: &str, reading: &Reading) -> Cast {
        let situation = &reading.situation;
        let mut cast = Cast::default();
        for body in &situation.bodies {
            let brought_in = body.span.map_or("", |s| s.of(text)).to_lowercase();
            let words = brought_in.split(|c: char| !c.is_alphabetic() && c != '-');
            let is_body = |w: &&str| matches!(lexicon::noun(w), Some(lexicon::Noun::Body(_)));
            let nouns = words.filter(is_body).map(str::to_owned).collect();
            add(&mut cast.bodies, &body.name, nouns);
            if let Some(surface) = &body.surface {
                add(&mut cast.grounds, &surface.name, Vec::new());
            }
        }
        for link in situation.links.iter().filter(|l| !l.is_contact) {
            add(&mut cast.joins, &link.name, Vec::new());
        }
        // What was not understood may keep a thing out of the situation; its noun stands in the text all the same.
        let lower = text.to_lowercase();
        let stands = |nouns: &[&str], to: &mut Vec<Name>| {
            if to.is_empty()
                && let Some(noun) = nouns.iter().find(|n| word_in(&lower, n))
            {
                add(to, &format!("the {noun}"), Vec::new());
            }
        };
        stands(&["string", "rope", "cable", "tow-bar", "coupling", "cord", "chain", "rod"], &mut cast.joins);
        stands(
            &["floor", "table", "plane", "slope", "ground", "road", "track", "surface", "ramp"],
            &mut cast.grounds,
        );
        cast
    }
}

impl Cast {
    /// Does the text speak of a body that was brought in with this noun?
    pub(super) fn calls(&self, text: &str, noun: &str) -> bool {
        self.bodies.iter().any(|b| b.nouns.iter().any(|n| n == noun) && word_in(text, &b.says))
    }
}

fn add(names: &mut Vec<Name>, name: &str, nouns: Vec<String>) {
    if !name.trim().is_empty() && !names.iter().any(|n| n.says == name) {
        names.push(Name { says: name.to_owned(), nouns });
    }
}

/// Does the word stand in the text by itself?
pub(super) fn word_in(text: &str, word: &str) -> bool {
    !word.is_empty()
        && text.match_indices(word).any(|(at, _)| {
            let before = text.get(..at).and_then(|t| t.chars().next_back());
            let after = text.get(at + word.len()..).and_then(|t| t.chars().next());
            !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric)
        })
}
