//! Forces by role and body: found again or made, and given their sizes.

use crate::reader::Reader;
use crate::story::{ForceTold, Given};
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
        self.story.forces.push(ForceTold {
            role,
            name,
            on,
            size: None,
            letter: None,
            way: None,
            level: None,
            link: None,
            span,
        });
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
