//! The browser that the tests of the desk drive.

use crate::run;
use std::path::Path;
use std::process::{Command, Stdio};

/// The programs of the browser tests, as Debian names them.
const PROGRAMS: [&str; 2] = ["chromium", "chromedriver"];
const PACKAGES: [&str; 2] = ["chromium", "chromium-driver"];

/// Makes sure that there is a browser, and installs one where that is allowed: as root on a system with `apt-get`.
/// `Err` says why the browser tests will be left out.
pub(crate) fn ready() -> Result<(), String> {
    let Some(missing) = missing() else { return Ok(()) };
    let missing = format!("{missing} is not installed");
    if !is_root() {
        return Err(format!(
            "{missing}, and only root may install it: apt-get install {}",
            PACKAGES.join(" ")
        ));
    }
    if !answers("apt-get") {
        return Err(format!("{missing}, and there is no apt-get to install it with"));
    }
    println!("installing {}", PACKAGES.join(" and "));
    let apt = |arguments: &[&str]| {
        run::streamed(
            Command::new("apt-get").env("DEBIAN_FRONTEND", "noninteractive").arg("-qq").args(arguments),
        )
    };
    // Without the newest lists an older package may still be had, so a failed update is not the end.
    apt(&["update"])?;
    let [chromium, driver] = PACKAGES;
    let installed = apt(&["install", "-y", "--no-install-recommends", chromium, driver])?;
    match self::missing() {
        None if installed => Ok(()),
        _ => Err(format!("{missing}, and apt-get could not install it")),
    }
}

fn missing() -> Option<&'static str> {
    PROGRAMS.into_iter().find(|program| !answers(program))
}

/// Does this program start and say its version?
fn answers(program: &str) -> bool {
    let quiet = Command::new(program)
        .arg("--version")
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status();
    quiet.is_ok_and(|status| status.success())
}

/// Is this the user who may install programs? Known on Linux only.
fn is_root() -> bool {
    let status = std::fs::read_to_string(Path::new("/proc/self/status")).unwrap_or_default();
    effective_user(&status) == Some(0)
}

/// The effective user in `/proc/self/status`: the second number of the line `Uid:`.
fn effective_user(status: &str) -> Option<u32> {
    status.lines().find_map(|line| line.strip_prefix("Uid:"))?.split_whitespace().nth(1)?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_user_is_read_from_the_status_of_the_process() {
        assert_eq!(effective_user("Name:\txtask\nUid:\t1000\t0\t1000\t1000\n"), Some(0));
        assert_eq!(effective_user("Uid:\t0\t1000\t0\t0\n"), Some(1000));
        assert_eq!(effective_user(""), None);
    }

    #[test]
    fn a_program_that_is_not_there_does_not_answer() {
        assert!(!answers("no-such-program-at-marram-quay"));
    }
}
