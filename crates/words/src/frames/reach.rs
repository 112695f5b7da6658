//! Where the motion leads: `reaches a speed of 6 m s⁻¹`, `covers 20 m`, `comes to rest in 40 m`.

use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::Fact;
use exact::Dimension;

impl Reader<'_> {
    pub(crate) fn reach(&mut self, at: usize) -> Option<usize> {
        // reaches the floor: it has fallen as far as it could
        if let Some(e) = self.phrase(at + 1, "the floor|ground|deck|quay|edge|pulley") {
            let floor = matches!(self.w(e.wrapping_sub(1)), "floor" | "ground" | "deck" | "quay");
            if let Some((drop, _)) = self.drop.clone().filter(|d| d.1 == floor) {
                let span = self.span(at, e);
                let of = self.who();
                self.told(at, e, format!("by then it has fallen {}", drop.written));
                self.fact(of, span, Fact::Distance(drop));
                return Some(e);
            }
            return None;
        }
        let k = self.skip(at + 1);
        if let Some(m) = self.mention_value(k) {
            if m.sort == Sort::Speed {
                let [amount] = m.amounts.as_slice() else { return None };
                let given = self.given(amount);
                let of = self.who();
                let span = self.span(at, m.end);
                self.told(at, m.end, format!("speed {} at the end", amount.written));
                self.fact(of, span, Fact::EndSpeed(given));
                return Some(self.trip(m.end));
            }
            return None;
        }
        let (amount, e) = self.amount(k, false)?;
        if amount.dimension != Some(Dimension::SPEED) {
            return None;
        }
        let given = self.given(&amount);
        let of = self.who();
        let span = self.span(at, e);
        self.told(at, e, format!("speed {} at the end", amount.written));
        self.fact(of, span, Fact::EndSpeed(given));
        Some(self.trip(e))
    }

    pub(super) fn cover(&mut self, at: usize) -> Option<usize> {
        let e = self.trip(at + 1);
        (e > at + 1).then(|| {
            self.told(at, at + 1, "how far it goes");
            e
        })
    }

    pub(super) fn stop(&mut self, at: usize) -> Option<usize> {
        let e = self
            .phrase(
                at,
                "brought|comes|come|coming|bring to a? rest|stop|halt|standstill|instantaneous? rest?",
            )
            .or_else(|| matches!(self.w(at), "stops" | "halts" | "stop" | "stopped").then_some(at + 1))?;
        let span = self.span(at, e);
        let given = self.zero(at, e);
        let of = self.who();
        self.told(at, e, "at rest in the end: v = 0");
        self.fact(of, span, Fact::EndSpeed(given));
        Some(self.trip(e))
    }

    /// A mention read as a statement, even inside a question.
    pub(super) fn mention_value(&mut self, k: usize) -> Option<Mention> {
        let asking = std::mem::take(&mut self.asking);
        let m = self.mention(k);
        self.asking = asking;
        m.filter(|m| !m.amounts.is_empty())
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::means;

    #[test]
    fn a_speed_reached_in_a_time() {
        let text = "A tram of mass 9000 kg starts from rest and reaches a speed of 6 m s^-1 in 12 s. The \
         resistance to motion is 500 N. Find the driving force.";
        assert_eq!(means(text, "reaches"), "speed 6 m s^-1 at the end");
        assert_eq!(means(text, "in 12 s"), "time 12 s");
    }
}
