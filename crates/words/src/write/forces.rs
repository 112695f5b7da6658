//! The forces that the question names, and what is known of the forces between bodies.

use super::scene::capital;
use super::{Said, Writer, cannot};
use model::{Action, ActionId, BodyId, Direction, Form, Kind, Line, QuantityId, Role, Stage, StageId};
use std::collections::BTreeMap;

impl Writer<'_> {
    /// Gives letters to what is not known and must be spoken of: what other values are told in, applied forces,
    /// the one unknown coefficient.
    pub(super) fn choose_letters(&mut self) {
        let s = self.s;
        let mut used = std::collections::BTreeSet::new();
        for known in s.quantities.iter().filter_map(|q| q.known.as_ref()) {
            used.extend(known.value.symbols());
        }
        let mut taken: Vec<String> = self.names.iter().filter_map(|n| n.letter.clone()).collect();
        taken.extend(s.letters.iter().map(|l| l.symbol.clone()));
        for (i, q) in s.quantities.iter().enumerate() {
            if q.known.is_none() && used.contains(&q.symbol) {
                taken.push(q.symbol.clone());
                self.letters.insert(QuantityId(i), q.symbol.clone());
            }
        }
        // What is asked for as a set of values has a letter.
        for ask in &s.asks {
            if let model::Wanted::Range(id) = ask.wanted
                && let Some(q) = s.quantity(id).filter(|q| q.known.is_none() && q.letter.chars().count() == 1)
                && !taken.contains(&q.letter)
            {
                taken.push(q.letter.clone());
                self.letters.insert(id, q.letter.clone());
            }
        }
        for stage in &s.stages {
            for (action, id) in s.actions.iter().zip(&stage.forces) {
                let Some(q) = s.quantity(*id).filter(|q| q.known.is_none()) else { continue };
                if action.role != Role::Applied || self.letters.contains_key(id) || !self.is_asked(*id) {
                    continue;
                }
                let own = q.letter.chars().count() == 1 && q.letter != "g";
                let choices =
                    [own.then_some(q.letter.as_str()), Some("P"), Some("F"), Some("X"), Some("H"), Some("S")];
                let free = choices.into_iter().flatten().find(|l| !taken.iter().any(|t| t == l));
                if let Some(letter) = free {
                    taken.push(letter.to_owned());
                    self.letters.insert(*id, letter.to_owned());
                }
            }
        }
        let open: BTreeMap<QuantityId, ()> = s
            .bodies
            .iter()
            .filter_map(|b| b.surface.as_ref())
            .filter_map(|s| if let model::Grip::Rough(mu) = s.grip { Some((mu, ())) } else { None })
            .filter(|(mu, ())| self.known(*mu).is_none() && !self.letters.contains_key(mu))
            .collect();
        if let ([mu], false) = (open.keys().collect::<Vec<_>>().as_slice(), taken.iter().any(|t| t == "μ")) {
            self.letters.insert(**mu, "μ".to_owned());
        }
    }

    /// Is the quantity itself asked for?
    pub(super) fn is_asked(&self, id: QuantityId) -> bool {
        use model::Wanted::{Magnitude, Quantity, Range};
        self.s.asks.iter().any(|a| matches!(a.wanted, Quantity(q) | Magnitude(q) | Range(q) if q == id))
    }

    /// One sentence for each force that acts in a stage, and for each tension or push that is given.
    pub(super) fn forces(&mut self, id: StageId) -> Said<Vec<String>> {
        let mut sentences = Vec::new();
        let Some(stage) = self.s.stage(id) else { return Ok(sentences) };
        for (n, action) in self.s.actions_in(id) {
            if let Some(sentence) = self.force(n, action, stage)? {
                sentences.push(sentence);
            }
        }
        sentences.extend(self.between_bodies(stage)?);
        Ok(sentences)
    }

    fn force(&mut self, n: ActionId, action: &Action, stage: &Stage) -> Said<Option<String>> {
        let Some(&id) = stage.forces.get(n.0) else { return Ok(None) };
        let size = match (self.given(id), self.letters.get(&id)) {
            (Some(value), _) => Some(self.size(value, Kind::Force)?),
            (None, Some(letter)) => Some(format!("{letter} N")),
            (None, None) => None,
        };
        if self.given(id).is_some() {
            self.said.insert(id);
        }
        let on = self.name(action.on).again();
        let of = |words: &str| size.as_ref().map(|s| format!(" {words} {s}"));
        Ok(match action.role {
            Role::Driving => {
                let engine = self.s.body(action.on).is_some_and(|b| b.form == Form::Vehicle);
                let source = if engine && self.name(action.on).noun != "engine" {
                    format!("The engine of {on}")
                } else {
                    capital(&on)
                };
                self.only(action, Direction::Along(1), stage)?;
                Some(format!("{source} produces a constant driving force{}.", of("of").unwrap_or_default()))
            }
            Role::Braking => {
                if action.direction != Direction::Opposing {
                    return if size.is_none() {
                        Ok(None)
                    } else {
                        Err(cannot("a braking force with a direction of its own"))
                    };
                }
                Some(format!("A constant braking force{} acts on {on}.", of("of").unwrap_or_default()))
            }
            Role::Resistance => {
                if action.direction != Direction::Opposing {
                    return Err(cannot("a resistance with a direction of its own"));
                }
                size.map(|s| format!("The resistance to the motion of {on} is {s}."))
            }
            Role::Cable => self.cable(action, size)?,
            Role::Applied | Role::Other => self.applied(action, size)?,
        })
    }

    /// What becomes known in a part.
    pub(super) fn later(&mut self, part: usize) -> Said<Vec<String>> {
        let mut sentences = Vec::new();
        for (i, q) in self.s.quantities.iter().enumerate() {
            let id = QuantityId(i);
            let Some(known) = &q.known else { continue };
            let now = known.from_part > 0 && known.from_part <= part && self.given(id).is_none();
            let plain = !matches!(
                q.kind,
                Kind::Angle
                    | Kind::Gravity
                    | Kind::Speed
                    | Kind::Velocity
                    | Kind::Distance
                    | Kind::Displacement
                    | Kind::Time
            );
            if !now || !plain || self.compares() || self.said.contains(&id) {
                continue;
            }
            if let Ok(phrase) = self.phrase(id) {
                self.said.insert(id);
                sentences.push(format!("{} is {}.", capital(&phrase), self.size(&known.value, q.kind)?));
            }
        }
        Ok(sentences)
    }

    /// The force must act this way, or backwards down a slope.
    fn only(&self, action: &Action, direction: Direction, stage: &Stage) -> Said<()> {
        let down = stage.heading.is_some_and(|h| h.sense < 0) && action.direction == Direction::Along(-1);
        if action.direction == direction || down {
            Ok(())
        } else {
            Err(cannot(format!("which way {} acts", action.name)))
        }
    }

    /// A cable that leaves the situation: upwards where it holds a body, otherwise along the ground.
    fn cable(&mut self, action: &Action, size: Option<String>) -> Said<Option<String>> {
        let noun = self.cable_of(action.on).unwrap_or("cable").to_owned();
        let light = self.voice.words().light;
        let on = self.name(action.on).again();
        let line = self.s.body(action.on).map(|b| b.line);
        let at = match (line, action.direction) {
            (Some(Line::Vertical), Direction::Along(1)) => {
                return Ok(size.map(|s| format!("The tension in the {noun} is {s}.")));
            }
            (Some(Line::Level), Direction::Along(1)) => format!("by a {light} horizontal {noun}"),
            (Some(Line::Slope { .. }), Direction::Along(1)) => {
                let ground = self.ground_of(action.on).unwrap_or_default();
                format!("up {ground} by a {light} {noun} parallel to {ground}")
            }
            (Some(Line::Level), Direction::At { sense: 1, angle, lifts: true }) => {
                let (angle, given) = self.angle(angle)?;
                format!("by a {light} {noun} inclined at {angle} to the horizontal{given}")
            }
            _ => return Err(cannot(format!("which way {} acts", action.name))),
        };
        let tension = size.map(|s| format!(" The tension in the {noun} is {s}.")).unwrap_or_default();
        Ok(Some(format!("{} is pulled {at}.{tension}", capital(&on))))
    }

    /// A force applied from outside, with its direction.
    fn applied(&mut self, action: &Action, size: Option<String>) -> Said<Option<String>> {
        let on = self.name(action.on).again();
        let Some(line) = self.s.body(action.on).map(|b| b.line) else { return Ok(None) };
        let Some(size) = size else {
            // What drives a body that carries others need not be told where its acceleration is.
            let drives = action.name.starts_with("force that drives");
            return if drives { Ok(None) } else { Err(cannot(format!("{} without its size", action.name))) };
        };
        let of = format!("force of magnitude {size}");
        let ground = self.ground_of(action.on).unwrap_or_default();
        Ok(Some(match (line, action.direction) {
            (Line::Level, Direction::Along(sense)) => {
                let way = self.level_way(action.on, sense)?;
                format!("A horizontal {of} is applied to {on}{way}.")
            }
            (Line::Slope { .. }, Direction::Along(sense)) => {
                let way = if sense > 0 { "up" } else { "down" };
                format!("A {of}, acting {way} {ground}, is applied to {on}.")
            }
            (Line::Vertical, Direction::Along(sense)) => {
                let way = if sense > 0 { "upwards" } else { "downwards" };
                format!("A vertical {of} acts {way} on {on}.")
            }
            (Line::Level, Direction::At { sense: 1, angle, lifts }) => {
                let (at, given) = self.angle(angle)?;
                let way = if lifts { "above" } else { "below" };
                format!("A {of} acting at {at} {way} the horizontal is applied to {on}{given}.")
            }
            (Line::Slope { angle: slope, .. }, Direction::At { sense: 1, angle, lifts: false })
                if slope == angle =>
            {
                format!("A horizontal {of} is applied to {on}.")
            }
            (Line::Slope { .. }, Direction::At { sense: 1, angle, lifts: true }) => {
                let (at, given) = self.angle(angle)?;
                format!("A {of} acting upwards at {at} to {ground} is applied to {on}{given}.")
            }
            _ => return Err(cannot(format!("which way {} acts", action.name))),
        }))
    }

    /// Which way a force along the level acts, where there are several ways.
    fn level_way(&self, on: BodyId, sense: i8) -> Said<&'static str> {
        let pulley = self.s.links.iter().any(|l| !l.pulleys.is_empty());
        let backwards =
            self.s.actions.iter().any(|a| a.direction == Direction::Along(-1) && a.role == Role::Applied);
        let touches = self.s.links.iter().any(|l| l.ends.iter().any(|e| e.body == on));
        let several = self.s.actions.iter().filter(|a| a.role == Role::Applied).count() > 1;
        Ok(match (pulley, backwards, sense) {
            (true, ..) => {
                if sense > 0 {
                    ", towards the pulley"
                } else {
                    ", away from the pulley"
                }
            }
            (false, false, _) if !several => "",
            (false, _, 1) if !touches => " to the right",
            (false, _, -1) if !touches => " to the left",
            _ => return Err(cannot("forces both ways on bodies that are joined")),
        })
    }

    /// Tensions, pushes and friction that are given.
    fn between_bodies(&mut self, stage: &Stage) -> Said<Vec<String>> {
        let given = stage
            .links
            .iter()
            .chain(stage.frictions.iter().flatten())
            .chain(stage.reactions.iter().flatten());
        let mut sentences = Vec::new();
        for &id in given {
            let (Some(value), Some(kind)) = (self.given(id), self.s.quantity(id).map(|q| q.kind)) else {
                continue;
            };
            let size = self.size(value, kind)?;
            if !self.said.insert(id) {
                continue;
            }
            let phrase = self.phrase(id)?;
            sentences.push(format!("{} is {size}.", capital(&phrase)));
        }
        Ok(sentences)
    }
}
