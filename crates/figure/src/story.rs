//! The scene in words.

use crate::text::Text;
use crate::told::{self, Kept};
use crate::track::Setting;
use crate::{label, wording};
use exact::Value;
use model::{Form, Grip, Line, Link, LinkId, Stage};
use motion::Solved;

/// The scene in words.
pub(crate) fn describe(
    setting: &Setting<'_>,
    links: &[(LinkId, &Link)],
    stage: Option<&Stage>,
    solved: Option<&Solved>,
) -> String {
    let situation = setting.situation;
    let mut words = String::from(":");
    for (i, body) in situation.bodies.iter().enumerate() {
        let id = model::BodyId(i);
        let mass = label::mass(situation, id, setting.part).plain();
        let carrier = setting.plan.carried_by.get(&id).map(|c| (wording::name(situation, *c), *c));
        let stands = match (carrier, body.line, grip(setting, id)) {
            (Some((name, carrier)), ..) if setting.plan.hung_in(carrier).iter().any(|c| c.contains(&id)) => {
                format!("hangs in {name}")
            }
            (Some((name, _)), _, Some(grip)) => format!("stands on {name} ({})", grip.plain()),
            (Some((name, _)), _, None) => format!("is carried by {name}"),
            (None, Line::Slope { angle, .. }, grip) => {
                let kind = grip.map_or_else(|| "a slope".to_owned(), |g| format!("a slope ({})", g.plain()));
                format!("is on {kind} at {} to the horizontal", label::angle(situation, angle).plain())
            }
            (None, Line::Level, Some(grip)) => format!("is on the level ({})", grip.plain()),
            (None, Line::Level, None) => "is on the level".to_owned(),
            (None, Line::Vertical, _) => "moves vertically".to_owned(),
        };
        let kept = match told::kept(situation, setting.stage, id) {
            Some(Kept::Held) => " and is held".to_owned(),
            Some(Kept::Landed(at)) => format!(" and lies on {at}"),
            Some(Kept::Stopped(at)) => format!(" and is kept still at {at}"),
            None => String::new(),
        };
        let light =
            body.form == Form::Pulley && situation.known(body.mass, setting.part).is_some_and(Value::is_zero);
        let mass = if light { ", light".to_owned() } else { format!(", mass {mass}") };
        words.push_str(&format!(" {}{mass}, {stands}{kept}.", wording::capital(&body.name)));
    }
    for (id, link) in links {
        let loose = setting.plan.loose.contains(id);
        if link.is_contact
            && !loose
            && link.ends.iter().any(|e| setting.plan.carried_by.contains_key(&e.body))
        {
            continue;
        }
        let names: Vec<String> = link.ends.iter().map(|e| wording::name(situation, e.body)).collect();
        let joins = match (link.is_contact, link.pulleys.is_empty()) {
            (true, _) => "is between",
            (false, true) => "joins",
            (false, false) => "runs over a pulley and joins",
        };
        let slack = match (loose, link.is_contact) {
            (true, true) => ", which have parted",
            (true, false) => " and is slack",
            (false, _) => "",
        };
        let name = wording::capital(&link.name);
        words.push_str(&format!(" {name} {joins} {}{slack}.", wording::list(&names)));
    }
    for chain in &setting.plan.chains {
        let Some(body) = chain.bodies.last().copied() else { continue };
        let found = match (solved, stage) {
            (Some(solved), _) => label::acceleration(situation, solved, body),
            (None, Some(stage)) => label::told_acceleration(situation, stage, body),
            (None, None) => None,
        };
        if let Some(a) = found {
            let name = wording::name(situation, body);
            let way = wording::along_line(chain.line, a.sense);
            words.push_str(&format!(" Acceleration of {name}: {}, {way}.", a.text.plain()));
        }
    }
    words
}

/// What the question says of the surface under a body: `rough table, μ = 0.2`.
pub(crate) fn grip(setting: &Setting<'_>, body: model::BodyId) -> Option<Text> {
    let surface = setting.situation.body(body)?.surface.as_ref()?;
    let name = surface.name.trim_start_matches("the ").trim_start_matches("a ");
    // The top of a body is where the drawing shows it: it needs no name.
    let name = if surface.under.is_some() { String::new() } else { format!(" {}", Text::cut(name, 14.0)) };
    match surface.grip {
        Grip::Smooth => Some(Text::upright(format!("smooth{name}"))),
        Grip::Rough(id) => {
            let q = setting.situation.quantity(id)?;
            let line = Text::upright(format!("rough{name}, ")).then(Text::letter(&q.letter));
            match setting.situation.known(id, setting.part) {
                Some(value) => {
                    Some(line.then(Text::upright("\u{2009}=\u{2009}")).then(label::amount(value, q.kind)))
                }
                None => Some(line),
            }
        }
        Grip::Unsaid => None,
    }
}
