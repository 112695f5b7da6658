//! Sets forces round a body (or round the ring of a system) so that none meets another: each side
//! of the box gets the forces that point its way, fanned out in the order of their directions, and the box grows
//! until there is room for all of them.

use crate::drawing::*;
use crate::geometry::{Point, at};
use crate::label::Acceleration;
use crate::text::Text;

/// The type size of force labels.
pub(crate) const FORCE_SIZE: f64 = 17.0;
/// The type size of angles.
const ANGLE_SIZE: f64 = 14.0;
/// Between an arrow's point and its label.
const TO_LABEL: f64 = 5.0;
/// Between neighbouring labels.
const APART: f64 = 6.0;
/// The least distance between the feet of two arrows.
const FEET: f64 = 22.0;

/// A force to be drawn.
#[derive(Clone, Debug)]
pub(crate) struct Push {
    /// Its group: `force-3`.
    pub(crate) group: String,
    /// Its direction on the page.
    pub(crate) way: Point,
    pub(crate) label: Text,
    pub(crate) length: f64,
    pub(crate) pen: Pen,
    pub(crate) head: Head,
    /// Where on the box its body is, from the middle of the box.
    pub(crate) home: Point,
}

/// The box that the forces act on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Core {
    pub(crate) centre: Point,
    /// Along the box; points to the right or straight up.
    pub(crate) u: Point,
    pub(crate) half_width: f64,
    pub(crate) half_height: f64,
    pub(crate) round: f64,
}

/// Half the room that a label takes up in a direction.
fn reach(label: &Text, way: Point) -> f64 {
    let half = at(label.width(FORCE_SIZE) / 2.0, (ASCENT + DESCENT) / 2.0 * FORCE_SIZE);
    half.x * way.x.abs() + half.y * way.y.abs()
}

/// A force with its place along one side of the box.
struct Slot {
    push: usize,
    along: f64,
}

/// The four sides: outward direction, and the axis along the side.
fn sides(u: Point) -> [(Point, Point); 4] {
    let n = u.left();
    [(u, n), (n, -u), (-u, -n), (-n, u)]
}

/// Grows the box until its forces have room; then says where each force starts.
pub(crate) fn arrange(core: &mut Core, pushes: &[Push]) -> Vec<Point> {
    let mut starts = vec![core.centre; pushes.len()];
    let mut placed: Vec<(Point, Point, Vec<Slot>)> = Vec::new();
    for (side, (out, axis)) in sides(core.u).into_iter().enumerate() {
        let mut slots: Vec<Slot> = Vec::new();
        for (i, push) in pushes.iter().enumerate() {
            if side_of(core.u, push.way) == side {
                slots.push(Slot { push: i, along: exit(core, push, out, axis) });
            }
        }
        let lean = |slot: &Slot| pushes.get(slot.push).map_or(0.0, |p| p.way.dot(axis).atan2(p.way.dot(out)));
        slots.sort_by(|a, b| {
            let by_lean = (lean(a) * 1e4).round().total_cmp(&(lean(b) * 1e4).round());
            by_lean.then(a.along.total_cmp(&b.along)).then(a.push.cmp(&b.push))
        });
        spread(&mut slots, pushes, axis);
        let edge = if slots.len() > 1 { 13.0 } else { 0.0 };
        let need = slots.iter().map(|s| s.along.abs() + edge).fold(0.0, f64::max);
        if side % 2 == 0 {
            core.half_height = core.half_height.max(need);
        } else {
            core.half_width = core.half_width.max(need);
        }
        placed.push((out, axis, slots));
    }
    for (side, (out, axis, slots)) in placed.iter().enumerate() {
        let (depth, breadth) = if side % 2 == 0 {
            (core.half_width, core.half_height)
        } else {
            (core.half_height, core.half_width)
        };
        for slot in slots {
            // Round corners draw the outline in.
            let into = (slot.along.abs() - (breadth - core.round)).max(0.0).min(core.round);
            let inset = core.round - (core.round * core.round - into * into).max(0.0).sqrt();
            if let Some(start) = starts.get_mut(slot.push) {
                *start = core.centre + *out * (depth - inset) + *axis * slot.along;
            }
        }
    }
    starts
}

/// Where the line of a force through the middle of its body meets this side of the box.
fn exit(core: &Core, push: &Push, out: Point, axis: Point) -> f64 {
    let (ahead, aside) = (push.way.dot(out), push.way.dot(axis));
    let half = |d: Point| if d.dot(core.u).abs() > 0.5 { core.half_width } else { core.half_height };
    let (depth, breadth) = (half(out), half(axis));
    if core.round + 0.1 > depth.max(breadth) {
        return push.home.dot(axis) + core.round * aside;
    }
    let run = (depth - push.home.dot(out)) * aside / ahead.max(0.1);
    let room = (breadth - 6.0).max(0.0);
    (push.home.dot(axis) + run).clamp(-room, room)
}

/// The side of a box along `u` that a direction leaves by: 0 front, then anticlockwise.
fn side_of(u: Point, way: Point) -> usize {
    let (ahead, left) = (way.dot(u), way.dot(u.left()));
    if ahead.abs() + 1e-6 >= left.abs() {
        if ahead >= 0.0 { 0 } else { 2 }
    } else if left > 0.0 {
        1
    } else {
        3
    }
}

/// Moves the slots of one side apart, as little as need be, keeping their order and their middle.
fn spread(slots: &mut [Slot], pushes: &[Push], axis: Point) {
    let wanted: f64 = slots.iter().map(|s| s.along).sum();
    let mut last: Option<(usize, f64)> = None;
    for slot in slots.iter_mut() {
        if let Some((before, reached)) = last {
            let gap = match (pushes.get(before), pushes.get(slot.push)) {
                (Some(a), Some(b)) => room_between(a, b, axis),
                _ => FEET,
            };
            slot.along = slot.along.max(reached + gap);
        }
        last = Some((slot.push, slot.along));
    }
    let got: f64 = slots.iter().map(|s| s.along).sum();
    let count = slots.len().max(1);
    let back = (got - wanted) / f64::from(u32::try_from(count).unwrap_or(u32::MAX));
    slots.iter_mut().for_each(|s| s.along -= back);
}

fn room_between(a: &Push, b: &Push, axis: Point) -> f64 {
    let same_way = a.way.dot(b.way) > 0.999;
    if !same_way {
        return FEET;
    }
    let across = a.way.left();
    let lean = across.dot(axis).abs().max(0.3);
    ((reach(&a.label, across) + reach(&b.label, across) + APART) / lean).max(FEET)
}

/// Draws the arrows from their starting points, then the labels where there is room.
pub(crate) fn draw(drawing: &mut Drawing, pushes: &[Push], starts: &[Point]) {
    for (push, &from) in pushes.iter().zip(starts) {
        let to = from + push.way * push.length;
        drawing.add(&push.group, push.pen, Mark::Arrow { from, to, head: push.head });
    }
    for (push, &from) in pushes.iter().zip(starts) {
        let tip = from + push.way * push.length;
        let side = push.way.left();
        let set = |middle: Point| Label::centred(push.label.clone(), middle, FORCE_SIZE);
        let beyond = tip + push.way * (reach(&push.label, push.way) + TO_LABEL);
        let beside = reach(&push.label, side) + TO_LABEL + 4.0;
        let places = [
            set(beyond).away_from(push.way),
            set(tip + side * beside - push.way * 6.0),
            set(tip - side * beside - push.way * 6.0),
            set(from + push.way * (push.length * 0.6) + side * beside),
            set(from + push.way * (push.length * 0.6) - side * beside),
            set(beyond + push.way * 14.0),
        ];
        drawing.place(&push.group, set(beyond), &places, tip);
    }
}

/// On which side of a box a short arrow is tried first. For what moves vertically, above means to the right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Prefer {
    /// As near as it can be, on either side.
    Either,
    Above,
    Below,
}

/// Draws the acceleration beside the box, parallel to `line`, where nothing else is.
pub(crate) fn accelerate(
    drawing: &mut Drawing,
    group: &str,
    core: Core,
    line: Point,
    a: &Acceleration,
    prefer: Prefer,
) {
    let (from, to, label) = beside(drawing, core, line * a.sense, &a.text, prefer);
    drawing.add(group, Pen { width: 1.5, ..OUTLINE }, Mark::DoubleArrow { from, to });
    drawing.write(group, label);
}

/// Room for a short arrow with its words, near the box but clear of all else.
pub(crate) fn beside(
    drawing: &Drawing,
    core: Core,
    way: Point,
    text: &Text,
    prefer: Prefer,
) -> (Point, Point, Label) {
    let upright = way.x.abs() < 0.01;
    let across = if upright { at(1.0, 0.0) } else { at(-way.left().x, -way.left().y) };
    let across = if across.y > 0.0 { -across } else { across };
    let half = |axis: Point| {
        core.half_width * core.u.dot(axis).abs() + core.half_height * core.u.left().dot(axis).abs()
    };
    let (depth, breadth) = (half(across), half(way));
    let rounds: &[&[f64]] = match prefer {
        Prefer::Either => &[&[1.0, -1.0]],
        Prefer::Above => &[&[1.0], &[-1.0]],
        Prefer::Below => &[&[-1.0], &[1.0]],
    };
    let tries = rounds.iter().flat_map(|sides| {
        (0..14).flat_map(move |row| {
            (0..24).flat_map(move |step| sides.iter().map(move |side| (f64::from(row), step, *side)))
        })
    });
    let mut tries = tries.map(|(row, step, side)| {
        // To and fro from the middle, the way of the arrow first.
        let shift = f64::from((step + 1) / 2) * if step % 2 == 1 { 12.0 } else { -12.0 };
        let middle = core.centre + across * (side * (depth + 20.0 + 12.0 * row)) + way * shift;
        short_arrow(middle, way, text)
    });
    let clear = tries.find(|(from, to, label)| {
        let u = way.left() * 5.0;
        let shaft = [*from + u, *to + u, *to - u, *from - u];
        drawing.is_free(&shaft, 4.0) && drawing.is_free(&label.corners(), 4.0)
    });
    clear.unwrap_or_else(|| {
        let above = drawing.bounds().low.y - 26.0;
        short_arrow(at(core.centre.x, above - breadth * way.y.abs()), way, text)
    })
}

/// Marks the angle between a force and a line, if there is room: a dashed piece of the line, an arc and the size.
pub(crate) fn mark_angle(
    drawing: &mut Drawing,
    group: &str,
    corner: Point,
    way: Point,
    line: Point,
    text: Text,
) {
    let half = at(text.width(ANGLE_SIZE) / 2.0, (ASCENT + DESCENT) / 2.0 * ANGLE_SIZE);
    let (one, two) = (way.angle(), line.angle());
    // The short way round.
    let mut turn = (one - two).rem_euclid(std::f64::consts::TAU);
    if turn > std::f64::consts::PI {
        turn -= std::f64::consts::TAU;
    }
    let size = turn.abs().max(0.1);
    let middle_way = Point::towards(two + turn / 2.0);
    let across = middle_way.left();
    // Clear of both lines by three pixels.
    let room = |side: Point| half.x * side.x.abs() + half.y * side.y.abs() + 3.0;
    let breadth = room(way.left()).max(room(line.left()));
    let depth = half.x * middle_way.x.abs() + half.y * middle_way.y.abs();
    let near = (breadth / (size / 2.0).sin()).max(24.0 + depth);
    let radius = (near - depth - 2.0).clamp(16.0, 40.0);
    let reach = (near + depth + 8.0).min(90.0);
    let ray = [corner + line * 3.0, corner + line * reach];
    let label = Label::centred(text.clone(), corner + middle_way * near, ANGLE_SIZE);
    // A narrow angle has its size on the far side of the line.
    let beyond = corner + line * (radius + 2.0) - across * (turn.signum() * (breadth + 4.0));
    let beside = Label::centred(text, beyond, ANGLE_SIZE);
    let fits = near < 68.0 && drawing.is_free(&label.corners(), 1.5);
    let label = if fits { label } else { beside };
    let clear_ray = [corner + line * 12.0, corner + line * reach];
    if !drawing.is_free(&clear_ray, 2.0) || !drawing.is_free(&label.corners(), 2.0) {
        return;
    }
    let dashed = Pen { dash: Some("3 3"), ..FINE };
    let [from, to] = ray;
    drawing.add(group, dashed, Mark::Line { from, to });
    let (start, end) = if turn > 0.0 { (two, two + turn) } else { (two + turn, two) };
    drawing.add_hollow(group, FINE, Mark::Arc { centre: corner, radius, start, end });
    drawing.write(group, label);
}

/// A short arrow about a point, with its label beyond its head.
fn short_arrow(middle: Point, way: Point, text: &Text) -> (Point, Point, Label) {
    let (from, to) = (middle - way * 22.0, middle + way * 22.0);
    let label = to + way * (reach(text, way) + TO_LABEL + 1.0);
    (from, to, Label::centred(text.clone(), label, FORCE_SIZE).away_from(way))
}
