//! Finds again a body already named: `the second truck`, `the other`, `the former`, `the 3 kg mass`.

use super::Front;
use crate::adjective::Tells;
use crate::lexicon::{self, plural};
use crate::reader::Reader;
use crate::story::On;
use model::Form;

impl Reader<'_> {
    /// Is a body the uppermost or the lowest of these, as far as is told?
    pub(super) fn stands_at(&self, b: usize, among: &[usize]) -> Option<Tells> {
        let on = |x: usize, y: usize| {
            self.story.bodies.get(x).is_some_and(|x| x.on == Some(On::Body(y)))
                || self.story.order.contains(&(x, y))
        };
        // The lift on whose floor they stand is none of them.
        let lift = |x: usize| self.story.bodies.get(x).is_some_and(|x| x.form == Form::Lift);
        if lift(b) {
            return None;
        }
        let over = among.iter().any(|&x| !lift(x) && on(b, x));
        let under = among.iter().any(|&x| on(x, b));
        match (over, under) {
            (true, false) => Some(Tells::Upper),
            (false, true) => Some(Tells::Lower),
            _ => None,
        }
    }

    /// Finds bodies that are already known.
    pub(super) fn find_bodies(&self, f: &Front, one: &str, form: Form) -> Option<Vec<usize>> {
        let bodies = &self.story.bodies;
        if bodies.is_empty() {
            return None;
        }
        let all: Vec<usize> = (0..bodies.len()).collect();
        let generic =
            matches!(one, "mass" | "body" | "object" | "particle" | "block" | "weight" | "load" | "point");
        let word_only = f.word.is_empty();
        let mut pool: Vec<usize> = bodies
            .iter()
            .enumerate()
            .filter(|(_, b)| b.noun == one || b.noun == f.word)
            .map(|(i, _)| i)
            .collect();
        if pool.is_empty() || word_only {
            if generic || word_only {
                pool = all.clone();
            } else {
                let kin: Vec<usize> = bodies
                    .iter()
                    .enumerate()
                    .filter(|(_, b)| lexicon::same_sort(one, &b.noun, form, b.form))
                    .map(|(i, _)| i)
                    .collect();
                if f.definite && (kin.len() == 1 || plural(&f.word)) {
                    pool = kin;
                }
            }
        }
        if pool.is_empty() && one == "vehicle" && (f.each || plural(&f.word)) {
            pool.clone_from(&all);
        }
        if pool.is_empty() && one == "car" && f.definite {
            pool = bodies.iter().enumerate().filter(|(_, b)| b.form == Form::Lift).map(|(i, _)| i).collect();
        }
        if let Some(m) = &f.mass {
            let found: Vec<usize> = bodies
                .iter()
                .enumerate()
                .filter(|(_, b)| b.mass.as_ref().is_some_and(|g| g.value == m.value))
                .map(|(i, _)| i)
                .collect();
            return (found.len() == 1).then_some(found);
        }
        for (_, tells) in &f.tells {
            match tells {
                Tells::Former => return self.pair.map(|(x, _)| vec![x]),
                Tells::Latter => return self.pair.map(|(_, y)| vec![y]),
                Tells::Nth(n) if !pool.is_empty() => {
                    let found = pool
                        .iter()
                        .copied()
                        .find(|&i| bodies.get(i).is_some_and(|b| b.order == Some(*n)))
                        .or_else(|| pool.get(*n).copied());
                    return found.map(|b| vec![b]);
                }
                Tells::Leading => return pool.first().map(|&b| vec![b]),
                Tells::Last => return pool.last().map(|&b| vec![b]),
                Tells::Hanging => {
                    let found: Vec<usize> =
                        all.iter().copied().filter(|&i| bodies.get(i).is_some_and(|b| b.hangs)).collect();
                    return (found.len() == 1).then_some(found);
                }
                Tells::Upper | Tells::Lower => {
                    let found: Vec<usize> =
                        pool.iter().copied().filter(|&b| self.stands_at(b, &pool) == Some(*tells)).collect();
                    if let [one] = found.as_slice() {
                        return Some(vec![*one]);
                    }
                }
                Tells::Other => {
                    let rest: Vec<usize> =
                        pool.iter().copied().filter(|i| !self.latest.contains(i)).collect();
                    if rest.len() == 1 {
                        return Some(rest);
                    }
                    return None;
                }
                Tells::Heavier | Tells::Lighter => {
                    let heavy = *tells == Tells::Heavier;
                    if let Some(i) =
                        all.iter().copied().find(|&i| bodies.get(i).is_some_and(|b| b.heavier == Some(heavy)))
                    {
                        return Some(vec![i]);
                    }
                    let mut known: Vec<(usize, &exact::Value)> = pool
                        .iter()
                        .filter_map(|&i| Some((i, &bodies.get(i)?.mass.as_ref()?.value)))
                        .collect();
                    if known.len() != pool.len() || pool.len() < 2 {
                        return None;
                    }
                    known.sort_by(|a, b| a.1.cmp_exact(b.1).unwrap_or(std::cmp::Ordering::Equal));
                    return if heavy { known.last() } else { known.first() }.map(|k| vec![k.0]);
                }
                _ => {}
            }
        }
        if pool.is_empty() {
            return None;
        }
        if plural(&f.word) || f.each {
            if let Some(n) = f.count
                && pool.len() != n
            {
                return (all.len() == n).then_some(all);
            }
            return Some(pool);
        }
        if pool.len() == 1 {
            return Some(pool);
        }
        // One of several: the one last spoken of.
        let recent: Vec<usize> = pool.iter().copied().filter(|i| self.latest.contains(i)).collect();
        if recent.len() == 1 && f.definite {
            return Some(recent);
        }
        let unordered: Vec<usize> = pool
            .iter()
            .copied()
            .filter(|&i| bodies.get(i).is_some_and(|b| b.order.is_none_or(|o| o == 0) && b.label.is_none()))
            .collect();
        (unordered.len() == 1 && f.definite && bodies.iter().filter(|b| b.noun == one).count() == 1)
            .then_some(unordered)
    }
}
