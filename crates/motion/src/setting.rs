//! What is known before any mechanics is done: one stage of a situation, with the givens of one part.

use exact::{Rational, Value};
use model::{BodyId, Kind, Line, QuantityId, Situation, Stage, StageId, State};
use std::cell::Cell;
use std::collections::BTreeMap;
use std::rc::Rc;

/// When so many terms have been written in eliminating, for all attempts together, it is given up. Questions that people
/// ask need a small part of it; what needs more is made of odd data with many unknowns.
const MOST_TERMS_WRITTEN: usize = 30_000;

/// One stage with the givens that hold in one part of the question.
#[derive(Clone, Debug)]
pub(crate) struct Setting<'a> {
    pub(crate) situation: &'a Situation,
    pub(crate) stage: &'a Stage,
    pub(crate) id: StageId,
    pub(crate) part: usize,
    /// By quantity: its value where it is known; accelerations count along their bodies' lines.
    pub(crate) known: Vec<Option<Value>>,
    /// Sine and cosine of the angles that are known.
    pub(crate) angles: BTreeMap<QuantityId, (Value, Value)>,
    /// By body: the way it is moving when the stage begins, as the stage before left it.
    pub(crate) moving: Vec<Option<i8>>,
    /// How many terms have been written so far, for this stage and for those of its story.
    written: Rc<Cell<usize>>,
}

impl<'a> Setting<'a> {
    /// `imported` holds what other stages have found of quantities that belong to no single stage.
    pub(crate) fn new(
        situation: &'a Situation,
        id: StageId,
        part: usize,
        imported: &BTreeMap<QuantityId, Value>,
    ) -> Option<Setting<'a>> {
        let stage = situation.stage(id)?;
        let mut known: Vec<Option<Value>> = situation
            .quantities
            .iter()
            .map(|q| q.known.as_ref().filter(|k| k.from_part <= part).map(|k| k.value.clone()))
            .collect();
        for (id, value) in imported {
            if let Some(slot) = known.get_mut(id.0) {
                slot.get_or_insert_with(|| value.clone());
            }
        }
        let mut angles = BTreeMap::new();
        for (id, angle) in &situation.angles {
            if let (Ok(sin), Ok(cos)) = (angle.sin(), angle.cos()) {
                angles.insert(*id, (sin, cos));
            }
        }
        for (i, quantity) in situation.quantities.iter().enumerate() {
            let id = QuantityId(i);
            if quantity.kind != Kind::Angle || angles.contains_key(&id) {
                continue;
            }
            if let Some(degrees) = known.get(i).and_then(Option::as_ref).and_then(Value::as_rational) {
                angles.insert(id, (Value::sin_deg(degrees), Value::cos_deg(degrees)));
            }
        }
        let moving = vec![None; situation.bodies.len()];
        let written = Rc::default();
        Some(Setting { situation, stage, id, part, known, angles, moving, written })
    }

    /// With bodies that are already moving this way.
    pub(crate) fn carrying(self, moving: Vec<Option<i8>>) -> Setting<'a> {
        Setting { moving, ..self }
    }
    /// Counting what is written together with others.
    pub(crate) fn counting_with(self, written: &Rc<Cell<usize>>) -> Setting<'a> {
        Setting { written: Rc::clone(written), ..self }
    }
    /// Notes that so many terms have been written; false when there is to be an end of it.
    pub(crate) fn may_write(&self, terms: usize) -> bool {
        self.written.set(self.written.get().saturating_add(terms));
        self.written.get() <= MOST_TERMS_WRITTEN
    }
    /// Is this the instant of a jerk?
    pub(crate) fn is_jerk(&self) -> bool {
        self.stage.state == State::Jerk
    }

    /// Does this body stay where it is, whatever the forces?
    pub(crate) fn is_held(&self, body: usize) -> bool {
        self.stage.held.contains(&BodyId(body))
    }

    /// The known value of a quantity.
    pub(crate) fn value(&self, id: QuantityId) -> Option<&Value> {
        self.known.get(id.0)?.as_ref()
    }
    /// The kind of a quantity.
    pub(crate) fn kind(&self, id: QuantityId) -> Kind {
        self.situation.quantity(id).map_or(Kind::Number, |q| q.kind)
    }
    /// The name of a quantity, in words.
    pub(crate) fn name(&self, id: QuantityId) -> &str {
        self.situation.quantity(id).map_or("", |q| q.name.as_str())
    }
    /// The name of a body, with its article.
    pub(crate) fn body_name(&self, body: usize) -> &str {
        self.situation.body(BodyId(body)).map_or("the body", |b| b.name.as_str())
    }
    /// Is this the acceleration of a body in this stage? Then of which?
    pub(crate) fn body_of_acceleration(&self, id: QuantityId) -> Option<usize> {
        self.stage.accelerations.iter().position(|a| *a == id)
    }
    /// Sine and cosine of a known angle.
    pub(crate) fn sin_cos(&self, id: QuantityId) -> Option<&(Value, Value)> {
        self.angles.get(&id)
    }
    /// Is there an equation of motion for this body? Not for one that is held, unless it lies on a floor, whose
    /// reaction makes up for whatever else acts.
    pub(crate) fn has_motion(&self, body: usize) -> bool {
        let upright = self.situation.body(BodyId(body)).is_some_and(|b| b.line == Line::Vertical);
        let floor = self.stage.reactions.get(body).copied().flatten().is_some();
        !self.is_held(body) || (upright && floor)
    }
    /// Has this body no mass: a light pulley?
    pub(crate) fn is_light(&self, body: usize) -> bool {
        let mass = self.situation.body(BodyId(body)).map(|b| b.mass);
        mass.and_then(|m| self.value(m)).is_some_and(Value::is_zero)
    }
    /// Is this body said to be about to slip on its surface?
    pub(crate) fn is_about_to_slip(&self, body: usize) -> bool {
        self.stage.about_to_slip.contains(&BodyId(body))
    }
    /// How many bodies there are.
    pub(crate) fn bodies(&self) -> usize {
        self.situation.bodies.len()
    }
}

/// +1 or −1 as a value.
pub(crate) fn signed(sign: i8, value: &Value) -> Value {
    if sign < 0 { -value } else { value.clone() }
}

/// A small whole number.
pub(crate) fn whole(n: i64) -> Rational {
    Rational::from_int(n)
}
