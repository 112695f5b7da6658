//! Bodies told one by one after their noun: `two crates, A of mass 12 kg and B of mass 8 kg`, `two buckets, one of mass 3 kg
//! and the other of mass 5 kg`, `three crates: 10 kg, then 8 kg, then 2 kg`.

use crate::adjective::{Tells, adjective};
use crate::amount::plain_index;
use crate::reader::Reader;
use crate::story::Amount;
use exact::Dimension;

/// What a list says of each body, in its order.
pub(crate) struct Listed {
    pub(crate) labels: Vec<String>,
    pub(crate) masses: Vec<Amount>,
    /// Front or rear, upper or lower, where told so.
    pub(crate) ranks: Vec<Tells>,
    pub(crate) end: usize,
}

/// How the bodies of a list are told apart: all in the same way.
#[derive(PartialEq)]
enum By {
    Label(String),
    /// One, the other, the front one.
    Place(Tells),
    /// Their masses alone.
    Mass,
}

impl Reader<'_> {
    /// The list at `i`, with as many bodies as were counted, two at least.
    pub(crate) fn listed(&self, i: usize, count: Option<usize>) -> Option<Listed> {
        let start = self.skip(i);
        let bracket = self.w(start) == "(";
        let mut at = if matches!(self.w(start), "," | ":" | "(" | "-" | "–" | "—") {
            self.skip(start + 1)
        } else {
            start
        };
        let mut list = Listed { labels: Vec::new(), masses: Vec::new(), ranks: Vec::new(), end: i };
        let mut first = None;
        for n in 0..12 {
            let Some((by, mass, end)) = self.list_item(at) else { break };
            let alike = |a: &By| std::mem::discriminant(a) == std::mem::discriminant(&by);
            if first.as_ref().is_some_and(|f| !alike(f)) || (by == By::Mass && start == at && n == 0) {
                return None;
            }
            match &by {
                By::Label(l) => list.labels.push(l.clone()),
                By::Place(t) => list.ranks.push(*t),
                By::Mass => {}
            }
            list.masses.push(mass);
            // 2 kg on the left and 4 kg on the right
            const SIDE: &str = "on|at|to the left|right|left-hand|right-hand side|end|edge?";
            list.end = self.phrase(end, SIDE).unwrap_or(end);
            let end = list.end;
            first.get_or_insert(by);
            let mut next = self.skip(end);
            let mut joined = false;
            while matches!(self.w(next), "," | ";" | "and" | "&" | "then" | "while" | "but") {
                joined = true;
                next = self.skip(next + 1);
            }
            if !joined {
                break;
            }
            at = next;
        }
        if list.masses.len() < 2 || count.is_some_and(|c| c > 1 && c != list.masses.len()) {
            return None;
        }
        // Masses alone must be masses, and as many as were counted.
        if first == Some(By::Mass) && count.is_none() && self.w(start) != ":" {
            return None;
        }
        if bracket && self.w(list.end) == ")" {
            list.end += 1;
        }
        Some(list)
    }

    fn list_item(&self, i: usize) -> Option<(By, Amount, usize)> {
        if let Some(t) = self.tok(i).filter(|t| t.label()) {
            let (mut amounts, end, each) = self.masses_after(i + 1, false)?;
            let one = amounts.len() == 1 && !each;
            return one.then(|| Some((By::Label(plain_index(&t.text)), amounts.pop()?, end)))?;
        }
        if let Some((amount, end)) = self.amount(i, false)
            && amount.dimension == Some(Dimension::MASS)
        {
            return Some((By::Mass, amount, end));
        }
        let place =
            self.phrase(i, "the|a? one|other|another|first|second|third").map(|e| (e, Tells::Nothing));
        let (at, tells) = match place {
            Some(x) => x,
            None => {
                let e = self.phrase(i, "the")?;
                (self.skip(e) + 1, adjective(self.w(self.skip(e)))?)
            }
        };
        let at = self.phrase(at, "one|body|block|particle").unwrap_or(at);
        let (mut amounts, end, each) = self.masses_after(at, false)?;
        let one = amounts.len() == 1 && !each;
        one.then(|| Some((By::Place(tells), amounts.pop()?, end)))?
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, told};

    #[test]
    fn bodies_are_told_one_by_one() {
        let rest = "are connected by a light string that passes over a smooth pulley. The bodies hang freely. Find the \
                    acceleration.";
        for (said, first) in [
            ("Two crates, A of mass 12 kg and B of mass 8 kg,", "A"),
            ("Crates A (mass 12 kg) and B (8 kg)", "A"),
            ("Two loads, one of mass 12 kg and the other of mass 8 kg,", "the first load"),
            ("Two pots, 12 kg and 8 kg,", "the first pot"),
        ] {
            let text = format!("{said} {rest}");
            let lines = in_short(&told(&text));
            assert_eq!(lines.first(), Some(&format!("{first} hangs")), "{said}: {lines:?}");
        }
    }
}
