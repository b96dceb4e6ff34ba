//! The order in which puzzles teach best: one new thing at a time, rising effort, setters spread.

use std::collections::BTreeSet;

use trail::TechniqueId;

use crate::PuzzleId;

/// What matters about a puzzle for its place in the order.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Studied {
    /// Its name.
    pub id: PuzzleId,
    /// Who set it.
    pub setter: String,
    /// Expected seconds.
    pub seconds: u64,
    /// The techniques its walkthrough uses.
    pub techniques: BTreeSet<TechniqueId>,
}

/// What each flaw of an order costs. The order with the least cost is proposed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Weights {
    /// Each technique, beyond the first, that is new in the same puzzle.
    pub new_at_once: u64,
    /// Each minute by which a puzzle is easier than the one before.
    pub minute_back: u64,
    /// A puzzle by the setter of the one before.
    pub same_setter: u64,
}

/// The weights in use.
pub const WEIGHTS: Weights = Weights { new_at_once: 10, minute_back: 4, same_setter: 3 };

/// Up to this many puzzles the order is proven to be the best; beyond, it is the best that moving
/// single puzzles leads to.
const EXACT: usize = 15;

/// A puzzle's place in an order, with what was weighed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Placed {
    /// The puzzle.
    pub id: PuzzleId,
    /// Techniques that no puzzle before it uses.
    pub new: BTreeSet<TechniqueId>,
    /// Techniques met before.
    pub practised: BTreeSet<TechniqueId>,
    /// Expected seconds more (or, negative, fewer) than the puzzle before; none for the first.
    pub step_up: Option<i64>,
    /// Whether the puzzle before is by the same setter.
    pub same_setter: bool,
}

/// The order with the least cost; ties are broken by puzzle id, the smaller first.
pub fn propose_order(studied: &[Studied]) -> Vec<PuzzleId> {
    let mut by_id: Vec<&Studied> = studied.iter().collect();
    by_id.sort_by(|a, b| a.id.cmp(&b.id));
    let order = match by_id.len() {
        0..=EXACT => best_of_all(&by_id),
        _ => improved(&by_id),
    };
    order.into_iter().map(|it| by_id[it].id.clone()).collect()
}

/// Explains an order: what is new at each place, and how it compares with the one before.
///
/// Puzzles that are not among `studied` are left out.
pub fn place(order: &[PuzzleId], studied: &[Studied]) -> Vec<Placed> {
    let find = |id: &PuzzleId| studied.iter().find(|it| it.id == *id);
    let mut met: BTreeSet<TechniqueId> = BTreeSet::new();
    let mut before: Option<&Studied> = None;
    let mut placed = Vec::new();
    for it in order.iter().filter_map(find) {
        placed.push(Placed {
            id: it.id.clone(),
            new: it.techniques.difference(&met).copied().collect(),
            practised: it.techniques.intersection(&met).copied().collect(),
            step_up: before.map(|before| it.seconds.cast_signed() - before.seconds.cast_signed()),
            same_setter: before.is_some_and(|before| before.setter == it.setter),
        });
        met.extend(&it.techniques);
        before = Some(it);
    }
    placed
}

/// What an order costs: the objective that [`propose_order`] makes as small as it can.
pub fn cost(order: &[PuzzleId], studied: &[Studied]) -> u64 {
    place(order, studied).iter().map(cost_of_place).sum()
}

fn cost_of_place(it: &Placed) -> u64 {
    let back = it.step_up.map_or(0, |seconds| (-seconds).max(0).cast_unsigned());
    WEIGHTS.new_at_once * (it.new.len() as u64).saturating_sub(1)
        + WEIGHTS.minute_back * back / 60
        + if it.same_setter { WEIGHTS.same_setter } else { 0 }
}

/// Exact, by looking at every set of puzzles already placed and every last one (Held and Karp's
/// method for tours: what comes next depends on nothing else).
fn best_of_all(by_id: &[&Studied]) -> Vec<usize> {
    let n = by_id.len();
    if n == 0 {
        return Vec::new();
    }
    let full = (1usize << n) - 1;
    let met: Vec<BTreeSet<TechniqueId>> = (0..=full)
        .map(|set| {
            (0..n).filter(|it| set >> it & 1 == 1).flat_map(|it| &by_id[it].techniques).copied().collect()
        })
        .collect();
    // What adding a puzzle costs when `set` is placed and `last` came last.
    let added = |set: usize, last: Option<usize>, next: usize| {
        let new = by_id[next].techniques.iter().copied().filter(|it| !met[set].contains(it));
        let before = last.map(|it| by_id[it]);
        cost_of_place(&Placed {
            id: by_id[next].id.clone(),
            new: new.collect(),
            practised: BTreeSet::new(),
            step_up: before.map(|it| by_id[next].seconds.cast_signed() - it.seconds.cast_signed()),
            same_setter: before.is_some_and(|it| it.setter == by_id[next].setter),
        })
    };
    // to_come[set][last]: the least cost of placing all the others after `last`.
    let mut to_come = vec![vec![0u64; n]; full + 1];
    for set in (1..full).rev() {
        for last in (0..n).filter(|it| set >> it & 1 == 1) {
            let options = (0..n).filter(|it| set >> it & 1 == 0);
            to_come[set][last] =
                options.map(|it| added(set, Some(last), it) + to_come[set | 1 << it][it]).min().unwrap_or(0);
        }
    }
    let (mut set, mut last) = (0, None);
    let mut order = Vec::with_capacity(n);
    while order.len() < n {
        // `min_by_key` keeps the first of equals: the smaller id.
        let options = (0..n).filter(|it| set >> it & 1 == 0);
        let Some(next) = options.min_by_key(|it| added(set, last, *it) + to_come[set | 1 << it][*it]) else {
            break;
        };
        order.push(next);
        set |= 1 << next;
        last = Some(next);
    }
    order
}

/// Starts from rising effort and moves single puzzles for as long as that lowers the cost.
fn improved(by_id: &[&Studied]) -> Vec<usize> {
    let studied: Vec<Studied> = by_id.iter().map(|it| (*it).clone()).collect();
    let ids = |order: &[usize]| order.iter().map(|it| studied[*it].id.clone()).collect::<Vec<_>>();
    let mut order: Vec<usize> = (0..by_id.len()).collect();
    order.sort_by_key(|it| by_id[*it].seconds);
    let mut least = cost(&ids(&order), &studied);
    loop {
        let mut best: Option<(u64, Vec<usize>)> = None;
        for from in 0..order.len() {
            for to in 0..order.len() {
                let mut moved = order.clone();
                let it = moved.remove(from);
                moved.insert(to, it);
                let cost = cost(&ids(&moved), &studied);
                if cost < best.as_ref().map_or(least, |it| it.0) {
                    best = Some((cost, moved));
                }
            }
        }
        match best {
            Some((cost, better)) => (least, order) = (cost, better),
            None => return order,
        }
    }
}
