//! What the question asks, read off a solved stage.

use crate::finish::{TOO_LONG, is_input};
use crate::judge::with_unit;
use crate::pulley::pulley_force;
use crate::sign::sign_with_positive_letters;
use crate::{Factor, ForceKind, LinkState, Solved};
use exact::{Angle, Dimension, Rational, Sign, Value, round_places, round_significant};
use model::{
    Ask, BodyId, Diagnostic, Kind, Line, LinkId, PulleyId, QuantityId, Refusal, Situation, Stage, Wanted,
};
use std::collections::BTreeSet;

/// The answer to one thing asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// The value in SI units, an angle's in degrees. `None` where words are asked, and where an angle is
    /// known by its sine or tangent only.
    pub value: Option<Value>,
    /// The angle, where one is asked.
    pub angle: Option<Angle>,
    /// What it is: `acceleration`, `tension`, `thrust`, `statement` ...
    pub quantity: &'static str,
    /// Its dimension.
    pub dimension: Dimension,
    /// The sense of the body concerned on its own line: of its acceleration, or of its motion.
    pub sense: Option<i8>,
    /// In words, where words are asked: `the truck moves up the slope`.
    pub says: String,
}

impl Answer {
    fn value(value: Value, quantity: &'static str, dimension: Dimension) -> Answer {
        Answer { value: Some(value), angle: None, quantity, dimension, sense: None, says: String::new() }
    }
    fn words(quantity: &'static str, says: String) -> Answer {
        Answer { value: None, angle: None, quantity, dimension: Dimension::NONE, sense: None, says }
    }
}

/// Answers one thing asked from the stage of which it speaks. Forces and speeds are sizes; an
/// acceleration counts in the direction of motion, a deceleration against it. A value that the question
/// gives to be shown is compared.
///
/// # Errors
/// [`Refusal::Incomplete`] with what is missing, or [`Refusal::Undetermined`], where the value is not
/// fixed; [`Refusal::Contradictory`] where it is not what the question asks to show.
pub fn answer(situation: &Situation, solved: &Solved, ask: &Ask) -> Result<Answer, Diagnostic> {
    let view = View { situation, solved, stage: situation.stage(solved.stage), ask };
    let found = match &ask.wanted {
        Wanted::Quantity(id) => view.quantity(*id),
        Wanted::Magnitude(id) => {
            view.quantity(*id).map(|a| Answer { value: a.value.as_ref().map(size_of), ..a })
        }
        Wanted::AccelerationWay(body) => view.acceleration_way(*body),
        Wanted::Deceleration(body) => view.deceleration(*body),
        Wanted::PulleyForce(pulley) => view.pulley(*pulley),
        Wanted::WhichWay(body) => view.which_way(*body),
        Wanted::TensionOrThrust(link) => view.tension_or_thrust(*link),
        Wanted::WhetherItMoves => view.whether_it_moves(),
        Wanted::Whether { .. } => {
            crate::whether(situation, solved, ask).map(|found| Answer::words("statement", found.says))
        }
        Wanted::Range(id) => view.range(*id),
        Wanted::Effect { change, on } => view.effect(*change, *on),
        Wanted::Statement(_) => Ok(Answer::words("statement", String::new())),
    }?;
    view.shown(found)
}

pub(crate) struct View<'a> {
    pub(crate) situation: &'a Situation,
    pub(crate) solved: &'a Solved,
    pub(crate) stage: Option<&'a Stage>,
    pub(crate) ask: &'a Ask,
}

fn size_of(value: &Value) -> Value {
    if sign_with_positive_letters(value) == Some(Sign::Negative) { -value } else { value.clone() }
}

impl View<'_> {
    fn quantity(&self, id: QuantityId) -> Result<Answer, Diagnostic> {
        let Some(quantity) = self.situation.quantity(id) else { return Err(self.open(id)) };
        if quantity.kind == Kind::Angle {
            return self.angle(id);
        }
        let value = self.solved.value(id).ok_or_else(|| self.open(id))?;
        let dimension = quantity.kind.dimension();
        let body = self.stage.and_then(|s| s.accelerations.iter().position(|a| *a == id));
        if let Some(body) = body {
            return Ok(self.acceleration(BodyId(body), value));
        }
        let word = if self.is_thrust(id) { "thrust" } else { quantity.kind.word() };
        Ok(Answer::value(size_of(value), word, dimension))
    }
    /// In the direction of motion: negative where a body that is known to move that way slows down.
    fn acceleration(&self, body: BodyId, value: &Value) -> Answer {
        let sense = self.solved.senses.get(body.0).copied().unwrap_or(1);
        let slows = sign_with_positive_letters(value) == Some(Sign::Negative);
        Answer {
            sense: Some(if slows { -sense } else { sense }),
            ..Answer::value(value.clone(), "acceleration", Dimension::ACCELERATION)
        }
    }
    fn deceleration(&self, body: BodyId) -> Result<Answer, Diagnostic> {
        let id = self.stage.and_then(|s| s.accelerations.get(body.0)).copied();
        match self.solved.acceleration(body) {
            Some(a) => {
                let found = self.acceleration(body, a);
                // Without a direction of motion the acceleration counts in its own direction.
                let against = self.stage.is_some_and(|s| s.heading.is_some());
                Ok(Answer { value: found.value.map(|v| if against { -v } else { size_of(&v) }), ..found })
            }
            None => Err(self.open(id.unwrap_or(QuantityId(usize::MAX)))),
        }
    }
    fn angle(&self, id: QuantityId) -> Result<Answer, Diagnostic> {
        let degrees = self.solved.value(id).and_then(Value::as_rational).cloned().map(Angle::Degrees);
        let known = self.situation.angles.get(&id).or_else(|| self.solved.angles.get(&id)).cloned();
        let angle = degrees.or(known).ok_or_else(|| self.open(id))?;
        if angle.degrees_enclosure(8) == Err(exact::ExactError::HasLetters) {
            return Err(self.in_letters(id, &angle));
        }
        let value = match &angle {
            Angle::Degrees(d) => Some(Value::rational(d.clone())),
            other => whole_degrees(other),
        };
        let words = Answer::words("angle", String::new());
        Ok(Answer { value, angle: Some(angle), dimension: Dimension::ANGLE, ..words })
    }
    /// An angle that depends on letters has no size in degrees.
    fn in_letters(&self, id: QuantityId, angle: &Angle) -> Diagnostic {
        let share = match angle {
            Angle::Sin(v) | Angle::Cos(v) | Angle::Tan(v) => v.symbols(),
            Angle::Degrees(_) => BTreeSet::new(),
        };
        let letters: Vec<String> = share.into_iter().collect();
        let name = self.situation.quantity(id).map_or("angle", |q| q.name.trim_start_matches("the "));
        let says =
            format!("the {name} depends on {}, so it has no one size in degrees", letters.join(" and "));
        Diagnostic::refuse(Refusal::Undetermined, says).hint("give the letters values")
    }
    fn pulley(&self, pulley: PulleyId) -> Result<Answer, Diagnostic> {
        match pulley_force(self.situation, self.solved, pulley) {
            Some(value) => Ok(Answer::value(value, "force", Dimension::FORCE)),
            None => {
                let link = self.situation.links.iter().position(|l| l.pulleys.contains(&pulley));
                let tension = link.and_then(|i| self.stage?.links.get(i).copied());
                Err(self.open(tension.unwrap_or(QuantityId(usize::MAX))))
            }
        }
    }
    fn is_thrust(&self, id: QuantityId) -> bool {
        self.solved.forces.iter().any(|f| {
            f.thrust && matches!(f.kind, ForceKind::Link(_)) && f.size.contains(&Factor::Quantity(id))
        })
    }

    fn which_way(&self, body: BodyId) -> Result<Answer, Diagnostic> {
        let Some(who) = self.situation.body(body) else { return Err(self.open(QuantityId(usize::MAX))) };
        if !self.solved.case.moves {
            return Ok(Answer::words("statement", format!("{} stays at rest", who.name)));
        }
        let motion = self.solved.senses.get(body.0).copied().unwrap_or(1);
        let heading = self.stage.is_some_and(|s| s.heading.is_some());
        let sense = match self.solved.acceleration(body).and_then(sign_with_positive_letters) {
            Some(Sign::Negative) if !heading => -motion,
            Some(_) => motion,
            None if heading => motion,
            None => return Err(self.open(QuantityId(usize::MAX))),
        };
        let way = direction_in_words(who.line, sense);
        Ok(Answer { sense: Some(sense), ..Answer::words("statement", format!("{} moves {way}", who.name)) })
    }

    /// Which way the acceleration points, whatever the motion.
    fn acceleration_way(&self, body: BodyId) -> Result<Answer, Diagnostic> {
        let Some(who) = self.situation.body(body) else { return Err(self.open(QuantityId(usize::MAX))) };
        let id = self.stage.and_then(|s| s.accelerations.get(body.0)).copied();
        let open = || self.open(id.unwrap_or(QuantityId(usize::MAX)));
        let value = self.solved.acceleration(body).ok_or_else(open)?;
        let positive = self.solved.senses.get(body.0).copied().unwrap_or(1);
        let sense = match sign_with_positive_letters(value).ok_or_else(open)? {
            Sign::Positive => positive,
            Sign::Negative => -positive,
            Sign::Zero => {
                return Ok(Answer::words("statement", format!("{} has no acceleration", who.name)));
            }
        };
        let way = direction_in_words(who.line, sense);
        let says = format!("the acceleration of {} is directed {way}", who.name);
        Ok(Answer { sense: Some(sense), ..Answer::words("statement", says) })
    }

    fn tension_or_thrust(&self, link: LinkId) -> Result<Answer, Diagnostic> {
        let Some(it) = self.situation.link(link) else { return Err(self.open(QuantityId(usize::MAX))) };
        if self.solved.case.links.get(link.0) == Some(&LinkState::Loose) {
            return Ok(Answer::words("statement", format!("{} is slack", it.name)));
        }
        let id = self.stage.and_then(|s| s.links.get(link.0)).copied();
        let id = id.ok_or_else(|| self.open(QuantityId(usize::MAX)))?;
        let value = self.solved.value(id).ok_or_else(|| self.open(id))?;
        let says = if value.is_zero() {
            format!("{} is in neither tension nor thrust", it.name)
        } else {
            let which = if self.is_thrust(id) { "thrust" } else { "tension" };
            format!("{} is in {which}, of {}", it.name, with_unit(value, Kind::Tension))
        };
        Ok(Answer::words("statement", says))
    }

    fn whether_it_moves(&self) -> Result<Answer, Diagnostic> {
        Ok(Answer::words("statement", self.says_whether_it_moves()))
    }

    /// How many values: the set itself is for [`crate::range`] to tell.
    fn range(&self, id: QuantityId) -> Result<Answer, Diagnostic> {
        let part = self.ask.part_index;
        let found = crate::range(self.situation, self.ask.stage, part, id);
        let range = found.map_err(|why| why.into_iter().next().unwrap_or_else(|| self.open(id)))?;
        let kind = self.situation.quantity(id).map_or(Kind::Number, |q| q.kind);
        let letter = &range.letter;
        let ends = range.intervals.iter().map(|i| match (&i.low, &i.high) {
            (Some(low), Some(high)) => {
                format!("{letter} from {} to {}", with_unit(&low.value, kind), with_unit(&high.value, kind))
            }
            (Some(low), None) => format!("{letter} from {} on", with_unit(&low.value, kind)),
            (None, Some(high)) => format!("{letter} up to {}", with_unit(&high.value, kind)),
            (None, None) => format!("any {letter}"),
        });
        let says = ends.collect::<Vec<_>>().join(" or ");
        Ok(Answer { dimension: kind.dimension(), ..Answer::words(kind.word(), says) })
    }
    fn effect(&self, change: model::Change, on: QuantityId) -> Result<Answer, Diagnostic> {
        let found = crate::effect(self.situation, self.ask.stage, self.solved.part, change, on);
        let effect = found.map_err(|why| why.into_iter().next().unwrap_or_else(|| self.open(on)))?;
        let name = self.situation.quantity(on).map_or("", |q| q.name.as_str());
        let name = name.strip_prefix("the ").unwrap_or(name);
        let verdict = match effect.changed {
            crate::Changed::Greater => format!("the {name} would be greater"),
            crate::Changed::Smaller => format!("the {name} would be smaller"),
            crate::Changed::Unchanged => format!("the {name} would be unchanged"),
            crate::Changed::Divided => {
                format!("the {name} would be greater on the side that drives and smaller on the other")
            }
        };
        Ok(Answer::words("statement", format!("{verdict}: {}", effect.reason)))
    }

    /// Why a quantity has no value: what is not given, or that the givens leave it open.
    fn open(&self, id: QuantityId) -> Diagnostic {
        let name = self.situation.quantity(id).map_or(self.ask.phrase.as_str(), |q| q.name.as_str());
        let name = name.strip_prefix("the ").unwrap_or(name);
        let reason = self.solved.undetermined.iter().find(|(open, _)| *open == id).map(|(_, why)| why);
        if reason.is_some_and(|why| why == TOO_LONG) {
            let says = format!("the {name} could not be found: {TOO_LONG}");
            return Diagnostic::refuse(Refusal::Undetermined, says).at(self.ask.span);
        }
        let missing = self.missing(id);
        if missing.is_empty() {
            let mut says = format!("the {name} is not fixed by what the question gives");
            if let Some(why) = reason.filter(|why| why.contains("share the holding")) {
                says = format!("{says}: {why}");
            }
            return Diagnostic::refuse(Refusal::Undetermined, says).at(self.ask.span);
        }
        let list = missing.join(", ");
        let verb = if missing.len() == 1 { "is" } else { "are" };
        Diagnostic::refuse(
            Refusal::Incomplete,
            format!("the {name} cannot be found, because {list} {verb} not given"),
        )
        .at(self.ask.span)
        .hint(format!("give {list}"))
    }

    /// The inputs without a value that stand, through open equations, in touch with this quantity.
    fn missing(&self, id: QuantityId) -> Vec<String> {
        let open = |q: &QuantityId| {
            let angle = self.situation.angles.contains_key(q) || self.solved.angles.contains_key(q);
            self.solved.value(*q).is_none() && !angle
        };
        let mut reached: BTreeSet<QuantityId> = BTreeSet::new();
        let mut fresh = vec![id];
        let everywhere = self.situation.quantity(id).is_none();
        for equation in self.solved.equations.iter().filter(|_| everywhere) {
            fresh.extend(equation.quantities().into_iter().filter(open));
        }
        while let Some(next) = fresh.pop() {
            if !reached.insert(next) {
                continue;
            }
            for equation in &self.solved.equations {
                let quantities = equation.quantities();
                if quantities.contains(&next) {
                    fresh.extend(quantities.into_iter().filter(open));
                }
            }
        }
        reached.remove(&id);
        let asked: BTreeSet<QuantityId> = self
            .situation
            .asks
            .iter()
            .filter_map(|a| {
                if let Wanted::Quantity(q) | Wanted::Magnitude(q) = a.wanted { Some(q) } else { None }
            })
            .collect();
        let given = |q: &model::Quantity| q.known.as_ref().is_some_and(|k| k.from_part <= self.solved.part);
        let inputs: Vec<QuantityId> = reached
            .into_iter()
            .filter(|q| self.situation.quantity(*q).is_some_and(|q| is_input(q.kind) && !given(q)))
            .collect();
        let not_asked: Vec<QuantityId> = inputs.iter().copied().filter(|q| !asked.contains(q)).collect();
        let list = if not_asked.is_empty() { inputs } else { not_asked };
        list.into_iter()
            .filter_map(|q| self.situation.quantity(q))
            .map(|q| format!("the {}", q.name.strip_prefix("the ").unwrap_or(&q.name)))
            .collect()
    }

    /// Compares with the value that the question gives to be shown.
    fn shown(&self, found: Answer) -> Result<Answer, Diagnostic> {
        let (Some(show), Some(value)) = (&self.ask.show, &found.value) else { return Ok(found) };
        if shown_agrees(value, show) {
            return Ok(found);
        }
        // A deceleration, or an acceleration whose direction hangs on letters, may be shown the other way round.
        let turns = found.dimension == Dimension::ACCELERATION;
        if turns && shown_agrees(&-value, show) {
            let value = Some(-value);
            return Ok(Answer { value, sense: found.sense.map(|s| -s), ..found });
        }
        let kind = match &self.ask.wanted {
            Wanted::Quantity(id) | Wanted::Magnitude(id) => {
                self.situation.quantity(*id).map_or(Kind::Number, |q| q.kind)
            }
            Wanted::Deceleration(_) => Kind::Acceleration,
            _ => Kind::Force,
        };
        Err(Diagnostic::refuse(
            Refusal::Contradictory,
            format!(
                "the question asks to show {} {}, but it is {}",
                self.ask.phrase,
                with_unit(show, kind),
                with_unit(value, kind)
            ),
        )
        .at(self.ask.span)
        .hint("check the value to be shown, or the givens"))
    }
}

/// Is the value shown the exact one, or a rounding of it to as many figures or places as it is written with?
///
/// ```
/// use exact::{Rational, Value};
/// let exact = Value::rational(Rational::new(147, 4).unwrap()); // 36.75
/// let to_3 = Value::rational(Rational::parse_decimal("36.8").unwrap());
/// assert!(motion::shown_agrees(&exact, &to_3));
/// assert!(!motion::shown_agrees(&exact, &Value::from_int(38)));
/// ```
pub fn shown_agrees(value: &Value, shown: &Value) -> bool {
    if (value - shown).is_zero() {
        return true;
    }
    let Some(digits) = shown.as_rational().and_then(Rational::terminating_decimal) else { return false };
    let same = |found: Result<exact::Decimal, exact::ExactError>| {
        found.is_ok_and(|d| Rational::parse_decimal(&d.digits).as_ref() == shown.as_rational())
    };
    let places = digits.split_once('.').map_or(0, |(_, part)| part.len());
    if u32::try_from(places).is_ok_and(|p| same(round_places(value, p))) {
        return true;
    }
    // A whole number that ends in noughts may be a rounding to fewer figures, though not to one alone.
    let all = digits.trim_start_matches('-');
    let least = all.trim_end_matches('0').len().max(2);
    places == 0
        && all.len() <= 18
        && (least..=all.len()).any(|n| u32::try_from(n).is_ok_and(|n| same(round_significant(value, n))))
}

/// The angle in degrees where that is a plain number: sin θ = ½ gives 30.
fn whole_degrees(angle: &Angle) -> Option<Value> {
    let range = angle.degrees_enclosure(16).ok()?;
    (range.lo() == range.hi()).then(|| Value::rational(range.lo().clone()))
}

fn direction_in_words(line: Line, sense: i8) -> &'static str {
    match (line, sense > 0) {
        (Line::Level, true) => "forwards",
        (Line::Level, false) => "backwards",
        (Line::Vertical, true) => "up",
        (Line::Vertical, false) => "down",
        (Line::Slope { .. }, true) => "up the slope",
        (Line::Slope { .. }, false) => "down the slope",
    }
}
