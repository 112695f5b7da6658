//! Writes the equations: each term with its origin, oriented by the senses of the bodies.

use crate::groups::Groups;
use crate::setting::{Setting, whole};
use crate::stack;
use crate::{
    Equation, EquationId, Factor, Force, ForceId, ForceKind, FrictionState, JourneyLaw, Law, LinkState,
    Origin, Share, Term,
};
use exact::{Rational, Value};
use model::{BodyId, Grip, Journey, LinkId, QuantityId};

/// Everything that the writing of equations needs to see.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Writer<'a> {
    pub(crate) setting: &'a Setting<'a>,
    pub(crate) forces: &'a [Force],
    /// By body: the places of its forces.
    pub(crate) places: &'a [Vec<usize>],
    pub(crate) groups: &'a Groups,
    /// The positive sense of each body.
    pub(crate) senses: &'a [i8],
    pub(crate) links: &'a [LinkState],
    pub(crate) frictions: &'a [FrictionState],
    /// By body: is it known not to accelerate?
    pub(crate) still: &'a [bool],
}

/// A term of either sign.
pub(crate) fn term(sign: i8, factors: Vec<Factor>, origin: Origin) -> Term {
    Term { sign, factors, origin }
}

/// An equation whose number is given when it joins the pool.
pub(crate) fn equation(law: Law, system: Vec<BodyId>, left: Vec<Term>, right: Vec<Term>) -> Equation {
    Equation { id: EquationId(0), law, system, left, right, internal: Vec::new() }
}

/// Positive terms first.
pub(crate) fn positive_first(mut terms: Vec<Term>) -> Vec<Term> {
    terms.sort_by_key(|t| t.sign < 0);
    terms
}

impl<'a> Writer<'a> {
    pub(crate) fn sense(&self, body: usize) -> i8 {
        self.senses.get(body).copied().unwrap_or(1)
    }
    /// The quantity that stands for the acceleration of a body.
    pub(crate) fn acceleration(&self, body: usize) -> Option<QuantityId> {
        self.setting.stage.accelerations.get(self.groups.shared(body)).copied()
    }
    fn is_still(&self, body: usize) -> bool {
        self.still.get(body).copied().unwrap_or(false)
    }
    fn acts(&self, force: &Force) -> bool {
        match force.kind {
            ForceKind::Link(id) => self.links.get(id.0) == Some(&LinkState::Holding),
            _ => true,
        }
    }
    /// The forces on a body, without those of slack strings.
    pub(crate) fn forces_on(&self, body: usize) -> impl Iterator<Item = &'a Force> {
        let places = self.places.get(body).map_or(&[][..], Vec::as_slice);
        let this = *self;
        places.iter().filter_map(move |i| this.forces.get(*i)).filter(move |f| this.acts(f))
    }
    /// The share of a force along its body's line as a term, oriented.
    pub(crate) fn along(&self, force: &Force) -> Option<Term> {
        let sign = force.along.sense() * self.sense(force.on.0);
        share(force, force.along, sign)
    }

    /// The forces on a system along its line from outside it, and those inside that cancel.
    pub(crate) fn outside(&self, system: &[usize]) -> (Vec<Term>, Vec<ForceId>) {
        let mut left = Vec::new();
        let mut internal = Vec::new();
        for force in system.iter().flat_map(|b| self.forces_on(*b)) {
            if system.len() > 1 && self.is_internal(force, system) {
                internal.push(force.id);
            } else {
                left.extend(self.along(force));
            }
        }
        (left, internal)
    }

    /// F = ma along the line of one body, or of several (in order) that share one acceleration.
    pub(crate) fn motion(&self, system: &[usize]) -> Equation {
        let (left, internal) = self.outside(system);
        let mut right = Vec::new();
        for &body in system.iter().filter(|b| !self.is_still(**b) && !self.setting.is_light(**b)) {
            let mass = self.setting.situation.body(BodyId(body)).map(|b| b.mass);
            if let (Some(mass), Some(a)) = (mass, self.acceleration(body)) {
                let factors = vec![Factor::Quantity(mass), Factor::Quantity(a)];
                right.push(term(1, factors, Origin::Inertia(BodyId(body))));
            }
        }
        let bodies = system.iter().map(|b| BodyId(*b)).collect();
        Equation { internal, ..equation(Law::Motion, bodies, positive_first(left), right) }
    }
    pub(crate) fn is_internal(&self, force: &Force, system: &[usize]) -> bool {
        let inside = |body: BodyId| system.binary_search(&body.0).is_ok();
        if let ForceKind::Link(id) = force.kind {
            let pull = |e: &model::End| i32::from(e.sense * self.sense(e.body.0)) * i32::from(e.times);
            // Where links form a ring, a pull may be inside and yet not cancel.
            return self.setting.situation.link(id).is_some_and(|l| {
                l.ends.iter().all(|e| inside(e.body)) && l.ends.iter().map(pull).sum::<i32>() == 0
            });
        }
        // Two bodies on one another: the pair cancels if both are in the system and go the same way.
        let alike = |other: &Force| self.sense(force.on.0) == self.sense(other.on.0);
        force.partner.and_then(|p| self.forces.get(p.0)).is_some_and(|other| inside(other.on) && alike(other))
    }

    /// The forces across the line of a body that stands on something.
    pub(crate) fn balance(&self, body: usize) -> Option<Equation> {
        let mut left = Vec::new();
        let mut supported = false;
        for force in self.forces_on(body) {
            let own = force.kind == ForceKind::Reaction && !stack::is_on_lower(force);
            supported |= own && force.across != Share::None;
            left.extend(share(force, force.across, force.across.sense()));
        }
        supported.then(|| equation(Law::Balance, vec![BodyId(body)], positive_first(left), Vec::new()))
    }

    /// F = μR where friction is at its limit.
    pub(crate) fn friction(&self, body: usize) -> Option<Equation> {
        let state = self.frictions.get(body)?;
        if !matches!(state, FrictionState::Limiting | FrictionState::Sliding) {
            return None;
        }
        let (mut mu, reaction, friction) = rough(self.setting, body)?;
        if *state == FrictionState::Sliding {
            mu = while_sliding(self.setting, body).unwrap_or(mu);
        }
        let left = vec![term(1, vec![Factor::Quantity(friction)], Origin::Law)];
        let right = vec![term(1, vec![Factor::Quantity(mu), Factor::Quantity(reaction)], Origin::Law)];
        Some(equation(Law::Friction, vec![BodyId(body)], left, right))
    }

    /// What a link says of accelerations that are not shared.
    pub(crate) fn together(&self, id: LinkId) -> Option<Equation> {
        let link = self.setting.situation.link(id)?;
        let mut left = Vec::new();
        for end in link.ends.iter().filter(|e| !self.is_still(e.body.0)) {
            let mut factors = vec![Factor::Quantity(self.acceleration(end.body.0)?)];
            if end.times > 1 {
                factors.insert(0, Factor::Number(whole(i64::from(end.times))));
            }
            left.push(term(end.sense * self.sense(end.body.0), factors, Origin::Law));
        }
        let bodies = link.ends.iter().map(|e| e.body).collect();
        (!left.is_empty()).then(|| equation(Law::Together(id), bodies, positive_first(left), Vec::new()))
    }

    /// The five constant-acceleration relations of a journey.
    pub(crate) fn journey(&self, journey: &Journey) -> Vec<Equation> {
        let Some(a) = self.acceleration(journey.body.0) else { return Vec::new() };
        let still = self.is_still(journey.body.0);
        let q = Factor::Quantity;
        let half = || Rational::new(1, 2).map(Factor::Number);
        let (u, v, s, t) =
            (q(journey.start_speed), q(journey.end_speed), q(journey.distance), q(journey.time));
        let a = q(a);
        let one =
            |factors: &[&Factor]| Some(term(1, factors.iter().map(|f| (*f).clone()).collect(), Origin::Law));
        let accelerated = |sign: i8, factors: &[&Factor]| {
            (!still).then(|| term(sign, factors.iter().map(|f| (*f).clone()).collect(), Origin::Law))
        };
        let (two, half) = (Factor::Number(whole(2)), half().unwrap_or(Factor::Number(Rational::ZERO)));
        let laws = [
            (JourneyLaw::WithoutDistance, one(&[&v]), vec![one(&[&u]), accelerated(1, &[&a, &t])]),
            (JourneyLaw::WithoutTime, one(&[&v, &v]), vec![one(&[&u, &u]), accelerated(1, &[&two, &a, &s])]),
            (
                JourneyLaw::WithoutEndSpeed,
                one(&[&s]),
                vec![one(&[&u, &t]), accelerated(1, &[&half, &a, &t, &t])],
            ),
            (
                JourneyLaw::WithoutStartSpeed,
                one(&[&s]),
                vec![one(&[&v, &t]), accelerated(-1, &[&half, &a, &t, &t])],
            ),
            (JourneyLaw::WithoutAcceleration, one(&[&s]), vec![one(&[&half, &u, &t]), one(&[&half, &v, &t])]),
        ];
        laws.into_iter()
            .map(|(law, left, right)| {
                let right = right.into_iter().flatten().collect();
                equation(Law::Journey(law), vec![journey.body], left.into_iter().collect(), right)
            })
            .collect()
    }

    /// A fact that the question gives, where its coefficients are plain numbers, or such times the sine or cosine of an
    /// angle of the situation.
    pub(crate) fn fact(&self, index: usize, turned: impl Fn(QuantityId) -> bool) -> Option<Equation> {
        let relation = self.setting.situation.relations.get(index)?;
        let mut left = Vec::new();
        for (coefficient, quantities) in &relation.terms {
            let (number, share) = self.plain(coefficient)?;
            if number.is_zero() {
                continue;
            }
            let mut sign: i8 = if number.signum() < 0 { -1 } else { 1 };
            let mut factors = Vec::new();
            if !number.abs().is_one() || quantities.is_empty() {
                factors.push(Factor::Number(number.abs()));
            }
            for id in quantities {
                let (id, turn) = self.oriented(*id);
                sign *= if turned(id) { -turn } else { turn };
                factors.push(Factor::Quantity(id));
            }
            factors.extend(share);
            left.push(term(sign, factors, Origin::Given));
        }
        Some(equation(Law::Fact(index), Vec::new(), positive_first(left), Vec::new()))
    }
    /// A coefficient as a plain number, perhaps times a sine or cosine.
    fn plain(&self, coefficient: &Value) -> Option<(Rational, Option<Factor>)> {
        if let Some(number) = coefficient.as_rational() {
            return Some((number.clone(), None));
        }
        let over = |by: &Value| coefficient.checked_div(by).ok()?.as_rational().cloned();
        self.setting.situation.angles.keys().find_map(|id| {
            let (sine, cosine) = self.setting.sin_cos(*id)?;
            let along = over(sine).map(|n| (n, Some(Factor::Sin(*id))));
            along.or_else(|| over(cosine).map(|n| (n, Some(Factor::Cos(*id)))))
        })
    }
    /// The quantity that stands for this one in this stage, and the sign that it takes.
    pub(crate) fn oriented(&self, id: QuantityId) -> (QuantityId, i8) {
        match self.setting.body_of_acceleration(id) {
            Some(body) => (self.acceleration(body).unwrap_or(id), self.sense(body)),
            None => (id, 1),
        }
    }
}

/// A share of a force as a term.
fn share(force: &Force, share: Share, sign: i8) -> Option<Term> {
    let mut factors = force.size.clone();
    match share {
        Share::None => return None,
        Share::All(_) => {}
        Share::Sin(_, angle) => factors.push(Factor::Sin(angle)),
        Share::Cos(_, angle) => factors.push(Factor::Cos(angle)),
    }
    Some(term(sign, factors, Origin::Force(force.id)))
}

/// By body: the places of its forces.
pub(crate) fn places(bodies: usize, forces: &[Force]) -> Vec<Vec<usize>> {
    let mut places = vec![Vec::new(); bodies];
    for (i, force) in forces.iter().enumerate() {
        if let Some(list) = places.get_mut(force.on.0) {
            list.push(i);
        }
    }
    places
}

/// The coefficient while sliding, where it is told apart from the static one.
pub(crate) fn while_sliding(setting: &Setting, body: usize) -> Option<QuantityId> {
    setting.situation.body(BodyId(body))?.surface.as_ref()?.sliding
}

/// Coefficient, reaction and friction of a body on a rough surface.
pub(crate) fn rough(setting: &Setting, body: usize) -> Option<(QuantityId, QuantityId, QuantityId)> {
    let surface = setting.situation.body(BodyId(body))?.surface.as_ref()?;
    let Grip::Rough(mu) = surface.grip else { return None };
    let reaction = setting.stage.reactions.get(body).copied().flatten()?;
    let friction = setting.stage.frictions.get(body).copied().flatten()?;
    Some((mu, reaction, friction))
}
