//! Happenings: `the string breaks`, `P hits the floor`, `the engine is switched off`, `it comes to rest`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::sentence::sayings::{self, Says};
use crate::timeline::Occurs;

/// A happening, as a statement tells it or a question names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Named {
    /// One that ends a chapter.
    Event(Occurs),
    /// Bodies come to rest.
    Rest(Vec<usize>),
    /// The slack string is taut again.
    Taut,
    /// The taut string goes slack, for what held it has landed.
    Slack,
    /// Bodies are back where they were.
    Back(Vec<usize>),
}

/// What the verb of a happening says, with what belongs to it.
enum Verb {
    Breaks,
    Lands { at: String, ground: bool },
    Rests,
    Taut,
    Slack,
    Back,
}

/// More bodies, or happenings, than any story has.
const MOST: usize = 60;

/// Words that may stand between a subject and the verb of a happening.
const BETWEEN: &[&str] = &[
    "is",
    "are",
    "was",
    "were",
    "has",
    "have",
    "had",
    "been",
    "being",
    "then",
    "now",
    "first",
    "suddenly",
    "immediately",
    "just",
    "subsequently",
    "eventually",
    "later",
    "both",
    "also",
    "will",
    "next",
    "finally",
    "that",
    "itself",
    "again",
    "instantaneously",
    "each",
    "only",
    "actually",
    "does",
    "would",
    "momentarily",
    "instantly",
    "accidentally",
];

impl Reader<'_> {
    /// A happening at `i`, with its subject or, where the verb stands first, of those spoken of. The place after it.
    pub(super) fn event(&mut self, i: usize) -> Option<(Named, usize)> {
        let i = self.skip(i);
        if let Some((forces, e)) = self.shut_off(i) {
            if let Some(e) = self.and_brakes(e) {
                return Some((Named::Event(Occurs::Brakes), e));
            }
            return Some((Named::Event(Occurs::Off(forces)), e));
        }
        if let Some(e) = self.brakes_on(i) {
            return Some((Named::Event(Occurs::Brakes), e));
        }
        let (verb, at, end) = self.event_verb(i)?;
        let what = match (&verb, self.broken(i, at)) {
            (Verb::Breaks, Some(links)) => Ref::Links(links),
            _ => self.event_subject(i, at)?,
        };
        let named = match (verb, what) {
            (Verb::Breaks, Ref::Links(l) | Ref::Ends(l)) => Named::Event(Occurs::Breaks(l)),
            // the trailer becomes detached: what joins it to the rest
            (Verb::Breaks, Ref::Bodies(b)) => {
                let [one] = b.as_slice() else { return None };
                let held: Vec<usize> = (0..self.story.links.len())
                    .filter(|&l| self.story.links.get(l).is_some_and(|l| l.ends.contains(one)))
                    .collect();
                let [link] = held.as_slice() else { return None };
                Named::Event(Occurs::Breaks(vec![*link]))
            }
            (Verb::Lands { at, ground }, Ref::Bodies(b)) => {
                let [body] = b.as_slice() else { return None };
                Named::Event(Occurs::Lands { body: *body, at, ground })
            }
            (Verb::Rests, Ref::Bodies(b)) => Named::Rest(b),
            (Verb::Rests, Ref::System) => Named::Rest((0..self.story.bodies.len()).collect()),
            (Verb::Taut, Ref::Links(_)) => Named::Taut,
            (Verb::Slack, Ref::Links(_)) => Named::Slack,
            (Verb::Back, Ref::Bodies(b)) => Named::Back(b),
            _ => return None,
        };
        Some((named, end))
    }

    /// `before it is cut`: the one that broke, where no more than one did.
    fn broken(&self, i: usize, at: usize) -> Option<Vec<usize>> {
        if self.w(i) != "it" || !(i + 1..at).all(|k| BETWEEN.contains(&self.w(k))) {
            return None;
        }
        let mut broken = self.story.events.iter().filter_map(|e| match &e.occurs {
            Occurs::Breaks(links) => Some(links.clone()),
            _ => None,
        });
        let one = broken.next()?;
        broken.next().is_none().then_some(one)
    }

    /// The verb of a happening within the clause at `i`: what it says, where it stands, the place after it.
    fn event_verb(&self, i: usize) -> Option<(Verb, usize, usize)> {
        let mut k = i;
        for _ in 0..14 {
            let w = self.w(k);
            if w.is_empty()
                || k > i
                    && matches!(
                        w,
                        "," | ";" | "when" | "after" | "before" | "until" | "if" | "while" | "that"
                    )
                || self.is_command(w)
            {
                return None;
            }
            if let Some((verb, e)) = self.verb_here(k) {
                return Some((verb, k, e));
            }
            k = self.skip(k + 1);
        }
        None
    }

    /// What the words at `k` say, where they are the verb of a happening.
    fn verb_here(&self, k: usize) -> Option<(Verb, usize)> {
        let again = |e: usize| self.phrase(e, "again|once|more|first? more?").unwrap_or(e);
        let mut best: Option<(Verb, usize)> = None;
        for &(says, phrase) in sayings::beginning(self.w(k)) {
            let Some(e) = self.phrase(k, phrase) else { continue };
            let found = match says {
                Says::Breaks => {
                    let e = self.phrase(e, "away|off|loose|free").unwrap_or(e);
                    let e = self.phrase(e, "completely|suddenly|accidentally").unwrap_or(e);
                    // from the van, off its hook: what it held
                    let e = self.phrase(e, "from|of|off").and_then(|f| self.plain_end(f)).unwrap_or(e);
                    Some((Verb::Breaks, e))
                }
                Says::Reaches | Says::Lands => self
                    .landing_place(self.phrase(e, "on|onto|at|upon|against|in").unwrap_or(e))
                    .map(|(at, ground, e)| (Verb::Lands { at, ground }, e))
                    .or_else(|| {
                        let at = "the ground".to_owned();
                        (says == Says::Lands).then_some((Verb::Lands { at, ground: true }, k + 1))
                    }),
                Says::Rests => {
                    let e = self.phrase(e, "for an|a instant|moment").unwrap_or(e);
                    Some((Verb::Rests, again(e)))
                }
                Says::Taut => Some((Verb::Taut, again(e))),
                Says::Slack => Some((Verb::Slack, again(e))),
                Says::Back => self.where_it_began(e).map(|e| {
                    let e = again(e);
                    let e = self.phrase(e, "on its|the way back|down? down?").unwrap_or(e);
                    (Verb::Back, e)
                }),
            };
            if let Some(found) = found
                && best.as_ref().is_none_or(|b| b.1 < found.1)
            {
                best = Some(found);
            }
        }
        best
    }

    /// `the floor`, `a buffer at the end of the track`: the name of the place, whether it is the ground, the place after.
    pub(super) fn landing_place(&self, i: usize) -> Option<(String, bool, usize)> {
        let e = self.phrase(i, "the|a|an|its? fixed|small? horizontal|level|inelastic|rubber|timber|wooden|soft|rough|smooth|pit|shaft|same|cabin|warehouse|workshop?").unwrap_or(i);
        let (ground, e) = self
            .phrase(e, sayings::GROUNDS)
            .map(|e| (true, e))
            .or_else(|| self.phrase(e, sayings::ENDS).map(|e| (false, e)))?;
        let noun = self.w(e.wrapping_sub(1)).to_owned();
        let e =
            self.phrase(e, "of the table|bench|quay|slope|plane|track|line|platform|pit|shaft").unwrap_or(e);
        let e = self.phrase(e, "below|beneath|there").unwrap_or(e);
        Some((format!("the {noun}"), ground, e))
    }

    /// `its starting point`, `where it started`, `the point from which it was projected`: the place after it.
    pub(super) fn where_it_began(&self, i: usize) -> Option<usize> {
        const BEGAN: &str = "started|began|starts|begins|projected|released|launched|set|begun|came";
        let began = |e: usize| {
            let e = self.phrase(e, "was|were|is|are|had? been?").unwrap_or(e);
            let e = self.phrase(e, BEGAN)?;
            let e = self.phrase(e, "off|to? move|moving|out?").unwrap_or(e);
            Some(self.phrase(e, "from").unwrap_or(e))
        };
        let who = |e: usize| {
            let e = self.phrase(e, "it|they").or_else(|| self.plain_end(e))?;
            began(e)
        };
        if let Some(e) = self
            .phrase(
                i,
                "its|the|their|this starting|initial|original point|position|place|level|height|position",
            )
            .or_else(|| self.phrase(i, "its|the|their start|origin"))
            .or_else(|| self.phrase(i, "its|the|their point|position|place of|on release|projection"))
        {
            return Some(e);
        }
        if let Some(e) = self.phrase(i, "the|its point|position|place|spot|level from|at which") {
            return who(e);
        }
        if let Some(e) = self.phrase(i, "the point|position|place|spot where?") {
            return who(e);
        }
        if let Some(e) = self.phrase(i, "where").and_then(who) {
            return Some(e);
        }
        // That point, when it was spoken of before.
        let spoken = |a: &crate::story::AskTold| matches!(a.when.to, Some(crate::timeline::Moment::Back(_)));
        if let Some(e) = self.phrase(i, "that|this|the same? point|place|spot")
            && self.story.asks.iter().any(spoken)
        {
            return Some(e);
        }
        // The point O from which it was projected.
        let e = self.phrase(i, "the point").unwrap_or(i);
        let named = self.tok(self.skip(e)).is_some_and(|t| Some(&t.text) == self.origin.as_ref());
        named.then(|| self.skip(e) + 1)
    }

    /// The end of a short noun phrase without reading it: `the van`, `P`.
    pub(super) fn plain_end(&self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "the|its").unwrap_or(i);
        let t = self.tok(self.skip(e))?;
        (t.is_word() && (t.label() || crate::lexicon::noun(&t.lower).is_some())).then(|| self.skip(e) + 1)
    }

    /// Who or what it happens to: the noun phrase from `i` up to the verb at `at`, else those spoken of.
    fn event_subject(&mut self, i: usize, at: usize) -> Option<Ref> {
        let mut end = at;
        while end > i && BETWEEN.contains(&self.w(end - 1)) {
            end -= 1;
        }
        if end == i {
            return match &self.about {
                Some(r @ (Ref::Bodies(_) | Ref::Links(_) | Ref::System)) => Some(r.clone()),
                _ if !self.subject.is_empty() => Some(Ref::Bodies(self.subject.clone())),
                _ if self.latest.len() == 1 => Some(Ref::Bodies(self.latest.clone())),
                _ => None,
            };
        }
        // Only things that are there already, so that nothing is made on trial.
        if let ("it", Some(Ref::Links(l))) = (self.w(i), &self.about)
            && end == i + 1
        {
            return Some(Ref::Links(l.clone()));
        }
        self.known_between(i, end)
    }

    /// The thing that the words from `i` up to `end` name, if it is there already; nothing is made.
    pub(super) fn known_between(&mut self, i: usize, end: usize) -> Option<Ref> {
        // Nobody tells a story of so many; a text that counts without end is not worth the trial.
        let label = self.tok(i).is_some_and(|t| t.label());
        if matches!(self.w(i), "a" | "an") && !label
            || self.story.bodies.len() > MOST
            || self.story.events.len() > MOST
        {
            return None;
        }
        let saved = (self.uses.clone(), self.story.clone(), self.latest.clone(), self.pair, self.notes.len());
        let hi = std::mem::replace(&mut self.hi, end);
        let np = self.nps(i, false).map(|np| {
            let e = if self.skip(np.end) < end { self.after_np(&np.what, np.end) } else { np.end };
            (np.what, e)
        });
        self.hi = hi;
        let found =
            np.filter(|(_, e)| self.skip(*e) >= end && self.story.bodies.len() == saved.1.bodies.len());
        if found.is_none() {
            self.notes.truncate(saved.4);
            (self.uses, self.story, self.latest, self.pair) = (saved.0, saved.1, saved.2, saved.3);
        }
        found.map(|f| f.0)
    }
}
