//! Ways along which things act and move: `up the slope`, `horizontally`, `towards the pulley`.

use crate::adjective::adjective;
use crate::lexicon;
use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::Way;
use crate::verbs::{Frame, frame};

impl Reader<'_> {
    /// A direction at `i`: `upwards`, `up the plane`, `towards the pulley`, `down the slope`.
    pub(crate) fn way(&mut self, i: usize) -> Option<(Way, usize)> {
        let mut i = self.skip(i);
        while matches!(
            self.w(i),
            "vertically" | "straight" | "directly" | "steadily" | "horizontally" | "directed"
        ) {
            i = self.skip(i + 1);
        }
        const SLOPE: &str = "plane|slope|ramp|hill|incline|slipway|road|track|line|gradient|surface|rails";
        let up = |r: &Self, word: &str| -> Option<usize> {
            let e = r.phrase(i, word)?;
            let mut at = r.skip(e);
            if !matches!(r.w(at), "the" | "a" | "an" | "this") {
                return None;
            }
            at = r.skip(at + 1);
            for _ in 0..4 {
                if SLOPE.split('|').any(|s| s == r.w(at)) {
                    return Some(at);
                }
                if adjective(r.w(at)).is_none() && lexicon::noun(r.w(at)).is_some() {
                    return None;
                }
                at = r.skip(at + 1);
            }
            None
        };
        for (word, way) in [("up", Way::Up), ("down", Way::Down)] {
            if let Some(e) =
                self.phrase(i, &format!("{word} a|the|its vertical? shaft|tower|face|cliff|side|well|mine"))
            {
                let e = self.phrase(e, "of the|a building|cliff|wall|quay|tower|sea-wall").unwrap_or(e);
                return Some((way, e));
            }
        }
        for (word, way) in [("up", Way::UpSlope), ("down", Way::DownSlope)] {
            if let Some(at) = up(self, word) {
                let mut from = i + 1;
                if let Some(e) = self.phrase(at, "line|lines of greatest slope") {
                    match self.phrase(e, "of") {
                        Some(of) => from = of,
                        None => return Some((way, e)),
                    }
                }
                let np = self.np(from)?;
                if let Ref::Surface(s) = np.what {
                    if let Some(s) = self.story.surfaces.get_mut(s) {
                        s.slopes = true;
                    }
                    return Some((way, np.end));
                }
                return None;
            }
        }
        let w = self.w(i);
        if let Some(e) = self.phrase(i, "in the direction")
            && matches!(self.w(self.skip(e)), "towards" | "toward")
        {
            return self.way(e);
        }
        if matches!(w, "toward" | "towards") {
            if let Some(e) = self.phrase(i, "toward|towards the pulley|peg") {
                return Some((Way::ToPulley, e));
            }
            // Towards the others: towards what it touches.
            if let Some(e) = self.phrase(i, "toward|towards the other|others|rest") {
                let me = self.latest.first().copied();
                let beside = self.story.contacts.iter().find_map(|&(a, b)| match me {
                    Some(m) if m == a => Some(b),
                    Some(m) if m == b => Some(a),
                    _ => None,
                });
                if let Some(b) = beside {
                    return Some((Way::Towards(b), e));
                }
            }
            let np = self.np(i + 1)?;
            return match np.what {
                Ref::Pulleys(_) => Some((Way::ToPulley, np.end)),
                Ref::Bodies(b) => b.first().map(|&b| (Way::Towards(b), np.end)),
                _ => None,
            };
        }
        if w == "away" && self.w(self.skip(i + 1)) == "from" {
            let np = self.np(self.skip(i + 1) + 1)?;
            return match np.what {
                Ref::Bodies(b) => b.first().map(|&b| (Way::AwayFrom(b), np.end)),
                _ => None,
            };
        }
        for (side, way) in [("right", Way::Right), ("left", Way::Left)] {
            if let Some(e) = self.phrase(i, &format!("to the {side}")) {
                return Some((way, e));
            }
        }
        if let Some(e) = self.phrase(i, "in|along the direction of?") {
            // From A to B: away from A.
            if let Some(t) = self.tok(e) {
                let letters: Vec<String> = t.text.chars().map(|c| c.to_string()).collect();
                if let [a, b] = letters.as_slice()
                    && let (Some(a), Some(_)) = (self.by_label(a), self.by_label(b))
                {
                    return Some((Way::AwayFrom(a), e + 1));
                }
            }
        }
        if let Some(e) = self.phrase(i, "in the direction away from") {
            let np = self.np(e)?;
            return match np.what {
                Ref::Bodies(b) => b.first().map(|&b| (Way::AwayFrom(b), np.end)),
                _ => None,
            };
        }
        if let Some(e) = self
            .phrase(i, "in the direction of motion|travel")
            .or_else(|| self.phrase(i, "in the forward direction"))
        {
            return Some((Way::Forward, e));
        }
        let way = match w {
            "up" | "upward" | "upwards" => Way::Up,
            "down" | "downward" | "downwards" => Way::Down,
            "forward" | "forwards" => Way::Forward,
            "backward" | "backwards" => Way::Backward,
            _ => return None,
        };
        if matches!(w, "up" | "down") && frame(self.w(self.skip(i + 1))) == Some(Frame::Be) {
            return None;
        }
        Some((way, i + 1))
    }
}
