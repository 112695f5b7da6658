//! Strings told to be tight and straight: `with the string taut`, `the hanging parts of the rope being vertical`.

use crate::reader::Reader;

impl Reader<'_> {
    /// `with the string taut`, `the rope being taut`, `the hanging parts of the string vertical`.
    pub(super) fn tight(&mut self, i: usize) -> Option<usize> {
        const ROPE: &str = "string|strings|rope|ropes|cord|thread|cable|chain|chains|tow-rope|cords|cables";
        const PARTS: &str = "parts|portions|sections|part|portion|section|ends|stretches|lengths";
        let start = self
            .phrase(
                i,
                "with|and|,? with? the|both|its|each|all|both? of? the? straight|free|hanging|vertical|two?",
            )
            .or_else(|| {
                self.phrase(i, "the|both? straight|free|hanging|vertical?")
                    .filter(|_| self.w(i) == "the" || self.w(i) == "both")
            })?;
        let direct = self.phrase(
            start,
            &format!(
                "{ROPE} is|are|being|just|initially? both|just? taut|tight|vertical|horizontal|straight"
            ),
        );
        let parts = self.phrase(start, &format!("{PARTS} of? the? string|rope|cord not in contact with the peg|pulley being vertical")).or_else(|| self.phrase(start, &format!("{PARTS} of? the|each|both? {ROPE}? is|are|being|hanging? both? vertical|vertically|taut|horizontal")));
        let e = direct.or(parts)?;
        let e = self.phrase(e, "and the|its straight|free|hanging? parts|portions|sections? of? the? string|rope? vertical|taut").unwrap_or(e);
        self.told(i, e, "the string is tight from the start and pulls straight");
        Some(e)
    }
}
