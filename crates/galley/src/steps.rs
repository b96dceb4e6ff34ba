//! Steps and claims as documents hold them.

use grid::Size;
use rulebook::{Claim, Puzzle};
use trail::{StepId, Trail};

use crate::json::{self, Conclusion};

/// Every step of a trail.
pub(crate) fn steps(puzzle: &Puzzle, trail: &Trail) -> Vec<json::Step> {
    trail.steps().map(|(id, _)| step(puzzle, trail, id)).collect()
}

fn step(puzzle: &Puzzle, trail: &Trail, id: StepId) -> json::Step {
    let step = trail.step(id);
    json::Step {
        number: id.number(),
        technique: step.technique().name(),
        small_argument: step.is_small_argument(),
        says: tell::says(puzzle, trail, id),
        cites: trail.steps_cited_by(id).into_iter().map(StepId::number).collect(),
        concludes: step
            .concludes()
            .iter()
            .map(|it| conclusion(puzzle.size(), trail.fact(*it).claim()))
            .collect(),
    }
}

/// A claim, in one of the shapes that `docs/json.md` shows.
pub(crate) fn conclusion(size: Size, claim: Claim) -> Conclusion {
    let name = |cell: grid::Cell| cell.to_string();
    match claim {
        Claim::Is(cell, digit) => Conclusion::Is { cell: name(cell), is: digit.get() },
        Claim::IsNot(cell, digit) => Conclusion::Not { cell: name(cell), not: digit.get() },
        Claim::Crust(cell) => Conclusion::Kind { cell: name(cell), kind: "crust" },
        Claim::Filling(cell) => Conclusion::Kind { cell: name(cell), kind: "filling" },
        other => Conclusion::Says { says: tell::claim(size, &other) },
    }
}
