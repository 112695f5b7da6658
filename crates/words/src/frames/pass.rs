//! A string that runs over a pulley: `passes over a smooth pulley fixed at the edge of the table`.

use crate::noun::Ref;
use crate::reader::Reader;

impl Reader<'_> {
    /// After "under": `a smooth light pulley which carries a load of mass 6 kg`, `a movable pulley from which a crate
    /// hangs`. The pulley has no mass, so that the load itself hangs in two parts of the string.
    pub(super) fn sling(&mut self, link: usize, at: usize) -> Option<usize> {
        let before = self.story.pulleys.len();
        let light = (at..at + 7).any(|k| matches!(self.w(k), "light" | "massless" | "weightless"));
        let np = self.np(at)?;
        let Ref::Pulleys(p) = &np.what else { return None };
        if p.as_slice() != [before] || self.story.pulleys.len() != before + 1 {
            return None;
        }
        let no_mass = self.phrase(np.end, "of|with|has negligible|no mass|weight");
        if !light && no_mass.is_none() {
            return None;
        }
        let mut e = no_mass.unwrap_or(np.end);
        e = self.phrase(e, ",? which|that is free to move vertically?").unwrap_or(e);
        e = self.phrase(e, ",").unwrap_or(e);
        let carries = self
            .phrase(e, "which|that carries|supports|bears|holds")
            .or_else(|| self.phrase(e, "carrying|supporting|bearing"));
        let (load, end) = match carries {
            Some(e) => {
                let np = self.np(e)?;
                (np.what, self.mass_after(np.end))
            }
            None => {
                let e = self.phrase(e, "from which").or_else(|| self.phrase(e, "to which"))?;
                let np = self.np(e)?;
                let e = self.mass_after(np.end);
                let e = self.phrase(e, "is|are").unwrap_or(e);
                let e = self.phrase(e, "hangs|hung|suspended|attached|fixed|hanging|fastened")?;
                (np.what, e)
            }
        };
        let Ref::Bodies(b) = load else { return None };
        let [load] = b.as_slice() else { return None };
        let load = *load;
        self.story.pulleys.truncate(before);
        self.add_end(link, load);
        self.story.slung.push((link, load));
        if let Some(body) = self.story.bodies.get_mut(load) {
            body.hangs = true;
        }
        Some(
            self.phrase(end, ",")
                .filter(|&k| matches!(self.w(self.skip(k)), "then" | "and" | "over"))
                .unwrap_or(end),
        )
    }

    /// `of mass 6 kg` after the thing itself, where it stands there.
    fn mass_after(&mut self, at: usize) -> usize {
        let latest = self.latest.clone();
        match self.masses_after(at, false) {
            Some((amounts, e, _)) => {
                self.set_mass(&latest, &amounts);
                self.told(at, e, "its mass");
                e
            }
            None => at,
        }
    }

    pub(super) fn pass(&mut self, at: usize) -> Option<usize> {
        let mut links = self.about_links();
        let bodies = self.about_bodies();
        if links.is_empty() && !matches!(self.about, Some(Ref::System)) {
            // "the rope is led over", "it is passed over": the link last named.
            if bodies.is_empty() || matches!(self.w(at), "carried" | "passed" | "led") {
                links = self.link.clone();
            } else {
                return None;
            }
        }
        let end = self.whole_way(&links, at + 1)?;
        self.glue(at, end);
        Some(end)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, told};

    #[test]
    fn over_the_edge_of_a_bench() {
        let text = "A block A of mass 3 kg is held at rest on a smooth horizontal bench. A light string attached \
         to A passes over a smooth pulley fixed at the edge of the bench and carries at its other end \
         a block B of mass 2 kg hanging freely. The system is released from rest. Find the tension.";
        let expected = ["A moves on the level", "B hangs", "string: A - B over a pulley", "Released"];
        assert_eq!(in_short(&told(text)), expected);
        assert_eq!(means(text, "fixed"), "it does not move");
    }
}
