//! A value to be shown in letters, where a later sentence gives it: `prove that the acceleration is (M − m)g/(M + m).
//! If this acceleration is g/5, find M`. The proof holds for any M, so it is made before that is said.

use crate::matter::Supposed;
use crate::{answer, solve};
use exact::Value;
use model::{Ask, Basis, Known, Letter, QuantityId, Situation, Span, Wanted};

/// The stage with letters for what is found later only, where an ask wants something shown that is itself given;
/// `None` where it can be shown as things stand, or not at all.
///
/// ```
/// use exact::{Rational, Value};
/// use model::{Builder, Form, Kind, Line, State, Wanted};
/// let mut b = Builder::new();
/// b.open_letter("m", Kind::Mass);
/// let (m, big) = (Value::symbol("m"), Value::symbol("M"));
/// let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(m.clone()));
/// let q = b.body("Q", "Q", Form::Particle, Line::Vertical, None);
/// let mass = b.situation().bodies[q.0].mass;
/// b.letter(mass, "M");
/// b.over_pulley("the string", p, q);
/// let stage = b.stage(State::Released);
/// b.heading(stage, q, -1);
/// let a = b.situation().stages[0].accelerations[p.0];
/// let g = Value::rational(Rational::new(49, 5).unwrap());
/// b.know(a, g.clone() * Value::rational(Rational::new(1, 5).unwrap()));
/// b.ask("a", stage, "acceleration", Wanted::Quantity(a));
/// b.situation_mut().asks[0].show = ((&big - &m) * g).checked_div(&(&big + &m)).ok();
/// let situation = b.finish();
/// // As things stand M is 3m/2; the proof is made with any M.
/// let general = motion::in_general(&situation, &situation.asks[0]).unwrap();
/// assert_eq!(general.solved.value(mass), Some(&big));
/// ```
pub fn in_general(situation: &Situation, ask: &Ask) -> Option<Supposed> {
    let show = ask.show.as_ref()?;
    let (Wanted::Quantity(wanted) | Wanted::Magnitude(wanted)) = ask.wanted else { return None };
    situation.known(wanted, ask.part_index)?;
    let symbols = show.symbols();
    let open = |id: &QuantityId| {
        let quantity = situation.quantity(*id);
        quantity.is_some_and(|q| symbols.contains(&q.symbol))
            && situation.known(*id, ask.part_index).is_none()
    };
    let letters: Vec<QuantityId> = (0..situation.quantities.len()).map(QuantityId).filter(open).collect();
    if letters.is_empty() {
        return None;
    }
    let mut changed = situation.clone();
    changed.quantities.get_mut(wanted.0)?.known = None;
    let mut names = Vec::new();
    for id in letters {
        let quantity = changed.quantities.get_mut(id.0)?;
        quantity.known = Some(Known {
            value: Value::symbol(&quantity.symbol),
            written: quantity.symbol.clone(),
            basis: Basis::Given(Span::default()),
            from_part: 0,
        });
        let name = quantity.name.trim_start_matches("the ");
        names.push(format!("{} stands for the {name}, whatever it is", quantity.symbol));
        let letter = Letter { symbol: quantity.symbol.clone(), kind: quantity.kind };
        if !changed.letters.contains(&letter) {
            changed.letters.push(letter);
        }
    }
    let solved = solve(&changed, ask.stage, ask.part_index).ok()?;
    answer(&changed, &solved, ask).ok()?;
    Some(Supposed { says: names.join(" and "), situation: changed, solved })
}
