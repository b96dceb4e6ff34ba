//! Invented puzzles to put in order, and every order of them tried one by one.

use std::collections::BTreeMap;

use pack::{Objective, PuzzleId, Studied};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use trail::TechniqueId;

pub(crate) const A: TechniqueId = TechniqueId::new("a");
pub(crate) const B: TechniqueId = TechniqueId::new("b");
pub(crate) const C: TechniqueId = TechniqueId::new("c");
pub(crate) const D: TechniqueId = TechniqueId::new("d");

pub(crate) fn id(name: &str) -> PuzzleId {
    PuzzleId::new(name).unwrap()
}

pub(crate) fn studied(name: &str, setter: &str, minutes: u64, techniques: &[TechniqueId]) -> Studied {
    Studied {
        id: id(name),
        setter: setter.into(),
        seconds: minutes * 60,
        techniques: techniques.iter().copied().collect(),
        break_in: None,
        shelf: None,
        is_optional: false,
        said: Vec::new(),
    }
}

pub(crate) fn names(order: &[PuzzleId]) -> Vec<&str> {
    order.iter().map(PuzzleId::as_str).collect()
}

/// Puzzles of all sorts: few techniques, setters, break-ins and shelves, so that much is equal.
pub(crate) fn invented(n: usize, seed: u64) -> Vec<Studied> {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let mut one = |at: usize| {
        let techniques: Vec<TechniqueId> =
            [A, B, C, D].into_iter().filter(|_| random.random_bool(0.4)).collect();
        let setter = ["Fern", "Moss", "Sedge"][random.random_range(0..3)];
        Studied {
            break_in: [None, Some(A), Some(B)][random.random_range(0..3)],
            shelf: [None, Some(0), Some(1)][random.random_range(0..3)],
            is_optional: random.random_bool(0.7),
            ..studied(&format!("p{at:02}"), setter, random.random_range(2..11), &techniques)
        }
    };
    (0..n).map(&mut one).collect()
}

/// What matters to them: `a` is known, `d` builds on `b`, and some places are pinned.
pub(crate) fn objective(pins: &[(&str, usize)]) -> Objective {
    Objective {
        knows: [A].into(),
        prerequisites: BTreeMap::from([(D, [B].into()), (B, [A].into())]),
        pins: pins.iter().map(|(name, place)| (id(name), *place)).collect(),
        ..Objective::default()
    }
}

/// The least cost of all sequences of `n_places` of the puzzles, tried one by one; none if none is allowed.
pub(crate) fn least_cost(objective: &Objective, all: &[Studied], n_places: usize) -> Option<u64> {
    let mut least = None;
    extend(objective, all, n_places, &mut Vec::new(), &mut least);
    least
}

fn extend(
    objective: &Objective,
    all: &[Studied],
    n_places: usize,
    order: &mut Vec<PuzzleId>,
    least: &mut Option<u64>,
) {
    if order.len() == n_places {
        let is_pinned = |it: &Studied| {
            objective.pins.get(&it.id).is_none_or(|place| order.get(place - 1) == Some(&it.id))
        };
        let has_place = |it: &Studied| it.is_optional || order.contains(&it.id);
        if all.iter().all(|it| is_pinned(it) && has_place(it)) {
            let cost = objective.costs(order, all).total();
            *least = Some(least.map_or(cost, |it| it.min(cost)));
        }
        return;
    }
    for it in all.iter().filter(|it| !order.contains(&it.id)).map(|it| it.id.clone()).collect::<Vec<_>>() {
        order.push(it);
        extend(objective, all, n_places, order, least);
        order.pop();
    }
}
