//! Which bodies stand in one line, which ride on which, and which strings run over pulleys:
//! read from the lines and links of the situation alone.

use model::{Body, BodyId, End, Form, Line, Link, LinkId, Situation};
use std::collections::{BTreeMap, BTreeSet};

/// Bodies joined one behind the other on one line, from the back (or bottom) to the front (or top).
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Chain {
    pub(crate) bodies: Vec<BodyId>,
    pub(crate) line: Line,
}

/// How the bodies of a situation hang together.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Plan {
    pub(crate) chains: Vec<Chain>,
    /// The bodies that stand on each body, from left to right.
    pub(crate) riders: BTreeMap<BodyId, Vec<BodyId>>,
    /// The bodies that hang inside each lift, column by column, each from the top down.
    pub(crate) hung: BTreeMap<BodyId, Vec<Vec<BodyId>>>,
    /// The body on or in which a body is drawn.
    pub(crate) carried_by: BTreeMap<BodyId, BodyId>,
    /// Links that carry no force: drawn as slack.
    pub(crate) loose: BTreeSet<LinkId>,
    /// Strings over pulleys, with their ends.
    pub(crate) over: Vec<(LinkId, Vec<End>)>,
    /// Direct links: the one behind, the one in front.
    pub(crate) direct: Vec<(LinkId, BodyId, BodyId)>,
}

/// The sort of a link as far as the drawing goes.
enum Sort {
    Rides { load: BodyId, carrier: BodyId },
    Direct { behind: BodyId, front: BodyId },
    Over,
}

impl Plan {
    /// Reads a situation with the links that are in force.
    pub(crate) fn of(situation: &Situation, links: &[(LinkId, &Link)], loose: BTreeSet<LinkId>) -> Plan {
        let mut plan = Plan { loose, ..Plan::default() };
        let mut ahead: BTreeMap<BodyId, Vec<BodyId>> = BTreeMap::new();
        for (id, link) in links {
            if link.ends.iter().any(|e| situation.body(e.body).is_none()) {
                continue;
            }
            match sort(situation, link) {
                Some(Sort::Rides { load, carrier }) => plan.ride(load, carrier),
                Some(Sort::Direct { behind, front }) => {
                    plan.direct.push((*id, behind, front));
                    ahead.entry(behind).or_default().push(front);
                }
                Some(Sort::Over) => plan.over.push((*id, link.ends.clone())),
                _ => {}
            }
        }
        for body in situation.body_ids() {
            let under = situation.body(body).and_then(|b| b.surface.as_ref()).and_then(|s| s.under);
            if let Some(under) = under.filter(|u| situation.body(*u).is_some()) {
                plan.ride(body, under);
            }
        }
        plan.hang_inside(situation);
        for riders in plan.riders.values_mut() {
            *riders = in_order(riders.clone(), &ahead);
        }
        plan.collect_chains(situation, &ahead);
        plan
    }

    /// Puts a load on its carrier, unless it has one already or carries it.
    fn ride(&mut self, load: BodyId, carrier: BodyId) {
        if !self.carries(load, carrier) && !self.carried_by.contains_key(&load) {
            self.carried_by.insert(load, carrier);
            self.riders.entry(carrier).or_default().push(load);
        }
    }

    /// What a string or rod holds below a lift hangs inside it, with all that hangs below that.
    fn hang_inside(&mut self, situation: &Situation) {
        let is_lift = |b: BodyId| situation.body(b).is_some_and(|b| b.form == Form::Lift);
        let upright = |b: BodyId| situation.body(b).is_some_and(|b| b.line == Line::Vertical);
        for (_, load, lift) in self.direct.clone() {
            if !is_lift(lift) || !upright(load) || !self.is_tied(situation, load, lift) {
                continue;
            }
            let mut column = Vec::new();
            let mut next = Some(load);
            while let Some(body) = next.filter(|b| !self.carried_by.contains_key(b) && !is_lift(*b)) {
                if self.carries(body, lift) {
                    break;
                }
                self.carried_by.insert(body, lift);
                column.push(body);
                next = self.direct.iter().find(|d| d.2 == body).map(|d| d.1);
            }
            if !column.is_empty() {
                self.hung.entry(lift).or_default().push(column);
            }
        }
    }

    /// Does a string or a rod, not a contact, join these two neighbours?
    fn is_tied(&self, situation: &Situation, behind: BodyId, front: BodyId) -> bool {
        self.between(behind, front).and_then(|id| situation.link(id)).is_some_and(|l| !l.is_contact)
    }

    /// Does `upper` (through others) carry `lower`? Then `upper` cannot also ride on it.
    pub(crate) fn carries(&self, upper: BodyId, lower: BodyId) -> bool {
        let mut at = Some(lower);
        let mut steps = 0;
        while let Some(body) = at {
            if body == upper || steps > self.carried_by.len() {
                return true;
            }
            at = self.carried_by.get(&body).copied();
            steps += 1;
        }
        false
    }

    fn collect_chains(&mut self, situation: &Situation, ahead: &BTreeMap<BodyId, Vec<BodyId>>) {
        let mut neighbours: BTreeMap<BodyId, Vec<BodyId>> = BTreeMap::new();
        // What is tied to a load is a neighbour of what carries the load.
        let mut carriers: BTreeMap<BodyId, Vec<BodyId>> = BTreeMap::new();
        for (behind, fronts) in ahead {
            for front in fronts {
                let (behind, front) = (self.root(*behind), self.root(*front));
                if behind != front {
                    neighbours.entry(behind).or_default().push(front);
                    neighbours.entry(front).or_default().push(behind);
                    carriers.entry(behind).or_default().push(front);
                }
            }
        }
        let ahead = &carriers;
        let mut done: BTreeSet<BodyId> = self.carried_by.keys().copied().collect();
        for body in situation.body_ids() {
            let Some(line) = situation.body(body).map(|b| b.line) else { continue };
            if done.contains(&body) {
                continue;
            }
            let mut members = BTreeSet::new();
            let mut waiting = vec![body];
            while let Some(next) = waiting.pop() {
                if done.insert(next) {
                    members.insert(next);
                    waiting.extend(neighbours.get(&next).into_iter().flatten());
                }
            }
            self.chains.push(Chain { bodies: in_order(members.into_iter().collect(), ahead), line });
        }
    }

    /// The body that carries a body and is itself carried by none; the body itself where none carries it.
    fn root(&self, body: BodyId) -> BodyId {
        let mut root = body;
        for _ in 0..=self.carried_by.len() {
            match self.carried_by.get(&root) {
                Some(&carrier) => root = carrier,
                None => break,
            }
        }
        root
    }

    /// The chain that a body stands in, or that its carrier stands in.
    pub(crate) fn chain_of(&self, body: BodyId) -> Option<usize> {
        let root = self.root(body);
        self.chains.iter().position(|c| c.bodies.contains(&root))
    }

    /// The link that joins two bodies directly.
    pub(crate) fn between(&self, behind: BodyId, front: BodyId) -> Option<LinkId> {
        self.direct.iter().find(|d| d.1 == behind && d.2 == front).map(|d| d.0)
    }

    /// Those that hang inside a body.
    pub(crate) fn hung_in(&self, body: BodyId) -> &[Vec<BodyId>] {
        self.hung.get(&body).map_or(&[], Vec::as_slice)
    }

    /// Those that a body carries on it.
    pub(crate) fn riders_of(&self, body: BodyId) -> &[BodyId] {
        self.riders.get(&body).map_or(&[], Vec::as_slice)
    }
}

/// Back to front; bodies that nothing puts in order stay in the order of the situation.
fn in_order(mut members: Vec<BodyId>, ahead: &BTreeMap<BodyId, Vec<BodyId>>) -> Vec<BodyId> {
    let mut order = Vec::with_capacity(members.len());
    while !members.is_empty() {
        let rear = members
            .iter()
            .copied()
            .find(|b| !members.iter().any(|other| ahead.get(other).is_some_and(|fronts| fronts.contains(b))));
        // Links that chase each other round have no rear: take any.
        let Some(next) = rear.or_else(|| members.first().copied()) else { break };
        members.retain(|b| *b != next);
        order.push(next);
    }
    order
}

/// More bodies than this are drawn with a gap in the middle.
pub(crate) const MOST: usize = 6;

/// At most [`MOST`] bodies: the rear two and the front three of a long train. `None` stands for the rest.
pub(crate) fn thinned(order: &[BodyId]) -> Vec<Option<BodyId>> {
    if order.len() <= MOST {
        return order.iter().copied().map(Some).collect();
    }
    let rear = order.iter().copied().take(2).map(Some);
    let front = order.iter().copied().skip(order.len().saturating_sub(3)).map(Some);
    rear.chain([None]).chain(front).collect()
}

fn sort(situation: &Situation, link: &Link) -> Option<Sort> {
    let [one, two] = link.ends.as_slice() else { return Some(Sort::Over) };
    let (a, b) = (situation.body(one.body)?, situation.body(two.body)?);
    if one.body == two.body {
        return None;
    }
    let upright = a.line == Line::Vertical || b.line == Line::Vertical;
    let (plus, minus) = if one.sense > 0 { (one.body, two.body) } else { (two.body, one.body) };
    if one.sense == two.sense || !link.pulleys.is_empty() {
        return (!link.is_contact).then_some(Sort::Over);
    }
    if link.is_contact && upright {
        return Some(Sort::Rides { load: plus, carrier: minus });
    }
    if !same_line(situation, a, b) {
        return Some(Sort::Over);
    }
    // A pull draws its end forwards, so that end is behind; a push drives its end forwards from behind.
    if link.is_contact {
        Some(Sort::Direct { behind: minus, front: plus })
    } else {
        Some(Sort::Direct { behind: plus, front: minus })
    }
}

fn same_line(situation: &Situation, a: &Body, b: &Body) -> bool {
    match (a.line, b.line) {
        (Line::Level, Line::Level) | (Line::Vertical, Line::Vertical) => true,
        (Line::Slope { angle: one, rises_right: first }, Line::Slope { angle: two, rises_right: second }) => {
            let size = |id| situation.angles.get(&id);
            first == second && (one == two || (size(one).is_some() && size(one) == size(two)))
        }
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::{Builder, Form};

    fn plan(b: Builder) -> Plan {
        let situation = b.finish();
        let links: Vec<_> = situation.link_ids().zip(&situation.links).collect();
        Plan::of(&situation, &links, BTreeSet::new())
    }

    #[test]
    fn what_is_pulled_forwards_stands_behind() {
        let mut b = Builder::new();
        let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, None);
        let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, None);
        b.tow("the coupling", engine, truck);
        assert_eq!(plan(b).chains.first().map(|c| c.bodies.clone()), Some(vec![truck, engine]));
    }

    #[test]
    fn what_is_pushed_forwards_stands_in_front() {
        let mut b = Builder::new();
        let pusher = b.body("block A", "A", Form::Block, Line::Level, None);
        let pushed = b.body("block B", "B", Form::Block, Line::Level, None);
        b.rests_on("the contact", pushed, pusher);
        assert_eq!(plan(b).chains.first().map(|c| c.bodies.clone()), Some(vec![pusher, pushed]));
    }

    #[test]
    fn loads_ride_and_pulleys_part_chains() {
        let mut b = Builder::new();
        let lift = b.body("the lift", "lift", Form::Lift, Line::Vertical, None);
        let load = b.body("the load", "load", Form::Load, Line::Vertical, None);
        let weight = b.body("the counterweight", "C", Form::Load, Line::Vertical, None);
        b.rests_on("the floor", load, lift);
        b.over_pulley("the cable", lift, weight);
        let plan = plan(b);
        assert_eq!(plan.riders_of(lift), [load]);
        assert_eq!(plan.chains.len(), 2);
        assert_eq!(plan.over.len(), 1);
        assert_eq!(plan.chain_of(load), Some(0));
    }
}
