//! What is said of a solver's own sheet: where it does not fit, and what a hint rests on.

use grid::{Cell, House};
use reason::Mistake;
use rulebook::{Claim, Puzzle};

use crate::lists::{capital, cells, list};

/// A mistake in two sentences, the second telling more than the first: where something does not fit, and what. Neither
/// tells what belongs there.
pub fn mistake(puzzle: &Puzzle, mistake: &Mistake) -> [String; 2] {
    let near = |house: House| format!("Something in {house} does not fit.");
    match mistake {
        Mistake::Repeat { house, digit, cells } => {
            let places: Vec<String> = cells.iter().map(|it| it.to_string()).collect();
            [
                format!("{} has a digit more than once.", capital(&house.to_string())),
                format!("It is the {digit}, at {}.", list(&places)),
            ]
        }
        Mistake::Clue { clue, line } => {
            let value = puzzle.clue(*clue).map_or(0, |it| it.value);
            [
                near(*line),
                format!("{} is full, and does not go with its clue of {value}.", capital(&line.to_string())),
            ]
        }
        Mistake::Digit(cell, digit) => [near(row_of(puzzle, *cell)), format!("{cell} is not {digit}.")],
        Mistake::Pencil(cell) => [
            near(row_of(puzzle, *cell)),
            format!("The pencil marks of {cell} leave out the digit that belongs there."),
        ],
        Mistake::Mark(cell, claim) => {
            let kind = if matches!(claim, Claim::Crust(_)) { "a crust" } else { "filling" };
            [near(row_of(puzzle, *cell)), format!("{cell} is marked as {kind}, which it is not.")]
        }
    }
}

/// What goes before the reason of a hint that rests on pencil marks or marks of the solver's.
pub fn resting_on_notes(noted: &[Cell]) -> Option<String> {
    let all = noted.iter().copied().collect();
    (!noted.is_empty()).then(|| format!("What you have noted at {} is taken as it stands.", cells(all)))
}

/// That a hint's technique is not one that the pack has taught by then.
pub const NOT_YET_TAUGHT: &str = "This goes beyond what the pack has taught so far.";

/// That nothing was found to say.
pub const NOTHING_FOUND: &str = "No step was found from here that could be told. The walkthrough has one.";

fn row_of(puzzle: &Puzzle, cell: Cell) -> House {
    puzzle.size().houses_of(cell)[0]
}
