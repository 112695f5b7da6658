//! Equations of several stages that give their unknowns only together: two speeds and two accelerations that fix one
//! coefficient. One or two quantities are supposed, all that follows from them is followed through the stages, and an
//! equation that has not been used on the way closes the ring. So the set is found without trying every set.

use crate::cost;
use crate::search::{Move, Search, Test, Way};
use crate::view::{Entry, View};
use model::QuantityId;
use motion::Law;
use std::collections::{BTreeMap, BTreeSet};

/// The most quantities that are supposed in pairs, and the most rings that are tried.
const MOST_IN_PAIRS: usize = 14;
const MOST_RINGS: usize = 120;
/// The most equations in a ring.
const MOST_IN_A_RING: usize = 10;

/// For every node the way by which it was reached and what that cost; `usize::MAX` for one that is supposed.
type Reached = Vec<Option<(u64, usize)>>;

/// Equations, each with its room, that close a ring, and what they give.
struct Ring {
    cost: u64,
    entries: BTreeSet<(usize, usize)>,
    gives: BTreeSet<usize>,
}

impl Search<'_, '_, '_> {
    /// Adds the cheapest set of equations, of several stages, that gives what nothing else does; false if there is none.
    pub(crate) fn across(&mut self, reached: &Reached, missing: usize) -> bool {
        if self.rooms().len() < 2 {
            return false;
        }
        let open = self.unreached(reached);
        let mut rings: Vec<Ring> = Vec::new();
        for (n, one) in open.iter().enumerate() {
            rings.extend(self.rings(reached, &[*one]));
            let two = open.iter().skip(n + 1).filter(|_| open.len() <= MOST_IN_PAIRS);
            for two in two {
                rings.extend(self.rings(reached, &[*one, *two]));
            }
        }
        rings.sort_by_key(|r| (!r.gives.contains(&missing), r.entries.len(), r.cost));
        let mut tried: BTreeSet<BTreeSet<(usize, usize)>> = BTreeSet::new();
        let tests: [Test; 2] = [crate::search::solvable, crate::eliminate::leads];
        for ring in rings {
            if tried.len() >= MOST_RINGS {
                break;
            }
            if tried.insert(ring.entries.clone()) && tests.iter().any(|test| self.close(&ring, *test)) {
                return true;
            }
        }
        false
    }

    /// What the equations speak of and nothing has reached.
    fn unreached(&self, reached: &Reached) -> Vec<usize> {
        let mut found = BTreeSet::new();
        for room in self.rooms() {
            for i in self.open_entries(room) {
                let open = self.unknowns(room, i, &BTreeSet::new());
                found.extend(open.into_iter().map(|q| self.scope.node(room, q)));
            }
        }
        found.into_iter().filter(|n| reached.get(*n).is_some_and(Option::is_none)).collect()
    }

    /// The rings that close when these quantities are supposed.
    fn rings(&self, before: &Reached, supposed: &[usize]) -> Vec<Ring> {
        let reached = self.spread(supposed);
        let mut open: Vec<Ring> = Vec::new();
        for room in self.rooms() {
            for i in self.open_entries(room) {
                let nodes = self.new_nodes(room, i, before);
                if !nodes.is_empty()
                    && let Some(mut ring) = self.behind(before, &reached, &nodes, supposed)
                    && ring.entries.insert((room, i))
                {
                    ring.cost += self.entry(room, i).map_or(0, cost::writing);
                    open.push(ring);
                }
            }
        }
        if let [_] = supposed {
            open.retain(|r| self.may_close(r));
            return open;
        }
        // Two supposed quantities need two equations that close.
        let mut both = Vec::new();
        for (n, one) in open.iter().enumerate() {
            for two in open.iter().skip(n + 1) {
                let ring = Ring {
                    cost: one.cost + two.cost,
                    entries: one.entries.union(&two.entries).copied().collect(),
                    gives: one.gives.union(&two.gives).copied().collect(),
                };
                if supposed.iter().all(|s| ring.gives.contains(s)) && self.may_close(&ring) {
                    both.push(ring);
                }
            }
        }
        both
    }

    fn entry(&self, room: usize, i: usize) -> Option<&Entry<'_>> {
        self.scope.view(room).and_then(|v| v.entries.get(i))
    }

    /// What an equation leaves open that was not reached before.
    fn new_nodes(&self, room: usize, i: usize, before: &Reached) -> Vec<usize> {
        let open = self.unknowns(room, i, &BTreeSet::new());
        let nodes = open.into_iter().map(|q| self.scope.node(room, q));
        nodes.filter(|n| before.get(*n).is_some_and(Option::is_none)).collect()
    }

    /// The equations by which these follow from what is supposed; `None` if they do not.
    fn behind(
        &self,
        before: &Reached,
        reached: &Reached,
        nodes: &[usize],
        supposed: &[usize],
    ) -> Option<Ring> {
        let mut ring = Ring { cost: 0, entries: BTreeSet::new(), gives: BTreeSet::new() };
        let mut to_do = nodes.to_vec();
        while let Some(node) = to_do.pop() {
            if before.get(node).is_none_or(Option::is_some) || !ring.gives.insert(node) {
                continue;
            }
            if supposed.contains(&node) {
                continue;
            }
            let (_, at) = (*reached.get(node)?)?;
            let way: &Way = self.ways.get(at)?;
            let new = way.entries.iter().filter(|e| ring.entries.insert(**e)).count();
            ring.cost += if new > 0 { way.cost } else { 0 };
            to_do.extend(way.gives.iter().chain(&way.needs));
            if ring.entries.len() > MOST_IN_A_RING {
                return None;
            }
        }
        Some(ring)
    }

    /// As many equations as unknowns, of more than one stage, and none that says what the others say.
    fn may_close(&self, ring: &Ring) -> bool {
        let rooms: BTreeSet<usize> = ring.entries.iter().map(|e| e.0).collect();
        if ring.entries.len() != ring.gives.len() || rooms.len() < 2 {
            return false;
        }
        let mut journeys: BTreeMap<(usize, &[model::BodyId]), usize> = BTreeMap::new();
        let mut motions: BTreeMap<usize, (usize, BTreeSet<model::BodyId>)> = BTreeMap::new();
        for (room, i) in &ring.entries {
            let Some(entry) = self.entry(*room, *i) else { return false };
            match entry.equation.law {
                Law::Journey(_) => *journeys.entry((*room, &entry.equation.system)).or_default() += 1,
                Law::Motion => {
                    let (count, bodies) = motions.entry(*room).or_default();
                    *count += 1;
                    bodies.extend(&entry.equation.system);
                }
                _ => {}
            }
        }
        let often = |room: usize, body: &[model::BodyId]| {
            let all = self.scope.view(room).and_then(View::stage).map_or(&[][..], |s| &s.journeys);
            2 * all.iter().filter(|j| body == [j.body]).count()
        };
        journeys.iter().all(|((room, body), n)| *n <= often(*room, body))
            && motions.values().all(|(count, bodies)| count <= &bodies.len())
    }

    /// Adds the way that goes round the ring, if its equations can be shown to give what they are to give.
    fn close(&mut self, ring: &Ring, test: Test) -> bool {
        let gives: Vec<QuantityId> = ring.gives.iter().map(|n| self.scope.quantity(*n)).collect();
        let mut rooms: Vec<usize> = ring.entries.iter().map(|e| e.0).collect();
        rooms.dedup();
        let mut places: Vec<(usize, usize)> = Vec::new();
        let mut needs = BTreeSet::new();
        for (room, i) in &ring.entries {
            let Some(place) = self.scope.rooms.get(*room) else { return false };
            places.push((*place, *i));
            for id in self.unknowns(*room, *i, &BTreeSet::new()) {
                let node = self.scope.node(*room, id);
                // A quantity that is not the same in all the stages has two values and one name.
                if rooms.iter().any(|r| self.scope.differs(*r, *room, id)) {
                    return false;
                }
                if !ring.gives.contains(&node) {
                    needs.insert(node);
                }
            }
        }
        let step = Move::new(self.scope.views, places, gives);
        let cost = {
            let Some(view) = step.joint(self.scope.views) else { return false };
            let entries: Vec<&Entry<'_>> = step.entries(self.scope.views).map(|(_, e)| e).collect();
            if !test(&view, &entries, &step.gives) {
                return false;
            }
            cost::together(&entries)
        };
        let needs = needs.into_iter().collect();
        let entries = ring.entries.iter().copied().collect();
        self.ways.push(Way { step, entries, gives: ring.gives.iter().copied().collect(), needs, cost });
        true
    }
}
