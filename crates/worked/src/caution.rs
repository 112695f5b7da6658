//! A word of caution where an exam question looks like work with real equipment.

use model::{Form, Role, Situation};

/// Numbers of an exam model are not for real lifts, cranes, winches, couplings or pulleys.
const CAUTION: &str = "These values come from an idealised exam model. They must not be used to choose, rate or \
operate real lifting, towing or hauling equipment: for that, follow the local codes and the practice of licensed \
people.";

/// Words in the names of bodies and forces that speak of such equipment.
const EQUIPMENT: [&str; 14] = [
    "lift", "elevator", "hoist", "crane", "winch", "cage", "cradle", "tow", "coupling", "cable", "chain",
    "pulley", "rope", "platform",
];

/// The caution, where the situation has a lift, a crane, a pulley, or one vehicle that tows another.
pub(crate) fn caution(situation: &Situation) -> Option<&'static str> {
    let lifts = situation.bodies.iter().any(|b| b.form == Form::Lift);
    let cables = situation.actions.iter().any(|a| a.role == Role::Cable);
    let rolls = |body: model::BodyId| {
        situation.body(body).is_some_and(|b| matches!(b.form, Form::Vehicle | Form::Trailer))
    };
    let tows = situation.links.iter().any(|l| !l.is_contact && l.ends.iter().all(|e| rolls(e.body)));
    let names = situation.bodies.iter().map(|b| &b.name);
    let names =
        names.chain(situation.actions.iter().map(|a| &a.name)).chain(situation.links.iter().map(|l| &l.name));
    let named = names.into_iter().any(|name| {
        let mut words = name.split(|c: char| !c.is_alphabetic());
        words.any(|word| EQUIPMENT.iter().any(|e| word.eq_ignore_ascii_case(e)))
    });
    (lifts || cables || tows || named || !situation.pulleys.is_empty()).then_some(CAUTION)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::{Builder, Line, State};

    #[test]
    fn towing_calls_for_the_caution_and_blocks_on_a_table_do_not() {
        let mut b = Builder::new();
        let van = b.body("the van", "van", Form::Vehicle, Line::Level, Some(900.into()));
        let cart = b.body("the cart", "cart", Form::Trailer, Line::Level, Some(300.into()));
        b.tow("the bar", van, cart);
        b.stage(State::Moving);
        assert!(caution(&b.finish()).is_some_and(|says| says.contains("local codes")));

        let mut b = Builder::new();
        let p = b.body("block P", "P", Form::Block, Line::Level, Some(2.into()));
        let q = b.body("block Q", "Q", Form::Block, Line::Level, Some(3.into()));
        b.string("the string", p, q);
        b.stage(State::Moving);
        assert_eq!(caution(&b.finish()), None);
    }
}
