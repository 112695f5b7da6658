//! What bodies stand on and strings run over: ground, table, wedge, ceiling, pulleys.

use crate::drawing::*;
use crate::frame::Frame;
use crate::geometry::{Point, at};
use crate::text::Text;

/// Type size of remarks on surfaces and of angles.
pub(crate) const REMARK: f64 = 14.0;

/// Level ground with hatching under it.
pub(crate) fn ground(drawing: &mut Drawing, from: Point, to: Point) {
    drawing.line("ground", OUTLINE, from, to);
    drawing.add("ground", FINE, Mark::Hatch { from, to, side: at(0.0, 1.0) });
}

/// A wall from its foot to its top, with hatching behind it, away from those who come this way.
pub(crate) fn wall(drawing: &mut Drawing, foot: Point, top: Point, way: Point) {
    drawing.line("wall", OUTLINE, foot, top);
    drawing.add("wall", FINE, Mark::Hatch { from: foot, to: top, side: way });
}

/// A ceiling with hatching over it.
pub(crate) fn ceiling(drawing: &mut Drawing, middle: Point, half: f64) {
    let (from, to) = (middle - at(half, 0.0), middle + at(half, 0.0));
    drawing.line("ceiling", OUTLINE, from, to);
    drawing.add("ceiling", FINE, Mark::Hatch { from: to, to: from, side: at(0.0, -1.0) });
}

/// A table from its left to its right edge, its legs down to the floor.
pub(crate) fn table(drawing: &mut Drawing, left: f64, right: f64, top: f64, floor: f64) {
    let slab = 10.0;
    let centre = at((left + right) / 2.0, top + slab / 2.0);
    let half_width = (right - left) / 2.0;
    for x in [left + 16.0, right - 16.0] {
        let centre = at(x, (top + slab + floor) / 2.0);
        let half_height = ((floor - top - slab) / 2.0).max(1.0);
        let leg = Mark::Box {
            centre,
            u: at(1.0, 0.0),
            half_width: 4.0,
            half_height,
            round: 0.0,
            fill: Some(STONE),
        };
        drawing.add("table", FINE, leg);
    }
    let top = Mark::Box {
        centre,
        u: at(1.0, 0.0),
        half_width,
        half_height: slab / 2.0,
        round: 0.0,
        fill: Some(STONE),
    };
    drawing.add("table", OUTLINE, top);
}

/// The solid under a slope, from its low to its high end, down to `base`; `face` says whether it ends at the
/// high end with a wall.
pub(crate) fn wedge(drawing: &mut Drawing, low: Point, high: Point, base: f64, face: bool) {
    let mut points = vec![low, high, at(high.x, base)];
    if base > low.y + 0.5 {
        points.push(at(low.x, base));
    }
    drawing.add_hollow("slope", Pen { width: 0.0, ..FINE }, Mark::Path { points, fill: Some(STONE) });
    drawing.line("slope", OUTLINE, low, high);
    drawing.line("slope", FINE, at(low.x, base), at(high.x, base));
    if face {
        drawing.line("slope", OUTLINE, high, at(high.x, base));
    }
    if base > low.y + 0.5 {
        drawing.line("slope", OUTLINE, low, at(low.x, base));
    }
}

/// How far along the level from the low end of a slope the letters of its angle begin and end: as near the
/// corner as they find room between the two lines.
fn angle_span(frame: Frame, text: &Text) -> (f64, f64) {
    let rise = frame.u.x.abs().clamp(0.1, 1.0).acos();
    let width = text.width(REMARK);
    let near = (REMARK * (ASCENT + DESCENT) + 8.0) / rise.tan().max(0.1) + width / 2.0;
    // The letters keep off the arc.
    let near = if near < ARC_LEAST + 4.0 { near + 8.0 } else { near };
    (near, near + width)
}

/// The least run of a slope, along the level, that has room for the size of its angle.
pub(crate) fn angle_run(frame: Frame, text: &Text) -> f64 {
    angle_span(frame, text).1 + 12.0
}

/// The least radius of the arc that marks a slope's angle.
const ARC_LEAST: f64 = 24.0;

/// The angle at the low end of a slope, with its size or letter. The slope must be as long as [`angle_run`] asks.
pub(crate) fn slope_angle(drawing: &mut Drawing, low: Point, frame: Frame, text: Text) {
    let level = at(if frame.u.x < 0.0 { -1.0 } else { 1.0 }, 0.0);
    let (start, end) = (level.angle(), frame.u.angle());
    let (start, end) = if frame.u.x < 0.0 { (end, start.abs()) } else { (start, end) };
    let (near, far) = angle_span(frame, &text);
    let middle = low + level * ((near + far) / 2.0) - at(0.0, REMARK * 0.5 + 3.0);
    let radius = (near - 8.0).clamp(ARC_LEAST, 90.0);
    drawing.add("angle", FINE, Mark::Arc { centre: low, radius, start, end });
    drawing.line("angle", FINE, low, low + level * (far + 6.0));
    drawing.write("angle", Label::centred(text, middle, REMARK));
}

/// A fixed pulley on its bracket.
pub(crate) fn pulley(drawing: &mut Drawing, group: &str, centre: Point, radius: f64, held_at: Point) {
    drawing.line(group, Pen { width: 3.0, ..OUTLINE }, centre, held_at);
    drawing.add(group, OUTLINE, Mark::Circle { centre, radius, fill: Some(PAPER) });
    drawing.add(group, OUTLINE, Mark::Circle { centre, radius: 2.0, fill: Some(INK) });
}
