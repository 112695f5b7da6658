//! The way that a string takes, phrase by phrase: `up the plane`, `over a smooth pulley at the top`, `and down to a
//! bucket`. Every frame that speaks of a string reads it here, whatever verb it stands with, or none.

use crate::lexicon::Noun;
use crate::noun::Ref;
use crate::reader::Reader;

/// What a phrase of the way led to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Led {
    /// Somewhere: along a plane, straight down.
    On,
    /// To a body, which is at its end.
    Body,
}

impl Reader<'_> {
    /// One phrase of the way of these strings at `i`, with the comma or the "and then" before it.
    pub(super) fn way_of(&mut self, links: &mut Vec<usize>, i: usize) -> Option<(usize, Led)> {
        if let Some(e) = self.both_sides(links, self.skip(i)) {
            return Some((e, Led::On));
        }
        let mut p = self.skip(i);
        for _ in 0..3 {
            match self.w(p) {
                "," | "and" | "then" => p = self.skip(p + 1),
                _ => break,
            }
        }
        let found = self
            .way_plain(p)
            .or_else(|| self.way_over(links, p))
            .or_else(|| self.way_under(links, p))
            .or_else(|| self.way_along(p));
        if let Some(e) = found {
            self.glue(i, p);
            return Some((e, Led::On));
        }
        let e = self.way_to(links, p)?;
        self.glue(i, p);
        Some(e)
    }

    /// All the phrases of the way from `i` on; `None` where there is none.
    pub(super) fn whole_way(&mut self, links: &[usize], i: usize) -> Option<usize> {
        let links = &mut links.to_vec();
        let mut end = i;
        for _ in 0..10 {
            match self.way_of(links, end) {
                Some((e, _)) if e > end => end = e,
                _ => break,
            }
        }
        (end > i).then_some(end)
    }

    /// The way told after the noun itself: `a light string over a smooth pulley`, without its ends.
    pub(super) fn way_beside(&mut self, links: &[usize], i: usize) -> Option<usize> {
        let p = self.skip(i);
        self.way_over(links, p).or_else(|| self.way_under(links, p))
    }

    /// The way of the string that is spoken of, where no verb says so: `Light string from it over a pulley to ...`.
    pub(crate) fn string_goes_on(&mut self, i: usize) -> Option<usize> {
        let Some(Ref::Links(links)) = self.about.clone() else { return None };
        let open = links.iter().all(|&l| self.story.links.get(l).is_some_and(|l| l.ends.len() < 2));
        if self.asking || !open || !matches!(self.w(i), "to" | "over" | "from" | "under") {
            return None;
        }
        self.whole_way(&links, i)
    }

    /// `off both sides of it`, `to opposite sides of B`, `to each end of the block`: two strings, both at that body.
    pub(super) fn both_sides(&mut self, links: &mut Vec<usize>, p: usize) -> Option<usize> {
        let e = self.phrase(
            p,
            "to|from|off|on|at each|both|either|opposite|its|the two|opposite|both? end|ends|side|sides",
        )?;
        let two = (p..e).any(|k| matches!(self.w(k), "each" | "both" | "either" | "opposite" | "two"));
        if !two || links.iter().any(|&l| self.story.links.get(l).is_none_or(|l| !l.ends.is_empty())) {
            return None;
        }
        let (body, end) = match self.phrase(e, "of") {
            Some(of) => {
                let np = self.trying(|r| r.np(of).filter(|np| matches!(np.what, Ref::Bodies(_))))?;
                let Ref::Bodies(b) = np.what else { return None };
                (b, np.end)
            }
            None => (self.latest.clone(), e),
        };
        let [body] = body.as_slice() else { return None };
        if let [link] = links.as_slice() {
            *links = self.copies(*link, 2);
        }
        let body = *body;
        links.iter().for_each(|&l| self.add_end(l, body));
        self.told(p, end, "a string at each side of it");
        Some(end)
    }

    /// Words that only say how it runs.
    fn way_plain(&mut self, p: usize) -> Option<usize> {
        let e = self
            .phrase(p, "horizontally|vertically|straight|directly|upwards|downwards")
            .or_else(|| self.phrase(p, "up|down").filter(|&e| self.goes_on(e)))
            .or_else(|| self.phrase(p, "at its edge|end|top"))
            .or_else(|| self.phrase(p, "there it is passed over the pulley"))?;
        self.glue(p, e);
        Some(e)
    }

    /// After "up" or "down" alone: does the way go on from there?
    fn goes_on(&self, i: usize) -> bool {
        matches!(
            self.w(self.skip(i)),
            "to" | "over" | "round" | "around" | "under" | "and" | "," | "parallel" | "through"
        )
    }

    fn way_over(&mut self, links: &[usize], p: usize) -> Option<usize> {
        if let Some(e) = self.phrase(p, "over it") {
            self.glue(p, e);
            return Some(e);
        }
        let e = self.phrase(p, "over|round|around|across|through")?;
        let np = self.ahead(e).is_some_and(|n| n == Noun::Pulley).then(|| self.np(e))??;
        let Ref::Pulleys(pulleys) = np.what.clone() else { return None };
        self.put_over(links, &pulleys);
        self.told(p, np.end, "over a pulley: when one end goes down, the other comes up");
        Some(self.after_np(&np.what, np.end))
    }

    /// Lays strings over pulleys: one over each where there are as many, otherwise each over all.
    pub(super) fn put_over(&mut self, links: &[usize], pulleys: &[usize]) {
        let links = &self.as_many(links, pulleys.len());
        let several = pulleys.len() > 1 && links.len() == pulleys.len();
        // "Each string passes over a smooth pulley": as many pulleys as strings.
        let each = pulleys.len() == 1 && links.len() > 1;
        for (n, &l) in links.iter().enumerate() {
            let mut over: Vec<usize> = pulleys.to_vec();
            if several {
                over = pulleys.get(n).copied().into_iter().collect();
            } else if each && n > 0 {
                let Some(like) = pulleys.first().and_then(|&p| self.story.pulleys.get(p)).cloned() else {
                    continue;
                };
                over = vec![self.story.pulleys.len()];
                self.story.pulleys.push(like);
            }
            if let Some(link) = self.story.links.get_mut(l) {
                over.retain(|x| !link.pulleys.contains(x));
                link.pulleys.extend(over);
            }
        }
    }

    fn way_under(&mut self, links: &[usize], p: usize) -> Option<usize> {
        let e = self.phrase(p, "under|beneath|below")?;
        let [link] = links else { return None };
        let e = self.sling(*link, e)?;
        self.told(
            p,
            e,
            "a light pulley hangs in the string: both parts pull it up, and it moves half as far",
        );
        Some(e)
    }

    fn way_along(&mut self, p: usize) -> Option<usize> {
        let e = self.phrase(p, "parallel to|with").or_else(|| self.phrase(p, "up|along|down"))?;
        let surface = self.ahead(e).is_some_and(|n| matches!(n, Noun::Surface { .. }));
        let np = surface.then(|| self.np(e))?.filter(|np| matches!(np.what, Ref::Surface(_)))?;
        self.told(p, np.end, "along the line of motion");
        Some(np.end)
    }

    /// `from P`, `to a pulley at the edge`, `to a bucket of bolts`.
    fn way_to(&mut self, links: &[usize], p: usize) -> Option<(usize, Led)> {
        let e = self.phrase(p, "from|to")?;
        let np = self.trying(|r| {
            let np = r.nps(e, true)?;
            matches!(np.what, Ref::Bodies(_) | Ref::Pulleys(_)).then_some(np)
        })?;
        match np.what.clone() {
            Ref::Bodies(b) => {
                self.at_ends(links, &b);
                self.glue(p, np.end);
                Some((self.after_np(&np.what, np.end), Led::Body))
            }
            Ref::Pulleys(pulleys) => {
                // "runs horizontally to a pulley at the edge": the string goes over it.
                self.put_over(links, &pulleys);
                self.told(p, np.end, "over a pulley: when one end goes down, the other comes up");
                Some((self.after_np(&np.what, np.end), Led::On))
            }
            _ => None,
        }
    }

    /// Puts bodies at the ends of strings that are still free: of one string all, of several one each.
    pub(super) fn at_ends(&mut self, links: &[usize], bodies: &[usize]) {
        let links = &self.as_many(links, bodies.len());
        match (links.as_slice(), bodies) {
            ([l], _) => bodies.iter().for_each(|&b| self.add_end(*l, b)),
            (_, [b]) => links.iter().for_each(|&l| self.add_end(l, *b)),
            _ => links.iter().zip(bodies).for_each(|(&l, &b)| self.add_end(l, b)),
        }
    }

    /// "Light strings" without a number is one string until it is seen how many there are.
    pub(super) fn as_many(&mut self, links: &[usize], n: usize) -> Vec<usize> {
        let [link] = links else { return links.to_vec() };
        let link = *link;
        if !(2..=6).contains(&n) || !self.told_plural(link) {
            return links.to_vec();
        }
        self.copies(link, n)
    }

    /// This string and more like it, `n` in all, each over pulleys of its own.
    fn copies(&mut self, link: usize, n: usize) -> Vec<usize> {
        let mut all = vec![link];
        let Some(like) = self.story.links.get(link).cloned() else { return all };
        for _ in 1..n {
            all.push(self.story.links.len());
            self.story.links.push(like.clone());
        }
        self.part_pulleys(&all);
        self.link.clone_from(&all);
        all
    }

    /// Gives each of these strings, which are copies of the first, pulleys of its own.
    pub(super) fn part_pulleys(&mut self, links: &[usize]) {
        for &l in links.iter().skip(1) {
            let mut over = self.story.links.get(l).map(|l| l.pulleys.clone()).unwrap_or_default();
            for p in &mut over {
                if let Some(pulley) = self.story.pulleys.get(*p).cloned() {
                    *p = self.story.pulleys.len();
                    self.story.pulleys.push(pulley);
                }
            }
            if let Some(l) = self.story.links.get_mut(l) {
                l.pulleys = over;
            }
        }
    }

    /// Was this string told of in the plural, without a number, and only once so far?
    pub(super) fn told_plural(&self, link: usize) -> bool {
        let Some(told) = self.story.links.get(link) else { return false };
        let word = told.span.of(self.text).split_whitespace().last().unwrap_or_default().to_lowercase();
        let alone = self.story.links.iter().filter(|l| l.span == told.span).count() == 1;
        alone && crate::lexicon::plural(&word)
    }

    /// Tries to read; where nothing comes of it, the story is as before.
    pub(crate) fn trying<T>(&mut self, read: impl FnOnce(&mut Self) -> Option<T>) -> Option<T> {
        let saved = (self.story.clone(), self.uses.clone(), self.diagnostics.len());
        let spoken = (self.latest.clone(), self.pair, self.link.clone(), self.surface, self.joins.clone());
        let found = read(self);
        if found.is_none() {
            (self.story, self.uses) = (saved.0, saved.1);
            self.diagnostics.truncate(saved.2);
            (self.latest, self.pair, self.link, self.surface, self.joins) = spoken;
        }
        found
    }
}
