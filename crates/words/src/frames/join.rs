//! Joining: `A is joined to B by a light string`, `one to each end of a string`, `a tow-bar joins them`.

use crate::lexicon::{self, Noun};
use crate::noun::Ref;
use crate::reader::Reader;

impl Reader<'_> {
    pub(crate) fn join(&mut self, at: usize) -> Option<usize> {
        // "One end is attached to a beam", of a string that then passes under a light pulley.
        let under = self.toks.iter().skip(at).take(20).any(|t| t.lower == "under");
        if let (true, Some(crate::noun::Ref::Ends(_) | crate::noun::Ref::Links(_)), Some(e)) = (
            under,
            &self.about,
            self.phrase(
                at + 1,
                "to a|the|an fixed|rigid|horizontal? ceiling|beam|support|point|bracket|girder",
            ),
        ) {
            self.told(at, e, "this end does not move");
            return Some(e);
        }
        let word = self.w(at).to_owned();
        let subject = self.about_bodies();
        let mut links = self.about_links();
        let by_itself = !links.is_empty();
        let mut others: Vec<usize> = Vec::new();
        let mut end = at + 1;
        let mut ends_of: Vec<usize> = Vec::new();
        let mut held_up = false;
        for _ in 0..8 {
            let k = self.skip(end);
            if let Some(e) = self.arranged(k) {
                self.scene(k, e);
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "together|directly|horizontally|firmly|securely|end") {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "on|along") {
                let surface =
                    matches!(lexicon::noun(self.w(e)), Some(Noun::Surface { .. })) || !subject.is_empty();
                if let Some(np) = if surface { self.np(e) } else { None }
                    && let Ref::Surface(s) = np.what
                {
                    self.on_surface(&subject, s);
                    self.glue(k, np.end);
                    end = self.after_np(&np.what, np.end);
                    continue;
                }
            }
            if let Some(e) = self
                .phrase(k, "one to each|end")
                .or_else(|| self.phrase(k, "one at each end"))
                .or_else(|| self.phrase(k, "to each other"))
            {
                end = e;
                continue;
            }
            // "by a light string, over a smooth pulley, to": the way of what joins them.
            if let (false, Some(e)) =
                (links.is_empty(), self.way_beside(&links.clone(), self.phrase(k, ",").unwrap_or(k)))
            {
                end = e;
                continue;
            }
            let comma = self.w(k) == ",";
            let p = if comma { self.skip(k + 1) } else { k };
            // a string attached to each side of the block that was named
            if by_itself && let Some(e) = self.both_sides(&mut links, p) {
                self.link.clone_from(&links);
                others.extend(self.latest.first().copied().filter(|_| others.is_empty()));
                end = e;
                continue;
            }
            if let Some(e) = self
                .phrase(p, "by|with means|using? of?")
                .filter(|_| matches!(self.w(p), "by" | "with"))
                .or_else(|| self.phrase(p, "using|via|through"))
            {
                if let Some(np) = self.np(e) {
                    if let Ref::Links(l) = np.what.clone() {
                        links = l;
                        // One body joined to several by strings: a string for each.
                        if let ([first], [_], true) = (
                            links.as_slice(),
                            subject.as_slice(),
                            lexicon::plural(self.w(np.end.wrapping_sub(1))) && others.len() > 1,
                        ) && let Some(like) = self.story.links.get(*first).cloned()
                        {
                            for _ in 1..others.len() {
                                links.push(self.story.links.len());
                                self.story.links.push(like.clone());
                            }
                        }
                        self.glue(k, e);
                        end = self.after_np(&Ref::Links(links.clone()), np.end);
                        continue;
                    }
                    if let (Ref::Bodies(b), "with") = (np.what.clone(), self.w(p)) {
                        others.extend(b.into_iter().filter(|x| !subject.contains(x)));
                        self.glue(k, e);
                        end = self.after_np(&np.what, np.end);
                        continue;
                    }
                }
                break;
            }
            if let Some(e) = self.phrase(p, "to|from")
                && let Some((lift, e2)) = self.ceiling(e)
                && let [one] = subject.as_slice()
            {
                let one = *one;
                self.told(k, e2, "it hangs from the roof and moves with it");
                others.push(lift);
                self.hangs_below(lift, one);
                self.joins.retain(|j| *j != (lift, one));
                end = e2;
                continue;
            }
            if let Some(e) = self.phrase(p, "to")
                && !subject.is_empty()
                && let Some(e2) = self.outside(e)
            {
                held_up = true;
                end = e2;
                continue;
            }
            if let Some(e) = self
                .phrase(p, "to|on|at the|its|each|both|either|opposite? back|front|rear|side|sides|top of")
                .or_else(|| self.phrase(p, "behind|to|at|from|between"))
            {
                // "at the edge of the table" is a place.
                let np = match self.nps(e, true) {
                    Some(np) => np,
                    None => break,
                };
                match np.what.clone() {
                    Ref::Bodies(b) => {
                        for x in b {
                            if !subject.contains(&x) && !others.contains(&x) {
                                others.push(x);
                            }
                        }
                        if self.w(e.wrapping_sub(1)) == "behind"
                            || (k..e).any(|n| matches!(self.w(n), "back" | "rear" | "behind"))
                        {
                            let pairs: Vec<(usize, usize)> =
                                others.iter().zip(&subject).map(|(f, b)| (*f, *b)).collect();
                            self.tows(&pairs);
                        }
                        self.glue(k, e);
                        let after = self.after_np(&np.what, np.end);
                        end = after;
                    }
                    Ref::Ends(l) => {
                        self.glue(k, e);
                        end = self.after_np(&np.what, np.end);
                        end = self.other_end(&l, &subject, end).unwrap_or(end);
                        ends_of = l;
                    }
                    Ref::Links(l) => {
                        ends_of = l;
                        self.glue(k, e);
                        end = self.after_np(&np.what, np.end);
                    }
                    Ref::Pulleys(_) | Ref::Surface(_) | Ref::Floor(_) | Ref::System | Ref::Thing => break,
                }
                continue;
            }
            // ", and by another string to": what was told so far is one join, and another follows.
            if let Some(e) = self.phrase(k, ",? and by|with|to")
                && !by_itself
                && ends_of.is_empty()
                && let [link] = links.as_slice()
                && !self.told_plural(*link)
                && (!others.is_empty() || self.story.links.get(*link).is_some_and(|l| !l.ends.is_empty()))
            {
                let mut all = subject.clone();
                all.append(&mut others);
                let link = *link;
                all.iter().for_each(|&b| self.add_end(link, b));
                links.clear();
                self.glue(k, e - 1);
                end = e - 1;
                continue;
            }
            // ", and the second to the third": the same again.
            if let Some(e) = self.phrase(k, ",? and") {
                if !others.is_empty() {
                    let saved = (self.latest.clone(), self.pair, self.story.bodies.len());
                    if let Some(np) = self.np(e)
                        && let (Ref::Bodies(x), Some(e2)) = (np.what.clone(), self.phrase(np.end, "to"))
                        && let Some(np2) = self.np(e2)
                        && let (Ref::Bodies(y), [one]) = (np2.what.clone(), x.as_slice())
                        && let [two] = y.as_slice()
                    {
                        self.joins.push((*one, *two));
                        self.glue(k, np2.end);
                        end = np2.end;
                        continue;
                    }
                    (self.latest, self.pair) = (saved.0, saved.1);
                    self.story.bodies.truncate(saved.2.max(1));
                }
                break;
            }
            // The verb "joins A to B": an object without preposition.
            if (others.is_empty() && !links.is_empty() && by_itself
                || (word.ends_with("ing") || word.ends_with('s')) && others.is_empty())
                && let Some(np) = self.nps(p, false)
                && let Ref::Bodies(b) = np.what.clone()
            {
                others = b;
                end = self.after_np(&np.what, np.end);
                continue;
            }
            break;
        }
        if let (true, true, [one], [link]) =
            (held_up, others.is_empty(), subject.as_slice(), links.as_slice())
        {
            let (one, link) = (*one, *link);
            self.add_end(link, one);
            if let Some(l) = self.story.links.get_mut(link) {
                l.vertical = true;
            }
            if let Some(b) = self.story.bodies.get_mut(one) {
                b.hangs = true;
            }
            self.told(at, at + 1, "held up by it: its tension acts upwards");
            return Some(end);
        }
        // Tied to something that is not in the story (a beam): only for links.
        if others.is_empty() && links.is_empty() && ends_of.is_empty() && subject.len() < 2 {
            if subject.is_empty() || self.about.is_none() {
                if let Some(e) = self.place(at + 1) {
                    self.scene(at, e);
                    return Some(e);
                }
                return None;
            }
            return None;
        }
        if by_itself && others.is_empty() && end == at + 1 {
            let e = self
                .phrase(at + 1, "to the|its roof|top|ceiling of the|a lift|cage|hoist|elevator|cab")
                .or_else(|| self.phrase(at + 1, "to its|the roof|top"))?;
            self.scene(at, e);
            return Some(e);
        }
        let means = "they move together while the link holds";
        self.told(at, at + 1, means);
        if by_itself {
            // A string attached to bodies, or joining them.
            for &l in &links.clone() {
                for &b in &others {
                    self.add_end(l, b);
                }
            }
        } else if !ends_of.is_empty() {
            let mut all = subject.clone();
            all.extend(others.iter().copied());
            self.attach_ends(&ends_of, &all);
        } else {
            let mut all = subject.clone();
            all.extend(others.iter().copied());
            let links = self.a_link_each(at, &subject, &others, links);
            let rigid = matches!(word.as_str(), "coupled" | "hitched");
            let star = |a: &[usize], b: &[usize]| a.len() == 1 && b.len() > 1 && b.len() == links.len();
            let (hub, rim) = if star(&others, &subject) { (&others, &subject) } else { (&subject, &others) };
            if let ([one], true) = (hub.as_slice(), star(hub, rim)) {
                // One body joined to several, each by a string of its own.
                for (other, link) in rim.iter().zip(links.clone()) {
                    self.add_end(link, *other);
                    self.add_end(link, *one);
                }
            } else if let ([one], [link]) = (all.as_slice(), links.as_slice()) {
                // What else it joins is told where its way is told: `which passes over a pulley to Q`.
                self.add_end(*link, *one);
            } else {
                self.connect(&all, &links, rigid);
            }
        }
        Some(end)
    }
}

impl Reader<'_> {
    /// `... to one end, and a particle of mass 5 kg to the other`; `and the other end to Q`: what is at the other end.
    pub(super) fn other_end(&mut self, links: &[usize], first: &[usize], at: usize) -> Option<usize> {
        let [link] = links else { return None };
        let e = self.phrase(at, ",|; and|while|with?").or_else(|| self.phrase(at, "and|while|with"))?;
        self.trying(|r| {
            const TO: &str =
                "is|are? attached|fixed|tied|fastened|hung|suspended|hangs|hanging|joined|connected? freely?";
            // the other end to Q
            let turned = r
                .phrase(e, "the|its other|second? end?")
                .filter(|&k| r.w(k.wrapping_sub(1)) == "other" || r.w(k.wrapping_sub(1)) == "end")
                .and_then(|k| r.phrase(k, TO))
                .and_then(|k| r.phrase(k, "to|carries|supports|holds"));
            let (bodies, end) = match turned {
                Some(k) => {
                    let np = r.nps(k, true)?;
                    let Ref::Bodies(b) = np.what.clone() else { return None };
                    (b, r.after_np(&np.what, np.end))
                }
                None => {
                    let np = r.nps(e, true)?;
                    let Ref::Bodies(b) = np.what.clone() else { return None };
                    let mut k = np.end;
                    if let Some((amounts, e, _)) = r.masses_after(k, false) {
                        r.set_mass(&b, &amounts);
                        r.told(k, e, "its mass");
                        k = e;
                    }
                    let k = r.phrase(k, ",").unwrap_or(k);
                    let k = r.phrase(k, TO).unwrap_or(k);
                    let k = r.phrase(k, "to|at|from|on|by the|its other|second? end|side?")?;
                    if !matches!(r.w(k.wrapping_sub(1)), "other" | "end" | "side") {
                        return None;
                    }
                    let k = r.phrase(k, "of the string|rope|cord|cable|chain").unwrap_or(k);
                    (b.clone(), r.after_np(&Ref::Bodies(b), k))
                }
            };
            let [one] = bodies.as_slice() else { return None };
            if first.contains(one) {
                return None;
            }
            for b in first {
                r.add_end(*link, *b);
            }
            r.add_end(*link, *one);
            let text = format!("{} is at the other end of it", r.name(*one));
            r.told(at, end, text);
            Some(end)
        })
    }

    /// One body joined to several by `strings`, or each of several to one by `a string`: a string for each.
    fn a_link_each(
        &mut self,
        at: usize,
        one: &[usize],
        several: &[usize],
        mut links: Vec<usize>,
    ) -> Vec<usize> {
        let [link] = links.as_slice() else { return links };
        let link = *link;
        let Some(like) = self.story.links.get(link).filter(|l| l.ends.is_empty()).cloned() else {
            return links;
        };
        let each = (self.lo..at).any(|k| matches!(self.w(k), "each" | "both"));
        match (one.len(), several.len()) {
            (1, n) if n > 1 => return self.as_many(&links, n),
            (n, 1) if n > 1 && each => {
                for _ in 1..n {
                    links.push(self.story.links.len());
                    self.story.links.push(like.clone());
                }
                self.part_pulleys(&links);
            }
            _ => return links,
        }
        self.link.clone_from(&links);
        links
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::refused;

    #[test]
    fn what_joins_two_trucks_must_be_said() {
        let text =
            "Two trucks A and B, of masses 200 kg and 300 kg, are joined together. Find the acceleration.";
        assert!(refused(text).contains(&"what joins A and B is not said".to_owned()));
    }
}
