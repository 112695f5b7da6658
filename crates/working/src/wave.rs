//! A sin θ + B cos θ = C: both shares of the angle are written as one sine, √(A² + B²) sin(θ + β) with tan β = B/A.
//! Two angles have that sine; the one that is left out is named with its reason.

use crate::products::Atom;
use crate::shown::{Style, equals, signed, split, sum};
use crate::single::{Manner, line, times};
use crate::view::{View, same};
use crate::work::{Line, LineKind};
use exact::{Angle, Enclosure, ExactError, Math, Rational, Sign, Value, round_places_with};
use model::QuantityId;

/// Letters for the angle that is put in.
const LETTERS: [&str; 6] = ["β", "φ", "γ", "δ", "ψ", "ω"];
/// How closely an angle is compared with 0° and 90°.
const BITS: u32 = 64;

/// An equation with all of an unknown angle on the left: so much of its sine and so much of its cosine is a number.
struct Wave {
    id: QuantityId,
    sine: Value,
    cosine: Value,
    number: Value,
    /// √(sine² + cosine²)
    height: Value,
}

/// From `sine × sin θ + cosine × cos θ + rest = 0` to the angle; `None` if a line cannot be proved.
pub(crate) fn lines(
    view: &View<'_>,
    id: QuantityId,
    [sine, cosine, rest]: [&Value; 3],
    manner: &Manner<'_>,
    before: Option<&str>,
) -> Option<Vec<Line>> {
    let style = manner.style;
    let turned = |v: &Value| if split(sine).0 { -v } else { v.clone() };
    let (mut sine, mut cosine, mut number) = (turned(sine), turned(cosine), -turned(rest));
    let (s, c) = (Atom::Sin(id).value(view)?, Atom::Cos(id).value(view)?);
    if !same(&(&sine * &s + &cosine * &c), &number) {
        return None;
    }
    let mut lines = Vec::new();
    let show = |lines: &mut Vec<Line>, words: String, math: Math| {
        if before != Some(math.plain().as_str()) || !words.is_empty() {
            let mut shown = line(LineKind::Rearranged, math, Vec::new());
            shown.before = words;
            lines.push(shown);
        }
    };
    let left = |sine: &Value, cosine: &Value| left(view, id, sine, cosine, style);
    let (shares, exact) = left(&sine, &cosine);
    let (value, exact_too) = signed(&number, style);
    show(&mut lines, String::new(), Math::row([shares, equals(exact && exact_too), value]));
    if ![&sine, &cosine, &number].iter().all(|v| v.is_number()) {
        // In letters: what they have in common is divided out.
        let by = Math::row([signed(&sine, style).0]).plain();
        (cosine, number) = (cosine.checked_div(&sine).ok()?, number.checked_div(&sine).ok()?);
        sine = Value::one();
        if !cosine.is_number() || !number.is_number() {
            return None;
        }
        let (shares, exact) = left(&sine, &cosine);
        let (value, exact_too) = signed(&number, style);
        show(
            &mut lines,
            format!("Dividing by {by}:"),
            Math::row([shares, equals(exact && exact_too), value]),
        );
    }
    let height = (&sine * &sine + &cosine * &cosine).sqrt().ok()?;
    let wave = Wave { id, sine, cosine, number, height };
    lines.extend(wave.as_one_sine(view, style)?);
    lines.extend(wave.angles(view, &s, &c, manner)?);
    Some(lines)
}

/// `49 sin θ − 12.25 cos θ`
fn left(view: &View<'_>, id: QuantityId, sine: &Value, cosine: &Value, style: Style<'_>) -> (Math, bool) {
    let (minus, first, exact) = times(sine, &Atom::Sin(id).math(view), style);
    let (minus_too, second, exact_too) = times(cosine, &Atom::Cos(id).math(view), style);
    (sum(vec![(minus, first), (minus_too, second)]), exact && exact_too)
}

/// An angle in degrees, as it is carried.
fn degrees(of: impl Fn(u32) -> Result<Enclosure, ExactError>, style: Style<'_>) -> Option<Math> {
    let decimal = round_places_with(of, style.figures.saturating_sub(2)).ok()?;
    let digits = decimal.digits.strip_prefix('-');
    let size = Math::row([Math::number(digits.unwrap_or(&decimal.digits)), Math::unit("°")]);
    Some(if digits.is_some() { Math::row([Math::op("−"), size]) } else { size })
}

fn letter_of_the_shift(view: &View<'_>) -> Option<&'static str> {
    let taken = |l: &str| {
        view.situation.quantities.iter().any(|q| q.letter == l)
            || view.situation.letters.iter().any(|k| k.symbol == l)
    };
    LETTERS.into_iter().find(|l| !taken(l))
}

impl Wave {
    fn minus(&self) -> bool {
        split(&self.cosine).0
    }
    /// The angle β, whose tangent is B/A without its sign.
    fn shift(&self) -> Option<Angle> {
        Some(Angle::Tan(split(&self.cosine).1.checked_div(&self.sine).ok()?))
    }
    /// θ + β or θ − β
    fn shifted(&self, view: &View<'_>, shift: Math) -> Math {
        let op = Math::op(if self.minus() { "−" } else { "+" });
        Math::row([Math::quantity(view.letter(self.id)), op, shift])
    }

    /// The lines from two shares to one sine.
    fn as_one_sine(&self, view: &View<'_>, style: Style<'_>) -> Option<Vec<Line>> {
        let beta = Math::quantity(letter_of_the_shift(view)?);
        let shift = self.shift()?;
        let (shares, _) = left(view, self.id, &self.sine, &self.cosine, style);
        let (first, exact) = signed(&self.sine, style);
        let (second, exact_too) = signed(&split(&self.cosine).1, style);
        let square = |math: Math| {
            let plain = matches!(math, Math::Number(_));
            Math::power(if plain { math } else { Math::paren(math) }, Math::number("2"))
        };
        let bare = |math: &Math| {
            if let Math::Row(row) = math { row.first().filter(|_| row.len() == 1).cloned() } else { None }
        };
        let (first, second) = (bare(&first).unwrap_or(first), bare(&second).unwrap_or(second));
        let root = Math::sqrt(Math::row([square(first.clone()), Math::op("+"), square(second.clone())]));
        let sine = |shift: Math| Math::row([Math::upright("sin"), Math::paren(self.shifted(view, shift))]);
        let equal = equals(exact && exact_too);
        let mut one = line(
            LineKind::Rearranged,
            Math::row([shares, equal.clone(), root, sine(beta.clone())]),
            Vec::new(),
        );
        one.before = "As one sine:".to_owned();
        let tan = Math::row([
            Math::upright("tan"),
            beta.clone(),
            equal,
            if self.sine == Value::one() { second } else { Math::frac(second, first) },
        ]);
        let mut tan = line(LineKind::Rearranged, tan, Vec::new());
        tan.before = "where".to_owned();
        let in_degrees = degrees(|bits| shift.degrees_enclosure(bits), style)?;
        let found =
            line(LineKind::Rearranged, Math::row([beta, equals(false), in_degrees.clone()]), Vec::new());
        let (_, term, exact) = times(&self.height, &sine(in_degrees.clone()), style);
        let (number, _) = signed(&self.number, style);
        let mut lines = vec![one, tan, found];
        if self.height != Value::one() {
            let math = Math::row([term, Math::op(if exact { "=" } else { "≈" }), number]);
            lines.push(line(LineKind::Rearranged, math, Vec::new()));
        }
        let (share, exact) = signed(&self.number.checked_div(&self.height).ok()?, style);
        let math = Math::row([sine(in_degrees), equals(exact), share]);
        lines.push(line(LineKind::Rearranged, math, Vec::new()));
        Some(lines)
    }

    /// Both angles with that sine, the one that is right, and why.
    fn angles(&self, view: &View<'_>, s: &Value, c: &Value, manner: &Manner<'_>) -> Option<Vec<Line>> {
        let style = manner.style;
        let shift = self.shift()?;
        let turn = Angle::Sin(self.number.checked_div(&self.height).ok()?);
        let half = || Enclosure::point(Rational::from_int(180));
        // The angle with this sine, or 180° less.
        let whole = |obtuse: bool, bits: u32| -> Result<Enclosure, ExactError> {
            let acute = turn.degrees_enclosure(bits)?;
            Ok(if obtuse { half().sub(&acute) } else { acute })
        };
        let angle = |obtuse: bool, bits: u32| -> Result<Enclosure, ExactError> {
            let (whole, shift) = (whole(obtuse, bits)?, shift.degrees_enclosure(bits)?);
            Ok(if self.minus() { whole.add(&shift) } else { whole.sub(&shift) })
        };
        // The cosine of θ + β says which of the two it is.
        let across = &self.sine * c - &self.cosine * s;
        let obtuse = match across.sign().ok()? {
            Sign::Zero => None,
            Sign::Positive => Some(false),
            Sign::Negative => Some(true),
        };
        let letter = Math::quantity(view.letter(self.id));
        let mut found = crate::angles::results(view, self.id, manner)?;
        let in_degrees = degrees(|bits| shift.degrees_enclosure(bits), style)?;
        let mut row = vec![self.shifted(view, in_degrees), equals(false)];
        let Some(obtuse) = obtuse else {
            row.push(degrees(|bits| whole(false, bits), style)?);
            let mut lines = vec![line(LineKind::Rearranged, Math::Row(row), Vec::new())];
            lines.extend(found);
            return Some(lines);
        };
        let or = || Math::upright("or");
        row.extend([degrees(|b| whole(false, b), style)?, or(), degrees(|b| whole(true, b), style)?]);
        let mut lines = vec![line(LineKind::Rearranged, Math::Row(row), Vec::new())];
        let other = degrees(|bits| angle(!obtuse, bits), style)?;
        let both = Math::row([
            letter.clone(),
            equals(false),
            degrees(|bits| angle(false, bits), style)?,
            or(),
            letter.clone(),
            equals(false),
            degrees(|bits| angle(true, bits), style)?,
        ]);
        lines.push(line(LineKind::Rearranged, both, Vec::new()));
        let enclosure = angle(!obtuse, BITS).ok()?;
        let why = if enclosure.lo() > &Rational::from_int(90) {
            format!("{} is more than 90°, so", other.plain())
        } else if enclosure.hi() < &Rational::ZERO {
            format!("{} is below 0°, so", other.plain())
        } else {
            format!("{} does not agree with the other equations, so", other.plain())
        };
        if let Some(first) = found.first_mut() {
            first.before = why;
        }
        lines.extend(found);
        Some(lines)
    }
}
