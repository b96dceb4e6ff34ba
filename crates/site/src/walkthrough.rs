//! The walkthrough as folded passages of numbered steps, each beside a small board, or beside several
//! where a passage is long.

use draw::Scale;
use maud::{Markup, html};
use pack::Entry;
use trail::{Passage, StepId, Trail, Walkthrough};

use crate::text::bare;
use crate::{puzzle, words};

/// At most so many steps stand beside one board: about as much text as the board is high.
const MOST_STEPS: usize = 8;

/// Every passage, folded.
pub(crate) fn passages(entry: &Entry, walkthrough: &Walkthrough) -> Markup {
    html! { @for it in walkthrough.passages() { (passage(entry, walkthrough.trail(), it)) } }
}

/// What `tell` says of a step: a paragraph a line, the cases of a small argument set in by depth.
pub(crate) fn told(said: &str) -> Markup {
    html! {
        @for line in said.lines() {
            @match case_depth(line) {
                0 => { p { (line) } }
                1 => { p.case { (line) } }
                _ => { p.case.within { (line) } }
            }
        }
    }
}

fn passage(entry: &Entry, trail: &Trail, passage: &Passage) -> Markup {
    html! {
        details.passage {
            summary {
                h3 { (tell::passage_title(&entry.puzzle, trail, passage)) }
                " " span.steps { (words::steps(&passage.steps)) }
            }
            @for it in stretches(&passage.steps) { (stretch(entry, trail, it)) }
        }
    }
}

/// The steps in stretches of about equal length, so that no board is far from its text.
fn stretches(steps: &[StepId]) -> impl Iterator<Item = &[StepId]> {
    let n_stretches = steps.len().div_ceil(MOST_STEPS).max(1);
    steps.chunks(steps.len().div_ceil(n_stretches).max(1))
}

/// Some steps beside the board as they leave it.
fn stretch(entry: &Entry, trail: &Trail, steps: &[StepId]) -> Markup {
    let (digits, marks) = draw::marks_for(&entry.puzzle, trail, steps);
    let after = format!("after {}", words::steps(steps));
    let title = format!("{}: {after}", bare(&entry.title));
    html! {
        div.stretch {
            figure {
                (puzzle::board(&entry.puzzle, &digits, &marks, &title, Scale::Small))
                figcaption { (words::capital(&after)) }
            }
            ol start=(steps.first().map_or(1, |it| it.number())) {
                @for it in steps {
                    li {
                        p.technique { (tell::technique_name(trail.step(*it).technique())) }
                        (told(&tell::says(&entry.puzzle, trail, *it)))
                    }
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
