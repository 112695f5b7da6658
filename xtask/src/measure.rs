//! How fast, how big: figures for people to read. Nothing here passes or fails.

use crate::run;
use serde_json::Value;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// The question that is worked.
const QUESTION: &str = "shelf/01-timber-trailer.txt";
/// So many times the program is started.
const STARTS: usize = 20;

/// Prints the measurements.
pub(crate) fn command() -> Result<bool, String> {
    println!("== one question, room by room");
    let mut passed =
        run::streamed(&mut run::cargo(&["bench", "--package", "worked", "--bench", "question"]))?;
    println!("\n== exact solving beside elimination in doubles");
    passed &= run::streamed(&mut run::cargo(&["bench", "--package", "exact", "--bench", "solve"]))?;
    println!("\n== the program");
    passed &= run::streamed(&mut run::cargo(&["build", "--release", "--package", "tautline"]))?;
    let program = target()?.join("release").join(format!("tautline{}", std::env::consts::EXE_SUFFIX));
    let size = std::fs::metadata(&program).map_err(|why| format!("{}: {why}", program.display()))?.len();
    println!("size of the program: {} MB", size / 1_000_000);
    let mut times = starts(&program)?;
    times.sort();
    if let (Some(best), Some(worst)) = (times.first(), times.last()) {
        println!(
            "tautline work {QUESTION}, from start to finish, {STARTS} times: median {:.1} ms (from {:.1} to {:.1})",
            milliseconds(median(&times)),
            milliseconds(*best),
            milliseconds(*worst)
        );
    }
    memory(&program)?;
    Ok(passed)
}

/// The folder in which cargo builds.
fn target() -> Result<PathBuf, String> {
    let text = run::output(&mut run::cargo(&["metadata", "--format-version", "1", "--no-deps"]))?;
    let metadata: Value = serde_json::from_str(&text).map_err(|why| format!("cargo metadata: {why}"))?;
    let folder = metadata.get("target_directory").and_then(Value::as_str);
    folder.map(PathBuf::from).ok_or_else(|| "cargo does not say where it builds".to_owned())
}

fn starts(program: &Path) -> Result<Vec<Duration>, String> {
    let mut times = Vec::new();
    for _ in 0..STARTS {
        let start = Instant::now();
        let mut command = Command::new(program);
        command.args(["work", QUESTION]).current_dir(run::root()).stdout(Stdio::null());
        if !run::streamed(&mut command)? {
            return Err(format!("tautline work {QUESTION} failed"));
        }
        times.push(start.elapsed());
    }
    Ok(times)
}

/// The middle of sorted times; of an even number, halfway between the two in the middle.
fn median(sorted: &[Duration]) -> Duration {
    let at = |i: usize| sorted.get(i).copied().unwrap_or_default();
    (at(sorted.len().saturating_sub(1) / 2) + at(sorted.len() / 2)) / 2
}

fn milliseconds(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

/// Opens the desk and prints what memory it takes, idle and after one page.
fn memory(program: &Path) -> Result<(), String> {
    let start = Instant::now();
    let mut desk = Command::new(program)
        .args(["--port", "0"])
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|why| format!("the desk could not be opened: {why}"))?;
    let measured = at_the_desk(&mut desk, start);
    // It serves until it is told to stop. It may have ended by itself; then there is nothing to stop.
    let _ = desk.kill();
    let _ = desk.wait();
    measured
}

fn at_the_desk(desk: &mut Child, start: Instant) -> Result<(), String> {
    let output = desk.stdout.take().ok_or("the desk has no output")?;
    let mut line = String::new();
    BufReader::new(output).read_line(&mut line).map_err(|why| why.to_string())?;
    println!("the desk is open after {:.1} ms", milliseconds(start.elapsed()));
    let address = address(&line).ok_or_else(|| format!("the desk gives no address: {line}"))?;
    std::thread::sleep(Duration::from_millis(500));
    say_memory(desk.id(), "idle");
    let start = Instant::now();
    let bytes = first_page(address).map_err(|why| format!("{address}: {why}"))?;
    println!("first page: {} kB in {:.1} ms", bytes / 1000, milliseconds(start.elapsed()));
    say_memory(desk.id(), "after one page");
    Ok(())
}

/// The address in `The desk is open at http://127.0.0.1:7741/`.
fn address(line: &str) -> Option<&str> {
    line.split_once("http://")?.1.split('/').next().map(str::trim)
}

fn first_page(address: &str) -> std::io::Result<usize> {
    let mut stream = TcpStream::connect(address)?;
    write!(stream, "GET / HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n")?;
    let mut page = Vec::new();
    stream.read_to_end(&mut page)
}

fn say_memory(process: u32, when: &str) {
    let status = std::fs::read_to_string(format!("/proc/{process}/status")).unwrap_or_default();
    match resident(&status) {
        Some(kilobytes) => {
            println!("memory of the desk, {when}: {:.1} MB resident", f64::from(kilobytes) / 1024.0)
        }
        None => println!("memory of the desk, {when}: not known on this system"),
    }
}

/// Resident memory in `/proc/PID/status`, in units of 1024 bytes.
fn resident(status: &str) -> Option<u32> {
    status.lines().find_map(|line| line.strip_prefix("VmRSS:"))?.split_whitespace().next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_the_middle() {
        let times = |ms: &[u64]| ms.iter().map(|t| Duration::from_millis(*t)).collect::<Vec<_>>();
        assert_eq!(median(&times(&[1, 2, 9])), Duration::from_millis(2));
        assert_eq!(median(&times(&[1, 2, 4, 9])), Duration::from_millis(3));
        assert_eq!(median(&[]), Duration::ZERO);
    }

    #[test]
    fn address_and_memory_are_read() {
        assert_eq!(address("The desk is open at http://127.0.0.1:7741/\n"), Some("127.0.0.1:7741"));
        assert_eq!(address("The desk is closed"), None);
        assert_eq!(resident("VmSize:\t 99 kB\nVmRSS:\t   18432 kB\n"), Some(18432));
    }
}
