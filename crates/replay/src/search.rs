//! The search for a filling.
//!
//! At each node every house and every condition narrows its own cells until nothing changes; then the
//! tightest place is split into cases: the cell with the fewest digits, or the digit of a house with
//! the fewest cells. Between equally tight places, the one with the more trouble so far is taken: an
//! argument that leads nowhere is then cut off where it fails, not tried again for every case of
//! something that has no part in it.
//!
//! Cells that only one house speaks of are left open at the end: once all others have their digits, a house
//! that still has an arrangement, by a way left to its condition if it has one, can be filled without asking anyone
//! else.

use std::cmp::Reverse;
use std::ops::Range;

use grid::{Cell, Digit, DigitSet};

use crate::counts::Counts;
use crate::house::{LONGEST, Lanes, and, arrange, arrangement, keep_arranged};
use crate::problem::{Houses, Problem};

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
    let is_contradicted =
        problem.start.contains(&DigitSet::EMPTY) || problem.conditions.iter().any(|it| it.ways.is_empty());
    if cap > 0 && is_contradicted {
        // The first node shows it.
        return Outcome::Nothing { nodes: 1 };
    }
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
    /// For each cell, the houses it is part of.
    houses_of: Vec<Houses>,
    /// For each cell, whether more than one rule speaks of it.
    is_shared: Vec<bool>,
    /// For each house, its conditions.
    conditions_of: Vec<Range<usize>>,
    /// The houses to be looked at again, and those whose conditions are.
    waiting: Houses,
    conditions_waiting: Houses,
    /// For each condition, the places of its ways, those still left in front. Which ones they are
    /// follows from the number left, so a return to an earlier node needs only that number.
    order: Vec<Vec<u16>>,
    /// For each cell, how often one of its rules could not be met.
    trouble: Vec<usize>,
    /// Whether no cell has had any.
    is_untroubled: bool,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, cap: u64) -> Search<'a> {
        let n_houses = problem.houses.len();
        let mut houses_of = vec![0; problem.cells.len()];
        let mut n_rules = vec![0; problem.cells.len()];
        let mut conditions_of = Vec::with_capacity(n_houses);
        for house in 0..n_houses {
            let from = problem.conditions.partition_point(|it| it.house < house);
            let n_conditions = problem.conditions[from..].iter().take_while(|it| it.house == house).count();
            conditions_of.push(from..from + n_conditions);
            for cell in problem.cells_of(house) {
                houses_of[cell] |= 1 << house;
                // The ways to meet one condition are looked at together with the house.
                n_rules[cell] += n_conditions.max(1);
            }
        }
        // Ways are joined only while they are few, and a rule alone has fewer than 65,536.
        let order = problem.conditions.iter().map(|it| (0..it.ways.len() as u16).collect()).collect();
        let all = (1 << n_houses) - 1;
        Search {
            problem,
            cap,
            nodes: 0,
            houses_of,
            is_shared: n_rules.into_iter().map(|it| it > 1).collect(),
            conditions_of,
            waiting: all,
            conditions_waiting: all,
            order,
            trouble: vec![0; problem.cells.len()],
            is_untroubled: true,
        }
    }

    fn visit(&mut self, mut state: State) -> Visit {
        if self.nodes >= self.cap {
            return Visit::CapReached;
        }
        self.nodes += 1;
        if !self.settle(&mut state) {
            return Visit::Fails;
        }
        let Some(place) = self.tightest(&state) else { return Visit::Filled(self.filled(state)) };
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
        while fine && self.waiting | self.conditions_waiting != 0 {
            let is_house = self.waiting != 0;
            let house =
                if is_house { self.waiting } else { self.conditions_waiting }.trailing_zeros() as usize;
            fine =
                if is_house { self.settle_house(state, house) } else { self.settle_conditions(state, house) };
            if !fine {
                self.problem.cells_of(house).for_each(|cell| self.trouble[cell] += 1);
                self.is_untroubled = false;
            }
        }
        (self.waiting, self.conditions_waiting) = (0, 0);
        fine
    }

    fn settle_house(&mut self, state: &mut State, house: usize) -> bool {
        let mut left = self.problem.lanes(house, &state.left);
        let met = arrange(&mut left[..self.problem.side]) && self.narrow_house(state, house, &left);
        // What a rule leaves to its cells it would leave a second time, so its own work is no reason to
        // look at it again.
        self.waiting &= !(1 << house);
        met
    }

    fn settle_conditions(&mut self, state: &mut State, house: usize) -> bool {
        let conditions = self.conditions_of[house].clone();
        self.conditions_waiting &= !(1 << house);
        for condition in conditions.clone() {
            let together = self.settle_condition(state, condition, house);
            if !self.narrow_house(state, house, &together) {
                return false;
            }
        }
        if conditions.len() < 2 {
            // Several conditions are a reason to look at each other again, one is none.
            self.conditions_waiting &= !(1 << house);
        }
        true
    }

    /// What the ways left to a condition leave to the cells of its house, all together.
    fn settle_condition(&mut self, state: &mut State, condition: usize, house: usize) -> Lanes {
        let side = self.problem.side;
        let left = self.problem.lanes(house, &state.left);
        let ways = &self.problem.conditions[condition].ways;
        let order = &mut self.order[condition];
        let n_live = &mut state.n_live[condition];
        let mut together = [DigitSet::EMPTY; LONGEST];
        let mut at = 0;
        while at < *n_live {
            let mut met = and(&left, &ways[usize::from(order[at])]);
            match arrangement(&met[..side]) {
                Some(holder) => {
                    // What adds nothing need not be cut down to what it would add.
                    if !met.iter().zip(&together).all(|(it, all)| it.is_subset(*all)) {
                        keep_arranged(&mut met[..side], &holder);
                        together.iter_mut().zip(met).for_each(|(all, it)| *all = *all | it);
                    }
                    at += 1;
                }
                None => {
                    *n_live -= 1;
                    order.swap(at, *n_live);
                }
            }
        }
        together
    }

    /// Leaves only these digits to the cells of the house; false if one is left none.
    fn narrow_house(&mut self, state: &mut State, house: usize, digits: &Lanes) -> bool {
        let problem = self.problem;
        problem.cells_of(house).zip(digits).all(|(cell, digits)| self.narrow(state, cell, *digits))
    }

    /// Leaves only `digits` to the cell; false if none is left then.
    fn narrow(&mut self, state: &mut State, cell: usize, digits: DigitSet) -> bool {
        let before = state.left[cell];
        let after = before & digits;
        if after != before {
            state.left[cell] = after;
            self.waiting |= self.houses_of[cell];
            self.conditions_waiting |= self.houses_of[cell];
        }
        !after.is_empty()
    }

    /// The place with the fewest cases; none if every cell that more than one rule speaks of has one digit.
    fn tightest(&self, state: &State) -> Option<Place> {
        let cells = || (0..self.problem.cells.len()).filter(|it| self.houses_of[*it] != 0);
        let n_cases = |cell: &usize| state.left[*cell].len();
        if !cells().any(|it| self.is_shared[it] && n_cases(&it) > 1) {
            return None;
        }
        let houses = || (0..self.problem.houses.len()).map(|it| (it, self.count_places(state, it)));
        // As in a cell, a digit of a house can have two cases at least.
        let fewest = cells().map(|it| n_cases(&it)).filter(|it| *it > 1).min();
        let fewest = houses().fold(fewest, |fewest, (_, counts)| counts.fewest(fewest).or(fewest))?;
        let cells = cells().filter(|it| n_cases(it) == fewest).map(Place::Cell);
        let digits = houses().flat_map(|(house, counts)| {
            counts.exactly(fewest).iter().map(move |digit| Place::Digit(house, digit))
        });
        let mut tight = cells.chain(digits);
        // Of equals, the first counts; while nothing has failed, all are.
        match self.is_untroubled {
            true => tight.next(),
            false => tight.min_by_key(|it| Reverse(self.trouble_at(state, *it))),
        }
    }

    fn count_places(&self, state: &State, house: usize) -> Counts {
        self.problem.cells_of(house).fold(Counts::default(), |counts, it| counts.and_each(state.left[it]))
    }

    /// How much trouble the cells of a place have had on average.
    fn trouble_at(&self, state: &State, place: Place) -> usize {
        match place {
            Place::Cell(cell) => self.trouble[cell],
            Place::Digit(house, digit) => {
                let places = self.problem.cells_of(house).filter(|it| state.left[*it].contains(digit));
                let (n, trouble) = places.fold((0, 0), |(n, sum), it| (n + 1, sum + self.trouble[it]));
                trouble / n.max(1)
            }
        }
    }

    /// The cases of a place: each puts a digit in a cell.
    fn cases(&self, state: &State, place: Place) -> Vec<(usize, Digit)> {
        match place {
            Place::Cell(cell) => state.left[cell].iter().map(|digit| (cell, digit)).collect(),
            Place::Digit(house, digit) => {
                let cells = self.problem.cells_of(house);
                cells.filter(|it| state.left[*it].contains(digit)).map(|cell| (cell, digit)).collect()
            }
        }
    }

    /// A digit for each cell, where those that are shared have theirs.
    fn filled(&self, state: State) -> Vec<DigitSet> {
        let side = self.problem.side;
        let mut left = state.left;
        for house in 0..self.problem.houses.len() {
            let lanes = self.problem.lanes(house, &left);
            let holder = match self.conditions_of[house].clone().next() {
                None => arrangement(&lanes[..side]),
                // Where there are more, every cell has its digit, so what meets one of them meets all.
                Some(condition) => {
                    let ways = &self.problem.conditions[condition].ways;
                    let mut live = self.order[condition][..state.n_live[condition]].iter();
                    live.find_map(|way| arrangement(&and(&lanes, &ways[usize::from(*way)])[..side]))
                }
            };
            let Some(holder) = holder else { unreachable!("a settled house has an arrangement") };
            for (digit, lane) in self.problem.all.iter().zip(holder) {
                left[usize::from(self.problem.houses[house][lane])] = DigitSet::only(digit);
            }
        }
        left
    }
}
