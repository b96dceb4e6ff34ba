//! What a puzzle with one solution could do without, and what it needs.

use rulebook::Puzzle;

use crate::{Limit, Printed, Verdict, verdict};

/// Everything printed, by whether it can go while all else stays.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Spare {
    /// Without any one of these there is still exactly one solution.
    pub spare: Vec<Printed>,
    /// Without any one of these there is more than one.
    pub needed: Vec<Printed>,
    /// The limit was reached before it was clear.
    pub undecided: Vec<Printed>,
}

/// A puzzle from which nothing more can go.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Irreducible {
    /// What is left of the page.
    pub puzzle: Puzzle,
    /// What went, in the order in which it went.
    pub gone: Vec<Printed>,
    /// What stayed because the limit was reached before it was clear: with these, the form is
    /// irreducible only as far as is known.
    pub undecided: Vec<Printed>,
}

/// Sorts what is printed on the page of a puzzle with one solution. `limit` is for each thing tried.
pub fn spare(puzzle: &Puzzle, limit: Limit) -> Spare {
    Printed::all(puzzle).into_iter().map(|it| (it, is_spare(puzzle, it, limit))).collect()
}

/// Whether the puzzle has exactly one solution without this; none if the limit is reached first.
pub fn is_spare(puzzle: &Puzzle, printed: Printed, limit: Limit) -> Option<bool> {
    match verdict(&printed.taken_from(puzzle), limit) {
        Verdict::One(_) => Some(true),
        Verdict::None | Verdict::Many(_) => Some(false),
        Verdict::Undecided => None,
    }
}

/// Takes away, one after another, whatever can go while there is exactly one solution: the givens from
/// the last to the first, then the clues from the last to the first.
///
/// `known` is what [`spare`] found. What could not go from the whole page cannot go from less, so only the
/// rest is tried again. The order decides which of several irreducible forms is found; a clue is
/// kept rather than a given, because it is what such a puzzle is about.
pub fn irreducible(puzzle: &Puzzle, known: &Spare, limit: Limit) -> Irreducible {
    let mut left = Irreducible { puzzle: puzzle.clone(), gone: Vec::new(), undecided: Vec::new() };
    let (givens, clues): (Vec<Printed>, Vec<Printed>) =
        Printed::all(puzzle).into_iter().partition(|it| matches!(it, Printed::Given(..)));
    let tried = givens.into_iter().rev().chain(clues.into_iter().rev());
    for it in tried.filter(|it| !known.needed.contains(it)) {
        match is_spare(&left.puzzle, it, limit) {
            Some(true) => {
                left.puzzle = it.taken_from(&left.puzzle);
                left.gone.push(it);
            }
            Some(false) => {}
            None => left.undecided.push(it),
        }
    }
    left
}

/// Puts together what was found out about each thing printed.
impl FromIterator<(Printed, Option<bool>)> for Spare {
    fn from_iter<I: IntoIterator<Item = (Printed, Option<bool>)>>(found: I) -> Spare {
        let mut sorted = Spare::default();
        for (printed, is_spare) in found {
            match is_spare {
                Some(true) => sorted.spare.push(printed),
                Some(false) => sorted.needed.push(printed),
                None => sorted.undecided.push(printed),
            }
        }
        sorted
    }
}
