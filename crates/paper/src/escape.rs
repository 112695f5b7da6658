//! Text from strangers, made safe for each output.

use std::borrow::Cow;

/// Takes out what no page can show. Control characters and non-characters
/// become U+FFFD, so that their place is still seen; a byte-order mark and the
/// explicit direction controls (U+202A to U+202E, U+2066 to U+2069), which
/// could turn round the text after them, are dropped. The letters of
/// right-to-left scripts stay and are laid out by the bidirectional algorithm.
pub(crate) fn clean(text: &str) -> Cow<'_, str> {
    if !text.chars().any(|c| c.is_control() || is_unseen(c) || is_noncharacter(c)) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    while let Some(c) = letters.next() {
        match c {
            '\r' => {
                if letters.peek() != Some(&'\n') {
                    out.push('\n');
                }
            }
            '\n' | '\t' => out.push(c),
            c if is_unseen(c) => {}
            c if c.is_control() || is_noncharacter(c) => out.push('\u{FFFD}'),
            c => out.push(c),
        }
    }
    Cow::Owned(out)
}

fn is_unseen(c: char) -> bool {
    matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{FEFF}')
}

fn is_noncharacter(c: char) -> bool {
    matches!(c, '\u{FDD0}'..='\u{FDEF}') || (c as u32) & 0xFFFE == 0xFFFE
}

/// Cleaned text on one line: line breaks and tabs become spaces.
pub(crate) fn one_line(text: &str) -> String {
    clean(text).chars().map(|c| if is_line_space(c) { ' ' } else { c }).collect()
}

fn is_line_space(c: char) -> bool {
    matches!(c, '\n' | '\t' | '\u{2028}' | '\u{2029}')
}

/// Text for HTML and XML, inside an element or inside a double-quoted attribute.
pub(crate) fn markup_text(text: &str) -> String {
    let text = clean(text);
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out
}

/// Makes an `id`: only ASCII letters, digits, `-` and `_` are kept, and it
/// begins with a letter.
pub(crate) fn ident(text: &str) -> String {
    let mut out: String =
        text.chars().filter(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_')).collect();
    if !out.starts_with(|c: char| c.is_ascii_alphabetic()) {
        out.insert_str(0, "leaf");
    }
    out
}

/// A language tag that is safe to write: the document's own if it has the shape of one.
pub(crate) fn language(tag: &str) -> &str {
    let mut parts = tag.split('-');
    let primary = parts.next().unwrap_or_default();
    let well_formed = matches!(primary.len(), 2 | 3)
        && primary.chars().all(|c| c.is_ascii_alphabetic())
        && parts.all(|p| (1..=8).contains(&p.len()) && p.chars().all(|c| c.is_ascii_alphanumeric()));
    if well_formed { tag } else { "en-GB" }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn controls_leave_a_trace_and_direction_tricks_do_not() {
        assert_eq!(clean("a\u{0}b\u{202E}c\r\nd"), "a\u{FFFD}bc\nd");
        assert_eq!(one_line("a\nb\tc"), "a b c");
    }

    #[test]
    fn markup_is_spelt_out() {
        assert_eq!(markup_text("<a href=\"x\">'&'"), "&lt;a href=&quot;x&quot;&gt;&#39;&amp;&#39;");
    }

    #[test]
    fn ids_and_languages_keep_to_their_alphabet() {
        assert_eq!(ident("q 1\"><"), "q1");
        assert_eq!(ident("7"), "leaf7");
        assert_eq!(language("cy"), "cy");
        assert_eq!(language("en\" onload"), "en-GB");
    }
}
