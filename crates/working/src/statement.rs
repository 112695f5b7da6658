//! Statements about the model, written about the situation at hand.

use crate::direction::{capital, list};
use model::{Form, Grip, Holds, Line, Link, Situation, StageId, Topic};

/// What to say on a topic in this situation.
pub(crate) fn statement(situation: &Situation, stage: StageId, topic: Topic) -> String {
    match topic {
        Topic::Inextensible => inextensible(situation, stage),
        Topic::Light => light(situation, stage),
        Topic::SmoothPulley => smooth_pulley(situation, stage),
        Topic::Particle => particle(situation),
        Topic::SmoothSurface => smooth_surface(situation),
        Topic::Limitation => limitation(situation, stage),
    }
}

/// The lines between bodies: not contacts.
fn joins(situation: &Situation, stage: StageId) -> Vec<&Link> {
    situation.links_in(stage).map(|(_, l)| l).filter(|l| !l.is_contact).collect()
}

fn ends(situation: &Situation, link: &Link) -> String {
    let names: Vec<String> =
        link.ends.iter().filter_map(|e| situation.body(e.body)).map(|b| b.name.clone()).collect();
    list(&names)
}

fn alike(link: &Link) -> bool {
    link.ends.windows(2).all(|pair| matches!(pair, [a, b] if a.times == b.times))
}

fn inextensible(situation: &Situation, stage: StageId) -> String {
    let mut says: Vec<String> = Vec::new();
    for link in joins(situation, stage) {
        let verb = if link.holds == Holds::PullOrPush { "keeps its length" } else { "does not stretch" };
        let name = capital(&link.name);
        let ends = ends(situation, link);
        says.push(if alike(link) {
            format!("{name} {verb}, so {ends} have accelerations of the same size at every moment.")
        } else {
            format!("{name} {verb}, so what one end gains the other gives up: the accelerations of {ends} stay in a fixed ratio.")
        });
    }
    if says.is_empty() {
        "Nothing stretches, so bodies that are joined have accelerations of the same size.".to_owned()
    } else {
        says.join(" ")
    }
}

fn light(situation: &Situation, stage: StageId) -> String {
    let mut says: Vec<String> = Vec::new();
    for link in joins(situation, stage) {
        let force = if link.holds == Holds::PullOrPush { "force" } else { "tension" };
        says.push(format!(
            "{} is taken to have no mass, so the {force} is the same all along it and acts with one size on {}.",
            capital(&link.name),
            ends(situation, link)
        ));
    }
    if says.is_empty() {
        "What is light is taken to have no mass: its own weight does not enter, and no force is needed to accelerate it.".to_owned()
    } else {
        says.join(" ")
    }
}

fn smooth_pulley(situation: &Situation, stage: StageId) -> String {
    let over: Vec<&Link> = joins(situation, stage).into_iter().filter(|l| !l.pulleys.is_empty()).collect();
    match over.as_slice() {
        [link] => {
            let pulley = link
                .pulleys
                .first()
                .and_then(|p| situation.pulleys.get(p.0))
                .map(|p| p.name.as_str())
                .unwrap_or("the pulley");
            format!(
                "There is no friction at {pulley}, so the tension in {} is the same on both sides of it.",
                link.name
            )
        }
        _ => "There is no friction at the pulleys, so a string has the same tension on both sides of each."
            .to_owned(),
    }
}

fn particle(situation: &Situation) -> String {
    let names: Vec<String> = situation.bodies.iter().map(|b| b.name.clone()).collect();
    let (verb, its) = if names.len() > 1 { ("are", "each") } else { ("is", "it") };
    format!(
        "{} {verb} treated as a particle{}: all forces on {its} act at one point, its size and turning do not matter, and air resistance is left out.",
        capital(&list(&names)),
        if names.len() > 1 { "s" } else { "" }
    )
}

fn smooth_surface(situation: &Situation) -> String {
    let smooth = situation.bodies.iter().filter_map(|b| {
        b.surface.as_ref().filter(|s| s.grip == Grip::Smooth).map(|s| (s.name.as_str(), b.name.as_str()))
    });
    let says: Vec<String> = smooth
        .map(|(surface, body)| {
            format!(
                "{} is smooth, so there is no friction on {body}: the surface acts on it only at right angles.",
                capital(surface)
            )
        })
        .collect();
    if says.is_empty() {
        "A smooth surface exerts no friction: it acts only at right angles to itself.".to_owned()
    } else {
        says.join(" ")
    }
}

fn limitation(situation: &Situation, stage: StageId) -> String {
    let joins = joins(situation, stage);
    if let Some(link) = joins.iter().find(|l| !l.pulleys.is_empty()) {
        return format!(
            "A real pulley has some friction and has to be turned, so the tensions on its two sides differ a little; {} also has mass and stretches.",
            link.name
        );
    }
    let rolls = situation.bodies.iter().any(|b| matches!(b.form, Form::Vehicle | Form::Trailer));
    if rolls {
        return "Resistance does not stay constant: it grows with speed, so the acceleration would fall as the speed rises.".to_owned();
    }
    if situation.bodies.iter().any(|b| b.line == Line::Vertical) {
        return "Air resistance is left out; it grows with speed, so the true acceleration would be a little smaller.".to_owned();
    }
    match joins.first() {
        Some(link) => format!(
            "{} has some mass and stretches a little, so the force is not quite the same all along it.",
            capital(&link.name)
        ),
        None => "Air resistance and the size of the body are left out.".to_owned(),
    }
}
