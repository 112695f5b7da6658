//! Chooses which equations to use, in which order, and says why.
//!
//! [`work`] reads the pools of the solved stages ([`motion::Solved`]) and what is asked, and sets out the working:
//! *routes* of *steps*, each with its bodies, its positive direction, its reason, and lines that lead from the equation
//! in letters to the result. Nothing here knows a kind of question. A plan is the cheapest order of elimination over
//! the pool ([`mod@work`] holds the plain data that comes out), a second route is the cheapest plan that is left when
//! an equation of the first is not used, and a check is an equation that has not been used yet.
//!
//! Every line is proved before it is shown: both sides are worked out with exact values and must be equal. A step
//! with a line that is not proved is left out, with a warning.
//!
//! ```
//! use model::{Builder, Direction, Form, Line, Role, State};
//! let mut b = Builder::new();
//! let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(1200.into()));
//! let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(800.into()));
//! b.tow("the coupling", engine, truck);
//! let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
//! let stage = b.stage(State::Moving);
//! b.size(stage, drive, 3000.into());
//! b.heading(stage, engine, 1);
//! b.ask_acceleration("a", stage, engine);
//! let situation = b.finish();
//! let solved = motion::solve(&situation, stage, 0).into_iter().collect::<Vec<_>>();
//! let work = working::work(&situation, &solved, &working::Settings::default());
//! assert_eq!(work.answers.len(), 1);
//! ```

mod across;
mod angles;
mod answer;
mod aside;
mod block;
mod check;
mod cost;
mod diagram;
mod direction;
mod eliminate;
mod facts;
mod form;
mod letters;
mod limits;
mod linear;
mod matter;
mod products;
mod provided;
mod range;
mod reason;
mod rest;
mod route;
mod scope;
mod search;
mod sense;
mod shown;
mod single;
mod statement;
mod step;
mod story;
mod unnamed;
mod view;
mod wave;
mod work;
mod write;

pub use work::{Answered, Line, LineKind, Route, SenseCheck, Settings, Step, Work};

use model::{Ask, Diagnostic, Situation, Wanted};
use motion::Solved;
use std::collections::BTreeSet;

/// Sets out the working of a question.
///
/// `solved` holds the stages that could be solved; each ask takes the one of its own stage with the latest part that
/// is not after its own. An ask without one is refused in its [`Answered::refused`].
pub fn work(situation: &Situation, solved: &[Solved], settings: &Settings) -> Work {
    let ranges: Vec<Option<Result<motion::Range, Vec<Diagnostic>>>> =
        situation.asks.iter().map(|ask| range_of(situation, ask)).collect();
    let lettered: Vec<Option<Solved>> = solved.iter().map(|s| unnamed::with_letters(situation, s)).collect();
    let mut views: Vec<view::View<'_>> = Vec::new();
    // A stage solved for two parts with nothing new between them is one and the same.
    let mut place: Vec<usize> = Vec::new();
    for (told, lettered) in solved.iter().zip(&lettered) {
        let stage = lettered.as_ref().unwrap_or(told);
        match views.iter().position(|v| view::is_repeated(situation, v.solved, stage)) {
            Some(same) => place.push(same),
            None => {
                place.push(views.len());
                views.push(view::View::of_told(situation, told, stage));
            }
        }
    }
    letters::tell_apart(situation, &mut views);
    let mut picks: Vec<Option<usize>> =
        situation.asks.iter().map(|ask| pick(solved, ask).and_then(|i| place.get(i)).copied()).collect();
    for (slot, found) in picks.iter_mut().zip(&ranges) {
        if let Some(found) = found {
            *slot = found.as_ref().ok().map(|range| {
                views.push(view::View::of_range(range));
                views.len() - 1
            });
        }
    }
    let generally: Vec<Option<motion::Supposed>> =
        situation.asks.iter().map(|ask| motion::in_general(situation, ask)).collect();
    for (slot, found) in picks.iter_mut().zip(&generally) {
        if let Some(supposed) = found {
            views.push(view::View::of_supposed(supposed));
            *slot = Some(views.len() - 1);
        }
    }
    let own = picks.clone();
    let findings: Vec<Option<Result<motion::Finding, Diagnostic>>> = situation
        .asks
        .iter()
        .zip(&picks)
        .map(|(ask, pick)| {
            let view = pick.and_then(|v| views.get(v)).filter(|_| matter::asks(ask))?;
            Some(motion::whether(situation, view.told, ask))
        })
        .collect();
    for (slot, found) in picks.iter_mut().zip(&findings) {
        if let Some(Ok(motion::Finding { supposed: Some(supposed), .. })) = found {
            views.push(view::View::of_supposed(supposed));
            *slot = Some(views.len() - 1);
        }
    }
    let memo = shown::Memo::default();
    let mut kept = step::Kept::new();
    let renamed = views.iter().flat_map(|v| v.letters.iter().map(|(id, letter)| (*id, letter.clone())));
    let mut work = Work { letters: renamed.collect(), ..Work::default() };
    let mut from_g = BTreeSet::new();
    let (drafts, longer) = route::drafts(situation, &views, &picks, &findings, settings.routes.max(1));
    let names = route::names(&views, &drafts);
    for (n, (draft, name)) in drafts.iter().zip(names).enumerate() {
        let mut builder = step::Builder::new(situation, &views, &findings, settings, &memo, &mut kept);
        let route = builder.route(draft, name);
        if n == 0 {
            from_g = builder.from_g;
            work.diagnostics.extend(builder.troubles);
        } else if !builder.troubles.is_empty() {
            continue;
        }
        if !route.steps.is_empty() {
            work.routes.push(route);
        }
    }
    work.diagnostics.extend(only_way(&work, settings, longer));
    let style = shown::Style {
        memo: &memo,
        figures: settings.figures.saturating_add(settings.carried),
        exact: false,
    };
    let mut checked = BTreeSet::new();
    for (n, (ask, pick)) in situation.asks.iter().zip(&picks).enumerate() {
        let view = pick.and_then(|v| views.get(v));
        let finding = findings.get(n).and_then(Option::as_ref);
        let told = if finding.is_some() { own.get(n).copied().flatten() } else { *pick };
        let told = told.and_then(|v| views.get(v));
        let mut answer = answer::answered(situation, n, ask, told, finding, &from_g, settings);
        if let Wanted::Statement(topic) = ask.wanted {
            let told = statement::Told {
                situation,
                views: &views,
                used: drafts.first().map(|d| used_before(situation, d, ask)).unwrap_or_default(),
                ask,
                memo: &memo,
                figures: style.figures,
            };
            answer.text = statement::statement(&told, topic);
        }
        if let Some(Some(Err(why))) = ranges.get(n) {
            answer.refused = why.first().cloned().map(|d| d.at(ask.span));
        }
        work.answers.push(answer);
        let words_only =
            matches!(ask.wanted, Wanted::Statement(_) | Wanted::Range(_) | Wanted::Effect { .. });
        if let Some((v, view)) = pick.zip(view).filter(|(_, view)| !words_only && !view.apart)
            && checked.insert(v)
        {
            for found in sense::checks(view, &ask.part, style) {
                match found {
                    Ok(check) => work.sense.push(check),
                    Err(trouble) => work.diagnostics.push(trouble),
                }
            }
        }
    }
    for missed in drafts.first().map(|d| d.missed.as_slice()).unwrap_or(&[]) {
        if let Some(ask) = situation.asks.get(*missed) {
            let message = format!("no order of steps was found that leads to the {}", ask.phrase);
            work.diagnostics.push(Diagnostic::warn(message).at(ask.span));
        }
    }
    work
}

/// The equations that a route has used by the time that this is asked; all of them where it is asked first.
fn used_before(situation: &Situation, draft: &route::Draft, ask: &Ask) -> Vec<(usize, usize)> {
    let part = |stop: &&route::Stop| situation.asks.get(stop.ask).map_or(0, |a| a.part_index);
    let until = |last: usize| {
        let stops = draft.stops.iter().filter(|s| part(s) <= last);
        stops.flat_map(|s| &s.moves).flat_map(|m| m.places.iter().copied()).collect::<Vec<_>>()
    };
    let found = until(ask.part_index);
    if found.is_empty() { until(usize::MAX) } else { found }
}

/// Says so where there is one route only, and why.
fn only_way(work: &Work, settings: &Settings, longer: bool) -> Option<Diagnostic> {
    let [route] = work.routes.as_slice() else { return None };
    if settings.routes < 2 || route.steps.iter().filter(|s| !s.is_check).count() < 2 {
        return None;
    }
    let why = if longer { "every other is far longer" } else { "each of its equations is needed" };
    Some(Diagnostic::remark(format!("there is one way only: {why}")))
}

/// The range that an ask wants, if it wants one.
fn range_of(situation: &Situation, ask: &Ask) -> Option<Result<motion::Range, Vec<Diagnostic>>> {
    let Wanted::Range(quantity) = ask.wanted else { return None };
    Some(motion::range(situation, ask.stage, ask.part_index, quantity))
}

/// The solved stage that an ask speaks of.
fn pick(solved: &[Solved], ask: &Ask) -> Option<usize> {
    let own = solved.iter().enumerate().filter(|(_, s)| s.stage == ask.stage && s.part <= ask.part_index);
    own.max_by_key(|(_, s)| s.part).map(|(i, _)| i)
}
