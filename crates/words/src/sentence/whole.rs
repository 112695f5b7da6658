//! A chapter asked about as a whole: `while the string is taut`, `in each stage`, `while the van is braking`.

use crate::reader::Reader;
use crate::timeline::Occurs;

impl Reader<'_> {
    /// `while the string is taut`, `in each stage`, `during the second stage of the motion`: a chapter as a whole.
    pub(super) fn chapter_asked(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.up_or_down(i) {
            return Some(e);
        }
        if self.story.events.is_empty() {
            return None;
        }
        const STAGE: &str = "stage|part|phase|stages|parts|phases|section";
        let each = self
            .phrase(i, &format!("in|during|for each|all of? the? two|three|four? {STAGE}"))
            .map(|e| self.phrase(e, "of the|its motion|journey|ascent|descent").unwrap_or(e));
        if let Some(e) = each {
            let mut when = self.pop_moments();
            when.each = true;
            self.told(i, e, "asked of each stage");
            self.put_moments(when);
            return Some(e);
        }
        let last = self.story.events.len();
        let nth = self.phrase(
            i,
            &format!("in|during|for|throughout the first|second|third|fourth|last|final|initial {STAGE}"),
        );
        let (chapter, e) = if let Some(e) = nth {
            let n = match self.w(self.skip(self.skip(i + 1) + 1)) {
                "first" | "initial" => 0,
                "second" => 1,
                "third" => 2,
                "fourth" => 3,
                _ => last,
            };
            if n > last {
                return None;
            }
            (n, self.phrase(e, "of the|its|their? motion|journey|ascent|descent").unwrap_or(e))
        } else {
            let e = self
                .phrase(i, "while|whilst|during|when the string|rope|tow-rope|cable|cord|it is|remains still? taut|intact|unbroken")
                .or_else(|| self.first_stretch(i))
                .or_else(|| self.phrase(i, "while|whilst both particles|blocks|bodies|crates|of? them? are|is still? moving|in motion?"));
            match e {
                Some(e) => (0, e),
                None => self.while_moving(i)?,
            }
        };
        let mut when = self.pop_moments();
        when.chapter = chapter;
        when.named = true;
        self.told(i, e, "the part of the motion that is asked about");
        self.put_moments(when);
        Some(e)
    }

    /// `on the way up`, `as it slides back down`, of a body that was sent up a slope by itself.
    fn up_or_down(&mut self, i: usize) -> Option<usize> {
        const GOES: &str = "is|are? then|still? moves|goes|slides|travels|moving|sliding|going|travelling|move|go|slide|runs|rises|rising|climbs|descends|descending on|back|upwards|downwards|its|the? way? up|down?";
        let body = self.sent_alone()?;
        let e = self
            .phrase(i, "on the|its way|journey back? up|down again?")
            .or_else(|| {
                self.phrase(
                    i,
                    "during|in|for the|its way|upward|downward|return? ascent|descent|motion|journey|up|down",
                )
            })
            .or_else(|| {
                let at = self.phrase(i, "while|whilst|as|during")?;
                self.phrase(self.somebody(at)?, GOES)
            })?;
        let says = |list: &[&str]| (i..e).any(|k| list.contains(&self.w(k)));
        let up = says(&["up", "upward", "upwards", "ascent", "rises", "rising", "climbs"]);
        let down = says(&["down", "downward", "downwards", "descent", "back", "return", "falls", "descends"]);
        if up == down {
            return None;
        }
        const SLOPE: &str = "plane|slope|ramp|incline|chute|slipway|hill";
        let e = self.phrase(e, &format!("the? {SLOPE}")).unwrap_or(e);
        if down {
            self.comes_back(&[body], i, e);
        }
        let rests = self.story.events.iter().position(|e| matches!(e.occurs, Occurs::Rests(_)));
        let chapter = match (down, rests) {
            (false, n) => n.unwrap_or(0),
            (true, Some(n)) => n + 1,
            (true, None) => return None,
        };
        let mut when = self.pop_moments();
        when.chapter = chapter;
        when.named = true;
        self.told(i, e, "the part of the motion that is asked about");
        self.put_moments(when);
        Some(e)
    }

    /// `during the first 10 s`, where that is what the first chapter was told to last.
    fn first_stretch(&self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "in|during|for|over|throughout the|these|this first?")?;
        let (amount, e) = self.amount(e, false)?;
        self.lasts_first(&amount).then_some(e)
    }

    /// Is this how long, or how far, the first chapter goes?
    pub(super) fn lasts_first(&self, amount: &crate::story::Amount) -> bool {
        use crate::story::Fact;
        self.story.events.first().is_some_and(|e| e.told)
            && self.story.motions.iter().filter(|m| m.chapter == 0).any(|m| match &m.fact {
                Fact::Time(g) => amount.dimension == Some(exact::Dimension::TIME) && g.value == amount.value,
                Fact::Distance(g) => {
                    amount.dimension == Some(exact::Dimension::LENGTH) && g.value == amount.value
                }
                _ => false,
            })
    }

    /// `while P is descending`, `while the van is braking`, `while the engine is working`.
    fn while_moving(&mut self, i: usize) -> Option<(usize, usize)> {
        let off = self.story.events.iter().rposition(|e| matches!(e.occurs, Occurs::Off(_)));
        if let (Some(n), Some(e)) =
            (off, self.phrase(i, "with the engine|motor|power switched|turned|shut? off"))
        {
            return Some((n + 1, e));
        }
        let at = self.phrase(i, "while|whilst|as|when")?;
        if let Some(e) = self.phrase(at, "the engine|motor|power is|are still? working|running|on|driving") {
            return Some((0, e));
        }
        let events = &self.story.events;
        if let (Some(n), Some(e)) = (off, self.phrase(at, "the engine|motor|power|steam is|are off")) {
            return Some((n + 1, e));
        }
        let ends = matches!(events.first().map(|e| &e.occurs), Some(Occurs::Off(_) | Occurs::Brakes));
        if let (true, Some(e)) = (
            ends,
            self.phrase(at, "the driving|tractive|applied|pulling|horizontal? force|pull|push acts|is|still acting|applied|acts?"),
        ) {
            return Some((0, e));
        }
        const SPEEDS: &str = "is|are still? speeding|accelerating|gathering up|speed?";
        if let (true, Some(k)) = (ends, (at + 1..at + 8).find(|&k| self.phrase(k, SPEEDS).is_some())) {
            self.somebody(at).filter(|&e| self.skip(e) == k)?;
            return Some((0, self.phrase(k, SPEEDS)?));
        }
        const BRAKING: &str = "is|are being? braking|braked|slowing|decelerating|retarding";
        const SLOWS: &str = "slows|slow|brakes|brake|decelerates|decelerate down?";
        let slowing = |r: &Self, k: usize| r.phrase(k, BRAKING).or_else(|| r.phrase(k, SLOWS));
        if let Some(k) = (at + 1..at + 8).find(|&k| slowing(self, k).is_some()) {
            let n = events.iter().rposition(|e| matches!(e.occurs, Occurs::Brakes | Occurs::Off(_)))?;
            let e = slowing(self, k)?;
            let e = self.phrase(e, "down|to").filter(|_| self.w(self.skip(e)) == "down").unwrap_or(e);
            self.known_between(at, k)
                .or_else(|| self.phrase(at, "it|they").map(|_| crate::noun::Ref::System))?;
            return Some((n + 1, e));
        }
        if let Some(e) = self.phrase(at, "the brakes are on|applied|acting") {
            let n = events.iter().position(|e| e.occurs == Occurs::Brakes)?;
            return Some((n + 1, e));
        }
        const MOVES: &str =
            "is|are still? in|coming|going? moving|descending|falling|rising|ascending|motion|down|up";
        let k = (at + 1..at + 8).find(|&k| self.phrase(k, MOVES).is_some())?;
        let e = self.phrase(k, MOVES)?;
        let of = self.known_between(at, k).and_then(|w| self.bodies_of(Some(&w)))?;
        let n = self
            .story
            .events
            .iter()
            .position(|e| matches!(&e.occurs, Occurs::Lands { body, .. } if of.contains(body)))?;
        Some((n, e))
    }
}
