//! How long something lasts that is told by a state: `for which the string is slack`, `while it is moving`; and the body that
//! was sent off by itself, of which the story can tell that it stopped and came back.

use crate::reader::Reader;
use crate::timeline::{Event, Moment, Occurs};

impl Reader<'_> {
    /// `the sledge is moving`: from the start until it is at rest.
    pub(super) fn moving_while(&mut self, i: usize) -> Option<usize> {
        const MOVING: &str = "is|are|remains|stays|will moving|in|be? motion|moving?";
        let k = (i + 1..i + 6).find(|&k| self.phrase(k, MOVING).is_some())?;
        let end = self.phrase(k, MOVING)?;
        if !matches!(self.w(end.wrapping_sub(1)), "moving" | "motion") {
            return None;
        }
        let what = self.known_between(i, k)?;
        let of = self.bodies_of(Some(&what))?;
        let end = self.phrase(end, "altogether").or_else(|| self.phrase(end, "in all|total")).unwrap_or(end);
        let mut when = self.pop_moments();
        when.to = Some(Moment::Rest(of));
        when.total = true;
        self.told(i, end, "from the start until it is at rest");
        self.put_moments(when);
        Some(end)
    }

    /// `the string is slack`, `P is on the floor`: from the landing until the string is taut again.
    pub(super) fn slack_while(&mut self, i: usize) -> Option<usize> {
        const BE: &str = "is|will|does|remain|remains|stays|stay|rests|lies|sits|rest|lie|sit|be be|stay|remain|sit|rest|at|lie? rest?";
        let landed = self.story.events.iter().rposition(|e| matches!(e.occurs, Occurs::Lands { .. }))?;
        let Some(Occurs::Lands { body: lander, .. }) =
            self.story.events.get(landed).map(|e| e.occurs.clone())
        else {
            return None;
        };
        let i = self.phrase(i, "is|will|does|do").unwrap_or(i);
        let end = if let Some(e) = self.phrase(i, "the string|rope|cord|cable") {
            let e =
                self.phrase(e, "is|remains|stays|be|remain|stay|go|goes|will be|remain|stay?").unwrap_or(e);
            self.phrase(e, "slack")?
        } else {
            let k = self.somebody(i)?;
            let at = self.phrase(k, BE).unwrap_or(k);
            let at =
                self.phrase(at, "on|in|at contact? with?").filter(|_| at > k || !self.w(i).is_empty())?;
            let (_, ground, e) = self.landing_place(at)?;
            let what = self.known_between(i, k)?;
            if !ground || self.bodies_of(Some(&what))? != [lander] {
                return None;
            }
            e
        };
        let mut when = self.pop_moments();
        when.from = Some(Moment::Event(landed));
        when.to = Some(Moment::Taut);
        when.chapter = landed + 1;
        self.told(i, end, "from the landing until the string is taut again");
        self.put_moments(when);
        Some(end)
    }

    /// A single body that was sent up a slope and is back: between, it came to rest.
    pub(super) fn comes_back(&mut self, of: &[usize], i: usize, end: usize) {
        if self.sent_alone().is_some_and(|b| of.contains(&b)) && self.story.events.is_empty() {
            let span = self.span(i, end);
            let Some(body) = self.sent_alone() else { return };
            let occurs = Occurs::Rests(body);
            self.story.events.push(Event { occurs, told: true, part: self.part, span });
            self.chapter = 1;
        }
    }

    /// The body that was sent off at a speed, by itself.
    pub(super) fn sent_alone(&self) -> Option<usize> {
        use crate::story::Fact;
        let sent = self.story.motions.iter().find(|m| {
            m.chapter == 0 && m.of.len() == 1 && matches!(&m.fact, Fact::StartSpeed(g) if !g.value.is_zero())
        })?;
        let body = *sent.of.first()?;
        (!self.story.links.iter().any(|l| l.ends.contains(&body))).then_some(body)
    }
}
