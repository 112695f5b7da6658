//! The words of the trade and of exam English: what each of them is.

use model::{Form, Holds};

/// What a noun names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Noun {
    Body(Form),
    /// A surface: level by nature?, sloping by nature?
    Surface {
        slopes: bool,
    },
    Link(Holds),
    Pulley,
    /// All bodies together.
    System,
}

/// The singular of a noun as this lexicon writes it.
pub(crate) fn singular(word: &str) -> String {
    for (plural, one) in [
        ("lorries", "lorry"),
        ("boxes", "box"),
        ("masses", "mass"),
        ("men", "man"),
        ("people", "person"),
        ("bodies", "body"),
        ("buses", "bus"),
        ("sledges", "sledge"),
        ("carriages", "carriage"),
        ("torches", "torch"),
        ("coaches", "coach"),
        ("winches", "winch"),
        ("benches", "bench"),
        ("classes", "class"),
        ("winches", "winch"),
        ("boys", "boy"),
        ("dinghies", "dinghy"),
        ("trolleys", "trolley"),
        ("pulleys", "pulley"),
        ("skips", "skip"),
        ("children", "child"),
        ("women", "woman"),
    ] {
        if word == plural {
            return one.to_owned();
        }
    }
    if word.len() > 3 && word.ends_with('s') && !word.ends_with("ss") && !word.ends_with("us") {
        let cut = word.len() - 1;
        return word.get(..cut).unwrap_or(word).to_owned();
    }
    word.to_owned()
}

/// Is the word a plural?
pub(crate) fn plural(word: &str) -> bool {
    singular(word) != word
}

/// What a noun (singular or plural) names, if the lexicon has it.
pub(crate) fn noun(word: &str) -> Option<Noun> {
    let one = singular(word);
    let w = one.as_str();
    Some(match w {
        "particle" | "mass" | "object" | "body" | "bead" | "point" => Noun::Body(Form::Particle),
        "block" | "crate" | "box" | "case" | "chest" | "sledge" | "sled" | "toboggan" | "parcel"
        | "package" | "slab" | "stone" | "brick" | "book" | "container" | "trunk" | "suitcase"
        | "casting" | "cradle" | "cube" | "anchor" | "boulder" | "log" | "girder" | "barrel" | "drum"
        | "pallet" | "plank" | "desk" | "bollard" | "safe" | "boat" | "dinghy" | "anvil" | "ice" | "keg"
        | "hamper" | "cask" | "tub" => Noun::Body(Form::Block),
        "car" | "van" | "lorry" | "locomotive" | "engine" | "tractor" | "truck-tractor" | "motor-car"
        | "automobile" | "bus" | "tug" | "jeep" | "vehicle" | "motorcycle" | "train-engine" | "pickup"
        | "loco" | "shunter" | "railcar" | "tram" | "boat-car" => Noun::Body(Form::Vehicle),
        "trailer" | "truck" | "wagon" | "caravan" | "carriage" | "cart" | "trolley" | "coach" | "tender"
        | "mixer" | "handcart" | "bogie" | "horsebox" | "dumper" | "tanker" | "skip" | "waggon"
        | "freight-car" | "boxcar" | "flatcar" | "horse-box" | "glider" | "barge" | "skier" => {
            Noun::Body(Form::Trailer)
        }
        "lift" | "elevator" | "hoist" | "cage" | "platform" | "cab" | "lift-cage" | "pan" | "scale-pan"
        | "gondola" | "compartment" | "elevator-cab" => Noun::Body(Form::Lift),
        "man" | "woman" | "person" | "passenger" | "boy" | "girl" | "student" | "diver" | "worker"
        | "dockworker" | "foreman" | "engineer" | "child" | "fitter" | "docker" | "teacher" | "operator"
        | "inspector" | "rider" | "miner" | "porter" | "visitor" | "workman" | "tourist" | "stevedore"
        | "keeper" | "electrician" | "welder" | "captain" | "mason" | "rigger" | "painter" | "attendant"
        | "builder" | "guard" | "cook" | "clerk" => Noun::Body(Form::Person),
        "bucket" | "weight" | "ball" | "sack" | "counterweight" | "pail" | "load" | "bag" | "bob"
        | "sphere" | "lead" | "basket" | "ballast" | "sandbag" | "cylinder" | "bale" | "net"
        | "counterpoise" | "hook" | "balance-weight" | "balancer" | "tin" => Noun::Body(Form::Load),
        "table" | "plane" | "surface" | "floor" | "ground" | "road" | "track" | "bench" | "deck"
        | "tabletop" | "table-top" | "staging" | "quay" | "line" | "rail" | "shelf" | "worktop"
        | "desktop" | "jetty" | "pier" | "path" | "pavement" | "workbench" | "street" | "runway"
        | "tramway" | "yard" | "counter" | "causeway" => Noun::Surface { slopes: false },
        "slope" | "ramp" | "hill" | "incline" | "slipway" | "gradient" | "wedge" | "chute" | "hillside"
        | "embankment" => Noun::Surface { slopes: true },
        "string" | "rope" | "cord" | "thread" | "cable" | "chain" | "wire" | "twine" | "tow-rope"
        | "towrope" | "hawser" | "strand" | "tether" | "towline" | "line-rope" | "lanyard" | "tow-cable"
        | "towing-rope" => Noun::Link(Holds::Pull),
        "tow-bar" | "tow-rod" | "towing-bar" | "towbar" | "rod" | "bar" | "coupling" | "hitch"
        | "drawbar" | "draw-bar" | "link" | "coupler" | "connecting-rod" | "tow-hitch" | "tie-bar"
        | "couplings" => Noun::Link(Holds::PullOrPush),
        "pulley" | "peg" | "sheave" => Noun::Pulley,
        "system" | "rig" | "train" | "combination" | "pair" | "assembly" => Noun::System,
        _ => return None,
    })
}

/// May the noun `word` (of this form) name again a body that was called `noun`?
pub(crate) fn same_sort(word: &str, noun: &str, form: Form, of: Form) -> bool {
    const GROUPS: &[&[&str]] = &[
        &["engine", "locomotive", "loco", "shunter"],
        &["car", "automobile", "motor-car", "vehicle"],
        &["lorry", "truck", "vehicle", "pickup"],
        &["van", "vehicle"],
        &["tractor", "vehicle"],
        &["truck", "wagon", "waggon", "carriage", "coach", "bogie", "freight-car"],
        &["trailer", "caravan"],
        &["crate", "box", "package", "parcel", "case", "container"],
        &["bucket", "pail"],
        &["counterweight", "counterpoise", "balance-weight"],
        &["sled", "sledge", "toboggan"],
        &["trolley", "cart", "handcart"],
    ];
    if form == Form::Lift && of == Form::Lift
        || form == Form::Person
            && of == Form::Person
            && matches!(word, "person" | "passenger" | "rider" | "worker")
    {
        return true;
    }
    GROUPS.iter().any(|g| g.contains(&word) && g.contains(&noun))
}

/// Function words and fillers that carry no mechanics by themselves.
pub(crate) fn glue(word: &str) -> bool {
    matches!(
        word,
        "a" | "an"
            | "the"
            | "and"
            | "or"
            | "but"
            | "of"
            | "to"
            | "by"
            | "in"
            | "on"
            | "at"
            | "is"
            | "are"
            | "be"
            | "been"
            | "being"
            | "was"
            | "were"
            | "it"
            | "its"
            | "they"
            | "their"
            | "them"
            | "that"
            | "which"
            | "who"
            | "whose"
            | "this"
            | "these"
            | "those"
            | "there"
            | "then"
            | "so"
            | "as"
            | "with"
            | "from"
            | "for"
            | "has"
            | "have"
            | "had"
            | "having"
            | "when"
            | "where"
            | "while"
            | "whilst"
            | "what"
            | "how"
            | "he"
            | "she"
            | "his"
            | "her"
            | "also"
            | "such"
            | "each"
            | "both"
            | "one"
            | "will"
            | "may"
            | "can"
            | "does"
            | "do"
            | "did"
            | "should"
            | "would"
            | "might"
            | "if"
            | "than"
            | "into"
            | "upon"
            | "after"
            | "during"
            | "'s"
            | ","
            | ";"
            | ":"
            | "("
            | ")"
            | "["
            | "]"
            | "\""
            | "'"
            | "-"
            | "="
            | "\n"
            | "."
            | "•"
            | "*"
            | "same"
            | "now"
            | "here"
            | "thus"
            | "hence"
            | "therefore"
            | "let"
            | "it's"
            | "other"
            | "only"
            | "all"
            | "any"
            | "itself"
            | "themselves"
            | "just"
            | "about"
            | "between"
            | "against"
            | "towards"
            | "toward"
            | "up"
            | "down"
            | "along"
            | "over"
            | "through"
            | "under"
    )
}

/// Words that only set the scene or steady the sentence. They may stand anywhere.
pub(crate) fn scene(word: &str) -> bool {
    matches!(
        word,
        "question"
            | "subsequent"
            | "subsequently"
            | "throughout"
            | "motion"
            | "initially"
            | "later"
            | "first"
            | "second"
            | "third"
            | "following"
            | "modelled"
            | "modeled"
            | "modelling"
            | "modeling"
            | "model"
            | "particles"
            | "assume"
            | "assumed"
            | "assuming"
            | "suppose"
            | "supposed"
            | "treated"
            | "regarded"
            | "considered"
            | "stage"
            | "journey"
            | "moment"
            | "instant"
            | "certain"
            | "time"
            | "part"
            | "large"
            | "small"
            | "big"
            | "long"
            | "loaded"
            | "empty"
            | "heavy"
            | "narrow-gauge"
            | "wooden"
            | "metal"
            | "steel"
            | "iron"
            | "stone"
            | "new"
            | "old"
            | "some"
            | "given"
            | "known"
            | "constant"
            | "constantly"
            | "steadily"
            | "uniform"
            | "uniformly"
            | "single"
            | "free"
            | "freely"
            | "respectively"
            | "necessary"
            | "appropriate"
            | "your"
            | "answer"
            | "answers"
            | "working"
            | "method"
            | "clearly"
            | "reason"
            | "reasons"
            | "fact"
            | "you"
            | "used"
            | "use"
            | "using"
            | "take"
            | "taking"
            | "taken"
            | "case"
            | "particular"
            | "required"
            | "terms"
            | "term"
            | "value"
            | "values"
            | "magnitude"
            | "magnitudes"
            | "size"
            | "sizes"
            | "carefully"
            | "gently"
            | "suddenly"
            | "simply"
            | "directly"
            | "again"
            | "driver"
            | "people"
            | "crew"
            | "works"
            | "harbour"
            | "harbor"
            | "marram"
            | "sea"
            | "wall"
            | "sea-wall"
            | "port"
            | "dock"
            | "docks"
            | "quayside"
            | "shed"
            | "loft"
            | "warehouse"
            | "office"
            | "boathouse"
            | "workshop"
            | "factory"
            | "shaft"
            | "beam"
            | "ceiling"
            | "roof"
            | "jib"
            | "crane"
            | "bracket"
            | "hook"
            | "support"
            | "clamp"
            | "beside"
            | "near"
            | "inside"
            | "outside"
            | "contact"
            | "position"
            | "level"
            | "straight"
            | "stretch"
            | "section"
            | "portion"
            | "parts"
            | "portions"
            | "ends"
            | "end"
            | "edge"
            | "side"
            | "sides"
            | "top"
            | "bottom"
            | "face"
            | "early"
            | "morning"
            | "day"
            | "night"
            | "today"
            | "week"
            | "local"
            | "town"
            | "village"
            | "city"
            | "building"
            | "house"
            | "site"
            | "station"
            | "tower"
            | "light"
            | "mine"
    )
}

/// Stems of words that can change the mechanics. Where one of them is left over, the question is not answered.
pub(crate) fn dangerous(word: &str) -> bool {
    const STEMS: &[&str] = &[
        "forc",
        "mass",
        "weigh",
        "tens",
        "thrust",
        "speed",
        "veloc",
        "accel",
        "decel",
        "retard",
        "frict",
        "rough",
        "smooth",
        "string",
        "rope",
        "pulley",
        "spring",
        "elastic",
        "extens",
        "stretch",
        "break",
        "broke",
        "cut",
        "snap",
        "slip",
        "slack",
        "taut",
        "magnet",
        "wind",
        "buoy",
        "power",
        "energ",
        "moment",
        "impuls",
        "rotat",
        "radius",
        "inertia",
        "collid",
        "collis",
        "rebound",
        "bounc",
        "drag",
        "resist",
        "brak",
        "engine",
        "slope",
        "inclin",
        "angle",
        "gravit",
        "grip",
        "lift",
        "fall",
        "drop",
        "land",
        "hit",
        "strike",
        "stop",
        "rest",
        "jerk",
        "detach",
        "disconnect",
        "remov",
        "releas",
        "doubl",
        "halv",
        "tripl",
        "propor",
        "vary",
        "varies",
        "varie",
        "increas",
        "decreas",
        "chang",
        "except",
        "unless",
        "instead",
        "never",
        "without",
        "neither",
        "push",
        "pull",
        "tow",
        "haul",
        "heav",
        "light",
        "modul",
        "damp",
        "oscill",
        "vibrat",
        "circ",
        "spin",
        "roll",
        "float",
        "swim",
        "fly",
        "explod",
        "ignit",
        "electr",
        "charg",
        "field",
        "water",
        "air",
        "oil",
        "wet",
        "ice",
        "lubric",
        "twice",
        "half",
        "third",
        "quarter",
        "percent",
        "ratio",
        "times",
        "equal",
        "same",
        "maxim",
        "minim",
        "greatest",
        "least",
        "limit",
    ];
    matches!(word, "no" | "not" | "nor" | "off" | "n't" | "nobody" | "nothing" | "none")
        || STEMS.iter().any(|s| word.starts_with(s))
}
