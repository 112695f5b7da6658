//! The parts, and what each asks.

use super::amounts::number;
use super::{Said, Writer, cannot};
use model::{Accuracy, Ask, Holds, Kind, QuantityId, Topic, Wanted};

impl Writer<'_> {
    /// The parts, one a line; without labels, one sentence after another.
    pub(super) fn parts(&mut self) -> Said<String> {
        let mut text = String::new();
        let mut outer = String::new();
        let mut at = 0;
        while let Some(first) = self.s.asks.get(at) {
            let same = self.s.asks.iter().skip(at).take_while(|a| a.part == first.part).count();
            let asks: Vec<&Ask> = self.s.asks.iter().skip(at).take(same).collect();
            at += same;
            if !first.part.is_empty() {
                let (label, inner) = match first.part.split_once('(') {
                    Some((label, inner)) => (label.trim(), inner.trim_end_matches(')')),
                    None => (first.part.as_str(), ""),
                };
                if !text.is_empty() {
                    text.push('\n');
                }
                if label != outer || inner.is_empty() {
                    text.push_str(&format!("({label}) "));
                    outer = label.to_owned();
                }
                if !inner.is_empty() {
                    text.push_str(&format!("({inner}) "));
                }
            } else if !text.is_empty() {
                text.push(' ');
            }
            text.push_str(&self.part(&asks)?);
        }
        Ok(text)
    }

    /// What one part asks: plain quantities together, everything else in sentences of its own.
    fn part(&mut self, asks: &[&Ask]) -> Said<String> {
        let mut sentences = Vec::new();
        for ask in asks {
            sentences.extend(self.stage_of(ask)?);
            sentences.push(self.ask(ask)?);
        }
        let marks = asks.first().and_then(|a| a.marks);
        let (open, close) = self.voice.words().marks;
        let marks = marks.map(|m| format!(" {open}{m}{close}")).unwrap_or_default();
        Ok(format!("{}{marks}", sentences.join(" ")))
    }

    /// How things move now, where a question is about another state than the one before.
    fn stage_of(&mut self, ask: &Ask) -> Said<Vec<String>> {
        if self.is_story() || ask.stage == self.at {
            return Ok(Vec::new());
        }
        self.at = ask.stage;
        let Some(stage) = self.s.stage(ask.stage) else { return Ok(Vec::new()) };
        // A force that is as great as in the states before needs no telling again.
        for other in self.s.stages.iter().filter(|s| !std::ptr::eq(*s, stage)) {
            for (force, there) in stage.forces.iter().zip(&other.forces) {
                if self.known(*force) == self.known(*there) && self.said.contains(there) {
                    self.said.insert(*force);
                }
            }
        }
        let mut sentences = self.motion(ask.stage)?;
        sentences.extend(self.told_journeys(ask.stage)?);
        Ok(sentences)
    }

    fn ask(&mut self, ask: &Ask) -> Said<String> {
        let words = self.voice.words();
        let what = match &ask.wanted {
            Wanted::Quantity(id) => self.quantity_asked(*id, ask)?,
            Wanted::Magnitude(id) => self.magnitude(*id, ask)?,
            Wanted::Deceleration(b) => format!("the deceleration of {}{}", self.name(*b).again(), self.afterwards(ask)?),
            Wanted::PulleyForce(p) => {
                let over = self.s.link_ids().find(|l| self.s.link(*l).is_some_and(|l| l.pulleys.contains(p)));
                let Some((id, link)) = over.and_then(|l| Some((l, self.s.link(l)?))) else {
                    return Err(cannot("the force on a pulley without a string"));
                };
                if self.s.pulleys.len() > 1 {
                    return Err(cannot("the force on one of several pulleys"));
                }
                format!("the magnitude of the force exerted on the pulley by {}", self.the_link(id, link))
            }
            Wanted::Statement(topic) => return self.statement(*topic),
            Wanted::WhichWay(_) => return Err(cannot("which way a body moves")),
            Wanted::AccelerationWay(b) => {
                return Ok(format!("State the direction of the acceleration of {}.", self.name(*b).again()));
            }
            Wanted::TensionOrThrust(l) => {
                let Some(link) = self.s.link(*l).filter(|l| l.holds == Holds::PullOrPush) else {
                    return Err(cannot("whether a string pushes"));
                };
                return Ok(format!("State whether {} is in tension or in thrust.", self.the_link(*l, link)));
            }
            Wanted::WhetherItMoves => return Ok("Determine whether the system moves.".to_owned()),
            Wanted::Whether { .. } => return Err(cannot("whether something is so")),
            Wanted::Range(_) => return Err(cannot("a range of values")),
            Wanted::Effect { .. } => return Err(cannot("the effect of a change")),
        };
        let how = match ask.accuracy {
            None => String::new(),
            Some(Accuracy::Significant(1)) => ", correct to 1 significant figure".to_owned(),
            Some(Accuracy::Significant(n)) => format!(", correct to {n} significant figures"),
            Some(Accuracy::Places(0)) => ", correct to the nearest whole number".to_owned(),
            Some(Accuracy::Places(1)) => ", correct to 1 decimal place".to_owned(),
            Some(Accuracy::Places(n)) => format!(", correct to {n} decimal places"),
            Some(Accuracy::Exact) => ", giving your answer in exact form".to_owned(),
        };
        match &ask.show {
            Some(value) => Ok(format!("{} {what} is {}{how}.", words.show, self.shown(value, &ask.wanted)?)),
            None if std::mem::take(&mut self.gravity_in_letters) => {
                Ok(format!("{}, in terms of g, {what}{how}.", words.find))
            }
            None => Ok(format!("{} {what}{how}.", words.find)),
        }
    }

    /// A value to be shown, with its unit.
    fn shown(&self, value: &exact::Value, wanted: &Wanted) -> Said<String> {
        let kind = match wanted {
            Wanted::Quantity(id) | Wanted::Magnitude(id) => self.s.quantity(*id).map(|q| q.kind),
            Wanted::Deceleration(_) => Some(Kind::Acceleration),
            Wanted::PulleyForce(_) => Some(Kind::PulleyForce),
            _ => None,
        };
        let Some(kind) = kind else { return Err(cannot("this value to be shown")) };
        let lettered = matches!(wanted, Wanted::Quantity(id) if self.letters.contains_key(id));
        if lettered { number(value) } else { self.size(value, kind) }
    }

    fn quantity_asked(&mut self, id: QuantityId, ask: &Ask) -> Said<String> {
        match self.journey_phrase(id, ask)? {
            Some(phrase) => Ok(phrase),
            None => {
                let fixed = matches!(self.s.quantity(id).map(|q| q.kind), Some(Kind::Mass | Kind::Coefficient | Kind::Angle));
                let after = if fixed { String::new() } else { self.afterwards(ask)? };
                Ok(format!("{}{after}", self.phrase(id)?))
            }
        }
    }

    fn magnitude(&mut self, id: QuantityId, ask: &Ask) -> Said<String> {
        let phrase = self.quantity_asked(id, ask)?;
        let bare = phrase.strip_prefix("the ").unwrap_or(&phrase);
        Ok(format!("the magnitude of the {bare}"))
    }

    fn statement(&self, topic: Topic) -> Said<String> {
        let link = self.s.links.iter().find(|l| l.holds != Holds::Push).map(|l| self.link_noun(l));
        let link = link.unwrap_or_else(|| "string".to_owned());
        let words = self.voice.words();
        let fact = match topic {
            Topic::Inextensible => format!("the {link} is inextensible"),
            Topic::Light => format!("the {link} is {}", words.light),
            Topic::SmoothPulley => format!("the pulley is {}", words.smooth),
            Topic::Particle | Topic::SmoothSurface | Topic::Limitation => return Err(cannot("this statement")),
        };
        Ok(format!("State how you have used the fact that {fact}."))
    }
}
