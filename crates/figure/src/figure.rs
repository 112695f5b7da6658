//! A finished picture.

use crate::drawing::Drawing;
use crate::{overlap, svg};

/// A picture with its words. All lengths are in pixels of the SVG's own grid.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The picture, complete in itself: title and description first, no script, nothing from elsewhere.
    pub svg: String,
    /// What it shows: `Forces on the trailer`.
    pub title: String,
    /// All that it says, in words, for those who cannot see it.
    pub description: String,
    /// Its width.
    pub width: f64,
    /// Its height.
    pub height: f64,
    /// A line to print under it.
    pub caption: String,
    /// What the ids in it begin with; another one can be had by [`Figure::svg_with_prefix`].
    pub prefix: String,
    /// Its words without the stage.
    same: String,
    drawing: Drawing,
}

impl Figure {
    /// `subject` is what it shows, `stage` in which stage (empty where there is one only); `words` say the rest, and
    /// `note` is added to the caption.
    pub(crate) fn new(
        drawing: Drawing,
        subject: &str,
        stage: String,
        words: &str,
        note: &str,
        prefix: String,
    ) -> Figure {
        let view = svg::window(&drawing);
        let title = if stage.is_empty() { subject.to_owned() } else { format!("{subject}, {stage}") };
        let description = format!("{title}{words}");
        let caption = if note.is_empty() { title.clone() } else { format!("{title}: {note}") };
        let same = format!("{subject}{words}");
        let svg = svg::write(&drawing, &title, &description, &prefix);
        Figure {
            svg,
            title,
            description,
            width: view.width(),
            height: view.height(),
            caption,
            prefix,
            same,
            drawing,
        }
    }

    /// Do both show the same, though perhaps in different stages? The words of a figure say every force and its
    /// size: equal words, equal picture.
    pub fn shows_the_same_as(&self, other: &Figure) -> bool {
        self.same == other.same
    }

    /// The same picture with other ids, so that several questions can stand on one page. The prefix
    /// keeps only letters, digits, hyphens and underscores.
    pub fn svg_with_prefix(&self, prefix: &str) -> String {
        let clean: String =
            prefix.chars().filter(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_')).collect();
        svg::write(&self.drawing, &self.title, &self.description, &clean)
    }
}

/// Every label that lies over another label, an arrow, a line or a body, and every pair of arrows that
/// cross, in words; measured on the drawing itself with the widths of the real letters. Empty for a clean figure.
pub fn overlaps(figure: &Figure) -> Vec<String> {
    overlap::overlaps(&figure.drawing)
}
