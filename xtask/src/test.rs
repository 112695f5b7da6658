//! Every check and test of the project, cheap ones first.

use crate::counts::Counts;
use crate::{browser, run, tidy};
use std::io::{BufRead, BufReader, Read};
use std::process::{Command, Stdio};
use std::thread;
use std::time::Instant;

/// The variable from which proptest takes the seed of its random cases.
const SEED: &str = "PROPTEST_RNG_SEED";
/// A run here tests the same random cases each time, so that what fails has been changed by somebody. Fresh cases
/// are searched on purpose: CONTRIBUTING.md says how.
const USUAL_SEED: &str = "2026";

/// Runs everything, also after a failure, so that one run tells all. The last line is the count of the tests.
pub(crate) fn command() -> Result<bool, String> {
    let mut failed: Vec<&str> = Vec::new();
    let mut step = |what: &'static str, run: &mut dyn FnMut() -> Result<bool, String>| {
        println!("\n== {what}");
        let start = Instant::now();
        let passed = run().unwrap_or_else(|why| {
            println!("{why}");
            false
        });
        println!("== {what}: {} ({} s)", if passed { "ok" } else { "FAILED" }, start.elapsed().as_secs());
        if !passed {
            failed.push(what);
        }
    };
    let cargo = |arguments: &[&str]| run::streamed(&mut run::cargo(arguments));

    step("tidy", &mut tidy::command);
    step("format", &mut || cargo(&["fmt", "--all", "--check", "--", "-l"]));
    let mut browser = Ok(());
    step("browser", &mut || {
        browser = browser::ready();
        match &browser {
            Ok(()) => println!("chromium and chromedriver are there"),
            Err(why) => println!("LEFT OUT: the browser tests of the desk; {why}"),
        }
        Ok(true)
    });
    step("lints", &mut || cargo(&["clippy", "--workspace", "--all-targets", "--", "-D", "warnings"]));
    let mut counts = Counts::default();
    step("tests", &mut || {
        let mut tests = run::cargo(&["test", "--workspace", "--no-fail-fast"]);
        if std::env::var_os(SEED).is_none() {
            tests.env(SEED, USUAL_SEED);
        }
        if browser.is_ok() {
            tests.env("TAUTLINE_BROWSER", "required");
        }
        let (passed, counted) = counted(&mut tests)?;
        counts = counted;
        Ok(passed)
    });
    step("documentation", &mut || {
        let mut docs = run::cargo(&["doc", "--workspace", "--no-deps"]);
        // A public page may point at a private module, for those who read on in the source.
        run::streamed(docs.env("RUSTDOCFLAGS", "-D warnings -A rustdoc::private_intra_doc_links"))
    });
    step("measurements run, once each", &mut || {
        let mut arguments = vec!["test"];
        arguments.extend(tidy::CORE.into_iter().flat_map(|room| ["--package", room]));
        arguments.extend(["--bench", "*"]);
        cargo(&arguments)
    });

    println!();
    if let Err(why) = browser {
        println!("left out: the browser tests of the desk; {why}");
    }
    for what in &failed {
        println!("FAILED: {what}");
    }
    if failed.contains(&"tests") && counts.failed == 0 {
        println!(
            "FAILED: a test program did not build, or ended before its result; its tests are not in the counts"
        );
    }
    println!("{counts}");
    Ok(failed.is_empty())
}

/// Runs a program that runs tests; passes its output on line by line, and counts.
fn counted(command: &mut Command) -> Result<(bool, Counts), String> {
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .map_err(|why| run::unstarted(command, &why))?;
    let errors = child.stderr.take();
    let errors = thread::spawn(move || {
        errors.map_or_else(Counts::default, |e| pass_on(e, |line| eprintln!("{line}")))
    });
    let output = child.stdout.take().map_or_else(Counts::default, |o| pass_on(o, |line| println!("{line}")));
    let errors = errors.join().map_err(|_| "the output could not be passed on".to_owned())?;
    let status = child.wait().map_err(|why| why.to_string())?;
    Ok((status.success(), Counts::total(&[output, errors])))
}

fn pass_on(stream: impl Read, say: impl Fn(&str)) -> Counts {
    let mut counts = Counts::default();
    let mut reader = BufReader::new(stream);
    let mut line = Vec::new();
    // Tests may print any bytes.
    while reader.read_until(b'\n', &mut line).is_ok_and(|read| read > 0) {
        let text = String::from_utf8_lossy(&line);
        let text = text.trim_end_matches(['\n', '\r']);
        say(text);
        counts.add_line(text);
        line.clear();
    }
    counts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[cfg(unix)]
    fn both_outputs_are_counted_and_a_failure_is_seen() {
        let script = "echo 'test result: FAILED. 3 passed; 1 failed; 0 ignored; 0 measured; 0 filtered out'; \
                      echo 'left out: browser tests' >&2; exit 101";
        let (passed, counts) = counted(Command::new("sh").args(["-c", script])).unwrap();
        assert!(!passed);
        assert_eq!(counts.to_string(), "2 passed, 1 failed, 1 skipped");
    }

    #[test]
    fn a_program_that_cannot_be_started_is_told() {
        let why = counted(&mut Command::new("no-such-program-at-marram-quay")).unwrap_err();
        assert!(why.contains("no-such-program-at-marram-quay"), "{why}");
    }
}
