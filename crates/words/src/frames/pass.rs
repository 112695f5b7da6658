//! A string that runs over a pulley: `passes over a smooth pulley fixed at the edge of the table`.

use crate::noun::Ref;
use crate::reader::Reader;

impl Reader<'_> {
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
        let mut end = at + 1;
        let mut some = false;
        for _ in 0..10 {
            let k = self.skip(end);
            let comma = self.w(k) == ",";
            let p = if comma { self.skip(k + 1) } else { k };
            if let Some(e) = self.phrase(p, "horizontally|vertically|straight|directly|on") {
                if self.w(p) == "on" {
                    break;
                }
                end = e;
                some = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "over it") {
                self.glue(p, e);
                end = e;
                some = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "over|round|around|across|through") {
                let Some(np) = self.np(e) else { break };
                let Ref::Pulleys(pulleys) = np.what.clone() else { break };
                let several = pulleys.len() > 1 && links.len() == pulleys.len();
                for (n, &l) in links.iter().enumerate() {
                    if let Some(link) = self.story.links.get_mut(l) {
                        if several {
                            link.pulleys.extend(pulleys.get(n).copied());
                        } else {
                            for &x in &pulleys {
                                if !link.pulleys.contains(&x) {
                                    link.pulleys.push(x);
                                }
                            }
                        }
                    }
                }
                self.told(p, np.end, "over a pulley: when one end goes down, the other comes up");
                end = self.after_np(&np.what, np.end);
                some = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "parallel to") {
                if let Some(np) = self.np(e)
                    && matches!(np.what, Ref::Surface(_))
                {
                    self.told(p, np.end, "along the line of motion");
                    end = np.end;
                    some = true;
                    continue;
                }
                break;
            }
            if let Some(e) = self.phrase(
                p,
                "along|parallel to? a|the line|lines of greatest slope of? the? plane|slope|ramp|slipway?",
            ) {
                self.told(p, e, "along the slope");
                end = e;
                some = true;
                continue;
            }
            if let Some(e) = self.phrase(p, "up|along") {
                if let Some(np) = self.np(e)
                    && matches!(np.what, Ref::Surface(_))
                {
                    self.told(p, np.end, "along the slope or table");
                    end = np.end;
                    some = true;
                    continue;
                }
                break;
            }
            if let Some(e) = self.phrase(p, "from|to") {
                let saved = self.story.clone();
                if let Some(np) = self.np(e) {
                    match np.what.clone() {
                        Ref::Bodies(b) => {
                            for &l in &links {
                                for &x in &b {
                                    self.add_end(l, x);
                                }
                            }
                            self.glue(p, np.end);
                            end = self.after_np(&np.what, np.end);
                            some = true;
                            continue;
                        }
                        Ref::Pulleys(pulleys) => {
                            // "runs horizontally to a pulley at the edge": the string goes over it.
                            for &l in &links {
                                if let Some(link) = self.story.links.get_mut(l) {
                                    for &x in &pulleys {
                                        if !link.pulleys.contains(&x) {
                                            link.pulleys.push(x);
                                        }
                                    }
                                }
                            }
                            self.told(p, np.end, "over a pulley: when one end goes down, the other comes up");
                            end = self.after_np(&np.what, np.end);
                            some = true;
                            continue;
                        }
                        _ => self.story = saved,
                    }
                }
                break;
            }
            if let Some(e) = self
                .phrase(p, "at its edge|end|top")
                .or_else(|| self.phrase(p, "there it is passed over the pulley"))
                .or_else(|| self.phrase(p, "over it"))
            {
                self.glue(p, e);
                end = e;
                some = true;
                continue;
            }
            break;
        }
        some.then(|| {
            self.glue(at, end);
            end
        })
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
