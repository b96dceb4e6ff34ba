//! A walkthrough as printed paragraphs beside one board, which shows the step that is being read.

use draw::{Board, Marks, Scale};
use maud::{Markup, PreEscaped, html};
use page::bare;
use study::{Account, Study};
use tell::Voice;

/// The walkthrough. The script sets the board to the paragraph that is read.
pub(super) fn walkthrough(study: &Study, account: &Account) -> Markup {
    let puzzle = &study.entry().puzzle;
    let walkthrough = account.explained.walkthrough();
    let trail = walkthrough.trail();
    let title = format!("{}: before the first step", bare(&study.entry().title));
    let (marks, scale) = (&Marks::default(), Scale::Large);
    let picture = draw::board(&Board {
        puzzle,
        digits: puzzle.givens(),
        marks,
        title: &title,
        scale,
        coordinates: true,
    });
    let layout = draw::layout(puzzle, scale, true);
    // Where a press on the picture finds its cell.
    let frame = format!("{} {} {} {}", layout.corner.0, layout.corner.1, layout.side, layout.paper.0);
    html! {
        div.reading data-puzzle=(study.entry().id) {
            figure data-frame=(frame) { div.picture { (PreEscaped(picture)) } figcaption data-shown="0" { "Before the first step" } }
            div.steps-read {
                @for (passage, title) in walkthrough.passages().iter().zip(tell::passage_titles(puzzle, walkthrough)) {
                    h3 { (title) }
                    ol start=[passage.steps.first().map(|it| it.number())] {
                        @for step in &passage.steps {
                            li.step data-step=(step.number()) tabindex="0" {
                                p.technique { (tell::technique_name(trail.step(*step).technique())) }
                                @for it in account.landmarks_at(*step) { p.narrow { (tell::landmark(it)) } }
                                (page::told(&tell::says_in(Voice::Screen, puzzle, trail, *step)))
                            }
                        }
                    }
                }
            }
        }
    }
}
