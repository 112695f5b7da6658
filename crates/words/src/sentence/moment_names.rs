//! Moments that are named without a clause: `from the start until`, `at this instant`, `on impact`, `the breaking of the string`.

use crate::reader::Reader;
use crate::sentence::events::Named;
use crate::sentence::moments::Lead;
use crate::timeline::{Moment, Occurs};

impl Reader<'_> {
    /// `from the instant when the string breaks until P stops`, `between the landing and ...`, `from the start until`.
    pub(super) fn between_moments(&mut self, i: usize) -> Option<usize> {
        const INSTANT: &str = "the? instant|moment|time? when|that|at|of? which?";
        let a = self
            .phrase(i, &format!("that|which? elapses|passes|elapse|pass? between {INSTANT}"))
            .or_else(|| self.phrase(i, &format!("that|which? elapses|passes? from {INSTANT}")))
            .or_else(|| self.phrase(i, &format!("from {INSTANT}")).filter(|_| self.w(i) == "from"))?;
        let from = (i..a).any(|k| self.w(k) == "from");
        let mut when = self.pop_moments();
        let started = self.beginning(a);
        let e = match started {
            Some(e) => {
                when.total = true;
                e
            }
            None => {
                let just = if from { self.phrase(a, "then|this|that|moment|instant|on") } else { None };
                match just.and_then(|e| Some((self.told_last()?, e))) {
                    Some((n, e)) => {
                        self.set_event(&mut when, Lead::After, n);
                        e
                    }
                    None => {
                        let (first, e) = self.event(a).or_else(|| self.event_noun(a))?;
                        self.set_moment(&mut when, Lead::After, &first)?;
                        e
                    }
                }
            }
        };
        let mut end = e;
        let second = self
            .phrase(e, &format!("and|to|until|till {INSTANT}"))
            .and_then(|e2| self.event(e2).or_else(|| self.event_noun(e2)));
        match second {
            Some((second, e2)) => {
                let chapter = when.chapter;
                let from = when.from.clone();
                self.set_moment(&mut when, Lead::Before, &second)?;
                when.chapter = when.chapter.max(chapter);
                when.from = from;
                end = e2;
            }
            None if started.is_some() => return None,
            None => {}
        }
        self.told(i, end, "from when until when");
        self.put_moments(when);
        Some(end)
    }

    /// `the start`, `release`, `the instant when the system is released`: how the story begins.
    pub(super) fn beginning(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self
            .phrase(i, "the? moment|instant|time|point? of? being? start|release|released|rest|beginning|projection|launch|launching")
        {
            return Some(self.phrase(e, "of the motion|masses|system|particles|blocks|bodies").unwrap_or(e));
        }
        let k = (i + 1..i + 6).find(|&k| self.phrase(k, "is|are|was|were released|projected").is_some())?;
        self.known_between(i, k)?;
        let e = self.phrase(k, "is|are|was|were released|projected")?;
        Some(self.phrase(e, "from rest").unwrap_or(e))
    }

    /// The last thing told to happen, where no question since then speaks of another moment.
    pub(super) fn told_last(&self) -> Option<usize> {
        let n = self.story.events.len().checked_sub(1)?;
        let event = self.story.events.get(n).filter(|e| e.told)?;
        let own = |m: &Option<Moment>| m.is_none() || *m == Some(Moment::Event(n));
        let first = self.first_ask;
        self.story
            .asks
            .iter()
            .enumerate()
            .filter(|(i, a)| a.part >= event.part && *i < first)
            .all(|(_, a)| a.facts.is_empty() && own(&a.when.from) && own(&a.when.to))
            .then_some(n)
    }

    /// `at this instant`, `after this`, `before this happens`, `immediately afterwards`: the moment of what was told last.
    pub(super) fn that_moment(&mut self, i: usize) -> Option<(Lead, usize, usize)> {
        const HAPPENS: &str = "happens|happened|happen|occurs|occurred";
        let ends = |e: usize| {
            let k = self.skip(e);
            k >= self.hi || self.tok(k).is_some_and(|t| !t.is_word() && t.number().is_none())
        };
        let (lead, e) = if let Some(e) = self
            .phrase(i, "at|by this|that very|same? instant|moment|time")
            .or_else(|| self.phrase(i, "by then"))
            .or_else(|| self.phrase(i, &format!("when|as this|that {HAPPENS}")))
        {
            (Lead::At, e)
        } else if let Some(e) = self
            .phrase(i, &format!("immediately|just|straight? after|once this|that has? {HAPPENS}"))
            .or_else(|| self.phrase(i, "immediately|just|straight|directly? afterwards|thereafter"))
            .or_else(|| self.phrase(i, "immediately|just|straight? after this|that").filter(|&e| ends(e)))
            .or_else(|| self.phrase(i, "from this|that moment|instant|time|point on|onwards?"))
            .or_else(|| {
                self.phrase(i, "from then on|onwards")
                    .or_else(|| self.phrase(i, "from then").filter(|&e| ends(e)))
            })
            .or_else(|| self.phrase(i, "now").filter(|&e| ends(e)))
        {
            (Lead::After, e)
        } else if let Some(e) = self
            .phrase(i, &format!("immediately|just? before|until this|that {HAPPENS}"))
            .or_else(|| self.phrase(i, "immediately|just? before this|that").filter(|&e| ends(e)))
        {
            (Lead::Before, e)
        } else {
            return None;
        };
        Some((lead, self.told_last()?, e))
    }

    /// A happening as a noun: `the breaking of the string`, `impact`, `the jerk`. The place after it.
    pub(super) fn event_noun(&mut self, i: usize) -> Option<(Named, usize)> {
        if let Some(e) = self.phrase(i, "the? breaking|snapping|cutting|parting|break|failure of the") {
            let k = (e..e + 4).find(|&k| self.known_link(e, k + 1).is_some())?;
            return Some((Named::Event(Occurs::Breaks(self.known_link(e, k + 1)?)), k + 1));
        }
        let last = |r: &Self, kind: fn(&Occurs) -> bool| {
            r.story.events.iter().rev().find(|e| kind(&e.occurs)).map(|e| e.occurs.clone())
        };
        if let Some(e) = self.phrase(i, "the|its? first? impact|collision|landing") {
            let occurs = last(self, |o| matches!(o, Occurs::Lands { .. }))?;
            let e = self.phrase(e, "of").and_then(|f| self.plain_end(f)).unwrap_or(e);
            let e = self.phrase(e, "with|on").and_then(|f| Some(self.landing_place(f)?.2)).unwrap_or(e);
            return Some((Named::Event(occurs), e));
        }
        let e = self.phrase(i, "the break")?;
        let occurs = last(self, |o| matches!(o, Occurs::Breaks(_)))?;
        Some((Named::Event(occurs), e))
    }

    /// The links that the words from `i` up to `end` name.
    pub(super) fn known_link(&mut self, i: usize, end: usize) -> Option<Vec<usize>> {
        match self.known_between(i, end)? {
            crate::noun::Ref::Links(l) => Some(l),
            _ => None,
        }
    }
}
