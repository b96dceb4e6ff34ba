//! The puzzles as numbers, so that millions of orders can be weighed.
//!
//! Puzzles are numbered in order of id, techniques in order of name. What a place costs depends on what has been
//! shown before it, the latest shelf so far, the puzzle just before, and for what recordings say on how many there were,
//! the longest of them, and which. Where each puzzle has one way, how the earlier ones lie among each other never matters;
//! where puzzles are walked through in another way by whoever knows more, it does, since that decides what is known.

use std::collections::{BTreeMap, BTreeSet};

use trail::TechniqueId;

use crate::heard::Heard;
use crate::{Costs, Flaws, Objective, Outcome, PuzzleId, Studied, Walked};

/// Some of the techniques: one bit each.
pub(crate) type Bits = u128;

/// What is numbered: puzzles, techniques, pinned places.
pub(crate) struct Board<'a> {
    objective: &'a Objective,
    /// By puzzle, as it is walked through by itself.
    studied: Vec<&'a Studied>,
    techniques: Vec<TechniqueId>,
    /// By puzzle: its ways, the first of them that of its walkthrough by itself.
    ways: Vec<Vec<Way>>,
    /// By technique: what it builds on, as far as that is not known from the start.
    builds_on: Vec<Bits>,
    /// By puzzle: the same setter has the same number.
    setters: Vec<usize>,
    heard: Heard,
}

/// A walkthrough of a puzzle, as far as it is weighed. Of techniques only what is not known from the start is here.
#[derive(Clone, Copy, Debug)]
struct Way {
    /// What is known before it.
    known: Bits,
    uses: Bits,
    /// What is known after it beside what was known before.
    teaches: Bits,
    seconds: u64,
    break_in: Option<TechniqueId>,
    /// Whether it was looked for in vain.
    is_missing: bool,
}

/// What a place costs whose puzzle has no walkthrough for whoever comes to it there: more than any order.
const MISSING: u64 = 1 << 40;

/// What the cost of the next place depends on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SoFar {
    /// What has been shown.
    pub(crate) shown: Bits,
    /// What of it is known: what a sealed puzzle shows is not.
    pub(crate) known: Bits,
    /// The latest shelf.
    pub(crate) shelf: Option<usize>,
    /// The puzzle just before, and which of its ways was taken.
    pub(crate) last: Option<usize>,
    pub(crate) last_way: usize,
    /// How many puzzles have a place.
    pub(crate) n_placed: usize,
    /// The seconds of the longest of them.
    pub(crate) longest: Option<u64>,
    /// Those of them that recordings name.
    pub(crate) named: Bits,
}

/// Before the first puzzle.
pub(crate) const START: SoFar =
    SoFar { shown: 0, known: 0, shelf: None, last: None, last_way: 0, n_placed: 0, longest: None, named: 0 };

impl<'a> Board<'a> {
    /// Numbers the puzzles, each with the one way that it has.
    ///
    /// # Panics
    ///
    /// If they use more than 128 techniques, prerequisites included: the registry has far fewer.
    pub(crate) fn new(objective: &'a Objective, studied: &'a [Studied]) -> Board<'a> {
        let alone = BTreeSet::new();
        Board::numbered(objective, studied.iter().map(|it| (&alone, it, Outcome::Teaches)))
    }

    /// The same with several ways each: the first of those with one id is that of its walkthrough by itself.
    ///
    /// # Panics
    ///
    /// As [`Board::new`].
    pub(crate) fn of_walked(objective: &'a Objective, walked: &'a [Walked]) -> Board<'a> {
        Board::numbered(objective, walked.iter().map(|it| (&it.known, &it.studied, it.outcome)))
    }

    fn numbered<'b>(
        objective: &'a Objective,
        walked: impl Iterator<Item = (&'b BTreeSet<TechniqueId>, &'a Studied, Outcome)>,
    ) -> Board<'a> {
        let mut walked: Vec<_> = walked.collect();
        // A stable sort: what came first of one puzzle comes first.
        walked.sort_by(|a, b| a.1.id.cmp(&b.1.id));
        let used = walked.iter().flat_map(|it| &it.1.techniques);
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
        // Whoever has met one small argument knows no technique more.
        let argument = bits(&BTreeSet::from([TechniqueId::SMALL_ARGUMENT]));
        let builds_on =
            techniques.iter().map(|it| objective.prerequisites.get(it).map_or(0, &bits)).collect();
        let way = |(known, studied, outcome): &(&BTreeSet<TechniqueId>, &Studied, Outcome)| Way {
            known: bits(known),
            uses: bits(&studied.techniques),
            teaches: match outcome {
                Outcome::Teaches => bits(&studied.techniques) & !argument,
                Outcome::IsSealed | Outcome::IsMissing => 0,
            },
            seconds: studied.seconds,
            break_in: studied.break_in,
            is_missing: *outcome == Outcome::IsMissing,
        };
        let of_puzzles: Vec<_> = walked.chunk_by(|a, b| a.1.id == b.1.id).collect();
        let ways = of_puzzles.iter().map(|it| it.iter().map(way).collect()).collect();
        let studied: Vec<&Studied> = of_puzzles.iter().map(|it| it[0].1).collect();
        let heard = Heard::new(&studied, &techniques);
        let names: BTreeSet<&str> = studied.iter().map(|it| &it.setter[..]).collect();
        let numbers: BTreeMap<&str, usize> = names.into_iter().zip(0..).collect();
        Board {
            setters: studied.iter().map(|it| numbers[&it.setter[..]]).collect(),
            objective,
            studied,
            techniques,
            ways,
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

    /// What the puzzle by itself uses and nobody knows from the start.
    pub(crate) fn uses(&self, at: usize) -> Bits {
        self.ways[at][0].uses
    }

    /// Which way of the puzzle is taken by whoever comes to it there: the one found for just what is known by then, if there
    /// is one; else, of those that take the fewest techniques more, the one for whoever knows most nearly the same; of
    /// equals the quickest.
    fn way(&self, so_far: &SoFar, next: usize) -> usize {
        let ways = &self.ways[next];
        if ways.len() == 1 {
            return 0;
        }
        let fit = |way: &Way| match way.known == so_far.known {
            true => (false, 0, 0, 0),
            false => {
                let (new, apart) = (way.uses & !so_far.known, way.known ^ so_far.known);
                (way.is_missing, 1 + new.count_ones(), apart.count_ones(), way.seconds)
            }
        };
        (0..ways.len()).min_by_key(|it| fit(&ways[*it])).unwrap_or_default()
    }

    pub(crate) fn techniques_of(&self, bits: Bits) -> BTreeSet<TechniqueId> {
        self.techniques.iter().enumerate().filter(|(at, _)| bits >> at & 1 == 1).map(|it| *it.1).collect()
    }

    /// The puzzles as numbers; those that are not here are left out.
    pub(crate) fn places_of(&self, order: &[PuzzleId]) -> Vec<usize> {
        order.iter().filter_map(|id| self.place_of(id)).collect()
    }

    /// The puzzle's number, if it is here.
    pub(crate) fn place_of(&self, id: &PuzzleId) -> Option<usize> {
        self.studied.binary_search_by(|it| it.id.cmp(id)).ok()
    }

    pub(crate) fn ids_of(&self, order: &[usize]) -> Vec<PuzzleId> {
        order.iter().map(|it| self.studied[*it].id.clone()).collect()
    }

    /// After the puzzle.
    pub(crate) fn then(&self, so_far: SoFar, next: usize) -> SoFar {
        self.then_by(so_far, next, self.way(&so_far, next))
    }

    fn then_by(&self, so_far: SoFar, next: usize, way: usize) -> SoFar {
        let walked = &self.ways[next][way];
        SoFar {
            shown: so_far.shown | walked.uses,
            known: so_far.known | walked.teaches,
            shelf: so_far.shelf.max(self.studied[next].shelf),
            last: Some(next),
            last_way: way,
            n_placed: so_far.n_placed + 1,
            longest: so_far.longest.max(Some(walked.seconds)),
            named: so_far.named | self.heard.name(next),
        }
    }

    pub(crate) fn new_in(&self, so_far: &SoFar, next: usize) -> Bits {
        self.ways[next][self.way(so_far, next)].uses & !so_far.shown
    }

    /// What new techniques build on and nobody has been shown, by the puzzle itself neither.
    pub(crate) fn unprepared_in(&self, so_far: &SoFar, next: usize) -> Bits {
        self.unprepared_by(so_far, &self.ways[next][self.way(so_far, next)])
    }

    fn unprepared_by(&self, so_far: &SoFar, way: &Way) -> Bits {
        let mut new = way.uses & !so_far.shown;
        let mut below = 0;
        while new != 0 {
            below |= self.builds_on[new.trailing_zeros() as usize];
            new &= new - 1;
        }
        below & !so_far.shown & !way.uses
    }

    pub(crate) fn flaws(&self, so_far: &SoFar, next: usize) -> Flaws {
        self.flaws_by(so_far, next, self.way(so_far, next))
    }

    fn flaws_by(&self, so_far: &SoFar, next: usize, way: usize) -> Flaws {
        let last = so_far.last.map(|last| (last, so_far.last_way));
        let beside = last.map(|last| self.beside_by(last, (next, way))).unwrap_or_default();
        let walked = &self.ways[next][way];
        Flaws {
            extra_new: u64::from((walked.uses & !so_far.shown).count_ones()).saturating_sub(1),
            unprepared: u64::from(self.unprepared_by(so_far, walked).count_ones()),
            shelf_back: self.studied[next]
                .shelf
                .is_some_and(|it| so_far.shelf.is_some_and(|latest| it < latest)),
            ..beside
        }
    }

    /// The flaws that come only of which puzzle is just before, each by itself.
    pub(crate) fn beside(&self, last: usize, next: usize) -> Flaws {
        self.beside_by((last, 0), (next, 0))
    }

    fn beside_by(&self, last: (usize, usize), next: (usize, usize)) -> Flaws {
        let (before, after) = (&self.ways[last.0][last.1], &self.ways[next.0][next.1]);
        Flaws {
            seconds_back: before.seconds.saturating_sub(after.seconds),
            same_setter: self.setters[last.0] == self.setters[next.0],
            same_break_in: after.break_in.is_some() && before.break_in == after.break_in,
            ..Flaws::default()
        }
    }

    /// What the next place costs.
    pub(crate) fn cost(&self, so_far: &SoFar, next: usize) -> u64 {
        self.cost_by(so_far, next, self.way(so_far, next))
    }

    /// The same, and what is so far with it.
    pub(crate) fn placed(&self, so_far: SoFar, next: usize) -> (u64, SoFar) {
        let way = self.way(&so_far, next);
        (self.cost_by(&so_far, next, way), self.then_by(so_far, next, way))
    }

    fn cost_by(&self, so_far: &SoFar, next: usize, way: usize) -> u64 {
        let walked = &self.ways[next][way];
        if walked.is_missing {
            return MISSING;
        }
        let flaws = self.objective.weights.costs(self.flaws_by(so_far, next, way)).total();
        flaws + self.cost_of_untrue(so_far, next, walked)
    }

    /// What it costs that something is said of the next place which is not so, as far as that is seen there.
    fn cost_of_untrue(&self, so_far: &SoFar, next: usize, way: &Way) -> u64 {
        if self.heard.is_nothing() {
            return 0;
        }
        let new = way.uses & !so_far.shown;
        self.objective.weights.said_untrue * self.heard.n_untrue_at(next, so_far, new, way.seconds)
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

    /// What it costs that of all techniques only these have been shown, where each puzzle has one way.
    pub(crate) fn cost_of_untaught(&self, shown: Bits) -> u64 {
        self.cost_of_left(shown, 0..self.n())
    }

    /// What it costs that these puzzles are left out, each of which would have shown what it uses by itself.
    fn cost_of_left(&self, shown: Bits, left: impl Iterator<Item = usize>) -> u64 {
        let all = left.fold(0, |all, it| all | self.uses(it));
        self.objective.weights.not_taught * u64::from((all & !shown).count_ones())
    }

    /// What the order costs, part by part.
    pub(crate) fn costs(&self, order: &[usize]) -> Costs {
        let mut so_far = START;
        let mut costs = Costs::default();
        for &next in order {
            let way = self.way(&so_far, next);
            costs = costs + self.objective.weights.costs(self.flaws_by(&so_far, next, way));
            costs.said_untrue += self.cost_of_untrue(&so_far, next, &self.ways[next][way]);
            so_far = self.then_by(so_far, next, way);
        }
        costs.said_untrue += self.cost_of_untrue_at_end(so_far.last, |it| order.contains(&it));
        let left = (0..self.n()).filter(|it| !order.contains(it));
        Costs { not_taught: self.cost_of_left(so_far.shown, left), ..costs }
    }

    /// The same as one number.
    pub(crate) fn total(&self, order: &[usize]) -> u64 {
        let mut so_far = START;
        let mut total = 0;
        for &next in order {
            let (cost, then) = self.placed(so_far, next);
            (total, so_far) = (total + cost, then);
        }
        total + self.cost_of_end(&so_far, order)
    }

    /// What it costs that this order ends here.
    pub(crate) fn cost_of_end(&self, so_far: &SoFar, order: &[usize]) -> u64 {
        let untrue = self.cost_of_untrue_at_end(so_far.last, |it| order.contains(&it));
        let untaught = match order.len() == self.n() {
            true => 0,
            false => {
                let mut is_left = vec![true; self.n()];
                order.iter().for_each(|it| is_left[*it] = false);
                self.cost_of_left(so_far.shown, (0..self.n()).filter(|it| is_left[*it]))
            }
        };
        untaught + untrue
    }

    /// By place, from 0: the puzzle that is pinned to it.
    pub(crate) fn pinned(&self, n_places: usize) -> Vec<Option<usize>> {
        let mut pinned = vec![None; n_places];
        for (id, place) in &self.objective.pins {
            let place = place.checked_sub(1).and_then(|it| pinned.get_mut(it));
            if let (Some(at), Some(place @ None)) = (self.place_of(id), place) {
                *place = Some(at);
            }
        }
        pinned
    }
}
