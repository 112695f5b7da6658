//! Stages that follow one another: each must begin the way the one before ends, and what the story says
//! happens in between must happen.

use crate::Solved;
use crate::carry::way_at_end;
use crate::judge::with_unit;
use crate::setting::signed;
use crate::sign::sign_with_positive_letters;
use crate::story::Story;
use exact::{Sign, Value};
use model::{
    BodyId, Claimed, Diagnostic, Happening, Journey, Kind, LinkId, Refusal, Situation, Stage, StageId, State,
};

/// Is this stage no part of a story: follows none, and none follows it?
pub(crate) fn stands_alone(situation: &Situation, stage: StageId) -> bool {
    let begins = |s: &Stage| s.begins.as_ref().map(|b| b.after);
    situation.stage(stage).is_none_or(|s| begins(s).is_none())
        && !situation.stages.iter().any(|s| begins(s) == Some(stage))
}

/// What the story says of the beginning of a stage and the stages before it contradict.
pub(crate) fn broken(
    story: &Story,
    before: &[Result<Solved, Vec<Diagnostic>>],
    solved: &Solved,
) -> Vec<Diagnostic> {
    let Some(stage) = story.situation.stage(solved.stage) else { return Vec::new() };
    let Some(begins) = &stage.begins else { return Vec::new() };
    let Some(Ok(earlier)) = before.get(begins.after.0) else { return Vec::new() };
    let Some(earlier_stage) = story.situation.stage(begins.after) else { return Vec::new() };
    let seam = Seam { story, stage, solved, earlier_stage, earlier, before };
    let mut says: Vec<String> = Vec::new();
    says.extend(seam.happening(&begins.with));
    says.extend(seam.direction());
    says.extend(stage.without_links.iter().filter_map(|id| seam.slack(*id)));
    let place = begins.span.or(stage.span);
    says.into_iter()
        .map(|says| {
            let mut d = Diagnostic::refuse(Refusal::Contradictory, says);
            d.spans.extend(place);
            d.hint("check what happens in the question, and the numbers before it")
        })
        .collect()
}

/// A body that comes to the end of its way, as the question tells it, in a later stage than the claim speaks of.
pub(crate) fn too_far(
    situation: &Situation,
    found: &[Result<Solved, Vec<Diagnostic>>],
    at: usize,
) -> Option<Diagnostic> {
    let before = |at: usize| situation.stages.get(at)?.begins.as_ref().map(|b| b.after.0).filter(|b| *b < at);
    for claim in &situation.claims {
        let Claimed::Within(limit) = &claim.says else { continue };
        // The stages from that of the claim up to this one.
        let mut stages = vec![at];
        while let Some(earlier) = stages.last().filter(|s| **s != claim.stage.0).and_then(|s| before(*s)) {
            stages.push(earlier);
        }
        if stages.len() < 2 || stages.last() != Some(&claim.stage.0) {
            continue;
        }
        let first = found.get(claim.stage.0).and_then(|f| f.as_ref().ok());
        let Some(way) = first.and_then(|s| s.senses.get(claim.body.0)).copied() else { continue };
        let mut gone = Value::zero();
        for (i, stage) in stages.iter().enumerate().rev() {
            let moved = found.get(*stage).and_then(|f| moved(situation, f.as_ref().ok()?, claim.body));
            let Some(moved) = moved else {
                break;
            };
            if i > 0 {
                gone += moved.end.clone();
                continue;
            }
            let too_far = moved.all.iter().any(|s| {
                let beyond = signed(way, &(&gone + s)) - limit;
                sign_with_positive_letters(&beyond) == Some(Sign::Positive)
            });
            if too_far {
                let name = situation.body(claim.body).map_or("the body", |b| b.name.as_str());
                return Some(
                    Diagnostic::refuse(
                        Refusal::Unread,
                        format!(
                            "{name} would have come to the end of its way, {} from where it began; what happens then is not told",
                            with_unit(limit, Kind::Distance)
                        ),
                    )
                    .at(claim.span)
                    .hint("say what happens then, or ask about the motion before that"),
                );
            }
        }
    }
    None
}

/// How far a body moves along its line in a stage.
struct Moved {
    /// On each of its journeys.
    all: Vec<Value>,
    /// By the end.
    end: Value,
}

/// `None` where that is not known.
fn moved(situation: &Situation, solved: &Solved, body: BodyId) -> Option<Moved> {
    let stage = situation.stage(solved.stage)?;
    if stage.held.contains(&body) || stage.state == State::Jerk {
        return Some(Moved { all: Vec::new(), end: Value::zero() });
    }
    let sense = solved.senses.get(body.0).copied()?;
    let shared = |b: BodyId| solved.accelerations.get(b.0);
    let own = |j: &&Journey| j.body == body;
    let any = stage.journeys.iter().any(|j| j.body == body);
    let journeys = stage.journeys.iter().filter(|j| own(j) || (!any && shared(j.body) == shared(body)));
    let journeys: Vec<&Journey> = journeys.collect();
    let all = journeys
        .iter()
        .map(|j| Some(signed(sense, solved.value(j.distance)?)))
        .collect::<Option<Vec<_>>>()?;
    let turns = |j: &&&Journey| situation.quantity(j.distance).is_some_and(|q| q.kind == Kind::Displacement);
    // Of several journeys the one on which it may have turned back goes to the end.
    let last = journeys.iter().find(turns).or(journeys.last())?;
    let end = signed(sense, solved.value(last.distance)?);
    Some(Moved { all, end })
}

/// Where one stage ends and the next begins.
struct Seam<'a> {
    story: &'a Story<'a>,
    stage: &'a Stage,
    solved: &'a Solved,
    earlier_stage: &'a Stage,
    earlier: &'a Solved,
    before: &'a [Result<Solved, Vec<Diagnostic>>],
}

impl Seam<'_> {
    fn body_name(&self, body: BodyId) -> &str {
        self.story.situation.body(body).map_or("the body", |b| b.name.as_str())
    }
    fn link_name(&self, link: LinkId) -> &str {
        self.story.situation.link(link).map_or("the string", |l| l.name.as_str())
    }

    /// Can that happen which is said to happen?
    fn happening(&self, with: &Happening) -> Option<String> {
        match with {
            Happening::Rests(body) => self.rests(*body),
            Happening::Stops { body, at } => {
                let idle = self.earlier.case.moves && self.way(*body).is_some();
                (!idle && self.is_fixed(*body)).then(|| {
                    format!("{} does not move, so that it never reaches {at}", self.body_name(*body))
                })
            }
            Happening::Breaks(link) if self.earlier_stage.without_links.contains(link) => {
                Some(format!("{} cannot break, as it does not hold before", self.link_name(*link)))
            }
            Happening::Breaks(link) => self.bears(*link),
            Happening::Tightens(link) => self.tightens(*link),
            _ => None,
        }
    }

    /// A link of which it is told how much it can bear does not break under less.
    fn bears(&self, id: LinkId) -> Option<String> {
        let most = self.story.situation.link(id)?.bears.and_then(|q| self.earlier.value(q))?;
        let force = self.earlier.value(*self.earlier_stage.links.get(id.0)?)?;
        let under = |side: &Value| sign_with_positive_letters(&(most - side)) == Some(Sign::Positive);
        (under(force) && under(&-force)).then(|| {
            format!(
                "{} does not break: its tension is {}, and it can bear {}",
                self.link_name(id),
                with_unit(force, Kind::Tension),
                with_unit(most, Kind::Tension)
            )
        })
    }

    /// Is the motion of a body in the stage before known?
    fn is_fixed(&self, body: BodyId) -> bool {
        self.earlier_stage.state == State::Released && self.earlier.acceleration(body).is_some()
    }

    /// The way a body moved when the stage before ended.
    fn way(&self, body: BodyId) -> Option<i8> {
        let chapter = self.story.chapters.get(self.earlier.stage.0)?;
        let mut ways =
            chapter.cases().iter().map(|case| way_at_end(self.stage, &chapter.setting, case, body.0));
        let first = ways.next().flatten();
        first.filter(|_| ways.all(|other| other == first))
    }

    /// The journeys of a body, or of those that move with it, in the stage before.
    fn journeys(&self, body: BodyId) -> Vec<&Journey> {
        let journeys = || self.earlier_stage.journeys.iter();
        if journeys().any(|j| j.body == body) {
            return journeys().filter(|j| j.body == body).collect();
        }
        let shared = |b: BodyId| self.earlier.accelerations.get(b.0);
        journeys().filter(|j| shared(j.body) == shared(body)).collect()
    }

    /// A body that comes to rest has come to rest.
    fn rests(&self, body: BodyId) -> Option<String> {
        let name = self.body_name(body);
        let ends: Vec<&Value> =
            self.journeys(body).iter().filter_map(|j| self.earlier.value(j.end_speed)).collect();
        if ends.is_empty() {
            let a = self.earlier.acceleration(body).and_then(sign_with_positive_letters);
            let faster = matches!(a, Some(Sign::Positive | Sign::Zero)) && self.earlier.case.moves;
            return faster.then(|| format!("{name} does not slow down, so that it never comes to rest"));
        }
        let moving = ends
            .iter()
            .all(|v| matches!(sign_with_positive_letters(v), Some(Sign::Positive | Sign::Negative)));
        let last = ends.last().filter(|_| moving)?;
        Some(format!("{name} is not at rest then: it moves at {}", with_unit(last, Kind::Speed)))
    }

    /// A body goes on the way it was going.
    fn direction(&self) -> Option<String> {
        let heading = self.stage.heading?;
        let chapter = self.story.chapters.get(self.solved.stage.0)?;
        let moving = chapter.setting.moving.get(heading.body.0).copied().flatten()?;
        (moving != heading.sense)
            .then(|| format!("{} is moving the other way when this begins", self.body_name(heading.body)))
    }

    /// A link that no longer holds, though nothing cut it, does not have to hold.
    fn slack(&self, id: LinkId) -> Option<String> {
        if self.earlier_stage.without_links.contains(&id) || self.is_cut(id) {
            return None;
        }
        let link = self.story.situation.link(id)?;
        let mut closing = 0i64;
        let mut speeding = Value::zero();
        for end in &link.ends {
            let times = i64::from(end.sense) * i64::from(end.times);
            if self.stage.held.contains(&end.body) {
                // It was moving with the others until it stopped.
                closing -= times * i64::from(self.way(end.body).unwrap_or(0));
            } else {
                let a = self.solved.acceleration(end.body)?;
                let sense = self.solved.senses.get(end.body.0).copied().unwrap_or(1);
                speeding += signed(sense, a) * Value::from_int(times);
            }
        }
        // Where the speeds at the start are told (a body may have been stopped for an instant), they say it.
        let closing = match self.closing_at_start(id).as_ref().and_then(sign_with_positive_letters) {
            Some(Sign::Positive) => 1,
            Some(Sign::Zero) => 0,
            Some(Sign::Negative) => -1,
            None => closing,
        };
        let wrong = match closing {
            0 => sign_with_positive_letters(&speeding) == Some(Sign::Negative),
            _ => closing < 0,
        };
        let name = &link.name;
        if wrong {
            return Some(format!("{name} does not go slack then, as its ends pull away from each other"));
        }
        let closed = self.closed(self.stage, self.solved, id)?;
        (sign_with_positive_letters(&closed) == Some(Sign::Negative))
            .then(|| format!("{name} is taut again before this stage ends"))
    }

    /// How fast the ends of a link near each other as the stage begins, where its journeys tell.
    fn closing_at_start(&self, id: LinkId) -> Option<Value> {
        let mut sum = Value::zero();
        for end in self.story.situation.link(id)?.ends.iter().filter(|e| !self.stage.held.contains(&e.body)) {
            let journey = self.stage.journeys.iter().find(|j| j.body == end.body)?;
            let sense = self.solved.senses.get(end.body.0).copied()?;
            let speed = signed(sense, self.solved.value(journey.start_speed)?);
            sum += speed * Value::from_int(i64::from(end.sense) * i64::from(end.times));
        }
        Some(sum)
    }

    /// Was it cut, in this stage or before?
    fn is_cut(&self, id: LinkId) -> bool {
        let mut stage = Some(self.stage);
        for _ in 0..=self.solved.stage.0 {
            let Some(begins) = stage.and_then(|s| s.begins.as_ref()) else { return false };
            if begins.with == Happening::Breaks(id) {
                return true;
            }
            stage = self.story.situation.stage(begins.after);
        }
        false
    }

    /// How much nearer the ends of a link have come during a stage, along the link.
    fn closed(&self, stage: &Stage, solved: &Solved, id: LinkId) -> Option<Value> {
        let mut sum = Value::zero();
        for end in self.story.situation.link(id)?.ends.iter().filter(|e| !stage.held.contains(&e.body)) {
            let moved = moved(self.story.situation, solved, end.body)?.end;
            sum += moved * Value::from_int(i64::from(end.sense) * i64::from(end.times));
        }
        Some(sum)
    }

    /// A string that tightens has used up its slack.
    fn tightens(&self, id: LinkId) -> Option<String> {
        let mut slack = Value::zero();
        let mut at = self.earlier.stage;
        let mut fell_slack = false;
        for _ in 0..=self.solved.stage.0 {
            let stage = self.story.situation.stage(at)?;
            if !stage.without_links.contains(&id) {
                fell_slack = true;
                break;
            }
            let solved = self.before.get(at.0)?.as_ref().ok()?;
            slack += self.closed(stage, solved, id)?;
            at = stage.begins.as_ref()?.after;
        }
        if !fell_slack {
            return None;
        }
        match sign_with_positive_letters(&slack)? {
            Sign::Zero => None,
            _ => Some(format!(
                "{} is not taut then: its ends are {} from where they were when it went slack",
                self.link_name(id),
                with_unit(&slack, Kind::Distance)
            )),
        }
    }
}

/// The first stage of the story to which this one belongs.
fn beginning(situation: &Situation, stage: usize) -> usize {
    let mut at = stage;
    while let Some(before) = situation.stages.get(at).and_then(|s| s.begins.as_ref()).map(|b| b.after.0) {
        if before >= at {
            break;
        }
        at = before;
    }
    at
}

/// A story in which one stage cannot be as it is told has no answers: the others say so too.
pub(crate) fn all_or_none(
    situation: &Situation,
    mut found: Vec<Result<Solved, Vec<Diagnostic>>>,
) -> Vec<Result<Solved, Vec<Diagnostic>>> {
    let wrong = |d: &Diagnostic| {
        matches!(d.refusal, Some(Refusal::Contradictory | Refusal::Impossible | Refusal::Unread))
    };
    let mut faults: Vec<(usize, Vec<Diagnostic>)> = Vec::new();
    for (at, result) in found.iter().enumerate() {
        let start = beginning(situation, at);
        if let Err(why) = result
            && why.iter().any(wrong)
            && !faults.iter().any(|(s, _)| *s == start)
        {
            faults.push((start, why.clone()));
        }
    }
    for (at, result) in found.iter_mut().enumerate() {
        let start = beginning(situation, at);
        if let (Ok(_), Some((_, why))) = (&result, faults.iter().find(|(s, _)| *s == start)) {
            *result = Err(why.clone());
        }
    }
    found
}
