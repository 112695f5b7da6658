//! Bodies that touch: `are in contact`, `with their buffers touching`, `A pushes B ahead of it`.

use crate::noun::Ref;
use crate::reader::Reader;

impl Reader<'_> {
    /// `in contact with each other`, `touching one another`, `each touching the next`, `against B`, of the subject.
    pub(crate) fn touch(&mut self, i: usize) -> Option<usize> {
        let start = self.phrase(i, ",").unwrap_or(self.skip(i));
        let mut at = self.phrase(start, "so that|and they|both? are|being?").unwrap_or(start);
        if let Some(e) = self
            .phrase(at, "side by side ,? and?")
            .or_else(|| self.phrase(at, "end to end ,? and?"))
            .or_else(|| self.phrase(at, "in a straight? line|row ,? and?"))
            .filter(|&e| self.touch_words(e).is_some())
        {
            at = e;
        }
        let mut end = self.touch_words(at)?;
        let open = matches!(self.w(end.wrapping_sub(1)), "with" | "touching" | "against")
            && !(at..end).any(|k| self.w(k) == "their");
        let each = self
            .phrase(end, "each other")
            .or_else(|| self.phrase(end, "one another"))
            .or_else(|| self.phrase(end, "each-other"));
        let mut all: Vec<usize> = Vec::new();
        if let Some(e) = each {
            end = e;
        } else if open {
            let mine = if self.subject.is_empty() { self.latest.clone() } else { self.subject.clone() };
            let about = self.about.clone();
            let named = self.w(self.skip(end.wrapping_sub(1))) != "touching" || mine.len() == 1;
            if named {
                let np = self.nps(end, true)?;
                let Ref::Bodies(others) = np.what.clone() else { return None };
                let ([one], false) = (mine.as_slice(), others.is_empty()) else { return None };
                all.push(*one);
                all.extend(others.iter().copied().filter(|b| b != one));
                end = self.after_np(&np.what, np.end);
                self.about = about;
            }
        }
        if all.is_empty() {
            all = if self.subject.len() > 1 { self.subject.clone() } else { self.latest.clone() };
        }
        if all.len() < 2 {
            return None;
        }
        for (a, b) in all.iter().zip(all.iter().skip(1)) {
            self.in_contact(*a, *b);
        }
        let names = self.names(&all);
        self.told(i, end, format!("{names} touch: each pushes the next, and they cannot pull"));
        Some(end)
    }

    fn touch_words(&self, i: usize) -> Option<usize> {
        self.phrase(i, "in direct|close? contact with")
            .or_else(|| self.phrase(i, "in direct|close? contact"))
            .or_else(|| self.phrase(i, "each just? touching|touches the next one|block|crate|box|truck?"))
            .or_else(|| self.phrase(i, "each in contact with the next one|block|crate|box|truck?"))
            .or_else(|| {
                self.phrase(i, "with their|the buffers|faces|sides|ends just? touching|in|meeting contact?")
            })
            .or_else(|| self.phrase(i, "just? touching"))
            .or_else(|| self.phrase(i, "pressed? against").filter(|&e| self.touched_ahead(e)))
    }

    /// After "against": each other, or a body that is known already.
    fn touched_ahead(&self, i: usize) -> bool {
        self.phrase(i, "each other").or_else(|| self.phrase(i, "one another")).is_some()
            || self.tok(self.skip(i)).is_some_and(|t| t.label_of(self))
    }

    /// `with P below Q`, `B being above A`, `A behind B`: who stands where.
    pub(crate) fn one_above(&mut self, i: usize) -> Option<usize> {
        let at = self
            .phrase(i, ",? with|where|so that")
            .or_else(|| self.phrase(i, ",? with|where"))
            .or_else(|| self.phrase(i, ","))
            .unwrap_or(i);
        let saved = (self.latest.clone(), self.pair);
        let label = |r: &Self, k: usize| r.tok(r.skip(k)).filter(|t| t.label_of(r)).map(|t| t.text.clone());
        let first = label(self, at)?;
        let verb = self.skip(at) + 1;
        if let Some(e) = self.phrase(verb, "being|is|lies|lying|stands|standing? between")
            && let (Some(a), and) = (label(self, e), self.skip(e) + 1)
            && let Some(c) = self.phrase(and, "and").and_then(|k| Some((label(self, k)?, self.skip(k) + 1)))
        {
            return self.one_between(i, at, [&a, &first, &c.0], c.1);
        }
        if let Some(e) = self.phrase(verb, "being|is|lies|placed|resting? on top of")
            && let Some(second) = label(self, e)
        {
            let (a, b) = (self.by_label(&first)?, self.by_label(&second)?);
            let end = self.skip(e) + 1;
            (self.latest, self.pair) = saved;
            if a == b {
                return None;
            }
            self.put_on(&[a], b);
            self.told(i, end, format!("what {first} stands on"));
            return Some(end);
        }
        let word = self
            .phrase(verb, "being|is|lies? directly|immediately? above|below|behind|beneath")
            .or_else(|| self.phrase(verb, "being|is? in front of"))
            .or_else(|| self.phrase(verb, "being|is? higher|lower up|down? the? slope|plane|ramp? than"))
            .or_else(|| self.phrase(verb, "being|is? nearer the? top|bottom of the slope|plane|ramp than"))?;
        let second = label(self, word)?;
        let (a, b) = (self.by_label(&first)?, self.by_label(&second)?);
        (self.latest, self.pair) = saved;
        let lower =
            (verb..word).any(|k| matches!(self.w(k), "below" | "behind" | "beneath" | "lower" | "bottom"));
        let end = self.skip(word) + 1;
        self.story.order.push(if lower { (b, a) } else { (a, b) });
        if at == i {
            self.set_about(Ref::Bodies(vec![a]));
        }
        self.told(i, end, "the order in which they stand");
        Some(end)
    }

    /// `with B between A and C and touching both`: in a row, and in contact where that is said.
    fn one_between(&mut self, i: usize, at: usize, row: [&str; 3], end: usize) -> Option<usize> {
        let [a, b, c] = row.map(|l| self.by_label(l));
        let (a, b, c) = (a?, b?, c?);
        let touching = self
            .phrase(end, ",|and? and? just? touching|touches both|them|each of? them?")
            .or_else(|| self.phrase(end, ",|and? and? in contact with both|them|each of? them?"));
        if touching.is_some() {
            self.in_contact(a, b);
            self.in_contact(b, c);
        } else {
            self.story.order.extend([(a, b), (b, c)]);
        }
        let end = touching.unwrap_or(end);
        if at == i {
            self.set_about(Ref::Bodies(vec![b]));
        }
        self.told(i, end, "the order in which they stand");
        Some(end)
    }

    pub(crate) fn in_contact(&mut self, a: usize, b: usize) {
        if a != b && !self.story.contacts.contains(&(a, b)) && !self.story.contacts.contains(&(b, a)) {
            self.story.contacts.push((a, b));
        }
    }

    /// `A pushes B ahead of it`: they touch, and A is behind.
    pub(super) fn pushes(&mut self, at: usize) -> Option<usize> {
        let mut pusher = self.about_bodies();
        if pusher.is_empty() {
            pusher.clone_from(&self.subject);
        }
        let np = self.nps(at + 1, true)?;
        let Ref::Bodies(mut pushed) = np.what.clone() else { return None };
        let mut end = self.after_np(&np.what, np.end);
        // "pushing it against the 2 kg block": the object is what pushes.
        if let Some(e) = self.phrase(end, "against|into|towards")
            && let Some(other) = self.np(e)
            && let Ref::Bodies(o) = &other.what
        {
            pusher = std::mem::replace(&mut pushed, o.clone());
            end = other.end;
        }
        // "pushes both blocks up the slope": one of them is pushed by the force, and nothing new is said.
        pushed.retain(|b| !pusher.contains(b));
        let (Some(&a), Some(&b)) = (pusher.last(), pushed.first()) else { return None };
        for _ in 0..3 {
            if let Some(e) = self
                .phrase(end, "along|forward|forwards|ahead|before|in with|front|it|of? it|them?")
                .filter(|_| {
                    matches!(self.w(self.skip(end)), "along" | "forward" | "forwards" | "ahead" | "before")
                })
                .or_else(|| self.phrase(end, "in front of it|them"))
                .or_else(|| self.phrase(end, "with it"))
            {
                end = e;
            }
        }
        self.in_contact(a, b);
        for (x, y) in pushed.clone().iter().zip(pushed.iter().skip(1)) {
            self.in_contact(*x, *y);
        }
        self.told(at, end, format!("{} touches {} and pushes it", self.name(a), self.name(b)));
        Some(end)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, told};

    #[test]
    fn blocks_in_contact_push_each_other() {
        let text = "Two blocks A and B, of mass 2 kg and 3 kg, are in contact on a smooth horizontal table. A \
         horizontal force of 10 N is applied to A. Find the force exerted by A on B.";
        let expected = [
            "A moves on the level",
            "B moves on the level",
            "reaction between A and B: B - A",
            "force applied to A: along",
            "Released",
        ];
        assert_eq!(in_short(&told(text)), expected);
        assert_eq!(means(text, "in contact"), "A and B touch: each pushes the next, and they cannot pull");
    }
}
