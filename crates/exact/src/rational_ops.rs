//! `+ − ×` for fractions, owned or borrowed.
use crate::big;
use crate::rational::{Rational, Repr, add_small, mul_small};
use core::iter::{Product, Sum};
use core::ops::{Add, AddAssign, Mul, MulAssign, Neg, Sub, SubAssign};

#[inline]
fn add(x: &Rational, y: &Rational) -> Rational {
    match (&x.0, &y.0) {
        (Repr::Small { num: a, den: b }, Repr::Small { num: c, den: d }) => add_small(*a, *b, *c, *d),
        _ => big::shrink(x.to_rbig() + y.to_rbig()),
    }
}

#[inline]
fn sub(x: &Rational, y: &Rational) -> Rational {
    match (&x.0, &y.0) {
        (Repr::Small { num: a, den: b }, Repr::Small { num: c, den: d }) => add_small(*a, *b, -*c, *d),
        _ => big::shrink(x.to_rbig() - y.to_rbig()),
    }
}

#[inline]
fn mul(x: &Rational, y: &Rational) -> Rational {
    match (&x.0, &y.0) {
        (Repr::Small { num: a, den: b }, Repr::Small { num: c, den: d }) => mul_small(*a, *b, *c, *d),
        _ => big::shrink(x.to_rbig() * y.to_rbig()),
    }
}

macro_rules! four_ways {
    ($ty:ty, $trait:ident, $method:ident, $assign:ident, $assign_method:ident, $by:path) => {
        impl $trait for $ty {
            type Output = $ty;
            #[inline]
            fn $method(self, other: $ty) -> $ty {
                $by(&self, &other)
            }
        }
        impl $trait<&$ty> for $ty {
            type Output = $ty;
            #[inline]
            fn $method(self, other: &$ty) -> $ty {
                $by(&self, other)
            }
        }
        impl $trait<$ty> for &$ty {
            type Output = $ty;
            #[inline]
            fn $method(self, other: $ty) -> $ty {
                $by(self, &other)
            }
        }
        impl $trait<&$ty> for &$ty {
            type Output = $ty;
            #[inline]
            fn $method(self, other: &$ty) -> $ty {
                $by(self, other)
            }
        }
        impl $assign for $ty {
            #[inline]
            fn $assign_method(&mut self, other: $ty) {
                *self = $by(self, &other);
            }
        }
        impl $assign<&$ty> for $ty {
            #[inline]
            fn $assign_method(&mut self, other: &$ty) {
                *self = $by(self, other);
            }
        }
    };
}
pub(crate) use four_ways;

four_ways!(Rational, Add, add, AddAssign, add_assign, add);
four_ways!(Rational, Sub, sub, SubAssign, sub_assign, sub);
four_ways!(Rational, Mul, mul, MulAssign, mul_assign, mul);

impl Neg for &Rational {
    type Output = Rational;
    #[inline]
    fn neg(self) -> Rational {
        match &self.0 {
            Repr::Small { num, den } => Rational::small(-*num, *den),
            Repr::Big(b) => Rational(Repr::Big(Box::new(-(**b).clone()))),
        }
    }
}

impl Neg for Rational {
    type Output = Rational;
    #[inline]
    fn neg(self) -> Rational {
        -&self
    }
}

impl Sum for Rational {
    fn sum<I: Iterator<Item = Rational>>(items: I) -> Rational {
        items.fold(Rational::ZERO, |total, x| total + x)
    }
}

impl<'a> Sum<&'a Rational> for Rational {
    fn sum<I: Iterator<Item = &'a Rational>>(items: I) -> Rational {
        items.fold(Rational::ZERO, |total, x| total + x)
    }
}

impl Product for Rational {
    fn product<I: Iterator<Item = Rational>>(items: I) -> Rational {
        items.fold(Rational::ONE, |total, x| total * x)
    }
}

impl From<i64> for Rational {
    fn from(n: i64) -> Rational {
        Rational::from_int(n)
    }
}

impl From<i32> for Rational {
    fn from(n: i32) -> Rational {
        Rational::from_int(i64::from(n))
    }
}
