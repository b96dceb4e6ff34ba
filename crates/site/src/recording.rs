//! The recording of a puzzle's walkthrough: a plain link, once it is out.

use maud::{Markup, html};
use pack::{Day, Entry};
use page::text;

/// Where the recording can be seen, if it is out on that day. Without a day of release it is out.
pub(crate) fn out(entry: &Entry, on: Option<Day>) -> Option<&str> {
    let is_out = entry.release.is_none_or(|release| on.is_some_and(|it| release <= it));
    entry.recording.as_deref().filter(|_| is_out)
}

/// The recording as notes beside the board; nothing if there is none to speak of.
pub(crate) fn notes(entry: &Entry, on: Option<Day>) -> Markup {
    html! {
        @match (out(entry, on), entry.release) {
            (Some(address), _) => {
                dt { "Recording" }
                dd {
                    a rel="noreferrer" href=(address) { "A walkthrough of this puzzle, spoken" }
                    (chapters(entry))
                }
            }
            (None, Some(release)) if on.is_none_or(|it| it < release) => {
                dt { "Recording" }
                dd { "It comes out on " (tell::day(release)) "." }
            }
            _ => {}
        }
    }
}

/// What is to be seen when, folded: titles may tell something of the puzzle.
fn chapters(entry: &Entry) -> Markup {
    html! {
        @if !entry.chapters.is_empty() {
            details.chapters {
                summary { "Chapters" }
                dl {
                    @for it in &entry.chapters {
                        dt { (it.begins()) }
                        dd { (text(&it.title)) }
                    }
                }
            }
        }
    }
}
