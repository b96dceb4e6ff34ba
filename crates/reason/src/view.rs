//! A position as a person sees it: what is known about every cell and line, and why.
//!
//! Everything that techniques ask again and again is kept ready and brought up to date with each fact:
//! a look at a position costs no search through its facts.

mod clued_line;
mod crust_pairs;
mod fits;
mod geometry;
mod implied;
mod places_left;
mod reasons;
mod remembered;

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use grid::{Cell, CellSet, Digit, DigitSet, Grid, House, Size};
use rulebook::{Claim, ClueId, Puzzle, filling_digits};
use trail::{FactId, Proposal, PushError, StepId, Trail};

pub(crate) use clued_line::CluedLine;
pub(crate) use crust_pairs::{CrustPairs, Pair, all_pairs, is_on, n_between, uses};
pub(crate) use fits::{Fits, LineFits, OnSides};
use geometry::Geometry;
pub(crate) use implied::Implied;
use places_left::PlacesLeft;
pub(crate) use remembered::Remembered;

use crate::Part;
use crate::parts::Changes;

/// What is known at one moment of a solve.
///
/// A digit that a cell sees is crossed off for it without a step of its own: a person's eye does
/// that. Everything else a cell is known not to be rests on a fact of the trail. Invariant: the
/// candidates are exactly what the facts and the seen digits leave.
///
/// Views are cloned for every "what if" and every look at less than is known, so a clone shares what does not change
/// and what was worked out of a line; what was worked out in one of them is then known to the other.
#[derive(Clone, Debug)]
pub struct View<'a> {
    puzzle: &'a Puzzle,
    geometry: Arc<Geometry>,
    filling_digits: DigitSet,
    /// The lines that have a sandwich clue.
    clued: Arc<[CluedLine]>,
    trail: Trail,
    board: Grid,
    /// The cells whose digit no fact says yet.
    open: CellSet,
    /// By [`Size::house_index`]: the digits that facts place there.
    placed_in: Vec<DigitSet>,
    /// By [`Size::house_index`].
    places_left: Vec<PlacesLeft>,
    /// By [`Cell::slot`].
    candidates: Vec<DigitSet>,
    /// By [`Cell::slot`].
    cell_facts: Vec<CellFacts>,
    /// By digit, from 0: the cells that can still hold it, or hold it.
    places: Vec<CellSet>,
    /// By digit, from 0: the cells that hold it.
    placed: Vec<CellSet>,
    /// The cells known to be crusts, and those known to be filling, by their digit or the bare kind.
    crusts: CellSet,
    filling: CellSet,
    house_facts: BTreeMap<Claim, FactId>,
    changes: Changes,
    /// By [`Size::house_index`]: how many filling cells a line has, and the fact that says so.
    distance: Vec<Option<(FactId, u8, u8)>>,
    /// By [`Size::house_index`].
    spent: Vec<Option<(FactId, DigitSet)>>,
    /// By [`Size::house_index`]; of use for lines only.
    crust_pairs: Vec<CrustPairs>,
    /// By [`Size::house_index`]; of use for lines only.
    fits: Vec<OnceLock<Arc<LineFits>>>,
    remembered: OnceLock<Arc<Remembered>>,
}

/// The facts about one cell, by what they claim.
#[derive(Clone, Copy, Default, Debug)]
struct CellFacts {
    is: Option<FactId>,
    crust: Option<FactId>,
    filling: Option<FactId>,
    /// By digit, from 0.
    is_not: [Option<FactId>; 16],
}

impl<'a> View<'a> {
    /// The position in which nothing but the page is known.
    pub fn new(puzzle: &'a Puzzle) -> View<'a> {
        View::of_sheet(puzzle, &[])
    }

    /// The position in which nothing is known but the page and what a solver has noted.
    pub fn of_sheet(puzzle: &'a Puzzle, notes: &[Claim]) -> View<'a> {
        let size = puzzle.size();
        let geometry = Geometry::new(size);
        let n_slots = size.cells().map(Cell::slot).max().map_or(0, |it| it + 1);
        let any_pair = CrustPairs::new(usize::from(size.side()), |_| true);
        let mut view = View {
            puzzle,
            filling_digits: filling_digits(size),
            clued: geometry.lines().iter().filter_map(|it| CluedLine::of(puzzle, *it)).collect(),
            trail: Trail::from_sheet(puzzle, notes.iter().copied()),
            board: Grid::empty(size),
            open: size.cells().collect(),
            placed_in: vec![DigitSet::EMPTY; geometry.houses().len()],
            places_left: vec![PlacesLeft::anywhere(size.side()); geometry.houses().len()],
            candidates: vec![size.digits(); n_slots],
            cell_facts: vec![CellFacts::default(); n_slots],
            places: vec![size.cells().collect(); 16],
            placed: vec![CellSet::EMPTY; 16],
            crusts: CellSet::EMPTY,
            filling: CellSet::EMPTY,
            house_facts: BTreeMap::new(),
            changes: Changes::default(),
            distance: vec![None; geometry.houses().len()],
            spent: vec![None; geometry.houses().len()],
            crust_pairs: vec![any_pair; geometry.houses().len()],
            fits: vec![OnceLock::new(); geometry.houses().len()],
            remembered: OnceLock::new(),
            geometry: Arc::new(geometry),
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

    /// Notes the claim, however it came to be known.
    pub(crate) fn note(&mut self, claim: Claim) {
        let id = self.trail.note(claim);
        self.learn(id, claim);
    }

    /// The position with these claims known besides, however they came to be known.
    pub(crate) fn with(&self, claims: impl IntoIterator<Item = Claim>) -> View<'a> {
        let mut view = self.clone();
        claims.into_iter().for_each(|it| view.note(it));
        view
    }

    fn learn(&mut self, id: FactId, claim: Claim) {
        let size = self.size();
        self.remembered = OnceLock::new();
        if let Some((cell, digits)) = claim.leaves(size) {
            self.cross_off(cell, size.digits() - digits);
        }
        match claim {
            Claim::Is(cell, digit) => {
                self.cell_facts[cell.slot()].is.get_or_insert(id);
                self.place(cell, digit);
            }
            Claim::IsNot(cell, digit) => {
                _ = self.cell_facts[cell.slot()].is_not[at(digit)].get_or_insert(id);
            }
            Claim::Crust(cell) => {
                self.cell_facts[cell.slot()].crust.get_or_insert(id);
                self.set_kind(cell, true);
            }
            Claim::Filling(cell) => {
                self.cell_facts[cell.slot()].filling.get_or_insert(id);
                self.set_kind(cell, false);
            }
            Claim::FillingCells { line, fewest, most } => self.narrow_distance(line, id, fewest, most),
            Claim::Spent { line, filling } => {
                self.note_change(Part::Lines);
                self.spent[size.house_index(line)].get_or_insert((id, filling));
                self.fits[size.house_index(line)] = OnceLock::new();
                let cells = filling.len() as u8;
                self.narrow_distance(line, id, cells, cells);
            }
            Claim::CrustAmong { .. } | Claim::DigitAmong { .. } => {}
        }
        if claim.house().is_some() {
            self.house_facts.entry(claim).or_insert(id);
        }
    }

    fn place(&mut self, cell: Cell, digit: Digit) {
        self.note_change(Part::Digits);
        self.board.set(cell, Some(digit));
        self.open.remove(cell);
        self.placed[at(digit)].insert(cell);
        for house in self.size().houses_of(cell) {
            let placed = &mut self.placed_in[self.puzzle.size().house_index(house)];
            *placed = placed.with(digit);
            self.forget_sides(self.puzzle.size().house_index(house));
        }
        self.set_kind(cell, !self.filling_digits.contains(digit));
        for peer in self.geometry.peers(cell).iter() {
            self.cross_off(peer, DigitSet::only(digit));
        }
    }

    fn cross_off(&mut self, cell: Cell, digits: DigitSet) {
        let lost = self.candidates[cell.slot()] & digits;
        if lost.is_empty() {
            return;
        }
        self.note_change(Part::Candidates);
        self.candidates[cell.slot()] = self.candidates[cell.slot()] - lost;
        let [row, column, the_box] = self.size().houses_of(cell).map(|it| self.puzzle.size().house_index(it));
        [row, column].into_iter().for_each(|it| self.fits[it] = OnceLock::new());
        [row, column, the_box].into_iter().for_each(|it| self.places_left[it].lose(lost));
        for digit in lost.iter() {
            self.places[at(digit)].remove(cell);
        }
    }

    fn set_kind(&mut self, cell: Cell, is_crust: bool) {
        let known = if is_crust { &mut self.crusts } else { &mut self.filling };
        if known.insert(cell) {
            self.note_change(Part::Kinds);
            let [row, column, _] = self.size().houses_of(cell);
            for line in [row, column] {
                let index = self.puzzle.size().house_index(line);
                let at = self.geometry.cells_of(line).iter().position(|it| *it == cell);
                let pairs = &mut self.crust_pairs[index];
                let n_before = pairs.pairs().len();
                pairs.retain(|it| at.is_none_or(|at| uses(it, at) == is_crust));
                if pairs.pairs().len() < n_before {
                    self.forget_sides(index);
                }
            }
        }
    }

    /// Forgets what follows on the sides of the crusts of the line with that [`Size::house_index`].
    fn forget_sides(&mut self, index: usize) {
        if let Some(fits) = self.fits[index].get_mut() {
            Arc::make_mut(fits).on_sides = OnSides::default();
        }
    }

    /// Keeps the tightest bounds. Bounds of two facts are never mixed: one fact carries both.
    fn narrow_distance(&mut self, line: House, id: FactId, fewest: u8, most: u8) {
        let slot = &mut self.distance[self.puzzle.size().house_index(line)];
        if slot.is_none_or(|(_, a, b)| most - fewest < b - a) {
            *slot = Some((id, fewest, most));
            self.note_change(Part::Lines);
            self.fits[self.puzzle.size().house_index(line)] = OnceLock::new();
            self.fit_crusts(line);
        }
    }

    /// The part changes with the last fact.
    fn note_change(&mut self, part: Part) {
        self.changes.note(part, self.trail.n_facts());
    }

    /// Works out anew where the crusts of the line can be.
    fn fit_crusts(&mut self, line: House) {
        let cells = self.geometry.cells_of(line);
        let (n, known) = (cells.len(), self.crusts & self.geometry.members(line));
        let fits = |(left, right): Pair| {
            let ends = [cells[left], cells[right]];
            !ends.iter().any(|it| self.filling.contains(*it))
                && known.iter().all(|it| ends.contains(&it))
                && !self.is_too_near_or_far(line, (left, right))
        };
        let left = CrustPairs::new(n, fits);
        self.crust_pairs[self.puzzle.size().house_index(line)] = left;
    }

    /// Whether the line's distance rules the pair out.
    pub(crate) fn is_too_near_or_far(&self, line: House, (left, right): Pair) -> bool {
        self.distance(line).is_some_and(|(_, fewest, most)| {
            !(usize::from(fewest)..=usize::from(most)).contains(&(right - left - 1))
        })
    }

    /// The puzzle.
    pub fn puzzle(&self) -> &'a Puzzle {
        self.puzzle
    }

    /// Its size.
    pub fn size(&self) -> Size {
        self.puzzle.size()
    }

    /// Rows, then columns, then boxes.
    pub(crate) fn houses(&self) -> &[House] {
        self.geometry.houses()
    }

    /// Rows, then columns.
    pub(crate) fn lines(&self) -> &[House] {
        self.geometry.lines()
    }

    /// The house's cells in order.
    pub(crate) fn cells_of(&self, house: House) -> &[Cell] {
        self.geometry.cells_of(house)
    }

    /// The house's cells as a set.
    pub(crate) fn members(&self, house: House) -> CellSet {
        self.geometry.members(house)
    }

    /// The other cells that share a house with this one.
    pub(crate) fn peers(&self, cell: Cell) -> CellSet {
        self.geometry.peers(cell)
    }

    /// The open cells with so many digits left.
    pub(crate) fn cells_with(&self, n_digits: usize) -> CellSet {
        self.open_cells().filter(|it| self.candidates(*it).len() == n_digits).collect()
    }

    /// The digits that are no crusts.
    pub(crate) fn filling_digits(&self) -> DigitSet {
        self.filling_digits
    }

    /// The lines that have a sandwich clue: rows, then columns.
    pub(crate) fn clued_lines(&self) -> &[CluedLine] {
        &self.clued
    }

    /// The places left for the line's crusts.
    pub(crate) fn crust_pairs(&self, line: House) -> &CrustPairs {
        &self.crust_pairs[self.size().house_index(line)]
    }

    /// What is remembered of how digits fit the line.
    pub(crate) fn line_fits(&self, line: House) -> &LineFits {
        self.fits[self.size().house_index(line)].get_or_init(Arc::default)
    }

    /// What is remembered of the position as a whole.
    pub(crate) fn remembered(&self) -> &Remembered {
        self.remembered.get_or_init(Arc::default)
    }

    /// The facts and steps so far.
    pub fn trail(&self) -> &Trail {
        &self.trail
    }

    /// The facts and steps so far, without the view of them.
    pub fn into_trail(self) -> Trail {
        self.trail
    }

    /// Whether one of the parts of what is known has changed since the trail had so many facts.
    pub fn has_changed(&self, n_facts: usize, parts: &[Part]) -> bool {
        self.changes.any_since(n_facts, parts)
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
        self.open.iter()
    }

    /// The same as a set.
    pub(crate) fn open(&self) -> CellSet {
        self.open
    }

    /// Whether every cell's digit is known.
    pub fn is_finished(&self) -> bool {
        self.open.is_empty()
    }

    /// The fact that makes this very claim.
    pub fn fact(&self, claim: Claim) -> Option<FactId> {
        match claim {
            Claim::Is(cell, digit) => self.facts_of(cell).is.filter(|_| self.digit(cell) == Some(digit)),
            Claim::IsNot(cell, digit) => self.facts_of(cell).is_not[at(digit)],
            Claim::Crust(cell) => self.facts_of(cell).crust,
            Claim::Filling(cell) => self.facts_of(cell).filling,
            _ => self.house_facts.get(&claim).copied(),
        }
    }

    fn facts_of(&self, cell: Cell) -> &CellFacts {
        &self.cell_facts[cell.slot()]
    }

    /// The facts about houses, with their claims: distances, spent clues, digits and crusts held.
    pub fn house_facts(&self) -> impl Iterator<Item = (FactId, Claim)> {
        self.house_facts.iter().map(|(claim, id)| (*id, *claim))
    }

    /// The cells of the house that can still hold the digit (or hold it).
    pub fn places(&self, house: House, digit: Digit) -> CellSet {
        self.places[at(digit)] & self.members(house)
    }

    /// Those of the cells that can still hold the digit (or hold it).
    pub(crate) fn places_among(&self, cells: CellSet, digit: Digit) -> CellSet {
        self.places[at(digit)] & cells
    }

    /// The cell of the house that holds the digit, if a fact says so.
    pub(crate) fn placed_in(&self, house: House, digit: Digit) -> Option<Cell> {
        let is_placed = self.digits_placed_in(house).contains(digit);
        is_placed.then(|| (self.placed[at(digit)] & self.members(house)).first()).flatten()
    }

    /// The digits that one cell of the house alone can hold and no fact places there.
    pub(crate) fn digits_with_one_place(&self, house: House) -> DigitSet {
        self.places_left[self.size().house_index(house)].once() - self.digits_placed_in(house)
    }

    /// The digits of the house that facts place.
    pub(crate) fn digits_placed_in(&self, house: House) -> DigitSet {
        self.placed_in[self.size().house_index(house)]
    }

    /// Whether a fact says that the cell is a crust: its digit or the bare kind.
    pub fn is_crust(&self, cell: Cell) -> bool {
        self.crusts.contains(cell)
    }

    /// Whether a fact says that the cell is filling: its digit or the bare kind.
    pub fn is_filling(&self, cell: Cell) -> bool {
        self.filling.contains(cell)
    }

    /// The cells known to be crusts.
    pub(crate) fn known_crusts(&self) -> CellSet {
        self.crusts
    }

    /// The cells known to be filling.
    pub(crate) fn known_filling(&self) -> CellSet {
        self.filling
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
}

/// The digit's place in arrays by digit.
fn at(digit: Digit) -> usize {
    usize::from(digit.get()) - 1
}
