//! Holds our answers to those expected: by value, not by how they are written.

use crate::algebra;
use crate::expected::Expected;
use std::collections::BTreeMap;
use worked::Worked;
use working::Answered;

/// Everything that differs between our answers and those expected, in words.
pub(crate) fn compare(worked: &Worked, expected: &[Expected]) -> Vec<String> {
    let ours: &[Answered] = worked.work.as_ref().map(|w| w.answers.as_slice()).unwrap_or_default();
    let mut troubles = Vec::new();
    if ours.len() != expected.len() {
        let parts: Vec<String> = ours.iter().map(|a| format!("({}) {}", a.part, a.asked)).collect();
        troubles.push(format!("{} answers, {} expected: {}", ours.len(), expected.len(), parts.join("; ")));
    }
    for (ours, expected) in ours.iter().zip(expected) {
        let here = format!("({}) {}", expected.part, expected.quantity);
        // A set of values is of whatever its letter measures.
        let set = expected.exact.contains('<');
        if ours.part != expected.part || !set && sort(&ours.quantity) != sort(&expected.quantity) {
            troubles.push(format!("{here}: answered as ({}) {}", ours.part, ours.quantity));
        }
        if expected.quantity == "statement" {
            if ours.text.trim().is_empty() {
                troubles.push(format!("{here}: nothing is stated"));
            }
            continue;
        }
        if !same(&ours.exact, &expected.exact) {
            troubles.push(format!("{here}: {} but {} expected", ours.exact, expected.exact));
        }
        let unit = if expected.unit == "-" { "" } else { &expected.unit };
        if ours.unit_ascii != unit {
            troubles.push(format!("{here}: in {:?}, {unit:?} expected", ours.unit_ascii));
        }
    }
    // An answer without its steps is no answer for a class.
    let unshown = |m: &&str| m.contains("no order of steps") || m.contains("proved line by line");
    troubles.extend(worked.diagnostics.iter().map(|d| d.message.as_str()).filter(unshown).map(str::to_owned));
    troubles
}

/// What is measured: writers call the same force by different names (a resistance, a friction, a reaction).
fn sort(quantity: &str) -> &str {
    match quantity {
        "tension" | "thrust" | "reaction" | "friction" | "force" | "resistance" | "driving" | "braking"
        | "weight" => "force",
        "ratio" | "number" | "value" => "value",
        "direction" | "statement" => "statement",
        other => other,
    }
}

/// Do two expressions have the same value, whatever their letters stand for?
fn same(ours: &str, theirs: &str) -> bool {
    // A set of values: the same signs between the same ends.
    if theirs.contains('<') {
        let signs = |text: &str| text.chars().filter(|c| matches!(c, '<' | '=')).collect::<String>();
        let ends =
            |text: &str| text.replace('=', "").split('<').map(|s| s.trim().to_owned()).collect::<Vec<_>>();
        let (a, b) = (ends(ours), ends(theirs));
        return signs(ours) == signs(theirs)
            && a.len() == b.len()
            && a.iter().zip(&b).all(|(a, b)| same(a, b));
    }
    let mut seed = 17_u64;
    (0..4).all(|_| {
        let mut letters = BTreeMap::new();
        let mut letter = |name: &str| {
            *letters.entry(name.to_owned()).or_insert_with(|| {
                // Any spread of numbers will do: the values are between 1 and 3.
                seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                1.0 + 2.0 * (seed >> 11) as f64 / (1_u64 << 53) as f64
            })
        };
        match (algebra::value(ours, &mut letter), algebra::value(theirs, &mut letter)) {
            (Ok(a), Ok(b)) => (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-6),
            _ => false,
        }
    })
}

#[test]
fn expressions_are_compared_by_value() {
    assert!(same("7/5*sqrt(2)", "1.4*2^(1/2)"));
    assert!(same("2*m*g*k/(1 + k)", "2*k*m*g/(k + 1)"));
    assert!(same("sin(40°)", "sin(40*pi/180)") && same("sin(30)", "1/2"));
    assert!(same("-(2 - 3)^2", "-1"));
    assert!(same("2/5 <= k <= 4/5", "0.4 <= k <= 0.8") && same("0 < M <= 2", "0 < M <= 4/2"));
    assert!(!same("0 < M < 2", "0 < M <= 2") && !same("0 < M", "0 < M <= 2"));
    for (one, other) in [("m*g", "m"), ("3/4", "0.7500001"), ("", "0"), ("2 +", "2"), ("(1", "1")] {
        assert!(!same(one, other), "{one:?} and {other:?}");
    }
}
