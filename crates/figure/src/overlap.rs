//! Finds room for labels, and measures whether any label is crossed or covered.

use crate::drawing::*;
use crate::geometry::{Bounds, Point, at, touch};

/// How near a label may come to anything.
const NEAR: f64 = 1.0;

/// Everything that lies over something that it should not, in words; empty for a clean drawing.
pub(crate) fn overlaps(drawing: &Drawing) -> Vec<String> {
    let mut found = Vec::new();
    for (i, item) in drawing.items.iter().enumerate() {
        match &item.mark {
            Mark::Label(label) => {
                let corners = label.corners();
                for (j, other) in drawing.items.iter().enumerate() {
                    let pair_seen = matches!(other.mark, Mark::Label(_)) && j <= i;
                    if j != i && !pair_seen && !belongs(item, other) && covers(other, &corners, NEAR) {
                        found.push(format!(
                            "\"{}\" of {} touches {}",
                            label.text.plain(),
                            item.group,
                            name(other)
                        ));
                    }
                }
            }
            Mark::Arrow { from, to, .. } | Mark::DoubleArrow { from, to } => {
                for other in drawing.items.iter().skip(i + 1) {
                    let arrow = matches!(other.mark, Mark::Arrow { .. } | Mark::DoubleArrow { .. });
                    if arrow && other.group != item.group && covers(other, &[*from, *to], NEAR) {
                        found.push(format!("{} crosses {}", item.group, other.group));
                    }
                }
            }
            _ => {}
        }
    }
    found
}

fn name(item: &Item) -> String {
    match &item.mark {
        Mark::Label(label) => format!("\"{}\" of {}", label.text.plain(), item.group),
        Mark::Arrow { .. } | Mark::DoubleArrow { .. } => format!("the arrow of {}", item.group),
        Mark::Line { .. } => format!("a line of {}", item.group),
        _ => item.group.clone(),
    }
}

/// May this label lie on that mark? On the outline of its own body it may.
fn belongs(label: &Item, other: &Item) -> bool {
    label.group == other.group
        && matches!(other.mark, Mark::Box { .. } | Mark::Circle { .. } | Mark::Path { .. })
        && !other.hollow
}

fn covers(item: &Item, shape: &[Point], gap: f64) -> bool {
    item.mark.shapes(item.hollow).iter().any(|piece| touch(piece, shape, gap))
}

impl Drawing {
    /// Is this shape clear of everything by `gap`?
    pub(crate) fn is_free(&self, shape: &[Point], gap: f64) -> bool {
        let Some(bounds) = Bounds::of(shape) else { return true };
        !self.pieces.iter().any(|p| !p.bounds.apart(bounds, gap) && touch(&p.points, shape, gap))
    }

    /// Writes a label at the first of these places that is clear; if none is, further and
    /// further out along the last direction that leads away from `home`.
    pub(crate) fn place(&mut self, group: &str, label: Label, places: &[Label], home: Point) {
        let clear = places.iter().find(|l| self.is_free(&l.corners(), 3.0)).cloned();
        let chosen = clear.unwrap_or_else(|| self.search(label, home));
        self.write(group, chosen);
    }

    /// The nearest clear place round `home`, ring by ring.
    fn search(&self, label: Label, home: Point) -> Label {
        for ring in 1..40 {
            let reach = f64::from(ring) * 10.0;
            for turn in 0..16 {
                // Upwards first, then by turns to both sides.
                let step = f64::from((turn + 1) / 2) * if turn % 2 == 0 { 1.0 } else { -1.0 };
                let way = Point::towards(std::f64::consts::FRAC_PI_2 + step * std::f64::consts::FRAC_PI_8);
                let tried =
                    Label::centred(label.text.clone(), home + at(way.x * reach, way.y * reach), label.size);
                if self.is_free(&tried.corners(), 3.0) {
                    return tried;
                }
            }
        }
        Label::centred(label.text, at(home.x, self.bounds().low.y - 20.0), label.size)
    }
}
