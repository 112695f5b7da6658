//! Drawing by lot from a few numbers: where they run out, or are zero, the first choice is taken.

use exact::{Angle, Rational, Value};

/// What is drawn from.
pub(crate) struct Draw<'a> {
    numbers: &'a [u8],
    at: usize,
}

impl<'a> Draw<'a> {
    pub(crate) fn new(numbers: &'a [u8]) -> Draw<'a> {
        Draw { numbers, at: 0 }
    }
    fn next(&mut self) -> usize {
        let n = self.numbers.get(self.at).copied().unwrap_or(0);
        self.at += 1;
        usize::from(n)
    }
    /// One of these.
    pub(crate) fn of<T: Clone>(&mut self, choices: &[T]) -> T {
        choices[self.next() % choices.len()].clone()
    }
    pub(crate) fn coin(&mut self) -> bool {
        self.next() % 2 == 1
    }
    /// A number from `low` in steps, at times with a fraction.
    pub(crate) fn number(&mut self, low: i64, step: i64) -> Value {
        let n = low + step * i64::try_from(self.next() % 20).expect("small");
        match self.next() % 4 {
            0 | 1 => Value::from_int(n),
            2 => ratio(10 * n + 5, 10),
            _ => ratio(100 * n + 25, 100),
        }
    }
    /// A coefficient of friction.
    pub(crate) fn mu(&mut self) -> Value {
        self.of(&[ratio(1, 5), ratio(1, 4), ratio(1, 3), ratio(2, 5), ratio(3, 20), ratio(2, 7)])
    }
    /// The angle of a slope.
    pub(crate) fn slope(&mut self) -> Angle {
        self.of(&[
            Angle::Degrees(Rational::from_int(30)),
            Angle::Degrees(Rational::from_int(20)),
            Angle::Tan(ratio(3, 4)),
            Angle::Sin(ratio(1, 20)),
            Angle::Degrees(Rational::new(25, 2).expect("12.5")),
            Angle::Cos(ratio(12, 13)),
        ])
    }
}

/// A fraction.
pub(crate) fn ratio(over: i64, under: i64) -> Value {
    Value::rational(Rational::new(over, under).expect("a denominator other than zero"))
}
