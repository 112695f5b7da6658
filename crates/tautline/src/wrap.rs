//! Text for a terminal: lines of at most eighty columns, and no character that a terminal would obey.

use unicode_width::UnicodeWidthStr;

/// How wide a line may be, in columns.
const COLUMNS: usize = 80;

/// Breaks text into lines, the first with one indent and the others with another. A word that is wider than the page
/// stands on a line of its own.
pub(crate) fn wrapped(text: &str, first: &str, rest: &str) -> String {
    let mut out = String::new();
    let mut line = first.to_owned();
    let mut empty = true;
    for word in safe(text).split_whitespace() {
        let gap = usize::from(!empty);
        if !empty && line.width() + gap + word.width() > COLUMNS {
            out.push_str(line.trim_end());
            out.push('\n');
            line = rest.to_owned();
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
    out
}

/// The same text with every character that a terminal obeys made visible; each keeps its number of
/// bytes, so that places in the text stay where they are.
pub(crate) fn safe(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\n' => c,
            '\t' | '\r' => ' ',
            c if c.is_control() && c.len_utf8() == 1 => '?',
            c if c.is_control() => '¿',
            // Marks that turn the direction of writing; without them a line of another script still reads well.
            '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}' => {
                '\u{fffd}'
            }
            c => c,
        })
        .collect()
}

/// The same text in lines of at most so many bytes, wherever a space can be a line break instead. No
/// byte moves.
pub(crate) fn folded(text: &str, width: usize) -> String {
    let mut bytes = text.as_bytes().to_vec();
    let (mut start, mut space) = (0, None);
    for at in 0..bytes.len() {
        match bytes.get(at) {
            Some(b'\n') => (start, space) = (at + 1, None),
            Some(b' ') => space = Some(at),
            _ => {}
        }
        if at.saturating_sub(start) < width {
            continue;
        }
        let Some(place) = space.take() else { continue };
        if let Some(byte) = bytes.get_mut(place) {
            *byte = b'\n';
        }
        start = place + 1;
    }
    String::from_utf8(bytes).unwrap_or_else(|_| text.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_keep_within_eighty_columns() {
        let text = "the tension in the coupling between the second and the third stone truck ".repeat(4);
        let set = wrapped(&text, "  ", "     ");
        assert!(set.lines().count() > 3);
        assert!(set.lines().all(|l| l.width() <= 80), "{set}");
        assert!(set.lines().skip(1).all(|l| l.starts_with("     the") || l.starts_with("     ")));
    }

    #[test]
    fn what_a_terminal_would_obey_is_made_visible() {
        assert_eq!(safe("a\u{1b}[31mb\u{85}c\u{202e}d"), "a?[31mb¿c\u{fffd}d");
        let text = "\u{1b}\u{85}\u{202e}";
        assert_eq!(safe(text).len(), text.len(), "places stay where they are");
    }

    #[test]
    fn folding_moves_no_byte() {
        let text = "one two three four five six";
        let set = folded(text, 10);
        assert_eq!(set, "one two\nthree four\nfive six");
        assert_eq!(set.replace('\n', " "), text);
        assert_eq!(folded("a    b", 1).replace('\n', " "), "a    b", "spaces at the very edge stay spaces");
    }
}
