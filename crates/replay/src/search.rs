//! The search for a filling.
//!
//! At each node every house and every condition narrows its own cells until nothing changes; then the
//! tightest place is split into cases: the cell with the fewest digits, or the digit of a house with
//! the fewest cells. Between equally tight places, the one with the more trouble so far is taken: an
//! argument that leads nowhere is then cut off where it fails, not tried again for every case of
//! something that has no part in it.

use std::cmp::Reverse;

use grid::{Cell, Digit, DigitSet};

use crate::house::{LONGEST, arrange};
use crate::problem::Problem;

/// What came of a search.
#[derive(Debug)]
pub(crate) enum Outcome {
    /// A filling, in the order of the problem's cells.
    Filling(Vec<(Cell, Digit)>),
    /// There is none, as a search of so many nodes shows.
    Nothing {
        /// The nodes.
        nodes: u64,
    },
    /// The nodes allowed were used up.
    CapReached,
}

/// Looks for a filling that solves the problem, visiting at most `cap` nodes.
pub(crate) fn search(problem: &Problem, cap: u64) -> Outcome {
    let mut search = Search::new(problem, cap);
    let start = State {
        left: problem.start.clone(),
        n_live: problem.conditions.iter().map(|it| it.ways.len()).collect(),
    };
    match search.visit(start) {
        Visit::Filled(left) => {
            let digit =
                |it: DigitSet| it.iter().next().unwrap_or_else(|| unreachable!("no cell is without digits"));
            Outcome::Filling(problem.cells.iter().copied().zip(left.into_iter().map(digit)).collect())
        }
        Visit::Fails => Outcome::Nothing { nodes: search.nodes },
        Visit::CapReached => Outcome::CapReached,
    }
}

/// What is left at a node.
#[derive(Clone)]
struct State {
    /// The digits left to each cell.
    left: Vec<DigitSet>,
    /// For each condition, how many ways are left: the first so many in its order.
    n_live: Vec<usize>,
}

/// What came of visiting a node and those below it.
enum Visit {
    Filled(Vec<DigitSet>),
    Fails,
    CapReached,
}

/// Something to be split into cases.
#[derive(Clone, Copy)]
enum Place {
    /// Each digit of a cell.
    Cell(usize),
    /// Each cell of a house that can hold the digit.
    Digit(usize, Digit),
}

struct Search<'a> {
    problem: &'a Problem,
    cap: u64,
    nodes: u64,
    /// For each cell, the rules it is part of: a house by its place, a condition by its place after
    /// all houses.
    rules_of: Vec<Vec<usize>>,
    /// The rules to be looked at again.
    waiting: Queue,
    /// For each condition, the places of its ways, those still left in front. Which ones they are
    /// follows from the number left, so a return to an earlier node needs only that number.
    order: Vec<Vec<usize>>,
    /// For each cell, how often one of its rules could not be met.
    trouble: Vec<usize>,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, cap: u64) -> Search<'a> {
        let n_houses = problem.houses.len();
        let mut rules_of = vec![Vec::new(); problem.cells.len()];
        let houses = 0..n_houses;
        let conditions = problem.conditions.iter().map(|it| it.house);
        for (rule, house) in houses.chain(conditions).enumerate() {
            problem.houses[house].iter().for_each(|cell| rules_of[*cell].push(rule));
        }
        let order = problem.conditions.iter().map(|it| (0..it.ways.len()).collect()).collect();
        let waiting = Queue::full(n_houses + problem.conditions.len());
        let trouble = vec![0; problem.cells.len()];
        Search { problem, cap, nodes: 0, rules_of, waiting, order, trouble }
    }

    fn visit(&mut self, mut state: State) -> Visit {
        if self.nodes >= self.cap {
            return Visit::CapReached;
        }
        self.nodes += 1;
        if !self.settle(&mut state) {
            return Visit::Fails;
        }
        let Some(place) = self.tightest(&state) else { return Visit::Filled(state.left) };
        for (cell, digit) in self.cases(&state, place) {
            let mut next = state.clone();
            self.narrow(&mut next, cell, DigitSet::only(digit));
            match self.visit(next) {
                Visit::Fails => {}
                other => return other,
            }
        }
        Visit::Fails
    }

    /// Lets every waiting rule narrow its cells until none waits; false if one cannot be met.
    fn settle(&mut self, state: &mut State) -> bool {
        // A cell can be without digits before any rule is looked at.
        let mut fine = !state.left.contains(&DigitSet::EMPTY);
        while fine && let Some(rule) = self.waiting.take() {
            let (house, met) = match rule.checked_sub(self.problem.houses.len()) {
                None => (rule, self.settle_house(state, rule)),
                Some(at) => (self.problem.conditions[at].house, self.settle_condition(state, at)),
            };
            if !met {
                self.problem.houses[house].iter().for_each(|cell| self.trouble[*cell] += 1);
            }
            fine = met;
            // What a rule leaves to its cells it would leave a second time, so its own work is no
            // reason to look at it again.
            self.waiting.remove(rule);
        }
        self.waiting.clear();
        fine
    }

    fn settle_house(&mut self, state: &mut State, house: usize) -> bool {
        let cells = &self.problem.houses[house];
        let mut buffer = [DigitSet::EMPTY; LONGEST];
        let left = &mut buffer[..cells.len()];
        left.iter_mut().zip(cells).for_each(|(it, cell)| *it = state.left[*cell]);
        arrange(left) && cells.iter().zip(left).all(|(cell, digits)| self.narrow(state, *cell, *digits))
    }

    fn settle_condition(&mut self, state: &mut State, condition: usize) -> bool {
        let problem = self.problem;
        let cells = &problem.houses[problem.conditions[condition].house];
        let ways = &problem.conditions[condition].ways;
        let order = &mut self.order[condition];
        let n_live = &mut state.n_live[condition];
        let mut together = [DigitSet::EMPTY; LONGEST];
        let mut at = 0;
        while at < *n_live {
            let way = &ways[order[at]];
            let mut buffer = [DigitSet::EMPTY; LONGEST];
            let left = &mut buffer[..cells.len()];
            for ((it, cell), digits) in left.iter_mut().zip(cells).zip(way) {
                *it = state.left[*cell] & *digits;
            }
            if !left.contains(&DigitSet::EMPTY) && arrange(left) {
                together.iter_mut().zip(left).for_each(|(all, it)| *all = *all | *it);
                at += 1;
            } else {
                *n_live -= 1;
                order.swap(at, *n_live);
            }
        }
        cells.iter().zip(together).all(|(cell, digits)| self.narrow(state, *cell, digits))
    }

    /// Leaves only `digits` to the cell; false if none is left then.
    fn narrow(&mut self, state: &mut State, cell: usize, digits: DigitSet) -> bool {
        let before = state.left[cell];
        let after = before & digits;
        if after != before {
            state.left[cell] = after;
            self.rules_of[cell].iter().for_each(|rule| self.waiting.add(*rule));
        }
        !after.is_empty()
    }

    /// The place with the fewest cases; none if every cell that a rule speaks of has one digit.
    fn tightest(&self, state: &State) -> Option<Place> {
        let n_cells = self.problem.cells.len();
        let ruled = (0..n_cells).filter(|it| !self.rules_of[*it].is_empty());
        let cells = ruled.map(|it| (state.left[it].len(), self.trouble[it], Place::Cell(it)));
        let digits = self.problem.houses.iter().enumerate().flat_map(|(house, cells)| {
            self.problem.all.iter().map(move |digit| {
                let places = cells.iter().filter(|it| state.left[**it].contains(digit));
                let (n, trouble) = places.fold((0, 0), |(n, sum), it| (n + 1, sum + self.trouble[*it]));
                (n, trouble / n.max(1), Place::Digit(house, digit))
            })
        });
        let open = cells.chain(digits).filter(|it| it.0 > 1);
        // Of equals, the first counts.
        open.min_by_key(|(n, trouble, _)| (*n, Reverse(*trouble))).map(|it| it.2)
    }

    /// The cases of a place: each puts a digit in a cell.
    fn cases(&self, state: &State, place: Place) -> Vec<(usize, Digit)> {
        match place {
            Place::Cell(cell) => state.left[cell].iter().map(|digit| (cell, digit)).collect(),
            Place::Digit(house, digit) => {
                let cells = self.problem.houses[house].iter().copied();
                cells.filter(|it| state.left[*it].contains(digit)).map(|cell| (cell, digit)).collect()
            }
        }
    }
}

/// The rules that wait to be looked at, taken in the order of their numbers.
struct Queue(Vec<u64>);

impl Queue {
    /// The queue in which all rules below `n` wait.
    fn full(n: usize) -> Queue {
        let mut queue = Queue(vec![0; n.div_ceil(64)]);
        (0..n).for_each(|it| queue.add(it));
        queue
    }

    fn add(&mut self, rule: usize) {
        self.0[rule / 64] |= 1 << (rule % 64);
    }

    fn remove(&mut self, rule: usize) {
        self.0[rule / 64] &= !(1 << (rule % 64));
    }

    fn take(&mut self) -> Option<usize> {
        let (at, word) = self.0.iter_mut().enumerate().find(|it| *it.1 != 0)?;
        let bit = word.trailing_zeros() as usize;
        *word &= *word - 1;
        Some(at * 64 + bit)
    }

    fn clear(&mut self) {
        self.0.fill(0);
    }
}
