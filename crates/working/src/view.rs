//! One solved stage, made ready for planning: every equation with the exact value of each term.

use exact::{Angle, Rational, Value};
use model::{BodyId, Kind, QuantityId, Situation, Stage};
use motion::{Equation, Factor, Law, Origin, Solved, Term};
use std::borrow::Cow;
use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};

/// A solved stage and what is known in it from the start.
pub(crate) struct View<'a> {
    pub(crate) situation: &'a Situation,
    pub(crate) solved: &'a Solved,
    /// The same without the masses that stand as letters because the question does not give them.
    pub(crate) told: &'a Solved,
    /// Known before any equation is used.
    pub(crate) known: BTreeSet<QuantityId>,
    /// The equations all of whose terms have a value.
    pub(crate) entries: Vec<Entry<'a>>,
    trig: BTreeMap<QuantityId, (Value, Value)>,
    /// What the question gives as so many times another quantity, which is to be found.
    same_as: BTreeMap<QuantityId, (Rational, QuantityId)>,
    /// By quantity: is it known from the start, and has it a value?
    given: Vec<bool>,
    valued: Vec<bool>,
    /// What other stages have found, where several are looked at together.
    beside: BTreeMap<QuantityId, Value>,
    angles_beside: BTreeMap<QuantityId, Angle>,
    /// Letters that differ from the quantity's own: accelerations that are not equal.
    pub(crate) letters: BTreeMap<QuantityId, String>,
    /// The range for which it was solved, one of its givens left open.
    pub(crate) range: Option<&'a motion::Range>,
    /// What it supposes to be otherwise than it is, in words.
    pub(crate) supposes: Option<&'a str>,
    /// Solved in a situation of its own: then it is no concern of other asks.
    pub(crate) apart: bool,
}

/// An equation with the values of its terms.
pub(crate) struct Entry<'a> {
    pub(crate) equation: &'a Equation,
    pub(crate) left: Vec<Piece<'a>>,
    pub(crate) right: Vec<Piece<'a>>,
    /// The quantities in it that are not known from the start.
    pub(crate) open: Vec<QuantityId>,
    /// A fact that has been put in, because it ties quantities that have no value by themselves.
    pub(crate) fact: Option<usize>,
    /// A mass that stands in every term, is not known, and has been divided out.
    pub(crate) cancelled: Option<QuantityId>,
    /// Both sides as they were before that.
    pub(crate) as_written: Option<(Vec<Piece<'a>>, Vec<Piece<'a>>)>,
}

/// A term and its exact value, sign included, worked out when it is first wanted.
pub(crate) struct Piece<'a> {
    pub(crate) term: Cow<'a, Term>,
    value: OnceCell<Value>,
}

impl<'a> Piece<'a> {
    pub(crate) fn new(term: &'a Term) -> Piece<'a> {
        Piece { term: Cow::Borrowed(term), value: OnceCell::new() }
    }
    pub(crate) fn owned(term: Term) -> Piece<'a> {
        Piece { term: Cow::Owned(term), value: OnceCell::new() }
    }
    /// The same on the other side of the equation.
    fn turned(self) -> Piece<'a> {
        let mut term = self.term.into_owned();
        term.sign = -term.sign;
        Piece::owned(term)
    }
    /// Its exact value, sign included.
    pub(crate) fn value(&self, view: &View<'_>) -> &Value {
        self.value.get_or_init(|| view.product(&self.term, |_| true))
    }
    /// How many times the quantity is a factor here.
    pub(crate) fn degree(&self, id: QuantityId) -> usize {
        self.term.factors.iter().filter(|f| **f == Factor::Quantity(id)).count()
    }
    /// Does the sine or cosine of this angle stand here?
    pub(crate) fn has_trig(&self, id: QuantityId) -> bool {
        self.term.factors.iter().any(|f| *f == Factor::Sin(id) || *f == Factor::Cos(id))
    }
}

impl<'a> Entry<'a> {
    /// The pieces of both sides, each with the sign it has when all are brought to the left.
    pub(crate) fn sided(&self) -> impl Iterator<Item = (i8, &Piece<'a>)> {
        self.left.iter().map(|p| (1, p)).chain(self.right.iter().map(|p| (-1, p)))
    }
    pub(crate) fn is_motion(&self) -> bool {
        self.equation.law == Law::Motion
    }
    /// All quantities in it.
    pub(crate) fn quantities(&self) -> Vec<QuantityId> {
        let mut found = Vec::new();
        for factor in self.left.iter().chain(&self.right).flat_map(|p| &p.term.factors) {
            if let Factor::Quantity(q) | Factor::Sin(q) | Factor::Cos(q) = factor
                && !found.contains(q)
            {
                found.push(*q);
            }
        }
        found
    }
    /// How many forces, or other terms, are in it.
    pub(crate) fn size(&self) -> usize {
        self.left.len() + self.right.len()
    }
}

impl<'a> View<'a> {
    pub(crate) fn new(situation: &'a Situation, solved: &'a Solved) -> View<'a> {
        let mut view = View {
            situation,
            solved,
            told: solved,
            known: known(situation, solved),
            same_as: BTreeMap::new(),
            entries: Vec::new(),
            trig: BTreeMap::new(),
            given: Vec::new(),
            valued: Vec::new(),
            beside: BTreeMap::new(),
            angles_beside: BTreeMap::new(),
            letters: BTreeMap::new(),
            range: None,
            supposes: None,
            apart: false,
        };
        view.find_same();
        view.tell_apart();
        view.find_trig();
        let all = || (0..situation.quantities.len()).map(QuantityId);
        view.given = all().map(|q| view.known.contains(&q)).collect();
        view.valued = all().map(|q| solved.values.contains_key(&q)).collect();
        for equation in &solved.equations {
            // Where links form a ring (one pulls up what the other pulls down), forces inside need not cancel.
            let ring = equation.internal.len() >= 2 * equation.system.len();
            if let Some(entry) = view.entry(equation).filter(|e| !ring || view.holds(e)) {
                view.entries.push(entry);
            }
        }
        view
    }

    /// The stage as it was solved, and with letters for masses that are not given.
    pub(crate) fn of_told(situation: &'a Situation, told: &'a Solved, lettered: &'a Solved) -> View<'a> {
        View { told, ..View::new(situation, lettered) }
    }

    /// The stage of a range, solved in the letter whose values are sought.
    pub(crate) fn of_range(range: &'a motion::Range) -> View<'a> {
        View { range: Some(range), apart: true, ..View::new(&range.situation, &range.solved) }
    }

    /// A stage as it would be.
    pub(crate) fn of_supposed(supposed: &'a motion::Supposed) -> View<'a> {
        let view = View::new(&supposed.situation, &supposed.solved);
        View { supposes: Some(&supposed.says), apart: true, ..view }
    }

    /// This stage and others looked at together: the values, angles and letters of all, the equations of none.
    pub(crate) fn together(views: &[&View<'a>]) -> Option<View<'a>> {
        let (first, others) = views.split_first()?;
        let mut view = View {
            known: first.known.clone(),
            entries: Vec::new(),
            trig: first.trig.clone(),
            same_as: first.same_as.clone(),
            given: first.given.clone(),
            valued: first.valued.clone(),
            beside: BTreeMap::new(),
            angles_beside: BTreeMap::new(),
            letters: first.letters.clone(),
            ..**first
        };
        for other in others {
            view.known.extend(&other.known);
            view.same_as.extend(other.same_as.iter().map(|(id, same)| (*id, same.clone())));
            for (id, value) in &other.solved.values {
                if view.value(*id).is_none() {
                    view.beside.insert(*id, value.clone());
                }
            }
            for (id, angle) in &other.solved.angles {
                view.angles_beside.entry(*id).or_insert_with(|| angle.clone());
            }
            for (id, pair) in &other.trig {
                view.trig.entry(*id).or_insert_with(|| pair.clone());
            }
            for (id, letter) in &other.letters {
                view.letters.entry(*id).or_insert_with(|| letter.clone());
            }
        }
        Some(view)
    }

    /// The value of a quantity.
    pub(crate) fn value(&self, id: QuantityId) -> Option<&Value> {
        self.solved.value(id).or_else(|| self.beside.get(&id))
    }
    /// An angle as the question gives it or as it was found.
    pub(crate) fn angle(&self, id: QuantityId) -> Option<&Angle> {
        let found = || self.solved.angles.get(&id).or_else(|| self.angles_beside.get(&id));
        self.situation.angles.get(&id).or_else(found)
    }

    pub(crate) fn stage(&self) -> Option<&'a Stage> {
        self.situation.stage(self.solved.stage)
    }

    /// What is given as so many times another quantity that is not given itself is written as that.
    fn find_same(&mut self) {
        for (i, quantity) in self.situation.quantities.iter().enumerate() {
            let id = QuantityId(i);
            let Some(given) = self.situation.known(id, self.solved.part) else { continue };
            let symbols = given.symbols();
            let found = self.solved.value(id).is_some_and(Value::is_number);
            let (Some(symbol), 1, true) = (symbols.iter().next(), symbols.len(), found) else { continue };
            let mut all = self.situation.quantities.iter();
            let other = all.position(|q| q.symbol == *symbol && q.kind == quantity.kind).map(QuantityId);
            let Some(other) = other.filter(|o| *o != id && !self.known.contains(o)) else { continue };
            if self.solved.value(other).is_some()
                && let Some([zero, times]) = given.coefficients_in(symbol).as_deref()
                && let (true, Some(times)) = (zero.is_zero(), times.as_rational())
            {
                self.known.remove(&id);
                self.same_as.insert(id, (times.clone(), other));
            }
        }
    }

    /// The term in terms of what is to be found.
    fn piece(&self, term: &'a Term) -> Piece<'a> {
        let is = |f: &Factor| matches!(f, Factor::Quantity(q) if self.same_as.contains_key(q));
        if !term.factors.iter().any(is) {
            return Piece::new(term);
        }
        let mut owned = term.clone();
        owned.factors.clear();
        for factor in &term.factors {
            match factor {
                Factor::Quantity(q) => match self.same_as.get(q) {
                    Some((times, other)) => {
                        if !times.is_one() {
                            owned.factors.push(Factor::Number(times.clone()));
                        }
                        owned.factors.push(Factor::Quantity(*other));
                    }
                    None => owned.factors.push(factor.clone()),
                },
                _ => owned.factors.push(factor.clone()),
            }
        }
        Piece::owned(owned)
    }

    /// Bodies that do not share one acceleration get an index each.
    fn tell_apart(&mut self) {
        let mut different: Vec<(QuantityId, usize)> = Vec::new();
        let held = self.stage().map(|s| s.held.as_slice()).unwrap_or(&[]);
        for (body, id) in self.solved.accelerations.iter().enumerate() {
            if held.contains(&BodyId(body)) {
                continue;
            }
            if !self.known.contains(id) && !different.iter().any(|(other, _)| other == id) {
                different.push((*id, body));
            }
        }
        if different.len() < 2 {
            return;
        }
        for (n, (id, body)) in different.iter().enumerate() {
            let own = self.situation.quantity(*id).map_or("a", |q| q.letter.as_str());
            let taken = different
                .iter()
                .filter(|(o, _)| self.situation.quantity(*o).is_some_and(|q| q.letter == own));
            if taken.count() < 2 {
                continue;
            }
            let label =
                self.situation.bodies.get(*body).map(|b| b.label.as_str()).filter(|l| l.chars().count() == 1);
            let letter = match label {
                Some(label) => format!("{own}_{label}"),
                None => format!("{own}_{}", n + 1),
            };
            self.letters.insert(*id, letter);
        }
    }

    fn find_trig(&mut self) {
        let factors = self.solved.equations.iter().flat_map(Equation::terms).flat_map(|t| &t.factors);
        for factor in factors {
            let (Factor::Sin(q) | Factor::Cos(q)) = factor else { continue };
            if self.trig.contains_key(q) {
                continue;
            }
            let given = self.situation.angles.get(q);
            let found = given.or_else(|| self.angle(*q));
            if let Some(pair) = found.and_then(|angle| angle.sin().ok().zip(angle.cos().ok())) {
                if given.is_some() {
                    self.known.insert(*q);
                }
                self.trig.insert(*q, pair);
            }
        }
    }

    /// The exact value of a factor.
    pub(crate) fn factor(&self, factor: &Factor) -> Option<Value> {
        match factor {
            Factor::Quantity(q) => self.value(*q).cloned(),
            Factor::Sin(q) => self.trig.get(q).map(|t| t.0.clone()),
            Factor::Cos(q) => self.trig.get(q).map(|t| t.1.clone()),
            Factor::Number(n) => Some(Value::from(n)),
        }
    }

    /// The product of the factors that `keep` keeps, with the term's sign.
    pub(crate) fn product(&self, term: &Term, keep: impl Fn(&Factor) -> bool) -> Value {
        let mut product: Option<Value> = None;
        for factor in term.factors.iter().filter(|f| keep(f)) {
            let value = self.factor(factor).unwrap_or(Value::zero());
            product = Some(product.map_or_else(|| value.clone(), |p| p * &value));
        }
        let product = product.unwrap_or(Value::one());
        if term.sign < 0 { -product } else { product }
    }

    /// Has the factor a value?
    pub(crate) fn has_value(&self, factor: &Factor) -> bool {
        match factor {
            Factor::Quantity(q) => self.valued.get(q.0) == Some(&true),
            Factor::Sin(q) | Factor::Cos(q) => self.trig.contains_key(q),
            Factor::Number(_) => true,
        }
    }

    fn is_known(&self, factor: &Factor) -> bool {
        match factor {
            Factor::Quantity(q) | Factor::Sin(q) | Factor::Cos(q) => self.given.get(q.0) == Some(&true),
            Factor::Number(_) => true,
        }
    }

    /// The equation, if all its terms have a value, or get one from a fact that ties those that have none.
    fn entry(&self, equation: &'a Equation) -> Option<Entry<'a>> {
        let valueless: Vec<QuantityId> = equation
            .quantities()
            .into_iter()
            .filter(|q| !self.has_value(&Factor::Quantity(*q)) && !self.trig.contains_key(q))
            .collect();
        if !valueless.is_empty() {
            return crate::facts::with_fact(self, equation, &valueless);
        }
        let side = |terms: &'a [Term]| -> Vec<Piece<'a>> {
            // Mass × acceleration is not written where the acceleration is known to be nought.
            let still = |term: &Term| {
                matches!(term.origin, Origin::Inertia(_))
                    && term.factors.iter().all(|f| self.is_known(f))
                    && self.product(term, |_| true).is_zero()
            };
            terms.iter().filter(|t| !still(t)).map(|t| self.piece(t)).collect()
        };
        let (mut left, mut right) = (side(&equation.left), side(&equation.right));
        if right.is_empty() && matches!(equation.law, Law::Balance | Law::Together(_) | Law::Fact(_)) {
            // Written as an equality rather than as a sum that is nought.
            let (with, against): (Vec<_>, Vec<_>) = left.into_iter().partition(|p| p.term.sign > 0);
            (left, right) = (with, against.into_iter().map(Piece::turned).collect());
            // What turns round: u = −v rather than 0 = u + v.
            if matches!(equation.law, Law::Fact(_)) && left.is_empty() && right.len() == 2 {
                let first = right.remove(0);
                left.push(first);
                right = right.into_iter().map(Piece::turned).collect();
            }
            // Energy lost is named before what it is made of.
            let energy = right.iter().position(|p| self.is_energy(p)).filter(|_| right.len() > 1);
            if let Some(at) = energy {
                let lost = right.remove(at);
                let others = right.into_iter().map(Piece::turned);
                (left, right) = (vec![lost], left.into_iter().chain(others).collect());
            }
            // A sum is named before its parts: d = s₁ + s₂.
            if matches!(equation.law, Law::Fact(_)) && right.len() == 1 && left.len() > 1 {
                (left, right) = (right, left);
            }
        }
        Some(self.without_mass(self.finished(equation, left, right)))
    }

    /// Is the term an energy by itself?
    fn is_energy(&self, piece: &Piece<'_>) -> bool {
        let energy = |id: &QuantityId| self.situation.quantity(*id).is_some_and(|q| q.kind == Kind::Energy);
        matches!(piece.term.factors.as_slice(), [Factor::Quantity(q)] if energy(q))
    }

    /// The equation divided by a mass that is not known and stands in every term.
    fn without_mass(&self, entry: Entry<'a>) -> Entry<'a> {
        let mass = |id: &QuantityId| self.situation.quantity(*id).is_some_and(|q| q.kind == Kind::Mass);
        let everywhere = |id: &QuantityId| entry.size() > 1 && entry.sided().all(|(_, p)| p.degree(*id) == 1);
        let Some(id) = entry.open.iter().copied().find(|id| mass(id) && everywhere(id)) else { return entry };
        let less = |pieces: &[Piece<'a>]| -> Vec<Piece<'a>> {
            let without = |p: &Piece<'a>| {
                let mut term = p.term.clone().into_owned();
                term.factors.retain(|f| *f != Factor::Quantity(id));
                Piece::owned(term)
            };
            pieces.iter().map(without).collect()
        };
        let mut less = self.finished(entry.equation, less(&entry.left), less(&entry.right));
        less.cancelled = Some(id);
        less.as_written = Some((entry.left, entry.right));
        less
    }

    /// An entry of these pieces.
    pub(crate) fn finished(
        &self,
        equation: &'a Equation,
        left: Vec<Piece<'a>>,
        right: Vec<Piece<'a>>,
    ) -> Entry<'a> {
        let mut open = Vec::new();
        for factor in left.iter().chain(&right).flat_map(|p| &p.term.factors) {
            if let Factor::Quantity(q) | Factor::Sin(q) | Factor::Cos(q) = factor
                && !self.is_known(factor)
                && !open.contains(q)
            {
                open.push(*q);
            }
        }
        Entry { equation, left, right, open, fact: None, cancelled: None, as_written: None }
    }

    /// Left minus right as a polynomial in one quantity, of degree two at most:
    /// the coefficients of its powers 0, 1 and 2.
    pub(crate) fn polynomial(&self, entry: &Entry<'_>, id: QuantityId) -> Option<[Value; 3]> {
        let mut found = [Value::zero(), Value::zero(), Value::zero()];
        for (side, piece) in entry.sided() {
            if piece.has_trig(id) {
                return None;
            }
            let coefficient = self.product(&piece.term, |f| *f != Factor::Quantity(id));
            let slot = found.get_mut(piece.degree(id))?;
            *slot = if side > 0 { &*slot + coefficient } else { &*slot - coefficient };
        }
        Some(found)
    }

    /// Does the equation hold with the values of the stage?
    pub(crate) fn holds(&self, entry: &Entry<'_>) -> bool {
        let left: Value = entry.left.iter().map(|p| p.value(self)).sum();
        let right: Value = entry.right.iter().map(|p| p.value(self)).sum();
        same(&left, &right)
    }

    /// The quantity that stands for a body's acceleration.
    pub(crate) fn acceleration_of(&self, body: BodyId) -> Option<QuantityId> {
        self.solved.accelerations.get(body.0).copied()
    }
    /// The quantity that stands for this one: the shared acceleration for a body's own.
    pub(crate) fn standing_for(&self, id: QuantityId) -> QuantityId {
        let own = self.stage().map(|s| s.accelerations.as_slice()).unwrap_or(&[]);
        let place = own.iter().position(|a| *a == id);
        let shared = place.and_then(|i| self.solved.accelerations.get(i)).copied().unwrap_or(id);
        match self.same_as.get(&shared) {
            Some((times, other)) if times.is_one() => *other,
            _ => shared,
        }
    }
    /// The letter of a quantity.
    pub(crate) fn letter(&self, id: QuantityId) -> &str {
        let own = || self.situation.quantity(id).map(|q| q.letter.as_str()).unwrap_or("");
        self.letters.get(&id).map(String::as_str).unwrap_or_else(own)
    }
    /// A given that is itself written in letters (a mass of 3m): it has no other letter.
    pub(crate) fn is_own_letter(&self, id: QuantityId) -> bool {
        self.known.contains(&id)
            && Some(id) != self.situation.gravity
            && self.value(id).is_some_and(|v| !v.is_number())
    }
    pub(crate) fn body_name(&self, id: BodyId) -> &'a str {
        self.situation.body(id).map(|b| b.name.as_str()).unwrap_or("the body")
    }
}

/// What is known in a solved stage before any equation is used.
fn known(situation: &Situation, solved: &Solved) -> BTreeSet<QuantityId> {
    let mut known = BTreeSet::new();
    for i in 0..situation.quantities.len() {
        let id = QuantityId(i);
        let given = situation.known(id, solved.part).is_some() && solved.values.contains_key(&id);
        if given || crate::unnamed::is_letter(situation, solved, id) {
            known.insert(id);
        }
    }
    // One acceleration stands for all bodies that move together: known for one, known for all.
    let own = situation.stage(solved.stage).map(|s| s.accelerations.as_slice()).unwrap_or(&[]);
    for (own, shared) in own.iter().zip(&solved.accelerations) {
        if !solved.case.moves || known.contains(own) {
            known.insert(*shared);
        }
    }
    // What the question asks to show is not taken as known, unless that is shown before it is given.
    let to_show = |a: &&model::Ask| a.stage == solved.stage && a.show.is_some();
    let shown_before = |a: &model::Ask| motion::in_general(situation, a).is_some();
    for ask in situation.asks.iter().filter(to_show).filter(|a| !shown_before(a)) {
        if let model::Wanted::Quantity(id) | model::Wanted::Magnitude(id) = ask.wanted {
            let place = own.iter().position(|a| *a == id);
            let shared = place.and_then(|i| solved.accelerations.get(i)).copied();
            known.remove(&id);
            known.remove(&shared.unwrap_or(id));
        }
    }
    known
}

/// Do two solved stages say the same, with nothing new known?
pub(crate) fn is_repeated(situation: &Situation, one: &Solved, other: &Solved) -> bool {
    one.stage == other.stage
        && one.case == other.case
        && one.values == other.values
        && known(situation, one) == known(situation, other)
}

/// Are two values equal, proved?
pub(crate) fn same(a: &Value, b: &Value) -> bool {
    !a.is_too_large() && (a == b || (a - b).is_zero())
}
