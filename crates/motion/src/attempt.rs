//! One attempt: supposes what holds, what rests and which way the rest moves, solves, and looks
//! whether the inequalities agree.

use crate::finish::TOO_LONG;
use crate::general::Branch;
use crate::groups::Groups;
use crate::lower::{Unknown, Unknowns};
use crate::setting::{Setting, signed};
use crate::stack::{self, Top};
use crate::system::{Names, System};
use crate::write::{Writer, places};
use crate::{Condition, Equation, Force, ForceKind, FrictionState, LinkState, forces};
use exact::{Angle, Value};
use model::{ActionId, BodyId, Kind, LinkId, QuantityId, State};
use std::collections::BTreeMap;

/// How a group of bodies moves, by supposition.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Mode {
    /// At rest, friction as much as needed.
    Rest,
    /// At rest, friction at its limit.
    Limiting,
    /// At constant speed.
    Steady,
    /// Moving, with whatever acceleration.
    Sliding,
}

/// What one attempt supposes.
#[derive(Clone, Debug)]
pub(crate) struct Trial {
    pub(crate) links: Vec<LinkState>,
    /// By body: what the top does on which it stands.
    pub(crate) tops: Vec<Top>,
    pub(crate) groups: Groups,
    /// By group.
    pub(crate) modes: Vec<Mode>,
    /// By body: the direction of motion, or of the tendency to move.
    pub(crate) senses: Vec<i8>,
    /// By group: is the direction supposed, and so to be borne out by the acceleration?
    pub(crate) supposed: Vec<bool>,
    /// Is it known that forces within their bounds can do what is supposed?
    pub(crate) feasible: bool,
}

impl Trial {
    pub(crate) fn mode(&self, body: usize) -> Mode {
        self.modes.get(self.groups.group(body)).copied().unwrap_or(Mode::Sliding)
    }
    pub(crate) fn sense(&self, body: usize) -> i8 {
        self.senses.get(body).copied().unwrap_or(1)
    }
    pub(crate) fn top(&self, body: usize) -> Top {
        self.tops.get(body).copied().unwrap_or(Top::Free)
    }
    pub(crate) fn is_supposed(&self, body: usize) -> bool {
        self.supposed.get(self.groups.group(body)).copied().unwrap_or(false)
    }
    /// By body: is it known not to accelerate?
    pub(crate) fn still(&self) -> Vec<bool> {
        (0..self.groups.of.len()).map(|b| self.mode(b) != Mode::Sliding).collect()
    }
}

/// An attempt whose equations and inequalities hold.
#[derive(Clone, Debug)]
pub(crate) struct Accepted {
    pub(crate) trial: Trial,
    pub(crate) frictions: Vec<FrictionState>,
    /// Values in the orientation of the trial.
    pub(crate) values: BTreeMap<QuantityId, Value>,
    /// Angles found.
    pub(crate) angles: BTreeMap<QuantityId, Angle>,
    pub(crate) conditions: Vec<Condition>,
    /// Was an inequality left open because something it needs is not known?
    pub(crate) open: bool,
    /// Was something left open because the expressions became too long?
    pub(crate) too_long: bool,
}

/// Why an attempt fails.
#[derive(Clone, Debug)]
pub(crate) struct Rejected {
    /// Which inequality fails, or which equation cannot hold, in words.
    pub(crate) says: String,
    /// Do the equations themselves clash, before any inequality is looked at?
    pub(crate) clash: bool,
    /// What the inequalities that fail would have otherwise.
    pub(crate) switches: Vec<Switch>,
    /// Was the search given up before it had seen every case?
    pub(crate) given_up: bool,
    /// Does an angle depend on letters, in a way that cannot be followed?
    pub(crate) in_letters: bool,
}

/// Something to suppose otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Switch {
    /// A string that would have to push goes slack, a contact that would have to pull parts.
    Loosen(LinkId),
    /// A link that its ends would pull on holds.
    Hold(LinkId),
    /// A body slips this way over the one it stands on.
    Slip(BodyId, i8),
    /// A body sticks to the one it stands on.
    Stick(BodyId),
}

impl Rejected {
    pub(crate) fn clash(says: impl Into<String>) -> Rejected {
        Rejected { says: says.into(), clash: true, switches: Vec::new(), given_up: false, in_letters: false }
    }
    /// Too much would have to be written to tell.
    pub(crate) fn too_long() -> Rejected {
        Rejected { given_up: true, ..Rejected::clash(TOO_LONG) }
    }
    /// An inequality fails.
    pub(crate) fn failed(says: impl Into<String>) -> Rejected {
        Rejected { clash: false, ..Rejected::clash(says) }
    }
}

/// The arithmetic of one attempt.
pub(crate) struct Arithmetic<'a> {
    pub(crate) setting: &'a Setting<'a>,
    pub(crate) forces: &'a [Force],
    pub(crate) trial: &'a Trial,
    places: Vec<Vec<usize>>,
    pub(crate) frictions: Vec<FrictionState>,
    pub(crate) known: Vec<Option<Value>>,
    /// Opposing forces on bodies at rest, with the size up to which they hold.
    pub(crate) limits: Vec<(ActionId, QuantityId, Value)>,
}

/// Tries a supposition; all ways in which it can hold.
///
/// # Errors
/// Why it cannot.
pub(crate) fn attempt(
    setting: &Setting,
    forces: &mut [Force],
    trial: &Trial,
) -> Result<Vec<Accepted>, Rejected> {
    forces::against(setting, forces, &trial.senses, &trial.tops);
    let arithmetic = Arithmetic::new(setting, forces, trial)?;
    let branches = arithmetic.solve()?;
    let mut accepted = Vec::new();
    let mut rejected = None;
    for branch in branches {
        match arithmetic.judge(branch) {
            Ok(found) => accepted.push(found),
            Err(why) => rejected = Some(why),
        }
    }
    match rejected {
        Some(why) if accepted.is_empty() => Err(why),
        _ => {
            leave_out_idle(setting, &mut accepted);
            Ok(accepted)
        }
    }
}

/// Where a time that is asked for may be nought or later, nought is the start itself: "until the string is
/// taut again".
pub(crate) fn leave_out_idle(setting: &Setting, accepted: &mut Vec<Accepted>) {
    for time in setting.stage.journeys.iter().map(|j| j.time).filter(|t| setting.value(*t).is_none()) {
        let idle = |one: &Accepted| one.values.get(&time).is_some_and(Value::is_zero);
        if accepted.iter().any(|one| one.values.contains_key(&time) && !idle(one)) {
            accepted.retain(|one| !idle(one));
        }
    }
}

impl<'a> Arithmetic<'a> {
    pub(crate) fn new(
        setting: &'a Setting<'a>,
        forces: &'a [Force],
        trial: &'a Trial,
    ) -> Result<Arithmetic<'a>, Rejected> {
        let mut frictions = vec![FrictionState::NoFriction; setting.bodies()];
        let rubs = |f: &&Force| f.kind == ForceKind::Friction && !stack::is_on_lower(f);
        for force in forces.iter().filter(rubs) {
            let body = force.on.0;
            let limiting = setting.stage.state == State::Limiting || setting.is_about_to_slip(body);
            let state = match (trial.top(body), trial.mode(body)) {
                (Top::Slips(_) | Top::Slides(_), _) => FrictionState::Sliding,
                (Top::Limit(_), _) => FrictionState::Limiting,
                (Top::Sticks | Top::Rides, _) => FrictionState::Static,
                (Top::Free, Mode::Limiting) if limiting => FrictionState::Limiting,
                (Top::Free, Mode::Rest | Mode::Limiting) => FrictionState::Static,
                (Top::Free, Mode::Steady | Mode::Sliding) => FrictionState::Sliding,
            };
            if let Some(slot) = frictions.get_mut(body) {
                *slot = state;
            }
        }
        let known = setting.known.clone();
        let places = places(setting.bodies(), forces);
        let mut this = Arithmetic { setting, forces, trial, places, frictions, known, limits: Vec::new() };
        this.accelerations()?;
        this.absent_forces()?;
        this.resting_resistances();
        Ok(this)
    }

    fn set(&mut self, id: QuantityId, value: Value) {
        if let Some(slot) = self.known.get_mut(id.0) {
            *slot = Some(value);
        }
    }
    fn known(&self, id: QuantityId) -> Option<&Value> {
        self.known.get(id.0)?.as_ref()
    }

    /// Orients the accelerations that are given; bodies that do not accelerate have none.
    fn accelerations(&mut self) -> Result<(), Rejected> {
        for (body, &id) in self.setting.stage.accelerations.iter().enumerate() {
            let shared = self.trial.groups.shared(body);
            let Some(&stands_for) = self.setting.stage.accelerations.get(shared) else { continue };
            let given = self.setting.value(id).map(|v| signed(self.trial.sense(body), v));
            let still = self.trial.mode(body) != Mode::Sliding;
            if let Some(given) = &given {
                if still && !given.is_zero() {
                    let name = self.setting.body_name(body);
                    return Err(Rejected::clash(format!(
                        "{name} would have to keep its speed and yet accelerate"
                    )));
                }
                if stands_for != id && self.setting.value(stands_for).is_some() {
                    let other = self.known(stands_for).cloned().unwrap_or_else(Value::zero);
                    if !(&other - given).is_zero() {
                        let (one, two) = (self.setting.body_name(shared), self.setting.body_name(body));
                        return Err(Rejected::clash(format!(
                            "{one} and {two} move together but are given different accelerations"
                        )));
                    }
                }
            }
            if still {
                self.set(stands_for, Value::zero());
            } else if let Some(given) = given {
                self.set(stands_for, given);
            }
        }
        Ok(())
    }

    /// A slack string does not pull; a body that leaves the ground is not held by it.
    fn absent_forces(&mut self) -> Result<(), Rejected> {
        for (i, &id) in self.setting.stage.links.iter().enumerate() {
            if self.trial.links.get(i) == Some(&LinkState::Holding) {
                continue;
            }
            if self.setting.value(id).is_some_and(|v| !v.is_zero()) {
                let name = self.setting.situation.link(LinkId(i)).map_or("the string", |l| &l.name);
                return Err(Rejected::clash(format!("{name} is given a force though it does not hold")));
            }
            self.set(id, Value::zero());
        }
        for (body, id) in self.setting.stage.reactions.iter().enumerate() {
            let upright =
                self.setting.situation.body(BodyId(body)).is_some_and(|b| b.line == model::Line::Vertical);
            let carried = self.trial.top(body) == Top::Rides;
            if let (true, Some(id), Mode::Sliding | Mode::Steady) =
                (upright && !carried, id, self.trial.mode(body))
                && self.known(*id).is_none()
            {
                self.set(*id, Value::zero());
            }
        }
        Ok(())
    }

    /// A resistance on a body at rest is as large as needed, up to its size.
    fn resting_resistances(&mut self) {
        for force in self.forces {
            let ForceKind::Action(action) = force.kind else { continue };
            let rests = self.trial.mode(force.on.0) == Mode::Rest && !self.setting.is_held(force.on.0);
            if !forces::opposes(self.setting, force) || !rests {
                continue;
            }
            let Some(&id) = self.setting.stage.forces.get(action.0) else { continue };
            if let Some(limit) = self.known.get_mut(id.0).and_then(Option::take) {
                self.limits.push((action, id, limit));
            }
        }
    }

    pub(crate) fn writer<'b>(&'b self, still: &'b [bool]) -> Writer<'b> {
        Writer {
            setting: self.setting,
            forces: self.forces,
            places: &self.places,
            groups: &self.trial.groups,
            senses: &self.trial.senses,
            links: &self.trial.links,
            frictions: &self.frictions,
            still,
        }
    }

    /// The equations that fix the rest: one of motion for each body, and all others.
    pub(crate) fn equations(&self) -> Vec<Equation> {
        let still = self.trial.still();
        let writer = self.writer(&still);
        if self.setting.is_jerk() {
            return writer.jerk();
        }
        let mut equations = Vec::new();
        for body in 0..self.setting.bodies() {
            if self.setting.has_motion(body) {
                equations.push(writer.motion(&[body]));
            }
            equations.extend(writer.balance(body));
            equations.extend(writer.friction(body));
        }
        equations.extend(self.trial.groups.explicit.iter().filter_map(|id| writer.together(*id)));
        equations.extend(self.setting.stage.journeys.iter().flat_map(|j| writer.journey(j)));
        equations
    }

    /// This stage alone.
    fn solve(&self) -> Result<Vec<Branch>, Rejected> {
        let equations = self.equations();
        let mut system = System::default();
        self.lower(&equations, 0, &mut system);
        let unknowns = Unknowns { setting: self.setting, known: &self.known };
        let still = self.trial.still();
        let writer = self.writer(&still);
        for (i, _) in self.facts() {
            system.fact(&unknowns, &writer, i, equations.len() + i);
        }
        system.general.extend(self.unknown_angles());
        let names = Names { unknowns, by_symbol: unknowns.by_symbol() };
        system.solve(&names).map_err(|clash| {
            if clash.given_up {
                return Rejected::too_long();
            }
            let mut says = self.broken(&equations, clash.tag);
            if let Some(because) = clash.because {
                says = format!("{says}: {because}");
            }
            Rejected::clash(says)
        })
    }

    /// Adds equations of this stage to those to be solved, numbered from `first`.
    pub(crate) fn lower(&self, equations: &[Equation], first: usize, system: &mut System) {
        let unknowns = Unknowns { setting: self.setting, known: &self.known };
        for (i, equation) in equations.iter().enumerate() {
            system.add(unknowns.lower(equation, first + i));
        }
    }

    /// The given facts that hold by now.
    pub(crate) fn facts(&self) -> impl Iterator<Item = (usize, &'a model::Relation)> + use<'a> {
        let part = self.setting.part;
        self.setting.situation.relations.iter().enumerate().filter(move |(_, r)| r.from_part <= part)
    }

    /// sin² + cos² = 1 for every angle that is not known.
    pub(crate) fn unknown_angles(&self) -> Vec<(Value, usize)> {
        let unknowns = Unknowns { setting: self.setting, known: &self.known };
        let n = self.setting.situation.quantities.len();
        (0..n)
            .filter(|i| {
                self.setting.kind(QuantityId(*i)) == Kind::Angle
                    && self.setting.sin_cos(QuantityId(*i)).is_none()
            })
            .map(|i| {
                let (s, c) =
                    (Value::symbol(&unknowns.symbol(n + i)), Value::symbol(&unknowns.symbol(2 * n + i)));
                (&s * &s + &c * &c - Value::one(), usize::MAX)
            })
            .collect()
    }

    /// An equation that cannot hold, in words.
    pub(crate) fn broken(&self, equations: &[Equation], tag: usize) -> String {
        use crate::Law;
        let Some(equation) = equations.get(tag) else {
            let fact = tag.checked_sub(equations.len()).and_then(|i| self.setting.situation.relations.get(i));
            return fact.map_or_else(
                || "the givens do not agree with each other".to_owned(),
                |r| format!("{} does not agree with the other givens", r.name),
            );
        };
        let body = equation.system.first().map_or("the body", |b| self.setting.body_name(b.0));
        match equation.law {
            Law::Motion if self.setting.stage.state == State::Moving => {
                format!(
                    "the forces on {body} do not give the acceleration that follows from the other givens"
                )
            }
            Law::Motion => format!("the forces on {body} do not agree with its motion"),
            Law::Impulse => format!("the impulse on {body} does not agree with its change of momentum"),
            Law::Balance => format!("the forces on {body} across its line do not balance"),
            Law::Friction => format!("friction on {body} does not agree with μR"),
            Law::Together(_) => "bodies that move together would part".to_owned(),
            Law::Journey(_) => {
                format!("the speeds, distance and time of {body} do not agree with each other")
            }
            Law::Fact(_) | Law::PulleyForce(_) => "the givens do not agree with each other".to_owned(),
        }
    }

    /// The values that a branch fixes, knowns included, in the orientation of the trial.
    pub(crate) fn values(&self, branch: &Branch) -> BTreeMap<QuantityId, Value> {
        let unknowns = Unknowns { setting: self.setting, known: &self.known };
        let mut values = BTreeMap::new();
        for (i, value) in self.known.iter().enumerate() {
            let Some(value) = value else { continue };
            let mut value = value.clone();
            if !value.is_number() {
                for (unknown, found) in &branch.values {
                    let symbol = unknowns.symbol(*unknown);
                    value = value.substitute(&symbol, found).unwrap_or(value);
                }
            }
            values.insert(QuantityId(i), value);
        }
        for (unknown, value) in &branch.values {
            if let Unknown::Quantity(id) = unknowns.what(*unknown) {
                values.insert(id, value.clone());
            }
        }
        self.give_shares(&mut values);
        values
    }

    /// The angles that a branch fixes.
    pub(crate) fn angles(&self, branch: &Branch) -> BTreeMap<QuantityId, Angle> {
        let unknowns = Unknowns { setting: self.setting, known: &self.known };
        let sine = |(unknown, value): (&usize, &Value)| match unknowns.what(*unknown) {
            Unknown::Sin(id) => Some((id, Angle::Sin(value.clone()))),
            _ => None,
        };
        branch.values.iter().filter_map(sine).collect()
    }

    /// Bodies that share an acceleration all have its value, each in its own sense.
    fn give_shares(&self, values: &mut BTreeMap<QuantityId, Value>) {
        for (body, id) in self.setting.stage.accelerations.iter().enumerate() {
            let stands_for = self.setting.stage.accelerations.get(self.trial.groups.shared(body));
            match stands_for.and_then(|s| values.get(s)).cloned() {
                Some(value) => values.insert(*id, value),
                None => values.remove(id),
            };
        }
    }
}

/// Is this sort of quantity never below zero?
pub(crate) fn is_size(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Mass
            | Kind::Coefficient
            | Kind::Resistance
            | Kind::Speed
            | Kind::Distance
            | Kind::Time
            | Kind::Gravity
    )
}
