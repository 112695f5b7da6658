//! Whole-number work: greatest common divisors, primes, square factors.
use dashu_int::UBig;
use dashu_int::ops::SquareRootRem;

/// Greatest common divisor by shifts; `gcd(0, n) = n`.
#[inline]
pub(crate) fn gcd(mut a: u64, mut b: u64) -> u64 {
    if a == 0 {
        return b;
    }
    if b == 0 {
        return a;
    }
    let shift = (a | b).trailing_zeros();
    a >>= a.trailing_zeros();
    loop {
        b >>= b.trailing_zeros();
        if a > b {
            core::mem::swap(&mut a, &mut b);
        }
        b -= a;
        if b == 0 {
            return a << shift;
        }
    }
}

fn mul_mod(a: u64, b: u64, n: u64) -> u64 {
    (u128::from(a) * u128::from(b) % u128::from(n)) as u64
}

fn pow_mod(mut base: u64, mut exponent: u64, n: u64) -> u64 {
    let mut result = 1 % n;
    base %= n;
    while exponent > 0 {
        if exponent & 1 == 1 {
            result = mul_mod(result, base, n);
        }
        base = mul_mod(base, base, n);
        exponent >>= 1;
    }
    result
}

/// Whether `n` is prime: Miller and Rabin's test with the first twelve primes
/// as bases, which is proved to be exact below 3.3e24 (Sorenson and Webster, 2015).
pub(crate) fn is_prime(n: u64) -> bool {
    const BASES: [u64; 12] = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37];
    if n < 2 {
        return false;
    }
    for p in BASES {
        if n.is_multiple_of(p) {
            return n == p;
        }
    }
    let twos = (n - 1).trailing_zeros();
    let odd = (n - 1) >> twos;
    'bases: for a in BASES {
        let mut x = pow_mod(a, odd, n);
        if x == 1 || x == n - 1 {
            continue;
        }
        for _ in 1..twos {
            x = mul_mod(x, x, n);
            if x == n - 1 {
                continue 'bases;
            }
        }
        return false;
    }
    true
}

/// A proper factor of an odd composite `n`, by Pollard's rho.
fn some_factor(n: u64) -> Option<u64> {
    for c in 1..8u64 {
        let step = |x: u64| ((u128::from(x) * u128::from(x) + u128::from(c)) % u128::from(n)) as u64;
        let (mut slow, mut fast) = (2 % n, 2 % n);
        for _ in 0..200_000 {
            slow = step(slow);
            fast = step(step(fast));
            match gcd(slow.abs_diff(fast), n) {
                1 => {}
                d if d == n => break,
                d => return Some(d),
            }
        }
    }
    None
}

/// The primes of `n` with multiplicity, smallest first; `None` if one resists.
fn primes_of(mut n: u64) -> Option<Vec<u64>> {
    let mut primes = Vec::new();
    let mut p = 2u64;
    while p < 1_000 && p * p <= n {
        while n.is_multiple_of(p) {
            primes.push(p);
            n /= p;
        }
        p += if p == 2 { 1 } else { 2 };
    }
    let mut rest = vec![n];
    while let Some(m) = rest.pop() {
        if m == 1 {
            continue;
        }
        if is_prime(m) {
            primes.push(m);
        } else {
            let d = some_factor(m)?;
            rest.push(d);
            rest.push(m / d);
        }
    }
    primes.sort_unstable();
    Some(primes)
}

/// `n = root² × product of odd parts`: the odd parts are distinct primes, or one
/// large factor that was not split.
pub(crate) struct SquareSplit {
    pub(crate) root: UBig,
    pub(crate) odd: Vec<UBig>,
}

/// Takes the square factors out of a positive whole number.
pub(crate) fn split_square(n: &UBig) -> SquareSplit {
    let mut root = UBig::ONE;
    let mut odd = Vec::new();
    let mut take = |p: UBig, times: usize, root: &mut UBig| {
        for _ in 0..times / 2 {
            *root *= &p;
        }
        if times % 2 == 1 {
            odd.push(p);
        }
    };
    let mut rest = n.clone();
    if u64::try_from(&rest).is_err() {
        // Take small primes out of a large number; what remains may fit a word.
        let mut p = 2u64;
        while p < 2_000 {
            let mut times = 0;
            while (&rest % p) == 0 {
                rest /= p;
                times += 1;
            }
            if times > 0 {
                take(UBig::from(p), times, &mut root);
            }
            p += if p == 2 { 1 } else { 2 };
        }
    }
    match u64::try_from(&rest).ok().and_then(primes_of) {
        Some(primes) => {
            for run in primes.chunk_by(|a, b| a == b) {
                if let Some(p) = run.first() {
                    take(UBig::from(*p), run.len(), &mut root);
                }
            }
        }
        None => {
            let (whole, over) = rest.sqrt_rem();
            if over.is_zero() {
                root *= whole;
            } else {
                take(rest, 1, &mut root);
            }
        }
    }
    SquareSplit { root, odd }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn divisors_and_primes() {
        assert_eq!(gcd(0, 0), 0);
        assert_eq!(gcd(12, 18), 6);
        assert_eq!(gcd(u64::MAX, 5), 5);
        assert_eq!(primes_of(600_851_475_143), Some(vec![71, 839, 1471, 6857]));
        // The largest prime below 2^64 (Caldwell, "The Prime Pages").
        assert!(is_prime(18_446_744_073_709_551_557));
        assert!(!is_prime(3_215_031_751), "a strong pseudoprime to bases 2, 3, 5 and 7");
    }

    #[test]
    fn square_factors_come_out() {
        let split = split_square(&UBig::from(360u32));
        assert_eq!(split.root, UBig::from(6u32));
        assert_eq!(split.odd, [UBig::from(2u32), UBig::from(5u32)]);
        let large = UBig::from(1_000_000_007u64) * UBig::from(998_244_353u64);
        let split = split_square(&(&large * &large * UBig::from(3u32)));
        assert_eq!(split.odd.first(), Some(&UBig::from(3u32)));
    }
}
