//! The inequalities of a solved stage as linear forms that are not negative: strings pull, contacts push, friction is at
//! most μR either way, what starts to move goes the way it accelerates, masses are masses.
//!
//! Friction that statics does not fix (two rough bodies share the holding) stays in the forms as an unknown, and is
//! eliminated: a range of the others is left for which *some* sharing does (the method of Fourier and Motzkin).

use crate::sign::sign_with_positive_letters;
use crate::{About, Equation, Factor, FrictionState, Law, LinkState, Solved};
use exact::{Sign, Value};
use model::{ActionId, BodyId, Direction, Grip, Holds, Kind, LinkId, QuantityId, Situation, State};
use std::collections::{BTreeMap, BTreeSet};

/// An inequality: `greater` is at least `smaller`, or more than it if `strict`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bound {
    /// In words: `friction can hold P at rest`.
    pub says: String,
    /// What it is about, where it comes from one law.
    pub about: Option<About>,
    /// The quantity that it bounds, where it is one.
    pub quantity: Option<QuantityId>,
    /// The left side.
    pub smaller: Value,
    /// The right side.
    pub greater: Value,
    /// Must they differ?
    pub strict: bool,
}

/// A sum of unknowns and a constant.
#[derive(Clone, Debug)]
struct Form {
    terms: BTreeMap<QuantityId, Value>,
    constant: Value,
}

impl Form {
    fn of(value: &Value) -> Form {
        Form { terms: BTreeMap::new(), constant: value.clone() }
    }
    fn add(&mut self, times: &Value, other: &Form) {
        for (id, value) in &other.terms {
            let slot = self.terms.entry(*id).or_insert_with(Value::zero);
            *slot = &*slot + times * value;
        }
        self.terms.retain(|_, v| !v.is_zero());
        self.constant = &self.constant + times * &other.constant;
    }
}

/// More inequalities than this are not combined.
const MOST: usize = 200;

struct Gathering<'a> {
    situation: &'a Situation,
    solved: &'a Solved,
    /// Unknowns in terms of fewer unknowns.
    solutions: BTreeMap<QuantityId, Form>,
    found: Vec<(Bound, Form)>,
}

/// All inequalities that bear on the stage, free of what the givens do not fix. `None` where that cannot be told.
pub(crate) fn bounds(situation: &Situation, solved: &Solved) -> Option<Vec<Bound>> {
    let mut gathering = Gathering { situation, solved, solutions: BTreeMap::new(), found: Vec::new() };
    gathering.eliminate();
    gathering.links();
    gathering.bearing();
    gathering.surfaces();
    gathering.frictions()?;
    gathering.resistances();
    gathering.motion();
    gathering.sizes();
    gathering.freed()
}

impl Gathering<'_> {
    fn form(&self, id: QuantityId) -> Option<Form> {
        if let Some(value) = self.solved.value(id) {
            return Some(Form::of(value));
        }
        if let Some(found) = self.solutions.get(&id) {
            return Some(found.clone());
        }
        let in_pool = self.solved.equations.iter().any(|e| e.quantities().contains(&id));
        in_pool.then(|| Form { terms: BTreeMap::from([(id, Value::one())]), constant: Value::zero() })
    }

    /// `greater − smaller ≥ 0`.
    fn push(
        &mut self,
        says: String,
        about: Option<About>,
        quantity: Option<QuantityId>,
        sides: [Form; 2],
        strict: bool,
    ) {
        let [smaller, greater] = sides;
        let bound = Bound {
            says,
            about,
            quantity,
            smaller: smaller.constant.clone(),
            greater: greater.constant.clone(),
            strict,
        };
        let mut gap = greater;
        gap.add(&-Value::one(), &smaller);
        self.found.push((bound, gap));
    }

    /// What has no value, in terms of as little as may be: the frictions stay, the tensions go.
    fn eliminate(&mut self) {
        let wanted = |e: &&Equation| match e.law {
            Law::Motion => e.system.len() == 1,
            Law::Balance | Law::Together(_) => true,
            _ => false,
        };
        let mut rows: Vec<Form> =
            self.solved.equations.iter().filter(wanted).filter_map(|e| self.row(e)).collect();
        let frictions: BTreeSet<QuantityId> = self
            .situation
            .stage(self.solved.stage)
            .map(|s| s.frictions.iter().flatten().copied().collect())
            .unwrap_or_default();
        while let Some(row) = rows.pop() {
            let pick = row.terms.iter().min_by_key(|(id, _)| frictions.contains(id));
            let Some((&id, coefficient)) = pick else { continue };
            let Ok(factor) = (-Value::one()).checked_div(coefficient) else { continue };
            let mut rest = row.clone();
            rest.terms.remove(&id);
            let mut solution = Form::of(&Value::zero());
            solution.add(&factor, &rest);
            let put_in = |form: &mut Form| {
                if let Some(times) = form.terms.remove(&id) {
                    form.add(&times, &solution);
                }
            };
            rows.iter_mut().for_each(put_in);
            self.solutions.values_mut().for_each(put_in);
            self.solutions.insert(id, solution);
        }
    }
    /// An equation as a form that is nought; `None` if it has no unknown, or is not linear in them.
    fn row(&self, equation: &Equation) -> Option<Form> {
        let mut form = Form::of(&Value::zero());
        let sides = equation.left.iter().map(|t| (1, t)).chain(equation.right.iter().map(|t| (-1, t)));
        for (side, term) in sides {
            let mut product = Value::from_int(i64::from(side * term.sign));
            let mut unknown = None;
            for factor in &term.factors {
                match factor {
                    Factor::Number(n) => product *= Value::from(n),
                    Factor::Quantity(q) => match self.solved.value(*q) {
                        Some(value) => product *= value,
                        None if unknown.is_none() => unknown = Some(*q),
                        None => return None,
                    },
                    Factor::Sin(q) => product *= self.angle(*q)?.0,
                    Factor::Cos(q) => product *= self.angle(*q)?.1,
                }
            }
            let add = match unknown {
                Some(q) => Form { terms: BTreeMap::from([(q, Value::one())]), constant: Value::zero() },
                None => Form::of(&Value::one()),
            };
            form.add(&product, &add);
        }
        (!form.terms.is_empty()).then_some(form)
    }
    fn angle(&self, id: QuantityId) -> Option<(Value, Value)> {
        let angle = self.situation.angles.get(&id).or_else(|| self.solved.angles.get(&id))?;
        angle.sin().ok().zip(angle.cos().ok())
    }

    fn links(&mut self) {
        let Some(stage) = self.situation.stage(self.solved.stage) else { return };
        for (i, link) in self.situation.links.iter().enumerate() {
            let holds = self.solved.case.links.get(i) == Some(&LinkState::Holding);
            if !holds || link.holds == Holds::PullOrPush || stage.state == State::Jerk {
                continue;
            }
            let Some((id, force)) = stage.links.get(i).and_then(|q| Some((*q, self.form(*q)?))) else {
                continue;
            };
            let pulls = link.holds == Holds::Pull;
            let says = if pulls {
                format!("{} is taut", link.name)
            } else {
                "the bodies stay in contact".to_owned()
            };
            let about = Some(About::Link(LinkId(i)));
            self.push(says, about, Some(id), [Form::of(&Value::zero()), force], pulls);
        }
    }
    /// A link that can bear only so much bears its force: a rod either way.
    fn bearing(&mut self) {
        let Some(stage) = self.situation.stage(self.solved.stage) else { return };
        for (i, link) in self.situation.links.iter().enumerate() {
            let holds = self.solved.case.links.get(i) == Some(&LinkState::Holding);
            let Some(most) = link.bears.filter(|_| holds && stage.state != State::Jerk) else { continue };
            let (Some(id), Some(most)) = (stage.links.get(i).copied(), self.form(most)) else { continue };
            let Some(force) = self.form(id) else { continue };
            let says = format!("{} does not break", link.name);
            let about = Some(About::Bears(LinkId(i)));
            if link.holds == Holds::PullOrPush {
                let mut least = Form::of(&Value::zero());
                least.add(&-Value::one(), &most);
                self.push(says.clone(), about, Some(id), [least, force.clone()], false);
            }
            self.push(says, about, Some(id), [force, most], false);
        }
    }
    fn surfaces(&mut self) {
        let Some(stage) = self.situation.stage(self.solved.stage) else { return };
        for (i, id) in stage.reactions.iter().enumerate() {
            let Some((id, form)) = id.and_then(|q| Some((q, self.form(q)?))) else { continue };
            let name = self.situation.bodies.get(i).map_or("the body", |b| b.name.as_str());
            let says = format!("{name} stays on its surface");
            let about = Some(About::Contact(BodyId(i)));
            self.push(says, about, Some(id), [Form::of(&Value::zero()), form], false);
        }
    }
    /// Friction either way at most μR. `None` where μR is not known.
    fn frictions(&mut self) -> Option<()> {
        let stage = self.situation.stage(self.solved.stage)?;
        for (i, body) in self.situation.bodies.iter().enumerate() {
            if self.solved.case.frictions.get(i) != Some(&FrictionState::Static) {
                continue;
            }
            let Some(Grip::Rough(mu)) = body.surface.as_ref().map(|s| s.grip) else { continue };
            let (Some(reaction), Some(friction)) =
                (stage.reactions.get(i).copied().flatten(), stage.frictions.get(i).copied().flatten())
            else {
                continue;
            };
            let mut most = Form::of(&Value::zero());
            most.add(self.solved.value(mu)?, &self.form(reaction)?);
            let force = self.form(friction)?;
            let says = format!("friction can hold {} at rest", body.name);
            self.either_way(says, BodyId(i), friction, &force, &most);
        }
        Some(())
    }
    fn either_way(&mut self, says: String, body: BodyId, id: QuantityId, force: &Form, most: &Form) {
        let about = Some(About::Friction(body));
        let mut least = Form::of(&Value::zero());
        least.add(&-Value::one(), most);
        self.push(says.clone(), about, Some(id), [force.clone(), most.clone()], false);
        self.push(says, about, Some(id), [least, force.clone()], false);
    }
    /// A resistance on a body at rest is as large as needed, up to its size.
    fn resistances(&mut self) {
        let Some(stage) = self.situation.stage(self.solved.stage) else { return };
        if self.solved.case.moves {
            return;
        }
        for (i, action) in self.situation.actions.iter().enumerate() {
            if action.direction != Direction::Opposing || stage.without_actions.contains(&ActionId(i)) {
                continue;
            }
            let Some(&id) = stage.forces.get(i) else { continue };
            let Some(most) = self.situation.known(id, self.solved.part).map(Form::of) else { continue };
            let Some(force) = self.form(id) else { continue };
            let name = self.situation.body(action.on).map_or("the body", |b| b.name.as_str());
            self.either_way(format!("the resistance can hold {name} at rest"), action.on, id, &force, &most);
        }
    }
    /// What is released moves the way it is said to.
    fn motion(&mut self) {
        let Some(stage) = self.situation.stage(self.solved.stage) else { return };
        if stage.state != State::Released || !self.solved.case.moves {
            return;
        }
        let mut seen = BTreeSet::new();
        for (i, id) in self.solved.accelerations.iter().enumerate() {
            if !seen.insert(*id) {
                continue;
            }
            let Some(a) = self.form(*id) else { continue };
            let name = self.situation.bodies.get(i).map_or("the body", |b| b.name.as_str());
            let says = format!("{name} starts to move that way");
            let about = Some(About::Motion(BodyId(i)));
            self.push(says, about, Some(*id), [Form::of(&Value::zero()), a], true);
        }
    }
    /// Masses are above zero, coefficients and the like not below.
    fn sizes(&mut self) {
        let sized: Vec<(QuantityId, Value, bool, String)> = self
            .solved
            .values
            .iter()
            .filter(|(_, v)| !v.is_number())
            .filter_map(|(id, value)| {
                let quantity = self.situation.quantity(*id)?;
                let strict = matches!(quantity.kind, Kind::Mass | Kind::Number);
                let sized = strict || crate::attempt::is_size(quantity.kind) || quantity.known.is_some();
                let name = quantity.name.strip_prefix("the ").unwrap_or(&quantity.name);
                sized.then(|| (*id, value.clone(), strict, format!("the {name} is not negative")))
            })
            .collect();
        for (id, value, strict, says) in sized {
            let says = if strict { says.replace("is not negative", "is more than nothing") } else { says };
            self.push(says, None, Some(id), [Form::of(&Value::zero()), Form::of(&value)], strict);
        }
    }

    /// The inequalities without unknowns, and what those with unknowns leave of them.
    fn freed(mut self) -> Option<Vec<Bound>> {
        while let Some(id) = self.found.iter().find_map(|(_, f)| f.terms.keys().next().copied()) {
            let (with, mut without): (Vec<_>, Vec<_>) =
                std::mem::take(&mut self.found).into_iter().partition(|(_, f)| f.terms.contains_key(&id));
            let (mut lower, mut upper) = (Vec::new(), Vec::new());
            for (bound, form) in with {
                let coefficient = form.terms.get(&id)?.clone();
                match sign_with_positive_letters(&coefficient)? {
                    Sign::Positive => lower.push((bound, form, coefficient)),
                    Sign::Negative => upper.push((bound, form, -coefficient)),
                    Sign::Zero => without.push((bound, form)),
                }
            }
            for (one, low, a) in &lower {
                for (two, high, b) in &upper {
                    // b·low + a·high has no such unknown.
                    let mut sum = Form::of(&Value::zero());
                    sum.add(b, low);
                    sum.add(a, high);
                    sum.terms.remove(&id);
                    let says = if one.says == two.says {
                        one.says.clone()
                    } else {
                        format!("{} while {}", one.says, two.says)
                    };
                    let bound = Bound {
                        says,
                        about: None,
                        quantity: None,
                        smaller: Value::zero(),
                        greater: sum.constant.clone(),
                        strict: one.strict || two.strict,
                    };
                    without.push((bound, sum));
                }
            }
            if without.len() > MOST {
                return None;
            }
            self.found = without;
        }
        Some(self.found.into_iter().map(|(bound, _)| bound).collect())
    }
}
