//! What a question may want to know the truth of: whether a crate slips, a rope breaks, a string stays taut.

use crate::{BodyId, Builder, Journey, Kind, LinkId, QuantityId, StageId, Wanted};
use exact::Value;

/// Something that is so or is not so in a stage. The givens decide it; [`Wanted::Whether`] asks for it, together with
/// what the question says of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Matter {
    /// This body slips on what it stands on.
    Slips(BodyId),
    /// This body stays at rest; without one, everything does. Asked of a stage that begins where a body has come to
    /// rest for an instant, it is whether it stays there or goes back.
    StaysAtRest(Option<BodyId>),
    /// This link can bear its force ([`Link::bears`](crate::Link::bears)), so that it does not break.
    Bears(LinkId),
    /// This string is taut (a contact: the bodies touch) while the stage lasts.
    Taut(LinkId),
    /// This body is lifted off what it stands on.
    LiftsOff(BodyId),
    /// This body gets as far as that, before it stops.
    Reaches {
        /// Which.
        body: BodyId,
        /// How far it goes before it stops ([`Builder::stopping`]).
        gone: QuantityId,
        /// How far it is: to the pulley, to the edge.
        way: QuantityId,
    },
    /// Two quantities, of one stage or of two, compared by size: `left` is the same as `times` × `right`, or more,
    /// or less.
    Compares {
        /// The first.
        left: QuantityId,
        /// How they compare.
        is: Comparison,
        /// So many times the second; 1 where nothing is said.
        times: Value,
        /// The second.
        right: QuantityId,
    },
}

/// How two sizes compare.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Comparison {
    /// They are the same.
    Same,
    /// The first is the greater.
    More,
    /// The first is the smaller.
    Less,
}

impl Builder {
    /// Asks whether something is so. `told` is what the question says: `Some(true)` for *show that it slips*,
    /// `Some(false)` for *show that it does not slip*, `None` for *determine whether it slips*.
    ///
    /// ```
    /// use model::{Builder, Direction, Form, Grip, Line, Matter, Role, State};
    /// let mut b = Builder::new();
    /// let lorry = b.body("the lorry", "lorry", Form::Vehicle, Line::Level, Some(2000.into()));
    /// let crate_ = b.body("the crate", "crate", Form::Block, Line::Level, Some(50.into()));
    /// let mu = b.coefficient(exact::Value::from_int(2).checked_div(&5.into()).ok());
    /// b.on_top(crate_, lorry, Grip::Rough(mu));
    /// let stage = b.stage(State::Moving);
    /// b.heading(stage, lorry, 1);
    /// let a = b.situation().stages[0].accelerations[0];
    /// b.know(a, 2.into());
    /// b.ask_whether("a", stage, Matter::Slips(crate_), Some(false));
    /// let situation = b.finish();
    /// assert!(situation.check().is_empty());
    /// assert_eq!(situation.asks[0].phrase, "whether the crate slips");
    /// ```
    pub fn ask_whether(&mut self, part: &str, stage: StageId, matter: Matter, told: Option<bool>) {
        let phrase = self.whether_phrase(&matter);
        self.ask(part, stage, &phrase, Wanted::Whether { matter, told });
    }

    fn whether_phrase(&self, matter: &Matter) -> String {
        let here = self.situation();
        let body = |b: BodyId| here.body(b).map_or("it", |b| b.name.as_str());
        let link = |l: LinkId| here.link(l).map_or("it", |l| l.name.as_str());
        let size = |q: QuantityId| here.quantity(q).map_or("it", |q| q.name.as_str());
        match matter {
            Matter::Slips(b) => format!("whether {} slips", body(*b)),
            Matter::StaysAtRest(b) => format!("whether {} stays at rest", b.map_or("it", body)),
            Matter::Bears(l) => format!("whether {} can bear its tension", link(*l)),
            Matter::Taut(l) => format!("whether {} is taut", link(*l)),
            Matter::LiftsOff(b) => format!("whether {} lifts off", body(*b)),
            Matter::Reaches { body: b, .. } => format!("whether {} gets so far", body(*b)),
            Matter::Compares { left, is, right, .. } => {
                let how = match is {
                    Comparison::Same => "the same as",
                    Comparison::More => "more than",
                    Comparison::Less => "less than",
                };
                format!("whether the {} is {how} the {}", size(*left), size(*right))
            }
        }
    }

    /// How far a body goes before it stops, in a stage in which it slows down: a journey to rest, which is made where
    /// there is none, added to what it has gone before (`earlier`, distances of the stages before). The quantity is for
    /// [`Matter::Reaches`], or to be asked for itself. `None` if there is no such stage, or no such body in it.
    ///
    /// The journey to rest begins with the speed at which another journey of the body in this stage begins; where there
    /// is none, that speed is unknown and may be known by what is told elsewhere.
    pub fn stopping(&mut self, stage: StageId, body: BodyId, earlier: &[QuantityId]) -> Option<QuantityId> {
        let journeys = &self.situation().stage(stage)?.journeys;
        let own: Vec<Journey> = journeys.iter().filter(|j| j.body == body).cloned().collect();
        let stops = |j: &&Journey| {
            let end = self.situation().quantity(j.end_speed).and_then(|q| q.known.as_ref());
            end.is_some_and(|k| k.value.is_zero())
        };
        let journey = match own.iter().find(stops) {
            Some(found) => found.clone(),
            None => {
                let name = self.situation().body(body)?.name.clone();
                let start = match own.first() {
                    Some(first) => first.start_speed,
                    None => self.quantity(Kind::Speed, "u", &format!("initial speed of {name}")),
                };
                let journey = self.journey_from(stage, body, start, false)?;
                self.know(journey.end_speed, Value::zero());
                journey
            }
        };
        if earlier.is_empty() {
            return Some(journey.distance);
        }
        let name = self.situation().body(body)?.name.clone();
        let mut of: Vec<(i64, QuantityId)> = earlier.iter().map(|q| (1, *q)).collect();
        of.push((1, journey.distance));
        Some(self.total(Kind::Distance, "d", &format!("distance that {name} moves before it stops"), &of))
    }
}
