//! The head of a quantity phrase: `a constant 200-N frictional force`, `the lift's acceleration`.

use crate::quantity::coefficient::slides;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::Way;
use exact::Dimension;
use model::Role;

impl Reader<'_> {
    /// The head of a quantity phrase: its sort, adjectives and the place after the head noun.
    pub(crate) fn quantity_head(&self, i: usize) -> Option<Mention> {
        let mut at = self.skip(i);
        let start = at;
        let mut m =
            Mention { indefinite: matches!(self.w(at), "a" | "an" | "another"), ..Mention::blank(start) };
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
                | "actual" | "additional" | "extra" | "net" | "possible" | "corresponding" | "same"
                | "new" | "respective" | "single" | "total" | "combined" | "final" | "maximum"
                | "greatest" | "largest" | "further" | "limiting" | "max" | "least" | "minimum"
                | "overall" => {
                    m.total |= matches!(w, "total" | "combined");
                    m.further |= matches!(w, "further" | "extra" | "additional");
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
                "driving" | "tractive" | "propulsive" | "propelling" | "engine" | "motive" => {
                    role = Some(Role::Driving)
                }
                "braking" | "brake" => role = Some(Role::Braking),
                "pulling" | "pushing" => {
                    m.pulls = Some(w == "pulling");
                    role = Some(Role::Applied);
                }
                "applied" => role = Some(Role::Applied),
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
                "μ" | "mu" | "μ_s" | "mu_s" | "μ_k" | "mu_k" | "μ_d" => {
                    if !matches!(self.w(self.skip(at + 1)), "=" | "is") {
                        return None;
                    }
                    m.sort = Sort::Coefficient;
                    m.sliding = match w {
                        "μ_s" | "mu_s" => Some(false),
                        "μ" | "mu" => None,
                        _ => Some(true),
                    };
                    m.head_end = at + 1;
                    m.end = at + 1;
                    return Some(m);
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
                            if !many && w != "force" {
                                m.pulls = Some(w == "pull");
                            }
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
            let e = self.phrase(at, "of kinetic|static|sliding|dynamic|limiting? friction")?;
            m.sliding = (start..e).find_map(|k| slides(self.w(k)));
            at = e;
            // "the coefficient of friction μ is 0.25": the letter is its usual one.
            if matches!(self.w(at), "μ" | "mu") {
                at += 1;
            } else if let Some(e) = self.phrase(at, ", μ|mu ,") {
                at = e;
            }
        }
        if let Some(a) = force_amount {
            m.amounts.push(a);
        }
        m.head_end = at;
        m.end = at;
        Some(m)
    }

    /// `the lift's acceleration`, `A's speed`: the owner first.
    pub(super) fn possessive(&mut self, i: usize) -> Option<Mention> {
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
}
