//! The verdict, and what shows it: two solutions side by side, or where a walkthrough stopped.

use draw::{Marks, Scale};
use grid::CellSet;
use maud::{Markup, html};
use prove::Many;
use reason::Stopped;
use study::{Opened, Study};

use crate::puzzle::{board, is_sound};
use crate::words;

/// The verdict in the margin. It may be told while the puzzle is sealed: why a puzzle cannot have a
/// single solution is read off its page.
pub(crate) fn note(study: &Study) -> Markup {
    html! {
        dt { "Verdict" }
        dd {
            p {
                @if is_sound(study) { (words::verdict(study.finding())) }
                @else { strong.unsound { (words::verdict(study.finding())) } }
            }
            @if let Some((a, b)) = study.exchange() {
                p { (tell::exchange_explanation(study.entry().puzzle.size(), a, b)) }
            }
        }
    }
}

/// What there is to show for the verdict of an open puzzle.
pub(crate) fn details(study: &Study, opened: Opened) -> Markup {
    html! {
        @if let Some(many) = opened.many {
            h3 { "Two of its solutions" }
            (side_by_side(study, many))
        }
        @if let Some(stopped) = opened.stopped {
            h3 { "No walkthrough" }
            (why_stopped(study, stopped))
        }
    }
}

fn side_by_side(study: &Study, many: &Many) -> Markup {
    let size = study.entry().puzzle.size();
    let differing: CellSet = size.cells().filter(|it| many.first.get(*it) != many.second.get(*it)).collect();
    let marks = Marks { conclusions: differing, ..Marks::default() };
    html! {
        p {
            "They differ in the " (differing.len()) " filled cells."
            @if let Some(cell) = differing.first() {
                @if let (Some(a), Some(b)) = (many.first.get(cell), many.second.get(cell)) {
                    " The first of them is " (cell) ": " (a) " or " (b) "."
                }
            }
        }
        div.pair {
            figure {
                (board(study, "one solution", &many.first, &marks, Scale::Small))
                figcaption { "One solution" }
            }
            figure {
                (board(study, "another solution", &many.second, &marks, Scale::Small))
                figcaption { "Another" }
            }
        }
    }
}

fn why_stopped(study: &Study, stopped: &Stopped) -> Markup {
    let fault = "so the walkthrough was thrown away. That is a fault of Galley, not of the puzzle.";
    html! {
        @match stopped {
            Stopped::Stuck(grid) => {
                p { "From this board neither a technique nor a small argument within its limits leads on." }
                figure { (board(study, "where the walkthrough stopped", grid, &Marks::default(), Scale::Small)) }
            }
            Stopped::NotTeachable(arguments) => {
                p {
                    "Not teachable yet: beside the techniques, its walkthrough takes " (arguments) " small arguments, "
                    "too many to be read out. One more given or clue may be enough to change that."
                }
            }
            Stopped::Wrong(step) => {
                p {
                    "A step (" (tell::technique_name(step.0.technique)) ") claimed what the proven solution "
                    "contradicts, " (fault)
                }
            }
            Stopped::Refused(_, refusal) => {
                p { "The check refused a step (" (refusal.to_string()) "), " (fault) }
            }
            Stopped::Misbuilt(error) => {
                p { "A step did not fit those before it (" (error.to_string()) "), " (fault) }
            }
        }
    }
}
