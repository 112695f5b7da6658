//! The whole way from text to reading, and the account of every word.

use crate::assemble::Assembly;
use crate::idioms;
use crate::lexicon;
use crate::parts::{Part, divide};
use crate::reader::{Reader, Use};
use crate::reading::{Note, PartRead, Reading};
use crate::story::Story;
use crate::token::{LONGEST, Sort, tokens};
use model::{Diagnostic, Refusal, Severity, Span};
use std::collections::BTreeMap;

/// Reads a question, and ignores these phrases where they are not understood.
pub(crate) fn read(text: &str, ignored: &[String]) -> Reading {
    if text.trim().is_empty() {
        return refused(
            Diagnostic::refuse(Refusal::OffTopic, "there is no question here")
                .hint("type or paste a question about connected bodies"),
        );
    }
    if text.len() > LONGEST {
        let d = Diagnostic::refuse(
            Refusal::OffTopic,
            format!(
                "this is too long for a question: {} bytes, and the most that is read is {LONGEST}",
                text.len()
            ),
        )
        .at(Span::new(0, first_line(text)))
        .hint("paste one question at a time");
        return refused(d);
    }
    let toks = idioms::plain(tokens(text));
    let (parts, layout) = divide(&toks);
    let mut reader = Reader {
        text,
        toks: &toks,
        uses: vec![Use::Open; toks.len()],
        notes: Vec::new(),
        story: Story::default(),
        diagnostics: Vec::new(),
        parts: parts.clone(),
        part: 0,
        lo: 0,
        hi: 0,
        subject: Vec::new(),
        latest: Vec::new(),
        pair: None,
        link: Vec::new(),
        surface: None,
        about: None,
        asking: false,
        showing: false,
        setting: Vec::new(),
        list_asking: false,
        first_ask: 0,
        joins: Vec::new(),
        releasing: false,
        commanded: false,
        template: Vec::new(),
        run_end: None,
        pending: None,
        last_told: None,
        drop: None,
        origin: None,
        chapter: 0,
        moments: None,
        depth: 0,
    };
    for &i in &layout {
        reader.glue(i, i + 1);
    }
    for (n, part) in parts.iter().enumerate() {
        reader.part = n;
        for sentence in &part.sentences {
            let asks = reader.list_asking && n > 0;
            reader.sentence(sentence.lo, sentence.hi, sentence.question, asks);
        }
    }
    reader.keep_numbers(&layout);
    reader.guard(&parts);
    reader.set_scenes(&parts);
    reader.leftovers();
    reader.ignore(ignored);
    let layout: Vec<Span> = layout.iter().filter_map(|&i| toks.get(i)).map(|t| t.span).collect();
    Reading { layout, ..reader.finish(parts) }
}

fn first_line(text: &str) -> usize {
    let mut end = text.find('\n').unwrap_or(text.len()).min(80);
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    end
}

fn refused(diagnostic: Diagnostic) -> Reading {
    Reading { diagnostics: vec![diagnostic], ..Reading::default() }
}

impl Reader<'_> {
    /// No number is scenery: one that told nothing, and only counts a figure or starts the clock, stays open.
    fn keep_numbers(&mut self, layout: &[usize]) {
        for (i, t) in self.toks.iter().enumerate() {
            let silent = matches!(self.uses.get(i), Some(Use::Glue | Use::Scene));
            if !silent || t.number().is_none_or(exact::Rational::is_zero) || layout.contains(&i) {
                continue;
            }
            let before = |n: usize| i.checked_sub(n).and_then(|k| self.toks.get(k)).map_or("", |t| &t.lower);
            let figure = ["figure", "fig", "diagram"];
            if figure.contains(&before(1)) || before(1) == "." && figure.contains(&before(2)) {
                continue;
            }
            if let Some(u) = self.uses.get_mut(i) {
                *u = Use::Open;
            }
        }
    }

    /// A sentence that told nothing, and has no word in it that speaks of mechanics, sets the scene: no number, no letter,
    /// no thing of the story or of its kind, no quantity, no happening.
    fn set_scenes(&mut self, parts: &[Part]) {
        // Only what names its place is taken for a scene: much else could change the mechanics.
        // What asks nothing is no question, and has no scene.
        if self.story.asks.is_empty() {
            return;
        }
        for sentence in parts.iter().flat_map(|p| &p.sentences) {
            let range = sentence.lo..sentence.hi;
            let told = range.clone().any(|i| matches!(self.uses.get(i), Some(Use::Told(_))));
            let harmless = |t: &crate::token::Token| {
                let w = t.lower.as_str();
                let thing = lexicon::noun(w).or_else(|| lexicon::noun(&lexicon::singular(w))).is_some();
                let place = crate::place_words::is_place(w);
                let being = matches!(w, "is" | "are" | "was" | "were" | "has" | "have" | "had");
                let happens = crate::verbs::is_verb(w) && !being;
                let named = t.label() && t.text != "A" && t.text != "I";
                let counts = t.number().is_some() || crate::amount::in_words(w).is_some();
                let weighs = lexicon::dangerous(w) || crate::quantity::quantity_word(w);
                let related = matches!(w, "=" | "<" | ">");
                let speaks = thing && !place || happens || named || counts || weighs || related;
                !speaks
            };
            let tokens = || range.clone().filter_map(|i| self.toks.get(i));
            if told
                || sentence.question
                || !tokens().all(harmless)
                || tokens().filter(|t| t.is_word()).count() < 3
            {
                continue;
            }
            for i in range {
                if let Some(u) = self.uses.get_mut(i)
                    && *u == Use::Open
                {
                    *u = Use::Scene;
                }
            }
        }
    }

    /// Sorts what is left: words that hold sentences together, scene-setting, and the unread.
    fn leftovers(&mut self) {
        for (i, t) in self.toks.iter().enumerate() {
            let Some(u) = self.uses.get_mut(i) else { continue };
            if *u != Use::Open {
                continue;
            }
            if t.sort == Sort::Newline || lexicon::glue(&t.lower) && !t.label_like() {
                *u = Use::Glue;
            } else if t.is_word() && lexicon::scene(&t.lower) && !lexicon::dangerous(&t.lower) {
                *u = Use::Scene;
            }
        }
    }

    fn finish(mut self, parts: Vec<Part>) -> Reading {
        let unread = self.unread();
        let things = !self.story.bodies.is_empty();
        let told = self.notes.len();
        let mut diagnostics = std::mem::take(&mut self.diagnostics);
        let words = self.toks.iter().filter(|t| t.is_word()).count();
        let unread_words =
            self.uses.iter().zip(self.toks).filter(|(u, t)| **u == Use::Open && t.is_word()).count();
        let mechanics = things
            && (self.story.asks.iter().any(|a| !matches!(a.target, crate::story::Target::Time))
                || !self.story.forces.is_empty()
                || !self.story.links.is_empty()
                || !self.story.coefficients.is_empty()
                || self.story.bodies.iter().any(|b| b.mass.is_some()));
        let foreign = !mechanics || (unread_words * 2 > words && self.story.asks.is_empty());
        let mut reading = Reading {
            notes: self.account(),
            unread: unread.clone(),
            scene: self.runs(Use::Scene),
            ignored: self.runs(Use::Ignored),
            parts: parts.iter().map(|p| PartRead { label: p.label.clone(), marks: p.marks }).collect(),
            ..Reading::default()
        };
        if foreign && told < 40 {
            let d = Diagnostic::refuse(
                Refusal::OffTopic,
                "this does not read as a question about connected bodies",
            )
            .at_all(unread.first().copied())
            .hint("name the bodies with their masses, what joins them, the forces, and what is to be found");
            reading.diagnostics = vec![d];
            return reading;
        }
        for span in &unread {
            let words = span.of(self.text);
            diagnostics.push(
                Diagnostic::refuse(
                    Refusal::Unread,
                    format!("\"{}\" was not understood, and may matter", shorten(words)),
                )
                .at(*span)
                .hint(crate::account::hint(words)),
            );
        }
        for (n, part) in parts.iter().enumerate().skip(1) {
            let heads = parts.get(n + 1).is_some_and(|p| p.label.starts_with(&format!("{}(", part.label)));
            let asked = self.story.asks.iter().any(|a| a.part == n);
            if asked || heads {
                continue;
            }
            let span = match (part.sentences.first(), part.sentences.last()) {
                (Some(a), Some(b)) => self.span(a.lo, b.hi),
                _ => Span::default(),
            };
            if unread.iter().any(|u| u.overlaps(span)) {
                continue;
            }
            diagnostics.push(
                Diagnostic::refuse(
                    Refusal::Unread,
                    format!("it is not clear what part ({}) asks", part.label),
                )
                .at(span)
                .hint("ask, for example: Find the tension in the tow-bar."),
            );
        }
        if self.story.asks.is_empty() {
            diagnostics.push(
                Diagnostic::refuse(Refusal::Incomplete, "nothing is asked")
                    .hint("add, for example: Find the acceleration of the system."),
            );
        }
        let mut assembly = Assembly::new(&self.story);
        assembly.things();
        assembly.questions(&parts);
        diagnostics.append(&mut assembly.diagnostics);
        reading.situation = assembly.b.finish();
        diagnostics.extend(reading.situation.check());
        diagnostics
            .sort_by_key(|d| (d.spans.first().copied().unwrap_or_default(), std::cmp::Reverse(d.severity)));
        diagnostics.dedup();
        // One complaint is enough where the rest follows from what was not read.
        if diagnostics.iter().any(|d| d.refusal == Some(Refusal::Unread)) {
            diagnostics.retain(|d| {
                d.severity < Severity::Error
                    || !matches!(d.refusal, Some(Refusal::Incomplete))
                    || !d.spans.is_empty()
            });
        }
        reading.diagnostics = diagnostics;
        reading
    }

    /// Runs of unread tokens; neighbours with only glue between them are one run.
    fn unread(&self) -> Vec<Span> {
        let mut runs: Vec<(usize, usize)> = Vec::new();
        for (i, u) in self.uses.iter().enumerate() {
            if *u != Use::Open {
                continue;
            }
            match runs.last_mut() {
                Some((_, last))
                    if (*last + 1..i).all(|k| matches!(self.uses.get(k), Some(Use::Glue)))
                        && i - *last <= 4 =>
                {
                    *last = i
                }
                _ => runs.push((i, i)),
            }
        }
        runs.into_iter().map(|(a, b)| self.span(a, b + 1)).collect()
    }

    /// Runs of tokens of which this became.
    fn runs(&self, of: Use) -> Vec<Span> {
        let mut out: Vec<Span> = Vec::new();
        let mut last = None;
        for (i, u) in self.uses.iter().enumerate() {
            if *u == of {
                let span = self.span(i, i + 1);
                match (out.last_mut(), last) {
                    (Some(o), Some(l)) if l + 1 == i => *o = o.join(span),
                    _ => out.push(span),
                }
                last = Some(i);
            }
        }
        out
    }

    /// The notes as they lie over the text, none over another: each token shows the note that told last of it.
    fn account(&self) -> Vec<Note> {
        let mut out: Vec<(usize, Note)> = Vec::new();
        let mut last: Option<usize> = None;
        for (i, u) in self.uses.iter().enumerate() {
            let Use::Told(n) = u else {
                if !matches!(u, Use::Glue) || !matches!(self.toks.get(i).map(|t| t.lower.as_str()), Some(","))
                {
                    last = None;
                }
                continue;
            };
            let span = self.span(i, i + 1);
            match out.last_mut() {
                Some((m, note)) if *m == *n && last.is_some() => note.span = note.span.join(span),
                // A phrase does not begin with a comma.
                _ if matches!(self.toks.get(i).map(|t| t.lower.as_str()), Some("," | ";" | ":")) => {
                    last = None;
                    continue;
                }
                _ => {
                    let means = self.notes.get(*n).cloned().unwrap_or_default();
                    out.push((*n, Note { span, means }));
                }
            }
            last = Some(i);
        }
        // An article that stands apart from its noun tells nothing by itself.
        let mut shown: BTreeMap<usize, usize> = BTreeMap::new();
        for (n, _) in &out {
            *shown.entry(*n).or_default() += 1;
        }
        let article =
            |note: &Note| matches!(note.span.of(self.text), "a" | "A" | "an" | "An" | "the" | "The");
        out.retain(|(n, note)| !article(note) || shown.get(n) == Some(&1));
        out.into_iter().map(|(_, n)| n).collect()
    }
}

impl crate::token::Token {
    /// A label such as A that nobody took is no filler.
    fn label_like(&self) -> bool {
        self.label() && self.text != "A" && self.text != "I"
    }
}

pub(crate) fn shorten(words: &str) -> String {
    let flat: String = words.split_whitespace().collect::<Vec<_>>().join(" ");
    if flat.chars().count() <= 80 {
        return flat;
    }
    let cut: String = flat.chars().take(77).collect();
    format!("{cut}...")
}

/// A wording that works, for what was not understood.
fn hint(words: &str) -> String {
    let lower = words.to_lowercase();
    let any = |list: &[&str]| list.iter().any(|w| lower.contains(w));
    if any(&["elastic", "spring", "modulus"]) {
        "strings here do not stretch: write \"a light inextensible string\"".to_owned()
    } else if any(&["break", "cut", "snap", "detach"]) {
        "say what breaks and when: \"After 2 s the string breaks\", and ask \"after the string breaks\" or \"before\"".to_owned()
    } else if any(&["resist", "drag", "friction"]) {
        "give resistances as constant forces: \"a resistance of 200 N acts on the trailer\", or a coefficient of friction".to_owned()
    } else if any(&["force", "pull", "push"]) {
        "name the force, its size, the body and its direction: \"a horizontal force of 50 N acts on A\""
            .to_owned()
    } else if any(&["mass", "kg", "weigh"]) {
        "give masses as: \"a crate of mass 40 kg\"".to_owned()
    } else if any(&["speed", "m/s", "accel"]) {
        "say it as: \"moves upwards with an acceleration of 0.5 m s^-2\", \"starts from rest\"".to_owned()
    } else {
        "leave it out if it is only scene-setting, or say it in plainer words".to_owned()
    }
}
