//! What belongs to a quantity after its head: whose it is, its way, its size.

use crate::amount::plain_index;
use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::{Fact, Way};

impl Reader<'_> {
    /// One thing after the head of a mention: a preposition with its object, a verb with its amount.
    pub(super) fn post(&mut self, m: &mut Mention, at: usize) -> Option<usize> {
        let i = self.skip(at);
        let w = self.w(i);
        let is_value_free = m.amounts.is_empty() && m.pairs.is_empty();
        if let Some(e) =
            self.phrase(i, ",? other than that|those|gravity|its? due? to? gravity|its|their? weight? ,?")
        {
            self.told(i, e, "the weight is counted by itself");
            return Some(e);
        }
        if m.sort == Sort::PlainForce
            && m.on.is_none()
            && !self.asking
            && matches!(w, "pulls" | "drags" | "draws" | "hauls")
        {
            let np = self.np(i + 1)?;
            if !matches!(np.what, Ref::Bodies(_)) {
                return None;
            }
            self.glue(i, np.end);
            m.on = Some(np.what);
            if let Some((way, e)) = self.way(np.end) {
                m.way = Some(way);
                return Some(e);
            }
            return Some(np.end);
        }
        if let (true, Some(e)) = (
            m.on.is_none() && matches!(m.sort, Sort::PlainForce | Sort::Resistance),
            self.phrase(i, "which|that"),
        ) && matches!(self.w(e), "is" | "acts" | "are" | "act")
            && let Some(end) = self.acting(m, e)
        {
            return Some(end);
        }
        if m.sort == Sort::Mass
            && m.of.is_some()
            && let Some(e) =
                self.phrase(i, ",? including|with|plus").or_else(|| self.phrase(i, ",? together with"))
            && let Some(np) = self.nps(e, true)
            && let (Ref::Bodies(more), Some(Ref::Bodies(of))) = (np.what, m.of.as_mut())
        {
            of.extend(more);
            m.total = true;
            let e2 = self.phrase(np.end, "and the scale|equipment|contents").unwrap_or(np.end);
            return Some(self.phrase(e2, ",").unwrap_or(e2));
        }
        if m.sort == Sort::Coefficient
            && let Some(e) = self.parties(m, i)
        {
            return Some(e);
        }
        // "friction between the crate and the bench has a coefficient of 0.4"
        if m.sort == Sort::Friction
            && !self.asking
            && let Some(e) = self.phrase(i, ",? has|have|with|acts|of with? a|the? coefficient|coefficients")
        {
            m.sort = Sort::Coefficient;
            let e = self.phrase(e, "of|is|=|equal? to?").unwrap_or(e);
            return self.take_amounts(m, e);
        }
        if m.sort == Sort::Mass && w == "without" {
            let np = self.nps(i + 1, true)?;
            self.told(i, np.end, "by itself");
            return Some(np.end);
        }
        if let Some(e) = self
            .phrase(i, "from|due non-gravitational forces|sources")
            .or_else(|| self.phrase(i, "of|due to? non-gravitational origin|forces"))
        {
            return Some(e);
        }
        if m.plural && m.opposed.is_none() {
            if let Some(e) = self.phrase(i, ",? both? acting? in the same direction") {
                m.opposed = Some(false);
                return Some(e);
            }
            if let Some(e) = self
                .phrase(i, ",? both? acting? in opposite directions")
                .or_else(|| self.phrase(i, ",? acting? in the opposite directions"))
            {
                m.opposed = Some(true);
                return Some(e);
            }
        }
        if let Some(e) =
            self.phrase(i, "and parallel to it|the plane|slope|ramp?").filter(|_| m.way.is_some())
        {
            return Some(e);
        }
        if m.lean.is_none()
            && matches!(m.sort, Sort::PlainForce | Sort::Force(model::Role::Applied))
            && let Some((lean, e)) = self.lean(i)
        {
            m.lean = Some(lean);
            return Some(e);
        }
        // The tension, T newtons, in the string
        if m.letter.is_none()
            && is_value_free
            && self.asking
            && w == ","
            && let Some(t) = self
                .tok(self.skip(i + 1))
                .filter(|t| t.letter().is_some() && self.by_label(&t.text).is_none())
        {
            let at = self.skip(i + 1) + 1;
            let e = self.unit(at).map_or(at, |u| u.2);
            if let Some(e) = self.phrase(e, ",") {
                m.letter = Some(plain_index(&t.text));
                return Some(e);
            }
        }
        // , of magnitude 32 N,
        if w == "," {
            let next = self.skip(i + 1);
            if is_value_free && matches!(self.w(next), "of" | "equal") {
                let end = self.post(m, next)?;
                return if m.amounts.is_empty() {
                    None
                } else {
                    Some(if self.w(self.skip(end)) == "," { self.skip(end) + 1 } else { end })
                };
            }
            if (matches!(self.w(next), "directed") || self.phrase(next, "in the direction").is_some())
                && m.way.is_none()
            {
                let (way, end) = self.way(next)?;
                m.way = Some(way);
                return Some(end);
            }
            if matches!(self.w(next), "acting" | "exerted" | "applied" | "parallel") {
                let end = self.post(m, next)?;
                return Some(if self.w(self.skip(end)) == "," { self.skip(end) + 1 } else { end });
            }
            // 500 N on the car, 300 N on the trailer
            if !m.pairs.is_empty() {
                return self.more_pairs(m, next);
            }
            return None;
        }
        if let Some(e) = self.phrase(i, "of magnitude|magnitudes|size|strength") {
            return self.take_amounts(m, e);
        }
        if let Some(e) = self.phrase(i, "equal to") {
            return self.take_amounts(m, e);
        }
        if w == "of" {
            let numbers_only = self.asking && self.tok(self.skip(i + 1)).is_none_or(|t| t.number().is_none());
            if let Some(e) = if numbers_only { None } else { self.take_amounts(m, i + 1) } {
                return Some(self.pair_after(m, e));
            }
            if m.of.is_none() && m.sort != Sort::Coefficient {
                return self.object(m, i + 1, |m, r| m.of = Some(r));
            }
            return None;
        }
        if let Some(e) = self
            .phrase(i, "to the|their|its motion of")
            .or_else(|| self.phrase(i, "to motion of|for|on"))
            .or_else(|| self.phrase(i, "to the movement of"))
        {
            if self.w(e.wrapping_sub(1)) == "of"
                && is_value_free
                && let Some(end) = self.take_amounts(m, e)
            {
                m.opposing = true;
                return Some(self.pair_after(m, end));
            }
            return self.object(m, e, |m, r| m.of = Some(r));
        }
        if let Some(e) = self.phrase(i, "to the|its|their? motion") {
            m.opposing = true;
            return Some(e);
        }
        if matches!(w, "on" | "for" | "upon")
            || matches!(w, "acting" | "exerted" | "applied" | "acts" | "act" | "pushing" | "pressing")
            || (matches!(w, "is" | "are")
                && matches!(self.w(self.skip(i + 1)), "applied" | "exerted" | "acting"))
        {
            return self.acting(m, i);
        }
        if matches!(w, "in" | "within") && matches!(m.sort, Sort::Tension | Sort::PlainForce | Sort::Reaction)
        {
            return self.object(m, i + 1, |m, r| m.of = Some(r));
        }
        if w == "between" && m.sort == Sort::Time {
            return None;
        }
        if w == "between" {
            return self.between(m, i + 1);
        }
        if matches!(w, "from" | "by")
            && matches!(
                m.sort,
                Sort::Force(_)
                    | Sort::PlainForce
                    | Sort::Reaction
                    | Sort::Resultant
                    | Sort::Resistance
                    | Sort::Friction
                    | Sort::Tension
            )
            && m.by.is_none()
        {
            if let Some(e) = self.phrase(i, "from|by the? vertical? guide|guides rails?") {
                self.scene(i, e);
                return Some(e);
            }
            return self.object(m, i + 1, |m, r| m.by = Some(r));
        }
        // The force on the pulley due to the string, due to the tension in the string.
        if m.by.is_none()
            && matches!(m.sort, Sort::PlainForce | Sort::Reaction | Sort::Resultant | Sort::Tension)
            && let Some(e) = self.phrase(i, "due to")
        {
            let e = self.phrase(e, "the tension|tensions in").unwrap_or(e);
            return self.object(m, e, |m, r| m.by = Some(r));
        }
        // The force transmitted by the tow-bar
        if m.of.is_none()
            && matches!(m.sort, Sort::PlainForce)
            && let Some(e) = self.phrase(i, "transmitted by|through|in|along")
        {
            return self.object(m, e, |m, r| m.of = Some(r));
        }
        if (matches!(w, "that" | "which" | "with" | "at" | "the")
            || self.asking && m.on.is_none() && m.of.is_none() && self.body_starts(i))
            && m.by.is_none()
            && self.exerted_clause(m, i).is_some()
        {
            return self.exerted_clause(m, i);
        }
        if matches!(m.sort, Sort::Reaction | Sort::PlainForce | Sort::Friction)
            && let Some(e) = self
                .phrase(i, "perpendicular|normal|parallel to")
                .or_else(|| self.phrase(i, "at right angles to"))
            && let Some(np) = self.np(e)
            && matches!(np.what, Ref::Surface(_) | Ref::Floor(_))
        {
            if self.w(i) != "parallel" {
                m.sort = if m.sort == Sort::PlainForce { Sort::Reaction } else { m.sort };
            }
            return Some(np.end);
        }
        if matches!(m.sort, Sort::Acceleration { .. })
            && let Some(e) = self.phrase(i, "that|which results|result|is? produced?")
        {
            return Some(e);
        }
        if matches!(m.sort, Sort::Acceleration { .. } | Sort::Speed)
            && let Some(e) = self.phrase(i, "produced|acquired|attained|gained|reached")
        {
            return Some(e);
        }
        if matches!(m.sort, Sort::Acceleration { .. })
            && let Some(e) = self.phrase(i, "with|at which")
        {
            let np = self.nps(e, false)?;
            let e2 = self.phrase(np.end, "will|then? descends|rises|moves|falls|ascends|slides|descend|rise|move|fall|ascend|slide|travel|travels|accelerate|accelerates")?;
            let own = match self.w(e2.wrapping_sub(1)) {
                "descends" | "falls" | "descend" | "fall" => Some(Way::Down),
                "rises" | "ascends" | "rise" | "ascend" => Some(Way::Up),
                _ => None,
            };
            if let (Ref::Bodies(b), Some(way)) = (&np.what, own) {
                let span = self.span(i, e2);
                self.story.claims.push((b.clone(), Fact::Heading(way), self.part, span));
            }
            self.glue(i, e2);
            m.of = Some(np.what);
            return Some(e2);
        }
        if matches!(m.sort, Sort::Distance | Sort::Speed) && w == "by" && m.of.is_none() && self.asking {
            return self.object(m, i + 1, |m, r| m.of = Some(r));
        }
        if m.sort == Sort::Distance {
            if let Some(e) = self
                .phrase(i, "travelled|traveled|moved|covered|descended|fallen|risen|ascended|gone|slid")
                .or_else(|| self.phrase(i, "of descent|ascent|travel"))
            {
                return Some(e);
            }
            let plain = self.body_starts(i) && m.of.is_none() && self.asking;
            if let Some(e) = self.phrase(i, "through|over|that|by which?").or(plain.then_some(i)) {
                if let Some(np) = self.nps(e, false)
                    && let (Ref::Bodies(_) | Ref::System, Some(e2)) = (&np.what, self.phrase(np.end, "has|have|will? falls|fall|moves|move|descends|descend|rises|rise|travels|travel|slides|slide|fallen|moved|descended|risen|travelled")) {
                        m.of = Some(np.what);
                        return Some(e2);
                    }
                return None;
            }
        }
        if m.sort == Sort::Time {
            if let Some(e) = self
                .phrase(i, "taken|required|needed|elapsed|elapsing")
                .or_else(|| self.phrase(i, "which|that elapses|passes|elapsed"))
            {
                return Some(e);
            }
            if matches!(w, "for" | "by") && m.of.is_none() {
                return self.object(m, i + 1, |m, r| m.of = Some(r));
            }
            if self.phrase(i, "it|they takes|take").is_some() {
                return self.phrase(i, "it|they takes|take");
            }
            if self.asking
                && m.of.is_none()
                && (i + 1..i + 6).any(|k| matches!(self.w(k), "takes" | "take"))
                && let Some(np) = self.nps(i, false)
                && let Some(e) = self.phrase(np.end, "will? takes|take")
            {
                m.of = Some(np.what);
                return Some(e);
            }
        }
        if let Some(e) = self.phrase(i, "that|which? would|is|will? be? required|needed") {
            return Some(e);
        }
        if let Some(e) = self
            .phrase(
                i,
                "experienced|encountered|met|felt|produced|provided|developed|supplied|generated|required by",
            )
            .filter(|_| m.of.is_none())
        {
            return self.object(m, e, |m, r| m.of = Some(r));
        }
        // A verb with the value: is, are, has magnitude, are constant and equal to, are modelled as forces of magnitude.
        if is_value_free
            && !self.asking
            && let Some(e) = self.value_verb(i)
            && let Some(end) = self.take_amounts(m, e)
        {
            return Some(self.pair_after(m, end));
        }
        if matches!(w, "opposes" | "oppose" | "opposing" | "resists" | "resisting") {
            m.opposing = true;
            if let Some(e) =
                self.phrase(i, "opposes|oppose|opposing|resists|resisting the|its|their motion of")
            {
                return self.object(m, e, |m, r| m.of = Some(r));
            }
            return self
                .phrase(i, "opposes|oppose|opposing|resists|resisting the|its|their|this? motion|movement");
        }
        if let Some(e) = self.phrase(i, "parallel to the road|plane|slope|rails|slipway|track|ramp|table|ground|hill|surface|floor|direction") {
            return Some(e);
        }
        if let Some(e) = self
            .phrase(i, "parallel to a|the line|lines of greatest slope of? the? plane|slope|ramp|slipway?")
        {
            return Some(e);
        }
        if m.letter.is_none() && is_value_free {
            // "a horizontal force F", "tension T newtons", "the normal reaction R": a letter for it.
            if let Some(t) = self.tok(i) {
                if t.letter().is_some_and(|c| !matches!(c, 'a' | 'I'))
                    && !matches!(m.sort, Sort::Mass)
                    && (t.text != "A" || m.sort != Sort::PlainForce)
                {
                    let (amount, e) = self.amount(i, true)?;
                    if amount.value.as_rational().is_none() {
                        m.letter = Some(plain_index(&t.text));
                        // "a force P = 50 N", "the tension T of 50 N": the letter and its size.
                        let sized = self.phrase(e, "=|of").filter(|_| !self.asking);
                        if let Some(end) = sized.and_then(|at| self.take_amounts(m, at)) {
                            return Some(end);
                        }
                        m.amounts.push(amount);
                        return Some(e);
                    }
                }
                if t.number().is_some()
                    && matches!(
                        m.sort,
                        Sort::Acceleration { .. }
                            | Sort::Speed
                            | Sort::Coefficient
                            | Sort::Resistance
                            | Sort::Tension
                    )
                {
                    return self.take_amounts(m, i);
                }
            }
        }
        let and = self.phrase(i, "and").filter(|_| m.lean.is_some() && m.way.is_none()).unwrap_or(i);
        if let Some((way, e)) = self.way(and)
            && matches!(
                m.sort,
                Sort::Acceleration { .. }
                    | Sort::Force(_)
                    | Sort::PlainForce
                    | Sort::Tension
                    | Sort::Reaction
            )
        {
            m.way = Some(way);
            return Some(e);
        }
        None
    }
}
