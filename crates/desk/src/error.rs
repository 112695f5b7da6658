//! Why the desk could not be opened.

use std::net::SocketAddr;
use std::path::PathBuf;
use std::{error, fmt, io};

/// Why the desk could not be opened or had to close. What goes wrong with one question is said on its page instead.
#[derive(Debug)]
#[non_exhaustive]
pub enum DeskError {
    /// The address can't be listened on.
    Address(SocketAddr, io::Error),
    /// The folder of questions can't be read.
    Shelf(PathBuf, io::Error),
    /// The server could not start, or stopped.
    Server(io::Error),
}

impl fmt::Display for DeskError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            DeskError::Address(address, why) => write!(f, "the desk can't be opened at {address}: {why}"),
            DeskError::Shelf(folder, why) => {
                write!(f, "the shelf {} can't be read: {why}", folder.display())
            }
            DeskError::Server(why) => write!(f, "the desk closed: {why}"),
        }
    }
}

impl error::Error for DeskError {
    fn source(&self) -> Option<&(dyn error::Error + 'static)> {
        match self {
            DeskError::Address(_, why) | DeskError::Shelf(_, why) | DeskError::Server(why) => Some(why),
        }
    }
}
