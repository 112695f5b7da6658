//! Forces that begin or end: `the engine is switched off`, `the force of 20 N is removed`, `the brakes are applied`.

use crate::reader::Reader;
use crate::story::Fact;
use crate::timeline::Occurs;
use exact::Dimension;
use model::Role;

/// An engine that no longer drives, as [`Reader::phrase`] reads it: its name, then one of these.
const ENGINE: &[&str] = &[
    "the|its|his|her engine|engines|motor|power|steam of the car|lorry|van|locomotive|tractor|train|winch|truck|boat|vehicle",
    "the|its|his|her engine|engines|motor|power|steam",
    "the car|lorry|van|locomotive|tractor|train|winch|truck|vehicle 's engine|engines|motor",
    "steam",
];
const ENGINE_OFF: &[&str] = &[
    "is|are|being|has|been then|now|suddenly|been? then|now? switched|turned|cut|shut off",
    "is|are|being|has|been then|now|suddenly|been? then|now|suddenly? cut|disengaged|stopped|disconnected",
    "cuts|cutting|cut out|off",
    "stops|stopping working|running|driving?",
    "fails|failing|failed|stalls|stalling",
    "no longer drives|works|runs",
];
/// Somebody who puts it off.
const DRIVER: &[&str] = &[
    "the driver|operator|engineman|driver's|winchman then|now? switches|turns|shuts|cuts off the|its|his|her? engine|motor|power|steam",
    "the driver|operator|engineman|winchman then|now? cuts|disengages|stops the|its|his|her engine|motor|power",
    "the driver|operator|engineman|winchman then|now? takes his|her foot off the accelerator",
    "the driver|operator|engineman|winchman then|now? switches|turns|shuts the|its|his|her engine|motor|power|steam off",
];
/// A force that no longer acts.
const REMOVED: &[&str] = &[
    "is|are|being|has|been then|now|suddenly|been|just|subsequently? removed|withdrawn|released|taken away?",
    "is|are|being|has been? switched|turned off",
    "ceases|stops|ceasing|stopping|ceased to? act|acting?",
    "no longer acts|applied",
    "is no longer applied|acting|exerted",
    "is then|now? no longer applied|acting",
];

impl Reader<'_> {
    /// `the engine is switched off`, `the force of 20 N is removed`: the forces that stop acting.
    pub(super) fn shut_off(&mut self, i: usize) -> Option<(Vec<usize>, usize)> {
        let engine = ENGINE
            .iter()
            .find_map(|p| {
                let e = self.phrase(i, p)?;
                ENGINE_OFF.iter().filter_map(|p| self.phrase(e, p)).max()
            })
            .or_else(|| DRIVER.iter().find_map(|p| self.phrase(i, p)));
        if let Some(e) = engine {
            let e = self.phrase(e, "completely").unwrap_or(e);
            let e = self.phrase(e, ",? without any? brakes being? applied?").unwrap_or(e);
            let driving = self.forces_of(|r| r == Role::Driving);
            return self.moved_before().then_some((driving, e));
        }
        let (driving, e) = self.force_named(i)?;
        let e = REMOVED.iter().filter_map(|p| self.phrase(e, p)).max()?;
        Some((self.that_acts(driving)?, e))
    }

    /// `the driving force of 20 N`, `the 250 N force`, `the pull on the sledge`: is it a driving force; the place after it.
    fn force_named(&self, i: usize) -> Option<(bool, usize)> {
        let sized = self.phrase(i, "the|this|a").and_then(|e| self.amount(e, false));
        let sized = sized.filter(|(a, _)| a.dimension == Some(Dimension::FORCE)).map(|(_, e)| e);
        let head = match sized {
            Some(e) => self.phrase(e, "horizontal|applied|constant? force|pull|push")?,
            None => self.phrase(
                i,
                "the|this driving|tractive|pulling|pushing|towing|horizontal|applied|external|constant? force|pull|push|effort",
            )?,
        };
        let driving = (i..head).any(|k| matches!(self.w(k), "driving" | "tractive"));
        let mut e =
            self.phrase(head, "of magnitude?").and_then(|e| self.amount(e, false)).map_or(head, |a| a.1);
        if let Some(t) = self.tok(self.skip(e))
            && t.letter().is_some()
            && t.text != "a"
        {
            e = self.skip(e) + 1;
            if let Some(e2) = self.phrase(e, "newtons|n") {
                e = e2;
            }
        }
        if let Some(e2) =
            self.phrase(e, "on|acting|of").and_then(|e2| self.plain_end(self.phrase(e2, "on").unwrap_or(e2)))
        {
            e = e2;
        }
        Some((driving, e))
    }

    /// The one force of which that may be said.
    fn that_acts(&self, driving: bool) -> Option<Vec<usize>> {
        let found = self.forces_of(|r| {
            if driving { r == Role::Driving } else { matches!(r, Role::Applied | Role::Driving) }
        });
        (found.len() == 1).then_some(found)
    }

    /// `The force acts for 5 s and is then removed`: how long, and that it ends.
    pub(super) fn acts_for(&mut self, i: usize) -> Option<usize> {
        let (driving, e) = self.force_named(i)?;
        let e = self.phrase(e, "acts|is|continues applied|act? to? act?")?;
        let e = self.phrase(e, "for|through|over the? first? a? distance|time? of?")?;
        let (amount, e) = self.amount(e, false)?;
        let given = self.given(&amount);
        let fact = match amount.dimension? {
            Dimension::TIME => Fact::Time(given),
            Dimension::LENGTH => Fact::Distance(given),
            _ => return None,
        };
        let end = self
            .phrase(
                e,
                ",? and|when|after it|which? then? is|ceases|stops then? removed|withdrawn|to|acting act?",
            )
            .or_else(|| self.phrase(e, "only"))?;
        let forces = self.that_acts(driving)?;
        let span = self.span(i, e);
        self.told(i, e, "how long this goes on");
        self.fact(self.who_moves(), span, fact);
        Some(self.narrate(e, end, Occurs::Off(forces)))
    }

    fn forces_of(&self, role: impl Fn(Role) -> bool) -> Vec<usize> {
        (0..self.story.forces.len())
            .filter(|&f| self.story.forces.get(f).is_some_and(|f| role(f.role)))
            .collect()
    }

    /// `the brakes are applied`, after something was told of the motion before.
    pub(super) fn brakes_on(&self, i: usize) -> Option<usize> {
        if !self.moved_before() {
            return None;
        }
        let brakes = self.phrase(i, "the|its|his|her brakes").or_else(|| {
            let owner = self.phrase(i, "the")?;
            let mark = (owner..owner + 3).find(|&k| self.w(k) == "'s")?;
            self.phrase(mark, "'s brakes")
        });
        let owned = |e: usize| self.phrase(e, "of|on").and_then(|f| self.plain_end(f)).unwrap_or(e);
        brakes
            .map(owned)
            .and_then(|e| {
                self.phrase(e, "is|are|being|have|has|were|been then|now|suddenly|been? applied|put on?")
                    .or_else(|| self.phrase(e, "come|comes on"))
            })
            .or_else(|| {
                self.phrase(i, "the driver|engineman|operator|brakeman|he|she then|now? applies|puts on? the|its|his|her brakes")
                    .map(owned)
            })
            .or_else(|| self.phrase(i, "the driver|engineman|operator|brakeman|he|she then|now? puts the|his|her brakes on"))
    }

    /// `... and the brakes are applied`, `and puts on the brakes`, after the engine was put off: one happening with it.
    pub(super) fn and_brakes(&self, i: usize) -> Option<usize> {
        let e = self.phrase(i, ",? and")?;
        self.brakes_on(e).or_else(|| {
            let e = self.phrase(e, "then? applies|puts on? the|its|his|her brakes")?;
            Some(self.phrase(e, "of|on").and_then(|f| self.plain_end(f)).unwrap_or(e))
        })
    }

    /// Does the story tell of a motion before this sentence: a driving force, a state?
    fn moved_before(&self) -> bool {
        let told = self
            .story
            .motions
            .iter()
            .any(|m| matches!(m.fact, Fact::State(model::State::Steady) | Fact::Acceleration { .. }));
        told || !self.forces_of(|r| r == Role::Driving).is_empty()
    }
}
