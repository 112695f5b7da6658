//! What makes a sentence ask: `Find`, `Show that`, `What is`, `How far does it travel`.

use crate::reader::Reader;
use crate::sentence::clauses::among;
use crate::story::Target;

impl Reader<'_> {
    /// `Find`, `Show that`, `What is`, `How far`: the sentence asks.
    pub(crate) fn command(&mut self, i: usize, question: bool) -> Option<usize> {
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
            let shown = |r: &mut Self| {
                r.showing.then(|| r.clause_shown(e).or_else(|| r.truth(e, Some(true)))).flatten()
            };
            let e2 = self.clause_asked(e).or_else(|| shown(self)).or_else(|| self.special_ask(e));
            return Some(e2.unwrap_or(e));
        }
        if let Some(e) = self.question_words(at) {
            return Some(e);
        }
        if self.showing && self.story.asks.len() == self.first_ask {
            let clause = self.phrase(at, "that").unwrap_or(at);
            if let Some(e) = self.clause_shown(clause) {
                return Some(e);
            }
            if !self.led_in(clause)
                && let Some(e) = self.truth(clause, Some(true))
            {
                return Some(e);
            }
        }
        // Will it move? Does the rope break?
        if question
            && self.story.asks.len() == self.first_ask
            && at == self.skip(self.lo)
            && matches!(self.w(at), "does" | "do" | "will" | "would" | "is" | "are" | "can" | "could")
            && let Some(e) = self.truth(at, None)
        {
            return Some(e);
        }
        if (self.asking || question)
            && let Some(e) = self.special_ask(at)
        {
            return Some(e);
        }
        None
    }

    /// `For what range of values of P does it stay at rest?`, `How large can P be if it is to stay at rest?`
    fn range_or_extreme(&mut self, i: usize) -> Option<usize> {
        if self.phrase(i, "for what|which").is_some() {
            return self.range_ask(i);
        }
        self.phrase(i, "how large|great|big|small can|may|could|must|should")?;
        self.extreme_ask(i)
    }

    /// Is the clause here one that says when, or on what condition?
    pub(super) fn led_in(&self, i: usize) -> bool {
        among(
            "when if while as once after before until where because given which whose by",
            self.w(i.saturating_sub(1)),
        )
    }

    pub(super) fn is_command(&self, w: &str) -> bool {
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
        if let Some(e) = self.range_or_extreme(i).or_else(|| self.clause_asked(i)) {
            return Some(e);
        }
        if let Some(e) = self.how(i) {
            return Some(e);
        }
        if let Some(e) = self.phrase(i, "how long does|do|will|is|must|it? it|they? take|takes|taken|be|elapse|elapses? to|for|before|until?").or_else(|| self.phrase(i, "how long is|was|will it be? before|until")).or_else(|| self.phrase(i, "how long does|do|will")) {
            self.asking = true;
            self.push_ask(Target::Time, i, e.min(i + 2));
            self.glue(i, e);
            return Some(e);
        }
        None
    }
}
