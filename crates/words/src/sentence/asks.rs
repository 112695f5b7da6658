//! Asks that name no plain quantity: the value of M, which way they move, whether they move, how "light" was used.

use crate::amount::plain_index;
use crate::reader::Reader;
use crate::story::Target;
use exact::Dimension;
use model::Topic;

impl Reader<'_> {
    /// Targets that are no plain quantity: the value of M, which way, how "light" was used.
    pub(super) fn special_ask(&mut self, i: usize) -> Option<usize> {
        let i = self.skip(i);
        if let Some(e) = self.peak(i).or_else(|| self.letter_before(i)) {
            return Some(e);
        }
        if let Some(e) = self.how(i) {
            return Some(e);
        }
        if let Some(e) = self.phrase(i, "in terms of") {
            let mut at = e;
            for _ in 0..10 {
                let w = self.w(self.skip(at));
                let t = self.tok(self.skip(at));
                if matches!(
                    w,
                    "and" | "," | "or" | "as" | "where" | "necessary" | "required" | "appropriate" | "only"
                ) || t.is_some_and(|t| t.letter().is_some())
                {
                    // ", the tension" ends it.
                    if w == ","
                        && !self.tok(self.skip(self.skip(at) + 1)).is_some_and(|t| {
                            t.letter().is_some() || matches!(t.lower.as_str(), "and" | "or" | "as" | "where")
                        })
                    {
                        break;
                    }
                    if t.is_some_and(|t| t.text == "g") {
                        self.story.gravity_letter = true;
                    }
                    at = self.skip(at) + 1;
                } else {
                    break;
                }
            }
            self.told(i, at, "the answer is wanted in these letters");
            return Some(at);
        }
        if let Some(e) = self.phrase(i, "the? exact? value|values of the? constant?") {
            let t = self.tok(self.skip(e))?;
            if t.letter().is_some() && !t.is("a") {
                let letter = plain_index(&t.text);
                let end = self.skip(e) + 1;
                self.push_ask(Target::Letter(letter), i, end);
                return Some(end);
            }
        }
        if self.showing
            && let Some(e) = self.show_letter(i)
        {
            return Some(e);
        }
        if self.asking
            && let Some(e) = self
                .slip_extreme(i)
                .or_else(|| self.extreme_ask(i))
                .or_else(|| self.range_ask(i))
                .or_else(|| self.effect_ask(i))
        {
            return Some(e);
        }
        // "the angle θ", "the size of the angle α"
        if let Some(e) = self.phrase(i, "the? size|value? of? the? acute? angle")
            && let Some(t) = self.tok(self.skip(e))
            && t.letter().is_some()
            && !t.is("a")
        {
            let (letter, end) = (plain_index(&t.text), self.skip(e) + 1);
            self.push_ask(Target::Letter(letter), i, end);
            return Some(end);
        }
        // "find M", "find the values of T and a"
        if let Some(t) = self.tok(i) {
            let known = t.letter().is_some() && !t.label_of(self) && t.text != "a";
            let follows = self.w(self.skip(i + 1));
            if known
                && self.asking
                && !self.showing
                && matches!(follows, "" | "and" | "," | "." | "in" | "when" | "if" | "given")
                && self.letter_in_use(&plain_index(&t.text))
            {
                self.push_ask(Target::Letter(plain_index(&t.text)), i, i + 1);
                return Some(i + 1);
            }
        }
        if let Some(e) = self.phrase(i, "the|in? which? direction|way in? which?")
            && let Some(e2) = self.phrase(e, "of the acceleration|motion")
        {
            let mut end = e2;
            let mut of = Vec::new();
            if let Some(e3) = self.phrase(e2, "of")
                && let Some(np) = self.np(e3)
            {
                of = self.bodies_of(Some(&np.what)).unwrap_or_default();
                end = np.end;
            }
            let accelerates = (e..e2).any(|k| self.w(k) == "acceleration");
            let target = if accelerates { Target::AccelerationWay(of) } else { Target::WhichWay(of) };
            self.push_ask(target, i, end);
            return Some(end);
        }
        if let Some(e) = self.phrase(i, ",? with a reason ,?") {
            self.glue(i, e);
            return Some(e);
        }
        if let Some(e) = self.phrase(i, "whether or? not?") {
            let found = self.whether(i, e).or_else(|| self.truth(e, None));
            if found.is_some() {
                self.glue(i, e);
            }
            return found;
        }
        if let Some(e) = self.slides_back(i) {
            return Some(e);
        }
        if let Some(e) = self.phrase(i, "that? the? system|block|particle|body|blocks|particles|crate|box remains|remain|stays|stay|is|are in? at? rest|equilibrium")
            && self.showing {
                self.push_ask(Target::WhetherMoves, i, e);
                return Some(e);
            }
        if let Some(e) = self.phrase(i, "how|where you have? used|use|made") {
            return self.statement(i, e);
        }
        if let Some(e) = self.phrase(
            i,
            "the|one|two|a? significance|effect|assumption|limitation|refinement|improvement|modelling",
        ) {
            return self.statement(i, e);
        }
        None
    }

    /// `Show that T = 8mg/5, where T is the tension in the string`: what the letter stands for is told after.
    fn show_letter(&mut self, i: usize) -> Option<usize> {
        let at = self.phrase(i, "that").unwrap_or(i);
        let name = self.tok(self.skip(at)).filter(|t| t.letter().is_some())?.text.clone();
        let sign = self.skip(at) + 1;
        if self.w(sign) != "=" {
            return None;
        }
        let (amount, e) = self.expression(sign + 1)?;
        let of = self.phrase(e, ",? where")?;
        if self.tok(self.skip(of)).is_none_or(|t| t.text != name) {
            return None;
        }
        let of = self.phrase(self.skip(of) + 1, "is|denotes|represents")?;
        let m = self.mention(of)?;
        if !self.ask_for(&m) {
            return None;
        }
        if let Some(ask) = self.story.asks.last_mut() {
            ask.show = Some(amount.value);
        }
        self.told(i, e, "the value to be shown");
        self.glue(e, m.end);
        Some(m.end)
    }

    /// `that P does not remain at rest there`, `why the block slides back down`, of a body that came to rest.
    fn slides_back(&mut self, i: usize) -> Option<usize> {
        const MOVES: &[&str] = &[
            "does|will|can|cannot|could not remain|stay at? rest",
            "does|will|can|could not remain|stay there|here",
            "then|must|will|does? begins|starts|begin|start to slide|move|slip back? down? again?",
            "then|must|will|does? slides|moves|slips|slide|move|slip|runs|run|rolls|roll back down? again?",
            "then|must|will|does? slides|moves|slips|slide|move|slip down again",
            "then|must|will? remains|stays|remain|stay at? rest",
        ];
        const PLACE: &str = "there|here|down|on|at|this|that|its|the|highest|point|plane|slope|ramp|position|of|again|chute|incline|then|when|it|has|stopped|after|stopping";
        let at = match self.phrase(i, ",? that|why") {
            Some(e) => e,
            None if self.showing => i,
            None => return None,
        };
        let at = self.phrase(at, ",? after coming to instantaneous? rest|stopping ,?").unwrap_or(at);
        let at = self.phrase(at, ",? having|after stopped|stopping ,?").unwrap_or(at);
        let k = self.somebody(at)?;
        let mut end = MOVES.iter().filter_map(|p| self.phrase(k, p)).max()?;
        while let Some(e) = self.phrase(end, PLACE) {
            end = e;
        }
        let crate::noun::Ref::Bodies(of) = self.known_between(at, k)? else { return None };
        let rested = |r: &Self| matches!(r.story.events.last().map(|e| &e.occurs), Some(crate::timeline::Occurs::Rests(b)) if of.contains(b));
        if !rested(self) {
            self.comes_back(&of, i, end);
        }
        if !rested(self) {
            return None;
        }
        self.push_ask(Target::WhetherMoves, i, end);
        Some(end)
    }

    fn letter_in_use(&self, letter: &str) -> bool {
        self.story.letters.iter().any(|(l, _)| l == letter)
            || self.story.forces.iter().any(|f| {
                f.letter.as_deref() == Some(letter)
                    || f.size.as_ref().is_some_and(|g| g.value.symbols().contains(letter))
            })
            || self
                .story
                .bodies
                .iter()
                .any(|b| b.mass.as_ref().is_some_and(|g| g.value.symbols().contains(letter)))
            || self.story.coefficients.iter().any(|c| c.2.as_deref() == Some(letter))
            || self.story.values.iter().any(|v| v.given.value.symbols().contains(letter))
    }

    fn whether(&mut self, i: usize, e: usize) -> Option<usize> {
        // The rest of the clause says between what.
        let mut end = e;
        let (mut up, mut thrust, mut moves) = (false, false, false);
        while end < self.hi && !matches!(self.w(end), "," | ";") {
            match self.w(end) {
                "upwards" | "downwards" | "upward" | "downward" | "up" | "down" | "accelerating"
                | "speeding" | "increasing" => up = true,
                "tension" | "thrust" | "compression" => thrust = true,
                "moves" | "move" | "slides" | "slide" | "rest" | "equilibrium" | "slips" | "remains"
                | "remain" | "stays" => moves = true,
                _ => {}
            }
            end += 1;
        }
        // Whether it stays where it came to rest, or moves back.
        let back = (e..end)
            .any(|k| matches!(self.w(k), "back" | "then" | "again" | "subsequently" | "remains" | "stays"));
        if moves && back {
            self.rest_again(i, end);
        }
        // "whether it slides back", "whether the tension changes if ...": no question of the first motion.
        let otherwise =
            (e..end).any(|k| matches!(self.w(k), "if" | "changes" | "change" | "would" | "greater" | "less"));
        if moves && back && self.story.events.is_empty() || thrust && otherwise {
            return None;
        }
        let accelerates = (e..end).any(|k| self.w(k) == "acceleration");
        let target = if up && accelerates {
            Target::AccelerationWay(self.latest.clone())
        } else if thrust {
            Target::TensionOrThrust(self.link.clone())
        } else if up {
            Target::WhichWay(self.latest.clone())
        } else if moves && !self.has_loads() {
            Target::WhetherMoves
        } else {
            return None;
        };
        self.push_ask(target, i, end);
        Some(end)
    }

    fn statement(&mut self, i: usize, e: usize) -> Option<usize> {
        let mut end = i;
        let mut topic = None;
        let mut noun_seen = "";
        while end < self.hi {
            let w = self.w(end);
            match w {
                "light" | "massless" => topic = topic.or(Some(Topic::Light)),
                "inextensible" => topic = topic.or(Some(Topic::Inextensible)),
                "smooth" | "frictionless" => topic = topic.or(Some(Topic::SmoothPulley)),
                "particle" | "particles" => topic = topic.or(Some(Topic::Particle)),
                "rigid" => topic = topic.or(Some(Topic::Rigid)),
                "air" if self.w(end + 1) == "resistance" => topic = topic.or(Some(Topic::NoAirResistance)),
                "assumption" | "assumptions" => topic = topic.or(Some(Topic::Assumption)),
                "limitation" | "refinement" | "improvement" => topic = topic.or(Some(Topic::Limitation)),
                "pulley" | "table" | "plane" | "surface" | "slope" | "peg" | "string" | "strings"
                | "rope" | "cable" => noun_seen = w,
                _ => {}
            }
            end += 1;
        }
        if matches!(self.w(i), "one" | "a" | "two") && topic.is_none() {
            topic = Some(Topic::Limitation);
        }
        // An assumption about the string, about the pulley: what is said of that in models.
        if topic == Some(Topic::Assumption) {
            topic = match noun_seen {
                "string" | "strings" | "rope" | "cable" => Some(Topic::Inextensible),
                "pulley" | "peg" => Some(Topic::SmoothPulley),
                _ => topic,
            };
        }
        if let (Some(Topic::SmoothPulley), false) = (topic, matches!(noun_seen, "pulley" | "peg" | "")) {
            topic = Some(Topic::SmoothSurface);
        }
        let end = end.max(e);
        let topic = topic?;
        self.push_ask(Target::Statement(topic), i, end);
        Some(end)
    }

    /// After a target in a show-that: `is 0.5 m s⁻²`, `is given by T = ...`.
    pub(super) fn show_value(&mut self, i: usize) -> Option<usize> {
        if !self.showing {
            return None;
        }
        let mut at = self.value_verb(i).or_else(|| self.phrase(i, "of"))?;
        // "T = 2mg/5"
        if self.w(at + 1) == "=" {
            at += 2;
        }
        let (amount, e) = self.expression(at)?;
        let ask = self.story.asks.last_mut()?;
        let fits = match (&ask.target, amount.dimension) {
            (Target::Speed { .. }, Some(d)) => d == Dimension::SPEED,
            (Target::Distance { .. } | Target::Height { .. }, Some(d)) => d == Dimension::LENGTH,
            (Target::Time, Some(d)) => d == Dimension::TIME,
            (Target::Acceleration { .. }, Some(d)) => d == Dimension::ACCELERATION,
            (Target::Link(_) | Target::Contact { .. } | Target::PulleyForce(_), Some(d)) => {
                d == Dimension::FORCE
            }
            _ => true,
        };
        if !fits {
            return None;
        }
        ask.show = Some(amount.value.clone());
        self.told(i, e, "the value to be shown");
        Some(e)
    }
}
