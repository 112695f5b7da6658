//! Lots drawn from a seed: the same seed draws the same lots on every machine.
//!
//! The generator is SplitMix64 (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014).

/// A sequence of lots.
pub struct Lots(u64);

impl Lots {
    /// The sequence that belongs to a seed.
    pub fn new(seed: u64) -> Lots {
        Lots(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x1A07)
    }
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }
    /// A number from 0 up to, and without, `end`.
    pub fn below(&mut self, end: usize) -> usize {
        usize::try_from(self.next() % (end.max(1) as u64)).unwrap_or(0)
    }
    /// A whole number between these, both included.
    pub fn between(&mut self, least: i64, most: i64) -> i64 {
        let span = usize::try_from(most - least + 1).unwrap_or(1);
        least + i64::try_from(self.below(span)).unwrap_or(0)
    }
    /// True so many times in a hundred.
    pub fn percent(&mut self, times: usize) -> bool {
        self.below(100) < times
    }
    /// One of these.
    pub fn of<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())]
    }
    /// +1 or −1.
    pub fn sense(&mut self) -> i8 {
        if self.percent(50) { 1 } else { -1 }
    }
}
