//! Where in the question something stands.

/// A stretch of the question, in UTF-8 bytes, end not included.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl Span {
    /// A stretch from `start` to `end`; the two are put in order.
    pub fn new(start: usize, end: usize) -> Span {
        Span { start: start.min(end), end: start.max(end) }
    }
    /// The smallest stretch that holds both.
    pub fn join(self, other: Span) -> Span {
        Span { start: self.start.min(other.start), end: self.end.max(other.end) }
    }
    /// Do the two share a byte?
    pub fn overlaps(self, other: Span) -> bool {
        self.start < other.end && other.start < self.end
    }
    /// The text itself; empty if the stretch does not fit the text.
    ///
    /// ```
    /// assert_eq!(model::Span::new(2, 7).of("a light string"), "light");
    /// ```
    pub fn of(self, text: &str) -> &str {
        text.get(self.start..self.end).unwrap_or("")
    }
}
