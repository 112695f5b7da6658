//! Named forces: driving, braking, applied and resisting, each with its way.

use crate::assemble::Assembly;
use crate::story::{Fact, ForceTold, Lean, Target, Way};
use model::{Direction, Grip, Line, Refusal, Role};

impl<'a> Assembly<'a> {
    /// The angle of a pull: its own, or that of the rope through which it pulls.
    fn lean_of(&self, i: usize, f: &ForceTold) -> Option<Lean> {
        let rope = || self.story.links.iter().find(|l| l.ends == [i] && l.pulleys.is_empty())?.lean.clone();
        f.lean.clone().or_else(rope)
    }

    pub(super) fn act(&mut self) {
        let story = self.story;
        if let Some(m) = story.motions.iter().find(|m| matches!(m.fact, Fact::Heading(Way::Backward))) {
            self.refuse(
                Refusal::Unread,
                "motion backwards is not followed".to_owned(),
                m.span,
                "describe the motion as forwards",
            );
        }
        let down = story.motions.iter().any(|m| matches!(m.fact, Fact::Heading(Way::DownSlope)));
        for f in &story.forces {
            let on = f.on.or(if story.bodies.len() == 1 { Some(0) } else { None });
            let Some((i, &body)) = on.and_then(|i| Some((i, self.bodies.get(i)?))) else {
                self.refuse(
                    Refusal::Incomplete,
                    format!("it is not said on which body {} acts", f.name),
                    f.span,
                    "name the body: a force of 50 N acts on the crate",
                );
                self.forces.push(None);
                continue;
            };
            let pushes = self.pushes(i, f);
            let level_push = self.horizontal_on_slope(i, f);
            let crooked = match (f.level, self.lines.get(i)) {
                _ if level_push.is_some() || f.lean.is_some() => None,
                (Some(true), Some(Line::Vertical | Line::Slope { .. })) => Some("horizontal"),
                (Some(false), Some(Line::Level | Line::Slope { .. })) => Some("vertical"),
                _ => None,
            };
            if let Some(word) = crooked {
                self.refuse(
                    Refusal::Unread,
                    format!(
                        "a {word} force is not along the line on which {} moves; this is not followed yet",
                        self.name(i)
                    ),
                    f.span,
                    "give the force along the line of motion",
                );
            }
            let pulls = story.forces.iter().filter(|x| x.role == Role::Applied).count();
            if f.role == Role::Applied
                && pulls > 1
                && !matches!(
                    f.way,
                    Some(
                        Way::AwayFrom(_)
                            | Way::Up
                            | Way::Down
                            | Way::UpSlope
                            | Way::DownSlope
                            | Way::Right
                            | Way::Left
                            | Way::Forward
                            | Way::Backward
                    )
                )
                && !(pushes.is_some() && matches!(f.way, Some(Way::Towards(_))))
            {
                self.refuse(
                    Refusal::Incomplete,
                    format!("several forces are applied, and it is not said which way {} acts", f.name),
                    f.span,
                    "say, for example: directly away from A",
                );
            }
            let situation = self.b.situation();
            let joined = situation
                .links
                .iter()
                .filter(|l| {
                    l.pulleys.is_empty()
                        && !l.is_contact
                        && l.ends.iter().any(|e| self.bodies.get(i) == Some(&e.body))
                })
                .count();
            if f.role == Role::Applied && joined > 1 && !matches!(self.lines.get(i), Some(Line::Vertical)) {
                self.refuse(
                    Refusal::Unread,
                    format!("{} is pulled in the middle of a chain; this is not followed yet", self.name(i)),
                    f.span,
                    "pull the body at the end",
                );
            }
            if f.role == Role::Applied
                && matches!((f.way, self.lines.get(i)), (Some(Way::Up | Way::Down), Some(Line::Level)))
            {
                self.refuse(
                    Refusal::Unread,
                    format!("a vertical force on {} is not followed yet", self.name(i)),
                    f.span,
                    "give the force along the line of motion",
                );
            }
            if f.role == Role::Driving
                && matches!(
                    (f.way, self.lines.get(i)),
                    (Some(Way::Backward), _) | (Some(Way::Up | Way::Down), Some(Line::Level))
                )
            {
                self.refuse(
                    Refusal::Unread,
                    "a driving force in this direction is not followed".to_owned(),
                    f.span,
                    "the driving force acts forwards; give a braking force by that name",
                );
            }
            if f.role == Role::Applied && self.touches(i) && pushes.is_none() {
                self.refuse(
                    Refusal::Unread,
                    format!(
                        "it is not clear that this force pushes {} against what it touches",
                        self.name(i)
                    ),
                    f.span,
                    "push the body at the end of the row towards the others",
                );
            }
            if matches!(f.way, Some(Way::Towards(_))) && pushes.is_none() {
                self.refuse(
                    Refusal::Unread,
                    format!(
                        "{} is pushed towards what it is joined to; this is not followed yet",
                        self.name(i)
                    ),
                    f.span,
                    "pull the body that is in front",
                );
            }
            let pulled =
                self.b.situation().links.iter().any(|l| {
                    !l.pulleys.is_empty() && l.ends.iter().any(|e| self.bodies.get(i) == Some(&e.body))
                });
            let free = pulled || matches!(self.lines.get(i), Some(Line::Vertical | Line::Slope { .. }));
            if matches!(f.way, Some(Way::Right | Way::Left))
                && (pulled || !matches!(self.lines.get(i), Some(Line::Level)))
            {
                self.refuse(
                    Refusal::Unread,
                    "left and right are told only of bodies on level ground without pulleys".to_owned(),
                    f.span,
                    "say towards the pulley, away from A, up or down the slope",
                );
            }
            let slopes = matches!(self.lines.get(i), Some(Line::Slope { .. }));
            let plain = level_push.is_some()
                || pushes.is_some()
                || (slopes
                    && !pulled
                    && f.lean.as_ref().is_some_and(|l| f.pulls == Some(true) || l.up == Some(true)));
            if f.role == Role::Applied && f.way.is_none() && free && !plain {
                self.refuse(
                    Refusal::Incomplete,
                    format!("it is not said which way {} acts", f.name),
                    f.span,
                    "say upwards or downwards, up or down the slope",
                );
            }
            let slope_down = down && matches!(self.lines.get(i), Some(Line::Slope { .. }));
            let direction = match f.role {
                Role::Resistance | Role::Braking => Direction::Opposing,
                Role::Driving => {
                    Direction::Along(if slope_down && f.way != Some(Way::UpSlope) { -1 } else { 1 })
                }
                _ => {
                    let sense = match f.way {
                        _ if pushes.is_some() => pushes.unwrap_or(1),
                        Some(Way::AwayFrom(other)) => self.away(i, other),
                        Some(Way::Down | Way::DownSlope | Way::Backward | Way::Left) => -1,
                        _ => 1,
                    };
                    match (level_push, self.lean_of(i, f)) {
                        (Some(direction), _) => direction,
                        (None, Some(lean)) => {
                            self.aslant(i, &lean, f.pulls, sense).unwrap_or(Direction::Along(sense))
                        }
                        (None, None) => Direction::Along(sense),
                    }
                }
            };
            let id = self.b.act(f.role, &f.name, body, direction);
            if let Some(a) = self.b.situation_mut().actions.get_mut(id.0) {
                a.span = Some(f.span);
            }
            self.forces.push(Some(id));
        }
        // Friction given as a number on a surface that is not rough otherwise: a resistance.
        for (i, given) in &story.frictions {
            let guided =
                story.bodies.len() == 1 || story.bodies.get(*i).is_some_and(|b| b.form == model::Form::Lift);
            if matches!(self.lines.get(*i), Some(Line::Vertical)) && !guided {
                self.refuse(
                    Refusal::Unread,
                    format!("{} touches nothing that could rub", self.name(*i)),
                    given.span,
                    "name the body on which friction acts",
                );
            }
            let rough = self
                .bodies
                .get(*i)
                .and_then(|&id| self.b.situation().body(id))
                .is_some_and(|b| b.surface.as_ref().is_some_and(|s| matches!(s.grip, Grip::Rough(_))));
            if !rough && let Some(&body) = self.bodies.get(*i) {
                let name = format!("the friction on {}", self.name(*i));
                let id = self.b.act(Role::Resistance, &name, body, Direction::Opposing);
                if let Some(a) = self.b.situation_mut().actions.get_mut(id.0) {
                    a.span = Some(given.span);
                }
                self.extra_friction.push((id, given.clone()));
            }
        }
        // Resistances shared or per kilogram, on every body that has none of its own.
        if story.per_mass.is_some()
            || story.total_resistance.is_some()
            || story.asks.iter().any(|a| a.target == Target::TotalResistance)
        {
            for i in 0..story.bodies.len() {
                let has = story.forces.iter().any(|f| f.role == Role::Resistance && f.on == Some(i));
                if has {
                    continue;
                }
                if let Some(&body) = self.bodies.get(i) {
                    let name = format!("the resistance on {}", self.name(i));
                    let id = self.b.act(Role::Resistance, &name, body, Direction::Opposing);
                    self.shared.push((i, id));
                }
            }
        }
    }
}
