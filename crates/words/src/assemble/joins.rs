//! Strings and bars: which end is in front, which pulleys a string runs over, which cable leaves the story.

use crate::assemble::{Assembly, Became};
use crate::names;
use crate::story::{Fact, LinkTold, On, Way};
use model::{Direction, Form, Holds, Line, Pulley, PulleyId, Refusal, Role};
use std::collections::{BTreeMap, BTreeSet};

impl<'a> Assembly<'a> {
    /// The two ends of a link, where they can be told.
    pub(crate) fn ends(&self, l: usize, taken: &BTreeSet<(usize, usize)>) -> Vec<usize> {
        let story = self.story;
        let Some(link) = story.links.get(l) else { return Vec::new() };
        if !link.ends.is_empty() {
            // One end told, and exactly one body left that hangs or is towed without a link.
            return link.ends.clone();
        }
        for &(a, b) in &story.tows {
            let pair = (a.min(b), a.max(b));
            let told = story.links.iter().any(|x| x.ends.contains(&a) && x.ends.contains(&b));
            if !told && !taken.contains(&pair) {
                return vec![a, b];
            }
        }
        Vec::new()
    }

    pub(crate) fn join(&mut self) {
        let story = self.story;
        for pulley in &story.pulleys {
            let name = if pulley.noun.chars().count() == 1 {
                pulley.noun.clone()
            } else {
                format!("the {}", pulley.noun)
            };
            self.b.situation_mut().pulleys.push(Pulley { name, span: Some(pulley.span) });
        }
        let mut taken: BTreeSet<(usize, usize)> = BTreeSet::new();
        let mut ends_of: Vec<Vec<usize>> = Vec::new();
        for l in 0..story.links.len() {
            let ends = self.ends(l, &taken);
            if let [a, b] = ends.as_slice() {
                taken.insert((*a.min(b), *a.max(b)));
            }
            ends_of.push(ends);
        }
        self.complete_ends(&mut ends_of);
        let fronts = self.fronts(&ends_of);
        let mut right_used: BTreeSet<usize> = BTreeSet::new();
        for (l, link) in story.links.iter().enumerate() {
            let ends = ends_of.get(l).cloned().unwrap_or_default();
            let became = match ends.as_slice() {
                [a, b] => self.link(l, link, *a, *b, &fronts, &mut right_used),
                [one] => self.cable(l, link, *one),
                _ => {
                    {
                        self.refuse(
                            Refusal::Incomplete,
                            format!("it is not said what the {} joins", link.noun),
                            link.span,
                            "say, for example: joined to Q by a light inextensible string",
                        );
                    }
                    Became::Nothing
                }
            };
            self.links.push(became);
        }
        // Something holds the lift up, even if nobody asks about it.
        for (i, body) in story.bodies.iter().enumerate() {
            let Some(&id) = self.bodies.get(i) else { continue };
            let carried = matches!(body.on, Some(On::Body(_)));
            let situation = self.b.situation();
            let held = situation.actions.iter().any(|a| a.on == id)
                || situation.links.iter().any(|l| {
                    !l.is_contact
                        && l.ends.iter().any(|e| e.body == id && (e.sense == 1 || !l.pulleys.is_empty()))
                })
                || story.forces.iter().any(|f| f.on == Some(i) && f.role != Role::Resistance);
            if body.form == Form::Lift && !carried && !held {
                self.b.act(Role::Cable, "tension in the cable", id, Direction::Along(1));
                self.b.situation_mut().assumed.push(format!(
                    "{} is held up by a light cable",
                    self.story.bodies.get(i).map_or_else(String::new, names::of_body)
                ));
            }
        }
        // Towed, with nothing named between: a coupling that can pull or push.
        for &(a, b) in &story.tows {
            let joined = ends_of.iter().any(|e| e.contains(&a) && e.contains(&b));
            if !joined && let (Some(&x), Some(&y)) = (self.bodies.get(a), self.bodies.get(b)) {
                self.b.tow("the coupling", x, y);
                let text = format!(
                    "{} and {} are joined by a light coupling that can pull or push",
                    self.name(a),
                    self.name(b)
                );
                self.b.situation_mut().assumed.push(text);
            }
        }
    }

    /// Ends that are plain though nobody said them: the lift's cable, the only bodies there are.
    fn complete_ends(&mut self, ends_of: &mut [Vec<usize>]) {
        let story = self.story;
        let lift = story.bodies.iter().position(|b| b.form == Form::Lift);
        // What hangs or lies somewhere is told of; only such a body can be at an end that nobody named.
        let placed = |b: &usize| story.bodies.get(*b).is_some_and(|x| x.hangs || x.on.is_some());
        for (l, link) in story.links.iter().enumerate() {
            let linked: BTreeSet<usize> = ends_of.iter().flatten().copied().collect();
            let Some(ends) = ends_of.get_mut(l) else { continue };
            if ends.is_empty() {
                if let Some(lift) =
                    lift.filter(|_| link.pulleys.is_empty() && !linked.contains(&lift.unwrap_or(0)))
                {
                    *ends = vec![lift];
                    continue;
                }
                let free: Vec<usize> = (0..story.bodies.len())
                    .filter(|b| {
                        !linked.contains(b)
                            && !story.bodies.get(*b).is_some_and(|x| matches!(x.on, Some(On::Body(_))))
                    })
                    .collect();
                if !link.pulleys.is_empty()
                    && free.len() == 2
                    && story.bodies.len() == 2
                    && free.iter().all(placed)
                {
                    *ends = free;
                } else if story.bodies.len() == 1 && link.pulleys.is_empty() {
                    *ends = vec![0];
                }
            } else if ends.len() == 1 && !link.pulleys.is_empty() {
                let free: Vec<usize> =
                    (0..story.bodies.len()).filter(|b| !linked.contains(b) && !ends.contains(b)).collect();
                if let [other] = free.as_slice()
                    && placed(other)
                {
                    ends.push(*other);
                }
            }
        }
    }

    /// How far each body is from the front of its train: the smaller, the more to the front.
    fn fronts(&self, ends_of: &[Vec<usize>]) -> BTreeMap<usize, usize> {
        let story = self.story;
        let mut leaders: Vec<usize> = Vec::new();
        for f in &story.forces {
            if matches!(f.role, Role::Driving | Role::Applied) && f.way != Some(Way::Backward) {
                leaders.extend(f.on);
            }
        }
        for (l, e) in ends_of.iter().enumerate() {
            if let ([one], Some(_)) = (e.as_slice(), story.links.get(l)) {
                leaders.push(*one);
            }
        }
        if leaders.is_empty() {
            leaders.extend(story.tows.first().map(|t| t.0));
        }
        for f in story.forces.iter().filter(|f| f.role == Role::Braking) {
            leaders.extend(f.on);
        }
        let mut far: BTreeMap<usize, usize> = BTreeMap::new();
        let mut queue: Vec<(usize, usize)> = leaders.first().map(|&b| (b, 0)).into_iter().collect();
        // Each further train starts with its first body.
        let mut rest: Vec<usize> = (0..story.bodies.len()).rev().collect();
        loop {
            while let Some((b, d)) = queue.first().copied() {
                queue.remove(0);
                if far.contains_key(&b) {
                    continue;
                }
                far.insert(b, d);
                for e in ends_of.iter().filter(|e| e.len() == 2 && e.contains(&b)) {
                    queue.extend(e.iter().filter(|x| **x != b).map(|x| (*x, d + 1)));
                }
                for (x, y) in &story.tows {
                    if *x == b {
                        queue.push((*y, d + 1));
                    }
                }
            }
            match rest.pop() {
                Some(b) if !far.contains_key(&b) => queue.push((b, 0)),
                Some(_) => {}
                None => break,
            }
        }
        far
    }

    fn link(
        &mut self,
        l: usize,
        link: &LinkTold,
        a: usize,
        b: usize,
        fronts: &BTreeMap<usize, usize>,
        right_used: &mut BTreeSet<usize>,
    ) -> Became {
        let (Some(&x), Some(&y), Some(&lx), Some(&ly)) =
            (self.bodies.get(a), self.bodies.get(b), self.lines.get(a), self.lines.get(b))
        else {
            return Became::Nothing;
        };
        let name = self.link_name(l, link, a, b);
        if let Some(lean) = &link.lean {
            self.refuse(
                Refusal::Unread,
                format!(
                    "the {} is at an angle to the motion; between two bodies this is not followed",
                    link.noun
                ),
                lean.span,
                "make it parallel to the motion",
            );
        }
        let same_line = lx == ly && !matches!(lx, Line::Vertical);
        if link.pulleys.is_empty() && link.level && matches!(lx, Line::Slope { .. }) {
            self.refuse(
                Refusal::Unread,
                format!("the {} is horizontal, and the bodies are on a slope", link.noun),
                link.span,
                "make it parallel to the slope",
            );
        }
        let pulleys = if link.pulleys.is_empty() && !same_line && !self.story.pulleys.is_empty() {
            vec![self.story.pulleys.len() - 1]
        } else {
            link.pulleys.clone()
        };
        let id = if !pulleys.is_empty() {
            let mut sense = |i: usize, line: Line| -> i8 {
                if matches!(line, Line::Level) && !right_used.insert(i) { -1 } else { 1 }
            };
            let ends = [(x, sense(a, lx)), (y, sense(b, ly))];
            let id = self.b.link(&name, Holds::Pull, false, &ends);
            let slung: Vec<_> = self.story.slung.iter().filter(|s| s.0 == l).map(|s| s.1).collect();
            let slung: Vec<_> = slung.iter().filter_map(|&b| self.bodies.get(b).copied()).collect();
            if let Some(link) = self.b.situation_mut().links.get_mut(id.0) {
                for end in link.ends.iter_mut().filter(|e| slung.contains(&e.body)) {
                    end.times = 2;
                }
                link.pulleys = pulleys.into_iter().map(PulleyId).collect();
            }
            id
        } else if same_line {
            let towed = self.story.tows.contains(&(b, a)) || self.story.order.contains(&(b, a));
            let tows = self.story.tows.contains(&(a, b)) || self.story.order.contains(&(a, b));
            let a_front = tows || (!towed && fronts.get(&a) <= fronts.get(&b));
            // Down a slope the front is the lower end.
            let down = matches!(lx, Line::Slope { .. }) && self.heads_down() && !self.pulled_up();
            let (front, behind) = if a_front != down { (x, y) } else { (y, x) };
            self.b.link(&name, link.holds, false, &[(behind, 1), (front, -1)])
        } else if matches!((lx, ly), (Line::Vertical, Line::Vertical)) {
            if !self.story.order.contains(&(a, b)) && !self.story.order.contains(&(b, a)) {
                self.refuse(
                    Refusal::Incomplete,
                    format!(
                        "it is not said how {} and {} hang from the {}",
                        self.name(a),
                        self.name(b),
                        link.noun
                    ),
                    link.span,
                    "name the pulley that it passes over, or say which hangs below the other",
                );
            }
            // One below the other.
            let (above, below) = if self.story.order.contains(&(b, a)) { (y, x) } else { (x, y) };
            self.b.link(&name, link.holds, false, &[(below, 1), (above, -1)])
        } else {
            self.refuse(
                Refusal::Incomplete,
                format!(
                    "{} and {} move along different lines, and no pulley is named",
                    self.name(a),
                    self.name(b)
                ),
                link.span,
                "say: the string passes over a smooth pulley",
            );
            return Became::Nothing;
        };
        if let Some(made) = self.b.situation_mut().links.get_mut(id.0) {
            made.span = Some(link.span);
        }
        Became::Link(id)
    }

    /// Do the bodies travel down the slope?
    fn heads_down(&self) -> bool {
        self.story.motions.iter().any(|m| matches!(m.fact, Fact::Heading(Way::DownSlope | Way::Down)))
    }

    /// Does a pull from above hold or draw them?
    fn pulled_up(&self) -> bool {
        self.story.forces.iter().any(|f| f.role == Role::Applied && f.way != Some(Way::DownSlope))
    }

    fn link_name(&self, _l: usize, link: &LinkTold, a: usize, b: usize) -> String {
        let many = self.story.links.iter().filter(|x| x.noun == link.noun).count() > 1;
        if many {
            format!("the {} joining {} and {}", link.noun, self.name(a), self.name(b))
        } else {
            format!("the {}", link.noun)
        }
    }

    fn cable(&mut self, _l: usize, link: &LinkTold, body: usize) -> Became {
        let Some(&id) = self.bodies.get(body) else { return Became::Nothing };
        if !link.pulleys.is_empty() {
            self.refuse(
                Refusal::Incomplete,
                format!("it is not said what hangs from the other end of the {}", link.noun),
                link.span,
                "name what is attached to each end of the string",
            );
            return Became::Nothing;
        }
        if (link.level || link.vertical) && matches!(self.lines.get(body), Some(Line::Slope { .. })) {
            self.refuse(
                Refusal::Unread,
                format!("the {} is not parallel to the slope", link.noun),
                link.span,
                "make it parallel to the slope",
            );
        }
        let already = self.story.forces.iter().any(|f| f.role == Role::Applied && f.on == Some(body));
        if already {
            // The rope only passes on the pull that is named.
            return Became::Nothing;
        }
        let direction = match &link.lean {
            Some(lean) => self.aslant(body, lean, Some(true), 1).unwrap_or(Direction::Along(1)),
            None => Direction::Along(1),
        };
        let action = self.b.act(Role::Cable, &format!("tension in the {}", link.noun), id, direction);
        if let Some(a) = self.b.situation_mut().actions.get_mut(action.0) {
            a.span = Some(link.span);
        }
        Became::Cable(action)
    }

    /// The sense that leads away from another body on the same line.
    pub(super) fn away(&self, i: usize, other: usize) -> i8 {
        let (Some(&me), Some(&you)) = (self.bodies.get(i), self.bodies.get(other)) else { return 1 };
        let situation = self.b.situation();
        let link = situation.links.iter().find(|l| {
            l.pulleys.is_empty()
                && l.ends.iter().any(|e| e.body == me)
                && l.ends.iter().any(|e| e.body == you)
        });
        link.and_then(|l| l.ends.iter().find(|e| e.body == me)).map_or(1, |e| -e.sense)
    }
}
