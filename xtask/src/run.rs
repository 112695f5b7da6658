//! Where the project is, and how its programs are started.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The folder of the workspace. Cargo says where this package is when it runs it; a binary that is started
/// by hand knows where it was built.
pub(crate) fn root() -> PathBuf {
    let here = std::env::var("CARGO_MANIFEST_DIR").unwrap_or_else(|_| env!("CARGO_MANIFEST_DIR").to_owned());
    Path::new(&here).parent().map_or_else(|| PathBuf::from("."), Path::to_path_buf)
}

/// The cargo that started us, in the folder of the workspace.
pub(crate) fn cargo(arguments: &[&str]) -> Command {
    let mut command = Command::new(std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned()));
    // What stands after `--` belongs to the program that cargo runs.
    let place = arguments.iter().position(|a| *a == "--").unwrap_or(arguments.len());
    let (ours, theirs) = arguments.split_at(place);
    command.args(ours);
    // On a server the lock file is the truth; at home a changed manifest may bring it up to date.
    if on_a_server() && ours.first() != Some(&"fmt") {
        command.arg("--locked");
    }
    command.args(theirs).current_dir(root());
    command
}

/// Is this a build server (`CI` is set)?
pub(crate) fn on_a_server() -> bool {
    std::env::var_os("CI").is_some_and(|v| !v.is_empty() && v != "false")
}

/// Runs a program, its output going where ours goes. `false` where it failed.
pub(crate) fn streamed(command: &mut Command) -> Result<bool, String> {
    let status = command.stdin(Stdio::null()).status().map_err(|why| unstarted(command, &why))?;
    Ok(status.success())
}

/// Runs a program and gives what it printed.
pub(crate) fn output(command: &mut Command) -> Result<String, String> {
    let out = command
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()
        .map_err(|why| unstarted(command, &why))?;
    if !out.status.success() {
        return Err(format!("{} failed", name(command)));
    }
    Ok(String::from_utf8_lossy(&out.stdout).into_owned())
}

/// What to say of a program that could not be started.
pub(crate) fn unstarted(command: &Command, why: &std::io::Error) -> String {
    format!("{} could not be started: {why}", name(command))
}

fn name(command: &Command) -> String {
    command.get_program().to_string_lossy().into_owned()
}
