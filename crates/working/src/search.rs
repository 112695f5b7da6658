//! The cheapest order of elimination: from what is known to what is wanted, through all stages that have a say.
//!
//! Every equation with unknowns `U` is a way from `U` without `x` to `x`; two equations that share two
//! unknowns are a way to both. A way is open once all that it rests on is found, and its cost is its own
//! ([`crate::cost`]) plus the cost of what it rests on. Ways are opened in order of cost, so the first way to a
//! quantity is its cheapest; nothing is ever tried twice, and the time grows with the pool, not with the number of orders.

use crate::cost;
use crate::eliminate::leads;
use crate::linear::{Row, determined};
use crate::scope::{Scope, depth};
use crate::view::{Entry, View};
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
/// The most equations with products of unknowns that are solved together, and the most sets of them that are tried.
const MOST_WITH_PRODUCTS: usize = 4;
const MOST_SETS_WITH_PRODUCTS: usize = 600;

/// A step of a plan: equations, of one stage or of several, and the quantities that they give.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Move {
    /// The place of the view; of several the one that is latest in the story.
    pub(crate) view: usize,
    /// By the place of the view, and the place in [`View::entries`](crate::view::View::entries).
    pub(crate) places: Vec<(usize, usize)>,
    pub(crate) gives: Vec<QuantityId>,
}

impl Move {
    /// These equations in the order of the story.
    pub(crate) fn new(views: &[View<'_>], mut places: Vec<(usize, usize)>, gives: Vec<QuantityId>) -> Move {
        let when = |view: usize| {
            let view = views.get(view);
            view.map(|v| (depth(v.situation, v.solved.stage), v.solved.stage))
        };
        places.sort_by_key(|(view, _)| when(*view));
        let view = places.last().map_or(0, |p| p.0);
        Move { view, places, gives }
    }
    /// Its equations, each with its view.
    pub(crate) fn entries<'v, 'a>(
        &self,
        views: &'v [View<'a>],
    ) -> impl Iterator<Item = (&'v View<'a>, &'v Entry<'a>)> {
        self.places.iter().filter_map(|(v, e)| views.get(*v).and_then(|v| Some((v, v.entries.get(*e)?))))
    }
    /// The views of its equations, each once.
    pub(crate) fn views(&self) -> Vec<usize> {
        let mut found: Vec<usize> = self.places.iter().map(|p| p.0).collect();
        found.dedup();
        found
    }
    /// The stages of its equations looked at together, where they are several.
    pub(crate) fn joint<'a>(&self, views: &[View<'a>]) -> Option<View<'a>> {
        let own: Vec<&View<'a>> = self.views().iter().filter_map(|v| views.get(*v)).collect();
        if own.len() < 2 { None } else { View::together(&own) }
    }
    /// What it finds, by view.
    pub(crate) fn finds(&self) -> impl Iterator<Item = (usize, QuantityId)> {
        let all = self.views().into_iter();
        all.flat_map(|v| self.gives.iter().map(move |q| (v, *q)))
    }
}

/// A way to quantities.
pub(crate) struct Way {
    pub(crate) step: Move,
    /// Its equations, by room.
    pub(crate) entries: Vec<(usize, usize)>,
    /// The nodes that it gives and those that it rests on.
    pub(crate) gives: Vec<usize>,
    pub(crate) needs: Vec<usize>,
    pub(crate) cost: u64,
}

/// The search for one thing wanted. An entry is a room of the scope and a place in its view.
pub(crate) struct Search<'s, 'v, 'a> {
    pub(crate) scope: &'s Scope<'v, 'a>,
    /// By room.
    known: &'s [BTreeSet<QuantityId>],
    forbidden: &'s BTreeSet<(usize, usize)>,
    pub(crate) ways: Vec<Way>,
}

/// A plan and what it costs.
#[derive(Clone, Debug)]
pub(crate) struct Plan {
    pub(crate) moves: Vec<Move>,
    pub(crate) cost: u64,
}

/// The cheapest plan from `known` (by room of the scope) to all of `wanted` in the first room, without the
/// forbidden equations (by view and place); `None` if there is none.
pub(crate) fn cheapest(
    scope: &Scope<'_, '_>,
    known: &[BTreeSet<QuantityId>],
    forbidden: &BTreeSet<(usize, usize)>,
    wanted: &[QuantityId],
) -> Option<Plan> {
    let here = known.first()?;
    let wanted: Vec<usize> = wanted.iter().filter(|w| !here.contains(w)).map(|w| scope.node(0, *w)).collect();
    if wanted.is_empty() {
        return Some(Plan { moves: Vec::new(), cost: 0 });
    }
    let mut search = Search { scope, known, forbidden, ways: Vec::new() };
    search.one_at_a_time();
    search.pairs();
    for _ in 0..4 {
        let reached = search.spread(&[]);
        match wanted.iter().find(|w| reached.get(**w).is_none_or(Option::is_none)) {
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

impl Search<'_, '_, '_> {
    pub(crate) fn rooms(&self) -> std::ops::Range<usize> {
        0..self.scope.rooms.len()
    }
    pub(crate) fn open_entries(&self, room: usize) -> impl Iterator<Item = usize> + '_ {
        let view = self.scope.rooms.get(room).copied().unwrap_or(usize::MAX);
        let entries = self.scope.view(room).map_or(0, |v| v.entries.len());
        (0..entries).filter(move |i| !self.forbidden.contains(&(view, *i)))
    }
    /// What an equation leaves open, besides what is known and these.
    pub(crate) fn unknowns(&self, room: usize, entry: usize, found: &BTreeSet<usize>) -> Vec<QuantityId> {
        let entry = self.scope.view(room).and_then(|v| v.entries.get(entry));
        let all = entry.map(|e| e.open.as_slice()).unwrap_or(&[]);
        let known = |q: &QuantityId| self.known.get(room).is_some_and(|k| k.contains(q));
        all.iter().copied().filter(|q| !known(q) && !found.contains(&self.scope.node(room, *q))).collect()
    }
    fn nodes(&self, room: usize, ids: &[QuantityId]) -> Vec<usize> {
        ids.iter().map(|q| self.scope.node(room, *q)).collect()
    }

    fn one_at_a_time(&mut self) {
        let mut ways = Vec::new();
        for room in self.rooms() {
            let (Some(view), Some(&place)) = (self.scope.view(room), self.scope.rooms.get(room)) else {
                continue;
            };
            for i in self.open_entries(room) {
                let Some(entry) = view.entries.get(i) else { continue };
                let unknowns = self.unknowns(room, i, &BTreeSet::new());
                for x in &unknowns {
                    if let Some(cost) = cost::solving(view, entry, *x) {
                        let needs: Vec<QuantityId> = unknowns.iter().copied().filter(|q| q != x).collect();
                        let step = Move { view: place, places: vec![(place, i)], gives: vec![*x] };
                        let gives = vec![self.scope.node(room, *x)];
                        let entries = vec![(room, i)];
                        ways.push(Way { step, entries, gives, needs: self.nodes(room, &needs), cost });
                    }
                }
            }
        }
        self.ways = ways;
    }

    /// What follows without any equation of motion: reactions, friction at its limit, journeys.
    fn settled(&self) -> BTreeSet<usize> {
        let mut settled = BTreeSet::new();
        loop {
            let before = settled.len();
            for room in self.rooms() {
                let Some(view) = self.scope.view(room) else { continue };
                for i in self.open_entries(room) {
                    if view.entries.get(i).is_some_and(|e| !e.is_motion())
                        && let [x] = self.unknowns(room, i, &settled).as_slice()
                    {
                        settled.insert(self.scope.node(room, *x));
                    }
                }
            }
            if settled.len() == before {
                return settled;
            }
        }
    }

    fn pairs(&mut self) {
        let settled = self.settled();
        let mut sharing: BTreeMap<(usize, QuantityId, QuantityId), Vec<usize>> = BTreeMap::new();
        for room in self.rooms() {
            for i in self.open_entries(room) {
                if let [x, y] = self.unknowns(room, i, &settled).as_slice() {
                    sharing.entry((room, *x.min(y), *x.max(y))).or_default().push(i);
                }
            }
        }
        let mut left = MOST_PAIRS;
        for ((room, x, y), entries) in sharing {
            for (n, &one) in entries.iter().enumerate() {
                for &two in entries.iter().skip(n + 1) {
                    if left == 0 {
                        return;
                    }
                    left -= 1;
                    self.join(room, &[one, two], &[x, y], solvable);
                }
            }
        }
    }

    /// Adds the way that solves these equations together for these unknowns, if they determine them.
    fn join(&mut self, room: usize, entries: &[usize], gives: &[QuantityId], test: Test) -> bool {
        let (Some(view), Some(&place)) = (self.scope.view(room), self.scope.rooms.get(room)) else {
            return false;
        };
        let views: Vec<_> = entries.iter().filter_map(|i| view.entries.get(*i)).collect();
        if !test(view, &views, gives) {
            return false;
        }
        let mut needs = BTreeSet::new();
        for i in entries {
            let open = self.unknowns(room, *i, &BTreeSet::new());
            needs.extend(open.into_iter().filter(|q| !gives.contains(q)).map(|q| self.scope.node(room, q)));
        }
        let cost = cost::together(&views);
        let places = entries.iter().map(|i| (place, *i)).collect();
        let step = Move { view: place, places, gives: gives.to_vec() };
        let gives = self.nodes(room, gives);
        let entries = entries.iter().map(|i| (room, *i)).collect();
        self.ways.push(Way { step, entries, gives, needs: needs.into_iter().collect(), cost });
        true
    }

    /// For every quantity the cheapest way to it with its cost, if it can be reached; these are supposed to be known.
    pub(crate) fn spread(&self, supposed: &[usize]) -> Vec<Option<(u64, usize)>> {
        let mut reached: Vec<Option<(u64, usize)>> = vec![None; self.scope.size];
        for node in supposed {
            if let Some(place) = reached.get_mut(*node) {
                *place = Some((0, usize::MAX));
            }
        }
        let given = |node: &usize| supposed.contains(node);
        let mut waiting: Vec<Vec<usize>> = vec![Vec::new(); self.scope.size];
        let mut missing: Vec<usize> = Vec::with_capacity(self.ways.len());
        let mut costs: Vec<u64> = self.ways.iter().map(|w| w.cost).collect();
        let mut open = BinaryHeap::new();
        for (i, way) in self.ways.iter().enumerate() {
            let needs = way.needs.iter().filter(|n| !given(n)).count();
            missing.push(needs);
            if needs == 0 {
                open.push(Reverse((way.cost, i)));
            }
            for need in way.needs.iter().filter(|n| !given(n)) {
                if let Some(list) = waiting.get_mut(*need) {
                    list.push(i);
                }
            }
        }
        while let Some(Reverse((cost, i))) = open.pop() {
            let Some(way) = self.ways.get(i) else { continue };
            for give in &way.gives {
                let Some(place) = reached.get_mut(*give).filter(|p| p.is_none()) else { continue };
                *place = Some((cost, i));
                for &next in waiting.get(*give).map(Vec::as_slice).unwrap_or(&[]) {
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
    fn gather(&self, reached: &[Option<(u64, usize)>], wanted: &[usize]) -> Option<Plan> {
        let mut chosen: Vec<&Way> = Vec::new();
        let mut done: BTreeSet<usize> = BTreeSet::new();
        let mut found: BTreeSet<usize> = BTreeSet::new();
        let mut cost = 0;
        let mut to_do: Vec<(usize, bool)> = wanted.iter().rev().map(|w| (*w, false)).collect();
        while let Some((id, ready)) = to_do.pop() {
            if found.contains(&id) {
                continue;
            }
            let (_, i) = (*reached.get(id)?)?;
            let way = self.ways.get(i)?;
            if ready {
                found.extend(&way.gives);
                if done.insert(i) {
                    chosen.push(way);
                    cost += way.cost;
                }
            } else {
                to_do.push((id, true));
                to_do.extend(way.needs.iter().rev().map(|n| (*n, false)));
            }
        }
        Some(Plan { moves: self.as_the_story_goes(chosen), cost })
    }

    /// The same moves, those of earlier stages first wherever they rest on nothing later.
    fn as_the_story_goes(&self, mut chosen: Vec<&Way>) -> Vec<Move> {
        let mut moves = Vec::new();
        let mut open: BTreeSet<usize> = chosen.iter().flat_map(|w| w.gives.iter().copied()).collect();
        while !chosen.is_empty() {
            let ready = |w: &Way| !w.needs.iter().any(|n| open.contains(n) && !w.gives.contains(n));
            let rank = |w: &Way| {
                let view = self.scope.views.get(w.step.view);
                view.map(|v| (depth(v.situation, v.solved.stage), v.solved.stage))
            };
            let places = (0..chosen.len()).filter(|i| chosen.get(*i).is_some_and(|w| ready(w)));
            let next = places.min_by_key(|i| (chosen.get(*i).and_then(|w| rank(w)), *i)).unwrap_or(0);
            let way = chosen.remove(next);
            for give in &way.gives {
                open.remove(give);
            }
            moves.push(way.step.clone());
        }
        moves
    }

    /// Where one and two at a time do not lead to a quantity: the smallest set of equations of one stage that does,
    /// linear if there is one; else the equations of several stages that do.
    fn several(&mut self, reached: &Vec<Option<(u64, usize)>>, missing: usize) -> bool {
        self.smallest(reached, missing, solvable, MOST_TOGETHER, MOST_SETS)
            || self.smallest(reached, missing, leads, MOST_WITH_PRODUCTS, MOST_SETS_WITH_PRODUCTS)
            || self.across(reached, missing)
    }

    fn smallest(
        &mut self,
        reached: &[Option<(u64, usize)>],
        missing: usize,
        test: Test,
        most: usize,
        most_sets: usize,
    ) -> bool {
        let found: BTreeSet<usize> =
            reached.iter().enumerate().filter(|(_, r)| r.is_some()).map(|(i, _)| i).collect();
        for room in self.rooms() {
            let mut open: Vec<Open> = Vec::new();
            for i in self.open_entries(room) {
                let unknowns = self.unknowns(room, i, &found);
                let entry = self.scope.view(room).and_then(|v| v.entries.get(i));
                if let Some(entry) = entry.filter(|_| !unknowns.is_empty()) {
                    open.push((cost::writing(entry), i, unknowns));
                }
            }
            open.sort();
            let mut tries = most_sets;
            for size in 2..=most {
                if let Some((entries, gives)) = self.grow(room, &open, missing, size, &mut tries, test) {
                    return self.join(room, &entries, &gives, test);
                }
            }
        }
        false
    }

    fn grow(
        &self,
        room: usize,
        open: &[Open],
        missing: usize,
        size: usize,
        tries: &mut usize,
        test: Test,
    ) -> Option<(Vec<usize>, Vec<QuantityId>)> {
        let view = self.scope.view(room)?;
        // Sets under way, each a list of places in `open` in growing order of discovery. What is missing in
        // another stage may follow from anything here.
        let here = open.iter().flat_map(|o| &o.2).any(|q| self.scope.node(room, *q) == missing);
        let mut stack: Vec<(Vec<usize>, BTreeSet<QuantityId>)> = Vec::new();
        for (place, (_, _, unknowns)) in open.iter().enumerate().rev() {
            let holds = !here || unknowns.iter().any(|q| self.scope.node(room, *q) == missing);
            if holds && unknowns.len() <= size {
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
                let all: Vec<_> = entries.iter().filter_map(|i| view.entries.get(*i)).collect();
                if test(view, &all, &gives) {
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

/// What writing an equation costs, its place, and what it leaves open.
type Open = (u64, usize, Vec<QuantityId>);

/// A test of whether equations give quantities.
pub(crate) type Test = fn(&View<'_>, &[&Entry<'_>], &[QuantityId]) -> bool;

/// Do these equations together give these quantities, by steps that can be shown?
pub(crate) fn solvable(view: &View<'_>, entries: &[&Entry<'_>], gives: &[QuantityId]) -> bool {
    let rows: Option<Vec<Row>> = entries.iter().map(|e| Row::of(view, e, gives)).collect();
    rows.is_some_and(|rows| determined(rows, gives.len()))
}

/// Is this an equation that makes a route its own, rather than a law that every route needs?
pub(crate) fn marks_a_route(law: &Law) -> bool {
    matches!(law, Law::Motion | Law::Journey(_))
}
