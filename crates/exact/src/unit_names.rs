//! The names that units go by.
use crate::dimension::Dimension;

/// How a name is matched.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// The standard symbol: capitals count.
    Symbol,
    /// Another sign for the same, capitals counting.
    Sign,
    /// A word: capitals don't count.
    Word,
}

/// One spelling of one unit.
pub(crate) struct Name {
    pub(crate) text: &'static str,
    pub(crate) kind: Kind,
    /// The standard symbol of the unit.
    pub(crate) symbol: &'static str,
    pub(crate) dimension: Dimension,
    /// In SI units, as a fraction.
    pub(crate) size: (i64, i64),
}

macro_rules! names {
    ($($symbol:literal $dimension:ident $num:literal / $den:literal : [$($sign:literal)*] [$($word:literal)*])*) => {
        &[$(
            Name { text: $symbol, kind: Kind::Symbol, symbol: $symbol, dimension: Dimension::$dimension, size: ($num, $den) },
            $(Name { text: $sign, kind: Kind::Sign, symbol: $symbol, dimension: Dimension::$dimension, size: ($num, $den) },)*
            $(Name { text: $word, kind: Kind::Word, symbol: $symbol, dimension: Dimension::$dimension, size: ($num, $den) },)*
        )*]
    };
}

/// Every spelling. The mile is 1,609.344 m exactly (international mile, 1959).
pub(crate) const NAMES: &[Name] = names! {
    "kg" MASS 1/1: ["kgs" "Kg" "KG"] ["kilogram" "kilograms" "kilogramme" "kilogrammes" "kilo" "kilos"]
    "g" MASS 1/1000: [] ["gram" "grams" "gramme" "grammes"]
    "mg" MASS 1/1000000: [] ["milligram" "milligrams"]
    "t" MASS 1000/1: [] ["tonne" "tonnes"]
    "N" FORCE 1/1: [] ["newton" "newtons"]
    "kN" FORCE 1000/1: ["KN"] ["kilonewton" "kilonewtons"]
    "MN" FORCE 1000000/1: [] ["meganewton" "meganewtons"]
    "m" LENGTH 1/1: [] ["metre" "metres" "meter" "meters"]
    "cm" LENGTH 1/100: [] ["centimetre" "centimetres" "centimeter" "centimeters"]
    "mm" LENGTH 1/1000: [] ["millimetre" "millimetres" "millimeter" "millimeters"]
    "km" LENGTH 1000/1: [] ["kilometre" "kilometres" "kilometer" "kilometers"]
    "mile" LENGTH 201168/125: [] ["mile" "miles"]
    "s" TIME 1/1: ["sec" "secs"] ["second" "seconds"]
    "ms" TIME 1/1000: [] ["millisecond" "milliseconds"]
    "min" TIME 60/1: ["mins"] ["minute" "minutes"]
    "h" TIME 3600/1: ["hr" "hrs"] ["hour" "hours"]
    "J" ENERGY 1/1: [] ["joule" "joules"]
    "kJ" ENERGY 1000/1: [] ["kilojoule" "kilojoules"]
    "MJ" ENERGY 1000000/1: [] ["megajoule" "megajoules"]
    "W" POWER 1/1: [] ["watt" "watts"]
    "kW" POWER 1000/1: ["KW"] ["kilowatt" "kilowatts"]
    "MW" POWER 1000000/1: [] ["megawatt" "megawatts"]
    "°" ANGLE 1/1: ["deg" "º" "^\\circ" "^{\\circ}" "^°" "\\degree" "\\circ"] ["degree" "degrees"]
};

/// Spellings of whole quotients, with no sign between: capitals don't count.
pub(crate) const RATES: &[(&str, &[(&str, i8)])] = &[
    ("kph", &[("km", 1), ("h", -1)]),
    ("kmph", &[("km", 1), ("h", -1)]),
    ("mph", &[("mile", 1), ("h", -1)]),
];
