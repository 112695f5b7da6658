//! Arctangents, certified.
use crate::fixed::Fixed;
use crate::rational::Rational;
use crate::trig::pi;
use dashu_int::IBig;

/// The arctangent in degrees, between −90 and 90, of any fraction.
pub(crate) fn degrees(tan: &Rational, scale: usize) -> Fixed {
    let working = scale + 24;
    if tan.signum() < 0 {
        return degrees(&-tan, scale).neg();
    }
    let range = match tan.recip() {
        // arctan t = 90° − arctan(1/t).
        Some(inverse) if *tan > Rational::ONE => {
            Fixed::whole(90, working).sub(&of_small(Fixed::rational(&inverse, working)))
        }
        _ => of_small(Fixed::rational(tan, working)),
    };
    range.coarser(scale)
}

/// For 0 ≤ t ≤ 1: halves the angle three times, t → t / (1 + √(1 + t²)), then
/// sums t − t³/3 + t⁵/5 − ..., whose terms fall and alternate.
fn of_small(mut t: Fixed) -> Fixed {
    let scale = t.scale;
    let one = Fixed::whole(1, scale);
    for _ in 0..3 {
        let halved = one.add(&t.mul(&t)).sqrt().and_then(|root| t.div(&one.add(&root)));
        // 1 + √(1 + t²) is at least 2, so there is a quotient.
        t = halved.unwrap_or(t);
    }
    let square = t.mul(&t);
    let (mut sum, mut power, mut odd) = (t.clone(), t, 1u64);
    loop {
        power = power.mul(&square);
        odd += 2;
        let term = power.over(odd);
        sum = if odd % 4 == 3 { sum.sub(&term) } else { sum.add(&term) };
        if term.hi <= IBig::ONE {
            break;
        }
    }
    let radians = sum.widened(2);
    let degrees = radians.mul(&Fixed::whole(8 * 180, scale)).div(&pi(scale));
    degrees.unwrap_or(radians)
}
