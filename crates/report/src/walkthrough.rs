//! The walkthrough in print: passages of numbered steps beside small boards, one a passage, or more
//! where a passage is long.

use draw::{Board, Scale};
use maud::{Markup, PreEscaped, html};
use pack::Entry;
use rulebook::Puzzle;
use study::Account;
use trail::{Passage, StepId, Trail};

use crate::text::bare;
use crate::words;

/// At most so many steps stand beside one board: about as much text as the board is high.
const MOST_STEPS: usize = 8;

/// The id of a step's paragraph, unlike that of any puzzle; `number` is the puzzle's.
pub(crate) fn step_anchor(number: usize, step: StepId) -> String {
    format!("p{number}-step-{}", step.number())
}

/// Every passage of the walkthrough of the puzzle with that number.
pub(crate) fn passages(entry: &Entry, number: usize, account: &Account) -> Markup {
    let walkthrough = account.explained.walkthrough.walkthrough();
    html! {
        @for it in walkthrough.passages() {
            (passage(entry, number, walkthrough.trail(), it))
        }
    }
}

fn passage(entry: &Entry, number: usize, trail: &Trail, passage: &Passage) -> Markup {
    html! {
        div.passage {
            h4 {
                (tell::passage_title(&entry.puzzle, trail, passage))
                " " span.steps { (words::steps(numbers(&passage.steps))) }
            }
            @for it in stretches(&passage.steps) { (stretch(entry, number, trail, it)) }
        }
    }
}

/// The steps in stretches of about equal length, so that no board is far behind its text.
fn stretches(steps: &[StepId]) -> impl Iterator<Item = &[StepId]> {
    let n_stretches = steps.len().div_ceil(MOST_STEPS).max(1);
    steps.chunks(steps.len().div_ceil(n_stretches).max(1))
}

/// Some steps beside the board as they leave it.
fn stretch(entry: &Entry, number: usize, trail: &Trail, steps: &[StepId]) -> Markup {
    let (first, last) = numbers(steps);
    html! {
        div.stretch {
            figure {
                (board_after(entry, trail, steps, last))
                figcaption { "After step " (last) }
            }
            ol start=(first) {
                @for it in steps { (step(&entry.puzzle, number, trail, *it)) }
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
        coordinates: false,
    }))
}

fn step(puzzle: &Puzzle, number: usize, trail: &Trail, step: StepId) -> Markup {
    let said = tell::says(puzzle, trail, step);
    html! {
        li id=(step_anchor(number, step)) {
            p.technique { (tell::technique_name(trail.step(step).technique())) }
            @for line in said.lines() {
                @match case_depth(line) {
                    0 => { p { (line) } }
                    1 => { p.case { (line) } }
                    _ => { p.case.within { (line) } }
                }
            }
        }
    }
}

/// How deep a line of a small argument lies: 1 for `Case 2.`, 2 for `Case 2.1.`, 0 for any other.
fn case_depth(line: &str) -> usize {
    let Some(label) = line.strip_prefix("Case ").and_then(|it| it.split(' ').next()) else { return 0 };
    label.split('.').filter(|it| !it.is_empty()).count()
}
