//! A position as a person sees it: what is known about every cell and line, and why.

use std::collections::BTreeMap;

use grid::{Cell, CellSet, Digit, DigitSet, Grid, House, Size};
use rulebook::{Claim, ClueId, Puzzle, filling_digits};
use trail::{Cites, FactId, Proposal, PushError, StepId, Trail};

/// What is known at one moment of a solve.
///
/// A digit that a cell sees is crossed off for it without a step of its own: a person's eye does
/// that. Everything else a cell is known not to be rests on a fact of the trail. Invariant: the
/// candidates are exactly what the facts and the seen digits leave.
#[derive(Clone, Debug)]
pub struct View<'a> {
    puzzle: &'a Puzzle,
    trail: Trail,
    /// By [`Cell::slot`].
    candidates: Vec<DigitSet>,
    board: Grid,
    known: BTreeMap<Claim, FactId>,
    /// By [`Size::house_index`]: how many filling cells a line has, and the fact that says so.
    distance: Vec<Option<(FactId, u8, u8)>>,
    spent: Vec<Option<(FactId, DigitSet)>>,
}

impl<'a> View<'a> {
    /// The position in which nothing but the page is known.
    pub fn new(puzzle: &'a Puzzle) -> View<'a> {
        let size = puzzle.size();
        let n_houses = size.houses().count();
        let mut view = View {
            puzzle,
            trail: Trail::from_page(puzzle),
            candidates: vec![size.digits(); Cell::SLOTS],
            board: Grid::empty(size),
            known: BTreeMap::new(),
            distance: vec![None; n_houses],
            spent: vec![None; n_houses],
        };
        let givens: Vec<(FactId, Claim)> = view.trail.facts().map(|(id, it)| (id, it.claim())).collect();
        givens.into_iter().for_each(|(id, claim)| view.learn(id, claim));
        view
    }

    /// Takes a step.
    ///
    /// # Errors
    ///
    /// If the trail refuses it; the view is then as before.
    pub fn take(&mut self, proposal: Proposal) -> Result<StepId, PushError> {
        let step = self.trail.push(proposal)?;
        for id in self.trail.step(step).concludes().to_vec() {
            self.learn(id, self.trail.fact(id).claim());
        }
        Ok(step)
    }

    fn learn(&mut self, id: FactId, claim: Claim) {
        let size = self.size();
        self.known.entry(claim).or_insert(id);
        if let Some((cell, digits)) = claim.leaves(size) {
            let left = &mut self.candidates[cell.slot()];
            *left = *left & digits;
        }
        match claim {
            Claim::Is(cell, digit) => {
                self.board = self.board.clone().with(cell, Some(digit));
                for peer in size.peers(cell).iter() {
                    let left = &mut self.candidates[peer.slot()];
                    *left = left.without(digit);
                }
            }
            Claim::FillingCells { line, fewest, most } => self.narrow_distance(line, id, fewest, most),
            Claim::Spent { line, filling } => {
                self.spent[size.house_index(line)].get_or_insert((id, filling));
                let cells = filling.len() as u8;
                self.narrow_distance(line, id, cells, cells);
            }
            _ => {}
        }
    }

    /// Keeps the tightest bounds. Bounds of two facts are never mixed: one fact carries both.
    fn narrow_distance(&mut self, line: House, id: FactId, fewest: u8, most: u8) {
        let slot = &mut self.distance[self.puzzle.size().house_index(line)];
        if slot.is_none_or(|(_, a, b)| most - fewest < b - a) {
            *slot = Some((id, fewest, most));
        }
    }

    /// The puzzle.
    pub fn puzzle(&self) -> &'a Puzzle {
        self.puzzle
    }

    /// Its size.
    pub fn size(&self) -> Size {
        self.puzzle.size()
    }

    /// The facts and steps so far.
    pub fn trail(&self) -> &Trail {
        &self.trail
    }

    /// The facts and steps so far, without the view of them.
    pub fn into_trail(self) -> Trail {
        self.trail
    }

    /// The digits a cell can still hold.
    pub fn candidates(&self, cell: Cell) -> DigitSet {
        self.candidates[cell.slot()]
    }

    /// The cell's digit, if a fact says so.
    pub fn digit(&self, cell: Cell) -> Option<Digit> {
        self.board.get(cell)
    }

    /// Every digit known so far.
    pub fn board(&self) -> &Grid {
        &self.board
    }

    /// The cells whose digit no fact says yet, in reading order.
    pub fn open_cells(&self) -> impl Iterator<Item = Cell> {
        self.size().cells().filter(|it| self.digit(*it).is_none())
    }

    /// Whether every cell's digit is known.
    pub fn is_finished(&self) -> bool {
        self.board.is_full()
    }

    /// The fact that makes this very claim.
    pub fn fact(&self, claim: Claim) -> Option<FactId> {
        self.known.get(&claim).copied()
    }

    /// The facts about houses, with their claims: distances, spent clues, digits and crusts held.
    pub fn house_facts(&self) -> impl Iterator<Item = (FactId, Claim)> {
        self.known.iter().filter(|(claim, _)| claim.house().is_some()).map(|(claim, id)| (*id, *claim))
    }

    /// The cells of the house that can still hold the digit (or hold it).
    pub fn places(&self, house: House, digit: Digit) -> CellSet {
        let cells = self.size().cells_of(house).into_iter();
        cells.filter(|it| self.candidates(*it).contains(digit)).collect()
    }

    /// Whether a fact says that the cell is a crust: its digit or the bare kind.
    pub fn is_crust(&self, cell: Cell) -> bool {
        match self.digit(cell) {
            Some(digit) => !filling_digits(self.size()).contains(digit),
            None => self.fact(Claim::Crust(cell)).is_some(),
        }
    }

    /// Whether a fact says that the cell is filling: its digit or the bare kind.
    pub fn is_filling(&self, cell: Cell) -> bool {
        match self.digit(cell) {
            Some(digit) => filling_digits(self.size()).contains(digit),
            None => self.fact(Claim::Filling(cell)).is_some(),
        }
    }

    /// How many filling cells the line has at least and at most, and the fact that says so.
    pub fn distance(&self, line: House) -> Option<(FactId, u8, u8)> {
        self.distance[self.size().house_index(line)]
    }

    /// The digits between the line's crusts, and the fact that says so.
    pub fn spent(&self, line: House) -> Option<(FactId, DigitSet)> {
        self.spent[self.size().house_index(line)]
    }

    /// The clue beside the line whose rule is `rule`: its id and value.
    pub fn clue(&self, rule: &dyn rulebook::Rule, line: House) -> Option<(ClueId, u16)> {
        self.puzzle.clue_at(rule, line).map(|(id, it)| (id, it.value))
    }

    /// Whether the claim says more than is known.
    pub fn is_news(&self, claim: Claim) -> bool {
        match claim {
            Claim::Is(cell, _) => self.digit(cell).is_none(),
            Claim::IsNot(cell, digit) => self.digit(cell).is_none() && self.candidates(cell).contains(digit),
            Claim::Crust(cell) => !self.is_crust(cell),
            Claim::Filling(cell) => !self.is_filling(cell),
            Claim::FillingCells { line, fewest, most } => {
                self.distance(line).is_none_or(|(_, a, b)| most - fewest < b - a)
            }
            Claim::Spent { line, .. } => self.spent(line).is_none(),
            Claim::CrustAmong { .. } | Claim::DigitAmong { .. } => self.fact(claim).is_none(),
        }
    }

    /// Adds to `cites` why the cell cannot hold the digit. False if it can, for all that is known.
    ///
    /// A reason that is cited already is taken before a new one, so that citations stay few.
    #[must_use]
    pub fn why_not(&self, cell: Cell, digit: Digit, cites: &mut Cites) -> bool {
        if self.candidates(cell).contains(digit) {
            return false;
        }
        let reasons = self.reasons_against(cell, digit);
        let Some(chosen) = reasons.iter().find(|it| it.adds_nothing_to(cites)).or(reasons.first()) else {
            return false;
        };
        cites.facts.insert(chosen.fact);
        cites.houses.extend(chosen.house);
        true
    }

    /// Adds to `cites` why the cell can hold none of the digits.
    #[must_use]
    pub fn why_none_of(&self, cell: Cell, digits: DigitSet, cites: &mut Cites) -> bool {
        digits.iter().all(|it| self.why_not(cell, it, cites))
    }

    /// Adds to `cites` the fact that the cell is a crust.
    #[must_use]
    pub fn why_crust(&self, cell: Cell, cites: &mut Cites) -> bool {
        self.cite_kind(cell, self.is_crust(cell), Claim::Crust(cell), cites)
    }

    /// Adds to `cites` the fact that the cell is filling.
    #[must_use]
    pub fn why_filling(&self, cell: Cell, cites: &mut Cites) -> bool {
        self.cite_kind(cell, self.is_filling(cell), Claim::Filling(cell), cites)
    }

    fn cite_kind(&self, cell: Cell, known: bool, kind: Claim, cites: &mut Cites) -> bool {
        let is = self.digit(cell).and_then(|digit| self.fact(Claim::Is(cell, digit)));
        let kind = self.fact(kind);
        let fact = kind.filter(|it| cites.facts.contains(it)).or(is).or(kind);
        cites.facts.extend(fact.filter(|_| known));
        known && fact.is_some()
    }

    /// Each reason why the cell cannot hold the digit, the most visible first.
    fn reasons_against(&self, cell: Cell, digit: Digit) -> Vec<Reason> {
        let own = self.digit(cell).filter(|it| *it != digit).map(|it| Claim::Is(cell, it));
        let seen = self.size().houses_of(cell).into_iter().filter_map(|house| {
            let at = self.size().cells_of(house).into_iter().find(|it| self.digit(*it) == Some(digit))?;
            Some(Reason { fact: self.fact(Claim::Is(at, digit))?, house: Some(house) })
        });
        let kind = match filling_digits(self.size()).contains(digit) {
            true => Claim::Crust(cell),
            false => Claim::Filling(cell),
        };
        let of = |claim| Some(Reason { fact: self.fact(claim)?, house: None });
        let own = own.and_then(of);
        own.into_iter().chain(seen).chain(of(kind)).chain(of(Claim::IsNot(cell, digit))).collect()
    }
}

/// One reason why a cell cannot hold a digit.
struct Reason {
    fact: FactId,
    house: Option<House>,
}

impl Reason {
    fn adds_nothing_to(&self, cites: &Cites) -> bool {
        cites.facts.contains(&self.fact) && self.house.is_none_or(|it| cites.houses.contains(&it))
    }
}
