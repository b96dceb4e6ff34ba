//! Boards tried cell by cell: whether a few houses leave one on which a claim is false.
//!
//! What a SAT solver answers in a few hundred microseconds takes a tenth of that here, because only the houses asked
//! about are looked at: their open cells are narrowed as far as each house and each clue says, and then a cell is tried.
//! Cells are tried with the solution's digits first, so that a board found here differs from the solution in few
//! cells and answers for many other houses.

use grid::{Cell, DigitSet, Grid};
use rulebook::Way;

use super::held::{Held, HeldSet, members};
use super::premise::Goal;
use crate::View;

/// What came of a trial.
pub(super) enum Tried {
    /// A full board on which the houses hold and the goal does not.
    Board(Grid),
    /// There is none: the houses prove the goal.
    NoBoard,
    /// Too many cells were tried.
    Undecided,
}

/// The open cells of a position and what each house held says of them.
pub(super) struct Trials<'a> {
    solution: &'a Grid,
    /// The open cells; what is said below of places is said of places in this list.
    cells: Vec<Cell>,
    /// By [`Cell::slot`], for open cells: the place.
    place_of: Vec<usize>,
    /// By place.
    candidates: Vec<DigitSet>,
    /// By place: the digit to try first.
    answers: Vec<DigitSet>,
    /// By place: the houses held that the cell is in.
    holding: Vec<HeldSet>,
    /// By place in the list of what is held.
    held: Vec<Rules>,
}

/// What is demanded of the open cells of a house.
struct Rules {
    /// The places of its open cells.
    places: Vec<usize>,
    /// The digits that these hold, each once.
    digits: DigitSet,
    /// Its clue and the facts about it.
    tables: Vec<Table>,
}

/// The ways to satisfy a clue or a fact.
struct Table {
    places: Vec<usize>,
    /// What each way leaves of each place; beyond the places, everything.
    ways: Vec<Row>,
    /// The places of the ways in that list, those that are still possible first.
    order: Vec<usize>,
}

/// The cells of the longest line there is.
const LONGEST: usize = 16;

/// Digits by cell of a line. All are looked at whatever the line's length: that way the processor looks at several at
/// once.
type Row = [DigitSet; LONGEST];

/// What is left at one moment of a trial.
#[derive(Clone)]
struct Left {
    /// By place.
    digits: Vec<DigitSet>,
    /// By table of the houses asked about, in order: how many ways are possible.
    n_ways: Vec<usize>,
}

/// Nothing is left for some cell or clue.
struct Contradiction;

impl<'a> Trials<'a> {
    pub(super) fn new(view: &View, held: &[Held], solution: &'a Grid) -> Trials<'a> {
        let cells: Vec<Cell> = view.open_cells().collect();
        let mut place_of = vec![0; Cell::SLOTS];
        cells.iter().enumerate().for_each(|(place, it)| place_of[it.slot()] = place);
        let holding = |cell: &Cell| {
            let holds = held.iter().enumerate().filter(|(_, it)| it.open().contains(*cell));
            holds.fold(0, |all, (at, _)| all | 1 << at)
        };
        let answer = |it: &Cell| solution.get(*it).map_or(DigitSet::EMPTY, DigitSet::only);
        Trials {
            solution,
            candidates: cells.iter().map(|it| view.candidates(*it)).collect(),
            answers: cells.iter().map(answer).collect(),
            holding: cells.iter().map(holding).collect(),
            held: held.iter().map(|it| Rules::new(view, it, &place_of)).collect(),
            cells,
            place_of,
        }
    }

    /// Looks for a board on which the houses and all that is known of them hold, and the goal is false. The goal's cell is in
    /// one of the houses. No more than `most` times a digit is tried.
    pub(super) fn try_deny(&mut self, set: HeldSet, goal: Goal, most: usize) -> Tried {
        let tables = members(set).flat_map(|it| &self.held[it].tables);
        let mut left =
            Left { digits: self.candidates.clone(), n_ways: tables.map(|it| it.order.len()).collect() };
        let place = self.place_of[goal.cell.slot()];
        left.digits[place] = left.digits[place] & goal.denied;
        let mut search = Search { trials: self, set, tries_left: most };
        match search.fill(left, set) {
            Ok(digits) => Tried::Board(self.board(&digits)),
            Err(Ended::NoBoard) => Tried::NoBoard,
            Err(Ended::NoTryLeft) => Tried::Undecided,
        }
    }

    /// The solution, but with these digits, by place, where only one is left.
    fn board(&self, digits: &[DigitSet]) -> Grid {
        let cells = self.cells.iter().zip(digits);
        cells.fold(self.solution.clone(), |board, (cell, digits)| match digits.single() {
            Some(digit) => board.with(*cell, Some(digit)),
            None => board,
        })
    }
}

impl Rules {
    fn new(view: &View, held: &Held, place_of: &[usize]) -> Rules {
        let open = held.open();
        let tables = held.premises.iter().filter_map(|premise| {
            let ways = premise.ways(view)?;
            let is_possible = |way: &Way| {
                ways.cells()
                    .iter()
                    .zip(way.iter())
                    .all(|(cell, it)| !(view.candidates(*cell) & *it).is_empty())
            };
            let columns: Vec<usize> =
                (0..ways.cells().len()).filter(|it| open.contains(ways.cells()[*it])).collect();
            let open_part = |way: &Way| {
                let mut row = [view.size().digits(); LONGEST];
                row.iter_mut().zip(&columns).for_each(|(digits, it)| *digits = way[*it]);
                row
            };
            let ways_left: Vec<Row> = ways.iter().filter(|it| is_possible(it)).map(open_part).collect();
            Some(Table {
                places: columns.iter().map(|it| place_of[ways.cells()[*it].slot()]).collect(),
                order: (0..ways_left.len()).collect(),
                ways: ways_left,
            })
        });
        Rules {
            places: open.iter().map(|it| place_of[it.slot()]).collect(),
            digits: view.size().digits() - view.digits_placed_in(held.house()),
            tables: tables.collect(),
        }
    }

    /// Narrows the cells to what the house leaves of them: a digit goes where only one cell is left for it, and
    /// nowhere else once it is placed.
    fn narrow(&self, left: &mut Left, mut changed: impl FnMut(usize)) -> Result<(), Contradiction> {
        let (mut once, mut twice, mut placed) = (DigitSet::EMPTY, DigitSet::EMPTY, DigitSet::EMPTY);
        for place in &self.places {
            let digits = left.digits[*place];
            twice = twice | (once & digits);
            once = once | digits;
            if digits.len() == 1 {
                if !(placed & digits).is_empty() {
                    return Err(Contradiction);
                }
                placed = placed | digits;
            }
        }
        if once != self.digits {
            return Err(Contradiction);
        }
        let single = once - twice - placed;
        for place in &self.places {
            let digits = left.digits[*place];
            if digits.len() == 1 {
                continue;
            }
            let here = digits & single;
            let after = if here.is_empty() { digits - placed } else { here };
            if after.is_empty() || here.len() > 1 {
                return Err(Contradiction);
            }
            if after != digits {
                left.digits[*place] = after;
                changed(*place);
            }
        }
        Ok(())
    }
}

impl Table {
    /// Narrows the cells to the ways that are still possible, of which `n_ways` are counted.
    fn narrow(
        &mut self,
        digits: &mut [DigitSet],
        n_ways: &mut usize,
        mut changed: impl FnMut(usize),
    ) -> Result<(), Contradiction> {
        let mut now = self.ways.first().copied().unwrap_or_default();
        now.iter_mut().zip(&self.places).for_each(|(now, it)| *now = digits[*it]);
        let mut union = [DigitSet::EMPTY; LONGEST];
        let mut at = 0;
        while at < *n_ways {
            let way = &self.ways[self.order[at]];
            let is_possible =
                way.iter().zip(&now).fold(true, |all, (it, now)| all & !(*it & *now).is_empty());
            if is_possible {
                union.iter_mut().zip(way).for_each(|(all, it)| *all = *all | *it);
                at += 1;
            } else {
                *n_ways -= 1;
                self.order.swap(at, *n_ways);
            }
        }
        if *n_ways == 0 {
            return Err(Contradiction);
        }
        for (place, union) in self.places.iter().zip(&union) {
            let after = digits[*place] & *union;
            if after != digits[*place] {
                digits[*place] = after;
                changed(*place);
            }
        }
        Ok(())
    }
}

/// One trial.
struct Search<'t, 'a> {
    trials: &'t mut Trials<'a>,
    set: HeldSet,
    tries_left: usize,
}

/// Why a trial found no board.
enum Ended {
    NoBoard,
    NoTryLeft,
}

impl Search<'_, '_> {
    /// Fills the cells of the houses; those of `stale` have to be looked at.
    fn fill(&mut self, mut left: Left, stale: HeldSet) -> Result<Vec<DigitSet>, Ended> {
        self.narrow(&mut left, stale).map_err(|_| Ended::NoBoard)?;
        let Some(place) = self.fewest(&left) else { return Ok(left.digits) };
        let digits = left.digits[place];
        let answer = digits & self.trials.answers[place];
        let first = if answer.is_empty() { digits.first().map_or(answer, DigitSet::only) } else { answer };
        let holding = self.trials.holding[place] & self.set;
        for tried in [first, digits - first] {
            self.tries_left = self.tries_left.checked_sub(1).ok_or(Ended::NoTryLeft)?;
            let mut left = left.clone();
            left.digits[place] = tried;
            match self.fill(left, holding) {
                Err(Ended::NoBoard) => {}
                ended => return ended,
            }
        }
        Err(Ended::NoBoard)
    }

    /// The cell of the houses with the fewest digits left, of those with more than one.
    fn fewest(&self, left: &Left) -> Option<usize> {
        let places = members(self.set).flat_map(|it| self.trials.held[it].places.iter().copied());
        places.filter(|it| left.digits[*it].len() > 1).min_by_key(|it| left.digits[*it].len())
    }

    /// Narrows the cells until nothing more follows from a single house or clue.
    fn narrow(&mut self, left: &mut Left, mut stale: HeldSet) -> Result<(), Contradiction> {
        let Trials { holding, held, .. } = &mut *self.trials;
        while stale != 0 {
            let at = stale.trailing_zeros() as usize;
            stale &= stale - 1;
            let mut changed = |place: usize| stale |= holding[place] & self.set;
            held[at].narrow(left, &mut changed)?;
            let before = members(self.set & ((1 << at) - 1)).map(|it| held[it].tables.len()).sum::<usize>();
            let Left { digits, n_ways } = left;
            for (table, n_ways) in held[at].tables.iter_mut().zip(&mut n_ways[before..]) {
                table.narrow(digits, n_ways, &mut changed)?;
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::super::encode::{Answer, Prover};
    use super::super::held;
    use super::super::premise::{self, Premise};
    use super::super::seeded::{Made, puzzle as seeded};
    use super::*;

    /// Houses in pairs, threes and sixes, each about everything open in them.
    #[test]
    fn the_solver_agrees() {
        let mut seen = BTreeSet::new();
        for (side, n_clues, seed) in [(4, 4, 0), (6, 6, 1), (9, 18, 2), (9, 8, 3), (9, 0, 4), (10, 20, 5)] {
            let Made { puzzle, solution } = seeded(grid::Size::of_side(side).unwrap(), n_clues, seed);
            let view = View::new(&puzzle);
            let held = held::all(&view);
            let goals = premise::open_goals(&view, &solution);
            let mut trials = Trials::new(&view, &held, &solution);
            let mut prover = Prover::new(&view, &solution);
            for (n, stride) in [(2, 3), (3, 4), (6, 5)] {
                for first in 0..held.len() {
                    let set =
                        (0..n).fold(0, |set: HeldSet, it| set | 1 << ((first + it * stride) % held.len()));
                    let offered: Vec<Premise> =
                        members(set).flat_map(|it| held[it].premises.iter().copied()).collect();
                    let is_about = |it: &&Goal| members(set).any(|at| held[at].open().contains(it.cell));
                    for goal in goals.iter().filter(is_about).step_by(3) {
                        let name = format!("{side}x{side}, seed {seed}, houses {set:b}, {:?}", goal.claim);
                        let is_proved = matches!(prover.ask(*goal, &offered), Answer::Proved(_));
                        match trials.try_deny(set, *goal, 100_000) {
                            Tried::Undecided => panic!("{name}: not decided"),
                            Tried::NoBoard => assert!(is_proved, "{name}: a board was missed"),
                            Tried::Board(board) => {
                                assert!(!is_proved, "{name}: what is proved was denied");
                                let broken = offered.iter().find(|it| !it.is_satisfied_by(&puzzle, &board));
                                assert_eq!(broken, None, "{name}: {board}");
                                let holds = goal.claim.holds(board.size(), |cell| board.get(cell).unwrap());
                                assert!(!holds, "{name}: {board}");
                            }
                        }
                        seen.insert(is_proved);
                    }
                }
            }
        }
        assert_eq!(seen.len(), 2, "all questions had one answer");
    }

    #[test]
    fn a_trial_ends_after_so_many_tries() {
        let Made { puzzle, solution } = seeded(grid::Size::of_side(9).unwrap(), 8, 3);
        let view = View::new(&puzzle);
        let held = held::all(&view);
        let goal = premise::open_goals(&view, &solution)[0];
        let mut trials = Trials::new(&view, &held, &solution);
        let all = (1 << held.len()) - 1;
        assert!(matches!(trials.try_deny(all, goal, 0), Tried::Undecided));
    }
}
