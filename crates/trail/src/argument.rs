//! What a step points at: the cells, sums and cases that a sentence about it needs.
//!
//! Arguments are for telling and drawing only. No judgement rests on them: `replay` looks at claims
//! and citations alone.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::{Claim, ClueId};

use crate::{Inference, Stated};

/// Which part of a line a sum is about.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Side {
    /// The cells between the crusts, which add up to the clue.
    Between,
    /// The filling digits outside the crusts, which add up to the rest.
    Outside,
}

/// The structured content of a step, by the shape of its thought.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Argument {
    /// Every other cell of the house is filled.
    LastCell {
        /// The house.
        house: House,
        /// Its only empty cell.
        cell: Cell,
        /// The digit that is missing.
        digit: Digit,
    },
    /// The digit has one place left in the house.
    OnePlace {
        /// The house.
        house: House,
        /// The place.
        cell: Cell,
        /// The digit.
        digit: Digit,
    },
    /// The cell has one digit left.
    OneDigit {
        /// The cell.
        cell: Cell,
        /// The digit.
        digit: Digit,
    },
    /// In house `from` the digit is confined to cells that `into` holds too.
    Locked {
        /// The digit.
        digit: Digit,
        /// The house in which the digit is confined.
        from: House,
        /// The house that loses it elsewhere.
        into: House,
        /// Where it still can be in `from`.
        cells: CellSet,
    },
    /// As many cells of the house as digits have no other digits, so the digits are theirs.
    SharedDigits {
        /// The house.
        house: House,
        /// The cells.
        cells: CellSet,
        /// The digits.
        digits: DigitSet,
    },
    /// As many digits of the house as cells have no other places, so the cells are theirs.
    SharedCells {
        /// The house.
        house: House,
        /// The cells.
        cells: CellSet,
        /// The digits.
        digits: DigitSet,
    },
    /// In some lines the digit lies where as many others cross them, or in a spare cell.
    Crossing {
        /// The digit.
        digit: Digit,
        /// Rows, or columns: the lines in which the digit is confined.
        base: BTreeSet<House>,
        /// As many columns, or rows, that cross them and lose the digit elsewhere.
        cover: BTreeSet<House>,
        /// Where it still can be in the base, spare cells aside.
        cells: CellSet,
        /// The cells of the base outside the cover that can hold it; all in one box. Often empty.
        spare: CellSet,
    },
    /// Whichever digit the pivot takes, one of the ends, or the pivot itself, holds this one.
    Wing {
        /// The pivot.
        pivot: Cell,
        /// The digits left to it.
        digits: DigitSet,
        /// The ends with the digits left to them.
        ends: [(Cell, DigitSet); 2],
        /// The digit that one of them holds.
        digit: Digit,
    },
    /// Two cells have the same two digits left, and not both can hold one of them, the joint.
    JoinedPairs {
        /// The cells.
        ends: [Cell; 2],
        /// A house in which every place of the joint sees one of them.
        house: House,
        /// The joint.
        joint: Digit,
        /// Its places in the house.
        places: CellSet,
        /// The other digit, which one of the cells holds.
        digit: Digit,
    },
    /// Cells joined by houses in which a digit has no other places hold it in turn.
    TwoColours {
        /// The digit.
        digit: Digit,
        /// The cells, each joined to the next: every second of them holds the digit.
        cells: Vec<Cell>,
        /// The houses that join them, one fewer.
        houses: Vec<House>,
        /// The house that holds both the first cell and the last, where these are alike and so lose the
        /// digit; none where these differ and what sees both loses it.
        clash: Option<House>,
    },
    /// Cells that can all hold the same two digits, each in sight of the next, hold them in turn.
    EqualPairs {
        /// The two digits.
        digits: DigitSet,
        /// The cells, an even number of them: so the first and the last differ, and what sees both loses
        /// both digits.
        cells: Vec<Cell>,
    },
    /// Two sets of cells can each hold just one digit more than they are, and both cannot hold a joint: so
    /// one of them holds all its other digits.
    AlmostLocked {
        /// The sets, each of cells of one house, with the digits left to them.
        sets: [(CellSet, DigitSet); 2],
        /// The digits that both cannot hold: one, or two of which each set then lacks one.
        joints: DigitSet,
    },
    /// Cells of a line and a box can hold just as many digits between them as they are, none of these both
    /// in the line outside the box and in the box outside the line: so each is in one of them.
    LineAndBox {
        /// The line and the box.
        houses: [House; 2],
        /// Cells that lie in both, with the digits left to them.
        crossing: (CellSet, DigitSet),
        /// Cells of the line outside the box, and of the box outside the line, with the digits left to
        /// them; they have none in common.
        parts: [(CellSet, DigitSet); 2],
        /// The digits that the line has in these cells, and those that the box has.
        held: [DigitSet; 2],
    },
    /// What follows, link by link, from supposing something: its own opposite, or another way to have
    /// what it denies.
    Chain {
        /// What is supposed.
        start: Stated,
        /// What follows from it, in order.
        links: Vec<Inference>,
    },
    /// Each of these cells can be neither crust: it sees both, or is known to differ from them.
    SeesBothCrusts {
        /// The cells.
        cells: CellSet,
    },
    /// The house's two crusts are known, so its other cells are filling.
    CrustsFound {
        /// The house.
        house: House,
        /// The two crusts.
        crusts: CellSet,
    },
    /// Only two cells of the house can be crusts.
    CrustPlaces {
        /// The house.
        house: House,
        /// The two cells.
        cells: CellSet,
    },
    /// A crust of the box is known, and the line's crust in the same box takes the box's other.
    CrustHeld {
        /// The box.
        into: House,
        /// The line whose crust lies in the box.
        line: House,
        /// The box's known crust.
        known: Cell,
        /// Where the line's crust can be.
        cells: CellSet,
    },
    /// All places left for the crusts of one house lie in another, which has no crust elsewhere.
    CrustsConfined {
        /// The house whose crusts are confined.
        of: House,
        /// The house that holds them too.
        into: House,
        /// Where the crusts can be.
        cells: CellSet,
    },
    /// The two crusts of a house cannot both lie outside another.
    CrustAmong {
        /// The house whose crusts are looked at.
        of: House,
        /// The house that has one of them at least.
        into: House,
        /// Where that is.
        cells: CellSet,
    },
    /// Two parts of a house have a crust each, so the rest of it has none.
    CrustsShared {
        /// The house.
        into: House,
        /// The cells of the two parts; a crust that is known is a part by itself.
        parts: [CellSet; 2],
    },
    /// Crusts that share houses take turns: those of one kind are the 1s, the others the largest digits.
    CrustsInTurn {
        /// The crusts of one kind and those of the other.
        kinds: [CellSet; 2],
        /// The digit that the first kind cannot hold, with the house that would have no place for it.
        refused: Option<(House, Digit)>,
    },
    /// The sum 0: the crusts are side by side.
    CrustsTouch {
        /// The clue.
        clue: ClueId,
        /// Its line.
        line: House,
    },
    /// The sum of all filling digits: the crusts are at the ends of the line.
    CrustsAtEnds {
        /// The clue.
        clue: ClueId,
        /// Its line.
        line: House,
        /// The sum.
        sum: u16,
    },
    /// How many cells the sum can take.
    CrustDistance {
        /// The clue.
        clue: ClueId,
        /// Its line.
        line: House,
        /// The sum.
        sum: u16,
        /// At least so many cells.
        fewest: u8,
        /// At most so many cells.
        most: u8,
        /// The largest digits that one cell fewer could hold; their sum falls short.
        short: DigitSet,
        /// The smallest digits that one cell more would hold; their sum is too large. Empty if there
        /// is no room for one more.
        over: DigitSet,
    },
    /// The places left for the two crusts of a line.
    Reach {
        /// The line.
        line: House,
        /// At least so many cells lie between them.
        fewest: u8,
        /// At most so many cells lie between them.
        most: u8,
        /// The pairs of cells that can hold them.
        pairs: Vec<(Cell, Cell)>,
    },
    /// The digit sets that make a sum, and what all or none of them contain.
    Sets {
        /// The clue.
        clue: ClueId,
        /// Its line.
        line: House,
        /// Between the crusts or outside them.
        side: Side,
        /// The sum on that side.
        sum: u16,
        /// How many cells that side can have: fewest and most.
        cells: (u8, u8),
        /// The sets that are possible, fewest digits first.
        sets: Vec<DigitSet>,
        /// Sets of the right sum and size that something excludes, each with the digit that shows it.
        excluded: Vec<(DigitSet, Digit)>,
    },
    /// The clue is spent; the digits between and outside are known, so each cell knows its part.
    SpentSplits {
        /// The line.
        line: House,
        /// The digits between the crusts.
        filling: DigitSet,
        /// Cells that lie between the crusts wherever those are.
        between: CellSet,
        /// Cells that lie outside the crusts wherever those are.
        outside: CellSet,
    },
    /// A digit that must lie on one side of the crusts is confined to these cells of the line.
    SideHolds {
        /// The line.
        line: House,
        /// Between the crusts or outside them.
        side: Side,
        /// The digit.
        digit: Digit,
        /// The cells of that side that can hold it.
        cells: CellSet,
    },
    /// A digit confined to some cells of a line cannot be in a cell that sees them all.
    HeldActs {
        /// The line.
        line: House,
        /// The digit.
        digit: Digit,
        /// Where it is confined to.
        cells: CellSet,
    },
    /// All cells of a side but one are filled: the last takes what is left of the sum.
    Remainder {
        /// The clue.
        clue: ClueId,
        /// Its line.
        line: House,
        /// Between the crusts or outside them.
        side: Side,
        /// The sum on that side.
        sum: u16,
        /// The digits already there.
        placed: DigitSet,
        /// The last cell.
        cell: Cell,
        /// What is left for it.
        digit: Digit,
    },
    /// A line has no way with other digits in the cell: one try for each conclusion of the step, in
    /// order.
    Misfits {
        /// The line.
        line: House,
        /// The cell the tries are about.
        cell: Cell,
        /// What is supposed each time, and what would be open then.
        tries: Vec<Misfit>,
        /// The other houses that the ways of the line are tried on, where the line alone does not
        /// refuse them all.
        around: Vec<House>,
    },
    /// Supposing the opposite and following it, a house at a time, leads nowhere.
    Followed {
        /// One branch for each conclusion of the step, in order. None of them splits.
        branches: Vec<Branch>,
    },
    /// Supposing the opposite leads nowhere.
    Cases {
        /// One branch for each conclusion of the step, in order.
        branches: Vec<Branch>,
        /// Whether it is proven that no fewer houses, with their clues, showed anything that was asked for
        /// when it was found.
        is_smallest: bool,
    },
}

/// Digits that a cell of a line is supposed to be one of, and what seems open for the line then. The
/// cells of the line can do none of it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Misfit {
    /// The digits supposed.
    pub digits: DigitSet,
    /// Where the line's crusts could be. Of a line whose sum does not count, the places at the right
    /// distance that use the cell.
    pub pairs: Vec<(Cell, Cell)>,
    /// The sets of digits that could lie between the crusts there.
    pub sets: Vec<DigitSet>,
    /// For each set, the houses around the line that have no way with it. Empty where the cells of the
    /// line refuse everything themselves.
    pub refused: Vec<(DigitSet, House)>,
}

impl Argument {
    /// How many parts it has, one for each conclusion in order; none for an argument that shows all its
    /// conclusions at once.
    pub fn n_parts(&self) -> Option<usize> {
        match self {
            Argument::Cases { branches, .. } | Argument::Followed { branches } => Some(branches.len()),
            Argument::Misfits { tries, .. } => Some(tries.len()),
            _ => None,
        }
    }

    /// The argument for some of its conclusions: those at these places.
    #[must_use]
    pub fn keeping(&self, places: &[usize]) -> Argument {
        match self {
            Argument::Cases { branches, is_smallest } => {
                Argument::Cases { branches: at_places(branches, places), is_smallest: *is_smallest }
            }
            Argument::Followed { branches } => Argument::Followed { branches: at_places(branches, places) },
            Argument::Misfits { line, cell, tries, around } => Argument::Misfits {
                line: *line,
                cell: *cell,
                tries: at_places(tries, places),
                around: around.clone(),
            },
            other => other.clone(),
        }
    }
}

fn at_places<T: Clone>(parts: &[T], places: &[usize]) -> Vec<T> {
    places.iter().filter_map(|it| parts.get(*it)).cloned().collect()
}

/// One case of an argument: what is supposed, what follows, and why it cannot be.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Branch {
    /// The cell the case is about.
    pub cell: Cell,
    /// The digits it is supposed to be one of.
    pub digits: DigitSet,
    /// What follows, in order.
    pub chain: Vec<Link>,
    /// How it ends.
    pub end: End,
}

/// One consequence inside a case.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Link {
    /// The cell it is about.
    pub cell: Cell,
    /// The digits left to the cell.
    pub leaves: DigitSet,
    /// Why.
    pub because: Because,
}

/// What narrows a cell inside a case.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Because {
    /// The other digits are seen in the houses looked at, or known to be elsewhere.
    OneDigit,
    /// The digit has no other place in the house.
    OnePlace(House),
    /// The digits of the house fit together in no other way.
    Fit(House),
    /// The clue has no way with other digits here.
    Clue(ClueId),
    /// A fact known before has no way with other digits here.
    Known(Claim),
}

/// How a case ends.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum End {
    /// The cell has no digit left.
    NoDigit(Cell),
    /// The digit has no place left in the house.
    NoPlace(House, Digit),
    /// The digits of the house do not fit together any more.
    NoFit(House),
    /// The clue cannot be met any more.
    NoWay(ClueId),
    /// A fact known before would be broken.
    Breaks(Claim),
    /// Every digit of one cell has to be looked at in a case of its own.
    Split(Vec<Branch>),
}
