//! How something that was followed to its end is told, and what it rests on: nothing that its looks can spare.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, DigitSet, House};
use rulebook::Claim;
use trail::{Argument, Because, Branch, Cites, End, Follows, Link, Proposal};

use super::looks::{Board, Look, Looks};
use super::search::{Ending, Supposed};
use crate::View;
use crate::classic::FOLLOWED;
use crate::grounds::{Ground, cite, grounds_of};
use crate::sandwich::{KnownOfCells, without_spare};

/// The endings of one set of houses as a step that concludes what `is_news`; none if nothing is.
pub(super) fn told(
    view: &View,
    looks: &Looks,
    endings: &[Ending],
    is_news: impl Fn(&Claim) -> bool,
) -> Option<Proposal> {
    let (mut conclusions, mut branches): (Vec<(Claim, Cites)>, Vec<Branch>) = Default::default();
    let mut denied: Vec<Supposed> = Vec::new();
    for ending in endings {
        // Where a cell is shown to be of a kind, the digits that go with it are not concluded again.
        let (cell, digits) = ending.supposed;
        let is_implied = denied.iter().any(|it| it.0 == cell && digits.is_subset(it.1));
        let claim = opposite(view, ending.supposed);
        if is_implied || !is_news(&claim) {
            continue;
        }
        denied.push(ending.supposed);
        let (branch, cites) = Telling::new(view, looks, claim, ending)?.told()?;
        conclusions.push((claim, cites));
        branches.push(branch);
    }
    let argument = Argument::Followed { branches };
    (!conclusions.is_empty()).then_some(Proposal { technique: FOLLOWED, argument, conclusions })
}

/// What is so if the supposition is not.
fn opposite(view: &View, (cell, digits): Supposed) -> Claim {
    match digits.single() {
        Some(digit) => Claim::IsNot(cell, digit),
        None if digits.is_subset(view.filling_digits()) => Claim::Crust(cell),
        None => Claim::Filling(cell),
    }
}

struct Telling<'l, 'v> {
    view: &'l View<'l>,
    looks: &'l Looks<'v>,
    /// The cell with the whole opposite of what is concluded: that some of it is excluded needs citing too.
    supposed: Supposed,
    sequence: Vec<Look>,
    /// What need not be said, by look and cell: nothing later rests on it.
    unsaid: BTreeSet<(usize, Cell)>,
}

/// What a look left to a cell.
struct Narrowed {
    look: usize,
    link: Link,
}

impl<'l, 'v> Telling<'l, 'v> {
    fn new(view: &'l View, looks: &'l Looks<'v>, claim: Claim, ending: &Ending) -> Option<Self> {
        let (cell, leaves) = claim.leaves(view.size())?;
        let supposed = (cell, looks.digits() - leaves);
        Some(Telling { view, looks, supposed, sequence: ending.looks.clone(), unsaid: BTreeSet::new() })
    }

    fn told(mut self) -> Option<(Branch, Cites)> {
        let all: Vec<Ground> = self.touched().iter().flat_map(|it| grounds_of(self.view, it)).collect();
        self.ends(&self.shown_by(&all)).then_some(())?;
        self.plain_where_possible(&self.shown_by(&all));
        let grounds = without_spare(all, |grounds| self.ends(&self.shown_by(grounds)));
        let mut cites = Cites::default();
        self.sequence.iter().for_each(|it| cites.merge(&self.looks.base(*it)));
        cite(self.view, &grounds, &mut cites).then_some(())?;
        // What is seen in a house that is cited anyway need not be cited again.
        let cites = cites.each().fold(cites.clone(), |kept, it| {
            Some(it.left_out_of(&kept)).filter(|it| self.rests_on(it)).unwrap_or(kept)
        });
        let start = self.seen_from(&cites);
        self.leave_unsaid(&start);
        let (narrowed, board) = self.followed(&start);
        let chain = self.said(start, narrowed, &self.in_view(&cites));
        let (cell, digits) = self.supposed;
        Some((Branch { cell, digits, chain, end: self.end(&board)? }, cites))
    }

    /// The links that need saying: what a cell loses to a digit in its sight is seen without a word.
    fn said(&self, start: Board, narrowed: Vec<Narrowed>, houses: &BTreeSet<House>) -> Vec<Link> {
        let size = self.view.size();
        let mut board = start;
        let see = |board: &mut Board, cell: Cell, digits: DigitSet| {
            board[cell.slot()] = digits;
            let seen = size.houses_of(cell).into_iter().filter(|it| digits.len() == 1 && houses.contains(it));
            let peers = seen.flat_map(|it| size.cells_of(it)).filter(|it| *it != cell);
            peers.for_each(|it| board[it.slot()] = board[it.slot()] - digits);
        };
        let (cell, digits) = self.supposed;
        see(&mut board, cell, digits);
        let mut said = Vec::new();
        for link in narrowed.into_iter().map(|it| it.link) {
            let is_plain = link.because == Because::OneDigit && link.leaves.len() > 1;
            let is_seen = board[link.cell.slot()].is_subset(link.leaves) && link.leaves.len() > 1;
            if !is_plain && !is_seen {
                see(&mut board, link.cell, link.leaves);
                said.push(link);
            }
        }
        said
    }

    /// Whether every look is at something cited, and the last finds no way.
    fn rests_on(&self, cites: &Cites) -> bool {
        let houses = self.in_view(cites);
        let is_cited = |it: &Look| {
            let base = self.looks.base(*it);
            base.clues.is_subset(&cites.clues)
                && base.facts.is_subset(&cites.facts)
                && base.houses.is_subset(&houses)
        };
        self.sequence.iter().all(is_cited) && self.ends(&self.seen_from(cites))
    }

    /// The houses cited, and those that clues and facts bring along.
    fn in_view(&self, cites: &Cites) -> BTreeSet<House> {
        let (puzzle, trail) = (self.view.puzzle(), self.view.trail());
        let of_clues = cites.clues.iter().filter_map(|it| Some(puzzle.clue(*it)?.line));
        let of_facts = cites.facts.iter().filter_map(|it| trail.fact(*it).claim().house());
        cites.houses.iter().copied().chain(of_clues).chain(of_facts).collect()
    }

    /// What a reader sees who knows the cited facts and looks at the cited houses.
    fn seen_from(&self, cites: &Cites) -> Board {
        let (size, houses) = (self.view.size(), self.in_view(cites));
        let mut board = self.shown_by(&[]);
        for claim in cites.facts.iter().map(|it| self.view.trail().fact(*it).claim()) {
            if let Some((cell, leaves)) = claim.leaves(size) {
                board[cell.slot()] = board[cell.slot()] & leaves;
            }
            if let Claim::Is(cell, digit) = claim {
                let seen = size.houses_of(cell).into_iter().filter(|it| houses.contains(it));
                let peers = seen.flat_map(|it| size.cells_of(it)).filter(|it| *it != cell);
                peers.for_each(|it| board[it.slot()] = board[it.slot()].without(digit));
            }
        }
        board
    }

    fn touched(&self) -> CellSet {
        let looked_at = self.sequence.iter().flat_map(|it| self.looks.cells(it.house).iter().copied());
        looked_at.chain([self.supposed.0]).collect()
    }

    /// Looks at the house alone where its clue adds nothing.
    fn plain_where_possible(&mut self, start: &Board) {
        for at in 0..self.sequence.len() {
            let before = std::mem::replace(&mut self.sequence[at].by_clue, false);
            if before && !self.ends(start) {
                self.sequence[at].by_clue = true;
            }
        }
    }

    fn leave_unsaid(&mut self, start: &Board) {
        let (narrowed, _) = self.followed(start);
        for it in narrowed.iter().rev() {
            self.unsaid.insert((it.look, it.link.cell));
            if !self.ends(start) {
                self.unsaid.remove(&(it.look, it.link.cell));
            }
        }
    }

    /// What the grounds and the supposition leave.
    fn shown_by(&self, grounds: &[Ground]) -> Board {
        let known = KnownOfCells::from(self.looks.digits(), grounds, &[self.supposed]);
        let mut board = [DigitSet::EMPTY; Cell::SLOTS];
        self.view.size().cells().for_each(|it| board[it.slot()] = known.left(it));
        board
    }

    /// Whether the last look finds no way.
    fn ends(&self, start: &Board) -> bool {
        let (_, board) = self.followed(start);
        self.sequence.last().is_some_and(|it| self.looks.leaves(&board, *it).is_err())
    }

    /// What each look but the last leaves, and the board for the last.
    fn followed(&self, start: &Board) -> (Vec<Narrowed>, Board) {
        let mut board = *start;
        let mut narrowed = Vec::new();
        let before_last = self.sequence.len().saturating_sub(1);
        for (at, look) in self.sequence.iter().enumerate().take(before_last) {
            // A look that finds no way earlier leaves all as it is: the last then ends only if it can by itself.
            let Ok(leaves) = self.looks.leaves(&board, *look) else { continue };
            let before = board;
            for (&cell, leaves) in self.looks.cells(look.house).iter().zip(leaves) {
                if before[cell.slot()] != leaves && !self.unsaid.contains(&(at, cell)) {
                    let because = self.because(*look, &before, cell, leaves);
                    narrowed.push(Narrowed { look: at, link: Link { cell, leaves, because } });
                    board[cell.slot()] = leaves;
                }
            }
        }
        (narrowed, board)
    }

    /// Why a look leaves that to a cell.
    fn because(&self, look: Look, before: &Board, cell: Cell, leaves: DigitSet) -> Because {
        match self.looks.follows(look.house).filter(|_| look.by_clue) {
            Some(Follows::Clue(clue)) => return Because::Clue(clue),
            Some(Follows::Known(claim)) => return Because::Known(claim),
            _ => {}
        }
        let house = self.looks.house(look.house);
        let others = || self.looks.cells(look.house).iter().filter(|it| **it != cell);
        let is_elsewhere = others().any(|it| !(before[it.slot()] & leaves).is_empty());
        if leaves.len() == 1 && !is_elsewhere {
            return Because::OnePlace(house);
        }
        match (before[cell.slot()] - leaves).is_subset(self.taken(look, before, cell)) {
            true => Because::OneDigit,
            false => Because::Fit(house),
        }
    }

    /// The digits that other cells of the house are left with alone.
    fn taken(&self, look: Look, board: &Board, but: Cell) -> DigitSet {
        let others = self.looks.cells(look.house).iter().filter(|it| **it != but);
        let single = others.map(|it| board[it.slot()]).filter(|it| it.len() == 1);
        single.fold(DigitSet::EMPTY, |all, it| all | it)
    }

    /// How the last look finds no way.
    fn end(&self, board: &Board) -> Option<End> {
        let look = *self.sequence.last()?;
        match self.looks.follows(look.house).filter(|_| look.by_clue) {
            Some(Follows::Clue(clue)) => return Some(End::NoWay(clue)),
            Some(Follows::Known(claim)) => return Some(End::Breaks(claim)),
            _ => {}
        }
        let (house, cells) = (self.looks.house(look.house), self.looks.cells(look.house));
        let left = |cell: &Cell| board[cell.slot()];
        let taken = |but: &Cell| self.taken(look, board, *but);
        if let Some(cell) = cells.iter().find(|it| left(it).is_subset(taken(it))) {
            return Some(End::NoDigit(*cell));
        }
        let has_place = |digit| cells.iter().any(|it| left(it).contains(digit) && !taken(it).contains(digit));
        let placeless = self.looks.digits().iter().find(|it| !has_place(*it));
        Some(placeless.map_or(End::NoFit(house), |it| End::NoPlace(house, it)))
    }
}
