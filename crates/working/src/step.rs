//! From the moves of a route to its steps: lines, reasons, checks.

use crate::direction::{of_system, system_name};
use crate::form::{Closeness, Form, form};
use crate::reason::{letter, reason};
use crate::route::{Draft, Stop, known_at};
use crate::search::Move;
use crate::shown::{Memo, Style};
use crate::single::{self, Manner};
use crate::view::{Entry, View};
use crate::work::{Line, Route, Settings, Step};
use crate::{angles, aside, block, check, range, rest, story};
use model::{Accuracy, Ask, Diagnostic, QuantityId, Situation, StageId, Wanted};
use motion::Factor;
use std::collections::{BTreeMap, BTreeSet};

/// The lines of steps that several routes share, so that each is written and proved once: by ask and move.
pub(crate) type Kept = BTreeMap<(usize, Move), Option<Vec<Line>>>;

/// Builds the steps of one route.
pub(crate) struct Builder<'v, 'a> {
    pub(crate) situation: &'a Situation,
    pub(crate) views: &'v [View<'a>],
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
        settings: &'v Settings,
        memo: &'v Memo,
        kept: &'v mut Kept,
    ) -> Builder<'v, 'a> {
        Builder {
            situation,
            views,
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
            let entries = stop.moves.iter().flat_map(|m| m.entries.iter().map(|e| (m.view, *e)));
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
        let mut told = 0;
        let mut tested = stop.test_needs.is_empty();
        for step in &stop.moves {
            let Some(there) = self.views.get(step.view) else { continue };
            match self.step(there, stop, ask, step) {
                Some(built) => steps.push(built),
                None => self.trouble(ask, there, step),
            }
            for id in &step.gives {
                self.found.push((step.view, *id));
                self.origin.push((*id, ask.part.clone()));
            }
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
            form(view.solved.value(id)?, kind, close)
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
        let entries: Vec<&Entry<'_>> = step.entries.iter().filter_map(|i| view.entries.get(*i)).collect();
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
            + &reason(view, step, &known);
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
            system_name: if separate { separately(view, &entries) } else { system_name(view, &system) },
            direction: direction(view, &entries),
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
        let facts_only = step
            .entries
            .iter()
            .filter_map(|e| view.entries.get(*e))
            .all(|e| matches!(e.equation.law, motion::Law::Fact(_)));
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
        for id in step.gives.iter().filter(|id| stop.asked.contains(id)) {
            lines.extend(aside::lines(view, ask, *id, self.closeness(ask, *id)));
        }
        Some(lines)
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
        view.solved.value(g).is_some_and(|v| v.is_number())
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

fn separately(view: &View<'_>, entries: &[&Entry<'_>]) -> String {
    let mut names: Vec<String> = Vec::new();
    let rank = |e: &Entry<'_>| match e.equation.law {
        motion::Law::Motion | motion::Law::Impulse => 0,
        motion::Law::Fact(_) => 2,
        _ => 1,
    };
    let best = entries.iter().map(|e| rank(e)).min();
    for entry in entries.iter().filter(|e| Some(rank(e)) == best) {
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

fn direction(view: &View<'_>, entries: &[&Entry<'_>]) -> String {
    let mut all: Vec<String> = Vec::new();
    for entry in entries {
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
    let mut distinct: Vec<String> = all.iter().filter(|d| !d.is_empty()).cloned().collect();
    distinct.dedup();
    let mut systems: Vec<_> = entries.iter().map(|e| &e.equation.system).collect();
    systems.dedup();
    match distinct.as_slice() {
        _ if systems.len() == 1 => distinct.join("; "),
        [one] => one.clone(),
        _ => {
            let named: Vec<String> = entries
                .iter()
                .zip(&all)
                .filter(|(_, d)| !d.is_empty())
                .map(|(e, d)| format!("{}: {d}", system_name(view, &e.equation.system)))
                .collect();
            named.join("; ")
        }
    }
}
