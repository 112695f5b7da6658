//! What can give way: whether a body slips on what it stands on, a string goes slack, bodies part. Where it does give
//! way, the stage is solved once more as if it did not, to tell what that would take.

use super::*;

/// Friction under which nothing slips.
const MUCH: i64 = 1_000_000_000;

impl Looking<'_> {
    pub(super) fn slips(&self, body: BodyId) -> Result<Finding, Diagnostic> {
        let name = self.body(body);
        let surface = self.situation.body(body).and_then(|b| b.surface.as_ref());
        let mu = match surface.map(|s| s.grip) {
            Some(Grip::Rough(mu)) => mu,
            _ => {
                let says = format!("whether {name} slips hangs on friction, and none is told");
                return Err(
                    Diagnostic::refuse(Refusal::Incomplete, says).hint("give the coefficient of friction")
                );
            }
        };
        let on = match surface.and_then(|s| s.under) {
            Some(under) => self.body(under),
            None => surface.map_or("its surface", |s| s.name.as_str()),
        };
        let keeps = format!("{name} does not slip on {on}");
        let slips = format!("{name} slips on {on}");
        let sliding = self.solved.case.frictions.get(body.0) == Some(&FrictionState::Sliding);
        if !sliding {
            let (test, needed, most) = self.friction(self.solved, body, mu, &keeps)?;
            let so = match self.compare(&test.left.value, &test.right.value)? {
                Sign::Zero => {
                    format!("{keeps}, but is about to: it needs {needed} of friction, which is all there is")
                }
                _ => format!("{keeps}: it needs {needed} of friction, and up to {most} is to be had"),
            };
            return Ok(Finding { holds: false, says: so, test: Some(test), supposed: None });
        }
        let supposed = self.sticking(body, &keeps);
        let told =
            supposed.as_ref().and_then(|s| Some((s, self.friction(&s.solved, body, mu, &slips).ok()?)));
        match told {
            Some((stuck, (test, needed, most)))
                if self.compare(&test.left.value, &test.right.value)? == Sign::Negative =>
            {
                let says = format!(
                    "{slips}: it would need {needed} of friction not to, and no more than {most} is to be had"
                );
                Ok(Finding { holds: true, says, test: Some(test), supposed: Some(stuck.clone()) })
            }
            // It is moving over it already, or more than its own friction decides.
            _ => Ok(Finding { holds: true, says: slips, test: None, supposed: None }),
        }
    }
    /// The friction that a body has (or needs) where it does not slip, against the most there can be.
    fn friction(
        &self,
        solved: &Solved,
        body: BodyId,
        mu: QuantityId,
        says: &str,
    ) -> Result<(Test, String, String), Diagnostic> {
        let stage = self.situation.stage(solved.stage);
        let at = |list: &[Option<QuantityId>]| list.get(body.0).copied().flatten();
        let ids = stage.and_then(|s| Some((at(&s.frictions)?, at(&s.reactions)?)));
        let open = |what: &str| undetermined(format!("the {what} is not fixed by what the question gives"));
        let (friction, reaction) = ids.ok_or_else(|| open("friction"))?;
        let needed = solved.value(friction).map(size_of).ok_or_else(|| open(self.name(friction)))?;
        let coefficient = self.situation.known(mu, self.part).cloned().or_else(|| solved.value(mu).cloned());
        let coefficient = coefficient.ok_or_else(|| open(self.name(mu)))?;
        let most = coefficient * solved.value(reaction).ok_or_else(|| open(self.name(reaction)))?;
        let written = (with_unit(&needed, Kind::Friction), with_unit(&most, Kind::Friction));
        let factors = vec![Factor::Quantity(mu), Factor::Quantity(reaction)];
        let test = Test {
            left: Side::of(friction, needed),
            right: Side { factors, value: most },
            kind: Kind::Friction,
            says: says.to_owned(),
        };
        Ok((test, written.0, written.1))
    }
    /// The stage with so much friction under this body that it does not slip.
    fn sticking(&self, body: BodyId, says: &str) -> Option<Supposed> {
        let mut situation = self.situation.clone();
        let mu = QuantityId(situation.quantities.len());
        situation.quantities.push(Quantity {
            kind: Kind::Coefficient,
            symbol: format!("μ#{}", mu.0),
            letter: "μ".to_owned(),
            name: "coefficient of friction".to_owned(),
            known: Some(Known {
                value: Value::from_int(MUCH),
                written: String::new(),
                basis: Basis::Given(Span::default()),
                from_part: 0,
            }),
        });
        let surface = situation.bodies.get_mut(body.0)?.surface.as_mut()?;
        surface.grip = Grip::Rough(mu);
        surface.sliding = None;
        let solved = solve(&situation, self.solved.stage, self.part).ok()?;
        let stuck = solved.case.frictions.get(body.0) == Some(&FrictionState::Static);
        stuck.then(|| Supposed { says: says.to_owned(), situation, solved })
    }

    pub(super) fn taut(&self, link: LinkId) -> Result<Finding, Diagnostic> {
        let name = self.link(link);
        let contact = self.situation.link(link).is_some_and(|l| l.holds == Holds::Push);
        let (holding, loose) = match contact {
            true => ("the bodies stay in contact".to_owned(), "the bodies part".to_owned()),
            false => (format!("{name} is taut"), format!("{name} is slack")),
        };
        let what = if contact { "the push between them" } else { "its tension" };
        match self.solved.case.links.get(link.0) {
            Some(LinkState::Holding) => {
                let (id, force) = self.pull(self.solved, link)?;
                let says = match self.compare(&Value::zero(), &force)? {
                    Sign::Zero => format!("{holding}, but only just: {what} is 0"),
                    _ => format!("{holding}: {what} is {}", newtons(&force)),
                };
                let test = Test {
                    left: Side::of(id, force),
                    right: Side::number(Value::zero()),
                    kind: Kind::Tension,
                    says: holding,
                };
                Ok(Finding { holds: true, says, test: Some(test), supposed: None })
            }
            Some(LinkState::Loose) => Ok(self.slack(link, loose, contact)),
            _ => Ok(Finding { holds: false, says: loose, test: None, supposed: None }),
        }
    }
    /// Were it a rod, it would have to push.
    fn slack(&self, link: LinkId, loose: String, contact: bool) -> Finding {
        let rod = || {
            let mut situation = self.situation.clone();
            situation.links.get_mut(link.0)?.holds = Holds::PullOrPush;
            let solved = solve(&situation, self.solved.stage, self.part).ok()?;
            let (id, force) = self.pull(&solved, link).ok()?;
            let size = size_of(&force);
            let other_way = is_thrust(&solved, link);
            if size.is_zero() || !other_way || !size.is_number() {
                return None;
            }
            let (verb, which) = if contact { ("pull", "contact") } else { ("push", "string") };
            let says = if contact {
                format!(
                    "{loose}: to keep together they would have to pull on each other with {}",
                    newtons(&size)
                )
            } else {
                format!(
                    "{loose}: to keep its length it would have to push with {}, which no string can",
                    newtons(&size)
                )
            };
            let test = Test {
                left: Side::of(id, size),
                right: Side::number(Value::zero()),
                kind: Kind::Tension,
                says: format!("it would have to {verb}, which no {which} can: {loose}"),
            };
            let suppose = if contact {
                "the bodies kept together".to_owned()
            } else {
                format!("{} kept its length", self.link(link))
            };
            let supposed = Supposed { says: suppose, situation, solved };
            Some(Finding { holds: false, says, test: Some(test), supposed: Some(supposed) })
        };
        rod().unwrap_or(Finding { holds: false, says: loose.clone(), test: None, supposed: None })
    }

    pub(super) fn lifts_off(&self, body: BodyId) -> Result<Finding, Diagnostic> {
        let name = self.body(body);
        let stage = self.situation.stage(self.solved.stage);
        let reaction = stage.and_then(|s| s.reactions.get(body.0)).copied().flatten();
        let Some(reaction) = reaction else {
            // What carries it may be a floor that is a link.
            let floor = self
                .situation
                .links
                .iter()
                .position(|l| l.is_contact && l.ends.iter().any(|e| e.body == body && e.sense > 0));
            let Some(floor) = floor else {
                let says = format!("{name} stands on nothing that it could be lifted off");
                return Err(Diagnostic::refuse(Refusal::Incomplete, says));
            };
            let found = self.taut(LinkId(floor))?;
            return Ok(Finding { holds: !found.holds, ..found });
        };
        let force = self.solved.value(reaction).cloned();
        let force = force.ok_or_else(|| {
            undetermined(format!("the {} is not fixed by what the question gives", self.name(reaction)))
        })?;
        let stays = format!("{name} is not lifted off");
        let says = match self.compare(&Value::zero(), &force)? {
            Sign::Zero => format!("{stays}, but only just: the reaction on it is 0"),
            _ => format!("{stays}: the reaction on it is {}", with_unit(&force, Kind::Reaction)),
        };
        let test = Test {
            left: Side::of(reaction, force),
            right: Side::number(Value::zero()),
            kind: Kind::Reaction,
            says: stays,
        };
        Ok(Finding { holds: false, says, test: Some(test), supposed: None })
    }
}
