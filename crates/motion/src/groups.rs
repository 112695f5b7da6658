//! Which bodies move together: the groups that holding links make.

use crate::LinkState;
use model::{Link, LinkId, Situation};

/// The bodies in groups that links keep together.
#[derive(Clone, Debug)]
pub(crate) struct Groups {
    /// By body: its group.
    pub(crate) of: Vec<usize>,
    /// By body: the sense in which it moves when the first body of its group moves in its positive sense.
    pub(crate) sense: Vec<i8>,
    /// By body: the body whose acceleration it shares (its own, or that of one before it).
    pub(crate) share: Vec<usize>,
    /// The bodies of each group, in order.
    pub(crate) members: Vec<Vec<usize>>,
    /// Links whose constraint is not expressed by sharing.
    pub(crate) explicit: Vec<LinkId>,
}

/// The two ends of a link that joins two bodies.
fn pair(link: &Link) -> Option<(&model::End, &model::End)> {
    match link.ends.as_slice() {
        [one, other] => Some((one, other)),
        _ => None,
    }
}

impl Groups {
    /// Groups by the links for which `holds` says so.
    pub(crate) fn new(situation: &Situation, holds: impl Fn(LinkId) -> bool) -> Groups {
        let n = situation.bodies.len();
        let mut near: Vec<Vec<(usize, i8, bool)>> = vec![Vec::new(); n];
        for (i, link) in situation.links.iter().enumerate() {
            let Some((one, other)) = pair(link).filter(|_| holds(LinkId(i))) else { continue };
            let turn = -one.sense * other.sense;
            let alike = one.times == other.times;
            for (from, to) in [(one, other), (other, one)] {
                if let Some(list) = near.get_mut(from.body.0).filter(|_| to.body.0 < n) {
                    list.push((to.body.0, turn, alike));
                }
            }
        }
        let mut groups = Groups {
            of: vec![usize::MAX; n],
            sense: vec![1; n],
            share: (0..n).collect(),
            members: Vec::new(),
            explicit: Vec::new(),
        };
        for root in 0..n {
            groups.spread(root, &near);
        }
        groups.explicit = situation
            .links
            .iter()
            .enumerate()
            .filter(|(i, link)| holds(LinkId(*i)) && !groups.implies(link))
            .map(|(i, _)| LinkId(i))
            .collect();
        groups
    }

    fn spread(&mut self, root: usize, near: &[Vec<(usize, i8, bool)>]) {
        if self.of.get(root) != Some(&usize::MAX) {
            return;
        }
        let group = self.members.len();
        let mut members = vec![root];
        if let Some(of) = self.of.get_mut(root) {
            *of = group;
        }
        let mut next = 0;
        while let Some(&body) = members.get(next) {
            next += 1;
            let (sense, share) = (self.sense_of(body), self.shared(body));
            for &(other, turn, alike) in near.get(body).map_or(&[][..], Vec::as_slice) {
                let Some(of) = self.of.get_mut(other).filter(|of| **of == usize::MAX) else { continue };
                *of = group;
                members.push(other);
                if let Some(s) = self.sense.get_mut(other) {
                    *s = sense * turn;
                }
                if let Some(s) = self.share.get_mut(other).filter(|_| alike) {
                    *s = share;
                }
            }
        }
        members.sort_unstable();
        self.members.push(members);
    }

    /// Does sharing one acceleration already say what this link says?
    fn implies(&self, link: &Link) -> bool {
        pair(link).is_some_and(|(one, other)| {
            one.times == other.times
                && self.shared(one.body.0) == self.shared(other.body.0)
                && self.sense_of(one.body.0) * one.sense == -self.sense_of(other.body.0) * other.sense
        })
    }

    /// The sense of a body relative to the first of its group.
    pub(crate) fn sense_of(&self, body: usize) -> i8 {
        self.sense.get(body).copied().unwrap_or(1)
    }
    /// The body whose acceleration this one shares.
    pub(crate) fn shared(&self, body: usize) -> usize {
        self.share.get(body).copied().unwrap_or(body)
    }
    /// The group of a body.
    pub(crate) fn group(&self, body: usize) -> usize {
        self.of.get(body).copied().unwrap_or(0)
    }
}

/// Groups by the links that hold in this case.
pub(crate) fn holding(situation: &Situation, links: &[LinkState]) -> Groups {
    Groups::new(situation, |id| links.get(id.0) == Some(&LinkState::Holding))
}
