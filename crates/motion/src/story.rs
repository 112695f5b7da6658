//! A story: stages that tell each other what they find, forwards and backwards, until nothing new is told.
//! What no stage can find alone is found by several together.

use crate::attempt::{Accepted, Rejected};
use crate::carry::brought;
use crate::finish::Extent;
use crate::search::{Verdict, search_all};
use crate::setting::Setting;
use crate::told::Places;
use crate::{Force, Solved, forces, jerk, joint, reasons, several};
use exact::Value;
use model::{Diagnostic, QuantityId, Refusal, Situation, StageId};
use std::cell::Cell;
use std::collections::BTreeMap;
use std::rc::Rc;

/// The stages of a situation, as far as they are solved with the givens of one part.
pub(crate) struct Story<'a> {
    pub(crate) situation: &'a Situation,
    pub(crate) part: usize,
    pub(crate) places: Places,
    /// What stages have found of quantities of which others speak too.
    pub(crate) told: BTreeMap<QuantityId, Value>,
    pub(crate) chapters: Vec<Chapter<'a>>,
    /// Were equations of several stages together too long to be followed?
    pub(crate) too_long: bool,
    /// How many terms have been written for all of them.
    written: Rc<Cell<usize>>,
}

/// One stage.
pub(crate) struct Chapter<'a> {
    pub(crate) setting: Setting<'a>,
    pub(crate) forces: Vec<Force>,
    pub(crate) outcome: Outcome,
    /// Has something been told since that concerns it?
    stale: bool,
}

/// What solving a stage has come to so far.
pub(crate) enum Outcome {
    /// Not looked at.
    Unseen,
    /// These cases hold.
    Holds(Vec<Accepted>),
    /// None does.
    Fails(Rejected),
    /// Something else is the matter.
    Refused(Diagnostic),
}

impl Chapter<'_> {
    /// The cases that hold.
    pub(crate) fn cases(&self) -> &[Accepted] {
        if let Outcome::Holds(cases) = &self.outcome { cases } else { &[] }
    }
}

impl<'a> Story<'a> {
    /// Solves all stages. `None` if a stage is not there.
    pub(crate) fn tell(situation: &'a Situation, part: usize) -> Option<Story<'a>> {
        let chapters = situation
            .stage_ids()
            .map(|id| {
                let setting = Setting::new(situation, id, part, &BTreeMap::new())?;
                Some(Chapter { setting, forces: Vec::new(), outcome: Outcome::Unseen, stale: true })
            })
            .collect::<Option<Vec<_>>>()?;
        let places = Places::new(situation, part);
        let told = BTreeMap::new();
        let mut story =
            Story { situation, part, places, told, chapters, too_long: false, written: Rc::default() };
        story.run();
        Some(story)
    }

    fn run(&mut self) {
        // Each look is caused by something new; the bound is for stages that contradict each other in turn.
        let mut looks = 8 + 6 * self.chapters.len();
        let mut joins = 1 + self.chapters.len();
        while looks > 0 {
            looks -= 1;
            if let Some(at) = self.chapters.iter().position(|c| c.stale) {
                self.look(at);
                self.hand_on(at);
            } else if !self.facts() {
                // Nothing new from any stage alone.
                if joins == 0 || !joint::join(self) {
                    break;
                }
                joins -= 1;
            }
        }
    }

    /// The setting of a stage, with all that the others have told and brought along.
    pub(crate) fn setting(&self, at: usize) -> Option<Setting<'a>> {
        let told = self.told.iter().filter(|(id, _)| self.places.takes(at, **id));
        let told = told.map(|(id, v)| (*id, v.clone())).collect();
        let setting = Setting::new(self.situation, StageId(at), self.part, &told)?;
        let moving = self.brought(at);
        Some(setting.carrying(moving).counting_with(&self.written))
    }

    /// By body: the way it moves when the stage begins.
    fn brought(&self, at: usize) -> Vec<Option<i8>> {
        let nothing = || vec![None; self.situation.bodies.len()];
        let Some(stage) = self.situation.stages.get(at) else { return nothing() };
        let before =
            stage.begins.as_ref().filter(|b| b.after.0 < at).and_then(|b| self.chapters.get(b.after.0));
        before.map_or_else(nothing, |before| brought(stage, &before.setting, before.cases()))
    }

    fn look(&mut self, at: usize) {
        let Some(setting) = self.setting(at) else { return };
        let mut forces = forces::gather(&setting);
        let outcome = match jerk::incomplete(&setting) {
            Some(refused) => Outcome::Refused(refused),
            None => match search_all(&setting, &mut forces) {
                Verdict::Holds(cases) => Outcome::Holds(cases),
                Verdict::Fails(why) => Outcome::Fails(why),
            },
        };
        if let Some(chapter) = self.chapters.get_mut(at) {
            *chapter = Chapter { setting, forces, outcome, stale: false };
        }
    }

    /// Tells the others what all cases of a stage agree on.
    fn hand_on(&mut self, at: usize) {
        let Some(chapter) = self.chapters.get(at) else { return };
        let mut news = Vec::new();
        if let Some((first, others)) = chapter.cases().split_first() {
            for id in first.values.keys().filter(|id| !self.told.contains_key(id)) {
                let tells = |case| self.places.tells(&chapter.setting, case, *id);
                let Some(value) = tells(first) else { continue };
                if others.iter().all(|o| tells(o).is_some_and(|v| (v - &value).is_zero())) {
                    news.push((*id, value));
                }
            }
        }
        for (id, value) in news {
            self.learn(id, value, Some(at));
        }
        for later in 0..self.chapters.len() {
            let follows = self.situation.stages.get(later).and_then(|s| s.begins.as_ref());
            if follows.is_some_and(|b| b.after.0 == at && at < later) {
                let brought = self.brought(later);
                if let Some(chapter) = self.chapters.get_mut(later).filter(|c| c.setting.moving != brought) {
                    chapter.stale = true;
                }
            }
        }
    }

    /// Notes what has been found; the stages that speak of it, and do not know it yet, are to be looked at again.
    pub(crate) fn learn(&mut self, id: QuantityId, value: Value, from: Option<usize>) {
        for (i, chapter) in self.chapters.iter_mut().enumerate() {
            if Some(i) == from || !self.places.speaks(i, id) || !self.places.takes(i, id) {
                continue;
            }
            let knows = |case: &Accepted| case.values.get(&id).is_some_and(|v| (v - &value).is_zero());
            let cases = chapter.cases();
            if cases.is_empty() || !cases.iter().all(knows) {
                chapter.stale = true;
            }
        }
        self.told.insert(id, value);
    }

    /// What follows from the given facts alone, now that so much is known; true if something new did.
    fn facts(&mut self) -> bool {
        let news = joint::facts(self);
        let mut new = false;
        for (id, value) in news {
            if !self.told.contains_key(&id) && self.situation.known(id, self.part).is_none() {
                self.learn(id, value, None);
                new = true;
            }
        }
        new
    }

    /// What a stage has come to.
    pub(crate) fn result(&self, at: usize, extent: Extent) -> Result<Solved, Vec<Diagnostic>> {
        let nothing = || vec![Diagnostic::refuse(Refusal::Incomplete, "nothing is said of this stage")];
        let chapter = self.chapters.get(at).ok_or_else(nothing)?;
        match &chapter.outcome {
            Outcome::Unseen => Err(nothing()),
            Outcome::Refused(why) => Err(vec![why.clone()]),
            Outcome::Fails(why) => Err(vec![reasons::refusal(&chapter.setting, why)]),
            Outcome::Holds(cases) => {
                let mut sure: Vec<Accepted> = cases.iter().filter(|c| !c.open).cloned().collect();
                if sure.is_empty() {
                    // Where nothing is sure, the likeliest of what may be.
                    sure.extend(cases.first().cloned());
                }
                sure.iter_mut().for_each(|case| case.too_long |= self.too_long);
                let mut solved = several::solved(&chapter.setting, &chapter.forces, sure, extent)
                    .map_err(|why| vec![why])?;
                for (id, value) in &self.told {
                    if self.places.takes(at, *id) && !solved.values.contains_key(id) {
                        solved.values.insert(*id, value.clone());
                        solved.undetermined.retain(|(open, _)| open != id);
                    }
                }
                Ok(solved)
            }
        }
    }
}
