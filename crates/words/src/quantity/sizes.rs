//! The sizes of a quantity: `is 30 N`, `of 300 N and 100 N respectively`, `300 N on the car and 100 N on the trailer`.

use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::Amount;
use exact::Dimension;

impl Reader<'_> {
    /// Takes amounts that fit the sort of the mention.
    pub(super) fn take_amounts(&mut self, m: &mut Mention, at: usize) -> Option<usize> {
        if !m.amounts.is_empty() || !m.pairs.is_empty() {
            return None;
        }
        let wanted = Self::wanted(m.sort)?;
        // 0.2 N per kilogram of its mass
        if m.sort == Sort::Resistance
            && let Some((mut amount, e)) = self.amount(at, false)
        {
            if amount.dimension == Some(Dimension::ACCELERATION)
                && (amount.written.contains("kg")
                    || amount.written.contains("kilogram")
                    || amount.written.contains("tonne"))
            {
                let e = self.phrase(e, "of its|their|the? total? mass?").unwrap_or(e);
                amount.dimension = Some(Dimension::FORCE);
                m.amounts.push(amount);
                m.per_mass = true;
                let e = self
                    .phrase(e, "for|on both|each")
                    .and_then(|x| self.nps(x, false))
                    .map_or(e, |np| np.end);
                return Some(e);
            }
            if amount.dimension == Some(Dimension::FORCE)
                && let Some(e2) = self.phrase(e, "per kilogram|kg|tonne of? its|their|the? total? mass?")
            {
                let tonne = self.w(self.skip(self.skip(e) + 1)) == "tonne";
                let mut amount = amount;
                if tonne && let Some(thousandth) = exact::Rational::new(1, 1000) {
                    amount.value = &amount.value * &exact::Value::rational(thousandth);
                }
                m.amounts.push(amount);
                m.per_mass = true;
                return Some(e2);
            }
        }
        if matches!(m.sort, Sort::Resistance | Sort::Friction)
            && let Some(e) = self.fronted_pairs(m, at)
        {
            return Some(e);
        }
        let (amounts, mut end) = self.amounts(at, Some(wanted))?;
        let fits = |a: &Amount| match a.dimension {
            Some(d) => d == wanted || (m.sort == Sort::Coefficient && d == Dimension::NONE),
            None => a.value.as_rational().is_none() || m.sort == Sort::Coefficient || a.value.is_zero(),
        };
        if !amounts.iter().all(fits) {
            return None;
        }
        m.amounts = amounts;
        if let Some(e) = self.phrase(end, ",? respectively") {
            end = e;
        }
        if let Some(e) = self.phrase(end, "each") {
            end = e;
        }
        Some(end)
    }

    /// `is`, `are constant and equal to`, `has magnitude`, `are modelled as constant forces of magnitude`, `amounts to`.
    pub(crate) fn value_verb(&self, i: usize) -> Option<usize> {
        const CONSTANT: &str = "constant|constantly|uniform|steadily|always|then|now|again|each|both";
        let mut at = self
            .phrase(i, ", given by")
            .or_else(|| self.phrase(i, "is|are|was|were? found|known|observed|seen? to be"))
            .or_else(|| {
                let w = self.w(self.skip(i));
                (matches!(
                    w,
                    "is" | "are"
                        | "was"
                        | "were"
                        | "itself"
                        | "alone"
                        | "then"
                        | "being"
                        | "has"
                        | "have"
                        | "having"
                        | "amounts"
                        | "amount"
                        | "amounting"
                        | "total"
                        | "totals"
                        | "totalling"
                        | "totaling"
                        | "="
                        | "remains"
                ))
                .then(|| self.skip(i) + 1)
            })?;
        for _ in 0..8 {
            at = self.skip(at);
            let w = self.w(at);
            let filler = CONSTANT.split('|').any(|c| c == w)
                || matches!(
                    w,
                    "a" | "is"
                        | ":"
                        | "are"
                        | "and"
                        | ","
                        | "to"
                        | "of"
                        | "equal"
                        | "has"
                        | "have"
                        | "magnitude"
                        | "magnitudes"
                        | "found"
                        | "known"
                        | "be"
                        | "modelled"
                        | "modeled"
                        | "as"
                        | "forces"
                        | "force"
                        | "taken"
                        | "both"
                        | "value"
                        | "observed"
                        | "measured"
                        | "the"
                        | "size"
                        | "each"
                );
            if !filler {
                break;
            }
            at += 1;
        }
        Some(at)
    }

    /// After an amount: `300 N on the car and 100 N on the trailer`.
    pub(super) fn pair_after(&mut self, m: &mut Mention, end: usize) -> usize {
        let i = self.skip(end);
        if m.amounts.len() != 1 || !matches!(m.sort, Sort::Resistance | Sort::Friction) {
            return end;
        }
        let Some(e) = self.pair_words(i) else { return end };
        let saved = (self.latest.clone(), self.pair);
        let Some(np) = self.np(e) else { return end };
        let Ref::Bodies(b) = np.what else {
            (self.latest, self.pair) = saved;
            return end;
        };
        let [one] = b.as_slice() else {
            m.on = Some(Ref::Bodies(b));
            self.glue(end, np.end);
            return np.end;
        };
        // Only a pair if another follows.
        let mut next = self.skip(np.end);
        let mut joined = false;
        while matches!(self.w(next), "," | "and") || joined && self.w(next) == "of" {
            joined = true;
            next = self.skip(next + 1);
        }
        let more = joined
            && self.amount(next, true).is_some_and(|(a, e2)| {
                (a.dimension == Some(Dimension::FORCE) || a.value.as_rational().is_none())
                    && self.pair_words(self.skip(e2)).is_some()
            });
        if !more {
            m.on = Some(Ref::Bodies(b));
            self.glue(end, np.end);
            return np.end;
        }
        if let Some(a) = m.amounts.pop() {
            m.pairs.push((a, *one));
        }
        self.glue(end, next);
        self.more_pairs(m, next).unwrap_or(np.end)
    }

    /// Each body before its size: `: locomotive 900 N, front truck 400 N`, `on the locomotive 900 N, and on the truck 400 N`.
    fn fronted_pairs(&mut self, m: &mut Mention, at: usize) -> Option<usize> {
        let saved = (self.latest.clone(), self.pair, self.story.bodies.len());
        let mut next = self.phrase(at, ":|,").unwrap_or(at);
        let mut pairs = Vec::new();
        let mut end = at;
        for _ in 0..6 {
            let from = self.phrase(next, "on|for|of").unwrap_or(next);
            if self.tok(from).is_none_or(|t| t.number().is_some()) {
                break;
            }
            let np = self.np(from).filter(|_| self.story.bodies.len() == saved.2);
            let Some(crate::noun::Np { what: Ref::Bodies(b), end: after }) = np else { break };
            let [one] = b.as_slice() else { break };
            let sized = self.phrase(after, "is|:|,|(").unwrap_or(after);
            let Some((amount, e)) = self.amount(sized, false) else { break };
            if amount.dimension != Some(Dimension::FORCE) {
                break;
            }
            pairs.push((amount, *one));
            end = if self.w(sized.wrapping_sub(1)) == "(" { self.phrase(e, ")").unwrap_or(e) } else { e };
            let comma = self.phrase(end, ",|;").unwrap_or(end);
            next = self.phrase(comma, "and").unwrap_or(comma);
            if next == end {
                break;
            }
        }
        (self.latest, self.pair) = (saved.0, saved.1);
        if pairs.len() < 2 {
            return None;
        }
        m.pairs = pairs;
        Some(end)
    }

    fn pair_words(&self, i: usize) -> Option<usize> {
        self.phrase(i, "on|for|to")
            .map(|e| self.phrase(e, "the motion of").or_else(|| self.phrase(e, "that of")).unwrap_or(e))
            .or_else(|| self.phrase(i, "acts|act|acting on|upon"))
            .or_else(|| self.phrase(i, "to the motion of"))
    }

    pub(super) fn more_pairs(&mut self, m: &mut Mention, from: usize) -> Option<usize> {
        let mut at = from;
        let mut done = None;
        for _ in 0..8 {
            while matches!(self.w(at), "," | "and" | "of") {
                at = self.skip(at + 1);
            }
            let Some((mut amount, e)) = self.amount(at, true) else { break };
            crate::amount::settle(&mut amount, Dimension::FORCE);
            let Some(p) = self.pair_words(self.skip(e)) else { break };
            // "that of the trailer"
            let p = self.phrase(p, "that of").unwrap_or(p);
            let Some(np) = self.np(p) else { break };
            let Ref::Bodies(b) = np.what else { break };
            for &one in &b {
                m.pairs.push((amount.clone(), one));
            }
            self.glue(at, np.end);
            done = Some(np.end);
            at = self.skip(np.end);
        }
        done
    }
}
