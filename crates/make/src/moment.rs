//! Where a puzzle turns on what it teaches.

use reason::{Known, View};
use rulebook::Puzzle;
use trail::{StepId, TechniqueId, Trail};

/// The first step of the walkthrough that uses the technique and concludes something that a solver with the
/// `others` alone never gets to; if they can finish the puzzle, none.
///
/// Steps before it may use the technique too, where it is quicker than what the others have for it.
pub(crate) fn moment(
    puzzle: &Puzzle,
    walkthrough: &Trail,
    technique: TechniqueId,
    others: Known,
) -> Option<StepId> {
    let stuck = as_far_as_it_goes(View::new(puzzle), others);
    let is_beyond = |id: StepId| {
        walkthrough.step(id).concludes().iter().any(|it| stuck.is_news(walkthrough.fact(*it).claim()))
    };
    let mut uses = walkthrough.steps().filter(|(_, it)| it.technique() == technique).map(|it| it.0);
    uses.find(|it| is_beyond(*it))
}

/// Everything that can be known from there with these techniques.
pub(crate) fn as_far_as_it_goes(mut view: View<'_>, known: Known) -> View<'_> {
    while let Some(proposal) = known.techniques().find_map(|it| it.find(&view).into_iter().next()) {
        // What cannot be put on a trail is a fault of its technique, which `reason::explain` reports.
        if view.take(proposal).is_err() {
            break;
        }
    }
    view
}
