//! Forces by role and body: found again or made, and given their sizes.

use crate::quantity::Mention;
use crate::reader::Reader;
use crate::story::{ForceTold, Given, Way};
use model::{Diagnostic, Refusal, Role, Span};

impl Reader<'_> {
    /// The force of this role on a body; new if there is none yet.
    pub(crate) fn force_on(&mut self, role: Role, on: Option<usize>, span: Span) -> usize {
        let found = self.story.forces.iter().position(|f| {
            f.role == role
                && (f.on == on || f.on.is_none() || on.is_none())
                && (role != Role::Applied || on.is_some())
                && f.link.is_none()
        });
        if let Some(i) = found {
            if let Some(f) = self.story.forces.get_mut(i) {
                f.on = f.on.or(on);
            }
            return i;
        }
        let of = on.map(|b| self.name(b));
        let name = match (role, &of) {
            (Role::Driving, _) => "the driving force".to_owned(),
            (Role::Braking, _) => "the braking force".to_owned(),
            (Role::Resistance, Some(of)) => format!("the resistance on {of}"),
            (Role::Resistance, None) => "the resistance".to_owned(),
            (_, Some(of)) => format!("the force applied to {of}"),
            _ => "the applied force".to_owned(),
        };
        self.story.forces.push(ForceTold::new(role, name, on, span));
        self.story.forces.len() - 1
    }

    /// What a mention says of a force besides its size: its way, its angle, its letter.
    pub(crate) fn describe_force(&mut self, force: usize, m: &Mention, way: Option<Way>) {
        let Some(f) = self.story.forces.get_mut(force) else { return };
        let mut way = way;
        if let Some(lean) = &m.lean {
            let mut lean = lean.clone();
            // "acting upwards at 30° to the horizontal": the way says on which side.
            if let Some(w @ (Way::Up | Way::Down)) = way {
                lean.up = lean.up.or(Some(w == Way::Up));
                way = None;
            }
            f.lean = Some(lean);
        } else if let (Some(lean), Some(w @ (Way::Up | Way::Down))) = (f.lean.as_mut(), way) {
            lean.up = lean.up.or(Some(w == Way::Up));
            way = None;
        }
        f.way = way.or(f.way);
        f.level = m.level.or(f.level);
        f.pulls = m.pulls.or(f.pulls);
        f.letter = m.letter.clone().or(f.letter.take());
    }

    /// The applied force on a body that a mention speaks of: "a second force" is another one, where both have sizes.
    pub(crate) fn applied_on(&mut self, body: usize, m: &Mention, span: Span) -> usize {
        let part = self.part;
        let told = |f: &ForceTold| {
            f.role == Role::Applied
                && f.on == Some(body)
                && f.link.is_none()
                && f.size.as_ref().is_some_and(|g| g.part == part)
        };
        let another = m.indefinite && !m.amounts.is_empty() && self.story.forces.iter().any(told);
        if !another {
            return self.force_on(Role::Applied, Some(body), span);
        }
        let count =
            self.story.forces.iter().filter(|f| f.role == Role::Applied && f.on == Some(body)).count();
        let nth =
            ["second", "third", "fourth", "fifth"].get(count.saturating_sub(1)).copied().unwrap_or("next");
        let name = format!("the {nth} force applied to {}", self.name(body));
        self.story.forces.push(ForceTold::new(Role::Applied, name, Some(body), span));
        self.story.forces.len() - 1
    }

    pub(super) fn contradiction(&mut self, what: &str, old: &Given, new: &Given) {
        let d = Diagnostic::refuse(
            Refusal::Contradictory,
            format!("two values are given for {what}: {} and {}", old.written, new.written),
        )
        .at(old.span)
        .at(new.span)
        .hint("keep one of them");
        self.diagnostics.push(d);
    }

    /// Sets the size of a force, once.
    pub(crate) fn set_force(&mut self, force: usize, given: Given) {
        let Some(f) = self.story.forces.get_mut(force) else { return };
        match f.size.clone() {
            Some(old) if old.value != given.value => {
                let name = f.name.clone();
                self.contradiction(&name, &old, &given);
            }
            Some(_) => {}
            None => f.size = Some(given),
        }
    }
}
