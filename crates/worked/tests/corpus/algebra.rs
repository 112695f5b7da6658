//! The value of plain algebra, in floating point: for comparing answers in tests, never for finding them.

/// Numbers, letters, `+ - * / ^`, brackets, `sqrt()`, `sin()`, `cos()`, `arcsin()` and its like (in degrees),
/// `pi`. An angle is in degrees if it is a plain
/// number or has the sign °; with `pi` in it, in radians.
pub(crate) fn value(text: &str, letter: &mut impl FnMut(&str) -> f64) -> Result<f64, String> {
    let mut reader = Reader { rest: text.trim(), letter };
    let value = reader.sum()?;
    if reader.rest.is_empty() { Ok(value) } else { Err(format!("left over: {}", reader.rest)) }
}

struct Reader<'a, L> {
    rest: &'a str,
    letter: &'a mut L,
}

impl<'a, L: FnMut(&str) -> f64> Reader<'a, L> {
    fn take(&mut self, sign: char) -> bool {
        let Some(rest) = self.rest.strip_prefix(sign) else { return false };
        self.rest = rest.trim_start();
        true
    }

    fn sum(&mut self) -> Result<f64, String> {
        let mut sum = if self.take('-') { -self.product()? } else { self.product()? };
        loop {
            if self.take('+') {
                sum += self.product()?;
            } else if self.take('-') {
                sum -= self.product()?;
            } else {
                return Ok(sum);
            }
        }
    }

    fn product(&mut self) -> Result<f64, String> {
        let mut product = self.power()?;
        loop {
            if self.take('*') {
                product *= self.power()?;
            } else if self.take('/') {
                product /= self.power()?;
            } else {
                return Ok(product);
            }
        }
    }

    fn power(&mut self) -> Result<f64, String> {
        let base = self.piece()?;
        if !self.take('^') {
            return Ok(base);
        }
        let down = self.take('-');
        let exponent = self.piece()?;
        Ok(base.powf(if down { -exponent } else { exponent }))
    }

    fn piece(&mut self) -> Result<f64, String> {
        if self.take('(') {
            return self.closed();
        }
        let digits = self.word(|c| c.is_ascii_digit() || c == '.');
        if !digits.is_empty() {
            return digits.parse().map_err(|_| format!("no number: {digits}"));
        }
        let name = self.word(|c| c.is_alphanumeric() || matches!(c, '_' | '#'));
        match name {
            "" => Err(format!("nothing to read at: {}", self.rest)),
            "pi" => Ok(std::f64::consts::PI),
            "sqrt" | "sin" | "cos" | "arcsin" | "arccos" | "arctan" => {
                if !self.take('(') {
                    return Err(format!("no bracket after {name}"));
                }
                let before = self.rest;
                let inside = self.closed()?;
                let argument = &before[..before.len() - self.rest.len()];
                let turned = if argument.contains("pi") { inside } else { inside.to_radians() };
                Ok(match name {
                    "sqrt" => inside.sqrt(),
                    "sin" => turned.sin(),
                    "arcsin" => inside.asin().to_degrees(),
                    "arccos" => inside.acos().to_degrees(),
                    "arctan" => inside.atan().to_degrees(),
                    _ => turned.cos(),
                })
            }
            name => Ok((self.letter)(name)),
        }
    }

    /// What stands up to the closing bracket.
    fn closed(&mut self) -> Result<f64, String> {
        let inside = self.sum()?;
        self.take('°');
        if self.take(')') { Ok(inside) } else { Err(format!("no closing bracket at: {}", self.rest)) }
    }

    fn word(&mut self, belongs: impl Fn(char) -> bool) -> &'a str {
        let end = self.rest.find(|c| !belongs(c)).unwrap_or(self.rest.len());
        let (word, rest) = self.rest.split_at(end);
        self.rest = rest.trim_start();
        word
    }
}
