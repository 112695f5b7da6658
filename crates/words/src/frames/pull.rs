//! Pulling: `is pulled along by a force of 40 N`, `a winch hauls a crate up the slope`, `pulls two trucks`.

use crate::lexicon::{self, Noun};
use crate::noun::Ref;
use crate::quantity::{Mention, Sort, quantity_word};
use crate::reader::Reader;
use crate::story::{Fact, Target, ValueTold, Way};
use crate::verbs;
use model::Kind;

impl Reader<'_> {
    pub(super) fn pull(&mut self, at: usize, passive: bool) -> Option<usize> {
        let subject = self.about_bodies();
        let links = self.about_links();
        let word = self.w(at).to_owned();
        if word.starts_with("push") && !passive {
            let with_force = matches!(self.about, Some(Ref::Thing)) || subject.is_empty();
            if !with_force || word == "pushing" {
                return self.pushes(at);
            }
        }
        let mut end = at + 1;
        let mut objects: Vec<usize> = if passive { subject.clone() } else { Vec::new() };
        let mut means: Vec<usize> = Vec::new();
        let mut force = None;
        let mut way = match word.as_str() {
            "lowered" | "lowers" | "lowering" => Some(Way::Down),
            "raises" | "raise" | "lifts" | "hoists" => Some(Way::Up),
            _ => None,
        };
        let mut heading = way;
        if !passive {
            let mut k = self.skip(end);
            if matches!(self.w(k), "on" | "at" | "along" | "behind") {
                k = self.skip(k + 1);
            }
            if let Some(np) = self.nps(k, true) {
                match np.what.clone() {
                    Ref::Bodies(b) => {
                        objects = b;
                        end = self.after_np(&np.what, np.end);
                    }
                    Ref::System => {
                        objects = (0..self.story.bodies.len()).collect();
                        end = np.end;
                    }
                    Ref::Links(l) | Ref::Ends(l) => {
                        means = l;
                        end = np.end;
                    }
                    _ => return None,
                }
            } else if self.phrase(k, "it|them").is_none() && links.is_empty() {
                return None;
            }
        }
        for _ in 0..10 {
            let k = self.skip(end);
            let comma = self.w(k) == ",";
            let p = if comma { self.skip(k + 1) } else { k };
            if let Some(e) = self.phrase(p, "forward|forwards|horizontally|along|steadily|directly|vertically|straight|in line|tandem").filter(|_| !matches!(self.w(p), "along") && !matches!(self.w(p), "in")) {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(p, "vertically|horizontally|steadily|straight|directly")
                && self.way(p).is_none()
            {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(p, "in line|tandem") {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(p, "from rest") {
                self.tell_from_rest(p, e);
                end = e;
                continue;
            }
            if let Some((w, e)) = self.way(p) {
                way = Some(w);
                if matches!(w, Way::UpSlope | Way::DownSlope | Way::Up | Way::Down) {
                    heading = Some(w);
                }
                self.told(p, e, "which way the pull acts");
                // "up a straight road which is inclined ..."
                if let Some(s) = self.surface.filter(|_| matches!(w, Way::UpSlope | Way::DownSlope)) {
                    end = self.after_np(&Ref::Surface(s), e);
                } else {
                    end = e;
                }
                continue;
            }
            if let Some(e) = self.phrase(p, "along|across|over|on") {
                if let Some(np) = self.np(e)
                    && let Ref::Surface(s) = np.what
                {
                    let all: Vec<usize> = subject.iter().chain(&objects).copied().collect();
                    self.on_surface(&all, s);
                    self.glue(p, np.end);
                    end = self.after_np(&np.what, np.end);
                    continue;
                }
                if let Some(e) = self.place(p) {
                    end = e;
                    continue;
                }
                break;
            }
            if let Some(e) =
                self.phrase(p, "by means of").or_else(|| self.phrase(p, "by|using|with|via|through"))
            {
                // By a force, by a string, by a winch.
                if let Some(m) = self.mention(e)
                    && matches!(m.sort, Sort::PlainForce | Sort::Force(_) | Sort::Tension)
                {
                    self.glue(p, m.end);
                    end = m.end;
                    force = Some(m);
                    continue;
                }
                if let Some(np) = self.np(e) {
                    match np.what.clone() {
                        Ref::Links(l) => {
                            means = l;
                            self.glue(p, e);
                            end = self.after_np(&np.what, np.end);
                            continue;
                        }
                        Ref::Bodies(b) if passive => {
                            // Drawn by a locomotive: it is in front.
                            objects = subject.clone();
                            let front = b;
                            self.connect_tow(&front, &objects.clone(), &means);
                            self.glue(p, np.end);
                            return Some(self.after_np(&np.what, np.end));
                        }
                        _ => break,
                    }
                }
                if let Some(e2) = self.agent_phrase(e) {
                    self.scene(p, e2);
                    end = e2;
                    continue;
                }
                break;
            }
            if let Some(e) = self.phrase(p, "at")
                && let Some(e2) = self.speed_now(e)
            {
                end = e2;
                continue;
            }
            if let Some(e) = self.place(p) {
                end = e;
                continue;
            }
            break;
        }
        if let Some(w) = heading {
            let span = self.span(at, end);
            let of = if objects.is_empty() { subject.clone() } else { objects.clone() };
            self.fact(of, span, Fact::Heading(w));
        }
        // A rope pulls towards where it leads, which nobody said: down a slope it is not followed.
        if !means.is_empty() && matches!(way, Some(Way::DownSlope | Way::Down)) && !word.starts_with("lower")
        {
            return None;
        }
        if let Some(m) = force {
            // One body of the story pulls another with a force: that is what joins them, read elsewhere.
            if !passive && !subject.is_empty() && !objects.is_empty() && links.is_empty() {
                return None;
            }
            // The force pulls through a rope, or directly.
            if links.len() > 1
                || means.len() > 1
                || (!means.is_empty() && matches!(way, Some(Way::DownSlope)) && !word.starts_with("lower"))
            {
                return None;
            }
            if objects.is_empty() {
                if let Some(&l) = means.first().or(links.first()) {
                    if let Some(a) = m.amounts.first() {
                        let given = self.given(a);
                        self.told(m.start, m.end, format!("this pull is {}", given.written));
                        self.story.values.push(ValueTold {
                            what: Target::Link(vec![l]),
                            given,
                            chapter: self.chapter,
                        });
                    }
                    self.told(at, end, "a pull through the rope: it is the rope's tension");
                    return Some(end);
                }
                return None;
            }
            if let Some(&l) = links.first() {
                // A cable pulls the bodies: its tension.
                if let Some(&b) = objects.first()
                    && self.story.links.get(l).is_some_and(|x| x.ends.is_empty())
                {
                    self.add_end(l, b);
                }
                if let Some(a) = m.amounts.first() {
                    let given = self.given(a);
                    self.told(m.start, m.end, format!("this pull is {}", given.written));
                    self.story.values.push(ValueTold {
                        what: Target::Link(vec![l]),
                        given,
                        chapter: self.chapter,
                    });
                }
                self.told(at, at + 1, "the pull is the cable's tension");
                return Some(end);
            }
            let [b] = objects.as_slice() else { return None };
            if m.amounts.len() > 1 {
                let way = way.or(m.way).or(Some(Way::Forward));
                let m = Mention { on: Some(Ref::Bodies(vec![*b])), way, ..m };
                return (means.is_empty() && self.tell(&m)).then_some(end);
            }
            let span = self.span(m.start, m.end);
            if let Some(&l) = means.first() {
                // Pulled by a rope with a force: the rope's tension.
                self.add_end(l, *b);
            }
            let f = self.applied_on(*b, &m, span);
            if let Some(a) = m.amounts.first() {
                self.letters_of(&a.value, Kind::Force);
                let given = self.given(a);
                self.set_force(f, given);
            }
            let mut m = m;
            m.pulls = m.pulls.or(Some(!word.starts_with("push")));
            self.describe_force(f, &m, way.or(m.way));
            let name = self.name(*b);
            self.told(m.start, m.end, format!("a force on {name}"));
            self.told(at, at + 1, format!("a force acts on {name}"));
            return Some(end);
        }
        // A winch hauls through a cable, no size given: the cable holds the body.
        if passive || subject.is_empty() {
            if let (Some(&l), Some(&b)) = (means.first().or(links.first()), objects.first()) {
                self.add_end(l, b);
            }
            if objects.is_empty() {
                return None;
            }
            self.told(at, at + 1, "something pulls it");
            return Some(end);
        }
        if objects.is_empty() {
            return None;
        }
        self.connect_tow(&subject, &objects, &means);
        let (front, behind) = (self.names(&subject), self.names(&objects));
        self.told(at, at + 1, format!("{front} is in front, {behind} behind"));
        self.told(at, at + 1, format!("{front} is in front, {behind} behind"));
        Some(end)
    }

    /// `a winch`, `the driver`: who pulls, no mechanics.
    fn agent_phrase(&mut self, i: usize) -> Option<usize> {
        let mut at = self.skip(i);
        if matches!(self.w(at), "a" | "an" | "the" | "its" | "another") {
            at = self.skip(at + 1);
        }
        let from = at;
        while at < from + 3
            && self.tok(at).is_some_and(|t| {
                t.is_word()
                    && !lexicon::glue(&t.lower)
                    && !verbs::is_verb(&t.lower)
                    && !quantity_word(&t.lower)
                    && !matches!(
                        lexicon::noun(&t.lower),
                        Some(Noun::Link(_) | Noun::Surface { .. } | Noun::Pulley)
                    )
            })
        {
            if lexicon::dangerous(self.w(at)) && self.w(at) != "engine" && lexicon::noun(self.w(at)).is_none()
            {
                return None;
            }
            at = self.skip(at + 1);
        }
        if at == from {
            return None;
        }
        if let Some(e) = self.place(at) {
            return Some(e);
        }
        Some(at)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, told};

    #[test]
    fn a_force_pulls_a_crate_along_the_quay() {
        let text = "A crate of mass 40 kg is pulled along a smooth horizontal quay by a horizontal force of 60 \
         N. Find the acceleration.";
        let expected = ["the crate moves on the level", "force applied to the crate: along", "Released"];
        assert_eq!(in_short(&told(text)), expected);
        assert_eq!(means(text, "pulled"), "a force acts on the crate");
    }

    #[test]
    fn a_winch_is_no_body_and_its_cable_pulls() {
        let text = "A winch hauls a crate of mass 40 kg up a smooth slope inclined at 30° by a light cable. The \
         tension in the cable is 250 N. Find the acceleration of the crate.";
        let expected = ["the crate moves on a slope", "tension in the cable: along", "Moving"];
        assert_eq!(in_short(&told(text)), expected);
    }
}
