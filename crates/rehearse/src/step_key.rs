//! The name by which a step is known again when the walkthrough has changed.

use grid::Size;
use trail::{StepId, Trail};

/// The technique and what it concludes: `naked-single: r4c7 is 5`. Two steps of one walkthrough never have the same,
/// because nothing is concluded twice; a step that is still made in another walkthrough has the same there.
pub fn step_key(size: Size, trail: &Trail, step: StepId) -> String {
    let step = trail.step(step);
    let claims = step.concludes().iter().map(|it| tell::claim(size, &trail.fact(*it).claim()));
    format!("{}: {}", step.technique().name(), claims.collect::<Vec<_>>().join("; "))
}
