//! The judgement of a whole walkthrough.

use grid::Cell;
use rulebook::{Claim, Puzzle};
use trail::{Cites, Fact, FactId, Origin, Walkthrough};

use crate::{Cap, Judge, Refusal};

/// A walkthrough in which every fact is printed on the page, noted on the sheet it starts from, or follows from its
/// premises, each of which it needs.
///
/// Invariant: made by [`replay()`], [`replay_from`] and [`Judge::replay`] only. Whatever is published takes its walkthrough from here.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Checked {
    walkthrough: Walkthrough,
    nodes: u64,
}

impl Checked {
    /// The walkthrough.
    pub fn walkthrough(&self) -> &Walkthrough {
        &self.walkthrough
    }

    /// The nodes that it took together to find that there are no counterexamples.
    pub fn nodes(&self) -> u64 {
        self.nodes
    }
}

/// Judges every fact of the walkthrough against the puzzle: first those of the page, then those
/// concluded, in order. A conclusion has to follow from its premises ([`Cites::premises`](trail::Cites::premises)), and
/// without any one of them there has to be a counterexample. `cap` holds for each of these questions by itself.
///
/// It says nothing about how far the walkthrough gets (see [`Walkthrough::is_complete`]).
///
/// # Errors
///
/// The first fact that is refused, and why.
pub fn replay(puzzle: &Puzzle, walkthrough: Walkthrough, cap: Cap) -> Result<Checked, (FactId, Refusal)> {
    replay_from(puzzle, &[], walkthrough, cap)
}

/// The same for a walkthrough that starts from a solver's sheet, on which these claims are noted. Whether they are true
/// is not asked: what follows holds as far as they do.
///
/// # Errors
///
/// As for [`replay()`]; a fact that claims to be noted and is not is refused as one that is not on the page.
pub fn replay_from(
    puzzle: &Puzzle,
    notes: &[Claim],
    walkthrough: Walkthrough,
    cap: Cap,
) -> Result<Checked, (FactId, Refusal)> {
    Judge::new(puzzle).replay_from(notes, walkthrough, cap)
}

impl Judge<'_> {
    /// As [`replay()`].
    ///
    /// # Errors
    ///
    /// As there.
    pub fn replay(&self, walkthrough: Walkthrough, cap: Cap) -> Result<Checked, (FactId, Refusal)> {
        self.replay_from(&[], walkthrough, cap)
    }

    fn replay_from(
        &self,
        notes: &[Claim],
        walkthrough: Walkthrough,
        cap: Cap,
    ) -> Result<Checked, (FactId, Refusal)> {
        let trail = walkthrough.trail();
        for (id, fact) in trail.facts() {
            let stands_there = match *fact.origin() {
                Origin::Page(cell) => is_printed(self.puzzle(), fact, cell),
                Origin::Noted => notes.contains(&fact.claim()),
                Origin::Step { .. } => true,
            };
            if !stands_there {
                return Err((id, Refusal::NotOnPage));
            }
        }
        let mut nodes = 0;
        for (id, fact) in trail.facts() {
            let Some(premises) = fact.cites().map(Cites::premises) else { continue };
            nodes += self.judge(trail, &fact.claim(), &premises, cap).map_err(|it| (id, it))?;
            if let Some(spare) = self.spares(trail, &fact.claim(), &premises, cap).next() {
                return Err((id, Refusal::Spare(spare)));
            }
        }
        Ok(Checked { walkthrough, nodes })
    }
}

/// Whether the fact says what the page prints in that cell.
fn is_printed(puzzle: &Puzzle, fact: &Fact, cell: Cell) -> bool {
    let on_board = puzzle.size().cell(cell.row(), cell.column()).is_some();
    let printed = on_board.then(|| puzzle.givens().get(cell)).flatten();
    printed.is_some_and(|digit| fact.claim() == Claim::Is(cell, digit))
}
