//! When: the happenings of a statement put in order, and the moments of which a question speaks.

use crate::reader::Reader;
use crate::sentence::events::Named;
use crate::story::{Fact, Given, Target};
use crate::timeline::{Clearance, Event, Moment, Moments, Occurs, Spell};
use exact::Dimension;
use model::Role;

/// What leads a clause in: at that moment, from it on, up to it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Lead {
    At,
    After,
    Before,
}

impl Reader<'_> {
    /// A happening told, or a moment that a question names. The place after it.
    pub(super) fn happening(&mut self, i: usize) -> Option<usize> {
        let i = self.skip(i);
        if self.asking {
            return self.moment_asked(i);
        }
        if let Some(e) = self.stays(i) {
            return Some(e);
        }
        // After 2 s the string breaks; when P has moved 3 m the string is cut
        if let Some((fact, of, e)) = self.when_clause(i) {
            let next = self.phrase(e, ",").unwrap_or(e);
            if let Some((Named::Event(occurs), end)) = self.event(next) {
                let span = self.span(i, e);
                self.told(i, e, "how long this goes on");
                self.fact(of, span, fact);
                return Some(self.narrate(next, end, occurs));
            }
            return None;
        }
        let lead = self.lead(i);
        let at = lead.map_or(i, |l| l.1);
        let (named, end) = self.event(at)?;
        let asks = (end..self.hi).any(|k| self.is_command(self.w(k)));
        match (lead.map(|l| l.0), named) {
            // When P hits the floor, find ...
            (Some(lead), named) if asks => {
                let mut when = self.moments.take().unwrap_or_else(|| self.now());
                self.set_moment(&mut when, lead, &named)?;
                self.moments = Some(when);
                self.told(i, end, "the moment of which is asked");
                Some(self.phrase(end, ",").unwrap_or(end))
            }
            (None | Some(Lead::At | Lead::After), Named::Event(occurs)) => {
                // Read on: when it happens.
                let found = self.when_clause(end);
                if let Some((fact, of, e)) = found {
                    let span = self.span(end, e);
                    self.told(end, e, "how long this goes on");
                    self.fact(of, span, fact);
                    return Some(self.narrate(i, end, occurs).max(e));
                }
                Some(self.narrate(i, end, occurs))
            }
            _ => None,
        }
    }

    /// Puts a happening told into the story: what follows belongs to the next chapter.
    pub(super) fn narrate(&mut self, a: usize, b: usize, occurs: Occurs) -> usize {
        let span = self.span(a, b);
        let mut end = b;
        let means = match &occurs {
            Occurs::Breaks(_) => "from now on it joins nothing",
            Occurs::Lands { .. } => "there its motion ends",
            Occurs::Off(_) => "from now on this force does not act",
            Occurs::Brakes => "from now on the brakes act",
            Occurs::Rests(_) => "there it stops, at least for an instant",
            Occurs::Changes => "here it begins to move in another way",
        };
        // Named in a question already, or new.
        let known = self.story.events.iter().position(|e| e.occurs == occurs && occurs != Occurs::Changes);
        let number = match known {
            Some(n) => n,
            None => {
                self.story.events.push(Event { occurs: occurs.clone(), told: true, part: self.part, span });
                self.story.events.len() - 1
            }
        };
        if let Some(e) = self.story.events.get_mut(number) {
            e.told = true;
        }
        self.told(a, b, means);
        self.chapter = self.chapter.max(number + 1);
        let chapter = self.chapter;
        match &occurs {
            Occurs::Off(forces) => {
                for f in forces {
                    self.story.spells.entry(*f).or_default().until = Some(chapter);
                }
            }
            Occurs::Brakes => {
                let driver = self.driver();
                for (n, f) in self.story.forces.iter().enumerate() {
                    if f.role == Role::Driving {
                        self.story.spells.entry(n).or_default().until.get_or_insert(chapter);
                    }
                }
                if driver.is_some() {
                    let f = self.force_on(Role::Braking, driver, span);
                    self.story.spells.insert(f, Spell { since: chapter, ..Spell::default() });
                }
            }
            Occurs::Lands { .. } => {
                if let Some(e) = self.phrase(end, "and|,").and_then(|e| self.stays(e)) {
                    end = e;
                } else if let Some(e) = self.stays(end) {
                    end = e;
                }
            }
            _ => {}
        }
        end
    }

    /// After a landing: `does not rebound`, `remains there`, `is brought to rest`: it stays where it is.
    fn stays(&mut self, i: usize) -> Option<usize> {
        let lander = self.story.events.iter().rev().find_map(|e| match &e.occurs {
            Occurs::Lands { body, .. } => Some(*body),
            _ => None,
        })?;
        let mut at = self.phrase(i, ",? and|where|so|but that?").unwrap_or(i);
        at = self.phrase(at, ",").unwrap_or(at);
        let mut lead = at;
        let verb = |r: &Self, at: usize| -> Option<usize> {
            let e = r
                .phrase(at, "does|do|did|will not rebound|bounce|bounce|move")
                .or_else(|| r.phrase(at, "without rebounding|bouncing"))
                .or_else(|| r.phrase(at, "then|immediately|thereafter? remains|stays|remaining|lies|remain|stay there|on|at|where|in"))
                .or_else(|| r.phrase(at, "is|being|are immediately|instantly|then|at? once? brought to rest"))
                .or_else(|| r.phrase(at, "immediately|instantly? comes|coming immediately|instantly? to rest"))
                .or_else(|| r.phrase(at, "immediately|instantly? stops|sticks dead|there|immediately?"))?;
            let mut e = e;
            for _ in 0..3 {
                e = r.phrase(e, "rest|there|it|is|lands|contact|instantly|immediately|further|again|afterwards|thereafter|subsequently|throughout|move|moves|on|after|this|by").filter(|_| matches!(r.w(r.skip(e)), "rest" | "there" | "it" | "instantly" | "immediately" | "further" | "again" | "afterwards" | "thereafter" | "subsequently")).unwrap_or(e);
                e = r.phrase(e, "is|lands").filter(|_| r.w(e.wrapping_sub(1)) == "it").unwrap_or(e);
                e = r.phrase(e, "on|upon|at|with|by|from the floor|ground|deck|quay|impact|buffer|buffers|stop|pontoon|jetty|collision|quayside|mat|platform").unwrap_or(e);
                e = r.phrase(e, "in the? subsequent motion").unwrap_or(e);
            }
            Some(e)
        };
        if verb(self, at).is_none() {
            // It, P, the crate: the body that landed.
            let k = (at + 1..at + 6).find(|&k| verb(self, k).is_some())?;
            let hi = std::mem::replace(&mut self.hi, k);
            let np = self.np(at);
            self.hi = hi;
            let np = np.filter(|np| self.skip(np.end) == k)?;
            let who = self.bodies_of(Some(&np.what))?;
            let it = matches!(self.w(at), "it");
            if who != [lander] && !it {
                return None;
            }
            lead = k;
        } else {
            let alone = i == at
                && !matches!(
                    self.w(at),
                    "without"
                        | "does"
                        | "then"
                        | "is"
                        | "immediately"
                        | "instantly"
                        | "remains"
                        | "stays"
                        | "and"
                        | "remaining"
                );
            if alone || self.subject_is_other(lander) {
                return None;
            }
        }
        let e = verb(self, lead)?;
        self.told(i, e, "it stays where it is, and the string is slack");
        self.story.stays.push(lander);
        Some(e)
    }

    fn subject_is_other(&self, lander: usize) -> bool {
        matches!(&self.about, Some(crate::noun::Ref::Bodies(b)) if b.len() == 1 && *b != [lander])
    }

    /// `when P has moved 3 m`, `after 2 s`, `when its speed is 4 m s⁻¹`: how long the chapter goes on. The fact, whose
    /// it is, the place after it. In a later chapter the time must be told to count from its start.
    fn when_clause(&mut self, i: usize) -> Option<(Fact, Vec<usize>, usize)> {
        let i = self.skip(i);
        let comma = self.phrase(i, ",").unwrap_or(i);
        let comma = self.phrase(comma, "exactly|just").unwrap_or(comma);
        // 2 s after the system is released, 3 s later
        if self.tok(comma).is_some_and(|t| t.number().is_some()) {
            let (amount, e) = self.amount(comma, false)?;
            if amount.dimension != Some(Dimension::TIME) {
                return None;
            }
            let given = self.given(&amount);
            if let Some(e2) = self.phrase(e, "later") {
                return Some((Fact::Time(given), self.who_moves(), e2));
            }
            let e2 = self
                .phrase(e, "after|into the|its|being? release|released|start|motion|starting")
                .or_else(|| {
                    let e2 = self.phrase(e, "after")?;
                    let k = (e2..e2 + 6).find(|&k| {
                        matches!(self.w(k), "released" | "starts" | "start" | "begins" | "release")
                    })?;
                    Some(self.phrase(k, "starts|begins|start to move").unwrap_or(k + 1))
                        .map(|e| self.phrase(e, "from rest").unwrap_or(e))
                })?;
            return (self.chapter == 0).then(|| (Fact::Time(given), self.who_moves(), e2));
        }
        let lead = self
            .phrase(comma, "at the instant|moment when|that")
            .or_else(|| self.phrase(comma, "as soon as"))
            .or_else(|| self.phrase(comma, "when|once|after"))?;
        let after = self.w(comma) == "after" || self.w(comma) == "once";
        let fits = |r: &Self, further: bool| r.chapter == 0 || further;
        // after 2 s, after a further 3 s, after moving 2 m, after a distance of 2 m
        let k = self
            .phrase(
                lead,
                "moving|travelling|falling|descending|sliding|rising|ascending|it|they has|have|been|moving?",
            )
            .filter(|_| after)
            .unwrap_or(lead);
        let k = self.phrase(k, "moving|travelling|falling|sliding").filter(|_| after).unwrap_or(k);
        let f = self.phrase(
            k,
            "for|through|by? a|the|another? further|distance|height|time|first? distance|height|time? of?",
        );
        let further = f.is_some_and(|f| (k..f).any(|n| matches!(self.w(n), "further" | "another")));
        let k2 = f.or_else(|| self.phrase(k, "for|through|another|a")).unwrap_or(k);
        if let (true, Some((amount, e))) = (after, self.amount(k2, false)) {
            let more = further || self.w(k2.wrapping_sub(1)) == "another" || self.phrase(e, "more").is_some();
            let e = self.phrase(e, "more").unwrap_or(e);
            let given = self.given(&amount);
            let fact = match amount.dimension {
                Some(Dimension::TIME) => Fact::Time(given),
                Some(Dimension::LENGTH) => Fact::Distance(given),
                _ => return None,
            };
            let e = self.phrase(e, "of the|its|their? motion|journey").unwrap_or(e);
            return fits(self, more).then(|| (fact, self.who_moves(), e));
        }
        // when P has moved 3 m; when the speed of P is 2 m s⁻¹; when it is moving at 4 m s⁻¹
        let verb = (lead + 1..lead + 9).find(|&k| self.moved_so_far(k).is_some())?;
        let of = self.subject_before(lead, verb)?;
        let (fact, further, e) = self.moved_so_far(verb)?;
        let speed = matches!(fact, Fact::EndSpeed(_));
        (speed || fits(self, further)).then_some((fact, of, e))
    }

    /// Those named between two places: `P`, `the speed of P`, `its speed`, `they`.
    fn subject_before(&mut self, i: usize, end: usize) -> Option<Vec<usize>> {
        let mut at = i;
        if let Some(e) = self.phrase(i, "the|its|their common? speed|velocity") {
            match self.phrase(e, "of") {
                Some(e2) => at = e2,
                None => return (e == end).then(|| self.who_moves()),
            }
        }
        let what = self.known_between(at, end)?;
        self.bodies_of(Some(&what))
    }

    /// `has moved 3 m`, `has been moving for 2 s`, `is moving at 4 m s⁻¹`, `reaches 3 m s⁻¹`.
    fn moved_so_far(&mut self, i: usize) -> Option<(Fact, bool, usize)> {
        const DONE: &str = "moved|travelled|traveled|fallen|descended|risen|slid|gone|ascended|climbed";
        let e = self
            .phrase(i, &format!("has|have {DONE} through|by|for|down|up? a|another? further? distance|height? of?"))
            .or_else(|| self.phrase(i, &format!("has|have {DONE}")))
            .or_else(|| self.phrase(i, "has|have been moving|travelling|falling|sliding|in|descending motion? for? a? further? time? of?"))
            .or_else(|| self.phrase(i, "is|are|was moving|travelling|sliding|descending|rising|falling with|at a? speed|velocity? of?"))
            .or_else(|| self.phrase(i, "is|are|reaches|reach|has|have|has|becomes|attains reached|attained|acquired? a? speed|velocity? of?"))?;
        let further = (i..e).any(|k| matches!(self.w(k), "further" | "another"));
        let (amount, e) = self.amount(e, false)?;
        let given = self.given(&amount);
        let fact = match amount.dimension? {
            Dimension::TIME => Fact::Time(given),
            Dimension::LENGTH => Fact::Distance(given),
            Dimension::SPEED => Fact::EndSpeed(given),
            _ => return None,
        };
        let e = self.phrase(e, "down|up the slope|plane|ramp|slipway").unwrap_or(e);
        Some((fact, further, e))
    }

    pub(super) fn who_moves(&self) -> Vec<usize> {
        if self.subject.is_empty() { (0..self.story.bodies.len()).collect() } else { self.subject.clone() }
    }

    /// `when`, `after`, `at the instant when`, `immediately before`.
    fn lead(&self, i: usize) -> Option<(Lead, usize)> {
        self.phrase(i, "immediately|just|straight|directly? after|once")
            .map(|e| (Lead::After, e))
            .or_else(|| self.phrase(i, "from the instant|moment|time when|that|at").map(|e| (Lead::After, e)))
            .or_else(|| {
                self.phrase(i, "immediately|just? before|until|till|to")
                    .filter(|_| self.w(i) != "to")
                    .map(|e| (Lead::Before, e))
            })
            .or_else(|| {
                self.phrase(i, "at the instant|moment|time|point when|that|at? which?").map(|e| (Lead::At, e))
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
    fn moment_asked(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.chapter_asked(i) {
            return Some(e);
        }
        let between = self
            .phrase(i, "that|which? elapses|passes|elapse|pass? between the? instant|moment|time? when|that|at? which?")
            .filter(|&e| (i..e).any(|k| self.w(k) == "between"))
            .or_else(|| self.phrase(i, "from the? instant|moment|time? when|that|at? which?").filter(|_| self.w(i) == "from"));
        if let Some(a) = between {
            let (first, e) = self.event(a)?;
            let second = self
                .phrase(e, "and|to|until|till the? instant|moment|time? when|that|at? which?")
                .and_then(|e2| self.event(e2));
            let mut when = self.pop_moments();
            self.set_moment(&mut when, Lead::After, &first)?;
            let mut end = e;
            if let Some((second, e2)) = second {
                let chapter = when.chapter;
                self.set_moment(&mut when, Lead::Before, &second)?;
                when.chapter = when.chapter.max(chapter);
                end = e2;
            }
            self.told(i, end, "from when until when");
            self.put_moments(when);
            return Some(end);
        }
        // the total time for which the sledge is moving
        if let Some(e) = self.phrase(i, "for|during which|that")
            && let Some(k) = (e + 1..e + 6).find(|&k| self.phrase(k, "is|are moving|in motion?").is_some())
            && let Some(what) = self.known_between(e, k)
            && let Some(of) = self.bodies_of(Some(&what))
        {
            let end = self.phrase(k, "is|are moving|in motion?").unwrap_or(k);
            let mut when = self.pop_moments();
            when.to = Some(Moment::Rest(of));
            when.total = true;
            self.told(i, end, "from the start until it is at rest");
            self.put_moments(when);
            return Some(end);
        }
        // the time for which the string is slack
        if let Some(e) = self
            .phrase(i, "for|during which|that? the string|rope|cord|cable is|remains|stays|be slack")
            .or_else(|| {
                self.phrase(i, "is|will? the string|rope|cord|cable is|be|remains|remain|stays|stay? slack")
            })
        {
            let landed = self.story.events.iter().rposition(|e| matches!(e.occurs, Occurs::Lands { .. }))?;
            let mut when = self.pop_moments();
            when.from = Some(Moment::Event(landed));
            when.to = Some(Moment::Taut);
            when.chapter = landed + 1;
            self.told(i, e, "from the landing until the string is taut again");
            self.put_moments(when);
            return Some(e);
        }
        let (lead, at) = self.lead(i)?;
        let (named, end) = self.event(at)?;
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

    /// `while the string is taut`, `in each stage`, `during the second stage of the motion`: a chapter as a whole.
    fn chapter_asked(&mut self, i: usize) -> Option<usize> {
        if self.story.events.is_empty() {
            return None;
        }
        const STAGE: &str = "stage|part|phase|stages|parts|phases|section";
        let each = self
            .phrase(i, &format!("in|during|for each|all of? the? two|three|four? {STAGE}"))
            .map(|e| self.phrase(e, "of the|its motion|journey|ascent|descent").unwrap_or(e));
        if let Some(e) = each {
            let mut when = self.pop_moments();
            when.each = true;
            self.told(i, e, "asked of each stage");
            self.put_moments(when);
            return Some(e);
        }
        let last = self.story.events.len();
        let nth = self.phrase(
            i,
            &format!("in|during|for|throughout the first|second|third|fourth|last|final|initial {STAGE}"),
        );
        let (chapter, e) = if let Some(e) = nth {
            let n = match self.w(self.skip(self.skip(i + 1) + 1)) {
                "first" | "initial" => 0,
                "second" => 1,
                "third" => 2,
                "fourth" => 3,
                _ => last,
            };
            if n > last {
                return None;
            }
            (n, self.phrase(e, "of the|its|their? motion|journey|ascent|descent").unwrap_or(e))
        } else {
            let e = self
                .phrase(i, "while|whilst|during|when the string|rope|tow-rope|cable is|remains still? taut|intact|unbroken")
                .or_else(|| self.phrase(i, "while|whilst both particles|blocks|bodies|crates|of? them? are|is still? moving|in motion?"));
            match e {
                Some(e) => (0, e),
                None => self.while_moving(i)?,
            }
        };
        let mut when = self.pop_moments();
        when.chapter = chapter;
        when.named = true;
        self.told(i, e, "the part of the motion that is asked about");
        self.put_moments(when);
        Some(e)
    }

    /// `while P is descending`, `while the van is braking`, `while the engine is working`.
    fn while_moving(&mut self, i: usize) -> Option<(usize, usize)> {
        let at = self.phrase(i, "while|whilst|as|when")?;
        if let Some(e) = self.phrase(at, "the engine|motor|power is|are still? working|running|on|driving") {
            return Some((0, e));
        }
        let events = &self.story.events;
        const BRAKING: &str = "is|are being? braking|braked|slowing";
        if let Some(k) = (at + 1..at + 8).find(|&k| self.phrase(k, BRAKING).is_some()) {
            let n = events.iter().position(|e| e.occurs == Occurs::Brakes)?;
            let e = self.phrase(k, BRAKING)?;
            let e = self.phrase(e, "down").unwrap_or(e);
            self.known_between(at, k)
                .or_else(|| self.phrase(at, "it|they").map(|_| crate::noun::Ref::System))?;
            return Some((n + 1, e));
        }
        if let Some(e) = self.phrase(at, "the brakes are on|applied|acting") {
            let n = events.iter().position(|e| e.occurs == Occurs::Brakes)?;
            return Some((n + 1, e));
        }
        const MOVES: &str = "is|are still? in? moving|descending|falling|rising|ascending|motion";
        let k = (at + 1..at + 8).find(|&k| self.phrase(k, MOVES).is_some())?;
        let e = self.phrase(k, MOVES)?;
        let of = self.known_between(at, k).and_then(|w| self.bodies_of(Some(&w)))?;
        let n = self
            .story
            .events
            .iter()
            .position(|e| matches!(&e.occurs, Occurs::Lands { body, .. } if of.contains(body)))?;
        Some((n, e))
    }

    /// The moments of the ask just made, or those that wait for one.
    fn pop_moments(&mut self) -> Moments {
        let fresh = self.story.asks.len() > self.first_ask;
        let last = self.story.asks.last().filter(|_| fresh).map(|a| a.when.clone());
        last.or_else(|| self.moments.take()).unwrap_or_else(|| self.now())
    }

    fn put_moments(&mut self, when: Moments) {
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

    fn set_moment(&mut self, when: &mut Moments, lead: Lead, named: &Named) -> Option<()> {
        let moment = match named {
            Named::Event(occurs) => Moment::Event(self.event_number(occurs)?),
            Named::Rest(of) => Moment::Rest(of.clone()),
            Named::Taut => Moment::Taut,
            Named::Back(of) => Moment::Back(of.clone()),
        };
        match (&moment, lead) {
            (Moment::Event(n), Lead::After) => when.chapter = n + 1,
            (Moment::Event(n), _) => when.chapter = *n,
            (_, _) => when.chapter = self.story.events.len(),
        }
        match lead {
            Lead::After => when.from = Some(moment),
            Lead::At | Lead::Before => when.to = Some(moment),
        }
        Some(())
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
}
