//! How long a puzzle is expected to take, and why.

use maud::{Markup, html};
use study::{Account, MinutesRange};
use trail::StepId;

use crate::walkthrough::step_anchor;
use crate::words;

/// The expected minutes of each kind of solver with three reasons: the steps, the narrow places, and where the
/// time goes. Nothing if there is no walkthrough.
pub(crate) fn note(number: usize, account: Option<&Account>) -> Markup {
    let Some(account) = account else { return html! {} };
    let estimate = &account.estimate;
    let trail = account.explained.walkthrough().trail();
    let technique = |it: StepId| tell::technique_name(trail.step(it).technique());
    html! {
        dt { "Expected minutes" }
        dd {
            table.solvers { caption { "In the middle, and eight solves in ten; " (tell::basis(estimate.n_solves)) } tbody {
                @for (solver, times) in estimate.solvers() {
                    tr {
                        th scope="row" { (tell::capital(solver.name)) }
                        td {
                            (words::whole_minutes(times.median / 60.0)) " "
                            span.range { "(" (words::range(MinutesRange::of(times, estimate.n_solves))) ")" }
                        }
                    }
                }
            } }
            ul {
                li { (tell::steps(trail)) }
                @let narrow = estimate.narrow_places();
                @if narrow.is_empty() { li { (tell::no_narrow_place()) } } @else { li {
                    "The narrow places, and how long until the step is seen:"
                    ul {
                        @for it in narrow {
                            li {
                                a href={ "#" (step_anchor(number, it.step)) } { "step " (it.step.number()) }
                                ", " (technique(it.step)) ": " (tell::wait(it)) "."
                            }
                        }
                    }
                } }
                li { (tell::shares(estimate)) }
                @if account.has_reached_limit { li { (tell::limit_reached()) } }
            }
        }
    }
}
