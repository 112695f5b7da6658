//! A sentence with words that were not understood, and the changes that come to mind for it.

use super::cast::{Cast, Name, word_in};
use super::figures::{Figure, figures};
use super::kinds::{ASKED, Kind, TOLD};
use super::nearest::NEAREST;
use crate::idioms::fits;
use crate::lexicon;
use crate::parts::Sentence;
use crate::reading::Reading;
use crate::token::{Sort, Token};
use model::{Span, Suggestion};

/// So many kinds of things are thought of.
const KINDS: usize = 3;
/// So many nearer words.
const WORDS: usize = 6;

/// A sentence with unread words.
pub(super) struct Troubled<'a> {
    text: &'a str,
    toks: &'a [Token],
    /// The whole sentence, without its stop.
    span: Span,
    open: Vec<Span>,
    told: Vec<Span>,
    asking: bool,
    /// It stands in a list of things asked and has no command of its own.
    listed: bool,
}

impl<'a> Troubled<'a> {
    pub(super) fn find(
        text: &'a str,
        toks: &'a [Token],
        sentence: &Sentence,
        reading: &Reading,
    ) -> Option<Troubled<'a>> {
        let toks = toks.get(sentence.lo..sentence.hi)?;
        let said = |t: &&Token| t.sort != Sort::Newline;
        let (first, last) = (toks.iter().find(said)?, toks.iter().rev().find(said)?);
        let span = first.span.join(last.span);
        let within = |places: &mut dyn Iterator<Item = Span>| -> Vec<Span> {
            places
                .filter(|p| p.overlaps(span))
                .map(|p| Span::new(p.start.max(span.start), p.end.min(span.end)))
                .collect()
        };
        let open = within(&mut reading.unread.iter().copied());
        if open.is_empty() {
            return None;
        }
        let told = within(&mut reading.notes.iter().map(|n| n.span));
        let command = toks.iter().any(|t| commands(&t.lower));
        let asked = reading.situation.asks.iter().any(|a| a.span.overlaps(span));
        let asking = sentence.question || command || asked;
        Some(Troubled {
            text,
            toks,
            span,
            open,
            told,
            asking,
            listed: asking && !sentence.question && !command,
        })
    }

    /// Where its unread words stand.
    pub(super) fn open(&self) -> &[Span] {
        &self.open
    }

    /// The changes that come to mind, the likeliest first.
    pub(super) fn changes(&self, cast: &Cast) -> Vec<Suggestion> {
        let mut out = self.nearer_words();
        for kind in self.kinds() {
            for said in self.filled(kind, cast) {
                out.extend(self.placed(kind, &said, cast).map(|(span, words)| {
                    Suggestion::new(span, words, format!("said as {} in plain words", kind.name))
                }));
            }
        }
        out
    }

    /// Another word where one stands that told nothing.
    fn nearer_words(&self) -> Vec<Suggestion> {
        let mut places: Vec<(Span, &str)> = Vec::new();
        let mut out = Vec::new();
        let mut i = 0;
        while i < self.toks.len() && out.len() < WORDS {
            let rows = NEAREST.iter().filter_map(|(said, plain)| Some((fits(self.toks, i, said)?, *plain)));
            let Some((end, plain)) = rows.max_by_key(|(end, _)| *end) else {
                i += 1;
                continue;
            };
            let written = self.toks.get(i..end).unwrap_or_default();
            let span = written.iter().map(|t| t.span).reduce(Span::join).unwrap_or_default();
            if written.iter().any(|t| !self.is_told(t.span)) {
                let at = span.of(self.text).trim();
                places.extend(plain.first().map(|first| (span, *first)));
                out.extend(plain.iter().map(|plain| match *plain {
                    "" => Suggestion::new(self.with_gap(span), "", format!("“{at}” may not matter")),
                    plain => Suggestion::new(span, plain, format!("“{at}” may mean this")),
                }));
            }
            i = end.max(i + 1);
        }
        if let ([(first, _), _, ..], Some((last, _))) = (places.as_slice(), places.last()) {
            let span = first.join(*last);
            out.insert(0, Suggestion::new(span, self.with(&places, span), "these words may mean this"));
        }
        out
    }

    /// The stretch with other words in several places.
    fn with(&self, places: &[(Span, &str)], span: Span) -> String {
        let mut out = String::new();
        let mut at = span.start;
        for (place, words) in places {
            out.push_str(self.text.get(at..place.start).unwrap_or_default());
            out.push_str(words);
            at = place.end;
        }
        out
    }

    /// The stretch with the space after it.
    fn with_gap(&self, span: Span) -> Span {
        let gap = self.text.get(span.end..).is_some_and(|rest| rest.starts_with(' '));
        Span::new(span.start, span.end + usize::from(gap))
    }

    fn is_told(&self, span: Span) -> bool {
        self.told.iter().any(|t| t.overlaps(span))
    }

    fn figures_left(&self) -> Vec<Figure> {
        self.open.iter().flat_map(|s| figures(s.of(self.text))).collect()
    }

    /// The kinds of things that it may speak of, the likeliest first.
    fn kinds(&self) -> Vec<&'static Kind> {
        let all = if self.asking { ASKED } else { TOLD };
        let figures = self.figures_left();
        let open = |t: &&Token| self.open.iter().any(|o| o.overlaps(t.span));
        let mut scored: Vec<(usize, &'static Kind)> = all
            .iter()
            .filter_map(|kind| {
                let in_open = self.toks.iter().filter(open).filter(|t| kind.hit(&t.lower)).count();
                let in_all = self.toks.iter().filter(|t| kind.hit(&t.lower)).count();
                let fits = match kind.needs {
                    Some(measures) => figures.iter().any(|f| f.measures == measures),
                    None => figures.is_empty(),
                };
                let score = 3 * in_open + in_all;
                let fits = fits && (in_open > 0 || kind.needs.is_some() && in_all > 0);
                fits.then_some((score, kind))
            })
            .collect();
        scored.sort_by_key(|(score, _)| std::cmp::Reverse(*score));
        // Where words say more, one word says little.
        let best = scored.first().map_or(0, |(score, _)| *score);
        scored.retain(|(score, _)| 3 * score > best);
        scored.into_iter().take(KINDS).map(|(_, kind)| kind).collect()
    }

    /// The plain sentences of a kind with the names and the amount of this one.
    fn filled(&self, kind: &Kind, cast: &Cast) -> Vec<String> {
        let sentence = self.span.of(self.text);
        let bodies = first_named(sentence, &cast.bodies);
        let joins = first_named(sentence, &cast.joins);
        let grounds = first_named(sentence, &cast.grounds);
        let figures = self.figures_left();
        let amount = kind.needs.and_then(|m| figures.iter().find(|f| f.measures == m));
        let name = |names: &[&str], n: usize| names.get(n).map_or(String::new(), |s| (*s).to_owned());
        // Where no body is named, each of the first two may be meant.
        let unnamed = !cast.bodies.iter().any(|b| b.is_in(sentence));
        let turns = if unnamed && bodies.len() > 1 { 2 } else { 1 };
        let mut out = Vec::new();
        for template in kind.says {
            for turn in 0..turns {
                if turn > 0 && !template.contains("{body}") {
                    continue;
                }
                let slots = [
                    ("{body}", name(&bodies, turn)),
                    ("{other}", name(&bodies, 1 - turn.min(1))),
                    ("{join}", name(&joins, 0)),
                    ("{ground}", name(&grounds, 0)),
                    ("{n}", amount.map_or(String::new(), |f| f.written.clone())),
                ];
                let missing = |(slot, with): &(&str, String)| template.contains(slot) && with.is_empty();
                if slots.iter().any(missing) {
                    continue;
                }
                let mut said = template.replace("{way}", way(sentence));
                for (slot, with) in &slots {
                    said = said.replace(slot, with);
                }
                out.push(capital(&said.split_whitespace().collect::<Vec<_>>().join(" ")));
            }
        }
        out
    }

    /// Where the plain sentence goes: in the place of the whole one if nothing is lost with it, else after what is left
    /// of the sentence without its unread words.
    fn placed(&self, kind: &Kind, said: &str, cast: &Cast) -> Option<(Span, String)> {
        let figures_kept = |within: &str| figures(within).iter().all(|f| holds(said, &f.written));
        if !self.keeps_open(kind, said) || !self.open.iter().all(|o| figures_kept(o.of(self.text))) {
            return None;
        }
        if figures_kept(self.span.of(self.text)) && self.keeps_told(said, cast) {
            let said = if self.listed { said.replacen("Find the ", "the ", 1) } else { said.to_owned() };
            return Some((self.span, said));
        }
        if self.asking {
            return None;
        }
        Some((self.span, format!("{}. {said}", self.without_open()?)))
    }

    /// Does the plain sentence say all that this one told, and on the same conditions?
    fn keeps_told(&self, said: &str, cast: &Cast) -> bool {
        let thing =
            |t: &Token| !matches!(lexicon::noun(&t.lower), None | Some(lexicon::Noun::Surface { .. }));
        let tells = |t: &&Token| thing(t) || self.is_told(t.span) && (tells(t) || t.lower == "rest");
        let several = said.contains("the system") || said.contains(" and ");
        self.toks.iter().filter(|t| tells(t) || CONDITIONS.contains(&t.lower.as_str())).all(|t| {
            let many = lexicon::noun(&t.lower).is_some() && lexicon::plural(&t.lower);
            (keeps(said, t) || cast.calls(said, &t.lower)) && (!many || several || word_in(said, &t.lower))
        })
    }

    /// Does it say what the unread words say, as far as they are known? A word or two may be others.
    fn keeps_open(&self, kind: &Kind, said: &str) -> bool {
        let open = self.toks.iter().filter(|t| self.open.iter().any(|o| o.overlaps(t.span)));
        let lost = open.filter(|t| t.is_word() && !kind.hit(&t.lower) && !keeps(said, t));
        let (mut strange, mut known) = (0, 0);
        for t in lost {
            let ground = matches!(lexicon::noun(&t.lower), Some(lexicon::Noun::Surface { .. }));
            if tells(t) && !ground || crate::amount::in_words(&t.lower).is_some() {
                known += 1;
            } else if !lexicon::glue(&t.lower) && !lexicon::scene(&t.lower) {
                strange += 1;
            }
        }
        known == 0 && strange <= 2
    }

    /// The sentence without its unread words, if what is left is still a sentence that tells.
    fn without_open(&self) -> Option<String> {
        let mut left = String::new();
        let mut at = self.span.start;
        for open in &self.open {
            left.push_str(self.text.get(at..open.start)?);
            at = open.end;
            let goes_on = self.text.get(at..self.span.end).unwrap_or_default().trim_start();
            let ends = !goes_on.starts_with(char::is_alphanumeric);
            if !goes_on.is_empty() && (dangles(&left) || !ends && !joins(goes_on)) {
                return None;
            }
        }
        left.push_str(self.text.get(at..self.span.end)?);
        let mut words: Vec<&str> = left.split_whitespace().collect();
        while words.last().is_some_and(|w| dangles(w)) {
            words.pop();
        }
        let left = words.join(" ").replace(" ,", ",");
        let left = left.trim_end_matches([',', ';', ':', ' ']);
        (words.len() > 2 && !self.told.is_empty()).then(|| left.to_owned())
    }
}

/// Does the text go on with another clause?
fn joins(text: &str) -> bool {
    let first = text.split_whitespace().next().unwrap_or_default();
    matches!(first, "and" | "but" | "while" | "when" | "which" | "that")
}

/// Does the text end with a word that wants another?
fn dangles(text: &str) -> bool {
    text.split_whitespace().next_back().is_none_or(|last| DANGLING.contains(&last.trim_end_matches(',')))
}

/// Words on which it hangs when and of what something holds.
const CONDITIONS: &[&str] = &[
    "before",
    "after",
    "when",
    "until",
    "while",
    "if",
    "once",
    "not",
    "no",
    "without",
    "light",
    "vertical",
    "horizontal",
    "component",
    "same",
    "neither",
    "instead",
    "removed",
    "why",
    "average",
    "total",
    "greatest",
    "least",
    "maximum",
    "minimum",
    "both",
    "each",
    "exceed",
    "again",
    "ratio",
    "relative",
    "would",
    "change",
    "changed",
    "further",
    "another",
    "twice",
    "half",
    "double",
    "towards",
    "way",
    "whether",
    "direction",
    "only",
    "most",
    "second",
    "seconds",
    "together",
    "contents",
    "altogether",
    "ceases",
    "cease",
    "hence",
    "then",
];

/// Can the mechanics hang on this word?
fn tells(t: &Token) -> bool {
    let letter = t.letter().is_some_and(|l| !matches!(l, 'a' | 'A' | 'I'));
    t.label() && t.text != "A"
        || letter
        || matches!(t.lower.as_str(), ">" | "<" | "≥" | "≤" | "=")
        || lexicon::dangerous(&t.lower)
        || lexicon::noun(&t.lower).is_some()
        || CONDITIONS.contains(&t.lower.as_str())
}

/// Does the plain sentence hold this word, in some form of it?
fn keeps(said: &str, t: &Token) -> bool {
    if t.letter().is_some() || t.label() {
        return word_in(said, &t.text);
    }
    let one = lexicon::singular(&t.lower);
    let stem: String = one.chars().take(5).collect();
    said.to_lowercase().contains(&stem)
}

/// Words that cannot end a sentence.
const DANGLING: &[&str] = &[
    "and", "or", "but", "with", "which", "that", "who", "is", "are", "a", "an", "the", "of", "by", "at",
    "to", "in", "on", "from", "has", "have", "it", "they", "then", "so", "",
];

/// Does the written amount stand in the text by itself?
fn holds(text: &str, amount: &str) -> bool {
    figures(text).iter().any(|f| f.written == amount)
}

/// The names that the sentence speaks of, then the others.
fn first_named<'n>(sentence: &str, names: &'n [Name]) -> Vec<&'n str> {
    let (mut there, others): (Vec<&Name>, Vec<&Name>) = names.iter().partition(|n| n.is_in(sentence));
    there.extend(others);
    there.into_iter().map(|n| n.says.as_str()).collect()
}

/// The direction that the sentence gives.
fn way(sentence: &str) -> &'static str {
    const WAYS: &[&str] = &[
        "upwards",
        "downwards",
        "up the slope",
        "down the slope",
        "up the plane",
        "down the plane",
        "to the right",
        "to the left",
    ];
    WAYS.iter().find(|way| sentence.contains(**way)).copied().unwrap_or("")
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// Words that ask.
fn commands(word: &str) -> bool {
    matches!(
        word,
        "find"
            | "calculate"
            | "determine"
            | "show"
            | "work"
            | "what"
            | "how"
            | "which"
            | "state"
            | "write"
            | "obtain"
            | "evaluate"
            | "compute"
            | "explain"
            | "hence"
            | "give"
            | "why"
            | "deduce"
            | "prove"
            | "estimate"
    )
}
