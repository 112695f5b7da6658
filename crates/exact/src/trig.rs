//! Sines and cosines of angles in degrees: exact where there is a simple surd,
//! and enclosed by Taylor's series with its remainder.
use crate::atoms::Atom;
use crate::fixed::Fixed;
use crate::poly::Poly;
use crate::rational::Rational;
use crate::value::{Form, Value};
use dashu_int::IBig;

fn degrees(n: i64) -> Rational {
    Rational::small(n, 1)
}

/// The angle less whole turns: from 0 up to, not including, 360.
pub(crate) fn within_turn(angle: &Rational) -> Rational {
    let turns = (angle * &Rational::small(1, 360)).floor();
    angle - &(turns * degrees(360))
}

/// What a sine or cosine of any angle comes to in the first half of the right angle.
struct Octant {
    negative: bool,
    cosine: bool,
    /// From 0 to 45.
    angle: Rational,
}

fn octant_of_sine(angle: &Rational) -> Octant {
    let mut angle = within_turn(angle);
    let negative = angle >= degrees(180);
    if negative {
        angle -= degrees(180);
    }
    if angle > degrees(90) {
        angle = degrees(180) - angle;
    }
    let cosine = angle > degrees(45);
    if cosine {
        angle = degrees(90) - angle;
    }
    Octant { negative, cosine, angle }
}

/// The sine in simplest form.
pub(crate) fn exact_sin(angle: &Rational) -> Value {
    let Octant { negative, cosine, angle } = octant_of_sine(angle);
    let size = match (angle.as_i64(), cosine) {
        (Some(0), false) => Value::zero(),
        (Some(0), true) => Value::one(),
        // Published in the NIST Digital Library of Mathematical Functions, table 4.17.1.
        (Some(15), false) => (root(6) - root(2)) * quarter(),
        (Some(15), true) => (root(6) + root(2)) * quarter(),
        (Some(30), false) => Value::rational(Rational::small(1, 2)),
        (Some(30), true) => root(3) * Value::rational(Rational::small(1, 2)),
        (Some(45), _) => root(2) * Value::rational(Rational::small(1, 2)),
        (_, false) => Value::from_poly(Poly::atom(Atom::Sin(angle))),
        (_, true) => Value::from_poly(Poly::atom(Atom::Cos(angle))),
    };
    if negative { -size } else { size }
}

fn root(n: i64) -> Value {
    Value::from_int(n).sqrt().unwrap_or(Value(Form::TooLarge))
}

fn quarter() -> Value {
    Value::rational(Rational::small(1, 4))
}

/// π by Machin's formula, 16 arctan(1/5) − 4 arctan(1/239).
pub(crate) fn pi(scale: usize) -> Fixed {
    let working = scale + 16;
    let pi = arctan_of_one_over(5, 16, working).sub(&arctan_of_one_over(239, 4, working));
    pi.coarser(scale)
}

/// `times × arctan(1/n)` by Gregory's series; each division is out by less than
/// one unit, and so is what is left when the terms reach zero.
fn arctan_of_one_over(n: u64, times: u64, scale: usize) -> Fixed {
    let mut power = (IBig::from(times) << scale) / IBig::from(n);
    let square = IBig::from(n * n);
    let (mut sum, mut odd, mut units) = (IBig::ZERO, 1u64, 2u64);
    while !power.is_zero() {
        let term = &power / IBig::from(odd);
        if odd % 4 == 1 {
            sum += term;
        } else {
            sum -= term;
        }
        power /= &square;
        odd += 2;
        units += 3;
    }
    Fixed { lo: sum.clone(), hi: sum, scale }.widened(units)
}

/// An angle in degrees, from 0 to 45, in radians.
fn radians(angle: &Rational, scale: usize) -> Fixed {
    pi(scale).mul(&Fixed::rational(angle, scale)).over(180)
}

/// The sum of first × (−x²)^k / (from (from+1) ...), for x < 1: the terms fall
/// and alternate, so what is left out is less than the first term left out.
fn alternating(first: Fixed, square: &Fixed, from: u64) -> Fixed {
    let (mut sum, mut term, mut n, mut negative) = (first.clone(), first, from, true);
    loop {
        term = term.mul(square).over(n * (n + 1));
        sum = if negative { sum.sub(&term) } else { sum.add(&term) };
        if term.hi <= IBig::ONE {
            return sum.widened(2);
        }
        n += 2;
        negative = !negative;
    }
}

/// The sine of an angle from 0 to 45 degrees.
pub(crate) fn sin_of_small(angle: &Rational, scale: usize) -> Fixed {
    let x = radians(angle, scale + 16);
    alternating(x.clone(), &x.mul(&x), 2).coarser(scale)
}

/// The cosine of an angle from 0 to 45 degrees.
pub(crate) fn cos_of_small(angle: &Rational, scale: usize) -> Fixed {
    let x = radians(angle, scale + 16);
    alternating(Fixed::whole(1, scale + 16), &x.mul(&x), 1).coarser(scale)
}

/// The sine of any angle.
pub(crate) fn sin_of(angle: &Rational, scale: usize) -> Fixed {
    let Octant { negative, cosine, angle } = octant_of_sine(angle);
    let size = if cosine { cos_of_small(&angle, scale) } else { sin_of_small(&angle, scale) };
    if negative { size.neg() } else { size }
}
