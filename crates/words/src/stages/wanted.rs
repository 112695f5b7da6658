//! What a question wants, as a quantity of the situation.

use crate::assemble::{Assembly, Became};
use crate::parts::Part;
use crate::stages::Motion;
use crate::story::{AskTold, Fact, On, Share, Target, Truth};
use exact::Value;
use model::{
    Ask, Basis, BodyId, Diagnostic, Grip, Kind, Line, Matter, PulleyId, QuantityId, Refusal, Relation, Role,
    StageId, Topic, Wanted,
};

impl Assembly<'_> {
    pub(super) fn question(&mut self, ask: &AskTold, stage: StageId, motion: &Motion, parts: &[Part]) {
        // A journey told in statements is there even if no question names it: accelerations may hang on it.
        let told =
            [motion.end.is_some(), motion.distance.is_some(), motion.time.is_some(), motion.start.is_some()]
                .iter()
                .filter(|x| **x)
                .count();
        if told >= 2 && (motion.end.is_some() || motion.distance.is_some() || motion.time.is_some()) {
            self.base_journey(stage, motion, 0);
        }
        let timed = ask.facts.iter().any(|f| matches!(f, Fact::Time(_) | Fact::Distance(_)));
        let at_once =
            matches!(ask.target, Target::Link(_) | Target::Acceleration { .. } | Target::Contact { .. });
        if timed && at_once && self.story.clearance.is_some() {
            let d = Diagnostic::refuse(
                Refusal::Unread,
                "whether it has come to the end of its way by then is not followed",
            )
            .at(ask.span)
            .hint("ask about the motion before that");
            self.diagnostics.push(d);
        }
        let journeys_asked = self.story.asks.iter().any(|a| {
            let own =
                a.facts.iter().any(|f| matches!(f, Fact::EndSpeed(_) | Fact::Distance(_) | Fact::Time(_)));
            matches!(a.target, Target::Speed { .. } | Target::Distance { .. } | Target::Time) && !own
        });
        let stretch = motion
            .end
            .clone()
            .or_else(|| motion.distance.clone().map(|d| d.1))
            .or_else(|| motion.time.clone());
        if let (Some(a), Some(b)) = (&motion.start, &motion.end)
            && a.value.is_zero()
            && b.value.is_zero()
        {
            self.clash(a, b);
        }
        let stops = motion.end.as_ref().is_some_and(|g| g.value.is_zero());
        let idle = told == 2 && !stops && motion.start.is_some() && !journeys_asked;
        if let (Some(end), true) = (&stretch, told < 2 || idle) {
            let d = Diagnostic::refuse(Refusal::Unread, "it is not clear what this is told for")
                .at(end.span)
                .hint("give the speed at the start, a distance or a time with it");
            self.refuse_once(d);
        }
        let found = self.wanted(ask, stage, motion);
        self.ask(ask, stage, found, parts);
    }

    /// Puts what is wanted into the situation.
    pub(super) fn ask(
        &mut self,
        ask: &AskTold,
        stage: StageId,
        found: Vec<(String, Wanted)>,
        parts: &[Part],
    ) {
        for (phrase, wanted) in found {
            let part = parts.get(ask.part);
            self.b.situation_mut().asks.push(Ask {
                part: part.map(|p| p.label.clone()).unwrap_or_default(),
                part_index: ask.part,
                phrase,
                wanted,
                show: ask.show.clone(),
                accuracy: ask.accuracy.or(self.story.accuracy),
                stage,
                span: ask.span,
                marks: part.and_then(|p| p.marks),
            });
        }
    }

    /// The accelerations of bodies that stand on one another and may slip: each has its own.
    fn each_of_a_stack(
        &self,
        of: &[usize],
        stage: StageId,
        motion: &Motion,
        phrase: &str,
    ) -> Option<Vec<(String, Wanted)>> {
        let situation = self.b.situation();
        let loose = |b: &usize| {
            let body = self.bodies.get(*b).and_then(|&id| situation.body(id));
            body.and_then(|b| b.surface.as_ref()).is_some_and(|s| s.under.is_some())
                && !motion.sticks.contains(b)
                && !motion.about_to_slip.contains(b)
        };
        let told_each =
            phrase.contains("each") || phrase.contains("accelerations") || phrase.contains("both");
        if of.len() < 2 || !of.iter().any(loose) && !told_each {
            return None;
        }
        if !of.iter().any(|b| {
            self.bodies
                .get(*b)
                .and_then(|&id| situation.body(id))
                .and_then(|b| b.surface.as_ref())
                .is_some_and(|s| s.under.is_some())
        }) {
            return None;
        }
        let mut told: Vec<usize> = of.to_vec();
        told.sort_unstable();
        Some(
            told.iter()
                .filter_map(|&b| {
                    let id = self.bodies.get(b)?;
                    let q = *situation.stage(stage)?.accelerations.get(id.0)?;
                    Some((format!("acceleration of {}", self.name(b)), Wanted::Quantity(q)))
                })
                .collect(),
        )
    }

    pub(super) fn cannot(
        &mut self,
        ask: &AskTold,
        kind: Refusal,
        message: &str,
        hint: &str,
    ) -> Vec<(String, Wanted)> {
        self.diagnostics
            .push(Diagnostic::refuse(kind, message.to_owned()).at(ask.span).hint(hint.to_owned()));
        Vec::new()
    }

    pub(super) fn wanted(&mut self, ask: &AskTold, stage: StageId, motion: &Motion) -> Vec<(String, Wanted)> {
        let phrase = ask.phrase.clone();
        let one = |q: Option<QuantityId>| q.map(|q| vec![(phrase.clone(), Wanted::Quantity(q))]);
        let unclear = "it is not clear what is asked here";
        let name_it = "name the body or the string that you mean";
        let found: Option<Vec<(String, Wanted)>> = match &ask.target {
            Target::Mass(of) => Some(
                of.iter()
                    .filter_map(|&b| {
                        Some((
                            if of.len() > 1 { format!("mass of {}", self.name(b)) } else { phrase.clone() },
                            Wanted::Quantity(self.b.situation().body(*self.bodies.get(b)?)?.mass),
                        ))
                    })
                    .collect(),
            ),
            Target::Acceleration { of, slowing, .. } => {
                let b = of.first().copied().unwrap_or(0);
                let id = self.bodies.get(b).copied();
                if let (false, Some(several)) = (*slowing, self.each_of_a_stack(of, stage, motion, &phrase)) {
                    return several;
                }
                match (id, slowing) {
                    (Some(id), true) => Some(vec![(phrase.clone(), Wanted::Deceleration(id))]),
                    (Some(id), false) => {
                        let q =
                            self.b.situation().stage(stage).and_then(|s| s.accelerations.get(id.0).copied());
                        let size = phrase.starts_with("magnitude") || phrase.starts_with("size");
                        q.map(|q| {
                            vec![(
                                phrase.clone(),
                                if size { Wanted::Magnitude(q) } else { Wanted::Quantity(q) },
                            )]
                        })
                    }
                    _ => None,
                }
            }
            Target::Link(links) => {
                let cable = links.iter().any(|&l| matches!(self.links.get(l), Some(Became::Cable(_))));
                if cable && (phrase.starts_with("thrust") || phrase.starts_with("compression")) {
                    return self.cannot(
                        ask,
                        Refusal::Contradictory,
                        "a cable pulls; it cannot be in thrust",
                        "ask for the tension",
                    );
                }
                let mut ids = links.clone();
                if ids.is_empty() {
                    ids = (0..self.links.len())
                        .filter(|&l| self.links.get(l) != Some(&Became::Nothing))
                        .collect();
                    let plural = phrase.contains("tensions") || phrase.contains("each");
                    if ids.len() > 1 && !plural {
                        return self.cannot(
                            ask,
                            Refusal::Unread,
                            "there are several strings or bars, and it is not said which one is meant",
                            "say, for example: the tension in the string joining A and B",
                        );
                    }
                    if ids.is_empty() && !self.b.situation().links.is_empty() {
                        return one(self.b.situation().stage(stage).and_then(|s| s.links.first().copied()))
                            .unwrap_or_default();
                    }
                } else if ids.len() > 1
                    && !(phrase.contains("tensions")
                        || phrase.contains("each")
                        || phrase.contains("strings")
                        || phrase.contains("couplings")
                        || phrase.contains("ropes")
                        || phrase.contains("tow-bars")
                        || phrase.contains("both"))
                {
                    return self.cannot(
                        ask,
                        Refusal::Unread,
                        "there are several strings or bars, and it is not said which one is meant",
                        "say, for example: the tension in the string joining A and B",
                    );
                }
                let several = ids.len() > 1;
                let mut out = Vec::new();
                for l in ids {
                    if let Some(q) = self.link_quantity(l, stage) {
                        let name = self.b.situation().quantity(q).map(|q| q.name.clone()).unwrap_or_default();
                        out.push((if several { name } else { phrase.clone() }, Wanted::Quantity(q)));
                    }
                }
                (!out.is_empty()).then_some(out)
            }
            Target::Contact { on, by } => one(self.contact_quantity(on, *by, stage)),
            Target::Friction { on } => {
                // Between a load and what carries it: one pair of forces.
                let load = on.iter().copied().find(|&b| {
                    matches!(self.story.bodies.get(b).and_then(|b| b.on), Some(On::Body(c)) if on.contains(&c))
                });
                if let (Some(load), 2) = (load, on.len()) {
                    return one(self
                        .b
                        .situation()
                        .stage(stage)
                        .and_then(|s| s.frictions.get(load).copied().flatten()))
                    .unwrap_or_default();
                }
                if on.len() > 1 {
                    let s = self.b.situation().stage(stage);
                    return on
                        .iter()
                        .filter_map(|&b| {
                            Some((
                                format!("friction on {}", self.name(b)),
                                Wanted::Quantity(s?.frictions.get(b).copied().flatten()?),
                            ))
                        })
                        .collect();
                }
                let s = self.b.situation().stage(stage);
                let all: Vec<QuantityId> =
                    s.map(|s| s.frictions.iter().copied().flatten().collect()).unwrap_or_default();
                let q = match on.first() {
                    Some(&b) => s.and_then(|s| s.frictions.get(b).copied().flatten()),
                    None => match all.as_slice() {
                        [one] => Some(*one),
                        _ => None,
                    },
                };
                one(q)
            }
            Target::GreatestFriction { on } => {
                let rough: Vec<usize> = (0..self.bodies.len()).filter(|&b| self.grip(b).is_some()).collect();
                let b = on.iter().copied().find(|b| rough.contains(b)).or(if rough.len() == 1 {
                    rough.first().copied()
                } else {
                    None
                });
                b.and_then(|b| {
                    let mu = self.grip(b)?;
                    let r = self.b.situation().stage(stage)?.reactions.get(b).copied().flatten()?;
                    let q = self.b.quantity(Kind::Friction, "F_max", "greatest friction");
                    self.b.letter(q, "F_max");
                    self.b.situation_mut().relations.push(Relation {
                        terms: vec![(Value::one(), vec![q]), (-Value::one(), vec![mu, r])],
                        name: "friction is at most μR".to_owned(),
                        span: Some(ask.span),
                        from_part: ask.part,
                    });
                    one(Some(q))
                })
            }
            Target::Coefficient { of } => {
                let b = of
                    .iter()
                    .copied()
                    .find(|&b| self.grip(b).is_some())
                    .or_else(|| (0..self.bodies.len()).find(|&b| self.grip(b).is_some()));
                one(b.and_then(|b| self.grip(b)))
            }
            Target::Force(f) => one(self
                .forces
                .get(*f)
                .copied()
                .flatten()
                .and_then(|a| self.b.situation().stage(stage)?.forces.get(a.0).copied())),
            Target::Resistance(of) => {
                let mut out = Vec::new();
                let of: Vec<usize> =
                    if of.is_empty() { (0..self.bodies.len()).collect() } else { of.clone() };
                for &b in &of {
                    let q = self
                        .story
                        .forces
                        .iter()
                        .position(|f| f.role == Role::Resistance && f.on == Some(b))
                        .and_then(|f| self.forces.get(f).copied().flatten())
                        .or_else(|| self.shared.iter().find(|(i, _)| *i == b).map(|(_, a)| *a))
                        .and_then(|a| self.b.situation().stage(stage)?.forces.get(a.0).copied());
                    if let Some(q) = q {
                        out.push((
                            if of.len() > 1 {
                                format!("resistance on {}", self.name(b))
                            } else {
                                phrase.clone()
                            },
                            Wanted::Quantity(q),
                        ));
                    }
                }
                (!out.is_empty()).then_some(out)
            }
            Target::TotalResistance => one(Some(self.total_quantity())),
            Target::PulleyForce(p) => {
                let count = self.b.situation().pulleys.len();
                match p.or(if count == 1 { Some(0) } else { None }) {
                    Some(p) if p < count => Some(vec![(phrase.clone(), Wanted::PulleyForce(PulleyId(p)))]),
                    _ => None,
                }
            }
            Target::Resultant(b) => {
                self.resultant(*b, stage, ask).map(|q| vec![(phrase.clone(), Wanted::Quantity(q))])
            }
            Target::Weight { of, part } => one(self.weight(*of, *part, ask)),
            Target::Speed { of, start } => {
                let j = self.journey(ask, stage, motion, of);
                one(j.map(|j| if *start { j.start_speed } else { j.end_speed }))
            }
            Target::Distance { of } => {
                let j = self.journey(ask, stage, motion, of);
                one(j.map(|j| j.distance))
            }
            Target::Time => {
                // The time that one of the bodies takes is its own: bodies that slip on one another move apart.
                let j = self.journey(ask, stage, motion, &ask.of);
                one(j.map(|j| j.time))
            }
            Target::Letter(l) => one(self.letters.get(l).copied().or_else(|| self.lettered(l, stage))),
            // The letter as it stands in this stage: the force may be another quantity in each.
            Target::Range(l) => self
                .lettered(l, stage)
                .or_else(|| self.open_quantity(l))
                .map(|q| vec![(phrase.clone(), Wanted::Range(q))]),
            Target::Effect { change, on } => {
                let inner = AskTold { target: (**on).clone(), ..ask.clone() };
                match self.wanted(&inner, stage, motion).as_slice() {
                    [(_, Wanted::Quantity(q) | Wanted::Magnitude(q))] => {
                        Some(vec![(phrase.clone(), Wanted::Effect { change: *change, on: *q })])
                    }
                    _ => None,
                }
            }
            Target::Diagram(of) => {
                let all = of.is_empty() || of.len() == self.bodies.len();
                let which: Vec<Option<BodyId>> =
                    if all { vec![None] } else { of.iter().map(|b| self.bodies.get(*b).copied()).collect() };
                Some(
                    which
                        .into_iter()
                        .map(|b| (phrase.clone(), Wanted::Statement(Topic::Forces(b))))
                        .collect(),
                )
            }
            Target::Statement(t) => Some(vec![(phrase.clone(), Wanted::Statement(*t))]),
            Target::AccelerationWay(of) => self
                .bodies
                .get(of.first().copied().unwrap_or(0))
                .map(|&b| vec![(phrase.clone(), Wanted::AccelerationWay(b))]),
            Target::WhichWay(of) => self
                .bodies
                .get(of.first().copied().unwrap_or(0))
                .map(|&b| vec![(phrase.clone(), Wanted::WhichWay(b))]),
            // Of stories only, where they are measured from moment to moment.
            Target::Height { .. } | Target::Impulse | Target::EnergyLost => None,
            Target::WhetherMoves => Some(vec![(phrase.clone(), Wanted::WhetherItMoves)]),
            Target::Whether(truth, told) => {
                let one_link = |l: &[usize]| {
                    let l = match l {
                        [one] => *one,
                        [] if self.links.len() == 1 => 0,
                        _ => return None,
                    };
                    match self.links.get(l) {
                        Some(Became::Link(id)) => Some(*id),
                        _ => None,
                    }
                };
                let body = |b: usize| self.bodies.get(b).copied();
                let matter = match truth {
                    Truth::Slips(b) => body(*b).map(Matter::Slips),
                    Truth::Stays(None) => Some(Matter::StaysAtRest(None)),
                    Truth::Stays(Some(b)) => body(*b).map(|b| Matter::StaysAtRest(Some(b))),
                    Truth::Bears(l) => one_link(l).map(Matter::Bears),
                    Truth::Taut(l) => one_link(l).map(Matter::Taut),
                    Truth::LiftsOff(b) => body(*b).map(Matter::LiftsOff),
                };
                matter.map(|matter| vec![(phrase.clone(), Wanted::Whether { matter, told: *told })])
            }
            Target::TensionOrThrust(l) => {
                let l = l.first().copied().or(if self.links.len() == 1 { Some(0) } else { None });
                match l.and_then(|l| self.links.get(l)) {
                    Some(Became::Link(id)) => Some(vec![(phrase.clone(), Wanted::TensionOrThrust(*id))]),
                    _ => None,
                }
            }
        };
        if let (Some([(_, Wanted::Quantity(q) | Wanted::Magnitude(q))]), None) = (found.as_deref(), &ask.show)
        {
            let given = self.b.situation().quantity(*q).is_some_and(|q| {
                matches!(q.kind, Kind::Mass | Kind::Force | Kind::Coefficient | Kind::Tension)
                    && q.known.as_ref().is_some_and(|k| {
                        k.value.as_rational().is_some()
                            && k.from_part <= ask.part
                            && matches!(k.basis, Basis::Given(_))
                    })
            });
            if given {
                return self.cannot(
                    ask,
                    Refusal::Unread,
                    "this is given already; it is not clear what is asked",
                    "name the body or the force that you mean",
                );
            }
        }
        match found {
            Some(list) if !list.is_empty() => list,
            _ => self.cannot(ask, Refusal::Unread, unclear, name_it),
        }
    }

    /// A quantity that the question calls by this letter, in this stage.
    fn lettered(&self, letter: &str, stage: StageId) -> Option<QuantityId> {
        let s = self.b.situation();
        let st = s.stage(stage)?;
        let base = |q: &QuantityId| s.quantity(*q).is_some_and(|q| q.letter == letter);
        if letter == "a" {
            return st.accelerations.first().copied();
        }
        st.links.iter().chain(&st.forces).find(|q| base(q)).copied()
    }

    /// The quantity that a letter left open stands for: a force or mass, or the k of a mass km.
    fn open_quantity(&mut self, letter: &str) -> Option<QuantityId> {
        if let Some(q) = self.letters.get(letter) {
            return Some(*q);
        }
        let open = self.b.situation().letters.iter().any(|l| l.symbol == letter);
        open.then(|| {
            let q = self.b.quantity(Kind::Number, letter, &format!("value of {letter}"));
            self.b.letter(q, letter);
            self.b.know(q, Value::symbol(letter));
            q
        })
    }

    /// The resultant of all forces on a body: its mass times its acceleration.
    fn resultant(&mut self, body: usize, stage: StageId, ask: &AskTold) -> Option<QuantityId> {
        let mass = self.b.situation().body(*self.bodies.get(body)?)?.mass;
        let a = self.b.situation().stage(stage)?.accelerations.get(body).copied()?;
        let name = format!("resultant force on {}", self.name(body));
        let q = self.b.quantity(Kind::Force, "F", &name);
        self.b.situation_mut().relations.push(Relation {
            terms: vec![(Value::one(), vec![q]), (-Value::one(), vec![mass, a])],
            name: "the resultant force is mass times acceleration".to_owned(),
            span: Some(ask.span),
            from_part: ask.part,
        });
        Some(q)
    }

    /// The weight of a body, or its part along or across the slope on which it moves.
    fn weight(&mut self, body: usize, part: Share, ask: &AskTold) -> Option<QuantityId> {
        let situation = self.b.situation();
        let it = situation.body(*self.bodies.get(body)?)?;
        let (mass, line) = (it.mass, it.line);
        let angle = match line {
            Line::Slope { angle, .. } => Some(situation.angles.get(&angle)?.clone()),
            _ => None,
        };
        let (share, what) = match (part, angle) {
            (Share::Whole, _) => (Value::one(), "weight"),
            (Share::Along, Some(angle)) => (angle.sin().ok()?, "part of the weight along the slope"),
            (Share::Across, Some(angle)) => (angle.cos().ok()?, "part of the weight across the slope"),
            _ => return None,
        };
        let g = situation.gravity?;
        let name = format!("{what} of {}", self.name(body)).replace("slope of", "slope, of");
        let q = self.b.quantity(Kind::Force, "W", &name);
        self.b.situation_mut().relations.push(Relation {
            terms: vec![(Value::one(), vec![q]), (-share, vec![mass, g])],
            name: "the weight is mass times g".to_owned(),
            span: Some(ask.span),
            from_part: ask.part,
        });
        Some(q)
    }

    /// The coefficient of friction of a body.
    fn grip(&self, body: usize) -> Option<QuantityId> {
        let b = self.b.situation().body(*self.bodies.get(body)?)?;
        match b.surface.as_ref()?.grip {
            Grip::Rough(q) => Some(q),
            _ => None,
        }
    }
}
