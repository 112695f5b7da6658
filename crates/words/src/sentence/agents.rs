//! Who does it, where that is no body of the story: `A winch hauls ...`, `A student attaches ...`.

use crate::adjective::adjective;
use crate::lexicon;
use crate::noun::Ref;
use crate::quantity::quantity_word;
use crate::reader::Reader;
use crate::verbs::{self, Frame};
use model::Form;

impl Reader<'_> {
    /// `A worker pulls the box`, `A student attaches ...`: who does it is no body of the story.
    pub(super) fn person_agent(&mut self, i: usize) -> Option<usize> {
        if self.story.bodies.iter().any(|b| b.form == Form::Lift)
            || !matches!(self.w(i), "a" | "an" | "the" | "one")
        {
            return None;
        }
        let mut at = self.skip(i + 1);
        while self.tok(at).is_some_and(|t| {
            t.is_word()
                && lexicon::noun(&t.lower).is_none()
                && !lexicon::glue(&t.lower)
                && !verbs::is_verb(&t.lower)
        }) && at < i + 4
        {
            at = self.skip(at + 1);
        }
        let noun = self.w(at);
        if lexicon::noun(noun) != Some(lexicon::Noun::Body(Form::Person)) {
            return None;
        }
        let verb = self.skip(at + 1);
        let acts = matches!(verbs::frame(self.w(verb)), Some(Frame::Pull | Frame::Exert))
            || matches!(self.w(verb), "attaches" | "connects" | "joins" | "ties" | "hangs" | "releases");
        if !acts || self.w(verb) == "released" {
            return None;
        }
        self.scene(i, verb);
        self.about = Some(Ref::Thing);
        self.subject = Vec::new();
        Some(verb)
    }

    /// `A tug pushes the barge with a force of 1500 N`: what pushes with a force that is given is no body of the story,
    /// unless it is one already or has a mass.
    pub(super) fn vehicle_agent(&mut self, i: usize) -> Option<usize> {
        if !matches!(self.w(i), "a" | "an" | "another" | "two" | "three") {
            return None;
        }
        let mut at = self.skip(i + 1);
        while at < i + 4 && adjective(self.w(at)).is_some() && lexicon::noun(self.w(at)).is_none() {
            at = self.skip(at + 1);
        }
        let word = self.w(at);
        let form = lexicon::noun(word);
        if !matches!(form, Some(lexicon::Noun::Body(Form::Vehicle)))
            || self.story.bodies.iter().any(|b| b.noun == word)
        {
            return None;
        }
        let verb = self.skip(at + 1);
        let acts =
            verbs::frame(self.w(verb)) == Some(Frame::Pull) || matches!(self.w(verb), "exerts" | "applies");
        let force = (verb..self.hi).any(|k| {
            matches!(self.w(k), "force" | "forces" | "pull" | "push")
                && matches!(self.w(self.skip(k + 1)), "of" | "on")
        });
        // A mass told of it anywhere makes it a body.
        let massive = self.toks.windows(2).any(
            |t| matches!(t, [x, y] if x.lower == word && matches!(y.lower.as_str(), "of" | "has" | "'s")),
        ) || (verb..self.hi).any(|k| self.w(k) == word);
        if !acts || !force || massive {
            return None;
        }
        self.scene(i, verb);
        self.about = Some(Ref::Thing);
        self.subject = Vec::new();
        Some(verb)
    }

    /// An agent that only pulls or pushes: `A winch`, `The driver`, `A dockhand`.
    pub(super) fn agent(&mut self, i: usize) -> Option<usize> {
        let mut at = self.skip(i);
        if !matches!(self.w(at), "a" | "an" | "the" | "its" | "one" | "two" | "some") {
            return None;
        }
        at += 1;
        let from = at;
        while at < from + 4
            && self.tok(at).is_some_and(|t| {
                t.is_word()
                    && !lexicon::glue(&t.lower)
                    && !verbs::starts_clause(&t.lower)
                    && !quantity_word(&t.lower)
            })
        {
            at += 1;
        }
        if at == from {
            return None;
        }
        // A place: "a winch at the top of a ramp".
        let mut verb = at;
        if let Some(e) = self.place(at) {
            verb = e;
        }
        let v = verbs::frame(self.w(verb));
        let dangerous = (from..at).any(|k| self.w(k) != "engine" && lexicon::dangerous(self.w(k)));
        if dangerous
            || !(matches!(v, Some(Frame::Pull | Frame::Exert))
                || matches!(self.w(verb), "attaches" | "connects" | "joins" | "ties" | "hangs"))
        {
            return None;
        }
        self.scene(i, at);
        self.about = Some(Ref::Thing);
        self.subject = Vec::new();
        Some(verb)
    }
}
