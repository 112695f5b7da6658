//! Who there is, and what each stands on or hangs from; where it is rough.

use super::names::article;
use super::{Said, Writer, cannot};
use crate::lexicon::{Noun, noun, singular};
use model::{Body, BodyId, Form, Grip, Holds, Kind, Line, LinkId, QuantityId, Role, StageId, Surface};
use std::collections::{BTreeMap, BTreeSet};

/// A surface as the text keeps it apart: what it is called, how steep it is and whether it is rough.
type Ground = (String, Option<QuantityId>, u8);

impl Writer<'_> {
    /// One sentence for each body.
    pub(super) fn scene(&mut self, stage: StageId) -> Said<Vec<String>> {
        let mut told: BTreeSet<Ground> = BTreeSet::new();
        let mut sentences = Vec::new();
        for id in self.in_order()? {
            let Some(body) = self.s.body(id) else { continue };
            let place = self.place(id, body, stage, &mut told)?;
            let first = capital(&self.name(id).first());
            sentences.push(format!("{first}{} {place}.", self.of_mass(body)?));
        }
        Ok(sentences)
    }

    /// The bodies, each after the one that carries it or from which it hangs.
    fn in_order(&self) -> Said<Vec<BodyId>> {
        let mut left: Vec<BodyId> = self.s.body_ids().collect();
        let mut order: Vec<BodyId> = Vec::new();
        while !left.is_empty() {
            let free = left.iter().position(|b| self.rests_upon(*b).is_none_or(|c| order.contains(&c)));
            let Some(at) = free else { return Err(cannot("bodies that carry each other in a ring")) };
            order.push(left.remove(at));
        }
        Ok(order)
    }

    /// The body that carries this one, or from which it hangs.
    pub(super) fn rests_upon(&self, id: BodyId) -> Option<BodyId> {
        let body = self.s.body(id)?;
        if let Some(under) = body.surface.as_ref().and_then(|s| s.under) {
            return Some(under);
        }
        self.held_by(id).map(|l| l.1)
    }

    /// The link by which another vertical body carries this one.
    pub(super) fn held_by(&self, id: BodyId) -> Option<(LinkId, BodyId)> {
        if self.s.body(id)?.line != Line::Vertical {
            return None;
        }
        self.s.link_ids().find_map(|l| {
            let link = self.s.link(l)?;
            let [one, other] = link.ends.as_slice() else { return None };
            let (me, holder) = if one.body == id { (one, other) } else { (other, one) };
            (me.body == id && me.sense == 1 && holder.sense == -1 && link.pulleys.is_empty())
                .then_some((l, holder.body))
        })
    }

    fn of_mass(&mut self, body: &Body) -> Said<String> {
        if self.given(body.mass).is_some() {
            self.said.insert(body.mass);
        }
        if let Some(letter) = self.letters.get(&body.mass) {
            return Ok(format!(" of mass {letter} kg"));
        }
        Ok(match self.given(body.mass) {
            Some(value) => format!(" of mass {}", self.size(value, Kind::Mass)?),
            None => String::new(),
        })
    }

    /// Where a body is: `lies on a rough horizontal table`, `hangs freely`.
    fn place(
        &mut self,
        id: BodyId,
        body: &Body,
        stage: StageId,
        told: &mut BTreeSet<Ground>,
    ) -> Said<String> {
        if body.form == Form::Pulley {
            return Err(cannot("a pulley that moves"));
        }
        if let Some(surface) = &body.surface {
            return match surface.under {
                Some(under) => Ok(format!("rests on top of {}", self.name(under).again())),
                None => self.on_ground(body, surface, told),
            };
        }
        if body.line != Line::Vertical {
            return Err(cannot(format!("what {} stands on", body.name)));
        }
        if let Some((link, holder)) = self.held_by(id) {
            return self.in_or_below(link, holder);
        }
        if let Some(cable) = self.cable_of(id) {
            let verb = if body.form == Form::Lift { "is suspended from" } else { "hangs from" };
            return Ok(format!(
                "{verb} {} {} vertical {cable}",
                article(self.voice.words().light),
                self.voice.words().light
            ));
        }
        let over =
            self.s.links_in(stage).any(|(_, l)| !l.pulleys.is_empty() && l.ends.iter().any(|e| e.body == id));
        if over { Ok("hangs freely".to_owned()) } else { Err(cannot(format!("what holds {}", body.name))) }
    }

    /// `rests on the floor of the lift`, `hangs from the ceiling of the lift by a light string`, `hangs below A`.
    fn in_or_below(&mut self, link: LinkId, holder: BodyId) -> Said<String> {
        let lift = self.s.body(holder).is_some_and(|b| b.form == Form::Lift);
        let Some(holds) = self.s.link(link).map(|l| l.holds) else { return Err(cannot("a link")) };
        let of = self.name(holder).again();
        Ok(match (holds, lift) {
            (Holds::Push, true) => format!("rests on the floor of {of}"),
            (Holds::Push, false) => format!("rests on top of {of}"),
            (_, true) => format!("hangs from the ceiling of {of} by {}", self.a_link(link)?),
            (_, false) => format!("hangs from {of} by {}", self.a_link(link)?),
        })
    }

    /// The noun of the cable that holds a body and leaves the situation.
    pub(super) fn cable_of(&self, id: BodyId) -> Option<&str> {
        let links: Vec<String> = self.s.links.iter().map(|l| self.link_noun(l)).collect();
        let action = self.s.actions.iter().find(|a| a.on == id && a.role == Role::Cable)?;
        let noun_in_name = action.name.rsplit(' ').next()?;
        Some(match noun(noun_in_name) {
            // A rope joins the bodies, and this is another one.
            Some(Noun::Link(Holds::Pull)) if !links.iter().any(|l| l == noun_in_name) => noun_in_name,
            _ if links.iter().any(|l| l == "cable") => "wire",
            _ => "cable",
        })
    }

    fn on_ground(&mut self, body: &Body, surface: &Surface, told: &mut BTreeSet<Ground>) -> Said<String> {
        let slope = match body.line {
            Line::Slope { angle, .. } => Some(angle),
            Line::Level => None,
            Line::Vertical => return Err(cannot("a surface beside a body that moves up or down")),
        };
        let verb = match body.form {
            Form::Vehicle | Form::Trailer | Form::Person => "stands on",
            _ => "lies on",
        };
        let noun = ground(surface, slope.is_some());
        let grip = match surface.grip {
            Grip::Smooth => 0,
            Grip::Rough(_) => 1,
            Grip::Unsaid => 2,
        };
        if !told.insert((noun.clone(), slope, grip)) {
            return Ok(format!("{verb} the {noun}"));
        }
        if told.iter().any(|(n, at, g)| *n == noun && *at == slope && *g != grip) {
            return Err(cannot("a surface that is smooth in one place and rough in another"));
        }
        let words = self.voice.words();
        let rubs = ["smooth", "rough", ""].get(grip as usize).copied().unwrap_or_default();
        let rubs = if grip == 0 { words.smooth } else { rubs };
        match slope {
            None => {
                let adjectives = [rubs, words.level]
                    .iter()
                    .filter(|w| !w.is_empty())
                    .copied()
                    .collect::<Vec<_>>()
                    .join(" ");
                Ok(format!("{verb} {} {adjectives} {noun}", article(&adjectives)))
            }
            Some(angle) => {
                let adjective = if rubs.is_empty() { String::new() } else { format!("{rubs} ") };
                let (at, given) = self.angle(angle)?;
                let start = format!("{adjective}{noun}");
                Ok(format!("{verb} {} {start} inclined at {at} to the horizontal{given}", article(&start)))
            }
        }
    }

    /// The coefficients of friction, and which contacts between bodies are smooth.
    pub(super) fn rubs(&mut self) -> Said<Vec<String>> {
        let mut sentences = Vec::new();
        let mut rough: BTreeMap<QuantityId, Vec<BodyId>> = BTreeMap::new();
        for id in self.s.body_ids() {
            let Some((_, surface)) = self.s.body(id).and_then(|b| Some((b, b.surface.as_ref()?))) else {
                continue;
            };
            if surface.sliding.is_some() {
                return Err(cannot("a coefficient of its own while sliding"));
            }
            match (surface.grip, surface.under) {
                (Grip::Rough(mu), _) => rough.entry(mu).or_default().push(id),
                (Grip::Smooth, Some(under)) => sentences.push(format!(
                    "The contact between {} and {} is {}.",
                    self.name(id).again(),
                    self.name(under).again(),
                    self.voice.words().smooth
                )),
                _ => {}
            }
        }
        for (mu, bodies) in rough {
            let value = match (self.given(mu), self.letters.get(&mu)) {
                (Some(value), _) => self.size(value, Kind::Coefficient)?,
                (None, Some(letter)) => letter.clone(),
                (None, None) => {
                    for (b, under) in
                        bodies.iter().filter_map(|b| Some((*b, self.s.body(*b)?.surface.as_ref()?.under?)))
                    {
                        sentences.push(format!(
                            "The contact between {} and {} is rough.",
                            self.name(b).again(),
                            self.name(under).again()
                        ));
                    }
                    if bodies.len() > 1 {
                        return Err(cannot("an unknown coefficient of several bodies, without a letter"));
                    }
                    continue;
                }
            };
            if self.given(mu).is_some() {
                self.said.insert(mu);
            }
            for between in self.between(&bodies, self.known(mu).is_some())? {
                sentences.push(format!("The coefficient of friction between {between} is {value}."));
            }
        }
        Ok(sentences)
    }

    /// `A and the table`, or `each block and the table` where several bodies share a coefficient.
    fn between(&self, bodies: &[BodyId], is_known: bool) -> Said<Vec<String>> {
        let all: Vec<(BodyId, String)> =
            bodies.iter().filter_map(|b| Some((*b, self.ground_of(*b)?))).collect();
        let grounds: BTreeSet<&String> = all.iter().map(|b| &b.1).collect();
        let nouns: BTreeSet<String> = bodies.iter().map(|b| self.name(*b).noun).collect();
        let others = |n: &String| self.s.body_ids().any(|b| !bodies.contains(&b) && self.name(b).noun == *n);
        if let ([_, _, ..], 1, Some(noun), Some(ground)) =
            (bodies, grounds.len(), nouns.first().filter(|_| nouns.len() == 1), grounds.first())
            && !others(noun)
        {
            return Ok(vec![format!("each {noun} and {ground}")]);
        }
        if bodies.len() > 1 && !is_known {
            return Err(cannot("an unknown coefficient of several bodies of different sorts"));
        }
        Ok(all.into_iter().map(|(b, ground)| format!("{} and {ground}", self.name(b).again())).collect())
    }

    /// What a body stands on, by its name: `the table`, `A`.
    pub(super) fn ground_of(&self, id: BodyId) -> Option<String> {
        let body = self.s.body(id)?;
        let surface = body.surface.as_ref()?;
        Some(match surface.under {
            Some(under) => self.name(under).again(),
            None => format!("the {}", ground(surface, matches!(body.line, Line::Slope { .. }))),
        })
    }
}

/// The noun of a surface.
fn ground(surface: &Surface, slopes: bool) -> String {
    let last = surface.name.split(' ').take_while(|w| *w != "of").last().map(singular).unwrap_or_default();
    match noun(&last) {
        // A line is a string as well.
        _ if matches!(last.as_str(), "line" | "rail") => "track".to_owned(),
        Some(Noun::Surface { slopes: by_nature }) if slopes || !by_nature => last,
        _ if slopes => "plane".to_owned(),
        _ => "surface".to_owned(),
    }
}

/// With a capital at the beginning.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(c) => c.to_uppercase().collect::<String>() + letters.as_str(),
        None => String::new(),
    }
}
