//! From the moves of a route to its steps: lines, reasons, checks.

use crate::direction::{of_system, system_name};
use crate::form::{Closeness, Form, form};
use crate::reason::{letter, reason};
use crate::route::{Draft, Findings, Stop, known_at};
use crate::search::Move;
use crate::shown::{Memo, Style};
use crate::single::{self, Manner};
use crate::view::{Entry, View};
use crate::work::{Line, LineKind, Route, Settings, Step};
use crate::{angles, aside, block, check, matter, range, rest, story};
use exact::Math;
use model::{Accuracy, Ask, Diagnostic, QuantityId, Situation, StageId, Wanted};
use motion::Factor;
use std::collections::{BTreeMap, BTreeSet};

/// The lines of steps that several routes share, so that each is written and proved once: by ask and move.
pub(crate) type Kept = BTreeMap<(usize, Move), Option<Vec<Line>>>;

/// Builds the steps of one route.
pub(crate) struct Builder<'v, 'a> {
    pub(crate) situation: &'a Situation,
    pub(crate) views: &'v [View<'a>],
    findings: &'v Findings,
    pub(crate) settings: &'v Settings,
    memo: &'v Memo,
    kept: &'v mut Kept,
    /// What is found so far: by view, and in which ask.
    pub(crate) found: Vec<(usize, QuantityId)>,
    /// In which part each was found.
    origin: Vec<(QuantityId, String)>,
    /// What rests on a decimal value of g.
    pub(crate) from_g: BTreeSet<QuantityId>,
    told_g: bool,
    /// The stage of the last step, and all stages so far.
    told_stage: Option<StageId>,
    told_stages: BTreeSet<StageId>,
    /// The equations used so far, for steps and checks.
    pub(crate) used: BTreeSet<(usize, usize)>,
    pub(crate) troubles: Vec<Diagnostic>,
}

impl<'v, 'a> Builder<'v, 'a> {
    pub(crate) fn new(
        situation: &'a Situation,
        views: &'v [View<'a>],
        findings: &'v Findings,
        settings: &'v Settings,
        memo: &'v Memo,
        kept: &'v mut Kept,
    ) -> Builder<'v, 'a> {
        Builder {
            situation,
            views,
            findings,
            settings,
            memo,
            kept,
            found: Vec::new(),
            origin: Vec::new(),
            from_g: BTreeSet::new(),
            told_g: false,
            told_stage: None,
            told_stages: BTreeSet::new(),
            used: BTreeSet::new(),
            troubles: Vec::new(),
        }
    }

    /// All steps of a draft; a step with a line that cannot be proved is left out and said to be.
    pub(crate) fn route(&mut self, draft: &Draft, name: String) -> Route {
        for stop in &draft.stops {
            let entries = stop.moves.iter().flat_map(|m| m.places.iter().copied());
            self.used.extend(entries);
        }
        let mut steps = Vec::new();
        for stop in &draft.stops {
            self.stop(stop, &mut steps);
        }
        Route { name, steps }
    }

    fn stop(&mut self, stop: &Stop, steps: &mut Vec<Step>) {
        let (Some(view), Some(ask)) = (self.views.get(stop.view), self.situation.asks.get(stop.ask)) else {
            return;
        };
        let style = self.style(ask);
        let begins = steps.len();
        let mut told = 0;
        let mut tested = stop.test_needs.is_empty();
        for step in &stop.moves {
            let joint = step.joint(self.views);
            let Some(there) = joint.as_ref().or_else(|| self.views.get(step.view)) else { continue };
            match self.step(there, stop, ask, step) {
                Some(built) => steps.push(as_before(steps, built)),
                None => self.trouble(ask, there, step),
            }
            self.found.extend(step.finds());
            self.origin.extend(step.gives.iter().map(|id| (*id, ask.part.clone())));
            told += 1;
            let known = known_at(self.views, stop.view, &self.found);
            if !tested && stop.test_needs.iter().all(|q| known.contains(q)) {
                tested = true;
                self.test(view, stop, ask, steps);
            }
        }
        if !tested {
            self.test(view, stop, ask, steps);
        }
        steps.extend(range::steps(view, stop.ask, ask, style));
        if let Some(test) = matter::test(self.findings, stop.ask).filter(|_| stop.last) {
            steps.push(matter::step(view, stop.ask, ask, test, style));
        }
        if let (Some(supposes), Some(first)) = (view.supposes, steps.get_mut(begins)) {
            first.reason = format!("Suppose that {supposes}. {}", first.reason);
        }
        steps.extend(self.already_found(view, stop, ask));
        if told > 0 {
            let known = known_at(self.views, stop.view, &self.found);
            let found: Vec<QuantityId> = stop.moves.iter().flat_map(|m| m.gives.iter().copied()).collect();
            if let Some((place, step)) = check::of(view, stop.view, ask, &found, &known, &self.used, style) {
                self.used.insert((stop.view, place));
                steps.push(step);
            }
        }
    }

    fn test(&self, view: &View<'_>, stop: &Stop, ask: &Ask, steps: &mut Vec<Step>) {
        for body in &stop.tested {
            steps.extend(rest::test(view, stop.ask, ask, *body, self.style(ask)));
        }
    }

    /// What an earlier part has found on the way is only stated.
    fn already_found(&self, view: &View<'_>, stop: &Stop, ask: &Ask) -> Option<Step> {
        let given = |id: &QuantityId| stop.moves.iter().any(|m| m.gives.contains(id));
        let id = *stop.asked.iter().find(|id| !given(id))?;
        let (_, part) = self.origin.iter().find(|(q, _)| *q == id)?;
        let manner = Manner { style: self.style(ask), answer: self.answer_form(view, ask, id) };
        let mut lines = single::results(view, id, &manner)?;
        lines.extend(aside::lines(view, ask, id, self.closeness(ask, id)));
        let place = if *part == ask.part { "above".to_owned() } else { format!("in ({part})") };
        Some(Step {
            part: ask.part.clone(),
            ask: Some(stop.ask),
            system: Vec::new(),
            system_name: "found already".to_owned(),
            direction: String::new(),
            reason: format!("{} was found {place}.", letter(view, id)),
            lines,
            equations: Vec::new(),
            gives: Vec::new(),
            is_check: false,
        })
    }

    fn trouble(&mut self, ask: &Ask, view: &View<'_>, step: &Move) {
        let what: Vec<String> = step.gives.iter().map(|q| letter(view, *q)).collect();
        self.troubles.push(Diagnostic::warn(format!(
            "the working for {} in part {} could not be proved line by line and is left out",
            what.join(", "),
            if ask.part.is_empty() { "1" } else { &ask.part }
        )));
    }

    /// How values are written in the working for an ask.
    pub(crate) fn style(&self, ask: &Ask) -> Style<'v> {
        let figures = match ask.accuracy {
            Some(Accuracy::Significant(n)) => n.max(self.settings.figures),
            _ => self.settings.figures,
        };
        Style {
            memo: self.memo,
            figures: figures.saturating_add(self.settings.carried),
            exact: ask.accuracy == Some(Accuracy::Exact),
        }
    }

    fn closeness(&self, ask: &Ask, id: QuantityId) -> Closeness {
        Closeness::of(ask, self.settings.figures, self.from_g.contains(&id))
    }

    /// How the quantity asked for is given.
    fn answer_form(&self, view: &View<'_>, ask: &Ask, id: QuantityId) -> Option<Form> {
        let kind = self.situation.quantity(id)?.kind;
        if matches!(ask.wanted, Wanted::PulleyForce(_) | Wanted::Deceleration(_)) {
            // What is asked follows from this result in a line of its own.
            return None;
        }
        let close = self.closeness(ask, id);
        let mut shown = if kind == model::Kind::Angle {
            angles::angle_form(&angles::of(view, id)?, close)?
        } else {
            form(view.value(id)?, kind, close)
        };
        if ask.show.is_some() {
            shown.note = if shown.note.is_empty() {
                ", as required".to_owned()
            } else {
                format!("{}, as required", shown.note)
            };
        }
        Some(shown)
    }

    fn step(&mut self, view: &View<'a>, stop: &Stop, ask: &Ask, step: &Move) -> Option<Step> {
        let placed: Vec<(&View<'_>, &Entry<'_>)> = step.entries(self.views).collect();
        let entries: Vec<&Entry<'_>> = placed.iter().map(|(_, e)| *e).collect();
        let g = self.gravity_in(view, &entries);
        let rests_on_g = g || entries.iter().flat_map(|e| &e.open).any(|q| self.from_g.contains(q));
        if rests_on_g {
            self.from_g.extend(&step.gives);
        }
        let key = (stop.ask, step.clone());
        let lines = match self.kept.get(&key) {
            Some(lines) => lines.clone()?,
            None => {
                let lines = self.lines(view, stop, ask, step, &entries);
                self.kept.insert(key, lines.clone());
                lines?
            }
        };
        let known = known_at(self.views, step.view, &self.found);
        let mut reason = self.when(view, step)
            + &self.said_before(view, ask, &entries, step)
            + &reason(view, &entries, step, &known);
        if g && !self.told_g {
            self.told_g = true;
            if let Some(written) = self.written_g() {
                reason.push_str(&format!(" Take g = {written}."));
            }
        }
        let mut system = Vec::new();
        for body in entries.iter().flat_map(|e| &e.equation.system) {
            if !system.contains(body) {
                system.push(*body);
            }
        }
        let separate = entries.len() > 1;
        Some(Step {
            part: ask.part.clone(),
            ask: stop.asked.iter().any(|w| step.gives.contains(w)).then_some(stop.ask),
            system_name: if separate { separately(&placed) } else { system_name(view, &system) },
            direction: direction(&placed),
            system,
            reason,
            lines,
            equations: entries.iter().map(|e| e.equation.id).collect(),
            gives: step.gives.clone(),
            is_check: false,
        })
    }

    /// Of which stage the step speaks, where that is not the one of the step before.
    fn when(&mut self, view: &View<'_>, step: &Move) -> String {
        let here = view.solved.stage;
        let facts_only =
            step.entries(self.views).all(|(_, e)| matches!(e.equation.law, motion::Law::Fact(_)));
        if step.views().len() > 1 {
            // Each equation says itself to which stage it belongs.
            self.told_stage = None;
            let stages = step.views().into_iter().filter_map(|v| self.views.get(v)).map(|v| v.solved.stage);
            self.told_stages.extend(stages);
            return String::new();
        }
        if facts_only || self.told_stage == Some(here) {
            return String::new();
        }
        let said = story::when(self.situation, here, &self.told_stages);
        self.told_stage = Some(here);
        self.told_stages.insert(here);
        said
    }

    fn lines(
        &self,
        view: &View<'a>,
        stop: &Stop,
        ask: &Ask,
        step: &Move,
        entries: &[&Entry<'_>],
    ) -> Option<Vec<Line>> {
        let style = self.style(ask);
        let manner = |id: QuantityId| Manner {
            style,
            answer: stop.asked.contains(&id).then(|| self.answer_form(view, ask, id)).flatten(),
        };
        let mut lines = match (entries, step.gives.as_slice()) {
            ([entry], [x]) => single::lines(view, entry, *x, &manner(*x))?,
            _ => block::lines(view, entries, &step.gives, manner)?,
        };
        self.name_stages(step, &mut lines);
        said_once(&mut lines);
        for id in step.gives.iter().filter(|id| stop.asked.contains(id)) {
            lines.extend(aside::lines(view, ask, *id, self.closeness(ask, *id)));
        }
        Some(lines)
    }

    /// Where equations of several stages stand together, the first of each says of which it is.
    fn name_stages(&self, step: &Move, lines: &mut [Line]) {
        if step.views().len() < 2 {
            return;
        }
        let mut stated = lines.iter_mut().filter(|l| l.kind == LineKind::Symbols);
        let mut before = None;
        for (view, _) in step.entries(self.views) {
            let Some(line) = stated.next() else { break };
            if before != Some(view.solved.stage) {
                before = Some(view.solved.stage);
                line.before = story::heading(self.situation, view.solved.stage);
            }
        }
    }

    /// `a comes from (a). ` where an earlier part has found what this step uses.
    fn said_before(&self, view: &View<'_>, ask: &Ask, entries: &[&Entry<'_>], step: &Move) -> String {
        let mut used: Vec<(String, String)> = Vec::new();
        for id in entries.iter().flat_map(|e| &e.open) {
            let from = self.origin.iter().find(|(q, _)| q == id).map(|(_, part)| part.clone());
            if let Some(part) = from.filter(|p| *p != ask.part && !step.gives.contains(id)) {
                let item = (letter(view, *id), part);
                if !used.contains(&item) {
                    used.push(item);
                }
            }
        }
        if used.is_empty() {
            return String::new();
        }
        let mut said = String::new();
        while let Some((_, part)) = used.first().cloned() {
            let here: Vec<String> = used.iter().filter(|(_, p)| *p == part).map(|(l, _)| l.clone()).collect();
            used.retain(|(_, p)| *p != part);
            let verb = if here.len() > 1 { "come" } else { "comes" };
            said.push_str(&format!("{} {verb} from ({part}). ", crate::direction::list(&here)));
        }
        said
    }

    /// Does a decimal value of g stand in one of these equations?
    fn gravity_in(&self, view: &View<'_>, entries: &[&Entry<'_>]) -> bool {
        let Some(g) = self.situation.gravity else { return false };
        view.value(g).is_some_and(|v| v.is_number())
            && entries
                .iter()
                .flat_map(|e| e.sided())
                .any(|(_, p)| p.term.factors.contains(&Factor::Quantity(g)))
    }

    fn written_g(&self) -> Option<String> {
        let known = self.situation.quantity(self.situation.gravity?)?.known.as_ref()?;
        let digits = known.value.as_rational()?.terminating_decimal()?;
        Some(format!("{digits} m s⁻²"))
    }
}

/// A rearranged line that is the result but for its unit is not written twice.
fn said_once(lines: &mut Vec<Line>) {
    let bare = |line: &Line| match &line.math {
        Math::Row(row) => match row.split_last() {
            Some((Math::Unit(_), rest)) => Math::Row(rest.to_vec()).plain(),
            _ => line.math.plain(),
        },
        other => other.plain(),
    };
    let mut at = 0;
    while let (Some(line), Some(next)) = (lines.get(at), lines.get(at + 1)) {
        let twice = line.kind == LineKind::Rearranged
            && next.kind == LineKind::Result
            && (line.before.is_empty() || next.before.is_empty())
            && line.after.is_empty()
            && line.math.plain() == bare(next);
        if twice {
            let gone = lines.remove(at);
            if let Some(kept) = lines.get_mut(at).filter(|_| !gone.before.is_empty()) {
                kept.before = gone.before;
            }
        } else {
            at += 1;
        }
    }
}

/// A step that says word for word what an earlier one has said (a reaction that is the same in the next stage) is cut
/// down to what it finds.
fn as_before(steps: &[Step], mut step: Step) -> Step {
    let said =
        |s: &&Step| !s.is_check && s.lines.len() > 1 && s.lines == step.lines && s.system == step.system;
    if steps.iter().any(|s| said(&s)) {
        step.lines.retain(|l| l.kind == LineKind::Result);
        step.reason.push_str(" It is as before.");
    }
    step
}

fn separately(placed: &[(&View<'_>, &Entry<'_>)]) -> String {
    let mut names: Vec<String> = Vec::new();
    let rank = |e: &Entry<'_>| match e.equation.law {
        motion::Law::Motion | motion::Law::Impulse => 0,
        motion::Law::Fact(_) => 2,
        _ => 1,
    };
    let best = placed.iter().map(|(_, e)| rank(e)).min();
    for (view, entry) in placed.iter().filter(|(_, e)| Some(rank(e)) == best) {
        let name = system_name(view, &entry.equation.system);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    match names.as_slice() {
        [one] => one.clone(),
        _ => format!("{}, each by itself", crate::direction::list(&names)),
    }
}

fn direction(placed: &[(&View<'_>, &Entry<'_>)]) -> String {
    let mut all: Vec<String> = Vec::new();
    for (view, entry) in placed {
        let here = match entry.equation.law {
            motion::Law::Motion | motion::Law::Impulse | motion::Law::Journey(_) => {
                of_system(view, &entry.equation.system)
            }
            motion::Law::Balance => {
                match entry.equation.system.first().and_then(|b| view.situation.body(*b)).map(|b| b.line) {
                    Some(model::Line::Slope { .. }) => "at right angles to the slope".to_owned(),
                    _ => "up positive".to_owned(),
                }
            }
            _ => String::new(),
        };
        all.push(here);
    }
    let mut distinct: Vec<String> = Vec::new();
    for way in all.iter().filter(|d| !d.is_empty()) {
        if !distinct.contains(way) {
            distinct.push(way.clone());
        }
    }
    let mut systems: Vec<_> = placed.iter().map(|(_, e)| &e.equation.system).collect();
    systems.dedup();
    match distinct.as_slice() {
        _ if systems.len() == 1 => distinct.join("; "),
        [one] => one.clone(),
        _ => {
            let mut named: Vec<String> = Vec::new();
            for ((view, entry), way) in placed.iter().zip(&all).filter(|(_, d)| !d.is_empty()) {
                let said = format!("{}: {way}", system_name(view, &entry.equation.system));
                if !named.contains(&said) {
                    named.push(said);
                }
            }
            named.join("; ")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::single::line;

    /// Seen: `P = 31.36`, and below it `P = 31.36 N`.
    #[test]
    fn a_result_is_said_once() {
        let math = |unit: Option<&str>| {
            let row = [Math::quantity("P"), Math::op("="), Math::number("31.36")];
            Math::row(row.into_iter().chain(unit.map(Math::unit)))
        };
        let mut collected = line(LineKind::Rearranged, math(None), Vec::new());
        collected.before = "Adding (1) and (2), T cancels:".to_owned();
        let mut lines = vec![collected, line(LineKind::Result, math(Some("N")), Vec::new())];
        said_once(&mut lines);
        let said: Vec<String> = lines.iter().map(Line::plain).collect();
        assert_eq!(said, ["Adding (1) and (2), T cancels: P = 31.36 N"]);
    }
}
