//! What follows a noun phrase and belongs to it: `of mass 3 kg`, `which hangs freely`, `parallel to the slope`.

use crate::lexicon::{self, Noun};
use crate::noun::Ref;
use crate::reader::{DEEPEST, Reader};
use crate::verbs::{self, Frame};
use exact::Dimension;
use model::{Form, Kind};

impl Reader<'_> {
    /// What follows a noun phrase and belongs to it: masses, relative clauses, participles.
    ///
    /// `which is joined to a block which is joined to a block ...` nests without end: past [`DEEPEST`] nothing follows.
    pub(crate) fn after_np(&mut self, what: &Ref, end: usize) -> usize {
        if self.depth >= DEEPEST {
            return end;
        }
        self.depth += 1;
        let mut at = end;
        for _ in 0..10 {
            let next = self.after_np_once(what, at);
            match next {
                Some(e) if e > at => at = e,
                _ => break,
            }
        }
        self.depth -= 1;
        at
    }

    fn after_np_once(&mut self, what: &Ref, at: usize) -> Option<usize> {
        if let Ref::Links(l) = what
            && let Some(e) = self.lean_of_links(l, at)
        {
            let comma = self.w(self.skip(at)) == ",";
            return Some(self.close_comma(comma, e));
        }
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
        if let Ref::Bodies(bodies) = what
            && let Some(e) = self.after_bodies(what, bodies, at).or_else(|| self.with_contents(i))
        {
            return Some(e);
        }
        // the rope that she uses, the cable which he is holding
        if matches!(what, Ref::Links(_))
            && let Some(e) = self
                .phrase(i, "which|that? she|he|they is|are? uses|use|using|holds|hold|holding")
                .or_else(|| {
                    self.phrase(
                        i,
                        "which|that? the person|man|woman|worker|boy|girl is? uses|using|holds|holding",
                    )
                })
        {
            self.scene(i, e);
            return Some(e);
        }
        if let Ref::Surface(s) = what
            && let Some(e) = self.inclination(*s, i)
        {
            return Some(e);
        }
        if let (Ref::Surface(_), Some(e)) =
            (what, self.phrase(i, ",? sloping|facing|inclined in opposite directions ,?"))
        {
            self.scene(i, e);
            return Some(e);
        }
        // Set off by a comma: ", which hangs freely," and ", passing over a pulley,".
        let comma = self.w(i) == ",";
        let start = if comma { self.skip(i + 1) } else { i };
        let start = if comma && matches!(self.w(start), "both" | "each" | "all") {
            self.skip(start + 1)
        } else {
            start
        };
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
            return self.described(what, i, start, comma);
        }
        // A participle after a comma may be about the subject of the sentence; with "which" it is about this.
        if comma
            && !relative
            && matches!(what, Ref::Surface(_))
            && !matches!(verbs::frame(w), Some(Frame::Incline | Frame::Fix))
        {
            return None;
        }
        // ", joined by a cord" after a pulley or a table is about the bodies.
        if comma && !relative && matches!(what, Ref::Pulleys(_)) && verbs::frame(w) == Some(Frame::Join) {
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

    /// What belongs to bodies alone: `of mass 5 kg`, `on whose floor stands a drum`, `on a smooth table`.
    fn after_bodies(&mut self, what: &Ref, bodies: &[usize], at: usize) -> Option<usize> {
        let i = self.skip(at);
        let bare = bodies
            .iter()
            .all(|&b| self.story.bodies.get(b).is_some_and(|x| x.noun == "mass" && x.mass.is_none()));
        if let Some((amounts, e, each)) = self.masses_after(at, bare) {
            let fits = (amounts.len() == bodies.len() && !(each && amounts.len() > 1)) || amounts.len() == 1;
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
            && let ([one], Some(np)) = (bodies, self.nps(e, true))
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
            if let Some(np) = self.slope_pronoun(e)
                && let Ref::Surface(s) = np.what
            {
                self.on_surface(bodies, s);
                let names = self.names(bodies);
                self.told(i, e, format!("what {names} stands on"));
                return Some(self.after_np(&np.what, np.end));
            }
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
            && let ([one], Some((amount, e2))) = (bodies, self.amount(e, false))
            && amount.dimension == Some(Dimension::MASS)
            && matches!(lexicon::noun(self.w(e2)), Some(Noun::Body(Form::Lift)))
        {
            let one = *one;
            self.set_mass(&[one], &[amount]);
            self.told(i, e2 + 1, "the mass of the lift");
            self.about = Some(what.clone());
            return Some(e2 + 1);
        }
        None
    }

    /// Contents counted as part of the body: `together with her equipment`, `and the boat it carries`.
    fn with_contents(&mut self, i: usize) -> Option<usize> {
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
                    while e2 < self.hi && !matches!(self.w(e2), ",") && !matches!(self.w(e2), "has" | "have")
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
                        if lexicon::noun(self.w(n)).is_some() {
                            self.story.included.push(lexicon::singular(self.w(n)));
                        }
                    }
                    self.told(i, e, "counted as part of the same body");
                    return Some(e);
                }
                k = self.skip(k + 1);
            }
        }
        None
    }

    /// What is said of strings, pulleys and surfaces without a verb: `of negligible mass`, `parallel to the slope`,
    /// `of inclination 30°`.
    fn described(&mut self, what: &Ref, i: usize, start: usize, comma: bool) -> Option<usize> {
        if let (Ref::Links(l), false) = (what, comma)
            && let Some(e) = self.way_beside(l, i)
        {
            return Some(e);
        }
        // "of negligible mass"
        if let Some(e) = self
            .phrase(start, "of negligible mass")
            .or_else(|| self.phrase(start, "whose mass is|may|can? be? negligible|ignored|neglected"))
        {
            self.told(i, e, "light: ignore its mass");
            return Some(e);
        }
        if let Ref::Links(l) | Ref::Ends(l) = what
            && let Some(e) = self.lean_of_links(l, i)
        {
            return Some(self.close_comma(comma, e));
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
            // , parallel to the plane and passing over a pulley
            if let Some(e) = self.phrase(i, ",? and").filter(|&e| {
                self.w(e).ends_with("ing")
                    && matches!(verbs::frame(self.w(e)), Some(Frame::Pass | Frame::Carry))
            }) {
                let about = self.about.replace(what.clone());
                let end = self.predicate(e);
                self.about = about;
                let end = end?;
                self.glue(i, e);
                return Some(self.close_comma(true, end));
            }
            if let Some(e) = self.phrase(start, "also? horizontal|vertical|level|taut").filter(|_| comma) {
                self.told(i, e, "it pulls along the line of motion");
                return Some(self.close_comma(comma, e));
            }
        }
        if let (Ref::Surface(s), Some(e)) = (
            what,
            self.phrase(i, ",? of|whose inclination|angle of|is")
                .or_else(|| self.phrase(i, ",? whose inclination|angle|slope to|with the horizontal is"))
                .or_else(|| self.phrase(i, "of inclination|angle? of?"))
                .or_else(|| self.phrase(i, "of")),
        ) {
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
        if let (Ref::Surface(_), Some(e)) = (what, self.phrase(i, "of the|a|this fixed? wedge")) {
            self.scene(i, e);
            return Some(e);
        }
        // A light string from P
        if let (Ref::Links(l), Some(e)) =
            (what, self.phrase(i, "from").or_else(|| self.phrase(i, "attached to")))
            && let [one] = l.as_slice()
            && !comma
            && self.story.links.get(*one).is_some_and(|l| l.ends.is_empty())
            && (self.tok(self.skip(e)).is_some_and(|t| t.label_of(self))
                || self.w(self.skip(e)) == "it"
                || self.w(self.skip(e)) == "the" && matches!(self.ahead(e), Some(Noun::Body(_))))
            && let Some(np) = self.np(e)
            && let Ref::Bodies(b) = &np.what
            && let [body] = b.as_slice()
        {
            let (one, body) = (*one, *body);
            self.add_end(one, body);
            let name = self.name(body);
            self.told(i, np.end, format!("one end of it is attached to {name}"));
            return Some(np.end);
        }
        if matches!(what, Ref::Surface(_))
            && self.w(i) == "of"
            && let Some(e) = self.of_place(i)
        {
            self.scene(i, e);
            return Some(e);
        }
        if matches!(what, Ref::Surface(_))
            && let Some(e) =
                self.phrase(start, "at|with").and_then(|_| if comma { None } else { self.slope_angle(start) })
        {
            return Some(e);
        }
        if matches!(what, Ref::Pulleys(_) | Ref::Ends(_) | Ref::Surface(_)) && !comma {
            if matches!(what, Ref::Pulleys(_))
                && let Some(e) = self.pulley_place(i)
            {
                return Some(e);
            }
            if let Some(e) = self.place(i) {
                return Some(e);
            }
        }
        None
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
            let and = self.w(next) == "and";
            // "which lies along the plane, passes over a pulley and carries Q"
            let listed = comma && !and && self.w(next).ends_with('s') && !self.w(next).ends_with("ss");
            if !(and || listed) || !relative {
                break;
            }
            let verb = if and { self.skip(next + 1) } else { next };
            if verbs::frame(self.w(verb)).is_none() || self.tok(verb).is_some_and(|t| t.label()) {
                break;
            }
            let Some(e) = self.predicate(verb) else { break };
            self.glue(at, verb);
            at = e;
        }
        at
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, told};

    #[test]
    fn a_clause_set_off_by_commas_belongs_to_what_stands_before_it() {
        let text = "A sack of mass 20 kg, which hangs freely, is attached to one end of a light string. The \
         string passes over a smooth pulley. A crate of mass 30 kg hangs from its other end. Find the \
         acceleration.";
        let expected =
            ["the sack hangs", "the crate hangs", "string: the sack - the crate over a pulley", "Released"];
        assert_eq!(in_short(&told(text)), expected);
    }

    #[test]
    fn a_driver_counts_as_part_of_the_locomotive() {
        let text = "A locomotive of mass 8 tonnes, together with its driver, pulls a wagon of mass 2 tonnes by a \
         light coupling. The driving force is 5 kN. Find the acceleration.";
        assert_eq!(means(text, "together with its driver"), "counted as part of the same body");
        let expected = [
            "the locomotive moves on the level",
            "the wagon moves on the level",
            "coupling: the wagon - the locomotive",
            "driving force: along",
            "Moving",
        ];
        assert_eq!(in_short(&told(text)), expected);
    }
}
