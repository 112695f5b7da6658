//! Who is in front: `a car tows a trailer`, `Q follows behind P`.

use crate::noun::Ref;
use crate::reader::Reader;
use model::{Form, Holds};

impl Reader<'_> {
    /// "An engine and two coaches move along a track. ... the coupling between the two coaches": named together, spoken
    /// of as coupled, and nobody said in which order, so in the order of their names.
    pub(crate) fn couple_train(&mut self) {
        let wheeled = |b: &crate::story::BodyTold| matches!(b.form, Form::Vehicle | Form::Trailer);
        let engine = self.story.bodies.first().is_some_and(|b| b.form == Form::Vehicle);
        let apart = self.story.tows.is_empty()
            && self.story.contacts.is_empty()
            && self.story.links.iter().all(|l| l.ends.is_empty());
        let n = self.story.bodies.len();
        if engine && apart && n > 2 && n < 12 && self.story.bodies.iter().all(wheeled) {
            let pairs: Vec<(usize, usize)> = (0..n).zip(1..n).collect();
            self.tows(&pairs);
        }
    }

    /// `Q follows behind P`.
    pub(super) fn follow(&mut self, at: usize) -> Option<usize> {
        let subject = self.about_bodies();
        let e = self.phrase(at + 1, "behind|after?").unwrap_or(at + 1);
        let np = self.np(e)?;
        let Ref::Bodies(front) = np.what else { return None };
        let (Some(&f), Some(&b)) = (front.first(), subject.first()) else { return None };
        self.story.tows.retain(|t| *t != (b, f));
        self.tows(&[(f, b)]);
        self.told(at, np.end, format!("{} is in front, {} behind", self.name(f), self.name(b)));
        Some(np.end)
    }

    /// A body tows others: joined one behind the other, and driven forwards.
    pub(super) fn connect_tow(&mut self, front: &[usize], behind: &[usize], links: &[usize]) {
        let mut all = front.to_vec();
        all.extend(behind.iter().copied().filter(|b| !front.contains(b)));
        if links.is_empty() {
            let pairs: Vec<(usize, usize)> =
                all.iter().zip(all.iter().skip(1)).map(|(a, b)| (*a, *b)).collect();
            self.tows(&pairs);
        } else {
            self.connect(&all, links, true);
        }
        self.story_order(&all);
    }

    pub(super) fn tows(&mut self, pairs: &[(usize, usize)]) {
        // What joins them may be told later ("the tow-bar is light"): remember the order now.
        for &(a, b) in pairs {
            if !self.story.tows.contains(&(a, b)) {
                self.story.tows.push((a, b));
            }
        }
    }

    fn story_order(&mut self, all: &[usize]) {
        let pairs: Vec<(usize, usize)> = all.iter().zip(all.iter().skip(1)).map(|(a, b)| (*a, *b)).collect();
        self.tows(&pairs);
    }

    /// Towed pairs that nothing joins yet: they take the links that have no ends, or a coupling that goes without saying.
    pub(crate) fn settle_tows(&mut self) {
        let pairs: Vec<(usize, usize)> =
            self.story.tows.iter().copied().filter(|&(a, b)| !self.are_joined(a, b)).collect();
        for (a, b) in pairs {
            let free = (0..self.story.links.len()).find(|&l| {
                self.story
                    .links
                    .get(l)
                    .is_some_and(|x| x.ends.is_empty() && x.pulleys.is_empty() && !x.vertical)
            });
            let l = match free {
                Some(l) => l,
                None => {
                    let like = self
                        .story
                        .links
                        .iter()
                        .find(|l| l.pulleys.is_empty() && l.ends.len() == 2)
                        .map(|l| (l.noun.clone(), l.holds));
                    let (noun, holds) = like.unwrap_or(("coupling".to_owned(), Holds::PullOrPush));
                    self.new_link(&noun, holds)
                }
            };
            self.add_end(l, a);
            self.add_end(l, b);
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, told};

    #[test]
    fn what_tows_is_in_front() {
        let text = "A car of mass 1200 kg tows a trailer of mass 400 kg by means of a light rigid tow-bar. The \
         engine of the car exerts a driving force of 2400 N. Find the tension in the tow-bar.";
        let expected = [
            "the car moves on the level",
            "the trailer moves on the level",
            "tow-bar: the trailer - the car",
            "driving force: along",
            "Moving",
        ];
        assert_eq!(in_short(&told(text)), expected);
    }

    #[test]
    fn what_follows_is_behind() {
        let text = "Two wagons P and Q, each of mass 500 kg, are joined by a light coupling. Q follows behind P. \
         A force of 300 N pulls P forwards. Find the acceleration.";
        assert_eq!(means(text, "follows"), "P is in front, Q behind");
    }
}
