//! The answers, as they are to be given.

use crate::angles::angle_form;
use crate::direction::{capital, ways};
use crate::form::{Closeness, form};
use crate::shown::unit;
use crate::view::View;
use crate::work::{Answered, Settings};
use exact::{Angle, Math, Sign};
use model::{Ask, BodyId, Diagnostic, Kind, QuantityId, Refusal, Situation, Wanted};
use std::collections::BTreeSet;

/// The answer to one ask; `from_g` are the quantities that rest on a decimal value of g.
pub(crate) fn answered(
    situation: &Situation,
    number: usize,
    ask: &Ask,
    view: Option<&View<'_>>,
    finding: Option<&Result<motion::Finding, Diagnostic>>,
    from_g: &BTreeSet<QuantityId>,
    settings: &Settings,
) -> Answered {
    let mut answer = Answered {
        ask: number,
        part: ask.part.clone(),
        asked: ask.phrase.clone(),
        quantity: "statement".to_owned(),
        value: None,
        exact: String::new(),
        unit_ascii: String::new(),
        shown: String::new(),
        shown_math: Math::Row(Vec::new()),
        text: String::new(),
        refused: None,
    };
    if let Wanted::Statement(_) = ask.wanted {
        return answer;
    }
    let Some(view) = view else {
        answer.refused = Some(
            Diagnostic::refuse(
                Refusal::Undetermined,
                "the motion that this part asks about could not be worked out",
            )
            .at(ask.span),
        );
        return answer;
    };
    if let Some(range) = view.range {
        crate::range::answer(&mut answer, view, range, ask, settings.figures);
        return answer;
    }
    if let Some(found) = finding {
        match found {
            Ok(found) => answer.text = format!("{}.", capital(&found.says)),
            Err(refused) => answer.refused = Some(refused.clone()),
        }
        return answer;
    }
    match motion::answer(situation, view.told, ask) {
        Ok(found) => {
            answer.text = words(view, ask, &found);
            if let Some(angle) = &found.angle {
                let close = Closeness::of(ask, settings.figures, true);
                if let Some(shown) = angle_form(angle, close) {
                    answer.quantity = found.quantity.to_owned();
                    answer.exact = in_algebra(angle);
                    answer.unit_ascii = unit(Kind::Angle).0.to_owned();
                    answer.shown = shown.ascii;
                    answer.shown_math = shown.math;
                    answer.value = found.value;
                }
            } else if let Some(value) = found.value {
                let id = source(view, ask);
                let kind = kind(situation, ask, id);
                // What is to be shown is given as it is to be shown.
                let value = ask.show.clone().unwrap_or(value);
                let close = Closeness::of(ask, settings.figures, id.is_none_or(|id| from_g.contains(&id)));
                let shown = form(&value, kind, close);
                answer.quantity = found.quantity.to_owned();
                answer.exact = value.to_string();
                answer.unit_ascii = unit(kind).0.to_owned();
                answer.shown = shown.ascii;
                answer.shown_math = shown.math;
                answer.value = Some(value);
            }
        }
        Err(refused) => answer.refused = Some(refused),
    }
    if answer.refused.is_none() && !matches!(ask.wanted, Wanted::Effect { .. }) {
        let provided = crate::provided::provided(view);
        let said = answer.text.trim_end_matches('.').to_owned();
        answer.text = match (said.is_empty(), provided.is_empty()) {
            (_, true) => answer.text,
            (true, false) => format!("{}.", capital(&provided)),
            (false, false) => format!("{said}, {provided}."),
        };
    }
    answer
}

/// An angle as plain algebra, in degrees.
fn in_algebra(angle: &Angle) -> String {
    match angle {
        Angle::Degrees(degrees) => degrees.to_string(),
        Angle::Sin(v) => format!("arcsin({v})"),
        Angle::Cos(v) => format!("arccos({v})"),
        Angle::Tan(v) => format!("arctan({v})"),
    }
}

/// The quantity that an answer is read from.
fn source(view: &View<'_>, ask: &Ask) -> Option<QuantityId> {
    let stage = view.stage()?;
    match &ask.wanted {
        Wanted::Quantity(q) | Wanted::Magnitude(q) => Some(view.standing_for(*q)),
        Wanted::Deceleration(b) | Wanted::WhichWay(b) | Wanted::AccelerationWay(b) => {
            view.acceleration_of(*b)
        }
        Wanted::TensionOrThrust(l) => stage.links.get(l.0).copied(),
        Wanted::PulleyForce(p) => {
            let over = view.situation.links_in(view.solved.stage).find(|(_, l)| l.pulleys.contains(p));
            over.and_then(|(id, _)| stage.links.get(id.0)).copied()
        }
        Wanted::Range(_)
        | Wanted::Effect { .. }
        | Wanted::WhetherItMoves
        | Wanted::Whether { .. }
        | Wanted::Statement(_) => None,
    }
}

/// What sort of quantity the answer is.
fn kind(situation: &Situation, ask: &Ask, id: Option<QuantityId>) -> Kind {
    match ask.wanted {
        Wanted::Deceleration(_) => Kind::Acceleration,
        Wanted::PulleyForce(_) => Kind::PulleyForce,
        _ => id.and_then(|id| situation.quantity(id)).map_or(Kind::Number, |q| q.kind),
    }
}

/// What is said beside the value: words that are asked for, and the direction of an acceleration.
fn words(view: &View<'_>, ask: &Ask, found: &motion::Answer) -> String {
    if !found.says.is_empty() {
        return format!("{}.", capital(found.says.trim_end_matches('.')));
    }
    let (Wanted::Quantity(id) | Wanted::Magnitude(id)) = ask.wanted else { return String::new() };
    let own = view.stage().map(|s| s.accelerations.as_slice()).unwrap_or(&[]);
    let Some(body) = own.iter().position(|a| *a == id).map(BodyId) else { return String::new() };
    let way = ways(view, body);
    match found.value.as_ref().and_then(motion::sign_with_positive_letters) {
        Some(Sign::Positive) if way.with != "forwards" => format!("{}.", capital(way.with)),
        Some(Sign::Negative) => format!("{}: it slows down.", capital(way.against)),
        _ => String::new(),
    }
}
