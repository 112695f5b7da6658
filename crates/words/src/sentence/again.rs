//! Facts shared out or told again of another body: `and that of B is 9 kg`, `a third of the total resistance acts on
//! the trailer`, `with the 3 kg block in the middle`.

use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::{Amount, Given, Target};
use exact::Dimension;
use exact::Value;
use model::Role;

impl Reader<'_> {
    /// `and that of B is 9 kg`, `that of the latter 10 kg`: the quantity given last, of another body.
    pub(super) fn that_of(&mut self, i: usize) -> Option<usize> {
        if self.asking {
            return self.that_asked(i);
        }
        let e = self.phrase(i, "that|those of|on|for")?;
        let last = self.last_told.clone()?;
        let np = self.nps(e, false)?;
        let mut at = self.value_verb(np.end).unwrap_or(np.end);
        if let Some(e) = self.phrase(at, ",? by|with a|an? constant? force|resistance|one? of") {
            at = e;
        }
        let mut m = Mention {
            start: i,
            head_end: at,
            end: at,
            amounts: Vec::new(),
            pairs: Vec::new(),
            letter: None,
            of: Some(np.what),
            on: None,
            by: None,
            between: Vec::new(),
            ..last
        };
        let (amount, end) = self.amount(at, true)?;
        m.amounts.push(amount);
        m.end = end;
        if self.tell(&m) {
            return Some(end);
        }
        None
    }

    /// `the tension in the string between A and B and that in the string between B and C`: asked again of another.
    fn that_asked(&mut self, i: usize) -> Option<usize> {
        let e = self
            .phrase(i, "that|those in|of|on|between|exerted")
            .or_else(|| self.phrase(i, "the one in|of|on|between"))?;
        let asked = self.story.asks.get(self.first_ask..)?.last()?;
        let sort = match asked.target {
            Target::Link(_) => Sort::Tension,
            Target::Acceleration { slowing, .. } => Sort::Acceleration { slowing },
            Target::Speed { .. } => Sort::Speed,
            Target::Distance { .. } => Sort::Distance,
            Target::Mass(_) => Sort::Mass,
            Target::Contact { .. } => Sort::Reaction,
            _ => return None,
        };
        let mut m = Mention { sort, ..Mention::blank(i) };
        let end = self.posts(&mut m, e - 1);
        m.end = end;
        (end >= e && self.ask_for(&m)).then_some(end)
    }

    /// The quantity given last, told again of another body without its name: `and the wagon one of 200 N`,
    /// `for the wagon it is 200 N`, `and one of 200 N acts on the wagon`, `and 200 N for the wagon`.
    pub(super) fn once_more(&mut self, i: usize) -> Option<usize> {
        let last = self.last_told.clone().filter(|m| !matches!(m.sort, Sort::Coefficient))?;
        let wanted = Self::wanted(last.sort)?;
        let fits = |a: &Amount| {
            a.dimension == Some(wanted) || a.dimension.is_none() && a.value.as_rational().is_none()
        };
        let saved = (self.latest.clone(), self.pair, self.story.bodies.len());
        let found = if let Some(e) = self.phrase(i, "one|another|a|the similar? of|force of?") {
            let (amount, e) = self.amount(e, true).filter(|(a, _)| fits(a))?;
            let e = self.phrase(e, "acts|acting|opposes|is? on|upon|for the? motion? of?")?;
            let np = self.nps(e, false)?;
            Some((np.what, amount, np.end))
        } else {
            let fronted = self.phrase(i, "for|on");
            let np = self.nps(fronted.unwrap_or(i), false)?;
            let at = match fronted {
                Some(_) => self.phrase(np.end, ",? it|they|this is|are")?,
                None => self
                    .phrase(np.end, "to? one|another|a|resistances|resistance of|totalling|totaling")
                    .or_else(|| self.phrase(np.end, "a|with|has|to? a? resistance|force|one of|totalling"))?,
            };
            self.amount(at, true).filter(|(a, _)| fits(a)).map(|(amount, e)| (np.what, amount, e))
        };
        let known = found.filter(|_| self.story.bodies.len() == saved.2);
        let Some((what, amount, end)) = known.filter(|(what, _, _)| matches!(what, Ref::Bodies(_))) else {
            (self.latest, self.pair) = (saved.0, saved.1);
            return None;
        };
        let mut m = Mention { amounts: vec![amount], of: Some(what), sort: last.sort, ..Mention::blank(i) };
        (m.opposing, m.way, m.sliding, m.end) = (last.opposing, last.way, last.sliding, end);
        self.tell(&m).then_some(end)
    }

    /// `The motion of the engine is opposed by a resistance of 240 N, and that of each truck by a resistance of 60 N`;
    /// `Friction opposes the motion of P with a force of 300 N, and that of Q with a force of 150 N`.
    pub(super) fn opposed(&mut self, i: usize) -> Option<usize> {
        let passive = self.phrase(i, "the motion of");
        let active = self.phrase(
            i,
            "a|constant? friction|resistance|resistances|air opposes|oppose|resists the motion of",
        );
        let mut at = passive.or(active)?;
        let mut told = None;
        for _ in 0..6 {
            let np = self.nps(at, false)?;
            let bodies = self.bodies_of(Some(&np.what))?;
            let mut k = np.end;
            if passive.is_some() {
                k = self.phrase(k, "is|are? opposed|resisted? by").or_else(|| self.phrase(k, "by"))?;
            } else {
                k = self.phrase(k, "with|by")?;
            }
            let k = self.phrase(k, "a|an|the? constant? frictional|resistive|resisting|friction? resistance|force|friction of magnitude?")?;
            let (amount, e) = self.amount(k, true)?;
            if amount.dimension.is_some_and(|d| d != Dimension::FORCE) {
                return None;
            }
            for &b in &bodies {
                let span = amount.span;
                let f = self.force_on(Role::Resistance, Some(b), span);
                let given = self.given(&amount);
                self.set_force(f, given);
            }
            let names = self.names(&bodies);
            self.told(at, e, format!("resistance on {names}: against the motion"));
            told = Some(e);
            match self.phrase(e, ",? and? that|those of") {
                Some(next) => at = next,
                None => break,
            }
        }
        let e = told?;
        self.glue(i, e);
        Some(e)
    }

    /// `80% of this resistance acts on the trailer`.
    pub(super) fn share(&mut self, i: usize) -> Option<usize> {
        let (n, e) = self.number(i)?;
        let percent =
            self.phrase(e, "%").or_else(|| self.phrase(e, "per cent")).or_else(|| self.phrase(e, "percent"));
        let e = self.phrase(percent?, "of this|the|that total? resistance acts|is acts|on? on?")?;
        let np = self.nps(e, false)?;
        let Ref::Bodies(b) = np.what else { return None };
        let &body = b.first()?;
        let span = self.span(i, np.end);
        let value = Value::rational(n.checked_div(&exact::Rational::from_int(100))?);
        let given = Given { value, span, written: format!("{n}%"), part: self.part };
        self.told(i, np.end, "this share of the resistance");
        self.story.shares.push((body, given));
        Some(np.end)
    }

    /// `with the 3 kg block in the middle`: says again what the order told.
    pub(super) fn middle(&mut self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "with")?;
        let all = self.latest.clone();
        if all.len() != 3 || !(e..e + 8).any(|k| self.w(k) == "middle") {
            return None;
        }
        let np = self.np(e)?;
        let end =
            self.phrase(np.end, "in the middle").or_else(|| self.phrase(np.end, "between the other two"))?;
        let Ref::Bodies(b) = np.what else { return None };
        self.latest.clone_from(&all);
        if b.first() != all.get(1) {
            return None;
        }
        self.told(i, end, "the order in which they stand");
        Some(end)
    }
}
