//! Questions changed in ways that must not change the answers: bodies called otherwise, scenery before them, a mass in
//! grams, brackets and blanks as in a copied page. A changed question may be refused; it may not be answered otherwise.

use worked::{Settings, Worked};

/// A way of changing a question that leaves its answers as they are; `None` where it does not apply.
type Change = fn(&str, &Worked) -> Option<String>;

/// All of them, with what they do.
pub(crate) const CHANGES: [(&str, Change); 5] = [
    ("two bodies swap their letters", swapped),
    ("a sentence sets the scene", with_scenery),
    ("a mass is told in grams", in_grams),
    ("lines break where they may", broken),
    ("the spaces before units are gone", closed_up),
];

/// Part and exact value of every answer.
pub(crate) fn answers(worked: &Worked) -> Vec<(String, String)> {
    let all = worked.work.iter().flat_map(|w| &w.answers);
    all.map(|a| (a.part.clone(), a.exact.clone())).collect()
}

pub(crate) fn work(text: &str) -> Worked {
    worked::work(text, &Settings::default())
}

/// `P` and `Q` change places, where these letters stand for nothing but two bodies.
fn swapped(text: &str, worked: &Worked) -> Option<String> {
    let situation = &worked.reading.situation;
    let free = |l: &str| {
        l.len() == 1 && !["A", "I", "N", "J", "W"].contains(&l) && l.chars().all(char::is_uppercase)
    };
    let other_use = |l: &str| situation.letters.iter().any(|x| x.symbol == l);
    let mut letters = situation.bodies.iter().map(|b| b.name.as_str()).filter(|l| free(l) && !other_use(l));
    let (one, two) = (letters.next()?, letters.next()?);
    let mut out = String::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let alone = !out.ends_with(|p: char| p.is_alphanumeric() || p == '_');
        let after = rest.chars().nth(1);
        let ends = !after.is_some_and(|n| n.is_alphanumeric() || n == '_' || "₀₁₂₃".contains(n));
        let said = if alone && ends && one.starts_with(c) {
            two.to_owned()
        } else if alone && ends && two.starts_with(c) {
            one.to_owned()
        } else {
            c.to_string()
        };
        out.push_str(&said);
        rest = rest.get(c.len_utf8()..)?;
    }
    Some(out)
}

fn with_scenery(text: &str, _: &Worked) -> Option<String> {
    Some(format!("It is a quiet morning in the harbour at Marram Quay. {text}"))
}

/// The first ` kg` with a whole number before it.
fn in_grams(text: &str, _: &Worked) -> Option<String> {
    let at = text.find(" kg")?;
    let after = text.get(at + 3..)?;
    let number_from = text.get(..at)?.rfind(|c: char| !c.is_ascii_digit()).map_or(0, |i| i + 1);
    let number = text.get(number_from..at)?;
    let alone =
        text.get(..number_from)?.ends_with(' ') && !text.get(..number_from)?.trim_end().ends_with("and");
    let whole = !number.is_empty() && number.len() < 3 && !after.starts_with(|c: char| c.is_alphabetic());
    // "masses 3 and 5 kg", "3 kg and 5 kg": a list has one unit for all.
    let listed = after.trim_start().starts_with("and") || after.starts_with(',');
    (alone && whole && !listed)
        .then(|| format!("{}{number}000 g{after}", text.get(..number_from).unwrap_or_default()))
}

/// Every blank after a comma becomes the end of a line.
fn broken(text: &str, _: &Worked) -> Option<String> {
    Some(text.replace(", ", ",\n"))
}

/// `3 kg` as `3kg`, `20 N` as `20N`.
fn closed_up(text: &str, _: &Worked) -> Option<String> {
    let mut out = String::new();
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        out.push_str(word);
        let next = words.peek().map(|w| w.trim_end_matches(['.', ',', ';', ')', '?']));
        let unit = matches!(next, Some("kg" | "N"));
        let digit =
            word.ends_with(|c: char| c.is_ascii_digit()) && word.starts_with(|c: char| c.is_ascii_digit());
        if words.peek().is_some() && !(unit && digit) {
            out.push(' ');
        }
    }
    Some(out)
}
