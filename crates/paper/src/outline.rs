//! Headings in order: no level is skipped, in either output.

/// Hands out heading levels, counted from 1 directly under the title.
#[derive(Debug, Default)]
pub(crate) struct Outline {
    section: u8,
}

impl Outline {
    /// The level for a heading that asks for `wanted`.
    pub(crate) fn heading(&mut self, wanted: u8) -> u8 {
        self.section = wanted.clamp(1, self.section.saturating_add(1)).min(5);
        self.section
    }

    /// The level for a heading inside a block, such as a step's: one below the current section.
    pub(crate) fn inner(&self) -> u8 {
        (self.section + 1).min(5)
    }
}

#[cfg(test)]
mod tests {
    use super::Outline;

    #[test]
    fn levels_go_down_one_at_a_time() {
        let mut outline = Outline::default();
        let given: Vec<u8> = [3, 1, 2, 9, 0, 200].into_iter().map(|wanted| outline.heading(wanted)).collect();
        assert_eq!(given, [1, 1, 2, 3, 1, 2]);
        assert_eq!(outline.inner(), 3);
    }
}
