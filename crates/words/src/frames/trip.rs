//! How far and how long: `in 5 s`, `through a distance of 20 m`, `2 s after it starts`.

use crate::reader::Reader;
use crate::story::Fact;
use exact::Dimension;

impl Reader<'_> {
    /// Distances and times at `k`: `0.9 m in the first 1.5 s`, `for 3 s`, `a distance of 2 m`, `through 2 metres`,
    /// `after 8 s`, `during the first two seconds`. The place after them, or `k`.
    pub(crate) fn trip(&mut self, k: usize) -> usize {
        let mut end = k;
        for _ in 0..4 {
            let p = self.skip(end);
            let next = self.trip_once(p);
            match next {
                Some(e) => end = e,
                None => break,
            }
        }
        end
    }

    fn trip_once(&mut self, p: usize) -> Option<usize> {
        let of = self.who();
        let mut at = p;
        // at the bottom of the ramp: as far as there is to go
        if self.asking
            && let (Some(e), Some((way, false))) = (
                self.phrase(
                    p,
                    "at|by|to|reaching? the bottom|foot of the ramp|slope|plane|hill|slipway|incline",
                )
                .or_else(|| self.phrase(p, "at the bottom|foot")),
                self.drop.clone(),
            )
        {
            let span = self.span(p, e);
            self.told(p, e, format!("by then it has moved {}", way.written));
            self.fact(of, span, Fact::Distance(way));
            return Some(e);
        }
        // "this distance", "the same distance": as before
        if let Some(e) = self
            .phrase(p, "through|for? this|that|the same distance")
            .or_else(|| self.phrase(p, "this|that distance"))
            .or_else(|| self.phrase(p, "in|during|after this|that|the same time"))
        {
            if self.asking
                && let Some(ask) = self.story.asks.last_mut()
            {
                ask.same_journey = true;
            }
            self.told(p, e, "the distance named before");
            return Some(e);
        }
        if let Some(e) = self.phrase(p, "in|during|for|after|within|at|over|throughout the|a|its|their? first|next|further|time|period|interval? time? of? the|a? first?") {
            at = e;
        } else if let Some(e) = self.phrase(p, "through|covering|for|up|down|by a|the? distance|height|depth? of?") {
            at = e;
        } else if let Some(e) = self.phrase(p, "a|the? distance|height|depth of?") {
            at = e;
        }
        // when t = 2 s
        if let Some(e) = self.phrase(p, "when|at time? t =") {
            at = e;
        }
        let bare = at == p;
        let (amount, e) = self.amount(at, true)?;
        let span = self.span(p, e);
        match amount.dimension {
            Some(Dimension::TIME) => {
                let given = self.given(&amount);
                let mut end = e;
                if let Some(e2) = self
                    .phrase(e, "of its|the|their motion|descent|journey|ascent")
                    .or_else(|| {
                        self.phrase(e, "after|of? it|they starts?|start to? move? moving? from? rest?")
                    })
                    .or_else(|| self.phrase(e, "later"))
                    .or_else(|| self.phrase(e, "after the|its|their start|release"))
                    .or_else(|| self.phrase(e, "after|from being? released|release|rest"))
                {
                    end = e2;
                }
                if let Some(e2) = self.after_start(end) {
                    end = e2;
                }
                if !self.asking && end >= e + 2 && self.phrase(end - 2, "from rest") == Some(end) {
                    self.tell_from_rest(end - 2, end);
                }
                self.told(p, end, format!("time {}", amount.written));
                self.fact(of, span, Fact::Time(given));
                Some(end)
            }
            Some(Dimension::LENGTH) => {
                let given = self.given(&amount);
                self.told(p, e, format!("distance {}", amount.written));
                self.fact(of, span, Fact::Distance(given));
                let e2 = self
                    .phrase(e, "from its|their|the starting|initial|original? position|rest|point")
                    .unwrap_or(e);
                self.glue(e, e2);
                Some(e2)
            }
            None if !bare
                && self.phrase(p, "a|the? further? distance|height|depth of?").is_some_and(|e| e == at) =>
            {
                let given = self.given(&amount);
                self.told(p, e, format!("distance {}", amount.written));
                self.fact(of, span, Fact::Distance(given));
                Some(e)
            }
            _ => None,
        }
    }

    /// `after it starts to move`, `after they start`.
    fn after_start(&mut self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "after")?;
        let saved = (self.latest.clone(), self.pair);
        let np = self.np(e)?;
        let end = self.phrase(np.end, "is|are released").or_else(|| {
            self.phrase(np.end, "starts|start|begins|begin|leaves|sets to|from|off? move|rest|moving?")
        });
        (self.latest, self.pair) = saved;
        end
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::means;

    #[test]
    fn how_far_in_how_long() {
        let text = "A crate of mass 40 kg is pulled along a smooth horizontal quay by a horizontal force of 60 \
         N. It starts from rest. Find the distance it moves in 4 s.";
        assert_eq!(means(text, "the distance"), "asked: distance");
        assert_eq!(means(text, "in 4 s"), "time 4 s");
    }
}
