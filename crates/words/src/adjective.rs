//! Adjectives before a noun: what they tell, and those that only decorate.

/// What an adjective tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tells {
    Light,
    Heavy,
    Smooth,
    Rough,
    Inextensible,
    Level,
    Vertical,
    Sloping,
    Rigid,
    Fixed,
    Movable,
    Heavier,
    Lighter,
    Nth(usize),
    Leading,
    Last,
    Other,
    Former,
    Latter,
    Hanging,
    Upper,
    Lower,
    Identical,
    Elastic,
    Nothing,
}

/// What the word tells as an adjective, if it is one.
pub(crate) fn adjective(word: &str) -> Option<Tells> {
    Some(match word {
        "ideal" | "light" | "massless" | "weightless" | "lightweight" => Tells::Light,
        "heavy" => Tells::Heavy,
        "smooth" | "frictionless" | "smoothly" | "friction-free" => Tells::Smooth,
        "rough" => Tells::Rough,
        "inextensible" | "inelastic" | "unstretchable" | "non-stretching" | "non-stretch" => {
            Tells::Inextensible
        }
        "elastic" | "stretchy" | "extensible" | "springy" => Tells::Elastic,
        "horizontal" | "level" | "flat" => Tells::Level,
        "vertical" => Tells::Vertical,
        "inclined" | "sloping" => Tells::Sloping,
        "rigid" | "stiff" => Tells::Rigid,
        "fixed" => Tells::Fixed,
        "movable" | "moveable" => Tells::Movable,
        "heavier" | "larger" | "bigger" => Tells::Heavier,
        "lighter" | "smaller" => Tells::Lighter,
        "first" | "1st" | "left-hand" => Tells::Nth(0),
        "second" | "2nd" | "right-hand" => Tells::Nth(1),
        "third" => Tells::Nth(2),
        "fourth" => Tells::Nth(3),
        "fifth" => Tells::Nth(4),
        "leading" | "front" | "foremost" => Tells::Leading,
        "last" | "rear" | "rearmost" | "trailing" | "following" => Tells::Last,
        "other" | "another" => Tells::Other,
        "former" => Tells::Former,
        "latter" => Tells::Latter,
        "hanging" | "suspended" | "descending" | "falling" => Tells::Hanging,
        "upper" | "top" | "uppermost" | "topmost" => Tells::Upper,
        "lower" | "bottom" | "lowest" => Tells::Lower,
        "identical" | "equal" | "similar" => Tells::Identical,
        "small" | "large" | "big" | "long" | "short" | "straight" | "fine" | "thin" | "strong" | "taut"
        | "loaded" | "empty" | "narrow" | "narrow-gauge" | "wooden" | "metal" | "steel" | "iron"
        | "stone" | "granite" | "concrete" | "oak" | "new" | "old" | "constant" | "single" | "little"
        | "own" | "same" | "whole" | "entire" | "goods" | "works" | "stout" | "uniform" | "rectangular"
        | "open" | "whole-system" | "fully" | "laden" | "unladen" | "heavily" | "lightly" | "parallel"
        | "connecting" | "common" | "straightforward" | "quayside" | "harbour" | "driving" | "two"
        | "free" | "public" | "test" | "model" | "toy" | "perfectly" | "dry" | "ordinary" | "passenger"
        | "freight" | "service" | "tug" | "very" | "supporting" | "main" | "loose" | "fishing" | "timber"
        | "coal" | "brass" | "lead" | "cast" | "railway" | "sea-wall" => Tells::Nothing,
        _ => return None,
    })
}
