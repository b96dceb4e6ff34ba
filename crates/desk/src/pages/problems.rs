//! What is wrong with files, file by file.

use maud::{Markup, html};
use page::{sentence, text};

use crate::api::PackProblem;

/// Every problem at its place; nothing if there are none.
pub(super) fn problems(problems: &[PackProblem]) -> Markup {
    html! {
        @for of_file in problems.chunk_by(|a, b| a.file == b.file) {
            h3.file { (text(&of_file[0].file)) }
            ul.problems {
                @for it in of_file {
                    li {
                        p.place {
                            @match (it.line, it.column) {
                                (Some(line), Some(column)) => { "Line " (line) ", column " (column) }
                                _ => { "Whole file" }
                            }
                        }
                        div {
                            p {
                                strong { @if it.is_error { "Error:" } @else { "Warning:" } }
                                " " (sentence(&it.message))
                            }
                            @if let Some(help) = &it.help { p { "Help: " (sentence(help)) } }
                        }
                    }
                }
            }
        }
    }
}
