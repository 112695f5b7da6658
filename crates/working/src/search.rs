//! The cheapest order of elimination: from what is known to what is wanted.
//!
//! Every equation with unknowns `U` is a way from `U` without `x` to `x`; two equations that share two
//! unknowns are a way to both. A way is open once all that it rests on is found, and its cost is its own
//! ([`crate::cost`]) plus the cost of what it rests on. Ways are opened in order of cost, so the first way to a
//! quantity is its cheapest; nothing is ever tried twice, and the time grows with the pool, not with the number of orders.

use crate::cost;
use crate::linear::{Row, determined};
use crate::view::View;
use model::QuantityId;
use motion::Law;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

/// The most pairs of equations that are looked at, so that a long train stays quick.
const MOST_PAIRS: usize = 400;
/// The most equations solved together.
const MOST_TOGETHER: usize = 6;
/// The most sets of equations that are tried where neither one nor two at a time lead on.
const MOST_SETS: usize = 4_000;

/// A step of a plan: equations (by their place in [`View::entries`]) and the quantities that they give.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Move {
    pub(crate) entries: Vec<usize>,
    pub(crate) gives: Vec<QuantityId>,
}

struct Way {
    step: Move,
    needs: Vec<QuantityId>,
    cost: u64,
}

/// The search for one thing wanted.
pub(crate) struct Search<'v, 'a> {
    view: &'v View<'a>,
    known: &'v BTreeSet<QuantityId>,
    forbidden: &'v BTreeSet<usize>,
    ways: Vec<Way>,
}

/// A plan and what it costs.
#[derive(Clone, Debug)]
pub(crate) struct Plan {
    pub(crate) moves: Vec<Move>,
    pub(crate) cost: u64,
}

/// The cheapest plan from `known` to all of `wanted`, without the forbidden equations; `None` if there is none.
pub(crate) fn cheapest(
    view: &View<'_>,
    known: &BTreeSet<QuantityId>,
    forbidden: &BTreeSet<usize>,
    wanted: &[QuantityId],
) -> Option<Plan> {
    let wanted: Vec<QuantityId> = wanted.iter().copied().filter(|w| !known.contains(w)).collect();
    if wanted.is_empty() {
        return Some(Plan { moves: Vec::new(), cost: 0 });
    }
    let mut search = Search { view, known, forbidden, ways: Vec::new() };
    search.one_at_a_time();
    search.pairs();
    for _ in 0..4 {
        let reached = search.spread();
        match wanted.iter().find(|w| reached.get(w.0).is_none_or(Option::is_none)) {
            None => return search.gather(&reached, &wanted),
            Some(missing) => {
                if !search.several(&reached, *missing) {
                    return None;
                }
            }
        }
    }
    None
}

impl Search<'_, '_> {
    fn open_entries(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.view.entries.len()).filter(|i| !self.forbidden.contains(i))
    }
    fn unknowns(&self, entry: usize, known: &BTreeSet<QuantityId>) -> Vec<QuantityId> {
        let all = self.view.entries.get(entry).map(|e| e.open.as_slice()).unwrap_or(&[]);
        all.iter().copied().filter(|q| !self.known.contains(q) && !known.contains(q)).collect()
    }

    fn one_at_a_time(&mut self) {
        let mut ways = Vec::new();
        for i in self.open_entries() {
            let Some(entry) = self.view.entries.get(i) else { continue };
            let unknowns = self.unknowns(i, &BTreeSet::new());
            for x in &unknowns {
                if let Some(cost) = cost::solving(self.view, entry, *x) {
                    let needs = unknowns.iter().copied().filter(|q| q != x).collect();
                    ways.push(Way { step: Move { entries: vec![i], gives: vec![*x] }, needs, cost });
                }
            }
        }
        self.ways = ways;
    }

    /// What follows without any equation of motion: reactions, friction at its limit, journeys.
    fn settled(&self) -> BTreeSet<QuantityId> {
        let mut settled = BTreeSet::new();
        loop {
            let before = settled.len();
            for i in self.open_entries() {
                if self.view.entries.get(i).is_some_and(|e| !e.is_motion())
                    && let [x] = self.unknowns(i, &settled).as_slice()
                {
                    settled.insert(*x);
                }
            }
            if settled.len() == before {
                return settled;
            }
        }
    }

    fn pairs(&mut self) {
        let settled = self.settled();
        let mut sharing: BTreeMap<(QuantityId, QuantityId), Vec<usize>> = BTreeMap::new();
        for i in self.open_entries() {
            if let [x, y] = self.unknowns(i, &settled).as_slice() {
                sharing.entry((*x.min(y), *x.max(y))).or_default().push(i);
            }
        }
        let mut left = MOST_PAIRS;
        for ((x, y), entries) in sharing {
            for (n, &one) in entries.iter().enumerate() {
                for &two in entries.iter().skip(n + 1) {
                    if left == 0 {
                        return;
                    }
                    left -= 1;
                    self.join(&[one, two], &[x, y]);
                }
            }
        }
    }

    /// Adds the way that solves these equations together for these unknowns, if they determine them.
    fn join(&mut self, entries: &[usize], gives: &[QuantityId]) -> bool {
        let views: Vec<_> = entries.iter().filter_map(|i| self.view.entries.get(*i)).collect();
        let rows: Option<Vec<Row>> = views.iter().map(|e| Row::of(self.view, e, gives)).collect();
        if !rows.is_some_and(|rows| determined(rows, gives.len())) {
            return false;
        }
        let mut needs = BTreeSet::new();
        for i in entries {
            needs.extend(self.unknowns(*i, &BTreeSet::new()).into_iter().filter(|q| !gives.contains(q)));
        }
        let cost = cost::together(&views);
        let step = Move { entries: entries.to_vec(), gives: gives.to_vec() };
        self.ways.push(Way { step, needs: needs.into_iter().collect(), cost });
        true
    }

    /// For every quantity the cheapest way to it with its cost, if it can be reached.
    fn spread(&self) -> Vec<Option<(u64, usize)>> {
        let quantities = self.view.situation.quantities.len();
        let mut reached: Vec<Option<(u64, usize)>> = vec![None; quantities];
        let mut waiting: Vec<Vec<usize>> = vec![Vec::new(); quantities];
        let mut missing: Vec<usize> = Vec::with_capacity(self.ways.len());
        let mut costs: Vec<u64> = self.ways.iter().map(|w| w.cost).collect();
        let mut open = BinaryHeap::new();
        for (i, way) in self.ways.iter().enumerate() {
            missing.push(way.needs.len());
            if way.needs.is_empty() {
                open.push(Reverse((way.cost, i)));
            }
            for need in &way.needs {
                if let Some(list) = waiting.get_mut(need.0) {
                    list.push(i);
                }
            }
        }
        while let Some(Reverse((cost, i))) = open.pop() {
            let Some(way) = self.ways.get(i) else { continue };
            for give in &way.step.gives {
                let Some(place) = reached.get_mut(give.0).filter(|p| p.is_none()) else { continue };
                *place = Some((cost, i));
                for &next in waiting.get(give.0).map(Vec::as_slice).unwrap_or(&[]) {
                    let (Some(left), Some(total)) = (missing.get_mut(next), costs.get_mut(next)) else {
                        continue;
                    };
                    *left = left.saturating_sub(1);
                    *total = total.saturating_add(cost);
                    if *left == 0 {
                        open.push(Reverse((*total, next)));
                    }
                }
            }
        }
        reached
    }

    /// The moves that lead to all that is wanted, each after those that it rests on.
    fn gather(&self, reached: &[Option<(u64, usize)>], wanted: &[QuantityId]) -> Option<Plan> {
        let mut moves: Vec<Move> = Vec::new();
        let mut done: BTreeSet<usize> = BTreeSet::new();
        let mut found: BTreeSet<QuantityId> = BTreeSet::new();
        let mut cost = 0;
        let mut to_do: Vec<(QuantityId, bool)> = wanted.iter().rev().map(|w| (*w, false)).collect();
        while let Some((id, ready)) = to_do.pop() {
            if found.contains(&id) {
                continue;
            }
            let (_, i) = (*reached.get(id.0)?)?;
            let way = self.ways.get(i)?;
            if ready {
                found.extend(&way.step.gives);
                if done.insert(i) {
                    moves.push(way.step.clone());
                    cost += way.cost;
                }
            } else {
                to_do.push((id, true));
                to_do.extend(way.needs.iter().rev().map(|n| (*n, false)));
            }
        }
        Some(Plan { moves, cost })
    }

    /// Where one and two at a time do not lead to a quantity: the smallest set of equations that does.
    fn several(&mut self, reached: &[Option<(u64, usize)>], missing: QuantityId) -> bool {
        let found: BTreeSet<QuantityId> =
            reached.iter().enumerate().filter(|(_, r)| r.is_some()).map(|(i, _)| QuantityId(i)).collect();
        let mut open: Vec<(u64, usize, Vec<QuantityId>)> = Vec::new();
        for i in self.open_entries() {
            let unknowns = self.unknowns(i, &found);
            if let Some(entry) = self.view.entries.get(i).filter(|_| !unknowns.is_empty()) {
                open.push((cost::writing(entry), i, unknowns));
            }
        }
        open.sort();
        let mut tries = MOST_SETS;
        for size in 2..=MOST_TOGETHER {
            if let Some((entries, gives)) = self.grow(&open, missing, size, &mut tries) {
                return self.join(&entries, &gives);
            }
        }
        false
    }

    fn grow(
        &self,
        open: &[(u64, usize, Vec<QuantityId>)],
        missing: QuantityId,
        size: usize,
        tries: &mut usize,
    ) -> Option<(Vec<usize>, Vec<QuantityId>)> {
        // Sets under way, each a list of places in `open` in growing order of discovery.
        let mut stack: Vec<(Vec<usize>, BTreeSet<QuantityId>)> = Vec::new();
        for (place, (_, _, unknowns)) in open.iter().enumerate().rev() {
            if unknowns.contains(&missing) && unknowns.len() <= size {
                stack.push((vec![place], unknowns.iter().copied().collect()));
            }
        }
        let mut seen: BTreeSet<BTreeSet<usize>> = BTreeSet::new();
        while let Some((set, unknowns)) = stack.pop() {
            if *tries == 0 {
                return None;
            }
            *tries -= 1;
            if set.len() == unknowns.len() {
                let gives: Vec<QuantityId> = unknowns.iter().copied().collect();
                let entries: Vec<usize> = set.iter().filter_map(|p| open.get(*p).map(|o| o.1)).collect();
                let rows: Option<Vec<Row>> = entries
                    .iter()
                    .map(|i| self.view.entries.get(*i).and_then(|e| Row::of(self.view, e, &gives)))
                    .collect();
                if rows.is_some_and(|rows| determined(rows, gives.len())) {
                    return Some((entries, gives));
                }
                continue;
            }
            if set.len() >= size {
                continue;
            }
            for (place, (_, _, more)) in open.iter().enumerate().rev() {
                if set.contains(&place) || !more.iter().any(|q| unknowns.contains(q)) {
                    continue;
                }
                let union: BTreeSet<QuantityId> = unknowns.iter().chain(more).copied().collect();
                let mut next = set.clone();
                next.push(place);
                if union.len() <= size && seen.insert(next.iter().copied().collect()) {
                    stack.push((next, union));
                }
            }
        }
        None
    }
}

/// Is this an equation that makes a route its own, rather than a law that every route needs?
pub(crate) fn marks_a_route(law: &Law) -> bool {
    matches!(law, Law::Motion | Law::Journey(_))
}
