//! Verbs and what they do in a sentence: each stem names the frame that reads what follows it.

/// What a verb says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Frame {
    /// Joined, attached, connected.
    Join,
    /// Hangs.
    Hang,
    /// Rests, stands, lies on.
    Rest,
    /// Passes over a pulley.
    Pass,
    /// Tows, pulls: one body another, or a force a body.
    Pull,
    /// Exerts, produces, has a force.
    Exert,
    /// Experiences a force.
    Suffer,
    /// Carries, supports.
    Carry,
    /// Moves, travels, accelerates.
    Move,
    /// Is released.
    Release,
    /// Starts from rest.
    Start,
    /// Reaches a speed.
    Reach,
    /// Covers a distance.
    Cover,
    /// Has, is.
    Be,
    /// Is inclined at an angle.
    Incline,
    /// Fixed somewhere: no mechanics.
    Fix,
    /// Neglected, ignored.
    Neglect,
    /// Modelled as.
    Model,
    /// Comes to rest.
    Stop,
    /// Follows behind.
    Follow,
}

/// The frame of a verb form.
pub(crate) fn frame(word: &str) -> Option<Frame> {
    use Frame::*;
    Some(match word {
        "joined" | "connected" | "attached" | "coupled" | "tied" | "fastened" | "linked" | "hitched"
        | "secured" | "joins" | "connects" | "joining" | "connecting" | "links" | "linking" | "attach"
        | "attaches" | "ties" | "fixed-to" | "hooked" | "roped" => Join,
        "hang" | "hangs" | "hanging" | "hung" | "suspended" | "dangles" | "dangling" => Hang,
        "rest" | "rests" | "resting" | "stand" | "stands" | "standing" | "lie" | "lies" | "lying"
        | "laid" | "placed" | "kept" | "sits" | "sit" | "sitting" | "held" | "remain" | "remains"
        | "stays" | "stay" | "situated" | "stacked" | "piled" | "riding" | "rides" | "ride" | "sat"
        | "stood" => Rest,
        "pass" | "passes" | "passing" | "passed" | "runs" | "run" | "running" | "led" | "draped" | "goes"
        | "carried" | "threaded" | "looped" => Pass,
        "tow" | "tows" | "towing" | "towed" | "pull" | "pulls" | "pulling" | "pulled" | "draw" | "draws"
        | "drawing" | "drawn" | "haul" | "hauls" | "hauling" | "hauled" | "push" | "pushes" | "pushing"
        | "pushed" | "drag" | "drags" | "dragging" | "dragged" | "lowered" | "lowering" | "lowers"
        | "raises" | "winches" | "winched" | "tugs" | "tugged" | "raise" | "propels" | "propelled"
        | "shunts" | "lifts" | "hoists" => Pull,
        "exert" | "exerts" | "exerting" | "exerted" | "produce" | "produces" | "producing" | "provides"
        | "provide" | "applies" | "apply" | "develops" | "supplies" | "generates" | "delivers"
        | "applied" | "presses" | "press" | "providing" | "offers" => Exert,
        "experience" | "experiences" | "experiencing" | "suffers" | "encounters" | "meets" => Suffer,
        "carry" | "carries" | "carrying" | "support" | "supports" | "supporting" | "contains"
        | "containing" | "holds" | "holding" | "bears" | "supported" => Carry,
        "move" | "moves" | "moving" | "moved" | "travel" | "travels" | "travelling" | "traveling"
        | "travelled" | "traveled" | "accelerate" | "accelerates" | "accelerating" | "accelerated"
        | "decelerate" | "decelerates" | "decelerating" | "ascend" | "ascends" | "ascending" | "ascended"
        | "descend" | "descends" | "descending" | "descended" | "rise" | "rises" | "rising" | "risen"
        | "fall" | "falls" | "falling" | "fallen" | "slide" | "slides" | "sliding" | "slid" | "slips"
        | "slowing" | "slowed" | "slows" | "driving" | "drives" | "driven" | "raised" | "climbs"
        | "climbing" | "lifted" | "speeding" | "retarding" | "goes-up" | "retards" | "climb"
        | "brought-down" | "brakes" | "braking" | "rolls" | "roll" | "comes-down" | "slow" | "drops"
        | "dropped" | "projected" | "launched" | "continues" | "continue" => Move,
        "released" | "release" | "let" | "freed" | "allowed" | "left" => Release,
        "start" | "starts" | "starting" | "started" | "begin" | "begins" | "beginning" | "sets" | "set" => {
            Start
        }
        "reach" | "reaches" | "reached" | "reaching" | "attain" | "attains" | "acquires" | "gains"
        | "acquire" | "acquired" | "attained" | "gain" => Reach,
        "cover" | "covers" | "covering" | "covered" => Cover,
        "inclined" | "slopes" | "sloping" | "tilted" | "makes" | "making" | "inclines" | "rises-at" => {
            Incline
        }
        "fixed" | "bolted" | "mounted" | "clamped" | "screwed" | "positioned" | "located" => Fix,
        "neglected" | "ignored" | "disregarded" | "neglect" | "ignore" | "neglecting" | "ignoring" => Neglect,
        "modelled" | "modeled" | "modelling" | "modeling" | "treated" | "regarded" | "considered"
        | "treating" | "regard" | "model" | "treat" => Model,
        "brought" | "comes" | "stops" | "stop" | "stopped" | "come" | "coming" | "halts" | "bring" => Stop,
        "follows" | "follow" | "following" => Follow,
        "is" | "are" | "was" | "were" | "has" | "have" | "had" | "having" | "be" | "consists" => Be,
        _ => return None,
    })
}

/// Is the word a verb form that this reader knows?
pub(crate) fn is_verb(word: &str) -> bool {
    frame(word).is_some()
        || matches!(
            word,
            "acts"
                | "does"
                | "do"
                | "act"
                | "acting"
                | "opposes"
                | "oppose"
                | "opposing"
                | "opposed"
                | "find"
                | "calculate"
                | "determine"
                | "show"
                | "state"
                | "given"
                | "being"
                | "been"
                | "keeps"
                | "keep"
                | "exceeds"
                | "takes"
                | "take"
                | "taken"
                | "makes"
                | "become"
                | "becomes"
                | "causing"
                | "causes"
                | "said"
                | "known"
                | "amount"
                | "amounts"
                | "measured"
        )
}

/// Does the word begin a predicate, so that what stands before it is its subject?
pub(crate) fn starts_clause(word: &str) -> bool {
    matches!(
        word,
        "is" | "are"
            | "was"
            | "were"
            | "has"
            | "have"
            | "had"
            | "will"
            | "can"
            | "may"
            | "does"
            | "do"
            | "then"
            | "being"
    ) || frame(word).is_some_and(|f| !matches!(f, Frame::Model | Frame::Neglect))
        && !word.ends_with("ing")
        && !matches!(word, "rest" | "start" | "stop")
}
