//! Writes a situation as exam English: the way back from [`read`](crate::read).
//!
//! A question is a stem and its parts, made by one plan for all kinds: who there is and where (`scene`), what joins
//! them (`joins`), which forces act (`forces`), how they move (`motion`), and what is asked (`asks`, `journeys`).
//! Words come from a table for each voice (`voice`), the names of bodies from `names`, sizes from `amounts`.
//!
//! What is written must say the same when it is read: so every value that the situation knows is ticked off as it is
//! said, and whatever is left at the end, or has no wording, is an error and not a question. At last the text is read,
//! and given out only if it says what was to be said (`facts`).

mod amounts;
mod asks;
mod facts;
mod forces;
mod joins;
mod journeys;
mod motion;
mod names;
mod phrases;
mod scene;
mod story;
mod voice;

pub use facts::differences;
pub use voice::Voice;

use exact::Value;
use model::{Basis, Diagnostic, Kind, QuantityId, Severity, Situation, StageId, State};
use names::Name;
use std::collections::{BTreeMap, BTreeSet};

/// What a writing step gives: something, or why it cannot be said.
type Said<T> = Result<T, Diagnostic>;

/// Writes a situation as an exam question, in the voice of British or of international examinations.
///
/// ```
/// use model::{Builder, Form, Line, State};
/// use words::{Voice, write};
///
/// let mut b = Builder::new();
/// let p = b.body("bucket P", "P", Form::Load, Line::Vertical, Some(5.into()));
/// let q = b.body("bucket Q", "Q", Form::Load, Line::Vertical, Some(3.into()));
/// let string = b.over_pulley("the string", p, q);
/// let stage = b.stage(State::Released);
/// b.ask_acceleration("a", stage, p);
/// b.ask_link("b", stage, string);
///
/// let text = write(&b.finish(), Voice::British)?;
/// assert!(text.contains("A bucket P of mass 5 kg hangs freely."), "{text}");
/// assert!(text.contains("(b) Find the tension in the string."), "{text}");
/// # Ok::<(), model::Diagnostic>(())
/// ```
///
/// # Errors
/// A [`Diagnostic`] that says what cannot be put into words: what has no wording that [`read`](crate::read) would
/// read as the same is not written at all.
pub fn write(situation: &Situation, voice: Voice) -> Result<String, Diagnostic> {
    let mut writer = Writer::new(situation, voice)?;
    let text = writer.question()?;
    writer.all_is_said()?;
    proved(situation, text)
}

/// The text, if reading it gives the situation again.
fn proved(situation: &Situation, text: String) -> Said<String> {
    let reading = crate::read(&text);
    if let Some(d) = reading.diagnostics.iter().find(|d| d.severity == Severity::Error) {
        let at: Vec<&str> = d.spans.iter().map(|s| s.of(&text)).collect();
        return Err(cannot(format!("{} [{}]", d.message, at.join(", "))));
    }
    match differences(situation, &reading.situation).into_iter().next() {
        Some(difference) => Err(cannot(format!("its wording would be read otherwise ({difference})"))),
        None => Ok(text),
    }
}

/// A question in the making.
struct Writer<'a> {
    s: &'a Situation,
    voice: Voice,
    names: Vec<Name>,
    /// What is called by a letter because its value is not known.
    letters: BTreeMap<QuantityId, String>,
    /// What has been said.
    said: BTreeSet<QuantityId>,
    /// g stands as a letter, and nothing has said so yet.
    gravity_in_letters: bool,
    /// Relations that have been said, by number.
    related: BTreeSet<usize>,
}

/// Why something is not written.
fn cannot(what: impl std::fmt::Display) -> Diagnostic {
    Diagnostic {
        severity: Severity::Error,
        refusal: None,
        spans: Vec::new(),
        message: format!("this cannot be written in words yet: {what}"),
        hint: None,
        suggestions: Vec::new(),
    }
}

impl<'a> Writer<'a> {
    fn new(s: &'a Situation, voice: Voice) -> Said<Writer<'a>> {
        if let Some(unsound) = s.check().into_iter().next() {
            return Err(unsound);
        }
        let mut writer = Writer {
            s,
            voice,
            names: names::of(s),
            letters: BTreeMap::new(),
            said: BTreeSet::new(),
            gravity_in_letters: false,
            related: BTreeSet::new(),
        };
        writer.choose_letters();
        Ok(writer)
    }

    /// The stem and the parts.
    fn question(&mut self) -> Said<String> {
        let first = self.s.asks.first().filter(|_| !self.is_story()).map_or(StageId(0), |a| a.stage);
        let mut stem = self.scene(first)?;
        stem.extend(self.joins(first)?);
        stem.extend(self.rubs()?);
        stem.extend(self.gravity()?);
        stem.extend(self.forces(first)?);
        // States that are compared are told where each is asked about.
        if !self.compares() {
            stem.extend(self.motion(first)?);
            stem.extend(self.told_journeys(first)?);
        }
        match self.is_story() {
            true => stem.extend(self.events()?),
            false if self.s.stages.iter().any(|s| s.begins.is_some()) => {
                return Err(cannot("stages that branch"));
            }
            false => {}
        }
        let parts = self.parts()?;
        let gap = if parts.starts_with('(') { "\n\n" } else { " " };
        Ok(format!("{}{gap}{parts}\n", stem.join(" ")))
    }

    /// The value of g, where the question gives one.
    fn gravity(&mut self) -> Said<Option<String>> {
        let Some((id, q)) = self.s.gravity.and_then(|g| Some((g, self.s.quantity(g)?))) else {
            return Ok(None);
        };
        let Some(known) = &q.known else { return Ok(None) };
        self.said.insert(id);
        // Masses in letters leave g a letter, where it is not told.
        let letters = self.s.letters.iter().any(|l| l.kind == Kind::Mass);
        self.gravity_in_letters = !known.value.is_number() && !letters;
        if !known.value.is_number() || known.basis == Basis::Assumed && !letters {
            return Ok(None);
        }
        let size = self.size(&known.value, Kind::Gravity)?;
        Ok(Some(format!("{} g = {size}.", self.voice.words().take)))
    }

    /// Are several states compared, rather than told as a story?
    fn compares(&self) -> bool {
        self.s.stages.len() > 1 && !self.is_story()
    }

    /// Is there anything that the situation knows and the text does not say?
    fn all_is_said(&self) -> Said<()> {
        if self.gravity_in_letters {
            return Err(cannot("g as a letter"));
        }
        for (i, relation) in self.s.relations.iter().enumerate() {
            if !self.related.contains(&i) {
                return Err(cannot(&relation.name));
            }
        }
        for (i, q) in self.s.quantities.iter().enumerate() {
            let Some(known) = &q.known else { continue };
            // A letter that stands for itself.
            if known.value == Value::symbol(&q.symbol) {
                continue;
            }
            if self.said.contains(&QuantityId(i)) || self.is_plain(QuantityId(i)) || q.kind == Kind::Angle {
                continue;
            }
            return Err(cannot(format!("{} = {}", q.name, known.written)));
        }
        Ok(())
    }

    /// Does the value follow from the state of its stage, as the zero acceleration of what is at rest does?
    fn is_plain(&self, id: QuantityId) -> bool {
        let zero = self.known(id).is_some_and(|v| v.is_zero());
        zero && self.s.stages.iter().any(|stage| {
            let still = matches!(stage.state, State::AtRest | State::Limiting | State::Steady);
            still && stage.accelerations.contains(&id)
        })
    }
}
