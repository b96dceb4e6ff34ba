//! The puzzles as numbers, so that millions of orders can be weighed.
//!
//! Puzzles are numbered in order of id, techniques in order of name. What a place costs depends on what has been
//! shown before it, the latest shelf so far, the puzzle just before, and for what recordings say on how many there were,
//! the longest of them, and which: never on how the earlier ones lie among each other.

use std::collections::{BTreeMap, BTreeSet};

use trail::TechniqueId;

use crate::heard::Heard;
use crate::{Costs, Flaws, Objective, PuzzleId, Studied};

/// Some of the techniques: one bit each.
pub(crate) type Bits = u128;

/// What is numbered: puzzles, techniques, pinned places.
pub(crate) struct Board<'a> {
    objective: &'a Objective,
    studied: Vec<&'a Studied>,
    techniques: Vec<TechniqueId>,
    /// By puzzle: what it uses and what is not known from the start.
    uses: Vec<Bits>,
    /// By technique: what it builds on, as far as that is not known from the start.
    builds_on: Vec<Bits>,
    /// By puzzle: the same setter and the same break-in have the same number.
    setters: Vec<usize>,
    break_ins: Vec<Option<TechniqueId>>,
    heard: Heard,
}

/// What the cost of the next place depends on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SoFar {
    /// What has been shown.
    pub(crate) shown: Bits,
    /// The latest shelf.
    pub(crate) shelf: Option<usize>,
    /// The puzzle just before.
    pub(crate) last: Option<usize>,
    /// How many puzzles have a place.
    pub(crate) n_placed: usize,
    /// The seconds of the longest of them.
    pub(crate) longest: Option<u64>,
    /// Those of them that recordings name.
    pub(crate) named: Bits,
}

/// Before the first puzzle.
pub(crate) const START: SoFar =
    SoFar { shown: 0, shelf: None, last: None, n_placed: 0, longest: None, named: 0 };

impl<'a> Board<'a> {
    /// Numbers the puzzles.
    ///
    /// # Panics
    ///
    /// If they use more than 128 techniques, prerequisites included: the registry has far fewer.
    pub(crate) fn new(objective: &'a Objective, studied: &'a [Studied]) -> Board<'a> {
        let mut studied: Vec<&Studied> = studied.iter().collect();
        studied.sort_by(|a, b| a.id.cmp(&b.id));
        let used = studied.iter().flat_map(|it| &it.techniques);
        let below = objective.prerequisites.values().flatten();
        let known = &objective.knows;
        let techniques: BTreeSet<TechniqueId> =
            used.chain(below).copied().filter(|it| !known.contains(it)).collect();
        assert!(techniques.len() <= Bits::BITS as usize, "more techniques than a set has places");
        let techniques: Vec<TechniqueId> = techniques.into_iter().collect();
        let bits = |ids: &BTreeSet<TechniqueId>| {
            let places = ids.iter().filter_map(|it| techniques.binary_search(it).ok());
            places.fold(0, |bits: Bits, at| bits | 1 << at)
        };
        let builds_on =
            techniques.iter().map(|it| objective.prerequisites.get(it).map_or(0, &bits)).collect();
        let uses = studied.iter().map(|it| bits(&it.techniques)).collect();
        let heard = Heard::new(&studied, &techniques);
        let names: BTreeSet<&str> = studied.iter().map(|it| &it.setter[..]).collect();
        let numbers: BTreeMap<&str, usize> = names.into_iter().zip(0..).collect();
        Board {
            setters: studied.iter().map(|it| numbers[&it.setter[..]]).collect(),
            break_ins: studied.iter().map(|it| it.break_in).collect(),
            objective,
            studied,
            techniques,
            uses,
            builds_on,
            heard,
        }
    }

    /// How many puzzles there are.
    pub(crate) fn n(&self) -> usize {
        self.studied.len()
    }

    pub(crate) fn studied(&self, at: usize) -> &'a Studied {
        self.studied[at]
    }

    pub(crate) fn objective(&self) -> &'a Objective {
        self.objective
    }

    /// What the puzzle uses and nobody knows from the start.
    pub(crate) fn uses(&self, at: usize) -> Bits {
        self.uses[at]
    }

    pub(crate) fn techniques_of(&self, bits: Bits) -> BTreeSet<TechniqueId> {
        self.techniques.iter().enumerate().filter(|(at, _)| bits >> at & 1 == 1).map(|it| *it.1).collect()
    }

    /// The puzzles as numbers; those that are not here are left out.
    pub(crate) fn places_of(&self, order: &[PuzzleId]) -> Vec<usize> {
        order.iter().filter_map(|id| self.studied.binary_search_by(|it| it.id.cmp(id)).ok()).collect()
    }

    pub(crate) fn ids_of(&self, order: &[usize]) -> Vec<PuzzleId> {
        order.iter().map(|it| self.studied[*it].id.clone()).collect()
    }

    /// After the puzzle.
    pub(crate) fn then(&self, so_far: SoFar, next: usize) -> SoFar {
        SoFar {
            shown: so_far.shown | self.uses[next],
            shelf: so_far.shelf.max(self.studied[next].shelf),
            last: Some(next),
            n_placed: so_far.n_placed + 1,
            longest: so_far.longest.max(Some(self.studied[next].seconds)),
            named: so_far.named | self.heard.name(next),
        }
    }

    pub(crate) fn new_in(&self, so_far: &SoFar, next: usize) -> Bits {
        self.uses[next] & !so_far.shown
    }

    /// What new techniques build on and nobody has been shown, by the puzzle itself neither.
    pub(crate) fn unprepared_in(&self, so_far: &SoFar, next: usize) -> Bits {
        let mut new = self.new_in(so_far, next);
        let mut below = 0;
        while new != 0 {
            below |= self.builds_on[new.trailing_zeros() as usize];
            new &= new - 1;
        }
        below & !so_far.shown & !self.uses[next]
    }

    pub(crate) fn flaws(&self, so_far: &SoFar, next: usize) -> Flaws {
        let beside = so_far.last.map(|last| self.beside(last, next)).unwrap_or_default();
        Flaws {
            extra_new: u64::from(self.new_in(so_far, next).count_ones()).saturating_sub(1),
            unprepared: u64::from(self.unprepared_in(so_far, next).count_ones()),
            shelf_back: self.studied[next]
                .shelf
                .is_some_and(|it| so_far.shelf.is_some_and(|latest| it < latest)),
            ..beside
        }
    }

    /// The flaws that come only of which puzzle is just before.
    pub(crate) fn beside(&self, last: usize, next: usize) -> Flaws {
        Flaws {
            seconds_back: self.studied[last].seconds.saturating_sub(self.studied[next].seconds),
            same_setter: self.setters[last] == self.setters[next],
            same_break_in: self.break_ins[next].is_some() && self.break_ins[last] == self.break_ins[next],
            ..Flaws::default()
        }
    }

    /// What the next place costs.
    pub(crate) fn cost(&self, so_far: &SoFar, next: usize) -> u64 {
        self.objective.weights.costs(self.flaws(so_far, next)).total() + self.cost_of_untrue(so_far, next)
    }

    /// What it costs that something is said of the next place which is not so, as far as that is seen there.
    fn cost_of_untrue(&self, so_far: &SoFar, next: usize) -> u64 {
        if self.heard.is_nothing() {
            return 0;
        }
        let (new, seconds) = (self.new_in(so_far, next), self.studied[next].seconds);
        self.objective.weights.said_untrue * self.heard.n_untrue_at(next, so_far, new, seconds)
    }

    /// What it costs that this is the end: what is said and only now is seen not to be so.
    pub(crate) fn cost_of_untrue_at_end(
        &self,
        last: Option<usize>,
        is_placed: impl Fn(usize) -> bool,
    ) -> u64 {
        if self.heard.is_nothing() {
            return 0;
        }
        self.objective.weights.said_untrue * self.heard.n_untrue_at_end(last, is_placed)
    }

    /// What it costs that of all techniques only these have been shown.
    pub(crate) fn cost_of_untaught(&self, shown: Bits) -> u64 {
        let all = self.uses.iter().fold(0, |all, it| all | it);
        self.objective.weights.not_taught * u64::from((all & !shown).count_ones())
    }

    /// What the order costs, part by part.
    pub(crate) fn costs(&self, order: &[usize]) -> Costs {
        let mut so_far = START;
        let mut costs = Costs::default();
        for &next in order {
            costs = costs + self.objective.weights.costs(self.flaws(&so_far, next));
            costs.said_untrue += self.cost_of_untrue(&so_far, next);
            so_far = self.then(so_far, next);
        }
        costs.said_untrue += self.cost_of_untrue_at_end(so_far.last, |it| order.contains(&it));
        Costs { not_taught: self.cost_of_untaught(so_far.shown), ..costs }
    }

    /// The same as one number.
    pub(crate) fn total(&self, order: &[usize]) -> u64 {
        let mut so_far = START;
        let mut total = 0;
        for &next in order {
            total += self.cost(&so_far, next);
            so_far = self.then(so_far, next);
        }
        let untrue = self.cost_of_untrue_at_end(so_far.last, |it| order.contains(&it));
        total + self.cost_of_untaught(so_far.shown) + untrue
    }

    /// By place, from 0: the puzzle that is pinned to it.
    pub(crate) fn pinned(&self, n_places: usize) -> Vec<Option<usize>> {
        let mut pinned = vec![None; n_places];
        for (id, place) in &self.objective.pins {
            let at = self.studied.binary_search_by(|it| it.id.cmp(id));
            let place = place.checked_sub(1).and_then(|it| pinned.get_mut(it));
            if let (Ok(at), Some(place @ None)) = (at, place) {
                *place = Some(at);
            }
        }
        pinned
    }
}
