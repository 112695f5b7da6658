//! Names of people and of engines: `Idris Wherryman, whose mass is 70 kg`, `the locomotive Puffin`. A person's name is
//! read as *the person*, an engine's as *the locomotive*; the token keeps the name as written.

use crate::token::{Sort, Token};
use crate::{adjective, amount, lexicon, place_words, quantity, verbs};
use std::collections::BTreeMap;

/// Puts nouns in the place of names.
pub(super) fn nouns(tokens: Vec<Token>) -> Vec<Token> {
    let names = names(&tokens);
    if names.is_empty() {
        return tokens;
    }
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut i = 0;
    while let Some(token) = tokens.get(i) {
        let Some(noun) = names.get(token.text.as_str()).filter(|_| token.is_word()) else {
            out.push(token.clone());
            i += 1;
            continue;
        };
        let mut end = i + 1;
        while tokens.get(end).is_some_and(|t| names.get(t.text.as_str()) == Some(noun)) {
            end += 1;
        }
        let run = tokens.get(i..end).unwrap_or_default();
        i = end;
        let (Some(first), Some(last)) = (run.first(), run.last()) else { continue };
        let span = first.span.join(last.span);
        let said: Vec<&str> =
            run.iter().map(|t| t.text.as_str()).filter(|t| !title(&t.to_lowercase())).collect();
        // "the locomotive Puffin": the noun stands there already.
        if let Some(before) = out.last_mut().filter(|t| t.lower == *noun) {
            before.span = before.span.join(span);
            continue;
        }
        out.push(Token {
            sort: Sort::Word,
            lower: "the".into(),
            text: "the".into(),
            span,
            spaced: first.spaced,
        });
        out.push(Token { sort: Sort::Word, lower: noun.clone(), text: said.join(" "), span, spaced: true });
    }
    out
}

/// The words of names, each with the noun that stands for it.
fn names(tokens: &[Token]) -> BTreeMap<String, String> {
    let mut names = BTreeMap::new();
    let mut i = 0;
    while i < tokens.len() {
        let end = run(tokens, i);
        if end == i {
            i += 1;
            continue;
        }
        let text = |k: usize| tokens.get(k).map_or("", |t| t.lower.as_str());
        let before = if i == 0 { "" } else { text(i - 1) };
        let noun = if lexicon::noun(before)
            .is_some_and(|n| matches!(n, lexicon::Noun::Body(f) if f == model::Form::Vehicle))
        {
            Some(before.to_owned())
        } else if title(text(i)) || i == begin(tokens, i) && acts(tokens, end) {
            Some("person".to_owned())
        } else {
            None
        };
        if let Some(noun) = noun {
            for t in tokens.get(i..end).unwrap_or_default() {
                names.entry(t.text.clone()).or_insert_with(|| noun.clone());
            }
        }
        i = end;
    }
    names
}

/// The place after a run of words that may be a name.
fn run(tokens: &[Token], i: usize) -> usize {
    let mut end = i;
    while tokens.get(end).is_some_and(|t| name(t) || end == i && title(&t.lower)) && end < i + 4 {
        end += 1;
        // The point of "Mr.".
        let abbreviated = tokens.get(end - 1).is_some_and(|t| title(&t.lower));
        if abbreviated && tokens.get(end).is_some_and(|t| t.is(".")) {
            end += 1;
        }
    }
    end
}

/// Words that begin sentences and are no names, though nothing else here knows them.
fn opens(word: &str) -> bool {
    matches!(
        word,
        "neither"
            | "nothing"
            | "nobody"
            | "everything"
            | "everyone"
            | "someone"
            | "somebody"
            | "something"
            | "whoever"
            | "what"
            | "which"
            | "how"
            | "why"
            | "who"
            | "where"
            | "nor"
            | "none"
            | "another"
    )
}

fn title(word: &str) -> bool {
    matches!(word, "mr" | "mrs" | "ms" | "miss" | "dr")
}

/// Could this word be a name? It has a capital, more than one letter, and no other meaning here.
fn name(t: &Token) -> bool {
    let mut chars = t.text.chars();
    let capital = chars.next().is_some_and(char::is_uppercase);
    let rest = chars.as_str();
    let w = t.lower.as_str();
    t.is_word()
        && capital
        && rest.len() > 1
        && rest.chars().all(|c| c.is_lowercase() || c == '-')
        && !opens(w)
        && !lexicon::glue(w)
        && !lexicon::scene(w)
        && !lexicon::dangerous(w)
        && lexicon::noun(w).is_none()
        && lexicon::noun(&lexicon::singular(w)).is_none()
        && !verbs::is_verb(w)
        && adjective::adjective(w).is_none()
        && !quantity::quantity_word(w)
        && !place_words::is_place(w)
        && amount::in_words(w).is_none()
        && !["ing", "ly", "ed"].iter().any(|e| w.ends_with(e))
}

/// The beginning of the sentence or clause that holds token `i`: `i` itself where it begins one.
fn begin(tokens: &[Token], i: usize) -> usize {
    let Some(before) = i.checked_sub(1).and_then(|k| tokens.get(k)) else { return i };
    let opens =
        before.sort == Sort::Newline || matches!(before.lower.as_str(), "." | "?" | "!" | ":" | ")" | ",");
    if opens { i } else { 0 }
}

/// Does something follow that only a person or a thing with a mass does?
fn acts(tokens: &[Token], end: usize) -> bool {
    let text = |k: usize| tokens.get(k).map_or("", |t| t.lower.as_str());
    let after = if text(end) == "," { end + 1 } else { end };
    if matches!(text(after), "who" | "whose") || text(after) == "of" && text(after + 1) == "mass" {
        return true;
    }
    if text(end) == "(" && tokens.get(end + 1).is_some_and(|t| t.number().is_some()) && text(end + 2) == "kg"
    {
        return true;
    }
    let verb = text(end);
    let known = verbs::frame(verb).is_some() || matches!(verb, "wants" | "uses" | "needs" | "gets" | "picks");
    after == end && known && (verb.ends_with('s') || verb == "had")
}
