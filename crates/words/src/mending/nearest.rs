//! Words that are near to a word which the reader knows, though they need not mean the same.
//!
//! What means the same wherever it stands is an [idiom](crate::idioms) and is read without asking. Here stands what
//! the writer is asked about: a greasy floor may be meant to be smooth.

/// `what is written`, what may be meant. `|` separates alternatives, a trailing `?` marks a word that may be missing.
pub(super) const NEAREST: &[(&str, &[&str])] = &[
    ("greasy|icy|slippery|oiled|oily|slick|polished|lubricated|waxed|wet|soapy|frictionfree", &["smooth"]),
    ("gritty|sandy|sticky|grippy|coarse|bumpy|rusty|carpeted", &["rough"]),
    ("comes|works|slips|pulls|shakes|breaks|tears off|loose|away|undone|apart|free", &["breaks"]),
    ("come|work|slip|pull|shake|break|tear off|loose|away|undone|apart|free", &["break"]),
    ("coming|working|slipping|pulling|breaking|tearing off|loose|away|undone|apart|free", &["breaking"]),
    ("came|worked|slipped|pulled|shook|broke|tore off|loose|away|undone|apart|free", &["breaks"]),
    ("fails|ruptures|severs|fractures|unhooks|uncouples|detaches|splits|bursts", &["breaks"]),
    ("failing|rupturing|fracturing|unhooking|splitting|bursting", &["breaking"]),
    ("thuds|thumps|crashes|bumps|plops into|onto", &["lands on"]),
    ("thuds|thumps|crashes|plops down?", &["lands"]),
    ("goes|pulls|gets|turns|grows tight|stiff|taut", &["becomes taut"]),
    ("go|pull|get|become tight|stiff", &["become taut"]),
    ("doing", &["moving at", "moving with speed"]),
    ("yank|tug|heave|shove|nudge|effort|traction", &["force"]),
    ("yanks|tugs|heaves|shoves|nudges|lugs", &["pulls"]),
    ("yanked|tugged|heaved|shoved|nudged|lugged|winched", &["pulled"]),
    ("tugging|straining|heaving", &["pulling"]),
    (
        "bungee|elastic|ribbon|tape|strap|lead|leash|fishing-line|belt|webbing|band",
        &["rope", "inextensible string"],
    ),
    ("stick|pole|beam|stiff connector|connector|strut", &["rod", "tow-bar"]),
    (
        "yoked|strung|lashed|clipped|chained|bound|spliced|knotted|shackled|moored together?",
        &["joined", "connected"],
    ),
    ("wheel|roller|drum|runner|capstan|hook|nail", &["pulley"]),
    ("gangway|gangplank|conveyor|slide|bank|shingle|beach|mud", &["slope", "horizontal floor"]),
    ("concrete|tarmac|grass|ice|sand|lino|parquet|carpet", &["floor", "ground"]),
    ("grip|stickiness|roughness|drag factor|coeff|coefficient|number|index", &["coefficient of friction"]),
    ("losses|drag|hindrance|stiction", &["resistance"]),
    ("picks|gathers|builds up? speed", &["accelerates"]),
    ("loses|drops speed", &["decelerates"]),
    ("gets|gets going|moving|underway", &["starts from rest"]),
    ("parked|perched|plonked|dumped|deposited", &["at rest"]),
    ("zooms|whizzes|speeds|trundles|rumbles|creeps|crawls|chugs|glides|sails|coasts", &["moves"]),
    ("zooming|whizzing|trundling|rumbling|creeping|crawling|chugging|gliding|sailing|coasting", &["moving"]),
    ("heaviness|bulk|tare", &["mass"]),
    ("quickness|pace|rapidity", &["speed"]),
    ("steepness|pitch|tilt|rake", &["angle"]),
    ("much further|farther", &["far"]),
    ("stating the? direction", &["and the direction"]),
    ("numerical", &[""]),
    ("well above", &["above"]),
    ("everything", &["the system"]),
    ("weigh|weighs", &["has mass", "have mass"]),
];
