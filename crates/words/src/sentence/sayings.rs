//! The table of happenings: the verb forms that tell of one, and the places at which a body may land.
//!
//! One table says both with which word a happening may begin and how it goes on, so that a new way of saying it is one
//! line. The notation is that of [`Reader::phrase`](crate::reader::Reader::phrase).

use std::collections::BTreeMap;
use std::sync::OnceLock;

/// What the verb of a happening says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Says {
    /// A string or bar no longer holds.
    Breaks,
    /// A body comes to a place, which must be named.
    Reaches,
    /// A body lands; the place may be left out.
    Lands,
    /// Bodies come to rest.
    Rests,
    /// The slack string is taut again.
    Taut,
    /// The taut string goes slack.
    Slack,
    /// A body is back where it was; the place must be named.
    Back,
}

const SAYINGS: &[(Says, &str)] = &[
    (
        Says::Breaks,
        "breaks|snaps|break|snap|breaking|snapping|broke|snapped|broken|parts|parted|parting|severed|disconnected|uncoupled|unhitched|unhooked|untied|detached|cut|unfastened|fails|failing|failed|burnt|burned|fractures|ruptures",
    ),
    (Says::Breaks, "gives|giving|give|gave|given way"),
    (
        Says::Breaks,
        "comes|coming|becomes|becoming|come|become|came|became|works|is|are|being|shakes|gets loose|undone|adrift|detached|uncoupled|unhitched|unhooked|disconnected|off|away|unfastened|untied",
    ),
    (Says::Breaks, "slips|flies off"),
    (
        Says::Reaches,
        "hits|hit|hitting|reaches|reach|reaching|reached|strikes|strike|striking|struck|meets|meeting|touches|touch|touching|impacts|impacting",
    ),
    (Says::Reaches, "arrives|arrive|arriving|arrived|gets|get|getting at|on|to|onto"),
    (Says::Reaches, "falls|drops|thuds|crashes|bumps|drop|fall|falling|dropping down? to|onto|on|into"),
    (Says::Reaches, "collides|collide|colliding with"),
    (Says::Reaches, "makes|comes|making|coming in|into? contact with"),
    (Says::Lands, "lands|landing|land|landed|touches|touching down?"),
    (
        Says::Rests,
        "comes|come|coming|came|brought instantaneously|momentarily|temporarily|finally|eventually|immediately? to an|a? instantaneous|momentary|instantaneously|momentarily|temporary|complete? rest|halt|stop|standstill",
    ),
    (
        Says::Rests,
        "is|are|being instantaneously|momentarily|finally|eventually|first? at instantaneous|momentary? rest",
    ),
    (Says::Rests, "stops|stop|stopping|stopped moving|sliding|rising|instantaneously|momentarily?"),
    (
        Says::Taut,
        "becomes|become|becoming|became|goes|go|going|is|pulled|gets|getting|jerked|pulls next|again|once? more? taut|tight",
    ),
    (Says::Taut, "tightens|tightening|tighten|tautens|tautening"),
    (Says::Slack, "becomes|become|becoming|became|goes|go|going|went|falls slack"),
    (Says::Back, "returns|return|returning|returned back|down|again? to|at"),
    (
        Says::Back,
        "gets|get|getting|comes|come|coming|arrives|arriving|slides|slide|slid|slips|moves|runs|rolls|rolled|is|are|falls|fallen|reaches|came|gone back|again down? to|at|in|past?",
    ),
    (Says::Back, "back to|at|in|where?"),
    (Says::Back, "passes|passing|pass|reaches|reaching|reach through|by|over|again?"),
];

/// The sayings that may begin with a word.
pub(super) fn beginning(word: &str) -> &'static [(Says, &'static str)] {
    static INDEX: OnceLock<BTreeMap<&'static str, Vec<(Says, &'static str)>>> = OnceLock::new();
    let index = INDEX.get_or_init(|| {
        let mut map: BTreeMap<&'static str, Vec<(Says, &'static str)>> = BTreeMap::new();
        for &(says, phrase) in SAYINGS {
            for word in phrase.split(' ').next().unwrap_or_default().split('|') {
                map.entry(word).or_default().push((says, phrase));
            }
        }
        map
    });
    index.get(word).map_or(&[], Vec::as_slice)
}

/// Where a body may land on what is under it.
pub(super) const GROUNDS: &str = "floor|ground|deck|quay|quayside|pontoon|jetty|pier|pavement|hold|platform|mat|sand|shingle|concrete|earth|slab|wharf";

/// Where a body may come to the end of its way along a table or a slope.
pub(super) const ENDS: &str = "pulley|edge|buffer|buffers|stop|barrier|peg|wall";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_saying_is_found_by_each_of_its_first_words() {
        for &(says, phrase) in SAYINGS {
            for word in phrase.split(' ').next().unwrap_or_default().split('|') {
                assert!(beginning(word).contains(&(says, phrase)), "{word}");
            }
        }
        assert_eq!(beginning("rope"), []);
    }
}
