//! Questions that are whole clauses: `how hard does A push on B`, `what acceleration do they have`, `how far P falls`,
//! and what is to be shown told as a clause: `Show that P descends 9 m in 3 s`.

use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::{Fact, Target};
use exact::Dimension;
use model::Role;

/// What the verb of such a clause says of its subject.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Does {
    Moves,
    /// It gets faster (false) or slower (true).
    Accelerates(bool),
    Has,
    Exerts,
    Takes,
}

/// The verbs, with all their forms.
const VERBS: &[(Does, &str)] = &[
    (
        Does::Moves,
        "move moves moving moved travel travels travelling traveling travelled traveled fall falls falling fallen \
         descend descends descending descended rise rises rising risen drop drops dropping dropped slide slides \
         sliding slid go goes going gone climb climbs climbing climbed ascend ascends ascending ascended run runs \
         running sink sinks sinking sunk coast coasts advance advances advanced",
    ),
    (Does::Accelerates(false), "accelerate accelerates accelerating"),
    (
        Does::Accelerates(true),
        "decelerate decelerates decelerating slow slows slowing slowed retard retards retarding",
    ),
    (
        Does::Has,
        "have has having get gets gain gains gained acquire acquires acquired attain attains attained reach reaches \
         reached experience experiences experienced need needs require requires undergo undergoes possess possesses achieve achieves achieved feel feels suffer suffers",
    ),
    (
        Does::Exerts,
        "exert exerts exerted exerting apply applies push pushes press presses pull pulls put puts act acts thrust \
         thrusts bear bears provide provides provided produce produces produced give gives supply supplies develop \
         develops generate generates deliver delivers transmit transmits",
    ),
    (Does::Takes, "take takes taken"),
];

/// Words before a verb that only give it its tense.
const TENSE: &str = "do does did will would must should can could is are was were has have had be been to then now both each all \
     initially actually still also first together";

/// Words between a verb and the value to be shown.
const BETWEEN: &str = "a an the at with of through by for equal to constant uniform common steady magnitude total distance height \
     speed velocity acceleration deceleration retardation tension exactly force push pull reaction seconds time same";

pub(super) fn among(list: &str, word: &str) -> bool {
    !word.is_empty() && list.split_ascii_whitespace().any(|w| w == word)
}

fn does(word: &str) -> Option<Does> {
    VERBS.iter().find(|(_, forms)| among(forms, word)).map(|(does, _)| *does)
}

impl Reader<'_> {
    /// A clause that asks. The place after it.
    pub(super) fn clause_asked(&mut self, i: usize) -> Option<usize> {
        let (mut m, at) = self.asked_head(i)?;
        m.start = i;
        let kept = self.keep();
        let found = self.rest_asked(&mut m, i, at);
        if found.is_none() {
            self.restore(kept);
        }
        found
    }

    /// `With what acceleration`, `what driving force`, `how far`, `how hard`, `how large a force`.
    fn asked_head(&self, i: usize) -> Option<(Mention, usize)> {
        if let Some(e) = self.phrase(i, "with|at|in|through|by|to|of? what|which") {
            let noun = self.skip(e);
            if matches!(self.w(noun), "the" | "its" | "mass" | "is" | "are") {
                return None;
            }
            let m = self.quantity_head(e).filter(|m| m.sort != Sort::Mass)?;
            let at = m.head_end;
            return Some((m, at));
        }
        let mut m = Mention { sort: Sort::Distance, ..Mention::blank(i) };
        if let Some(e) = self
            .phrase(i, "how much force")
            .or_else(|| self.phrase(i, "how large|great|big|strong|small|much of? a|an force|pull|push|tension|thrust|reaction|acceleration|speed|driving|braking|normal|horizontal|resultant|resistance").map(|e| e - 1))
        {
            let m = self.quantity_head(if self.w(e - 1) == "force" { e - 1 } else { e })?;
            let at = m.head_end;
            return Some((m, at));
        }
        if let Some(e) = self.phrase(i, "by? how far|much further|higher|lower?") {
            if self.w(e - 1) == "much" && !self.verb_soon(e, |d| d == Does::Moves) {
                return None;
            }
            m.further = (i..e).any(|k| matches!(self.w(k), "further" | "higher" | "lower"));
            let e = self
                .phrase(e, "up|down|along the? ramp|slope|plane|slipway|track|table|hill|line?")
                .unwrap_or(e);
            return Some((m, e));
        }
        if let Some(e) = self.phrase(i, "at? how fast|quickly|rapidly") {
            m.sort = Sort::Speed;
            if self.verb_soon(e, |d| matches!(d, Does::Accelerates(_))) {
                m.sort = Sort::Acceleration { slowing: false };
            }
            return Some((m, e));
        }
        if let Some(e) = self.phrase(i, "how hard|strongly") {
            m.sort = Sort::PlainForce;
            return Some((m, e));
        }
        if let Some(e) = self.phrase(i, "how long").filter(|&e| self.verb_soon(e, |d| d == Does::Takes)) {
            m.sort = Sort::Time;
            return Some((m, e));
        }
        None
    }

    fn verb_soon(&self, i: usize, fits: impl Fn(Does) -> bool) -> bool {
        (i..i + 9).any(|k| does(self.w(k)).is_some_and(&fits))
    }

    fn rest_asked(&mut self, m: &mut Mention, i: usize, at: usize) -> Option<usize> {
        let first = self.skip(at);
        let inverted = among(TENSE, self.w(first));
        // After a command: find how far P falls. Otherwise the verb comes first: how far does P fall.
        if !inverted && !self.commanded && !self.asking && m.sort != Sort::PlainForce {
            return None;
        }
        // What tension is there in the string? What force acts on the pulley?
        let there = self.phrase(first, "is|was|will be? there");
        let acts = matches!(self.w(first), "acts" | "act" | "acting")
            || matches!(self.w(first), "is" | "are")
                && matches!(self.w(self.skip(first + 1)), "acting" | "exerted" | "transmitted");
        // What driving force is needed?
        if let Some(e) = self.phrase(first, "is|are|was|will|would be? needed|required|necessary") {
            return self.ask_clause(m, i, e);
        }
        if there.is_some() || acts {
            let passed = self.phrase(first, "is|are").filter(|&e| self.w(e) == "transmitted");
            let from = there.or(passed).unwrap_or(first);
            let end = self.posts(m, from);
            return (end > from).then(|| self.ask_clause(m, i, end)).flatten();
        }
        let subject = if inverted { self.skip(first + 1) } else { first };
        // How long does it take P to fall 2 m?
        if m.sort == Sort::Time {
            let e = self.phrase(subject, "it takes|take|taken").or_else(|| {
                let np = self.nps(subject, false)?;
                let verb = self.after_tense(np.end);
                self.set_about(np.what);
                (does(self.w(verb)) == Some(Does::Takes)).then_some(verb + 1)
            })?;
            let e = self.phrase(e, "for|to|before|until").unwrap_or(e);
            self.asking = true;
            self.push_ask(Target::Time, i, first.max(i + 1));
            self.glue(i, e);
            return Some(e);
        }
        if let Some(e) = self.pulley_held(m, subject) {
            return self.ask_clause(m, i, e);
        }
        let np = self.nps(subject, false)?;
        let verb = self.after_tense(np.end);
        let verb_does = match does(self.w(verb)) {
            // How fast is P after 2 s; what acceleration has P?
            None if matches!(self.w(first), "is" | "are" | "has" | "have") && self.skip(np.end) == verb => {
                None
            }
            None => return self.asked_at(m, subject, np.what),
            some => some,
        };
        match (m.sort, verb_does) {
            (Sort::Speed, None) => {
                m.of = Some(np.what);
                self.ask_clause(m, i, np.end)
            }
            (Sort::Acceleration { .. } | Sort::Speed, Some(Does::Accelerates(slowing))) => {
                m.sort = Sort::Acceleration { slowing };
                m.of = Some(np.what);
                let end = self
                    .phrase(verb + 1, "down|up")
                    .filter(|_| !self.w(verb).starts_with("acc"))
                    .unwrap_or(verb + 1);
                self.ask_clause(m, i, end)
            }
            (Sort::Acceleration { .. } | Sort::Speed | Sort::Distance, Some(Does::Moves))
            | (Sort::Acceleration { .. } | Sort::Speed | Sort::Tension, Some(Does::Has)) => {
                if self.w(verb) == "reach" && self.phrase(verb + 1, "the|a|its").is_some() {
                    return self.asked_at(m, subject, np.what);
                }
                m.of = Some(np.what);
                let end = self.phrase(verb + 1, "off|together").unwrap_or(verb + 1);
                self.ask_clause(m, i, end)
            }
            (Sort::PlainForce, Some(Does::Has)) => {
                let e = self.phrase(verb + 1, "from").or_else(|| self.phrase(verb + 1, "due to"))?;
                let by = self.np(e)?;
                m.on = Some(np.what);
                m.by = Some(by.what);
                self.ask_clause(m, i, by.end)
            }
            (Sort::Force(_) | Sort::Resistance | Sort::Friction | Sort::Reaction, Some(Does::Has)) => {
                m.on = Some(np.what);
                self.ask_clause(m, i, verb + 1)
            }
            (
                Sort::Tension
                | Sort::PlainForce
                | Sort::Reaction
                | Sort::Force(_)
                | Sort::Friction
                | Sort::Resultant,
                Some(Does::Exerts),
            ) => {
                m.by = Some(np.what);
                let mut at = self.phrase(verb + 1, "up|down|back|upwards|downwards").unwrap_or(verb + 1);
                at = self.phrase(at, "on|upon|against|to|at").unwrap_or(at);
                let mut end = at;
                match self.np(at) {
                    Some(on) => {
                        end = on.end;
                        m.on = Some(on.what);
                    }
                    None if at > verb + 1 => return None,
                    None => {}
                }
                let alone = matches!(m.sort, Sort::Force(_))
                    || self
                        .bodies_of(m.by.as_ref())
                        .is_some_and(|b| b.as_slice() == self.driver().as_slice());
                if m.on.is_none() && !alone {
                    return None;
                }
                self.ask_clause(m, i, end)
            }
            _ => None,
        }
    }

    /// What holds a pulley pushes it as hard as the string does: `the clamp exert on the pulley`.
    fn pulley_held(&mut self, m: &mut Mention, i: usize) -> Option<usize> {
        if !matches!(m.sort, Sort::PlainForce | Sort::Reaction) {
            return None;
        }
        let e = self
            .phrase(i, "the|its clamp|axle|bracket|support|hook|pin|bearing|mounting exert|exerts on|upon")?;
        let on = self.np(e)?;
        matches!(on.what, Ref::Pulleys(_)).then(|| {
            m.on = Some(on.what);
            on.end
        })
    }

    fn after_tense(&self, i: usize) -> usize {
        let mut at = self.skip(i);
        for _ in 0..6 {
            // "has" is a verb by itself where none follows.
            let next = self.w(self.skip(at + 1));
            if !among(TENSE, self.w(at))
                || matches!(self.w(at), "has" | "have") && does(next).is_none() && !among(TENSE, next)
            {
                break;
            }
            at = self.skip(at + 1);
        }
        at
    }

    /// With what speed does Q strike the floor: what it is asked of is a moment.
    fn asked_at(&mut self, m: &mut Mention, subject: usize, what: Ref) -> Option<usize> {
        if !matches!(m.sort, Sort::Speed | Sort::Acceleration { .. }) {
            return None;
        }
        let (named, end) = self.event(subject)?;
        m.of = Some(what.clone());
        m.end = subject;
        self.asking = true;
        if !self.ask_for(m) {
            return None;
        }
        self.set_about(what);
        // Without a story, it has then gone as far as it could.
        self.asked_as(subject, end, &named).or_else(|| {
            let verb = (subject..end)
                .find(|&k| self.w(k).starts_with("reach") || matches!(self.w(k), "hit" | "strike"))?;
            self.reach(verb)
        })
    }

    fn ask_clause(&mut self, m: &mut Mention, i: usize, end: usize) -> Option<usize> {
        m.end = end;
        self.asking = true;
        if !self.ask_for(m) {
            return None;
        }
        self.glue(i, end);
        if let Some(r @ (Ref::Bodies(_) | Ref::System)) = [&m.of, &m.on, &m.by].into_iter().flatten().next() {
            self.set_about(r.clone());
        }
        Some(end)
    }

    /// What is to be shown, as a clause: `P accelerates at 2 m s⁻²`, `the string has a tension of 24 N`, `P takes 4 s to
    /// fall 16 m`. The first size in it is what is to be shown. The place after that.
    pub(super) fn clause_shown(&mut self, i: usize) -> Option<usize> {
        let i = self.skip(i);
        let verb = (i + 1..i + 9)
            .find(|&k| does(self.w(k)).is_some() && !among("to", self.w(k.saturating_sub(1))))?;
        if !(verb..verb + 12)
            .any(|k| self.tok(k).is_some_and(|t| t.number().is_some() || t.letter().is_some()))
            || among(
                "when if while as once after before until where because given which whose by and",
                self.w(i.saturating_sub(1)),
            )
            || self.w(i) == "the" && self.quantity_head(i).is_some()
        {
            return None;
        }
        let kept = self.keep();
        let found = self.shown(i);
        if found.is_none() {
            self.restore(kept);
        }
        found
    }

    fn shown(&mut self, i: usize) -> Option<usize> {
        let it_takes = self.phrase(i, "it takes|takes");
        let (what, verb) = match it_takes {
            Some(e) => (Ref::System, e - 1),
            None => {
                let np = self.nps(i, false)?;
                let verb = self.after_tense(np.end);
                (np.what, verb)
            }
        };
        let said = does(self.w(verb))?;
        let mut at = self.skip(verb + 1);
        let mut way = None;
        let mut driving = false;
        if let Some((w, e)) = self.way(at).filter(|_| said != Does::Exerts) {
            way = Some(w);
            at = self.skip(e);
        }
        // The cable pulls on the lift with a force of 1200 N.
        let mut pushed = None;
        if said == Does::Exerts && self.phrase(at, "a|an").is_none() {
            let e = self.phrase(at, "up|down|back").unwrap_or(at);
            let on = self.np(self.phrase(e, "on|upon|against").unwrap_or(e))?;
            at = self.skip(self.phrase(on.end, "with").unwrap_or(on.end));
            pushed = Some(on.what);
        }
        let mut head = None;
        for _ in 0..9 {
            if let Some(e) = self.phrase(
                at,
                "driving|tractive|braking|normal|upward|contact|pulling|pushing|horizontal|vertical",
            ) {
                driving |= matches!(self.w(e - 1), "driving" | "tractive");
                at = self.skip(e);
            }
            let w = self.w(at);
            if !among(BETWEEN, w) {
                break;
            }
            head = head.or(match w {
                "speed" | "velocity" => Some(Sort::Speed),
                "acceleration" => Some(Sort::Acceleration { slowing: false }),
                "deceleration" | "retardation" => Some(Sort::Acceleration { slowing: true }),
                "tension" => Some(Sort::Tension),
                "force" | "push" | "pull" | "reaction" => Some(Sort::PlainForce),
                "distance" | "height" => Some(Sort::Distance),
                _ => None,
            });
            at = self.skip(at + 1);
        }
        let (mut amount, e) = self.expression(at)?;
        // "½g" is half of g where an acceleration is told, not half a gram.
        if let Some(wanted) =
            head.or(matches!(said, Does::Accelerates(_)).then_some(Sort::Acceleration { slowing: false }))
            && let Some(wanted) = Self::wanted(wanted)
        {
            crate::amount::settle(&mut amount, wanted);
        }
        let of_size = match amount.dimension {
            Some(Dimension::ACCELERATION) => Some(Sort::Acceleration { slowing: false }),
            Some(Dimension::SPEED) => Some(Sort::Speed),
            Some(Dimension::LENGTH) => Some(Sort::Distance),
            Some(Dimension::TIME) => Some(Sort::Time),
            Some(Dimension::FORCE) => Some(Sort::PlainForce),
            _ => None,
        };
        let mut m = Mention { sort: Sort::Distance, ..Mention::blank(i) };
        m.sort = match (said, head, of_size) {
            (Does::Accelerates(slowing), None, _) => Sort::Acceleration { slowing },
            (_, Some(Sort::Acceleration { slowing }), None | Some(Sort::Acceleration { .. })) => {
                Sort::Acceleration { slowing }
            }
            (_, Some(Sort::Tension), None | Some(Sort::PlainForce)) => Sort::Tension,
            (_, Some(head), None) => head,
            (_, Some(head), Some(size)) if head != size => return None,
            (_, _, Some(size)) => size,
            _ => return None,
        };
        let mut end = e;
        if m.sort != Sort::Time
            && let Some((w, e2)) = self.way(end)
        {
            way = way.or(Some(w));
            end = e2;
        }
        match (said, m.sort) {
            (Does::Takes, Sort::Time) => {}
            (Does::Moves, Sort::Acceleration { .. } | Sort::Speed | Sort::Distance)
            | (Does::Accelerates(_), Sort::Acceleration { .. })
            | (Does::Has, Sort::Acceleration { .. } | Sort::Speed | Sort::Tension) => {
                m.of = Some(what.clone())
            }
            (Does::Exerts, Sort::PlainForce) => {
                m.by = Some(what.clone());
                let on = self.phrase(e, "on|upon|against|to").and_then(|e| self.np(e));
                match (on, pushed) {
                    (Some(on), None) => {
                        m.on = Some(on.what);
                        end = on.end;
                    }
                    (None, Some(on)) => m.on = Some(on),
                    (None, None) if driving => m.sort = Sort::Force(Role::Driving),
                    _ => return None,
                }
            }
            _ => return None,
        }
        m.end = end;
        if let (Some(way), Ref::Bodies(of)) = (way, &what) {
            let span = self.span(i, end);
            let fact = if said == Does::Moves { Fact::Heading(way) } else { Fact::Accelerates(way) };
            self.story.claims.push((of.clone(), fact, self.part, span));
        }
        if !self.ask_for(&m) {
            return None;
        }
        if let Some(ask) = self.story.asks.last_mut() {
            ask.show = Some(amount.value);
        }
        if it_takes.is_none() && matches!(what, Ref::Bodies(_) | Ref::System) {
            self.set_about(what);
        }
        Some(self.phrase(end, "to|for|before|until").filter(|_| said == Does::Takes).unwrap_or(end))
    }
}
