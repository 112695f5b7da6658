//! Which bodies move together: the groups that holding links make.

use crate::LinkState;
use crate::setting::whole;
use crate::stack::Top;
use exact::Rational;
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
    /// By group: do its links and its stacks allow no motion (two blocks on one another, tied round a pulley)?
    pub(crate) jammed: Vec<bool>,
}

/// A body next to another: which, in which sense it goes along, how many times as far, and whether that is once.
#[derive(Clone, Debug)]
struct Near {
    body: usize,
    turn: i8,
    ratio: Rational,
    alike: bool,
}

/// The two ends of a link that joins two bodies.
fn pair(link: &Link) -> Option<(&model::End, &model::End)> {
    match link.ends.as_slice() {
        [one, other] => Some((one, other)),
        _ => None,
    }
}

impl Groups {
    /// Groups by the links for which `holds` says so, and the bodies that go along with what they stand on.
    pub(crate) fn new(situation: &Situation, holds: impl Fn(LinkId) -> bool, tops: &[Top]) -> Groups {
        let n = situation.bodies.len();
        let mut near: Vec<Vec<Near>> = vec![Vec::new(); n];
        for (i, link) in situation.links.iter().enumerate() {
            let Some((one, other)) = pair(link).filter(|_| holds(LinkId(i))) else { continue };
            let turn = -one.sense * other.sense;
            let alike = one.times == other.times;
            for (from, to) in [(one, other), (other, one)] {
                let ratio = Rational::new(i64::from(from.times), i64::from(to.times)).unwrap_or(whole(1));
                if let Some(list) = near.get_mut(from.body.0).filter(|_| to.body.0 < n) {
                    list.push(Near { body: to.body.0, turn, ratio, alike });
                }
            }
        }
        let stuck: Vec<(usize, usize)> = stuck(situation, tops).collect();
        for (upper, lower) in &stuck {
            for (from, to) in [(*upper, *lower), (*lower, *upper)] {
                if let Some(list) = near.get_mut(from) {
                    list.push(Near { body: to, turn: 1, ratio: whole(1), alike: true });
                }
            }
        }
        let mut groups = Groups {
            of: vec![usize::MAX; n],
            sense: vec![1; n],
            share: (0..n).collect(),
            members: Vec::new(),
            explicit: Vec::new(),
            jammed: Vec::new(),
        };
        let mut ratios = vec![whole(1); n];
        for root in 0..n {
            groups.spread(root, &near, &mut ratios);
        }
        groups.jammed = vec![false; groups.members.len()];
        for (upper, lower) in stuck {
            let agree =
                groups.sense_of(upper) == groups.sense_of(lower) && ratios.get(upper) == ratios.get(lower);
            if let Some(jammed) = groups.jammed.get_mut(groups.of.get(upper).copied().unwrap_or(0)) {
                *jammed |= !agree;
            }
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

    fn spread(&mut self, root: usize, near: &[Vec<Near>], ratios: &mut [Rational]) {
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
            let ratio_here = ratios.get(body).cloned().unwrap_or(whole(1));
            for Near { body: other, turn, ratio, alike } in near.get(body).map_or(&[][..], Vec::as_slice) {
                let (other, turn, alike) = (*other, *turn, *alike);
                let Some(of) = self.of.get_mut(other).filter(|of| **of == usize::MAX) else { continue };
                *of = group;
                members.push(other);
                if let Some(s) = self.sense.get_mut(other) {
                    *s = sense * turn;
                }
                if let Some(s) = self.share.get_mut(other).filter(|_| alike) {
                    *s = share;
                }
                if let Some(r) = ratios.get_mut(other) {
                    *r = &ratio_here * ratio;
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

/// Groups by the links that hold in this case, and the tops that do not slip.
pub(crate) fn holding(situation: &Situation, links: &[LinkState], tops: &[Top]) -> Groups {
    Groups::new(situation, |id| links.get(id.0) == Some(&LinkState::Holding), tops)
}

/// Bodies that go along with what they stand on: upper and lower.
pub(crate) fn stuck<'a>(
    situation: &'a Situation,
    tops: &'a [Top],
) -> impl Iterator<Item = (usize, usize)> + 'a {
    situation.bodies.iter().enumerate().filter_map(|(upper, body)| {
        let lower = body.surface.as_ref()?.under?.0;
        let joined = tops.get(upper).is_some_and(|t| t.joins()) && lower < situation.bodies.len();
        joined.then_some((upper, lower))
    })
}
