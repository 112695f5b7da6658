//! Opens the desk on an address and serves it.

use std::io::Write as _;
use std::net::{Ipv4Addr, SocketAddr};
use std::path::PathBuf;
use std::process::{Command, Stdio};

use tokio::net::TcpListener;

use crate::error::DeskError;
use crate::routes::router;
use crate::shelf::Shelf;
use crate::state::State;

/// The port of a desk that was not told which to take. With the same port each time, what a browser
/// keeps for the page is found again after a restart.
pub const DEFAULT_PORT: u16 = 7741;

/// How the desk is opened.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// The address to listen on; port 0 takes any that is free. The default is
    /// [`DEFAULT_PORT`] on this machine alone, or any free port where that one is taken.
    pub addr: Option<SocketAddr>,
    /// A folder of questions in place of the shelf that the program carries.
    pub shelf: Option<PathBuf>,
    /// Open the page in the browser of the machine as well.
    pub open: bool,
}

/// An open desk: it has its address and waits to serve.
#[derive(Debug)]
pub struct Desk {
    listener: TcpListener,
    state: State,
}

impl Desk {
    /// Reads the shelf and takes the address.
    ///
    /// # Errors
    ///
    /// Where the folder of questions can't be read or the address can't be listened on.
    pub async fn open(options: &Options) -> Result<Desk, DeskError> {
        let shelf = match &options.shelf {
            Some(folder) => Shelf::from_folder(folder)?,
            None => Shelf::carried(),
        };
        let listener = listen(options.addr).await?;
        let address = listener.local_addr().map_err(DeskError::Server)?;
        Ok(Desk { listener, state: State::new(shelf, address) })
    }

    /// The address that was taken.
    pub fn address(&self) -> SocketAddr {
        self.state.address
    }

    /// The address of the page.
    pub fn url(&self) -> String {
        let mut address = self.state.address;
        if address.ip().is_unspecified() {
            address.set_ip(Ipv4Addr::LOCALHOST.into());
        }
        format!("http://{address}/")
    }

    /// Serves until Ctrl-C.
    ///
    /// # Errors
    ///
    /// Where the server can't go on.
    pub async fn serve(self) -> Result<(), DeskError> {
        let interrupted = async {
            // Where Ctrl-C can't be listened for, the system's own way of ending a program remains.
            if tokio::signal::ctrl_c().await.is_err() {
                std::future::pending::<()>().await;
            }
        };
        let server = axum::serve(self.listener, router(self.state));
        tokio::select! {
            ended = server.into_future() => ended.map_err(DeskError::Server),
            () = interrupted => Ok(()),
        }
    }
}

async fn listen(asked: Option<SocketAddr>) -> Result<TcpListener, DeskError> {
    let own = |port| SocketAddr::from((Ipv4Addr::LOCALHOST, port));
    if asked.is_none()
        && let Ok(listener) = TcpListener::bind(own(DEFAULT_PORT)).await
    {
        return Ok(listener);
    }
    let address = asked.unwrap_or(own(0));
    TcpListener::bind(address).await.map_err(|why| DeskError::Address(address, why))
}

/// Opens the desk, prints its address and serves until Ctrl-C.
///
/// # Errors
///
/// Where the desk can't be opened or can't go on.
pub fn run(options: Options) -> Result<(), DeskError> {
    // One thread serves the pages; a few more work the questions. One teacher needs no more, and it stays small.
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .max_blocking_threads(4)
        .build()
        .map_err(DeskError::Server)?;
    let served = runtime.block_on(async {
        let desk = Desk::open(&options).await?;
        let url = desk.url();
        // Whoever started the desk may have closed its output; the desk serves all the same.
        let mut out = std::io::stdout();
        let _ = writeln!(out, "The desk is open at {url}\nCtrl-C closes it.").and_then(|()| out.flush());
        if options.open {
            show(&url);
        }
        desk.serve().await
    });
    runtime.shutdown_background();
    served
}

/// Asks the system to show the page. Where it can't, the printed address remains.
fn show(url: &str) {
    let program = if cfg!(target_os = "macos") {
        "open"
    } else if cfg!(target_os = "windows") {
        "explorer"
    } else {
        "xdg-open"
    };
    let quiet = Command::new(program)
        .arg(url)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    drop(quiet);
}
