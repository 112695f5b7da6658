//! What one ask may draw on: its own stage, and the stages that can tell something of what it needs.
//!
//! A quantity that two stages speak of is the same quantity in both; the search sees it as one *node*. Where its
//! value differs (another given in another part of the question) there are two nodes.

use crate::view::{View, same};
use model::{QuantityId, Situation, StageId};
use std::collections::BTreeSet;

/// The views that an ask may draw on, its own first.
pub(crate) struct Scope<'v, 'a> {
    pub(crate) views: &'v [View<'a>],
    /// Their places in `views`.
    pub(crate) rooms: Vec<usize>,
    /// By room and quantity: the node.
    nodes: Vec<Vec<usize>>,
    /// How many nodes there are at most.
    pub(crate) size: usize,
}

impl<'v, 'a> Scope<'v, 'a> {
    /// The scope of an ask of this part whose own view is at this place.
    pub(crate) fn new(
        situation: &Situation,
        views: &'v [View<'a>],
        own: usize,
        part: usize,
    ) -> Scope<'v, 'a> {
        let mut rooms = vec![own];
        let home = views.get(own).map(|v| v.solved.stage);
        let apart = views.get(own).is_some_and(|v| v.apart);
        let alone = situation.stages.len() < 2 || apart;
        for stage in situation.stage_ids().filter(|s| !alone && Some(*s) != home) {
            let at = |v: &View<'_>| v.solved.stage == stage && v.solved.part <= part && !v.apart;
            let latest = views.iter().enumerate().filter(|(_, v)| at(v)).max_by_key(|(_, v)| v.solved.part);
            rooms.extend(latest.map(|(place, _)| place));
        }
        let quantities = situation.quantities.len();
        let nodes = rooms.iter().enumerate().map(|(n, _)| nodes(views, &rooms, n, quantities)).collect();
        let mut scope = Scope { views, size: quantities * rooms.len(), rooms, nodes };
        scope.drop_strangers();
        scope
    }

    /// Leaves out stages that share no unknown with the own one, not even through others.
    fn drop_strangers(&mut self) {
        if self.rooms.len() < 2 {
            return;
        }
        let open: Vec<BTreeSet<usize>> = (0..self.rooms.len()).map(|room| self.open(room)).collect();
        let mut near = vec![false; self.rooms.len()];
        let mut reached: BTreeSet<usize> = BTreeSet::new();
        let mut next = Some(0);
        while let Some(room) = next {
            if let (Some(flag), Some(open)) = (near.get_mut(room), open.get(room)) {
                *flag = true;
                reached.extend(open);
            }
            next = open
                .iter()
                .enumerate()
                .position(|(i, o)| near.get(i) == Some(&false) && o.intersection(&reached).next().is_some());
        }
        let mut keep = near.iter();
        self.rooms.retain(|_| keep.next().copied().unwrap_or(false));
        let mut keep = near.iter();
        self.nodes.retain(|_| keep.next().copied().unwrap_or(false));
    }

    /// The nodes of what the equations of a room leave open.
    fn open(&self, room: usize) -> BTreeSet<usize> {
        let view = self.rooms.get(room).and_then(|v| self.views.get(*v));
        let open = view.into_iter().flat_map(|v| &v.entries).flat_map(|e| &e.open);
        open.map(|q| self.node(room, *q)).collect()
    }

    /// The node of a quantity in a room.
    pub(crate) fn node(&self, room: usize, id: QuantityId) -> usize {
        self.nodes.get(room).and_then(|n| n.get(id.0)).copied().unwrap_or(id.0)
    }
    /// The quantity of a node.
    pub(crate) fn quantity(&self, node: usize) -> QuantityId {
        let quantities = self.nodes.first().map_or(0, Vec::len);
        QuantityId(if quantities == 0 { node } else { node % quantities })
    }
    /// Has a quantity a value in both rooms, and not the same?
    pub(crate) fn differs(&self, one: usize, other: usize, id: QuantityId) -> bool {
        let valued = |room| self.view(room).is_some_and(|v| v.solved.value(id).is_some());
        valued(one) && valued(other) && self.node(one, id) != self.node(other, id)
    }
    /// The view of a room.
    pub(crate) fn view(&self, room: usize) -> Option<&'v View<'a>> {
        self.rooms.get(room).and_then(|v| self.views.get(*v))
    }
}

/// The nodes of one room: shared with the first room in which the quantity has the same value.
fn nodes(views: &[View<'_>], rooms: &[usize], room: usize, quantities: usize) -> Vec<usize> {
    let view = |n: usize| rooms.get(n).and_then(|v| views.get(*v));
    (0..quantities)
        .map(|q| {
            let before = (0..room).find(|n| match (view(*n), view(room)) {
                (Some(one), Some(other)) => agree(one, other, QuantityId(q)),
                _ => false,
            });
            before.unwrap_or(room) * quantities + q
        })
        .collect()
}

/// Has the quantity one and the same value in both?
pub(crate) fn agree(one: &View<'_>, other: &View<'_>, id: QuantityId) -> bool {
    match (one.solved.value(id), other.solved.value(id)) {
        (Some(a), Some(b)) => same(a, b),
        (None, None) => match (one.solved.angles.get(&id), other.solved.angles.get(&id)) {
            (Some(a), Some(b)) => a == b,
            _ => false,
        },
        _ => false,
    }
}

/// How many stages lie before this one in its story.
pub(crate) fn depth(situation: &Situation, stage: StageId) -> usize {
    let mut here = stage;
    for depth in 0..situation.stages.len() {
        match situation.stage(here).and_then(|s| s.begins.as_ref()) {
            Some(begins) => here = begins.after,
            None => return depth,
        }
    }
    situation.stages.len()
}
