//! `the block-table coefficient of friction`, `the crate/bench coefficients`: between whom, said before the head.

use crate::lexicon::{Noun, noun};
use crate::token::{Sort, Token};

/// Puts the two that rub against each other after the coefficient: `the coefficient of friction between the block and
/// the table`.
pub(super) fn after_the_head(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut i = 0;
    while let Some(token) = tokens.get(i) {
        let Some((one, other, used)) = pair(&tokens, i) else {
            out.push(token.clone());
            i += 1;
            continue;
        };
        let Some(end) = head(&tokens, i + used) else {
            out.push(token.clone());
            i += 1;
            continue;
        };
        out.extend(tokens.get(i + used..end).unwrap_or_default().iter().cloned());
        for word in ["between", "the", &one, "and", "the", &other] {
            out.push(Token {
                sort: Sort::Word,
                lower: word.into(),
                text: word.into(),
                span: token.span,
                spaced: true,
            });
        }
        i = end;
    }
    out
}

/// Two nouns joined by a hyphen or a stroke, a body and what it touches: the nouns, and how many tokens they take.
fn pair(tokens: &[Token], i: usize) -> Option<(String, String, usize)> {
    let first = tokens.get(i).filter(|t| t.is_word())?;
    let known = |w: &str| matches!(noun(w), Some(Noun::Body(_) | Noun::Surface { .. }));
    if let Some((a, b)) = first.lower.split_once('-') {
        return (noun(&first.lower).is_none() && known(a) && known(b)).then(|| (a.into(), b.into(), 1));
    }
    let stroke = tokens.get(i + 1).is_some_and(|t| t.is("/"));
    let second = tokens.get(i + 2).filter(|t| stroke && t.is_word())?;
    (known(&first.lower) && known(&second.lower)).then(|| (first.lower.clone(), second.lower.clone(), 3))
}

/// The place after `coefficient of friction` at `i`.
fn head(tokens: &[Token], i: usize) -> Option<usize> {
    let word = |k: usize| tokens.get(k).map_or("", |t| t.lower.as_str());
    let kind = usize::from(matches!(word(i), "kinetic" | "static" | "sliding"));
    if !matches!(word(i + kind), "coefficient" | "coefficients") || word(i + kind + 1) != "of" {
        return None;
    }
    (i + kind + 2..i + kind + 6).find(|&k| word(k) == "friction").map(|k| k + 1)
}
