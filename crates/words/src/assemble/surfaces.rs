//! Rubbing: which bodies stand on smooth ground, which on rough, and with what coefficient.

use crate::assemble::Assembly;
use crate::story::{On, Target};
use model::{Form, Grip, Kind, Line, Refusal, Role, Surface};

impl<'a> Assembly<'a> {
    pub(super) fn surfaces(&mut self) {
        let story = self.story;
        let common = self.common_surface();
        for (i, body) in story.bodies.iter().enumerate() {
            if matches!(self.lines.get(i), Some(Line::Vertical) | None) {
                continue;
            }
            if let Some(On::Body(carrier)) = body.on {
                self.on_top(i, carrier);
                continue;
            }
            let s = match body.on {
                Some(On::Surface(s)) => Some(s),
                _ => common,
            };
            let told = s.and_then(|s| story.surfaces.get(s));
            let ground = |c: &(Vec<usize>, _, _)| !self.between_bodies(&c.0);
            let coefficient =
                story.coefficients.iter().position(|c| c.0.contains(&i) && ground(c)).or_else(|| {
                    let wheeled = matches!(body.form, Form::Vehicle | Form::Trailer);
                    let driven = story.forces.iter().any(|f| f.role == Role::Driving);
                    story.coefficients.iter().position(|c| {
                        ((c.0.is_empty() && !self.on_load_alone()) || c.0.len() == story.bodies.len())
                            && ground(c)
                            && !(wheeled && driven && c.0.is_empty())
                    })
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
            let slides = story.sliding.iter().find(|(of, _)| of.is_empty() || of.contains(&i));
            let at_rest = coefficient.and_then(|c| story.coefficients.get(c)).and_then(|c| c.1.as_ref());
            if let (Some((_, moving)), Some(still)) = (slides, at_rest)
                && moving.value.cmp_exact(&still.value).is_ok_and(std::cmp::Ordering::is_gt)
            {
                self.refuse(
                    Refusal::Contradictory,
                    "friction while sliding cannot be greater than the greatest friction at rest".to_owned(),
                    moving.span,
                    "check the two coefficients",
                );
            }
            let sliding = slides.filter(|_| matches!(grip, Grip::Rough(_))).map(|(_, given)| {
                let q = self.b.coefficient(None);
                self.give(q, given, Kind::Coefficient);
                q
            });
            if let (Some(&id), true) = (self.bodies.get(i), true)
                && let Some(b) = self.b.situation_mut().bodies.get_mut(id.0)
            {
                b.surface = Some(Surface {
                    span: told.map(|t| t.span),
                    sliding,
                    ..Surface::new(&format!("the {noun}"), grip)
                });
            }
        }
    }

    /// A coefficient of friction that no rough surface uses.
    pub(super) fn idle_coefficients(&mut self) {
        for (n, (_, given, _)) in self.story.coefficients.iter().enumerate() {
            if !self.coefficients.contains_key(&n) {
                let span = given.as_ref().map(|g| g.span).unwrap_or_default();
                if self.diagnostics.iter().any(|d| d.spans.contains(&span)) {
                    continue;
                }
                self.refuse(
                    Refusal::Unread,
                    "it is not clear where this friction acts".to_owned(),
                    span,
                    "name the body and what it stands on: between the block and the table",
                );
            }
        }
    }
}
