//! Houses hardly one of which can be spared, where the search for the fewest gives up.
//!
//! What the solver used of all houses to prove a goal is where it starts from. Houses are then left out one at a time,
//! as long as the others are seen to prove it. What is left is not proven to be the fewest.

use super::held::{HeldSet, members};
use super::questions::Questions;

/// A goal, by its place in the list of all, and houses that prove it.
pub(super) type Found = (usize, HeldSet);

/// Houses for the `n` goals for which the solver used fewest; the fewest houses first.
pub(super) fn irreducible(questions: &mut Questions, n: usize) -> Vec<Found> {
    let all = (1 << questions.held.len()) - 1;
    let goals = 0..questions.goals.len();
    let mut found: Vec<Found> = goals.filter_map(|it| Some((it, questions.used(all, it)?))).collect();
    found.sort_by_key(|it| it.1.count_ones());
    found.truncate(n);
    for (goal, set) in &mut found {
        // Once no question is left, the sets stay as they are.
        *set = cut_down(questions, *goal, *set);
    }
    found.sort_by_key(|it| it.1.count_ones());
    found
}

/// Leaves out what can be spared.
fn cut_down(questions: &mut Questions, goal: usize, mut set: HeldSet) -> HeldSet {
    let cell = questions.goals[goal].cell;
    let mut houses: Vec<usize> = members(set).collect();
    // The houses of the goal's own cell are most likely to be needed.
    houses.sort_by_key(|it| questions.held[*it].open().contains(cell));
    for house in houses {
        let without = set & !(1 << house);
        // What is asked about is about a cell of the houses.
        let has_cell = members(without).any(|it| questions.held[it].open().contains(cell));
        if has_cell && questions.is_proved(without, goal) {
            set = without;
        }
    }
    set
}
