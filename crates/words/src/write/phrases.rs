//! Quantities as noun phrases: `the tension in the string joining A and B`, `the normal reaction of the plane on A`.

use super::names::Name;
use super::{Said, Writer, cannot};
use model::{BodyId, Direction, Form, Grip, Holds, Line, Link, LinkId, QuantityId, Role};

impl Writer<'_> {
    /// The name of a body.
    pub(super) fn name(&self, id: BodyId) -> Name {
        self.names.get(id.0).cloned().unwrap_or(Name { noun: "body".to_owned(), letter: None })
    }

    /// A quantity, apart from those of journeys.
    pub(super) fn phrase(&self, id: QuantityId) -> Said<String> {
        if let Some(letter) = self.letters.get(&id) {
            return Ok(format!("the value of {letter}"));
        }
        for (i, body) in self.s.bodies.iter().enumerate() {
            let name = self.name(BodyId(i)).again();
            if body.mass == id {
                return Ok(format!("the mass of {name}"));
            }
            if matches!(body.line, Line::Slope { angle, .. } if angle == id) {
                return Ok(format!("the angle {}", self.angle_letter(id)));
            }
            if matches!(body.surface.as_ref().map(|s| s.grip), Some(Grip::Rough(mu)) if mu == id) {
                let ground = self.ground_of(BodyId(i)).unwrap_or_default();
                return Ok(format!("the coefficient of friction between {name} and {ground}"));
            }
        }
        if self.s.actions.iter().any(|a| matches!(a.direction, Direction::At { angle, .. } if angle == id)) {
            return Ok(format!("the angle {}", self.angle_letter(id)));
        }
        for stage in &self.s.stages {
            let at = |list: &[QuantityId]| list.iter().position(|q| *q == id);
            let at_some = |list: &[Option<QuantityId>]| list.iter().position(|q| *q == Some(id));
            if let Some(i) = at(&stage.accelerations) {
                return Ok(format!("the acceleration of {}", self.name(BodyId(i)).again()));
            }
            if let Some(i) = at(&stage.links) {
                return self.link_force(LinkId(i));
            }
            if let Some(i) = at(&stage.forces) {
                return self.named_force(i);
            }
            if let Some(i) = at_some(&stage.reactions) {
                let ground = self.ground_of(BodyId(i)).unwrap_or_default();
                let normal = self.voice.words().normal;
                return Ok(format!("the {normal} of {ground} on {}", self.name(BodyId(i)).again()));
            }
            if let Some(i) = at_some(&stage.frictions) {
                return Ok(format!("the frictional force acting on {}", self.name(BodyId(i)).again()));
            }
        }
        Err(cannot(self.s.quantity(id).map_or("a quantity", |q| q.name.as_str())))
    }

    /// The tension or thrust in a link, or the push of one body on another.
    fn link_force(&self, id: LinkId) -> Said<String> {
        let Some(link) = self.s.link(id) else { return Err(cannot("a link")) };
        if link.holds == Holds::Push {
            let Some((front, back)) = Self::front_and_back(link) else { return Err(cannot(&link.name)) };
            let on = self.name(front).again();
            let by = self.name(back).again();
            let floor = self.s.body(back).is_some_and(|b| b.form == Form::Lift);
            let by = if floor { format!("the floor of {by}") } else { by };
            return Ok(format!("the magnitude of the force exerted on {on} by {by}"));
        }
        Ok(format!("the tension in {}", self.the_link(id, link)))
    }

    /// `the string`, or `the string joining A and B` where there are several.
    pub(super) fn the_link(&self, id: LinkId, link: &Link) -> String {
        let noun = self.link_noun(link);
        let twin = self.s.link_ids().any(|l| {
            l != id && self.s.link(l).is_some_and(|o| o.holds != Holds::Push && self.link_noun(o) == noun)
        });
        let cable = self.s.body_ids().any(|b| self.cable_of(b) == Some(noun.as_str()));
        if twin || cable {
            let mut ends: Vec<BodyId> = link.ends.iter().map(|e| e.body).collect();
            ends.sort();
            return format!("the {noun} joining {}", self.both(&ends));
        }
        format!("the {noun}")
    }

    fn named_force(&self, i: usize) -> Said<String> {
        let Some(action) = self.s.actions.get(i) else { return Err(cannot("a force")) };
        let on = self.name(action.on).again();
        Ok(match action.role {
            Role::Driving => match self.s.body(action.on).is_some_and(|b| b.form == Form::Vehicle) {
                true if self.name(action.on).noun != "engine" => {
                    format!("the driving force of the engine of {on}")
                }
                _ => format!("the driving force of {on}"),
            },
            Role::Braking => format!("the braking force on {on}"),
            Role::Resistance => format!("the resistance to the motion of {on}"),
            Role::Cable => format!("the tension in the {}", self.cable_of(action.on).unwrap_or("cable")),
            Role::Applied | Role::Other => return Err(cannot(&action.name)),
        })
    }
}
