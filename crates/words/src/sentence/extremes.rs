//! Greatest and least values: `the greatest value of P for which the block remains at rest`, `the least force that will
//! prevent the crate from sliding down`.

use crate::amount::plain_index;
use crate::reader::Reader;
use crate::story::{Fact, Target, Way};
use model::{Role, State};

/// Does the named force win at the value asked for, or lose?
#[derive(Clone, Copy, PartialEq, Eq)]
enum Wins {
    With,
    Against,
}

const EXTREME: &str = "greatest|largest|maximum|least|smallest|minimum";

impl Reader<'_> {
    /// At its greatest or least value a force is about to win, or about to lose: friction is at its limit.
    pub(super) fn extreme_ask(&mut self, i: usize) -> Option<usize> {
        if let Some((least, letter, after)) = self.extreme_letter(i) {
            let (stays, end) = self.stays_or_moves(after)?;
            let wins = Self::outcome(least, stays)?;
            let (of, way) = self.way_of_letter(&letter, wins)?;
            self.asking = true;
            self.push_ask(Target::Letter(letter), i, end);
            self.about_to(of, way, i, end);
            return Some(end);
        }
        let e = self.phrase(i, &format!("the {EXTREME} possible?"))?;
        let least = self.least_said(i, e);
        // The least force that will move it.
        let mut m = self.quantity_head(e)?;
        if m.sort != crate::quantity::Sort::PlainForce || m.plural {
            return None;
        }
        let e = m.head_end;
        m.indefinite = false;
        let e = self.posts(&mut m, e);
        let e = self.phrase(e, ",").unwrap_or(e);
        let on = self.bodies_of(m.on.as_ref()).unwrap_or_else(|| (0..self.story.bodies.len()).collect());
        let [body] = on.as_slice() else { return None };
        let body = *body;
        let (stays, end) = self.stays_or_moves(e)?;
        let wins = Self::outcome(least, stays)?;
        if self.story.forces.iter().any(|f| f.role == Role::Applied) || m.lean.is_some() {
            return None;
        }
        let sloping = self.stands_on_slope(body);
        if sloping && !matches!(m.way, Some(Way::UpSlope)) {
            return None;
        }
        let span = self.span(i, end);
        let f = self.force_on(Role::Applied, Some(body), span);
        self.describe_force(f, &m, m.way);
        self.push_ask(Target::Force(f), i, end);
        let way = if !sloping {
            if wins == Wins::Against {
                return None;
            }
            None
        } else if wins == Wins::With {
            Some(Way::UpSlope)
        } else {
            Some(Way::DownSlope)
        };
        self.about_to(vec![body], way, i, end);
        Some(end)
    }

    /// `the greatest value of P`, `the greatest value that P can have`, `the maximum P`, `how large can P be`: is it the
    /// least, the letter, and the place after.
    fn extreme_letter(&self, i: usize) -> Option<(bool, String, usize)> {
        let letter_at = |e: usize| {
            let t = self.tok(self.skip(e)).filter(|t| t.letter().is_some() && !t.is("a"))?;
            Some((plain_index(&t.text), self.skip(e) + 1))
        };
        let can_be = |e: usize| self.phrase(e, "that|which? can|may|could have|take|be");
        if let Some(e) = self.phrase(i, "how large|great|big|small can|may|could|must|should") {
            let (letter, after) = letter_at(e)?;
            let after = self.phrase(after, "be|become|get")?;
            let least = (i..e).any(|k| self.w(k) == "small");
            return Some((least, letter, after));
        }
        let e = self.phrase(i, &format!("the {EXTREME} possible?"))?;
        let least = self.least_said(i, e);
        if let Some(e) = self.phrase(e, "possible? value|magnitude of the? force?") {
            let (letter, after) = letter_at(e)?;
            return Some((least, letter, can_be(after).unwrap_or(after)));
        }
        if let Some(e) = self.phrase(e, "possible? value that|which?") {
            let (letter, after) = letter_at(e)?;
            return Some((least, letter, self.phrase(after, "can|may|could have|take|be")?));
        }
        let (letter, after) = letter_at(e)?;
        Some((least, letter, can_be(after).unwrap_or(after)))
    }

    fn least_said(&self, a: usize, b: usize) -> bool {
        (a..b).any(|k| matches!(self.w(k), "least" | "smallest" | "minimum"))
    }

    fn outcome(least: bool, stays: bool) -> Option<Wins> {
        match (least, stays) {
            (false, true) | (true, false) => Some(Wins::With),
            (true, true) => Some(Wins::Against),
            (false, false) => None,
        }
    }

    /// `for which the block remains at rest` (true), `that will move the box` (false), and the place after.
    pub(super) fn stays_or_moves(&mut self, i: usize) -> Option<(bool, usize)> {
        let e = self
            .phrase(i, "for which|when")
            .or_else(|| self.phrase(i, "such|so that"))
            .or_else(|| self.phrase(i, "if|that|which|needed|required|necessary"))
            .unwrap_or(i);
        let e = self.phrase(e, "is|required|needed|necessary").unwrap_or(e);
        let e = self.phrase(e, "will|would|can|must|to").unwrap_or(e);
        let e = self.phrase(e, "just").unwrap_or(e);
        const MOVE: &str = "move|moving|slide|sliding|slip|slipping";
        // Before the block moves, without the block moving
        if let Some(v) = self.phrase(e, "before|without") {
            let np = self.nps(v, false)?;
            let v = self.phrase(np.end, "starts|begins|starting|beginning to?").unwrap_or(np.end);
            let end = self.phrase(v, "moves|slides|slips|move|slide|slip|moving|sliding|slipping")?;
            return Some((true, self.way(end).map_or(end, |w| w.1)));
        }
        // For what values does the block stay at rest?
        let e = self.phrase(e, "does|do").unwrap_or(e);
        // prevent the crate from sliding down, keep the block at rest, move the box
        if let Some(v) = self.phrase(e, "prevent|stop|prevents|stops") {
            let np = self.np(v)?;
            let end = self.phrase(np.end, &format!("from? {MOVE}"))?;
            let end = self.way(end).map_or(end, |w| w.1);
            return Some((true, end));
        }
        if let Some(v) = self.phrase(e, "keep|hold|maintain|keeps|holds") {
            let np = self.np(v)?;
            return Some((true, self.still(np.end)?));
        }
        // That will not move the block
        if let Some(v) = self.phrase(e, "not move|start|shift") {
            let np = self.np(v)?;
            return Some((true, self.phrase(np.end, "moving|sliding").unwrap_or(np.end)));
        }
        if let Some(v) = self.phrase(e, "move|start|shift|moves|starts") {
            let np = self.np(v)?;
            let end = self.phrase(np.end, "moving|sliding").unwrap_or(np.end);
            return Some((false, end));
        }
        let np = self.nps(e, false)?;
        let mut verb = np.end;
        for _ in 0..3 {
            verb = self.phrase(verb, "will|can|is|are|to|must|should").unwrap_or(verb);
        }
        if let Some(e) =
            self.phrase(verb, "remains|remain|stays|stay|be|rests|rest|is|are?").and_then(|v| self.still(v))
        {
            return Some((true, e));
        }
        if let Some(e) = self.phrase(np.end, &format!("does|do|will|is|must|should not to? {MOVE}")) {
            return Some((true, e));
        }
        if let Some(e) =
            self.phrase(verb, "moves|move|slides|slips|begins|starts").filter(|_| !self.negated(np.end))
        {
            let end = self.phrase(e, "to move|slide|slip").unwrap_or(e);
            return Some((false, end));
        }
        None
    }

    fn negated(&self, i: usize) -> bool {
        (i..i + 3).any(|k| matches!(self.w(k), "not" | "never"))
    }

    fn still(&self, i: usize) -> Option<usize> {
        let e = self
            .phrase(i, "in limiting? equilibrium")
            .or_else(|| self.phrase(i, "at rest"))
            .or_else(|| self.phrase(i, "stationary|still"))?;
        Some(self.phrase(e, "on the plane|slope|table|floor|ramp|slipway").unwrap_or(e))
    }

    fn stands_on_slope(&self, body: usize) -> bool {
        let on = self.story.bodies.get(body).and_then(|b| b.on);
        let sloping = |s: usize| self.story.surfaces.get(s).is_some_and(|s| s.slopes || s.slope.is_some());
        match on {
            Some(crate::story::On::Surface(s)) => sloping(s),
            _ => (0..self.story.surfaces.len()).any(sloping),
        }
    }

    /// Which body a letter's force or weight is about to move, and which way.
    fn way_of_letter(&self, letter: &str, wins: Wins) -> Option<(Vec<usize>, Option<Way>)> {
        let with = wins == Wins::With;
        let force = self.story.forces.iter().find(|f| {
            f.letter.as_deref() == Some(letter)
                || f.size.as_ref().is_some_and(|g| g.value == exact::Value::symbol(letter))
        });
        if let Some(f) = force {
            let body = f.on?;
            if !self.stands_on_slope(body) {
                return with.then_some((vec![body], None));
            }
            let up = match f.way {
                Some(Way::UpSlope) => true,
                Some(Way::DownSlope) => false,
                None if f.level == Some(true) || f.lean.is_some() => true,
                _ => return None,
            };
            return Some((vec![body], Some(if up == with { Way::UpSlope } else { Way::DownSlope })));
        }
        let hung = self.story.bodies.iter().position(|b| {
            b.hangs && b.mass.as_ref().is_some_and(|m| m.value == exact::Value::symbol(letter))
        })?;
        Some((vec![hung], Some(if with { Way::Down } else { Way::Up })))
    }

    fn about_to(&mut self, of: Vec<usize>, way: Option<Way>, a: usize, b: usize) {
        let span = self.span(a, b);
        self.fact(of.clone(), span, Fact::State(State::Limiting));
        if let Some(way) = way {
            self.fact(of, span, Fact::Heading(way));
        }
    }
}
