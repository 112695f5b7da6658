//! The last look over a reading: wordings that the readers may have passed over though they change the answer.
//!
//! Each guard looks at the words alone and stops the answer; none reads anything. What a guard names is taken out here
//! when a reader learns to read it.

use crate::parts::Part;
use crate::reader::Reader;
use exact::Dimension;
use model::{Diagnostic, Refusal};

impl Reader<'_> {
    /// Complaints about wordings that are not followed.
    pub(crate) fn guard(&mut self, parts: &[Part]) {
        for (n, part) in parts.iter().enumerate() {
            for sentence in &part.sentences {
                self.lo = sentence.lo;
                self.hi = sentence.hi;
                let here = self.span(sentence.lo, sentence.hi);
                for i in sentence.lo..sentence.hi {
                    // Something was asked before, in this sentence.
                    let from = self.span(i, i + 1).start;
                    let asked = |a: &crate::story::AskTold| {
                        a.part == n && here.overlaps(a.span) && a.span.start <= from
                    };
                    let asks = self.story.asks.iter().any(asked);
                    let found =
                        self.another_span(i).or_else(|| self.the_same(i)).or_else(|| self.loud(i)).or_else(
                            || self.bounded(i).or_else(|| self.after_a_break(i)).or_else(|| self.slanting(i)),
                        );
                    let found = found.or_else(|| {
                        asks.then(|| self.both_times(i).or_else(|| self.of_another(i))).flatten()
                    });
                    if let Some(end) = found {
                        let d = Diagnostic::refuse(
                            Refusal::Unread,
                            format!(
                                "\"{}\" was not understood, and may matter",
                                self.span(i, end).of(self.text)
                            ),
                        )
                        .at(self.span(i, end))
                        .hint("say it in a sentence of its own, with the body and the moment that are meant");
                        self.diagnostics.push(d);
                    }
                }
            }
        }
    }

    /// `the next 4 s`, `the following 2 s`, `0.1 s later`: measured from a moment that is not the start.
    fn another_span(&self, i: usize) -> Option<usize> {
        if !self.story.events.is_empty() {
            return None;
        }
        let long = |k: usize| {
            let (a, e) = self.amount(k, false)?;
            matches!(a.dimension, Some(Dimension::TIME | Dimension::LENGTH)).then_some(e)
        };
        if let Some(e) = self.phrase(i, "next|following").and_then(long) {
            return Some(e);
        }
        let end = long(i)?;
        self.phrase(end, "later|afterwards|after that|this")
    }

    /// `and the same on the trailer`, `the trailer has the same`.
    fn the_same(&self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "the same")?;
        // What stays the same is unchanged, and that is read.
        let before = self.w(i.checked_sub(1)?);
        if before.starts_with("stay") || before.starts_with("remain") || before == "keep" {
            return None;
        }
        let next = self.w(self.skip(e));
        matches!(next, "" | "," | "on" | "for" | "applies" | "acts" | "is" | "again").then_some(e)
    }

    /// A word that changes what it stands with, and was passed over with it: `twice the mass`, `partly rough`.
    fn loud(&self, i: usize) -> Option<usize> {
        const LOUD: [&str; 14] = [
            "twice", "double", "half", "partly", "nearly", "formerly", "hardly", "scarcely", "uphill",
            "downhill", "circular", "curved", "winding", "spiral",
        ];
        let silent = matches!(self.uses.get(i), Some(crate::reader::Use::Glue | crate::reader::Use::Scene));
        (silent && LOUD.contains(&self.w(i))).then_some(i + 1)
    }

    /// `at most 2 m s⁻²`, `more than 3 kg`: no size, but a bound.
    fn bounded(&self, i: usize) -> Option<usize> {
        let e = self
            .phrase(i, "more|less|greater|fewer than")
            .or_else(|| self.phrase(i, "nearly|roughly|approximately|over"))?;
        let silent = matches!(self.uses.get(i), Some(crate::reader::Use::Glue | crate::reader::Use::Scene));
        let (a, end) = self.amount(e, false)?;
        (silent && a.dimension.is_some()).then_some(end)
    }

    /// `its speed 1 s after the string breaks`: whose speed it then is, is not followed.
    fn after_a_break(&self, i: usize) -> Option<usize> {
        let (a, e) = self.amount(i, false)?;
        let e = self.phrase(
            e,
            "after the string|rope|cable|cord|coupling|tow-bar|rod breaks|snaps|is|has|parts|goes",
        )?;
        let speed = (self.lo..i).any(|k| matches!(self.w(k), "speed" | "velocity" | "speeds"));
        (a.dimension == Some(Dimension::TIME) && speed && self.story.bodies.len() > 1).then_some(e)
    }

    /// `the vertical distance moved`, on a slope.
    fn slanting(&self, i: usize) -> Option<usize> {
        // A lift of total mass 500 kg, with a load of its own in it: counted once or twice?
        if let Some(e) = self.phrase(
            i,
            "lift|hoist|cage|elevator|lift-cage ,? of|whose|with|has|having a? total|combined mass",
        ) {
            return (self.story.bodies.len() > 1).then_some(e);
        }
        let slopes = self.story.surfaces.iter().any(|s| s.slopes || s.slope.is_some());
        self.phrase(i, "vertical|horizontal distance|displacement|height").filter(|_| slopes)
    }

    /// `before and after`, `as it moves up and as it moves down`: two things asked in one.
    fn both_times(&self, i: usize) -> Option<usize> {
        self.phrase(i, "before this|that|it? ,? and? immediately|just? after|afterwards")
            .filter(|&e| (i..e).any(|k| self.w(k) == "and"))
            .or_else(|| self.phrase(i, "up and down"))
            .or_else(|| self.phrase(i, "moves|goes|slides|travels|moving|going up and as|when? it? moves|goes|slides|moving|going? down"))
    }

    /// `and that of B`, `and those on B`, where nothing was made of it.
    fn of_another(&self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "and that|those of|on|in")?;
        let that = self.skip(i + 1);
        let silent = matches!(self.uses.get(that), Some(crate::reader::Use::Glue | crate::reader::Use::Open));
        silent.then_some(e)
    }
}
