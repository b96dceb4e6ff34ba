//! Positions built outwards from a technique, for those that hardly ever come up in an ordinary puzzle.
//!
//! A random solution is asked for places where the technique could be at work, and what its premises say is told of
//! these, so that all that is told is true. Some other digits of the houses are given, or struck, so that no two
//! positions look alike. Whether it makes a drill is for the same check to say that judges what is cut out of puzzles.

mod crossing_lines;
mod crust_turn;
mod equal_pairs;
mod hidden_quad;
mod line_and_box;

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Digit, DigitSet, Grid, House};
use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use reason::Technique;
use rulebook::{Claim, Puzzle};

use super::extract::{Extract, Part};
use crate::brief::Kind;
use crate::draft::sandwich;

/// How a position is built on a solution: none where the places that were drawn do not serve.
pub(super) type Build = fn(&Grid, &mut ChaCha8Rng) -> Option<Pose>;

/// The techniques whose positions are built.
const BUILDS: [(&str, Build); 5] = [
    ("crust-turn-settled", crust_turn::pose),
    ("chain-of-equal-pairs", equal_pairs::pose),
    ("hidden-quad", hidden_quad::pose),
    ("jellyfish", crossing_lines::jellyfish),
    ("line-and-box-share-a-set", line_and_box::pose),
];

/// How the technique's positions are built, in puzzles of that kind; none if ordinary puzzles show enough of them.
pub(super) fn build(asked: &dyn Technique, kind: Kind) -> Option<Build> {
    let is_at_home = asked.rule().is_none() || kind == Kind::Sandwich;
    let build = BUILDS.iter().find(|it| it.0 == asked.id().name()).filter(|_| is_at_home)?;
    Some(build.1)
}

/// A position that was built.
#[derive(Clone, Debug)]
pub(super) struct Pose {
    pub(super) part: Part,
    pub(super) extract: Extract,
}

/// What is going to be told of a solution, before it is put on a page.
struct Plan<'s> {
    solution: &'s Grid,
    houses: BTreeSet<House>,
    cell: Option<Cell>,
    given: CellSet,
    clues: Vec<House>,
    told: Vec<Claim>,
}

impl<'s> Plan<'s> {
    /// Nothing yet of these houses and that cell.
    fn new(solution: &'s Grid, houses: impl IntoIterator<Item = House>, cell: Option<Cell>) -> Plan<'s> {
        let houses = houses.into_iter().collect();
        Plan { solution, houses, cell, given: CellSet::EMPTY, clues: Vec::new(), told: Vec::new() }
    }

    fn digit(&self, cell: Cell) -> Digit {
        self.solution.get(cell).unwrap_or_else(|| unreachable!("a solution is full"))
    }

    /// The cells of its houses.
    fn cells(&self) -> CellSet {
        let size = self.solution.size();
        self.houses.iter().flat_map(|it| size.cells_of(*it)).collect()
    }

    /// Tells that the cell cannot hold any of these; of its own digit that is never told.
    fn strike(&mut self, cell: Cell, digits: DigitSet) {
        let struck = digits.without(self.digit(cell));
        self.told.extend(struck.iter().map(|it| Claim::IsNot(cell, it)));
    }

    /// The same of each digit by itself, that often in a hundred.
    fn strike_some(&mut self, cell: Cell, digits: DigitSet, percent: u32, random: &mut ChaCha8Rng) {
        let struck = digits.iter().filter(|_| random.random_ratio(percent, 100));
        let struck = struck.fold(DigitSet::EMPTY, DigitSet::with);
        self.strike(cell, struck);
    }

    /// Gives the digits of some of these cells, that often in a hundred, but never those digits.
    fn give_some(&mut self, cells: CellSet, but: DigitSet, percent: u32, random: &mut ChaCha8Rng) {
        let given = cells.iter().filter(|it| !but.contains(self.digit(*it)));
        let given: Vec<Cell> = given.filter(|_| random.random_ratio(percent, 100)).collect();
        self.given = self.given | given.into_iter().collect();
    }

    fn pose(self) -> Pose {
        let given = |cell| self.solution.get(cell).filter(|_| self.given.contains(cell));
        let clues = self.clues.iter().map(|it| sandwich(self.solution, *it));
        let puzzle = Puzzle::new(Grid::from_fn(self.solution.size(), given), clues);
        Pose {
            extract: Extract::telling(puzzle, self.told),
            part: Part { houses: self.houses, cell: self.cell },
        }
    }
}

/// One of them, by lot.
fn any<T: Copy>(all: &[T], random: &mut ChaCha8Rng) -> Option<T> {
    (!all.is_empty()).then(|| all[random.random_range(0..all.len())])
}

/// One of the cells, by lot.
fn any_cell(cells: CellSet, random: &mut ChaCha8Rng) -> Option<Cell> {
    any(&cells.iter().collect::<Vec<_>>(), random)
}

/// The cells that hold the digit.
fn holding(solution: &Grid, digit: Digit) -> CellSet {
    solution.filled().filter(|it| it.1 == digit).map(|it| it.0).collect()
}
