//! What holds of every working, whatever the situation.

mod common;

use common::worked;
use model::Severity;
use proptest::prelude::*;
use std::collections::BTreeSet;

#[test]
fn everything_asked_is_answered_and_found_on_every_route() {
    for (name, situation) in common::all() {
        let work = worked(&situation);
        assert_eq!(work.answers.len(), situation.asks.len(), "{name}");
        let troubles: Vec<_> = work.diagnostics.iter().filter(|d| d.severity > Severity::Remark).collect();
        assert!(troubles.is_empty(), "{name}: {:?}", work.diagnostics);
        for answer in &work.answers {
            assert!(answer.refused.is_none(), "{name}: {:?}", answer.refused);
            assert!(
                !answer.shown.is_empty() || !answer.text.is_empty(),
                "{name}: {} has no words",
                answer.asked
            );
        }
        for route in &work.routes {
            let found: BTreeSet<usize> = route.steps.iter().filter_map(|s| s.ask).collect();
            for (n, answer) in work.answers.iter().enumerate() {
                let needs_working = answer.value.as_ref().is_some_and(|v| !v.is_zero());
                assert!(
                    found.contains(&n) || !needs_working,
                    "{name}: {} on route {}",
                    answer.asked,
                    route.name
                );
            }
        }
    }
}

#[test]
fn two_joined_bodies_have_two_routes_or_more() {
    for (name, situation) in common::all() {
        let work = worked(&situation);
        // A movable pulley's bodies do not share an acceleration: no equation treats them as one.
        let as_one = common::solve_all(&situation)
            .iter()
            .flat_map(|s| &s.equations)
            .any(|e| e.law == motion::Law::Motion && e.system.len() > 1);
        // Where only the total of the resistances is given, no body can be taken by itself.
        let by_itself = name != "total resistance";
        if as_one && by_itself {
            assert!(work.routes.len() >= 2, "{name} has {} routes", work.routes.len());
        }
    }
}

#[test]
fn routes_use_different_equations_and_have_names_of_their_own() {
    for (name, situation) in common::all() {
        let work = worked(&situation);
        let mut names = BTreeSet::new();
        let mut equations = BTreeSet::new();
        for route in &work.routes {
            assert!(names.insert(route.name.clone()), "{name}: two routes are called {}", route.name);
            let used: BTreeSet<_> =
                route.steps.iter().filter(|s| !s.is_check).flat_map(|s| s.equations.clone()).collect();
            assert!(equations.insert(used), "{name}: {} is another route again", route.name);
        }
    }
}

#[test]
fn a_check_uses_an_equation_that_its_route_has_not_used() {
    let mut checks = 0;
    for (name, situation) in common::all() {
        for route in worked(&situation).routes {
            let mut used = BTreeSet::new();
            for step in &route.steps {
                for equation in &step.equations {
                    assert!(!step.is_check || !used.contains(equation), "{name}: {}", route.name);
                    used.insert(*equation);
                }
                checks += usize::from(step.is_check);
            }
        }
    }
    assert!(checks >= 10, "only {checks} checks");
}

#[test]
fn an_at_rest_test_is_shown_when_friction_holds() {
    let text = worked(&common::rough_table("0.8")).plain();
    assert!(text.contains("stays at rest"), "{text}");
    assert!(text.contains("29.4 < 39.2"), "{text}");
}

#[test]
fn a_long_train_is_worked_without_a_blow_up() {
    let work = worked(&common::train(50));
    assert!(work.routes.len() >= 2);
    assert!(work.answers.iter().all(|a| a.refused.is_none()));
}

/// Numbers of a line's two sides, where both are plain sums and products of decimals, agree: the text itself is checked
/// with floating point here, apart from the exact proof inside.
fn sides_agree(line: &str) -> Option<bool> {
    let (left, right) = line.split_once('=').or_else(|| line.split_once('≈'))?;
    // A line with a rounded number on it carries five figures.
    let closeness = if line.contains('≈') { 2e-4 } else { 1e-9 };
    let value = |side: &str| -> Option<f64> {
        let mut total = 0.0;
        let mut sign = 1.0;
        let mut product: Option<f64> = None;
        for token in side.split_whitespace() {
            match token {
                "+" | "−" => {
                    total += sign * product.take().unwrap_or(0.0);
                    sign = if token == "−" { -1.0 } else { 1.0 };
                }
                "×" => {}
                number => {
                    let (minus, digits) = match number.strip_prefix('−') {
                        Some(digits) => (-1.0, digits),
                        None => (1.0, number),
                    };
                    let factor = minus * digits.parse::<f64>().ok()?;
                    product = Some(product.unwrap_or(1.0) * factor);
                }
            }
        }
        Some(total + sign * product?)
    };
    let (left, right) = (value(left)?, value(right)?);
    Some((left - right).abs() < closeness * (1.0 + left.abs()))
}

#[test]
fn lines_of_plain_numbers_are_true_as_they_stand() {
    let mut seen = 0;
    for (name, situation) in common::all() {
        for step in worked(&situation).routes.iter().flat_map(|r| &r.steps) {
            for line in &step.lines {
                if let Some(agree) = sides_agree(line.math.plain().trim()) {
                    seen += 1;
                    assert!(agree, "{name}: {}", line.plain());
                }
            }
        }
    }
    assert!(seen >= 10, "only {seen} lines of plain numbers");
}

#[test]
fn forces_are_tagged_so_that_a_page_can_light_them() {
    let work = worked(&common::engine_and_truck());
    let first = &work.routes[0].steps[0].lines[0];
    assert_eq!(first.forces.len(), 3);
    let text = format!("{:?}", first.math);
    for force in &first.forces {
        assert!(text.contains(&format!("force-{}", force.0)), "{text}");
    }
}

#[test]
fn what_is_to_be_shown_ends_as_required() {
    let text = worked(&common::table_and_pulley()).plain();
    assert!(text.contains("a = 2.8 m s⁻², as required"), "{text}");
}

/// So many random cases, or as many as `PROPTEST_CASES` asks for.
fn config(cases: u32) -> ProptestConfig {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    ProptestConfig { cases: asked.unwrap_or(cases), failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config(64))]

    /// Closed form of two loads over a pulley: a = (m2 − m1)g/(m1 + m2), T = 2 m1 m2 g/(m1 + m2)
    /// (University Physics vol. 1, Example 6.5).
    #[test]
    fn two_loads_follow_the_closed_form(one in 1i64..40, more in 1i64..40) {
        let other = one + more;
        let work = worked(&common::two_loads(one, other));
        let g = common::dec("9.8");
        let a = (exact::Value::from_int(more) * &g).checked_div(&exact::Value::from_int(one + other)).unwrap();
        let t = (exact::Value::from_int(2 * one * other) * &g).checked_div(&exact::Value::from_int(one + other)).unwrap();
        prop_assert_eq!(work.answers[0].value.clone(), Some(a));
        prop_assert_eq!(work.answers[1].value.clone(), Some(t));
        prop_assert!(work.diagnostics.iter().all(|d| d.severity == Severity::Remark), "{:?}", work.diagnostics);
        prop_assert!(work.routes.len() >= 2);
        prop_assert_eq!(work.sense.len(), 2);
    }
}
