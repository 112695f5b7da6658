//! The counts of tests, summed over what the test programs say.

use std::fmt;

/// How many tests passed, failed and were skipped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Counts {
    pub(crate) passed: u64,
    pub(crate) failed: u64,
    /// Marked as ignored, left out by name, or left out by themselves because they lack what they need.
    pub(crate) skipped: u64,
    /// Of those that count as passed so far: how many said that they left themselves out.
    left_out: u64,
}

impl Counts {
    /// Adds a line of output, if it is the result of a test program:
    /// `test result: ok. 5 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s`,
    /// or if it is the word of a test that lacks what it needs: `left out: browser tests (no chromium)`.
    pub(crate) fn add_line(&mut self, line: &str) {
        if line.starts_with("left out: ") {
            self.left_out += 1;
            return;
        }
        let Some((_, counts)) = line.strip_prefix("test result: ").and_then(|rest| rest.split_once(". "))
        else {
            return;
        };
        for count in counts.split(';') {
            let mut words = count.split_whitespace();
            let Some(number) = words.next().and_then(|n| n.parse::<u64>().ok()) else { continue };
            match words.next() {
                Some("passed") => self.passed += number,
                Some("failed") => self.failed += number,
                Some("ignored" | "filtered") => self.skipped += number,
                _ => {}
            }
        }
    }

    /// The counts of several outputs together. Tests that left themselves out are skipped, and not passed.
    pub(crate) fn total(parts: &[Counts]) -> Counts {
        let sum = |of: fn(&Counts) -> u64| parts.iter().map(of).sum::<u64>();
        let left_out = sum(|c| c.left_out);
        Counts {
            passed: sum(|c| c.passed).saturating_sub(left_out),
            failed: sum(|c| c.failed),
            skipped: sum(|c| c.skipped) + left_out,
            left_out: 0,
        }
    }
}

impl fmt::Display for Counts {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} passed, {} failed, {} skipped", self.passed, self.failed, self.skipped)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(output: &str) -> Counts {
        let mut counts = Counts::default();
        output.lines().for_each(|line| counts.add_line(line));
        counts
    }

    #[test]
    fn the_results_of_all_test_programs_are_summed() {
        let output = read(
            "\
running 3 tests
test result: of a test that prints this is no result
test result: ok. 12 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.21s
   Doc-tests exact
test result: FAILED. 3 passed; 2 failed; 1 ignored; 0 measured; 4 filtered out; finished in 1.00s
",
        );
        assert_eq!(Counts::total(&[output]).to_string(), "15 passed, 2 failed, 5 skipped");
    }

    #[test]
    fn a_test_that_left_itself_out_has_not_passed() {
        let output = read(
            "test result: ok. 6 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 1s",
        );
        let errors = read("left out: browser tests (no chromium)\nleft out: browser tests (no chromium)");
        assert_eq!(Counts::total(&[output, errors]).to_string(), "4 passed, 0 failed, 2 skipped");
    }
}
