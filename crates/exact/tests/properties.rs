//! Laws that values, enclosures and roundings obey, on random cases.
#![allow(clippy::unwrap_used, clippy::panic, reason = "helpers of tests may fail loudly")]
use exact::linear::{self, Outcome};
use exact::{
    Angle, Enclosure, ExactError, Rational, Sign, Value, degrees_of_tan, round_places, round_significant,
};
use proptest::prelude::*;

fn frac(n: i64, d: i64) -> Value {
    Rational::new(n, d).map_or_else(Value::zero, Value::rational)
}

/// A small expression in letters, roots and an angle.
fn expression() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        3 => (-9i64..10, 1i64..6).prop_map(|(n, d)| frac(n, d)),
        3 => prop_oneof![Just("m"), Just("k"), Just("g")].prop_map(Value::symbol),
        1 => (2i64..12).prop_map(|n| Value::from_int(n).sqrt().unwrap()),
        1 => prop_oneof![Just(20i64), Just(60), Just(70)].prop_map(|a| Value::sin_deg(&Rational::from_int(a))),
    ];
    leaf.prop_recursive(3, 10, 2, |inner| {
        (inner.clone(), inner, 0..4).prop_map(|(a, b, op)| match op {
            0 => a + b,
            1 => a - b,
            2 => a * b,
            _ => a.checked_div(&b).unwrap_or(a),
        })
    })
}

/// The same without letters.
fn number() -> impl Strategy<Value = Value> {
    expression().prop_map(|v| {
        let v = v.substitute("m", &frac(3, 2)).and_then(|v| v.substitute("k", &frac(7, 3)));
        v.and_then(|v| v.substitute("g", &frac(49, 5))).unwrap_or_else(|_| Value::one())
    })
}

/// A double worked out apart from this crate's own arithmetic: its plain
/// algebra, read by the small calculator below.
fn as_double(v: &Value) -> f64 {
    let text = v.to_string();
    let mut calculator = Calculator { text: text.chars().filter(|c| *c != ' ').collect(), at: 0 };
    calculator.sum()
}

struct Calculator {
    text: Vec<char>,
    at: usize,
}

impl Calculator {
    fn peek(&self) -> char {
        self.text.get(self.at).copied().unwrap_or('\0')
    }
    fn take(&mut self, c: char) -> bool {
        let found = self.peek() == c;
        self.at += usize::from(found);
        found
    }
    fn sum(&mut self) -> f64 {
        let mut total = if self.take('-') { -self.product() } else { self.product() };
        loop {
            if self.take('+') {
                total += self.product();
            } else if self.take('-') {
                total -= self.product();
            } else {
                return total;
            }
        }
    }
    fn product(&mut self) -> f64 {
        let mut total = self.power();
        loop {
            if self.take('*') {
                total *= self.power();
            } else if self.take('/') {
                total /= self.power();
            } else {
                return total;
            }
        }
    }
    fn power(&mut self) -> f64 {
        let base = self.factor();
        if self.take('^') { base.powf(self.factor()) } else { base }
    }
    fn factor(&mut self) -> f64 {
        let mut word = String::new();
        while self.peek().is_alphanumeric() || self.peek() == '_' || self.peek() == '.' {
            word.push(self.peek());
            self.at += 1;
        }
        if self.take('(') {
            let inside = self.sum();
            self.take('°');
            assert!(self.take(')'), "brackets close");
            return match word.as_str() {
                "sqrt" => inside.sqrt(),
                "sin" => inside.to_radians().sin(),
                "cos" => inside.to_radians().cos(),
                _ => inside,
            };
        }
        match word.as_str() {
            "m" => 1.5,
            "k" => 7.0 / 3.0,
            "g" => 9.8,
            digits => digits.parse().unwrap(),
        }
    }
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-7 * (1.0 + a.abs().max(b.abs()))
}

/// So many random cases, or as many as `PROPTEST_CASES` asks for.
fn config(cases: u32) -> ProptestConfig {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    ProptestConfig { cases: asked.unwrap_or(cases), failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config(200))]

    #[test]
    fn values_form_a_field(a in expression(), b in expression(), c in expression()) {
        let (sum, product) = (&a * (&b + &c), (&a * &b) * &c);
        prop_assume!(!sum.is_too_large() && !product.is_too_large());
        prop_assert_eq!(&a + &b, &b + &a);
        prop_assert_eq!(&a * &b, &b * &a);
        prop_assert_eq!((&a + &b) - &b, a.clone());
        prop_assert_eq!((&a + &b) + &c, &a + (&b + &c));
        prop_assert_eq!(product, &a * (&b * &c));
        prop_assert_eq!(sum, &a * &b + &a * &c);
        match a.checked_div(&b) {
            Ok(quotient) => {
                let back = &quotient * &b;
                prop_assert!(back == a || back.is_too_large());
            }
            Err(ExactError::DivisionByZero) => prop_assert!(b.is_zero()),
            Err(error) => prop_assert_eq!(error, ExactError::TooLarge),
        }
    }

    #[test]
    fn the_same_value_has_the_same_form(a in expression(), b in expression()) {
        let one = (&a + &b) * (&a - &b);
        let other = &a * &a - &b * &b;
        prop_assume!(!one.is_too_large() && !other.is_too_large());
        prop_assert_eq!(one.to_string(), other.to_string());
        prop_assert_eq!(one, other);
    }

    #[test]
    fn plain_algebra_means_the_value(a in expression()) {
        let number = ["m", "k", "g"].iter().zip([frac(3, 2), frac(7, 3), frac(49, 5)])
            .try_fold(a.clone(), |v, (letter, by)| v.substitute(letter, &by));
        if let Ok(number) = number {
            let (written, worked) = (as_double(&a), number.to_f64().unwrap());
            prop_assert!(near(written, worked), "{a} is {written}, not {worked}");
        }
    }

    #[test]
    fn a_root_squared_is_the_value(a in number()) {
        match a.sqrt() {
            Ok(root) => {
                prop_assert_eq!((&root * &root).cmp_exact(&a), Ok(std::cmp::Ordering::Equal));
                prop_assert_ne!(root.sign(), Ok(Sign::Negative));
            }
            Err(error) => prop_assert_eq!(a.sign(), Ok(Sign::Negative), "{}", error),
        }
    }

    #[test]
    fn a_square_has_its_root(a in number()) {
        let size = if a.sign() == Ok(Sign::Negative) { -&a } else { a.clone() };
        let root = (&a * &a).sqrt().unwrap();
        prop_assert_eq!(root.cmp_exact(&size), Ok(std::cmp::Ordering::Equal));
    }

    #[test]
    fn enclosures_hold_the_number(a in number(), bits in 10u32..200) {
        let range = a.enclose(bits).unwrap();
        let (lo, hi) = (range.lo().to_f64(), range.hi().to_f64());
        let double = as_double(&a);
        prop_assert!(lo <= double + 1e-7 * (1.0 + double.abs()) && double <= hi + 1e-7 * (1.0 + double.abs()));
        let narrower = a.enclose(bits + 40).unwrap();
        prop_assert!(range.lo() <= narrower.hi() && narrower.lo() <= range.hi());
        prop_assert!(range.width() <= Rational::from_int(2).pow(-(bits as i32)).unwrap());
    }

    #[test]
    fn interval_arithmetic_holds_every_member(
        a in -50i64..50, wide_a in 0i64..20, b in -50i64..50, wide_b in 0i64..20, t in 0i64..=8, u in 0i64..=8,
    ) {
        let r = |n: i64, d: i64| Rational::new(n, d).unwrap();
        let x = Enclosure::new(r(a, 8), r(a + wide_a, 8)).unwrap();
        let y = Enclosure::new(r(b, 8), r(b + wide_b, 8)).unwrap();
        let (p, q) = (x.lo() + x.width() * r(t, 8), y.lo() + y.width() * r(u, 8));
        prop_assert!(x.add(&y).contains(&(&p + &q)));
        prop_assert!(x.sub(&y).contains(&(&p - &q)));
        prop_assert!(x.mul(&y).contains(&(&p * &q)));
        if let Some(quotient) = x.div(&y) {
            prop_assert!(quotient.contains(&p.checked_div(&q).unwrap()));
        }
        let outward = x.rounded_outward(2);
        prop_assert!(outward.lo() <= x.lo() && x.hi() <= outward.hi());
        if p.signum() >= 0 {
            let root = x.sqrt(60).unwrap();
            prop_assert!(root.mul(&root).hi() >= &p);
            prop_assert!(root.lo() * root.lo() <= p);
        }
    }

    #[test]
    fn trigonometry_holds_the_double(degrees in -100_000i64..100_000, wide in 0i64..2_000) {
        let r = |n: i64| Rational::new(n, 100).unwrap();
        let x = Enclosure::new(r(degrees), r(degrees + wide)).unwrap();
        for step in 0..=4 {
            let inside = (degrees as f64 + wide as f64 * f64::from(step) / 4.0) / 100.0;
            for (range, double) in [
                (x.sin_deg(80), inside.to_radians().sin()),
                (x.cos_deg(80), inside.to_radians().cos()),
                (x.atan_deg(80), inside.atan().to_degrees()),
            ] {
                prop_assert!(range.lo().to_f64() <= double + 1e-9 && double - 1e-9 <= range.hi().to_f64());
            }
        }
        if wide == 0 {
            prop_assert!(x.sin_deg(80).width() < Rational::parse_decimal("1e-20").unwrap());
        }
    }

    #[test]
    fn sine_and_cosine_square_to_one(n in -1_000i64..1_000, d in 1i64..40) {
        let angle = Rational::new(n, d).unwrap();
        let (sine, cosine) = (Value::sin_deg(&angle), Value::cos_deg(&angle));
        prop_assert_eq!(&sine * &sine + &cosine * &cosine, Value::one());
        let double = angle.to_f64().to_radians();
        prop_assert!((sine.to_f64().unwrap() - double.sin()).abs() < 1e-11);
        prop_assert!((cosine.to_f64().unwrap() - double.cos()).abs() < 1e-11);
    }

    #[test]
    fn an_angle_is_found_again(n in -400i64..400, d in 1i64..60) {
        let tan = frac(n, d);
        let angle = Angle::Tan(tan.clone());
        let (sine, cosine) = (angle.sin().unwrap(), angle.cos().unwrap());
        prop_assert_eq!(sine.checked_div(&cosine).unwrap(), tan.clone());
        let range = degrees_of_tan(&tan, 60).unwrap();
        let double = (n as f64 / d as f64).atan().to_degrees();
        prop_assert!((range.middle().to_f64() - double).abs() < 1e-10);
        prop_assert!(range.width() < Rational::parse_decimal("1e-17").unwrap());
        let by_sine = Angle::Sin(sine).degrees_enclosure(60).unwrap();
        prop_assert!(by_sine.lo() <= range.hi() && range.lo() <= by_sine.hi());
        let by_cosine = Angle::Cos(cosine).degrees_enclosure(60).unwrap();
        prop_assert!((by_cosine.middle().to_f64() - double.abs()).abs() < 1e-10);
    }

    #[test]
    fn rounding_agrees_with_whole_numbers(n in any::<i64>(), d in 1i64..100_000, figures in 1u32..12) {
        let value = frac(n, d);
        let shown = round_significant(&value, figures).unwrap();
        let digits: String = shown.digits.chars().filter(char::is_ascii_digit).collect();
        let significant = digits.trim_start_matches('0');
        if n != 0 {
            prop_assert!(significant.len() >= figures as usize);
            prop_assert!(significant[figures as usize..].chars().all(|c| c == '0'));
            // Half a unit of the last figure kept is the most that may be lost.
            let rounded = Rational::parse_decimal(&shown.digits).unwrap();
            let exact = Rational::new(n, d).unwrap();
            let lost = (&rounded - &exact).abs();
            let mut unit = Rational::ONE;
            let ten = Rational::from_int(10);
            while &unit * &ten <= exact.abs() { unit *= &ten; }
            while unit > exact.abs() { unit = unit.checked_div(&ten).unwrap(); }
            for _ in 1..figures { unit = unit.checked_div(&ten).unwrap(); }
            prop_assert!(&lost + &lost <= unit);
            prop_assert_eq!(shown.half, &lost + &lost == unit);
            prop_assert_eq!(shown.exact, lost.is_zero());
            if shown.half {
                prop_assert!(rounded.abs() > exact.abs());
            }
        }
    }

    #[test]
    fn places_agree_with_decimals(n in any::<i64>(), d in 1i64..1_000, places in 0u32..9) {
        let exact = Rational::new(n, d).unwrap();
        prop_assert_eq!(round_places(&Value::rational(exact.clone()), places).unwrap().digits, exact.to_decimal(places));
    }

    #[test]
    fn roundings_of_surds_agree_with_doubles(n in 2i64..100_000, figures in 1u32..9) {
        let root = Value::from_int(n).sqrt().unwrap();
        let shown = round_significant(&root, figures).unwrap();
        let double = (n as f64).sqrt();
        let slack = double * 10f64.powi(1 - figures as i32);
        prop_assert!((shown.digits.parse::<f64>().unwrap() - double).abs() <= slack);
    }

    #[test]
    fn a_solution_satisfies_its_equations(
        entries in proptest::collection::vec(-4i64..5, 20), rights in proptest::collection::vec(-9i64..10, 4),
        rows in 1usize..5, columns in 1usize..5, letters in any::<bool>(),
    ) {
        let k = if letters { Value::symbol("k") } else { frac(3, 2) };
        let cell = |i: usize| if entries[i] == 4 { k.clone() } else { Value::from_int(entries[i]) };
        let matrix: Vec<Vec<Value>> = (0..rows).map(|r| (0..columns).map(|c| cell(r * columns + c)).collect()).collect();
        let right: Vec<Value> = (0..rows).map(|r| Value::from_int(rights[r])).collect();
        match linear::solve(&matrix, &right).unwrap() {
            Outcome::Unique(found) => {
                for (row, b) in matrix.iter().zip(&right) {
                    let total: Value = row.iter().zip(&found).map(|(a, x)| a * x).sum();
                    prop_assert_eq!(&total, b);
                }
            }
            Outcome::Underdetermined { particular, free } => {
                prop_assert!(!free.is_empty());
                // Choosing the free unknowns fixes the rest, and what was fixed already stays.
                let mut wide = matrix.clone();
                let mut more = right.clone();
                for (i, c) in free.iter().enumerate() {
                    wide.push((0..columns).map(|j| Value::from_int(i64::from(j == *c))).collect());
                    more.push(Value::from_int(5 + i as i64));
                }
                let Outcome::Unique(found) = linear::solve(&wide, &more).unwrap() else {
                    return Err(TestCaseError::fail("free unknowns fix the others"));
                };
                for (fixed, x) in particular.iter().zip(&found) {
                    if let Some(fixed) = fixed {
                        prop_assert_eq!(fixed, x);
                    }
                }
            }
            Outcome::Inconsistent { row } => {
                prop_assert!(row < rows);
                let rest: Vec<Vec<Value>> = matrix[..row].to_vec();
                if let Outcome::Unique(found) = linear::solve(&rest, &right[..row]).unwrap() {
                    let total: Value = matrix[row].iter().zip(&found).map(|(a, x)| a * x).sum();
                    prop_assert_ne!(&total, &right[row]);
                }
            }
        }
    }
}
