//! Which stages are to be solved, and with the givens of which parts.

use model::{Situation, StageId, Wanted};

/// The stages that are asked about, each with the last part that adds a given to those before it.
///
/// A later part of the same stage is solved afresh only where a given has come in between: `Given instead that ...`.
pub(crate) fn needed(situation: &Situation) -> Vec<(StageId, usize)> {
    let mut needed = Vec::new();
    for ask in &situation.asks {
        if matches!(ask.wanted, Wanted::Statement(_)) {
            continue;
        }
        let wanted = (ask.stage, latest_given(situation, ask.part_index));
        if !needed.contains(&wanted) {
            needed.push(wanted);
        }
    }
    needed
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
    use model::{Basis, Builder, Form, Known, Line, Span, State};

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
        assert_eq!(needed(b.situation()), [(stage, 0)]);
        let extra = b.quantity(model::Kind::Distance, "s", "distance");
        let basis = Basis::Given(Span::new(1, 2));
        b.know_as(extra, Known { value: 2.into(), written: "2 m".to_owned(), basis, from_part: 2 });
        assert_eq!(needed(b.situation()), [(stage, 0), (stage, 2)]);
    }
}
