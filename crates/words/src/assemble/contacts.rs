//! Bodies that touch and push each other along the line of motion.

use crate::assemble::Assembly;
use crate::story::{ForceTold, Way};
use model::{Holds, Line, Refusal, Role};

impl Assembly<'_> {
    /// Contacts between bodies on one line: the body ahead, in the positive sense, is pushed that way.
    pub(super) fn touch(&mut self) {
        for &(a, b) in &self.story.contacts {
            let (Some(&x), Some(&y), Some(&lx), Some(&ly)) =
                (self.bodies.get(a), self.bodies.get(b), self.lines.get(a), self.lines.get(b))
            else {
                continue;
            };
            let span = self.story.bodies.get(b).map(|b| b.span).unwrap_or_default();
            if lx != ly || matches!(lx, Line::Vertical) {
                self.refuse(
                    Refusal::Unread,
                    format!("{} and {} touch, and do not move along one line", self.name(a), self.name(b)),
                    span,
                    "say that both stand on one table or slope",
                );
                continue;
            }
            let Some(ahead) = self.ahead(a, b, lx) else {
                self.refuse(
                    Refusal::Incomplete,
                    format!(
                        "it is not said which of {} and {} is above the other",
                        self.name(a),
                        self.name(b)
                    ),
                    span,
                    "say: A is below B",
                );
                continue;
            };
            let (front, back) = if ahead == a { (x, y) } else { (y, x) };
            let name = format!("reaction between {} and {}", self.name(a), self.name(b));
            self.b.rests_on(&name, front, back);
        }
    }

    /// Which of two bodies that touch is ahead in the positive sense of their line.
    fn ahead(&self, a: usize, b: usize, line: Line) -> Option<usize> {
        let order = &self.story.order;
        if order.contains(&(a, b)) {
            return Some(a);
        }
        if order.contains(&(b, a)) {
            return Some(b);
        }
        // The force pushes the chain from its end: what it acts on is at the back of its way.
        let pushed = self.story.forces.iter().find(|f| {
            matches!(f.role, Role::Applied | Role::Driving) && f.on.is_some_and(|x| self.touches(x))
        })?;
        let from = pushed.on?;
        let up = match (line, pushed.way) {
            (Line::Slope { .. }, Some(Way::DownSlope)) => false,
            (Line::Slope { .. }, Some(Way::UpSlope)) => true,
            (Line::Slope { .. }, Some(Way::Towards(_)) | None) => return None,
            _ => true,
        };
        let near = if self.steps(from, a)? < self.steps(from, b)? { a } else { b };
        let far = if near == a { b } else { a };
        Some(if up { far } else { near })
    }

    pub(super) fn touches(&self, body: usize) -> bool {
        self.story.contacts.iter().any(|c| c.0 == body || c.1 == body)
    }

    /// How many contacts lie between two bodies.
    fn steps(&self, from: usize, to: usize) -> Option<usize> {
        let mut reached = vec![from];
        for step in 0..=self.story.contacts.len() {
            if reached.contains(&to) {
                return Some(step);
            }
            let next: Vec<usize> = self
                .story
                .contacts
                .iter()
                .filter_map(|&(x, y)| match (reached.contains(&x), reached.contains(&y)) {
                    (true, false) => Some(y),
                    (false, true) => Some(x),
                    _ => None,
                })
                .collect();
            reached.extend(next);
        }
        None
    }

    /// How a force on a body that touches others acts: +1 pushes them in the positive sense. `None` where it would pull
    /// the body away from them, or acts on one in the middle.
    pub(super) fn pushes(&self, i: usize, f: &ForceTold) -> Option<i8> {
        let beside: Vec<usize> = self
            .story
            .contacts
            .iter()
            .filter_map(|&(x, y)| {
                if x == i {
                    Some(y)
                } else if y == i {
                    Some(x)
                } else {
                    None
                }
            })
            .collect();
        let [neighbour] = beside.as_slice() else { return None };
        let toward = match f.way {
            Some(Way::Towards(other)) => {
                if self.steps(*neighbour, other)? >= self.steps(i, other)? {
                    return None;
                }
                *neighbour
            }
            None | Some(Way::Forward | Way::UpSlope | Way::DownSlope) if f.pulls != Some(true) => *neighbour,
            _ => return None,
        };
        let (me, you) = (self.bodies.get(i)?, self.bodies.get(toward)?);
        let situation = self.b.situation();
        let link = situation.links.iter().find(|l| {
            l.holds == Holds::Push
                && l.ends.iter().any(|e| e.body == *me)
                && l.ends.iter().any(|e| e.body == *you)
        })?;
        let sense = link.ends.iter().find(|e| e.body == *you)?.sense;
        match f.way {
            Some(Way::UpSlope) if sense != 1 => None,
            Some(Way::DownSlope) if sense != -1 => None,
            _ => Some(sense),
        }
    }
}
