//! Gives every quantity a letter as the trade writes it, and a symbol that nothing else has.
//!
//! A letter that several quantities of one stage share gets an index: the label of the body where
//! that is a single letter (`m_A`), else a number (`T_1`, `T_2`). Accelerations share `a`: whether they
//! are equal is for the mechanics to find.

use crate::{Kind, QuantityId, Situation};
use exact::Value;
use std::collections::{BTreeMap, BTreeSet};

/// Which quantities belong to which stage, and the body label that may serve as an index.
fn places(situation: &Situation) -> BTreeMap<QuantityId, (Option<usize>, Option<String>)> {
    let mut places = BTreeMap::new();
    let index = |label: &str| (label.chars().count() == 1).then(|| label.to_owned());
    for body in &situation.bodies {
        places.insert(body.mass, (None, index(&body.label)));
    }
    for (n, stage) in situation.stages.iter().enumerate() {
        let by_body = |ids: &[Option<QuantityId>]| -> Vec<(QuantityId, Option<String>)> {
            let labels = situation.bodies.iter().map(|b| index(&b.label));
            ids.iter().zip(labels).filter_map(|(id, label)| Some(((*id)?, label))).collect()
        };
        let accelerations: Vec<_> = stage.accelerations.iter().copied().map(Some).collect();
        for (id, label) in by_body(&stage.reactions)
            .into_iter()
            .chain(by_body(&stage.frictions))
            .chain(by_body(&accelerations))
        {
            places.insert(id, (Some(n), label));
        }
        for id in stage.links.iter().chain(&stage.forces) {
            places.insert(*id, (Some(n), None));
        }
        for journey in &stage.journeys {
            for id in [journey.start_speed, journey.end_speed, journey.distance, journey.time] {
                places.insert(id, (Some(n), None));
            }
        }
    }
    places
}

/// Assigns letters and symbols; `reserved` letters are the question's own: only the quantities that they
/// name, or whose value is that letter, are written so.
pub(crate) fn assign(situation: &mut Situation, reserved: &BTreeMap<String, BTreeSet<QuantityId>>) {
    let places = places(situation);
    let mut sharing: BTreeMap<(Option<usize>, String), Vec<QuantityId>> = BTreeMap::new();
    for (i, q) in situation.quantities.iter().enumerate() {
        let id = QuantityId(i);
        let own = reserved.get(&q.letter).is_some_and(|owners| {
            let is_the_letter = q.known.as_ref().is_some_and(|k| k.value == Value::symbol(&q.letter));
            owners.contains(&id) || is_the_letter
        });
        let shared = matches!(q.kind, Kind::Acceleration | Kind::Gravity) || own;
        if !shared {
            let stage = places.get(&id).and_then(|p| p.0);
            sharing.entry((stage, q.letter.clone())).or_default().push(id);
        }
    }
    for ((_, letter), ids) in sharing {
        let clash = reserved.contains_key(&letter);
        if ids.len() < 2 && !clash {
            continue;
        }
        for (n, id) in ids.iter().enumerate() {
            let label = places.get(id).and_then(|p| p.1.clone());
            let index = label.unwrap_or_else(|| (n + 1).to_string());
            if let Some(q) = situation.quantities.get_mut(id.0) {
                q.letter = format!("{letter}_{index}");
            }
        }
    }
    let mut taken: BTreeSet<String> = situation.letters.iter().map(|l| l.symbol.clone()).collect();
    // The question's own letters first, so that they keep their plain names.
    let mut order: Vec<usize> = (0..situation.quantities.len()).collect();
    order.sort_by_key(|&i| situation.quantities.get(i).is_none_or(|q| !reserved.contains_key(&q.letter)));
    for i in order {
        let Some(q) = situation.quantities.get_mut(i) else { continue };
        let mut symbol = q.letter.clone();
        let mut n = 1;
        while !taken.insert(symbol.clone()) {
            n += 1;
            symbol = format!("{}#{n}", q.letter);
        }
        q.symbol = symbol;
    }
}
