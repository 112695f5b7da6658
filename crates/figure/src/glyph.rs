//! What each form of body looks like in the scene, and how much room it takes, loads on it included.

use crate::chain::Plan;
use crate::drawing::*;
use crate::geometry::{Point, corners};
use crate::label;
use crate::text::Text;
use model::{BodyId, Form, Situation};

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

/// The width of a person whose words stand elsewhere.
const ALONE: f64 = 22.0;

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
    let Some(b) = situation.body(body) else {
        let (name, mass) = (Text::default(), Text::default());
        return Glyph { shape: Shape::Block, name, mass, length: 52.0, height: 44.0 };
    };
    let name = Text::upright(Text::cut(&b.label, 8.0));
    let mass = label::mass(situation, body, part);
    let words = name.width(NAME).max(mass.width(MASS));
    let carries = !plan.riders_of(body).is_empty();
    let (shape, length, height) = match b.form {
        Form::Lift => (Shape::Cage, (words + 24.0).max(74.0), 78.0),
        Form::Particle if name.width(NAME) <= 25.0 && !carries => (Shape::Disc, 36.0, 36.0),
        Form::Particle | Form::Block => (Shape::Block, (words + 18.0).max(54.0), 44.0),
        Form::Pulley => (Shape::Disc, 36.0, 36.0),
        Form::Load => (Shape::Load, (words + 18.0).max(50.0), 46.0),
        Form::Vehicle => (Shape::Vehicle, (words + 46.0).max(98.0), 56.0),
        Form::Trailer => (Shape::Trailer, (words + 20.0).max(78.0), 52.0),
        // A passenger's words stand beside it; one who pulls or is pulled needs that room for the rope.
        Form::Person if plan.carried_by.contains_key(&body) => (Shape::Person, 28.0 + words, 54.0),
        Form::Person => (Shape::Person, ALONE, 54.0),
    };
    Glyph { shape, name, mass, length, height }
}

/// The length and height of a body with all that stands on or in it.
pub(crate) fn extent(
    situation: &Situation,
    plan: &Plan,
    body: BodyId,
    part: usize,
    depth: usize,
) -> (f64, f64) {
    let own = glyph(situation, plan, body, part);
    let riders = plan.riders_of(body);
    if riders.is_empty() || depth > DEEPEST {
        return (own.length, own.height);
    }
    let (mut length, mut height) = (0.0, 0.0f64);
    for rider in riders.iter().take(MOST_RIDERS) {
        let (l, h) = extent(situation, plan, *rider, part, depth + 1);
        length += l + BETWEEN;
        height = height.max(h);
    }
    length -= BETWEEN;
    match own.shape {
        Shape::Cage => (own.length.max(length + 28.0), own.height.max(height + 22.0)),
        _ => (own.length.max(length), own.height + height),
    }
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
    let own = glyph(situation, plan, body, part);
    let riders = plan.riders_of(body);
    let (length, height) = match own.shape {
        Shape::Cage => extent(situation, plan, body, part, depth),
        _ => (own.length, own.height),
    };
    let group = format!("body-{}", body.0);
    let carries = !riders.is_empty() && depth <= DEEPEST;
    draw(&mut cast.drawing, &group, own.shape, stand, length, height);
    let centre = stand.foot + stand.n * (height / 2.0);
    let outside = words(&mut cast.drawing, &group, &own, stand, length, carries);
    let (half_length, half_height) = (length / 2.0, height / 2.0);
    cast.spots.push(Spot { body, shape: own.shape, centre, u: stand.u, half_length, half_height, outside });
    if !carries {
        return;
    }
    let shown: Vec<(BodyId, f64)> = riders
        .iter()
        .take(MOST_RIDERS)
        .map(|r| (*r, extent(situation, plan, *r, part, depth + 1).0))
        .collect();
    let total: f64 = shown.iter().map(|(_, l)| l + BETWEEN).sum::<f64>() - BETWEEN;
    let floor = if own.shape == Shape::Cage { 5.0 } else { height };
    let mut from = -total / 2.0;
    for (rider, long) in shown {
        let foot = stand.foot + stand.n * floor + stand.u * (from + long / 2.0);
        put(cast, situation, plan, rider, part, Stand { foot, ..stand }, depth + 1);
        from += long + BETWEEN;
    }
}

/// The outline.
fn draw(drawing: &mut Drawing, group: &str, shape: Shape, stand: Stand, length: f64, height: f64) {
    let Stand { foot, u, n, facing } = stand;
    let point = |along: f64, up: f64| foot + u * (along * facing) + n * up;
    let centre = foot + n * (height / 2.0);
    let (half_width, half_height) = (length / 2.0, height / 2.0);
    let boxed = |round: f64| Mark::Box { centre, u, half_width, half_height, round, fill: Some(PAPER) };
    match shape {
        Shape::Disc => {
            drawing.add(group, OUTLINE, Mark::Circle { centre, radius: half_width, fill: Some(PAPER) });
        }
        Shape::Block => drawing.add(group, OUTLINE, boxed(1.5)),
        Shape::Load => drawing.add(group, OUTLINE, boxed(9.0)),
        Shape::Trailer | Shape::Vehicle => {
            let top = height;
            let points = if shape == Shape::Vehicle {
                // A hull with its bonnet in front.
                let front = half_width;
                vec![
                    point(-front, 10.0),
                    point(-front, top),
                    point(front - 26.0, top),
                    point(front - 20.0, 34.0),
                    point(front - 3.0, 30.0),
                    point(front, 26.0),
                    point(front, 10.0),
                ]
            } else {
                vec![
                    point(-half_width, 10.0),
                    point(-half_width, top),
                    point(half_width, top),
                    point(half_width, 10.0),
                ]
            };
            drawing.add(group, OUTLINE, Mark::Path { points, fill: Some(PAPER) });
            for along in [-0.5, 0.5] {
                let centre = foot + u * (along * (length - 34.0)) + n * 7.0;
                drawing.add(group, OUTLINE, Mark::Circle { centre, radius: 7.0, fill: Some(PAPER) });
                drawing.add(group, OUTLINE, Mark::Circle { centre, radius: 1.5, fill: Some(INK) });
            }
        }
        Shape::Person => {
            // Drawn at the left of its cell; its words stand beside it.
            let at = |along: f64, up: f64| foot + u * (along - half_width + 11.0) + n * up;
            drawing.add(
                group,
                OUTLINE,
                Mark::Circle { centre: at(0.0, 46.5), radius: 6.5, fill: Some(PAPER) },
            );
            let coat = vec![at(-9.0, 20.0), at(-6.0, 38.0), at(6.0, 38.0), at(9.0, 20.0)];
            drawing.add(group, OUTLINE, Mark::Path { points: coat, fill: Some(PAPER) });
            drawing.line(group, OUTLINE, at(-4.0, 20.0), at(-4.0, 1.0));
            drawing.line(group, OUTLINE, at(4.0, 20.0), at(4.0, 1.0));
        }
        Shape::Cage => {
            drawing.add_hollow(
                group,
                OUTLINE,
                Mark::Box { centre, u, half_width, half_height, round: 2.0, fill: Some(PAPER) },
            );
            let [right, left, ..] = corners(foot + n * 2.5, u, half_width, 2.5);
            drawing.line(group, OUTLINE, left, right);
        }
    }
}

/// Writes name and mass inside where there is room; gives back what must go beside the body.
fn words(
    drawing: &mut Drawing,
    group: &str,
    own: &Glyph,
    stand: Stand,
    length: f64,
    carries: bool,
) -> Option<Text> {
    let Stand { foot, u, n, facing } = stand;
    let turn = u.angle();
    let mut two = |middle: Point| {
        drawing.write(group, Label::turned(own.name.clone(), middle + n * 8.0, NAME, turn));
        drawing.write(group, Label::turned(own.mass.clone(), middle - n * 8.5, MASS, turn));
    };
    match own.shape {
        Shape::Disc => {
            let centre = foot + n * (own.height / 2.0);
            drawing.write(group, Label::centred(own.name.clone(), centre, NAME));
            return Some(own.mass.clone());
        }
        Shape::Cage if carries => {
            let both = own.name.clone().then(Text::upright(", ")).then(own.mass.clone());
            return Some(both);
        }
        Shape::Cage | Shape::Block | Shape::Load => two(foot + n * (own.height / 2.0)),
        Shape::Trailer => two(foot + n * 32.0),
        Shape::Vehicle => two(foot + n * 34.0 - u * (12.0 * facing)),
        Shape::Person if length <= ALONE => {
            return Some(own.name.clone().then(Text::upright(", ")).then(own.mass.clone()));
        }
        Shape::Person => {
            two(foot + n * 28.0 + u * (length / 2.0 - own.name.width(NAME).max(own.mass.width(MASS)) / 2.0))
        }
    }
    None
}
