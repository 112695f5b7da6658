//! Diagnostics of all rooms in one list.

use model::{Diagnostic, Refusal, Span};

/// Puts diagnostics in order of place, those without a place last, and says nothing twice.
pub(crate) fn in_order(diagnostics: &mut Vec<Diagnostic>) {
    for d in diagnostics.iter_mut() {
        // A place that is nowhere in particular is none.
        d.spans.retain(|span| *span != Span::default());
        d.spans.sort();
        d.spans.dedup();
    }
    let place = |d: &Diagnostic| d.spans.first().map_or(usize::MAX, |span| span.start);
    diagnostics.sort_by_key(place);
    let mut said: Vec<Diagnostic> = Vec::with_capacity(diagnostics.len());
    for d in diagnostics.drain(..) {
        if !said.contains(&d) {
            said.push(d);
        }
    }
    *diagnostics = said;
}

/// The lighter, the earlier it stands as the reason for a refusal.
pub(crate) fn weight(d: &Diagnostic) -> u8 {
    match d.refusal {
        Some(Refusal::Unread) => 0,
        Some(Refusal::OffTopic) => 1,
        Some(Refusal::Contradictory) => 2,
        Some(Refusal::Incomplete) => 3,
        Some(Refusal::Impossible) => 4,
        Some(Refusal::Undetermined) => 5,
        None => 6,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn diagnostics_stand_in_order_of_place_and_once_each() {
        let late = Diagnostic::warn("late").at(Span::new(9, 12));
        let early = Diagnostic::warn("early").at(Span::new(2, 4)).at(Span::default());
        let nowhere = Diagnostic::remark("nowhere");
        let mut all = vec![nowhere.clone(), late.clone(), early, late];
        in_order(&mut all);
        let said: Vec<&str> = all.iter().map(|d| d.message.as_str()).collect();
        assert_eq!(said, ["early", "late", "nowhere"]);
        assert_eq!(all[0].spans, [Span::new(2, 4)], "a place that is nowhere is dropped");
    }
}
