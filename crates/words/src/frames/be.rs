//! Being and having: `is at rest`, `is heavier than Q`, `the pulley is smooth`, `has a mass of 5 kg`.

use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::Fact;
use exact::Dimension;
use model::{Kind, State};

impl Reader<'_> {
    pub(super) fn be(&mut self, start: usize, at: usize, be: bool) -> Option<usize> {
        let about = self.about.clone();
        // a ramp that is 5 m long: how far there is to go
        if let (true, Some(Ref::Surface(_)), Some((amount, e))) = (be, &about, self.amount(at, false))
            && amount.dimension == Some(Dimension::LENGTH)
            && let Some(e) = self.phrase(e, "long|in? length?")
        {
            let given = self.given(&amount);
            self.clear(given, false);
            self.told(start, e, "how far it can move");
            return Some(e);
        }
        if be
            && matches!(about, Some(Ref::System))
            && self.w(at.wrapping_sub(1)) == "of"
            && let Some(e) = self.made_up(start, at)
        {
            return Some(e);
        }
        if be && let Some(e) = self.height_at(at) {
            return Some(e);
        }
        if be {
            let told = self.ordered(start, at);
            if told.is_some() {
                return told;
            }
            if matches!(about, Some(Ref::Bodies(_)))
                && let Some(e) = self.touch(at)
            {
                return Some(e);
            }
            if matches!(self.w(at), "on" | "upon")
                && matches!(about, Some(Ref::Bodies(_)))
                && (self.surface_ahead(at + 1) || self.bed_ahead(at + 1))
            {
                return self.rest(at.saturating_sub(1));
            }
            if self.phrase(at, "at rest|equilibrium on|upon|in").is_some()
                && matches!(about, Some(Ref::Bodies(_)))
            {
                return self.rest(at.saturating_sub(1));
            }
            let told = self.at_rest(start, at).or_else(|| self.compared(start, at));
            if told.is_some() {
                return told;
            }
            if matches!(about, Some(Ref::Links(_) | Ref::Ends(_) | Ref::Pulleys(_) | Ref::Surface(_))) {
                let told = self.called(start, at);
                if told.is_some() {
                    return told;
                }
            }
        }
        let bodies = self.about_bodies();
        // does not move
        if let Some(e) = self
            .phrase(at, "not move|slide|slip")
            .filter(|_| !bodies.is_empty() && (start..at).any(|k| matches!(self.w(k), "does" | "do")))
            && !self.asking
        {
            self.state(start, e, State::AtRest, "at rest: no acceleration");
            return Some(e);
        }
        if !bodies.is_empty() {
            let told = self.bodies_have(&bodies, start, at, be);
            if told.is_some() {
                return told;
            }
        }
        if let Some(Ref::Links(l)) = &about {
            // "the rope has a tension of 40 N"
            let l = l.clone();
            if matches!(self.w(start), "has" | "have") {
                if let Some(m) = self.mention(self.skip(start + 1))
                    && m.sort == Sort::Tension
                    && !m.amounts.is_empty()
                {
                    let mut m = m;
                    m.of = Some(Ref::Links(l));
                    if self.tell(&m) {
                        return Some(m.end);
                    }
                }
                if let Some(e) = self.phrase(start, "has|have negligible mass") {
                    self.told(start, e, "light: ignore its mass");
                    return Some(e);
                }
            }
        }
        None
    }

    /// A train that consists of a locomotive and two trucks: coupled in the order told.
    fn made_up(&mut self, start: usize, at: usize) -> Option<usize> {
        let np = self.nps(at, true)?;
        let Ref::Bodies(b) = np.what.clone() else { return None };
        let pairs: Vec<(usize, usize)> = b.iter().copied().zip(b.iter().copied().skip(1)).collect();
        self.tows(&pairs);
        self.told(start, at, "coupled one behind the other");
        let end = self.after_np(&np.what, np.end);
        self.set_about(Ref::System);
        Some(end)
    }

    /// `is directly above Q`, `is lower down the slope than B`: who stands in front.
    fn ordered(&mut self, start: usize, at: usize) -> Option<usize> {
        let about = self.about.clone();
        if let (Some(Ref::Bodies(b)), Some(e)) = (
            &about,
            self.phrase(at, "directly|immediately? above|below|behind")
                .or_else(|| self.phrase(at, "directly|immediately? in front of|directly? above?"))
                .or_else(|| self.phrase(at, "higher|lower up? down? the? slope|plane|slipway? than")),
        ) {
            let b = b.clone();
            let lower = (at..e).any(|k| matches!(self.w(k), "below" | "behind" | "lower"));
            if let Some(np) = self.np(e)
                && let (Ref::Bodies(o), [one]) = (&np.what, b.as_slice())
                && let [other] = o.as_slice()
            {
                let pair = if lower { (*other, *one) } else { (*one, *other) };
                self.story.order.push(pair);
                self.told(start, np.end, "the order in which they stand");
                self.latest = b;
                return Some(np.end);
            }
        }
        None
    }

    /// `is at rest`, `are in equilibrium`, `is on the point of moving`.
    fn at_rest(&mut self, start: usize, at: usize) -> Option<usize> {
        if let Some(e) = self
            .phrase(at, "at rest")
            .or_else(|| self.phrase(at, "stationary|still|motionless"))
            .or_else(|| self.phrase(at, "in equilibrium"))
        {
            if (start..e).any(|k| matches!(self.w(k), "initially" | "originally" | "first")) {
                self.tell_from_rest(start, e);
                return Some(e);
            }
            self.state(start, e, State::AtRest, "at rest: no acceleration");
            return Some(e);
        }
        if let Some(e) = self
            .phrase(at, "in limiting equilibrium")
            .or_else(|| self.phrase(at, "on|at the point of moving|slipping|sliding|motion"))
        {
            self.state(start, e, State::Limiting, "on the point of moving: friction is at its limit");
            if let Some((way, e2)) = self.way(e) {
                let (span, of) = (self.span(e, e2), self.about_bodies());
                self.told(e, e2, "which way it is about to move");
                self.fact(of, span, Fact::Heading(way));
                return Some(e2);
            }
            return Some(e);
        }
        None
    }

    /// `is heavier than P`, `is the lighter`, `is greater than that of A`.
    fn compared(&mut self, start: usize, at: usize) -> Option<usize> {
        let about = self.about.clone();
        // "is heavier than P"
        if let (Some(e), Some(Ref::Bodies(b))) = (
            self.phrase(at, "heavier|lighter|greater|less than")
                .or_else(|| self.phrase(at, "the heavier|lighter")),
            &about,
        ) {
            let heavy = matches!(self.w(at), "heavier" | "greater") || self.w(self.skip(at + 1)) == "heavier";
            let b = b.clone();
            let mut end = e;
            if let Some(np) = self.np(e) {
                end = np.end;
            }
            for x in b {
                if let Some(body) = self.story.bodies.get_mut(x) {
                    body.heavier = Some(heavy);
                }
            }
            self.told(start, end, "which is the heavier decides which way they move");
            return Some(end);
        }
        // "that of B is greater": the same, in other words
        if let Some(e) = self.phrase(at, "greater|less|larger|smaller than? that? of?") {
            let more = matches!(self.w(at), "greater" | "larger");
            if let Some(Ref::Bodies(b)) = &about {
                for x in b.clone() {
                    if let Some(body) = self.story.bodies.get_mut(x) {
                        body.heavier = Some(more);
                    }
                }
            }
            self.told(start, e, "which is the heavier decides which way they move");
            return Some(e);
        }
        None
    }

    /// `is light and inextensible`, `are smooth`, `is parallel to the slope`: strings, pulleys and surfaces.
    fn called(&mut self, start: usize, at: usize) -> Option<usize> {
        let about = self.about.clone();
        let mut k = at;
        let mut any = false;
        for _ in 0..8 {
            k = self.skip(k);
            let w = self.w(k);
            let means = match w {
                "light" | "massless" | "weightless" => "light: ignore its mass",
                "inextensible" => "it does not stretch: what it joins has the same size of acceleration",
                "smooth" | "frictionless" => "smooth: no friction",
                "horizontal" | "level" => "horizontal: it pulls along the motion",
                "vertical" => "vertical: forces act straight up and down",
                "taut" => "the string is tight from the start",
                "rigid" => "rigid: it can push as well as pull",
                "straight" | "flat" | "fixed" | "small" | "," | "and" | "both" | "also" | "kept" => "",
                "rough" if matches!(about, Some(Ref::Surface(_))) => "rough: friction acts, up to μR",
                "parallel" => {
                    if let Some(e) = self
                        .phrase(k, "parallel to the? direction of the? motion|travel|movement")
                        .or_else(|| self.phrase(k, "parallel to the horizontal"))
                    {
                        self.told(k, e, "along the line of motion");
                        k = e;
                        any = true;
                        continue;
                    }
                    let Some(e) = self.phrase(k, "parallel to") else { break };
                    let Some(np) = self.nps(e, true) else {
                        if let Some(e2) = self.phrase(
                            e,
                            "a|the line|lines of greatest slope of? the? plane|slope|ramp|slipway?",
                        ) {
                            self.told(k, e2, "along the slope");
                            k = e2;
                            any = true;
                            continue;
                        }
                        break;
                    };
                    self.told(k, np.end, "along the line of motion");
                    k = np.end;
                    any = true;
                    continue;
                }
                _ => break,
            };
            if w == "and" || w == "," {
                // Stop before a clause of its own.
                let next = self.w(self.skip(k + 1));
                if !matches!(
                    next,
                    "light"
                        | "inextensible"
                        | "smooth"
                        | "horizontal"
                        | "vertical"
                        | "taut"
                        | "rigid"
                        | "parallel"
                        | "level"
                        | "straight"
                        | "fixed"
                        | "frictionless"
                        | "massless"
                        | "small"
                        | "and"
                        | "rough"
                ) {
                    break;
                }
            }
            if let Some(Ref::Surface(s)) = &about {
                let span = self.span(k, k + 1);
                let s = *s;
                if let Some(surface) = self.story.surfaces.get_mut(s) {
                    match w {
                        "smooth" | "frictionless" => surface.smooth = Some(span),
                        "rough" => surface.rough = Some(span),
                        "horizontal" | "level" => surface.level = true,
                        _ => {}
                    }
                }
            }
            if let Some(Ref::Links(l)) = &about {
                let up = w == "vertical";
                if up
                    && l.iter().any(|&l| {
                        self.story.links.get(l).is_some_and(|x| x.pulleys.is_empty() && x.ends.len() == 2)
                    })
                {
                    break;
                }
                for &l in l {
                    if let Some(x) = self.story.links.get_mut(l) {
                        x.level |= matches!(w, "horizontal" | "level");
                        x.vertical |= up;
                    }
                }
            }
            if !means.is_empty() {
                self.told(k, k + 1, means);
            }
            any = true;
            k += 1;
        }
        if any {
            return Some(k);
        }
        // "The string from the box runs ..." has no "is".
        if let Some(e) = self.phrase(at, "perpendicular to the edge of? the? table?|bench?") {
            self.told(start, e, "so the string pulls straight towards the pulley");
            return Some(e);
        }
        if let Some(Ref::Surface(_)) = about {
            return self.slope_angle(at);
        }
        None
    }

    /// `has mass 5 kg`, `has a driving force of 3 kN`, `is a 10-kg cart`.
    fn bodies_have(&mut self, bodies: &[usize], start: usize, at: usize, be: bool) -> Option<usize> {
        if let Some((amounts, e, _)) =
            self.masses_after(start, false).filter(|_| matches!(self.w(start), "has" | "have" | "having"))
        {
            for a in &amounts {
                self.letters_of(&a.value, Kind::Mass);
            }
            self.set_mass(bodies, &amounts);
            let names = self.names(bodies);
            self.told(start, e, format!("the mass of {names}"));
            return Some(e);
        }
        if let Some(e) = self.phrase(start, "has|have|having a? greater|larger|smaller mass than?") {
            self.told(start, e, "which is the heavier decides which way they move");
            return Some(e);
        }
        if let Some(e) = self
            .phrase(start, "has|have|having a|an? constant|uniform|steady acceleration")
            .filter(|&e| self.amount(e, false).is_none() && self.w(self.skip(e)) != "of")
        {
            self.told(start, e, "the acceleration does not change");
            return Some(e);
        }
        // "The front one is 12 kg"
        if be
            && let Some((amounts, e)) = self.amounts(at, Some(Dimension::MASS))
            && amounts.iter().all(|a| a.dimension == Some(Dimension::MASS))
            && amounts.len() == bodies.len()
            && self.ahead(e).is_none()
            && !matches!(self.w(self.skip(e)), "heavier" | "lighter" | "more" | "less")
        {
            self.set_mass(bodies, &amounts);
            let names = self.names(bodies);
            self.told(start, e, format!("the mass of {names}"));
            return Some(e);
        }
        // "Cart A is a 10-kg cart"
        if be
            && let Some(np) = self.np(at)
            && let Ref::Bodies(new) = np.what
            && let ([one], [other]) = (bodies, new.as_slice())
        {
            let (one, other) = (*one, *other);
            if one != other && other + 1 == self.story.bodies.len() {
                // The new one is the old one again: take over what was said of it.
                if let Some(extra) = self.story.bodies.pop()
                    && let (Some(mass), Some(b)) = (extra.mass, self.story.bodies.get_mut(one))
                {
                    b.mass.get_or_insert(mass);
                }
                self.latest = vec![one];
                return Some(self.after_np(&Ref::Bodies(vec![one]), np.end));
            }
        }
        // has a driving force of 3 kN; has an acceleration of ...
        if matches!(self.w(start), "has" | "have" | "having") {
            let verb_end = self.skip(start + 1);
            if let Some(m) = self.mention(verb_end) {
                if !self.asking && self.tell(&m) {
                    return Some(m.end);
                }
                if self.asking && !m.amounts.is_empty() && self.tell_in_question(&m) {
                    return Some(m.end);
                }
            }
            // "The mixer has no brakes."
            if let Some(e) = self.phrase(verb_end, "no brakes") {
                self.told(start, e, "no braking force on it");
                return Some(e);
            }
        }
        None
    }

    /// In a question a quantity with its value is a fact for what is asked: `when its speed is 3 m/s`.
    fn tell_in_question(&mut self, m: &Mention) -> bool {
        match m.sort {
            Sort::Speed | Sort::Distance | Sort::Acceleration { .. } => self.tell(m),
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, told};

    #[test]
    fn what_is_said_of_the_string_the_pulley_and_the_heavier_body() {
        let text = "Two particles P and Q, of mass 3 kg and 2 kg, are attached to the ends of a string which \
         passes over a pulley. The string is light and inextensible. The pulley is smooth. P is \
         heavier than Q. Find the tension in the string.";
        assert_eq!(
            means(text, "inextensible"),
            "it does not stretch: what it joins has the same size of acceleration"
        );
        assert_eq!(means(text, "is heavier than Q"), "which is the heavier decides which way they move");
        let expected = ["P hangs", "Q hangs", "string: P - Q over a pulley", "Released"];
        assert_eq!(in_short(&told(text)), expected);
    }

    #[test]
    fn on_the_point_of_moving_friction_is_at_its_limit() {
        let text = "A crate of mass 40 kg is on a rough horizontal table. The coefficient of friction is 0.5. A \
         horizontal force of 100 N acts on the crate. The crate is on the point of moving. Find the \
         friction.";
        let expected = ["the crate moves on the level", "force applied to the crate: along", "Limiting"];
        assert_eq!(in_short(&told(text)), expected);
    }
}
