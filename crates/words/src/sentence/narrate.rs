//! What is told happens: put into the story in its order.

use crate::reader::Reader;
use crate::sentence::events::Named;
use crate::sentence::moments::Lead;
use crate::timeline::{Event, Occurs, Spell};
use model::Role;

impl Reader<'_> {
    /// A happening told, or a moment that a question names. The place after it.
    pub(super) fn happening(&mut self, i: usize) -> Option<usize> {
        let i = self.skip(i);
        if let Some(e) = self.unchanged(i).or_else(|| self.short_of(i)).or_else(|| self.sets_out(i)) {
            return Some(e);
        }
        if self.asking {
            return self.moment_asked(i);
        }
        if let Some(e) = self.acts_for(i).or_else(|| self.slides_down(i)) {
            return Some(e);
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
            (None, named @ (Named::Rest(_) | Named::Slack)) => self.with_a_landing(i, end, &named),
            _ => None,
        }
    }

    /// `The block slides back down the plane`: of one that was sent up, so that it came to rest before.
    fn slides_down(&mut self, i: usize) -> Option<usize> {
        let body = self.sent_alone().filter(|_| self.story.events.is_empty())?;
        let k = self.somebody(i)?;
        let e = self.phrase(k, "then|subsequently|now? slides|moves|runs|rolls|slips|comes back down?")?;
        let e = self.phrase(e, "the plane|slope|ramp|chute|incline").unwrap_or(e);
        let what = self.known_between(i, k)?;
        if self.bodies_of(Some(&what))? != [body] {
            return None;
        }
        self.comes_back(&[body], i, e);
        self.told(i, e, "there it stopped, and now it moves down again");
        Some(e)
    }

    /// `from a point O`: a name for where the motion begins.
    pub(crate) fn sets_out(&mut self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "from|at a|the? fixed? point")?;
        let e = self.skip(e);
        let name = self.tok(e).filter(|t| t.label())?.text.clone();
        if self.w(i) == "at" && self.origin.as_ref() != Some(&name)
            || self.story.bodies.iter().any(|b| b.label.as_ref() == Some(&name))
        {
            return None;
        }
        self.told(i, e + 1, "where the motion begins");
        self.origin = Some(name);
        Some(e + 1)
    }

    /// `P comes to rest when it hits the floor`, `the string goes slack as P lands`: a landing told by what follows from it.
    fn with_a_landing(&mut self, i: usize, end: usize, named: &Named) -> Option<usize> {
        let k = self.phrase(end, "immediately|instantly|at|,? once?").unwrap_or(end);
        let landing = self.lead(k).filter(|l| l.0 != Lead::Before).and_then(|l| self.event(l.1));
        if let Some((Named::Event(occurs @ Occurs::Lands { body, .. }), e)) = landing {
            if let Named::Rest(of) = named {
                if !of.contains(&body) {
                    return None;
                }
                self.story.stays.push(body);
            }
            return Some(self.narrate(i, e, occurs));
        }
        // P hits the floor and the string goes slack.
        let landed =
            matches!(self.story.events.last(), Some(Event { occurs: Occurs::Lands { .. }, told: true, .. }));
        if *named == Named::Slack && landed {
            self.told(i, end, "what held it has landed");
            return Some(end);
        }
        None
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
}
