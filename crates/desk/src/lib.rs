//! The desk: a web page on the teacher's own machine.
//!
//! A question goes in as text; its worked page comes out beside it while the teacher types.
//! Sample questions stand on a shelf at the side, the numbers of the question can be changed one by one,
//! and the page can be taken away as PDF.
//!
//! What is absent, on purpose: nothing is fetched from outside and nothing is sent there, no address but
//! the machine's own is listened on unless asked for, nothing is stored on the server, and no script or style stands
//! inside a page, so that text which came from a stranger can't act as either. Every action also works
//! without script, as a plain form.
//!
//! ```no_run
//! // Opens the desk, prints its address and serves until Ctrl-C.
//! desk::run(desk::Options::default())?;
//! # Ok::<(), desk::DeskError>(())
//! ```

mod assets;
mod error;
mod form;
mod guard;
mod mend;
mod numbers;
mod pages;
mod routes;
mod serve;
mod shelf;
mod state;
mod work;

pub use error::DeskError;
pub use numbers::{NotANumber, Number, numbers, with_numbers};
pub use routes::router;
pub use serve::{DEFAULT_PORT, Desk, Options, run};
pub use shelf::{Sample, Shelf};
pub use state::State;
