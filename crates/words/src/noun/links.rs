//! Strings, ropes, tow-bars: `a light inextensible string`, `the tow-bar joining A and B`, `two strings`.

use super::Front;
use crate::adjective::Tells;
use crate::amount::plain_index;
use crate::lexicon::{plural, singular};
use crate::noun::{Np, Ref};
use crate::reader::Reader;
use crate::story::LinkTold;
use model::{Diagnostic, Holds, Refusal};

impl Reader<'_> {
    pub(super) fn link_np(&mut self, i: usize, f: &Front, holds: Holds) -> Option<Np> {
        let word = self.w(f.head).to_owned();
        let one = singular(&word);
        if Self::has(f, Tells::Sloping) {
            let d = Diagnostic::refuse(
                Refusal::Unread,
                "a string or bar at an angle to the motion is not followed yet",
            )
            .at(self.span(i, f.end))
            .hint("make it parallel to the motion");
            self.diagnostics.push(d);
        }
        if Self::has(f, Tells::Elastic) || Self::has(f, Tells::Heavy) {
            let what = if Self::has(f, Tells::Elastic) {
                "an elastic string stretches; this tool follows strings that do not"
            } else {
                "a string or rod with a mass of its own is not followed"
            };
            let d = Diagnostic::refuse(Refusal::Unread, what)
                .at(self.span(i, f.end))
                .hint("write: a light inextensible string");
            self.diagnostics.push(d);
        }
        // "tow bar", "tow rope" in two words.
        let noun = if f.head > 0 && matches!(self.w(f.head.wrapping_sub(1)), "tow" | "towing") {
            format!("tow-{one}")
        } else {
            one.clone()
        };
        let holds =
            if matches!(noun.as_str(), "tow-rope" | "tow-cable" | "tow-chain") { Holds::Pull } else { holds };
        let about = format!("the {noun}");
        if holds == Holds::PullOrPush && (f.definite || f.each || plural(&word)) {
            self.couple_train();
        }
        let mut end = f.end;
        // "One string passes over ...", of two that are there already.
        let one_of: Vec<usize> = (0..self.story.links.len())
            .filter(|&l| self.story.links.get(l).is_some_and(|l| l.noun == noun && l.pulleys.is_empty()))
            .collect();
        let found = if f.count == Some(1) && self.w(i) == "one" && one_of.len() == 2 {
            one_of.first().map(|&l| vec![l])
        } else if f.indefinite && !Self::has(f, Tells::Other) || (f.count.is_some() && !f.definite) {
            None
        } else {
            self.find_links(f, &noun)
        };
        if f.indefinite || found.is_none() {
            let count = f.count.unwrap_or(1).min(20);
            let count = if plural(&word) && f.count.is_none() && !f.each { 0 } else { count };
            let first = self.story.links.len();
            let span = self.span(i, f.end);
            // "by strings": as many as there are joins; made when the joins are read.
            let n = if count == 0 { 1 } else { count };
            for _ in 0..n {
                self.story.links.push(LinkTold {
                    noun: noun.clone(),
                    holds: if Self::has(f, Tells::Rigid) { Holds::PullOrPush } else { holds },
                    ends: Vec::new(),
                    pulleys: Vec::new(),
                    span,
                    light: Self::has(f, Tells::Light),
                    level: Self::has(f, Tells::Level),
                    vertical: Self::has(f, Tells::Vertical),
                    lean: None,
                });
            }
            let ids: Vec<usize> = (first..first + n).collect();
            if let Some(e) = self.named_by_ends(&ids, end) {
                end = e;
            }
            let pulls = if holds == Holds::Pull { "it can pull, not push" } else { "it can pull or push" };
            self.note_front(i, f, &about);
            self.told(i, end, format!("{about}: {pulls}"));
            self.link.clone_from(&ids);
            return Some(Np { what: Ref::Links(ids), end });
        }
        self.note_front(i, f, &about);
        let mut ids = found.unwrap_or_default();
        // "the string attached to A", "the rope which supports C", of several
        if self.story.links.iter().filter(|l| l.noun == noun).count() > 1
            && let Some((l, e)) = self.string_of(f.end)
        {
            return Some(Np { what: Ref::Links(vec![l]), end: e });
        }
        if let (Some(e), true) =
            (self.phrase(f.end, "between|joining|connecting|linking them"), self.story.bodies.len() > 2)
        {
            self.glue(f.end, e);
            end = e;
        } else if let Some((bodies, e)) = self.joined_pair(f.end) {
            let exact_match: Vec<usize> = ids
                .iter()
                .copied()
                .chain(0..self.story.links.len())
                .filter(|&l| {
                    self.story.links.get(l).is_some_and(|l| {
                        bodies.iter().all(|b| l.ends.contains(b)) && l.ends.len() == bodies.len()
                    })
                })
                .collect();
            if let Some(&l) = exact_match.first() {
                ids = vec![l];
            } else if let [l] = ids.as_slice() {
                // "the string joining A and B" may be what tells us so.
                if let Some(link) = self.story.links.get_mut(*l) {
                    if link.ends.is_empty() {
                        link.ends.clone_from(&bodies);
                    } else {
                        ids = Vec::new();
                    }
                }
            } else {
                let free =
                    ids.iter().copied().find(|&l| self.story.links.get(l).is_some_and(|l| l.ends.is_empty()));
                ids = free.into_iter().collect();
                if let Some(l) = free.and_then(|l| self.story.links.get_mut(l)) {
                    l.ends.clone_from(&bodies);
                }
            }
            self.told(f.end, e, format!("the {noun} between {}", self.names(&bodies)));
            end = e;
            if ids.is_empty() {
                return None;
            }
        }
        if end == f.end
            && self.story.links.iter().filter(|l| l.noun == noun).count() > 1
            && matches!(self.w(self.skip(end)), "joining" | "connecting" | "between" | "linking")
        {
            return None;
        }
        // What is asked of one string does not make it the one that is spoken of in the next part.
        if let ([one], false) = (ids.as_slice(), self.asking && self.part > 0) {
            self.link = vec![*one];
        }
        Some(Np { what: Ref::Links(ids), end })
    }

    /// `attached to A`, `which supports C`: the one string that this body is tied to.
    fn string_of(&mut self, i: usize) -> Option<(usize, usize)> {
        const TO: &str = "which|that? is? attached|tied|fastened|fixed|connected|joined to";
        // from which C hangs, on C's side
        let of = |r: &Self, k: usize| {
            let label = r.tok(k).filter(|t| t.label_of(r)).map(|t| plain_index(&t.text))?;
            let body = r.by_label(&label)?;
            let mut tied = (0..r.story.links.len())
                .filter(|&l| r.story.links.get(l).is_some_and(|l| l.ends.contains(&body)));
            match (tied.next(), tied.next()) {
                (Some(l), None) => Some(l),
                _ => None,
            }
        };
        if let Some(e) = self.phrase(i, "from|on|by which")
            && let Some(l) = of(self, self.skip(e))
            && let Some(end) = self.phrase(e + 1, "hangs|is hanging|suspended|hung?")
        {
            self.told(i, end, "which string is meant");
            return Some((l, end));
        }
        if let Some(e) = self.phrase(i, "on")
            && let Some(l) = of(self, self.skip(e))
            && let Some(end) = self.phrase(e + 1, "'s side")
        {
            self.told(i, end, "which string is meant");
            return Some((l, end));
        }
        let e = self
            .phrase(i, TO)
            .or_else(|| self.phrase(i, "which|that? holding|supporting|carrying|holds|supports|carries"))?;
        let spoken = (self.latest.clone(), self.pair);
        let np = self.np(e).filter(|np| matches!(np.what, Ref::Bodies(_)));
        (self.latest, self.pair) = spoken;
        let np = np?;
        let Ref::Bodies(b) = &np.what else { return None };
        let [body] = b.as_slice() else { return None };
        let mut tied = (0..self.story.links.len())
            .filter(|&l| self.story.links.get(l).is_some_and(|l| l.ends.contains(body)));
        match (tied.next(), tied.next()) {
            (Some(l), None) => {
                self.told(i, np.end, "which string is meant");
                Some((l, np.end))
            }
            _ => None,
        }
    }

    /// `two strings AB and BC`: each by the bodies at its ends.
    fn named_by_ends(&mut self, links: &[usize], i: usize) -> Option<usize> {
        let mut at = i;
        for &l in links {
            at = self.skip(at);
            while matches!(self.w(at), "," | "and") {
                at = self.skip(at + 1);
            }
            let text = self.tok(at)?.text.clone();
            let mut letters = text.chars();
            let (a, b) = (letters.next()?, letters.next()?);
            if letters.next().is_some() {
                return None;
            }
            let (a, b) = (self.by_label(&a.to_string())?, self.by_label(&b.to_string())?);
            self.story.links.get_mut(l)?.ends = vec![a, b];
            at += 1;
        }
        self.told(i, at, "named by what is at its ends");
        Some(at)
    }

    /// `joining A and B`, `between the engine and wagon A`, `which joins them`, `connecting A to B`.
    fn joined_pair(&mut self, i: usize) -> Option<(Vec<usize>, usize)> {
        let mut at = self.skip(i);
        if self.w(at) == "," {
            return None;
        }
        if matches!(self.w(at), "which" | "that") {
            at += 1;
        }
        let w = self.w(at);
        if !matches!(
            w,
            "joining"
                | "connecting"
                | "between"
                | "joins"
                | "connects"
                | "linking"
                | "links"
                | "attaching"
                | "coupling"
        ) {
            return None;
        }
        at += 1;
        let saved = (self.latest.clone(), self.pair);
        let np = self.nps(at, false)?;
        let Ref::Bodies(mut bodies) = np.what else {
            (self.latest, self.pair) = saved;
            return None;
        };
        let mut end = np.end;
        if bodies.len() == 1
            && matches!(self.w(self.skip(end)), "to" | "with")
            && let Some(other) = self.np(self.skip(end) + 1)
            && let Ref::Bodies(b) = other.what
        {
            self.glue(end, self.skip(end) + 1);
            bodies.extend(b);
            end = other.end;
        }
        (bodies.len() == 2).then_some((bodies, end))
    }

    fn find_links(&self, f: &Front, noun: &str) -> Option<Vec<usize>> {
        let links = &self.story.links;
        let mut pool: Vec<usize> =
            links.iter().enumerate().filter(|(_, l)| l.noun == noun).map(|(i, _)| i).collect();
        if pool.is_empty() {
            let kin = |l: &LinkTold| {
                let bar = |n: &str| {
                    matches!(
                        n,
                        "tow-bar"
                            | "towbar"
                            | "bar"
                            | "rod"
                            | "coupling"
                            | "hitch"
                            | "drawbar"
                            | "link"
                            | "coupler"
                            | "tow-hitch"
                    )
                };
                bar(noun) && bar(&l.noun)
                    || matches!(
                        noun,
                        "string" | "rope" | "cord" | "thread" | "cable" | "tow-rope" | "chain" | "wire"
                    ) && l.holds == Holds::Pull
            };
            pool = links.iter().enumerate().filter(|(_, l)| kin(l)).map(|(i, _)| i).collect();
            let told_apart = f.tells.iter().any(|(_, t)| matches!(t, Tells::Upper | Tells::Lower));
            if (pool.len() != 1 && !told_apart) || f.indefinite {
                return None;
            }
        }
        for (_, tells) in &f.tells {
            match tells {
                Tells::Nth(n) => return pool.get(*n).map(|&l| vec![l]).or(None),
                Tells::Leading => return pool.first().map(|&l| vec![l]),
                Tells::Last => return pool.last().map(|&l| vec![l]),
                Tells::Upper | Tells::Lower => {
                    // The lower string holds the body below which nothing hangs.
                    let lowest = |l: usize| {
                        self.story.links.get(l).is_some_and(|l| {
                            l.ends.len() == 2
                                && l.ends.iter().any(|&b| {
                                    self.story.order.iter().any(|o| o.1 == b)
                                        && !self.story.order.iter().any(|o| o.0 == b)
                                })
                        })
                    };
                    // The cable above and the chain below: two names for two strings.
                    let all: Vec<usize> = (0..links.len()).collect();
                    let among = if pool.len() == 1 { &all } else { &pool };
                    let found: Vec<usize> =
                        among.iter().copied().filter(|&l| lowest(l) == (*tells == Tells::Lower)).collect();
                    return match (found.as_slice(), among.len()) {
                        ([one], 2) => Some(vec![*one]),
                        _ => None,
                    };
                }
                Tells::Other => {
                    let rest: Vec<usize> = pool.iter().copied().filter(|l| !self.link.contains(l)).collect();
                    return (rest.len() == 1).then_some(rest);
                }
                _ => {}
            }
        }
        if f.indefinite {
            return None;
        }
        let many = plural(self.w(f.head)) || f.each || matches!(f.count, Some(n) if n > 1);
        if !many && pool.len() > 1 {
            // The string last spoken of, if it was spoken of alone; otherwise all that it may be.
            let recent: Vec<usize> = pool.iter().copied().filter(|l| self.link.contains(l)).collect();
            if recent.len() == 1 {
                return Some(recent);
            }
        }
        Some(pool)
    }
}
