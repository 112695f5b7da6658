//! The reader's state: the tokens, what has been made of each, the story so far, and
//! who is being spoken of.

use crate::parts::Part;
use crate::story::{Given, Story};
use crate::token::{Sort, Token};
use model::{Diagnostic, Span};

/// What became of a token.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Use {
    /// Nothing yet.
    Open,
    /// It lays out the question or holds the sentence together.
    Glue,
    /// It sets the scene.
    Scene,
    /// It was not understood, and whoever asks says that it does not matter.
    Ignored,
    /// It told us something: the number of the note.
    Told(usize),
}

/// How deep phrases may stand within phrases. Real questions stay below ten; past this a question is a
/// puzzle, and its words are left unread rather than the stack exhausted.
pub(crate) const DEEPEST: usize = 24;

/// The reader.
pub(crate) struct Reader<'a> {
    pub text: &'a str,
    pub toks: &'a [Token],
    pub uses: Vec<Use>,
    /// What each note means.
    pub notes: Vec<String>,
    pub story: Story,
    pub diagnostics: Vec<Diagnostic>,
    pub parts: Vec<Part>,
    /// The part being read.
    pub part: usize,
    /// The sentence being read.
    pub lo: usize,
    pub hi: usize,
    /// Bodies that the sentence is about.
    pub subject: Vec<usize>,
    /// Bodies last named, for pronouns.
    pub latest: Vec<usize>,
    /// The two bodies last named one after the other, for "the former" and "the latter".
    pub pair: Option<(usize, usize)>,
    /// Links last named.
    pub link: Vec<usize>,
    /// The surface last named.
    pub surface: Option<usize>,
    /// What the clause is about, of any sort.
    pub about: Option<crate::noun::Ref>,
    /// Is the sentence asking?
    pub asking: bool,
    pub showing: bool,
    /// Facts that a "when" or "after" clause before the question sets for it.
    pub setting: Vec<crate::story::Fact>,
    /// The list of parts goes on asking (`Find (a) ..., (b) ...`).
    pub list_asking: bool,
    /// Where the asks of the present sentence begin.
    pub first_ask: usize,
    /// Joins told without what joins, waiting for "by light strings".
    pub joins: Vec<(usize, usize)>,
    /// A quantity asked for whose rest stands in the parts: `Find the force exerted (a) by P on Q`.
    pub pending: Option<crate::quantity::Mention>,
    /// The quantity last given, for "and that of B is".
    pub last_told: Option<crate::quantity::Mention>,
    /// Where the noun phrase before ended, if nothing has been said of it yet.
    pub run_end: Option<usize>,
    /// Asks of the stem whose conditions stand in the parts: `Find R when the lift (a) is at rest, (b) ...`.
    pub template: Vec<crate::story::AskTold>,
    /// The sentence has a command (find, calculate ...).
    pub commanded: bool,
    /// A release is being read: it holds for the whole question, wherever it stands.
    pub releasing: bool,
    /// How many phrases the present one stands within.
    pub depth: usize,
    /// How far a body hangs above the floor.
    pub drop: Option<(Given, bool)>,
    /// The letter of the point from which a body sets out: "from a point O".
    pub origin: Option<String>,
    /// The chapter of the story that is being told.
    pub chapter: usize,
    /// Moments named before the question to which they belong.
    pub moments: Option<crate::timeline::Moments>,
}

/// What the reader knew before something was read on trial.
pub(crate) struct Kept {
    uses: Vec<Use>,
    notes: usize,
    story: Story,
    diagnostics: usize,
    latest: Vec<usize>,
    pair: Option<(usize, usize)>,
    subject: Vec<usize>,
    link: Vec<usize>,
    about: Option<crate::noun::Ref>,
    asking: bool,
}

impl<'a> Reader<'a> {
    /// What is known now, to come back to if what is tried does not fit.
    pub(crate) fn keep(&self) -> Kept {
        Kept {
            uses: self.uses.clone(),
            notes: self.notes.len(),
            story: self.story.clone(),
            diagnostics: self.diagnostics.len(),
            latest: self.latest.clone(),
            pair: self.pair,
            subject: self.subject.clone(),
            link: self.link.clone(),
            about: self.about.clone(),
            asking: self.asking,
        }
    }
    /// Takes back all that was read since.
    pub(crate) fn restore(&mut self, kept: Kept) {
        self.uses = kept.uses;
        self.notes.truncate(kept.notes);
        self.story = kept.story;
        self.diagnostics.truncate(kept.diagnostics);
        self.latest = kept.latest;
        self.pair = kept.pair;
        self.subject = kept.subject;
        self.link = kept.link;
        self.about = kept.about;
        self.asking = kept.asking;
    }
    /// The word at a place in the sentence; empty past its end.
    pub(crate) fn w(&self, i: usize) -> &'a str {
        if i >= self.hi {
            return "";
        }
        self.toks.get(i).map_or("", |t| t.lower.as_str())
    }
    pub(crate) fn tok(&self, i: usize) -> Option<&'a Token> {
        if i >= self.hi { None } else { self.toks.get(i) }
    }
    /// Skips line ends.
    pub(crate) fn skip(&self, mut i: usize) -> usize {
        while self.tok(i).is_some_and(|t| t.sort == Sort::Newline) {
            i += 1;
        }
        i
    }
    /// Does the text at `i` read as these words? Gives the place after them. `|` separates
    /// alternatives, a trailing `?` marks a word that may be missing.
    pub(crate) fn phrase(&self, i: usize, pattern: &str) -> Option<usize> {
        // Every reader asks this at every word, so the pattern is walked byte by byte, and a word is compared only with
        // what is as long as itself.
        let pattern = pattern.as_bytes();
        let mut p = 0;
        let mut at = i;
        loop {
            at = self.skip(at);
            let word = self.w(at).as_bytes();
            let mut said = false;
            let mut optional = false;
            loop {
                let start = p;
                while pattern.get(p).is_some_and(|b| !matches!(b, b' ' | b'|' | b'?')) {
                    p += 1;
                }
                said |= p - start == word.len() && !word.is_empty() && pattern.get(start..p) == Some(word);
                if pattern.get(p) == Some(&b'?') {
                    optional = true;
                    p += 1;
                }
                if pattern.get(p) != Some(&b'|') {
                    break;
                }
                p += 1;
            }
            if said {
                at += 1;
            } else if !optional {
                return None;
            }
            if p >= pattern.len() {
                return Some(at);
            }
            p += 1;
        }
    }
    /// The place in the text from token `a` up to token `b`, which is not included.
    pub(crate) fn span(&self, a: usize, b: usize) -> Span {
        let first = self.toks.get(a).map_or(Span::default(), |t| t.span);
        let mut last = b.saturating_sub(1).max(a);
        while last > a && self.toks.get(last).is_some_and(|t| t.sort == Sort::Newline) {
            last -= 1;
        }
        self.toks.get(last).map_or(first, |t| first.join(t.span))
    }
    /// Notes what the tokens from `a` up to `b` told.
    pub(crate) fn told(&mut self, a: usize, b: usize, means: impl Into<String>) {
        let number = self.notes.len();
        self.notes.push(means.into());
        for i in a..b.min(self.uses.len()) {
            if let Some(u) = self.uses.get_mut(i)
                && matches!(u, Use::Open | Use::Glue | Use::Scene)
            {
                *u = Use::Told(number);
            }
        }
    }
    /// Marks tokens as holding the sentence together.
    pub(crate) fn glue(&mut self, a: usize, b: usize) {
        self.set(a, b, Use::Glue);
    }
    /// Marks tokens as setting the scene.
    pub(crate) fn scene(&mut self, a: usize, b: usize) {
        self.set(a, b, Use::Scene);
    }
    fn set(&mut self, a: usize, b: usize, to: Use) {
        for i in a..b.min(self.uses.len()) {
            if let Some(u) = self.uses.get_mut(i)
                && *u == Use::Open
            {
                *u = to;
            }
        }
    }
    /// An amount as a given of the present part.
    pub(crate) fn given(&self, amount: &crate::story::Amount) -> Given {
        Given {
            value: amount.value.clone(),
            span: amount.span,
            written: amount.written.clone(),
            part: self.part,
        }
    }
    /// How to speak of a body: `A`, `the truck`, `the second truck`.
    pub(crate) fn name(&self, body: usize) -> String {
        self.story.bodies.get(body).map_or_else(|| "the body".to_owned(), crate::names::of_body)
    }
    /// How to speak of several bodies.
    pub(crate) fn names(&self, bodies: &[usize]) -> String {
        if bodies.is_empty() {
            return "the system".to_owned();
        }
        if bodies.len() > 3 && bodies.len() == self.story.bodies.len() {
            return "the system".to_owned();
        }
        let names: Vec<String> = bodies.iter().map(|&b| self.name(b)).collect();
        match names.split_last() {
            Some((last, [])) => last.clone(),
            Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
            None => String::new(),
        }
    }
}
