//! The jobs of the desk, as each page that begins some shows them. The script keeps them as they are (`play/jobs.js`).

use maud::{Markup, html};
use page::text;

use crate::jobs::JobNow;

/// The list. Without a script it is as it was when the page was made.
pub(super) fn jobs(all: &[JobNow]) -> Markup {
    html! {
        section #jobs aria-labelledby="jobs-head" {
            h2 #jobs-head { "Jobs" }
            p.none hidden[!all.is_empty()] { "None since the desk was started." }
            ul.jobs {
                @for it in all {
                    li data-job=(it.id) data-state=(it.state.in_words()) {
                        p { strong { (text(&it.title)) } ": " (it.state.in_words()) ". " (text(&it.says)) }
                        @if let Some(help) = &it.help { p { (text(help)) } }
                    }
                }
            }
        }
    }
}
