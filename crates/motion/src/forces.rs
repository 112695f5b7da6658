//! Gathers the forces of a stage: weights, reactions, frictions, link forces and named actions.

use crate::setting::{Setting, whole};
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
    fn last_span(&mut self, span: Option<model::Span>) {
        if let Some(force) = self.forces.last_mut() {
            force.span = span;
        }
    }
}

fn weight(setting: &Setting, list: &mut List, id: BodyId, body: &Body) {
    let Some(gravity) = setting.situation.gravity else { return };
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
    let Some(surface) = &body.surface else { return };
    let upright = body.line == Line::Vertical;
    if let Some(reaction) = setting.stage.reactions.get(id.0).copied().flatten() {
        let (along, across) =
            if upright { (Share::All(1), Share::None) } else { (Share::None, Share::All(1)) };
        let name = setting.name(reaction).to_owned();
        list.push(id, ForceKind::Reaction, name, vec![Factor::Quantity(reaction)], along, across);
        list.last_span(surface.span);
    }
    let rough = matches!(surface.grip, Grip::Rough(_)) && !upright;
    if let (true, Some(friction)) = (rough, setting.stage.frictions.get(id.0).copied().flatten()) {
        let name = setting.name(friction).to_owned();
        let size = vec![Factor::Quantity(friction)];
        list.push(id, ForceKind::Friction, name, size, Share::All(-1), Share::None);
        list.last_span(surface.span);
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

/// Points friction and opposing forces against these senses of motion.
pub(crate) fn against(setting: &Setting, forces: &mut [Force], senses: &[i8]) {
    for force in forces {
        if opposes(setting, force) {
            let sense = senses.get(force.on.0).copied().unwrap_or(1);
            force.along = Share::All(-sense);
        }
    }
}
