//! What a weighing scale reads, told or asked: the push on the person that stands on it.

use crate::reader::Reader;
use crate::story::{By, Target, ValueTold};
use exact::Dimension;
use model::Form;

impl Reader<'_> {
    /// `the scale reads 835 N`, `What does the scale read?`, `the reading on the scale`: the push on what stands on it.
    pub(super) fn scale(&mut self, i: usize) -> Option<usize> {
        const SCALE: &str = "scale|scales|balance|machine";
        let people: Vec<usize> = self
            .story
            .bodies
            .iter()
            .enumerate()
            .filter(|(_, b)| b.form == Form::Person)
            .map(|(n, _)| n)
            .collect();
        let on = match people.as_slice() {
            [one] => vec![*one],
            _ => return None,
        };
        let target = Target::Contact { on, by: Some(By::Floor) };
        let asked = self
            .phrase(i, "what does|will|would|do the bathroom|weighing? scale|scales|machine read|show|register|indicate")
            .or_else(|| self.phrase(i, "the reading on|of the bathroom|weighing? scale|scales|machine").filter(|_| self.asking))
            .or_else(|| self.phrase(i, "the bathroom|weighing? scale|scales|machine reading|'s").and_then(|e| self.phrase(e - 1, "reading").or_else(|| self.phrase(e, "reading"))).filter(|_| self.asking));
        if let Some(e) = asked {
            self.asking = true;
            let e = self.phrase(e, "in newtons").unwrap_or(e);
            self.push_ask(target, i, e);
            return Some(e);
        }
        let mut e = self.phrase(i, &format!("the|a|it|she|he bathroom|weighing? {SCALE}?"))?;
        if let Some(e2) = self.phrase(e, ", which is calibrated|marked in newtons ,?") {
            e = e2;
        }
        let e = self.phrase(
            e,
            "reads|shows|registers|indicates a|the? steady|constant|reading? reading|force|value? of?",
        )?;
        if let Some(e2) = self.phrase(e, "this reading|value") {
            self.scene(i, e2);
            return Some(e2);
        }
        let (amount, end) = self.amount(e, false)?;
        if amount.dimension != Some(Dimension::FORCE) {
            return None;
        }
        let given = self.given(&amount);
        self.told(i, end, "the reading is the normal reaction");
        self.story.values.push(ValueTold { what: target, given, chapter: self.chapter });
        Some(end)
    }
}
