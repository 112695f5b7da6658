//! Which string holds which bodies: gives links their ends, and joins those still waiting for a link.

use crate::reader::Reader;
use crate::story::LinkTold;
use model::{Diagnostic, Holds, Refusal};

impl Reader<'_> {
    /// Ends of strings: each body to an end.
    pub(super) fn attach_ends(&mut self, links: &[usize], bodies: &[usize]) {
        if let [one] = links {
            for &b in bodies {
                self.add_end(*one, b);
            }
            return;
        }
        // "A block is attached to two strings": to both.
        if let ([one], true) =
            (bodies, links.iter().all(|&l| self.story.links.get(l).is_some_and(|l| l.ends.len() < 2)))
        {
            links.iter().for_each(|&l| self.add_end(l, *one));
            return;
        }
        for &b in bodies {
            let free = links
                .iter()
                .copied()
                .find(|&l| self.story.links.get(l).is_some_and(|x| x.ends.len() < 2 && !x.ends.contains(&b)));
            if let Some(l) = free {
                self.add_end(l, b);
            }
        }
    }

    pub(crate) fn add_end(&mut self, link: usize, body: usize) {
        if let Some(l) = self.story.links.get_mut(link)
            && !l.ends.contains(&body)
            && l.ends.len() < 2
        {
            l.ends.push(body);
        }
    }

    /// Joins bodies one after the other, with the links named; makes more like them where there are too few.
    pub(super) fn connect(&mut self, bodies: &[usize], links: &[usize], rigid: bool) {
        let pairs: Vec<(usize, usize)> =
            bodies.iter().zip(bodies.iter().skip(1)).map(|(a, b)| (*a, *b)).collect();
        if links.is_empty() {
            if rigid {
                for (a, b) in pairs {
                    if !self.are_joined(a, b) {
                        let l = self.new_link("coupling", Holds::PullOrPush);
                        self.add_end(l, a);
                        self.add_end(l, b);
                    }
                }
            } else {
                self.joins.extend(pairs);
            }
            return;
        }
        let mut wanted = std::mem::take(&mut self.joins);
        for (a, b) in pairs {
            if !wanted.contains(&(a, b)) && !wanted.contains(&(b, a)) {
                wanted.push((a, b));
            }
        }
        // "The tractor and the trailer are joined by a tow-bar", told again of a link already there.
        wanted.retain(|&(a, b)| !self.are_joined(a, b));
        let mut free: Vec<usize> = links
            .iter()
            .copied()
            .filter(|&l| self.story.links.get(l).is_some_and(|x| x.ends.is_empty()))
            .collect();
        // A link that already has one of the two ends takes the other.
        for (a, b) in wanted {
            let l = match links.iter().copied().find(|&l| {
                self.story
                    .links
                    .get(l)
                    .is_some_and(|x| x.ends.len() == 1 && (x.ends.contains(&a) || x.ends.contains(&b)))
            }) {
                Some(l) => l,
                None if free.is_empty() => {
                    let like = links.first().and_then(|&l| self.story.links.get(l)).cloned();
                    match like {
                        Some(like) => {
                            let l = self.new_link(&like.noun, like.holds);
                            if let Some(new) = self.story.links.get_mut(l) {
                                new.light = like.light;
                                new.pulleys.clone_from(&Vec::new());
                            }
                            l
                        }
                        None => return,
                    }
                }
                None => free.remove(0),
            };
            self.add_end(l, a);
            self.add_end(l, b);
        }
    }

    pub(super) fn new_link(&mut self, noun: &str, holds: Holds) -> usize {
        let span = self.span(self.lo, self.lo + 1);
        self.story.links.push(LinkTold {
            noun: noun.to_owned(),
            holds,
            ends: Vec::new(),
            pulleys: Vec::new(),
            span,
            light: true,
            level: false,
            vertical: false,
            lean: None,
        });
        self.story.links.len() - 1
    }

    pub(super) fn are_joined(&self, a: usize, b: usize) -> bool {
        self.story.links.iter().any(|l| l.ends.contains(&a) && l.ends.contains(&b))
    }

    /// Joins still without a link at the end of the sentence take the links that have no ends yet.
    pub(crate) fn finish_joins(&mut self) {
        let joins = std::mem::take(&mut self.joins);
        if joins.is_empty() {
            return;
        }
        let free: Vec<usize> = (0..self.story.links.len())
            .filter(|&l| self.story.links.get(l).is_some_and(|x| x.ends.is_empty()))
            .collect();
        if free.is_empty() {
            for (a, b) in joins {
                if !self.are_joined(a, b) {
                    let span = self.story.bodies.get(b).map(|b| b.span).unwrap_or_default();
                    self.diagnostics.push(
                        Diagnostic::refuse(
                            Refusal::Incomplete,
                            format!("what joins {} and {} is not said", self.name(a), self.name(b)),
                        )
                        .at(span)
                        .hint("name it: a light inextensible string, a light rigid tow-bar"),
                    );
                }
            }
            return;
        }
        let bodies: Vec<usize> = Vec::new();
        self.joins = joins;
        self.connect(&bodies, &free, false);
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, told};

    #[test]
    fn two_couplings_join_three_trucks_in_their_order() {
        let text = "Three trucks A, B and C, each of mass 200 kg, are joined in that order by two light \
         couplings. A horizontal force of 60 N pulls A. Find the tension in each coupling.";
        let expected = [
            "A moves on the level",
            "B moves on the level",
            "C moves on the level",
            "coupling joining A and B: B - A",
            "coupling joining B and C: C - B",
            "force applied to A: along",
            "Released",
        ];
        assert_eq!(in_short(&told(text)), expected);
    }
}
