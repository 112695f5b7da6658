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

    pub(super) fn set_event(&self, when: &mut Moments, lead: Lead, n: usize) {
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

    /// What the sentence asked last.
    pub(super) fn asked_now(&self) -> Option<&Target> {
        self.story.asks.get(self.first_ask..).and_then(|a| a.last()).map(|a| &a.target)
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
