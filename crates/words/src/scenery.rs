//! Phrases that set the scene, or say when and where without changing the mechanics.

use crate::lexicon;
use crate::noun::Ref;
use crate::reader::Reader;
use crate::verbs;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// Phrases that may stand anywhere and touch nothing in the story. The notation is that of
/// [`Reader::phrase`]: alternatives with `|`, words that may be missing with `?`.
const PHRASES: &[&str] = &[
    "in this question",
    "at one point",
    "at some point",
    "once set|released in motion",
    "once released",
    "so that? the chain|string|rope|cable|tow-bar|coupling becomes|is taut|tight",
    "no other horizontal? forces|force act|acts on? the? pair|system|bodies|trucks|blocks?",
    "by means of",
    "with|under constant|uniform acceleration",
    "( no mass , no friction )",
    "at time? t = 0",
    "initially ,?",
    "the motion being uniformly accelerated",
    "so that all|both? the? bodies|particles|blocks|masses move together",
    "when|if? the system is free to move",
    "a|the force sensor|meter shows|reads|indicates that",
    "from then on",
    "the? operator|driver starts to brake|braking",
    "using the model",
    "at a given instant",
    "at this|that instant",
    "the system is in equilibrium initially",
    "it is seen|found that",
    "in the line of the strings|string|rope",
    "in order that",
    "and|,? each? perpendicular|normal to the edge|edges of? the? table|bench|platform|worktop|jetty?",
    "each|the|both string|strings|cord|cords|rope|ropes? is|are|being perpendicular to the edge|edges of? the? table|bench|platform? over|at which it|they|each|the? string|pulley? passes|pass|is|are? fixed?",
    "each|the|both string|strings|cord|cords|rope|ropes? is|are|being at right angles to the edge|edges of? the? table|bench|platform? over|at which it|they|each|the? string|pulley? passes|pass|is|are? fixed?",
    "well|high|some|clear distance? above|clear|below of? the|a|any ground|floor|water|pulley|deck|quay|table",
    "well clear of the|a|any ground|floor|water|pulley|deck|quay|table",
    ",? marked|graduated|calibrated|reading in newtons|newton ,?",
    "which|that reads|read|shows|show|gives|give|indicates|indicate its|their|the|force? readings|reading|force? in? newtons",
    "whose dial|readings|reading|scale is|are in|marked|graduated in? newtons",
    "with a dial|scale marked|graduated|reading in newtons",
    "the lift|hoist|cage|elevator|platform moves|travels|goes|runs|can|only ever? move|moves? only? vertically up|and? or|and? down?",
    "the lift|hoist|cage|elevator|platform moves|travels|goes|runs up and down vertically|freely?",
    "the lift|hoist|cage|elevator|platform moves|travels|goes|runs|can only? move|up? up? and? down? in a vertical shaft|line|direction",
    "the lift|hoist|cage|elevator|platform moves|travels|goes|runs|can only? move|up? up? and? down? in? a vertical shaft|line",
    "the lift|hoist|cage|elevator|platform moves only in the vertical direction",
    "the lift|hoist|cage|elevator|platform can move up and down in a vertical line",
    "the lift|hoist|cage|elevator|platform only ever moves vertically up or|and down",
    "motion of the lift|hoist|cage|elevator|platform is vertical",
    "the path of the lift|hoist|cage|elevator|platform is a vertical straight? line",
    "all motion takes place in a vertical|straight|horizontal straight? line",
    "the winch|motor|driver|winder|operator|brakeman is|are? slowed|slows|slowing down?",
    "is used to lower|raise|lift|move",
    "ahead",
    "in the subsequent motion",
    "in the ensuing motion",
    "in the motion that follows",
    "during the motion",
    "throughout the motion",
    "at the instant when",
    "at a certain moment|instant|time",
    "at this time|instant|moment",
    "at one stage of the journey",
    "during this part|stage of the descent|motion|journey|ascent",
    "during the first part of the descent|motion|ascent|journey",
    "while this is happening",
    "for the whole of the motion",
    "in that order",
    "one to each",
    "in all that follows",
    "at first",
    "in particular",
    "at the same time",
    "on the other hand",
    "with the usual notation",
    "in each case",
    "above the water",
    "without reaching the ground|floor|pulley",
    "in a straight line",
    "in line",
    "in a row",
    "in line with the rope|string",
    "the one behind the other",
    "one behind the other",
    "in the same straight line",
    "with a reason",
    "giving a reason",
    "to an appropriate degree of accuracy",
    "at the start",
    "on either side",
    "the system is in motion",
    "it is found|known|observed|given|seen that",
    "there are|is in addition",
    "in addition",
    "in its|their subsequent motion",
    "at all times",
    "as shown in the? diagram|figure|fig",
    "as shown|below",
    "the diagram|figure shows",
    "side by side",
    "from this position",
    "to the end of the motion",
    "for the first part of the journey",
    "for the motion",
    "during this time|motion",
    "for a short time",
    "before a|p|q|b|it reaches the pulley|floor|ground",
    "for as long as",
    "in front of",
    "relative to the cage|lift",
    "at rest relative to the lift|cage|floor",
    "so far",
    "of the motion",
    "in a|the|one|same single|same? vertical plane containing|through|that|which? contains|with|parallel? to? a|the? line|lines of greatest slope of? the|both|each|a|two? two|both|inclined? planes|plane|faces|slopes|slope|ramps|ramp|wedge?",
    "in a|the|one|same single|same? vertical plane",
    "with their lines of greatest slope in the same|a|one vertical plane",
    "with lines of greatest slope in the same|a|one vertical plane",
    "on the other side of the pulley|ridge|wedge",
    "meet at|along|in a|the common? horizontal? ridge|top|edge",
    "meeting at|along|in a|the common? horizontal? ridge|top|edge",
    "placed|standing|set back to back",
    "back to back",
    "of the|a|this fixed? wedge",
];

/// The phrases by the words they may begin with, so that a word is compared with few of them.
fn index() -> &'static BTreeMap<&'static str, Vec<&'static str>> {
    static INDEX: OnceLock<BTreeMap<&'static str, Vec<&'static str>>> = OnceLock::new();
    INDEX.get_or_init(|| {
        let mut map: BTreeMap<&'static str, Vec<&'static str>> = BTreeMap::new();
        for phrase in PHRASES {
            for item in phrase.split(' ') {
                let (words, optional) = item.strip_suffix('?').map_or((item, false), |s| (s, true));
                for word in words.split('|') {
                    let list = map.entry(word).or_default();
                    if list.last() != Some(phrase) {
                        list.push(phrase);
                    }
                }
                if !optional {
                    break;
                }
            }
        }
        map
    })
}

impl Reader<'_> {
    /// A scene-setting phrase or a place at `i`: the place after it.
    pub(crate) fn scenery(&mut self, i: usize) -> Option<usize> {
        let i = self.skip(i);
        // Fig. 3 shows a block ...
        if let Some(mut e) = self.phrase(i, "the? fig|figure|diagram|sketch") {
            if self.w(e) == "." {
                e += 1;
            }
            if self.tok(e).is_some_and(|t| t.number().is_some()) {
                e += 1;
            }
            if let Some(e) = self.phrase(e, "below|above? shows|illustrates|represents") {
                self.scene(i, e);
                return Some(e);
            }
        }
        // the pulleys and the strings are all in one vertical plane, perpendicular to the edge of the table
        if let Some(e) = self.phrase(i, "all? in a|one|the same? vertical plane") {
            let through = self
                .phrase(e, "containing|through|perpendicular to?")
                .or_else(|| self.phrase(e, "which|that contains"))
                .map(|k| self.phrase(k, "the edge|edges of").unwrap_or(k));
            let end = match through.filter(|&k| self.surface_ahead(k)) {
                Some(k) => self.np(k).map_or(e, |np| np.end),
                None => e,
            };
            self.scene(i, end);
            return Some(end);
        }
        for words in index().get(self.w(i)).map(Vec::as_slice).unwrap_or(&[]) {
            let Some(mut e) = self.phrase(i, words) else { continue };
            if words.starts_with("before") && self.asking && self.story.asks.len() > self.first_ask {
                continue;
            }
            // Figure 2
            if matches!(self.w(e.wrapping_sub(1)), "figure" | "fig" | "diagram") {
                if self.w(e) == "." {
                    e += 1;
                }
                if self.tok(e).is_some_and(|t| t.number().is_some()) {
                    e += 1;
                }
            }
            self.scene(i, e);
            return Some(e);
        }
        self.place(i)
    }

    /// A prepositional phrase of place without anything of mechanics in it: `at Marram Quay`, `in the net store`.
    pub(crate) fn place(&mut self, i: usize) -> Option<usize> {
        let start = self.skip(i);
        if !matches!(
            self.w(start),
            "at" | "in"
                | "near"
                | "beside"
                | "outside"
                | "inside"
                | "above"
                | "from"
                | "to"
                | "along"
                | "behind"
                | "under"
                | "below"
                | "into"
                | "alongside"
                | "beneath"
                | "within"
                | "across"
                | "past"
                | "up"
                | "off"
        ) {
            return None;
        }
        // At its starting point: a moment of the motion, no place.
        if self.asking
            && self.phrase(start, "at|to|from the|its|their|this|that starting|initial|original|same|highest|lowest point|position|place|spot").is_some()
        {
            return None;
        }
        // In newtons: no place.
        if self.w(start) == "in" && self.unit(start + 1).is_some() {
            return None;
        }
        let mut at = self.skip(start + 1);
        let mut some = false;
        if matches!(self.w(at), "the" | "a" | "an" | "its" | "one" | "this" | "each" | "their") {
            at = self.skip(at + 1);
        }
        for _ in 0..5 {
            let Some(t) = self.tok(at) else { break };
            let fine = t.is_word()
                && !lexicon::glue(&t.lower)
                && !verbs::is_verb(&t.lower)
                && !crate::quantity::quantity_word(&t.lower)
                && (t.text == "Quay"
                    || crate::place_words::is_place(&t.lower)
                    || crate::place_words::is_place(self.w(self.skip(at + 1)))
                    || (lexicon::noun(&t.lower).is_none()
                        && !lexicon::dangerous(&t.lower)
                        && crate::amount::in_words(&t.lower).is_none()
                        && t.letter().is_none()));
            if !fine {
                break;
            }
            some = true;
            at = self.skip(at + 1);
        }
        if !some {
            return None;
        }
        if self.tok(at).is_some_and(|t| {
            t.number().is_some()
                || crate::amount::in_words(&t.lower).is_some()
                || crate::quantity::quantity_word(&t.lower)
        }) {
            return None;
        }
        // "pushes it from behind", "from the front": which way a force acts is no place.
        if self.w(start) == "from"
            && matches!(self.w(at.saturating_sub(1)), "behind" | "front" | "rear" | "back")
        {
            return None;
        }
        // The phrase must not be the front of something that matters: "in the first lift".
        if self.tok(at).is_some_and(|t| lexicon::noun(&t.lower).is_some() && t.is_word()) || self.w(at) == "-"
        {
            return None;
        }
        // of the quay, of a works building
        if self.w(at) == "of" {
            if let Some(e) = self.of_place(at) {
                at = e;
            } else if matches!(
                self.w(at.saturating_sub(1)),
                "top"
                    | "bottom"
                    | "edge"
                    | "end"
                    | "foot"
                    | "summit"
                    | "side"
                    | "edges"
                    | "ends"
                    | "sides"
                    | "corner"
            ) && let Some(np) = self.np(at + 1)
                && matches!(np.what, Ref::Surface(_))
            {
                self.scene(start, at + 1);
                return Some(np.end);
            }
        }
        self.scene(start, at);
        Some(at)
    }

    pub(crate) fn of_place(&mut self, i: usize) -> Option<usize> {
        let mut at = self.skip(i + 1);
        if matches!(self.w(at), "the" | "a" | "an" | "its") {
            at = self.skip(at + 1);
        }
        let from = at;
        for _ in 0..3 {
            let Some(t) = self.tok(at) else { break };
            let place = crate::place_words::is_place(&t.lower)
                || crate::place_words::is_place(self.w(self.skip(at + 1)));
            let noun_or_place = t.is_word()
                && !lexicon::glue(&t.lower)
                && !verbs::is_verb(&t.lower)
                && !crate::quantity::quantity_word(&t.lower)
                && t.letter().is_none()
                && (place || lexicon::noun(&t.lower).is_none() && !lexicon::dangerous(&t.lower));
            if !noun_or_place {
                break;
            }
            at = self.skip(at + 1);
        }
        (at > from).then_some(at)
    }
}
