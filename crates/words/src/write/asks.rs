//! The parts, and what each asks.

use super::amounts::number;
use super::{Said, Writer, cannot};
use model::{Accuracy, Ask, Change, Grip, Holds, Kind, QuantityId, State, Topic, Wanted};

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
            sentences.extend(self.later(ask.part_index)?);
            sentences.push(self.ask(ask)?);
        }
        let marks = asks.first().and_then(|a| a.marks);
        let (open, close) = self.voice.words().marks;
        let marks = marks.map(|m| format!(" {open}{m}{close}")).unwrap_or_default();
        Ok(format!("{}{marks}", sentences.join(" ")))
    }

    /// ` when the lift moves upwards with an acceleration of 2 m s⁻²`, where several states are compared.
    fn when(&mut self, ask: &Ask) -> Said<String> {
        if !self.compares() {
            return Ok(String::new());
        }
        let Some(stage) = self.s.stage(ask.stage) else { return Ok(String::new()) };
        // A force that is as great as in the states before needs no telling again.
        for other in self.s.stages.iter().filter(|s| !std::ptr::eq(*s, stage)) {
            for (force, there) in stage.forces.iter().zip(&other.forces) {
                if self.known(*force) == self.known(*there) && self.said.contains(there) {
                    self.said.insert(*force);
                }
            }
        }
        let sentences = self.motion(ask.stage)?;
        let [one] = sentences.as_slice() else { return Err(cannot("a state told in several sentences")) };
        let clause = one.trim_end_matches('.');
        let clause = match clause.strip_prefix("The ") {
            Some(rest) => format!("the {rest}"),
            None => clause.to_owned(),
        };
        Ok(format!(" when {clause}"))
    }

    fn ask(&mut self, ask: &Ask) -> Said<String> {
        let words = self.voice.words();
        let what = match &ask.wanted {
            Wanted::Quantity(id) => self.quantity_asked(*id, ask)?,
            Wanted::Magnitude(id) => self.magnitude(*id, ask)?,
            Wanted::Deceleration(b) => {
                format!("the deceleration of {}{}", self.name(*b).again(), self.afterwards(ask)?)
            }
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
            Wanted::Range(id) => {
                let letter = self.letters.get(id).cloned();
                let letter =
                    letter.or_else(|| self.s.quantity(*id).map(|q| q.letter.clone())).unwrap_or_default();
                let rests = self.s.stage(ask.stage).is_some_and(|s| s.state == State::AtRest);
                if !rests {
                    return Err(cannot("a range of values for which bodies move"));
                }
                let stays = format!("{} remains at rest", self.all_bodies());
                return Ok(format!("{} the range of values of {letter} for which {stays}.", words.find));
            }
            Wanted::Effect { change, on } => {
                let phrase = self.quantity_asked(*on, ask)?;
                return Ok(format!("State the effect on {phrase} if {}.", self.change(*change)?));
            }
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
        let what = format!("{what}{}", self.when(ask)?);
        match &ask.show {
            Some(_) if self.compares() => Err(cannot("a value to be shown in one of several states")),
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
                let fixed = matches!(
                    self.s.quantity(id).map(|q| q.kind),
                    Some(Kind::Mass | Kind::Coefficient | Kind::Angle)
                );
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
            Topic::Rigid => format!("the {link} is rigid"),
            Topic::NoAirResistance => return Err(cannot("a statement about air resistance")),
            Topic::Forces(_) => return Err(cannot("a diagram of the forces")),
            Topic::Assumption => return Ok("State one assumption that you have made.".to_owned()),
            Topic::Inextensible => format!("the {link} is inextensible"),
            Topic::Light => format!("the {link} is {}", words.light),
            Topic::SmoothPulley => format!("the pulley is {}", words.smooth),
            Topic::Limitation => return Ok("State one limitation of the model.".to_owned()),
            Topic::Particle => match self.s.body_ids().next() {
                Some(b) => format!("{} is modelled as a particle", self.name(b).again()),
                None => return Err(cannot("this statement")),
            },
            Topic::SmoothSurface => match self.smooth_ground() {
                Some(ground) => format!("{ground} is {}", words.smooth),
                None => return Err(cannot("this statement")),
            },
        };
        Ok(format!("State how you have used the fact that {fact}."))
    }

    /// What would be otherwise.
    fn change(&self, change: Change) -> Said<String> {
        let link = self.s.links.iter().find(|l| l.holds != Holds::Push).map(|l| self.link_noun(l));
        let link = link.unwrap_or_else(|| "string".to_owned());
        Ok(match change {
            Change::AirResistance => "air resistance were included in the model".to_owned(),
            Change::HeavyString => format!("the {link} were heavy"),
            Change::RoughPulley => "the pulley were rough".to_owned(),
            Change::RoughSurface => match self.smooth_ground() {
                Some(ground) => format!("{ground} were rough"),
                None => return Err(cannot("a rough surface in place of a smooth one")),
            },
            Change::More(q) => format!("{} were greater", self.phrase(q)?),
            Change::Less(q) => format!("{} were smaller", self.phrase(q)?),
        })
    }

    /// A surface that is smooth.
    fn smooth_ground(&self) -> Option<String> {
        let smooth = |b: &model::BodyId| {
            self.s
                .body(*b)
                .and_then(|b| b.surface.as_ref())
                .is_some_and(|s| s.grip == Grip::Smooth && s.under.is_none())
        };
        self.ground_of(self.s.body_ids().find(smooth)?)
    }
}
