//! A puzzle: what is printed on the page.

use std::fmt;

use grid::{Cell, Digit, DigitSet, Grid, House, Size};

use crate::{Rule, Ways, classic, crusts};

/// A number beside a row or column, and the rule it belongs to.
#[derive(Clone, Copy)]
pub struct Clue {
    /// The rule that gives the number its meaning.
    pub rule: &'static dyn Rule,
    /// The row or column it stands beside.
    pub line: House,
    /// The number.
    pub value: u16,
}

impl PartialEq for Clue {
    fn eq(&self, other: &Clue) -> bool {
        (self.rule.id(), self.line, self.value) == (other.rule.id(), other.line, other.value)
    }
}

impl Eq for Clue {}

impl fmt::Debug for Clue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?} {} = {}", self.rule, self.line, self.value)
    }
}

/// A clue of a certain puzzle, by its place in [`Puzzle::clues`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct ClueId(u8);

impl ClueId {
    /// The clue's place in [`Puzzle::clues`].
    pub fn index(self) -> usize {
        usize::from(self.0)
    }
}

/// A puzzle: givens and clues on a board, under the classic rule.
///
/// It may have any number of solutions, even none. Invariant: clues are in the order rows, columns,
/// then by rule, and no two clues of one rule stand beside the same line.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Puzzle {
    givens: Grid,
    clues: Vec<Clue>,
}

impl Puzzle {
    /// The puzzle with those givens and clues.
    ///
    /// Of two clues of one rule beside one line, the first counts. Clues beside boxes are dropped.
    pub fn new(givens: Grid, clues: impl IntoIterator<Item = Clue>) -> Puzzle {
        let side = givens.size().side();
        let mut clues: Vec<Clue> =
            clues.into_iter().filter(|it| it.line.is_line() && it.line.number() <= side).collect();
        clues.sort_by_key(|it| (it.line, it.rule.id()));
        clues.dedup_by_key(|it| (it.line, it.rule.id()));
        Puzzle { givens, clues }
    }

    /// The size of the board.
    #[inline]
    pub fn size(&self) -> Size {
        self.givens.size()
    }

    /// The digits printed in the cells.
    pub fn givens(&self) -> &Grid {
        &self.givens
    }

    /// The clues: rows first, then columns.
    pub fn clues(&self) -> &[Clue] {
        &self.clues
    }

    /// The clues with their ids.
    pub fn clue_ids(&self) -> impl Iterator<Item = (ClueId, &Clue)> {
        self.clues.iter().enumerate().map(|(at, it)| (ClueId(at as u8), it))
    }

    /// The clue with that id; none if the id is another puzzle's.
    pub fn clue(&self, id: ClueId) -> Option<&Clue> {
        self.clues.get(id.index())
    }

    /// The clue of that rule beside that line.
    pub fn clue_at(&self, rule: &dyn Rule, line: House) -> Option<(ClueId, &Clue)> {
        self.clue_ids().find(|(_, it)| it.line == line && it.rule.id() == rule.id())
    }

    /// The ways to fill a clue's line.
    pub fn ways(&self, clue: &Clue) -> Ways {
        clue.rule.ways(self.size(), clue)
    }

    /// Whether `grid` is full, agrees with the givens and satisfies every rule: the definition of a
    /// solution.
    pub fn is_solved_by(&self, grid: &Grid) -> bool {
        let line = |house| -> Option<Vec<Digit>> {
            self.size().cells_of(house).into_iter().map(|it| grid.get(it)).collect()
        };
        grid.size() == self.size()
            && grid.is_full()
            && self.givens.filled().all(|(cell, digit)| grid.get(cell) == Some(digit))
            && classic::first_repeat(grid).is_none()
            && self
                .clues
                .iter()
                .all(|clue| line(clue.line).is_some_and(|it| clue.rule.allows(self.size(), clue.value, &it)))
    }

    /// Two digits that nothing on the page tells apart, if there are such: exchanging them turns any
    /// solution into another, so a puzzle that has such a pair never has exactly one.
    ///
    /// The crusts are looked at first, because they are the usual reason.
    pub fn exchange(&self) -> Option<(Digit, Digit)> {
        let size = self.size();
        let blind = |a, b| self.clues.iter().all(|it| it.rule.blind_to(size, a, b));
        let given: DigitSet = self.givens.filled().map(|(_, digit)| digit).collect();
        let free = size.digits() - given;
        let after = |a| free.iter().skip_while(move |b| *b <= a).map(move |b| (a, b));
        let (one, last) = crusts(size);
        std::iter::once((one, last))
            .filter(|(a, b)| free.contains(*a) && free.contains(*b))
            .chain(free.iter().flat_map(after))
            .find(|&(a, b)| blind(a, b))
    }

    /// Whether a cell is printed with a digit.
    pub fn is_given(&self, cell: Cell) -> bool {
        self.givens.get(cell).is_some()
    }
}
