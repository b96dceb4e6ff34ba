//! When two puzzles are the same, seen from another side.

use grid::{Digit, Grid, House, Size};
use rulebook::{Clue, Puzzle, RuleId, crusts};

use crate::Limit;
use crate::refine;

/// The changes of a page that turn its solutions into solutions.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Symmetries {
    /// Of a page without clues: digits renamed; rows and columns exchanged within their bands and stacks, bands
    /// and stacks exchanged; and, where boxes are square, rows made columns.
    Classic,
    /// Of a page with clues beside its lines. Exchanging rows would tear sums apart, and renaming digits
    /// would change them, so that only these are left.
    Clued {
        /// The board is turned and mirrored (8 ways where boxes are square, else 4).
        turns: bool,
        /// The 1 and the largest digit change places.
        exchange: bool,
    },
}

/// What all twins of a puzzle have in common, and nobody else: two puzzles are twins exactly if their
/// canonical forms are equal.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Canonical {
    /// One of the twins, always the same.
    givens: Grid,
    clues: Vec<(House, RuleId, u16)>,
}

impl Symmetries {
    /// Those that clues of the sandwich rule leave: all turns and mirrors, and the exchange.
    pub const SANDWICH: Symmetries = Symmetries::Clued { turns: true, exchange: true };

    /// Those of a puzzle, by the rules that it has clues of.
    pub fn of(puzzle: &Puzzle) -> Symmetries {
        let (one, last) = crusts(puzzle.size());
        match puzzle.clues() {
            [] => Symmetries::Classic,
            clues => Symmetries::Clued {
                turns: clues.iter().all(|it| it.rule.same_both_ways()),
                exchange: clues.iter().all(|it| it.rule.blind_to(puzzle.size(), one, last)),
            },
        }
    }
}

/// The canonical form of a puzzle under the symmetries it has; none if the limit, which counts partial
/// arrangements looked at, is reached first.
pub fn canonical(puzzle: &Puzzle, limit: Limit) -> Option<Canonical> {
    canonical_under(Symmetries::of(puzzle), puzzle, limit)
}

/// The canonical form of a grid under these symmetries, for solutions of puzzles that have other clues.
pub fn canonical_grid(symmetries: Symmetries, grid: &Grid, limit: Limit) -> Option<Canonical> {
    canonical_under(symmetries, &Puzzle::new(grid.clone(), []), limit)
}

fn canonical_under(symmetries: Symmetries, puzzle: &Puzzle, limit: Limit) -> Option<Canonical> {
    match symmetries {
        Symmetries::Classic => {
            let givens = refine::canonical(puzzle.givens(), limit)?;
            Some(Canonical { givens, clues: Vec::new() })
        }
        Symmetries::Clued { turns, exchange } => {
            let flips: &[bool] = if turns { &[false, true] } else { &[false] };
            let is_square = puzzle.size().box_width() == puzzle.size().box_height();
            let transposings: &[bool] = if is_square { &[false, true] } else { &[false] };
            let exchanges: &[bool] = if exchange { &[false, true] } else { &[false] };
            let views = transposings.iter().flat_map(|transposed| {
                flips.iter().flat_map(move |flipped| {
                    flips.iter().flat_map(move |mirrored| {
                        exchanges.iter().map(move |exchanged| View {
                            transposed: *transposed,
                            flipped: *flipped,
                            mirrored: *mirrored,
                            exchanged: *exchanged,
                        })
                    })
                })
            });
            views.map(|it| it.of(puzzle)).min()
        }
    }
}

/// One way to look at a page with clues.
#[derive(Clone, Copy)]
struct View {
    transposed: bool,
    flipped: bool,
    mirrored: bool,
    exchanged: bool,
}

impl View {
    fn of(self, puzzle: &Puzzle) -> Canonical {
        let size = puzzle.size();
        let givens = puzzle.givens().filled().fold(Grid::empty(size), |grid, (cell, digit)| {
            let (row, column) = self.place(size, cell.row(), cell.column());
            match size.cell(row, column) {
                Some(cell) => grid.with(cell, Some(self.digit(size, digit))),
                None => grid,
            }
        });
        let mut clues: Vec<(House, RuleId, u16)> = puzzle
            .clues()
            .iter()
            .filter_map(|it| Some((self.line(size, it)?, it.rule.id(), it.value)))
            .collect();
        clues.sort();
        Canonical { givens, clues }
    }

    /// Where a row and a column come to lie.
    fn place(self, size: Size, row: u8, column: u8) -> (u8, u8) {
        let turned = |it: u8, is_turned| if is_turned { size.side() + 1 - it } else { it };
        let (row, column) = (turned(row, self.flipped), turned(column, self.mirrored));
        if self.transposed { (column, row) } else { (row, column) }
    }

    fn line(self, size: Size, clue: &Clue) -> Option<House> {
        let cells = size.cells_of(clue.line);
        let mut places = cells.iter().map(|it| self.place(size, it.row(), it.column()));
        let (first, second) = (places.next()?, places.next()?);
        size.shared_house(size.cell(first.0, first.1)?, size.cell(second.0, second.1)?)
    }

    fn digit(self, size: Size, digit: Digit) -> Digit {
        match crusts(size) {
            (one, last) if self.exchanged && digit == one => last,
            (one, last) if self.exchanged && digit == last => one,
            _ => digit,
        }
    }
}
