//! Is that so, and can it be known yet? A claim weighed from a board that is filled in part.
//!
//! What stands on the board is taken as if it were printed. A claim *follows* if techniques lead to it in
//! so many steps at most; small arguments are not counted on, for nobody is expected to see them.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Digit, DigitSet, Grid};
use rulebook::{Claim, Puzzle};
use trail::{FactId, StepId, Trail};

use crate::explain::is_true;
use crate::proof::{Proof, Reach, best_in, search};
use crate::steps::easiest_step;
use crate::why::checked;
use crate::{Position, Settings, Solved, Unanswered, View, Why};

/// What comes of weighing a claim.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Judged {
    /// The puzzle with what stands on the board in place of its givens: what the steps are about.
    pub board: Puzzle,
    /// The answer.
    pub judgement: Judgement,
}

/// The answer to a claim.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Judgement {
    /// These digits on the board are not the solution's, so nothing can be said about the claim.
    WrongBoard(Vec<(Cell, Digit)>),
    /// The claim is true, and it follows from the board.
    Follows(Why),
    /// The claim is true, but it does not follow yet.
    NotYet {
        /// Facts with which it would follow, digits where few digits are enough; the fewest found. None
        /// of them can be spared.
        missing: Vec<Claim>,
        /// The steps it takes once they are known.
        n_steps: usize,
    },
    /// The claim is not true.
    Untrue {
        /// What the cell holds.
        answer: Digit,
        /// The digits that the cell does not see on this board.
        open: DigitSet,
        /// That the opposite follows from the board, if it does.
        against: Option<Why>,
        /// A full board that agrees with this one, every rule and every clue, and not with the claim.
        counterexample: Grid,
    },
}

/// Weighs a claim about one cell from the board, of which the puzzle's givens are always part.
/// `within` is the most steps, at least one, in which it has to follow.
///
/// # Errors
///
/// If the claim is not about one cell, the walkthrough is not complete, or `replay` refuses a step.
pub fn judge_claim(
    solved: Solved<'_>,
    board: &Grid,
    claim: Claim,
    within: usize,
    settings: Settings,
) -> Result<Judged, Unanswered> {
    let (size, solution) = (solved.puzzle.size(), solved.solution);
    let cell = claim.cell().ok_or(Unanswered::NotReached)?;
    let answer = solution.get(cell).ok_or(Unanswered::NotReached)?;
    let weighing =
        Weighing { board: on_board(solved.puzzle, board.filled()), within: within.max(1), settings };
    let wrong: Vec<(Cell, Digit)> =
        board.filled().filter(|&(cell, digit)| solution.get(cell) != Some(digit)).collect();
    let judgement = if !wrong.is_empty() {
        Judgement::WrongBoard(wrong)
    } else if !is_true(size, solution, &claim) {
        let open = View::new(&weighing.board).candidates(cell);
        let against = weighing.follows(opposite(claim))?;
        Judgement::Untrue { answer, open, against, counterexample: solution.clone() }
    } else {
        match weighing.follows(claim)? {
            Some(why) => Judgement::Follows(why),
            None => {
                let (missing, n_steps) = weighing.missing(solved, claim).ok_or(Unanswered::NotReached)?;
                Judgement::NotYet { missing, n_steps }
            }
        }
    };
    Ok(Judged { board: weighing.board, judgement })
}

/// In how many steps the claim follows from what stands on a sheet, by techniques alone; none if it does not within so
/// many. Notes must be true.
pub fn n_steps_to(position: Position<'_>, claim: Claim, within: usize, settings: Settings) -> Option<usize> {
    shortest_to(position, claim, within, settings).map(|it| it.n_steps())
}

/// The steps themselves, as few as were found.
pub fn shortest_to(position: Position<'_>, claim: Claim, within: usize, settings: Settings) -> Option<Trail> {
    let reach = Reach { settings, most: within.max(1), argue: None };
    search(View::of_sheet(position.board, position.notes), claim, reach).map(|it| it.trail)
}

/// The steps that lead there if the easiest is taken again and again, without those that the claim does not need; none if
/// techniques do not lead there. Notes must be true. However far it is, this does not take long.
pub fn easiest_to(position: Position<'_>, claim: Claim, settings: Settings) -> Option<Trail> {
    let mut view = View::of_sheet(position.board, position.notes);
    loop {
        if let Some(found) = best_in(view.size(), view.trail(), claim) {
            return Some(found.trail);
        }
        let step = easiest_step(&view, settings.known, &[], CellSet::EMPTY)?;
        view.take(step).ok()?;
    }
}

/// The claim that is true exactly if this one is not.
fn opposite(claim: Claim) -> Claim {
    match claim {
        Claim::Is(cell, digit) => Claim::IsNot(cell, digit),
        Claim::IsNot(cell, digit) => Claim::Is(cell, digit),
        Claim::Crust(cell) => Claim::Filling(cell),
        Claim::Filling(cell) => Claim::Crust(cell),
        other => other,
    }
}

/// The puzzle with more digits printed. What is printed already stays.
fn on_board(puzzle: &Puzzle, more: impl IntoIterator<Item = (Cell, Digit)>) -> Puzzle {
    let put = |board: Grid, (cell, digit)| match board.get(cell) {
        Some(_) => board,
        None => board.with(cell, Some(digit)),
    };
    Puzzle::new(more.into_iter().fold(puzzle.givens().clone(), put), puzzle.clues().iter().copied())
}

/// A board, and how far one may think from it.
struct Weighing {
    board: Puzzle,
    within: usize,
    settings: Settings,
}

impl Weighing {
    /// The reason for the claim, if it follows.
    fn follows(&self, claim: Claim) -> Result<Option<Why>, Unanswered> {
        let reach = Reach { settings: self.settings, most: self.within, argue: None };
        let proof = search(View::new(&self.board), claim, reach);
        proof.map(|it| checked(&self.board, claim, it, self.settings)).transpose()
    }

    /// The steps it takes with more known, digits on the board and the rest as notes, if it follows then.
    fn n_steps_with(&self, more: &[Claim], claim: Claim) -> Option<usize> {
        let digit = |it: &Claim| if let Claim::Is(cell, digit) = *it { Some((cell, digit)) } else { None };
        let board = on_board(&self.board, more.iter().filter_map(digit));
        let notes: Vec<Claim> = more.iter().copied().filter(|it| digit(it).is_none()).collect();
        let reach = Reach { settings: self.settings, most: self.within, argue: None };
        search(View::of_sheet(&board, &notes), claim, reach).map(|it| it.trail.n_steps())
    }

    /// Few facts with which the claim follows, and the steps it then takes: the first digit of the
    /// walkthrough that is enough alone, or else the narrowest cut through a proof, or else (where the
    /// claim itself takes a small argument) digits of the walkthrough.
    fn missing(&self, solved: Solved<'_>, claim: Claim) -> Option<(Vec<Claim>, usize)> {
        let own = claim.cell();
        let is_open = |cell| Some(cell) != own && self.board.givens().get(cell).is_none();
        let placed = solved.walkthrough.facts().map(|it| it.1.claim());
        let digits: Vec<Claim> =
            placed.filter(|it| matches!(it, Claim::Is(cell, _) if is_open(*cell))).collect();

        let alone = digits.iter().find_map(|it| Some((vec![*it], self.n_steps_with(&[*it], claim)?)));
        alone
            .or_else(|| {
                let (facts, n_steps) = self.cut_through(&self.whole_proof(solved, claim)?)?;
                let fewest = self.cut_down(facts, claim);
                let n_steps = self.n_steps_with(&fewest, claim).unwrap_or(n_steps);
                Some((fewest, n_steps))
            })
            .or_else(|| {
                let fewest = self.cut_down(self.beginning(&digits, claim), claim);
                let n_steps = self.n_steps_with(&fewest, claim)?;
                Some((fewest, n_steps))
            })
    }

    /// A proof of any length: from the board, or else the walkthrough's.
    fn whole_proof(&self, solved: Solved<'_>, claim: Claim) -> Option<Proof> {
        let reach = Reach { settings: self.settings, most: usize::MAX, argue: Some(solved.solution) };
        let from_board = search(View::new(&self.board), claim, reach);
        from_board.or_else(|| best_in(self.board.size(), solved.walkthrough, claim))
    }

    /// The fewest facts found that cut the proof so that what is behind them takes techniques alone and
    /// is near enough, and the steps it takes. None if the last step is a small argument.
    ///
    /// Step by step the end of the proof grows towards its beginning, each time by the step that leaves
    /// the fewest facts to be known before.
    fn cut_through(&self, proof: &Proof) -> Option<(Vec<Claim>, usize)> {
        let trail = &proof.trail;
        let is_technique = |it: &StepId| !trail.step(*it).is_small_argument();
        let known = View::new(&self.board);
        let before = |end: &BTreeSet<StepId>| -> Vec<FactId> {
            let needed = needed_before(trail, proof.by, end);
            needed.into_iter().filter(|it| known.is_news(trail.fact(*it).claim())).collect()
        };

        let last = trail.steps().next_back().map(|it| it.0).filter(is_technique)?;
        let mut end = BTreeSet::from([last]);
        let mut best = (before(&end), end.len());
        while end.len() < self.within {
            let steps = before(&end).into_iter().filter_map(|it| trail.fact(it).step()).filter(is_technique);
            let longer = steps.map(|it| {
                let longer: BTreeSet<StepId> = end.iter().copied().chain([it]).collect();
                (before(&longer), longer)
            });
            let Some((facts, longer)) = longer.min_by_key(|it| it.0.len()) else { break };
            end = longer;
            // Of equals, what is known earlier.
            if facts.len() <= best.0.len() {
                best = (facts, end.len());
            }
        }
        Some((best.0.into_iter().map(|it| trail.fact(it).claim()).collect(), best.1))
    }

    /// The shortest beginning that is enough, or all there is.
    fn beginning(&self, digits: &[Claim], claim: Claim) -> Vec<Claim> {
        let (mut too_few, mut enough) = (0, digits.len());
        while enough - too_few > 1 {
            let middle = usize::midpoint(too_few, enough);
            match self.n_steps_with(&digits[..middle], claim) {
                Some(_) => enough = middle,
                None => too_few = middle,
            }
        }
        digits[..enough].to_vec()
    }

    /// The facts without those that can be spared: what is no digit is tried first, since it is harder to be told.
    fn cut_down(&self, facts: Vec<Claim>, claim: Claim) -> Vec<Claim> {
        let mut left = facts.clone();
        let (digits, others): (Vec<Claim>, Vec<Claim>) =
            facts.into_iter().partition(|it| matches!(it, Claim::Is(..)));
        for fact in others.into_iter().chain(digits) {
            let without: Vec<Claim> = left.iter().copied().filter(|it| *it != fact).collect();
            if self.n_steps_with(&without, claim).is_some() {
                left = without;
            }
        }
        left
    }
}

/// The conclusions of other steps that the steps of `end`, which prove `goal`, rest on.
fn needed_before(trail: &Trail, goal: Claim, end: &BTreeSet<StepId>) -> Vec<FactId> {
    let mut needed = vec![false; trail.n_facts()];
    let mut before = Vec::new();
    // Citations point backwards, so one pass from the end sees every reason why a fact is needed.
    for (id, fact) in trail.facts().rev() {
        let is_needed = needed[id.index()] || fact.claim() == goal;
        match fact.step() {
            Some(step) if is_needed && end.contains(&step) => {
                let cited = fact.cites().into_iter().flat_map(|it| &it.facts);
                cited.for_each(|it| needed[it.index()] = true);
            }
            Some(_) if is_needed => before.push(id),
            _ => {}
        }
    }
    before.reverse();
    before
}
