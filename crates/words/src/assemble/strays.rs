//! Things told of that nothing uses: something was not understood, so the question is refused.

use crate::assemble::Assembly;
use crate::story::On;
use model::{Form, Line, Refusal};
use std::collections::BTreeSet;

impl<'a> Assembly<'a> {
    /// A surface, pulley or string that was told of but that nothing uses: something was not understood.
    pub(super) fn unused(&mut self) {
        let story = self.story;
        let standing: BTreeSet<usize> = story
            .bodies
            .iter()
            .filter_map(|b| if let Some(On::Surface(s)) = b.on { Some(s) } else { None })
            .collect();
        let common = self.common_surface();
        let any_default = self
            .lines
            .iter()
            .zip(&story.bodies)
            .any(|(l, b)| !matches!(l, Line::Vertical) && !matches!(b.on, Some(On::Surface(_))));
        for (n, s) in story.surfaces.iter().enumerate() {
            let told = s.smooth.is_some() || s.rough.is_some() || s.slope.is_some() || s.slopes;
            let used = standing.contains(&n) || (any_default && common == Some(n));
            if told && !used {
                self.refuse(
                    Refusal::Unread,
                    format!("it is not clear what stands on the {}", s.noun),
                    s.span,
                    "say, for example: A rests on a rough horizontal table",
                );
            }
        }
        let situation = self.b.situation();
        let used: BTreeSet<usize> =
            situation.links.iter().flat_map(|l| l.pulleys.iter().map(|p| p.0)).collect();
        let idle: Vec<_> = story
            .pulleys
            .iter()
            .enumerate()
            .filter(|(n, _)| !used.contains(n))
            .map(|(_, p)| p.span)
            .collect();
        for span in idle {
            self.refuse(
                Refusal::Unread,
                "it is not clear which string runs over this pulley".to_owned(),
                span,
                "say: the string passes over a smooth pulley",
            );
        }
    }

    /// A body that nothing ties to the rest: something was not understood.
    pub(super) fn strays(&mut self) {
        let story = self.story;
        if story.bodies.len() < 2 {
            return;
        }
        let situation = self.b.situation();
        let mut stray = Vec::new();
        for (i, body) in story.bodies.iter().enumerate() {
            let Some(&id) = self.bodies.get(i) else { continue };
            let linked = situation.links.iter().any(|l| l.ends.iter().any(|e| e.body == id));
            let linked = linked
                || matches!(body.on, Some(On::Body(_)))
                || story.bodies.iter().any(|b| b.on == Some(On::Body(i)));
            let lift = body.form == Form::Lift && !matches!(body.on, Some(On::Surface(_)));
            if !linked && !lift {
                stray.push((i, body.span));
            }
        }
        for (i, span) in stray {
            self.refuse(
                Refusal::Unread,
                format!("it is not clear how {} is joined to the rest", self.name(i)),
                span,
                "say what joins it to the other bodies, or leave it out",
            );
        }
    }
}
