//! Loads that slip or stick on what carries them: `A does not slip on B`, `without slipping`, `is on the point of sliding
//! on Q`, `the greatest acceleration of the truck for which the box does not slip`, `the contact between them is rough`.

use crate::amount::plain_index;
use crate::noun::Ref;
use crate::quantity::Sort;
use crate::reader::Reader;
use crate::story::{Fact, On, Target};
use model::{Form, Role};

const SLIP: &str = "slip|slide|move";
const SLIPPING: &str = "slipping|sliding|moving";

impl Reader<'_> {
    /// The loads among these bodies that stand on another body, not on the floor of a lift.
    pub(super) fn loads(&self, of: &[usize]) -> Vec<usize> {
        let body = |b: usize| self.story.bodies.get(b);
        of.iter()
            .copied()
            .filter(|&b| {
                let Some(On::Body(c)) = body(b).and_then(|x| x.on) else { return false };
                body(c).is_some_and(|x| x.form != Form::Lift && !x.hangs)
            })
            .collect()
    }

    /// Does something stand on a body that moves along the level or a slope?
    pub(super) fn has_loads(&self) -> bool {
        !self.all_loads().is_empty()
    }

    fn all_loads(&self) -> Vec<usize> {
        self.loads(&(0..self.story.bodies.len()).collect::<Vec<_>>())
    }

    /// What is said of loads: that they stick, are about to slip, or what is between them and what carries them.
    pub(super) fn slip(&mut self, i: usize) -> Option<usize> {
        if self.all_loads().is_empty() {
            return None;
        }
        if let Some(e) = self.between_is(i) {
            return Some(e);
        }
        let slips = |r: &Self, k: usize| {
            r.w(k).starts_with("slip")
                || r.w(k).starts_with("slid")
                || r.w(k).starts_with("mov")
                || matches!(r.w(k), "together" | "one")
        };
        if !(i..i + 18).any(|k| slips(self, k)) {
            return None;
        }
        let saved =
            (self.uses.clone(), self.story.clone(), self.latest.clone(), self.pair, self.about.clone());
        let (notes, diagnostics) = (self.notes.len(), self.diagnostics.len());
        if let Some((loads, e)) = self.about_to_slip(i) {
            let span = self.span(i, e);
            self.told(i, e, "about to slip: friction there is at its limit, and they still move together");
            self.fact(loads.clone(), span, Fact::AboutToSlip(loads));
            return Some(e);
        }
        if let Some((loads, e)) = self.sticks(i) {
            let span = self.span(i, e);
            self.told(i, e, "no slipping: they move together, with one acceleration");
            self.fact(loads.clone(), span, Fact::Sticks(loads));
            return Some(e);
        }
        self.notes.truncate(notes);
        self.diagnostics.truncate(diagnostics);
        (self.uses, self.story, self.latest, self.pair, self.about) = saved;
        None
    }

    /// `the contact between the crates is rough`, `the surfaces in contact are smooth`, `the top of B is rough`.
    fn between_is(&mut self, i: usize) -> Option<usize> {
        let at = self.phrase(i, "the").unwrap_or(i);
        let saved = (self.latest.clone(), self.pair);
        let (of, e) = if let Some(e) = self
            .phrase(at, "contact|surface|surfaces|contacts of? contact? between")
            .or_else(|| self.phrase(at, "rough contact between"))
        {
            let np = self.np(e)?;
            let (mut of, mut end) = (self.bodies_of(Some(&np.what))?, np.end);
            if let Some(second) = self.phrase(end, "and") {
                let np = self.np(second)?;
                of.extend(self.bodies_of(Some(&np.what))?);
                end = np.end;
            }
            (of, end)
        } else if let Some(e) =
            self.phrase(at, "surfaces in|of contact").or_else(|| self.phrase(at, "contact surfaces"))
        {
            (Vec::new(), e)
        } else if let Some(e) = self.phrase(at, "top|upper surface? of") {
            let np = self.np(e)?;
            (self.bodies_of(Some(&np.what))?, np.end)
        } else {
            return None;
        };
        let e = self.phrase(e, "is|are both? also?")?;
        let smooth = self.phrase(e, "smooth|frictionless").is_some();
        let end = self.phrase(e, "smooth|frictionless|rough|rough-enough")?;
        (self.latest, self.pair) = saved;
        let all = self.all_loads();
        let loads: Vec<usize> = match of.as_slice() {
            [] => all,
            // The top of B: what stands on B.
            [one] => all
                .into_iter()
                .filter(|&l| self.story.bodies.get(l).and_then(|b| b.on) == Some(On::Body(*one)))
                .collect(),
            more => self.loads(more),
        };
        if loads.is_empty() {
            return None;
        }
        let span = self.span(i, end);
        for l in loads {
            self.story.rubs.push((vec![l], smooth, span));
        }
        self.told(i, end, if smooth { "smooth: no friction" } else { "rough: friction acts, up to μR" });
        Some(end)
    }

    /// `X is on the point of slipping on Y`, `A is about to slide`, `X is just about to slip`.
    fn about_to_slip(&mut self, i: usize) -> Option<(Vec<usize>, usize)> {
        let opening = self.phrase(i, "given|when|if|so that? the? instant?").unwrap_or(i);
        let point = |r: &Self, k: usize| {
            let k = r.phrase(k, "is|are|being").unwrap_or(k);
            let k = r.phrase(k, "just").unwrap_or(k);
            r.phrase(k, &format!("on|at the point|verge of {SLIPPING}"))
                .or_else(|| r.phrase(k, &format!("about|ready to {SLIP}")))
        };
        if let Some(e) = point(self, i) {
            let loads = self.loads(&self.subject.clone());
            let end = self.slip_tail(e);
            return (!loads.is_empty()).then_some((loads, end));
        }
        let np = self.nps(opening, false)?;
        let loads = self.loads(&self.bodies_of(Some(&np.what))?);
        let e = point(self, np.end)?;
        let end = self.slip_tail(e);
        (!loads.is_empty()).then_some((loads, end))
    }

    /// That loads stick: `A does not slip on B`, `without slipping`, `P and Q move together`, and the place after.
    fn sticks(&mut self, i: usize) -> Option<(Vec<usize>, usize)> {
        let at = self.phrase(i, "you? may|can? assume|assuming|given|provided|supposing that?").unwrap_or(i);
        let at = self.phrase(at, "for|in which case?").unwrap_or(at);
        let at = self
            .phrase(at, "such|so that")
            .or_else(|| self.phrase(at, "if|when|so|while|and|that|but"))
            .unwrap_or(at);
        if let Some(e) = self
            .phrase(at, &format!("without any? {SLIPPING}"))
            .or_else(|| self.phrase(at, &format!("without its|their|any|either {SLIPPING}")))
        {
            let loads = self.loads(&self.subject.clone());
            let loads = if loads.is_empty() { self.all_loads() } else { loads };
            return Some((loads, self.slip_tail(e)));
        }
        if let Some(e) = self.phrase(at, "without") {
            let np = self.nps(e, false)?;
            let loads = self.loads(&self.bodies_of(Some(&np.what))?);
            let e = self.phrase(np.end, &format!("'s? {SLIPPING}"))?;
            return (!loads.is_empty()).then(|| (loads, self.slip_tail(e)));
        }
        let subject = self.subject.clone();
        if let Some(e) = self.not_slip(at) {
            let loads = self.loads(&subject);
            return (!loads.is_empty()).then(|| (loads, self.slip_tail(e)));
        }
        if let Some(e) = self.together(at) {
            let loads = self.loads(&subject);
            return (!loads.is_empty()).then_some((loads, e));
        }
        let np = self.nps(at, false)?;
        let of = self.bodies_of(Some(&np.what))?;
        let loads = self.loads(&of);
        if loads.is_empty() {
            return None;
        }
        let end = match self.not_slip(np.end) {
            Some(e) => self.slip_tail(e),
            None => self.together(np.end).filter(|_| of.len() > 1 || matches!(np.what, Ref::System))?,
        };
        Some((loads, end))
    }

    fn not_slip(&self, i: usize) -> Option<usize> {
        let e = self
            .phrase(i, "does|do|did|will|must|should|would|can|is|are not")
            .or_else(|| self.phrase(i, "never"))?;
        let e = self.phrase(e, "to").unwrap_or(e);
        let e = self.phrase(e, "start|begin to").unwrap_or(e);
        self.phrase(e, SLIP).or_else(|| self.phrase(e, "slipping|sliding"))
    }

    fn together(&mut self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "will|can|still|then").unwrap_or(i);
        let e = self.phrase(e, "move|moves|moving|travel|travels|accelerate|stay|remain|slide|go|ride")?;
        let e = self.phrase(e, "along").unwrap_or(e);
        let e = self
            .phrase(e, "together")
            .or_else(|| self.phrase(e, "as one"))
            .or_else(|| self.phrase(e, "as a single? body|unit|whole|one"))?;
        let e = self.phrase(e, "body").unwrap_or(e);
        let e = self.phrase(e, &format!(",? without any? {SLIPPING}")).unwrap_or(e);
        Some(self.slip_tail(e))
    }

    /// `on Y`, `relative to the truck`, `over one another`, `backwards`: where it slips or does not.
    pub(super) fn slip_tail(&mut self, i: usize) -> usize {
        let mut end = self.phrase(i, "forwards|backwards|back|forward").unwrap_or(i);
        let on = self
            .phrase(end, "relative to")
            .or_else(|| self.phrase(end, "with respect to"))
            .or_else(|| self.phrase(end, "on|over|along|across|off|upon|against"));
        if let Some(e) = on {
            if let Some(e) = self.phrase(e, "each other").or_else(|| self.phrase(e, "one another|top")) {
                return e;
            }
            let saved = (self.latest.clone(), self.pair, self.about.clone());
            if let Some(np) = self.np(e)
                && matches!(np.what, Ref::Bodies(_))
            {
                end = np.end;
            }
            (self.latest, self.pair, self.about) = saved;
        }
        end
    }

    /// `the greatest acceleration of the truck for which the box does not slip`, `the largest value of F for which they
    /// move as one`, `the biggest pull the winch can give if the box is not to slip`.
    pub(super) fn slip_extreme(&mut self, i: usize) -> Option<usize> {
        if self.all_loads().is_empty() {
            return None;
        }
        let e =
            self.phrase(i, "the greatest|largest|maximum|biggest|highest|least|smallest|minimum possible?")?;
        let least = (i..e).any(|k| matches!(self.w(k), "least" | "smallest" | "minimum"));
        let letter = self
            .phrase(e, "value|magnitude of the? force?")
            .and_then(|e| Some((self.tok(self.skip(e))?, self.skip(e) + 1)))
            .filter(|(t, _)| t.letter().is_some() && !t.is("a") && !least);
        if let Some((t, after)) = letter {
            let letter = plain_index(&t.text);
            let (loads, end) = self.not_to_slip(after)?;
            self.push_ask(Target::Letter(letter), i, after);
            return Some(self.limit(loads, i, after, end));
        }
        let mut m = self.mention(e)?;
        m.start = i;
        let (loads, end) = self.not_to_slip(m.end)?;
        match m.sort {
            Sort::Coefficient if least => {
                if !self.ask_for(&m) {
                    return None;
                }
                // The motion told stays: it is what friction must bear.
                let span = self.span(i, end);
                self.told(
                    m.end,
                    end,
                    "about to slip: friction there is at its limit, and they still move together",
                );
                let facts = self.story.asks.last().map(|a| a.part).unwrap_or_default();
                self.story.motions.push(crate::story::MotionTold {
                    of: loads.clone(),
                    part: facts,
                    chapter: self.chapter,
                    span,
                    fact: Fact::AboutToSlip(loads),
                });
                return Some(end);
            }
            _ if least => return None,
            Sort::Acceleration { .. } => {
                if m.of.is_none() {
                    // Of what carries the load, or of both: while they stick it is the same.
                    m.of = Some(Ref::Bodies(loads.clone()));
                }
                if !self.ask_for(&m) {
                    return None;
                }
            }
            Sort::PlainForce => {
                let known = self.story.forces.iter().any(|f| f.role == Role::Applied);
                if known {
                    if !self.ask_for(&m) {
                        return None;
                    }
                } else {
                    let on = self.bodies_of(m.on.as_ref())?;
                    let [body] = on.as_slice() else { return None };
                    let span = self.span(i, m.end);
                    let f = self.force_on(Role::Applied, Some(*body), span);
                    self.describe_force(f, &m, m.way);
                    self.push_ask(Target::Force(f), i, m.end);
                }
            }
            _ => return None,
        }
        Some(self.limit(loads, i, m.end, end))
    }

    fn limit(&mut self, loads: Vec<usize>, i: usize, a: usize, end: usize) -> usize {
        let span = self.span(i, end);
        self.told(a, end, "about to slip: friction there is at its limit, and they still move together");
        self.fact(loads.clone(), span, Fact::AboutToSlip(loads));
        end
    }

    /// The condition after a greatest value: `for which A does not slip on B`, `that the truck can have without the
    /// crate slipping`, `before it slips`.
    fn not_to_slip(&mut self, i: usize) -> Option<(Vec<usize>, usize)> {
        // that can be applied, the wagon could have
        let mut at = i;
        for k in i..i + 8 {
            if matches!(self.w(k), "without" | "before" | "if" | "for" | "such" | "so" | "when" | "while") {
                at = k;
                break;
            }
            if matches!(self.w(k), "" | "," | ";" | "." | "and") {
                break;
            }
        }
        let harmless = |w: &str| {
            matches!(
                w,
                "that"
                    | "which"
                    | "can"
                    | "could"
                    | "may"
                    | "be"
                    | "have"
                    | "applied"
                    | "it"
                    | "the"
                    | "exerted"
                    | "given"
                    | "to"
                    | "is"
                    | "possible"
                    | "used"
            )
        };
        let between_ok = (i..at).all(|k| {
            harmless(self.w(k))
                || crate::lexicon::noun(self.w(k)).is_some()
                || self.tok(k).is_some_and(|t| t.label())
        });
        if !between_ok {
            return None;
        }
        if let Some(e) = self.phrase(at, "before") {
            let np = self.nps(e, false)?;
            let loads = self.loads(&self.bodies_of(Some(&np.what))?);
            let e = self
                .phrase(np.end, "slips|slides|slip|slide")
                .or_else(|| self.phrase(np.end, &format!("begins|starts|begin|start to {SLIP}")))
                .or_else(|| self.phrase(np.end, &format!("begins|starts|begin|start {SLIPPING}")))?;
            return (!loads.is_empty()).then(|| (loads, self.slip_tail(e)));
        }
        self.sticks(at)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{means, refused, told};

    const TRUCK: &str = "A crate of mass 40 kg stands on the floor of a truck. The coefficient of friction between the \
        crate and the floor of the truck is 0.4. The truck moves on a straight level road. ";

    #[test]
    fn the_greatest_acceleration_without_slipping() {
        for ask in [
            "Find the greatest acceleration of the truck for which the crate does not slip.",
            "Find the largest acceleration that the truck can have without the crate slipping.",
            "Find the maximum acceleration of the truck if the crate is not to slide.",
            "Find the greatest possible acceleration of the truck before the crate slips.",
            "Find the greatest acceleration for which the crate and the truck move together.",
            "Find the greatest acceleration of the truck such that the crate does not slide on it.",
        ] {
            let reading = told(&format!("{TRUCK}{ask}"));
            assert!(
                reading.diagnostics.iter().all(|d| d.refusal.is_none()),
                "{ask}: {:?}",
                reading.diagnostics
            );
            assert_eq!(
                reading.situation.stages.iter().map(|s| s.about_to_slip.len()).max(),
                Some(1),
                "{ask}"
            );
        }
    }

    #[test]
    fn a_load_that_sticks() {
        for said in [
            "accelerates at 2 m s^-2 and the crate does not slip.",
            "accelerates at 2 m s^-2 without the crate slipping.",
            "accelerates at 2 m s^-2. The crate does not move relative to the truck.",
            "accelerates at 2 m s^-2. The crate and the truck move together.",
            "accelerates at 2 m s^-2. Assume that the crate does not slide on the truck.",
        ] {
            let text = format!(
                "A crate of mass 40 kg stands on the floor of a truck. The truck moves on a straight level road and {said} \
                 Find the frictional force on the crate."
            );
            assert_eq!(refused(&text), Vec::<String>::new(), "{said}");
            assert!(
                text.contains("together")
                    || means(&text, "slip").contains("no slipping")
                    || said.contains("move")
                    || said.contains("slide"),
                "{said}"
            );
        }
    }

    #[test]
    fn blocks_of_which_nothing_is_said_are_refused() {
        let text = "A block A of mass 4 kg rests on a block B of mass 6 kg. B stands on a smooth horizontal floor. A \
            horizontal force of 20 N acts on B. Find the acceleration of A.";
        assert_eq!(refused(text), ["it is not said whether it is smooth or rough between A and B"]);
    }
}
