//! How a thing is modelled: `modelled as a particle`, `modelled as a light inextensible string`.

use crate::adjective::adjective;
use crate::lexicon;
use crate::reader::Reader;

impl Reader<'_> {
    pub(super) fn modelled(&mut self, at: usize) -> Option<usize> {
        let mut end = at + 1;
        let mut as_seen = false;
        for _ in 0..9 {
            let k = self.skip(end);
            let w = self.w(k);
            if matches!(w, "as" | "a" | "an" | "single" | "particle" | "particles" | "be" | "the")
                || lexicon::noun(w).is_some() && !as_seen
            {
                as_seen |= w == "as";
                end = k + 1;
                if matches!(w, "particle" | "particles") && as_seen {
                    break;
                }
                continue;
            }
            if as_seen && adjective(w).is_some() {
                // modelled as a light string: read it as a phrase.
                let np = self.np(k)?;
                self.told(at, np.end, "how it is modelled");
                return Some(np.end);
            }
            if self.tok(k).is_some_and(|t| t.label()) || w == "and" && !as_seen {
                end = k + 1;
                continue;
            }
            break;
        }
        if !as_seen {
            return None;
        }
        self.told(at, end, "each body is treated as a particle: forces act at one point");
        Some(end)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, told};

    #[test]
    fn a_tow_bar_modelled_as_a_light_rod() {
        let text = "A van of mass 900 kg tows a trailer of mass 300 kg by a tow-bar. The tow-bar is modelled as \
         a light rod. The driving force is 2400 N. Find the tension in the tow-bar.";
        assert_eq!(means(text, "modelled"), "how it is modelled");
        let expected = [
            "the van moves on the level",
            "the trailer moves on the level",
            "tow-bar: the trailer - the van",
            "driving force: along",
            "Moving",
        ];
        assert_eq!(in_short(&told(text)), expected);
    }
}
