//! The moments of which a question speaks: `when P hits the floor`, `from the instant when the string breaks`.

use crate::reader::Reader;
use crate::sentence::events::Named;
use crate::story::{Given, Target};
use crate::timeline::{Clearance, Event, Moment, Moments, Occurs};

/// What leads a clause in: at that moment, from it on, up to it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Lead {
    At,
    After,
    Before,
}

impl Reader<'_> {
    /// `when`, `after`, `at the instant when`, `immediately before`.
    pub(super) fn lead(&self, i: usize) -> Option<(Lead, usize)> {
        self.phrase(i, "immediately|just|straight|directly? after|once")
            .map(|e| (Lead::After, e))
            .or_else(|| self.phrase(i, "from the instant|moment|time when|that|at").map(|e| (Lead::After, e)))
            .or_else(|| {
                self.phrase(i, "immediately|just? before|until|till|to")
                    .filter(|_| self.w(i) != "to")
                    .map(|e| (Lead::Before, e))
            })
            .or_else(|| {
                self.phrase(i, "at the instant|moment|time|point when|that|at|of? which?")
                    .map(|e| (Lead::At, e))
            })
            .or_else(|| {
                let e = self.phrase(i, "on|upon|at")?;
                self.phrase(e, "the? impact|landing|collision").map(|_| (Lead::At, e))
            })
            .or_else(|| {
                let e = self.phrase(i, "on|upon its|the")?;
                (self.w(self.skip(e)) == "return").then_some((Lead::At, e))
            })
            .or_else(|| self.phrase(i, "with|at which").map(|e| (Lead::At, e)))
            .or_else(|| self.phrase(i, "just? as|when").map(|e| (Lead::At, e)))
            .or_else(|| {
                self.phrase(i, "to")
                    .filter(|&e| {
                        matches!(self.w(e), "come" | "reach" | "hit" | "strike" | "return" | "stop" | "land")
                    })
                    .map(|e| (Lead::At, e))
            })
            .or_else(|| self.phrase(i, "on").filter(|&e| self.w(e).ends_with("ing")).map(|e| (Lead::At, e)))
    }

    /// A moment named in a question.
    pub(super) fn moment_asked(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.chapter_asked(i) {
            return Some(e);
        }
        // how far it travels altogether
        if self.asked_now().is_some_and(|t| matches!(t, Target::Distance { .. } | Target::Time))
            && let Some(e) = self.phrase(i, "altogether").or_else(|| self.phrase(i, "in all|total"))
            && let Some(ask) = self.story.asks.last_mut()
        {
            ask.when.total = true;
            self.told(i, e, "the whole of it");
            return Some(e);
        }
        if let Some(e) = self.between_moments(i) {
            return Some(e);
        }
        if let Some((lead, n, e)) = self.that_moment(i) {
            let mut when = self.pop_moments();
            self.set_event(&mut when, lead, n);
            self.told(i, e, "the moment of what was just told");
            self.put_moments(when);
            return Some(e);
        }
        // after 10 s, at the end of the 10 s: so long goes the first chapter
        let then =
            self.phrase(i, "at the end of the|these|this").or_else(|| self.phrase(i, "after the? first?"));
        if let Some((amount, e)) = then.and_then(|e| self.amount(e, false))
            && self.lasts_first(&amount)
        {
            let mut when = self.pop_moments();
            self.set_event(&mut when, Lead::At, 0);
            self.told(i, e, "the end of the first part of the motion");
            self.put_moments(when);
            return Some(e);
        }
        // the total time for which the sledge is moving, for which the string is slack
        if let Some(e) = self.phrase(i, "for|during which|that")
            && let Some(end) = self.moving_while(e)
        {
            return Some(end);
        }
        let during = self.phrase(i, "for|during which|that?").unwrap_or(i);
        if let Some(e) = self.slack_while(during) {
            return Some(e);
        }
        let (lead, at) = self.lead(i)?;
        let (named, end) = self.event(at).or_else(|| self.event_noun(at))?;
        // When it has broken: after that, but for what is measured at that moment.
        let measured =
            |t: &Target| matches!(t, Target::Speed { .. } | Target::Distance { .. } | Target::Time);
        let perfect = (at..end).any(|k| matches!(self.w(k), "has" | "have"));
        let lead = match lead {
            Lead::At if perfect && !self.asked_now().is_some_and(measured) => Lead::After,
            lead => lead,
        };
        self.asked_of_moment(i, at, end, lead, &named)
    }

    /// As something happens: `with what speed does Q strike the floor`.
    pub(super) fn asked_as(&mut self, a: usize, end: usize, named: &Named) -> Option<usize> {
        self.asked_of_moment(a, a, end, Lead::At, named)
    }

    /// What is asked is asked of this moment, which stands from `i` (with its lead) or `at` up to `end`.
    fn asked_of_moment(
        &mut self,
        i: usize,
        at: usize,
        end: usize,
        lead: Lead,
        named: &Named,
    ) -> Option<usize> {
        if let Named::Back(of) = named {
            self.comes_back(of, i, end);
        }
        // The deceleration before it comes to rest: while it still moves.
        let passing = matches!(self.asked_now(), Some(Target::Acceleration { .. } | Target::Link(_)));
        if lead == Lead::Before
            && passing
            && matches!(named, Named::Rest(_))
            && self.chapter == self.story.events.len()
        {
            let mut when = self.pop_moments();
            when.named = true;
            self.told(i, end, "while it still moves");
            self.put_moments(when);
            return Some(end);
        }
        let alone = self.story.events.is_empty();
        // A question of one stage: as it was read before there were stories.
        if alone {
            match named {
                Named::Rest(_) | Named::Back(_) | Named::Taut => return None,
                Named::Event(Occurs::Lands { .. })
                    if lead != Lead::After
                        && self.drop.is_some()
                        && (at..end).any(|k| self.w(k).starts_with("reach")) =>
                {
                    return None;
                }
                Named::Event(Occurs::Brakes | Occurs::Off(_)) => return None,
                _ => {}
            }
        }
        // As it becomes taut: just before or just after?
        let speed = self.story.asks.get(self.first_ask..).and_then(|a| a.last());
        if lead == Lead::At
            && *named == Named::Taut
            && speed.is_none_or(|a| matches!(a.target, Target::Speed { .. }))
        {
            return None;
        }
        let mut when = self.pop_moments();
        self.set_moment(&mut when, lead, named)?;
        self.told(i, end, "the moment of which is asked");
        self.put_moments(when);
        Some(end)
    }

    /// `How much further does it go?`: until it stops, where nothing else is said.
    pub(super) fn how_much_further(&mut self) {
        if self.story.events.is_empty() {
            return;
        }
        let first = self.first_ask;
        for ask in self.story.asks.iter_mut().skip(first) {
            if let Target::Distance { of } = &ask.target
                && ask.when.further
                && ask.when.to.is_none()
                && ask.facts.is_empty()
                && !ask.same_journey
            {
                ask.when.to = Some(Moment::Rest(of.clone()));
            }
        }
    }

    /// The moments of the ask just made, or those that wait for one.
    pub(super) fn pop_moments(&mut self) -> Moments {
        let fresh = self.story.asks.len() > self.first_ask;
        let last = self.story.asks.last().filter(|_| fresh).map(|a| a.when.clone());
        last.or_else(|| self.moments.take()).unwrap_or_else(|| self.now())
    }

    pub(super) fn put_moments(&mut self, when: Moments) {
        let first = self.first_ask;
        // The speed with which B lands: B's, whoever was named last.
        let whose = match &when.to {
            Some(Moment::Event(n)) => match self.story.events.get(*n).map(|e| &e.occurs) {
                Some(Occurs::Lands { body, .. }) => Some(vec![*body]),
                _ => None,
            },
            Some(Moment::Rest(of) | Moment::Back(of)) => Some(of.clone()),
            _ => None,
        };
        if let (Some(whose), Some(ask)) = (whose, self.story.asks.get_mut(first..).and_then(|a| a.last_mut()))
        {
            let named = ask.phrase.split_whitespace().any(|w| {
                matches!(w, "of" | "by" | "its" | "their" | "that" | "does")
                    || w.contains('\u{2019}')
                    || w.contains('\'')
            });
            if let (false, Target::Speed { of, .. } | Target::Distance { of }) = (named, &mut ask.target) {
                *of = whose;
            }
        }
        if self.story.asks.len() == first {
            self.moments = Some(when);
            return;
        }
        let last = self.story.asks.len() - 1;
        for (n, ask) in self.story.asks.iter_mut().enumerate().skip(first) {
            let bare = ask.when.from.is_none() && ask.when.to.is_none();
            if n == last || bare && ask.facts.is_empty() && !ask.when.total && !when.each {
                let total = ask.when.total || n == last && when.total;
                ask.when = Moments { total, further: ask.when.further, ..when.clone() };
            }
        }
    }

    /// What a question speaks of where it names no moment.
    pub(crate) fn now(&self) -> Moments {
        Moments { chapter: self.chapter, ..Moments::default() }
    }

    /// The moments for a new ask.
    pub(crate) fn moments_here(&mut self) -> Moments {
        self.moments.clone().unwrap_or_else(|| self.now())
    }

    pub(super) fn set_moment(&mut self, when: &mut Moments, lead: Lead, named: &Named) -> Option<()> {
        let moment = match named {
            Named::Event(occurs) => {
                let n = self.event_number(occurs)?;
                self.set_event(when, lead, n);
                return Some(());
            }
            // As the string goes slack, what held it lands.
            Named::Slack => {
                let n = self.story.events.iter().rposition(|e| matches!(e.occurs, Occurs::Lands { .. }))?;
                self.set_event(when, lead, n);
                return Some(());
            }
            Named::Rest(of) => Moment::Rest(of.clone()),
            Named::Taut => Moment::Taut,
            Named::Back(of) => Moment::Back(of.clone()),
        };
        when.chapter = self.story.events.len();
        match lead {
            Lead::After => when.from = Some(moment),
            Lead::At | Lead::Before => when.to = Some(moment),
        }
        Some(())
    }

    fn set_event(&self, when: &mut Moments, lead: Lead, n: usize) {
        when.at_once = lead == Lead::At;
        match lead {
            Lead::After => {
                when.chapter = n + 1;
                when.from = Some(Moment::Event(n));
            }
            Lead::At | Lead::Before => {
                when.chapter = n;
                when.to = Some(Moment::Event(n));
            }
        }
    }

    /// `the sledge is moving`: from the start until it is at rest.
    pub(super) fn moving_while(&mut self, i: usize) -> Option<usize> {
        const MOVING: &str = "is|are|remains|stays|will moving|in|be? motion|moving?";
        let k = (i + 1..i + 6).find(|&k| self.phrase(k, MOVING).is_some())?;
        let end = self.phrase(k, MOVING)?;
        if !matches!(self.w(end.wrapping_sub(1)), "moving" | "motion") {
            return None;
        }
        let what = self.known_between(i, k)?;
        let of = self.bodies_of(Some(&what))?;
        let end = self.phrase(end, "altogether").or_else(|| self.phrase(end, "in all|total")).unwrap_or(end);
        let mut when = self.pop_moments();
        when.to = Some(Moment::Rest(of));
        when.total = true;
        self.told(i, end, "from the start until it is at rest");
        self.put_moments(when);
        Some(end)
    }

    /// `the string is slack`, `P is on the floor`: from the landing until the string is taut again.
    pub(super) fn slack_while(&mut self, i: usize) -> Option<usize> {
        const BE: &str = "is|will|does|remain|remains|stays|stay|rests|lies|sits|rest|lie|sit|be be|stay|remain|sit|rest|at|lie? rest?";
        let landed = self.story.events.iter().rposition(|e| matches!(e.occurs, Occurs::Lands { .. }))?;
        let Some(Occurs::Lands { body: lander, .. }) =
            self.story.events.get(landed).map(|e| e.occurs.clone())
        else {
            return None;
        };
        let i = self.phrase(i, "is|will|does|do").unwrap_or(i);
        let end = if let Some(e) = self.phrase(i, "the string|rope|cord|cable") {
            let e =
                self.phrase(e, "is|remains|stays|be|remain|stay|go|goes|will be|remain|stay?").unwrap_or(e);
            self.phrase(e, "slack")?
        } else {
            let k = self.somebody(i)?;
            let at = self.phrase(k, BE).unwrap_or(k);
            let at =
                self.phrase(at, "on|in|at contact? with?").filter(|_| at > k || !self.w(i).is_empty())?;
            let (_, ground, e) = self.landing_place(at)?;
            let what = self.known_between(i, k)?;
            if !ground || self.bodies_of(Some(&what))? != [lander] {
                return None;
            }
            e
        };
        let mut when = self.pop_moments();
        when.from = Some(Moment::Event(landed));
        when.to = Some(Moment::Taut);
        when.chapter = landed + 1;
        self.told(i, end, "from the landing until the string is taut again");
        self.put_moments(when);
        Some(end)
    }

    /// A single body that was sent up a slope and is back: between, it came to rest.
    pub(super) fn comes_back(&mut self, of: &[usize], i: usize, end: usize) {
        if self.sent_alone().is_some_and(|b| of.contains(&b)) && self.story.events.is_empty() {
            let span = self.span(i, end);
            let Some(body) = self.sent_alone() else { return };
            let occurs = Occurs::Rests(body);
            self.story.events.push(Event { occurs, told: true, part: self.part, span });
            self.chapter = 1;
        }
    }

    /// The body that was sent off at a speed, by itself.
    pub(super) fn sent_alone(&self) -> Option<usize> {
        use crate::story::Fact;
        let sent = self.story.motions.iter().find(|m| {
            m.chapter == 0 && m.of.len() == 1 && matches!(&m.fact, Fact::StartSpeed(g) if !g.value.is_zero())
        })?;
        let body = *sent.of.first()?;
        (!self.story.links.iter().any(|l| l.ends.contains(&body))).then_some(body)
    }

    /// What the sentence asked last.
    fn asked_now(&self) -> Option<&Target> {
        self.story.asks.get(self.first_ask..).and_then(|a| a.last()).map(|a| &a.target)
    }

    /// `from the instant when the string breaks until P stops`, `between the landing and ...`, `from the start until`.
    fn between_moments(&mut self, i: usize) -> Option<usize> {
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
    fn beginning(&mut self, i: usize) -> Option<usize> {
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
    fn told_last(&self) -> Option<usize> {
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
    fn event_noun(&mut self, i: usize) -> Option<(Named, usize)> {
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
    fn known_link(&mut self, i: usize, end: usize) -> Option<Vec<usize>> {
        match self.known_between(i, end)? {
            crate::noun::Ref::Links(l) => Some(l),
            _ => None,
        }
    }

    /// The number of a happening that a question names; new where it was not told.
    fn event_number(&mut self, occurs: &Occurs) -> Option<usize> {
        if let Some(n) = self.story.events.iter().position(|e| e.occurs == *occurs) {
            return Some(n);
        }
        // The same body at the same place, called otherwise: the floor, the ground.
        if let Occurs::Lands { body, ground, .. } = occurs {
            let same = self.story.events.iter().position(
                |e| matches!(&e.occurs, Occurs::Lands { body: b, ground: g, .. } if b == body && g == ground),
            );
            if same.is_some() {
                return same;
            }
        }
        // Only a landing may be left to the question to name.
        if !matches!(occurs, Occurs::Lands { .. }) {
            return None;
        }
        let span = model::Span::default();
        self.story.events.push(Event { occurs: occurs.clone(), told: false, part: self.part, span });
        Some(self.story.events.len() - 1)
    }

    /// How far those spoken of are from the ground (or the pulley).
    pub(crate) fn clear(&mut self, given: Given, ground: bool) {
        let of = match &self.about {
            Some(crate::noun::Ref::Bodies(b)) => b.clone(),
            Some(crate::noun::Ref::System) => (0..self.story.bodies.len()).collect(),
            _ => self.latest.clone(),
        };
        // ... to a block B, 1 m above the floor: B hangs, and what was spoken of stands on the table.
        let stands = |b: &usize| self.story.bodies.get(*b).is_some_and(|b| b.on.is_some());
        let of = match self.latest.as_slice() {
            [one] if ground && !stands(one) && of.iter().all(stands) => vec![*one],
            _ => of,
        };
        if self.chapter == 0 {
            self.drop = Some((given.clone(), ground));
            self.story.clearance = self.drop.clone();
        }
        self.story.clearances.push(Clearance { of, given, ground, chapter: self.chapter });
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, refused, told};

    const TABLE: &str = "A block A of mass 5 kg is held at rest on a rough horizontal table. The coefficient of \
         friction between A and the table is 0.2. It is attached by a light inextensible string, which passes over \
         a smooth pulley at the edge of the table, to a block B of mass 2 kg which hangs freely 1 m above the \
         floor. The system is released from rest. ";

    #[test]
    fn a_landing_begins_a_second_stage() {
        let text = format!(
            "{TABLE}B hits the floor and stays there. Find the total distance that A moves before it comes to rest."
        );
        assert_eq!(means(&text, "stays there"), "it stays where it is, and the string is slack");
        let stages: Vec<String> = in_short(&told(&text)).into_iter().rev().take(2).collect();
        assert_eq!(stages, ["Moving", "Released"]);
    }

    #[test]
    fn a_question_that_could_mean_either_stage_is_refused() {
        let text = format!("{TABLE}B hits the floor and stays there. Find the acceleration of A.");
        assert_eq!(refused(&text), ["it is not clear from when, or until when, this is meant"]);
        // Only one stage has a taut string, and in one alone does B move.
        let text = format!("{TABLE}B hits the floor and stays there. Find the tension in the string.");
        assert_eq!(refused(&text), [""; 0]);
        let text = format!("{TABLE}B hits the floor and stays there. Find the acceleration of B.");
        assert_eq!(refused(&text), [""; 0]);
    }

    #[test]
    fn where_it_began_is_where_the_story_began() {
        let text = "A particle P of mass 4 kg lies on a smooth plane inclined at 30° to the horizontal and is joined by a \
             light inextensible string, which passes over a smooth pulley at the top of the plane, to a particle Q of \
             mass 6 kg which hangs freely. The system is released from rest. After 2 s the string is cut. Find the time \
             from the instant when the string is cut until P returns to its starting point.";
        assert_eq!(means(text, "until P returns to its starting point"), "from when until when");
        assert_eq!(refused(text), [""; 0]);
    }
}
