//! The key of the marks on boards: a small picture and what it says.

use draw::Mark;
use maud::{Markup, PreEscaped, html};

/// The key of all marks, as a list.
pub fn key() -> Markup {
    html! {
        ul.key {
            @for mark in Mark::ALL {
                @let (name, meaning) = words(mark);
                li { (PreEscaped(draw::swatch(mark, name))) span { (meaning) } }
            }
        }
    }
}

/// What a mark is called, and what it says.
fn words(mark: Mark) -> (&'static str, &'static str) {
    match mark {
        Mark::Given => ("given", "given: printed on the page"),
        Mark::Written => ("written", "written in: found by then"),
        Mark::Crust => ("crust", "crust, which of the two is still open"),
        Mark::Filling => ("filling", "filling: neither of the two crusts, wherever it lies"),
        Mark::Premise => ("used", "used by the steps: a cell or clue from before"),
        Mark::Conclusion => ("settled", "settled by the steps"),
        Mark::Removed => ("removed", "candidate that the steps remove"),
        Mark::Pencilled => ("place", "digit that the steps keep to these places"),
        Mark::Spent => ("spent", "clue that is spent: it has nothing more to say"),
        Mark::LookedAt => ("looked at", "row, column or box that the steps look at"),
    }
}
