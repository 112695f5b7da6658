//! The published cases: numbers printed in open textbooks, each set up in code and compared with the printed answer at
//! its precision. UP = OpenStax *University Physics* volume 1, CP = OpenStax *College Physics* 2e; Ex a worked
//! example, P&E the problems and exercises of a chapter. Only numbers are carried over. Where a printed answer is not
//! the rounding of the exact one, the test says so and holds the value worked out again.

#![allow(clippy::expect_used, clippy::panic, reason = "a test that cannot be set up should stop")]

#[path = "../support/mod.rs"]
mod support;

mod bench;
mod floors;
mod lifts;
mod list;
mod pulleys;
mod slopes;
mod stacks;
mod trains;
