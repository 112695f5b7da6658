//! What a change of the model, or of a given, does to an answer: the change is made to the model in a small measure, the
//! stage is solved again, and the two values are compared. Nothing here knows a question.

use crate::sign::sign_with_positive_letters;
use crate::{Equation, Law, LinkState, Solved, solve};
use exact::{Angle, Rational, Sign, Value};
use model::{
    Action, Basis, BodyId, Change, Diagnostic, Direction, Form, Grip, Holds, Kind, Known, Letter, Link,
    LinkId, Quantity, QuantityId, Refusal, Role, Situation, Span, StageId,
};

/// Which way a quantity changes in size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Changed {
    /// It is greater.
    Greater,
    /// It is smaller.
    Smaller,
    /// It is as before.
    Unchanged,
    /// A tension that is no longer one: greater on the side that drives, smaller on the side that is drawn.
    Divided,
}

/// The effect of a change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Effect {
    /// Which way the quantity changes.
    pub changed: Changed,
    /// Why, in words: `air resistance acts on P and Q against the motion, so ...`.
    pub reason: String,
}

/// How a change of the model, or of a given, would affect a quantity of a stage.
///
/// ```
/// use model::{Builder, Change, Form, Line, State};
/// let mut b = Builder::new();
/// let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
/// let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(5.into()));
/// b.over_pulley("the string", p, q);
/// let stage = b.stage(State::Released);
/// let situation = b.finish();
/// let a = situation.stages[0].accelerations[1];
/// let effect = motion::effect(&situation, stage, 0, Change::AirResistance, a).unwrap();
/// assert_eq!(effect.changed, motion::Changed::Smaller);
/// ```
///
/// # Errors
/// Why it cannot be told: the stage has no answer, with the change or without, or the change does not apply to it.
pub fn effect(
    situation: &Situation,
    stage: StageId,
    part: usize,
    change: Change,
    on: QuantityId,
) -> Result<Effect, Vec<Diagnostic>> {
    let before = solve(situation, stage, part)?;
    let sides = Sides { situation, stage, before: &before, on };
    if situation.known(on, part).is_some() && change != Change::More(on) && change != Change::Less(on) {
        return Ok(Effect { changed: Changed::Unchanged, reason: format!("{} is given", sides.name()) });
    }
    let at_rest = !before.case.moves && matches!(change, Change::AirResistance | Change::RoughPulley);
    if at_rest {
        return Ok(Effect {
            changed: Changed::Unchanged,
            reason: "nothing moves, so it does not come in".to_owned(),
        });
    }
    // A small number first; a letter where the situation is in letters and a number would not settle it.
    let small = Rational::new(1, 1000).map_or(Value::one(), Value::rational);
    let mut why = None;
    for measure in [small, Value::symbol(MEASURE)] {
        let Some(made) = made(situation, &before, part, change, &measure) else {
            return Err(vec![untold(&sides)]);
        };
        match solve(&made.situation, stage, part) {
            Ok(after) if after.case == before.case || made.rougher => {
                if let Some(effect) = sides.compare(&made, &after, &measure) {
                    return Ok(effect);
                }
            }
            Ok(_) => {}
            Err(errors) => why = why.or(Some(errors)),
        }
    }
    Err(why.unwrap_or_else(|| vec![untold(&sides)]))
}

/// The letter of a small measure; no question uses it.
const MEASURE: &str = "ε";

fn untold(sides: &Sides<'_>) -> Diagnostic {
    Diagnostic::refuse(
        Refusal::Undetermined,
        format!("how {} would be affected could not be told", sides.name()),
    )
}

/// A changed situation.
struct Made {
    situation: Situation,
    /// What the change is, as a clause.
    clause: String,
    /// A tension that differs from one side of its pulley to the other: by link, the body on the side that is drawn.
    divided: Vec<(LinkId, BodyId)>,
    /// Has friction come in, so that the case is written otherwise?
    rougher: bool,
}

fn made(
    situation: &Situation,
    solved: &Solved,
    part: usize,
    change: Change,
    measure: &Value,
) -> Option<Made> {
    let mut made =
        Made { situation: situation.clone(), clause: String::new(), divided: Vec::new(), rougher: false };
    if measure.as_rational().is_none() {
        made.situation.letters.push(Letter { symbol: MEASURE.to_owned(), kind: Kind::Number });
    }
    match change {
        Change::AirResistance => made.air(measure),
        Change::HeavyString => made.heavy(part, measure)?,
        Change::RoughPulley => made.pulleys(solved, measure)?,
        Change::RoughSurface => made.surfaces(measure)?,
        Change::More(id) => made.given(id, part, &(Value::one() + measure), measure, "greater")?,
        Change::Less(id) => made.given(id, part, &(Value::one() - measure), &-measure, "smaller")?,
    }
    Some(made)
}

impl Made {
    fn quantity(&mut self, kind: Kind, name: String, value: Value) -> QuantityId {
        let id = QuantityId(self.situation.quantities.len());
        let known =
            Known { value, written: String::new(), basis: Basis::Given(Span::default()), from_part: 0 };
        let symbol = format!("{MEASURE}#{}", id.0);
        self.situation.quantities.push(Quantity {
            kind,
            symbol,
            letter: MEASURE.to_owned(),
            name,
            known: Some(known),
        });
        id
    }
    /// A small force on a body in every stage.
    fn force(&mut self, name: &str, on: BodyId, direction: Direction, measure: &Value) {
        let action = Action { role: Role::Resistance, name: name.to_owned(), on, direction, span: None };
        self.situation.actions.push(action);
        for stage in 0..self.situation.stages.len() {
            let id = self.quantity(Kind::Resistance, name.to_owned(), measure.clone());
            if let Some(stage) = self.situation.stages.get_mut(stage) {
                stage.forces.push(id);
            }
        }
    }
    fn names(&self, bodies: &[BodyId]) -> String {
        let names: Vec<&str> =
            bodies.iter().filter_map(|b| self.situation.body(*b)).map(|b| b.name.as_str()).collect();
        list(&names)
    }

    fn air(&mut self, measure: &Value) {
        let bodies: Vec<BodyId> = self
            .situation
            .body_ids()
            .filter(|b| self.situation.body(*b).is_some_and(|b| b.form != Form::Pulley))
            .collect();
        for &body in &bodies {
            let name = format!("the air resistance on {}", self.names(&[body]));
            self.force(&name, body, Direction::Opposing, measure);
        }
        self.clause = format!("air resistance acts on {} against the motion", self.names(&bodies));
    }
    /// As if half of the mass of each string were at either end of it.
    fn heavy(&mut self, part: usize, measure: &Value) -> Option<()> {
        let strings: Vec<Link> = self
            .situation
            .links
            .iter()
            .filter(|l| l.holds == Holds::Pull && !l.is_contact)
            .cloned()
            .collect();
        for body in strings.iter().flat_map(|l| &l.ends).map(|e| e.body) {
            let mass = self.situation.body(body)?.mass;
            let known =
                self.situation.quantities.get_mut(mass.0)?.known.as_mut().filter(|k| k.from_part <= part)?;
            known.value = &known.value + measure;
        }
        let names: Vec<&str> = strings.iter().map(|l| l.name.as_str()).collect();
        let (its, verb) = if names.len() > 1 { ("their", "have") } else { ("its", "has") };
        self.clause =
            format!("{} {verb} to be accelerated too, and {its} weight counts where it hangs", list(&names));
        (!strings.is_empty()).then_some(())
    }
    /// What is drawn over a rough pulley is drawn with less than what drives pulls with.
    fn pulleys(&mut self, solved: &Solved, measure: &Value) -> Option<()> {
        let over: Vec<(LinkId, Link)> = self
            .situation
            .links_in(solved.stage)
            .filter(|(id, l)| {
                !l.pulleys.is_empty() && solved.case.links.get(id.0) == Some(&LinkState::Holding)
            })
            .map(|(id, l)| (id, l.clone()))
            .collect();
        let mut sides = Vec::new();
        for (id, link) in over {
            let towards = |e: &&model::End| solved.senses.get(e.body.0) == Some(&e.sense);
            let drawn = link.ends.iter().find(towards)?;
            let driving = link.ends.iter().find(|e| e.body != drawn.body)?;
            let direction = Direction::Along(-drawn.sense);
            self.force("the friction at the pulley", drawn.body, direction, measure);
            self.divided.push((id, drawn.body));
            sides.push(format!(
                "friction at the pulley makes the tension on the side of {} less than on the side of {}",
                self.names(&[drawn.body]),
                self.names(&[driving.body])
            ));
        }
        self.clause = sides.join(", and ");
        (!self.divided.is_empty()).then_some(())
    }
    fn surfaces(&mut self, measure: &Value) -> Option<()> {
        let smooth: Vec<BodyId> = self
            .situation
            .body_ids()
            .filter(|b| {
                let surface = self.situation.body(*b).and_then(|b| b.surface.as_ref());
                surface.is_some_and(|s| s.grip == Grip::Smooth)
            })
            .collect();
        for &body in &smooth {
            let name = format!("the friction on {}", self.names(&[body]));
            let mu = self.quantity(Kind::Coefficient, "coefficient of friction".to_owned(), measure.clone());
            for stage in 0..self.situation.stages.len() {
                let friction = self.quantity(Kind::Friction, name.clone(), Value::zero());
                if let Some(q) = self.situation.quantities.get_mut(friction.0) {
                    q.known = None;
                }
                if let Some(slot) =
                    self.situation.stages.get_mut(stage).and_then(|s| s.frictions.get_mut(body.0))
                {
                    *slot = Some(friction);
                }
            }
            let surface = self.situation.bodies.get_mut(body.0).and_then(|b| b.surface.as_mut())?;
            surface.grip = Grip::Rough(mu);
        }
        self.rougher = true;
        self.clause = format!("friction acts on {} against the motion", self.names(&smooth));
        (!smooth.is_empty()).then_some(())
    }
    fn given(&mut self, id: QuantityId, part: usize, times: &Value, add: &Value, word: &str) -> Option<()> {
        let scaled = |v: &Value| v * times;
        if let Some(angle) = self.situation.angles.get_mut(&id) {
            *angle = match &*angle {
                Angle::Degrees(d) => Angle::Degrees(scaled(&Value::from(d)).as_rational()?.clone()),
                Angle::Sin(v) => Angle::Sin(scaled(v)),
                // The cosine falls as the angle grows.
                Angle::Cos(v) => Angle::Cos(v * (Value::from_int(2) - times)),
                Angle::Tan(v) => Angle::Tan(scaled(v)),
            };
        } else {
            let quantity = self.situation.quantities.get_mut(id.0)?;
            let known = quantity.known.as_mut().filter(|k| k.from_part <= part)?;
            known.value = if known.value.is_zero() { add.clone() } else { known.value.clone() * times };
        }
        let name = self.situation.quantity(id).map(|q| bare(&q.name).to_owned())?;
        self.clause = format!("the {name} is {word}");
        Some(())
    }
}

struct Sides<'a> {
    situation: &'a Situation,
    stage: StageId,
    before: &'a Solved,
    on: QuantityId,
}

impl Sides<'_> {
    fn name(&self) -> String {
        self.situation.quantity(self.on).map_or_else(|| "it".to_owned(), |q| format!("the {}", bare(&q.name)))
    }
    /// The quantity as the pool writes it: the shared acceleration for a body's own.
    fn standing(&self, solved: &Solved) -> QuantityId {
        let own = self.situation.stage(self.stage).map(|s| s.accelerations.as_slice()).unwrap_or(&[]);
        let body = own.iter().position(|a| *a == self.on);
        body.and_then(|b| solved.accelerations.get(b)).copied().unwrap_or(self.on)
    }

    fn compare(&self, made: &Made, after: &Solved, measure: &Value) -> Option<Effect> {
        let one = self.before.value(self.standing(self.before))?;
        let two = after.value(self.standing(after))?;
        let changed = grown(one, two)?;
        let link = self.situation.stage(self.stage)?.links.iter().position(|l| *l == self.on).map(LinkId);
        let drawn = made.divided.iter().find(|(id, _)| Some(*id) == link);
        if drawn.is_some() {
            let less = grown(one, &(two - measure))?;
            if less != changed {
                return Some(Effect { changed: Changed::Divided, reason: made.clause.clone() });
            }
        }
        Some(Effect { changed, reason: self.reason(made, after, changed) })
    }

    /// The clause of the change, and what in the shortest equation with the quantity changes besides it.
    fn reason(&self, made: &Made, after: &Solved, changed: Changed) -> String {
        let word = match changed {
            Changed::Unchanged | Changed::Divided => {
                return format!("{} drops out when {} is worked out", changing(&made.clause), self.name());
            }
            Changed::Greater => "greater",
            Changed::Smaller => "smaller",
        };
        let on = self.standing(after);
        let kind = self.situation.quantity(self.on).map(|q| q.kind);
        if kind == Some(Kind::Acceleration) {
            let so = if word == "smaller" { "less" } else { "more" };
            let slows = after.value(on).and_then(sign_with_positive_letters) == Some(Sign::Negative);
            return if slows {
                let so = if word == "smaller" { "less" } else { "more" };
                format!("{}, so the motion is slowed {so}", made.clause)
            } else {
                format!("{}, so there is {so} force for each kilogram that moves", made.clause)
            };
        }
        let mut best: Option<(usize, usize, Vec<String>)> = None;
        for equation in
            after.equations.iter().filter(|e| e.quantities().contains(&on) && !matches!(e.law, Law::Fact(_)))
        {
            let others = self.others(made, after, equation, on);
            let better = best.as_ref().is_none_or(|b| (others.len(), equation.system.len()) < (b.0, b.1));
            if !others.is_empty() && better {
                best = Some((others.len(), equation.system.len(), others));
            }
        }
        let name = self.name();
        match best {
            Some((_, _, others)) => {
                let others: Vec<&str> = others.iter().map(String::as_str).collect();
                format!("{}; {}, so {name} is {word}", made.clause, list(&others))
            }
            None => format!("{}, so {name} is {word}", made.clause),
        }
    }
    /// What else in an equation has changed, in words.
    fn others(&self, made: &Made, after: &Solved, equation: &Equation, on: QuantityId) -> Vec<String> {
        let mut says = Vec::new();
        for id in equation.quantities().into_iter().filter(|q| *q != on) {
            let Some(quantity) = made.situation.quantity(id) else { continue };
            let name = format!("the {}", bare(&quantity.name));
            let word = match (self.before.value(id), after.value(id)) {
                (Some(one), Some(two)) => match grown(one, two) {
                    Some(Changed::Greater) => "is greater",
                    Some(Changed::Smaller) => "is smaller",
                    _ => continue,
                },
                (None, Some(_)) => "comes in",
                _ => continue,
            };
            let said = format!("{name} {word}");
            if !made.clause.contains(&said) {
                says.push(said);
            }
        }
        says
    }
}

/// Which way a value changes in size.
fn grown(before: &Value, after: &Value) -> Option<Changed> {
    let size = |v: &Value| if sign_with_positive_letters(v) == Some(Sign::Negative) { -v } else { v.clone() };
    Some(match sign_with_positive_letters(&(size(after) - size(before)))? {
        Sign::Positive => Changed::Greater,
        Sign::Negative => Changed::Smaller,
        Sign::Zero => Changed::Unchanged,
    })
}

fn bare(name: &str) -> &str {
    name.strip_prefix("the ").unwrap_or(name)
}

/// `the mass of P is greater` as a subject: `that the mass of P is greater`.
fn changing(clause: &str) -> String {
    format!("that {clause}")
}

fn list(items: &[&str]) -> String {
    match items {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::{Builder, Line, State};

    fn loads() -> (Situation, StageId) {
        let mut b = Builder::new();
        let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
        let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(5.into()));
        b.over_pulley("the string", p, q);
        let stage = b.stage(State::Released);
        (b.finish(), stage)
    }
    fn told(situation: &Situation, stage: StageId, change: Change, on: QuantityId) -> (Changed, String) {
        effect(situation, stage, 0, change, on)
            .map_or((Changed::Unchanged, "not told".to_owned()), |e| (e.changed, e.reason))
    }

    #[test]
    fn a_rough_pulley_slows_and_divides_the_tension() {
        let (situation, stage) = loads();
        let here = &situation.stages[0];
        assert_eq!(told(&situation, stage, Change::RoughPulley, here.accelerations[0]).0, Changed::Smaller);
        let (changed, reason) = told(&situation, stage, Change::RoughPulley, here.links[0]);
        assert_eq!(changed, Changed::Divided);
        assert_eq!(
            reason,
            "friction at the pulley makes the tension on the side of P less than on the side of Q"
        );
    }

    /// B1: T = 2 m1 m2 g/(m1 + m2) grows with either mass; a = (m2 − m1)g/(m1 + m2) falls with the smaller one.
    #[test]
    fn more_of_a_mass_is_felt_as_the_closed_form_says() {
        let (situation, stage) = loads();
        let here = &situation.stages[0];
        let light = Change::More(situation.bodies[0].mass);
        assert_eq!(told(&situation, stage, light, here.accelerations[0]).0, Changed::Smaller);
        assert_eq!(told(&situation, stage, light, here.links[0]).0, Changed::Greater);
        let lighter = Change::Less(situation.bodies[1].mass);
        assert_eq!(told(&situation, stage, lighter, here.links[0]).0, Changed::Smaller);
    }

    /// B31: the acceleration down a smooth slope, g sin t, has no mass in it; friction makes it smaller.
    #[test]
    fn what_drops_out_has_no_effect() {
        let mut b = Builder::new();
        let angle = b.angle("α", Angle::Degrees(30.into()));
        let p = b.body("P", "P", Form::Block, Line::Slope { angle, rises_right: true }, Some(2.into()));
        b.surface(p, "the slope", Grip::Smooth);
        let stage = b.stage(State::Released);
        let situation = b.finish();
        let a = situation.stages[0].accelerations[0];
        assert_eq!(told(&situation, stage, Change::More(situation.bodies[0].mass), a).0, Changed::Unchanged);
        assert_eq!(told(&situation, stage, Change::RoughSurface, a).0, Changed::Smaller);
        assert_eq!(told(&situation, stage, Change::More(angle), a).0, Changed::Greater);
    }

    #[test]
    fn letters_are_no_hindrance() {
        let mut b = Builder::new();
        b.open_letter("m", Kind::Mass);
        let m = Value::symbol("m");
        let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(m.clone()));
        let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(Value::from_int(3) * m));
        b.over_pulley("the string", p, q);
        let stage = b.stage(State::Released);
        let situation = b.finish();
        let (changed, reason) =
            told(&situation, stage, Change::AirResistance, situation.stages[0].accelerations[0]);
        assert_eq!(changed, Changed::Smaller);
        assert_eq!(
            reason,
            "air resistance acts on P and Q against the motion, so there is less force for each kilogram that moves"
        );
    }
}
