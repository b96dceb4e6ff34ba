//! The walkthrough in print: passages of numbered steps beside small boards, one a passage, or more
//! where a passage is long.

use draw::{Board, Scale};
use maud::{Markup, PreEscaped, html};
use pack::Entry;
use rulebook::Puzzle;
use study::Account;
use tell::Voice;
use trail::{Passage, StepId, Trail};

use page::bare;

/// At most so many steps stand beside one board: about as much text as the board is high.
const MOST_STEPS: usize = 8;

/// The id of a step's paragraph, unlike that of any puzzle; `number` is the puzzle's.
pub(crate) fn step_anchor(number: usize, step: StepId) -> String {
    format!("p{number}-step-{}", step.number())
}

/// Every passage of the walkthrough of the puzzle with that number.
pub(crate) fn passages(entry: &Entry, number: usize, account: &Account) -> Markup {
    let walkthrough = account.explained.walkthrough();
    html! {
        @for (it, title) in walkthrough.passages().iter().zip(tell::passage_titles(&entry.puzzle, walkthrough)) {
            (passage(entry, number, account, it, &title))
        }
    }
}

fn passage(entry: &Entry, number: usize, account: &Account, passage: &Passage, title: &str) -> Markup {
    html! {
        div.passage {
            h4 {
                (title)
                " " span.steps { (page::steps(&passage.steps)) }
            }
            @for it in page::stretches(&passage.steps, MOST_STEPS) { (stretch(entry, number, account, it)) }
        }
    }
}

/// Some steps beside the board as they leave it.
fn stretch(entry: &Entry, number: usize, account: &Account, steps: &[StepId]) -> Markup {
    let trail = account.explained.walkthrough().trail();
    let (first, last) = numbers(steps);
    html! {
        div.stretch {
            figure {
                (board_after(entry, trail, steps, last))
                figcaption { "After step " (last) }
            }
            ol start=(first) {
                @for it in steps { (step(&entry.puzzle, number, account, *it)) }
            }
        }
    }
}

/// The numbers of the first and the last step.
fn numbers(steps: &[StepId]) -> (usize, usize) {
    let number = |it: Option<&StepId>| it.map_or(0, |it| it.number());
    (number(steps.first()), number(steps.last()))
}

fn board_after(entry: &Entry, trail: &Trail, steps: &[StepId], last: usize) -> Markup {
    let (digits, marks) = draw::marks_for(&entry.puzzle, trail, steps);
    let title = format!("{}: after step {last}", bare(&entry.title));
    PreEscaped(draw::board(&Board {
        puzzle: &entry.puzzle,
        digits: &digits,
        marks: &marks,
        title: &title,
        scale: Scale::Small,
        coordinates: true,
    }))
}

fn step(puzzle: &Puzzle, number: usize, account: &Account, step: StepId) -> Markup {
    let trail = account.explained.walkthrough().trail();
    html! {
        li id=(step_anchor(number, step)) {
            p.technique { (tell::technique_name(trail.step(step).technique())) }
            @for it in account.landmarks_at(step) { p.ways { (tell::landmark(it)) } }
            (page::told(&tell::says_in(Voice::Screen, puzzle, trail, step)))
        }
    }
}
