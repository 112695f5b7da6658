//! Which way along its line a body goes: told, or plain from how the bodies are joined.

use crate::assemble::Assembly;
use crate::stages::Motion;
use crate::story::Way;
use model::{Direction, Line, Role};

impl Assembly<'_> {
    /// The sense of a way on a body's own line.
    pub(super) fn sense(&self, way: Way, body: usize) -> Option<i8> {
        let line = self.lines.get(body)?;
        Some(match (way, line) {
            (Way::Up, Line::Vertical | Line::Slope { .. }) | (Way::UpSlope, Line::Slope { .. }) => 1,
            (Way::Down, Line::Vertical | Line::Slope { .. }) | (Way::DownSlope, Line::Slope { .. }) => -1,
            (Way::Forward | Way::Right, Line::Level) => 1,
            (Way::Backward | Way::Left, Line::Level) => -1,
            (Way::ToPulley, _) => {
                let id = self.bodies.get(body)?;
                let situation = self.b.situation();
                situation
                    .links
                    .iter()
                    .filter(|l| !l.pulleys.is_empty())
                    .flat_map(|l| &l.ends)
                    .find(|e| e.body == *id)
                    .map(|e| e.sense)?
            }
            (Way::AwayFrom(_), _) => 1,
            (Way::Towards(_), _) => -1,
            _ => return None,
        })
    }

    /// Which way things move, as (body, sense), where it is told or plain.
    pub(super) fn heading(&self, motion: &Motion) -> Option<(usize, i8)> {
        if let Some((of, way)) = &motion.heading {
            let all: Vec<usize> = (0..self.story.bodies.len()).collect();
            let of = if of.is_empty() { &all } else { of };
            for &b in of {
                if let Some(sense) = self.sense(*way, b) {
                    return Some((b, sense));
                }
            }
        }
        // Driven or braked on level ground: forwards. On a slope: the way the driving force acts.
        let story = self.story;
        let driven =
            story.forces.iter().find(|f| matches!(f.role, Role::Driving | Role::Braking) && f.on.is_some());
        if let Some(f) = driven {
            let b = f.on?;
            return match self.lines.get(b)? {
                Line::Level => Some((b, 1)),
                _ if f.role == Role::Driving => Some((b, 1)),
                _ => None,
            };
        }
        // Two hanging bodies: the heavier goes down.
        let situation = self.b.situation();
        for link in situation.links.iter().filter(|l| !l.pulleys.is_empty()) {
            let hanging =
                link.ends.iter().all(|e| situation.body(e.body).is_some_and(|b| b.line == Line::Vertical));
            for (n, end) in link.ends.iter().enumerate().filter(|_| hanging && link.ends.len() == 2) {
                let other = link.ends.get(1 - n.min(1)).map(|e| e.body.0);
                let heavier = story.bodies.get(end.body.0).and_then(|b| b.heavier);
                let unknown = [Some(end.body.0), other].into_iter().flatten().any(|b| {
                    story
                        .bodies
                        .get(b)
                        .is_none_or(|b| b.mass.as_ref().is_none_or(|m| m.value.as_rational().is_none()))
                });
                if let (Some(heavier), true) = (heavier, unknown) {
                    return Some((end.body.0, if heavier { -1 } else { 1 }));
                }
            }
        }
        // On level ground, about to slip: with the pull, where there is one alone.
        let limiting = matches!(motion.state, Some((model::State::Limiting, _)));
        if (limiting || !motion.about_to_slip.is_empty())
            && self.lines.iter().all(|l| matches!(l, Line::Level))
        {
            let pulls: Vec<(usize, i8)> = situation
                .actions
                .iter()
                .filter_map(|a| match a.direction {
                    Direction::Along(s) | Direction::At { sense: s, .. } => Some((a.on.0, s)),
                    Direction::Opposing => None,
                })
                .collect();
            if let [one] = pulls.as_slice() {
                return Some(*one);
            }
        }
        // A train on level ground without friction laws moves forwards.
        let level = self.lines.iter().all(|l| matches!(l, Line::Level));
        let rough = self.coefficients.is_empty();
        if level && rough && !story.tows.is_empty() {
            return Some((0, 1));
        }
        None
    }

    /// The way that goes without saying: forwards on the level, towards the pulley off a table.
    pub(super) fn plain_way(&self, body: usize) -> Option<i8> {
        match self.lines.get(body)? {
            Line::Level => Some(1),
            Line::Vertical | Line::Slope { .. } => {
                // The other end lies on a table: this one goes down.
                let id = self.bodies.get(body)?;
                let situation = self.b.situation();
                let link = situation
                    .links
                    .iter()
                    .find(|l| !l.pulleys.is_empty() && l.ends.iter().any(|e| e.body == *id))?;
                let other = link.ends.iter().find(|e| e.body != *id)?;
                if matches!(situation.body(other.body)?.line, Line::Level) {
                    return Some(-1);
                }
                // The heavier of two goes down.
                let told = self.story.bodies.get(body)?;
                let heavier =
                    told.heavier.or_else(|| self.story.bodies.get(other.body.0)?.heavier.map(|h| !h))?;
                if matches!(situation.body(other.body)?.line, Line::Vertical)
                    && matches!(self.lines.get(body)?, Line::Vertical)
                {
                    return Some(if heavier { -1 } else { 1 });
                }
                None
            }
        }
    }
}
