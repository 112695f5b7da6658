//! The force diagram of a system: several bodies taken as one, with a dashed ring round them. Forces between
//! them are left out, for they cancel.

use crate::chain::{Plan, thinned};
use crate::diagram::{self, Core, Push};
use crate::drawing::*;
use crate::figure::Figure;
use crate::forces::{self, BODY_SIZE};
use crate::frame::{self, Angles};
use crate::geometry::{Point, at};
use crate::pile::{self, Standing};
use crate::text::Text;
use crate::{label, told, wording};
use model::{BodyId, LinkId, Situation};
use motion::{Force, ForceKind, LinkState, Solved};
use std::collections::BTreeSet;

/// The pen of the ring.
const RING: Pen = Pen { colour: GREY, width: 1.3, dash: Some("5 4") };

/// The forces from outside on several bodies taken together, with a dashed ring round them.
/// Bodies that the situation does not have are passed over.
pub fn system_forces(situation: &Situation, solved: &Solved, bodies: &[BodyId]) -> Figure {
    let angles = Angles::of(situation);
    let mut members: Vec<BodyId> = bodies.iter().copied().filter(|b| situation.body(*b).is_some()).collect();
    members.sort();
    members.dedup();
    let links: Vec<_> = situation.links_in(solved.stage).collect();
    let plan = Plan::of(situation, &links, BTreeSet::new());
    let order = in_place(situation, &plan, &members);
    let external = |f: &Force| !is_internal(situation, solved, &members, f);
    let mut drawing = Drawing::default();
    let shown = thinned(&order);
    if one_line(situation, &plan, &members) && together(solved, &members) {
        line_up(&mut drawing, (situation, &plan), solved, &angles, &shown, order.len(), &external);
    } else {
        side_by_side(&mut drawing, situation, solved, &angles, &shown, order.len(), &external);
    }

    let names: Vec<String> = order.iter().map(|b| wording::name(situation, *b)).collect();
    let whole = members.len() == situation.bodies.len() && members.len() > 1;
    let list = wording::list(&names);
    let what = wording::what(situation, solved);
    let subject = match (whole, names.len()) {
        (true, _) => format!("{what} on the whole system"),
        (false, _) => format!("{what} on {list} together"),
    };
    let between = if told::is_jerk(situation, solved.stage) { "impulses" } else { "forces" };
    let mut words = format!(" ({list}), {between} between them left out:");
    for force in members.iter().flat_map(|b| solved.forces_on(*b)).filter(|f| external(f)) {
        let on = wording::name(situation, force.on);
        words.push_str(&format!(" On {on}: {}", wording::force(situation, solved, force)));
    }
    if one_line(situation, &plan, &members) && together(solved, &members) {
        let first = members.first().map(|b| wording::acceleration(situation, solved, *b));
        words.push_str(&first.unwrap_or_default());
    } else {
        for body in &members {
            let said = wording::acceleration(situation, solved, *body);
            if !said.is_empty() {
                words.push_str(&format!(" {}:{said}", wording::capital(&wording::name(situation, *body))));
            }
        }
    }
    let note = format!("{between} between the bodies are left out");
    let numbers: Vec<String> = members.iter().take(8).map(|b| b.0.to_string()).collect();
    let prefix = format!("s{}p{}-system{}-", solved.stage.0, solved.part, numbers.join("_"));
    Figure::new(drawing, &subject, told::phrase(situation, solved.stage), &words, &note, prefix)
}

/// Do forces between these bodies make one system of them?
pub(crate) fn are_joined(situation: &Situation, solved: &Solved, members: &[BodyId]) -> bool {
    let mut pairs: Vec<Vec<BodyId>> = situation
        .links_in(solved.stage)
        .filter(|(id, _)| solved.case.links.get(id.0).is_none_or(|s| *s == LinkState::Holding))
        .map(|(_, link)| link.ends.iter().map(|e| e.body).collect())
        .collect();
    for body in members {
        let under = situation.body(*body).and_then(|b| b.surface.as_ref()?.under);
        pairs.extend(under.map(|u| vec![*body, u]));
    }
    let mut reached: Vec<BodyId> = members.iter().take(1).copied().collect();
    let mut next = 0;
    while let Some(body) = reached.get(next).copied() {
        for other in pairs.iter().filter(|p| p.contains(&body)).flatten() {
            if members.contains(other) && !reached.contains(other) {
                reached.push(*other);
            }
        }
        next += 1;
    }
    reached.len() == members.len()
}

/// Does anything act on these bodies from outside?
pub(crate) fn has_outside_forces(situation: &Situation, solved: &Solved, members: &[BodyId]) -> bool {
    let mut members = members.to_vec();
    members.sort();
    members.iter().any(|b| solved.forces_on(*b).any(|f| !is_internal(situation, solved, &members, f)))
}

/// Does a force act between members only?
fn is_internal(situation: &Situation, solved: &Solved, members: &[BodyId], force: &Force) -> bool {
    let inside = |link: LinkId| {
        situation.link(link).is_some_and(|l| l.ends.iter().all(|e| members.binary_search(&e.body).is_ok()))
    };
    match force.kind {
        ForceKind::Link(link) => inside(link),
        _ => force
            .partner
            .and_then(|id| solved.force(id))
            .is_some_and(|other| members.binary_search(&other.on).is_ok()),
    }
}

/// The members in the order in which they stand, left to right or bottom to top.
fn in_place(situation: &Situation, plan: &Plan, members: &[BodyId]) -> Vec<BodyId> {
    let mut order = Vec::new();
    let add = |body: BodyId, order: &mut Vec<BodyId>| {
        let mut waiting = vec![body];
        while let Some(next) = waiting.pop() {
            if members.binary_search(&next).is_ok() && !order.contains(&next) {
                order.push(next);
            }
            waiting.extend(plan.hung_in(next).iter().flatten().filter(|h| !order.contains(h)));
            waiting.extend(plan.riders_of(next).iter().rev().filter(|r| !order.contains(r)));
            if order.len() > members.len() {
                break;
            }
        }
    };
    let leads_left = |index: usize| {
        plan.over.iter().any(|(_, ends)| {
            let own = ends.iter().any(|e| plan.chain_of(e.body) == Some(index));
            own && ends.iter().any(|e| e.sense < 0 && plan.chain_of(e.body) != Some(index))
        })
    };
    let (left, right): (Vec<usize>, Vec<usize>) = (0..plan.chains.len()).partition(|i| leads_left(*i));
    for index in left.into_iter().chain(right) {
        let Some(chain) = plan.chains.get(index) else { continue };
        for body in &chain.bodies {
            add(*body, &mut order);
        }
    }
    for body in members {
        if situation.body(*body).is_some() {
            add(*body, &mut order);
        }
    }
    order
}

/// All of one line, so that they move as one piece?
fn one_line(situation: &Situation, plan: &Plan, members: &[BodyId]) -> bool {
    let first = members.first().and_then(|b| plan.chain_of(*b));
    let line = members.first().and_then(|b| situation.body(*b)).map(|b| b.line);
    first.is_some()
        && members.iter().all(|b| plan.chain_of(*b) == first && situation.body(*b).map(|b| b.line) == line)
}

/// Do all have an acceleration of one size, so that they make one system?
pub(crate) fn alike(solved: &Solved, members: &[BodyId]) -> bool {
    let of = |b: &BodyId| (solved.accelerations.get(b.0), solved.acceleration(*b));
    let first = members.first().map(of);
    members.iter().all(|b| match (first, of(b)) {
        (Some((one, _)), (two, _)) if one == two => true,
        (Some((_, Some(one))), (_, Some(two))) => one == two,
        _ => false,
    })
}

/// Do all of one line go the same way, so that one arrow tells their acceleration?
fn together(solved: &Solved, members: &[BodyId]) -> bool {
    let sense = |b: &BodyId| solved.senses.get(b.0);
    let first = members.first().map(sense);
    alike(solved, members) && members.iter().all(|b| Some(sense(b)) == first)
}

/// Bodies of one line in one ring, forces from the ring's edge.
fn line_up(
    drawing: &mut Drawing,
    (situation, plan): (&Situation, &Plan),
    solved: &Solved,
    angles: &Angles,
    shown: &[Option<BodyId>],
    count: usize,
    external: &dyn Fn(&Force) -> bool,
) {
    let Some(frame) =
        shown.iter().flatten().next().and_then(|b| frame::body_frame(situation, *b, angles, false))
    else {
        return;
    };
    let upright = frame.u.x.abs() < 0.01;
    let Standing { boxes, half_length, half_breadth } = pile::stand(situation, plan, shown, count, frame);
    let u = boxes.first().map_or(frame.u, |b| b.1.u);
    let (along, across) = (half_length + 14.0, half_breadth + 14.0);
    let (half_width, half_height) = if upright { (across, along) } else { (along, across) };
    let mut ring = Core { centre: at(0.0, 0.0), u, half_width, half_height, round: 12.0 };

    let mut pushes: Vec<Push> = Vec::new();
    let largest = forces::largest(solved);
    for (body, core, _) in boxes.iter().filter_map(|(b, c, t)| Some(((*b)?, c, t))) {
        for force in solved.forces_on(body).filter(|f| external(f)) {
            let mut push = forces::push(situation, solved, force, frame, angles, largest);
            push.home = core.centre;
            pushes.push(push);
        }
    }
    let starts = diagram::arrange(&mut ring, &pushes);
    draw_ring(drawing, ring);
    for (entry, core, text) in boxes {
        match entry {
            Some(body) => forces::draw_core(drawing, body, core, text),
            None => drawing.write("more", Label::turned(text, core.centre, BODY_SIZE, u.angle())),
        }
    }
    diagram::draw(drawing, &pushes, &starts);
    let first = shown.iter().flatten().next();
    if let Some((b, a)) = first.and_then(|b| Some((b, label::acceleration(situation, solved, *b)?))) {
        diagram::accelerate(
            drawing,
            &format!("acceleration-{}", b.0),
            ring,
            frame.u,
            &a,
            diagram::Prefer::Either,
        );
    }
}

/// Bodies on different lines: each with its forces from outside, all in one ring.
fn side_by_side(
    drawing: &mut Drawing,
    situation: &Situation,
    solved: &Solved,
    angles: &Angles,
    shown: &[Option<BodyId>],
    count: usize,
    external: &dyn Fn(&Force) -> bool,
) {
    let largest = forces::largest(solved);
    let mut inner = Drawing::default();
    let mut right = 0.0;
    for entry in shown {
        let mut zone = Drawing::default();
        match entry {
            Some(body) => forces::zone(&mut zone, situation, solved, *body, angles, largest, external),
            None => {
                let text = Text::upright(format!("… {} more …", count + 1 - shown.len()));
                zone.write("more", Label::centred(text, at(0.0, 0.0), BODY_SIZE));
            }
        }
        let b = zone.bounds();
        inner.take_in(zone, at(right - b.low.x, 0.0));
        right += b.width() + 26.0;
    }
    let b = inner.bounds();
    let ring = Core {
        centre: b.centre(),
        u: Point::towards(0.0),
        half_width: b.width() / 2.0 + 16.0,
        half_height: b.height() / 2.0 + 16.0,
        round: 18.0,
    };
    draw_ring(drawing, ring);
    drawing.take_in(inner, at(0.0, 0.0));
}

fn draw_ring(drawing: &mut Drawing, ring: Core) {
    let Core { centre, u, half_width, half_height, round } = ring;
    drawing.add_hollow("ring", RING, Mark::Box { centre, u, half_width, half_height, round, fill: None });
}
