//! Predicates: what is said of the thing spoken of. Each verb's frame takes the phrases that belong to it.

use crate::noun::Ref;
use crate::quantity::Sort;
use crate::reader::Reader;
use crate::story::*;
use crate::verbs::{self, Frame};
use exact::Dimension;
use model::{Form, Holds, Kind, Role, State};

impl Reader<'_> {
    /// What follows a noun phrase and belongs to it: masses, relative clauses, participles.
    pub(crate) fn after_np(&mut self, what: &Ref, end: usize) -> usize {
        let mut at = end;
        for _ in 0..10 {
            let next = self.after_np_once(what, at);
            match next {
                Some(e) if e > at => at = e,
                _ => break,
            }
        }
        at
    }

    fn after_np_once(&mut self, what: &Ref, at: usize) -> Option<usize> {
        let lift;
        let what = match what {
            // The floor of a lift of mass 320 kg: the mass is the lift's.
            Ref::Floor(l) if self.masses_after(at, false).is_some() => {
                lift = Ref::Bodies(vec![*l]);
                &lift
            }
            other => other,
        };
        let i = self.skip(at);
        if let Ref::Bodies(bodies) = what {
            let bare = bodies
                .iter()
                .all(|&b| self.story.bodies.get(b).is_some_and(|x| x.noun == "mass" && x.mass.is_none()));
            if let Some((amounts, e, each)) = self.masses_after(at, bare) {
                let fits =
                    (amounts.len() == bodies.len() && !(each && amounts.len() > 1)) || amounts.len() == 1;
                if fits {
                    for a in &amounts {
                        self.letters_of(&a.value, Kind::Mass);
                    }
                    self.set_mass(bodies, &amounts);
                    let names = self.names(bodies);
                    self.told(i, e, format!("the mass of {names}"));
                    let close = self.skip(e);
                    if self.w(i) == "," && self.w(close) == "," {
                        self.glue(close, close + 1);
                        return Some(close + 1);
                    }
                    return Some(e);
                }
            }
            // a platform, on whose floor stands a drum
            if let Some(e) = self
                .phrase(i, ",? on whose floor stands|rests|lies|is|sits|stand|rest|lie")
                .or_else(|| self.phrase(i, ",? on which stands|rests|lies|stand|rest|lie"))
                && let ([one], Some(np)) = (bodies.as_slice(), self.nps(e, true))
                && let Ref::Bodies(loads) = np.what.clone()
            {
                let one = *one;
                self.put_on(&loads, one);
                self.told(i, e, "it stands on the floor and moves with it");
                let end = self.after_np(&np.what, np.end);
                self.latest = vec![one];
                return Some(self.close_comma(true, end));
            }
            // a block on a smooth horizontal table
            if let (Some(e), true) = (
                self.phrase(i, "on|upon"),
                bodies.iter().all(|&b| self.story.bodies.get(b).is_some_and(|x| x.on.is_none() && !x.hangs)),
            ) {
                let ahead = self.skip(e);
                if matches!(self.w(ahead), "a" | "an" | "the")
                    && self.surface_ahead(ahead)
                    && let Some(np) = self.np(e)
                    && let Ref::Surface(s) = np.what
                {
                    self.on_surface(bodies, s);
                    let names = self.names(bodies);
                    self.told(i, e, format!("what {names} stands on"));
                    return Some(self.after_np(&np.what, np.end));
                }
            }
            // an elevator whose 840-kg cab
            if let Some(e) = self.phrase(i, ",? whose")
                && let ([one], Some((amount, e2))) = (bodies.as_slice(), self.amount(e, false))
                && amount.dimension == Some(Dimension::MASS)
                && matches!(crate::lexicon::noun(self.w(e2)), Some(crate::lexicon::Noun::Body(Form::Lift)))
            {
                let one = *one;
                self.set_mass(&[one], &[amount]);
                self.told(i, e2 + 1, "the mass of the lift");
                self.about = Some(what.clone());
                return Some(e2 + 1);
            }
            // together with her equipment, including its contents
            let included = self
                .phrase(i, ",? together with the|its|his|her|their? own?")
                .or_else(|| self.phrase(i, ",? including|with the|its|his|her|their"))
                .or_else(|| self.phrase(i, "and its|their|his|her"));
            if let Some(e) = included {
                let next = self.w(self.skip(e));
                if matches!(
                    next,
                    "contents"
                        | "load"
                        | "equipment"
                        | "cargo"
                        | "stores"
                        | "tools"
                        | "passengers"
                        | "luggage"
                        | "crew"
                        | "kit"
                        | "harness"
                        | "driver"
                        | "rider"
                        | "occupants"
                        | "lading"
                        | "gear"
                ) {
                    let mut e2 = self.skip(e) + 1;
                    // which lie upon its floor
                    if matches!(self.w(self.skip(e2)), "which" | "that") {
                        while e2 < self.hi
                            && !matches!(self.w(e2), ",")
                            && !matches!(self.w(e2), "has" | "have")
                        {
                            e2 += 1;
                        }
                    }
                    if self.w(self.skip(e2)) == "," {
                        e2 = self.skip(e2) + 1;
                    }
                    self.told(i, e2, "counted as part of the same body");
                    return Some(e2);
                }
            }
            // the trailer and the boat it carries
            if self.w(i) == "and" {
                let mut k = self.skip(i + 1);
                for _ in 0..4 {
                    if matches!(self.w(k), "it" | "they" | "he" | "she")
                        && matches!(
                            self.w(self.skip(k + 1)),
                            "carries" | "carry" | "holds" | "contains" | "wears"
                        )
                    {
                        let e = self.skip(k + 1) + 1;
                        for n in i..k {
                            if crate::lexicon::noun(self.w(n)).is_some() {
                                self.story.included.push(crate::lexicon::singular(self.w(n)));
                            }
                        }
                        self.told(i, e, "counted as part of the same body");
                        return Some(e);
                    }
                    k = self.skip(k + 1);
                }
            }
        }
        // Set off by a comma: ", which hangs freely," and ", passing over a pulley,".
        let comma = self.w(i) == ",";
        let start = if comma { self.skip(i + 1) } else { i };
        let relative = match self.w(start) {
            "which" | "that" | "who" => true,
            "to" | "from" | "over"
                if matches!(what, Ref::Links(_)) && matches!(self.w(self.skip(start + 1)), "which") =>
            {
                return None;
            }
            _ => false,
        };
        let verb_at = if relative { self.skip(start + 1) } else { start };
        let w = self.w(verb_at);
        let participle = verbs::frame(w).is_some()
            && (w.ends_with("ing")
                || matches!(
                    w,
                    "joined"
                        | "connected"
                        | "attached"
                        | "coupled"
                        | "tied"
                        | "fastened"
                        | "fixed"
                        | "inclined"
                        | "hung"
                        | "suspended"
                        | "held"
                        | "placed"
                        | "mounted"
                        | "bolted"
                        | "supported"
                        | "pulled"
                        | "towed"
                        | "clamped"
                        | "linked"
                        | "carried"
                        | "secured"
                        | "laid"
                ));
        if !relative && !participle {
            // "of negligible mass"
            if let Some(e) = self
                .phrase(start, "of negligible mass")
                .or_else(|| self.phrase(start, "whose mass is|may|can? be? negligible|ignored|neglected"))
            {
                self.told(i, e, "light: ignore its mass");
                return Some(e);
            }
            if matches!(what, Ref::Links(_)) {
                if let Some(e) = self.phrase(
                    start,
                    "parallel to a|the line|lines of greatest slope of? the? plane|slope|ramp|slipway?",
                ) {
                    self.told(i, e, "along the slope");
                    return Some(self.close_comma(comma, e));
                }
                if let Some(e) = self
                    .phrase(start, "parallel to the? direction of the? motion|travel|movement")
                    .or_else(|| self.phrase(start, "parallel to the horizontal|ground"))
                {
                    self.told(i, e, "along the line of motion");
                    return Some(self.close_comma(comma, e));
                }
                if let Some(e) = self.phrase(start, "parallel to|with")
                    && let Some(np) = self.np(e)
                    && matches!(np.what, Ref::Surface(_))
                {
                    self.told(i, np.end, "along the line of motion");
                    return Some(self.close_comma(comma, np.end));
                }
                if let Some(e) = self.phrase(start, "also? horizontal|vertical|level|taut").filter(|_| comma)
                {
                    self.told(i, e, "it pulls along the line of motion");
                    return Some(self.close_comma(comma, e));
                }
            }
            if let (Ref::Surface(s), Some(e)) =
                (what, self.phrase(i, "of inclination|angle? of?").or_else(|| self.phrase(i, "of")))
            {
                self.surface = Some(*s);
                let number = self
                    .tok(self.skip(e))
                    .is_some_and(|t| t.number().is_some() || t.letter().is_some_and(|c| !c.is_ascii()));
                if number {
                    if let Some(x) = self.story.surfaces.get_mut(*s) {
                        x.slopes = true;
                    }
                    if let Some(e2) = self.slope_angle(e) {
                        self.glue(i, e);
                        return Some(e2);
                    }
                }
            }
            if matches!(what, Ref::Surface(_))
                && self.w(i) == "of"
                && let Some(e) = self.of_place(i)
            {
                self.scene(i, e);
                return Some(e);
            }
            if matches!(what, Ref::Surface(_))
                && let Some(e) = self
                    .phrase(start, "at|with")
                    .and_then(|_| if comma { None } else { self.slope_angle(start) })
            {
                return Some(e);
            }
            if matches!(what, Ref::Pulleys(_) | Ref::Ends(_) | Ref::Surface(_)) && !comma {
                if let Some(e) = self.place(i) {
                    return Some(e);
                }
                if matches!(what, Ref::Pulleys(_))
                    && let Some(e) = self.pulley_place(i)
                {
                    return Some(e);
                }
            }
            return None;
        }
        // A participle after a comma may be about the subject of the sentence; with "which" it is about this.
        if comma
            && !relative
            && matches!(what, Ref::Surface(_))
            && !matches!(verbs::frame(w), Some(Frame::Incline | Frame::Fix))
        {
            return None;
        }
        if comma
            && !relative
            && matches!(what, Ref::Bodies(_))
            && matches!(verbs::frame(w), Some(Frame::Pass | Frame::Model))
        {
            return None;
        }
        // A clause "that the floor exerts" is read with the force it defines.
        if relative
            && verbs::frame(w).is_none()
            && !matches!(w, "then" | "both" | "each" | "initially" | "also")
        {
            return None;
        }
        let saved_about = self.about.clone();
        let saved_subject = self.subject.clone();
        let asking = self.asking;
        self.about = Some(what.clone());
        if let Ref::Bodies(b) = what {
            self.subject.clone_from(b);
        }
        let end = self.predicate(verb_at);
        let end = end.map(|e| self.more_predicates(e, relative));
        self.about = saved_about;
        self.subject = saved_subject;
        self.asking = asking;
        let end = end?;
        self.glue(i, verb_at);
        let close = self.skip(end);
        if comma && self.w(close) == "," {
            self.glue(close, close + 1);
            return Some(close + 1);
        }
        Some(end)
    }

    /// Takes the comma that closes a phrase set off by commas.
    fn close_comma(&mut self, comma: bool, end: usize) -> usize {
        let close = self.skip(end);
        if comma && self.w(close) == "," {
            self.glue(close, close + 1);
            return close + 1;
        }
        end
    }

    /// `and is attached to ...` inside a relative clause.
    fn more_predicates(&mut self, end: usize, relative: bool) -> usize {
        let mut at = end;
        for _ in 0..4 {
            let mut next = self.skip(at);
            let comma = self.w(next) == ",";
            if comma {
                next = self.skip(next + 1);
            }
            if self.w(next) != "and" || !relative {
                break;
            }
            let verb = self.skip(next + 1);
            if verbs::frame(self.w(verb)).is_none() || self.tok(verb).is_some_and(|t| t.label()) {
                break;
            }
            let Some(e) = self.predicate(verb) else { break };
            self.glue(at, verb);
            at = e;
        }
        at
    }

    /// Where a pulley is: `at the edge of the table`, `at the top of the plane`, `above the floor`.
    fn pulley_place(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.phrase(i, "fixed? at|to|over|on the table|bench|plane|slope|ramp|quay|staging|roof|deck 's edge|end|top|side") {
            self.told(i, e, "the pulley is fixed");
            return Some(e);
        }
        const SET: &str = "fixed|bolted|mounted|clamped|attached|provided|which|that? is? firmly? fixed|provided|bolted|attached? at|to|in|on|above|over|from|beside";
        const WHERE: &str = "top|summit|edge|end|edges|ends|side|sides|corner|foot";
        const WHAT: &str = "table|plane|slope|ramp|slipway|bench|floor|staging|incline|ceiling|roof|beam|tabletop|track|hill|deck|quay|pier|jetty|ground|support|wall|jib|gantry";
        let at = self
            .phrase(i, &format!("{SET} the|its|a|each|opposite? {WHERE} of the|a|an|its|rigid|smooth|rough|inclined? rigid|smooth|rough|inclined? {WHAT}"))
            .or_else(|| self.phrase(i, &format!("{SET} the|its|a|each|opposite? {WHERE}")))
            .or_else(|| self.phrase(i, &format!("{SET} the|its|a|each|opposite? rigid? {WHAT}")))?;
        self.told(i, at, "the pulley is fixed");
        if self.w(self.skip(at)) == "of"
            && let Some(e) = self.of_place(at)
        {
            self.scene(at, e);
            return Some(e);
        }
        if let Some(e) = self.phrase(at, "above|over the? quay|deck|floor|ground|harbour") {
            self.scene(at, e);
            return Some(e);
        }
        Some(at)
    }

    /// A predicate at `i`, about `self.about`. The place after it.
    pub(crate) fn predicate(&mut self, i: usize) -> Option<usize> {
        let start = self.skip(i);
        let mut at = start;
        let mut passive = false;
        let mut be = false;
        for _ in 0..8 {
            let w = self.w(at);
            match w {
                "consists" if self.w(at + 1) == "of" => {
                    be = true;
                    at += 1;
                }
                "is" | "are" | "was" | "were" | "be" | "been" | "being" => {
                    be = true;
                    passive = true;
                }
                "has" | "have" | "had"
                    if matches!(
                        self.w(self.skip(at + 1)),
                        "been"
                            | "descended"
                            | "fallen"
                            | "moved"
                            | "risen"
                            | "travelled"
                            | "traveled"
                            | "slid"
                            | "come"
                            | "reached"
                            | "ascended"
                    ) => {}
                "will" | "may" | "can" | "does" | "do" | "did" | "then" | "both" | "each" | "initially"
                | "also" | "now" | "first" | "all" | "it" | "again" | "later" | "subsequently" | "just"
                | "each-other" | "directly" | "slowly" | "steadily" | "vertically" | "freely"
                | "constantly" | "suddenly" | "gently" | "simultaneously" | "next" | "each-is" | "itself"
                | "now-being" | "seen" | "found" | "observed" | "to" | "known" | "straight" => {
                    if matches!(w, "to") && !be {
                        break;
                    }
                    if matches!(w, "found" | "observed" | "seen" | "known") && !be {
                        break;
                    }
                }
                _ => break,
            }
            at = self.skip(at + 1);
        }
        if let Some(e) = self.phrase(at, "runs|moves|slides|travels|runs freely? in|between|on|along vertical|smooth? guide|guides rails|guides?") {
            self.scene(start, e);
            return Some(e);
        }
        let w = self.w(at).to_owned();
        if let Some(f) = verbs::frame(&w).filter(|f| *f != Frame::Be) {
            let end = match f {
                Frame::Join => self.join(at),
                Frame::Hang => self.hang(at),
                Frame::Rest => self.rest(at),
                Frame::Pass if w == "carried" && matches!(self.about, Some(Ref::Bodies(_))) => {
                    self.carry(at, true)
                }
                Frame::Pass => self.pass(at),
                Frame::Pull if matches!(self.about, Some(Ref::Floor(_) | Ref::Surface(_))) => {
                    self.exert(at, false)
                }
                Frame::Pull => self.pull(at, passive && !w.ends_with("ing")),
                Frame::Exert => self.exert(at, passive && !w.ends_with("ing")),
                Frame::Suffer => self.suffer(at),
                Frame::Carry => self.carry(at, (passive || w == "supported") && !w.ends_with("ing")),
                Frame::Move => self.moves(at),
                Frame::Release => self.release(at),
                Frame::Start => self.starts(at),
                Frame::Reach => self.reach(at),
                Frame::Cover => self.cover(at),
                Frame::Incline => self.incline(at),
                Frame::Fix => self.fix(at),
                Frame::Neglect => self.neglect(at),
                Frame::Model => self.modelled(at),
                Frame::Stop => self.stop(at),
                Frame::Follow => self.follow(at),
                Frame::Be => None,
            };
            if let Some(e) = end {
                self.glue(start, e);
                return Some(e);
            }
            return None;
        }
        if let Some(e) = self.be(start, at, be) {
            self.glue(start, e);
            return Some(e);
        }
        None
    }

    fn about_bodies(&self) -> Vec<usize> {
        match &self.about {
            Some(Ref::Bodies(b)) => b.clone(),
            Some(Ref::System) => (0..self.story.bodies.len()).collect(),
            _ => Vec::new(),
        }
    }
    fn about_links(&self) -> Vec<usize> {
        match &self.about {
            Some(Ref::Links(l) | Ref::Ends(l)) => l.clone(),
            _ => Vec::new(),
        }
    }

    // ---------------------------------------------------------------- be and have

    fn be(&mut self, start: usize, at: usize, be: bool) -> Option<usize> {
        let about = self.about.clone();
        // is at rest, are in equilibrium
        if be {
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
            if matches!(self.w(at), "on" | "upon")
                && matches!(about, Some(Ref::Bodies(_)))
                && self.surface_ahead(at + 1)
            {
                return self.rest(at.saturating_sub(1));
            }
            if self.phrase(at, "at rest|equilibrium on|upon|in").is_some()
                && matches!(about, Some(Ref::Bodies(_)))
            {
                return self.rest(at.saturating_sub(1));
            }
            if let Some(e) = self
                .phrase(at, "at rest")
                .or_else(|| self.phrase(at, "stationary|still|motionless"))
                .or_else(|| self.phrase(at, "in equilibrium"))
            {
                self.state(start, e, State::AtRest, "at rest: no acceleration");
                return Some(e);
            }
            if let Some(e) = self
                .phrase(at, "in limiting equilibrium")
                .or_else(|| self.phrase(at, "on|at the point of moving|slipping|sliding|motion"))
            {
                self.state(start, e, State::Limiting, "on the point of moving: friction is at its limit");
                return Some(e);
            }
            // joined: "is heavier than P"
            if let (Some(e), Some(Ref::Bodies(b))) = (
                self.phrase(at, "heavier|lighter|greater|less than")
                    .or_else(|| self.phrase(at, "the heavier|lighter")),
                &about,
            ) {
                let heavy =
                    matches!(self.w(at), "heavier" | "greater") || self.w(self.skip(at + 1)) == "heavier";
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
        }
        match &about {
            Some(Ref::Links(_) | Ref::Ends(_) | Ref::Pulleys(_) | Ref::Surface(_)) if be => {
                let mut k = at;
                let mut any = false;
                for _ in 0..8 {
                    k = self.skip(k);
                    let w = self.w(k);
                    let means = match w {
                        "light" | "massless" | "weightless" => "light: ignore its mass",
                        "inextensible" => "it does not stretch: what it joins has one size of acceleration",
                        "smooth" | "frictionless" => "smooth: no friction",
                        "horizontal" | "level" => "horizontal: it pulls along the motion",
                        "vertical" => "vertical: forces act straight up and down",
                        "taut" => "the string is tight from the start",
                        "rigid" => "rigid: it can push as well as pull",
                        "straight" | "flat" | "fixed" | "small" | "," | "and" | "both" | "also" | "kept" => {
                            ""
                        }
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
                                self.story
                                    .links
                                    .get(l)
                                    .is_some_and(|x| x.pulleys.is_empty() && x.ends.len() == 2)
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
            }
            _ => {}
        }
        // has mass 5 kg, have masses 3m and 2m
        let bodies = self.about_bodies();
        if !bodies.is_empty() {
            if let Some((amounts, e, _)) =
                self.masses_after(start, false).filter(|_| matches!(self.w(start), "has" | "have" | "having"))
            {
                for a in &amounts {
                    self.letters_of(&a.value, Kind::Mass);
                }
                self.set_mass(&bodies, &amounts);
                let names = self.names(&bodies);
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
            // "Cart A is a 10-kg cart"
            if be
                && let Some(np) = self.np(at)
                && let Ref::Bodies(new) = np.what
                && let ([one], [other]) = (bodies.as_slice(), new.as_slice())
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

    /// In a question a quantity with its value is a fact for what is asked: `when its speed is 3 m/s`.
    fn tell_in_question(&mut self, m: &crate::quantity::Mention) -> bool {
        match m.sort {
            Sort::Speed | Sort::Distance | Sort::Acceleration { .. } => self.tell(m),
            _ => false,
        }
    }

    // ---------------------------------------------------------------- joining

    fn join(&mut self, at: usize) -> Option<usize> {
        let word = self.w(at).to_owned();
        let subject = self.about_bodies();
        let mut links = self.about_links();
        let by_itself = !links.is_empty();
        let mut others: Vec<usize> = Vec::new();
        let mut end = at + 1;
        let mut ends_of: Vec<usize> = Vec::new();
        for _ in 0..8 {
            let k = self.skip(end);
            if let Some(e) = self.phrase(k, "together|directly|horizontally|firmly|securely|end") {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "on|along") {
                let surface =
                    matches!(crate::lexicon::noun(self.w(e)), Some(crate::lexicon::Noun::Surface { .. }))
                        || !subject.is_empty();
                if let Some(np) = if surface { self.np(e) } else { None }
                    && let Ref::Surface(s) = np.what
                {
                    self.on_surface(&subject, s);
                    self.glue(k, np.end);
                    end = self.after_np(&np.what, np.end);
                    continue;
                }
            }
            if let Some(e) = self
                .phrase(k, "one to each|end")
                .or_else(|| self.phrase(k, "one at each end"))
                .or_else(|| self.phrase(k, "to each other"))
            {
                end = e;
                continue;
            }
            let comma = self.w(k) == ",";
            let p = if comma { self.skip(k + 1) } else { k };
            if let Some(e) = self
                .phrase(p, "by|with means|using? of?")
                .filter(|_| matches!(self.w(p), "by" | "with"))
                .or_else(|| self.phrase(p, "using|via|through"))
            {
                if let Some(np) = self.np(e) {
                    if let Ref::Links(l) = np.what.clone() {
                        links = l;
                        self.glue(k, e);
                        end = self.after_np(&np.what, np.end);
                        continue;
                    }
                    if let (Ref::Bodies(b), "with") = (np.what.clone(), self.w(p)) {
                        others.extend(b.into_iter().filter(|x| !subject.contains(x)));
                        self.glue(k, e);
                        end = self.after_np(&np.what, np.end);
                        continue;
                    }
                }
                break;
            }
            if let Some(e) = self
                .phrase(p, "to the? back|front|rear|side|top of")
                .or_else(|| self.phrase(p, "behind|to|at|from|between"))
            {
                // "at the edge of the table" is a place.
                let np = match self.nps(e, true) {
                    Some(np) => np,
                    None => break,
                };
                match np.what.clone() {
                    Ref::Bodies(b) => {
                        for x in b {
                            if !subject.contains(&x) && !others.contains(&x) {
                                others.push(x);
                            }
                        }
                        if self.w(e.wrapping_sub(1)) == "behind"
                            || (k..e).any(|n| matches!(self.w(n), "back" | "rear" | "behind"))
                        {
                            let pairs: Vec<(usize, usize)> =
                                others.iter().zip(&subject).map(|(f, b)| (*f, *b)).collect();
                            self.tows(&pairs);
                        }
                        self.glue(k, e);
                        let after = self.after_np(&np.what, np.end);
                        end = after;
                    }
                    Ref::Ends(l) => {
                        ends_of = l;
                        self.glue(k, e);
                        end = self.after_np(&np.what, np.end);
                    }
                    Ref::Links(l) => {
                        ends_of = l;
                        self.glue(k, e);
                        end = self.after_np(&np.what, np.end);
                    }
                    Ref::Pulleys(_) | Ref::Surface(_) | Ref::Floor(_) | Ref::System | Ref::Thing => break,
                }
                continue;
            }
            // ", and the second to the third": the same again.
            if let Some(e) = self.phrase(k, ",? and") {
                if !others.is_empty() {
                    let saved = (self.latest.clone(), self.pair, self.story.bodies.len());
                    if let Some(np) = self.np(e)
                        && let (Ref::Bodies(x), Some(e2)) = (np.what.clone(), self.phrase(np.end, "to"))
                        && let Some(np2) = self.np(e2)
                        && let (Ref::Bodies(y), [one]) = (np2.what.clone(), x.as_slice())
                        && let [two] = y.as_slice()
                    {
                        self.joins.push((*one, *two));
                        self.glue(k, np2.end);
                        end = np2.end;
                        continue;
                    }
                    (self.latest, self.pair) = (saved.0, saved.1);
                    self.story.bodies.truncate(saved.2.max(1));
                }
                break;
            }
            // The verb "joins A to B": an object without preposition.
            if (others.is_empty() && !links.is_empty() && by_itself
                || (word.ends_with("ing") || word.ends_with('s')) && others.is_empty())
                && let Some(np) = self.nps(p, false)
                && let Ref::Bodies(b) = np.what.clone()
            {
                others = b;
                end = self.after_np(&np.what, np.end);
                continue;
            }
            break;
        }
        // Tied to something that is not in the story (a beam): only for links.
        if others.is_empty() && links.is_empty() && ends_of.is_empty() && subject.len() < 2 {
            if subject.is_empty() || self.about.is_none() {
                if let Some(e) = self.place(at + 1) {
                    self.scene(at, e);
                    return Some(e);
                }
                return None;
            }
            return None;
        }
        if by_itself && others.is_empty() && end == at + 1 {
            let e = self
                .phrase(at + 1, "to the|its roof|top|ceiling of the|a lift|cage|hoist|elevator|cab")
                .or_else(|| self.phrase(at + 1, "to its|the roof|top"))?;
            self.scene(at, e);
            return Some(e);
        }
        let means = "joined: they move together while the link holds";
        self.told(at, at + 1, means);
        if by_itself {
            // A string attached to bodies, or joining them.
            for &l in &links.clone() {
                for &b in &others {
                    self.add_end(l, b);
                }
            }
        } else if !ends_of.is_empty() {
            let mut all = subject.clone();
            all.extend(others.iter().copied());
            self.attach_ends(&ends_of, &all);
        } else {
            let mut all = subject.clone();
            all.extend(others.iter().copied());
            let rigid = matches!(word.as_str(), "coupled" | "hitched");
            if let ([one], true) = (subject.as_slice(), others.len() > 1 && others.len() == links.len()) {
                // One body joined to several, each by a string of its own.
                for (other, link) in others.iter().zip(links.clone()) {
                    self.add_end(link, *one);
                    self.add_end(link, *other);
                }
            } else {
                self.connect(&all, &links, rigid);
            }
        }
        Some(end)
    }

    /// Ends of strings: each body to an end.
    fn attach_ends(&mut self, links: &[usize], bodies: &[usize]) {
        if let [one] = links {
            for &b in bodies {
                self.add_end(*one, b);
            }
            return;
        }
        for &b in bodies {
            let free = links
                .iter()
                .copied()
                .find(|&l| self.story.links.get(l).is_some_and(|x| x.ends.len() < 2 && !x.ends.contains(&b)));
            if let Some(l) = free {
                self.add_end(l, b);
            }
        }
    }

    pub(crate) fn add_end(&mut self, link: usize, body: usize) {
        if let Some(l) = self.story.links.get_mut(link)
            && !l.ends.contains(&body)
            && l.ends.len() < 2
        {
            l.ends.push(body);
        }
    }

    /// Joins bodies one after the other, with the links named; makes more like them where there are too few.
    fn connect(&mut self, bodies: &[usize], links: &[usize], rigid: bool) {
        let pairs: Vec<(usize, usize)> =
            bodies.iter().zip(bodies.iter().skip(1)).map(|(a, b)| (*a, *b)).collect();
        if links.is_empty() {
            if rigid {
                for (a, b) in pairs {
                    if !self.are_joined(a, b) {
                        let l = self.new_link("coupling", Holds::PullOrPush);
                        self.add_end(l, a);
                        self.add_end(l, b);
                    }
                }
            } else {
                self.joins.extend(pairs);
            }
            return;
        }
        let mut wanted = std::mem::take(&mut self.joins);
        wanted.extend(pairs);
        // "The tractor and the trailer are joined by a tow-bar", told again of a link already there.
        wanted.retain(|&(a, b)| !self.are_joined(a, b));
        let mut free: Vec<usize> = links
            .iter()
            .copied()
            .filter(|&l| self.story.links.get(l).is_some_and(|x| x.ends.is_empty()))
            .collect();
        // A link that already has one of the two ends takes the other.
        for (a, b) in wanted {
            let l = match links.iter().copied().find(|&l| {
                self.story
                    .links
                    .get(l)
                    .is_some_and(|x| x.ends.len() == 1 && (x.ends.contains(&a) || x.ends.contains(&b)))
            }) {
                Some(l) => l,
                None if free.is_empty() => {
                    let like = links.first().and_then(|&l| self.story.links.get(l)).cloned();
                    match like {
                        Some(like) => {
                            let l = self.new_link(&like.noun, like.holds);
                            if let Some(new) = self.story.links.get_mut(l) {
                                new.light = like.light;
                                new.pulleys.clone_from(&Vec::new());
                            }
                            l
                        }
                        None => return,
                    }
                }
                None => free.remove(0),
            };
            self.add_end(l, a);
            self.add_end(l, b);
        }
    }

    fn new_link(&mut self, noun: &str, holds: Holds) -> usize {
        let span = self.span(self.lo, self.lo + 1);
        self.story.links.push(LinkTold {
            noun: noun.to_owned(),
            holds,
            ends: Vec::new(),
            pulleys: Vec::new(),
            span,
            light: true,
            level: false,
            vertical: false,
        });
        self.story.links.len() - 1
    }

    fn are_joined(&self, a: usize, b: usize) -> bool {
        self.story.links.iter().any(|l| l.ends.contains(&a) && l.ends.contains(&b))
    }

    /// Joins still without a link at the end of the sentence take the links that have no ends yet.
    pub(crate) fn finish_joins(&mut self) {
        let joins = std::mem::take(&mut self.joins);
        if joins.is_empty() {
            return;
        }
        let free: Vec<usize> = (0..self.story.links.len())
            .filter(|&l| self.story.links.get(l).is_some_and(|x| x.ends.is_empty()))
            .collect();
        if free.is_empty() {
            for (a, b) in joins {
                if !self.are_joined(a, b) {
                    let span = self.story.bodies.get(b).map(|b| b.span).unwrap_or_default();
                    self.diagnostics.push(
                        model::Diagnostic::refuse(
                            model::Refusal::Incomplete,
                            format!("what joins {} and {} is not said", self.name(a), self.name(b)),
                        )
                        .at(span)
                        .hint("name it: a light inextensible string, a light rigid tow-bar"),
                    );
                }
            }
            return;
        }
        let bodies: Vec<usize> = Vec::new();
        self.joins = joins;
        self.connect(&bodies, &free, false);
    }

    // ---------------------------------------------------------------- places

    fn hang(&mut self, at: usize) -> Option<usize> {
        let mut end = at + 1;
        // "from its end there hangs a body": what hangs is named after.
        let inverted = at > self.lo && self.w(at.wrapping_sub(1)) == "there";
        let subject = if inverted { Vec::new() } else { self.about_bodies() };
        let mut ends_of = inverted.then(|| self.link.clone());
        for _ in 0..8 {
            let k = self.skip(end);
            if let Some(e) = self
                .phrase(k, "freely? under gravity")
                .or_else(|| self.phrase(k, "freely|vertically|down|straight|loose|clear|there"))
                .or_else(|| self.phrase(k, "vertically? below|beneath the pulley|peg"))
                .or_else(|| self.phrase(k, "in the air"))
                .or_else(|| {
                    self.phrase(k, "on opposite|either|each sides|side of|the? it|pulley|table|bench?")
                })
            {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "at rest") {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "at|from|by|on") {
                let np = self.np(e);
                match np.as_ref().map(|n| n.what.clone()) {
                    Some(Ref::Ends(l) | Ref::Links(l)) => {
                        let np = np?;
                        self.glue(k, e);
                        end = self.after_np(&np.what, np.end);
                        ends_of = Some(l);
                        continue;
                    }
                    // A load hung from a body (by a string told later) is read where the string is.
                    Some(Ref::Bodies(_)) => break,
                    _ => {
                        if let Some(e2) = self.place(k) {
                            end = e2;
                            continue;
                        }
                        break;
                    }
                }
            }
            // 1 m above the floor
            if let Some((amount, e)) = self.amount(k, true)
                && (amount.dimension == Some(Dimension::LENGTH) || amount.dimension.is_none())
                && let Some(e2) =
                    self.phrase(e, "above|from the? horizontal? floor|ground|deck|quay|table|surface")
            {
                self.drop = Some((self.given(&amount), true));
                self.told(k, e2, "how far it can fall");
                end = e2;
                continue;
            }
            // "hung over a smooth peg": a string that passes over.
            if let Some(e) = self.phrase(k, "over")
                && let Some(np) = self.np(e)
                && let Ref::Pulleys(p) = np.what.clone()
            {
                for l in self.about_links() {
                    if let Some(link) = self.story.links.get_mut(l) {
                        link.pulleys.extend(p.iter().copied());
                    }
                }
                end = self.after_np(&np.what, np.end);
                continue;
            }
            break;
        }
        let mut subject = subject;
        if subject.is_empty() && (inverted || self.about_links().is_empty()) {
            // "from its end there hangs freely a body of mass 2 kg"
            let k = self.skip(end);
            if let Some(np) = self.np(k)
                && let Ref::Bodies(b) = np.what.clone()
            {
                end = self.after_np(&np.what, np.end);
                subject = b;
            }
        }
        for &b in &subject {
            if let Some(body) = self.story.bodies.get_mut(b)
                && body.on.is_none()
            {
                body.hangs = true;
            }
        }
        if let Some(l) = ends_of {
            self.attach_ends(&l, &subject);
        }
        if subject.is_empty() && self.about_links().is_empty() && !matches!(self.about, Some(Ref::System)) {
            return None;
        }
        let names = self.names(&subject);
        self.told(at, end, format!("{names} hangs: it moves straight up or down"));
        Some(end)
    }

    fn rest(&mut self, at: usize) -> Option<usize> {
        let held = self.w(at) == "held";
        let remains = matches!(self.w(at), "remain" | "remains" | "stays" | "stay");
        let subject = self.about_bodies();
        let mut end = at + 1;
        let mut still = held;
        let mut placed = false;
        for _ in 0..8 {
            let k = self.skip(end);
            if let Some(e) = self
                .phrase(k, "at rest|equilibrium")
                .or_else(|| self.phrase(k, "in equilibrium"))
                .or_else(|| self.phrase(k, "stationary|still"))
            {
                still = true;
                if let Some(e2) = self.phrase(e, "relative to").or_else(|| self.phrase(e, "with respect to"))
                    && let Some(np) = self.np(e2)
                {
                    self.told(k, np.end, "they move together");
                    end = np.end;
                    continue;
                }
                if remains {
                    self.state(at, e, State::AtRest, "at rest: no acceleration");
                }
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "together|there|initially|with|freely|directly|on? top|vertically|next|side by|in place|contact").filter(|_| matches!(self.w(k), "together" | "there" | "initially" | "freely" | "vertically")) {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "along|parallel to? a|the line|lines of greatest slope of? the? plane|slope|ramp|slipway|incline?") {
                self.told(k, e, "along the slope");
                placed = true;
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "parallel to")
                && let Some(np) = self.np(e)
                && matches!(np.what, Ref::Surface(_))
            {
                self.told(k, np.end, "along the line of motion");
                placed = true;
                end = np.end;
                continue;
            }
            if let Some(e) =
                self.phrase(k, "in a straight? line|row").or_else(|| self.phrase(k, "in that order"))
            {
                self.scene(k, e);
                placed = true;
                end = e;
                continue;
            }
            // 2.45 m from the edge: how far it can go
            if let Some((amount, e)) =
                self.phrase(k, "at? a distance of?").or(Some(k)).and_then(|p| self.amount(p, true))
                && let Some(e2) = self
                    .phrase(e, "from the pulley|edge|peg")
                    .filter(|_| amount.dimension == Some(Dimension::LENGTH))
            {
                self.drop = Some((self.given(&amount), false));
                self.told(k, e2, "how far it can move");
                end = e2;
                continue;
            }
            // on either side of the pulley
            if let Some(e) = self.phrase(k, "on either|each|opposite side|sides of") {
                if let Some(np) = self.np(e)
                    && matches!(np.what, Ref::Pulleys(_))
                {
                    for &b in &subject {
                        if let Some(body) = self.story.bodies.get_mut(b) {
                            body.hangs = true;
                        }
                    }
                    end = self.after_np(&np.what, np.end);
                    placed = true;
                    continue;
                }
                break;
            }
            // on a scale, before the lift itself is named
            if let Some(e) = self.phrase(
                k,
                "on|upon a|the|some|bathroom|weighing? set? of? bathroom|weighing? scale|scales|machine",
            ) {
                self.told(k, e, "a scale shows the push between it and what stands on it");
                end = e;
                placed = true;
                continue;
            }
            let on = self
                .phrase(k, "on|upon|at the? top|surface|bottom|foot of")
                .or_else(|| self.phrase(k, "on|upon|in|inside|along|at|against"));
            if let Some(e) = on {
                let np = match self.nps(e, true) {
                    Some(np) => np,
                    None => {
                        if let Some(e2) = self.place(k) {
                            end = e2;
                            continue;
                        }
                        break;
                    }
                };
                match np.what.clone() {
                    Ref::Surface(s) => {
                        for &b in &subject {
                            if let Some(body) = self.story.bodies.get_mut(b) {
                                body.on = Some(On::Surface(s));
                            }
                        }
                    }
                    Ref::Floor(l) => self.put_on(&subject, l),
                    Ref::Bodies(b) => {
                        // "A person is standing in it": what was spoken of before.
                        let before = self.pair.filter(|p| subject == [p.1]).map(|p| p.0);
                        match (b.as_slice(), before) {
                            ([one], Some(before)) if subject == [*one] => self.put_on(&subject, before),
                            ([one], _) => self.put_on(&subject, *one),
                            _ => break,
                        }
                    }
                    _ => break,
                }
                placed = true;
                let names = self.names(&subject);
                self.told(k, np.end, format!("what {names} stands on"));
                end = self.after_np(&np.what, np.end);
                continue;
            }
            break;
        }
        if !still && !placed {
            return None;
        }
        if subject.iter().any(|&b| self.story.bodies.get(b).is_some_and(|x| x.on == Some(On::Body(b)))) {
            return None;
        }
        if held && still {
            self.state(at, end, State::AtRest, "held at rest: no acceleration until it is released");
        }
        self.glue(at, end);
        Some(end)
    }

    pub(crate) fn put_on(&mut self, what: &[usize], carrier: usize) {
        for &b in what {
            if let Some(body) = self.story.bodies.get_mut(b) {
                body.on = Some(On::Body(carrier));
                body.hangs = false;
            }
        }
    }

    fn pass(&mut self, at: usize) -> Option<usize> {
        let mut links = self.about_links();
        let bodies = self.about_bodies();
        if links.is_empty() && !matches!(self.about, Some(Ref::System)) {
            // "the rope is led over", "it is passed over": the link last named.
            if bodies.is_empty() || matches!(self.w(at), "carried" | "passed" | "led") {
                links = self.link.clone();
            } else {
                return None;
            }
        }
        let mut end = at + 1;
        let mut some = false;
        for _ in 0..10 {
            let k = self.skip(end);
            let comma = self.w(k) == ",";
            let p = if comma { self.skip(k + 1) } else { k };
            if let Some(e) = self.phrase(p, "horizontally|vertically|straight|directly|on") {
                if self.w(p) == "on" {
                    break;
                }
                end = e;
                some = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "over it") {
                self.glue(p, e);
                end = e;
                some = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "over|round|around|across|through") {
                let Some(np) = self.np(e) else { break };
                let Ref::Pulleys(pulleys) = np.what.clone() else { break };
                let several = pulleys.len() > 1 && links.len() == pulleys.len();
                for (n, &l) in links.iter().enumerate() {
                    if let Some(link) = self.story.links.get_mut(l) {
                        if several {
                            link.pulleys.extend(pulleys.get(n).copied());
                        } else {
                            for &x in &pulleys {
                                if !link.pulleys.contains(&x) {
                                    link.pulleys.push(x);
                                }
                            }
                        }
                    }
                }
                self.told(p, np.end, "over a pulley: when one end goes down, the other comes up");
                end = self.after_np(&np.what, np.end);
                some = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "parallel to") {
                if let Some(np) = self.np(e)
                    && matches!(np.what, Ref::Surface(_))
                {
                    self.told(p, np.end, "along the line of motion");
                    end = np.end;
                    some = true;
                    continue;
                }
                break;
            }
            if let Some(e) = self.phrase(
                p,
                "along|parallel to? a|the line|lines of greatest slope of? the? plane|slope|ramp|slipway?",
            ) {
                self.told(p, e, "along the slope");
                end = e;
                some = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "up|along") {
                if let Some(np) = self.np(e)
                    && matches!(np.what, Ref::Surface(_))
                {
                    self.told(p, np.end, "along the slope or table");
                    end = np.end;
                    some = true;
                    continue;
                }
                break;
            }
            if let Some(e) = self.phrase(p, "from|to") {
                let saved = self.story.clone();
                if let Some(np) = self.np(e) {
                    match np.what.clone() {
                        Ref::Bodies(b) => {
                            for &l in &links {
                                for &x in &b {
                                    self.add_end(l, x);
                                }
                            }
                            self.glue(p, np.end);
                            end = self.after_np(&np.what, np.end);
                            some = true;
                            continue;
                        }
                        Ref::Pulleys(pulleys) => {
                            // "runs horizontally to a pulley at the edge": the string goes over it.
                            for &l in &links {
                                if let Some(link) = self.story.links.get_mut(l) {
                                    for &x in &pulleys {
                                        if !link.pulleys.contains(&x) {
                                            link.pulleys.push(x);
                                        }
                                    }
                                }
                            }
                            self.told(p, np.end, "over a pulley: when one end goes down, the other comes up");
                            end = self.after_np(&np.what, np.end);
                            some = true;
                            continue;
                        }
                        _ => self.story = saved,
                    }
                }
                break;
            }
            if let Some(e) = self
                .phrase(p, "at its edge|end|top")
                .or_else(|| self.phrase(p, "there it is passed over the pulley"))
                .or_else(|| self.phrase(p, "over it"))
            {
                self.glue(p, e);
                end = e;
                some = true;
                continue;
            }
            break;
        }
        some.then(|| {
            self.glue(at, end);
            end
        })
    }

    // ---------------------------------------------------------------- pulling and carrying

    fn pull(&mut self, at: usize, passive: bool) -> Option<usize> {
        let subject = self.about_bodies();
        let links = self.about_links();
        let word = self.w(at).to_owned();
        if word.starts_with("push") && !subject.is_empty() && !passive {
            return None;
        }
        let mut end = at + 1;
        let mut objects: Vec<usize> = if passive { subject.clone() } else { Vec::new() };
        let mut means: Vec<usize> = Vec::new();
        let mut force = None;
        let mut way = match word.as_str() {
            "lowered" | "lowers" | "lowering" => Some(Way::Down),
            "raises" | "raise" => Some(Way::Up),
            _ => None,
        };
        let mut heading = way;
        if !passive {
            let mut k = self.skip(end);
            if matches!(self.w(k), "on" | "at" | "along" | "behind") {
                k = self.skip(k + 1);
            }
            if let Some(np) = self.nps(k, true) {
                match np.what.clone() {
                    Ref::Bodies(b) => {
                        objects = b;
                        end = self.after_np(&np.what, np.end);
                    }
                    Ref::System => {
                        objects = (0..self.story.bodies.len()).collect();
                        end = np.end;
                    }
                    Ref::Links(l) | Ref::Ends(l) => {
                        means = l;
                        end = np.end;
                    }
                    _ => return None,
                }
            } else if self.phrase(k, "it|them").is_none() && links.is_empty() {
                return None;
            }
        }
        for _ in 0..10 {
            let k = self.skip(end);
            let comma = self.w(k) == ",";
            let p = if comma { self.skip(k + 1) } else { k };
            if let Some(e) = self.phrase(p, "forward|forwards|horizontally|along|steadily|directly|vertically|straight|in line|tandem").filter(|_| !matches!(self.w(p), "along") && !matches!(self.w(p), "in")) {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(p, "in line|tandem") {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(p, "from rest") {
                self.tell_from_rest(p, e);
                end = e;
                continue;
            }
            if let Some((w, e)) = self.way(p) {
                way = Some(w);
                if matches!(w, Way::UpSlope | Way::DownSlope | Way::Up | Way::Down) {
                    heading = Some(w);
                }
                self.told(p, e, "which way the pull acts");
                // "up a straight road which is inclined ..."
                if let Some(s) = self.surface.filter(|_| matches!(w, Way::UpSlope | Way::DownSlope)) {
                    end = self.after_np(&Ref::Surface(s), e);
                } else {
                    end = e;
                }
                continue;
            }
            if let Some(e) = self.phrase(p, "along|across|over|on") {
                if let Some(np) = self.np(e)
                    && let Ref::Surface(s) = np.what
                {
                    let all: Vec<usize> = subject.iter().chain(&objects).copied().collect();
                    self.on_surface(&all, s);
                    self.glue(p, np.end);
                    end = self.after_np(&np.what, np.end);
                    continue;
                }
                if let Some(e) = self.place(p) {
                    end = e;
                    continue;
                }
                break;
            }
            if let Some(e) =
                self.phrase(p, "by means of").or_else(|| self.phrase(p, "by|using|with|via|through"))
            {
                // By a force, by a string, by a winch.
                if let Some(m) = self.mention(e)
                    && matches!(m.sort, Sort::PlainForce | Sort::Force(_) | Sort::Tension)
                {
                    self.glue(p, m.end);
                    end = m.end;
                    force = Some(m);
                    continue;
                }
                if let Some(np) = self.np(e) {
                    match np.what.clone() {
                        Ref::Links(l) => {
                            means = l;
                            self.glue(p, e);
                            end = self.after_np(&np.what, np.end);
                            continue;
                        }
                        Ref::Bodies(b) if passive => {
                            // Drawn by a locomotive: it is in front.
                            objects = subject.clone();
                            let front = b;
                            self.connect_tow(&front, &objects.clone(), &means);
                            self.glue(p, np.end);
                            return Some(self.after_np(&np.what, np.end));
                        }
                        _ => break,
                    }
                }
                if let Some(e2) = self.agent_phrase(e) {
                    self.scene(p, e2);
                    end = e2;
                    continue;
                }
                break;
            }
            if let Some(e) = self.phrase(p, "at")
                && let Some(e2) = self.speed_now(e)
            {
                end = e2;
                continue;
            }
            if let Some(e) = self.place(p) {
                end = e;
                continue;
            }
            break;
        }
        if let Some(w) = heading {
            let span = self.span(at, end);
            let of = if objects.is_empty() { subject.clone() } else { objects.clone() };
            self.fact(of, span, Fact::Heading(w));
        }
        if let Some(m) = force {
            // The force pulls through a rope, or directly.
            if links.len() > 1
                || means.len() > 1
                || (!means.is_empty() && matches!(way, Some(Way::DownSlope)) && !word.starts_with("lower"))
            {
                return None;
            }
            if objects.is_empty() {
                if let Some(&l) = means.first().or(links.first()) {
                    if let Some(a) = m.amounts.first() {
                        let given = self.given(a);
                        self.told(m.start, m.end, format!("this pull is {}", given.written));
                        self.story.values.push(ValueTold { what: Target::Link(vec![l]), given });
                    }
                    self.told(at, end, "a pull through the rope: it is the rope's tension");
                    return Some(end);
                }
                return None;
            }
            if let Some(&l) = links.first() {
                // A cable pulls the bodies: its tension.
                if let Some(&b) = objects.first()
                    && self.story.links.get(l).is_some_and(|x| x.ends.is_empty())
                {
                    self.add_end(l, b);
                }
                if let Some(a) = m.amounts.first() {
                    let given = self.given(a);
                    self.told(m.start, m.end, format!("this pull is {}", given.written));
                    self.story.values.push(ValueTold { what: Target::Link(vec![l]), given });
                }
                self.told(at, at + 1, "the pull is the cable's tension");
                return Some(end);
            }
            let [b] = objects.as_slice() else { return None };
            let span = self.span(m.start, m.end);
            if let Some(&l) = means.first() {
                // Pulled by a rope with a force: the rope's tension.
                self.add_end(l, *b);
            }
            let f = self.force_on(Role::Applied, Some(*b), span);
            if let Some(a) = m.amounts.first() {
                self.letters_of(&a.value, Kind::Force);
                let given = self.given(a);
                self.set_force(f, given);
            }
            if let Some(x) = self.story.forces.get_mut(f) {
                x.way = way.or(m.way).or(x.way);
                x.level = m.level.or(x.level);
                x.letter = m.letter.clone().or(x.letter.take());
            }
            let name = self.name(*b);
            self.told(m.start, m.end, format!("a force on {name}"));
            self.told(at, at + 1, format!("a force acts on {name}"));
            return Some(end);
        }
        // A winch hauls through a cable, no size given: the cable holds the body.
        if passive || subject.is_empty() {
            if let (Some(&l), Some(&b)) = (means.first().or(links.first()), objects.first()) {
                self.add_end(l, b);
            }
            if objects.is_empty() {
                return None;
            }
            self.told(at, at + 1, "something pulls it");
            return Some(end);
        }
        if objects.is_empty() {
            return None;
        }
        self.connect_tow(&subject, &objects, &means);
        let (front, behind) = (self.names(&subject), self.names(&objects));
        self.told(at, at + 1, format!("{front} is in front, {behind} behind"));
        self.told(at, at + 1, format!("{front} is in front, {behind} behind"));
        Some(end)
    }

    /// A body tows others: joined one behind the other, and driven forwards.
    fn connect_tow(&mut self, front: &[usize], behind: &[usize], links: &[usize]) {
        let mut all = front.to_vec();
        all.extend(behind.iter().copied().filter(|b| !front.contains(b)));
        if links.is_empty() {
            let pairs: Vec<(usize, usize)> =
                all.iter().zip(all.iter().skip(1)).map(|(a, b)| (*a, *b)).collect();
            self.tows(&pairs);
        } else {
            self.connect(&all, links, true);
        }
        self.story_order(&all);
    }

    fn tows(&mut self, pairs: &[(usize, usize)]) {
        // What joins them may be told later ("the tow-bar is light"): remember the order now.
        for &(a, b) in pairs {
            if !self.story.tows.contains(&(a, b)) {
                self.story.tows.push((a, b));
            }
        }
    }

    fn story_order(&mut self, all: &[usize]) {
        let pairs: Vec<(usize, usize)> = all.iter().zip(all.iter().skip(1)).map(|(a, b)| (*a, *b)).collect();
        self.tows(&pairs);
    }

    /// Towed pairs that nothing joins yet: they take the links that have no ends, or a coupling that goes without saying.
    pub(crate) fn settle_tows(&mut self) {
        let pairs: Vec<(usize, usize)> =
            self.story.tows.iter().copied().filter(|&(a, b)| !self.are_joined(a, b)).collect();
        for (a, b) in pairs {
            let free = (0..self.story.links.len()).find(|&l| {
                self.story
                    .links
                    .get(l)
                    .is_some_and(|x| x.ends.is_empty() && x.pulleys.is_empty() && !x.vertical)
            });
            let l = match free {
                Some(l) => l,
                None => {
                    let like = self
                        .story
                        .links
                        .iter()
                        .find(|l| l.pulleys.is_empty() && l.ends.len() == 2)
                        .map(|l| (l.noun.clone(), l.holds));
                    let (noun, holds) = like.unwrap_or(("coupling".to_owned(), Holds::PullOrPush));
                    self.new_link(&noun, holds)
                }
            };
            self.add_end(l, a);
            self.add_end(l, b);
        }
    }

    /// Puts bodies on a surface where nothing else is said.
    pub(crate) fn on_surface(&mut self, bodies: &[usize], surface: usize) {
        for &b in bodies {
            if let Some(body) = self.story.bodies.get_mut(b)
                && body.on.is_none()
                && !body.hangs
            {
                body.on = Some(On::Surface(surface));
            }
        }
    }

    /// `a winch`, `the driver`: who pulls, no mechanics.
    fn agent_phrase(&mut self, i: usize) -> Option<usize> {
        let mut at = self.skip(i);
        if matches!(self.w(at), "a" | "an" | "the" | "its" | "another") {
            at = self.skip(at + 1);
        }
        let from = at;
        while at < from + 3
            && self.tok(at).is_some_and(|t| {
                t.is_word()
                    && !crate::lexicon::glue(&t.lower)
                    && !verbs::is_verb(&t.lower)
                    && !crate::quantity::quantity_word(&t.lower)
                    && !matches!(
                        crate::lexicon::noun(&t.lower),
                        Some(
                            crate::lexicon::Noun::Link(_)
                                | crate::lexicon::Noun::Surface { .. }
                                | crate::lexicon::Noun::Pulley
                        )
                    )
            })
        {
            if crate::lexicon::dangerous(self.w(at))
                && self.w(at) != "engine"
                && crate::lexicon::noun(self.w(at)).is_none()
            {
                return None;
            }
            at = self.skip(at + 1);
        }
        if at == from {
            return None;
        }
        if let Some(e) = self.place(at) {
            return Some(e);
        }
        Some(at)
    }

    fn exert(&mut self, at: usize, passive: bool) -> Option<usize> {
        if passive {
            // "the brakes are applied": told with the braking force.
            return None;
        }
        let subject = self.about_bodies();
        // "the driver applies the brakes", "the engine's brakes"
        if let Some(e) = self.phrase(at + 1, "the|its|his|her? brakes|brake") {
            self.told(at, e, "braking: a force against the motion");
            let span = self.span(at, e);
            let of = subject.clone();
            self.fact(of, span, Fact::Slowing);
            return Some(e);
        }
        // "the floor presses up on her with a force of 678 N"
        let mut k = self.skip(at + 1);
        if matches!(self.w(k), "up" | "down" | "back") {
            k = self.skip(k + 1);
        }
        if matches!(self.w(k), "on" | "upon" | "against") {
            let about = self.about.clone();
            let np = self.np(self.skip(k + 1))?;
            let e = self.phrase(np.end, "with")?;
            let mut m = self.mention(e)?;
            m.on = Some(np.what);
            m.by = about;
            if self.tell(&m) {
                self.told(at, np.end, "a push");
                return Some(m.end);
            }
            return None;
        }
        let about = self.about.clone();
        let mut m = self.mention(k)?;
        if m.on.is_none() && m.of.is_none() && !subject.is_empty() {
            m.on = Some(Ref::Bodies(subject.clone()));
        }
        if let (Some(Ref::Bodies(on)), true) = (&m.on, !subject.is_empty()) {
            // One body of the story on another: a force between them, not one from outside.
            if on.iter().any(|b| !subject.contains(b)) {
                m.by = Some(Ref::Bodies(subject.clone()));
                if !matches!(m.sort, Sort::PlainForce | Sort::Reaction) {
                    return None;
                }
            }
        }
        if m.by.is_none() && matches!(about, Some(Ref::Floor(_) | Ref::Surface(_) | Ref::Links(_))) {
            // The road pushes a car forwards: a driving force, not a reaction.
            if !matches!(m.sort, Sort::Force(_) | Sort::Resistance | Sort::Friction) {
                m.by = about;
            }
        }
        if self.tell(&m) {
            return Some(m.end);
        }
        None
    }

    fn suffer(&mut self, at: usize) -> Option<usize> {
        let subject = self.about_bodies();
        let mut m = self.mention(self.skip(at + 1))?;
        if m.of.is_none() && m.on.is_none() && !subject.is_empty() {
            m.on = Some(Ref::Bodies(subject));
        }
        self.tell(&m).then_some(m.end)
    }

    fn carry(&mut self, at: usize, passive: bool) -> Option<usize> {
        if passive {
            // The lift is supported by a cable.
            let subject = self.about_bodies();
            if let Some(e) = self.phrase(at + 1, "in|inside|on")
                && let Some(np) = self.np(e)
                && let Ref::Bodies(b) = &np.what
                && let Some(&lift) =
                    b.iter().find(|&&b| self.story.bodies.get(b).is_some_and(|x| x.form == Form::Lift))
            {
                self.put_on(&subject, lift);
                self.told(at, np.end, "carried: they move with it");
                return Some(self.after_np(&np.what, np.end));
            }
            let e = self.phrase(at + 1, "vertically? by")?;
            let np = self.np(e)?;
            let Ref::Links(l) = np.what.clone() else { return None };
            for &b in &subject {
                if let Some(&l) = l.first() {
                    self.add_end(l, b);
                }
            }
            self.told(at, np.end, "held up by it: its tension acts upwards");
            return Some(self.after_np(&np.what, np.end));
        }
        let links = self.about_links();
        let subject = self.about_bodies();
        let mut k = self.skip(at + 1);
        let mut end_named = false;
        // carries at its other end a particle Q
        if matches!(self.w(k), "at" | "on")
            && let Some(np) = self.np(self.skip(k + 1))
            && let Ref::Ends(_) = np.what
        {
            end_named = true;
            k = self.skip(np.end);
        }
        if let Some(e) = self.cargo(k) {
            self.scene(at, e);
            return Some(e);
        }
        let np = self.nps(k, true)?;
        let Ref::Bodies(b) = np.what.clone() else { return None };
        let mut end = self.after_np(&np.what, np.end);
        let mut b = b;
        for _ in 0..3 {
            let Some(e) =
                self.phrase(end, "at|on|from its|the|one? other|lower|free|second? end|ends|extremity?")
            else {
                break;
            };
            if !matches!(self.w(e.wrapping_sub(1)), "end" | "ends" | "other" | "extremity") {
                break;
            }
            self.glue(end, e);
            end = self.after_np(&np.what, e);
            let Some(e) = self.phrase(end, ",? and").filter(|_| !links.is_empty()) else { break };
            let Some(more) = self.np(e) else { break };
            let Ref::Bodies(x) = more.what.clone() else { break };
            self.glue(end, e);
            b.extend(x);
            end = self.after_np(&more.what, more.end);
        }
        if !links.is_empty() || end_named {
            let l = if links.is_empty() { self.link.clone() } else { links };
            if let [one] = l.as_slice() {
                for &x in &b {
                    self.add_end(*one, x);
                    // What a string over a pulley carries, hangs.
                    let over = self.story.links.get(*one).is_some_and(|l| !l.pulleys.is_empty());
                    if let Some(body) = self.story.bodies.get_mut(x)
                        && body.on.is_none()
                        && over
                    {
                        body.hangs = true;
                    }
                }
            }
            let names = self.names(&b);
            self.told(at, at + 1, format!("{names} is at the end of it"));
            return Some(end);
        }
        let [carrier] = subject.as_slice() else { return None };
        if self
            .story
            .bodies
            .get(*carrier)
            .is_none_or(|x| x.form != Form::Lift && x.on.is_none_or(|o| !matches!(o, On::Body(_))))
        {
            return None;
        }
        for &x in &b {
            self.put_on(&[x], *carrier);
        }
        let e = self.phrase(end, "on its floor").unwrap_or(end);
        self.told(at, at + 1, "it carries it on its floor");
        self.glue(end, e);
        Some(e)
    }

    /// A load named only by what it is: `carry stone`, `carrying sacks of grain`.
    fn cargo(&mut self, i: usize) -> Option<usize> {
        let t = self.tok(i)?;
        let next = self.w(self.skip(i + 1));
        let bare = t.is_word()
            && !crate::lexicon::glue(&t.lower)
            && t.letter().is_none()
            && crate::amount::in_words(&t.lower).is_none()
            && !crate::quantity::quantity_word(&t.lower);
        let ends = next.is_empty()
            || matches!(next, "along" | "and" | "," | "." | "to" | "from" | "is" | "are" | "on" | "in");
        (bare && ends && self.about_links().is_empty()).then_some(i + 1)
    }

    /// `Q follows behind P`.
    fn follow(&mut self, at: usize) -> Option<usize> {
        let subject = self.about_bodies();
        let e = self.phrase(at + 1, "behind|after?").unwrap_or(at + 1);
        let np = self.np(e)?;
        let Ref::Bodies(front) = np.what else { return None };
        let (Some(&f), Some(&b)) = (front.first(), subject.first()) else { return None };
        self.story.tows.retain(|t| *t != (b, f));
        self.tows(&[(f, b)]);
        self.told(at, np.end, format!("{} is in front, {} behind", self.name(f), self.name(b)));
        Some(np.end)
    }

    // ---------------------------------------------------------------- other frames

    fn incline(&mut self, at: usize) -> Option<usize> {
        if self.about.is_some() && !matches!(self.about, Some(Ref::Surface(_))) {
            return None;
        }
        if let Some(Ref::Surface(s)) = self.about {
            self.surface = Some(s);
            if let Some(x) = self.story.surfaces.get_mut(s) {
                x.slopes = true;
            }
        }
        let k = self.phrase(at + 1, "upwards|downwards").unwrap_or(at + 1);
        let e = self.slope_angle(k)?;
        self.told(at, e, "a slope at this angle");
        Some(e)
    }

    fn fix(&mut self, at: usize) -> Option<usize> {
        if matches!(self.about, Some(Ref::Bodies(_) | Ref::System)) {
            return None;
        }
        let mut end = at + 1;
        for _ in 0..4 {
            let k = self.skip(end);
            if let Some(e) = self.pulley_place(k).or_else(|| self.place(k)) {
                end = e;
                continue;
            }
            if matches!(self.w(k), "at" | "to" | "in" | "above" | "on" | "over" | "so")
                && let Some(np) = self.np(self.skip(k + 1))
                && matches!(np.what, Ref::Surface(_) | Ref::Thing | Ref::Floor(_))
            {
                self.glue(k, np.end);
                end = self.after_np(&np.what, np.end);
                continue;
            }
            break;
        }
        self.told(at, end, "it does not move");
        Some(end)
    }

    fn neglect(&mut self, at: usize) -> Option<usize> {
        // "Air resistance may be neglected": what was spoken of just before is not modelled.
        let mut end = at + 1;
        if self.w(at).ends_with("ing") || matches!(self.w(at), "neglect" | "ignore") {
            // neglecting air resistance
            let k = self.skip(end);
            if let Some(e) = self.negligible(k) {
                end = e;
            } else {
                return None;
            }
        }
        if end == at + 1 {
            // What is neglected stands before, and was not read as something that may be.
            return None;
        }
        self.told(at, end, "left out of the model");
        Some(end)
    }

    /// Things that may be neglected: `air resistance`, `the mass of the cable`, `friction`.
    pub(crate) fn negligible(&self, i: usize) -> Option<usize> {
        self.phrase(i, "any|all|the|other? other? resistance|resistances|resistive|frictional forces? to motion|movement").or_else(|| self.phrase(i, "any|all|the|other? other? frictional|friction forces").or_else(|| self.phrase(i, "any|all|the|other? other? resistances|friction forces?"))).or_else(|| self.phrase(i, "any|all|the|effects|of? air resistance|friction")).or_else(|| self.phrase(i, "air resistance|friction")).or_else(|| self.phrase(i, "friction|resistance of? the? air?")).or_else(|| {
            self.phrase(i, "the|any? stretch|mass|masses|weight|weights|extension and|or? the|any? mass|masses|stretch? of|in the cable|rope|ropes|string|thread|chain|cord|tow-bar|pulley|cables|strings|coupling|couplings")
        })
    }

    fn modelled(&mut self, at: usize) -> Option<usize> {
        let mut end = at + 1;
        let mut as_seen = false;
        for _ in 0..9 {
            let k = self.skip(end);
            let w = self.w(k);
            if matches!(w, "as" | "a" | "an" | "single" | "particle" | "particles" | "be" | "the")
                || crate::lexicon::noun(w).is_some() && !as_seen
            {
                as_seen |= w == "as";
                end = k + 1;
                if matches!(w, "particle" | "particles") && as_seen {
                    break;
                }
                continue;
            }
            if as_seen && crate::adjective::adjective(w).is_some() {
                // modelled as a light string: read it as a phrase.
                let np = self.np(k)?;
                self.told(at, np.end, "how it is modelled");
                return Some(np.end);
            }
            if self.tok(k).is_some_and(|t| t.label()) || w == "and" && !as_seen {
                end = k + 1;
                continue;
            }
            break;
        }
        if !as_seen {
            return None;
        }
        self.told(at, end, "each body is treated as a particle: forces act at one point");
        Some(end)
    }
}
