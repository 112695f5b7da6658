//! The systems that a person might choose: all sets of bodies that links keep together.

use crate::LinkState;
use crate::groups::{Groups, stuck};
use crate::stack::Top;
use model::Situation;

/// Up to so many bodies, every connected set is a system; beyond, only the runs of a chain and the whole.
const MOST_FOR_ALL: usize = 6;
/// In longer chains than this only the runs from either end: all that is before or behind one link.
const MOST_FOR_RUNS: usize = 16;

/// The sets of two or more bodies that share one acceleration and hang together by links, or stand on one
/// another without slipping, small ones first. For bodies that are held there is no equation of motion.
pub(crate) fn together(
    situation: &Situation,
    links: &[LinkState],
    tops: &[Top],
    groups: &Groups,
    held: impl Fn(usize) -> bool,
) -> Vec<Vec<usize>> {
    let n = situation.bodies.len();
    let mut near: Vec<Vec<usize>> = vec![Vec::new(); n];
    let mut join = |one: usize, other: usize| {
        for (from, to) in [(one, other), (other, one)] {
            if let Some(list) = near.get_mut(from).filter(|list| !list.contains(&to)) {
                list.push(to);
            }
        }
    };
    for (i, link) in situation.links.iter().enumerate() {
        let [one, other] = link.ends.as_slice() else { continue };
        let (one_body, other_body) = (one.body.0, other.body.0);
        if held(one_body) || held(other_body) {
            continue;
        }
        let holds = links.get(i) == Some(&LinkState::Holding)
            && one.times == other.times
            && groups.shared(one_body) == groups.shared(other_body)
            && groups.sense_of(one_body) * one.sense == -groups.sense_of(other_body) * other.sense;
        if !holds {
            continue;
        }
        join(one_body, other_body);
    }
    for (upper, lower) in stuck(situation, tops) {
        let together =
            groups.shared(upper) == groups.shared(lower) && groups.sense_of(upper) == groups.sense_of(lower);
        if together && !held(upper) && !held(lower) {
            join(upper, lower);
        }
    }
    let mut found = Vec::new();
    for part in parts(&near) {
        if part.len() < 2 {
            continue;
        }
        if part.len() <= MOST_FOR_ALL {
            all_sets(&part, &near, &mut found)
        } else {
            chain(&part, &near, &mut found)
        }
    }
    found.sort_by(|a, b| a.len().cmp(&b.len()).then_with(|| a.cmp(b)));
    found
}

/// The connected parts.
fn parts(near: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut seen = vec![false; near.len()];
    let mut parts = Vec::new();
    for root in 0..near.len() {
        if seen.get(root).copied().unwrap_or(true) {
            continue;
        }
        let mut part = vec![root];
        if let Some(s) = seen.get_mut(root) {
            *s = true;
        }
        let mut next = 0;
        while let Some(&body) = part.get(next) {
            next += 1;
            for &other in near.get(body).map_or(&[][..], Vec::as_slice) {
                if let Some(s) = seen.get_mut(other).filter(|s| !**s) {
                    *s = true;
                    part.push(other);
                }
            }
        }
        part.sort_unstable();
        parts.push(part);
    }
    parts
}

fn all_sets(part: &[usize], near: &[Vec<usize>], found: &mut Vec<Vec<usize>>) {
    for mask in 1usize..1 << part.len() {
        let set: Vec<usize> =
            part.iter().enumerate().filter(|(bit, _)| mask >> bit & 1 == 1).map(|(_, b)| *b).collect();
        if set.len() >= 2 && hangs_together(&set, near) {
            found.push(set);
        }
    }
}

fn hangs_together(set: &[usize], near: &[Vec<usize>]) -> bool {
    let mut reached: Vec<usize> = set.first().copied().into_iter().collect();
    let mut next = 0;
    while let Some(&body) = reached.get(next) {
        next += 1;
        for &other in near.get(body).map_or(&[][..], Vec::as_slice) {
            if set.contains(&other) && !reached.contains(&other) {
                reached.push(other);
            }
        }
    }
    reached.len() == set.len()
}

fn chain(part: &[usize], near: &[Vec<usize>], found: &mut Vec<Vec<usize>>) {
    let degree = |b: usize| near.get(b).map_or(0, Vec::len);
    let end = part.iter().copied().find(|b| degree(*b) == 1);
    let (Some(end), true) = (end, part.iter().all(|b| degree(*b) <= 2)) else {
        found.push(part.to_vec());
        return;
    };
    let mut order = vec![end];
    while let Some(&last) = order.last() {
        let next = near.get(last).and_then(|list| list.iter().find(|b| !order.contains(b)));
        match next {
            Some(&next) => order.push(next),
            None => break,
        }
    }
    for length in 2..=order.len() {
        for (at, run) in order.windows(length).enumerate() {
            let from_an_end = at == 0 || at + length == order.len();
            if order.len() > MOST_FOR_RUNS && !from_an_end {
                continue;
            }
            let mut run = run.to_vec();
            run.sort_unstable();
            found.push(run);
        }
    }
}
