//! Turns what was told into a situation: settles who stands where, who is in front, which way forces act.

use crate::names;
use crate::story::*;
use exact::Value;
use model::{
    ActionId, Basis, BodyId, Builder, Diagnostic, Direction, Form, Grip, Holds, Kind, Known, Line, LinkId,
    Pulley, PulleyId, QuantityId, Refusal, Role, Surface,
};
use std::collections::{BTreeMap, BTreeSet};

/// What a told thing became in the situation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Became {
    Link(LinkId),
    /// A cable with one end outside the story.
    Cable(ActionId),
    Nothing,
}

/// The situation in the making.
pub(crate) struct Assembly<'a> {
    pub story: &'a Story,
    pub b: Builder,
    pub diagnostics: Vec<Diagnostic>,
    pub bodies: Vec<BodyId>,
    pub lines: Vec<Line>,
    pub links: Vec<Became>,
    pub forces: Vec<Option<ActionId>>,
    pub coefficients: BTreeMap<usize, QuantityId>,
    /// Letters asked for: they are unknowns, not open letters.
    pub asked: BTreeSet<String>,
    /// The quantity of a letter that is asked for.
    pub letters: BTreeMap<String, QuantityId>,
    pub total: Option<QuantityId>,
    /// A force asked for in a state of its own: (force, part).
    pub asked_anew: Option<(usize, usize)>,
    /// Tensions and pushes told before this part belong to another state.
    pub values_from: usize,
    /// Friction given as a number, as a named force.
    pub extra_friction: Vec<(ActionId, Given)>,
    /// Resistances that a rule gives to bodies: a share, or so much per kilogram.
    pub shared: Vec<(usize, ActionId)>,
}

pub(crate) fn known(given: &Given) -> Known {
    Known {
        value: given.value.clone(),
        written: given.written.clone(),
        basis: Basis::Given(given.span),
        from_part: given.part,
    }
}

impl<'a> Assembly<'a> {
    pub(crate) fn new(story: &'a Story) -> Assembly<'a> {
        let mut asked = BTreeSet::new();
        for ask in &story.asks {
            match &ask.target {
                Target::Letter(l) => {
                    asked.insert(l.clone());
                }
                Target::Mass(of) => {
                    for &b in of {
                        if let Some(m) = story.bodies.get(b).and_then(|b| b.mass.as_ref()) {
                            asked.extend(m.value.symbols());
                        }
                    }
                }
                Target::Force(f) => {
                    if let Some(l) = story.forces.get(*f).and_then(|f| f.letter.clone()) {
                        asked.insert(l);
                    }
                }
                Target::Coefficient { .. } => {
                    for c in &story.coefficients {
                        asked.extend(c.2.clone());
                    }
                }
                _ => {}
            }
        }
        Assembly {
            story,
            b: Builder::new(),
            diagnostics: Vec::new(),
            bodies: Vec::new(),
            lines: Vec::new(),
            links: Vec::new(),
            forces: Vec::new(),
            coefficients: BTreeMap::new(),
            asked,
            letters: BTreeMap::new(),
            total: None,
            asked_anew: None,
            values_from: 0,
            extra_friction: Vec::new(),
            shared: Vec::new(),
        }
    }

    fn refuse(&mut self, kind: Refusal, message: String, span: model::Span, hint: &str) {
        self.diagnostics.push(Diagnostic::refuse(kind, message).at(span).hint(hint));
    }

    /// A surface, pulley or string that was told of but that nothing uses: something was not understood.
    fn unused(&mut self) {
        let story = self.story;
        let standing: BTreeSet<usize> = story
            .bodies
            .iter()
            .filter_map(|b| if let Some(On::Surface(s)) = b.on { Some(s) } else { None })
            .collect();
        let common = self.common_surface();
        let any_default = self
            .lines
            .iter()
            .zip(&story.bodies)
            .any(|(l, b)| !matches!(l, Line::Vertical) && !matches!(b.on, Some(On::Surface(_))));
        for (n, s) in story.surfaces.iter().enumerate() {
            let told = s.smooth.is_some() || s.rough.is_some() || s.slope.is_some() || s.slopes;
            let used = standing.contains(&n) || (any_default && common == Some(n));
            if told && !used {
                self.refuse(
                    Refusal::Unread,
                    format!("it is not clear what stands on the {}", s.noun),
                    s.span,
                    "say, for example: A rests on a rough horizontal table",
                );
            }
        }
        let situation = self.b.situation();
        let used: BTreeSet<usize> =
            situation.links.iter().flat_map(|l| l.pulleys.iter().map(|p| p.0)).collect();
        let idle: Vec<_> = story
            .pulleys
            .iter()
            .enumerate()
            .filter(|(n, _)| !used.contains(n))
            .map(|(_, p)| p.span)
            .collect();
        for span in idle {
            self.refuse(
                Refusal::Unread,
                "it is not clear which string runs over this pulley".to_owned(),
                span,
                "say: the string passes over a smooth pulley",
            );
        }
    }

    /// A body that nothing ties to the rest: something was not understood.
    fn strays(&mut self) {
        let story = self.story;
        if story.bodies.len() < 2 {
            return;
        }
        let situation = self.b.situation();
        let mut stray = Vec::new();
        for (i, body) in story.bodies.iter().enumerate() {
            let Some(&id) = self.bodies.get(i) else { continue };
            let linked = situation.links.iter().any(|l| l.ends.iter().any(|e| e.body == id));
            let lift = body.form == Form::Lift && !matches!(body.on, Some(On::Surface(_)));
            if !linked && !lift {
                stray.push((i, body.span));
            }
        }
        for (i, span) in stray {
            self.refuse(
                Refusal::Unread,
                format!("it is not clear how {} is joined to the rest", self.name(i)),
                span,
                "say what joins it to the other bodies, or leave it out",
            );
        }
    }

    /// Bodies, surfaces, links and forces.
    pub(crate) fn things(&mut self) {
        self.gravity();
        self.place_bodies();
        self.surfaces();
        self.idle_coefficients();
        self.join();
        self.act();
        self.unused();
        self.strays();
    }

    // ---------------------------------------------------------------- values

    fn gravity(&mut self) {
        let open = self.story.bodies.iter().any(|b| {
            b.mass.as_ref().is_some_and(|m| m.value.symbols().iter().any(|s| !self.asked.contains(s)))
        });
        let wants_letter = self.story.gravity_letter || open;
        let id = self.b.situation().gravity;
        match (&self.story.gravity, id) {
            (Some(given), Some(id)) => {
                let k = Known { from_part: 0, ..known(given) };
                self.b.know_as(id, k);
            }
            (None, Some(id)) if wants_letter => {
                self.b.know_as(
                    id,
                    Known {
                        value: Value::symbol("g"),
                        written: "g".to_owned(),
                        basis: Basis::Implied(model::Span::default(), "left as a letter".to_owned()),
                        from_part: 0,
                    },
                );
                self.b.open_letter("g", Kind::Gravity);
            }
            _ => {}
        }
    }

    /// Gives a quantity a told value: a number, a letter to be found, or a letter left open.
    pub(crate) fn give(&mut self, id: QuantityId, given: &Given, kind: Kind) {
        for s in given.value.symbols() {
            if s == "g" {
                continue;
            }
            if self.asked.contains(&s) {
                if given.value == Value::symbol(&s) && !self.letters.contains_key(&s) {
                    // This quantity is the letter asked for.
                    self.b.letter(id, &s);
                    self.letters.insert(s, id);
                    return;
                }
                if !self.letters.contains_key(&s) {
                    // A factor such as the k of km: an unknown number, unless some quantity is that letter itself.
                    let itself = self
                        .story
                        .bodies
                        .iter()
                        .any(|b| b.mass.as_ref().is_some_and(|m| m.value == Value::symbol(&s)));
                    if !itself {
                        // 1000M kilograms for M tonnes: the letter itself is a plain number.
                        let kind = if given.value == Value::symbol(&s) { kind } else { Kind::Number };
                        let q = self.b.quantity(kind, &s, &format!("value of {s}"));
                        self.b.letter(q, &s);
                        self.letters.insert(s.clone(), q);
                    }
                }
            } else {
                let of = if s == "k" || s == "λ" { Kind::Number } else { kind };
                self.b.open_letter(&s, of);
            }
        }
        self.b.know_as(id, known(given));
    }

    // ---------------------------------------------------------------- bodies

    fn slope_of(&self, surface: usize) -> Option<&'a SurfaceTold> {
        self.story.surfaces.get(surface).filter(|s| s.slope.is_some() || s.slopes)
    }

    /// The surface that bodies stand on where nothing else is said.
    fn common_surface(&self) -> Option<usize> {
        let used: BTreeSet<usize> = self
            .story
            .bodies
            .iter()
            .filter_map(|b| if let Some(On::Surface(s)) = b.on { Some(s) } else { None })
            .collect();
        if used.len() == 1 {
            return used.first().copied();
        }
        if let Some(s) = (0..self.story.surfaces.len()).find(|&s| self.slope_of(s).is_some()) {
            return Some(s);
        }
        (!self.story.surfaces.is_empty()).then_some(0)
    }

    fn place_bodies(&mut self) {
        let story = self.story;
        let lift = story.bodies.iter().position(|b| b.form == Form::Lift);
        let over_pulley: BTreeSet<usize> = story
            .links
            .iter()
            .filter(|l| !l.pulleys.is_empty())
            .flat_map(|l| l.ends.iter().copied())
            .collect();
        let told_up = |i: usize| {
            story.motions.iter().any(|m| {
                (m.of.contains(&i) || m.of.is_empty()) && matches!(m.fact, Fact::Heading(Way::Up | Way::Down))
            })
        };
        let mut angles: BTreeMap<usize, QuantityId> = BTreeMap::new();
        let mut carriers: Vec<Option<usize>> = Vec::new();
        for (i, body) in story.bodies.iter().enumerate() {
            let mut on = body.on;
            if on.is_none()
                && !body.hangs
                && body.form != Form::Lift
                && let Some(l) = lift.filter(|&l| l != i && body.form == Form::Person)
            {
                on = Some(On::Body(l));
            }
            let carrier = if let Some(On::Body(c)) = on { Some(c) } else { None };
            carriers.push(carrier);
            let base = self.root(i, on);
            let base_body = story.bodies.get(base);
            let surface = match base_body.and_then(|b| b.on) {
                Some(On::Surface(s)) => Some(s),
                _ => None,
            };
            let vertical_cable = story.links.iter().any(|l| l.ends == [base] && l.vertical)
                || story.bodies.get(base).is_some_and(|b| b.form == Form::Lift);
            let hangs = base_body.is_some_and(|b| b.hangs);
            let line = if hangs || (vertical_cable && surface.is_none()) {
                Line::Vertical
            } else if let Some(s) = surface.or_else(|| {
                // Over a pulley, without a table or slope of its own: it hangs.
                if over_pulley.contains(&base) { None } else { self.common_surface() }
            }) {
                match self.slope_of(s) {
                    Some(surface) => {
                        let id = match angles.get(&s) {
                            Some(id) => *id,
                            None => {
                                let id = self.angle(surface);
                                angles.insert(s, id);
                                id
                            }
                        };
                        Line::Slope { angle: id, rises_right: true }
                    }
                    None => Line::Level,
                }
            } else if over_pulley.contains(&base) || told_up(base) {
                Line::Vertical
            } else {
                Line::Level
            };
            let label = body.label.clone().unwrap_or_default();
            let name = names::of_body(body);
            let id = self.b.body(&name, &label, body.form, line, None);
            if let Some(x) = self.b.situation_mut().bodies.get_mut(id.0) {
                x.span = Some(body.span);
            }
            self.bodies.push(id);
            self.lines.push(line);
        }
        // Called the heavier, and lighter by the numbers.
        for link in story.links.iter().filter(|l| l.ends.len() == 2) {
            let [a, b] = link.ends.as_slice() else { continue };
            let (Some(x), Some(y)) = (story.bodies.get(*a), story.bodies.get(*b)) else { continue };
            let (Some(mx), Some(my)) = (&x.mass, &y.mass) else { continue };
            let Ok(order) = mx.value.cmp_exact(&my.value) else { continue };
            let wrong = |told: Option<bool>, heavier: bool| {
                told.is_some_and(|t| t != heavier) || (told == Some(true) && order.is_eq())
            };
            if wrong(x.heavier, order.is_gt()) || wrong(y.heavier, order.is_lt()) {
                let d = Diagnostic::refuse(
                    Refusal::Contradictory,
                    format!(
                        "the masses {} and {} do not go with which is called the heavier",
                        mx.written, my.written
                    ),
                )
                .at(mx.span)
                .at(my.span)
                .hint("check the two masses");
                self.diagnostics.push(d);
            }
        }
        // Masses after all bodies are there, so that letters keep their order.
        for (i, body) in story.bodies.iter().enumerate() {
            if let (Some(given), Some(id)) = (&body.mass, self.bodies.get(i))
                && let Some(q) = self.b.situation().body(*id).map(|b| b.mass)
            {
                self.give(q, given, Kind::Mass);
            }
        }
        for (of, given) in &story.totals {
            // One mass unknown: it is the rest of the total.
            let mut rest = given.value.clone();
            let mut open = Vec::new();
            for &b in of {
                match story.bodies.get(b).and_then(|b| b.mass.as_ref()) {
                    Some(m) => rest = &rest - &m.value,
                    None => open.push(b),
                }
            }
            let masses: Vec<QuantityId> = of
                .iter()
                .filter_map(|&b| Some(self.b.situation().body(*self.bodies.get(b)?)?.mass))
                .collect();
            match open.as_slice() {
                [one] => {
                    if let Some(q) =
                        self.bodies.get(*one).and_then(|&id| self.b.situation().body(id)).map(|b| b.mass)
                    {
                        self.b.know_as(
                            q,
                            Known {
                                value: rest.clone(),
                                written: format!("{} in all", given.written),
                                basis: Basis::Given(given.span),
                                from_part: given.part,
                            },
                        );
                    }
                }
                _ => {
                    let mut terms = vec![(given.value.clone(), Vec::new())];
                    terms.extend(masses.into_iter().map(|q| (-Value::one(), vec![q])));
                    self.b.situation_mut().relations.push(model::Relation {
                        terms,
                        name: "the masses add up to the total".to_owned(),
                        span: Some(given.span),
                        from_part: given.part,
                    });
                }
            }
        }
        for (i, carrier) in carriers.iter().enumerate() {
            let (Some(c), Some(&load)) = (carrier, self.bodies.get(i)) else { continue };
            let Some(&under) = self.bodies.get(*c) else { continue };
            if !matches!(self.lines.get(i), Some(Line::Vertical)) {
                let span = story.bodies.get(i).map(|b| b.span).unwrap_or_default();
                self.refuse(
                    Refusal::Unread,
                    format!(
                        "{} rests on {}, which does not move straight up or down; this is not followed yet",
                        self.name(i),
                        self.name(*c)
                    ),
                    span,
                    "describe bodies joined by strings or tow-bars, or loads in a lift",
                );
                continue;
            }
            let name = format!("reaction between {} and {}", self.name(i), self.name(*c));
            self.b.rests_on(&name, load, under);
        }
    }

    /// What finally carries a body.
    fn root(&self, i: usize, on: Option<On>) -> usize {
        let mut at = i;
        let mut on = on;
        for _ in 0..self.story.bodies.len() {
            match on {
                Some(On::Body(c)) if c != at => {
                    at = c;
                    on = self.story.bodies.get(c).and_then(|b| b.on);
                }
                _ => break,
            }
        }
        at
    }

    pub(crate) fn name(&self, i: usize) -> String {
        self.story.bodies.get(i).map_or_else(String::new, names::of_body)
    }

    fn angle(&mut self, surface: &SurfaceTold) -> QuantityId {
        let slope = surface.slope.clone().unwrap_or_default();
        let letter = slope.letter.clone().unwrap_or_else(|| "θ".to_owned());
        let id = match &slope.angle {
            Some(angle) => {
                let id = self.b.angle(&letter, angle.clone());
                let value = angle.sin().unwrap_or_else(|_| Value::zero());
                if let exact::Angle::Degrees(d) = angle {
                    self.b.know_as(
                        id,
                        Known {
                            value: Value::rational(d.clone()),
                            written: slope.written.clone(),
                            basis: Basis::Given(slope.span),
                            from_part: 0,
                        },
                    );
                } else {
                    self.b.know_as(
                        id,
                        Known {
                            value,
                            written: slope.written.clone(),
                            basis: Basis::Given(slope.span),
                            from_part: 0,
                        },
                    );
                }
                id
            }
            None => {
                self.refuse(
                    Refusal::Incomplete,
                    format!("the angle of the {} is not given", surface.noun),
                    surface.span,
                    "say, for example: inclined at 30° to the horizontal",
                );
                self.b.quantity(Kind::Angle, &letter, "angle of the slope")
            }
        };
        if slope.letter.is_some() {
            self.b.letter(id, &letter);
        }
        id
    }

    // ---------------------------------------------------------------- surfaces

    fn surfaces(&mut self) {
        let story = self.story;
        let common = self.common_surface();
        for (i, body) in story.bodies.iter().enumerate() {
            if matches!(self.lines.get(i), Some(Line::Vertical) | None) {
                continue;
            }
            let s = match body.on {
                Some(On::Surface(s)) => Some(s),
                _ => common,
            };
            let told = s.and_then(|s| story.surfaces.get(s));
            let coefficient = story.coefficients.iter().position(|c| c.0.contains(&i)).or_else(|| {
                story.coefficients.iter().position(|c| c.0.is_empty() || c.0.len() == story.bodies.len())
            });
            let asked_here = story.asks.iter().any(|a| match &a.target {
                Target::Coefficient { of } => of.is_empty() || of.contains(&i),
                _ => false,
            });
            let friction_asked = story.asks.iter().any(|a| matches!(&a.target, Target::Friction { on } | Target::GreatestFriction { on } if on.is_empty() || on.contains(&i)));
            let resisted = story.forces.iter().any(|f| f.role == Role::Resistance && f.on == Some(i))
                || story.per_mass.is_some()
                || story.total_resistance.is_some();
            let noun = told.map_or("ground", |t| t.noun.as_str());
            let rough = told.is_some_and(|t| t.rough.is_some());
            let smooth = told.is_some_and(|t| t.smooth.is_some()) || story.frictionless;
            if let (Some(t), true) = (told, rough && smooth) {
                self.refuse(
                    Refusal::Contradictory,
                    format!("the {noun} is called both smooth and rough"),
                    t.smooth.or(t.rough).unwrap_or(t.span),
                    "keep one of them",
                );
            }
            if smooth && (coefficient.is_some()) {
                let span =
                    story.coefficients.iter().find_map(|c| c.1.as_ref().map(|g| g.span)).unwrap_or_default();
                let zero = coefficient
                    .and_then(|c| story.coefficients.get(c))
                    .and_then(|c| c.1.as_ref())
                    .is_some_and(|g| g.value.is_zero());
                if !zero {
                    self.refuse(
                        Refusal::Contradictory,
                        format!("the {noun} is smooth, yet a coefficient of friction is given"),
                        span,
                        "say rough, or leave the coefficient out",
                    );
                }
            }
            let number = story.frictions.iter().find(|(b, _)| *b == i).map(|(_, g)| g.clone());
            if let (Some(g), true) = (&number, smooth) {
                self.refuse(
                    Refusal::Contradictory,
                    format!("the {noun} is smooth, yet friction is given"),
                    g.span,
                    "say rough, or leave the friction out",
                );
            }
            let grip = if smooth {
                Grip::Smooth
            } else if coefficient.is_some()
                || asked_here
                || (rough && !resisted && number.is_none())
                || (friction_asked && number.is_none())
            {
                let q = match self.coefficients.get(&coefficient.unwrap_or(usize::MAX - i)) {
                    Some(q) => *q,
                    None => {
                        let q = self.b.coefficient(None);
                        if let Some((_, given, letter)) = coefficient.and_then(|c| story.coefficients.get(c))
                        {
                            if let Some(g) = given {
                                self.give(q, g, Kind::Coefficient);
                            } else if let Some(l) = letter {
                                if self.asked.contains(l) || asked_here {
                                    self.b.letter(q, l);
                                    self.letters.insert(l.clone(), q);
                                } else {
                                    // Not asked for: found on the way, or left as a letter.
                                    self.b.letter(q, l);
                                }
                            }
                        }
                        self.coefficients.insert(coefficient.unwrap_or(usize::MAX - i), q);
                        q
                    }
                };
                Grip::Rough(q)
            } else {
                Grip::Unsaid
            };
            let wheeled = matches!(body.form, Form::Vehicle | Form::Trailer);
            let alone = story.bodies.len() > 1
                && !story.links.iter().any(|l| l.ends.contains(&i))
                && !story.tows.iter().any(|t| t.0 == i || t.1 == i);
            if grip == Grip::Unsaid && !wheeled && !resisted && number.is_none() && !alone {
                let span = told.map_or(body.span, |t| t.span);
                self.refuse(
                    Refusal::Incomplete,
                    format!("it is not said whether the {noun} is smooth or rough"),
                    span,
                    "call it smooth, or rough with a coefficient of friction",
                );
            }
            if let (Some(&id), true) = (self.bodies.get(i), true)
                && let Some(b) = self.b.situation_mut().bodies.get_mut(id.0)
            {
                b.surface = Some(Surface { name: format!("the {noun}"), grip, span: told.map(|t| t.span) });
            }
        }
    }

    /// A coefficient of friction that no rough surface uses.
    fn idle_coefficients(&mut self) {
        for (n, (_, given, _)) in self.story.coefficients.iter().enumerate() {
            if !self.coefficients.contains_key(&n) {
                let span = given.as_ref().map(|g| g.span).unwrap_or_default();
                self.refuse(
                    Refusal::Unread,
                    "it is not clear where this friction acts".to_owned(),
                    span,
                    "name the body and what it stands on: between the block and the table",
                );
            }
        }
    }

    // ---------------------------------------------------------------- links

    /// The two ends of a link, where they can be told.
    fn ends(&self, l: usize, taken: &BTreeSet<(usize, usize)>) -> Vec<usize> {
        let story = self.story;
        let Some(link) = story.links.get(l) else { return Vec::new() };
        if !link.ends.is_empty() {
            // One end told, and exactly one body left that hangs or is towed without a link.
            return link.ends.clone();
        }
        for &(a, b) in &story.tows {
            let pair = (a.min(b), a.max(b));
            let told = story.links.iter().any(|x| x.ends.contains(&a) && x.ends.contains(&b));
            if !told && !taken.contains(&pair) {
                return vec![a, b];
            }
        }
        Vec::new()
    }

    fn join(&mut self) {
        let story = self.story;
        for pulley in &story.pulleys {
            let name = if pulley.noun.chars().count() == 1 {
                pulley.noun.clone()
            } else {
                format!("the {}", pulley.noun)
            };
            self.b.situation_mut().pulleys.push(Pulley { name, span: Some(pulley.span) });
        }
        let mut taken: BTreeSet<(usize, usize)> = BTreeSet::new();
        let mut ends_of: Vec<Vec<usize>> = Vec::new();
        for l in 0..story.links.len() {
            let ends = self.ends(l, &taken);
            if let [a, b] = ends.as_slice() {
                taken.insert((*a.min(b), *a.max(b)));
            }
            ends_of.push(ends);
        }
        self.complete_ends(&mut ends_of);
        let fronts = self.fronts(&ends_of);
        let mut right_used: BTreeSet<usize> = BTreeSet::new();
        for (l, link) in story.links.iter().enumerate() {
            let ends = ends_of.get(l).cloned().unwrap_or_default();
            let became = match ends.as_slice() {
                [a, b] => self.link(l, link, *a, *b, &fronts, &mut right_used),
                [one] => self.cable(l, link, *one),
                _ => {
                    {
                        self.refuse(
                            Refusal::Incomplete,
                            format!("it is not said what the {} joins", link.noun),
                            link.span,
                            "say, for example: joined to Q by a light inextensible string",
                        );
                    }
                    Became::Nothing
                }
            };
            self.links.push(became);
        }
        // Something holds the lift up, even if nobody asks about it.
        for (i, body) in story.bodies.iter().enumerate() {
            let Some(&id) = self.bodies.get(i) else { continue };
            let carried = matches!(body.on, Some(On::Body(_)));
            let situation = self.b.situation();
            let held = situation.actions.iter().any(|a| a.on == id)
                || situation.links.iter().any(|l| !l.is_contact && l.ends.iter().any(|e| e.body == id))
                || story.forces.iter().any(|f| f.on == Some(i) && f.role != Role::Resistance);
            if body.form == Form::Lift && !carried && !held {
                self.b.act(Role::Cable, "tension in the cable", id, Direction::Along(1));
                self.b.situation_mut().assumed.push(format!(
                    "{} is held up by a light cable",
                    self.story.bodies.get(i).map_or_else(String::new, names::of_body)
                ));
            }
        }
        // Towed, with nothing named between: a coupling that can pull or push.
        for &(a, b) in &story.tows {
            let joined = ends_of.iter().any(|e| e.contains(&a) && e.contains(&b));
            if !joined && let (Some(&x), Some(&y)) = (self.bodies.get(a), self.bodies.get(b)) {
                self.b.tow("the coupling", x, y);
                let text = format!(
                    "{} and {} are joined by a light coupling that can pull or push",
                    self.name(a),
                    self.name(b)
                );
                self.b.situation_mut().assumed.push(text);
            }
        }
    }

    /// Ends that are plain though nobody said them: the lift's cable, the only bodies there are.
    fn complete_ends(&mut self, ends_of: &mut [Vec<usize>]) {
        let story = self.story;
        let lift = story.bodies.iter().position(|b| b.form == Form::Lift);
        for (l, link) in story.links.iter().enumerate() {
            let linked: BTreeSet<usize> = ends_of.iter().flatten().copied().collect();
            let Some(ends) = ends_of.get_mut(l) else { continue };
            if ends.is_empty() {
                if let Some(lift) =
                    lift.filter(|_| link.pulleys.is_empty() && !linked.contains(&lift.unwrap_or(0)))
                {
                    *ends = vec![lift];
                    continue;
                }
                let free: Vec<usize> = (0..story.bodies.len())
                    .filter(|b| {
                        !linked.contains(b)
                            && !story.bodies.get(*b).is_some_and(|x| matches!(x.on, Some(On::Body(_))))
                    })
                    .collect();
                if !link.pulleys.is_empty() && free.len() == 2 && story.bodies.len() == 2 {
                    *ends = free;
                } else if story.bodies.len() == 1 && link.pulleys.is_empty() {
                    *ends = vec![0];
                }
            } else if ends.len() == 1 && !link.pulleys.is_empty() {
                let free: Vec<usize> =
                    (0..story.bodies.len()).filter(|b| !linked.contains(b) && !ends.contains(b)).collect();
                if let [other] = free.as_slice() {
                    ends.push(*other);
                }
            }
        }
    }

    /// How far each body is from the front of its train: the smaller, the more to the front.
    fn fronts(&self, ends_of: &[Vec<usize>]) -> BTreeMap<usize, usize> {
        let story = self.story;
        let mut leaders: Vec<usize> = Vec::new();
        for f in &story.forces {
            if matches!(f.role, Role::Driving | Role::Applied) && f.way != Some(Way::Backward) {
                leaders.extend(f.on);
            }
        }
        for (l, e) in ends_of.iter().enumerate() {
            if let ([one], Some(_)) = (e.as_slice(), story.links.get(l)) {
                leaders.push(*one);
            }
        }
        if leaders.is_empty() {
            leaders.extend(story.tows.first().map(|t| t.0));
        }
        for f in story.forces.iter().filter(|f| f.role == Role::Braking) {
            leaders.extend(f.on);
        }
        let mut far: BTreeMap<usize, usize> = BTreeMap::new();
        let mut queue: Vec<(usize, usize)> = leaders.first().map(|&b| (b, 0)).into_iter().collect();
        // Each further train starts with its first body.
        let mut rest: Vec<usize> = (0..story.bodies.len()).rev().collect();
        loop {
            while let Some((b, d)) = queue.first().copied() {
                queue.remove(0);
                if far.contains_key(&b) {
                    continue;
                }
                far.insert(b, d);
                for e in ends_of.iter().filter(|e| e.len() == 2 && e.contains(&b)) {
                    queue.extend(e.iter().filter(|x| **x != b).map(|x| (*x, d + 1)));
                }
                for (x, y) in &story.tows {
                    if *x == b {
                        queue.push((*y, d + 1));
                    }
                }
            }
            match rest.pop() {
                Some(b) if !far.contains_key(&b) => queue.push((b, 0)),
                Some(_) => {}
                None => break,
            }
        }
        far
    }

    fn link(
        &mut self,
        l: usize,
        link: &LinkTold,
        a: usize,
        b: usize,
        fronts: &BTreeMap<usize, usize>,
        right_used: &mut BTreeSet<usize>,
    ) -> Became {
        let (Some(&x), Some(&y), Some(&lx), Some(&ly)) =
            (self.bodies.get(a), self.bodies.get(b), self.lines.get(a), self.lines.get(b))
        else {
            return Became::Nothing;
        };
        let name = self.link_name(l, link, a, b);
        let same_line = lx == ly && !matches!(lx, Line::Vertical);
        if link.pulleys.is_empty() && link.level && matches!(lx, Line::Slope { .. }) {
            self.refuse(
                Refusal::Unread,
                format!("the {} is horizontal, and the bodies are on a slope", link.noun),
                link.span,
                "make it parallel to the slope",
            );
        }
        let pulleys = if link.pulleys.is_empty() && !same_line && !self.story.pulleys.is_empty() {
            vec![self.story.pulleys.len() - 1]
        } else {
            link.pulleys.clone()
        };
        let id = if !pulleys.is_empty() {
            let mut sense = |i: usize, line: Line| -> i8 {
                if matches!(line, Line::Level) && !right_used.insert(i) { -1 } else { 1 }
            };
            let ends = [(x, sense(a, lx)), (y, sense(b, ly))];
            let id = self.b.link(&name, Holds::Pull, false, &ends);
            if let Some(link) = self.b.situation_mut().links.get_mut(id.0) {
                link.pulleys = pulleys.into_iter().map(PulleyId).collect();
            }
            id
        } else if same_line {
            let towed = self.story.tows.contains(&(b, a)) || self.story.order.contains(&(b, a));
            let tows = self.story.tows.contains(&(a, b)) || self.story.order.contains(&(a, b));
            let a_front = tows || (!towed && fronts.get(&a) <= fronts.get(&b));
            // Down a slope the front is the lower end.
            let down = matches!(lx, Line::Slope { .. }) && self.heads_down() && !self.pulled_up();
            let (front, behind) = if a_front != down { (x, y) } else { (y, x) };
            self.b.link(&name, link.holds, false, &[(behind, 1), (front, -1)])
        } else if matches!((lx, ly), (Line::Vertical, Line::Vertical)) {
            // One below the other.
            self.b.link(&name, link.holds, false, &[(y, 1), (x, -1)])
        } else {
            self.refuse(
                Refusal::Incomplete,
                format!(
                    "{} and {} move along different lines, and no pulley is named",
                    self.name(a),
                    self.name(b)
                ),
                link.span,
                "say: the string passes over a smooth pulley",
            );
            return Became::Nothing;
        };
        if let Some(made) = self.b.situation_mut().links.get_mut(id.0) {
            made.span = Some(link.span);
        }
        Became::Link(id)
    }

    /// Do the bodies travel down the slope?
    fn heads_down(&self) -> bool {
        self.story.motions.iter().any(|m| matches!(m.fact, Fact::Heading(Way::DownSlope | Way::Down)))
    }
    /// Does a pull from above hold or draw them?
    fn pulled_up(&self) -> bool {
        self.story.forces.iter().any(|f| f.role == Role::Applied && f.way != Some(Way::DownSlope))
    }

    fn link_name(&self, _l: usize, link: &LinkTold, a: usize, b: usize) -> String {
        let many = self.story.links.iter().filter(|x| x.noun == link.noun).count() > 1;
        if many {
            format!("the {} joining {} and {}", link.noun, self.name(a), self.name(b))
        } else {
            format!("the {}", link.noun)
        }
    }

    fn cable(&mut self, _l: usize, link: &LinkTold, body: usize) -> Became {
        let Some(&id) = self.bodies.get(body) else { return Became::Nothing };
        if !link.pulleys.is_empty() {
            self.refuse(
                Refusal::Incomplete,
                format!("it is not said what hangs from the other end of the {}", link.noun),
                link.span,
                "name what is attached to each end of the string",
            );
            return Became::Nothing;
        }
        let already = self.story.forces.iter().any(|f| f.role == Role::Applied && f.on == Some(body));
        if already {
            // The rope only passes on the pull that is named.
            return Became::Nothing;
        }
        let action =
            self.b.act(Role::Cable, &format!("tension in the {}", link.noun), id, Direction::Along(1));
        if let Some(a) = self.b.situation_mut().actions.get_mut(action.0) {
            a.span = Some(link.span);
        }
        Became::Cable(action)
    }

    // ---------------------------------------------------------------- forces

    fn act(&mut self) {
        let story = self.story;
        let down = story.motions.iter().any(|m| matches!(m.fact, Fact::Heading(Way::DownSlope)));
        for f in &story.forces {
            let on = f.on.or(if story.bodies.len() == 1 { Some(0) } else { None });
            let Some((i, &body)) = on.and_then(|i| Some((i, self.bodies.get(i)?))) else {
                self.refuse(
                    Refusal::Incomplete,
                    format!("it is not said on which body {} acts", f.name),
                    f.span,
                    "name the body: a force of 50 N acts on the crate",
                );
                self.forces.push(None);
                continue;
            };
            let crooked = match (f.level, self.lines.get(i)) {
                (Some(true), Some(Line::Vertical | Line::Slope { .. })) => Some("horizontal"),
                (Some(false), Some(Line::Level | Line::Slope { .. })) => Some("vertical"),
                _ => None,
            };
            if let Some(word) = crooked {
                self.refuse(
                    Refusal::Unread,
                    format!(
                        "a {word} force is not along the line on which {} moves; this is not followed yet",
                        self.name(i)
                    ),
                    f.span,
                    "give the force along the line of motion",
                );
            }
            if f.role == Role::Driving
                && matches!(
                    (f.way, self.lines.get(i)),
                    (Some(Way::Backward), _) | (Some(Way::Up | Way::Down), Some(Line::Level))
                )
            {
                self.refuse(
                    Refusal::Unread,
                    "a driving force in this direction is not followed".to_owned(),
                    f.span,
                    "the driving force acts forwards; give a braking force by that name",
                );
            }
            if matches!(f.way, Some(Way::Towards(_))) {
                self.refuse(
                    Refusal::Unread,
                    format!(
                        "{} is pushed towards what it is joined to; this is not followed yet",
                        self.name(i)
                    ),
                    f.span,
                    "pull the body that is in front",
                );
            }
            let pulled =
                self.b.situation().links.iter().any(|l| {
                    !l.pulleys.is_empty() && l.ends.iter().any(|e| self.bodies.get(i) == Some(&e.body))
                });
            let free = pulled || matches!(self.lines.get(i), Some(Line::Vertical | Line::Slope { .. }));
            if f.role == Role::Applied && f.way.is_none() && free {
                self.refuse(
                    Refusal::Incomplete,
                    format!("it is not said which way {} acts", f.name),
                    f.span,
                    "say upwards or downwards, up or down the slope",
                );
            }
            let slope_down = down && matches!(self.lines.get(i), Some(Line::Slope { .. }));
            let direction = match f.role {
                Role::Resistance | Role::Braking => Direction::Opposing,
                Role::Driving => {
                    Direction::Along(if slope_down && f.way != Some(Way::UpSlope) { -1 } else { 1 })
                }
                _ => {
                    let sense = match f.way {
                        Some(Way::AwayFrom(other)) => self.away(i, other),
                        Some(Way::Down | Way::DownSlope | Way::Backward) => -1,
                        _ => 1,
                    };
                    Direction::Along(sense)
                }
            };
            let id = self.b.act(f.role, &f.name, body, direction);
            if let Some(a) = self.b.situation_mut().actions.get_mut(id.0) {
                a.span = Some(f.span);
            }
            self.forces.push(Some(id));
        }
        // Friction given as a number on a surface that is not rough otherwise: a resistance.
        for (i, given) in &story.frictions {
            let rough = self
                .bodies
                .get(*i)
                .and_then(|&id| self.b.situation().body(id))
                .is_some_and(|b| b.surface.as_ref().is_some_and(|s| matches!(s.grip, Grip::Rough(_))));
            if !rough && let Some(&body) = self.bodies.get(*i) {
                let name = format!("the friction on {}", self.name(*i));
                let id = self.b.act(Role::Resistance, &name, body, Direction::Opposing);
                if let Some(a) = self.b.situation_mut().actions.get_mut(id.0) {
                    a.span = Some(given.span);
                }
                self.extra_friction.push((id, given.clone()));
            }
        }
        // Resistances shared or per kilogram, on every body that has none of its own.
        if story.per_mass.is_some()
            || story.total_resistance.is_some()
            || story.asks.iter().any(|a| a.target == Target::TotalResistance)
        {
            for i in 0..story.bodies.len() {
                let has = story.forces.iter().any(|f| f.role == Role::Resistance && f.on == Some(i));
                if has {
                    continue;
                }
                if let Some(&body) = self.bodies.get(i) {
                    let name = format!("the resistance on {}", self.name(i));
                    let id = self.b.act(Role::Resistance, &name, body, Direction::Opposing);
                    self.shared.push((i, id));
                }
            }
        }
    }

    /// The sense that leads away from another body on the same line.
    fn away(&self, i: usize, other: usize) -> i8 {
        let (Some(&me), Some(&you)) = (self.bodies.get(i), self.bodies.get(other)) else { return 1 };
        let situation = self.b.situation();
        let link = situation.links.iter().find(|l| {
            l.pulleys.is_empty()
                && l.ends.iter().any(|e| e.body == me)
                && l.ends.iter().any(|e| e.body == you)
        });
        link.and_then(|l| l.ends.iter().find(|e| e.body == me)).map_or(1, |e| -e.sense)
    }
}
