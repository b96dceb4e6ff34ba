//! One step in words: which words each argument takes, and the order of what is said.
//!
//! First the premises and the sum, then references that no premise took, then every conclusion the
//! step still has.

use grid::{Cell, CellSet, Digit, DigitSet, House, Size};
use rulebook::{Claim, ClueId, Puzzle, filling_digits};
use trail::{Argument, Cites, StepId, Trail};

use crate::claims::together;
use crate::prose::Prose;
use crate::refs::Refs;
use crate::{Voice, almost_locked, cases, chains, classic, crusts, inferences, misfits, sums};

/// The step in a few sentences, as the booklet prints it: what to look at, the sum in full, what follows.
///
/// A small argument of several cases has one line a case.
pub fn says(puzzle: &Puzzle, trail: &Trail, step: StepId) -> String {
    says_in(Voice::Booklet, puzzle, trail, step)
}

/// The step as that voice tells it.
pub fn says_in(voice: Voice, puzzle: &Puzzle, trail: &Trail, step: StepId) -> String {
    let mut it = Telling::new(voice, puzzle, trail, step);
    let argument = trail.step(step).argument();
    premises(&mut it, argument);
    it.rests_on();
    // An argument by cases has said each conclusion at the end of its case.
    if !matches!(argument, Argument::Cases { .. } | Argument::Followed { .. }) {
        it.concludes();
    }
    it.prose.finish()
}

/// Says what the step looks at, by the shape of its thought.
fn premises(it: &mut Telling<'_>, argument: &Argument) {
    match argument {
        Argument::LastCell { house, digit, .. } => classic::last_cell(it, *house, *digit),
        Argument::OnePlace { house, digit, .. } => classic::one_place(it, *house, *digit),
        Argument::OneDigit { cell, .. } => classic::one_digit(it, *cell),
        Argument::Locked { digit, from, into, cells } => classic::locked(it, *digit, *from, *into, *cells),
        Argument::SharedDigits { house, cells, digits } => {
            classic::shared_digits(it, *house, *cells, *digits);
        }
        Argument::SharedCells { house, cells, digits } => classic::shared_cells(it, *house, *cells, *digits),
        Argument::Crossing { digit, base, cover, spare, .. } => {
            classic::crossing(it, *digit, base, cover, *spare);
        }
        Argument::Wing { pivot, digits, ends, digit } => chains::wing(it, *pivot, *digits, *ends, *digit),
        Argument::JoinedPairs { ends, house, joint, places, digit } => {
            chains::joined_pairs(it, *ends, *house, *joint, *places, *digit);
        }
        Argument::TwoColours { digit, cells, houses, clash } => {
            chains::two_colours(it, *digit, cells, houses, *clash);
        }
        Argument::EqualPairs { digits, cells } => chains::equal_pairs(it, *digits, cells),
        Argument::AlmostLocked { sets, joints } => almost_locked::sets(it, *sets, *joints),
        Argument::LineAndBox { houses, crossing, parts, held } => {
            almost_locked::line_and_box(it, *houses, *crossing, *parts, *held);
        }
        Argument::Chain { start, links } => inferences::chain(it, *start, links),
        Argument::SeesBothCrusts { cells } => crusts::sees_both(it, *cells),
        Argument::CrustsFound { house, crusts } => crusts::found(it, *house, *crusts),
        Argument::CrustPlaces { house, cells } => crusts::places(it, *house, *cells),
        Argument::CrustHeld { into, line, known, cells } => crusts::held(it, *into, *line, *known, *cells),
        Argument::CrustsConfined { of, into, .. } => crusts::confined(it, *of, *into),
        Argument::CrustAmong { of, into, .. } => crusts::among(it, *of, *into),
        Argument::CrustsShared { into, parts } => crusts::shared(it, *into, *parts),
        Argument::CrustsInTurn { kinds, refused } => crusts::in_turn(it, *kinds, *refused),
        Argument::CrustsTouch { line, .. } => crusts::touch(it, *line),
        Argument::CrustsAtEnds { line, sum, .. } => crusts::at_ends(it, *line, *sum),
        Argument::CrustDistance { line, sum, fewest, most, short, over, .. } => {
            crusts::distance(it, *line, *sum, (*fewest, *most), *short, *over);
        }
        Argument::Reach { line, pairs, .. } => crusts::reach(it, *line, pairs),
        Argument::Sets { clue, line, side, sum, sets, excluded, .. } => {
            sums::sets(it, *clue, *line, *side, *sum, sets, excluded);
        }
        Argument::SpentSplits { line, filling, between, outside } => {
            sums::spent_splits(it, *line, *filling, *between, *outside);
        }
        Argument::SideHolds { line, side, digit, cells } => {
            sums::side_holds(it, *line, *side, *digit, *cells)
        }
        Argument::HeldActs { line, digit, cells } => sums::held_acts(it, *line, *digit, *cells),
        Argument::Remainder { clue, line, side, sum, placed, cell, .. } => {
            sums::remainder(it, *clue, *line, *side, *sum, *placed, *cell);
        }
        Argument::Misfits { line, cell, tries, around } => {
            misfits::misfits(it, *line, *cell, tries, around);
        }
        Argument::Followed { branches } => cases::followed(it, branches),
        Argument::Cases { branches, is_smallest } => cases::argument(it, branches, *is_smallest),
    }
}

/// A step while it is being told.
pub(crate) struct Telling<'a> {
    pub(crate) voice: Voice,
    pub(crate) step: StepId,
    pub(crate) puzzle: &'a Puzzle,
    pub(crate) trail: &'a Trail,
    pub(crate) size: Size,
    /// What the step's conclusions rest on together.
    pub(crate) cites: Cites,
    /// What it concludes.
    pub(crate) claims: Vec<Claim>,
    pub(crate) refs: Refs,
    pub(crate) prose: Prose,
}

impl<'a> Telling<'a> {
    fn new(voice: Voice, puzzle: &'a Puzzle, trail: &'a Trail, step: StepId) -> Telling<'a> {
        let concluded = trail.step(step).concludes().iter();
        Telling {
            voice,
            step,
            puzzle,
            trail,
            size: puzzle.size(),
            cites: trail.cites_of(step),
            claims: concluded.map(|it| trail.fact(*it).claim()).collect(),
            refs: Refs::of(voice, trail, step),
            prose: Prose::new(voice),
        }
    }

    /// Adds a sentence.
    pub(crate) fn say(&mut self, sentence: &str) {
        self.prose.say(sentence);
    }

    /// Adds a sentence on why a thought of this kind holds. On a screen the technique's name stands for it.
    pub(crate) fn explain(&mut self, sentence: &str) {
        if self.voice != Voice::Screen {
            self.say(sentence);
        }
    }

    /// Names the steps that no premise has named.
    pub(crate) fn rests_on(&mut self) {
        let steps = self.refs.take_left_over();
        let noun = if steps.len() == 1 && !steps[0].contains(' ') { "step" } else { "steps" };
        self.prose.say_list(&format!("this rests on {noun}"), "it also rests on steps", &steps, "and");
    }

    /// Says every conclusion.
    fn concludes(&mut self) {
        self.prose.say_in_turn("so", "also,", &together(self.voice, self.size, &self.claims));
    }

    /// The facts the step's conclusions cite.
    pub(crate) fn facts_cited(&self) -> impl Iterator<Item = Claim> {
        self.cites.facts.iter().map(|it| self.trail.fact(*it).claim())
    }

    /// All that a reader knows by then, cited or not.
    pub(crate) fn known_by_then(&self) -> impl Iterator<Item = Claim> {
        let first = self.trail.step(self.step).concludes()[0];
        self.trail.facts().take_while(move |(id, _)| *id < first).map(|(_, it)| it.claim())
    }

    /// The cells that a reader knows by then to be crusts, and those that are none: they are filling, or see each crust
    /// digit.
    pub(crate) fn kinds_by_then(&self) -> (CellSet, CellSet) {
        let filling_digits = filling_digits(self.size);
        let (mut crusts, mut filling) = (CellSet::EMPTY, self.seeing_each_crust_by_then());
        for (cell, left) in self.known_by_then().filter_map(|it| it.leaves(self.size)) {
            if (left & filling_digits).is_empty() {
                crusts.insert(cell);
            } else if left.is_subset(filling_digits) {
                filling.insert(cell);
            }
        }
        (crusts, filling)
    }

    fn seeing_each_crust_by_then(&self) -> CellSet {
        let known: Vec<Claim> = self.known_by_then().collect();
        let (low, high) = rulebook::crusts(self.size);
        let sees = |cell: Cell, crust: Digit| {
            let is_seen = |it: &Claim| matches!(it, Claim::Is(at, digit) if *digit == crust && self.size.shared_house(*at, cell).is_some());
            known.iter().any(is_seen)
        };
        self.size.cells().filter(|cell| sees(*cell, low) && sees(*cell, high)).collect()
    }

    /// Whether nothing cited says that the cell is not the digit.
    pub(crate) fn can_be(&self, cell: Cell, digit: Digit) -> bool {
        !self.facts_cited().any(|claim| match claim {
            Claim::Is(at, placed) if at != cell => {
                placed == digit && self.size.shared_house(at, cell).is_some()
            }
            _ => claim.leaves(self.size).is_some_and(|(at, left)| at == cell && !left.contains(digit)),
        })
    }

    /// The digits that cited facts place, with their cells.
    pub(crate) fn placed(&self) -> impl Iterator<Item = (Cell, Digit)> {
        self.facts_cited().filter_map(|it| match it {
            Claim::Is(cell, digit) => Some((cell, digit)),
            _ => None,
        })
    }

    /// The cells in which cited facts place the digit.
    pub(crate) fn places_of(&self, digit: Digit) -> CellSet {
        self.placed().filter(|it| it.1 == digit).map(|it| it.0).collect()
    }

    /// The cells that the conclusions speak of one by one.
    pub(crate) fn concluded_cells(&self) -> CellSet {
        self.claims.iter().filter_map(Claim::cell).collect()
    }

    /// The cells that are concluded to be filling.
    pub(crate) fn concluded_filling(&self) -> CellSet {
        let cell = |it: &Claim| if let Claim::Filling(cell) = it { Some(*cell) } else { None };
        self.claims.iter().filter_map(cell).collect()
    }

    /// The cells that are concluded to be crusts.
    pub(crate) fn concluded_crusts(&self) -> CellSet {
        let cell = |it: &Claim| if let Claim::Crust(cell) = it { Some(*cell) } else { None };
        self.claims.iter().filter_map(cell).collect()
    }

    /// The digits the conclusions take away.
    pub(crate) fn digits_removed(&self) -> DigitSet {
        let digit = |it: &Claim| if let Claim::IsNot(_, digit) = it { Some(*digit) } else { None };
        self.claims.iter().filter_map(digit).collect()
    }

    /// The digits the conclusions place, exactly or within a few cells.
    pub(crate) fn digits_placed(&self) -> DigitSet {
        let digit = |it: &Claim| match it {
            Claim::Is(_, digit) | Claim::DigitAmong { digit, .. } => Some(*digit),
            _ => None,
        };
        self.claims.iter().filter_map(digit).collect()
    }

    /// `row 4's clue of 20`.
    pub(crate) fn clue(&self, clue: ClueId) -> String {
        match self.puzzle.clue(clue) {
            Some(it) => format!("{}'s clue of {}", it.line, it.value),
            None => "a clue".to_owned(),
        }
    }
}

/// The kind of line or box: `row`, `column`, `box`.
pub(crate) fn kind(house: House) -> &'static str {
    match house.kind() {
        grid::HouseKind::Row => "row",
        grid::HouseKind::Column => "column",
        grid::HouseKind::Box => "box",
    }
}
