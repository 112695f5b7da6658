//! Routes: the cheapest plan for all that is asked, and the plans that are left when an equation of it
//! is not used. What differs between them gives them their names.

use crate::direction::system_in_sentence;
use crate::matter;
use crate::scope::{Scope, agree};
use crate::search::{Move, cheapest, marks_a_route};
use crate::view::View;
use model::{BodyId, Grip, QuantityId, Situation, State, Wanted};
use motion::FrictionState;
use std::collections::BTreeSet;

/// A route costs at most this many times the cheapest; a longer way round is no help to a class.
const WORTH: u64 = 3;

/// A route before its lines are written.
#[derive(Clone, Debug, Default)]
pub(crate) struct Draft {
    pub(crate) stops: Vec<Stop>,
    pub(crate) cost: u64,
    /// The asks whose quantities it does not reach.
    pub(crate) missed: Vec<usize>,
}

/// The moves of one ask.
#[derive(Clone, Debug)]
pub(crate) struct Stop {
    pub(crate) ask: usize,
    pub(crate) view: usize,
    pub(crate) moves: Vec<Move>,
    /// What is asked itself, apart from what a test needs.
    pub(crate) asked: Vec<QuantityId>,
    /// Bodies whose staying at rest is tested here.
    pub(crate) tested: Vec<BodyId>,
    /// What that test needs to be found first.
    pub(crate) test_needs: Vec<QuantityId>,
    /// Is this the last stop of its ask?
    pub(crate) last: bool,
}

/// By ask: what there is to say of the truth that it wants.
pub(crate) type Findings = [Option<Result<motion::Finding, model::Diagnostic>>];

/// Equations not to be used: by view, the places of entries.
type Forbidden = BTreeSet<(usize, usize)>;

/// What is known at the start of a stop: the givens of the part, and what was found before with the same value.
pub(crate) fn known_at(
    views: &[View<'_>],
    stop_view: usize,
    found: &[(usize, QuantityId)],
) -> BTreeSet<QuantityId> {
    let Some(view) = views.get(stop_view) else { return BTreeSet::new() };
    let mut known = view.known.clone();
    for (from, id) in found {
        if *from == stop_view || views.get(*from).is_some_and(|there| agree(there, view, *id)) {
            known.insert(*id);
        }
    }
    known
}

/// The quantities that an ask needs.
fn wanted(view: &View<'_>, ask: &model::Ask) -> Vec<QuantityId> {
    let stage = view.stage();
    let of_link = |l: model::LinkId| stage.and_then(|s| s.links.get(l.0)).copied();
    let found: Vec<QuantityId> = match &ask.wanted {
        Wanted::Quantity(q) | Wanted::Magnitude(q) => vec![view.standing_for(*q)],
        Wanted::Deceleration(b) | Wanted::AccelerationWay(b) => {
            view.acceleration_of(*b).into_iter().collect()
        }
        Wanted::WhichWay(b) if view.solved.case.moves => view.acceleration_of(*b).into_iter().collect(),
        Wanted::TensionOrThrust(l) => of_link(*l).into_iter().collect(),
        Wanted::PulleyForce(p) => {
            let over = view.situation.links_in(view.solved.stage).filter(|(_, l)| l.pulleys.contains(p));
            over.filter_map(|(id, _)| of_link(id)).collect()
        }
        _ if matter::asks_rest(ask) && view.solved.case.moves && resting(view, ask).is_empty() => {
            view.solved.accelerations.first().copied().into_iter().collect()
        }
        Wanted::WhichWay(_)
        | Wanted::Range(_)
        | Wanted::Effect { .. }
        | Wanted::WhetherItMoves
        | Wanted::Whether { .. }
        | Wanted::Statement(_) => Vec::new(),
    };
    let has_value = |q: &QuantityId| view.told.value(*q).is_some() || view.solved.angles.contains_key(q);
    found.into_iter().filter(has_value).collect()
}

/// The bodies on rough surfaces of which it has to be found whether they stay at rest when released.
fn resting(view: &View<'_>, ask: &model::Ask) -> Vec<BodyId> {
    let open = view.stage().is_some_and(|s| s.state == State::Released);
    if view.apart || matter::decides_otherwise(ask) || !(open || matter::asks_rest(ask)) {
        return Vec::new();
    }
    let deciding = if view.solved.case.moves { FrictionState::Sliding } else { FrictionState::Static };
    let states = view.solved.case.frictions.iter().enumerate();
    let found: Vec<BodyId> = states
        .filter(|(_, f)| **f == deciding)
        .map(|(i, _)| BodyId(i))
        .filter(|b| knows_mu(view, *b))
        .collect();
    // With friction on several bodies that start to move, no one of them decides.
    if view.solved.case.moves && found.len() > 1 { Vec::new() } else { found }
}

/// Is the coefficient of friction under this body given? Else whether it moves is not decided by it.
fn knows_mu(view: &View<'_>, body: BodyId) -> bool {
    let surface = view.situation.body(body).and_then(|b| b.surface.as_ref());
    matches!(surface.map(|s| s.grip), Some(Grip::Rough(mu)) if view.known.contains(&mu))
}

/// The cheapest plan for all asks in order, each using what those before it have found.
fn draft(
    situation: &Situation,
    views: &[View<'_>],
    picks: &[Option<usize>],
    findings: &Findings,
    forbidden: &Forbidden,
) -> Draft {
    let mut draft = Draft::default();
    let mut found: Vec<(usize, QuantityId)> = Vec::new();
    let mut tested: BTreeSet<model::StageId> = BTreeSet::new();
    for (n, (ask, pick)) in situation.asks.iter().zip(picks).enumerate() {
        let Some((v, view)) = pick.and_then(|v| Some((v, views.get(v)?))) else { continue };
        let test = matter::test(findings, n);
        for (other, needed) in matter::elsewhere(situation, views, ask, v, test) {
            let scope = Scope::new(situation, views, other, ask.part_index);
            let known: Vec<_> = scope.rooms.iter().map(|room| known_at(views, *room, &found)).collect();
            let Some(plan) = cheapest(&scope, &known, forbidden, &needed) else { continue };
            draft.cost = draft.cost.saturating_add(plan.cost);
            found.extend(plan.moves.iter().flat_map(|m| m.gives.iter().map(|q| (m.view, *q))));
            draft.stops.push(Stop {
                ask: n,
                view: other,
                moves: plan.moves,
                asked: Vec::new(),
                tested: Vec::new(),
                test_needs: Vec::new(),
                last: false,
            });
        }
        let scope = Scope::new(situation, views, v, ask.part_index);
        let known: Vec<_> = scope.rooms.iter().map(|room| known_at(views, *room, &found)).collect();
        let wanted = wanted(view, ask);
        let bodies = if tested.insert(view.solved.stage) { resting(view, ask) } else { Vec::new() };
        let mut needed = Vec::new();
        for body in &bodies {
            let at = |list: &[Option<QuantityId>]| list.get(body.0).copied().flatten();
            if let Some(stage) = view.stage() {
                needed.extend(at(&stage.frictions).into_iter().chain(at(&stage.reactions)));
            }
        }
        if let Some(range) = view.range {
            needed.extend(crate::range::needs(range));
        }
        needed.extend(matter::needs(view, test));
        let test_needs = if bodies.is_empty() { Vec::new() } else { needed.clone() };
        needed.extend(&wanted);
        match cheapest(&scope, &known, forbidden, &needed) {
            Some(plan) => {
                draft.cost = draft.cost.saturating_add(plan.cost);
                found.extend(plan.moves.iter().flat_map(Move::finds));
                draft.stops.push(Stop {
                    ask: n,
                    view: v,
                    moves: plan.moves,
                    asked: wanted,
                    tested: bodies,
                    test_needs,
                    last: true,
                });
            }
            None => draft.missed.push(n),
        }
    }
    draft
}

/// The equations that make a route its own.
fn marks(views: &[View<'_>], draft: &Draft) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    for stop in &draft.stops {
        for (place, entry) in stop.moves.iter().flat_map(|m| m.places.iter().copied()) {
            let law = views.get(place).and_then(|v| v.entries.get(entry)).map(|e| &e.equation.law);
            if law.is_some_and(marks_a_route) && !found.contains(&(place, entry)) {
                found.push((place, entry));
            }
        }
    }
    found
}

/// The most equations of several stages that are solved together.
fn widest(draft: &Draft) -> usize {
    let moves = draft.stops.iter().flat_map(|s| &s.moves);
    moves.filter(|m| m.views().len() > 1).map(|m| m.places.len()).max().unwrap_or(0)
}

/// The cheapest route, then one for each equation of it that can be done without, up to `most`; and whether there
/// are others that are merely too long.
pub(crate) fn drafts(
    situation: &Situation,
    views: &[View<'_>],
    picks: &[Option<usize>],
    findings: &Findings,
    most: usize,
) -> (Vec<Draft>, bool) {
    let mut longer = false;
    let first = draft(situation, views, picks, findings, &Forbidden::new());
    let to_avoid = marks(views, &first);
    let mut seen: Vec<BTreeSet<(usize, usize)>> = vec![to_avoid.iter().copied().collect()];
    let limit = first.cost.saturating_mul(WORTH);
    let missed = first.missed.clone();
    let together = widest(&first);
    let mut all = vec![first];
    for avoid in to_avoid {
        if all.len() >= most {
            break;
        }
        let other = draft(situation, views, picks, findings, &Forbidden::from([avoid]));
        let own: BTreeSet<_> = marks(views, &other).into_iter().collect();
        let wider = widest(&other) > together;
        if other.missed == missed && other.cost <= limit && !wider && !seen.contains(&own) {
            seen.push(own);
            all.push(other);
        } else if other.missed == missed && (wider || other.cost > limit) {
            longer = true;
        }
    }
    (all, longer)
}

/// What is particular to each route.
pub(crate) fn names(views: &[View<'_>], drafts: &[Draft]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for draft in drafts {
        let mut name = plain_name(views, draft);
        if names.contains(&name) {
            let own = marks(views, draft);
            let others: Vec<_> = drafts
                .iter()
                .zip(&names)
                .filter(|(_, n)| **n == name)
                .flat_map(|(d, _)| marks(views, d))
                .collect();
            let is_motion = |(v, e): &(usize, usize)| {
                views.get(*v).and_then(|v| v.entries.get(*e)).is_some_and(|e| e.is_motion())
            };
            let mut differing: Vec<_> = own.iter().filter(|m| !others.contains(m)).collect();
            differing.sort_by_key(|m| !is_motion(m));
            let differs = differing.first().copied().or(own.last());
            if let Some(entry) =
                differs.and_then(|(v, e)| Some((views.get(*v)?, views.get(*v)?.entries.get(*e)?)))
            {
                let (view, entry) = entry;
                name = if entry.is_motion() {
                    format!("{name}, then {}", system_in_sentence(view, &entry.equation.system))
                } else {
                    format!("{name}, by another constant-acceleration formula")
                };
            }
        }
        while names.contains(&name) {
            name.push_str(", another way");
        }
        names.push(name);
    }
    names
}

fn plain_name(views: &[View<'_>], draft: &Draft) -> String {
    let mut systems: Vec<(usize, usize)> = Vec::new();
    let mut simultaneous = false;
    let mut moving = false;
    for stop in &draft.stops {
        for step in &stop.moves {
            let Some(view) = views.get(step.view) else { continue };
            let motions: Vec<_> = step.entries(views).map(|(_, e)| e).filter(|e| e.is_motion()).collect();
            moving |= motions.iter().any(|e| !e.right.is_empty());
            simultaneous |= motions.len() > 1;
            systems.extend(motions.iter().map(|e| (e.equation.system.len(), view.situation.bodies.len())));
        }
    }
    let single = systems.iter().all(|(n, _)| *n == 1);
    let name = match systems.as_slice() {
        [] => "from the facts given",
        [(n, all), ..] if n == all && *n > 1 => "whole system first",
        [(1, 1), ..] if moving => "equation of motion",
        [(1, 1), ..] => "balance of forces",
        _ if simultaneous && single => "each body, simultaneously",
        _ if simultaneous => "two parts of the system, simultaneously",
        [(1, _)] => "one body",
        _ if single => "each body in turn",
        _ => "part of the system first",
    };
    name.to_owned()
}
