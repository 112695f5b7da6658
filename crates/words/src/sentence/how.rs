//! Questions that begin with *how* (or `with what speed`, `through what further height`), in either order of words: `How
//! much further does P move`, `find how far up the plane P moves`, `determine how long after that P stops`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::Target;

/// What is measured.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Measure {
    Far,
    Fast,
    Long,
}

/// The openings: what they measure, and whether it comes on top of what was before.
const OPENINGS: &[(Measure, bool, &str)] = &[
    (Measure::Far, false, "how far"),
    (Measure::Far, true, "how much further|farther|higher"),
    (Measure::Far, true, "how much more distance"),
    (Measure::Far, false, "through what|which distance|height"),
    (Measure::Far, true, "through what|which further|additional distance|height"),
    (Measure::Far, true, "what further|additional|extra distance|height"),
    (Measure::Fast, false, "how fast|quickly"),
    (Measure::Fast, false, "with|at what|which speed|velocity"),
    (Measure::Long, false, "how long"),
    (Measure::Long, false, "how much time"),
    (Measure::Long, true, "how much longer"),
    (Measure::Long, false, "the length of time for|that|which?"),
    (Measure::Long, false, "the total? time for|that|which?"),
    (Measure::Long, false, "the total? time taken by|for"),
    (Measure::Long, true, "the further|additional|extra time for|that|which?"),
];

const AUX: &str = "does|do|did|will|would|has|have|had|is|are|was|were|can|must";

const MOVES: &str = "move|moves|moved|moving|travel|travels|travelled|traveled|travelling|traveling|go|goes|gone|going|slide|slides|slid|sliding|rise|rises|risen|rising|fall|falls|fallen|falling|climb|climbs|climbed|roll|rolls|rolled|run|runs|coast|coasts|descend|descends|descended|ascend|ascends|ascended|drop|drops|get|gets|continue|continues|carry|carries|come|comes|slip|slips";

impl Reader<'_> {
    /// A question that begins with how. The place after what was read of it.
    pub(super) fn how(&mut self, i: usize) -> Option<usize> {
        let i = self.skip(i);
        let (measure, further, e) = OPENINGS
            .iter()
            .filter_map(|(m, f, p)| Some((*m, *f, self.phrase(i, p)?)))
            .max_by_key(|(_, _, e)| *e)?;
        if measure == Measure::Long {
            // The time that P takes to stop, for which P is on the floor; other times are quantities.
            if self.w(i) == "the" {
                return self.time_taken(i, e, further);
            }
            return self.how_long(i, e, further);
        }
        let e = self.along(e).unwrap_or(e);
        let e = self.phrase(e, "from").and_then(|f| self.where_it_began(f)).unwrap_or(e);
        let aux = self.phrase(e, AUX);
        let at = aux.unwrap_or(e);
        let np = self.nps(at, false)?;
        let (Ref::Bodies(_) | Ref::System) = np.what else { return None };
        let of = self.bodies_of(Some(&np.what))?;
        let k = self
            .phrase(np.end, "then|subsequently|now|actually|first|just|still|both? be|been|have|has|had|is|are|was|were|will|would? then|now? be|been?")
            .unwrap_or(np.end);
        let moved = self.phrase(k, MOVES).map(|e| self.phrase(e, "on to? move? moving?").unwrap_or(e));
        let end = match (measure, moved) {
            (_, Some(e)) => e,
            // With what speed P hits the floor: the moment follows.
            (Measure::Fast, None) if self.w(i) != "how" => {
                let target = Target::Speed { of: of.clone(), start: false };
                return self.speed_at_event(i, at, e, aux.is_some(), target);
            }
            (Measure::Fast, None) if aux.is_some() => k,
            _ => return None,
        };
        let end = if measure == Measure::Far { self.along(end).unwrap_or(end) } else { end };
        let target = match measure {
            Measure::Far => Target::Distance { of: of.clone() },
            _ => Target::Speed { of: of.clone(), start: false },
        };
        self.asking = true;
        let total = self.phrase(end, "altogether").or_else(|| self.phrase(end, "in all|total"));
        let end = total.unwrap_or(end);
        self.push_ask(target, i, end);
        if let Some(ask) = self.story.asks.last_mut() {
            ask.when.further |= further;
            ask.when.total |= total.is_some();
        }
        self.set_about(Ref::Bodies(of));
        Some(end)
    }

    /// `up the plane`, `along the table`, `up`: which way it goes, where that is plain.
    fn along(&self, i: usize) -> Option<usize> {
        const SURFACE: &str = "ramp|slope|plane|slipway|track|table|bench|incline|hill|chute|deck|ground|road|rails|surface|floor|face|quay";
        self.phrase(i, &format!("up|down|along|across the|it rough|smooth|inclined? {SURFACE}?"))
            .filter(|&e| self.w(e.wrapping_sub(1)) != "the")
            .or_else(|| self.phrase(i, "up|along|upwards"))
    }

    /// `with what speed P strikes the floor`.
    fn speed_at_event(
        &mut self,
        i: usize,
        at: usize,
        from: usize,
        direct: bool,
        target: Target,
    ) -> Option<usize> {
        let at = if direct { at } else { from };
        let (named, end) = self.event(at)?;
        self.asking = true;
        let mut when = self.moments.take().unwrap_or_else(|| self.now());
        self.set_moment(&mut when, crate::sentence::moments::Lead::At, &named)?;
        self.push_ask(target, i, end);
        self.put_moments(when);
        Some(end)
    }

    /// `the time that P takes to stop`, `the time for which P is on the floor`.
    fn time_taken(&mut self, i: usize, e: usize, further: bool) -> Option<usize> {
        let end = self.somebody(e)?;
        let takes = self.phrase(end, "then|will? takes|take").is_some_and(|k| self.w(self.skip(k)) == "to");
        let at = self.phrase(end, "is|remains|stays|rests|lies|sits").unwrap_or(end);
        let at = self.phrase(at, "at|in rest|contact").unwrap_or(at);
        let at = self.phrase(at, "on|with").unwrap_or(at);
        let lies = at > end && self.landing_place(at).is_some_and(|p| p.1);
        let taken = self.w(e.wrapping_sub(2)) == "taken" && self.w(self.skip(end)) == "to";
        let found = if taken {
            let what = self.known_between(e, end)?;
            self.set_about(what);
            self.push_ask(Target::Time, i, end);
            Some(end)
        } else {
            (takes || lies).then(|| self.how_long(i, e, further))?
        };
        if let (Some(_), Some(ask)) = (found, self.story.asks.last_mut()) {
            ask.when.total |= ask.phrase.starts_with("total");
        }
        found
    }

    /// `how long it takes to stop`, `how long after the string breaks P comes to rest`, `how long is P on the floor`.
    fn how_long(&mut self, i: usize, e: usize, further: bool) -> Option<usize> {
        let asks = |r: &mut Self, end: usize, further: bool| {
            r.asking = true;
            r.push_ask(Target::Time, i, end);
            if let Some(ask) = r.story.asks.last_mut() {
                ask.when.further |= further;
            }
        };
        // How long after the string breaks does P come to rest?
        if let Some(after) = self.phrase(e, "after") {
            let later = self.that_moment(e);
            let (first, k) = match later {
                Some((_, n, k)) => (self.story.events.get(n).map(|e| e.occurs.clone())?, k),
                None => match self.event(after)? {
                    (crate::sentence::events::Named::Event(o), k) => (o, k),
                    _ => return None,
                },
            };
            let k = self.phrase(k, AUX).unwrap_or(k);
            let (second, end) = self.event(k)?;
            asks(self, end, further);
            let mut when = self.pop_moments();
            let first = crate::sentence::events::Named::Event(first);
            self.set_moment(&mut when, crate::sentence::moments::Lead::After, &first)?;
            let (chapter, from) = (when.chapter, when.from.clone());
            self.set_moment(&mut when, crate::sentence::moments::Lead::Before, &second)?;
            when.chapter = when.chapter.max(chapter);
            when.from = from;
            self.put_moments(when);
            return Some(end);
        }
        // How long it then takes (P) to stop; how long P takes to stop
        let at = self.phrase(e, AUX).unwrap_or(e);
        if let Some(k) = self.phrase(at, "it|this then? takes|take|be|is|elapse|elapses") {
            let k = self.phrase(k, "for").unwrap_or(k);
            let np =
                if matches!(self.w(self.skip(k)), "to" | "before" | "until") { None } else { self.np(k) };
            if let Some(np) = np {
                self.set_about(np.what);
                asks(self, k, further);
                self.glue(k, np.end);
                return Some(np.end);
            }
            asks(self, k, further);
            return Some(k);
        }
        let np_end = self.somebody(at)?;
        let take = self.phrase(np_end, "then|will? take|takes").filter(|&e| self.w(self.skip(e)) == "to");
        if let Some(k) = take {
            let what = self.known_between(at, np_end)?;
            self.set_about(what);
            asks(self, k, further);
            return Some(k);
        }
        // How long P is at rest on the floor; how long P is moving altogether
        asks(self, e, further);
        if let Some(end) = self.slack_while(at).or_else(|| self.moving_while(at)) {
            return Some(end);
        }
        self.glue(e, at);
        Some(at)
    }
}
