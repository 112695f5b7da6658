//! How the boxes of a system stand in their ring: one beside the other along their line, what stands on a body above it.

use crate::chain::Plan;
use crate::diagram::Core;
use crate::forces::{self, BODY_SIZE};
use crate::frame::Frame;
use crate::geometry::at;
use crate::text::Text;
use model::{BodyId, Line, Situation};

/// Between boxes one beside the other.
const GAP: f64 = 16.0;
/// Between boxes one above the other.
const STEP: f64 = 4.0;

/// A box in its place, with its words. No body: it stands for those left out of a long row.
pub(crate) type Placed = (Option<BodyId>, Core, Text);

/// Boxes about a common middle, and half of the room that they take along and across their line.
pub(crate) struct Standing {
    pub(crate) boxes: Vec<Placed>,
    pub(crate) half_length: f64,
    pub(crate) half_breadth: f64,
}

/// Stands boxes along a line; those that stand on others go above them, except on a vertical line.
pub(crate) fn stand(
    situation: &Situation,
    plan: &Plan,
    shown: &[Option<BodyId>],
    count: usize,
    frame: Frame,
) -> Standing {
    let upright = frame.u.x.abs() < 0.01;
    let whole = !upright && shown.iter().all(Option::is_some);
    let here = |b: &BodyId| shown.contains(&Some(*b));
    let mut standing = Standing { boxes: Vec::new(), half_length: 0.0, half_breadth: 0.0 };
    let (mut length, mut breadth) = (0.0, 0.0f64);
    for entry in shown {
        let carried = entry.and_then(|b| plan.carried_by.get(&b)).is_some_and(here);
        if whole && carried {
            continue;
        }
        let (long, wide) = match entry {
            Some(body) if whole => {
                let load = Load { situation, plan, shown, frame };
                load.put(&mut standing.boxes, *body, (length, 0.0), 0)
            }
            _ => {
                let (mut core, text) = match entry {
                    Some(body) => forces::body_core(situation, *body, frame),
                    None => more(frame, upright, count + 1 - shown.len()),
                };
                let (half_long, half_wide) = halves(&core, upright);
                core.centre = frame.u * (length + half_long);
                standing.boxes.push((*entry, core, text));
                (2.0 * half_long, 2.0 * half_wide)
            }
        };
        length += long + GAP;
        breadth = breadth.max(wide);
    }
    let rise = if whole { frame.n * (breadth / 2.0) } else { at(0.0, 0.0) };
    let middle = frame.u * ((length - GAP) / 2.0) + rise;
    standing.boxes.iter_mut().for_each(|b| b.1.centre = b.1.centre - middle);
    standing.half_length = (length - GAP) / 2.0;
    standing.half_breadth = breadth / 2.0;
    standing
}

fn halves(core: &Core, upright: bool) -> (f64, f64) {
    if upright { (core.half_height, core.half_width) } else { (core.half_width, core.half_height) }
}

/// Words for those left out.
fn more(frame: Frame, upright: bool, left_out: usize) -> (Core, Text) {
    let u = forces::box_direction(frame, if upright { Line::Vertical } else { Line::Level });
    let text = Text::upright(format!("… {left_out} more …"));
    let half_width = text.width(BODY_SIZE) / 2.0;
    (Core { centre: at(0.0, 0.0), u, half_width, half_height: 14.0, round: 0.0 }, text)
}

/// A body with what stands on it.
struct Load<'a> {
    situation: &'a Situation,
    plan: &'a Plan,
    shown: &'a [Option<BodyId>],
    frame: Frame,
}

impl Load<'_> {
    fn riders(&self, body: BodyId) -> Vec<BodyId> {
        let all = self.plan.riders_of(body).iter().copied();
        all.filter(|b| self.shown.contains(&Some(*b))).collect()
    }

    /// The length and breadth of a body and all on it.
    fn size(&self, body: BodyId, depth: usize) -> (f64, f64) {
        let (core, _) = forces::body_core(self.situation, body, self.frame);
        let own = (2.0 * core.half_width, 2.0 * core.half_height);
        let riders = self.riders(body);
        if riders.is_empty() || depth > self.shown.len() {
            return own;
        }
        let sizes = riders.iter().map(|r| self.size(*r, depth + 1));
        let (long, wide) = sizes.fold((-GAP, 0.0f64), |(l, w), s| (l + s.0 + GAP, w.max(s.1)));
        (own.0.max(long), own.1 + STEP + wide)
    }

    /// Puts a body's box at this place along the line and above it, then those on it.
    fn put(
        &self,
        boxes: &mut Vec<Placed>,
        body: BodyId,
        (from, foot): (f64, f64),
        depth: usize,
    ) -> (f64, f64) {
        let size = self.size(body, depth);
        let (mut core, text) = forces::body_core(self.situation, body, self.frame);
        let riders = self.riders(body);
        if !riders.is_empty() {
            core.half_width = size.0 / 2.0;
        }
        core.centre = self.frame.u * (from + size.0 / 2.0) + self.frame.n * (foot + core.half_height);
        let top = foot + 2.0 * core.half_height + STEP;
        boxes.push((Some(body), core, text));
        if depth <= self.shown.len() {
            let total: f64 = riders.iter().map(|r| self.size(*r, depth + 1).0 + GAP).sum::<f64>() - GAP;
            let mut along = from + (size.0 - total) / 2.0;
            for rider in riders {
                along += self.put(boxes, rider, (along, top), depth + 1).0 + GAP;
            }
        }
        size
    }
}
