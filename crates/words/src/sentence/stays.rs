//! What has landed stays where it is: `does not rebound`, `remains there`, `is brought to rest by the impact`.
//!
//! Whoever says that a body does not rebound says that it lands: where no landing was told before, this tells it.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::sentence::events::Named;
use crate::timeline::{Event, Occurs};

/// What is said of a body that landed, as [`Reader::phrase`] reads it.
const STAYS: &[&str] = &[
    "does|do|did|will not|never rebound|bounce|bounce|move back|up|again|any|off? more?",
    "never rebounds|bounces|moves again?",
    "without rebounding|bouncing|any rebound|bounce?",
    "without any rebound|bounce",
    "with no rebound|bounce",
    "then|immediately|thereafter|simply|just? remains|stays|remaining|lies|remain|stay|rests|staying|sits there|on|at|where|in|put",
    "is|being|are immediately|instantly|then|at? once? brought to rest",
    "immediately|instantly|then? comes|coming immediately|instantly? to rest|halt",
    "immediately|instantly? stops|sticks dead|there|immediately|to|on?",
    "where it stays|remains|rests",
];

impl Reader<'_> {
    /// After a landing: `does not rebound`, `remains there`, `is brought to rest`. The place after it.
    pub(super) fn stays(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.inelastic(i) {
            return Some(e);
        }
        let at = self.phrase(i, ",? and|where|so|but|that that?").unwrap_or(i);
        let at = self.phrase(at, ",").unwrap_or(at);
        let landed = self.story.events.iter().rev().find_map(|e| match &e.occurs {
            Occurs::Lands { body, .. } => Some(*body),
            _ => None,
        });
        let (body, verb) = match self.stay_verb(at).or_else(|| self.stay_verb(i)) {
            // Of the body that has just landed.
            Some(verb) => {
                let told = matches!(
                    self.story.events.last(),
                    Some(Event { occurs: Occurs::Lands { .. }, told: true, .. })
                );
                let lander = landed.filter(|_| told)?;
                if self.subject_is_other(lander) {
                    return None;
                }
                (lander, verb)
            }
            None => {
                // It, P, the crate: a body that is named.
                let k = (at + 1..at + 7).find(|&k| self.stay_verb(k).is_some())?;
                let verb = self.stay_verb(k)?;
                let named = self.known_between(at, k)?;
                let Ref::Bodies(who) = named else { return None };
                let [who] = who.as_slice() else { return None };
                let it =
                    self.w(at) == "it" && !self.story.clearances.iter().any(|c| c.ground && c.of == [*who]);
                match landed {
                    Some(lander) if *who == lander || it => (lander, verb),
                    _ => (*who, verb),
                }
            }
        };
        let rebounds = (at..verb).any(|k| {
            matches!(
                self.w(k),
                "rebound" | "rebounds" | "bounce" | "bounces" | "rebounding" | "bouncing" | "sticks"
            )
        });
        let (end, landing) = self.stay_tail(verb, body);
        let known = self
            .story
            .events
            .iter()
            .any(|e| matches!(&e.occurs, Occurs::Lands { body: b, .. } if *b == body));
        if !(known || rebounds || landing.is_some()) {
            return None;
        }
        let told = self
            .story
            .events
            .iter()
            .any(|e| e.told && matches!(&e.occurs, Occurs::Lands { body: b, .. } if *b == body));
        if !told {
            let before = self.story.events.iter().find_map(|e| match &e.occurs {
                o @ Occurs::Lands { body: b, .. } if *b == body => Some(o.clone()),
                _ => None,
            });
            let high = self.story.clearances.iter().any(|c| c.ground && c.of.contains(&body));
            let hangs = self.story.bodies.get(body).is_some_and(|b| b.hangs);
            let there = landing.clone().or_else(|| {
                (high || hangs).then(|| Occurs::Lands { body, at: "the floor".to_owned(), ground: true })
            });
            let occurs = before.or(there)?;
            self.story.stays.push(body);
            self.narrate(i, end, occurs);
        }
        self.told(i, end, "it stays where it is, and the string is slack");
        self.story.stays.push(body);
        Some(end)
    }

    fn stay_verb(&self, i: usize) -> Option<usize> {
        STAYS.iter().filter_map(|p| self.phrase(i, p)).max()
    }

    /// What may follow: `from the floor`, `on impact`, `when it hits the floor`. The place after it, and the landing named.
    fn stay_tail(&mut self, verb: usize, body: usize) -> (usize, Option<Occurs>) {
        let mut end = verb;
        let mut landing = None;
        for _ in 0..5 {
            let k = self.skip(end);
            let more = self
                .phrase(k, "rest|there|instantly|immediately|further|again|afterwards|thereafter|subsequently|instantaneously")
                .or_else(|| self.phrase(k, "at once|rest"))
                .or_else(|| self.phrase(k, "it is|lands|hits|strikes? it?").filter(|e| *e > k + 1))
                .or_else(|| self.phrase(k, "by|on|upon|from|after|with|at its|the|this? impact|collision|contact|landing with|on|upon? it?"))
                .or_else(|| self.phrase(k, "when|after|as|once it|they strikes|hits|reaches|meets|lands on? it"))
                .or_else(|| self.phrase(k, "in the? subsequent|ensuing motion"))
                .or_else(|| self.phrase(k, "throughout the|its? subsequent|rest|ensuing? of? the? motion?"))
                .or_else(|| self.phrase(k, "without rebounding|bouncing"))
                .or_else(|| self.phrase(k, "while the string|rope|cord|cable is slack"));
            if let Some(e) = more {
                end = e;
                continue;
            }
            let from = self.phrase(k, "on|upon|at|with|by|from|to|off").unwrap_or(k);
            if let Some((at, ground, e)) = self.landing_place(from) {
                landing = Some(Occurs::Lands { body, at, ground });
                end = e;
                continue;
            }
            // when it hits the floor
            let clause = self.lead(k).and_then(|(_, at)| self.event(at));
            match clause {
                Some((Named::Event(occurs @ Occurs::Lands { body: b, .. }), e)) if b == body => {
                    landing = Some(occurs);
                    end = e;
                }
                _ => break,
            }
        }
        (end, landing)
    }

    /// `The floor is inelastic`: what lands on it stays there.
    fn inelastic(&mut self, i: usize) -> Option<usize> {
        let (_, ground, e) = self.landing_place(i)?;
        let e = self.phrase(e, "is|being perfectly|completely? inelastic")?;
        if !ground {
            return None;
        }
        let fall: Vec<usize> = self
            .story
            .clearances
            .iter()
            .filter(|c| c.ground && c.of.len() == 1)
            .flat_map(|c| c.of.clone())
            .collect();
        self.told(i, e, "what lands on it stays there");
        self.story.stays.extend(fall);
        Some(e)
    }

    fn subject_is_other(&self, lander: usize) -> bool {
        matches!(&self.about, Some(Ref::Bodies(b)) if b.len() == 1 && *b != [lander])
    }
}
