//! The amounts in a stretch of text, as they are written, and what they may measure.

/// What a unit measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Measures {
    /// A bare number: a coefficient, a count.
    Bare,
    Force,
    Mass,
    Speed,
    Acceleration,
    Angle,
    Length,
    Time,
}

/// An amount as it is written: `0.3`, `20 N`, `9.8 m s^-2`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Figure {
    pub written: String,
    pub measures: Measures,
}

/// The amounts in the text, in order.
pub(super) fn figures(text: &str) -> Vec<Figure> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(start) = text.get(at..).and_then(|rest| rest.find(|c: char| c.is_ascii_digit())) {
        let start = at + start;
        let rest = text.get(start..).unwrap_or_default();
        let number = rest
            .char_indices()
            .take_while(|(i, c)| {
                c.is_ascii_digit()
                    || matches!(c, '.' | ',' | '/')
                        && rest.get(i + 1..).is_some_and(|r| r.starts_with(|d: char| d.is_ascii_digit()))
            })
            .map(|(i, c)| i + c.len_utf8())
            .last()
            .unwrap_or(1);
        let (unit, measures) = unit(rest.get(number..).unwrap_or_default());
        // An index is no amount: m_1, P2.
        let index = text
            .get(..start)
            .and_then(|t| t.chars().next_back())
            .is_some_and(|c| c.is_alphabetic() || matches!(c, '_' | '^'));
        if !index {
            let written = rest.get(..number + unit).unwrap_or_default().trim().to_owned();
            found.push(Figure { written, measures });
        }
        at = start + number + unit;
    }
    found
}

/// How many bytes of the text are a unit, and what it measures. Longer units stand before those that begin alike.
fn unit(text: &str) -> (usize, Measures) {
    const UNITS: &[(&str, Measures)] = &[
        ("m s^{-2}", Measures::Acceleration),
        ("m s^-2", Measures::Acceleration),
        ("ms^-2", Measures::Acceleration),
        ("ms-2", Measures::Acceleration),
        ("m s⁻²", Measures::Acceleration),
        ("m s−2", Measures::Acceleration),
        ("ms⁻²", Measures::Acceleration),
        ("m/s^2", Measures::Acceleration),
        ("m/s²", Measures::Acceleration),
        ("m/s/s", Measures::Acceleration),
        ("m s^{-1}", Measures::Speed),
        ("m s^-1", Measures::Speed),
        ("ms^-1", Measures::Speed),
        ("ms-1", Measures::Speed),
        ("m s⁻¹", Measures::Speed),
        ("ms⁻¹", Measures::Speed),
        ("m/s", Measures::Speed),
        ("km/h", Measures::Speed),
        ("km h^-1", Measures::Speed),
        ("km h⁻¹", Measures::Speed),
        ("kilograms", Measures::Mass),
        ("kg", Measures::Mass),
        ("tonnes", Measures::Mass),
        ("tonne", Measures::Mass),
        ("newtons", Measures::Force),
        ("kN", Measures::Force),
        ("N", Measures::Force),
        ("°", Measures::Angle),
        ("degrees", Measures::Angle),
        ("metres", Measures::Length),
        ("meters", Measures::Length),
        ("km", Measures::Length),
        ("cm", Measures::Length),
        ("mm", Measures::Length),
        ("minutes", Measures::Time),
        ("min", Measures::Time),
        ("seconds", Measures::Time),
        ("g", Measures::Mass),
        ("t", Measures::Mass),
        ("m", Measures::Length),
        ("s", Measures::Time),
    ];
    let gap = text.len() - text.trim_start_matches([' ', '-', '\u{a0}', '\u{2009}', '\u{202f}']).len();
    let bare = text.get(gap..).unwrap_or_default();
    for (unit, measures) in UNITS {
        let ends = |rest: &str| !rest.starts_with(|c: char| c.is_alphanumeric());
        if bare.strip_prefix(unit).is_some_and(ends) {
            return (gap + unit.len(), *measures);
        }
    }
    (0, Measures::Bare)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_keep_their_writing() {
        let seen: Vec<_> = figures("a 4.0-kg load at 9.8 m s^-2, mu 0.3, on 12° for 3 s; m_1 at 5 m/s, 3/4.")
            .into_iter()
            .map(|f| (f.written, f.measures))
            .collect();
        let want = [
            ("4.0-kg", Measures::Mass),
            ("9.8 m s^-2", Measures::Acceleration),
            ("0.3", Measures::Bare),
            ("12°", Measures::Angle),
            ("3 s", Measures::Time),
            ("5 m/s", Measures::Speed),
            ("3/4", Measures::Bare),
        ];
        assert_eq!(seen, want.map(|(w, m)| (w.to_owned(), m)));
    }
}
