//! What each form of body looks like in the scene, and how much room it takes, loads on it included.

use crate::chain::Plan;
use crate::drawing::*;
use crate::geometry::Point;
use crate::text::Text;
use crate::{label, outline, style};
use model::{BodyId, Form, Line, Situation};

/// Type size of names in bodies.
pub(crate) const NAME: f64 = 15.0;
/// Type size of masses.
pub(crate) const MASS: f64 = 13.0;
/// The height above a surface at which bodies are coupled.
pub(crate) const COUPLING: f64 = 18.0;
/// Loads on loads on loads: deeper than this they are not followed.
const DEEPEST: usize = 12;
/// Room between loads that stand side by side.
const BETWEEN: f64 = 10.0;
/// More loads than this on one floor are summed up.
const MOST_RIDERS: usize = 5;

/// The string on which a load hangs in a lift, or one load under another there.
const DROP: f64 = 30.0;
/// Room between loads that a string joins.
const TIED: f64 = 40.0;
/// The least radius of a pulley that moves.
const LEAST_WHEEL: f64 = 20.0;

/// Words up to this width stand clear of what joins a disc at its rim.
const DISC_WORDS: f64 = 24.0;

/// The width of a person whose words stand elsewhere.
pub(crate) const ALONE: f64 = 22.0;

/// The outline of a body.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Shape {
    Disc,
    Block,
    Load,
    Vehicle,
    Trailer,
    Person,
    Cage,
    /// A pulley that moves.
    Wheel,
}

/// A body's own words and size, without what it carries.
#[derive(Clone, Debug)]
pub(crate) struct Glyph {
    pub(crate) shape: Shape,
    pub(crate) name: Text,
    pub(crate) mass: Text,
    pub(crate) length: f64,
    pub(crate) height: f64,
}

/// Where a body stands in the scene.
#[derive(Clone, Debug)]
pub(crate) struct Spot {
    pub(crate) body: BodyId,
    pub(crate) shape: Shape,
    pub(crate) centre: Point,
    /// Along the body, to the right.
    pub(crate) u: Point,
    pub(crate) half_length: f64,
    pub(crate) half_height: f64,
    /// Words that found no room inside.
    pub(crate) outside: Option<Text>,
}

/// The glyph of a body.
pub(crate) fn glyph(situation: &Situation, plan: &Plan, body: BodyId, part: usize) -> Glyph {
    glyph_at(situation, plan, body, part, 0)
}

fn glyph_at(situation: &Situation, plan: &Plan, body: BodyId, part: usize, depth: usize) -> Glyph {
    let Some(b) = situation.body(body) else {
        let (name, mass) = (Text::default(), Text::default());
        return Glyph { shape: Shape::Block, name, mass, length: 52.0, height: 44.0 };
    };
    let name = Text::upright(Text::cut(&b.label, 8.0));
    // Of a light pulley there is no mass to tell.
    let light = b.form == Form::Pulley && situation.known(b.mass, part).is_some_and(exact::Value::is_zero);
    let mass = if light { Text::default() } else { label::mass(situation, body, part) };
    let words = name.width(NAME).max(mass.width(MASS));
    let carries = !plan.riders_of(body).is_empty();
    let (shape, length, height) = match b.form {
        Form::Lift => (Shape::Cage, (words + 24.0).max(74.0), 78.0),
        Form::Particle if name.width(NAME) <= DISC_WORDS && !carries => (Shape::Disc, 36.0, 36.0),
        Form::Particle | Form::Block => (Shape::Block, (words + 18.0).max(54.0), 44.0),
        Form::Pulley => {
            let across = 2.0 * wheel_radius(situation, plan, body, part, depth);
            (Shape::Wheel, across, across)
        }
        Form::Load => (Shape::Load, (words + 18.0).max(50.0), 46.0),
        Form::Vehicle => (Shape::Vehicle, (words + 46.0).max(98.0), 56.0),
        Form::Trailer => (Shape::Trailer, (words + 20.0).max(78.0), 52.0),
        // A passenger's words stand beside it; one who pulls or is pulled needs that room for the rope.
        Form::Person if plan.carried_by.contains_key(&body) && b.line == Line::Vertical => {
            (Shape::Person, 28.0 + words, 54.0)
        }
        Form::Person => (Shape::Person, ALONE, 54.0),
    };
    Glyph { shape, name, mass, length, height }
}

/// The radius of a pulley that moves: wide enough for what hangs from the two ends of a string over it.
fn wheel_radius(situation: &Situation, plan: &Plan, body: BodyId, part: usize, depth: usize) -> f64 {
    let mut radius = LEAST_WHEEL;
    if depth > DEEPEST {
        return radius;
    }
    for (_, ends) in &plan.over {
        if !ends.iter().any(|e| e.body == body && e.sense < 0) {
            continue;
        }
        let mut need = 16.0;
        for end in ends.iter().filter(|e| e.body != body).take(2) {
            let chain = plan.chain_of(end.body).and_then(|c| plan.chains.get(c));
            let bodies = chain.map_or(&[][..], |c| c.bodies.as_slice());
            let widths = bodies.iter().take(6).map(|b| extent(situation, plan, *b, part, depth + 4).0);
            need += widths.fold(0.0, f64::max) / 2.0;
        }
        radius = radius.max(need / 2.0);
    }
    radius
}

/// The room that hangs on both sides of a pulley that moves take up beyond it.
fn beyond_wheel(situation: &Situation, plan: &Plan, body: BodyId, part: usize, depth: usize) -> f64 {
    let over = plan.over.iter().filter(|(_, ends)| ends.iter().any(|e| e.body == body && e.sense < 0));
    let hanging = over.flat_map(|(_, ends)| ends).filter(|e| e.body != body).take(4);
    let chains = hanging.filter_map(|e| plan.chains.get(plan.chain_of(e.body)?));
    let bodies = chains.flat_map(|c| c.bodies.iter().take(6));
    bodies.map(|b| extent(situation, plan, *b, part, depth + 4).0 / 2.0).fold(0.0, f64::max)
}

/// The length and height of a body with all that stands on or in it.
pub(crate) fn extent(
    situation: &Situation,
    plan: &Plan,
    body: BodyId,
    part: usize,
    depth: usize,
) -> (f64, f64) {
    let own = glyph_at(situation, plan, body, part, depth);
    if depth > DEEPEST {
        return (own.length, own.height);
    }
    if own.shape == Shape::Wheel {
        let beyond = beyond_wheel(situation, plan, body, part, depth);
        return (own.length + 2.0 * beyond, own.height);
    }
    let columns = columns(situation, plan, body, part, depth);
    if columns.is_empty() {
        return (own.length, own.height);
    }
    let length = columns.iter().map(|c| c.before + c.length).sum::<f64>();
    let height = columns.iter().map(|c| c.height).fold(0.0, f64::max);
    match own.shape {
        Shape::Cage => (own.length.max(length + 28.0), own.height.max(height + 22.0)),
        _ => (own.length.max(length), own.height + height),
    }
}

/// What stands or hangs side by side on or in a body.
struct Column {
    /// One rider, or the bodies that hang one below the other.
    bodies: Vec<BodyId>,
    hangs: bool,
    /// Room before it.
    before: f64,
    length: f64,
    height: f64,
}

/// The columns on or in a body, from left to right; too many are summed up.
fn columns(situation: &Situation, plan: &Plan, body: BodyId, part: usize, depth: usize) -> Vec<Column> {
    let mut columns: Vec<Column> = Vec::new();
    if depth > DEEPEST {
        return columns;
    }
    let size = |b: BodyId| extent(situation, plan, b, part, depth + 1);
    for bodies in plan.hung_in(body) {
        let sizes = bodies.iter().map(|b| size(*b));
        let (length, height) = sizes.fold((0.0, 0.0), |(l, h): (f64, f64), s| (l.max(s.0), h + s.1 + DROP));
        let before = if columns.is_empty() { 0.0 } else { BETWEEN + 14.0 };
        columns.push(Column { bodies: bodies.clone(), hangs: true, before, length, height });
    }
    for &rider in plan.riders_of(body).iter().take(MOST_RIDERS) {
        let (length, height) = size(rider);
        let before = match columns.last() {
            None => 0.0,
            Some(Column { hangs: false, bodies, .. })
                if bodies.first().is_some_and(|b| plan.between(*b, rider).is_some()) =>
            {
                TIED
            }
            Some(_) => BETWEEN,
        };
        columns.push(Column { bodies: vec![rider], hangs: false, before, length, height });
    }
    columns
}

/// Where drawn bodies go: shapes, then words, then the list of places.
#[derive(Clone, Debug, Default)]
pub(crate) struct Cast {
    pub(crate) drawing: Drawing,
    pub(crate) spots: Vec<Spot>,
}

/// How a body stands: the middle of its foot, along and away from what it stands on, and which way it faces.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stand {
    pub(crate) foot: Point,
    /// To the right along the body.
    pub(crate) u: Point,
    /// Upwards from its foot.
    pub(crate) n: Point,
    /// +1 facing `u`, −1 the other way.
    pub(crate) facing: f64,
    /// +1 where `u` is the positive sense of its line, −1 where it is the other way.
    pub(crate) forward: f64,
}

/// Draws a body and all that it carries.
pub(crate) fn put(
    cast: &mut Cast,
    situation: &Situation,
    plan: &Plan,
    body: BodyId,
    part: usize,
    stand: Stand,
    depth: usize,
) {
    let own = glyph_at(situation, plan, body, part, depth);
    let (length, height) = match own.shape {
        Shape::Cage => extent(situation, plan, body, part, depth),
        // What carries others is as wide as they are.
        Shape::Block | Shape::Load | Shape::Trailer | Shape::Vehicle => {
            (extent(situation, plan, body, part, depth).0, own.height)
        }
        _ => (own.length, own.height),
    };
    let group = format!("body-{}", body.0);
    let mut columns = columns(situation, plan, body, part, depth);
    if stand.forward < 0.0 {
        // From the front to the rear, each gap now before the other neighbour.
        columns.reverse();
        let mut gap = 0.0;
        columns.iter_mut().for_each(|c| std::mem::swap(&mut c.before, &mut gap));
    }
    outline::draw(&mut cast.drawing, &group, own.shape, stand, length, height);
    let centre = stand.foot + stand.n * (height / 2.0);
    let outside = outline::words(&mut cast.drawing, &group, &own, stand, length, !columns.is_empty());
    let (half_length, half_height) = (length / 2.0, height / 2.0);
    cast.spots.push(Spot { body, shape: own.shape, centre, u: stand.u, half_length, half_height, outside });
    let total: f64 = columns.iter().map(|c| c.before + c.length).sum();
    let floor = if own.shape == Shape::Cage { 5.0 } else { height };
    let mut from = -total / 2.0;
    for column in columns {
        let middle = stand.foot + stand.u * (from + column.before + column.length / 2.0);
        from += column.before + column.length;
        let mut top = middle + stand.n * height;
        for rider in column.bodies {
            let mut foot = middle + stand.n * floor;
            if column.hangs {
                let end = top - stand.n * DROP;
                let link = plan.direct.iter().find(|d| d.1 == rider).map(|d| d.0);
                if let Some((id, link)) = link.and_then(|id| Some((id, situation.link(id)?))) {
                    let pen = style::link(plan.loose.contains(&id), link.holds);
                    cast.drawing.line(&format!("link-{}", id.0), pen, top, end);
                }
                foot = end - stand.n * extent(situation, plan, rider, part, depth + 1).1;
                top = foot;
            }
            put(cast, situation, plan, rider, part, Stand { foot, ..stand }, depth + 1);
        }
    }
}
