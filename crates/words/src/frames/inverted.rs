//! Sentences that begin with the place: `To the other end is attached a particle`, `On the left ramp sits a hamper`,
//! `In the lift there is a crate`, `Over the pulley passes a string`. Read as if the subject stood first.

use crate::noun::{Np, Ref};
use crate::reader::Reader;

impl Reader<'_> {
    /// A clause at `i` whose place stands before its verb.
    pub(crate) fn inverted(&mut self, i: usize) -> Option<usize> {
        let start = self.skip(i);
        if !matches!(
            self.w(start),
            "on" | "in" | "inside" | "to" | "from" | "at" | "over" | "round" | "below" | "beneath" | "upon"
        ) {
            return None;
        }
        // Look for the verb before anything is read: most phrases that begin so are no such sentence.
        let near = start + 2..(start + 18).min(self.hi);
        let verb = near.clone().find(|&k| self.inverted_verb(k).is_some());
        let verb = verb.or_else(|| near.clone().find(|&k| matches!(self.w(k), "is" | "are")))?;
        if (start..verb).any(|k| matches!(self.w(k), "," | ";" | ":")) && self.w(self.skip(verb)) != "there" {
            return None;
        }
        let latest = self.latest.clone();
        self.trying(|r| {
            let on_top = r.phrase(start, "on top of");
            let at = on_top.unwrap_or(start + 1);
            let place = match r
                .phrase(at, "it|this")
                .filter(|_| on_top.is_some() || r.inverted_verb(at + 1).is_some())
            {
                Some(e) if !latest.is_empty() => Np { what: Ref::Bodies(latest), end: e },
                _ => r.end_or_np(at)?,
            };
            let mut k = r.after_np(&place.what, place.end);
            if !matches!(place.what, Ref::Ends(_)) {
                k = r.place(k).unwrap_or(k);
            }
            k = r.phrase(k, ",").unwrap_or(k);
            let Some(end) = r.inverted_verb(k) else { return r.fronted(start, &place.what, k) };
            let hangs =
                (k..end).any(|n| matches!(r.w(n), "hangs" | "hang" | "suspended" | "hung" | "hanging"));
            let attached = (k..end).any(|n| {
                matches!(
                    r.w(n),
                    "attached" | "fastened" | "tied" | "fixed" | "joined" | "connected" | "hitched"
                )
            });
            let subject = r.nps(end, false)?;
            let done = r.set_there(start, &place.what, &subject.what, hangs, attached)?;
            if !done {
                return None;
            }
            r.told(start, end, "where it is");
            let mut end = r.after_np(&subject.what, subject.end);
            if let (Ref::Ends(l), Ref::Bodies(b)) = (&place.what, &subject.what) {
                let (l, b) = (l.clone(), b.clone());
                end = r.gapped_end(&l, &b, end).unwrap_or(end);
            }
            r.set_about(subject.what);
            Some(end)
        })
    }

    /// `is attached`, `hangs`, `there is`, `sits`: the place after.
    fn inverted_verb(&self, i: usize) -> Option<usize> {
        const DONE: &str = "attached|fastened|tied|fixed|joined|connected|hitched|hung|suspended|placed|standing|lying|\
                            resting|sitting|hanging|stacked";
        self.phrase(i, &format!("there? is|are also? {DONE}"))
            .or_else(|| self.phrase(i, "there hangs|hang|stands|stand|rests|lies"))
            .or_else(|| self.phrase(i, "there is|are"))
            .or_else(|| self.phrase(i, "hangs|stands|sits|rests|lies freely?"))
            .or_else(|| self.phrase(i, "hang|stand|sit|lie a|two|three").map(|e| e - 1))
            .or_else(|| self.phrase(i, "passes|pass|runs"))
            .or_else(|| self.phrase(i, "is|are a|an|two|three|another").map(|e| e - 1))
    }

    /// `On a smooth bench a crate is hitched to ...`: the place of what is spoken of next.
    fn fronted(&mut self, start: usize, place: &Ref, k: usize) -> Option<usize> {
        if !matches!(self.w(start), "on" | "in" | "inside")
            || !matches!(place, Ref::Surface(_) | Ref::Floor(_))
        {
            return None;
        }
        let subject = self.nps(k, false)?;
        let Ref::Bodies(_) = &subject.what else { return None };
        if !crate::verbs::starts_clause(self.w(self.skip(subject.end))) {
            return None;
        }
        self.set_there(start, place, &subject.what, false, false).filter(|&done| done)?;
        self.told(start, k, "where it is");
        let end = self.after_np(&subject.what, subject.end);
        self.set_about(subject.what);
        Some(end)
    }

    /// The end of a string, `the other` of its ends, or any noun phrase.
    fn end_or_np(&mut self, i: usize) -> Option<Np> {
        if let Some(np) = self.ends(i) {
            return Some(np);
        }
        self.np(i)
    }

    /// Puts the subject where the place says; `Some(false)` where the two do not go together.
    fn set_there(
        &mut self,
        prep: usize,
        place: &Ref,
        what: &Ref,
        hangs: bool,
        attached: bool,
    ) -> Option<bool> {
        match (place, what) {
            (Ref::Ends(l), Ref::Bodies(b)) => {
                self.attach_ends(l, b);
                let over = l.iter().any(|&l| self.story.links.get(l).is_some_and(|l| !l.pulleys.is_empty()));
                for &x in b {
                    if let Some(x) = self.story.bodies.get_mut(x).filter(|x| x.on.is_none()) {
                        x.hangs |= hangs || over;
                    }
                }
            }
            (Ref::Bodies(to), Ref::Links(l)) if attached => {
                for &x in to {
                    self.at_ends(l, &[x]);
                }
            }
            (Ref::Pulleys(p), Ref::Links(l)) => self.put_over(l, p),
            (Ref::Surface(s), Ref::Bodies(b)) if !hangs && !attached => self.on_surface(b, *s),
            (Ref::Floor(lift), Ref::Bodies(b)) if !hangs && !attached => self.put_on(b, *lift),
            (Ref::Bodies(to), Ref::Bodies(b)) if !attached => {
                let [one] = to.as_slice() else { return Some(false) };
                if b.contains(one) {
                    return Some(false);
                }
                let below = matches!(self.w(prep), "below" | "beneath" | "from");
                match (below, hangs) {
                    (true, true) => {
                        let [load] = b.as_slice() else { return Some(false) };
                        self.hangs_below(*one, *load);
                    }
                    (false, false) => self.put_on(b, *one),
                    _ => return Some(false),
                }
            }
            _ => return Some(false),
        }
        Some(true)
    }

    /// `, and to the other a body of mass 5 kg`: the same verb, left out.
    fn gapped_end(&mut self, links: &[usize], first: &[usize], at: usize) -> Option<usize> {
        let [link] = links else { return None };
        let e = self.phrase(at, ",|; and|while?").or_else(|| self.phrase(at, "and|while"))?;
        let e = self.phrase(e, "to|from|at|on the other|second end?")?;
        let e = self.inverted_verb(e).unwrap_or(e);
        let np = self.nps(e, false)?;
        let Ref::Bodies(b) = np.what.clone() else { return None };
        if b.iter().any(|x| first.contains(x)) {
            return None;
        }
        for &x in &b {
            self.add_end(*link, x);
        }
        self.told(at, e, "what is at the other end of it");
        Some(self.after_np(&np.what, np.end))
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, told};

    #[test]
    fn the_place_may_stand_first() {
        let text = "A light string passes over a smooth pulley. To one end is attached a body of mass 3 kg and to the \
                    other a body of mass 5 kg. Find the acceleration of the system.";
        let expected = [
            "the first body hangs",
            "the second body hangs",
            "string: the first body - the second body over a pulley",
            "Released",
        ];
        assert_eq!(in_short(&told(text)), expected);
    }
}
