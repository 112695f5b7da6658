//! The outline of each form of body, and its words.

use crate::drawing::*;
use crate::geometry::{Point, corners};
use crate::glyph::{ALONE, Glyph, MASS, NAME, Shape, Stand};
use crate::text::Text;

/// The outline.
pub(crate) fn draw(drawing: &mut Drawing, group: &str, shape: Shape, stand: Stand, length: f64, height: f64) {
    let Stand { foot, u, n, facing, .. } = stand;
    let point = |along: f64, up: f64| foot + u * (along * facing) + n * up;
    let centre = foot + n * (height / 2.0);
    let (half_width, half_height) = (length / 2.0, height / 2.0);
    let boxed = |round: f64| Mark::Box { centre, u, half_width, half_height, round, fill: Some(PAPER) };
    match shape {
        Shape::Disc => {
            drawing.add(group, OUTLINE, Mark::Circle { centre, radius: half_width, fill: Some(PAPER) });
        }
        Shape::Wheel => {
            drawing.add(group, OUTLINE, Mark::Circle { centre, radius: half_width, fill: Some(PAPER) });
            drawing.add(group, OUTLINE, Mark::Circle { centre, radius: 2.0, fill: Some(INK) });
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
pub(crate) fn words(
    drawing: &mut Drawing,
    group: &str,
    own: &Glyph,
    stand: Stand,
    length: f64,
    carries: bool,
) -> Option<Text> {
    let Stand { foot, u, n, facing, .. } = stand;
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
        // The words of a wheel stand under its axle where they find room, else beside it.
        Shape::Wheel => {
            let both = match own.mass.is_empty() {
                true => own.name.clone(),
                false => own.name.clone().then(Text::upright(", ")).then(own.mass.clone()),
            };
            let centre = foot + n * (own.height / 2.0);
            let label = Label::centred(both.clone(), centre - n * 14.0, NAME);
            let inside = label.corners().iter().all(|p| (*p - centre).length() < length / 2.0 - 2.0);
            if !inside {
                return Some(both);
            }
            drawing.write(group, label);
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
