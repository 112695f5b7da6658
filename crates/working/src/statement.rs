//! Statements about the model: how a word of the question (light, inextensible, smooth ...) was used, told by the bodies
//! and the equations of this question's own working.

use crate::direction::{capital, list};
use crate::limits;
use crate::reason::letter;
use crate::shown::{Memo, Style};
use crate::view::{Entry, View};
use crate::write::Writer;
use model::{Ask, BodyId, Form, Grip, Holds, Link, LinkId, QuantityId, Situation, State, Topic};
use motion::{Factor, Law, LinkState};

/// What statements are made from: the situation, its solved stages, and the equations of the first route up to the
/// part that asks, in the order in which they are used.
pub(crate) struct Told<'v, 'a> {
    pub(crate) situation: &'v Situation,
    pub(crate) views: &'v [View<'a>],
    /// By the place of the view, and the place of the equation in it.
    pub(crate) used: Vec<(usize, usize)>,
    pub(crate) ask: &'v Ask,
    pub(crate) memo: &'v Memo,
    pub(crate) figures: u32,
}

/// What to say on a topic.
pub(crate) fn statement(told: &Told<'_, '_>, topic: Topic) -> String {
    match topic {
        Topic::Inextensible => {
            told.each_link(|l| l.holds == Holds::Pull, Told::inextensible, NOTHING_STRETCHES)
        }
        Topic::Rigid => {
            told.each_link(|l| l.holds == Holds::PullOrPush, Told::inextensible, NOTHING_STRETCHES)
        }
        Topic::Light => told.each_link(|_| true, Told::light, NOTHING_LIGHT),
        Topic::SmoothPulley => told.each_link(
            |l| !l.pulleys.is_empty(),
            Told::smooth_pulley,
            "There is no friction at the pulley.",
        ),
        Topic::Particle => told.particle(),
        Topic::SmoothSurface => told.smooth_surface(),
        Topic::NoAirResistance => told.no_air(),
        Topic::Forces(on) => crate::diagram::forces(told, on),
        Topic::Limitation => limits::limitation(told),
        Topic::Assumption => limits::assumption(told),
    }
}

const NOTHING_STRETCHES: &str =
    "Nothing stretches, so bodies that are joined have accelerations of the same size.";
const NOTHING_LIGHT: &str = "What is light is taken to have no mass: its own weight does not enter, and no force is needed to accelerate it.";
/// More links than this are not gone through one by one, and more bodies than this not named.
const MOST_LINKS: usize = 3;
const MOST_NAMED: usize = 4;

impl<'v, 'a> Told<'v, 'a> {
    /// The solved stage to speak of: the one asked about, else the first of which this holds.
    pub(crate) fn view(&self, fits: impl Fn(&View<'_>) -> bool) -> Option<(usize, &'v View<'a>)> {
        let early = |v: &View<'_>| v.range.is_none() && !v.apart && v.solved.part <= self.ask.part_index;
        let all = self.views.iter().enumerate().filter(|(_, v)| early(v) && fits(v));
        all.min_by_key(|(_, v)| {
            (v.solved.stage != self.ask.stage, v.solved.stage, usize::MAX - v.solved.part)
        })
    }

    /// An equation with its unknowns as letters and the rest in numbers: `T − 3g = 3a`.
    fn written(&self, view: &View<'_>, entry: &Entry<'_>) -> String {
        let style = Style { memo: self.memo, figures: self.figures, exact: false };
        Writer { view, style, unknown: Some(&entry.open) }.equation(entry).math.plain()
    }

    /// The equation of motion of a body by itself, one that has been used before one that has not.
    fn of_body(&self, place: usize, view: &View<'_>, body: BodyId) -> Option<(String, bool)> {
        let own = |e: &Entry<'_>| {
            matches!(e.equation.law, Law::Motion | Law::Impulse) && e.equation.system == [body]
        };
        let (at, entry) = view.entries.iter().enumerate().find(|(_, e)| own(e))?;
        Some((self.written(view, entry), self.used.contains(&(place, at))))
    }

    /// An equation of motion that has been used for these bodies, or more, as one.
    fn of_all(&self, place: usize, view: &View<'_>, bodies: &[BodyId]) -> Option<String> {
        let holds = |e: &Entry<'_>| {
            matches!(e.equation.law, Law::Motion | Law::Impulse)
                && bodies.len() > 1
                && bodies.iter().all(|b| e.equation.system.contains(b))
        };
        let used = self.used.iter().filter(|(v, _)| *v == place).filter_map(|(_, e)| view.entries.get(*e));
        used.into_iter().find(|e| holds(e)).map(|e| self.written(view, e))
    }

    /// The equations of these bodies, each by itself: those used, or all where none was and none is used for all at once.
    fn singles(&self, place: usize, view: &View<'_>, bodies: &[BodyId]) -> Vec<String> {
        let all: Vec<(String, bool)> = bodies.iter().filter_map(|b| self.of_body(place, view, *b)).collect();
        let any_used = all.iter().any(|(_, used)| *used) || self.of_all(place, view, bodies).is_some();
        all.into_iter().filter(|(_, used)| *used || !any_used).map(|(says, _)| says).collect()
    }

    /// The bodies by name; of many only how many they are.
    pub(crate) fn names(&self, bodies: &[BodyId]) -> String {
        if bodies.len() > MOST_NAMED {
            return format!("the {} bodies", bodies.len());
        }
        let name = |b: &BodyId| self.situation.body(*b).map(|b| b.name.clone());
        list(&bodies.iter().filter_map(name).collect::<Vec<_>>())
    }

    /// Says something of each link of a sort; of a long train of its first and of "each" of the others.
    fn each_link(
        &self,
        of_sort: impl Fn(&Link) -> bool,
        says: impl Fn(&Self, LinkId, &Link) -> String,
        otherwise: &str,
    ) -> String {
        let all = self.situation.links.iter().enumerate();
        let mut links: Vec<(LinkId, &Link)> =
            all.map(|(i, l)| (LinkId(i), l)).filter(|(_, l)| !l.is_contact && of_sort(l)).collect();
        let more = links.len() > MOST_LINKS;
        links.truncate(if more { 1 } else { MOST_LINKS });
        if links.is_empty() {
            // The question's word may not fit: a rod called inextensible.
            let joined = self.situation.links.iter().enumerate().find(|(_, l)| !l.is_contact);
            links.extend(joined.map(|(i, l)| (LinkId(i), l)));
            if links.is_empty() || otherwise != NOTHING_STRETCHES {
                return otherwise.to_owned();
            }
        }
        let mut said: Vec<String> = links.into_iter().map(|(id, link)| says(self, id, link)).collect();
        if more {
            said.push("The same holds of each of the others.".to_owned());
        }
        said.join(" ")
    }

    fn bodies(link: &Link) -> Vec<BodyId> {
        let mut bodies: Vec<BodyId> = link.ends.iter().map(|e| e.body).collect();
        bodies.sort_unstable();
        bodies
    }

    fn inextensible(&self, id: LinkId, link: &Link) -> String {
        let holds = |v: &View<'_>| v.solved.case.links.get(id.0) == Some(&LinkState::Holding);
        let bodies = Told::bodies(link);
        let names = self.names(&bodies);
        let name = &link.name;
        let how = if link.holds == Holds::PullOrPush { "keeps its length" } else { "does not stretch" };
        let Some((place, view)) = self.view(holds) else {
            return format!(
                "{} {how}, so while it holds {names} have accelerations of the same size.",
                capital(name)
            );
        };
        let singles = self.singles(place, view, &bodies);
        let together = self.of_all(place, view, &bodies);
        let mut places = singles;
        places.extend(together);
        let tie = view.entries.iter().find(|e| e.equation.law == Law::Together(id));
        let jerk = view.stage().is_some_and(|s| s.state == State::Jerk);
        let what = if jerk { "speeds just after the jerk" } else { "accelerations" };
        if let Some(tie) = tie {
            let written = self.written(view, tie);
            return format!("{} {how}, which ties the {what} of {names}: {written}.", capital(name));
        }
        if !view.solved.case.moves {
            let none = match bodies.as_slice() {
                [one, other] => {
                    let (one, other) = (self.names(&[*one]), self.names(&[*other]));
                    format!("neither {one} nor {other} can move without the other")
                }
                _ => format!("none of {names} can move without the others"),
            };
            return format!(
                "{} {how}, so {none}: they stay at rest together{}.",
                capital(name),
                within(", in ", &places)
            );
        }
        let mut shared: Vec<QuantityId> = Vec::new();
        for id in bodies.iter().filter_map(|b| view.acceleration_of(*b)) {
            if !shared.contains(&id) {
                shared.push(id);
            }
        }
        let still =
            |id: &QuantityId| view.known.contains(id) && view.value(*id).is_some_and(exact::Value::is_zero);
        match shared.as_slice() {
            [one] if still(one) => format!(
                "{} {how}, so {names} have the same speed all the time{}.",
                capital(name),
                within(", as in ", &places)
            ),
            [one] => {
                let all = if bodies.len() == 2 { "both" } else { "all" };
                format!(
                    "{} {how}, so {names} have accelerations of the same size: {} stands for {all}{}.",
                    capital(name),
                    letter(view, *one),
                    within(" in ", &places)
                )
            }
            several => {
                let letters: Vec<String> = several.iter().map(|id| letter(view, *id)).collect();
                format!(
                    "{} {how}, which ties the accelerations {} of {names}.",
                    capital(name),
                    list(&letters)
                )
            }
        }
    }

    /// The letter of a link's force, what it is called, and where it stands.
    fn tension(
        &self,
        view: &View<'_>,
        id: LinkId,
        link: &Link,
    ) -> Option<(String, &'static str, Vec<String>)> {
        let force: QuantityId = view.stage()?.links.get(id.0).copied()?;
        let mut places = Vec::new();
        let mut thrust = false;
        for body in Told::bodies(link) {
            thrust |= view.solved.link_force(id, body).is_some_and(|f| f.thrust);
            let own = view.entries.iter().find(|e| {
                e.is_motion()
                    && e.equation.system == [body]
                    && e.left.iter().any(|p| p.term.factors.contains(&Factor::Quantity(force)))
            });
            if let Some(entry) = own {
                let name = self.names(&[body]);
                places.push(format!("on {name} in {}", self.written(view, entry)));
            }
        }
        let called = match (view.stage()?.state, thrust) {
            (State::Jerk, _) => "impulse",
            (_, true) => "thrust",
            _ => "tension",
        };
        Some((letter(view, force), called, places))
    }

    fn light(&self, id: LinkId, link: &Link) -> String {
        let holds = |v: &View<'_>| v.solved.case.links.get(id.0) == Some(&LinkState::Holding);
        let name = &link.name;
        let bodies = Told::bodies(link);
        let found = self.view(holds).and_then(|(p, v)| Some((p, v, self.tension(v, id, link)?)));
        let Some((place, view, (force, called, places))) = found else {
            return format!(
                "{} has no mass, so the force in it is the same all along it and acts with one size on {}.",
                capital(name),
                self.names(&bodies)
            );
        };
        let whole = match self.of_all(place, view, &bodies) {
            Some(whole) => format!(" No mass of {name} is added in {whole}."),
            None => String::new(),
        };
        format!(
            "{} has no mass, so the {called} in it is the same all along it: the same {force} acts {}.{whole}",
            capital(name),
            if places.is_empty() { format!("on {}", self.names(&bodies)) } else { list(&places) }
        )
    }

    fn smooth_pulley(&self, id: LinkId, link: &Link) -> String {
        let holds = |v: &View<'_>| v.solved.case.links.get(id.0) == Some(&LinkState::Holding);
        let pulleys: Vec<String> = link
            .pulleys
            .iter()
            .filter_map(|p| self.situation.pulleys.get(p.0))
            .map(|p| p.name.clone())
            .collect();
        let at = list(&pulleys);
        let sides = if pulleys.len() > 1 { "on both sides of each" } else { "on both sides of it" };
        let found = self.view(holds).and_then(|(p, v)| Some((p, v, self.tension(v, id, link)?)));
        let Some((place, view, (force, called, places))) = found else {
            return format!(
                "There is no friction at {at}, so the tension in {} is the same {sides}.",
                link.name
            );
        };
        let cancels = match self.of_all(place, view, &Told::bodies(link)) {
            Some(whole) => format!(" That is why {force} cancels in {whole}."),
            None => String::new(),
        };
        format!(
            "There is no friction at {at}, so the {called} in {} is the same {sides}: the same {force} acts {}.{cancels}",
            link.name,
            if places.is_empty() { format!("on {}", self.names(&Told::bodies(link))) } else { list(&places) }
        )
    }

    /// The bodies themselves, not pulleys.
    pub(crate) fn things(&self) -> Vec<BodyId> {
        let thing = |b: &BodyId| self.situation.body(*b).is_some_and(|b| b.form != Form::Pulley);
        self.situation.body_ids().filter(thing).collect()
    }

    fn particle(&self) -> String {
        let bodies = self.things();
        let several = bodies.len() > 1;
        let found = self.view(|_| true);
        let places = found.map(|(p, v)| self.singles(p, v, &bodies)).unwrap_or_default();
        let whole = found.and_then(|(p, v)| self.of_all(p, v, &bodies));
        let mut shown: Vec<String> = places.into_iter().take(MOST_LINKS).collect();
        shown.extend(whole);
        let (verb, each, its) = if several {
            ("are treated as particles", "each", "their")
        } else {
            ("is treated as a particle", "it", "its")
        };
        format!(
            "{} {verb}: all forces on {each} act at one point, so that one equation along the line of motion is enough{}; {its} size and any turning do not come in.",
            capital(&self.names(&bodies)),
            within(", as in ", &shown)
        )
    }

    fn smooth_surface(&self) -> String {
        let found = self.view(|_| true);
        let mut says = Vec::new();
        for (i, body) in self.situation.bodies.iter().enumerate() {
            let Some(surface) = body.surface.as_ref().filter(|s| s.grip == Grip::Smooth) else { continue };
            let own = found.and_then(|(p, v)| self.of_body(p, v, BodyId(i)));
            let place = own.map(|(says, _)| format!(": {says} has no term for it")).unwrap_or_default();
            says.push(format!(
                "{} is smooth, so no friction acts on {}{place}.",
                capital(&surface.name),
                body.name
            ));
        }
        if says.is_empty() {
            "A smooth surface exerts no friction: it acts only at right angles to itself.".to_owned()
        } else {
            says.join(" ")
        }
    }

    fn no_air(&self) -> String {
        let bodies = self.things();
        let found = self.view(|_| true);
        let mut places = found.map(|(p, v)| self.singles(p, v, &bodies)).unwrap_or_default();
        places.extend(found.and_then(|(p, v)| self.of_all(p, v, &bodies)));
        places.truncate(MOST_LINKS);
        format!(
            "No air resistance acts on {}, so there is no term for it{}.",
            self.names(&bodies),
            within(" in ", &places)
        )
    }
}

/// The places, with a word before them; nothing where there is none.
fn within(word: &str, places: &[String]) -> String {
    if places.is_empty() { String::new() } else { format!("{word}{}", list(places)) }
}
