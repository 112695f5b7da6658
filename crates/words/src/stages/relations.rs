//! Facts that tie quantities together: resistances that add up to a total, and shares of it.

use crate::assemble::{Assembly, known};
use exact::Value;
use model::{ActionId, Kind, QuantityId, Relation, Role};

impl Assembly<'_> {
    pub(super) fn total_quantity(&mut self) -> QuantityId {
        match self.total {
            Some(q) => q,
            None => {
                let q = self.b.quantity(Kind::Resistance, "X", "total resistance");
                self.total = Some(q);
                q
            }
        }
    }

    /// Facts that tie quantities together: the total of the resistances, shares of it.
    pub(super) fn relations(&mut self) {
        let story = self.story;
        if self.total.is_none() && story.total_resistance.is_none() {
            return;
        }
        let total = self.total_quantity();
        if let Some(g) = &story.total_resistance {
            self.b.know_as(total, known(g));
        }
        let mut actions: Vec<(usize, ActionId)> = story
            .forces
            .iter()
            .enumerate()
            .filter(|(_, f)| f.role == Role::Resistance)
            .filter_map(|(n, f)| Some((f.on?, self.forces.get(n).copied().flatten()?)))
            .collect();
        actions.extend(self.shared.iter().copied());
        for stage in self.b.situation().stage_ids().collect::<Vec<_>>() {
            let forces = self.b.situation().stage(stage).map(|s| s.forces.clone()).unwrap_or_default();
            let mut terms = vec![(Value::one(), vec![total])];
            for (_, a) in &actions {
                if let Some(q) = forces.get(a.0) {
                    terms.push((-Value::one(), vec![*q]));
                }
            }
            self.b.situation_mut().relations.push(Relation {
                terms,
                name: "the resistances add up to the total".to_owned(),
                span: None,
                from_part: 0,
            });
            for (b, share) in &story.shares {
                let of = self.name(*b);
                let Some(q) = actions.iter().find(|(i, _)| i == b).and_then(|(_, a)| forces.get(a.0)) else {
                    continue;
                };
                self.b.situation_mut().relations.push(Relation {
                    terms: vec![(Value::one(), vec![*q]), (-share.value.clone(), vec![total])],
                    name: format!("{} of the total resistance acts on {of}", share.written),
                    span: Some(share.span),
                    from_part: share.part,
                });
            }
        }
    }
}
