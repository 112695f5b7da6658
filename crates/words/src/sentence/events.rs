//! Happenings: `the string breaks`, `P hits the floor`, `the engine is switched off`, `it comes to rest`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::timeline::Occurs;
use model::Role;

/// A happening, as a statement tells it or a question names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Named {
    /// One that ends a chapter.
    Event(Occurs),
    /// Bodies come to rest.
    Rest(Vec<usize>),
    /// The slack string is taut again.
    Taut,
    /// Bodies are back where they were.
    Back(Vec<usize>),
}

/// What the verb of a happening says.
enum Verb {
    Breaks,
    Lands { at: String, ground: bool },
    Rests,
    Taut,
    Stops,
    Back,
}

/// More bodies, or happenings, than any story has.
const MOST: usize = 60;

const STOPS: &str = "floor|ground|deck|quay|quayside|pontoon|jetty|pier|pavement|hold|platform|surface|mat|sand|shingle|pulley|edge|buffer|buffers|stop|barrier|block|end";

/// May a happening be told with this word first? Asked of every word, before the longer look of `verb_here`.
fn begins_event(word: &str) -> bool {
    matches!(
        word,
        "breaks"
            | "snaps"
            | "break"
            | "snap"
            | "breaking"
            | "snapping"
            | "broke"
            | "snapped"
            | "broken"
            | "parts"
            | "severed"
            | "disconnected"
            | "uncoupled"
            | "unhitched"
            | "unhooked"
            | "untied"
            | "detached"
            | "cut"
            | "unfastened"
            | "gives"
            | "giving"
            | "give"
            | "comes"
            | "coming"
            | "becomes"
            | "becoming"
            | "come"
            | "become"
            | "works"
            | "is"
            | "are"
            | "being"
            | "slips"
            | "hits"
            | "hit"
            | "hitting"
            | "reaches"
            | "reach"
            | "reaching"
            | "reached"
            | "strikes"
            | "strike"
            | "striking"
            | "struck"
            | "meets"
            | "meeting"
            | "touches"
            | "lands"
            | "landing"
            | "arrives"
            | "arriving"
            | "came"
            | "brought"
            | "stops"
            | "stop"
            | "stopping"
            | "goes"
            | "going"
            | "pulled"
            | "tightens"
            | "tightening"
            | "tighten"
            | "ceases"
            | "cease"
            | "ceasing"
            | "returns"
            | "return"
            | "returning"
            | "back"
            | "returned"
    )
}

impl Reader<'_> {
    /// A happening at `i`, with its subject or, where the verb stands first, of those spoken of. The place after it.
    pub(super) fn event(&mut self, i: usize) -> Option<(Named, usize)> {
        let i = self.skip(i);
        if let Some((forces, e)) = self.shut_off(i) {
            return Some((Named::Event(Occurs::Off(forces)), e));
        }
        if let Some(e) = self.brakes_on(i) {
            return Some((Named::Event(Occurs::Brakes), e));
        }
        let (verb, at, end) = self.event_verb(i)?;
        let what = self.event_subject(i, at)?;
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
            (Verb::Back, Ref::Bodies(b)) => Named::Back(b),
            _ => return None,
        };
        Some((named, end))
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
            if let Some((verb, e)) = begins_event(w).then(|| self.verb_here(k)).flatten() {
                return Some((verb, k, e));
            }
            k = self.skip(k + 1);
        }
        None
    }

    fn verb_here(&self, k: usize) -> Option<(Verb, usize)> {
        let again = |r: &Self, e: usize| r.phrase(e, "again|once|more|first? more?").unwrap_or(e);
        if let Some(e) = self
            .phrase(k, "breaks|snaps|break|snap|breaking|snapping|broke|snapped|broken|parts|severed|disconnected|uncoupled|unhitched|unhooked|untied|detached|cut|unfastened")
            .or_else(|| self.phrase(k, "gives|giving|give way"))
            .or_else(|| self.phrase(k, "comes|coming|becomes|becoming|come|become|works|is|are|being loose|undone|adrift|detached|uncoupled|unhitched|disconnected|off"))
            .or_else(|| self.phrase(k, "comes|slips off"))
        {
            let e = self.phrase(e, "completely|suddenly").unwrap_or(e);
            // from the van, from P: what it held
            let e = self.phrase(e, "from|of").and_then(|f| self.plain_end(f)).unwrap_or(e);
            return Some((Verb::Breaks, e));
        }
        if let Some(e) = self.phrase(
            k,
            "hits|hit|hitting|reaches|reach|reaching|reached|strikes|strike|striking|struck|meets|meeting|touches|lands|landing|lands|arrives|arriving on|onto|at|upon?",
        ) {
            let e2 = self.phrase(e, "the|a|an|its fixed|horizontal|level|inelastic|rubber|timber|wooden|soft|rough|smooth?").and_then(|e| self.phrase(e, STOPS));
            return match e2 {
                Some(e2) => {
                    let noun = self.w(e2.wrapping_sub(1));
                    let e3 = self.phrase(e2, "of the table|bench|quay|slope|plane|track|line|platform").unwrap_or(e2);
                    let ground = !matches!(noun, "pulley" | "edge" | "buffer" | "buffers" | "stop" | "barrier" | "block" | "end" | "surface");
                    if matches!(noun, "surface" | "block" | "end") && ground {
                        return None;
                    }
                    Some((Verb::Lands { at: format!("the {noun}"), ground }, e3))
                }
                None if matches!(self.w(k), "lands" | "landing") => {
                    Some((Verb::Lands { at: "the ground".to_owned(), ground: true }, k + 1))
                }
                None => None,
            };
        }
        if let Some(e) = self
            .phrase(k, "comes|come|coming|came|brought to instantaneous|momentary|instantaneously|a? rest|halt|stop|standstill")
            .or_else(|| self.phrase(k, "is|are|being instantaneously|momentarily at rest"))
            .or_else(|| self.phrase(k, "stops|stop|stopping moving|sliding?"))
        {
            return Some((Verb::Rests, again(self, e)));
        }
        if let Some(e) = self
            .phrase(k, "becomes|become|becoming|goes|going|is|pulled next? taut|tight")
            .or_else(|| self.phrase(k, "tightens|tightening|tighten"))
        {
            return Some((Verb::Taut, again(self, e)));
        }
        if let Some(e) = self.phrase(k, "ceases|cease|ceasing to? act|acting?") {
            return Some((Verb::Stops, e));
        }
        if let Some(e) = self
            .phrase(k, "returns|return|returning|back|returned to its|the|their|this starting|initial|original? point|position|start|place")
        {
            return Some((Verb::Back, e));
        }
        None
    }

    /// The end of a short noun phrase without reading it: `the van`, `P`.
    fn plain_end(&self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "the|its").unwrap_or(i);
        let t = self.tok(self.skip(e))?;
        (t.is_word() && (t.label() || crate::lexicon::noun(&t.lower).is_some())).then(|| self.skip(e) + 1)
    }

    /// Who or what it happens to: the noun phrase from `i` up to the verb at `at`, else those spoken of.
    fn event_subject(&mut self, i: usize, at: usize) -> Option<Ref> {
        let mut end = at;
        while end > i
            && matches!(
                self.w(end - 1),
                "is" | "are"
                    | "was"
                    | "has"
                    | "have"
                    | "had"
                    | "been"
                    | "being"
                    | "then"
                    | "now"
                    | "first"
                    | "suddenly"
                    | "immediately"
                    | "just"
                    | "subsequently"
                    | "eventually"
                    | "later"
                    | "both"
                    | "also"
                    | "will"
                    | "next"
                    | "finally"
                    | "that"
                    | "itself"
                    | "again"
                    | "instantaneously"
            )
        {
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
        if matches!(self.w(i), "a" | "an") || self.story.bodies.len() > MOST || self.story.events.len() > MOST
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

    /// `the engine is switched off`, `the force of 20 N is removed`: the forces that stop acting.
    fn shut_off(&mut self, i: usize) -> Option<(Vec<usize>, usize)> {
        let engine = self
            .phrase(i, "the|its|his|her engine|engines|motor|power of the car|lorry|van|locomotive|tractor|train|winch?")
            .or_else(|| self.phrase(i, "the|its|his|her engine|engines|motor|power"))
            .and_then(|e| {
                self.phrase(e, "is|are|being|has|been then|now|suddenly|been? then|now? switched|turned|cut|shut off")
                    .or_else(|| self.phrase(e, "is|are|being then|now|suddenly? cut|disengaged|stopped"))
                    .or_else(|| self.phrase(e, "cuts out|off"))
                    .or_else(|| self.phrase(e, "stops working?|fails"))
            })
            .or_else(|| {
                self.phrase(i, "the driver|operator|engineman|driver then|now? switches|turns|shuts|cuts off the|its|his|her engine|motor|power")
            })
            .or_else(|| self.phrase(i, "the driver|operator|engineman then|now? cuts|disengages the|its|his|her engine|motor|power"));
        if let Some(e) = engine {
            let e = self.phrase(e, "completely").unwrap_or(e);
            let driving = self.forces_of(|r| r == Role::Driving);
            return self.moved_before().then_some((driving, e));
        }
        let head = self.phrase(
            i,
            "the|this driving|tractive|pulling|pushing|towing|horizontal|applied|external|constant? force|pull|push",
        )?;
        let driving = (i..head).any(|k| matches!(self.w(k), "driving" | "tractive"));
        let mut e =
            self.phrase(head, "of magnitude?").and_then(|e| self.amount(e, false)).map_or(head, |a| a.1);
        if let Some(t) = self.tok(self.skip(e))
            && t.letter().is_some()
            && t.text != "a"
        {
            e = self.skip(e) + 1;
            if let Some(e2) = self.phrase(e, "newtons|n") {
                e = e2;
            }
        }
        if let Some(e2) =
            self.phrase(e, "on|acting").and_then(|e2| self.plain_end(self.phrase(e2, "on").unwrap_or(e2)))
        {
            e = e2;
        }
        let e = self
            .phrase(
                e,
                "is|are|being|has then|now|suddenly|been|just|subsequently? removed|withdrawn|released|taken",
            )
            .map(|e2| self.phrase(e2, "away").unwrap_or(e2))
            .or_else(|| self.phrase(e, "is|are|being switched|turned off"))
            .or_else(|| self.phrase(e, "ceases|stops|ceasing to? act|acting?"))
            .or_else(|| self.phrase(e, "no longer acts"))?;
        let found = self.forces_of(|r| {
            if driving { r == Role::Driving } else { matches!(r, Role::Applied | Role::Driving) }
        });
        (found.len() == 1).then_some((found, e))
    }

    fn forces_of(&self, role: impl Fn(Role) -> bool) -> Vec<usize> {
        (0..self.story.forces.len())
            .filter(|&f| self.story.forces.get(f).is_some_and(|f| role(f.role)))
            .collect()
    }

    /// `the brakes are applied`, after something was told of the motion before.
    fn brakes_on(&self, i: usize) -> Option<usize> {
        if !self.moved_before() {
            return None;
        }
        let brakes = self.phrase(i, "the|its|his|her brakes").or_else(|| {
            let owner = self.phrase(i, "the")?;
            let mark = (owner..owner + 3).find(|&k| self.w(k) == "'s")?;
            self.phrase(mark, "'s brakes")
        });
        brakes
            .map(|e| self.phrase(e, "of|on").and_then(|f| self.plain_end(f)).unwrap_or(e))
            .and_then(|e| self.phrase(e, "is|are|being then|now|suddenly? applied|put on?"))
            .or_else(|| self.phrase(i, "the driver|he|she then|now? applies|puts on? the|its|his|her brakes"))
            .or_else(|| self.phrase(i, "the|its|his|her brakes come|comes on"))
    }

    /// Does the story tell of a motion before this sentence: a driving force, a state?
    fn moved_before(&self) -> bool {
        let told = self.story.motions.iter().any(|m| {
            matches!(
                m.fact,
                crate::story::Fact::State(model::State::Steady) | crate::story::Fact::Acceleration { .. }
            )
        });
        told || !self.forces_of(|r| r == Role::Driving).is_empty()
    }
}
