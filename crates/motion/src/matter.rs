//! Whether something is so: a body slips, a rope breaks, a string stays taut. The stage is solved already; what is not
//! so there (the body slips, the string is slack) is *supposed*: the stage is solved once more with the body sticking,
//! or a rod for the string, and the force that this would take is compared with what there can be.

mod supposed;

use crate::answer::View;
use crate::judge::with_unit;
use crate::sign::sign_with_positive_letters;
use crate::{About, Condition, Factor, ForceKind, FrictionState, LinkState, Solved, solve};
use exact::{Sign, Value};
use model::{
    Ask, Basis, BodyId, Comparison, Diagnostic, Grip, Holds, Kind, Known, LinkId, Matter, Quantity,
    QuantityId, Refusal, Situation, Span, StageId, Wanted,
};

/// What there is to say of a [`Matter`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// Is it so?
    pub holds: bool,
    /// In words, with the numbers that decide it: `the crate does not slip on the lorry: it needs 100 N of friction,
    /// and up to 196 N is to be had`.
    pub says: String,
    /// The comparison that decides it, where one does.
    pub test: Option<Test>,
    /// The stage in which the sides of the test have their values, where that is not the stage as it is.
    pub supposed: Option<Supposed>,
}

/// A stage as it would be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Supposed {
    /// In words: `the crate does not slip on the lorry`.
    pub says: String,
    /// The situation so changed; all quantities of the situation keep their numbers.
    pub situation: Situation,
    /// The stage, solved in it.
    pub solved: Solved,
}

/// Two sides compared by size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Test {
    /// The first.
    pub left: Side,
    /// The second.
    pub right: Side,
    /// What both measure.
    pub kind: Kind,
    /// What follows: `the crate does not slip on the lorry`.
    pub says: String,
}

/// One side of a comparison.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Side {
    /// What it is the product of; nothing for a plain number.
    pub factors: Vec<Factor>,
    /// Its value, not negative where it is a size.
    pub value: Value,
}

impl Side {
    fn of(id: QuantityId, value: Value) -> Side {
        Side { factors: vec![Factor::Quantity(id)], value }
    }
    fn number(value: Value) -> Side {
        Side { factors: Vec::new(), value }
    }
    /// The quantities that have to be known before this side is.
    pub fn needs(&self) -> impl Iterator<Item = QuantityId> + '_ {
        self.factors.iter().filter_map(|f| match f {
            Factor::Quantity(q) => Some(*q),
            _ => None,
        })
    }
}

impl Test {
    /// The quantities that have to be known before the sides can be compared.
    pub fn needs(&self) -> impl Iterator<Item = QuantityId> + '_ {
        self.left.needs().chain(self.right.needs())
    }
}

/// Whether what this ask wants to know ([`Wanted::Whether`]) is so in the stage, solved as it is.
///
/// ```
/// use model::{Builder, Direction, Form, Line, Matter, Role, State};
/// let mut b = Builder::new();
/// let tug = b.body("the tug", "tug", Form::Vehicle, Line::Level, Some(900.into()));
/// let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(600.into()));
/// let rope = b.string("the rope", tug, truck);
/// b.bears(rope, Some(1500.into()));
/// let drive = b.act(Role::Driving, "the driving force", tug, Direction::Along(1));
/// let stage = b.stage(State::Moving);
/// b.size(stage, drive, 3000.into());
/// b.heading(stage, tug, 1);
/// b.ask_whether("", stage, Matter::Bears(rope), None);
/// let situation = b.finish();
/// let solved = motion::solve(&situation, stage, 0).unwrap();
/// let found = motion::whether(&situation, &solved, &situation.asks[0]).unwrap();
/// assert!(found.holds);
/// assert_eq!(found.says, "the rope does not break: its tension is 1200 N, and it can bear 1500 N");
/// ```
///
/// # Errors
/// [`Refusal::Undetermined`] where the givens leave it open; [`Refusal::Contradictory`] where the question wants the
/// contrary shown of what is so; [`Refusal::Incomplete`] where something is missing.
pub fn whether(situation: &Situation, solved: &Solved, ask: &Ask) -> Result<Finding, Diagnostic> {
    let Wanted::Whether { matter, told } = &ask.wanted else {
        return Err(Diagnostic::refuse(Refusal::Unread, "no truth is asked here").at(ask.span));
    };
    let looking = Looking { situation, solved, part: ask.part_index, ask };
    let found = looking.found(matter).map_err(|d| if d.spans.is_empty() { d.at(ask.span) } else { d })?;
    match told {
        Some(told) if *told != found.holds => {
            let says = format!("the question wants the contrary shown, but {}", found.says);
            Err(Diagnostic::refuse(Refusal::Contradictory, says)
                .at(ask.span)
                .hint("check what is to be shown, or the givens"))
        }
        _ => Ok(found),
    }
}

struct Looking<'a> {
    situation: &'a Situation,
    solved: &'a Solved,
    part: usize,
    ask: &'a Ask,
}

fn size_of(value: &Value) -> Value {
    if sign_with_positive_letters(value) == Some(Sign::Negative) { -value } else { value.clone() }
}

fn newtons(value: &Value) -> String {
    with_unit(value, Kind::Tension)
}

fn undetermined(says: String) -> Diagnostic {
    Diagnostic::refuse(Refusal::Undetermined, says)
}

impl Looking<'_> {
    fn found(&self, matter: &Matter) -> Result<Finding, Diagnostic> {
        match matter {
            Matter::Slips(body) => self.slips(*body),
            Matter::StaysAtRest(body) => self.stays(*body),
            Matter::Bears(link) => self.bears(*link),
            Matter::Taut(link) => self.taut(*link),
            Matter::LiftsOff(body) => self.lifts_off(*body),
            Matter::Reaches { body, gone, way } => self.reaches(*body, *gone, *way),
            Matter::Compares { left, is, times, right } => self.compares(*left, *is, times, *right),
        }
    }

    fn body(&self, body: BodyId) -> &str {
        self.situation.body(body).map_or("the body", |b| b.name.as_str())
    }
    fn link(&self, link: LinkId) -> &str {
        self.situation.link(link).map_or("the link", |l| l.name.as_str())
    }
    fn name(&self, id: QuantityId) -> &str {
        let name = self.situation.quantity(id).map_or("quantity", |q| q.name.as_str());
        name.strip_prefix("the ").unwrap_or(name)
    }
    fn kind(&self, id: QuantityId) -> Kind {
        self.situation.quantity(id).map_or(Kind::Number, |q| q.kind)
    }

    /// The value of a quantity in the stage; of another stage's, in that.
    fn value(&self, id: QuantityId) -> Result<Value, Diagnostic> {
        // One acceleration stands for all bodies that move together.
        let in_stage = |solved: &Solved| {
            let stage = self.situation.stage(solved.stage)?;
            let shared = stage.accelerations.iter().position(|a| *a == id);
            let id = shared.and_then(|b| solved.accelerations.get(b)).copied().unwrap_or(id);
            let loose = stage.links.iter().position(|l| *l == id);
            let loose = loose.and_then(|l| solved.case.links.get(l)) == Some(&LinkState::Loose);
            if loose { Some(Value::zero()) } else { solved.value(id).cloned() }
        };
        let missing = || {
            let says = format!("the {} is not fixed by what the question gives", self.name(id));
            undetermined(says)
        };
        match stage_of(self.situation, id).filter(|s| *s != self.solved.stage) {
            Some(other) => {
                let solved = crate::values(self.situation, other, self.part)
                    .map_err(|why| why.into_iter().next().unwrap_or_else(missing))?;
                in_stage(&solved).ok_or_else(missing)
            }
            None => in_stage(self.solved).ok_or_else(missing),
        }
    }

    /// The sign of `right − left`.
    fn compare(&self, left: &Value, right: &Value) -> Result<Sign, Diagnostic> {
        let gap = right - left;
        sign_with_positive_letters(&gap).ok_or_else(|| {
            let letters: Vec<String> = gap.symbols().into_iter().collect();
            undetermined(format!("it depends on {}", letters.join(" and ")))
                .hint("give the letters numbers, or ask for the values for which it is so")
        })
    }

    fn stays(&self, body: Option<BodyId>) -> Result<Finding, Diagnostic> {
        let stage = self.situation.stage(self.solved.stage);
        let view = View { situation: self.situation, solved: self.solved, stage, ask: self.ask };
        // In letters it may rest or not; then it is not shown that it does.
        let decides = |c: &&Condition| matches!(c.about, About::Friction(_) | About::Motion(_));
        for condition in self.solved.conditions.iter().filter(decides) {
            self.compare(&condition.left, &condition.right)?;
        }
        let Some(body) = body else {
            let holds = !self.solved.case.moves;
            return Ok(Finding { holds, says: view.says_whether_it_moves(), test: None, supposed: None });
        };
        let holds = !self.solved.case.moves || view.stays(body.0);
        let says = match view.at_rest(body.0).filter(|_| holds) {
            Some(because) => because,
            None if self.solved.case.moves && holds => format!("{} stays at rest", self.body(body)),
            None => view.says_whether_it_moves(),
        };
        Ok(Finding { holds, says, test: None, supposed: None })
    }

    fn bears(&self, link: LinkId) -> Result<Finding, Diagnostic> {
        let name = self.link(link);
        let most_id = self.situation.link(link).and_then(|l| l.bears);
        let most_id = most_id.ok_or_else(|| {
            let says = format!("it is not told how great a force {name} can bear");
            Diagnostic::refuse(Refusal::Incomplete, says).hint("give the greatest tension")
        })?;
        let most = self.value(most_id)?;
        let (id, force) = self.pull(self.solved, link)?;
        let size = size_of(&force);
        let thrust = is_thrust(self.solved, link) && !size.is_zero();
        let word = if thrust { "thrust" } else { "tension" };
        let over = self.compare(&size, &most)? == Sign::Negative;
        let so = if over { format!("{name} breaks") } else { format!("{name} does not break") };
        let would = if over { "would be" } else { "is" };
        let (size_in_words, most_in_words) = (newtons(&size), newtons(&most));
        let only = if over { "it can bear only" } else { "it can bear" };
        Ok(Finding {
            holds: !over,
            says: format!("{so}: its {word} {would} {size_in_words}, and {only} {most_in_words}"),
            test: Some(Test {
                left: Side::of(id, size),
                right: Side::of(most_id, most),
                kind: Kind::Tension,
                says: so,
            }),
            supposed: None,
        })
    }

    /// The force of a link: nothing where it is slack, negative where it pushes though it is said to pull.
    fn pull(&self, solved: &Solved, link: LinkId) -> Result<(QuantityId, Value), Diagnostic> {
        let id = self.situation.stage(solved.stage).and_then(|s| s.links.get(link.0)).copied();
        let open = || undetermined(format!("the tension in {} is not fixed by the givens", self.link(link)));
        let id = id.ok_or_else(open)?;
        if solved.case.links.get(link.0) != Some(&LinkState::Holding) {
            return Ok((id, Value::zero()));
        }
        Ok((id, solved.value(id).cloned().ok_or_else(open)?))
    }

    fn reaches(&self, body: BodyId, gone: QuantityId, way: QuantityId) -> Result<Finding, Diagnostic> {
        let name = self.body(body);
        let (far, there) = (self.value(gone)?, self.value(way)?);
        let sign = self.compare(&far, &there)?;
        let (far_in_words, there_in_words) =
            (with_unit(&far, Kind::Distance), with_unit(&there, Kind::Distance));
        let so = match sign {
            Sign::Positive => format!("{name} does not get so far"),
            _ => format!("{name} gets so far"),
        };
        let says = match sign {
            Sign::Positive => format!("{so}: it stops after {far_in_words}, and the way is {there_in_words}"),
            Sign::Zero => format!("{so}, and stops just there, after {far_in_words}"),
            Sign::Negative => {
                format!("{so}: it would stop only after {far_in_words}, and the way is {there_in_words}")
            }
        };
        let test =
            Test { left: Side::of(gone, far), right: Side::of(way, there), kind: Kind::Distance, says: so };
        Ok(Finding { holds: sign != Sign::Positive, says, test: Some(test), supposed: None })
    }

    fn compares(
        &self,
        left: QuantityId,
        is: Comparison,
        times: &Value,
        right: QuantityId,
    ) -> Result<Finding, Diagnostic> {
        let one = size_of(&self.value(left)?);
        let other = size_of(&self.value(right)?);
        let most = times * &other;
        let sign = self.compare(&one, &most)?;
        let holds = match is {
            Comparison::Same => sign == Sign::Zero,
            Comparison::More => sign == Sign::Negative,
            Comparison::Less => sign == Sign::Positive,
        };
        let kind = self.kind(left);
        let once = (times - Value::one()).is_zero();
        let scaled = if once { String::new() } else { format!("{times} times ") };
        let how = match sign {
            Sign::Zero => "the same as",
            Sign::Negative => "more than",
            Sign::Positive => "less than",
        };
        let (first, second) = (self.named(left), self.named(right));
        let so = match (first == second, sign) {
            (true, Sign::Zero) => format!("the {first} is the same"),
            (true, _) => format!("the {first} is not the same"),
            _ => format!("the {first} is {how} {scaled}the {second}"),
        };
        let says = match sign {
            Sign::Zero => format!("{so}: {}", with_unit(&one, kind)),
            _ => format!("{so}: {} and {}", with_unit(&one, kind), with_unit(&most, kind)),
        };
        let mut factors = vec![Factor::Quantity(right)];
        if let Some(number) = times.as_rational().filter(|_| !once) {
            factors.insert(0, Factor::Number(number.clone()));
        }
        let test = Test { left: Side::of(left, one), right: Side { factors, value: most }, kind, says: so };
        Ok(Finding { holds, says, test: Some(test), supposed: None })
    }
    /// A quantity's name, with its stage where that is not the one asked of and has a name.
    fn named(&self, id: QuantityId) -> String {
        let name = self.name(id);
        let other = stage_of(self.situation, id).and_then(|s| self.situation.stage(s));
        match other.map(|s| s.name.as_str()).filter(|n| !n.is_empty()) {
            Some(stage) => format!("{name} ({stage})"),
            None => name.to_owned(),
        }
    }
}

/// Does the link push, as the stage is oriented?
fn is_thrust(solved: &Solved, link: LinkId) -> bool {
    solved.forces.iter().any(|f| f.kind == ForceKind::Link(link) && f.thrust)
}

/// The one stage to which a quantity belongs; `None` where it belongs to none, or to several.
pub fn stage_of(situation: &Situation, id: QuantityId) -> Option<StageId> {
    let mut found = situation.stages.iter().enumerate().filter(|(_, s)| {
        let surfaces = s.reactions.iter().chain(&s.frictions).flatten();
        let journeys = s.journeys.iter().flat_map(|j| [j.start_speed, j.end_speed, j.distance, j.time]);
        let listed = s.accelerations.iter().chain(&s.links).chain(&s.forces).chain(surfaces).copied();
        listed.chain(journeys).any(|q| q == id)
    });
    let (first, _) = found.next()?;
    found.next().is_none().then_some(StageId(first))
}
