//! Gathers the forces of a stage: weights, reactions, frictions, link forces and named actions.

use crate::setting::{Setting, whole};
use crate::stack::{self, Top};
use crate::{Factor, Force, ForceId, ForceKind, Share};
use model::{ActionId, Body, BodyId, Direction, Grip, Line, LinkId};

/// All forces that act in the stage. Friction, and forces that oppose the motion, point in the
/// negative sense of the line until a trial [turns](against) them.
pub(crate) fn gather(setting: &Setting) -> Vec<Force> {
    let mut list = List { forces: Vec::new() };
    for (i, body) in setting.situation.bodies.iter().enumerate() {
        weight(setting, &mut list, BodyId(i), body);
        surface(setting, &mut list, BodyId(i), body);
    }
    for (id, link) in setting.situation.links_in(setting.id) {
        link_forces(setting, &mut list, id, link);
    }
    for (id, action) in setting.situation.actions_in(setting.id) {
        action_force(setting, &mut list, id, action);
    }
    if setting.is_jerk() {
        crate::jerk::impulses_only(&mut list.forces);
    }
    list.forces
}

struct List {
    forces: Vec<Force>,
}

impl List {
    fn push(
        &mut self,
        on: BodyId,
        kind: ForceKind,
        name: String,
        size: Vec<Factor>,
        along: Share,
        across: Share,
    ) {
        let id = ForceId(self.forces.len());
        self.forces.push(Force {
            id,
            on,
            kind,
            name,
            size,
            along,
            across,
            thrust: false,
            partner: None,
            span: None,
        });
    }
    /// The partner of the last force, by Newton's third law: as large, the other way, on another body.
    fn reversed(&mut self, on: BodyId, name: String) {
        let id = ForceId(self.forces.len());
        let Some(last) = self.forces.last_mut() else { return };
        last.partner = Some(id);
        let (along, across) = (opposite(last.along), opposite(last.across));
        let partner = Some(last.id);
        let other = Force { id, on, name, along, across, partner, ..last.clone() };
        self.forces.push(other);
    }
    fn last_span(&mut self, span: Option<model::Span>) {
        if let Some(force) = self.forces.last_mut() {
            force.span = span;
        }
    }
}

fn weight(setting: &Setting, list: &mut List, id: BodyId, body: &Body) {
    let Some(gravity) = setting.situation.gravity else { return };
    if setting.is_light(id.0) {
        return;
    }
    let (along, across) = match body.line {
        Line::Level => (Share::None, Share::All(-1)),
        Line::Vertical => (Share::All(-1), Share::None),
        Line::Slope { angle, .. } => (Share::Sin(-1, angle), Share::Cos(-1, angle)),
    };
    let size = vec![Factor::Quantity(body.mass), Factor::Quantity(gravity)];
    list.push(id, ForceKind::Weight, format!("weight of {}", body.name), size, along, across);
    list.last_span(body.span);
}

fn surface(setting: &Setting, list: &mut List, id: BodyId, body: &Body) {
    let upright = body.line == Line::Vertical;
    let on = body.surface.as_ref();
    let span = on.and_then(|s| s.span);
    let below = stack::under(setting, id.0).map(BodyId);
    let lower = below.and_then(|b| setting.situation.body(b)).map_or("", |b| b.name.as_str());
    let reaction = setting.stage.reactions.get(id.0).copied().flatten();
    // A body on a vertical line may lie on a floor of which nothing was said before.
    let lies = on.is_some() || upright && setting.is_held(id.0);
    if let (Some(reaction), true) = (reaction, lies) {
        let (along, across) =
            if upright { (Share::All(1), Share::None) } else { (Share::None, Share::All(1)) };
        let name = setting.name(reaction).to_owned();
        list.push(id, ForceKind::Reaction, name, vec![Factor::Quantity(reaction)], along, across);
        list.last_span(span);
        if let Some(below) = below {
            let name = format!("push of {} on {lower}", body.name);
            list.reversed(below, name);
        }
    }
    let rough = on.is_some_and(|s| matches!(s.grip, Grip::Rough(_))) && !upright;
    // A hand that holds a body takes the place of the friction of the ground.
    let held = setting.is_held(id.0) && below.is_none();
    let friction = setting.stage.frictions.get(id.0).copied().flatten();
    if let (true, Some(friction)) = (rough && !held, friction) {
        let name = setting.name(friction).to_owned();
        let size = vec![Factor::Quantity(friction)];
        list.push(id, ForceKind::Friction, name, size, Share::All(-1), Share::None);
        list.last_span(span);
        if let Some(below) = below {
            let name = format!("friction of {} on {lower}", body.name);
            list.reversed(below, name);
        }
    }
}

fn link_forces(setting: &Setting, list: &mut List, id: LinkId, link: &model::Link) {
    let Some(&tension) = setting.stage.links.get(id.0) else { return };
    let first = list.forces.len();
    for end in &link.ends {
        let mut size = vec![Factor::Quantity(tension)];
        if end.times > 1 {
            size.insert(0, Factor::Number(whole(i64::from(end.times))));
        }
        let name = setting.name(tension).to_owned();
        list.push(end.body, ForceKind::Link(id), name, size, Share::All(end.sense), Share::None);
        list.last_span(link.span);
    }
    // A push between two bodies is a pair of Newton's third law; the ends of a string pull on the string.
    if let (true, [one, other]) = (link.is_contact, list.forces.get_mut(first..).unwrap_or_default()) {
        one.partner = Some(other.id);
        other.partner = Some(one.id);
    }
}

fn action_force(setting: &Setting, list: &mut List, id: ActionId, action: &model::Action) {
    let Some(&size) = setting.stage.forces.get(id.0) else { return };
    let upright = setting.situation.body(action.on).is_some_and(|b| b.line == Line::Vertical);
    let (along, across) = match action.direction {
        Direction::Along(sense) => (Share::All(sense), Share::None),
        Direction::Opposing => (Share::All(-1), Share::None),
        Direction::At { sense, angle, lifts } => {
            let across = if upright { Share::None } else { Share::Sin(if lifts { 1 } else { -1 }, angle) };
            (Share::Cos(sense, angle), across)
        }
    };
    let name = action.name.strip_prefix("the ").unwrap_or(&action.name).to_owned();
    list.push(action.on, ForceKind::Action(id), name, vec![Factor::Quantity(size)], along, across);
    list.last_span(action.span);
}

/// Does this force oppose the motion of its body as such, not the slipping over another body?
pub(crate) fn opposes_motion(setting: &Setting, force: &Force) -> bool {
    opposes(setting, force) && (force.kind != ForceKind::Friction || force.partner.is_none())
}

/// Does this force turn with the motion: friction, or a resistance that opposes it?
pub(crate) fn opposes(setting: &Setting, force: &Force) -> bool {
    match force.kind {
        ForceKind::Friction => true,
        ForceKind::Action(id) => {
            setting.situation.action(id).is_some_and(|a| a.direction == Direction::Opposing)
        }
        _ => false,
    }
}

/// Points opposing forces against these senses of motion, by body, and friction against the sliding: that
/// of a body over what it stands on, in the same senses but for the tops that slide otherwise.
pub(crate) fn against(setting: &Setting, forces: &mut [Force], senses: &[i8], tops: &[Top]) {
    let owners: Vec<usize> = forces.iter().map(|f| stack::owner(forces, f)).collect();
    for (force, owner) in forces.iter_mut().zip(owners) {
        if !opposes(setting, force) {
            continue;
        }
        let slides = match force.kind {
            ForceKind::Friction => tops.get(owner).and_then(|t| t.sense()),
            _ => None,
        };
        let sense = slides.or(senses.get(owner).copied()).unwrap_or(1);
        force.along = Share::All(if stack::is_on_lower(force) { sense } else { -sense });
    }
}

/// The same share the other way.
pub(crate) fn opposite(share: Share) -> Share {
    match share {
        Share::None => Share::None,
        Share::All(s) => Share::All(-s),
        Share::Sin(s, angle) => Share::Sin(-s, angle),
        Share::Cos(s, angle) => Share::Cos(-s, angle),
    }
}
