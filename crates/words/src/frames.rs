//! What is said of the thing spoken of: the verb chooses a frame, and the frame takes the phrases that belong to it.
//!
//! To teach a new verb, add its forms to the table in [`verbs`]; only a new way of building a sentence
//! needs a frame of its own: a file here that opens with an example of what it reads.

mod after;
mod be;
mod below;
mod carry;
mod connect;
mod exert;
mod fix;
mod hang;
mod incline;
mod inverted;
mod join;
mod model;
mod moves;
mod neglect;
mod pass;
mod pull;
mod reach;
mod release;
mod rest;
mod touch;
mod tow;
mod trip;
mod way;

use crate::noun::Ref;
use crate::reader::Reader;
use crate::verbs::{self, Frame};

impl Reader<'_> {
    /// A predicate at `i`, about `self.about`. The place after it.
    pub(crate) fn predicate(&mut self, i: usize) -> Option<usize> {
        let start = self.skip(i);
        let mut at = start;
        let mut passive = false;
        let mut be = false;
        for _ in 0..8 {
            let w = self.w(at);
            match w {
                "consists" if self.w(at + 1) == "of" => {
                    be = true;
                    at += 1;
                }
                "is" | "are" | "was" | "were" | "be" | "been" | "being" => {
                    be = true;
                    passive = true;
                }
                "has" | "have" | "had"
                    if matches!(
                        self.w(self.skip(at + 1)),
                        "been"
                            | "descended"
                            | "fallen"
                            | "moved"
                            | "risen"
                            | "travelled"
                            | "traveled"
                            | "slid"
                            | "come"
                            | "reached"
                            | "ascended"
                    ) => {}
                "will" | "may" | "can" | "does" | "do" | "did" | "then" | "both" | "each" | "initially"
                | "also" | "now" | "first" | "all" | "it" | "again" | "later" | "subsequently" | "just"
                | "each-other" | "directly" | "slowly" | "steadily" | "vertically" | "freely"
                | "constantly" | "suddenly" | "gently" | "simultaneously" | "next" | "each-is" | "itself"
                | "now-being" | "seen" | "found" | "observed" | "to" | "known" | "straight" => {
                    if matches!(w, "to") && !be {
                        break;
                    }
                    if matches!(w, "found" | "observed" | "seen" | "known") && !be {
                        break;
                    }
                }
                // can be assumed light, may be taken to be smooth
                "assumed" | "taken" | "regarded" | "considered" | "treated" if be => {
                    let told = self.phrase(at + 1, "to? be|as being?").unwrap_or(at + 1);
                    let tells = crate::adjective::adjective(self.w(self.skip(told)));
                    use crate::adjective::Tells::{Inextensible, Level, Light, Rigid, Smooth};
                    let next = self.w(self.skip(self.skip(told) + 1));
                    if !matches!(tells, Some(Light | Smooth | Inextensible | Rigid | Level))
                        || !matches!(next, "" | "," | "and" | ";")
                    {
                        break;
                    }
                    at = told - 1;
                }
                _ => break,
            }
            at = self.skip(at + 1);
        }
        if let Some(e) = self.phrase(at, "runs|moves|slides|travels|runs freely? in|between|on|along vertical|smooth? guide|guides rails|guides?") {
            self.scene(start, e);
            return Some(e);
        }
        let w = self.w(at).to_owned();
        if let Some(f) = verbs::frame(&w).filter(|f| *f != Frame::Be) {
            let end = match f {
                Frame::Join => self.join(at),
                Frame::Hang => self.hang(at),
                Frame::Rest => self.rest(at),
                Frame::Pass if w == "carried" && matches!(self.about, Some(Ref::Bodies(_))) => {
                    self.carry(at, true)
                }
                Frame::Pass => self.pass(at),
                // "The locomotive pulls with a driving force of 11 kN": no object, only its force.
                Frame::Pull if !passive && self.phrase(at + 1, "forward|forwards|along? with").is_some() => {
                    self.exert(at, false)
                }
                Frame::Pull if matches!(self.about, Some(Ref::Floor(_) | Ref::Surface(_))) => {
                    self.exert(at, false)
                }
                Frame::Pull => self.pull(at, passive && !w.ends_with("ing")),
                Frame::Exert => self.exert(at, passive && !w.ends_with("ing")),
                Frame::Suffer => self.suffer(at),
                Frame::Carry => self.carry(at, (passive || w == "supported") && !w.ends_with("ing")),
                Frame::Move => self.moves(at),
                Frame::Release => self.release(at),
                Frame::Start => self.starts(at),
                Frame::Reach => self.reach(at),
                Frame::Cover => self.cover(at),
                Frame::Incline => self.incline(at),
                Frame::Fix => self.fix(at),
                Frame::Neglect => self.neglect(at),
                Frame::Model => self.modelled(at),
                Frame::Stop => self.stop(at),
                Frame::Follow => self.follow(at),
                Frame::Be => None,
            };
            if let Some(e) = end {
                self.glue(start, e);
                return Some(e);
            }
            return None;
        }
        if let Some(e) = self.be(start, at, be) {
            self.glue(start, e);
            return Some(e);
        }
        None
    }

    fn about_bodies(&self) -> Vec<usize> {
        match &self.about {
            Some(Ref::Bodies(b)) => b.clone(),
            Some(Ref::System) => (0..self.story.bodies.len()).collect(),
            _ => Vec::new(),
        }
    }

    fn about_links(&self) -> Vec<usize> {
        match &self.about {
            Some(Ref::Links(l) | Ref::Ends(l)) => l.clone(),
            _ => Vec::new(),
        }
    }
}
