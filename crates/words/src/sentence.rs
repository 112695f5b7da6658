//! Reads one sentence from left to right: what it speaks of, what it says of it, and what is left over.
//!
//! At each place the readers are tried in a fixed order, from the narrow (settings, commands, set phrases) to the
//! wide (a predicate, a quantity, a noun phrase); the first that fits takes its words. What none of them takes
//! stays open, and the [account](crate::account) decides whether it may matter.

mod again;
mod agents;
pub(crate) mod angles;
mod asks;
mod clauses;
mod commands;
mod component;
mod conditions;
mod effects;
mod engine;
mod events;
mod extremes;
mod forces_off;
mod heights;
mod how;
mod leaning;
mod left_out;
mod manner;
mod moment_names;
mod moments;
mod narrate;
mod peaks;
mod phases;
mod ratios;
mod sayings;
mod scale;
mod settings;
mod short_of;
mod slip;
mod spells;
mod stays;
mod template;
mod tight;
mod truths;
mod unchanged;
mod when;
mod whole;

use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::{Fact, Target};
use crate::verbs::{self, Frame};
use exact::{Dimension, Value};
use model::{Diagnostic, Kind, Refusal, State};

impl Reader<'_> {
    /// Reads the sentence between `lo` and `hi`.
    pub(crate) fn sentence(&mut self, lo: usize, hi: usize, question: bool, starts_asking: bool) {
        self.lo = lo;
        self.hi = hi;
        self.asking = starts_asking;
        self.showing = false;
        self.first_ask = self.story.asks.len();
        self.setting = Vec::new();
        self.joins = Vec::new();
        self.about = None;
        self.commanded = false;
        self.run_end = None;
        self.subject = Vec::new();
        self.moments = None;
        let mut i = self.take_template(lo);
        let mut guard = 0;
        while i < hi && guard < 4 * (hi - lo) + 16 {
            guard += 1;
            i = self.skip(i);
            if i >= hi {
                break;
            }
            let next = self.step(i, question);
            i = if next > i { next } else { i + 1 };
        }
        self.finish_joins();
        self.how_much_further();
        self.make_template(question);
        if self.asking && self.story.asks.len() == self.first_ask && self.template.is_empty() {
            let last_of_stem = self.part == 0
                && self.parts.len() > 1
                && self.parts.first().and_then(|p| p.sentences.last()).is_some_and(|s| s.lo == lo);
            if last_of_stem || self.pending.is_some() {
                self.list_asking = true;
            } else if self.commanded && self.part == 0 {
                let d = Diagnostic::refuse(Refusal::Unread, "it is not clear what is asked here")
                    .at(self.span(lo, hi))
                    .hint("ask, for example: Find the tension in the tow-bar.");
                self.diagnostics.push(d);
            }
        }
    }

    /// Reads one thing at `i` and gives the place after it; `i` itself where nothing fits.
    fn step(&mut self, i: usize, question: bool) -> usize {
        // A sign said over and over says nothing new.
        let sign = |t: &crate::token::Token| !t.is_word() && t.number().is_none();
        if self.tok(i).is_some_and(sign) && self.w(i) == self.w(i + 1) {
            return i + 1;
        }
        if let Some(e) = self.happening(i) {
            return e;
        }
        if let Some(e) = self.phase(i).or_else(|| self.height_phrase(i)) {
            return e;
        }
        if let Some(e) = self.settings(i) {
            return e;
        }
        if let Some(e) = self.manner(i) {
            return e;
        }
        if let Some(e) = self.diagram(i) {
            return e;
        }
        if let Some(e) = self.command(i, question) {
            return e;
        }
        // "Show that the speed after 2 s is 4 m/s": the value stands behind the moment.
        if self.showing
            && self.story.asks.get(self.first_ask..).and_then(|a| a.last()).is_some_and(|a| a.show.is_none())
            && let Some(e) = self.show_value(i)
        {
            return e;
        }
        if let Some(e) = self.slip(i) {
            return e;
        }
        if let Some(e) = self.conditions(i) {
            return e;
        }
        if let Some(e) = self.angle_here(i) {
            return e;
        }
        if let Some(e) = self.below_hangs(i) {
            return e;
        }
        if !self.asking
            && let Some(e) = self.inverted(i)
        {
            return e;
        }
        if let Some(e) = self.under_force(i) {
            return e;
        }
        if let Some(e) = self.touch(i) {
            return e;
        }
        if let Some(e) = self.one_above(i) {
            return e;
        }
        if let Some(e) = self.opposed(i) {
            return e;
        }
        if let Some(e) = self.middle(i) {
            return e;
        }
        if let Some(e) = self.scale(i) {
            return e;
        }
        if let Some(e) = self.engine_off(i) {
            return e;
        }
        if self.asking && self.drop.is_some() && matches!(self.w(i), "at" | "by") {
            let t = self.trip(i);
            if t > i {
                return t;
            }
        }
        if let Some(e) = self.string_goes_on(i).or_else(|| self.told_loosely(i)) {
            return e;
        }
        if let Some(e) = self.scenery(i) {
            return e;
        }
        let w = self.w(i);
        // How far, how long: 10 s after they start.
        if matches!(w, "in" | "during" | "after" | "for" | "over" | "within") && self.time_ahead(i)
            || self.tok(i).is_some_and(|t| t.number().is_some()) && self.time_ahead(i)
        {
            let t = self.trip(i);
            if t > i {
                return t;
            }
        }
        if self.asking
            && (self.story.asks.len() > self.first_ask
                || self.tok(i).is_some_and(|t| t.number().is_some())
                || matches!(w, "in" | "during" | "for" | "through" | "at"))
        {
            let t = self.trip(i);
            if t > i {
                return t;
            }
        }
        if matches!(w, "before" | "until")
            && (i..i + 9).any(|k| {
                matches!(
                    self.w(k),
                    "rest"
                        | "stop"
                        | "stops"
                        | "stopping"
                        | "halt"
                        | "reaches"
                        | "reach"
                        | "hits"
                        | "reaching"
                        | "standstill"
                )
            })
        {
            self.glue(i, i + 1);
            return i + 1;
        }
        // What comes after a happening that was not understood is left unread.
        if w == "after" && matches!(self.w(self.skip(i + 1)), "this" | "that" | "which" | "") {
            return i;
        }
        if matches!(w, "after" | "once" | "later")
            && (i + 1..i + 8).any(|k| {
                matches!(
                    self.w(k),
                    "reaches"
                        | "hits"
                        | "lands"
                        | "strikes"
                        | "reached"
                        | "hit"
                        | "struck"
                        | "breaks"
                        | "snaps"
                )
            })
        {
            return i;
        }
        if let Some(e) = self.clause_start(i) {
            return e;
        }
        // The predicate of what we speak of.
        if verbs::frame(w).is_some()
            && (self.about.is_some()
                || w.ends_with("ing")
                || matches!(verbs::frame(w), Some(Frame::Neglect | Frame::Model)))
            && !self.noun_here(i)
            && let Some(e) = self.predicate(i)
        {
            return e;
        }
        if let (true, Some(pending)) =
            (self.asking && matches!(w, "by" | "on" | "in" | "of" | "between"), self.pending.clone())
        {
            let mut m = Mention { start: i, head_end: i, end: i, ..pending };
            let end = self.posts(&mut m, i);
            m.end = end;
            if end > i && self.ask_for(&m) {
                return end;
            }
        }
        if let Some(e) = self.that_of(i) {
            return e;
        }
        if !self.asking
            && i > self.lo
            && matches!(self.w(i - 1), "and" | "," | ";" | "while" | "whilst" | "but" | "with")
            && let Some(e) = self.once_more(i)
        {
            return e;
        }
        if let Some(e) = self.component(i) {
            return e;
        }
        if !self.asking
            && let Some(e) = self.coefficients(i)
        {
            return e;
        }
        if let Some(e) = self.quantity_said(i, question) {
            return e;
        }
        if let Some(e) = self.person_agent(i) {
            return e;
        }
        if let Some(e) = self.vehicle_agent(i) {
            return e;
        }
        if let Some(e) = self.subject_named(i) {
            return e;
        }
        if verbs::is_verb(w)
            && let Some(e) = self.predicate(i)
        {
            return e;
        }
        if let Some(e) = self.agent(i) {
            return e;
        }
        i
    }

    /// A word that starts a clause: what stands next may be a new subject.
    fn clause_start(&mut self, i: usize) -> Option<usize> {
        let w = self.w(i);
        if matches!(
            w,
            "," | ";"
                | ":"
                | "and"
                | "but"
                | "so"
                | "while"
                | "whilst"
                | "when"
                | "then"
                | "where"
                | "as"
                | "after"
                | "("
                | ")"
                | "["
                | "]"
                | "if"
                | "given"
        ) {
            if w == "given" && self.w(self.skip(i + 1)) == "that" {
                self.asking = false;
                self.glue(i, self.skip(i + 1) + 1);
                return Some(self.skip(i + 1) + 1);
            }
            self.glue(i, i + 1);
            return Some(i + 1);
        }
        None
    }

    /// A quantity: told in a statement, asked for in a question, or left for the parts to finish.
    fn quantity_said(&mut self, i: usize, question: bool) -> Option<usize> {
        let m = self.mention(i)?;
        let unfinished = self.asking
            && self.skip(m.end) >= self.hi
            && m.of.is_none()
            && m.on.is_none()
            && matches!(m.sort, Sort::PlainForce | Sort::Reaction | Sort::Resultant | Sort::Tension)
            && self.story.asks.len() == self.first_ask
            && self.part == 0
            && self.parts.len() > 1;
        if unfinished
            || (self.asking
                && matches!(self.w(m.end), "exerted" | "acting")
                && self.skip(m.end + 1) >= self.hi)
        {
            let end = if unfinished { m.end } else { m.end + 1 };
            self.glue(i, end);
            self.pending = Some(m);
            return Some(end);
        }
        // "(b) The tension in the tow-bar.": asked without a verb.
        if !self.asking
            && self.part > 0
            && i <= self.skip(self.lo)
            && m.amounts.is_empty()
            && m.pairs.is_empty()
            && self.skip(m.end) >= self.hi
            && (question || !self.story.asks.is_empty())
        {
            self.asking = true;
        }
        let good = if self.asking { self.ask_for(&m) } else { self.tell(&m) };
        if good {
            let mut end = m.end;
            if self.asking
                && m.sort == Sort::Mass
                && matches!(self.story.asks.last().map(|a| &a.target), Some(Target::Letter(_)))
            {
                end = self.skip(end) + 1;
            }
            if self.asking {
                for r in [&m.of, &m.on, &m.by] {
                    if let Some(r @ (Ref::Bodies(_) | Ref::System)) = r {
                        self.set_about(r.clone());
                        break;
                    }
                }
                if let Some(e) = self.show_value(end) {
                    end = e;
                }
            }
            self.glue(m.start, end);
            return Some(end);
        }
        None
    }

    /// A noun phrase, which becomes what the clause is about; with those before it where the verb is plural.
    fn subject_named(&mut self, i: usize) -> Option<usize> {
        let mut np = self.nps(i, false)?;
        let end = self.after_np(&np.what, np.end);
        // "Light strings attached to both sides": by now it is known how many.
        if let Ref::Links(l) = &np.what
            && self.link.len() > l.len()
            && l.iter().all(|l| self.link.contains(l))
        {
            np.what = Ref::Links(self.link.clone());
        }
        let joined =
            self.run_end.filter(|&e| e <= i && (e..i).all(|k| matches!(self.w(k), "and" | "," | "\n")));
        let plural_verb = matches!(
            self.w(self.skip(end)),
            "are"
                | "were"
                | "have"
                | "lie"
                | "hang"
                | "rest"
                | "move"
                | "stand"
                | "both"
                | "start"
                | "travel"
        );
        if let (Some(_), true, Ref::Bodies(more), Some(Ref::Bodies(first))) =
            (joined, plural_verb, &np.what, &self.about)
        {
            let mut all = first.clone();
            all.extend(more.iter().filter(|b| !first.contains(b)));
            self.latest.clone_from(&all);
            if let [x, y] = all.as_slice() {
                self.pair = Some((*x, *y));
            }
            self.set_about(Ref::Bodies(all));
        } else {
            self.set_about(np.what);
        }
        self.run_end = Some(end);
        Some(end)
    }

    pub(crate) fn set_about(&mut self, what: Ref) {
        match &what {
            Ref::Bodies(b) => self.subject.clone_from(b),
            Ref::System => self.subject = (0..self.story.bodies.len()).collect(),
            _ => {}
        }
        self.about = Some(what);
    }

    /// Is this word a noun here, though it could be a verb (`a lift`, `the rest`)?
    fn noun_here(&self, i: usize) -> bool {
        i > 0 && matches!(self.w(i.wrapping_sub(1)), "the" | "a" | "an") && i > self.lo
    }

    /// Is a time the next amount here?
    fn time_ahead(&self, i: usize) -> bool {
        let mut at = i;
        for _ in 0..5 {
            if let Some((_, after)) = self.number(at)
                && let Some((d, _, _)) = self.unit(after)
            {
                return d == Dimension::TIME;
            }
            if !matches!(
                self.w(at),
                "in" | "during"
                    | "after"
                    | "for"
                    | "over"
                    | "within"
                    | "the"
                    | "a"
                    | "its"
                    | "their"
                    | "first"
                    | "next"
                    | "time"
                    | "period"
                    | "of"
                    | "interval"
            ) {
                return false;
            }
            at = self.skip(at + 1);
        }
        false
    }

    /// `State` facts from words: at rest, in equilibrium.
    pub(crate) fn state(&mut self, a: usize, b: usize, state: State, means: &str) {
        let span = self.span(a, b);
        let of = self.subject.clone();
        self.told(a, b, means.to_owned());
        self.fact(of, span, Fact::State(state));
    }

    /// Remembers the letters of an amount for what they measure.
    pub(crate) fn letters_of(&mut self, value: &Value, kind: Kind) {
        for l in value.symbols() {
            self.letter(&l, kind);
        }
    }
}
