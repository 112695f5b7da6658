//! Any bytes as a situation, worked out by the whole core: see `crates/worked/tests/bytes`.
#![no_main]

#[path = "../../crates/worked/tests/bytes/situation.rs"]
mod situation;
#[path = "../../crates/worked/tests/bytes/vouch.rs"]
mod vouch;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    if let Err(why) = vouch::vouch(&situation::situation(bytes)) {
        panic!("{why}");
    }
});
