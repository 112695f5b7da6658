//! Reads one sentence from left to right: what it speaks of, what it says of it, and what is left over.

use crate::lexicon;
use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::*;
use crate::token::Token;
use crate::verbs::{self, Frame};
use exact::{Angle, Dimension, Value};
use model::{Accuracy, Kind, State};

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
        self.make_template(question);
        if self.asking && self.story.asks.len() == self.first_ask && self.template.is_empty() {
            let last_of_stem = self.part == 0
                && self.parts.len() > 1
                && self.parts.first().and_then(|p| p.sentences.last()).is_some_and(|s| s.lo == lo);
            if last_of_stem || self.pending.is_some() {
                self.list_asking = true;
            } else if self.commanded && self.part == 0 {
                let d =
                    model::Diagnostic::refuse(model::Refusal::Unread, "it is not clear what is asked here")
                        .at(self.span(lo, hi))
                        .hint("ask, for example: Find the tension in the tow-bar.");
                self.diagnostics.push(d);
            }
        }
    }

    /// Reads one thing at `i` and gives the place after it; `i` itself where nothing fits.
    fn step(&mut self, i: usize, question: bool) -> usize {
        if let Some(e) = self.settings(i) {
            return e;
        }
        if let Some(e) = self.command(i, question) {
            return e;
        }
        if let Some(e) = self.conditions(i) {
            return e;
        }
        if let Some(e) = self.angle_here(i) {
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
                || matches!(w, "in" | "during" | "for" | "through"))
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
        // A new clause: what stands next is a new subject.
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
                return self.skip(i + 1) + 1;
            }
            self.glue(i, i + 1);
            return i + 1;
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
            let mut m = crate::quantity::Mention { start: i, head_end: i, end: i, ..pending };
            let end = self.posts(&mut m, i);
            m.end = end;
            if end > i && self.ask_for(&m) {
                return end;
            }
        }
        if let Some(e) = self.that_of(i) {
            return e;
        }
        if let Some(m) = self.mention(i) {
            let unfinished = self.asking
                && self.skip(m.end) >= self.hi
                && m.of.is_none()
                && m.on.is_none()
                && matches!(
                    m.sort,
                    crate::quantity::Sort::PlainForce
                        | crate::quantity::Sort::Reaction
                        | crate::quantity::Sort::Resultant
                        | crate::quantity::Sort::Tension
                )
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
                return end;
            }
            // "(b) The tension in the tow-bar.": asked without a verb.
            if !self.asking
                && self.part > 0
                && i <= self.skip(self.lo)
                && m.amounts.is_empty()
                && m.pairs.is_empty()
                && self.skip(m.end) >= self.hi
                && !self.story.asks.is_empty()
            {
                self.asking = true;
            }
            let good = if self.asking { self.ask_for(&m) } else { self.tell(&m) };
            if good && !self.asking {
                self.last_told = Some(m.clone());
            }
            if good {
                let mut end = m.end;
                if self.asking
                    && m.sort == crate::quantity::Sort::Mass
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
                return end;
            }
        }
        if let Some(e) = self.person_agent(i) {
            return e;
        }
        if let Some(np) = self.nps(i, false) {
            let end = self.after_np(&np.what, np.end);
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
            return end;
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

    /// `and that of B is 9 kg`, `that of the latter 10 kg`: the quantity given last, of another body.
    fn that_of(&mut self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "that|those of|on|for")?;
        let last = self.last_told.clone()?;
        let np = self.nps(e, false)?;
        let mut at = self.value_verb(np.end).unwrap_or(np.end);
        if let Some(e) = self.phrase(at, ",? by|with a|an? constant? force|resistance|one? of") {
            at = e;
        }
        let mut m = crate::quantity::Mention {
            start: i,
            head_end: at,
            end: at,
            amounts: Vec::new(),
            pairs: Vec::new(),
            letter: None,
            of: Some(np.what),
            on: None,
            by: None,
            between: Vec::new(),
            ..last
        };
        let (amount, end) = self.amount(at, true)?;
        m.amounts.push(amount);
        m.end = end;
        if self.tell(&m) {
            return Some(end);
        }
        None
    }

    /// `The motion of the engine is opposed by a resistance of 240 N, and that of each truck by a resistance of 60 N`;
    /// `Friction opposes the motion of P with a force of 300 N, and that of Q with a force of 150 N`.
    fn opposed(&mut self, i: usize) -> Option<usize> {
        let passive = self.phrase(i, "the motion of");
        let active = self.phrase(
            i,
            "a|constant? friction|resistance|resistances|air opposes|oppose|resists the motion of",
        );
        let mut at = passive.or(active)?;
        let mut told = None;
        for _ in 0..6 {
            let np = self.nps(at, false)?;
            let bodies = self.bodies_of(Some(&np.what))?;
            let mut k = np.end;
            if passive.is_some() {
                k = self.phrase(k, "is|are? opposed|resisted? by").or_else(|| self.phrase(k, "by"))?;
            } else {
                k = self.phrase(k, "with|by")?;
            }
            let k = self.phrase(k, "a|an|the? constant? frictional|resistive|resisting|friction? resistance|force|friction of magnitude?")?;
            let (amount, e) = self.amount(k, true)?;
            for &b in &bodies {
                let span = amount.span;
                let f = self.force_on(model::Role::Resistance, Some(b), span);
                let given = self.given(&amount);
                self.set_force(f, given);
            }
            let names = self.names(&bodies);
            self.told(at, e, format!("resistance on {names}: against the motion"));
            told = Some(e);
            match self.phrase(e, ",? and? that|those of") {
                Some(next) => at = next,
                None => break,
            }
        }
        let e = told?;
        self.glue(i, e);
        Some(e)
    }

    /// Keeps the asks of the stem for its parts, where the stem ends with an unfinished "when the lift ...".
    fn make_template(&mut self, question: bool) {
        let last = self.parts.first().and_then(|p| p.sentences.last()).is_some_and(|s| s.lo == self.lo);
        let fresh = self.story.asks.len() > self.first_ask;
        if self.part != 0 || !last || !fresh || self.parts.len() < 2 || question {
            return;
        }
        let after = self.story.asks.last().map_or(0, |a| a.span.end);
        let open = (self.lo..self.hi).any(|k| {
            matches!(self.w(k), "when" | "if" | "while" | "as" | "given")
                && self.toks.get(k).is_some_and(|t| t.span.start >= after)
        });
        let bare = self.story.asks.iter().skip(self.first_ask).all(|a| a.facts.is_empty());
        if open && bare {
            self.template = self.story.asks.split_off(self.first_ask);
        }
    }

    /// Starts a part with the asks of the stem, and reads its condition.
    fn take_template(&mut self, lo: usize) -> usize {
        let begins = self.parts.get(self.part).and_then(|p| p.sentences.first()).is_some_and(|s| s.lo == lo);
        if self.template.is_empty() || self.part == 0 || !begins {
            return lo;
        }
        let i = self.skip(lo);
        if self.is_command(self.w(i)) || matches!(self.w(i), "what" | "how") {
            return lo;
        }
        self.asking = true;
        for ask in self.template.clone() {
            self.story.asks.push(AskTold { part: self.part, ..ask });
        }
        let lift = self.story.bodies.iter().position(|b| b.form == model::Form::Lift);
        let about = lift.map(|l| vec![l]).unwrap_or_else(|| self.latest.clone());
        self.set_about(Ref::Bodies(about.clone()));
        self.latest = about;
        // The condition may lack its verb: "at rest", "upwards with a uniform speed of 4 m/s".
        if let Some(e) = self.be_state(i) {
            return e;
        }
        if (self.way(i).is_some() || matches!(self.w(i), "with" | "at"))
            && let Some(e) = self.moves(i.saturating_sub(1))
        {
            return e;
        }
        lo
    }

    /// `at rest`, `stationary`, `in equilibrium` without a verb.
    fn be_state(&mut self, i: usize) -> Option<usize> {
        let i = self.phrase(i, "is|are|it|remains").unwrap_or(i);
        let e = self
            .phrase(i, "at rest")
            .or_else(|| self.phrase(i, "stationary"))
            .or_else(|| self.phrase(i, "not moving"))
            .or_else(|| self.phrase(i, "in equilibrium"))?;
        self.state(i, e, State::AtRest, "at rest: no acceleration");
        Some(e)
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

    // ---------------------------------------------------------------- settings of the whole question

    /// g, accuracy, conditions on letters: settings that may stand anywhere.
    fn settings(&mut self, i: usize) -> Option<usize> {
        self.gravity(i)
            .or_else(|| self.share(i))
            .or_else(|| self.accuracy(i))
            .or_else(|| self.letter_condition(i))
    }

    /// `80% of this resistance acts on the trailer`.
    fn share(&mut self, i: usize) -> Option<usize> {
        let (n, e) = self.number(i)?;
        let percent =
            self.phrase(e, "%").or_else(|| self.phrase(e, "per cent")).or_else(|| self.phrase(e, "percent"));
        let e = self.phrase(percent?, "of this|the|that total? resistance acts|is acts|on? on?")?;
        let np = self.nps(e, false)?;
        let Ref::Bodies(b) = np.what else { return None };
        let &body = b.first()?;
        let span = self.span(i, np.end);
        let value = Value::rational(n.checked_div(&exact::Rational::from_int(100))?);
        let given = Given { value, span, written: format!("{n}%"), part: self.part };
        self.told(i, np.end, "this share of the resistance");
        self.story.shares.push((body, given));
        Some(np.end)
    }

    /// `take g = 10 m s⁻²`, `g to be 9.81`, `g taken as 9.8`.
    fn gravity(&mut self, i: usize) -> Option<usize> {
        let start = i;
        let mut at = i;
        if let Some(e) =
            self.phrase(at, "take|taking|use|using|assume|assuming|let|where|with|and? the? value? of? g")
        {
            at = e - 1;
        }
        if let Some(e) = self.phrase(at, "take|taking|use|using|assume|with|where? the? acceleration due to gravity|gravity,? ,? g|as|to|is|=|of") {
            at = if self.w(e.wrapping_sub(1)) == "g" { e - 1 } else { e };
            if self.w(at) != "g" {
                self.phrase(at, "be|as|is|to|=")?;
            }
        }
        if self.tok(at).is_none_or(|t| t.text != "g") {
            return None;
        }
        let mut at = at + 1;
        let mut linked = false;
        for _ in 0..4 {
            if matches!(
                self.w(self.skip(at)),
                "=" | "to" | "be" | "as" | "is" | "taken" | "equal" | ":" | "has" | "the" | "value"
            ) {
                linked |= true;
                at = self.skip(at) + 1;
            }
        }
        if !linked {
            return None;
        }
        if let Some(e) = self
            .phrase(at, "acceleration due to gravity")
            .or_else(|| self.phrase(at, "acceleration of free fall"))
        {
            self.told(start, e, "g is the acceleration of free fall");
            return Some(e);
        }
        let (amount, e) = self.amount(at, false)?;
        if amount.dimension.is_some_and(|d| d != Dimension::ACCELERATION) {
            return None;
        }
        let given = self.given(&amount);
        if let Some(old) = &self.story.gravity
            && old.value != given.value
        {
            let (a, b) = (old.span, given.span);
            self.diagnostics.push(
                model::Diagnostic::refuse(model::Refusal::Contradictory, "two values of g are given")
                    .at(a)
                    .at(b)
                    .hint("keep one of them"),
            );
        }
        self.told(start, e, format!("g is {}", given.written));
        self.story.gravity = Some(given);
        Some(e)
    }

    /// `giving your answer to 3 significant figures`, `correct to two decimal places`.
    fn accuracy(&mut self, i: usize) -> Option<usize> {
        let mut at = i;
        let mut moved = false;
        for _ in 0..10 {
            if matches!(
                self.w(at),
                "give"
                    | "giving"
                    | "your"
                    | "answer"
                    | "answers"
                    | "each"
                    | "correct"
                    | "to"
                    | "an"
                    | "accuracy"
                    | "of"
                    | "where"
                    | "appropriate"
                    | "all"
                    | "final"
                    | "in"
                    | "the"
                    | "form"
            ) {
                at = self.skip(at + 1);
                moved = true;
            } else {
                break;
            }
        }
        if !moved {
            return None;
        }
        let (accuracy, e) = if let Some(e) = self.phrase(at, "nearest newton|n|metre|second|whole? number?") {
            (Accuracy::Places(0), e)
        } else if let Some((n, e)) = self.number(at) {
            let n = u32::try_from(n.as_i64()?).ok()?;
            if n == 0 || n > 12 {
                return None;
            }
            let e2 = self
                .phrase(e, "significant figures|figure|digits")
                .or_else(|| self.phrase(e, "s . f"))
                .or_else(|| self.phrase(e, "sf|s.f"));
            if let Some(mut e2) = e2 {
                if self.w(e2) == "." && self.w(e2.wrapping_sub(1)) == "f" {
                    e2 += 1;
                }
                (Accuracy::Significant(n), e2)
            } else {
                let e2 = self
                    .phrase(e, "decimal places|place")
                    .or_else(|| self.phrase(e, "dp|d.p"))
                    .or_else(|| self.phrase(e, "d . p"))?;
                (Accuracy::Places(n), e2)
            }
        } else {
            return None;
        };
        self.told(i, e, "how exactly the answer is wanted");
        let part = self.part;
        let mut some = false;
        for ask in self.story.asks.iter_mut().filter(|a| a.part == part) {
            ask.accuracy = Some(accuracy);
            some = true;
        }
        if !some {
            self.story.accuracy = Some(accuracy);
        }
        Some(e)
    }

    /// `where M < 4`, `where k > 1`, `k is a constant`.
    fn letter_condition(&mut self, i: usize) -> Option<usize> {
        let at = self.phrase(i, "where|with|and|given|,? that? ,?").unwrap_or(i);
        let t = self.tok(at)?;
        t.letter()?;
        if let Some(e) = self.phrase(at + 1, "is|are a? positive? constant|constants") {
            self.told(i, e, "a letter that stays as it is");
            return Some(e);
        }
        let next = self.w(at + 1);
        if !matches!(next, "<" | ">" | "≤" | "≥") {
            return None;
        }
        let (_, mut e) = self.amount(at + 2, true)?;
        if matches!(self.w(e), "<" | ">" | "≤" | "≥") {
            (_, e) = self.amount(e + 1, true)?;
        }
        self.told(i, e, "a condition on the letter");
        // M < 4: which of two bodies is the heavier.
        let symbol = Value::symbol(&crate::amount::plain_index(&t.text));
        let less = matches!(next, "<" | "≤");
        let (bound, _) = self.amount(at + 2, true)?;
        let mine = self.story.bodies.iter().position(|b| b.mass.as_ref().is_some_and(|m| m.value == symbol));
        let theirs =
            self.story.bodies.iter().any(|b| b.mass.as_ref().is_some_and(|m| m.value == bound.value));
        if let (Some(mine), true) = (mine, theirs)
            && let Some(b) = self.story.bodies.get_mut(mine)
        {
            b.heavier = Some(!less);
        }
        Some(e)
    }

    // ---------------------------------------------------------------- angles

    /// `sin α = 1/20`, `tan θ = 3/4`, `at 30° to the horizontal`, `at an angle α to the horizontal`, `whose sine is 1/20`, `1 in 20`.
    pub(crate) fn angle_here(&mut self, i: usize) -> Option<usize> {
        let at = self
            .phrase(i, "where|and|with|such|given? that?")
            .filter(|_| !self.tok(i).is_some_and(|t| t.is("sin") || t.is("tan") || t.is("cos")))
            .unwrap_or(i);
        let w = self.w(at);
        if matches!(w, "sin" | "cos" | "tan") {
            let mut k = at + 1;
            let bracket = self.w(k) == "(";
            if bracket {
                k += 1;
            }
            let letter = self.tok(k)?.letter()?.to_string();
            k += 1;
            if bracket && self.w(k) == ")" {
                k += 1;
            }
            if !matches!(self.w(k), "=" | "is") {
                return None;
            }
            let (value, e) = self.amount(k + 1, false).map(|(a, e)| (a.value, e))?;
            let angle = match w {
                "sin" => Angle::Sin(value),
                "cos" => Angle::Cos(value),
                _ => Angle::Tan(value),
            };
            let span = self.span(at, e);
            let mine = self
                .story
                .surfaces
                .iter()
                .any(|s| s.slope.as_ref().is_some_and(|x| x.letter.as_deref() == Some(letter.as_str())));
            let other = self
                .story
                .surfaces
                .iter()
                .any(|s| s.slope.as_ref().is_some_and(|x| x.letter.is_some() || x.angle.is_some()));
            let twice = self.story.surfaces.iter().any(|s| {
                s.slope
                    .as_ref()
                    .is_some_and(|x| x.letter.as_deref() == Some(letter.as_str()) && x.angle.is_some())
            });
            if (!mine && other) || twice {
                return None;
            }
            self.told(i, e, "the angle, exactly, by its ratio");
            self.give_angle(Some(letter), Some(angle), span);
            return Some(e);
        }
        // α = 30°
        if self.tok(at).is_some_and(|t| t.letter().is_some_and(|c| !c.is_ascii())) && self.w(at + 1) == "=" {
            let (amount, e) = self.amount(at + 2, false)?;
            if amount.dimension == Some(Dimension::ANGLE) {
                let letter = self.tok(at)?.text.clone();
                let degrees = amount.value.as_rational()?.clone();
                self.told(i, e, "the angle");
                self.give_angle(Some(letter), Some(Angle::Degrees(degrees)), amount.span);
                return Some(e);
            }
        }
        None
    }

    /// An angle after `inclined`, `makes`, `at`: the place after it.
    pub(crate) fn slope_angle(&mut self, i: usize) -> Option<usize> {
        let mut at = self.skip(i);
        let start = at;
        while matches!(
            self.w(at),
            "at" | "is" | "to" | "makes" | "make" | "making" | "with" | "through" | "by"
        ) && !matches!(self.w(self.skip(at + 1)), "rest")
        {
            // "inclined to the horizontal at an angle α"
            if let Some(e) = self.phrase(at, "to|with the horizontal|level") {
                at = self.skip(e);
                continue;
            }
            at = self.skip(at + 1);
        }
        if let Some(e) = self.phrase(at, "an|the? angle of?") {
            at = self.skip(e);
        }
        let mut letter = None;
        let mut angle = None;
        let mut end = at;
        if let Some((amount, e)) = self.amount(at, false) {
            if amount.dimension == Some(Dimension::ANGLE) {
                angle = Some(Angle::Degrees(amount.value.as_rational()?.clone()));
                end = e;
            } else if let (Some(a), Some(e2)) = (amount.value.as_rational(), self.phrase(e, "in")) {
                let (b, e3) = self.number(e2)?;
                angle = Some(Angle::Sin(Value::rational(a.checked_div(&b)?)));
                end = e3;
            }
        }
        if angle.is_none() {
            if let Some(t) = self.tok(at).filter(|t| t.letter().is_some() && !t.is("a")) {
                letter = Some(t.text.clone());
                end = at + 1;
                if self.w(end) == "°" {
                    end += 1;
                }
            } else if let Some(e) = self.phrase(at, "whose sine|cosine|tangent is") {
                let (amount, e2) = self.amount(e, false)?;
                angle = Some(ratio(self.w(e.wrapping_sub(2)), amount.value));
                end = e2;
            } else if let Some(e) = self.phrase(at, "arcsin|arctan|arccos|sin^-1") {
                let inverse = self.w(at).to_owned();
                let (amount, e2) = self.amount(e, false)?;
                angle = Some(match inverse.as_str() {
                    "arctan" => Angle::Tan(amount.value),
                    "arccos" => Angle::Cos(amount.value),
                    _ => Angle::Sin(amount.value),
                });
                end = e2;
            } else if matches!(self.w(at), "sin" | "tan" | "cos") && self.w(at + 1) == "^" {
                // tan^{-1}(3/4)
                let name = self.w(at).to_owned();
                let mut k = at + 2;
                if self.w(k) == "(" {
                    k += 1;
                }
                if self.w(k) != "-" || self.w(k + 1) != "1" {
                    return None;
                }
                k += 2;
                if self.w(k) == ")" {
                    k += 1;
                }
                let (amount, e2) = self.amount(k, false)?;
                angle = Some(match name.as_str() {
                    "tan" => Angle::Tan(amount.value),
                    "cos" => Angle::Cos(amount.value),
                    _ => Angle::Sin(amount.value),
                });
                end = e2;
            } else {
                return None;
            }
        }
        if let Some(e) = self.phrase(end, "to|with|from the? vertical|upward") {
            // An angle to the vertical: its complement is the slope's.
            let ninety = exact::Rational::from_int(90);
            angle = match angle {
                Some(Angle::Degrees(d)) => Some(Angle::Degrees(&ninety - &d)),
                _ => return None,
            };
            end = e;
        } else if let Some(e) = self.phrase(end, "to|with|above|below|from the? horizontal|level") {
            end = e;
        }
        if let Some(e) = self.phrase(end, "whose sine|cosine|tangent is") {
            let (amount, e2) = self.amount(e, false)?;
            angle = Some(ratio(self.w(e.wrapping_sub(2)), amount.value));
            end = e2;
        }
        let span = self.span(start, end);
        self.told(
            start,
            end,
            "the angle of the slope: the weight has a part mg sin along it and a part mg cos across it",
        );
        self.give_angle(letter, angle, span);
        Some(end)
    }

    /// Gives the present surface its angle, or its value to an angle already named.
    fn give_angle(&mut self, letter: Option<String>, angle: Option<Angle>, span: model::Span) {
        let by_letter = letter.as_ref().and_then(|l| {
            self.story
                .surfaces
                .iter()
                .position(|s| s.slope.as_ref().is_some_and(|x| x.letter.as_ref() == Some(l)))
        });
        let id = by_letter.or(self.surface).or_else(|| self.story.surfaces.len().checked_sub(1));
        let id = match id {
            Some(id) => id,
            None => {
                self.story.surfaces.push(SurfaceTold {
                    noun: "slope".to_owned(),
                    slopes: true,
                    span,
                    ..SurfaceTold::default()
                });
                self.story.surfaces.len() - 1
            }
        };
        let written = span.of(self.text).to_owned();
        if let Some(s) = self.story.surfaces.get_mut(id) {
            let slope = s.slope.get_or_insert_with(SlopeTold::default);
            if letter.is_some() {
                slope.letter = letter;
            }
            if angle.is_some() {
                slope.angle = angle;
                slope.written = written;
                slope.span = span;
            }
        }
    }

    // ---------------------------------------------------------------- commands

    /// `Find`, `Show that`, `What is`, `How far`: the sentence asks.
    fn command(&mut self, i: usize, question: bool) -> Option<usize> {
        let start = i;
        let mut at = i;
        if let Some(e) = self.phrase(at, "hence|also|now|thus|therefore ,? or? otherwise? ,?")
            && (!matches!(self.w(i), "now" | "also") || self.is_command(self.w(self.skip(e))))
        {
            at = self.skip(e);
        }
        if let Some(e) = self.phrase(at, "you are asked|required to") {
            at = self.skip(e);
        }
        let w = self.w(at);
        if self.is_command(w) || matches!(w, "what" | "how" | "with") {
            self.settle_tows();
        }
        if self.is_command(w) {
            let mut e = at + 1;
            if let Some(e2) = self.phrase(at, "work|write|find|make out|down") {
                e = e2;
            }
            while matches!(
                self.w(self.skip(e)),
                ":" | "," | "also" | "expressions" | "expression" | "for" | "that" | "and" | "an" | "hence"
            ) {
                if self.w(self.skip(e)) == "for"
                    && !matches!(self.w(self.skip(e) - 1), "expression" | "expressions")
                {
                    break;
                }
                if self.w(self.skip(e)) == "an" && self.w(self.skip(self.skip(e) + 1)) != "expression" {
                    break;
                }
                e = self.skip(e) + 1;
            }
            self.asking = true;
            self.commanded = true;
            self.showing = matches!(w, "show" | "prove" | "verify" | "deduce");
            self.glue(start, e);
            if let Some(e2) = self.phrase(e, "down? an|the|separate? equation|equations of motion for|of")
                && let Some(np) = self.nps(e2, true)
            {
                let e3 = self.phrase(np.end, ",? and|hence|thus? hence|thus?").unwrap_or(np.end);
                self.told(e, e3, "the worked solution shows these equations");
                return Some(e3);
            }
            if let Some(e2) = self.special_ask(e) {
                return Some(e2);
            }
            return Some(e);
        }
        if let Some(e) = self.question_words(at) {
            return Some(e);
        }
        if (self.asking || question)
            && let Some(e) = self.special_ask(at)
        {
            return Some(e);
        }
        None
    }

    fn is_command(&self, w: &str) -> bool {
        matches!(
            w,
            "find"
                | "calculate"
                | "determine"
                | "show"
                | "prove"
                | "state"
                | "write"
                | "work"
                | "deduce"
                | "compute"
                | "evaluate"
                | "obtain"
                | "verify"
                | "derive"
                | "express"
                | "name"
                | "explain"
                | "give"
                | "describe"
                | "suggest"
        ) && !(w == "work" && self.lo == usize::MAX)
    }

    /// `What is the tension`, `How large is`, `With what acceleration do`, `How far does`, `How long does it take`.
    fn question_words(&mut self, i: usize) -> Option<usize> {
        if let Some(e) =
            self.phrase(i, "what|how large|great|big? is|are|was|will|would|must|should be? then?")
        {
            self.asking = true;
            self.glue(i, e);
            return Some(e);
        }
        if let Some(e) = self.phrase(i, "what normal|contact|upward|downward? force does|do") {
            // What force does the clamp exert on the pulley?
            self.asking = true;
            let mut at = self.skip(e);
            for _ in 0..6 {
                if matches!(self.w(at), "exert" | "apply" | "exerts") {
                    break;
                }
                at = self.skip(at + 1);
            }
            let on = self.phrase(at, "exert|apply on|to|upon")?;
            let by = {
                let hi = self.hi;
                let np = self.np(e);
                self.hi = hi;
                np.map(|n| n.what)
            };
            let np = self.np(on)?;
            let target = match (&np.what, by) {
                (Ref::Pulleys(p), _) => Target::PulleyForce(p.first().copied()),
                (Ref::Bodies(b), Some(Ref::Floor(_))) => {
                    Target::Contact { on: b.clone(), by: Some(By::Floor) }
                }
                (Ref::Bodies(b), Some(Ref::Surface(_))) => {
                    Target::Contact { on: b.clone(), by: Some(By::Surface) }
                }
                (Ref::Bodies(b), Some(Ref::Bodies(c))) => {
                    Target::Contact { on: b.clone(), by: c.first().map(|&c| By::Body(c)) }
                }
                (Ref::Bodies(_), Some(Ref::Links(l))) => Target::Link(l),
                (Ref::Floor(_), Some(Ref::Bodies(b))) => Target::Contact { on: b, by: Some(By::Floor) },
                _ => return None,
            };
            self.push_ask(target, i, np.end);
            return Some(np.end);
        }
        if let Some(e) = self.phrase(i, "with what|which acceleration|retardation|deceleration do|does|will")
        {
            self.asking = true;
            let slowing = self.w(self.skip(i + 2)) != "acceleration";
            let of = match self.np(e) {
                Some(np) => {
                    let b = self.bodies_of(Some(&np.what)).unwrap_or_default();
                    let end = self.phrase(np.end, "move|moves|descend|rise|ascend|fall|slide|travel|accelerate|begin|start to? move? together?").unwrap_or(np.end);
                    self.push_ask(Target::Acceleration { of: b, slowing, way: None }, i, end);
                    return Some(end);
                }
                None => Vec::new(),
            };
            self.push_ask(Target::Acceleration { of, slowing, way: None }, i, e);
            return Some(e);
        }
        let far = self
            .phrase(
                i,
                "how far up|down|along? the? ramp|slope|plane|slipway|track|table? does|do|will|has|have|did",
            )
            .map(|e| (e, true));
        let fast = self.phrase(i, "how fast is|are|will|does|do|was").map(|e| (e, false));
        if let Some((e, distance)) = far.or(fast) {
            self.asking = true;
            let np = self.nps(e, false)?;
            let of = self.bodies_of(Some(&np.what)).unwrap_or_default();
            let end = self.phrase(np.end, "be? have? move|moves|travel|moving|moved|travelling|going|fall|rise|descend|descended|travelled|slide|go|fallen|climb|ascend").unwrap_or(np.end);
            let target = if distance {
                Target::Distance { of: of.clone() }
            } else {
                Target::Speed { of: of.clone(), start: false }
            };
            self.push_ask(target, i, end);
            self.set_about(Ref::Bodies(of));
            return Some(end);
        }
        if let Some(e) = self.phrase(i, "how long does|do|will|is|must|it? it|they? take|takes|taken|be|elapse|elapses? to|for|before|until?").or_else(|| self.phrase(i, "how long does|do|will")) {
            self.asking = true;
            self.push_ask(Target::Time, i, e.min(i + 2));
            self.glue(i, e);
            return Some(e);
        }
        None
    }

    /// Targets that are no plain quantity: the value of M, which way, how "light" was used.
    pub(crate) fn special_ask(&mut self, i: usize) -> Option<usize> {
        let i = self.skip(i);
        if let Some(e) = self.phrase(i, "in terms of") {
            let mut at = e;
            for _ in 0..10 {
                let w = self.w(self.skip(at));
                let t = self.tok(self.skip(at));
                if matches!(
                    w,
                    "and" | "," | "or" | "as" | "where" | "necessary" | "required" | "appropriate" | "only"
                ) || t.is_some_and(|t| t.letter().is_some())
                {
                    // ", the tension" ends it.
                    if w == ","
                        && !self.tok(self.skip(self.skip(at) + 1)).is_some_and(|t| {
                            t.letter().is_some() || matches!(t.lower.as_str(), "and" | "or" | "as" | "where")
                        })
                    {
                        break;
                    }
                    if t.is_some_and(|t| t.text == "g") {
                        self.story.gravity_letter = true;
                    }
                    at = self.skip(at) + 1;
                } else {
                    break;
                }
            }
            self.told(i, at, "the answer is wanted in these letters");
            return Some(at);
        }
        if let Some(e) = self.phrase(i, "the? exact? value|values of the? constant?") {
            let t = self.tok(self.skip(e))?;
            if t.letter().is_some() && !t.is("a") {
                let letter = crate::amount::plain_index(&t.text);
                let end = self.skip(e) + 1;
                self.push_ask(Target::Letter(letter), i, end);
                return Some(end);
            }
        }
        // "find M", "find the values of T and a"
        if let Some(t) = self.tok(i) {
            let known = t.letter().is_some() && !t.label_of(self) && t.text != "a";
            let follows = self.w(self.skip(i + 1));
            if known
                && self.asking
                && !self.showing
                && matches!(follows, "" | "and" | "," | "." | "in")
                && self.letter_in_use(&crate::amount::plain_index(&t.text))
            {
                self.push_ask(Target::Letter(crate::amount::plain_index(&t.text)), i, i + 1);
                return Some(i + 1);
            }
        }
        if let Some(e) = self.phrase(i, "the|in? which? direction|way in? which?")
            && let Some(e2) = self.phrase(e, "of the acceleration|motion")
        {
            let mut end = e2;
            let mut of = Vec::new();
            if let Some(e3) = self.phrase(e2, "of")
                && let Some(np) = self.np(e3)
            {
                of = self.bodies_of(Some(&np.what)).unwrap_or_default();
                end = np.end;
            }
            let accelerates = (e..e2).any(|k| self.w(k) == "acceleration");
            let target = if accelerates { Target::AccelerationWay(of) } else { Target::WhichWay(of) };
            self.push_ask(target, i, end);
            return Some(end);
        }
        if let Some(e) = self.phrase(i, ",? with a reason ,?") {
            self.glue(i, e);
            return Some(e);
        }
        if let Some(e) = self.phrase(i, "whether") {
            return self.whether(i, e);
        }
        if let Some(e) = self.phrase(i, "that? the? system|block|particle|body|blocks|particles|crate|box remains|remain|stays|stay|is|are in? at? rest|equilibrium")
            && self.showing {
                self.push_ask(Target::WhetherMoves, i, e);
                return Some(e);
            }
        if let Some(e) = self.phrase(i, "how|where you have? used|use|made") {
            return self.statement(i, e);
        }
        if let Some(e) = self.phrase(
            i,
            "the|one|two|a? significance|effect|assumption|limitation|refinement|improvement|modelling",
        ) {
            return self.statement(i, e);
        }
        None
    }

    fn letter_in_use(&self, letter: &str) -> bool {
        self.story.letters.iter().any(|(l, _)| l == letter)
            || self.story.forces.iter().any(|f| {
                f.letter.as_deref() == Some(letter)
                    || f.size.as_ref().is_some_and(|g| g.value.symbols().contains(letter))
            })
            || self
                .story
                .bodies
                .iter()
                .any(|b| b.mass.as_ref().is_some_and(|g| g.value.symbols().contains(letter)))
            || self.story.coefficients.iter().any(|c| c.2.as_deref() == Some(letter))
            || self.story.values.iter().any(|v| v.given.value.symbols().contains(letter))
    }

    fn whether(&mut self, i: usize, e: usize) -> Option<usize> {
        // The rest of the clause says between what.
        let mut end = e;
        let (mut up, mut thrust, mut moves) = (false, false, false);
        while end < self.hi && !matches!(self.w(end), "," | ";") {
            match self.w(end) {
                "upwards" | "downwards" | "upward" | "downward" | "up" | "down" | "accelerating"
                | "speeding" | "increasing" => up = true,
                "tension" | "thrust" | "compression" => thrust = true,
                "moves" | "move" | "slides" | "slide" | "rest" | "equilibrium" | "slips" => moves = true,
                _ => {}
            }
            end += 1;
        }
        let accelerates = (e..end).any(|k| self.w(k) == "acceleration");
        let target = if up && accelerates {
            Target::AccelerationWay(self.latest.clone())
        } else if thrust {
            Target::TensionOrThrust(self.link.clone())
        } else if up {
            Target::WhichWay(self.latest.clone())
        } else if moves {
            Target::WhetherMoves
        } else {
            return None;
        };
        self.push_ask(target, i, end);
        Some(end)
    }

    fn statement(&mut self, i: usize, e: usize) -> Option<usize> {
        let mut end = e;
        let mut topic = None;
        let mut noun_seen = "";
        while end < self.hi {
            let w = self.w(end);
            match w {
                "light" | "massless" => topic = topic.or(Some(model::Topic::Light)),
                "inextensible" => topic = topic.or(Some(model::Topic::Inextensible)),
                "smooth" | "frictionless" => topic = topic.or(Some(model::Topic::SmoothPulley)),
                "particle" | "particles" => topic = topic.or(Some(model::Topic::Particle)),
                "limitation" | "refinement" | "improvement" => {
                    topic = topic.or(Some(model::Topic::Limitation))
                }
                "pulley" | "table" | "plane" | "surface" | "slope" | "peg" => noun_seen = w,
                _ => {}
            }
            end += 1;
        }
        if matches!(self.w(i), "one" | "a" | "two") && topic.is_none() {
            topic = Some(model::Topic::Limitation);
        }
        if let (Some(model::Topic::SmoothPulley), false) = (topic, matches!(noun_seen, "pulley" | "peg" | ""))
        {
            topic = Some(model::Topic::SmoothSurface);
        }
        let topic = topic?;
        self.push_ask(Target::Statement(topic), i, end);
        Some(end)
    }

    /// After a target in a show-that: `is 0.5 m s⁻²`, `is given by T = ...`.
    fn show_value(&mut self, i: usize) -> Option<usize> {
        if !self.showing {
            return None;
        }
        let mut at = self.value_verb(i).or_else(|| self.phrase(i, "of"))?;
        // "T = 2mg/5"
        if self.w(at + 1) == "=" {
            at += 2;
        }
        let (amount, e) = self.expression(at)?;
        if let Some(ask) = self.story.asks.last_mut() {
            ask.show = Some(amount.value.clone());
        }
        self.told(i, e, "the value to be shown");
        Some(e)
    }

    // ---------------------------------------------------------------- odds and ends

    /// Phrases that keep the model simple, or say what is plain: `until it reaches the pulley`, `in the motion that follows`.
    fn conditions(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.tight(i) {
            return Some(e);
        }
        if let Some(e) = self.left_out(i) {
            return Some(e);
        }
        // A body that does not get to the pulley or floor: the stage lasts.
        let mut at = i;
        if let Some(e) = self.phrase(
            at,
            "you|it? may? be? assume|assumed|assuming|given|supposed|suppose|being|provided that|also?",
        ) {
            at = self.skip(e);
        }
        if let Some(e) = self.phrase(at, "and|that|also? that|it?") {
            at = self.skip(e);
        }
        let saved = (self.latest.clone(), self.pair);
        let negated = {
            let mut k = self.skip(at);
            let mut found = None;
            for _ in 0..7 {
                if matches!(self.w(k), "not" | "nor" | "neither" | "without") || self.w(k) == "before" {
                    found = Some(k);
                    break;
                }
                let t = self.tok(k);
                let harmless = t.is_some_and(|t| {
                    t.is_word()
                        && (lexicon::glue(&t.lower)
                            || t.label()
                            || matches!(lexicon::noun(&t.lower), Some(lexicon::Noun::Body(_)))
                            || crate::adjective::adjective(&t.lower).is_some()
                            || matches!(t.lower.as_str(), "system"))
                });
                if !harmless {
                    break;
                }
                k = self.skip(k + 1);
            }
            found
        };
        (self.latest, self.pair) = saved;
        let k = negated?;
        if self.w(k) == "before" {
            return None;
        }
        // ... not (by then) reach(ed)/hit(s)/leave the pulley/floor/ground/top
        let mut v = self.skip(k + 1);
        for _ in 0..6 {
            if matches!(
                self.w(v),
                "by" | "then"
                    | "yet"
                    | "at"
                    | "this"
                    | "time"
                    | "have"
                    | "has"
                    | "during"
                    | "it"
                    | "the"
                    | "motion"
                    | "hanging"
                    | "body"
                    | "block"
                    | "particle"
            ) {
                v = self.skip(v + 1);
            }
        }
        if !matches!(
            self.w(v),
            "reach"
                | "reached"
                | "reaching"
                | "hit"
                | "hitting"
                | "touch"
                | "leave"
                | "strike"
                | "rise"
                | "ground"
        ) {
            return None;
        }
        let mut e = v + 1;
        for _ in 0..14 {
            let w = self.w(self.skip(e));
            if matches!(
                w,
                "the"
                    | "pulley"
                    | "pulleys"
                    | "floor"
                    | "ground"
                    | "top"
                    | "bottom"
                    | "edge"
                    | "of"
                    | "slope"
                    | "plane"
                    | "table"
                    | "it"
                    | "nor"
                    | "hanging"
                    | "body"
                    | "in"
                    | "subsequent"
                    | "motion"
                    | "and"
                    | "does"
                    | "that"
                    | "by"
                    | "then"
                    | "has"
                    | "not"
                    | "either"
                    | "peg"
                    | "during"
                    | "this"
                    | "end"
                    | "surface"
                    | "has-not"
                    | "any"
                    | "quay"
                    | "deck"
            ) || (matches!(w, "reach" | "reaches" | "reached" | "hit" | "hits"))
                || self.tok(self.skip(e)).is_some_and(|t| t.label())
            {
                // "and the string breaks": stop where something else begins.
                if w == "and" && !(self.skip(e)..self.skip(e) + 7).any(|n| matches!(self.w(n), "not" | "nor"))
                {
                    break;
                }
                e = self.skip(e) + 1;
            } else {
                break;
            }
        }
        self.told(i, e, "so the motion goes on as it is for as long as the question needs");
        Some(e)
    }

    /// `with the string taut`, `the rope being taut`, `the hanging parts of the string vertical`.
    fn tight(&mut self, i: usize) -> Option<usize> {
        const ROPE: &str = "string|strings|rope|ropes|cord|thread|cable|chain|chains|tow-rope|cords|cables";
        const PARTS: &str = "parts|portions|sections|part|portion|section|ends|stretches|lengths";
        let start = self
            .phrase(
                i,
                "with|and|,? with? the|both|its|each|all|both? of? the? straight|free|hanging|vertical|two?",
            )
            .or_else(|| {
                self.phrase(i, "the|both? straight|free|hanging|vertical?")
                    .filter(|_| self.w(i) == "the" || self.w(i) == "both")
            })?;
        let direct = self.phrase(
            start,
            &format!(
                "{ROPE} is|are|being|just|initially? both|just? taut|tight|vertical|horizontal|straight"
            ),
        );
        let parts = self.phrase(start, &format!("{PARTS} of? the? string|rope|cord not in contact with the peg|pulley being vertical")).or_else(|| self.phrase(start, &format!("{PARTS} of? the|each|both? {ROPE}? is|are|being|hanging? both? vertical|vertically|taut|horizontal")));
        let e = direct.or(parts)?;
        let e = self.phrase(e, "and the|its straight|free|hanging? parts|portions|sections? of? the? string|rope? vertical|taut").unwrap_or(e);
        self.told(i, e, "the string is tight from the start and pulls straight");
        Some(e)
    }

    /// `Air resistance may be neglected`, `friction is negligible`, `the mass of the cable is to be ignored`, `ignore friction`.
    fn left_out(&mut self, i: usize) -> Option<usize> {
        let verb_first =
            self.phrase(i, "and|you|may|also? ignore|neglect|ignoring|neglecting|disregard|disregarding");
        let at = verb_first.unwrap_or_else(|| self.phrase(i, "and|,|that? all? effects? of?").unwrap_or(i));
        let mut e = self.negligible(at)?;
        let mut friction = self.w(e.wrapping_sub(1)) == "friction"
            || matches!(self.w(e.wrapping_sub(2)), "frictional" | "friction");
        // "friction and air resistance", "between the block and the table"
        if let Some(e2) = self.phrase(e, "and|or").and_then(|x| self.negligible(x)) {
            friction |= self.w(e2.wrapping_sub(1)) == "friction";
            e = e2;
        }
        if verb_first.is_none() {
            e = self
                .phrase(e, "is|are|may|can|should|will|to|be|being|has|have all? both? also? to|be|being? both? be? so? small? that? it? neglected|ignored|disregarded|negligible|negligibly|left")
                .or_else(|| self.phrase(e, "is|are|may|can|should|being to|be? be? neglected|ignored|disregarded|negligible"))
                .or_else(|| self.phrase(e, "is|are modelled|modeled|taken|assumed|considered as|to? being|be? negligible|negligibly|zero small?"))
                .or_else(|| self.phrase(e, "neglected|ignored|disregarded|negligible"))?;
            if self.w(e.wrapping_sub(1)) == "left" {
                e = self.phrase(e, "out")?;
            }
        }
        let resistances = (at..e).any(|k| self.w(k).starts_with("resist"))
            && !(at..e).any(|k| self.w(k) == "air" || self.w(k) == "other");
        if resistances
            && (self.story.forces.iter().any(|f| f.role == model::Role::Resistance && f.size.is_some())
                || self.story.per_mass.is_some()
                || self.story.total_resistance.is_some())
        {
            return None;
        }
        if friction && (!self.story.frictions.is_empty() || !self.story.coefficients.is_empty()) {
            return None;
        }
        if friction {
            self.story.frictionless = true;
        }
        self.told(i, e, "left out of the model");
        Some(e)
    }

    /// `the scale reads 835 N`, `What does the scale read?`, `the reading on the scale`: the push on what stands on it.
    fn scale(&mut self, i: usize) -> Option<usize> {
        const SCALE: &str = "scale|scales|balance|machine";
        let people: Vec<usize> = self
            .story
            .bodies
            .iter()
            .enumerate()
            .filter(|(_, b)| b.form == model::Form::Person)
            .map(|(n, _)| n)
            .collect();
        let on = match people.as_slice() {
            [one] => vec![*one],
            _ => return None,
        };
        let target = Target::Contact { on, by: Some(By::Floor) };
        let asked = self
            .phrase(i, "what does|will|would|do the bathroom|weighing? scale|scales|machine read|show|register|indicate")
            .or_else(|| self.phrase(i, "the reading on|of the bathroom|weighing? scale|scales|machine").filter(|_| self.asking))
            .or_else(|| self.phrase(i, "the bathroom|weighing? scale|scales|machine reading|'s").and_then(|e| self.phrase(e - 1, "reading").or_else(|| self.phrase(e, "reading"))).filter(|_| self.asking));
        if let Some(e) = asked {
            self.asking = true;
            let e = self.phrase(e, "in newtons").unwrap_or(e);
            self.push_ask(target, i, e);
            return Some(e);
        }
        let mut e = self.phrase(i, &format!("the|a|it|she|he bathroom|weighing? {SCALE}?"))?;
        if let Some(e2) = self.phrase(e, ", which is calibrated|marked in newtons ,?") {
            e = e2;
        }
        let e = self.phrase(
            e,
            "reads|shows|registers|indicates a|the? steady|constant|reading? reading|force|value? of?",
        )?;
        if let Some(e2) = self.phrase(e, "this reading|value") {
            self.scene(i, e2);
            return Some(e2);
        }
        let (amount, end) = self.amount(e, false)?;
        if amount.dimension != Some(Dimension::FORCE) {
            return None;
        }
        let given = self.given(&amount);
        self.told(i, end, "the reading is the normal reaction");
        self.story.values.push(ValueTold { what: target, given });
        Some(end)
    }

    /// Power shut off, brakes applied, the speed growing or falling: what changes the motion without a number of its own.
    fn engine_off(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.phrase(i, "the power|engine|motor is|are then? shut|switched|cut|turned off") {
            if !self.story.forces.iter().any(|f| f.role == model::Role::Driving) {
                self.story.engine_off = true;
                self.told(i, e, "no driving force any more");
                return Some(e);
            }
            return None;
        }
        // The brakes of the car, but not those of the trailer, are applied
        let start = self.phrase(i, "the|its|his|her|all? brakes").or_else(|| {
            let np_end = (i..i + 5).find(|&k| self.w(k) == "'s")?;
            self.phrase(np_end, "'s brakes")
        });
        if let Some(mut e) = start {
            if let Some(e2) = self
                .phrase(e, "of the|a? car|lorry|engine|locomotive|van|tractor|truck|vehicle|train|tram|bus")
            {
                e = e2;
            }
            if let Some(e2) = self.phrase(
                e,
                ",? but not those|the of? the|a? trailer|caravan|truck|wagon|mixer|trucks|wagons|brakes? ,?",
            ) {
                e = e2;
            }
            if let Some(e2) = self.phrase(e, "alone|only") {
                e = e2;
            }
            let e2 = self.phrase(e, "is|are|were|being then? applied|put on?")?;
            let span = self.span(i, e2);
            self.told(i, e2, "braking: a force against the motion");
            self.fact(Vec::new(), span, Fact::Slowing);
            let driver = self.driver();
            self.about = driver.map(|d| Ref::Bodies(vec![d]));
            return Some(e2);
        }
        // its speed is increasing at a constant rate
        if let Some(mut e) = self.phrase(i, "the|its|their? speed|velocity") {
            if let Some(e2) = self.phrase(e, "of") {
                let np = self.np(e2)?;
                e = np.end;
            }
            let range = self.phrase(e, "falls|drops|rises|increases|decreases|changes|is|are? reduced|increased? uniformly|steadily|constantly? from");
            if let Some(k) = range {
                let (a, e1) = self.amount(k, true)?;
                let e2 = self.phrase(e1, "to")?;
                let (b, e3) = self.amount(e2, true)?;
                if b.dimension != Some(Dimension::SPEED) {
                    return None;
                }
                let mut a = a;
                if a.dimension.is_none() {
                    a.dimension = b.dimension;
                }
                let (from, to) = (self.given(&a), self.given(&b));
                let span = self.span(i, e3);
                self.told(i, e3, "the speeds at the start and at the end");
                self.fact(self.latest.clone(), span, Fact::StartSpeed(from));
                self.fact(self.latest.clone(), span, Fact::EndSpeed(to));
                return Some(e3);
            }
            let e2 = self.phrase(e, "is steadily|then|now? increasing|decreasing|rising|falling|growing")?;
            let slower = matches!(self.w(e2.wrapping_sub(1)), "decreasing" | "falling");
            let e3 = self.phrase(e2, "at a constant|steady|uniform rate").unwrap_or(e2);
            let span = self.span(i, e3);
            self.fact(self.latest.clone(), span, if slower { Fact::Slowing } else { Fact::Speeding });
            self.told(i, e3, "whether it speeds up or slows down");
            return Some(e3);
        }
        // To it is tied a fine thread ...
        let e = self.phrase(i, "to it is|are tied|attached|fastened|fixed|joined")?;
        let body = self.latest.first().copied()?;
        let np = self.np(e)?;
        let Ref::Links(l) = np.what.clone() else { return None };
        for x in l {
            self.add_end(x, body);
        }
        self.told(i, np.end, "joined: they move together while the link holds");
        self.set_about(np.what.clone());
        Some(self.after_np(&np.what, np.end))
    }

    /// `with the 3 kg block in the middle`: says again what the order told.
    fn middle(&mut self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "with")?;
        let all = self.latest.clone();
        if all.len() != 3 || !(e..e + 8).any(|k| self.w(k) == "middle") {
            return None;
        }
        let np = self.np(e)?;
        let end =
            self.phrase(np.end, "in the middle").or_else(|| self.phrase(np.end, "between the other two"))?;
        let Ref::Bodies(b) = np.what else { return None };
        self.latest.clone_from(&all);
        if b.first() != all.get(1) {
            return None;
        }
        self.told(i, end, "the order in which they stand");
        Some(end)
    }

    /// `A worker pulls the box`, `A student attaches ...`: who does it is no body of the story.
    fn person_agent(&mut self, i: usize) -> Option<usize> {
        if self.story.bodies.iter().any(|b| b.form == model::Form::Lift)
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
        if lexicon::noun(noun) != Some(lexicon::Noun::Body(model::Form::Person)) {
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

    /// An agent that only pulls or pushes: `A winch`, `The driver`, `A dockhand`.
    fn agent(&mut self, i: usize) -> Option<usize> {
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
                    && !crate::quantity::quantity_word(&t.lower)
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

fn ratio(name: &str, value: Value) -> Angle {
    match name {
        "cosine" => Angle::Cos(value),
        "tangent" => Angle::Tan(value),
        _ => Angle::Sin(value),
    }
}

impl Token {
    /// Is this letter the label of a body?
    pub(crate) fn label_of(&self, reader: &Reader<'_>) -> bool {
        self.label() && reader.by_label(&crate::amount::plain_index(&self.text)).is_some()
    }
}
