//! Ways of saying that mean the same everywhere: `let go` is *released*, `slung over` is *passed over*.
//!
//! Before anything is read, a run of tokens that is such an idiom is put into the words that the readers know, each
//! with the place of what was written, so that notes and refusals still quote the question. An idiom belongs here only
//! if it means the same wherever it may stand; what depends on its neighbours belongs to a frame.

mod parties;
mod people;
mod table;

use crate::token::{Sort, Token};
use table::IDIOMS;

/// Puts idioms into plain words.
pub(crate) fn plain(tokens: Vec<Token>) -> Vec<Token> {
    let tokens = people::nouns(tokens);
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut i = 0;
    while let Some(token) = tokens.get(i) {
        match here(&tokens, i) {
            Some((end, words)) => {
                put(&mut out, tokens.get(i..end).unwrap_or_default(), words);
                i = end;
            }
            None => {
                out.push(token.clone());
                i += 1;
            }
        }
    }
    parties::after_the_head(out)
}

/// The longest idiom at `i`: the place after it, and what it is in plain words.
fn here(tokens: &[Token], i: usize) -> Option<(usize, &'static str)> {
    let first = tokens.get(i)?;
    if first.sort == Sort::Newline || first.number().is_some() {
        return None;
    }
    let from = IDIOMS.partition_point(|(said, _)| head(said) < first.lower.as_str());
    let same = IDIOMS.get(from..)?.iter().take_while(|(said, _)| head(said) == first.lower);
    same.filter_map(|(said, plain)| Some((fits(tokens, i, said)?, *plain))).max_by_key(|(end, _)| *end)
}

fn head(said: &str) -> &str {
    said.split(' ').next().unwrap_or(said)
}

/// Do the tokens at `i` read as `said`? `|` separates alternatives, a trailing `?` marks a word that may be missing.
pub(crate) fn fits(tokens: &[Token], i: usize, said: &str) -> Option<usize> {
    let mut at = i;
    let mut end = i;
    for item in said.split(' ') {
        while tokens.get(at).is_some_and(|t| t.sort == Sort::Newline) {
            at += 1;
        }
        let (item, optional) = item.strip_suffix('?').map_or((item, false), |s| (s, true));
        if tokens.get(at).is_some_and(|t| item.split('|').any(|a| a == t.lower)) {
            at += 1;
            end = at;
        } else if !optional {
            return None;
        }
    }
    Some(end)
}

/// Writes the plain words, each at the place of the written word with the same number from the front; the last
/// written words all belong to the last plain one.
fn put(out: &mut Vec<Token>, written: &[Token], words: &str) {
    let written: Vec<&Token> = written.iter().filter(|t| t.sort != Sort::Newline).collect();
    let (Some(first), Some(last)) = (written.first(), written.last()) else { return };
    let count = words.split(' ').count();
    for (n, word) in words.split(' ').enumerate() {
        let from = written.get(n).unwrap_or(last);
        let to = if n + 1 == count { last } else { from };
        let sort = if word.starts_with(char::is_alphabetic) { Sort::Word } else { Sort::Sign };
        out.push(Token {
            sort,
            lower: word.to_owned(),
            text: word.to_owned(),
            span: from.span.join(to.span),
            spaced: n > 0 || first.spaced,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::token::tokens;

    fn said(text: &str) -> String {
        let words: Vec<String> = plain(tokens(text)).into_iter().map(|t| t.text).collect();
        words.join(" ")
    }

    #[test]
    fn the_table_is_in_order() {
        for pair in IDIOMS.windows(2) {
            let [(a, _), (b, _)] = pair else { continue };
            assert!(head(a) <= head(b), "{a:?} stands before {b:?}");
        }
    }

    #[test]
    fn no_idiom_is_put_into_words_that_are_an_idiom_again() {
        for (from, to) in IDIOMS {
            let again = said(to);
            assert_eq!(&again, to, "{from:?}");
        }
    }

    #[test]
    fn names_of_people_and_engines_are_nouns() {
        let read =
            |text: &str| plain(tokens(text)).into_iter().map(|t| t.lower).collect::<Vec<_>>().join(" ");
        assert_eq!(
            read("Idris Wherryman, whose mass is 70 kg. Later Idris sits"),
            "the person , whose mass is 70 kg . later the person sits"
        );
        assert_eq!(
            read("The locomotive Puffin tows it. Puffin stops."),
            "the locomotive tows it . the locomotive stops ."
        );
        assert_eq!(
            read("A crate at Marram Quay. Friction is small."),
            "a crate at marram quay . friction is small ."
        );
    }

    #[test]
    fn what_is_written_keeps_its_place() {
        let text = "The friction coefficient is 0.5. They're slung over it.";
        let read = plain(tokens(text));
        let words: Vec<(&str, &str)> = read.iter().map(|t| (t.lower.as_str(), t.span.of(text))).collect();
        assert_eq!(
            words.get(1..4),
            Some(
                [("coefficient", "friction"), ("of", "coefficient"), ("friction", "coefficient")].as_slice()
            )
        );
        assert_eq!(said(text), "The coefficient of friction is 0.5 . they are passed over it .");
    }
}
