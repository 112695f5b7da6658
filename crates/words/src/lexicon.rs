//! Nouns that the reader knows, and what sort of thing each of them is.

mod danger;
mod fillers;

pub(crate) use danger::dangerous;
pub(crate) use fillers::{glue, scene};

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
        | "pallet" | "plank" | "desk" | "bollard" | "safe" | "boat" | "dinghy" | "anvil" | "keg"
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
        | "tramway" | "ice" | "railway" | "siding" | "rails" | "rollers" | "yard" | "counter"
        | "causeway" => Noun::Surface { slopes: false },
        "slope" | "ramp" | "hill" | "incline" | "slipway" | "gradient" | "grade" | "wedge" | "chute"
        | "hillside" | "face" | "embankment" => Noun::Surface { slopes: true },
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
