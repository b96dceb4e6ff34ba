//! The way into a puzzle as three hints, each telling a little more: where to look, what to see, and why.

use grid::{CellSet, House};
use rulebook::{Claim, ClueId, Puzzle};
use trail::{Argument, StepId, Trail};

use crate::lists::{cells, count, digits, either_digit};
use crate::{says, technique_description, technique_name};

/// Three hints for a way in, a trail of a few steps: *where* to look, *what* to look for there, and
/// *why*: every step of it. The first two are about the last step, to which the others lead.
///
/// The third has a line or more a step. A way of several steps has them numbered, as they refer to each
/// other. Nothing at all is said of a trail without steps.
pub fn hints(puzzle: &Puzzle, way_in: &Trail) -> Option<[String; 3]> {
    let (last, _) = way_in.steps().next_back()?;
    let [look_at, what, _] = where_what_why(puzzle, way_in, last);
    let said = way_in.steps().map(|(id, _)| match way_in.n_steps() {
        1 => says(puzzle, way_in, id),
        _ => format!("Step {}. {}", id.number(), says(puzzle, way_in, id)),
    });
    Some([look_at, what, said.collect::<Vec<_>>().join("\n")])
}

/// Where a puzzle can be opened, each way in a few words without a full stop: where its last step looks, the
/// technique that is seen there, and how many steps lead to it. Ways that would read alike are told apart by what
/// they settle.
pub fn ways_in(puzzle: &Puzzle, ways: &[Trail]) -> Vec<String> {
    let said = |way: &Trail, settles: &str| {
        let (last, step) = way.steps().next_back()?;
        let [look_at, ..] = where_what_why(puzzle, way, last);
        let name = technique_name(step.technique());
        let after = match way.n_steps() {
            1 => String::new(),
            2 => ", after one step".to_owned(),
            n => format!(", after {} steps", count(n - 1)),
        };
        Some(format!("{} ({name}{settles}{after})", look_at.trim_end_matches('.')))
    };
    let plain: Vec<Option<String>> = ways.iter().map(|it| said(it, "")).collect();
    let is_alone = |it: &Option<String>| plain.iter().filter(|other| *other == it).count() == 1;
    let each = ways.iter().zip(&plain).filter_map(|(way, alone)| match is_alone(alone) {
        true => alone.clone(),
        false => said(way, &settled(way)),
    });
    each.collect()
}

/// `, for 5 at r4c7`: what the last step of a way settles first.
fn settled(way: &Trail) -> String {
    let claim =
        way.steps().next_back().and_then(|it| it.1.concludes().first()).map(|it| way.fact(*it).claim());
    match claim {
        Some(Claim::Is(cell, digit)) => format!(", for {digit} at {cell}"),
        Some(other) => other.cell().map_or_else(String::new, |it| format!(", for {it}")),
        None => String::new(),
    }
}

/// The step in a margin, each part telling a little more: *where* to look, *what* to look for there, and
/// *why* it follows.
pub fn where_what_why(puzzle: &Puzzle, trail: &Trail, step: StepId) -> [String; 3] {
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
        Some(clue) => format!("Look at {line} and its clue of {}.", clue.value),
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
        Argument::CrustsShared { into, .. } => house(*into),
        Argument::CrustsConfined { of, into, .. } | Argument::CrustAmong { of, into, .. } => {
            format!("Look at {of} and {into}.")
        }
        Argument::CrustsInTurn { kinds, .. } => of(kinds[0] | kinds[1]),
        Argument::LineAndBox { houses: [line, within], .. } => format!("Look at {line} and {within}."),
        Argument::Locked { from, into, .. } => format!("Look at {from} and {into}."),
        // The lines of a crossing, and the cells of a chain, are most of what is to be found.
        Argument::Crossing { digit, .. } | Argument::TwoColours { digit, .. } => {
            format!("Look at where {digit} can go.")
        }
        Argument::Wing { pivot, .. } => format!("Look at {pivot} and what it sees."),
        Argument::EqualPairs { digits, .. } => {
            format!("Look at the cells that can be only {}.", either_digit(*digits))
        }
        Argument::AlmostLocked { sets, .. } => of(sets[0].0),
        Argument::JoinedPairs { ends, .. } => of(ends.iter().copied().collect()),
        Argument::Chain { start, .. } => match start.digits.single() {
            Some(digit) if start.cells.len() == 1 => {
                format!("Look at {}: is it {digit}?", cells(start.cells))
            }
            Some(digit) => format!("Look at {}: is the {digit} there?", cells(start.cells)),
            None => format!("Look at {}: is it a crust?", cells(start.cells)),
        },
        Argument::SeesBothCrusts { cells } => of(*cells),
        Argument::CrustHeld { into, line, .. } => format!("Look at {line} and {into}."),
        Argument::CrustsTouch { clue: id, line }
        | Argument::CrustsAtEnds { clue: id, line, .. }
        | Argument::CrustDistance { clue: id, line, .. }
        | Argument::Sets { clue: id, line, .. }
        | Argument::Remainder { clue: id, line, .. } => clue(*id, *line),
        Argument::Reach { line, .. } => format!("Look at {line} and where its crusts can be."),
        Argument::Misfits { line, cell, .. } => format!("Look at {line} and at what {cell} can be."),
        Argument::SpentSplits { line, .. } | Argument::SideHolds { line, .. } => house(*line),
        Argument::HeldActs { line, cells, .. } => {
            format!("Look at {line}, and at what sees {}.", crate::cells(*cells))
        }
        Argument::Cases { branches, .. } | Argument::Followed { branches } => match branches.first() {
            Some(case) => format!("Look at {}: can it be {}?", case.cell, digits(case.digits)),
            None => "Look at the whole board.".to_owned(),
        },
    }
}
