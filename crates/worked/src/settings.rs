//! How a question is to be worked out, where whoever asks has a wish.

/// Wishes of whoever asks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Settings {
    /// How the working is set out, and how many figures an answer has.
    pub working: working::Settings,
    /// Phrases of the question that are to be ignored where they are not understood. What was ignored is said in the
    /// reading, and on every page.
    pub ignored: Vec<String>,
}
