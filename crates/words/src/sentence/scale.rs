//! What a weighing scale reads, told or asked: the push on what stands on it.

use crate::reader::Reader;
use crate::story::{By, Target, ValueTold};
use exact::Dimension;
use model::Form;

const SCALE: &str = "scale|scales|balance|machine|dial|platform";

impl Reader<'_> {
    /// `the scale reads 835 N`, `What does the scale read?`, `the reading falls to 540 N`, `540 N is shown`.
    pub(super) fn scale(&mut self, i: usize) -> Option<usize> {
        let on = self.weighed()?;
        let target = Target::Contact { on: vec![on], by: Some(By::Floor) };
        if let Some(e) = self.scale_asked(i) {
            self.asking = true;
            self.push_ask(target, i, e);
            return Some(e);
        }
        let (at, end) = self.scale_told(i)?;
        if let Some(e) = self.phrase(at, "this|that|the same? reading|value") {
            self.scene(i, e);
            return Some(e);
        }
        let (amount, after) = self.amount(at, false)?;
        if amount.dimension != Some(Dimension::FORCE) {
            return None;
        }
        let given = self.given(&amount);
        let end = end.max(after);
        self.told(i, end, "the reading is the normal reaction");
        self.story.values.push(ValueTold { what: target, given, chapter: self.chapter });
        Some(end)
    }

    /// The one thing that stands on the scale: the only person, or else the only body besides the lift.
    fn weighed(&self) -> Option<usize> {
        let only = |fits: &dyn Fn(Form) -> bool| {
            let mut found =
                self.story.bodies.iter().enumerate().filter(|(_, b)| fits(b.form)).map(|(n, _)| n);
            found.next().filter(|_| found.next().is_none())
        };
        only(&|f| f == Form::Person).or_else(|| {
            let scale = self.toks.iter().any(|t| matches!(t.lower.as_str(), "scale" | "scales"));
            only(&|f| f != Form::Lift).filter(|_| scale)
        })
    }

    /// A question after the reading: the place after it.
    fn scale_asked(&self, i: usize) -> Option<usize> {
        let the_scale = format!("a|the|its|this|these bathroom|weighing|spring|platform? {SCALE}");
        let read = "read|show|register|indicate|record|display";
        let asked = self
            .phrase(i, "what does|do|will|would|did")
            .and_then(|e| self.phrase(e, &the_scale))
            .map(|e| self.phrase(e, "then|now").unwrap_or(e))
            .and_then(|e| self.phrase(e, read))
            .or_else(|| {
                let e = self.phrase(i, "what|which is|will|would|be|reading? the? reading|is|be|will?")?;
                (i..e).any(|k| self.w(k) == "reading").then_some(e)
            })
            .or_else(|| self.phrase(i, "what is shown|read|displayed|registered|indicated off?"))
            .or_else(|| self.phrase(i, "how many newtons are|is shown|displayed|registered|indicated"));
        let asked = asked.or_else(|| {
            let e = self.phrase(i, "the|its|what|a new? reading|readings").filter(|_| self.asking)?;
            // "the reading is 540 N" tells, whatever the sentence asks later.
            let told = (e..e + 7)
                .take_while(|&k| !matches!(self.w(k), "," | "find" | "calculate" | ""))
                .any(|k| self.tok(k).is_some_and(|t| t.number().is_some()));
            (!told).then_some(e)
        });
        let asked = asked.or_else(|| {
            let e = self.phrase(i, &the_scale).filter(|_| self.asking)?;
            self.phrase(e, "reading").or_else(|| self.phrase(e, "'s reading"))
        });
        let mut e = asked?;
        for more in [
            "which|that is|will|would be? shown|seen|given|recorded",
            "is|be shown|displayed|seen",
            "then|now|be",
        ] {
            e = self.phrase(e, more).unwrap_or(e);
        }
        let where_shown = self.phrase(e, "on|of|by|from").and_then(|e| self.phrase(e, &the_scale));
        e = where_shown.unwrap_or(e);
        Some(self.phrase(e, "in newtons|N").unwrap_or(e))
    }

    /// A reading that is told: where its size stands, and the place after what follows it.
    fn scale_told(&self, i: usize) -> Option<(usize, usize)> {
        let scale = format!("the|a|it|she|he|his|her|their bathroom|weighing|spring? {SCALE}?");
        if let Some(e) = self.phrase(i, &scale) {
            let e = self.phrase(e, ", which is calibrated|marked in newtons ,?").unwrap_or(e);
            let e = self.phrase(e, "now|then|later|first").unwrap_or(e);
            if let Some(e) = self.phrase(
                e,
                "reads|read|shows|show|registers|register|indicates|indicate a|the? steady|constant|reading? reading|force|value? of?",
            ) {
                return Some((e, e));
            }
        }
        if let Some(e) = self.phrase(i, "the|a|its|new reading|readings") {
            let mut at = self.phrase(e, "on|of the|a bathroom|weighing? scale|scales|machine").unwrap_or(e);
            for _ in 0..6 {
                let filler = "later|on|then|now|is|was|changes|falls|rises|drops|increases|decreases|goes|up|down|to|seen|be|found|becomes|become|has|had|of|a|steady|constant|noted|at|about";
                match self.phrase(at, filler) {
                    Some(next) => at = next,
                    None => break,
                }
            }
            let (_, after) = self.amount(at, false)?;
            return Some((at, self.phrase(after, "is|was? noted|shown|seen|recorded|read").unwrap_or(after)));
        }
        // 540 N is shown
        let (amount, after) = self.amount(i, false)?;
        let shown = self.phrase(after, "is|was shown|noted|read|registered|recorded|displayed off?")?;
        (amount.dimension == Some(Dimension::FORCE)).then_some((i, shown))
    }
}
