//! How to speak of the things of a question.

use crate::story::BodyTold;

/// `A`, `the truck`, `the second truck`, `the heavier block`.
pub(crate) fn of_body(body: &BodyTold) -> String {
    if let Some(label) = &body.label {
        return label.clone();
    }
    let which = match (body.heavier, body.order) {
        (Some(true), _) => "heavier ",
        (Some(false), _) => "lighter ",
        (None, Some(0)) => "first ",
        (None, Some(1)) => "second ",
        (None, Some(2)) => "third ",
        (None, Some(3)) => "fourth ",
        (None, Some(4)) => "fifth ",
        (None, Some(_)) => "other ",
        (None, None) => "",
    };
    format!("the {which}{}", body.noun)
}
