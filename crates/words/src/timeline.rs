//! What happens in a story, in the order told, and the moments of which it is asked.
//!
//! A *chapter* lies between two happenings: chapter 0 before the first, chapter 1 between the first and the second.
//! Every fact and every question belongs to a chapter; what is told of a stretch (how long, how far, how fast at the
//! end) tells of the whole chapter, up to the happening that ends it.

/// Something that happens.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Occurs {
    /// Strings or bars are cut, break, come off.
    Breaks(Vec<usize>),
    /// A body comes to the end of its way and stays there.
    Lands {
        /// Which.
        body: usize,
        /// Where: `the floor`.
        at: String,
        /// Is it the ground under it?
        ground: bool,
    },
    /// Forces stop acting.
    Off(Vec<usize>),
    /// The brakes are put on.
    Brakes,
    /// A body comes to rest, perhaps for an instant.
    Rests(usize),
    /// The way of moving changes: `and then moves at constant speed`, or a force gets another size.
    Changes,
}

/// A happening as told.
#[derive(Clone, Debug)]
pub(crate) struct Event {
    pub occurs: Occurs,
    /// Told in a statement, not only named in a question.
    pub told: bool,
    /// The part of the question that tells it.
    pub part: usize,
    pub span: model::Span,
}

/// A moment that a question names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Moment {
    /// The happening with this number.
    Event(usize),
    /// These bodies come to rest, at least for an instant, in the last chapter.
    Rest(Vec<usize>),
    /// The slack string is taut again.
    Taut,
    /// These bodies are back where the story began.
    Back(Vec<usize>),
}

/// Of what time a question speaks.
#[derive(Clone, Debug, Default)]
pub(crate) struct Moments {
    /// The chapter.
    pub chapter: usize,
    /// From when on.
    pub from: Option<Moment>,
    /// Until when, or at which moment.
    pub to: Option<Moment>,
    /// The whole way, or the whole time.
    pub total: bool,
    /// What comes on top of what was before.
    pub further: bool,
    /// The chapter is named, not only the one that was told last.
    pub named: bool,
    /// In each chapter.
    pub each: bool,
    /// At the instant of a happening, neither before nor after it.
    pub at_once: bool,
}

/// When a named force acts, and how large it is from a chapter on.
#[derive(Clone, Debug, Default)]
pub(crate) struct Spell {
    /// The first chapter in which it acts.
    pub since: usize,
    /// The first chapter in which it does not act any more.
    pub until: Option<usize>,
    /// Sizes that take the place of the first: from which chapter on.
    pub sizes: Vec<(usize, crate::story::Given)>,
}

/// How far a body is from the ground (or the pulley) when a chapter begins.
#[derive(Clone, Debug)]
pub(crate) struct Clearance {
    pub of: Vec<usize>,
    pub given: crate::story::Given,
    pub ground: bool,
    pub chapter: usize,
}
