//! A story in chapters: from the happenings told, one stage after the other.

use crate::assemble::{Assembly, Became};
use crate::parts::Part;
use crate::stages::Motion;
use crate::story::{AskTold, Fact};
use crate::timeline::{Moment, Occurs};
use exact::Value;
use model::{
    BodyId, Claim, Claimed, Diagnostic, Happening, Journey, Line, LinkId, QuantityId, Refusal, Role, Span,
    StageId,
};
use std::collections::BTreeMap;

/// What lies between two happenings.
#[derive(Clone, Debug)]
pub(crate) struct Chapter {
    pub(super) stage: StageId,
    pub(super) motion: Motion,
    /// Which way each body moves as it begins, along its own line, where that is known.
    pub(super) senses: Vec<Option<i8>>,
    /// The speed of a body as it begins.
    pub(super) starts: BTreeMap<usize, QuantityId>,
    /// The journey of a body through the whole of it.
    pub(super) whole: BTreeMap<usize, Journey>,
}

impl Assembly<'_> {
    /// The stages of a story with happenings, and its questions.
    pub(super) fn tale(&mut self, parts: &[Part]) {
        let story = self.story;
        if let Some(n) = story.events.iter().position(|e| !e.told)
            && let Some(later) = story.events.iter().skip(n).find(|e| e.told)
        {
            let d = Diagnostic::refuse(Refusal::Unread, "it is not clear what happens first")
                .at(later.span)
                .hint("tell what happens in its order, before the questions about it");
            self.refuse_once(d);
            return;
        }
        let last = story.events.len();
        let reach = |m: &Option<Moment>| match m {
            Some(Moment::Event(n)) => *n,
            _ => 0,
        };
        // As it happens: what holds before and what holds after are to be held against each other.
        let both = |a: &AskTold| {
            usize::from(a.when.at_once && crate::stages::measure::passing(&a.target)) + reach(&a.when.to)
        };
        let asked = story.asks.iter().map(|a| a.when.chapter.max(reach(&a.when.from)).max(both(a))).max();
        let told = story.motions.iter().map(|m| m.chapter).max();
        let need = asked.max(told).unwrap_or(0).min(last);
        for k in 0..=need {
            if self.open_chapter(k).is_none() {
                let span = story.events.get(k.saturating_sub(1)).map(|e| e.span).unwrap_or_default();
                let d = Diagnostic::refuse(Refusal::Unread, "what happens here is not followed")
                    .at(span)
                    .hint("ask about the motion before it as a question of its own");
                self.refuse_once(d);
                return;
            }
        }
        for ask in &story.asks {
            self.tale_ask(ask, parts);
        }
        self.relations();
    }

    /// What is told of the motion in a chapter.
    fn chapter_motion(&mut self, k: usize) -> Motion {
        let story = self.story;
        let mut motion = Motion::default();
        for m in story.motions.iter().filter(|m| m.chapter == k) {
            // Released, and at rest before: the stage begins with the release.
            if let Some((old, new)) = motion.take(&m.of, &m.fact, m.span) {
                self.clash(&old, &new);
            }
        }
        // It goes on until it is at rest.
        if let (None, Some(Occurs::Rests(_)), Some(event)) =
            (&motion.end, story.events.get(k).map(|e| &e.occurs), story.events.get(k))
        {
            motion.end = Some(crate::story::Given {
                value: Value::zero(),
                span: event.span,
                written: "0".to_owned(),
                part: 0,
            });
        }
        // It goes on until a body lands: so far it had to go.
        if let (None, Some(Occurs::Lands { body, ground, .. })) =
            (&motion.distance, story.events.get(k).map(|e| &e.occurs))
        {
            motion.distance = story
                .clearances
                .iter()
                .find(|c| c.chapter == k && c.ground == *ground && c.of.contains(body))
                .map(|c| (vec![*body], c.given.clone()));
        }
        motion
    }

    /// Makes the stage of a chapter; those before it are there.
    fn open_chapter(&mut self, k: usize) -> Option<()> {
        let story = self.story;
        let motion = self.chapter_motion(k);
        self.chapter = k;
        let before = k.checked_sub(1).and_then(|p| self.chapters.get(p)).cloned();
        let (senses, heading) = match (&before, k) {
            (None, _) => self.first_senses(&motion),
            (Some(before), _) => self.next_senses(k, before, &motion),
        };
        if let Some(before) = &before {
            let event = story.events.get(k - 1)?;
            self.follows = Some((before.stage, self.happening(&event.occurs)?));
        }
        let stage = self.stage_heading(&motion, heading);
        if let Some(before) = &before {
            self.inherit(k, before.stage, stage)?;
        }
        self.forces_in(k, stage);
        self.taken_for_granted(k);
        self.chapters.push(Chapter {
            stage,
            motion,
            senses,
            starts: BTreeMap::new(),
            whole: BTreeMap::new(),
        });
        self.chapter_claims(k);
        let told = self.chapters.get(k).map(|c| {
            [&c.motion.end, &c.motion.time].iter().any(|g| g.is_some()) || c.motion.distance.is_some()
        });
        if told == Some(true) {
            let lead = self.lead(k)?;
            self.whole(k, lead)?;
        }
        Some(())
    }

    fn happening(&self, occurs: &Occurs) -> Option<Happening> {
        Some(match occurs {
            Occurs::Breaks(links) => match links.iter().find_map(|&l| self.link_id(l)) {
                Some(id) => Happening::Breaks(id),
                // A cable whose other end is outside the story.
                None => links.iter().find_map(|&l| match self.links.get(l) {
                    Some(Became::Cable(a)) => Some(Happening::Ends(*a)),
                    _ => None,
                })?,
            },
            Occurs::Lands { body, at, .. } => {
                Happening::Stops { body: *self.bodies.get(*body)?, at: at.clone() }
            }
            Occurs::Off(forces) => match forces.iter().find_map(|&f| self.forces.get(f).copied().flatten()) {
                Some(a) => Happening::Ends(a),
                None => Happening::Changes,
            },
            Occurs::Brakes => {
                let brakes = self.story.forces.iter().position(|f| f.role == Role::Braking)?;
                Happening::Starts(self.forces.get(brakes).copied().flatten()?)
            }
            Occurs::Rests(body) => Happening::Rests(*self.bodies.get(*body)?),
            Occurs::Changes => Happening::Changes,
        })
    }

    /// What is supposed, though not said, of the happening that begins this chapter.
    fn taken_for_granted(&mut self, k: usize) {
        let drives = |f: &crate::story::ForceTold| f.role == Role::Driving;
        let text = match k.checked_sub(1).and_then(|p| self.story.events.get(p)).map(|e| &e.occurs) {
            Some(Occurs::Lands { body, at, .. }) if !self.story.stays.contains(body) => {
                format!("{} stays at {at} when it gets there", self.name(*body))
            }
            Some(Occurs::Brakes) if self.story.forces.iter().any(drives) => {
                "the driving force stops when the brakes are put on".to_owned()
            }
            _ => return,
        };
        self.b.situation_mut().assumed.push(text);
    }

    fn link_id(&self, l: usize) -> Option<LinkId> {
        match self.links.get(l)? {
            Became::Link(id) => Some(*id),
            _ => None,
        }
    }

    /// What is gone stays gone; who landed stays down, and the string that held it is slack.
    fn inherit(&mut self, k: usize, before: StageId, stage: StageId) -> Option<()> {
        let old = self.b.situation().stage(before)?.clone();
        let slack: Vec<LinkId> = match &self.story.events.get(k - 1)?.occurs {
            Occurs::Lands { body, .. } => {
                let id = *self.bodies.get(*body)?;
                let situation = self.b.situation();
                situation
                    .link_ids()
                    .filter(|l| situation.link(*l).is_some_and(|l| l.ends.iter().any(|e| e.body == id)))
                    .collect()
            }
            Occurs::Breaks(links) => links.iter().filter_map(|&l| self.link_id(l)).collect(),
            _ => Vec::new(),
        };
        // A rod to a body that has been stopped stops the other; only strings go slack.
        let rigid = |l: &LinkId| self.b.situation().link(*l).is_some_and(|l| l.holds != model::Holds::Pull);
        if matches!(self.story.events.get(k - 1)?.occurs, Occurs::Lands { .. }) && slack.iter().any(rigid) {
            return None;
        }
        let new = self.b.situation_mut().stages.get_mut(stage.0)?;
        for l in old.without_links.into_iter().chain(slack) {
            if !new.without_links.contains(&l) {
                new.without_links.push(l);
            }
        }
        for b in old.held {
            if !new.held.contains(&b) {
                new.held.push(b);
            }
        }
        Some(())
    }

    /// The named forces that do not act in this chapter.
    fn forces_in(&mut self, k: usize, stage: StageId) {
        let story = self.story;
        let mut gone = Vec::new();
        for (f, spell) in &story.spells {
            if let Some(action) = self.forces.get(*f).copied().flatten()
                && (k < spell.since || spell.until.is_some_and(|u| k >= u))
            {
                gone.push(action);
            }
        }
        // An engine that is off, or whose brakes are on, does not drive.
        let off = story.events.iter().take(k).any(|e| {
            matches!(&e.occurs, Occurs::Brakes) || matches!(&e.occurs, Occurs::Off(f) if f.is_empty())
        });
        for (f, force) in story.forces.iter().enumerate() {
            if off
                && force.role == Role::Driving
                && let Some(action) = self.forces.get(f).copied().flatten()
            {
                gone.push(action);
            }
        }
        for event in story.events.iter().take(k) {
            if let Occurs::Breaks(links) = &event.occurs {
                gone.extend(links.iter().filter_map(|&l| match self.links.get(l) {
                    Some(Became::Cable(a)) => Some(*a),
                    _ => None,
                }));
            }
        }
        if let Some(stage) = self.b.situation_mut().stages.get_mut(stage.0) {
            for action in gone {
                if !stage.without_actions.contains(&action) {
                    stage.without_actions.push(action);
                }
            }
        }
    }

    /// Which way everything moves at first, and the heading of the first stage where it is told or plain.
    fn first_senses(&mut self, motion: &Motion) -> (Vec<Option<i8>>, Option<(usize, i8)>) {
        let story = self.story;
        let told = self.heading(motion);
        // Who lands, came down to it.
        let lander = story.events.first().and_then(|e| match &e.occurs {
            Occurs::Lands { body, ground, .. } => Some((*body, *ground)),
            _ => None,
        });
        let landing = lander.and_then(|(b, ground)| match (self.lines.get(b)?, ground) {
            (Line::Vertical, true) => Some((b, -1)),
            (Line::Level | Line::Slope { .. }, false) => Some((b, 1)),
            _ => None,
        });
        let plain = || {
            (0..self.lines.len()).find_map(|b| {
                Some((
                    b,
                    self.plain_way(b).filter(|_| {
                        !story.pulleys.is_empty() || matches!(self.lines.get(b), Some(Line::Level))
                    })?,
                ))
            })
        };
        let seed = told.or(landing).or_else(|| self.heavier_down()).or_else(plain);
        let mut senses = vec![None; self.lines.len()];
        if let Some((b, sense)) = seed {
            self.spread(&mut senses, b, sense, &[]);
        }
        // Bodies that nothing joins, on the level: forwards.
        for (b, sense) in senses.iter_mut().enumerate() {
            if sense.is_none() && matches!(self.lines.get(b), Some(Line::Level)) && story.pulleys.is_empty() {
                *sense = Some(1);
            }
        }
        // Only what is told decides the stage; what seems plain is held against the solution.
        (senses, told)
    }

    /// Of two that one string holds over a pulley, the one whose weight pulls more along its line goes down. No more than
    /// a guess at which way to count as forwards: it is held against the solution.
    fn heavier_down(&self) -> Option<(usize, i8)> {
        let situation = self.b.situation();
        let link = situation.links.iter().find(|l| !l.pulleys.is_empty() && l.ends.len() == 2)?;
        let [one, two] = link.ends.as_slice() else { return None };
        let (m, n) = (self.pull_of_weight(one.body.0)?, self.pull_of_weight(two.body.0)?);
        match (&m - &n).sign() {
            Ok(exact::Sign::Positive) => Some((one.body.0, -1)),
            Ok(exact::Sign::Negative) => Some((one.body.0, 1)),
            _ => None,
        }
    }

    /// Mass times the sine of the slope of its line; nothing where a body does not go down.
    fn pull_of_weight(&self, body: usize) -> Option<Value> {
        let told = self.story.bodies.get(body)?;
        let mass = told.mass.as_ref()?.value.clone();
        mass.as_rational()?;
        match self.lines.get(body)? {
            Line::Vertical => Some(mass),
            Line::Slope { .. } => {
                let crate::story::On::Surface(s) = told.on? else { return None };
                let sine = self.story.surfaces.get(s)?.slope.as_ref()?.angle.as_ref()?.sin().ok()?;
                Some(&mass * &sine)
            }
            Line::Level => None,
        }
    }

    /// From one body's way to those joined to it.
    pub(super) fn spread(&self, senses: &mut [Option<i8>], body: usize, sense: i8, without: &[LinkId]) {
        if let Some(s) = senses.get_mut(body) {
            *s = Some(sense);
        }
        let situation = self.b.situation();
        for _ in 0..situation.links.len() {
            for id in situation.link_ids().filter(|l| !without.contains(l)) {
                let Some(link) = situation.link(id) else { continue };
                let [one, two] = link.ends.as_slice() else { continue };
                for (a, b) in [(one, two), (two, one)] {
                    let (Some(Some(from)), Some(None)) =
                        (senses.get(a.body.0).copied(), senses.get(b.body.0).copied())
                    else {
                        continue;
                    };
                    if let Some(s) = senses.get_mut(b.body.0) {
                        *s = Some(-(a.sense * from) * b.sense);
                    }
                }
            }
        }
    }

    /// Which way everything moves as a later chapter begins.
    fn next_senses(
        &mut self,
        k: usize,
        before: &Chapter,
        motion: &Motion,
    ) -> (Vec<Option<i8>>, Option<(usize, i8)>) {
        let mut senses = before.senses.clone();
        let event = self.story.events.get(k.wrapping_sub(1)).map(|e| &e.occurs);
        match event {
            Some(Occurs::Lands { body, .. }) => {
                if let Some(s) = senses.get_mut(*body) {
                    *s = None;
                }
            }
            Some(Occurs::Rests(_)) => senses = vec![None; senses.len()],
            _ => {}
        }
        let told = motion.heading.as_ref().and_then(|_| self.heading(motion));
        if let Some((b, sense)) = told
            && senses.get(b).copied().flatten().is_none()
        {
            self.spread(&mut senses, b, sense, &[]);
        }
        // The one that friction or a resistance acts on, if any, tells the stage its way.
        let held: Vec<usize> =
            (0..senses.len()).filter(|b| senses.get(*b).copied().flatten().is_some()).collect();
        let rubbed = |b: &usize| {
            let id = BodyId(*b);
            let s = self.b.situation();
            s.body(id).and_then(|b| b.surface.as_ref()).is_some() || s.actions.iter().any(|a| a.on == id)
        };
        let chosen = held.iter().find(|b| rubbed(b)).or(held.first()).copied();
        let heading = chosen.and_then(|b| Some((b, senses.get(b).copied().flatten()?)));
        (senses, heading)
    }

    /// What is said of the motion in a chapter, held against its stage.
    fn chapter_claims(&mut self, k: usize) {
        let story = self.story;
        let Some(chapter) = self.chapters.get(k).cloned() else { return };
        let list: Vec<(Vec<usize>, Fact, Span)> = story
            .motions
            .iter()
            .filter(|m| m.chapter == k)
            .map(|m| (m.of.clone(), m.fact.clone(), m.span))
            .collect();
        self.said(list, chapter.stage);
        // What was taken to be plain.
        if k == 0
            && let Some(event) = story.events.first()
        {
            let told = self.b.situation().stage(chapter.stage).and_then(|s| s.heading).is_some();
            let sense = chapter.senses.iter().enumerate().find_map(|(b, s)| Some((b, (*s)?)));
            if let (false, Some((b, s))) = (told, sense)
                && let Some(&body) = self.bodies.get(b)
            {
                self.claim(Claim { stage: chapter.stage, body, says: Claimed::Heads(s), span: event.span });
            }
        }
    }

    /// The body whose journey ends a chapter: who lands, or of whom a distance is told, or one that moves.
    pub(super) fn lead(&self, k: usize) -> Option<usize> {
        let chapter = self.chapters.get(k)?;
        if let Some(Occurs::Lands { body, .. } | Occurs::Rests(body)) =
            self.story.events.get(k).map(|e| &e.occurs)
        {
            return Some(*body);
        }
        let moves = |b: &usize| chapter.senses.get(*b).copied().flatten().is_some() || k == 0;
        if let Some((of, _)) = &chapter.motion.distance
            && let Some(b) = of.iter().find(|b| moves(b))
        {
            return Some(*b);
        }
        // The one whose coming to rest is told.
        if chapter.motion.end.is_some()
            && let Some(m) =
                self.story.motions.iter().find(|m| m.chapter == k && matches!(m.fact, Fact::EndSpeed(_)))
            && let Some(b) = m.of.iter().find(|b| moves(b))
        {
            return Some(*b);
        }
        (0..self.lines.len()).find(moves)
    }

    /// The difference of two given lengths, where both are numbers.
    pub(super) fn less(a: &Value, b: &Value) -> Option<Value> {
        (a.as_rational().is_some() && b.as_rational().is_some()).then(|| a - b)
    }

    /// Says of an ask that its moment is not clear.
    pub(super) fn no_moment(&mut self, ask: &AskTold) {
        let d = Diagnostic::refuse(
            Refusal::Unread,
            "it is not clear from when, or until when, this is meant",
        )
        .at(ask.span)
        .hint("say, for example: the total distance, the further distance, the speed as P hits the floor");
        self.refuse_once(d);
    }
}
