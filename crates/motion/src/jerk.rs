//! The instant of a jerk: what the impulses of the links do to the momentum of the bodies, and what the
//! links that hold make of the speeds. Weights, reactions and all other finite forces do nothing in no time.

use crate::runs;
use crate::setting::{Setting, whole};
use crate::write::{Writer, equation, positive_first, term};
use crate::{Equation, Factor, Force, ForceKind, Law, LinkState, Origin, Term};
use model::{BodyId, Diagnostic, Journey, Kind, LinkId, Refusal};

/// The journey that holds the velocities of a body before and after the jerk.
pub(crate) fn journey<'a>(setting: &Setting<'a>, body: usize) -> Option<&'a Journey> {
    setting.stage.journeys.iter().find(|j| j.body.0 == body)
}

/// Why a jerk cannot be followed, where nothing is said of the speeds of a body that a link pulls on.
pub(crate) fn incomplete(setting: &Setting) -> Option<Diagnostic> {
    let links = setting.situation.links_in(setting.id).filter(|_| setting.is_jerk());
    let silent = |b: &BodyId| !setting.stage.held.contains(b) && journey(setting, b.0).is_none();
    let body = links.flat_map(|(_, l)| l.ends.iter().map(|e| e.body)).find(silent)?;
    let name = setting.body_name(body.0);
    let mut d = Diagnostic::refuse(
        Refusal::Incomplete,
        format!("nothing is said of the speed of {name} before the jerk"),
    );
    d.spans.extend(setting.stage.span);
    Some(d)
}

impl Writer<'_> {
    /// The sense of a body's speed before the jerk, seen in its positive sense: a speed that is no more than
    /// a size has the direction that the body brings along.
    fn sense_before(&self, journey: &Journey) -> i8 {
        let brought = self.setting.moving.get(journey.body.0).copied().flatten();
        match brought {
            Some(way) if self.setting.kind(journey.start_speed) != Kind::Velocity => {
                way * self.sense(journey.body.0)
            }
            _ => 1,
        }
    }

    /// Impulse = change of momentum of one body; for several, momentum before (and impulses from outside)
    /// = momentum after. `None` for a body that no link pulls on.
    pub(crate) fn impulse(&self, system: &[usize]) -> Option<Equation> {
        let (mut left, internal) = self.outside(system);
        let (mut before, mut after) = (Vec::new(), Vec::new());
        for &body in system {
            let journey = journey(self.setting, body)?;
            let mass = Factor::Quantity(self.setting.situation.body(BodyId(body))?.mass);
            let momentum = |sign, speed| {
                term(sign, vec![mass.clone(), Factor::Quantity(speed)], Origin::Momentum(BodyId(body)))
            };
            before.push(momentum(self.sense_before(journey), journey.start_speed));
            after.push(momentum(1, journey.end_speed));
        }
        if system.len() > 1 {
            left.append(&mut before);
        } else {
            after.extend(before.into_iter().map(|t| Term { sign: -t.sign, ..t }));
        }
        let bodies = system.iter().map(|b| BodyId(*b)).collect();
        let right = positive_first(after);
        Some(Equation { internal, ..equation(Law::Impulse, bodies, positive_first(left), right) })
    }

    /// What a link that holds says of the speeds after the jerk; `None` where it says nothing.
    pub(crate) fn speeds_together(&self, id: LinkId) -> Option<Equation> {
        let link = self.setting.situation.link(id)?;
        let mut left: Vec<Term> = Vec::new();
        for end in &link.ends {
            if self.setting.stage.held.contains(&end.body) {
                continue;
            }
            let speed = journey(self.setting, end.body.0)?.end_speed;
            let mut factors = vec![Factor::Quantity(speed)];
            if end.times > 1 {
                factors.insert(0, Factor::Number(whole(i64::from(end.times))));
            }
            let new = term(end.sense * self.sense(end.body.0), factors, Origin::Law);
            // Bodies whose common speed has one letter say nothing more.
            match left.iter().position(|t| t.factors == new.factors && t.sign == -new.sign) {
                Some(at) => {
                    left.remove(at);
                }
                None => left.push(new),
            }
        }
        let bodies = link.ends.iter().map(|e| e.body).collect();
        (!left.is_empty()).then(|| equation(Law::Together(id), bodies, positive_first(left), Vec::new()))
    }

    /// The equations that fix a jerk: one for each body, and one for each link that holds.
    pub(crate) fn jerk(&self) -> Vec<Equation> {
        let free = |b: &usize| !self.setting.is_held(*b);
        let mut equations: Vec<Equation> =
            (0..self.setting.bodies()).filter(free).filter_map(|b| self.impulse(&[b])).collect();
        let holding =
            self.setting.situation.link_ids().filter(|id| self.links.get(id.0) == Some(&LinkState::Holding));
        equations.extend(holding.filter_map(|id| self.speeds_together(id)));
        equations
    }

    /// Every equation of a jerk, those of several bodies included.
    pub(crate) fn jerk_pool(&self) -> Vec<Equation> {
        let mut equations = self.jerk();
        let held = |b: &usize| self.setting.is_held(*b);
        let systems =
            runs::together(self.setting.situation, self.links, &[], self.groups, |b| self.setting.is_held(b));
        let systems = systems.iter().filter(|s| !s.iter().any(held));
        equations.extend(systems.filter_map(|s| self.impulse(s)));
        equations
    }
}

/// In a jerk only the links count.
pub(crate) fn impulses_only(forces: &mut Vec<Force>) {
    forces.retain(|f| matches!(f.kind, ForceKind::Link(_)));
    let old: Vec<_> = forces.iter().map(|f| f.id).collect();
    for (i, force) in forces.iter_mut().enumerate() {
        force.id = crate::ForceId(i);
        force.partner = force.partner.and_then(|p| old.iter().position(|o| *o == p)).map(crate::ForceId);
    }
}
