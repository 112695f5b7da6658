//! How an answer is to be found and given: `using Newton's second law`, `in m s⁻²`, `giving your answer in terms of g`,
//! `show your working`. None of it changes what is asked.

use crate::lexicon;
use crate::reader::Reader;
use crate::story::{AskTold, Target};
use exact::Rational;
use model::{Diagnostic, Refusal};

/// Words of a phrase that says by what method: `by considering the forces on each particle`.
const METHOD: &str = "newton newton's 's second third first law laws equation equations of motion the a an for to each both whole \
     particle particles body bodies block blocks system separately in turn and considering writing down forming \
     applying using resolving drawing setting up result results answer answers part parts your previous above this \
     these that those model modelling information vertically horizontally forces acting on by as one suitable \
     appropriate connected alone together only whole just upper lower other diagram diagrams free-body force otherwise or i ii iii iv b c d e ( )";

/// What a method begins with, so that `by 2 m` and `using a rope` are none.
const BEGINS: &str = "considering writing forming applying resolving drawing setting newton newton's equation equations the your this \
     part answer parts these result";

impl Reader<'_> {
    /// A phrase of the manner. The place after it.
    pub(super) fn manner(&mut self, i: usize) -> Option<usize> {
        self.method(i)
            .or_else(|| self.unit_wanted(i))
            .or_else(|| self.form_wanted(i))
            .or_else(|| self.working_wanted(i))
            .or_else(|| self.direction_wanted(i))
    }

    /// `By writing down an equation of motion for each particle, find`; `use your equations to find`.
    fn method(&mut self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "hence?").unwrap_or(i);
        let e = self.phrase(e, "by|using|use|from|apply|applying|considering|consider")?;
        let gerund = matches!(self.w(e - 1), "apply" | "applying" | "considering" | "consider");
        if !gerund && !BEGINS.split_ascii_whitespace().any(|w| w == self.w(self.skip(e))) {
            return None;
        }
        let mut at = self.skip(e);
        let mut telling = gerund;
        for _ in 0..24 {
            let w = self.w(at);
            if w == "," && self.asks_next(at + 1) {
                at = self.skip(at + 1);
                break;
            }
            if self.asks_next(at) {
                break;
            }
            let body = matches!(lexicon::noun(w), Some(lexicon::Noun::Body(_)));
            let known = METHOD.split_ascii_whitespace().any(|m| m == w)
                || body
                || self.tok(at).is_some_and(|t| t.label());
            if !known {
                return None;
            }
            telling |= matches!(
                w,
                "law"
                    | "laws"
                    | "equation"
                    | "equations"
                    | "motion"
                    | "considering"
                    | "resolving"
                    | "forces"
                    | "model"
                    | "part"
                    | "parts"
                    | "answer"
                    | "answers"
                    | "result"
                    | "results"
            );
            at = self.skip(at + 1);
        }
        if !telling || !self.asks_next(at) {
            return None;
        }
        let end = self.phrase(at, "to").unwrap_or(at);
        self.told(i, end, "how it may be found");
        Some(end)
    }

    /// Does a command or a question word stand here?
    fn asks_next(&self, i: usize) -> bool {
        let at = self.phrase(i, "to").unwrap_or_else(|| self.skip(i));
        let at = self.phrase(at, "hence|also").unwrap_or(at);
        self.is_command(self.w(at)) && self.w(at) != "work"
            || matches!(self.w(at), "what" | "how")
            || self.phrase(at, "work out").is_some()
    }

    /// `in m s⁻²`, `in newtons`: only units in which the answer is given anyhow.
    fn unit_wanted(&mut self, i: usize) -> Option<usize> {
        if !self.asking || self.w(i) != "in" {
            return None;
        }
        let (_, size, e) = self.unit(i + 1)?;
        if size != Rational::ONE
            || self.tok(i + 1).is_some_and(|t| t.label() && self.by_label(&t.text).is_some())
        {
            return None;
        }
        self.told(i, e, "the unit of the answer");
        if size != Rational::ONE {
            let d = Diagnostic::refuse(Refusal::Unread, "answers are given in SI units, not in this one")
                .at(self.span(i, e))
                .hint("leave it out, or ask in newtons, kilograms, metres and seconds");
            self.diagnostics.push(d);
        }
        Some(e)
    }

    /// `giving your answers in exact form`, `as a multiple of g`, `in its simplest form`.
    fn form_wanted(&mut self, i: usize) -> Option<usize> {
        let at = self.phrase(i, ",").filter(|_| self.asking).unwrap_or(i);
        let given = self
            .phrase(at, "and? give|giving|leave|leaving|express|expressing|state|stating your|the|each|both|all|any? numerical|final|exact? answer|answers|result|results")
            .or_else(|| self.phrase(at, "giving|leaving|expressing it|them|each").filter(|_| self.asking));
        let form = |r: &Self, e: usize| -> Option<usize> {
            r.phrase(e, "as a|an single|exact|simplified? fraction|surd|decimal|integer")
                .or_else(|| r.phrase(e, "in exact|surd|simplest|simplified|surd|fractional form"))
                .or_else(|| r.phrase(e, "in its|their|the simplest form"))
                .or_else(|| r.phrase(e, "exactly"))
                .or_else(|| {
                    let e = r.phrase(e, "as a multiple of")?;
                    r.tok(r.skip(e)).filter(|t| t.letter().is_some()).map(|_| r.skip(e) + 1)
                })
        };
        match given {
            Some(e) => {
                let end = form(self, e).unwrap_or(e);
                self.multiple_of_g(e, end);
                self.told(i, end, "how the answer is wanted");
                Some(end)
            }
            None if self.asking => {
                let end = form(self, at)?;
                self.multiple_of_g(at, end);
                self.told(i, end, "how the answer is wanted");
                Some(end)
            }
            None => None,
        }
    }

    fn multiple_of_g(&mut self, a: usize, b: usize) {
        if (a..b).any(|k| self.tok(k).is_some_and(|t| t.text == "g")) {
            self.story.gravity_letter = true;
        }
    }

    /// `Show your working`, `Give a reason for your answer`, `Justify your answer`: a solution shows it anyhow.
    fn working_wanted(&mut self, i: usize) -> Option<usize> {
        let e = self
            .phrase(i, "you? must? should? show|showing|include all|your|clear|full|necessary|detailed? your? working|method|reasoning|steps")
            .or_else(|| self.phrase(i, "justify|justifying|explain|explaining|support|supporting|check your|the|this answer|answers|conclusion|reasoning"))
            .or_else(|| self.phrase(i, "give|giving|state|stating a|your|one? reason|reasons|justification for your|this answer|answers|conclusion"))
            .or_else(|| self.phrase(i, ",? giving|with|and? give? a|your reason|reasons|justification").filter(|&e| self.skip(e) >= self.hi || matches!(self.w(e), "," | "." | "for")))
            .or_else(|| self.phrase(i, "explain|explaining how|why you know|knew|can? tell?"))
            .or_else(|| self.phrase(i, ",? by means? of? a? suitable? calculation|calculations ,?").filter(|_| self.asking))
            .or_else(|| self.phrase(i, "say|explain why").filter(|&e| self.skip(e) >= self.hi))
            .or_else(|| self.phrase(i, "show|showing|state|stating|with|include|including|give|giving the? units").filter(|_| self.asking))?;
        let e = self.phrase(e, "for|to your answer|answers").unwrap_or(e);
        // Alone it asks nothing; after a question it is part of it.
        if self.story.asks.is_empty() && !self.asking {
            return None;
        }
        self.told(i, e, "the worked solution shows it");
        Some(e)
    }

    /// `stating its direction`, `and state the direction of each`: a direction beside each acceleration asked for.
    fn direction_wanted(&mut self, i: usize) -> Option<usize> {
        let e = self
            .phrase(i, ",? and? also? state|stating|say|saying|give|giving|find|determine|specify|specifying|indicating|noting the|its|their direction|directions")
            .or_else(|| self.phrase(i, "and the|its|their direction|directions").filter(|_| self.asking))?;
        let mut end = self
            .phrase(e, "of this|the|each|its|that|their? acceleration|accelerations?")
            .filter(|&e2| e2 > e + 1)
            .unwrap_or(e);
        end = self.phrase(end, "in each case").unwrap_or(end);
        if let Some(of) = self.phrase(e, "of").filter(|_| end == e)
            && self.nps(of, false).is_some()
        {
            return None;
        }
        let first = self.first_ask;
        let of_acceleration = |a: &AskTold| match &a.target {
            Target::Acceleration { of, .. } if !of.is_empty() => Some(of.clone()),
            _ => None,
        };
        let mine: Vec<usize> = (first..self.story.asks.len())
            .filter(|&n| self.story.asks.get(n).and_then(of_acceleration).is_some())
            .collect();
        if mine.is_empty() || mine.len() != self.story.asks.len() - first {
            return None;
        }
        self.told(i, end, "asked: the direction");
        for n in mine.into_iter().rev() {
            let Some(ask) = self.story.asks.get(n).cloned() else { continue };
            let Some(of) = of_acceleration(&ask) else { continue };
            let asked = AskTold {
                target: Target::AccelerationWay(of.clone()),
                phrase: format!("direction of the acceleration of {}", self.names(&of)),
                show: None,
                ..ask
            };
            self.story.asks.insert(n + 1, asked);
        }
        Some(end)
    }

    /// `T, the tension in the string`: a letter for what follows.
    pub(super) fn letter_before(&mut self, i: usize) -> Option<usize> {
        let t = self.tok(i)?;
        if t.letter().is_none() || self.by_label(&t.text).is_some() {
            return None;
        }
        let e = self.phrase(i + 1, ",")?;
        if self.w(self.skip(e)) != "the" || self.quantity_head(e).is_none() {
            return None;
        }
        self.told(i, e, "a letter for it");
        Some(e)
    }
}
