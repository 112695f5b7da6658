//! Mentions of quantities: `the resistances to the motion of the car and the trailer are 300 N and 100 N`,
//! `a constant braking force of 4350 N acts on the lorry`, `the acceleration of Q`. The same phrase is a given in
//! a statement and a target in a question.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::*;
use crate::verbs::{Frame, frame};
use exact::Dimension;
use model::Role;

/// What sort of quantity a phrase names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sort {
    Mass,
    Acceleration {
        slowing: bool,
    },
    Tension,
    Reaction,
    Friction,
    Force(Role),
    /// "the force": which one, its place in the sentence tells.
    PlainForce,
    Resultant,
    Resistance,
    Coefficient,
    Speed,
    Distance,
    Time,
}

/// A mention of a quantity.
#[derive(Clone, Debug)]
pub(crate) struct Mention {
    pub sort: Sort,
    pub start: usize,
    pub end: usize,
    pub head_end: usize,
    pub amounts: Vec<Amount>,
    pub of: Option<Ref>,
    pub on: Option<Ref>,
    pub by: Option<Ref>,
    pub between: Vec<Ref>,
    pub pairs: Vec<(Amount, usize)>,
    pub way: Option<Way>,
    pub letter: Option<String>,
    pub greatest: bool,
    pub total: bool,
    pub start_speed: bool,
    pub per_mass: bool,
    pub plural: bool,
    pub opposing: bool,
    /// Called horizontal (true) or vertical (false).
    pub level: Option<bool>,
}

/// Can the word be part of the name of a quantity? Such a word never belongs to a body's name.
pub(crate) fn quantity_word(word: &str) -> bool {
    matches!(
        word,
        "mass"
            | "masses"
            | "acceleration"
            | "accelerations"
            | "deceleration"
            | "retardation"
            | "tension"
            | "tensions"
            | "thrust"
            | "reaction"
            | "reactions"
            | "friction"
            | "force"
            | "forces"
            | "resistance"
            | "resistances"
            | "coefficient"
            | "speed"
            | "speeds"
            | "velocity"
            | "distance"
            | "distances"
            | "magnitude"
            | "magnitudes"
            | "angle"
            | "compression"
            | "pull"
            | "frictional"
            | "tractive"
            | "resistive"
            | "braking"
            | "air"
            | "pressure"
            | "drag"
            | "resultant"
            | "resisting"
            | "retarding"
            | "time"
            | "acceleratin"
            | "slope-angle"
            | "time-taken"
            | "value"
            | "values"
    )
}

impl Reader<'_> {
    /// The head of a quantity phrase: its sort, adjectives and the place after the head noun.
    fn quantity_head(&self, i: usize) -> Option<Mention> {
        let mut at = self.skip(i);
        let start = at;
        let mut m = Mention {
            sort: Sort::Mass,
            start,
            end: start,
            head_end: start,
            amounts: Vec::new(),
            of: None,
            on: None,
            by: None,
            between: Vec::new(),
            pairs: Vec::new(),
            way: None,
            letter: None,
            greatest: false,
            total: false,
            start_speed: false,
            per_mass: false,
            plural: false,
            opposing: false,
            level: None,
        };
        let mut force_amount = None;
        let mut role: Option<Role> = None;
        let mut resultant = false;
        let mut resist = false;
        let mut rub = false;
        let mut normal = false;
        for _ in 0..14 {
            at = self.skip(at);
            let w = self.w(at);
            if let Some(t) = self.tok(at)
                && (t.number().is_some() && self.w(at + 1) == "-"
                    || t.number().is_some()
                        && self.unit(at + 1).is_some_and(|(d, _, _)| d == Dimension::FORCE))
            {
                // "a constant 200-N frictional force"
                let (amount, e) = self.amount(at, false)?;
                if amount.dimension != Some(Dimension::FORCE) || !self.tok(e).is_some_and(|t| t.is_word()) {
                    return None;
                }
                force_amount = Some(amount);
                at = e;
                continue;
            }
            match w {
                "the" | "a" | "an" | "its" | "their" | "his" | "her" | "this" | "that" | "these" | "each"
                | "any" | "both" => {}
                "unknown" | "common" | "constant" | "uniform" | "steady" | "resulting" | "initial"
                | "subsequent" | "exact" | "non-gravitational" | "non-braking" | "other" | "only"
                | "actual" | "further" | "additional" | "extra" | "net" | "possible" | "corresponding"
                | "same" | "new" | "respective" | "single" | "total" | "combined" | "final" | "maximum"
                | "greatest" | "largest" | "limiting" | "max" | "least" | "minimum" | "overall" => {
                    m.total |= matches!(w, "total" | "combined");
                    m.greatest |= matches!(w, "maximum" | "greatest" | "largest" | "limiting" | "max");
                    m.start_speed |= w == "initial";
                    if matches!(w, "least" | "minimum") {
                        return None;
                    }
                }
                "size" | "sizes" | "magnitude" | "magnitudes" | "value" | "values"
                    if self.w(self.skip(at + 1)) == "of" =>
                {
                    at = self.skip(at + 1) + 1;
                    if w.starts_with("value")
                        && self.tok(self.skip(at)).is_some_and(|t| t.letter().is_some())
                        && !matches!(self.w(self.skip(at)), "a")
                    {
                        return None;
                    }
                    continue;
                }
                "retarding"
                    if (self.lo..self.hi).any(|k| matches!(self.w(k), "brake" | "brakes" | "braking")) =>
                {
                    role = Some(Role::Braking)
                }
                "upward" | "upwards" => m.way = Some(Way::Up),
                "downward" | "downwards" => m.way = Some(Way::Down),
                "forward" | "forwards" => m.way = Some(Way::Forward),
                "backward" | "backwards" => m.way = Some(Way::Backward),
                "vertical" => m.level = Some(false),
                "horizontal" => m.level = Some(true),
                "external" | "towing" => {}
                "driving" | "tractive" | "propulsive" | "engine" | "motive" => role = Some(Role::Driving),
                "braking" | "brake" => role = Some(Role::Braking),
                "pulling" | "pushing" | "applied" => role = Some(Role::Applied),
                "frictional" => rub = true,
                "kinetic" | "static" | "sliding" | "dynamic" => {}
                "resistive" | "resisting" | "retarding" | "resistance" | "drag"
                    if matches!(self.w(self.skip(at + 1)), "force" | "forces") =>
                {
                    resist = true
                }
                "air" if matches!(self.w(self.skip(at + 1)), "resistance") => {}
                "resultant" => resultant = true,
                "normal" | "contact" | "reaction"
                    if matches!(
                        self.w(self.skip(at + 1)),
                        "reaction" | "force" | "contact" | "forces" | "reactions"
                    ) =>
                {
                    normal = true
                }
                "normal"
                    if self.w(self.skip(at + 1)).is_empty()
                        || matches!(self.w(self.skip(at + 1)), "between" | "of" | "on") =>
                {
                    normal = true
                }
                "friction" if matches!(self.w(self.skip(at + 1)), "force" | "forces") => rub = true,
                "tension" if matches!(self.w(self.skip(at + 1)), "force") => {
                    at = self.skip(at + 1);
                    m.sort = Sort::Tension;
                    at += 1;
                    break;
                }
                "" => return None,
                _ => {
                    let (sort, many) = match w {
                        "mass" => (Sort::Mass, false),
                        "masses" => (Sort::Mass, true),
                        "acceleration" => (Sort::Acceleration { slowing: false }, false),
                        "accelerations" => (Sort::Acceleration { slowing: false }, true),
                        "deceleration" | "retardation" => (Sort::Acceleration { slowing: true }, false),
                        "tension" | "thrust" | "compression" => (Sort::Tension, false),
                        "tensions" => (Sort::Tension, true),
                        "reaction" | "pressure" => (Sort::Reaction, false),
                        "reactions" => (Sort::Reaction, true),
                        "friction" => (Sort::Friction, false),
                        "resistance" => (Sort::Resistance, false),
                        "resistances" => (Sort::Resistance, true),
                        "coefficient" => (Sort::Coefficient, false),
                        "coefficients" => (Sort::Coefficient, true),
                        "speed" | "velocity" => (Sort::Speed, false),
                        "speeds" => (Sort::Speed, true),
                        "distance" | "distances" => (Sort::Distance, false),
                        "time" => (Sort::Time, false),
                        "force" | "forces" | "pull" | "push" => {
                            let many = w == "forces";
                            let of = self
                                .phrase(at + 1, "of friction")
                                .map(|_| Sort::Friction)
                                .or(self.phrase(at + 1, "of resistance").map(|_| Sort::Resistance));
                            if let Some(sort) = of {
                                m.sort = sort;
                                at += 3;
                                m.plural = many;
                                break;
                            }
                            let sort = if resist {
                                Sort::Resistance
                            } else if rub {
                                Sort::Friction
                            } else if normal {
                                Sort::Reaction
                            } else if resultant {
                                Sort::Resultant
                            } else if let Some(role) = role {
                                Sort::Force(role)
                            } else {
                                Sort::PlainForce
                            };
                            (sort, many)
                        }
                        _ => return None,
                    };
                    m.sort = sort;
                    m.plural = many;
                    at += 1;
                    break;
                }
            }
            at += 1;
            if normal
                && !matches!(self.w(self.skip(at)), "reaction" | "force" | "contact" | "forces" | "reactions")
                && matches!(self.w(at.wrapping_sub(1)), "normal")
            {
                m.sort = Sort::Reaction;
                break;
            }
        }
        if m.sort == Sort::Mass && !matches!(self.w(at.wrapping_sub(1)), "mass" | "masses") {
            return None;
        }
        if m.sort == Sort::Coefficient {
            at = self.phrase(at, "of kinetic|static|sliding|dynamic|limiting? friction")?;
        }
        if let Some(a) = force_amount {
            m.amounts.push(a);
        }
        m.head_end = at;
        m.end = at;
        Some(m)
    }

    /// A mention of a quantity at `i`, with all that belongs to it. Looks at things, creating those that
    /// the phrase introduces.
    pub(crate) fn mention(&mut self, i: usize) -> Option<Mention> {
        let mut m = match self.possessive(i) {
            Some(m) => m,
            None => self.quantity_head(i)?,
        };
        // "a mass of 3 kg" as a thing is read as a noun phrase.
        if m.sort == Sort::Mass && self.phrase(i, "the mass|masses of").is_none() && self.np_is_mass(i) {
            return None;
        }
        let start = m.head_end;
        m.end = self.posts(&mut m, start);
        if m.sort == Sort::Tension && m.between.iter().any(|r| matches!(r, Ref::Floor(_) | Ref::Surface(_))) {
            m.sort = Sort::Reaction;
        }
        Some(m)
    }

    /// All that belongs to a mention from `at` on: the place after it.
    pub(crate) fn posts(&mut self, m: &mut Mention, at: usize) -> usize {
        let mut at = at;
        for _ in 0..16 {
            match self.post(m, at) {
                Some(next) if next > at => at = next,
                _ => break,
            }
        }
        at
    }

    /// `the lift's acceleration`, `A's speed`: the owner first.
    fn possessive(&mut self, i: usize) -> Option<Mention> {
        let start = self.skip(i);
        let mark = (start + 1..start + 6).find(|&k| self.w(k) == "'s")?;
        if (start..mark).any(|k| !self.tok(k).is_some_and(|t| t.is_word())) {
            return None;
        }
        let mut m = self.quantity_head(mark + 1)?;
        let hi = std::mem::replace(&mut self.hi, mark);
        let np = self.np(start);
        self.hi = hi;
        let np = np.filter(|np| np.end == mark)?;
        self.glue(mark, mark + 1);
        m.start = start;
        m.of = Some(np.what);
        Some(m)
    }

    fn np_is_mass(&mut self, i: usize) -> bool {
        let saved_notes = self.notes.len();
        let saved =
            (self.uses.clone(), self.story.clone(), self.latest.clone(), self.pair, self.diagnostics.len());
        let is = matches!(self.np(i), Some(np) if matches!(np.what, Ref::Bodies(_)));
        self.notes.truncate(saved_notes);
        self.diagnostics.truncate(saved.4);
        (self.uses, self.story, self.latest, self.pair) = (saved.0, saved.1, saved.2, saved.3);
        is
    }

    fn wanted(sort: Sort) -> Option<Dimension> {
        Some(match sort {
            Sort::Mass => Dimension::MASS,
            Sort::Acceleration { .. } => Dimension::ACCELERATION,
            Sort::Tension
            | Sort::Reaction
            | Sort::Friction
            | Sort::Force(_)
            | Sort::PlainForce
            | Sort::Resultant
            | Sort::Resistance => Dimension::FORCE,
            Sort::Coefficient => Dimension::NONE,
            Sort::Speed => Dimension::SPEED,
            Sort::Distance => Dimension::LENGTH,
            Sort::Time => Dimension::TIME,
        })
    }

    /// Takes amounts that fit the sort of the mention.
    fn take_amounts(&mut self, m: &mut Mention, at: usize) -> Option<usize> {
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
            if let Some(e2) = self.phrase(e, "per kilogram|kg|tonne of? its|their|the? total? mass?") {
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

    /// One thing after the head of a mention: a preposition with its object, a verb with its amount.
    fn post(&mut self, m: &mut Mention, at: usize) -> Option<usize> {
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
            if matches!(self.w(next), "directed") && m.way.is_none() {
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
        if matches!(w, "that" | "which" | "with" | "at" | "the")
            && m.by.is_none()
            && self.exerted_clause(m, i).is_some()
        {
            return self.exerted_clause(m, i);
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
        if m.sort == Sort::Distance {
            if let Some(e) = self
                .phrase(i, "travelled|traveled|moved|covered|descended|fallen|risen|ascended|gone|slid")
                .or_else(|| self.phrase(i, "of descent|ascent|travel"))
            {
                return Some(e);
            }
            if let Some(e) = self.phrase(i, "through|over|that|by which?") {
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
                        m.letter = Some(crate::amount::plain_index(&t.text));
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
        if let Some((way, e)) = self.way(i)
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

    /// `acting on the car`, `is applied to C`, `exerted by P on Q`, `on the engine and the wagon respectively`.
    fn acting(&mut self, m: &mut Mention, i: usize) -> Option<usize> {
        let mut at = i;
        if matches!(self.w(at), "is" | "are") {
            at = self.skip(at + 1);
        }
        let verb =
            matches!(self.w(at), "acting" | "exerted" | "applied" | "acts" | "act" | "pushing" | "pressing");
        if verb {
            at = self.skip(at + 1);
        }
        let mut moved = verb && at > i;
        for _ in 0..4 {
            let w = self.w(at);
            if matches!(w, "on" | "upon" | "to" | "for") && (m.on.is_none()) {
                if w == "to" && !verb {
                    break;
                }
                at = self.object(m, at + 1, |m, r| m.on = Some(r))?;
                moved = true;
            } else if matches!(w, "by" | "from") && m.by.is_none() {
                at = self.object(m, at + 1, |m, r| m.by = Some(r))?;
                moved = true;
            } else if let Some(e) = self.phrase(at, "respectively|forwards|horizontally|directly|only|alone") {
                at = e;
            } else if let Some(e) = self.phrase(at, "parallel to a|the line|lines of greatest slope of? the? plane|slope|ramp|slipway?").or_else(|| self.phrase(at, "parallel to the plane|slope|ramp|slipway|road|track|rails|table|floor|ground|surface|string|rope")) {
                at = e;
                moved = true;
            } else if let Some(e) = self.phrase(at, "up this|the line|lines of? greatest? slope?") {
                m.way = Some(Way::UpSlope);
                at = e;
                moved = true;
            } else if let Some(e) = self.phrase(at, "in the line|direction of the strings|string|rope|ropes").or_else(|| self.phrase(at, "in line with the strings|string|rope")) {
                self.scene(at, e);
                at = e;
                moved = true;
            } else if let Some((way, e)) = self.way(at) {
                if !verb && m.way.is_some() {
                    break;
                }
                m.way = Some(way);
                at = e;
                moved = true;
            } else {
                break;
            }
            at = self.skip(at);
        }
        moved.then_some(at)
    }

    /// `with which the floor presses upon the foreman`, `that the slope exerts on the sled`, `which the clamp exerts on the pulley`.
    fn exerted_clause(&mut self, m: &mut Mention, i: usize) -> Option<usize> {
        if !matches!(
            m.sort,
            Sort::PlainForce | Sort::Reaction | Sort::Resultant | Sort::Friction | Sort::Tension
        ) {
            return None;
        }
        let at = self.phrase(i, "with which").or_else(|| self.phrase(i, "that|which")).unwrap_or(i);
        let by = self.np(at)?;
        let verb = self.skip(self.phrase(by.end, "must|does|then|can").unwrap_or(by.end));
        if !matches!(
            self.w(verb),
            "exerts" | "presses" | "pushes" | "exert" | "press" | "push" | "pulls" | "acts"
        ) {
            return None;
        }
        let mut on_at = self.skip(verb + 1);
        if matches!(self.w(on_at), "up" | "down" | "back") {
            on_at = self.skip(on_at + 1);
        }
        if matches!(self.w(on_at), "on" | "upon" | "against") {
            on_at = self.skip(on_at + 1);
        }
        let on = self.np(on_at)?;
        let end = self.phrase(on.end, "'s tires|tyres|wheels").unwrap_or(on.end);
        self.glue(i, end);
        if m.way == Some(Way::Forward) && matches!(by.what, Ref::Surface(_)) {
            // The road drives the car forwards: its driving force.
            m.sort = Sort::Force(Role::Driving);
        } else {
            m.by = Some(by.what);
        }
        m.on = Some(on.what);
        Some(end)
    }

    /// `between the man and the floor of the lift`, `between each block and the slipway`, `between them`.
    fn between(&mut self, m: &mut Mention, at: usize) -> Option<usize> {
        let first = self.nps(at, false)?;
        let mut end = first.end;
        m.between = vec![first.what];
        if self.w(self.skip(end)) == "and" {
            let saved = self.latest.clone();
            if let Some(second) = self.np(self.skip(end) + 1) {
                self.glue(end, second.end);
                end = second.end;
                m.between.push(second.what);
            }
            self.latest = saved;
        }
        Some(end)
    }

    fn object(&mut self, m: &mut Mention, at: usize, put: impl Fn(&mut Mention, Ref)) -> Option<usize> {
        let np = self.nps(at, !m.plural)?;
        if matches!(np.what, Ref::Thing) {
            return None;
        }
        let mut end = np.end;
        if matches!(np.what, Ref::Links(_) | Ref::Surface(_)) {
            end = self.after_np(&np.what, end);
        }
        put(m, np.what);
        if let Some(e) = self.phrase(end, "respectively") {
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
                );
            if !filler {
                break;
            }
            at += 1;
        }
        Some(at)
    }

    /// After an amount: `300 N on the car and 100 N on the trailer`.
    fn pair_after(&mut self, m: &mut Mention, end: usize) -> usize {
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

    fn pair_words(&self, i: usize) -> Option<usize> {
        self.phrase(i, "on|for|to")
            .map(|e| self.phrase(e, "the motion of").or_else(|| self.phrase(e, "that of")).unwrap_or(e))
            .or_else(|| self.phrase(i, "acts|act|acting on|upon"))
            .or_else(|| self.phrase(i, "to the motion of"))
    }

    fn more_pairs(&mut self, m: &mut Mention, from: usize) -> Option<usize> {
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

    /// A direction at `i`: `upwards`, `up the plane`, `towards the pulley`, `down the slope`.
    pub(crate) fn way(&mut self, i: usize) -> Option<(Way, usize)> {
        let mut i = self.skip(i);
        while matches!(
            self.w(i),
            "vertically" | "straight" | "directly" | "steadily" | "horizontally" | "directed"
        ) {
            i = self.skip(i + 1);
        }
        const SLOPE: &str = "plane|slope|ramp|hill|incline|slipway|road|track|line|gradient|surface|rails";
        let up = |r: &Self, word: &str| -> Option<usize> {
            let e = r.phrase(i, word)?;
            let mut at = r.skip(e);
            if !matches!(r.w(at), "the" | "a" | "an" | "this") {
                return None;
            }
            at = r.skip(at + 1);
            for _ in 0..4 {
                if SLOPE.split('|').any(|s| s == r.w(at)) {
                    return Some(at);
                }
                if crate::adjective::adjective(r.w(at)).is_none() && crate::lexicon::noun(r.w(at)).is_some() {
                    return None;
                }
                at = r.skip(at + 1);
            }
            None
        };
        for (word, way) in [("up", Way::Up), ("down", Way::Down)] {
            if let Some(e) =
                self.phrase(i, &format!("{word} a|the|its vertical? shaft|tower|face|cliff|side|well|mine"))
            {
                let e = self.phrase(e, "of the|a building|cliff|wall|quay|tower|sea-wall").unwrap_or(e);
                return Some((way, e));
            }
        }
        for (word, way) in [("up", Way::UpSlope), ("down", Way::DownSlope)] {
            if let Some(at) = up(self, word) {
                if let Some(e) = self.phrase(at, "line|lines of greatest slope") {
                    let e = self.phrase(e, "of the plane|slope|ramp|slipway").unwrap_or(e);
                    return Some((way, e));
                }
                let np = self.np(i + 1)?;
                if let Ref::Surface(s) = np.what {
                    if let Some(s) = self.story.surfaces.get_mut(s) {
                        s.slopes = true;
                    }
                    return Some((way, np.end));
                }
                return None;
            }
        }
        let w = self.w(i);
        if matches!(w, "toward" | "towards") {
            if let Some(e) = self.phrase(i, "toward|towards the pulley|peg") {
                return Some((Way::ToPulley, e));
            }
            let np = self.np(i + 1)?;
            return match np.what {
                Ref::Pulleys(_) => Some((Way::ToPulley, np.end)),
                Ref::Bodies(b) => b.first().map(|&b| (Way::Towards(b), np.end)),
                _ => None,
            };
        }
        if w == "away" && self.w(self.skip(i + 1)) == "from" {
            let np = self.np(self.skip(i + 1) + 1)?;
            return match np.what {
                Ref::Bodies(b) => b.first().map(|&b| (Way::AwayFrom(b), np.end)),
                _ => None,
            };
        }
        if let Some(e) = self.phrase(i, "in|along the direction of?") {
            // From A to B: away from A.
            if let Some(t) = self.tok(e) {
                let letters: Vec<String> = t.text.chars().map(|c| c.to_string()).collect();
                if let [a, b] = letters.as_slice()
                    && let (Some(a), Some(_)) = (self.by_label(a), self.by_label(b))
                {
                    return Some((Way::AwayFrom(a), e + 1));
                }
            }
        }
        if let Some(e) = self.phrase(i, "in the direction away from") {
            let np = self.np(e)?;
            return match np.what {
                Ref::Bodies(b) => b.first().map(|&b| (Way::AwayFrom(b), np.end)),
                _ => None,
            };
        }
        if let Some(e) = self
            .phrase(i, "in the direction of motion|travel")
            .or_else(|| self.phrase(i, "in the forward direction"))
        {
            return Some((Way::Forward, e));
        }
        let way = match w {
            "up" | "upward" | "upwards" => Way::Up,
            "down" | "downward" | "downwards" => Way::Down,
            "forward" | "forwards" => Way::Forward,
            "backward" | "backwards" => Way::Backward,
            _ => return None,
        };
        if matches!(w, "up" | "down") && frame(self.w(self.skip(i + 1))) == Some(Frame::Be) {
            return None;
        }
        Some((way, i + 1))
    }
}
