//! How long a puzzle is expected to take, and why.

use grade::StepTime;
use maud::{Markup, html};
use study::{Account, Study};
use trail::{StepId, TechniqueId};

use crate::walkthrough::step_anchor;
use crate::words;

/// At most so many narrow places are named.
const NARROW: usize = 3;

/// Where more steps than this are open that are no harder, it is not narrow.
const MOST_OPEN: usize = 4;

/// Where a step is seen sooner than this, in seconds, it is not narrow.
const SHORTEST_WAIT: f64 = 5.0;

/// The steps that are waited for longest, where the wait is long and few others are open.
pub(crate) fn narrow_places(account: &Account) -> Vec<&StepTime> {
    let is_narrow = |it: &&StepTime| it.open <= MOST_OPEN && it.wait >= SHORTEST_WAIT;
    account.estimate.narrowest(NARROW).into_iter().filter(is_narrow).collect()
}

/// The expected minutes with three reasons: the steps, the narrow places, and where the time goes.
/// Nothing if there is no walkthrough.
pub(crate) fn note(study: &Study, number: usize, account: Option<&Account>) -> Markup {
    let Some((account, range)) = account.zip(study.minutes()) else { return html! {} };
    let estimate = &account.estimate;
    let trail = account.explained.walkthrough().trail();
    let arguments = trail.steps().filter(|(_, it)| it.is_small_argument()).count();
    let by_technique: Vec<(TechniqueId, f64)> =
        estimate.by_technique.iter().map(|it| (*it.0, *it.1)).collect();
    let technique = |it: StepId| tell::technique_name(trail.step(it).technique());
    html! {
        dt { "Expected minutes" }
        dd {
            p { (tell::capital(&words::about_minutes(estimate.minutes()))) " (" (words::range(range)) ")." }
            ul {
                li { (words::n_steps(trail.n_steps(), arguments)) }
                @let narrow = narrow_places(account);
                @if narrow.is_empty() {
                    li { "It has no narrow place: wherever a step is hard to see, others are open." }
                } @else { li {
                    "The narrowest places, and how long until the step is seen:"
                    ul {
                        @for it in narrow {
                            li {
                                a href={ "#" (step_anchor(number, it.step)) } { "step " (it.step.number()) }
                                ", " (technique(it.step)) ": " (words::wait(it.wait, it.open)) "."
                            }
                        }
                    }
                } }
                li { "Most of the time goes to " (words::shares(&by_technique)) "." }
            }
        }
    }
}
