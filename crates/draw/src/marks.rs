//! What is marked on a board, and what a stretch of a walkthrough marks.

use std::collections::{BTreeMap, BTreeSet};

use grid::{Cell, CellSet, DigitSet, Grid, House};
use rulebook::{Claim, ClueId, Puzzle, SANDWICH};
use trail::{Argument, Branch, Fact, Misfit, StepId, Trail};

/// More lines and boxes than this are not pointed at: they would point nowhere.
const MOST_HOUSES: usize = 4;

/// One cell in so many is outlined at most, for the same reason: a long passage rests on half the
/// board. (Looked at on real walkthroughs: 12 outlined cells of 81 read well, 17 do not.)
const LEAST_CELLS_A_PREMISE: usize = 6;

/// The marks on a board. None of them relies on colour alone (see the crate's documentation).
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Marks {
    /// Cells known to hold a crust: hatched.
    pub crusts: CellSet,
    /// Cells known to hold a filling digit: ringed.
    pub filling: CellSet,
    /// Cells that are used: outlined.
    pub premises: CellSet,
    /// Cells that something was concluded about: filled.
    pub conclusions: CellSet,
    /// Candidates that were removed: struck.
    pub removed: BTreeMap<Cell, DigitSet>,
    /// Candidates that remain: written small. One that is also removed is struck.
    pub pencilled: BTreeMap<Cell, DigitSet>,
    /// Clues that have nothing more to say: struck.
    pub spent: BTreeSet<ClueId>,
    /// Rows, columns and boxes that are looked at: a bar beside them, or brackets.
    pub looked_at: BTreeSet<House>,
    /// Clues that are used: outlined.
    pub clues_used: BTreeSet<ClueId>,
}

/// The board after some consecutive steps of a trail, and what those steps did to it.
///
/// The grid holds every digit known by then, the givens among them. Crusts and filling cells known by
/// then are marked as long as they have no digit, and clues as spent. Of the steps themselves,
/// their conclusions are filled, the candidates they remove are struck, and what they rest on from
/// before is outlined; so are cells that the steps share digits among, with those digits. Premises,
/// and rows, columns and boxes looked at, are marked when they are few. Without steps, the board shows
/// the page.
pub fn marks_for(puzzle: &Puzzle, trail: &Trail, steps: &[StepId]) -> (Grid, Marks) {
    let last = steps.iter().max();
    let known: Vec<&Fact> = trail.facts().map(|it| it.1).filter(|it| it.step().as_ref() <= last).collect();
    let digits = known.iter().fold(puzzle.givens().clone(), |grid, fact| match fact.claim() {
        Claim::Is(cell, digit) => grid.with(cell, Some(digit)),
        _ => grid,
    });

    let mut marks = Marks::default();
    let mut shown = CellSet::EMPTY;
    for fact in &known {
        marks.note_state(puzzle, &digits, fact.claim());
    }
    for &step in steps {
        marks.note_conclusions(puzzle, &digits, trail, step);
        shown = shown | marks.note_argument(&digits, &known, trail.step(step).argument());
        marks.note_premises(puzzle, trail, step, steps);
    }
    // Of too many premises, those that a step is about are kept, if they are not too many themselves.
    let few = |it: &CellSet| it.len() * LEAST_CELLS_A_PREMISE <= puzzle.size().n_cells();
    let premises = [marks.premises, shown].map(|it| it - marks.conclusions);
    marks.premises = premises.into_iter().find(few).unwrap_or(CellSet::EMPTY);
    if marks.looked_at.len() > MOST_HOUSES {
        marks.looked_at.clear();
    }
    (digits, marks)
}

impl Marks {
    /// What a fact says about the state of the board.
    fn note_state(&mut self, puzzle: &Puzzle, digits: &Grid, claim: Claim) {
        match claim {
            Claim::Crust(cell) if digits.get(cell).is_none() => {
                self.crusts.insert(cell);
            }
            Claim::Filling(cell) if digits.get(cell).is_none() => {
                self.filling.insert(cell);
            }
            Claim::Spent { line, .. } => {
                self.spent.extend(puzzle.clue_at(&SANDWICH, line).map(|(id, _)| id));
            }
            _ => {}
        }
    }

    /// What a step concludes.
    fn note_conclusions(&mut self, puzzle: &Puzzle, digits: &Grid, trail: &Trail, step: StepId) {
        for fact in trail.step(step).concludes() {
            match trail.fact(*fact).claim() {
                Claim::IsNot(cell, digit) if digits.get(cell).is_none() => {
                    let removed = self.removed.entry(cell).or_default();
                    *removed = removed.with(digit);
                }
                // The digit that the cell got since says more.
                Claim::IsNot(..) => {}
                Claim::Is(cell, _) | Claim::Crust(cell) | Claim::Filling(cell) => {
                    self.conclusions.insert(cell);
                }
                Claim::CrustAmong { cells, .. } | Claim::DigitAmong { cells, .. } => {
                    self.conclusions.extend(cells.iter());
                }
                Claim::FillingCells { line, .. } | Claim::Spent { line, .. } => {
                    self.clues_used.extend(puzzle.clue_at(&SANDWICH, line).map(|(id, _)| id));
                    self.looked_at.insert(line);
                }
            }
        }
    }

    /// What a step points at, beyond what it cites; gives the cells it is about.
    fn note_argument(&mut self, digits: &Grid, known: &[&Fact], argument: &Argument) -> CellSet {
        let (cells, shown) = match argument {
            Argument::Locked { digit, cells, .. }
            | Argument::SideHolds { digit, cells, .. }
            | Argument::HeldActs { digit, cells, .. } => (*cells, DigitSet::only(*digit)),
            Argument::Crossing { digit, cells, spare, .. } => (*cells | *spare, DigitSet::only(*digit)),
            Argument::SharedDigits { cells, digits, .. } | Argument::SharedCells { cells, digits, .. } => {
                (*cells, *digits)
            }
            Argument::Wing { pivot, digits, ends, .. } => {
                let cells = ends.iter().map(|it| it.0).chain([*pivot]).collect();
                (cells, ends.iter().fold(*digits, |all, it| all | it.1))
            }
            Argument::TwoColours { digit, cells, .. } => {
                (cells.iter().copied().collect(), DigitSet::only(*digit))
            }
            Argument::EqualPairs { digits, cells } => (cells.iter().copied().collect(), *digits),
            Argument::JoinedPairs { ends, joint, places, digit, .. } => {
                let ends: CellSet = ends.iter().copied().collect();
                (ends | *places, DigitSet::only(*joint).with(*digit))
            }
            Argument::AlmostLocked { sets: [a, b], .. } => (a.0 | b.0, a.1 | b.1),
            Argument::LineAndBox { crossing, parts: [a, b], .. } => {
                (crossing.0 | a.0 | b.0, crossing.1 | a.1 | b.1)
            }
            Argument::Chain { start, links } => {
                let all = || links.iter().map(|it| it.then).chain([*start]);
                let cells = all().fold(CellSet::EMPTY, |cells, it| cells | it.cells);
                (cells, all().fold(DigitSet::EMPTY, |digits, it| digits | it.digits))
            }
            Argument::CrustPlaces { cells, .. }
            | Argument::CrustHeld { cells, .. }
            | Argument::CrustAmong { cells, .. }
            | Argument::CrustsConfined { cells, .. } => (*cells, DigitSet::EMPTY),
            Argument::CrustsShared { parts, .. } => (parts[0] | parts[1], DigitSet::EMPTY),
            Argument::CrustsInTurn { kinds, .. } => (kinds[0] | kinds[1], DigitSet::EMPTY),
            Argument::Misfits { tries, .. } => (places_tried(tries), DigitSet::EMPTY),
            Argument::Cases { branches, .. } | Argument::Followed { branches } => {
                (branches.iter().map(|it: &Branch| it.cell).collect(), DigitSet::EMPTY)
            }
            _ => (CellSet::EMPTY, DigitSet::EMPTY),
        };
        self.premises.extend(cells.iter());
        for cell in cells.iter().filter(|it| digits.get(*it).is_none()) {
            let open = shown - excluded(digits, known, cell);
            if !open.is_empty() {
                let pencilled = self.pencilled.entry(cell).or_default();
                *pencilled = *pencilled | open;
            }
        }
        cells
    }

    /// What a step rests on that was there before these steps.
    fn note_premises(&mut self, puzzle: &Puzzle, trail: &Trail, step: StepId, steps: &[StepId]) {
        let cites = trail.cites_of(step);
        self.looked_at.extend(&cites.houses);
        self.clues_used.extend(&cites.clues);
        // A clue and a fact about a house bring the house along: it is looked at without being cited.
        self.looked_at.extend(cites.clues.iter().filter_map(|it| Some(puzzle.clue(*it)?.line)));
        self.looked_at.extend(cites.facts.iter().filter_map(|it| trail.fact(*it).claim().house()));
        let facts = cites.facts.iter().map(|it| trail.fact(*it));
        for fact in facts.filter(|it| it.step().is_none_or(|source| !steps.contains(&source))) {
            match fact.claim() {
                Claim::Is(cell, _) | Claim::IsNot(cell, _) | Claim::Crust(cell) | Claim::Filling(cell) => {
                    self.premises.insert(cell);
                }
                Claim::CrustAmong { cells, .. } | Claim::DigitAmong { cells, .. } => {
                    self.premises.extend(cells.iter());
                }
                Claim::FillingCells { line, .. } | Claim::Spent { line, .. } => {
                    self.clues_used.extend(puzzle.clue_at(&SANDWICH, line).map(|(id, _)| id));
                }
            }
        }
    }
}

/// The places of the crusts that are tried, if they are few enough to be looked at one by one.
fn places_tried(tries: &[Misfit]) -> CellSet {
    let places: CellSet = tries.iter().flat_map(|it| &it.pairs).flat_map(|it| [it.0, it.1]).collect();
    if places.len() <= MOST_HOUSES { places } else { CellSet::EMPTY }
}

/// The digits that known facts about the cell, and digits it sees, exclude from it.
fn excluded(digits: &Grid, known: &[&Fact], cell: Cell) -> DigitSet {
    let size = digits.size();
    let seen = size.peers(cell).iter().filter_map(|it| digits.get(it)).collect::<DigitSet>();
    let facts = known.iter().filter_map(|it| it.claim().leaves(size));
    facts.filter(|(it, _)| *it == cell).fold(seen, |out, (_, leaves)| out | (size.digits() - leaves))
}
