//! Places the bodies: on the level, on a slope, hanging, or carried by another.

use crate::assemble::Assembly;
use crate::names;
use crate::story::{Fact, On, SurfaceTold, Way};
use exact::{Angle, Value};
use model::{Basis, Diagnostic, Form, Kind, Known, Line, QuantityId, Refusal, Relation};
use std::collections::{BTreeMap, BTreeSet};

impl<'a> Assembly<'a> {
    pub(super) fn place_bodies(&mut self) {
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
                let wheeled = matches!(body.form, Form::Vehicle | Form::Trailer);
                let concerned = story.bodies.len() == 1 || story.links.iter().any(|l| l.ends.contains(&i));
                if !wheeled && concerned && story.surfaces.is_empty() {
                    self.refuse(
                        Refusal::Incomplete,
                        format!("it is not said what {} stands on, or whether it hangs", self.name(i)),
                        body.span,
                        "say that it hangs freely, or lies on a smooth table",
                    );
                }
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
                    self.b.situation_mut().relations.push(Relation {
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
            // On the level or a slope it is held by friction alone: see the surfaces.
            if !matches!(self.lines.get(i), Some(Line::Vertical)) {
                continue;
            }
            let name = format!("reaction between {} and {}", self.name(i), self.name(*c));
            self.b.rests_on(&name, load, under);
        }
    }

    fn slope_of(&self, surface: usize) -> Option<&'a SurfaceTold> {
        self.story.surfaces.get(surface).filter(|s| s.slope.is_some() || s.slopes)
    }

    /// The surface that bodies stand on where nothing else is said.
    pub(super) fn common_surface(&self) -> Option<usize> {
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

    fn angle(&mut self, surface: &SurfaceTold) -> QuantityId {
        let slope = surface.slope.clone().unwrap_or_default();
        let letter = slope.letter.clone().unwrap_or_else(|| "θ".to_owned());
        let id = match &slope.angle {
            Some(angle) => {
                let id = self.b.angle(&letter, angle.clone());
                let value = angle.sin().unwrap_or_else(|_| Value::zero());
                if let Angle::Degrees(d) = angle {
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
}
