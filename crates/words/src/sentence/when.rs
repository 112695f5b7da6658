//! How long a chapter goes on: `when P has moved 3 m`, `after 2 s`, `when its speed is 4 m s⁻¹`.

use crate::reader::Reader;
use crate::story::Fact;
use exact::Dimension;

impl Reader<'_> {
    /// `when P has moved 3 m`, `after 2 s`, `when its speed is 4 m s⁻¹`: how long the chapter goes on. The fact, whose
    /// it is, the place after it. In a later chapter the time must be told to count from its start.
    pub(super) fn when_clause(&mut self, i: usize) -> Option<(Fact, Vec<usize>, usize)> {
        let i = self.skip(i);
        let comma = self.phrase(i, ",").unwrap_or(i);
        let comma = self.phrase(comma, "exactly|just").unwrap_or(comma);
        // 2 s after the system is released, 3 s later
        if let Some((amount, e)) = self.amount(comma, false) {
            if amount.dimension != Some(Dimension::TIME) {
                return None;
            }
            let given = self.given(&amount);
            if let Some(e2) = self.phrase(e, "later") {
                return Some((Fact::Time(given), self.who_moves(), e2));
            }
            let e2 = self
                .phrase(e, "after|into the|its|being? release|released|start|motion|starting")
                .or_else(|| {
                    let e2 = self.phrase(e, "after")?;
                    let k = (e2..e2 + 6).find(|&k| {
                        matches!(self.w(k), "released" | "starts" | "start" | "begins" | "begin" | "release")
                    })?;
                    Some(self.phrase(k, "starts|begins|start|begin to move").unwrap_or(k + 1))
                        .map(|e| self.phrase(e, "moving").unwrap_or(e))
                        .map(|e| self.phrase(e, "from rest").unwrap_or(e))
                })?;
            return (self.chapter == 0).then(|| (Fact::Time(given), self.who_moves(), e2));
        }
        // at a speed of 8 m s⁻¹
        if let Some(k) = self.phrase(comma, "at a speed|velocity of") {
            let (amount, e) = self.amount(k, false)?;
            let given = self.given(&amount);
            return (amount.dimension == Some(Dimension::SPEED))
                .then(|| (Fact::EndSpeed(given), self.who_moves(), e));
        }
        let lead = self
            .phrase(comma, "at the instant|moment when|that")
            .or_else(|| self.phrase(comma, "at the instant|moment"))
            .or_else(|| self.phrase(comma, "as soon as"))
            .or_else(|| self.phrase(comma, "by the time that?"))
            .or_else(|| self.phrase(comma, "just? as|while|whilst"))
            .or_else(|| self.phrase(comma, "when|once|after"))?;
        let after = self.w(comma) == "after" || self.w(comma) == "once";
        let fits = |r: &Self, further: bool| r.chapter == 0 || further;
        // after 2 s, after a further 3 s, after moving 2 m, after a distance of 2 m
        let k = self
            .phrase(
                lead,
                "moving|travelling|falling|descending|sliding|rising|ascending|it|they has|have|been|moving?",
            )
            .filter(|_| after)
            .unwrap_or(lead);
        let k = self.phrase(k, "moving|travelling|falling|sliding").filter(|_| after).unwrap_or(k);
        let k = self.phrase(k, "exactly|just|only").filter(|_| after).unwrap_or(k);
        let f = self.phrase(
            k,
            "for|through|by? a|the|another? further|distance|height|time|first? distance|height|time? of?",
        );
        let further = f.is_some_and(|f| (k..f).any(|n| matches!(self.w(n), "further" | "another")));
        let k2 = f.or_else(|| self.phrase(k, "for|through|another|a")).unwrap_or(k);
        if let (true, Some((amount, e))) = (after, self.amount(k2, false)) {
            let more = further || self.w(k2.wrapping_sub(1)) == "another" || self.phrase(e, "more").is_some();
            let e = self.phrase(e, "more").unwrap_or(e);
            let given = self.given(&amount);
            let fact = match amount.dimension {
                Some(Dimension::TIME) => Fact::Time(given),
                Some(Dimension::LENGTH) => Fact::Distance(given),
                _ => return None,
            };
            let e = self.phrase(e, "of the|its|their? motion|journey").unwrap_or(e);
            return fits(self, more).then(|| (fact, self.who_moves(), e));
        }
        // when P has moved 3 m; when the speed of P is 2 m s⁻¹; when it is moving at 4 m s⁻¹
        let verb = (lead + 1..lead + 9).find(|&k| self.moved_so_far(k).is_some())?;
        let of = self.subject_before(lead, verb)?;
        let (fact, further, e) = self.moved_so_far(verb)?;
        let speed = matches!(fact, Fact::EndSpeed(_));
        (speed || fits(self, further)).then_some((fact, of, e))
    }

    /// Those named between two places: `P`, `the speed of P`, `its speed`, `they`.
    fn subject_before(&mut self, i: usize, end: usize) -> Option<Vec<usize>> {
        let mut at = i;
        if let Some(e) = self.phrase(i, "the|its|their common? speed|velocity") {
            match self.phrase(e, "of") {
                Some(e2) => at = e2,
                None => return (e == end).then(|| self.who_moves()),
            }
        }
        let what = self.known_between(at, end)?;
        self.bodies_of(Some(&what))
    }

    /// `has moved 3 m`, `has been moving for 2 s`, `is moving at 4 m s⁻¹`, `reaches 3 m s⁻¹`.
    fn moved_so_far(&mut self, i: usize) -> Option<(Fact, bool, usize)> {
        const DONE: &str = "moved|travelled|traveled|fallen|descended|risen|slid|gone|ascended|climbed";
        let e = self
            .phrase(i, &format!("has|have {DONE} through|by|for|down|up? a|another? further? distance|height? of?"))
            .or_else(|| self.phrase(i, &format!("has|have {DONE}")))
            .or_else(|| self.phrase(i, "has|have been moving|travelling|falling|sliding|in|descending motion? for? a? further? time? of?"))
            .or_else(|| self.phrase(i, "is|are|was moving|travelling|sliding|descending|rising|falling with|at a? speed|velocity? of?"))
            .or_else(|| self.phrase(i, "is|are|reaches|reach|has|have|has|becomes|attains reached|attained|acquired? a? speed|velocity? of?"))?;
        let further = (i..e).any(|k| matches!(self.w(k), "further" | "another"));
        let (amount, e) = self.amount(e, false)?;
        let given = self.given(&amount);
        let fact = match amount.dimension? {
            Dimension::TIME => Fact::Time(given),
            Dimension::LENGTH => Fact::Distance(given),
            Dimension::SPEED => Fact::EndSpeed(given),
            _ => return None,
        };
        let e = self.phrase(e, "down|up the slope|plane|ramp|slipway").unwrap_or(e);
        Some((fact, further, e))
    }

    pub(super) fn who_moves(&self) -> Vec<usize> {
        if self.subject.is_empty() { (0..self.story.bodies.len()).collect() } else { self.subject.clone() }
    }
}
