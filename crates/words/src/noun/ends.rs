//! Ends of strings and floors of lifts: `the other end of the string`, `the floor of the cage`.

use crate::lexicon::Noun;
use crate::noun::{Np, Ref};
use crate::reader::Reader;
use model::Form;

impl Reader<'_> {
    /// `one end of the string`, `its other end`, `the ends`.
    pub(crate) fn ends(&mut self, i: usize) -> Option<Np> {
        let mut at = i;
        for _ in 0..4 {
            if matches!(
                self.w(at),
                "the"
                    | "one"
                    | "each"
                    | "either"
                    | "its"
                    | "their"
                    | "other"
                    | "two"
                    | "opposite"
                    | "both"
                    | "free"
                    | "lower"
                    | "upper"
                    | "a"
                    | "second"
                    | "first"
                    | "far"
            ) {
                at = self.skip(at + 1);
            }
        }
        if !matches!(self.w(at), "end" | "ends" | "extremity" | "extremities") {
            return None;
        }
        at += 1;
        if self.w(self.skip(at)) == "of" {
            let of = self.skip(at) + 1;
            match self.front(self.skip(of)).map(|f| f.known) {
                Some(Some(Noun::Link(_))) => {
                    let np = self.np(of)?;
                    if let Ref::Links(links) = np.what {
                        self.glue(i, of);
                        return Some(Np { what: Ref::Ends(links), end: np.end });
                    }
                    return None;
                }
                // The end of a bench is a place.
                Some(Some(Noun::Surface { .. })) => return None,
                _ if self.phrase(of, "it|this").is_some() => {
                    self.glue(i, of + 1);
                    return Some(Np { what: Ref::Ends(self.link.clone()), end: of + 1 });
                }
                _ => return None,
            }
        }
        if self.link.is_empty() {
            return None;
        }
        self.glue(i, at);
        Some(Np { what: Ref::Ends(self.link.clone()), end: at })
    }

    /// What the noun of the phrase at `i` names, as far as the lexicon knows.
    pub(crate) fn ahead(&self, i: usize) -> Option<Noun> {
        self.front(self.skip(i))?.known
    }

    /// Does a noun phrase about a lift start here?
    pub(crate) fn lift_ahead(&self, i: usize) -> bool {
        self.front(self.skip(i)).is_some_and(|f| f.known == Some(Noun::Body(Form::Lift)))
    }

    /// Does the bed of a truck, or the top of a block, come next?
    pub(crate) fn bed_ahead(&self, i: usize) -> bool {
        let mut at = self.skip(i);
        while matches!(
            self.w(at),
            "the" | "its" | "a" | "horizontal" | "level" | "flat" | "rough" | "smooth" | "open"
        ) {
            at = self.skip(at + 1);
        }
        matches!(self.w(at), "floor" | "back" | "bed" | "deck" | "roof" | "flatbed" | "platform" | "top")
            && self.w(at + 1) == "of"
            && self.front(self.skip(at + 2)).is_some_and(|f| {
                matches!(f.known, Some(Noun::Body(Form::Vehicle | Form::Trailer | Form::Block)))
            })
    }

    /// `the rough horizontal floor of a truck`, `the back of the lorry`, `the wagon floor`, `the top of block B`: the body
    /// itself, on which a load stands.
    fn bed(&mut self, i: usize) -> Option<Np> {
        let mut at = i;
        let mut smooth = None;
        while matches!(
            self.w(at),
            "the" | "its" | "a" | "horizontal" | "level" | "flat" | "rough" | "smooth" | "open"
        ) {
            match self.w(at) {
                "rough" => smooth = Some(false),
                "smooth" => smooth = Some(true),
                _ => {}
            }
            at = self.skip(at + 1);
        }
        const BED: &[&str] = &["floor", "back", "bed", "deck", "roof", "flatbed", "platform", "top", "body"];
        let carrier =
            |f: Option<Noun>| matches!(f, Some(Noun::Body(Form::Vehicle | Form::Trailer | Form::Block)));
        let np = if BED.contains(&self.w(at)) && self.w(at + 1) == "of" {
            let ahead = self.skip(at + 2);
            let label = self.tok(ahead).is_some_and(|t| t.label_of(self));
            if !label && !self.front(ahead).is_some_and(|f| carrier(f.known)) {
                return None;
            }
            self.np(ahead)?
        } else if carrier(crate::lexicon::noun(self.w(at)))
            && matches!(self.w(at + 1), "floor" | "bed" | "deck" | "flatbed")
            && at > i
        {
            let one = crate::lexicon::singular(self.w(at));
            let body = self.story.bodies.iter().position(|b| b.noun == one)?;
            Np { what: Ref::Bodies(vec![body]), end: at + 2 }
        } else {
            return None;
        };
        let Ref::Bodies(b) = &np.what else { return None };
        if let (Some(smooth), Some(&b)) = (smooth, b.first()) {
            let span = self.span(i, np.end);
            self.story.rubs.push((vec![b], smooth, span));
        }
        self.glue(i, at + 1);
        self.told(i, np.end, "what the load stands on");
        Some(np)
    }

    /// `the floor of the lift`, `its floor`, `the floor` inside a lift.
    pub(super) fn floor(&mut self, i: usize) -> Option<Np> {
        if let Some(np) = self.bed(i) {
            return Some(np);
        }
        let mut at = i;
        while matches!(self.w(at), "the" | "its" | "a" | "horizontal" | "level" | "flat") {
            at = self.skip(at + 1);
        }
        let scale = self
            .phrase(at, "set of bathroom? scales")
            .or_else(|| self.phrase(at, "bathroom|spring|weighing? scale|scales|balance|machine"))
            .filter(|_| matches!(self.w(at), "scale" | "scales" | "bathroom" | "weighing" | "set"));
        if let Some(e) = scale {
            at = e - 1;
        } else if !matches!(self.w(at), "floor" | "base") {
            return None;
        }
        let after = self.skip(at + 1);
        let lifts: Vec<usize> = self
            .story
            .bodies
            .iter()
            .enumerate()
            .filter(|(_, b)| b.form == Form::Lift)
            .map(|(n, _)| n)
            .collect();
        if self.w(after) == "of" {
            let front = self.front(self.skip(after + 1))?;
            if front.known == Some(Noun::Body(Form::Lift)) {
                let np = self.np(after + 1)?;
                if let Ref::Bodies(b) = np.what {
                    let lift = *b.first()?;
                    self.told(i, after + 1, "the floor pushes up on what stands on it: a normal reaction");
                    return Some(Np { what: Ref::Floor(lift), end: np.end });
                }
            }
            return None;
        }
        let &lift = lifts.first()?;
        self.told(i, at + 1, "the floor pushes up on what stands on it: a normal reaction");
        Some(Np { what: Ref::Floor(lift), end: at + 1 })
    }
}
