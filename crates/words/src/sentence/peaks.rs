//! Asks that belong to stories: the greatest height, the impulse in the string, the energy lost, how long it is slack.

use crate::reader::Reader;
use crate::story::Target;
use crate::timeline::{Event, Moment, Occurs};

impl Reader<'_> {
    /// A target of a story at `i`. The place after it.
    pub(super) fn peak(&mut self, i: usize) -> Option<usize> {
        let i = self.skip(i);
        if let Some(e) = self.height(i) {
            return Some(e);
        }
        if let Some(e) = self
            .phrase(i, "the magnitude|size? of? the? impulse|jerk in|of|exerted|on|transmitted by|in|through? the string|rope|cord|tow-rope|cable")
            .or_else(|| self.phrase(i, "the impulsive tension in the string|rope|cord|tow-rope|cable"))
            .or_else(|| self.phrase(i, "the magnitude|size? of? the? impulse of? the? tension? in? the? string|rope|cord?"))
        {
            self.push_ask(Target::Impulse, i, e);
            return Some(e);
        }
        if let Some(e) = self
            .phrase(i, "the loss of|in kinetic? energy")
            .or_else(|| self.phrase(i, "the kinetic energy lost"))
            .or_else(|| self.phrase(i, "the energy lost|loss"))
            .or_else(|| self.phrase(i, "how much kinetic? energy is lost"))
        {
            let e = self
                .phrase(e, "by the system|particles")
                .or_else(|| self.phrase(e, "of the system"))
                .unwrap_or(e);
            self.push_ask(Target::EnergyLost, i, e);
            return Some(e);
        }
        None
    }

    /// `the greatest height reached by Q above the floor`, `how high above the floor does Q rise`.
    fn height(&mut self, i: usize) -> Option<usize> {
        const GOT: &str = "reached|attained|achieved|gained";
        let head = self
            .phrase(i, "the|its? greatest|maximum|max|total height")
            .or_else(|| self.phrase(i, "the height to which"))
            .or_else(|| self.phrase(i, "how high|far above").map(|e| e - 1).filter(|&e| e > i + 1))
            .or_else(|| self.phrase(i, "how high"))
            .or_else(|| self.phrase(i, "the total height|distance"))
            .or_else(|| self.phrase(i, "the greatest|maximum distance"))
            .or_else(|| self.phrase(i, "the height").filter(|&e| self.phrase(e, "above").is_some()))?;
        let mut at = head;
        let mut of: Option<Vec<usize>> = None;
        let mut ground = None;
        for _ in 0..6 {
            let k = self.skip(at);
            if let Some(e) =
                self.phrase(k, "above the|its|their ground|floor|deck|quay|quayside|pontoon|jetty|platform")
            {
                ground = Some(true);
                at = e;
            } else if let Some(e) = self
                .phrase(k, "above its|their|the|this starting|initial|original point|position|level")
                .or_else(|| self.phrase(k, "above where it starts|started|began"))
            {
                ground = Some(false);
                at = self.phrase(e, "of release").unwrap_or(e);
            } else if let Some(e) = self.phrase(k, &format!("that|which? is|was? {GOT}")) {
                at = e;
            } else if let Some(e) =
                self.phrase(k, "by|of").or_else(|| self.phrase(k, "to|that which? ").filter(|_| false))
            {
                let np = self.np(e)?;
                of = self.bodies_of(Some(&np.what));
                at = np.end;
            } else if let Some(e) = self.phrase(k, "does|will|do|to|that|which|through").or_else(|| {
                (of.is_none() && matches!(self.w(self.skip(i)), "the" | "how") && self.body_starts(k))
                    .then_some(k)
            }) {
                let e = self.phrase(e, "which").unwrap_or(e);
                let np = self.np(e)?;
                of = self.bodies_of(Some(&np.what));
                at = self.phrase(
                    np.end,
                    "then|subsequently|first|is|has|been? rise|raised|lifted|rises|ascends|ascend|reach|reaches|go|goes|get|gets|attains|will rise|reach?",
                )?;
            } else if let Some(e) = self.phrase(k, "in the subsequent|ensuing motion") {
                at = e;
            } else {
                break;
            }
        }
        let of = of.unwrap_or_else(|| self.latest.clone());
        let [body] = of.as_slice() else { return None };
        // The total height through which Q rises: above where it began.
        let total = self.phrase(i, "the total height|distance").is_some();
        let rises = || (i..at).any(|k| matches!(self.w(k), "rises" | "rise" | "ascends" | "raised"));
        // Of a journey in stages it is the whole way.
        let phases =
            !self.story.events.is_empty() && self.story.events.iter().all(|e| e.occurs == Occurs::Changes);
        if total && rises() && ground.is_none() && phases {
            let of = vec![*body];
            self.push_ask(Target::Distance { of }, i, at);
            if let Some(ask) = self.story.asks.last_mut() {
                ask.when.total = true;
            }
            return Some(at);
        }
        let ground = ground.or_else(|| (total && rises()).then_some(false))?;
        if self.phrase(i, "the total|greatest|maximum distance").is_some() && !rises() {
            return None;
        }
        let body = *body;
        // The other one has come down by then, even if only the question says so.
        let ends = |e: &Event| matches!(e.occurs, Occurs::Lands { .. } | Occurs::Breaks(_) | Occurs::Off(_));
        if !self.story.events.iter().any(ends) {
            let lander =
                self.story.clearances.iter().filter(|c| c.ground).flat_map(|c| &c.of).find(|b| **b != body);
            let occurs = Occurs::Lands { body: *lander?, at: "the floor".to_owned(), ground: true };
            self.story.events.push(Event { occurs, told: false, part: self.part, span: self.span(i, at) });
        }
        self.push_ask(Target::Height { of: vec![body], ground }, i, at);
        if let Some(ask) = self.story.asks.last_mut() {
            ask.when.to = Some(Moment::Rest(vec![body]));
            ask.when.chapter = self.story.events.len();
        }
        Some(at)
    }
}
