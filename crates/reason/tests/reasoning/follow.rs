//! Follows a told case link by link, as a careful reader would, with nothing of `reason`.
//!
//! The reader has a board of digits left, which the cited facts about cells have narrowed, and looks at
//! the cited houses, clues and facts about houses (a clue or fact brings its house along). A digit that
//! is known of a cell leaves the cells that see it in such a house without being said. Every other
//! change has to be said in a link, with a reason that is good by itself: it is checked by laying out
//! the house in every way, from the definition of the rules.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use grid::{Cell, Digit, DigitSet, House, Size};
use rulebook::{Claim, ClueId, Puzzle};
use trail::{Because, Branch, Cites, End, Link, Trail};

use crate::layouts::{betweens, can_be_laid_out};

/// Follows the case that is to show `claim`; where and why it cannot be followed, if it cannot.
pub(crate) fn follow(
    puzzle: &Puzzle,
    trail: &Trail,
    claim: &Claim,
    cites: &Cites,
    branch: &Branch,
) -> Result<(), Fault> {
    let reader = Reader::new(puzzle, trail, cites);
    let size = puzzle.size();
    let opposite = claim.leaves(size).map(|(cell, leaves)| (cell, size.digits() - leaves));
    if opposite != Some((branch.cell, branch.digits)) {
        return Err(Fault::new("it does not suppose the opposite of its conclusion"));
    }
    reader.case(&reader.before(), branch).map_err(|it| it.within(branch))
}

/// Where a case cannot be followed, and why.
#[derive(Debug)]
pub(crate) struct Fault {
    /// The suppositions that lead there, the outermost first.
    path: Vec<String>,
    /// The link, from 1; none for the end or the supposition.
    link: Option<usize>,
    why: String,
}

impl Fault {
    fn new(why: impl Into<String>) -> Fault {
        Fault { path: Vec::new(), link: None, why: why.into() }
    }

    fn within(mut self, branch: &Branch) -> Fault {
        self.path.insert(0, format!("{} in {:?}", branch.cell, branch.digits));
        self
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let place = self.link.map_or("end".to_owned(), |it| format!("link {it}"));
        write!(f, "case {}, {place}: {}", self.path.join(" > "), self.why)
    }
}

/// What is looked at.
struct Reader {
    size: Size,
    houses: BTreeSet<House>,
    clues: BTreeMap<ClueId, (House, u16)>,
    facts: Vec<Claim>,
}

/// The digits left to each cell.
type Board = BTreeMap<Cell, DigitSet>;

impl Reader {
    fn new(puzzle: &Puzzle, trail: &Trail, cites: &Cites) -> Reader {
        let clues = cites.clues.iter().map(|id| (*id, puzzle.clue(*id).unwrap()));
        let clues: BTreeMap<_, _> = clues.map(|(id, it)| (id, (it.line, it.value))).collect();
        let facts: Vec<Claim> = cites.facts.iter().map(|it| trail.fact(*it).claim()).collect();
        let mut houses = cites.houses.clone();
        houses.extend(clues.values().map(|it| it.0));
        houses.extend(facts.iter().filter_map(Claim::house));
        Reader { size: puzzle.size(), houses, clues, facts }
    }

    /// The board before anything is supposed.
    fn before(&self) -> Board {
        let mut board: Board = self.size.cells().map(|it| (it, self.size.digits())).collect();
        for (cell, digits) in self.facts.iter().filter_map(|it| it.leaves(self.size)) {
            self.keep(&mut board, cell, digits);
        }
        board
    }

    /// Leaves only `digits` to the cell. A single digit that is said of a cell is known to be there, so
    /// the cells that see it lose it.
    fn keep(&self, board: &mut Board, cell: Cell, digits: DigitSet) {
        let lose = |board: &mut Board, at: Cell, lost: DigitSet| {
            board.entry(at).and_modify(|it| *it = *it - lost);
        };
        lose(board, cell, self.size.digits() - digits);
        if digits.len() == 1 {
            for house in &self.houses {
                let cells = self.size.cells_of(*house);
                if cells.contains(&cell) {
                    cells.into_iter().filter(|it| *it != cell).for_each(|it| lose(board, it, digits));
                }
            }
        }
    }

    fn case(&self, before: &Board, branch: &Branch) -> Result<(), Fault> {
        let mut board = before.clone();
        self.keep(&mut board, branch.cell, branch.digits);
        for (link, number) in branch.chain.iter().zip(1..) {
            self.link(&board, link).map_err(|why| Fault { link: Some(number), ..Fault::new(why) })?;
            self.keep(&mut board, link.cell, link.leaves);
        }
        match &branch.end {
            End::Split(parts) => self.split(&board, parts),
            other => self.end(&board, other).map_err(Fault::new),
        }
    }

    /// Whether the link leaves what it says, for the reason it names.
    fn link(&self, board: &Board, link: &Link) -> Result<(), String> {
        let left = board[&link.cell];
        let lost = left - link.leaves;
        if link.leaves.is_empty() || !link.leaves.is_subset(left) {
            return Err(format!("{left:?} is left, of which {:?} is not a part", link.leaves));
        }
        if lost.is_empty() && link.because != Because::OneDigit {
            return Err(format!("it says nothing new about {left:?}"));
        }
        // The other digits alone: nothing may be possible with one of them in the cell.
        let mut others = board.clone();
        others.insert(link.cell, lost);
        match link.because {
            Because::OneDigit => match lost.is_empty() && left.len() == 1 {
                true => Ok(()),
                false => Err(format!("{left:?} is left, not one digit")),
            },
            Because::OnePlace(house) => {
                let digit = link.leaves.single().ok_or("one place is for one digit")?;
                let cells = self.looked_at(house)?;
                match cells.iter().filter(|it| board[it].contains(digit)).collect::<Vec<_>>()[..] {
                    [only] if *only == link.cell => Ok(()),
                    ref places => Err(format!("{digit} can be in {places:?} of {house}")),
                }
            }
            Because::Fit(house) => match self.looked_at(house)?.contains(&link.cell) {
                true => self.no_layout(&others, house),
                false => Err(format!("the cell is not in {house}")),
            },
            Because::Clue(clue) => self.no_way(&others, clue),
            Because::Known(claim) => self.broken(&others, &claim),
        }
    }

    /// Whether the end cannot be.
    fn end(&self, board: &Board, end: &End) -> Result<(), String> {
        match end {
            End::NoDigit(cell) => match board[cell].is_empty() {
                true => Ok(()),
                false => Err(format!("{cell} can hold {:?}", board[cell])),
            },
            End::NoPlace(house, digit) => {
                match self.looked_at(*house)?.iter().find(|it| board[it].contains(*digit)) {
                    None => Ok(()),
                    Some(cell) => Err(format!("{digit} can be in {cell} of {house}")),
                }
            }
            End::NoFit(house) => self.no_layout(board, *house),
            End::NoWay(clue) => self.no_way(board, *clue),
            End::Breaks(claim) => self.broken(board, claim),
            End::Split(_) => Err("a split is no contradiction by itself".to_owned()),
        }
    }

    /// Whether the parts are about every digit left to one cell, and each cannot be.
    fn split(&self, board: &Board, parts: &[Branch]) -> Result<(), Fault> {
        let Some(first) = parts.first() else { return Err(Fault::new("it is split into no cases")) };
        if parts.iter().any(|it| it.cell != first.cell) {
            return Err(Fault::new("it is split by more than one cell"));
        }
        let covered = parts.iter().fold(DigitSet::EMPTY, |all, it| all | it.digits);
        let forgotten = board[&first.cell] - covered;
        if !forgotten.is_empty() {
            return Err(Fault::new(format!("no case for {forgotten:?} in {}", first.cell)));
        }
        parts.iter().try_for_each(|it| self.case(board, it).map_err(|fault| fault.within(it)))
    }

    /// The house's cells, if it is looked at.
    fn looked_at(&self, house: House) -> Result<Vec<Cell>, String> {
        match self.houses.contains(&house) {
            true => Ok(self.size.cells_of(house)),
            false => Err(format!("{house} is not cited")),
        }
    }

    /// The digits left to each cell of the house.
    fn left_in(&self, board: &Board, house: House) -> Result<Vec<DigitSet>, String> {
        Ok(self.looked_at(house)?.iter().map(|it| board[it]).collect())
    }

    fn no_layout(&self, board: &Board, house: House) -> Result<(), String> {
        match can_be_laid_out(&self.left_in(board, house)?) {
            true => Err(format!("{house} can be laid out")),
            false => Ok(()),
        }
    }

    fn no_way(&self, board: &Board, clue: ClueId) -> Result<(), String> {
        let (line, sum) = self.clues.get(&clue).copied().ok_or("the clue is not cited")?;
        let ways = betweens(self.size, &self.left_in(board, line)?);
        match ways.into_iter().find(|it| it.sum() == sum) {
            None => Ok(()),
            Some(way) => Err(format!("{way:?} makes the {sum} of {line}")),
        }
    }

    /// Whether the claim is cited and cannot be true on the board.
    fn broken(&self, board: &Board, claim: &Claim) -> Result<(), String> {
        if !self.facts.contains(claim) {
            return Err(format!("{claim:?} is not cited"));
        }
        match self.can_be_true(board, claim)? {
            true => Err(format!("{claim:?} can be true")),
            false => Ok(()),
        }
    }

    fn can_be_true(&self, board: &Board, claim: &Claim) -> Result<bool, String> {
        if let Some((cell, digits)) = claim.leaves(self.size) {
            return Ok(!(board[&cell] & digits).is_empty());
        }
        let house = claim.house().ok_or("a claim about nothing")?;
        let ways = || Ok::<_, String>(betweens(self.size, &self.left_in(board, house)?));
        let any_holds = |cells: grid::CellSet, digits: DigitSet| {
            let mut with = cells.iter().map(|cell| {
                let mut board = board.clone();
                board.entry(cell).and_modify(|it| *it = *it & digits);
                self.left_in(&board, house)
            });
            with.try_fold(false, |any, left| Ok(any || can_be_laid_out(&left?)))
        };
        let crusts = [1, self.size.side()].into_iter().filter_map(Digit::new).collect();
        match *claim {
            Claim::CrustAmong { cells, .. } => any_holds(cells, crusts),
            Claim::DigitAmong { digit, cells, .. } => any_holds(cells, DigitSet::only(digit)),
            Claim::FillingCells { fewest, most, .. } => {
                let is_meant = |it: &DigitSet| (fewest..=most).contains(&(it.len() as u8));
                Ok(ways()?.iter().any(is_meant))
            }
            Claim::Spent { filling, .. } => Ok(ways()?.contains(&filling)),
            _ => Err(format!("{claim:?} is of a kind that no reader here knows")),
        }
    }
}
