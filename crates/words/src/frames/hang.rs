//! Hanging: `hangs freely at the other end`, `hangs 1.2 m above the floor`, `from its end there hangs a ball`.

use crate::noun::Ref;
use crate::reader::Reader;

impl Reader<'_> {
    pub(super) fn hang(&mut self, at: usize) -> Option<usize> {
        let mut end = at + 1;
        // "from its end there hangs a body": what hangs is named after.
        let inverted = at > self.lo && self.w(at.wrapping_sub(1)) == "there";
        let subject = if inverted { Vec::new() } else { self.about_bodies() };
        let mut upper = None;
        let mut ends_of = inverted.then(|| self.link.clone());
        let mut over = Vec::new();
        for _ in 0..8 {
            let k = self.skip(end);
            // on either side of a smooth pulley, by a cord told before or after
            if let Some(e) = self.phrase(k, "on|at either|each|opposite|both side|sides of")
                && self.ahead(e) == Some(crate::lexicon::Noun::Pulley)
                && let Some(np) = self.np(e)
                && let Ref::Pulleys(p) = np.what.clone()
            {
                self.told(k, np.end, "over a pulley: when one end goes down, the other comes up");
                end = self.after_np(&np.what, np.end);
                over = p;
                continue;
            }
            if let Some(e) = self
                .phrase(k, "freely? under gravity")
                .or_else(|| self.phrase(k, "freely|vertically|down|straight|loose|clear|there"))
                .or_else(|| self.phrase(k, "vertically? below|beneath the pulley|peg"))
                .or_else(|| self.phrase(k, "in the air"))
                .or_else(|| {
                    self.phrase(k, "on opposite|either|each sides|side of|the? it|pulley|table|bench?")
                })
            {
                end = e;
                continue;
            }
            // "hangs on one side and Q on the other", of the string over the pulley
            if let Some(e) = self.phrase(k, "on|at one|the|its other? side|hand")
                && let [link] = self.link.as_slice()
                && self.story.links.get(*link).is_some_and(|l| !l.pulleys.is_empty() && l.ends.len() < 2)
            {
                let link = *link;
                self.glue(k, e);
                end = self.phrase(e, "of it").or_else(|| self.phrase(e, "of the pulley|peg")).unwrap_or(e);
                self.glue(e, end);
                end = self.other_end(&[link], &subject, end).unwrap_or(end);
                ends_of = Some(vec![link]);
                continue;
            }
            if let Some(e) = self.phrase(k, "at rest") {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "from|to")
                && let Some((lift, e2)) = self.ceiling(e)
            {
                self.told(k, e2, "it hangs from the roof and moves with it");
                upper = Some(lift);
                end = e2;
                continue;
            }
            if let Some(e) = self.phrase(k, "from")
                && let Some(e2) = self.outside(e)
            {
                end = e2;
                continue;
            }
            if let Some(e) = self
                .phrase(k, "vertically|directly? below|beneath|under|underneath")
                .or_else(|| self.phrase(k, "from"))
                && upper.is_none()
                && self.named_body(e)
                && let Some(np) = self.np(e)
                && let Ref::Bodies(b) = &np.what
                && let ([one], [me]) = (b.as_slice(), subject.as_slice())
                && one != me
            {
                upper = Some(*one);
                self.latest.clone_from(&subject);
                self.told(k, np.end, "which hangs below which");
                end = np.end;
                continue;
            }
            // 1 m above the floor, at a height h above the ground
            if let Some((amount, e2, true)) = self.height_words(self.phrase(k, ",").unwrap_or(k)) {
                let given = self.given(&amount);
                self.clear(given, true);
                self.told(k, e2, "how far it can fall");
                end = e2;
                continue;
            }
            if let Some(e) = self.phrase(k, "by means of").or_else(|| self.phrase(k, "at|from|by|on")) {
                let np = self.np(e);
                match np.as_ref().map(|n| n.what.clone()) {
                    Some(Ref::Ends(l) | Ref::Links(l)) => {
                        let np = np?;
                        self.glue(k, e);
                        end = self.after_np(&np.what, np.end);
                        ends_of = Some(l);
                        continue;
                    }
                    // A load hung from a body (by a string told later) is read where the string is.
                    Some(Ref::Bodies(_)) => break,
                    _ => {
                        if let Some(e2) = self.place(k) {
                            end = e2;
                            continue;
                        }
                        break;
                    }
                }
            }
            // "hung over a smooth peg": a string that passes over.
            if let Some(e) = self.phrase(k, "over")
                && let Some(np) = self.np(e)
                && let Ref::Pulleys(p) = np.what.clone()
            {
                for l in self.about_links() {
                    if let Some(link) = self.story.links.get_mut(l) {
                        link.pulleys.extend(p.iter().copied());
                    }
                }
                end = self.after_np(&np.what, np.end);
                continue;
            }
            break;
        }
        let mut subject = subject;
        if subject.is_empty() && (inverted || self.about_links().is_empty()) {
            // "from its end there hangs freely a body of mass 2 kg"
            let k = self.skip(end);
            if let Some(np) = self.np(k)
                && let Ref::Bodies(b) = np.what.clone()
            {
                end = self.after_np(&np.what, np.end);
                subject = b;
            }
        }
        for &b in &subject {
            if let Some(body) = self.story.bodies.get_mut(b)
                && body.on.is_none()
            {
                body.hangs = true;
            }
        }
        if !over.is_empty() {
            let k = self.phrase(end, ",? and? are?").unwrap_or(self.skip(end));
            if crate::verbs::frame(self.w(k)) == Some(crate::verbs::Frame::Join)
                && let Some(e) = self.join(k)
            {
                self.glue(end, k);
                end = e;
            }
            let links: Vec<usize> = self
                .story
                .links
                .iter()
                .enumerate()
                .filter(|(_, l)| l.pulleys.is_empty() && subject.iter().all(|b| l.ends.contains(b)))
                .map(|(n, _)| n)
                .collect();
            self.put_over(&links, &over);
        }
        if let (Some(upper), [load]) = (upper, subject.as_slice()) {
            if let Some(&l) = ends_of.as_ref().and_then(|l| l.first()) {
                self.add_end(l, upper);
                self.add_end(l, *load);
            }
            self.hangs_below(upper, *load);
        }
        if let Some(l) = ends_of {
            self.attach_ends(&l, &subject);
        }
        if subject.is_empty() && self.about_links().is_empty() && !matches!(self.about, Some(Ref::System)) {
            return None;
        }
        let names = self.names(&subject);
        self.told(at, end, format!("{names} hangs: it moves straight up or down"));
        Some(end)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, told};

    #[test]
    fn two_bodies_hang_at_the_ends_of_one_string() {
        let text = "A pan of mass 2 kg hangs freely at one end of a light string. The string passes over a \
         smooth peg, and a tub of mass 3 kg hangs at its other end. Find the acceleration.";
        let expected =
            ["the pan hangs", "the tub hangs", "string: the pan - the tub over a pulley", "Released"];
        assert_eq!(in_short(&told(text)), expected);
    }
}
