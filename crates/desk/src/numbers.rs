//! The numbers of a question: where they stand, and the question with other numbers in their places.

use std::fmt;
use std::ops::Range;

/// A number as it stands in a question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Number {
    /// Where, in bytes of UTF-8.
    pub span: Range<usize>,
    /// As it is written: `1800`, `0.75`, `3/4`.
    pub text: String,
    /// The words just before it: `a tug tractor of mass`.
    pub before: String,
    /// The unit just after it: `kg`; empty for none.
    pub after: String,
}

/// Why something can't stand in the place of a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotANumber {
    /// Nothing was written.
    Empty,
    /// A comma where a point is meant.
    DecimalComma,
    /// A fraction over nought.
    OverNought,
    /// More characters than any measurement has.
    Long,
    /// Anything else.
    Other,
}

impl fmt::Display for NotANumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            NotANumber::Empty => "Write a number here. The question keeps the last one until you do.",
            NotANumber::DecimalComma => "Write the decimal point as a dot, such as 0.75.",
            NotANumber::OverNought => "A fraction can't have 0 below the line.",
            NotANumber::Long => "Write at most 15 characters.",
            NotANumber::Other => "Write a number without a sign, such as 1200, 0.75 or 3/4.",
        })
    }
}

impl std::error::Error for NotANumber {}

/// The most characters of a number that is put into a question.
const LONGEST: usize = 15;
/// Words of the question shown before a number.
const WORDS_BEFORE: usize = 5;

/// Words that join others.
const SMALL: [&str; 14] =
    ["of", "and", "by", "in", "to", "is", "are", "as", "at", "with", "on", "for", "from", "against"];

/// The numbers in a question, in order, that a teacher may want to change. Marks `(3)`, labels, powers of units,
/// indices and "3 significant figures" are not among them.
///
/// ```
/// let found = desk::numbers("A truck of mass 1200 kg is pulled up a slope of 12°. (3)");
/// let seen: Vec<_> = found.iter().map(|n| (n.before.as_str(), n.text.as_str(), n.after.as_str())).collect();
/// assert_eq!(seen, [("A truck of mass", "1200", "kg"), ("pulled up a slope of", "12", "°")]);
/// ```
pub fn numbers(question: &str) -> Vec<Number> {
    let mut found: Vec<Number> = Vec::new();
    let mut at = 0;
    while let Some(start) = question.get(at..).and_then(|rest| rest.find(|c: char| c.is_ascii_digit())) {
        let start = at + start;
        let end = start + length(question.get(start..).unwrap_or_default());
        let left = question.get(..start).unwrap_or_default();
        let right = question.get(end..).unwrap_or_default();
        if !is_apart(left, right) {
            found.push(Number {
                span: start..end,
                text: question.get(start..end).unwrap_or_default().to_owned(),
                before: words_before(left),
                after: unit_after(right),
            });
        }
        at = end.max(start + 1);
    }
    found
}

/// The question with these values in the places of its numbers, in order. An empty list, or one that is too short,
/// leaves the rest as it is; values beyond the last number are not used.
///
/// # Errors
///
/// For each value that is no number, its place in the list and why.
///
/// ```
/// let changed = desk::with_numbers("Masses of 3 kg and 5 kg.", &["4", "5"]);
/// assert_eq!(changed.as_deref(), Ok("Masses of 4 kg and 5 kg."));
/// ```
pub fn with_numbers(question: &str, values: &[&str]) -> Result<String, Vec<(usize, NotANumber)>> {
    let mut out = String::with_capacity(question.len());
    let mut wrong = Vec::new();
    let mut done = 0;
    for (i, (number, value)) in numbers(question).iter().zip(values).enumerate() {
        let value = value.trim();
        // What already stands there may stay, whatever it is.
        if let Some(why) = (value != number.text).then(|| fault(value)).flatten() {
            wrong.push((i, why));
        }
        out.push_str(question.get(done..number.span.start).unwrap_or_default());
        out.push_str(value);
        done = number.span.end;
    }
    out.push_str(question.get(done..).unwrap_or_default());
    if wrong.is_empty() { Ok(out) } else { Err(wrong) }
}

/// What is wrong with a value, if anything. The page's script holds to the same rules.
fn fault(value: &str) -> Option<NotANumber> {
    if value.is_empty() {
        return Some(NotANumber::Empty);
    }
    if value.chars().count() > LONGEST {
        return Some(NotANumber::Long);
    }
    if length(value) == value.len() {
        let over_nought = value.split_once('/').is_some_and(|(_, below)| below.chars().all(|c| c == '0'));
        return over_nought.then_some(NotANumber::OverNought);
    }
    let pointed = value.replacen(',', ".", 1);
    Some(if length(&pointed) == pointed.len() { NotANumber::DecimalComma } else { NotANumber::Other })
}

/// How many bytes of the text are a number: `1800`, `1,800`, `0.75`, `3/4`. None where it doesn't begin with a digit.
fn length(text: &str) -> usize {
    let mut at = digits(text);
    if at == 0 {
        return 0;
    }
    if at <= 3 {
        // Groups of three, parted by a comma or a narrow space.
        while let Some(parted) = rest(text, at).strip_prefix([',', '\u{2009}', '\u{202f}']) {
            if digits(parted) != 3 {
                break;
            }
            at = text.len() - parted.len() + 3;
        }
    }
    for mark in ['.', '/'] {
        let whole = !rest(text, 0).get(..at).unwrap_or_default().contains('.');
        if let Some(after) = rest(text, at).strip_prefix(mark).filter(|_| whole) {
            at += if digits(after) > 0 { 1 + digits(after) } else { 0 };
        }
    }
    at
}

fn rest(text: &str, at: usize) -> &str {
    text.get(at..).unwrap_or_default()
}

fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

/// Is the number between these texts no number of the question's own: an index, a power, a label, marks, accuracy?
fn is_apart(left: &str, right: &str) -> bool {
    let mut before = left.chars().rev();
    let last = before.next();
    let index_or_power = match last {
        Some('-' | '−' | '–') => {
            before.next().is_some_and(|c| c.is_alphabetic() || matches!(c, '^' | '{'))
        }
        Some(c) => c.is_alphanumeric() || matches!(c, '_' | '^' | '.'),
        None => false,
    };
    let follows = right.trim_start();
    let bracketed = matches!(last, Some('(' | '[')) && follows.starts_with([')', ']']);
    let line_start = left.rsplit('\n').next().unwrap_or_default().trim().is_empty();
    let heading = line_start
        && (right.starts_with([')', '.'])
            && right.get(1..).is_some_and(|r| r.starts_with([' ', '\t', '\n'])));
    let ordinal = ["st", "nd", "rd", "th"].iter().any(|ending| {
        right.strip_prefix(ending).is_some_and(|after| !after.starts_with(char::is_alphanumeric))
    });
    let counted = ["significant", "decimal", "s.f", "sf", "d.p", "dp", "mark"];
    index_or_power
        || bracketed
        || heading
        || ordinal
        || counted.iter().any(|word| follows.strip_prefix(word).is_some())
}

/// The last words of a text, within its sentence.
fn words_before(text: &str) -> String {
    let sentence = text.rsplit(['\n', ';', ':', '?']).next().unwrap_or_default();
    let sentence = sentence.rsplit(". ").next().unwrap_or_default();
    let sentence = sentence.trim_start_matches(|c: char| c.is_whitespace() || matches!(c, ',' | '.' | ')'));
    let words: Vec<&str> = sentence.split_whitespace().collect();
    let first = words.len().saturating_sub(WORDS_BEFORE);
    let shown = words.get(first..).unwrap_or_default();
    // A row that opens in the middle of a phrase opens with its noun.
    let small = if first > 0 { shown.iter().take_while(|word| SMALL.contains(word)).count() } else { 0 };
    shown.get(small..).unwrap_or_default().join(" ")
}

/// The unit that a text begins with.
fn unit_after(text: &str) -> String {
    if let Some(sign) = text.chars().next().filter(|c| matches!(c, '°' | '%' | '\u{2032}')) {
        return sign.to_string();
    }
    let mut unit: Vec<&str> = Vec::new();
    let mut left = text;
    loop {
        let attached = left.trim_start_matches([' ', '\u{a0}', '\u{2009}', '\u{202f}']);
        let end = attached
            .find(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | ')'))
            .unwrap_or(attached.len());
        let word = attached.get(..end).unwrap_or_default();
        let bare = word.trim_end_matches('.');
        if !is_unit(bare) || (!unit.is_empty() && !goes_on(bare)) {
            break;
        }
        unit.push(bare);
        left = attached.get(bare.len()..).unwrap_or_default();
    }
    unit.join(" ")
}

/// A unit, or one with a power: `kg`, `s^-2`, `ms−1`.
fn is_unit(word: &str) -> bool {
    const UNITS: [&str; 27] = [
        "kg",
        "g",
        "t",
        "tonne",
        "tonnes",
        "N",
        "kN",
        "m",
        "cm",
        "mm",
        "km",
        "s",
        "min",
        "h",
        "ms",
        "m/s",
        "km/h",
        "kmh",
        "degrees",
        "metres",
        "seconds",
        "minutes",
        "newtons",
        "kilograms",
        "kilonewtons",
        "grams",
        "hours",
    ];
    let stem = word.trim_end_matches(|c: char| {
        c.is_ascii_digit() || matches!(c, '^' | '-' | '−' | '–' | '⁻' | '¹' | '²' | '³' | '{' | '}')
    });
    UNITS.contains(&stem)
}

/// A second word of a unit carries a power: `m s^-2`, `km h⁻¹`.
fn goes_on(word: &str) -> bool {
    word.contains(['^', '-', '−', '–', '⁻', '²'])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seen(question: &str) -> Vec<String> {
        numbers(question).iter().map(|n| [n.before.as_str(), &n.text, &n.after].join("|")).collect()
    }

    #[test]
    fn numbers_carry_the_words_and_the_unit_beside_them() {
        assert_eq!(
            seen(
                "It slows from 12.5 m s^-1 to rest in 30 m. The rope, of length 0.5 metres, is at 12° with g = 9.8 m s⁻²."
            ),
            [
                "It slows from|12.5|m s^-1",
                "m s^-1 to rest in|30|m",
                "The rope, of length|0.5|metres",
                "length 0.5 metres, is at|12|°",
                "12° with g =|9.8|m s⁻²"
            ]
        );
    }

    #[test]
    fn marks_labels_powers_indices_and_accuracy_are_left_alone() {
        assert_eq!(
            seen(
                "1. Find m_1 and P2 in m s^-2 or ms−1. (3) [4] (2 marks)\n(1) the 2nd, to 3 significant figures."
            ),
            [""; 0]
        );
    }

    #[test]
    fn grouped_numbers_and_fractions_are_one_number() {
        assert_eq!(
            seen("A load of 1,800 kg where tan A = 3/4, 20 N."),
            ["A load of|1,800|kg", "kg where tan A =|3/4|", "where tan A = 3/4,|20|N"]
        );
        assert_eq!(seen("from 1, 2 and 3"), ["from|1|", "from 1,|2|", "from 1, 2 and|3|"]);
    }

    #[test]
    fn a_number_changes_in_its_place_and_nothing_else_does() {
        let question = "Two blocks, 3 kg and 5 kg, at 30°.\n\n(a) Find T. (3)";
        assert_eq!(
            with_numbers(question, &["3", "12.5", "30"]).as_deref(),
            Ok("Two blocks, 3 kg and 12.5 kg, at 30°.\n\n(a) Find T. (3)")
        );
        assert_eq!(with_numbers(question, &[]).as_deref(), Ok(question));
    }

    #[test]
    fn each_wrong_value_is_explained() {
        let wrong = with_numbers(
            "1 kg 2 kg 3 kg 4 kg 5 kg 6 kg",
            &["", "x", "0,75", "1/0", "9999999999999999", "-4"],
        );
        assert_eq!(
            wrong,
            Err(vec![
                (0, NotANumber::Empty),
                (1, NotANumber::Other),
                (2, NotANumber::DecimalComma),
                (3, NotANumber::OverNought),
                (4, NotANumber::Long),
                (5, NotANumber::Other)
            ])
        );
    }

    #[test]
    fn odd_texts_are_survived() {
        for text in [
            "",
            "9",
            "9.",
            "9..9",
            "é9é",
            "1/2/3",
            "٣ kg",
            "1,23,456",
            "0x1F",
            "9\u{2009}9",
            "m^{-2}",
            "5e9 N",
        ] {
            let found = numbers(text);
            assert!(found.iter().all(|n| text.get(n.span.clone()) == Some(n.text.as_str())), "{text}");
            let same: Vec<&str> = found.iter().map(|n| n.text.as_str()).collect();
            assert_eq!(with_numbers(text, &same).as_deref(), Ok(text));
        }
    }
}
