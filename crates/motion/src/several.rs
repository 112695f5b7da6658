//! Several motions that fit the givens: what they agree on is an answer, what they differ in is named.

use crate::attempt::Accepted;
use crate::finish::{Extent, finish};
use crate::judge::with_unit;
use crate::setting::Setting;
use crate::stack::Top;
use crate::{Force, LinkState, Solved};
use model::{Ask, Diagnostic, Kind, QuantityId, Refusal, Wanted};

/// The stage as solved: where several cases hold, what is asked of it must be the same in all of them.
///
/// # Errors
/// What they differ in.
pub(crate) fn solved(
    setting: &Setting,
    forces: &[Force],
    cases: Vec<Accepted>,
    extent: Extent,
) -> Result<Solved, Diagnostic> {
    let mut all = cases.iter();
    let Some(first) = all.next() else {
        return Err(Diagnostic::refuse(Refusal::Impossible, "no motion fits the givens"));
    };
    let mut solved = finish(setting, forces, first.clone(), extent);
    let others: Vec<Solved> = all.map(|c| finish(setting, forces, c.clone(), Extent::Bodies)).collect();
    if others.is_empty() {
        return Ok(solved);
    }
    if !agree(setting, &solved, &others) {
        return Err(several(setting, &cases));
    }
    for other in &others {
        let differs = |id: &QuantityId| {
            let (one, two) = (solved.values.get(id), other.values.get(id));
            !one.zip(two).is_some_and(|(a, b)| (a - b).is_zero())
        };
        let open: Vec<QuantityId> = solved.values.keys().copied().filter(differs).collect();
        for id in open {
            solved.values.remove(&id);
            solved.undetermined.push((id, "more than one motion fits the givens".to_owned()));
        }
    }
    solved.conditions.retain(|c| others.iter().all(|o| o.conditions.contains(c)));
    Ok(solved)
}

/// The asks that this solution is to answer.
fn asks<'a>(setting: &'a Setting) -> impl Iterator<Item = &'a Ask> {
    let situation = setting.situation;
    let from = situation.quantities.iter().filter_map(|q| q.known.as_ref()).map(|k| k.from_part);
    let from: Vec<usize> = from.chain(situation.relations.iter().map(|r| r.from_part)).collect();
    let here = move |ask: &&Ask| {
        // A part that brings a given of its own is solved by itself.
        let later = from.iter().any(|f| (setting.part + 1..=ask.part_index).contains(f));
        ask.stage == setting.id && ask.part_index >= setting.part && !later
    };
    situation.asks.iter().filter(here)
}

/// Is there anything asked, and is the answer to it the same in all cases?
fn agree(setting: &Setting, one: &Solved, others: &[Solved]) -> bool {
    let mut any = false;
    for ask in asks(setting) {
        any = true;
        // These solve again for themselves, and would come back here.
        if matches!(ask.wanted, Wanted::Range(_) | Wanted::Effect { .. } | Wanted::Whether { .. }) {
            return false;
        }
        let Ok(first) = crate::answer(setting.situation, one, ask) else { return false };
        let same = |other: &Solved| {
            crate::answer(setting.situation, other, ask).is_ok_and(|found| {
                let values = match (&first.value, &found.value) {
                    (Some(a), Some(b)) => (a - b).is_zero(),
                    (None, None) => true,
                    _ => false,
                };
                values && first.angle == found.angle && first.says == found.says
            })
        };
        if !others.iter().all(same) {
            return false;
        }
    }
    any
}

/// Several motions fit: names what differs, what is asked before all else.
fn several(setting: &Setting, cases: &[Accepted]) -> Diagnostic {
    let [one, two, ..] = cases else { return undetermined(setting, &[], "") };
    let mut hint: &str = "say which way the bodies move";
    let (with_one, with_two) = contacts(setting, one, two);
    if !with_one.is_empty() {
        hint = "say which of the two it is";
    }
    let mut differs = Vec::new();
    for (id, angle) in &one.angles {
        let Some(other) = two.angles.get(id).filter(|o| *o != angle) else { continue };
        if let (Some(angle), Some(other)) = (in_degrees(angle), in_degrees(other)) {
            let name = setting.name(*id).trim_start_matches("the ");
            differs.push(format!("the {name} could be {angle}°{with_one} or {other}°{with_two}"));
            hint = "say between which values the angle lies";
        }
    }
    if !differs.is_empty() {
        return undetermined(setting, &differs, hint);
    }
    let mut ranked: Vec<(bool, usize, String)> = Vec::new();
    for (id, value) in &one.values {
        let Some(other) = two.values.get(id).filter(|o| !(*o - value).is_zero()) else { continue };
        if setting.body_of_acceleration(*id).is_some() && (other + value).is_zero() {
            continue;
        }
        let asked =
            asks(setting).any(|a| matches!(a.wanted, Wanted::Quantity(q) | Wanted::Magnitude(q) if q == *id));
        let kind = setting.kind(*id);
        if setting.kind(*id) == Kind::Time {
            hint = "say which of the two moments is meant";
        }
        let says = format!(
            "the {} could be {}{with_one} or {}{with_two}",
            setting.name(*id).trim_start_matches("the "),
            with_unit(value, kind),
            with_unit(other, kind)
        );
        ranked.push((!asked, says.len(), says));
    }
    ranked.sort();
    let mut differs: Vec<String> = ranked.into_iter().map(|r| r.2).collect();
    differs.truncate(2);
    undetermined(setting, &differs, hint)
}

/// What is supposed otherwise in two cases, said of each: ` with the string taut`, ` with the string slack`.
fn contacts(setting: &Setting, one: &Accepted, two: &Accepted) -> (String, String) {
    let mut said = (Vec::new(), Vec::new());
    for (i, link) in setting.situation.links.iter().enumerate() {
        let state = |case: &Accepted| case.trial.links.get(i) == Some(&LinkState::Holding);
        if state(one) == state(two) {
            continue;
        }
        let (holds, loose) = if link.is_contact { ("in place", "gone") } else { ("taut", "slack") };
        let says = |case: &Accepted| format!("{} {}", link.name, if state(case) { holds } else { loose });
        said.0.push(says(one));
        said.1.push(says(two));
    }
    for body in 0..setting.bodies() {
        let slips = |case: &Accepted| matches!(case.trial.top(body), Top::Slips(_));
        if slips(one) == slips(two) {
            continue;
        }
        let says = |case: &Accepted| {
            format!("{} {}", setting.body_name(body), if slips(case) { "slipping" } else { "not slipping" })
        };
        said.0.push(says(one));
        said.1.push(says(two));
    }
    let told = |list: Vec<String>| match list.is_empty() {
        true => String::new(),
        false => format!(" with {}", list.join(" and ")),
    };
    (told(said.0), told(said.1))
}

fn undetermined(setting: &Setting, differs: &[String], hint: &str) -> Diagnostic {
    let mut says = "more than one motion fits the givens".to_owned();
    if !differs.is_empty() {
        says = format!("{says}: {}", differs.join("; "));
    }
    let mut d = Diagnostic::refuse(Refusal::Undetermined, says).hint(hint);
    d.spans.extend(setting.stage.span);
    d
}

/// An angle to three figures.
fn in_degrees(angle: &exact::Angle) -> Option<String> {
    exact::round_significant_with(|bits| angle.degrees_enclosure(bits), 3).ok().map(|d| d.digits)
}
