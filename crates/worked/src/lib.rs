//! One question in, everything that the core makes of it out.
//!
//! [`work`] reads a question, solves the stages that its parts ask about, sets out the working and draws the
//! figures. What comes out is plain data for a page, a terminal or a screen; nothing is printed here.
//!
//! A question is answered whole or not at all: if one thing asked cannot be told, or one word that may carry
//! mechanics was not understood, there are diagnostics with the place of each trouble, and no answers.
//!
//! ```
//! let worked = worked::work("What is the price of kippers at Marram Quay?", &worked::Settings::default());
//! assert!(!worked.answered());
//! ```

mod caution;
mod drawn;
mod merge;
mod settings;
mod stages;
mod work;

pub use settings::Settings;
pub use work::{Worked, work, work_situation};
