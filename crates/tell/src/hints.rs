//! A step as three hints, each telling a little more: where to look, what to see, and why.

use grid::{CellSet, House};
use rulebook::{ClueId, Puzzle};
use trail::{Argument, StepId, Trail};

use crate::lists::{cells, digits};
use crate::{says, technique_description, technique_name};

/// Three hints for a step: *where* to look, *what* to look for there, and *why*: the whole step.
///
/// Meant for a step that rests on the page alone, so that no hint refers to another step.
pub fn hints(puzzle: &Puzzle, trail: &Trail, step: StepId) -> [String; 3] {
    let technique = trail.step(step).technique();
    let name = technique_name(technique);
    let what = match technique_description(technique) {
        "" => format!("Look for this: {name}."),
        description => format!("Look for this: {name}. {description}"),
    };
    [look_at(puzzle, trail.step(step).argument()), what, says(puzzle, trail, step)]
}

/// Where a step looks, and nothing of what it finds.
fn look_at(puzzle: &Puzzle, argument: &Argument) -> String {
    let house = |house: House| format!("Look at {house}.");
    let clue = |id: ClueId, line: House| match puzzle.clue(id) {
        Some(clue) => format!("Look at {line} and its {}.", clue.value),
        None => house(line),
    };
    let of = |set: CellSet| format!("Look at {}.", cells(set));
    match argument {
        Argument::LastCell { house: at, .. }
        | Argument::OnePlace { house: at, .. }
        | Argument::SharedDigits { house: at, .. }
        | Argument::SharedCells { house: at, .. }
        | Argument::CrustsFound { house: at, .. }
        | Argument::CrustPlaces { house: at, .. } => house(*at),
        Argument::OneDigit { cell, .. } => format!("Look at {cell}."),
        Argument::Locked { from, into, .. } => format!("Look at {from} and {into}."),
        Argument::SeesBothCrusts { cells } => of(*cells),
        Argument::CrustHeld { into, line, .. } => format!("Look at {line} and {into}."),
        Argument::CrustsTouch { clue: id, line }
        | Argument::CrustsAtEnds { clue: id, line, .. }
        | Argument::CrustDistance { clue: id, line, .. }
        | Argument::Sets { clue: id, line, .. }
        | Argument::Remainder { clue: id, line, .. } => clue(*id, *line),
        Argument::Reach { line, .. } => format!("Look at {line} and where its crusts can be."),
        Argument::SpentSplits { line, .. } | Argument::SideHolds { line, .. } => house(*line),
        Argument::HeldActs { line, cells, .. } => {
            format!("Look at {line}, and at what sees {}.", crate::cells(*cells))
        }
        Argument::Cases(branches) => match branches.first() {
            Some(case) => format!("Look at {}: can it be {}?", case.cell, digits(case.digits)),
            None => "Look at the whole board.".to_owned(),
        },
    }
}
