//! A situation as a list of facts, apart from the order in which its things are numbered, the words in which they
//! are named and the places where they were told; and what differs between two of them.

use exact::Angle;
use model::{Direction, Grip, Happening, Line, QuantityId, Relation, Situation, Stage, StageId, Wanted};
use std::collections::{BTreeMap, BTreeSet};

/// What one situation says and another does not, one line for each fact that is lost or added; empty where both say
/// the same. It does not matter how things are numbered, called and drawn, nor where they were told.
///
/// ```
/// let one = words::read("A lift of mass 500 kg accelerates upwards at 0.5 m s^-2. Find the tension in the cable.");
/// let other = words::read("A lift has mass 500 kg. Find the tension in its cable when it accelerates downwards at 0.5 m s^-2.");
/// let found = words::differences(&one.situation, &other.situation);
/// assert!(found.contains(&"lost: heading : lift +1".to_owned()), "{found:?}");
/// ```
#[must_use]
pub fn differences(wrote: &Situation, read: &Situation) -> Vec<String> {
    let (wrote, read) = (called(wrote, read), called(read, read));
    let (before, after) = (facts(&wrote), facts(&read));
    let count = |list: &[String]| {
        let mut of = BTreeMap::<String, i32>::new();
        list.iter().for_each(|f| *of.entry(f.clone()).or_default() += 1);
        of
    };
    let (before, after) = (count(&before), count(&after));
    let all: BTreeSet<&String> = before.keys().chain(after.keys()).collect();
    let mut found = Vec::new();
    for fact in all {
        let (b, a) = (before.get(fact).copied().unwrap_or(0), after.get(fact).copied().unwrap_or(0));
        if b > a {
            found.push(format!("lost: {fact}"));
        } else if a > b {
            found.push(format!("added: {fact}"));
        }
    }
    found
}

/// The situation with its bodies called as in the other one: by the same names, or by the names of those in the same
/// places where the names are others.
fn called(s: &Situation, other: &Situation) -> Situation {
    let labels = |s: &Situation| (0..s.bodies.len()).map(|i| label(s, i)).collect::<BTreeSet<_>>();
    let mut s = s.clone();
    let (mine, theirs) = (labels(&s), labels(other));
    let mut free: Vec<String> =
        (0..other.bodies.len()).map(|i| label(other, i)).filter(|l| !mine.contains(l)).rev().collect();
    for i in 0..s.bodies.len() {
        if !theirs.contains(&label(&s, i))
            && let (Some(body), Some(there)) = (s.bodies.get_mut(i), free.pop())
        {
            body.label = there;
        }
    }
    s
}

/// Everything that a situation says, one fact a line.
fn facts(s: &Situation) -> Vec<String> {
    let mut all = Facts { s, roles: roles(s) }.all();
    // Two journeys of which the same is known are one.
    let journey =
        |f: &String| ["first speed", "last speed", "distance", "time"].iter().any(|j| f.starts_with(j));
    let mut seen = BTreeSet::new();
    all.retain(|f| !journey(f) || seen.insert(f.clone()));
    all
}

/// What each quantity is in the situation: the mass of A, the speed of B at the end of a journey ...
/// One that is several things at once says by this that they are equal.
fn roles(s: &Situation) -> BTreeMap<QuantityId, BTreeSet<String>> {
    let mut roles: BTreeMap<QuantityId, BTreeSet<String>> = BTreeMap::new();
    let mut put = |id: QuantityId, role: String| {
        roles.entry(id).or_default().insert(role);
    };
    if let Some(g) = s.gravity {
        put(g, "g".into());
    }
    for (i, body) in s.bodies.iter().enumerate() {
        let name = label(s, i);
        put(body.mass, format!("mass of {name}"));
        if let Line::Slope { angle, .. } = body.line {
            put(angle, format!("slope of {name}"));
        }
        if let Some(surface) = &body.surface {
            if let Grip::Rough(mu) = surface.grip {
                put(mu, format!("coefficient under {name}"));
            }
            if let Some(mu) = surface.sliding {
                put(mu, format!("sliding coefficient under {name}"));
            }
        }
    }
    for action in &s.actions {
        if let Direction::At { angle, .. } = action.direction {
            put(angle, format!("angle of a force on {}", label(s, action.on.0)));
        }
    }
    for (n, stage) in s.stages.iter().enumerate() {
        let at = place(s, n);
        for i in 0..s.bodies.len() {
            let name = label(s, i);
            if let Some(a) = stage.accelerations.get(i) {
                put(*a, format!("acceleration of {name} {at}"));
            }
            if let Some(Some(r)) = stage.reactions.get(i) {
                put(*r, format!("reaction under {name} {at}"));
            }
            if let Some(Some(f)) = stage.frictions.get(i) {
                put(*f, format!("friction under {name} {at}"));
            }
        }
        for (i, q) in stage.links.iter().enumerate() {
            put(*q, format!("force in {} {at}", link(s, i)));
        }
        for (i, q) in stage.forces.iter().enumerate() {
            put(*q, format!("size of {} {at}", action(s, i)));
        }
    }
    // A journey is known by what is known of it: its parts are told apart by it, and not by their numbers.
    for (n, stage) in s.stages.iter().enumerate() {
        for j in journeys(s, stage) {
            for (what, id) in [("first speed", j.0), ("last speed", j.1), ("distance", j.2), ("time", j.3)] {
                put(id, format!("{what} of {} {} {}", j.4, place(s, n), j.5));
            }
        }
    }
    roles
}

type Told = (QuantityId, QuantityId, QuantityId, QuantityId, String, String);

/// The journeys of a stage of which something is known or asked, each with what is known of it.
fn journeys(s: &Situation, stage: &Stage) -> Vec<Told> {
    let known = |id: QuantityId| s.quantity(id).and_then(|q| q.known.as_ref()).map(|k| k.value.to_string());
    stage
        .journeys
        .iter()
        .map(|j| {
            let parts = [("u", j.start_speed), ("v", j.end_speed), ("s", j.distance), ("t", j.time)];
            let told: Vec<String> =
                parts.iter().filter_map(|(w, id)| Some(format!("{w}={}", known(*id)?))).collect();
            let key = format!("[{}]", told.join(" "));
            (j.start_speed, j.end_speed, j.distance, j.time, label(s, j.body.0), key)
        })
        .collect()
}

fn label(s: &Situation, body: usize) -> String {
    let label = s.bodies.get(body).map(|b| b.label.as_str()).unwrap_or("nothing");
    label.strip_prefix("the ").unwrap_or(label).to_owned()
}

/// A stage by what is said of it.
fn place(s: &Situation, n: usize) -> String {
    match s.stages.len() {
        1 => String::new(),
        _ => format!("in stage {n}"),
    }
}

fn link(s: &Situation, i: usize) -> String {
    let Some(link) = s.links.get(i) else { return "nothing".into() };
    let mut ends: Vec<(String, i8, u8)> =
        link.ends.iter().map(|e| (label(s, e.body.0), e.sense, e.times)).collect();
    ends.sort();
    // Turned round, a rod or a string in a line says the same.
    let ends: Vec<String> = ends
        .iter()
        .map(|(n, sense, times)| format!("{n}{sense:+}{}", "*".repeat(usize::from(*times) - 1)))
        .collect();
    format!("{:?}({}{})", link.holds, ends.join(" "), " pulley".repeat(link.pulleys.len()))
}

fn action(s: &Situation, i: usize) -> String {
    let Some(a) = s.actions.get(i) else { return "nothing".into() };
    let way = match a.direction {
        Direction::Along(sense) => format!("along {sense:+}"),
        Direction::Opposing => "opposing".into(),
        Direction::At { sense, angle, lifts } => {
            format!("at {} {sense:+} {}", angle_of(s, angle), if lifts { "lifting" } else { "pressing" })
        }
    };
    format!("{:?} on {} {way}", a.role, label(s, a.on.0))
}

fn angle_of(s: &Situation, id: QuantityId) -> String {
    match s.angles.get(&id) {
        Some(Angle::Degrees(d)) => format!("{d}°"),
        Some(Angle::Sin(v)) => format!("sin {v}"),
        Some(Angle::Cos(v)) => format!("cos {v}"),
        Some(Angle::Tan(v)) => format!("tan {v}"),
        None => "an unknown angle".into(),
    }
}

struct Facts<'a> {
    s: &'a Situation,
    roles: BTreeMap<QuantityId, BTreeSet<String>>,
}

impl Facts<'_> {
    fn all(&self) -> Vec<String> {
        let s = self.s;
        let mut all = Vec::new();
        for (i, body) in s.bodies.iter().enumerate() {
            let line = match body.line {
                Line::Level => "level".into(),
                Line::Vertical => "vertical".into(),
                Line::Slope { angle, .. } => format!("slope of {}", angle_of(s, angle)),
            };
            let surface = match &body.surface {
                None => "nothing".into(),
                Some(x) => {
                    let grip = match x.grip {
                        Grip::Smooth => "smooth",
                        Grip::Rough(_) => "rough",
                        Grip::Unsaid => "plain",
                    };
                    match x.under {
                        Some(u) => format!("{grip} {}", label(s, u.0)),
                        None => format!("{grip} ground"),
                    }
                }
            };
            all.push(format!("{} moves on a {line} line, on {surface}", label(s, i)));
        }
        all.extend((0..s.links.len()).map(|i| format!("link {}", link(s, i))));
        all.extend((0..s.actions.len()).map(|i| format!("force: {}", action(s, i))));
        for (n, stage) in s.stages.iter().enumerate() {
            all.extend(self.stage(StageId(n), stage));
        }
        for (i, q) in s.quantities.iter().enumerate() {
            let id = QuantityId(i);
            let Some(roles) = self.roles.get(&id) else { continue };
            if let Some(known) = &q.known {
                let speaks = !known.value.is_zero() || !roles.iter().all(|r| r.starts_with("acceleration"));
                // A known value is told of each thing by itself: that two are equal follows from it.
                for role in
                    roles.iter().filter(|r| speaks && !r.starts_with("slope") && !r.starts_with("angle"))
                {
                    let journey =
                        ["first speed", "last speed", "distance", "time"].iter().any(|j| role.starts_with(j));
                    let from = if journey {
                        String::new()
                    } else {
                        format!(" from ask {}", self.first_ask(known.from_part))
                    };
                    all.push(format!("{role} = {}{from}", known.value));
                }
            } else if roles.len() > 1 && !s.angles.contains_key(&id) {
                all.push(format!("equal: {}", self.name(id)));
            }
        }
        all.extend(s.relations.iter().map(|r| self.relation(r)));
        all.extend(s.letters.iter().map(|l| format!("letter {} open", l.symbol)));
        for ask in &s.asks {
            all.push(format!(
                "asked in ({}): {} {} show {:?} {:?} marks {:?}",
                ask.part,
                self.wanted(&ask.wanted),
                place(s, ask.stage.0),
                ask.show.as_ref().map(ToString::to_string),
                ask.accuracy,
                ask.marks,
            ));
        }
        all
    }

    fn stage(&self, id: StageId, stage: &Stage) -> Vec<String> {
        let s = self.s;
        let at = place(s, id.0);
        let mut all = vec![format!("stage {at}: {:?}", stage.state)];
        if let Some(h) = stage.heading {
            all.push(format!("heading {at}: {} {:+}", label(s, h.body.0), h.sense));
        }
        all.extend(stage.without_links.iter().map(|l| format!("{at} without {}", link(s, l.0))));
        all.extend(stage.without_actions.iter().map(|a| format!("{at} without {}", action(s, a.0))));
        all.extend(stage.held.iter().map(|b| format!("{at} {} is held", label(s, b.0))));
        all.extend(stage.about_to_slip.iter().map(|b| format!("{at} {} is about to slip", label(s, b.0))));
        if let Some(b) = &stage.begins {
            let with = match &b.with {
                Happening::Breaks(l) => format!("{} breaks", link(s, l.0)),
                Happening::Slackens(l) => format!("{} slackens", link(s, l.0)),
                Happening::Tightens(l) => format!("{} tightens", link(s, l.0)),
                Happening::Stops { body, .. } => format!("{} stops", label(s, body.0)),
                Happening::Rests(b) => format!("{} rests", label(s, b.0)),
                Happening::Ends(a) => format!("{} ends", action(s, a.0)),
                Happening::Starts(a) => format!("{} starts", action(s, a.0)),
                Happening::Changes => "a change".into(),
            };
            all.push(format!("stage {at} follows stage {} with {with}", b.after.0));
        }
        all
    }

    /// The first question in whose part the value is known.
    fn first_ask(&self, part: usize) -> usize {
        self.s.asks.iter().position(|a| a.part_index >= part).unwrap_or(0)
    }

    fn name(&self, id: QuantityId) -> String {
        match self.roles.get(&id) {
            Some(roles) => roles.iter().cloned().collect::<Vec<_>>().join(" = "),
            None => match self.s.relations.iter().find(|r| r.terms.first().is_some_and(|t| t.1 == [id])) {
                // A sum: by what it sums.
                Some(r) => format!("sum {:?}", self.terms(r.terms.get(1..).unwrap_or_default())),
                None => self
                    .s
                    .quantity(id)
                    .map_or_else(|| "nothing".into(), |q| format!("{:?} {}", q.kind, q.letter)),
            },
        }
    }

    fn terms(&self, terms: &[(exact::Value, Vec<QuantityId>)]) -> Vec<String> {
        let mut list: Vec<String> = terms
            .iter()
            .map(|(v, ids)| {
                let mut of: Vec<String> = ids
                    .iter()
                    .map(|id| self.roles.get(id).map_or_else(|| "x".into(), |_| self.name(*id)))
                    .collect();
                of.sort();
                format!("{v} {}", of.join(" times "))
            })
            .collect();
        list.sort();
        list
    }

    fn relation(&self, relation: &Relation) -> String {
        format!("relation from part {}: {:?}", relation.from_part, self.terms(&relation.terms))
    }

    fn wanted(&self, wanted: &Wanted) -> String {
        let s = self.s;
        match wanted {
            Wanted::Quantity(id) => self.name(*id),
            Wanted::Magnitude(id) => format!("magnitude of {}", self.name(*id)),
            Wanted::Deceleration(b) => format!("deceleration of {}", label(s, b.0)),
            Wanted::PulleyForce(p) => {
                let on: Vec<String> = (0..s.links.len())
                    .filter(|i| s.links.get(*i).is_some_and(|l| l.pulleys.contains(p)))
                    .map(|i| link(s, i))
                    .collect();
                format!("force on the pulley of {on:?}")
            }
            Wanted::WhichWay(b) => format!("which way {} moves", label(s, b.0)),
            Wanted::AccelerationWay(b) => format!("which way {} accelerates", label(s, b.0)),
            Wanted::TensionOrThrust(l) => format!("tension or thrust in {}", link(s, l.0)),
            Wanted::WhetherItMoves => "whether it moves".into(),
            Wanted::Whether { .. } => format!("{wanted:?}"),
            Wanted::Range(id) => format!("range of {}", self.name(*id)),
            Wanted::Effect { change, on } => format!("effect of {change:?} on {}", self.name(*on)),
            Wanted::Statement(topic) => format!("statement {topic:?}"),
        }
    }
}
