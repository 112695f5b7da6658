//! What makes a situation unsound: numbers out of range, senses that are no senses, values that
//! no body can have. Mechanics decides the rest.

use crate::*;
use exact::Sign;

/// More bodies than any question has; beyond it the answer would be of no use to a class.
const MOST_BODIES: usize = 60;

impl Situation {
    /// Everything that is unsound here, not only the first thing; empty if all is well.
    pub fn check(&self) -> Vec<Diagnostic> {
        let mut found = Vec::new();
        self.check_shape(&mut found);
        self.check_values(&mut found);
        found
    }

    fn check_shape(&self, found: &mut Vec<Diagnostic>) {
        let mut bad = |what: &str| {
            found.push(Diagnostic::refuse(
                Refusal::Contradictory,
                format!("the situation is unsound: {what}"),
            ));
        };
        if self.bodies.is_empty() {
            bad("there is no body");
        }
        if self.bodies.len() > MOST_BODIES {
            bad("there are more bodies than this tool follows");
        }
        if self.stages.is_empty() {
            bad("nothing is said of the motion");
        }
        if self.gravity.is_none_or(|g| self.quantity(g).is_none()) {
            bad("there is no value of g");
        }
        let body_ok = |id: BodyId| self.body(id).is_some();
        let sense_ok = |sense: i8| sense == 1 || sense == -1;
        for body in &self.bodies {
            if self.quantity(body.mass).is_none() {
                bad("a body has no mass");
            }
            if matches!(body.line, Line::Slope { angle, .. } if self.quantity(angle).is_none()) {
                bad("a slope has no angle");
            }
        }
        for (i, body) in self.bodies.iter().enumerate() {
            let Some(surface) = &body.surface else { continue };
            if surface.under.is_some_and(|under| !self.can_carry(under, BodyId(i))) {
                bad("a body stands on one that cannot carry it");
            }
            if surface.sliding.is_some_and(|mu| self.quantity(mu).is_none()) {
                bad("a surface has no coefficient while sliding");
            }
        }
        for link in &self.links {
            let mut bodies: Vec<_> = link.ends.iter().map(|e| e.body).collect();
            bodies.sort();
            bodies.dedup();
            if bodies.len() < 2 || bodies.len() != link.ends.len() {
                bad("a link does not join different bodies");
            }
            if link.ends.iter().any(|e| !body_ok(e.body) || !sense_ok(e.sense) || e.times == 0) {
                bad("a link has an end without a body or a sense");
            }
            if link.bears.is_some_and(|q| self.quantity(q).is_none()) {
                bad("the greatest force that a link can bear is no quantity");
            }
        }
        for action in &self.actions {
            let sense = match action.direction {
                Direction::Along(sense) | Direction::At { sense, .. } => sense,
                Direction::Opposing => 1,
            };
            if !body_ok(action.on) || !sense_ok(sense) {
                bad("a force acts on no body or in no direction");
            }
        }
        for stage in &self.stages {
            let bodies = self.bodies.len();
            if stage.accelerations.len() != bodies
                || stage.reactions.len() != bodies
                || stage.frictions.len() != bodies
                || stage.links.len() != self.links.len()
                || stage.forces.len() != self.actions.len()
            {
                bad("a stage lacks the quantities of a body, link or force");
            }
            if stage.held.iter().chain(&stage.about_to_slip).any(|b| !body_ok(*b)) {
                bad("a body that is held or about to slip is not there");
            }
            if stage.begins.as_ref().is_some_and(|b| self.stage(b.after).is_none()) {
                bad("a stage follows none");
            }
            if stage.heading.is_some_and(|h| !body_ok(h.body) || !sense_ok(h.sense)) {
                bad("a direction of motion belongs to no body");
            }
        }
        if self.asks.iter().any(|ask| self.stage(ask.stage).is_none()) {
            bad("a question is asked about no stage");
        }
    }

    /// May the second body stand on the first: on the same kind of line, and not, round about, on itself?
    fn can_carry(&self, under: BodyId, top: BodyId) -> bool {
        let below = |id: BodyId| self.body(id)?.surface.as_ref()?.under;
        let alike = self.body(under).zip(self.body(top)).is_some_and(|(a, b)| a.line == b.line);
        let mut at = Some(under);
        for _ in 0..self.bodies.len() {
            match at {
                Some(id) if id == top => return false,
                Some(id) => at = below(id),
                None => return alike,
            }
        }
        false
    }

    fn check_values(&self, found: &mut Vec<Diagnostic>) {
        for (i, quantity) in self.quantities.iter().enumerate() {
            let Some(known) = &quantity.known else { continue };
            if !known.value.is_number() {
                continue;
            }
            let sign = known.value.sign();
            let light = self.bodies.iter().any(|b| b.form == Form::Pulley && b.mass.0 == i);
            let (wrong, rule) = match quantity.kind {
                Kind::Mass if light => (matches!(sign, Ok(Sign::Negative)), "cannot be negative"),
                Kind::Mass | Kind::Gravity => {
                    (!matches!(sign, Ok(Sign::Positive)), "must be greater than zero")
                }
                Kind::Coefficient | Kind::Time | Kind::Resistance | Kind::Speed => {
                    (matches!(sign, Ok(Sign::Negative)), "cannot be negative")
                }
                _ => (false, ""),
            };
            if wrong {
                let mut d = Diagnostic::refuse(
                    Refusal::Contradictory,
                    format!("the {} {rule}, but {} is given", quantity.name, known.written),
                );
                if let Basis::Given(span) | Basis::Implied(span, _) = known.basis {
                    d = d.at(span);
                }
                found.push(d.hint("check this number in the question"));
            }
        }
        for (id, angle) in &self.angles {
            // An angle in letters is taken to be sound.
            let acute = matches!(
                (angle.sin().map(|v| v.sign()), angle.cos().map(|v| v.sign())),
                (Ok(Ok(Sign::Positive)), Ok(Ok(Sign::Positive)))
                    | (Ok(Err(exact::ExactError::HasLetters)), _)
                    | (_, Ok(Err(exact::ExactError::HasLetters)))
            );
            if !acute {
                let written = self.quantity(*id).and_then(|q| q.known.as_ref());
                let mut d =
                    Diagnostic::refuse(Refusal::Contradictory, "an angle must lie between 0° and 90°");
                if let Some(Known { basis: Basis::Given(span), .. }) = written {
                    d = d.at(*span);
                }
                found.push(d);
            }
        }
    }
}
