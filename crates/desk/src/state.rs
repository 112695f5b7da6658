//! What every request may look at. Nothing in it changes while the desk is open.

use std::net::SocketAddr;
use std::sync::Arc;

use worked::Settings;

use crate::shelf::Shelf;

/// The shelf, the house settings, and the address that the desk answers to.
#[derive(Clone, Debug)]
pub struct State {
    pub(crate) shelf: Arc<Shelf>,
    pub(crate) settings: Settings,
    pub(crate) address: SocketAddr,
}

impl State {
    /// The house settings with what is to be ignored in this question.
    pub(crate) fn settings(&self, ignored: Vec<String>) -> Settings {
        Settings { ignored, ..self.settings.clone() }
    }

    /// A desk with this shelf that listens at this address.
    pub fn new(shelf: Shelf, address: SocketAddr) -> State {
        State { shelf: Arc::new(shelf), settings: Settings::default(), address }
    }
}
