//! Which stages are to be solved, and with the givens of which parts.

use model::{Matter, QuantityId, Situation, StageId, Wanted};
use std::collections::BTreeSet;

/// A stage to be solved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Needed {
    pub(crate) stage: StageId,
    /// With the givens up to this part.
    pub(crate) part: usize,
    /// Asked about, or gone through before; else it may only have something to tell, and need not be solved.
    pub(crate) must: bool,
}

/// The stages that are asked about, each with the last part that adds a given to those before it; and those that an
/// answer may depend on: the stages before it in its story, and those that share an unknown with it.
///
/// A later part of the same stage is solved afresh only where a given has come in between: `Given instead that ...`.
pub(crate) fn needed(situation: &Situation) -> Vec<Needed> {
    let mut needed: Vec<Needed> = Vec::new();
    for ask in &situation.asks {
        // Ranges open one of the givens, and solve for themselves.
        if matches!(ask.wanted, Wanted::Range(_)) {
            continue;
        }
        // A statement speaks of what is solved, but can be made without.
        let stated = matches!(ask.wanted, Wanted::Statement(_));
        let part = latest_given(situation, ask.part_index);
        let before = before(situation, ask.stage);
        let mut related = related(situation, ask.stage, part);
        related.extend(compared(situation, &ask.wanted));
        for stage in situation.stage_ids() {
            let own = stage == ask.stage || before.contains(&stage);
            let must = own && !stated;
            if !own && !related.contains(&stage) {
                continue;
            }
            match needed.iter_mut().find(|n| n.stage == stage && n.part == part) {
                Some(known) => known.must |= must,
                None => needed.push(Needed { stage, part, must }),
            }
        }
    }
    needed
}

/// The stages of the quantities that an ask compares.
fn compared(situation: &Situation, wanted: &Wanted) -> Vec<StageId> {
    match wanted {
        Wanted::Whether { matter: Matter::Compares { left, right, .. }, .. } => {
            [left, right].into_iter().filter_map(|q| motion::stage_of(situation, *q)).collect()
        }
        _ => Vec::new(),
    }
}

/// The stages that lie before this one in its story.
fn before(situation: &Situation, stage: StageId) -> BTreeSet<StageId> {
    let mut found = BTreeSet::new();
    let mut here = stage;
    while let Some(begins) = situation.stage(here).and_then(|s| s.begins.as_ref()) {
        here = begins.after;
        if !found.insert(here) {
            break;
        }
    }
    found
}

/// The stages that share something not given with this one, directly or through others.
fn related(situation: &Situation, stage: StageId, part: usize) -> BTreeSet<StageId> {
    let mut found = BTreeSet::from([stage]);
    let mut open = unknowns(situation, stage, part);
    loop {
        let next = situation.stage_ids().find(|s| {
            !found.contains(s) && unknowns(situation, *s, part).intersection(&open).next().is_some()
        });
        let Some(next) = next else { return found };
        found.insert(next);
        open.extend(unknowns(situation, next, part));
    }
}

/// What a stage speaks of and the question does not give: masses, coefficients and angles among it, and whatever
/// a fact ties to its own quantities.
fn unknowns(situation: &Situation, stage: StageId, part: usize) -> BTreeSet<QuantityId> {
    let Some(here) = situation.stage(stage) else { return BTreeSet::new() };
    let mut all: BTreeSet<QuantityId> = BTreeSet::new();
    all.extend(here.accelerations.iter().chain(&here.links).chain(&here.forces));
    all.extend(here.reactions.iter().chain(&here.frictions).flatten());
    for journey in &here.journeys {
        all.extend([journey.start_speed, journey.end_speed, journey.distance, journey.time]);
    }
    all.extend(situation.bodies.iter().map(|b| b.mass));
    for surface in situation.bodies.iter().filter_map(|b| b.surface.as_ref()) {
        if let model::Grip::Rough(mu) = surface.grip {
            all.insert(mu);
        }
        all.extend(surface.sliding);
    }
    let facts: Vec<Vec<QuantityId>> = situation
        .relations
        .iter()
        .map(|r| r.terms.iter().flat_map(|(_, ids)| ids.iter().copied()).collect())
        .collect();
    for fact in facts.iter().filter(|f| f.iter().any(|q| all.contains(q))).cloned().collect::<Vec<_>>() {
        all.extend(fact);
    }
    all.retain(|q| situation.known(*q, part).is_none());
    all
}

/// The last part, up to this one, in which a given comes in; 0 where all were there from the start.
fn latest_given(situation: &Situation, part: usize) -> usize {
    let known = situation.quantities.iter().filter_map(|q| q.known.as_ref()).map(|k| k.from_part);
    let facts = situation.relations.iter().map(|r| r.from_part);
    known.chain(facts).filter(|from| *from <= part).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::{Basis, Builder, Form, Happening, Known, Line, Span, State};

    fn solved(situation: &Situation) -> Vec<(StageId, usize)> {
        needed(situation).into_iter().map(|n| (n.stage, n.part)).collect()
    }

    #[test]
    fn a_stage_is_solved_again_only_for_a_new_given() {
        let mut b = Builder::new();
        let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
        let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(5.into()));
        let string = b.over_pulley("the string", p, q);
        let stage = b.stage(State::Released);
        b.ask_acceleration("a", stage, p);
        b.ask_link("b", stage, string);
        b.ask_acceleration("c", stage, q);
        assert_eq!(solved(b.situation()), [(stage, 0)]);
        let extra = b.quantity(model::Kind::Distance, "s", "distance");
        let basis = Basis::Given(Span::new(1, 2));
        b.know_as(extra, Known { value: 2.into(), written: "2 m".to_owned(), basis, from_part: 2 });
        assert_eq!(solved(b.situation()), [(stage, 0), (stage, 2)]);
    }

    #[test]
    fn what_comes_before_is_solved_and_what_comes_after_is_not() {
        let mut b = Builder::new();
        let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
        let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(5.into()));
        let string = b.over_pulley("the string", p, q);
        let first = b.stage(State::Released);
        let second = b.then(first, Happening::Breaks(string), State::Moving);
        b.ask_acceleration("a", first, p);
        assert_eq!(solved(b.situation()), [(first, 0)], "nothing unknown is shared");
        b.ask_acceleration("b", second, p);
        assert_eq!(solved(b.situation()), [(first, 0), (second, 0)]);
    }

    #[test]
    fn a_speed_unknown_in_one_stage_may_be_told_by_the_next() {
        let mut b = Builder::new();
        let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
        let first = b.stage(State::Moving);
        let speed = b.journey(first, p).map(|j| j.end_speed);
        let second = b.then(first, Happening::Changes, State::Moving);
        if let Some(speed) = speed {
            b.journey_from(second, p, speed, false);
        }
        b.ask_acceleration("", first, p);
        let all = needed(b.situation());
        assert_eq!(all.len(), 2);
        assert!(all.iter().any(|n| n.stage == second && !n.must), "it may tell, but need not");
    }
}
