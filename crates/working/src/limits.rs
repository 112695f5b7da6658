//! What this model leaves out, and what it takes for granted: read off the situation, with what leaving it out does to
//! the first answer.

use crate::direction::{capital, list};
use crate::statement::Told;
use crate::view::View;
use model::{Action, Change, Form, Grip, Holds, Kind, Link, QuantityId, Role, Wanted};
use motion::Changed;

/// Something that the model leaves out: the statement, and the change that would bring it in.
struct LeftOut {
    says: String,
    change: Option<Change>,
}

/// One limitation, with its effect, and what else would do.
pub(crate) fn limitation(told: &Told<'_, '_>) -> String {
    let all = left_out(told);
    let Some((first, others)) = all.split_first() else {
        return "Nothing that matters is left out of this model.".to_owned();
    };
    let effect =
        first.change.and_then(|change| effect(told, change)).map(|e| format!(" {e}")).unwrap_or_default();
    let mut text = format!("{}.{effect}", capital(&first.says));
    let others: Vec<String> = others.iter().take(2).map(|o| o.says.clone()).collect();
    if !others.is_empty() {
        text.push_str(&format!(" One could also say: {}.", others.join("; ")));
    }
    text
}

/// What has been assumed, in the order in which a teacher would say it.
pub(crate) fn assumption(told: &Told<'_, '_>) -> String {
    let situation = told.situation;
    let mut all: Vec<String> = Vec::new();
    let bodies = told.things();
    let names = told.names(&bodies);
    // Of a long train the first coupling stands for all.
    let joined: Vec<&Link> = situation.links.iter().filter(|l| !l.is_contact).collect();
    for link in joined.iter().take(if joined.len() > 2 { 1 } else { 2 }) {
        let sort = if link.holds == Holds::PullOrPush {
            "light and keeps its length"
        } else {
            "light and does not stretch"
        };
        let says = format!("{} is {sort}", link.name);
        if !all.contains(&says) {
            all.push(says);
        }
    }
    if !situation.pulleys.is_empty() {
        let several = situation.pulleys.len() > 1;
        all.push((if several { "the pulleys are smooth" } else { "the pulley is smooth" }).to_owned());
    }
    let particles = if bodies.len() > 1 { "are particles" } else { "is a particle" };
    all.push(format!("{names} {particles}"));
    if has_air(told) {
        all.push("the resistances are constant".to_owned());
    } else {
        all.push("there is no air resistance".to_owned());
    }
    format!("It is assumed that {}.", list(&all))
}

/// Is a resistance to motion among the given forces?
fn has_air(told: &Told<'_, '_>) -> bool {
    let resists = |a: &Action| a.role == Role::Resistance;
    told.situation.actions.iter().any(resists)
}

fn left_out(told: &Told<'_, '_>) -> Vec<LeftOut> {
    let situation = told.situation;
    let moves = told.view(|v| v.solved.case.moves).is_some();
    let mut all: Vec<LeftOut> = Vec::new();
    let mut add = |says: String, change: Option<Change>| all.push(LeftOut { says, change });
    let names = told.names(&told.things());
    let joins: Vec<&Link> = situation.links.iter().filter(|l| !l.is_contact).collect();
    if has_air(told) && moves {
        let resisting = situation.actions.iter().filter(|a| a.role == Role::Resistance);
        let mut resisted: Vec<_> = resisting.map(|a| a.on).collect();
        resisted.dedup();
        let on = told.names(&resisted);
        add(format!("the resistance on {on} is taken as constant, but grows with the speed"), None);
    } else if moves {
        add(format!("air resistance on {names} is left out"), Some(Change::AirResistance));
    }
    if let Some(link) = joins.iter().find(|l| !l.pulleys.is_empty()) {
        let at: Vec<String> =
            link.pulleys.iter().filter_map(|p| situation.pulleys.get(p.0)).map(|p| p.name.clone()).collect();
        add(
            format!("{} has friction and a mass that has to be turned", list(&at)),
            Some(Change::RoughPulley),
        );
    }
    if let Some(link) = joins.first() {
        let strains = if link.holds == Holds::PullOrPush { "bends a little" } else { "stretches a little" };
        let change = (link.holds == Holds::Pull).then_some(Change::HeavyString);
        add(format!("{} has some mass and {strains}", link.name), change);
    }
    let smooth = situation.bodies.iter().find_map(|b| {
        b.surface.as_ref().filter(|s| s.grip == Grip::Smooth).map(|s| (b.name.clone(), s.name.clone()))
    });
    if let Some((body, surface)) = smooth {
        add(
            format!("{surface} is not perfectly smooth, so some friction acts on {body}"),
            Some(Change::RoughSurface),
        );
    }
    let rough = situation.bodies.iter().find_map(|b| {
        b.surface.as_ref().filter(|s| matches!(s.grip, Grip::Rough(_))).map(|s| s.name.clone())
    });
    if let Some(surface) = rough {
        add(format!("the coefficient of friction is not quite the same everywhere on {surface}"), None);
    }
    let large = situation
        .bodies
        .iter()
        .find(|b| matches!(b.form, Form::Vehicle | Form::Trailer | Form::Block | Form::Lift));
    if let Some(body) = large {
        add(format!("{} is not a particle: its size, and any turning, are left out", body.name), None);
    }
    if all.is_empty() {
        all.push(LeftOut { says: format!("the size of {names} is left out"), change: None });
    }
    all
}

/// `With it the acceleration of the load would be smaller.`
fn effect(told: &Told<'_, '_>, change: Change) -> Option<String> {
    let (_, view) = told.view(|v| v.solved.case.moves)?;
    let on = first_asked(told, view)?;
    let quantity = told.situation.quantity(on)?;
    let found = motion::effect(told.situation, view.solved.stage, view.solved.part, change, on).ok()?;
    let how = match found.changed {
        Changed::Greater => "would be greater",
        Changed::Smaller => "would be smaller",
        Changed::Unchanged => "would be the same",
        Changed::Divided => "would differ from one side of the pulley to the other",
    };
    let name = quantity.name.trim_start_matches("the ");
    Some(format!("With it the {name} {how}."))
}

/// The first quantity asked of the stage that such a change can bear on, else its acceleration.
fn first_asked(told: &Told<'_, '_>, view: &View<'_>) -> Option<QuantityId> {
    let asks = told.situation.asks.iter().filter(|a| a.stage == view.solved.stage);
    let found = asks.filter_map(|a| match a.wanted {
        Wanted::Quantity(id) | Wanted::Magnitude(id) => Some(id),
        _ => None,
    });
    let kind = |id: &QuantityId| told.situation.quantity(*id).map(|q| q.kind);
    let fits = |id: &QuantityId| {
        matches!(
            kind(id),
            Some(Kind::Acceleration | Kind::Speed | Kind::Tension | Kind::Distance | Kind::Time)
        )
    };
    let open = |id: &QuantityId| told.situation.known(*id, view.solved.part).is_none();
    let own = view.stage().and_then(|s| s.accelerations.first()).copied();
    found.into_iter().find(|id| fits(id) && open(id)).or(own.filter(open))
}
