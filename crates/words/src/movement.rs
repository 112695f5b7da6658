//! How bodies move: speeds, accelerations, distances and times, in statements and in questions.

use crate::noun::Ref;
use crate::quantity::Sort;
use crate::reader::Reader;
use crate::story::*;
use exact::{Dimension, Value};
use model::State;

impl Reader<'_> {
    fn who(&self) -> Vec<usize> {
        match &self.about {
            Some(Ref::Bodies(b)) => b.clone(),
            Some(Ref::System) => (0..self.story.bodies.len()).collect(),
            _ if !self.subject.is_empty() => self.subject.clone(),
            _ => self.latest.clone(),
        }
    }

    fn zero(&self, a: usize, b: usize) -> Given {
        let span = self.span(a, b);
        Given { value: Value::zero(), span, written: "0".to_owned(), part: self.part }
    }

    /// `from rest`: no speed at the start.
    pub(crate) fn tell_from_rest(&mut self, a: usize, b: usize) {
        let span = self.span(a, b);
        let given = self.zero(a, b);
        let of = self.who();
        self.told(a, b, "from rest: no speed at the start, u = 0");
        self.fact(of, span, Fact::StartSpeed(given));
    }

    pub(crate) fn release(&mut self, at: usize) -> Option<usize> {
        let mut end = at + 1;
        if matches!(self.w(at), "let" | "allowed" | "left") {
            end = self
                .phrase(at, "let go|fall|free|move")
                .or_else(|| self.phrase(at, "allowed to move|fall|slide|run freely?"))
                .or_else(|| self.phrase(at, "left to itself|themselves|move"))?;
        }
        let of = self.who();
        for _ in 0..5 {
            let k = self.skip(end);
            if let Some(e) = self.phrase(k, "from rest|this|that? position?") {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "with the? string|rope|strings|cord|thread|cable|ropes|both? strings|ropes? taut|tight|vertical") {
                self.told(k, e, "the string is tight from the start");
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "with both strings|ropes taut") {
                self.told(k, e, "both strings are tight from the start");
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "with both|the? hanging|straight|free? parts|sections|portions of the string|rope vertical|taut").or_else(|| self.phrase(k, "with both|the|all bodies|particles|blocks|masses|boxes hanging freely|vertically")) {
                self.glue(k, e);
                end = e;
                continue;
            }
            break;
        }
        let span = self.span(at, end);
        let given = self.zero(at, end);
        self.told(
            at,
            end,
            "released from rest: no speed at the start; which way it moves follows from the forces",
        );
        self.releasing = true;
        self.fact(of.clone(), span, Fact::State(State::Released));
        self.fact(of, span, Fact::StartSpeed(given));
        self.releasing = false;
        Some(end)
    }

    pub(crate) fn starts(&mut self, at: usize) -> Option<usize> {
        if self.w(at) == "set" {
            let e = self.phrase(at, "set free").or_else(|| self.phrase(at, "set in motion"))?;
            let span = self.span(at, e);
            let of = self.who();
            let given = self.zero(at, e);
            self.told(
                at,
                e,
                "released from rest: no speed at the start; which way it moves follows from the forces",
            );
            self.releasing = true;
            self.fact(of.clone(), span, Fact::State(State::Released));
            self.fact(of, span, Fact::StartSpeed(given));
            self.releasing = false;
            return Some(e);
        }
        if let Some(e) = self.phrase(at + 1, "from rest") {
            self.tell_from_rest(at, e);
            return Some(self.trip(e));
        }
        if let Some(e) = self.phrase(at + 1, "at rest") {
            self.tell_from_rest(at, e);
            return Some(e);
        }
        // starts to move, begins moving upwards; as the elevator starts upward
        if let Some(e) = self
            .phrase(at + 1, "to move|slide|descend|ascend|rise|accelerate|fall|travel")
            .or_else(|| self.phrase(at + 1, "moving|its|their? motion|sliding|journey"))
        {
            self.told(at, e, "it begins to move");
            if let Some((way, e2)) = self.way(e) {
                let span = self.span(at, e2);
                let of = self.who();
                self.told(e, e2, "which way it begins to move");
                self.fact(of, span, Fact::Heading(way));
                return Some(self.trip(e2));
            }
            return Some(self.trip(e));
        }
        if let Some((way, e)) = self.way(at + 1) {
            let span = self.span(at, e);
            let of = self.who();
            self.told(at, e, "which way it begins to move");
            self.fact(of, span, Fact::Heading(way));
            return Some(e);
        }
        // "after they start"
        if self.asking {
            return Some(at + 1);
        }
        None
    }

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

    /// A mention read as a statement, even inside a question.
    fn mention_value(&mut self, k: usize) -> Option<crate::quantity::Mention> {
        let asking = std::mem::take(&mut self.asking);
        let m = self.mention(k);
        self.asking = asking;
        m.filter(|m| !m.amounts.is_empty())
    }

    pub(crate) fn cover(&mut self, at: usize) -> Option<usize> {
        let e = self.trip(at + 1);
        (e > at + 1).then(|| {
            self.told(at, at + 1, "how far it goes");
            e
        })
    }

    pub(crate) fn stop(&mut self, at: usize) -> Option<usize> {
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

    /// `at 72 km/h`, `with speed 8 m/s`: the speed at the start of what follows.
    pub(crate) fn speed_now(&mut self, k: usize) -> Option<usize> {
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
        let e = self.phrase(k, "a|the? speed|velocity of").unwrap_or(k);
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
                    .find(|&b| self.story.bodies.get(b).is_some_and(|x| x.form == model::Form::Lift));
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
                "moves" | "move" | "moving" | "slides" | "sliding" | "travelling" | "slide" | "moved"
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
        // "this distance", "the same distance": as before
        if let Some(e) = self
            .phrase(p, "through|for? this|that|the same distance")
            .or_else(|| self.phrase(p, "this|that distance"))
        {
            if self.asking
                && let Some(ask) = self.story.asks.last_mut()
            {
                ask.same_journey = true;
            }
            self.told(p, e, "the distance named before");
            return Some(e);
        }
        if let Some(e) = self.phrase(p, "in|during|for|after|within|at|over|throughout the|a|its|their? first|next|time|period|interval? of? the|a? first|further?") {
            at = e;
        } else if let Some(e) = self.phrase(p, "through|covering|for|up|down|by a|the? further? distance|height|depth? of?") {
            at = e;
        } else if let Some(e) = self.phrase(p, "a|the? distance|height|depth of?") {
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
