//! What every figure must be: clean, complete in itself, and said in words.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop where it fails")]

mod support;

use figure::{Figure, all, forces, overlaps, scene, system_forces};
use model::{BodyId, Situation, StageId};
use motion::{ForceKind, Solved};
use std::collections::BTreeSet;

fn solved(situation: &Situation) -> Solved {
    motion::solve(situation, StageId(0), 0).unwrap()
}

/// Everything that must hold of any figure.
fn assert_sound(name: &str, figure: &Figure) {
    assert_eq!(overlaps(figure), Vec::<String>::new(), "{name}: {}", figure.title);
    let page = roxmltree::Document::parse(&figure.svg).unwrap_or_else(|e| panic!("{name}: {e}"));
    let root = page.root_element();
    // The order and the roles that SVG accessibility asks for (W3C SVG 2, "title" and "desc"; ARIA role img).
    let first: Vec<_> = root.children().filter(roxmltree::Node::is_element).take(2).collect();
    assert_eq!(first.iter().map(|n| n.tag_name().name()).collect::<Vec<_>>(), ["title", "desc"], "{name}");
    assert_eq!(first[0].text(), Some(figure.title.as_str()));
    assert_eq!(first[1].text(), Some(figure.description.as_str()));
    assert_eq!(root.attribute("role"), Some("img"));
    let ids: Vec<_> = page.descendants().filter_map(|n| n.attribute("id")).collect();
    let labelled: Vec<_> = root.attribute("aria-labelledby").unwrap().split(' ').collect();
    assert!(labelled.iter().all(|l| ids.contains(l)), "{name}: {labelled:?}");
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len(), "{name}: an id stands twice: {ids:?}");
    assert!(ids.iter().all(|id| id.starts_with(&figure.prefix)), "{name}");
    for node in page.descendants().filter(roxmltree::Node::is_element) {
        for a in node.attributes() {
            let bad =
                ["NaN", "inf", "href", "url("].iter().any(|b| a.value().contains(b) || a.name().contains(b));
            assert!(!bad, "{name}: {}=\"{}\"", a.name(), a.value());
        }
        assert!(!["script", "style", "image", "use"].contains(&node.tag_name().name()), "{name}");
    }
    assert!(figure.width > 20.0 && figure.height > 20.0, "{name}: {} × {}", figure.width, figure.height);
}

#[test]
fn every_kind_of_situation_is_drawn_cleanly() {
    for (name, situation) in support::everything() {
        assert_sound(name, &scene(&situation, None));
        let mut drawn = 0;
        for stage in situation.stage_ids() {
            let Ok(solved) = motion::solve(&situation, stage, 0) else { continue };
            let figures = all(&situation, &solved);
            figures.iter().for_each(|f| assert_sound(name, f));
            drawn += figures.len();
        }
        if situation.stages.len() == 1 && situation.stages[0].held.is_empty() {
            // Bodies whose accelerations differ are no system.
            let apart = [
                "movable",
                "stack-on-slope",
                "pulley-on-pulley",
                "load-under-pulley",
                "three-ends",
                "two-strands",
            ];
            let several = situation.bodies.len() > 1 && !apart.contains(&name);
            let expected = 1 + situation.bodies.len() + usize::from(several);
            assert_eq!(drawn, expected, "{name}: a scene, a diagram for each body and one for the system");
        }
    }
}

/// From and to of the arrow of a force, as drawn.
fn arrow(figure: &Figure, force: usize) -> (f64, f64) {
    let page = roxmltree::Document::parse(&figure.svg).unwrap();
    let tie = format!("force-{force}");
    let group = page.descendants().find(|n| n.attribute("data-tie") == Some(tie.as_str())).unwrap();
    let shaft = group.descendants().find(|n| n.tag_name().name() == "line").unwrap();
    let number = |name| shaft.attribute(name).unwrap().parse::<f64>().unwrap();
    (number("x2") - number("x1"), number("y2") - number("y1"))
}

#[test]
fn on_a_slope_the_weight_is_upright_and_the_reaction_square_to_the_tension() {
    for rises_right in [true, false] {
        let situation = support::slope_and_pulley(rises_right, exact::Angle::Degrees(25.into()));
        let solved = solved(&situation);
        let figure = forces(&situation, &solved, BodyId(0));
        let of = |kind: ForceKind| {
            let force = solved.forces_on(BodyId(0)).find(|f| f.kind == kind).unwrap();
            arrow(&figure, force.id.0)
        };
        let weight = of(ForceKind::Weight);
        assert!(weight.0.abs() < 0.02 && weight.1 > 0.0, "straight down the page: {weight:?}");
        let (r, t) = (of(ForceKind::Reaction), of(ForceKind::Link(model::LinkId(0))));
        let cosine = (r.0 * t.0 + r.1 * t.1) / (r.0.hypot(r.1) * t.0.hypot(t.1));
        assert!(cosine.abs() < 0.01, "square: {cosine}");
        assert!((t.1 / t.0).abs().atan().to_degrees() - 25.0 < 0.5, "drawn at its true angle");
        assert_eq!(t.0 > 0.0, rises_right, "up the slope, towards the pulley");
        assert!(t.1 < 0.0 && r.1 < 0.0);
    }
}

#[test]
fn forces_act_the_way_they_are_known_to() {
    // B3 of the closed forms: on a table with a hanging weight the tension pulls the block forwards and the weight up.
    let situation = support::table();
    let solved = solved(&situation);
    let link = ForceKind::Link(model::LinkId(0));
    let pull = |body: BodyId| {
        let force = solved.forces_on(body).find(|f| f.kind == link).unwrap();
        arrow(&forces(&situation, &solved, body), force.id.0)
    };
    let (block, weight) = (pull(BodyId(0)), pull(BodyId(1)));
    assert!(block.0 > 0.0 && block.1.abs() < 0.02, "{block:?}");
    assert!(weight.1 < 0.0 && weight.0.abs() < 0.02, "{weight:?}");
    // The coupling of a braking lorry is in thrust: T is drawn as a pull whose value comes out negative, or as a push.
    let situation = support::braking();
    let solved = motion::solve(&situation, StageId(0), 0).unwrap();
    let figure = forces(&situation, &solved, BodyId(1));
    let force = solved.forces_on(BodyId(1)).find(|f| f.kind == link).unwrap();
    assert_eq!(arrow(&figure, force.id.0).0 > 0.0, force.along.sense() > 0);
}

#[test]
fn a_system_shows_outside_forces_only() {
    let situation = support::train(2);
    let solved = solved(&situation);
    let ties = |bodies: &[BodyId]| -> BTreeSet<usize> {
        let figure = system_forces(&situation, &solved, bodies);
        assert_sound("part of a train", &figure);
        let page = roxmltree::Document::parse(&figure.svg).unwrap();
        page.descendants()
            .filter_map(|n| n.attribute("data-tie")?.strip_prefix("force-")?.parse().ok())
            .collect()
    };
    let is_link = |id: &usize| matches!(solved.forces[*id].kind, ForceKind::Link(_));
    let whole = ties(&[BodyId(0), BodyId(1), BodyId(2)]);
    assert!(!whole.iter().any(is_link), "both couplings are inside");
    assert_eq!(whole.len(), solved.forces.len() - 4, "everything else is there");
    let wagons = ties(&[BodyId(1), BodyId(2)]);
    assert_eq!(
        wagons.iter().filter(|id| is_link(id)).count(),
        1,
        "the coupling to the engine pulls from outside"
    );
}

#[test]
fn the_words_say_what_the_picture_says() {
    let situation = support::train(1);
    let solved = solved(&situation);
    let figure = forces(&situation, &solved, BodyId(0));
    assert_eq!(figure.title, "Forces on the engine");
    for said in [
        "6000g, vertically downwards",
        "9000 N, to the right",
        "900 N, to the left",
        "Acceleration a, to the right",
    ] {
        let plain = figure.description.replace('\u{2009}', " ");
        assert!(plain.contains(said), "{said:?} in {plain:?}");
    }
}

#[test]
fn a_slack_string_is_dashed_and_said_to_be_slack() {
    let situation = support::sledges();
    let mut solved = solved(&situation);
    solved.case.links = vec![motion::LinkState::Loose];
    let figure = scene(&situation, Some(&solved));
    assert_sound("slack", &figure);
    assert!(figure.description.contains("is slack"), "{}", figure.description);
    let page = roxmltree::Document::parse(&figure.svg).unwrap();
    let rope = page.descendants().find(|n| n.attribute("data-tie") == Some("link-0")).unwrap();
    assert!(rope.descendants().any(|n| n.attribute("stroke-dasharray").is_some()));
}

#[test]
fn names_of_any_kind_are_safe_and_fit() {
    let mut situation = support::table();
    situation.bodies[0].label = "<b>\"Ann & Ben's\" extraordinarily long-named block</b>\u{7}".to_owned();
    situation.bodies[0].name = "the <odd> & \"long\" block".to_owned();
    situation.bodies[1].label = String::new();
    let solved = solved(&situation);
    for figure in all(&situation, &solved) {
        assert_sound("odd names", &figure);
        assert!(!figure.svg.contains("<b>"));
    }
}

#[test]
fn another_prefix_makes_other_ids() {
    let situation = support::atwood();
    let figure = scene(&situation, None);
    let other = figure.svg_with_prefix("q7-\"<");
    assert!(other.contains("id=\"q7-title\"") && !other.contains(&figure.prefix));
    assert_eq!(figure.svg_with_prefix(&figure.prefix), figure.svg);
}

#[test]
fn what_is_unsound_is_drawn_as_far_as_it_goes() {
    let mut situation = support::three();
    situation.links[0].ends[0].body = BodyId(77);
    situation.links[1].ends.truncate(1);
    situation.bodies[0].mass = model::QuantityId(999);
    situation.stages.clear();
    assert!(scene(&situation, None).svg.ends_with("</svg>\n"));
    assert!(scene(&Situation::default(), None).svg.contains("<title"));
}

#[test]
fn figures_stay_as_they_were() {
    let train = support::train(1);
    insta::assert_snapshot!("train-scene", scene(&train, Some(&solved(&train))).svg.replace("><", ">\n<"));
    let slope = support::slope_and_pulley(true, exact::Angle::Degrees(30.into()));
    let known = solved(&slope);
    insta::assert_snapshot!("slope-scene", scene(&slope, Some(&known)).svg.replace("><", ">\n<"));
    insta::assert_snapshot!("slope-forces", forces(&slope, &known, BodyId(0)).svg.replace("><", ">\n<"));
    let lift = support::lift();
    let known = solved(&lift);
    let bodies: Vec<BodyId> = lift.body_ids().collect();
    insta::assert_snapshot!("lift-system", system_forces(&lift, &known, &bodies).svg.replace("><", ">\n<"));
}

/// The words name everything that is drawn, so a change in the picture shows here.
#[test]
fn what_is_said_of_piles_pulleys_and_stories_stays_as_it_was() {
    let kinds = [
        "truck",
        "slabs",
        "stack-on-slope",
        "stack-and-pulley",
        "turned-back",
        "tied-on-top",
        "hung-in-lift",
        "pulley-on-pulley",
        "load-under-pulley",
        "three-ends",
        "two-strands",
        "row",
        "landing",
        "cut",
        "held",
    ];
    let mut said = String::new();
    for (name, situation) in support::everything().into_iter().filter(|(n, _)| kinds.contains(n)) {
        said.push_str(&format!("{name}: {}\n", scene(&situation, None).description));
    }
    insta::assert_snapshot!("said-of-scenes", said);
    for (name, situation) in [("row", support::row()), ("hung-in-lift", support::hung_in_lift())] {
        let figures = all(&situation, &solved(&situation));
        let said: Vec<_> = figures.iter().map(|f| f.description.as_str()).collect();
        insta::assert_snapshot!(format!("said-of-{name}"), said.join("\n"));
    }
    for (name, situation) in [
        ("stack-scene", support::stack_and_pulley()),
        ("lift-scene", support::hung_in_lift()),
        ("pulleys-scene", support::pulley_on_pulley()),
        ("three-ends-scene", support::three_ends()),
    ] {
        insta::assert_snapshot!(name, scene(&situation, None).svg.replace("><", ">\n<"));
    }
}

#[test]
fn the_top_and_the_bottom_of_a_pile_push_on_each_other() {
    // Newton's third law: the same size on both bodies, the other way (Principia, Axioms, Law III).
    let situation = support::truck();
    let solved = solved(&situation);
    for kind in [ForceKind::Reaction, ForceKind::Friction] {
        let top = solved.forces_on(BodyId(1)).find(|f| f.kind == kind).unwrap();
        let other = solved.force(top.partner.unwrap()).unwrap();
        assert_eq!(other.on, BodyId(0), "the truck feels it too");
        let (one, two) = (
            arrow(&forces(&situation, &solved, BodyId(1)), top.id.0),
            arrow(&forces(&situation, &solved, BodyId(0)), other.id.0),
        );
        assert!((one.0 + two.0).abs() < 0.1 && (one.1 + two.1).abs() < 0.1, "{kind:?}: {one:?} {two:?}");
    }
    let whole = system_forces(&situation, &solved, &[BodyId(0), BodyId(1)]);
    assert!(!whole.description.contains("riction"), "between them it cancels: {}", whole.description);
}

#[test]
fn stages_of_a_story_are_told_apart() {
    let situation = support::landing();
    let of = |stage: usize| motion::solve(&situation, StageId(stage), 0).map(|s| all(&situation, &s));
    let first = of(0).unwrap();
    assert!(
        first.iter().all(|f| f.title.ends_with(", until load P reaches the floor")),
        "{}",
        first[0].title
    );
    let second = of(1).unwrap();
    assert_eq!(second[0].title, "The situation, after load P reaches the floor");
    assert!(second[0].description.contains("lies on the floor"), "{}", second[0].description);
    assert!(second[0].description.contains("is slack"), "{}", second[0].description);
}

#[test]
fn in_a_jerk_impulses_are_drawn() {
    let situation = support::landing();
    let solved = motion::solve(&situation, StageId(2), 0).unwrap();
    let figures = figure::diagrams(&situation, &solved);
    assert!(!figures.is_empty());
    for figure in figures {
        assert!(figure.title.starts_with("Impulses on"), "{}", figure.title);
        let words = &figure.description;
        assert!(!words.contains("Weight") && !words.contains("Acceleration"), "{words}");
    }
}
