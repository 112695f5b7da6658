//! The force diagram of one body.

use crate::diagram::{self, Core, Push};
use crate::drawing::*;
use crate::figure::Figure;
use crate::frame::{self, Angles, Frame};
use crate::geometry::{Point, at};
use crate::text::Text;
use crate::{label, style, told, wording};
use model::{BodyId, Form, Line, QuantityId, Situation};
use motion::{Force, Share, Solved};

/// The shortest and the longest arrow.
const SHORTEST: f64 = 46.0;
const LONGEST: f64 = 104.0;
/// The arrow of a force whose size has no number.
const MIDDLING: f64 = 76.0;

/// The force diagram of one body: its box (a disc for a particle with a short name), every force from its edge, and
/// its acceleration beside it.
pub fn forces(situation: &Situation, solved: &Solved, body: BodyId) -> Figure {
    let angles = Angles::of(situation);
    let mut drawing = Drawing::default();
    let largest = largest(solved);
    zone(&mut drawing, situation, solved, body, &angles, largest, &|_| true);
    let name = wording::name(situation, body);
    let what = wording::what(situation, solved);
    let mut words = String::from(":");
    for force in solved.forces_on(body) {
        words.push(' ');
        words.push_str(&wording::force(situation, solved, force));
    }
    words.push_str(&wording::acceleration(situation, solved, body));
    let prefix = format!("s{}p{}-body{}-", solved.stage.0, solved.part, body.0);
    let stage = told::phrase(situation, solved.stage);
    Figure::new(drawing, &format!("{what} on {name}"), stage, &words, "", prefix)
}

/// The largest force that has a number: all arrows of a stage share one scale.
pub(crate) fn largest(solved: &Solved) -> f64 {
    solved.forces.iter().filter_map(|f| label::newtons(solved, f)).fold(0.0, f64::max)
}

/// The arrow of one force. Roots, because weights of tonnes stand beside resistances of newtons.
pub(crate) fn push(
    situation: &Situation,
    solved: &Solved,
    force: &Force,
    frame: Frame,
    angles: &Angles,
    largest: f64,
) -> Push {
    let (pen, head) = style::of(situation, force);
    let length = match label::newtons(solved, force) {
        Some(size) if largest > 0.0 => {
            SHORTEST + (LONGEST - SHORTEST) * (size / largest).clamp(0.0, 1.0).sqrt()
        }
        _ => MIDDLING,
    };
    Push {
        group: format!("force-{}", force.id.0),
        way: frame::direction(force, frame, angles),
        label: label::force(situation, solved, force),
        length,
        pen,
        head,
        home: at(0.0, 0.0),
    }
}

/// The direction of a body's box: along a slope, else level; to the right either way.
pub(crate) fn box_direction(frame: Frame, line: Line) -> Point {
    match line {
        Line::Vertical => at(1.0, 0.0),
        _ if frame.u.x < 0.0 => -frame.u,
        _ => frame.u,
    }
}

/// A body's box: just large enough for its label.
pub(crate) fn body_core(situation: &Situation, body: BodyId, frame: Frame) -> (Core, Text) {
    let (form, line, name) = match situation.body(body) {
        Some(b) => (b.form, b.line, Text::cut(&b.label, 8.0)),
        None => (Form::Block, Line::Level, String::new()),
    };
    let text = Text::upright(name);
    let width = text.width(BODY_SIZE);
    let u = box_direction(frame, line);
    let core = if form == Form::Particle && width <= 26.0 {
        Core { centre: at(0.0, 0.0), u, half_width: 18.0, half_height: 18.0, round: 18.0 }
    } else {
        Core {
            centre: at(0.0, 0.0),
            u,
            half_width: (width / 2.0 + 12.0).max(34.0),
            half_height: 22.0,
            round: 3.0,
        }
    };
    (core, text)
}

/// The type size of body labels.
pub(crate) const BODY_SIZE: f64 = 16.0;

/// Draws a body's box and its label.
pub(crate) fn draw_core(drawing: &mut Drawing, body: BodyId, core: Core, text: Text) {
    let group = format!("body-{}", body.0);
    let Core { centre, u, half_width, half_height, round } = core;
    drawing.add(&group, OUTLINE, Mark::Box { centre, u, half_width, half_height, round, fill: Some(PAPER) });
    let turn = if fits_level(core, &text) { 0.0 } else { u.angle() };
    drawing.write(&group, Label::turned(text, centre, BODY_SIZE, turn));
}

/// Does level text fit into the box?
fn fits_level(core: Core, text: &Text) -> bool {
    let label = Label::centred(text.clone(), core.centre, BODY_SIZE);
    label.corners().iter().all(|p| {
        let d = *p - core.centre;
        d.dot(core.u).abs() < core.half_width - 1.0 && d.dot(core.u.left()).abs() < core.half_height - 1.0
    })
}

/// One body with those of its forces that `wanted` lets through.
pub(crate) fn zone(
    drawing: &mut Drawing,
    situation: &Situation,
    solved: &Solved,
    body: BodyId,
    angles: &Angles,
    largest: f64,
    wanted: &dyn Fn(&Force) -> bool,
) {
    let Some(frame) = frame::body_frame(situation, body, angles, false) else { return };
    let (mut core, text) = body_core(situation, body, frame);
    let pushes: Vec<Push> = solved
        .forces_on(body)
        .filter(|f| wanted(f))
        .map(|f| push(situation, solved, f, frame, angles, largest))
        .collect();
    let starts = diagram::arrange(&mut core, &pushes);
    draw_core(drawing, body, core, text);
    diagram::draw(drawing, &pushes, &starts);
    let shown = solved.forces_on(body).filter(|f| wanted(f));
    for ((force, push), start) in shown.zip(&pushes).zip(&starts) {
        if let Some((line, angle)) = marked_angle(force, frame) {
            let text = label::angle(situation, angle);
            diagram::mark_angle(drawing, &format!("angle-{}", force.id.0), *start, push.way, line, text);
        }
    }
    if let Some(a) = label::acceleration(situation, solved, body) {
        diagram::accelerate(
            drawing,
            &format!("acceleration-{}", body.0),
            core,
            frame.u,
            &a,
            diagram::Prefer::Either,
        );
    }
}

/// The line against which the angle of a force is given, and the angle: the line of motion for a pull at an angle,
/// the perpendicular to the slope for a weight.
fn marked_angle(force: &Force, frame: Frame) -> Option<(Point, QuantityId)> {
    match (force.along, force.across) {
        (Share::Cos(s, angle), Share::Sin(..)) => Some((frame.u * f64::from(s), angle)),
        (Share::Sin(..), Share::Cos(s, angle)) => Some((frame.n * f64::from(s), angle)),
        _ => None,
    }
}
