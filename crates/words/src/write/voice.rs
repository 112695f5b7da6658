//! Two ways to speak: of British examinations, and of international ones.

/// The voice in which a question is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Voice {
    /// `light inextensible string`, `smooth`, `m s⁻²`, `Find`.
    British,
    /// `massless, inextensible rope`, `frictionless`, `m/s²`, `Determine`.
    International,
}

/// The words in which voices differ.
pub(super) struct Words {
    pub light: &'static str,
    pub string: &'static str,
    pub smooth: &'static str,
    pub level: &'static str,
    pub find: &'static str,
    pub show: &'static str,
    pub take: &'static str,
    pub normal: &'static str,
    pub per_second: &'static str,
    pub per_second_squared: &'static str,
    pub marks: (&'static str, &'static str),
}

const BRITISH: Words = Words {
    light: "light",
    string: "light inextensible",
    smooth: "smooth",
    level: "horizontal",
    find: "Find",
    show: "Show that",
    take: "Take",
    normal: "normal reaction",
    per_second: "m s⁻¹",
    per_second_squared: "m s⁻²",
    marks: ("(", ")"),
};

const INTERNATIONAL: Words = Words {
    light: "massless",
    string: "massless, inextensible",
    smooth: "frictionless",
    level: "level",
    find: "Determine",
    show: "Show that",
    take: "Use",
    normal: "normal force",
    per_second: "m/s",
    per_second_squared: "m/s²",
    marks: ("[", "]"),
};

impl Voice {
    pub(super) fn words(self) -> &'static Words {
        match self {
            Voice::British => &BRITISH,
            Voice::International => &INTERNATIONAL,
        }
    }

    /// What this voice calls a link that the situation calls by this noun.
    pub(super) fn link_noun(self, noun: &str) -> &str {
        match (self, noun) {
            (Voice::International, "string") => "rope",
            _ => noun,
        }
    }
}
