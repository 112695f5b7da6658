//! The motion of bodies of which everything is known, without trying cases: Gauss's principle of least
//! constraint (Gauss, *Über ein neues allgemeines Grundgesetz der Mechanik*, 1829).
//!
//! Every string, contact and rough surface has a force within bounds: a tension is not negative, friction lies
//! between −μR and μR. Of all such forces the true ones give accelerations a for which Σ ½ma² is least. That is
//! found by walking from face to face of the box of bounds, each face lower than the last, so that the walk
//! ends; it needs no guess and does not grow like the number of cases. The accelerations are unique even where
//! the forces are not.

use crate::setting::{Setting, signed};
use crate::sparse::{self, Row};
use crate::{Factor, Force, ForceKind, Share, forces, stack};
use exact::{Sign, Value};
use model::{Holds, LinkId, QuantityId};

/// What an opposing force, of which the greatest size is known, does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Opposes {
    /// As much as needed, either way.
    Within,
    /// All of it, in this sense of the line of its body.
    Fully(i8),
}

/// What the principle is asked about.
pub(crate) struct Question<'a> {
    pub(crate) setting: &'a Setting<'a>,
    pub(crate) forces: &'a [Force],
    /// The value of a quantity.
    pub(crate) value: &'a dyn Fn(QuantityId) -> Option<Value>,
    /// Is this link there, holding or not?
    pub(crate) link: &'a dyn Fn(LinkId) -> bool,
    /// What this friction or resistance does.
    pub(crate) opposes: &'a dyn Fn(&Force) -> Opposes,
    /// The coefficient of friction that counts for this body.
    pub(crate) coefficient: &'a dyn Fn(usize) -> Option<QuantityId>,
    /// The greatest size of this resistance.
    pub(crate) resistance: &'a dyn Fn(&Force) -> Option<Value>,
}

/// The motion that is found.
#[derive(Clone, Debug)]
pub(crate) struct Least {
    /// By body, along its line; `None` for a light pulley on slack strings.
    pub(crate) accelerations: Vec<Option<Value>>,
    /// By link: do its ends stay together? `None` where there is no link.
    pub(crate) together: Vec<Option<bool>>,
}

/// A force within bounds: which bodies it acts on, how many times, and what it is.
struct Contact {
    on: Vec<(usize, Value)>,
    low: Option<Value>,
    high: Option<Value>,
    links: Vec<LinkId>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum At {
    Inside,
    Low,
    High,
}

/// The motion; `None` where something is not a known number, or where a body would lift off.
pub(crate) fn least(question: &Question) -> Option<Least> {
    let mut walk = Walk::new(question)?;
    walk.join_at_light_bodies(question.setting)?;
    walk.run()?;
    let setting = question.setting;
    let mut together = vec![None; setting.situation.links.len()];
    for contact in &walk.contacts {
        let gap = walk.gap(contact);
        let stays = gap.sign().ok()? == Sign::Zero;
        for link in &contact.links {
            if let Some(slot) = together.get_mut(link.0) {
                *slot = Some(stays);
            }
        }
    }
    let accelerations = (0..setting.bodies())
        .map(|b| if setting.is_light(b) { None } else { walk.accelerations.get(b).cloned() })
        .collect();
    Some(Least { accelerations, together })
}

struct Walk {
    masses: Vec<Value>,
    /// By body: does it take part, not being held and having a mass?
    moves: Vec<bool>,
    drives: Vec<Value>,
    contacts: Vec<Contact>,
    forces: Vec<Value>,
    at: Vec<At>,
    accelerations: Vec<Value>,
}

impl Walk {
    fn new(question: &Question) -> Option<Walk> {
        let setting = question.setting;
        let n = setting.bodies();
        let mut masses = Vec::with_capacity(n);
        for body in &setting.situation.bodies {
            masses.push((question.value)(body.mass).filter(Value::is_number)?);
        }
        let moves = (0..n).map(|b| !setting.is_held(b) && !setting.is_light(b)).collect();
        let mut walk = Walk {
            masses,
            moves,
            drives: vec![Value::zero(); n],
            contacts: Vec::new(),
            forces: Vec::new(),
            at: Vec::new(),
            accelerations: vec![Value::zero(); n],
        };
        let reactions = reactions(question)?;
        for force in question.forces {
            walk.take(question, force, &reactions)?;
        }
        for (i, link) in setting.situation.links.iter().enumerate() {
            if !(question.link)(LinkId(i)) {
                continue;
            }
            let low = (link.holds != Holds::PullOrPush).then(Value::zero);
            let on = link.ends.iter().map(|e| (e.body.0, i64::from(e.sense) * i64::from(e.times)));
            let on = on.map(|(b, times)| (b, Value::from_int(times))).collect();
            walk.contact(setting, on, low, None, vec![LinkId(i)]);
        }
        Some(walk)
    }

    fn contact(
        &mut self,
        setting: &Setting,
        mut on: Vec<(usize, Value)>,
        low: Option<Value>,
        high: Option<Value>,
        links: Vec<LinkId>,
    ) {
        on.retain(|(b, _)| !setting.is_held(*b));
        self.contacts.push(Contact { on, low, high, links });
    }

    fn push(&mut self, body: usize, force: Value) {
        if let Some(drive) = self.drives.get_mut(body) {
            *drive += force;
        }
    }

    /// Counts a force among the drives or the contacts.
    fn take(&mut self, question: &Question, force: &Force, reactions: &[Value]) -> Option<()> {
        let setting = question.setting;
        let on = force.on.0;
        match force.kind {
            ForceKind::Link(_) => {}
            ForceKind::Friction if stack::is_on_lower(force) => {}
            ForceKind::Friction => {
                let mu = (question.value)((question.coefficient)(on)?)?;
                let most = (mu * reactions.get(on)?).checked().ok()?;
                self.opposing(question, force, most);
            }
            ForceKind::Action(_) if forces::opposes(setting, force) => {
                let most = (question.resistance)(force)?;
                self.opposing(question, force, most);
            }
            // The floor under a body on a vertical line pushes upwards; a body on another rides on it.
            ForceKind::Reaction if force.along != Share::None => {
                if let Some(under) = stack::under(setting, on).filter(|_| !stack::is_on_lower(force)) {
                    let pair = vec![(on, Value::one()), (under, -Value::one())];
                    self.contact(setting, pair, None, None, Vec::new());
                } else if !stack::is_on_lower(force) && (question.opposes)(force) == Opposes::Within {
                    self.contact(setting, vec![(on, Value::one())], Some(Value::zero()), None, Vec::new());
                }
            }
            ForceKind::Reaction => {}
            ForceKind::Weight | ForceKind::Action(_) => {
                if let Some(value) = share(question, force, force.along)? {
                    self.push(on, value);
                }
            }
        }
        Some(())
    }

    /// A friction or resistance of at most this size.
    fn opposing(&mut self, question: &Question, force: &Force, most: Value) {
        let setting = question.setting;
        let on = force.on.0;
        let below = (force.kind == ForceKind::Friction).then(|| stack::under(setting, on)).flatten();
        match (question.opposes)(force) {
            Opposes::Fully(sense) => {
                let size = signed(sense, &most);
                if let Some(below) = below {
                    self.push(below, -&size);
                }
                self.push(on, size);
            }
            Opposes::Within => {
                let mut pair = vec![(on, Value::one())];
                pair.extend(below.map(|b| (b, -Value::one())));
                self.contact(setting, pair, Some(-&most), Some(most), Vec::new());
            }
        }
    }

    /// A light pulley feels no force in all: of the two strings that meet at it, one decides the other.
    fn join_at_light_bodies(&mut self, setting: &Setting) -> Option<()> {
        for body in (0..setting.bodies()).filter(|b| setting.is_light(*b) && !setting.is_held(*b)) {
            if !self.drives.get(body)?.is_zero() {
                return None;
            }
            let touching =
                |c: &Contact| c.on.iter().find(|(b, _)| *b == body).map(|(_, times)| times.clone());
            let (near, mut far): (Vec<Contact>, Vec<Contact>) =
                std::mem::take(&mut self.contacts).into_iter().partition(|c| touching(c).is_some());
            let [one, other] = near.as_slice() else { return None };
            // one × T₁ + other × T₂ = 0
            let ratio = (-touching(other)?).checked_div(&touching(one)?).ok()?;
            if ratio.sign().ok()? != Sign::Positive || one.high.is_some() || other.high.is_some() {
                return None;
            }
            let mut on = other.on.clone();
            for (b, times) in &one.on {
                let times = times * &ratio;
                match on.iter_mut().find(|(at, _)| at == b) {
                    Some((_, sum)) => *sum += times,
                    None => on.push((*b, times)),
                }
            }
            on.retain(|(_, times)| !times.is_zero());
            let low = one.low.clone().or(other.low.clone());
            let links = one.links.iter().chain(&other.links).copied().collect();
            far.push(Contact { on, low, high: None, links });
            self.contacts = far;
        }
        Some(())
    }

    fn gap(&self, contact: &Contact) -> Value {
        contact.on.iter().filter_map(|(b, times)| Some(self.accelerations.get(*b)? * times)).sum()
    }

    /// Walks to the lowest point.
    fn run(&mut self) -> Option<()> {
        let n = self.contacts.len();
        self.forces = vec![Value::zero(); n];
        self.at = vec![At::Inside; n];
        // Every round either leaves a face for a lower one or drops a contact from the face.
        for _ in 0..200 + 40 * n {
            let (accelerations, target) = self.lowest_on_face()?;
            if self.step_towards(&target)? {
                continue;
            }
            self.accelerations = accelerations;
            match self.way_down()? {
                Some(contact) => *self.at.get_mut(contact)? = At::Inside,
                None => return Some(()),
            }
        }
        None
    }

    /// The accelerations and the forces at the lowest point of the face on which the walk stands.
    fn lowest_on_face(&self) -> Option<(Vec<Value>, Vec<Value>)> {
        let bodies = self.masses.len();
        let mut rows: Vec<Row<Value>> = Vec::new();
        let mut place = vec![None; bodies];
        for body in (0..bodies).filter(|b| self.moves.get(*b) == Some(&true)) {
            let mut row = Row::new(body);
            row.add(body, self.masses.get(body)?.clone());
            row.constant = self.drives.get(body).map(|d| -d)?;
            *place.get_mut(body)? = Some(rows.len());
            rows.push(row);
        }
        for (c, contact) in self.contacts.iter().enumerate() {
            let inside = self.at.get(c) == Some(&At::Inside);
            let mut kept = Row::new(bodies + c);
            for (body, times) in &contact.on {
                let Some(Some(at)) = place.get(*body) else { continue };
                let row = rows.get_mut(*at)?;
                if inside {
                    row.add(bodies + c, -times);
                    kept.add(*body, times.clone());
                } else {
                    row.constant = &row.constant - times * self.forces.get(c)?;
                }
            }
            if !kept.terms.is_empty() {
                rows.push(kept);
            }
        }
        loop {
            let found = sparse::solve(rows.clone()).ok()?;
            let mut accelerations = vec![Value::zero(); bodies];
            let mut target = self.forces.clone();
            let mut settled = vec![false; self.contacts.len()];
            for (unknown, value) in found.fixed {
                if unknown < bodies {
                    *accelerations.get_mut(unknown)? = value;
                } else {
                    *target.get_mut(unknown - bodies)? = value;
                    *settled.get_mut(unknown - bodies)? = true;
                }
            }
            // Forces that share a load in no certain way: one of them stays as it is.
            let unsettled = found.left.iter().flat_map(|r| &r.terms).map(|t| t.0);
            let open = unsettled.filter(|u| *u >= bodies).find(|u| settled.get(*u - bodies) == Some(&false));
            let Some(unknown) = open else { return Some((accelerations, target)) };
            let mut stays = Row::new(unknown);
            stays.add(unknown, Value::one());
            stays.constant = self.forces.get(unknown - bodies).map(|f| -f)?;
            rows.push(stays);
        }
    }

    /// Goes towards the lowest point of the face as far as the bounds allow; true if one of them stops it.
    fn step_towards(&mut self, target: &[Value]) -> Option<bool> {
        let mut shortest = Value::one();
        let mut stops: Vec<(usize, At)> = Vec::new();
        for (c, contact) in self.contacts.iter().enumerate() {
            if self.at.get(c) != Some(&At::Inside) {
                continue;
            }
            let (from, to) = (self.forces.get(c)?, target.get(c)?);
            let way = to - from;
            let (bound, side) = match way.sign().ok()? {
                Sign::Zero => continue,
                Sign::Negative => (contact.low.as_ref(), At::Low),
                Sign::Positive => (contact.high.as_ref(), At::High),
            };
            let Some(bound) = bound else { continue };
            let part = (bound - from).checked_div(&way).ok()?;
            match (&part - &shortest).sign().ok()? {
                Sign::Negative => {
                    shortest = part;
                    stops = vec![(c, side)];
                }
                Sign::Zero if !stops.is_empty() => stops.push((c, side)),
                _ => {}
            }
        }
        for (c, force) in self.forces.iter_mut().enumerate() {
            *force += (target.get(c)? - &*force) * &shortest;
        }
        for (c, side) in &stops {
            let contact = self.contacts.get(*c)?;
            let bound = if *side == At::Low { &contact.low } else { &contact.high };
            *self.forces.get_mut(*c)? = bound.clone()?;
            *self.at.get_mut(*c)? = *side;
        }
        Some(!stops.is_empty())
    }

    /// A contact at a bound from which it goes down: its ends move against the force that stands at it.
    fn way_down(&self) -> Option<Option<usize>> {
        for (c, contact) in self.contacts.iter().enumerate() {
            let against = match self.at.get(c)? {
                At::Inside => continue,
                At::Low => Sign::Negative,
                At::High => Sign::Positive,
            };
            let empty = contact.low.is_some() && contact.low == contact.high;
            if !empty && self.gap(contact).sign().ok()? == against {
                return Some(Some(c));
            }
        }
        Some(None)
    }
}

/// The normal reaction of every body's surface, the uppermost bodies first. `None` where a body would lift off.
fn reactions(question: &Question) -> Option<Vec<Value>> {
    let setting = question.setting;
    let n = setting.bodies();
    let mut found = vec![Value::zero(); n];
    let mut waiting: Vec<usize> = (0..n).collect();
    while !waiting.is_empty() {
        let lowest = |b: &usize| !waiting.iter().any(|other| stack::under(setting, *other) == Some(*b));
        let body = waiting.iter().copied().find(lowest)?;
        waiting.retain(|b| *b != body);
        let mut across = Value::zero();
        let mut supported = false;
        for force in question.forces.iter().filter(|f| f.on.0 == body) {
            match force.kind {
                ForceKind::Reaction if stack::is_on_lower(force) => {
                    let upper = stack::owner(question.forces, force);
                    if force.across != Share::None {
                        across -= found.get(upper)?;
                    }
                }
                ForceKind::Reaction => supported |= force.across != Share::None,
                _ => {
                    if let Some(value) = share(question, force, force.across)? {
                        across += value;
                    }
                }
            }
        }
        if supported {
            if across.sign().ok()? == Sign::Positive {
                return None;
            }
            *found.get_mut(body)? = -across;
        }
    }
    Some(found)
}

/// The share of a known force in one direction; the inner `None` if it has none.
fn share(question: &Question, force: &Force, share: Share) -> Option<Option<Value>> {
    let sin_cos = |id| question.setting.sin_cos(id);
    let mut value = match share {
        Share::None => return Some(None),
        Share::All(sense) => Value::from_int(i64::from(sense)),
        Share::Sin(sense, angle) => signed(sense, &sin_cos(angle)?.0),
        Share::Cos(sense, angle) => signed(sense, &sin_cos(angle)?.1),
    };
    for factor in &force.size {
        value = match factor {
            Factor::Number(r) => value * Value::rational(r.clone()),
            Factor::Quantity(id) => value * (question.value)(*id).filter(Value::is_number)?,
            Factor::Sin(_) | Factor::Cos(_) => return None,
        };
    }
    Some(Some(value))
}
