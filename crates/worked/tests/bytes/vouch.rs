//! What must hold of any situation: it is worked out or refused with a reason, every stage that is solved satisfies its
//! own equations, and every decimal shown is within half a unit of its last place of the value, by an enclosure of it.

use exact::{Rational, Value};
use model::Situation;
use words::Reading;
use worked::{Settings, work_situation};

/// Works a situation out with all the core.
///
/// # Errors
/// What is wrong with what came out, in words.
pub(crate) fn vouch(situation: &Situation) -> Result<bool, String> {
    let sound = situation.check().is_empty();
    for (n, stage) in motion::solve_story(situation, 0).into_iter().enumerate() {
        if let Err(refusals) = &stage
            && (refusals.is_empty() || refusals.iter().any(|d| d.message.is_empty() || d.refusal.is_none()))
            && sound
        {
            return Err(format!("stage {n} is refused without a reason"));
        }
        let Ok(solved) = stage else { continue };
        for ask in &situation.asks {
            let _ = motion::answer(situation, &solved, ask);
        }
    }
    let reading = Reading { situation: situation.clone(), ..Reading::default() };
    let worked = work_situation("", reading, &Settings::default());
    if worked.work.is_none() && worked.refusal().is_none() {
        return Err("neither answered nor refused".to_owned());
    }
    let answers = worked.work.iter().flat_map(|w| &w.answers);
    for answer in answers {
        if let Some(value) = answer.value.as_ref().filter(|v| v.is_number()) {
            digits(value, &answer.shown, &answer.unit_ascii)?;
        }
    }
    Ok(worked.answered())
}

/// Is the decimal at the head of `shown` the value to its last place?
fn digits(value: &Value, shown: &str, unit: &str) -> Result<(), String> {
    let bare = shown.replace('−', "-");
    let head: String = bare.chars().take_while(|c| c.is_ascii_digit() || "-.".contains(*c)).collect();
    let rest = bare.get(head.len()..).unwrap_or_default().trim();
    // Fractions, roots and powers of ten are formulas, and proved as such.
    let plain = rest.is_empty() || (rest.starts_with(|c: char| c.is_alphabetic()) && !unit.is_empty());
    let Some(decimal) = Rational::parse_decimal(&head).filter(|_| plain) else { return Ok(()) };
    let places = head.split_once('.').map_or(0, |(_, part)| part.len());
    // Whole numbers may end in noughts that only fill up.
    let noughts = if places == 0 { head.len() - head.trim_end_matches('0').len() } else { 0 };
    let power = i32::try_from(noughts).unwrap_or(0) - i32::try_from(places).unwrap_or(0);
    let half = Rational::from_int(10).pow(power).and_then(|u| u.checked_div(&Rational::from_int(2)));
    let (Some(half), Ok(range)) = (half, value.enclose(400)) else { return Ok(()) };
    let off = |end: &Rational| (end - &decimal).abs();
    let sliver = Rational::new(1, 1 << 60).unwrap_or(Rational::ONE);
    let most = &half + &sliver;
    if off(range.lo()) > most || off(range.hi()) > most {
        return Err(format!("{value} is shown as {shown}"));
    }
    Ok(())
}
