//! What joins the bodies: strings over pulleys, strings and bars in a line, contacts.

use super::names::article;
use super::scene::capital;
use super::{Said, Writer, cannot};
use crate::lexicon::{Noun, noun};
use model::{BodyId, Direction, Form, Holds, Line, Link, LinkId, Role, StageId};
use std::collections::BTreeMap;

impl Writer<'_> {
    /// One sentence, or two, for each link.
    pub(super) fn joins(&mut self, stage: StageId) -> Said<Vec<String>> {
        let mut sentences = Vec::new();
        // The strings that run from a level body over a pulley: the second runs the other way.
        let mut over_edge: BTreeMap<BodyId, i8> = BTreeMap::new();
        for id in self.s.link_ids() {
            let Some(link) = self.s.link(id) else { continue };
            let [one, other] = link.ends.as_slice() else { return Err(cannot("a string with three ends")) };
            if link.bears.is_some() {
                return Err(cannot(format!("how much {} can bear", link.name)));
            }
            if one.times != 1 || other.times != 1 {
                return Err(cannot("a string in several strands"));
            }
            if !link.pulleys.is_empty() {
                sentences.push(self.over(id, link, &mut over_edge)?);
            } else if link.holds == Holds::Push {
                sentences.extend(self.contact(id, link, stage)?);
            } else {
                sentences.extend(self.in_line(id, link, stage)?);
            }
        }
        Ok(sentences)
    }

    /// `a light inextensible string`, `a light rigid tow-bar`.
    pub(super) fn a_link(&self, id: LinkId) -> Said<String> {
        let Some(link) = self.s.link(id) else { return Err(cannot("a link")) };
        let words = self.voice.words();
        let kind = if link.holds == Holds::Pull {
            words.string.to_owned()
        } else {
            format!("{} rigid", words.light)
        };
        Ok(format!("{} {kind} {}", article(&kind), self.link_noun(link)))
    }

    /// The noun of a link: its own if it is one of the kind.
    pub(super) fn link_noun(&self, link: &Link) -> String {
        let own = link
            .name
            .split(' ')
            .map(|w| w.trim_end_matches('s'))
            .find(|w| noun(w) == Some(Noun::Link(link.holds)));
        let usual = if link.holds == Holds::Pull { "string" } else { "tow-bar" };
        self.voice.link_noun(own.unwrap_or(usual)).to_owned()
    }

    fn ends(&self, link: &Link) -> Vec<BodyId> {
        let mut ends: Vec<BodyId> = link.ends.iter().map(|e| e.body).collect();
        ends.sort();
        ends
    }

    /// `A and B`.
    pub(super) fn both(&self, bodies: &[BodyId]) -> String {
        let names: Vec<String> = bodies.iter().map(|b| self.name(*b).again()).collect();
        names.join(" and ")
    }

    fn over(&self, id: LinkId, link: &Link, over_edge: &mut BTreeMap<BodyId, i8>) -> Said<String> {
        if link.holds != Holds::Pull {
            return Err(cannot("a rod over a pulley"));
        }
        let mut place = String::new();
        for end in &link.ends {
            let Some(body) = self.s.body(end.body) else { continue };
            match body.line {
                Line::Level => {
                    let before = over_edge.insert(end.body, end.sense);
                    if end.sense != if before.is_some() { -1 } else { 1 } {
                        return Err(cannot("a pulley behind a body"));
                    }
                    let ground = self.ground_of(end.body).unwrap_or_default();
                    let edge = if before.is_some() { "the opposite edge" } else { "the edge" };
                    place = format!(" fixed at {edge} of {ground}");
                }
                Line::Slope { .. } if end.sense == 1 => {
                    let ground = self.ground_of(end.body).unwrap_or_default();
                    let other_slope = link.ends.iter().any(|e| {
                        e.body != end.body
                            && self.s.body(e.body).is_some_and(|b| matches!(b.line, Line::Slope { .. }))
                    });
                    if place.is_empty() && !other_slope {
                        place = format!(" fixed at the top of {ground}");
                    }
                }
                Line::Vertical if end.sense == 1 => {}
                _ => return Err(cannot("a pulley at the foot of a slope")),
            }
        }
        if link.pulleys.len() != 1 {
            return Err(cannot("a string over several pulleys"));
        }
        let words = self.voice.words();
        Ok(format!(
            "{} are connected by {} which passes over a {} {} pulley{place}.",
            capital(&self.both(&self.ends(link))),
            self.a_link(id)?,
            words.smooth,
            words.light
        ))
    }

    /// The end in the positive sense, and the other.
    pub(super) fn front_and_back(link: &Link) -> Option<(BodyId, BodyId)> {
        let [one, other] = link.ends.as_slice() else { return None };
        match (one.sense, other.sense, link.holds) {
            // A pull draws the one behind forwards; a push drives the one in front.
            (1, -1, Holds::Push) => Some((one.body, other.body)),
            (-1, 1, Holds::Push) => Some((other.body, one.body)),
            (1, -1, _) => Some((other.body, one.body)),
            (-1, 1, _) => Some((one.body, other.body)),
            _ => None,
        }
    }

    fn contact(&self, id: LinkId, link: &Link, stage: StageId) -> Said<Option<String>> {
        let Some((front, back)) = Self::front_and_back(link) else {
            return Err(cannot("bodies that push apart"));
        };
        if self.held_by(front) == Some((id, back)) {
            return Ok(None);
        }
        let names = self.both(&self.ends(link));
        let order = self.order(front, back, stage);
        Ok(Some(format!("{} are in contact{order}.", capital(&names))))
    }

    /// Who is in front, or above on a slope, where nothing else tells.
    fn order(&self, front: BodyId, back: BodyId, _stage: StageId) -> String {
        let sloping = self.s.body(front).is_some_and(|b| matches!(b.line, Line::Slope { .. }));
        if sloping {
            format!(", with {} above {}", self.name(front).again(), self.name(back).again())
        } else {
            String::new()
        }
    }

    fn in_line(&self, id: LinkId, link: &Link, stage: StageId) -> Said<Option<String>> {
        let Some((front, back)) = Self::front_and_back(link) else {
            return Err(cannot("a string that turns back without a pulley"));
        };
        let line = |b: BodyId| self.s.body(b).map(|b| b.line);
        if line(front) != line(back) {
            return Err(cannot("a string between bodies on different lines, without a pulley"));
        }
        let a_link = self.a_link(id)?;
        if line(front) == Some(Line::Vertical) {
            // Told where it hangs.
            return Ok(None);
        }
        let wheels =
            |b: BodyId| self.s.body(b).is_some_and(|b| matches!(b.form, Form::Vehicle | Form::Trailer));
        let heading = self.s.stage(stage).is_some_and(|s| s.heading.is_some());
        if wheels(front) && wheels(back) && heading {
            let down = self.s.stage(stage).and_then(|s| s.heading).is_some_and(|h| h.sense < 0);
            let (tows, towed) = if down { (back, front) } else { (front, back) };
            return Ok(Some(format!(
                "{} tows {} by means of {a_link}.",
                capital(&self.name(tows).again()),
                self.name(towed).again()
            )));
        }
        let order = self.order(front, back, stage);
        Ok(Some(format!("{} are connected by {a_link}{order}.", capital(&self.both(&self.ends(link))))))
    }

    /// Is the body pulled along its line by something outside?
    pub(super) fn drawn(&self, body: BodyId) -> bool {
        self.s.actions.iter().any(|a| {
            a.on == body
                && !matches!(a.role, Role::Resistance | Role::Braking)
                && !matches!(a.direction, Direction::Opposing)
        })
    }
}
