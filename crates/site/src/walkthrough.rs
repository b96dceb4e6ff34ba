//! The walkthrough as folded passages of numbered steps, each beside a small board, or beside several
//! where a passage is long.

use draw::Scale;
use maud::{Markup, html};
use pack::Entry;
use trail::{Passage, StepId, Trail, Walkthrough};

use crate::puzzle;
use page::bare;

/// At most so many steps stand beside one board: about as much text as the board is high.
const MOST_STEPS: usize = 8;

/// Every passage, folded.
pub(crate) fn passages(entry: &Entry, walkthrough: &Walkthrough) -> Markup {
    let titles = tell::passage_titles(&entry.puzzle, walkthrough);
    html! {
        @for (it, title) in walkthrough.passages().iter().zip(titles) {
            (passage(entry, walkthrough.trail(), it, &title))
        }
    }
}

fn passage(entry: &Entry, trail: &Trail, passage: &Passage, title: &str) -> Markup {
    html! {
        details.passage {
            summary {
                h3 { (title) }
                " " span.steps { (page::steps(&passage.steps)) }
            }
            @for it in page::stretches(&passage.steps, MOST_STEPS) { (stretch(entry, trail, it)) }
        }
    }
}

/// Some steps beside the board as they leave it.
fn stretch(entry: &Entry, trail: &Trail, steps: &[StepId]) -> Markup {
    let (digits, marks) = draw::marks_for(&entry.puzzle, trail, steps);
    let after = format!("after step {}", steps.last().map_or(0, |it| it.number()));
    let title = format!("{}: {after}", bare(&entry.title));
    html! {
        div.stretch {
            figure {
                (puzzle::board(&entry.puzzle, &digits, &marks, &title, Scale::Small))
                figcaption { (tell::capital(&after)) }
            }
            ol start=(steps.first().map_or(1, |it| it.number())) {
                @for it in steps {
                    li id={ "step-" (it.number()) } {
                        p.technique { (tell::technique_name(trail.step(*it).technique())) }
                        (page::told(&tell::says(&entry.puzzle, trail, *it)))
                    }
                }
            }
        }
    }
}
