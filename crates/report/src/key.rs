//! The key of the marks on the boards.

use maud::{Markup, html};

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
            (page::key())
        }
    }
}
