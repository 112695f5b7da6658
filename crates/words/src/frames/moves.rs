//! Moving: `moves up the slope with constant speed`, `accelerates at 0.5 m s⁻²`, `descends`.

use crate::noun::Ref;
use crate::quantity::Sort;
use crate::reader::Reader;
use crate::story::{Fact, Target, Way};
use exact::Dimension;
use model::{Form, State};

impl Reader<'_> {
    /// `by a light vertical rope`, `on a chain`, of one body that is raised or lowered: it hangs from it.
    fn held_up_by(&mut self, of: &[usize], p: usize) -> Option<usize> {
        let [one] = of else { return None };
        let e = self.phrase(p, "by means of").or_else(|| self.phrase(p, "by|on|with|using"))?;
        let link = matches!(self.ahead(e), Some(crate::lexicon::Noun::Link(_)));
        let np = link.then(|| self.np(e))??;
        let Ref::Links(l) = np.what.clone() else { return None };
        let [link] = l.as_slice() else { return None };
        let (one, link) = (*one, *link);
        self.add_end(link, one);
        if let Some(l) = self.story.links.get_mut(link) {
            l.vertical = true;
        }
        if let Some(b) = self.story.bodies.get_mut(one).filter(|b| b.on.is_none()) {
            b.hangs = true;
        }
        self.told(p, np.end, "held up by it: its tension acts upwards");
        Some(self.after_np(&np.what, np.end))
    }

    pub(crate) fn moves(&mut self, at: usize) -> Option<usize> {
        let word = self.w(at).to_owned();
        let of = self.who();
        if let (Some(Ref::Surface(s)), "rises" | "climbs" | "falls" | "slopes") =
            (self.about.clone(), word.as_str())
        {
            self.surface = Some(s);
            return self.slope_angle(at + 1);
        }
        if of.is_empty() && self.story.bodies.is_empty()
            || matches!(
                self.about,
                Some(Ref::Pulleys(_) | Ref::Links(_) | Ref::Ends(_) | Ref::Surface(_) | Ref::Floor(_))
            )
        {
            return None;
        }
        // The brakes of a truck are no verb: it brakes at, with, to.
        let before = self.w(at.wrapping_sub(1));
        if matches!(word.as_str(), "brakes" | "braking")
            && (matches!(before, "the" | "its" | "no" | "without" | "of" | "a" | "'s" | "their")
                || !matches!(self.w(self.skip(at + 1)), "with" | "at" | "uniformly" | "and" | "to" | "so"))
        {
            return None;
        }
        let mut end = at + 1;
        // What the verb itself says.
        let own = match word.as_str() {
            "descend" | "descends" | "descending" | "descended" | "fall" | "falls" | "falling" | "fallen"
            | "dropped" | "drops" => Some(Way::Down),
            "ascend" | "ascends" | "ascending" | "ascended" | "rise" | "rises" | "rising" | "risen"
            | "raised" | "lifted" => Some(Way::Up),
            _ => None,
        };
        let slowing = matches!(
            word.as_str(),
            "decelerate"
                | "decelerates"
                | "decelerating"
                | "slowing"
                | "slowed"
                | "slows"
                | "retarding"
                | "retards"
                | "slow"
                | "brakes"
                | "braking"
        );
        let mut heading = own;
        let mut spoke = own.is_some() || slowing;
        if slowing {
            if let Some(e) = self.phrase(end, "down") {
                end = e;
            }
            let span = self.span(at, end);
            self.fact(of.clone(), span, Fact::Slowing);
        }
        for _ in 0..8 {
            let k = self.skip(end);
            let comma =
                self.w(k) == "," && self.phrase(self.skip(k + 1), "with|at|in|from|and covering").is_some();
            let p = if comma { self.skip(k + 1) } else { k };
            // raised by a light vertical rope: it hangs from it
            if matches!(word.as_str(), "raised" | "lifted" | "lowered")
                && let Some(e) = self.held_up_by(&of, p)
            {
                end = e;
                continue;
            }
            if let Some(e) = self
                .phrase(p, "freely|together|steadily|along|on|vertically|forward|forwards|horizontally")
                .filter(|_| !matches!(self.w(p), "along" | "on"))
            {
                if matches!(self.w(p), "forward" | "forwards") {
                    heading = Some(Way::Forward);
                }
                if self.w(p) == "vertically" && self.way(p).is_some() {
                    // read as a direction below
                } else {
                    end = e;
                    spoke = true;
                    continue;
                }
            }
            if let Some(e) = self.phrase(p, "from rest") {
                self.tell_from_rest(p, e);
                end = e;
                spoke = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "uniformly|steadily? down? to rest") {
                let span = self.span(p, e);
                let given = self.zero(p, e);
                self.told(p, e, "at rest in the end: v = 0");
                self.fact(of.clone(), span, Fact::EndSpeed(given));
                end = e;
                spoke = true;
                continue;
            }
            if let Some(e) = self
                .phrase(p, "without friction|resistance")
                .or_else(|| self.phrase(p, "freely and? without friction"))
            {
                self.story.frictionless |= self.w(e.wrapping_sub(1)) == "friction";
                self.told(p, e, "no friction");
                end = e;
                spoke = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "against|under|despite") {
                // "moves up the slipway against a constant resistance of 200 N"
                if let Some(mut m) = self.mention_value(e) {
                    if m.of.is_none() && m.on.is_none() {
                        m.on = Some(Ref::Bodies(of.clone()));
                    }
                    let asking = std::mem::take(&mut self.asking);
                    let good = self.tell(&m);
                    self.asking = asking;
                    if good {
                        self.glue(p, e);
                        end = m.end;
                        spoke = true;
                        continue;
                    }
                }
                break;
            }
            if let Some(e) = self.sets_out(p) {
                end = e;
                spoke = true;
                continue;
            }
            // up a rough slope with speed 7 m s⁻¹, inclined at 30°
            if let (Some(s), Some(e)) = (
                self.surface,
                self.phrase(p, ",? which|that? is? inclined|sloping|sloped|makes|making")
                    .filter(|_| heading.is_some()),
            ) && e > p
            {
                let e = self.after_np(&Ref::Surface(s), p);
                if e > p {
                    end = e;
                    continue;
                }
            }
            if let Some((w, e)) = self.way(p) {
                self.told(p, e, "which way it moves");
                heading = Some(w);
                spoke = true;
                end = match (self.surface, w) {
                    (Some(s), Way::UpSlope | Way::DownSlope) => self.after_np(&Ref::Surface(s), e),
                    _ => e,
                };
                continue;
            }
            if let Some(e) = self.phrase(p, "with|at a|an|the|its? constant|uniform|steady|common acceleration|deceleration|retardation|rate")
                && !matches!(self.w(self.skip(e)), "of") && self.amount(e, false).is_none() {
                    if matches!(self.w(e.wrapping_sub(1)), "deceleration" | "retardation") {
                        let span = self.span(p, e);
                        self.fact(of.clone(), span, Fact::Slowing);
                    }
                    self.told(p, e, "the acceleration does not change");
                    end = e;
                    spoke = true;
                    continue;
                }
            if let Some(e) = self.phrase(p, "in|inside")
                && let Some(np) = self.np(e)
                && let Ref::Bodies(b) = &np.what
            {
                let lift = b
                    .iter()
                    .copied()
                    .find(|&b| self.story.bodies.get(b).is_some_and(|x| x.form == Form::Lift));
                if let Some(lift) = lift {
                    self.put_on(&of, lift);
                    self.told(p, np.end, "it stands on the floor and moves with it");
                    end = self.after_np(&np.what, np.end);
                    spoke = true;
                    continue;
                }
            }
            if let Some(e) = self.phrase(p, "the shaft|hill|tower|face") {
                self.scene(p, e);
                end = e;
                continue;
            }
            if let Some(e) = self
                .phrase(p, "with its|the|their? speed|velocity increasing|decreasing")
                .or_else(|| self.phrase(p, "with increasing|decreasing speed"))
            {
                let span = self.span(p, e);
                let slower = (p..e).any(|n| self.w(n) == "decreasing");
                self.fact(of.clone(), span, if slower { Fact::Slowing } else { Fact::Speeding });
                self.told(p, e, "whether it speeds up or slows down");
                end = self.phrase(e, "at a constant|steady|uniform rate").unwrap_or(e);
                spoke = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "with|at|by|has|so? that? has? a? an?") {
                if let Some(e2) = self.speed_now(e) {
                    self.glue(p, e);
                    end = e2;
                    spoke = true;
                    continue;
                }
                if let Some(e2) = self.acceleration_now(&of, e, slowing) {
                    self.glue(p, e);
                    end = e2;
                    spoke = true;
                    continue;
                }
            }
            if (self.w(p) == "at" || matches!(self.w(p), "at"))
                && let Some((a, e)) = self.amount(p + 1, true)
                && a.dimension == Some(Dimension::ACCELERATION)
            {
                let given = self.given(&a);
                let span = self.span(p, e);
                self.told(
                    p,
                    e,
                    format!("the {} is {}", if slowing { "deceleration" } else { "acceleration" }, a.written),
                );
                self.fact(of.clone(), span, Fact::Acceleration { given, slowing, way: heading });
                end = e;
                spoke = true;
                continue;
            }
            let t = self.trip(p);
            if t > p {
                end = t;
                spoke = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "along|on|across|over")
                && let Some(np) = self.np(e)
                && let Ref::Surface(s) = np.what
            {
                let sloping = self.story.surfaces.get(s).is_some_and(|x| x.slopes)
                    || (np.end..np.end + 4).any(|k| matches!(self.w(k), "inclined" | "sloping"));
                if self.w(p) == "across" && sloping {
                    return None;
                }
                self.on_surface(&of, s);
                self.glue(p, np.end);
                end = self.after_np(&np.what, np.end);
                spoke = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "and|but|while is|are|was slowing|slows down?") {
                let span = self.span(p, e);
                self.told(p, e, "it slows down");
                self.fact(of.clone(), span, Fact::Slowing);
                end = e;
                spoke = true;
                continue;
            }
            if let Some(e) = self.place(p) {
                end = e;
                continue;
            }
            break;
        }
        if let Some(w) = heading {
            let span = self.span(at, end);
            if word.starts_with("accelerat") {
                self.fact(of.clone(), span, Fact::Accelerates(w));
            }
            self.fact(of, span, Fact::Heading(w));
        }
        if !spoke
            && !matches!(
                word.as_str(),
                "moves"
                    | "move"
                    | "moving"
                    | "slides"
                    | "sliding"
                    | "travelling"
                    | "slide"
                    | "moved"
                    | "continues"
            )
        {
            // "accelerates": it does not stay as it is.
            if !word.starts_with("accel") {
                return None;
            }
        }
        self.told(at, at + 1, "it moves");
        self.glue(at, end);
        Some(end)
    }

    /// `at 72 km/h`, `with speed 8 m/s`: the speed at the start of what follows.
    pub(super) fn speed_now(&mut self, k: usize) -> Option<usize> {
        let k = self.skip(k);
        if let Some(e) = self.phrase(k, "a|its|the? constant|steady|uniform speed|velocity|rate") {
            let mut end = e;
            if let Some(e2) = self.phrase(e, "of")
                && let Some((a, e3)) = self.amount(e2, false)
                && a.dimension == Some(Dimension::SPEED)
            {
                end = e3;
                let given = self.given(&a);
                let of = self.who();
                let span = self.span(k, end);
                self.fact(of, span, Fact::StartSpeed(given));
            }
            let span = self.span(k, end);
            let of = self.who();
            self.told(k, end, "constant speed: no acceleration");
            self.fact(of, span, Fact::State(State::Steady));
            return Some(end);
        }
        let e = self
            .phrase(k, "a|an|the? initial speed|velocity of?")
            .or_else(|| self.phrase(k, "a|the? speed|velocity of?"))
            .unwrap_or(k);
        let (a, end) = self.amount(e, true)?;
        if a.dimension != Some(Dimension::SPEED) {
            return None;
        }
        let given = self.given(&a);
        let of = self.who();
        let span = self.span(k, end);
        self.told(k, end, format!("speed {}", a.written));
        let fact = Fact::StartSpeed(given);
        self.fact(of, span, fact);
        Some(end)
    }

    /// `an acceleration of 2 m s⁻²`, `acceleration 0.5 m/s²`, `2 m s⁻² upwards`.
    fn acceleration_now(&mut self, of: &[usize], k: usize, slowing: bool) -> Option<usize> {
        if let Some(m) = self.mention_value(k) {
            if let Sort::Acceleration { slowing: named } = m.sort {
                let [amount] = m.amounts.as_slice() else { return None };
                let given = self.given(amount);
                let span = self.span(m.start, m.end);
                let slows = named || slowing;
                if self.showing {
                    self.push_ask(
                        Target::Acceleration { of: of.to_vec(), slowing: slows, way: None },
                        m.start,
                        m.end,
                    );
                    if let Some(ask) = self.story.asks.last_mut() {
                        ask.show = Some(amount.value.clone());
                    }
                    return Some(m.end);
                }
                self.told(
                    m.start,
                    m.end,
                    format!(
                        "the {} is {}",
                        if slows { "deceleration" } else { "acceleration" },
                        amount.written
                    ),
                );
                self.fact(of.to_vec(), span, Fact::Acceleration { given, slowing: slows, way: m.way });
                return Some(m.end);
            }
            return None;
        }
        let (a, e) = self.amount(k, true)?;
        if a.dimension != Some(Dimension::ACCELERATION) {
            return None;
        }
        let given = self.given(&a);
        let span = self.span(k, e);
        self.told(
            k,
            e,
            format!("the {} is {}", if slowing { "deceleration" } else { "acceleration" }, a.written),
        );
        self.fact(of.to_vec(), span, Fact::Acceleration { given, slowing, way: None });
        Some(e)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, told};

    #[test]
    fn constant_speed_is_no_acceleration() {
        let text = "A lift of mass 500 kg moves upwards with constant speed 2 m s^-1. Find the tension in the \
         cable.";
        assert_eq!(means(text, "constant speed"), "constant speed: no acceleration");
        let expected = ["the lift hangs", "tension in the cable: along", "Steady"];
        assert_eq!(in_short(&told(text)), expected);
    }

    #[test]
    fn a_deceleration_on_the_way_down() {
        let text = "A lift of mass 500 kg descends with a deceleration of 1.5 m s^-2. Find the tension in the \
         cable.";
        assert_eq!(means(text, "deceleration"), "the deceleration is 1.5 m s^-2");
    }
}
