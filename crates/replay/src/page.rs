//! What is printed, in the form in which judging computes with it: worked out once a puzzle.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use grid::{Cell, CellSet, House, Size};
use rulebook::{Claim, ClueId, Puzzle, Way, Ways};

use crate::house::{LONGEST, Lanes};

/// A puzzle with the cells of its houses, and the ways of what was asked about so far.
#[derive(Debug)]
pub(crate) struct Page<'a> {
    pub(crate) puzzle: &'a Puzzle,
    /// By [`Size::house_index`]: the house's cells in order, and the same as a set.
    houses: Vec<(Vec<Cell>, CellSet)>,
    listed: RefCell<BTreeMap<Asked, Rc<[Lanes]>>>,
}

/// Something about a house that has ways.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Asked {
    /// That a clue is met.
    Clue(ClueId),
    /// That a claim is true.
    Fact(Claim),
    /// That a claim is false.
    Denial(Claim),
}

impl<'a> Page<'a> {
    pub(crate) fn new(puzzle: &'a Puzzle) -> Page<'a> {
        let size = puzzle.size();
        let of_house = |house| {
            let cells = size.cells_of(house);
            let members = cells.iter().copied().collect();
            (cells, members)
        };
        Page { puzzle, houses: size.houses().map(of_house).collect(), listed: RefCell::default() }
    }

    pub(crate) fn size(&self) -> Size {
        self.puzzle.size()
    }

    /// The cells, in order, of the house with that [`Size::house_index`].
    pub(crate) fn cells_of(&self, index: usize) -> &[Cell] {
        &self.houses[index].0
    }

    /// Its cells as a set.
    pub(crate) fn members(&self, index: usize) -> CellSet {
        self.houses[index].1
    }

    /// The ways for what is asked about a house, or none if it is about a single cell or of another puzzle: for
    /// each cell of the house, in its order, the digits it may hold.
    pub(crate) fn ways(&self, asked: Asked) -> Option<Rc<[Lanes]>> {
        if let Some(ways) = self.listed.borrow().get(&asked) {
            return Some(Rc::clone(ways));
        }
        let size = self.size();
        let (house, ways) = match asked {
            Asked::Clue(id) => {
                let clue = self.puzzle.clue(id)?;
                (clue.line, self.puzzle.ways(clue))
            }
            Asked::Fact(claim) => (claim.house()?, ways_of(size, &claim)),
            Asked::Denial(claim) => (claim.house()?, claim.denials(size)),
        };
        let lanes = self.lanes(house, &ways);
        self.listed.borrow_mut().insert(asked, Rc::clone(&lanes));
        Some(lanes)
    }

    fn lanes(&self, house: House, ways: &Ways) -> Rc<[Lanes]> {
        let cells = self.cells_of(self.size().house_index(house));
        let any = [self.size().digits(); LONGEST];
        // Most are about the whole house, in its order.
        if ways.cells() == cells {
            let widened = |way: &Way| {
                let mut widened = any;
                widened[..way.len()].copy_from_slice(way);
                widened
            };
            return ways.iter().map(widened).collect();
        }
        let lane_of = |cell: &Cell| cells.iter().position(|it| it == cell);
        let lanes: Vec<usize> = ways.cells().iter().filter_map(lane_of).collect();
        debug_assert_eq!(lanes.len(), ways.cells().len(), "the ways are about cells of {house}");
        let widened = |way: &Way| {
            let mut widened = any;
            lanes.iter().zip(way).for_each(|(lane, digits)| widened[*lane] = *digits);
            widened
        };
        ways.iter().map(widened).collect()
    }
}

/// The ways in which a cited fact holds.
fn ways_of(size: Size, fact: &Claim) -> Ways {
    match *fact {
        // A house has each digit once, so the digit is among these cells exactly if it is not among the
        // others; and that has one way only.
        Claim::DigitAmong { house, digit, cells } => {
            let others = size.cells_of(house).into_iter().filter(|it| !cells.contains(*it)).collect();
            Claim::DigitAmong { house, digit, cells: others }.denials(size)
        }
        _ => fact.ways(size),
    }
}
