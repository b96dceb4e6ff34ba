//! The key of the marks on the boards.

use draw::Mark;
use maud::{Markup, PreEscaped, html};

use crate::contents::Contents;

/// The key; nothing if the page shows no board.
pub(crate) fn section(contents: &Contents) -> Markup {
    if !contents.has_boards() {
        return html! {};
    }
    html! {
        section #marks {
            h2 { "Marks on the boards" }
            p {
                "A small board shows where the steps beside it lead. Cells are named by row and column: r4c7 is the "
                "seventh cell of the fourth row."
            }
            dl.key {
                @for mark in Mark::ALL {
                    @let (name, meaning) = words(mark);
                    div {
                        dt { (PreEscaped(draw::swatch(mark, name))) }
                        dd { (meaning) }
                    }
                }
            }
        }
    }
}

/// What a mark is called, and what it says.
fn words(mark: Mark) -> (&'static str, &'static str) {
    match mark {
        Mark::Given => ("given", "given: printed on the page"),
        Mark::Written => ("written", "written in: found by then"),
        Mark::Crust => ("crust", "crust: the 1 or the largest digit, which one is still open"),
        Mark::Filling => ("filling", "filling: neither of the two crusts"),
        Mark::Premise => ("used", "used by the steps: a cell or clue from before"),
        Mark::Conclusion => ("settled", "settled by the steps"),
        Mark::Removed => ("removed", "candidate that the steps remove"),
        Mark::Spent => ("spent", "clue that is spent: it has nothing more to say"),
        Mark::LookedAt => ("looked at", "row, column or box that the steps look at"),
    }
}
