//! What a person can claim about the solution before it is known.

use grid::{Cell, CellSet, Digit, DigitSet, House, Size};

use crate::Ways;
use crate::sandwich::{Kinds, crusts, filling_digits};

/// A statement about the solution, as a person would make it.
///
/// Each kind is a predicate on a filling ([`Claim::holds`]), and can be computed with both as it
/// stands ([`Claim::ways`]) and denied ([`Claim::denials`]). Crusts are the 1 and the largest digit,
/// every other digit is a filling digit.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Claim {
    /// The cell holds this digit.
    Is(Cell, Digit),
    /// The cell does not hold this digit.
    IsNot(Cell, Digit),
    /// The cell holds a crust; which one may be unknown.
    Crust(Cell),
    /// The cell holds a filling digit, whether it lies between the crusts or outside.
    Filling(Cell),
    /// At least one crust of the house is in one of these cells of it.
    CrustAmong {
        /// The house.
        house: House,
        /// Some of its cells.
        cells: CellSet,
    },
    /// The house's digit is in one of these cells of it.
    DigitAmong {
        /// The house.
        house: House,
        /// The digit.
        digit: Digit,
        /// Some of its cells.
        cells: CellSet,
    },
    /// Between the crusts of the line lie at least `fewest` and at most `most` cells.
    FillingCells {
        /// The row or column.
        line: House,
        /// At least so many.
        fewest: u8,
        /// At most so many.
        most: u8,
    },
    /// Exactly these digits lie between the crusts of the line, so its clue is spent.
    Spent {
        /// The row or column.
        line: House,
        /// The digits between the crusts.
        filling: DigitSet,
    },
}

impl Claim {
    /// The definition: whether the claim is true of a filling.
    ///
    /// For a claim about a house the filling must hold each digit of it once.
    pub fn holds(&self, size: Size, digit_at: impl Fn(Cell) -> Digit) -> bool {
        let (one, last) = crusts(size);
        let is_crust = |cell| digit_at(cell) == one || digit_at(cell) == last;
        let between = |line| -> DigitSet {
            let cells = size.cells_of(line);
            let inner = cells.iter().skip_while(|it| !is_crust(**it)).skip(1);
            inner.take_while(|it| !is_crust(**it)).map(|it| digit_at(*it)).collect()
        };
        match *self {
            Claim::Is(cell, digit) => digit_at(cell) == digit,
            Claim::IsNot(cell, digit) => digit_at(cell) != digit,
            Claim::Crust(cell) => is_crust(cell),
            Claim::Filling(cell) => !is_crust(cell),
            Claim::CrustAmong { cells, .. } => cells.iter().any(is_crust),
            Claim::DigitAmong { digit, cells, .. } => cells.iter().any(|it| digit_at(it) == digit),
            Claim::FillingCells { line, fewest, most } => {
                (usize::from(fewest)..=usize::from(most)).contains(&between(line).len())
            }
            Claim::Spent { line, filling } => between(line) == filling,
        }
    }

    /// The house the claim speaks of, which must hold each digit once for the claim to have a
    /// meaning; none for a claim about a single cell.
    pub fn house(&self) -> Option<House> {
        match *self {
            Claim::Is(..) | Claim::IsNot(..) | Claim::Crust(_) | Claim::Filling(_) => None,
            Claim::CrustAmong { house, .. } | Claim::DigitAmong { house, .. } => Some(house),
            Claim::FillingCells { line, .. } | Claim::Spent { line, .. } => Some(line),
        }
    }

    /// The cell the claim speaks of, if it speaks of one only.
    pub fn cell(&self) -> Option<Cell> {
        match *self {
            Claim::Is(cell, _) | Claim::IsNot(cell, _) | Claim::Crust(cell) | Claim::Filling(cell) => {
                Some(cell)
            }
            _ => None,
        }
    }

    /// For a claim about one cell: the digits it leaves to that cell.
    pub fn leaves(&self, size: Size) -> Option<(Cell, DigitSet)> {
        match *self {
            Claim::Is(cell, digit) => Some((cell, DigitSet::only(digit))),
            Claim::IsNot(cell, digit) => Some((cell, size.digits().without(digit))),
            Claim::Crust(cell) => Some((cell, size.digits() - filling_digits(size))),
            Claim::Filling(cell) => Some((cell, filling_digits(size))),
            _ => None,
        }
    }

    /// The ways in which the claim is true.
    pub fn ways(&self, size: Size) -> Ways {
        if let Some((cell, digits)) = self.leaves(size) {
            return Ways::of([cell], [[digits]]);
        }
        let all = size.digits();
        let crust = all - filling_digits(size);
        match *self {
            Claim::CrustAmong { cells, .. } => one_of(size, cells, crust),
            Claim::DigitAmong { digit, cells, .. } => one_of(size, cells, DigitSet::only(digit)),
            Claim::FillingCells { line, fewest, most } => {
                spread(size, line, |cells| (fewest..=most).contains(&cells))
            }
            // Crusts never lie between crusts: such a claim is false whatever the filling.
            Claim::Spent { line, filling } if !filling.is_subset(filling_digits(size)) => {
                Ways::none(size.cells_of(line))
            }
            Claim::Spent { line, filling } => Ways::of(size.cells_of(line), Kinds::of(size).slices(filling)),
            Claim::Is(..) | Claim::IsNot(..) | Claim::Crust(_) | Claim::Filling(_) => {
                unreachable!("claims about one cell are answered above")
            }
        }
    }

    /// The ways in which the claim is false.
    pub fn denials(&self, size: Size) -> Ways {
        if let Some((cell, digits)) = self.leaves(size) {
            return Ways::of([cell], [[size.digits() - digits]]);
        }
        match *self {
            Claim::CrustAmong { cells, .. } => none_of(cells, filling_digits(size)),
            Claim::DigitAmong { digit, cells, .. } => none_of(cells, size.digits().without(digit)),
            Claim::FillingCells { line, fewest, most } => {
                spread(size, line, |cells| !(fewest..=most).contains(&cells))
            }
            Claim::Spent { line, filling } if !filling.is_subset(filling_digits(size)) => {
                spread(size, line, |_| true)
            }
            Claim::Spent { line, filling } => other_filling(size, line, filling),
            Claim::Is(..) | Claim::IsNot(..) | Claim::Crust(_) | Claim::Filling(_) => {
                unreachable!("claims about one cell are answered above")
            }
        }
    }
}

/// At least one of `cells` holds one of `digits`: a way a cell.
fn one_of(size: Size, cells: CellSet, digits: DigitSet) -> Ways {
    let any = size.digits();
    let way = |chosen| cells.iter().map(move |it| if it == chosen { digits } else { any });
    Ways::of(cells.iter(), cells.iter().map(way))
}

/// Each of `cells` holds one of `digits`.
fn none_of(cells: CellSet, digits: DigitSet) -> Ways {
    Ways::of(cells.iter(), [cells.iter().map(|_| digits)])
}

/// The crusts of the line have `allowed` many cells between them: a way a pair of places.
fn spread(size: Size, line: House, allowed: impl Fn(u8) -> bool) -> Ways {
    let kinds = Kinds::of(size);
    let pairs = kinds.pairs().filter(|(left, right)| allowed((right - left - 1) as u8));
    Ways::of(size.cells_of(line), pairs.map(|it| kinds.way(it, kinds.filling(), kinds.filling())))
}

/// Something else than `filling` lies between the crusts: more cells or fewer, or as many without some digit of
/// it.
fn other_filling(size: Size, line: House, filling: DigitSet) -> Ways {
    let kinds = Kinds::of(size);
    let ways = kinds.pairs().flat_map(|(left, right)| {
        let is_as_long = right - left - 1 == filling.len();
        let any = (!is_as_long).then_some(kinds.filling());
        let lacking = is_as_long.then(|| filling.iter().map(|it| kinds.filling().without(it)));
        let inside = any.into_iter().chain(lacking.into_iter().flatten());
        inside.map(move |inside| kinds.way((left, right), inside, kinds.filling()))
    });
    Ways::of(size.cells_of(line), ways)
}
