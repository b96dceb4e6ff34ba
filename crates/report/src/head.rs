//! The head of the page: what pack this is, how it stands, and the way to its parts.

use maud::{Markup, html};
use pack::PackInfo;
use packfile::{Problem, Unreadable};
use study::Finding;

use crate::contents::Contents;
use crate::words::Summary;
use page::{bare, text};

/// What a pack without a title is called.
const UNTITLED: &str = "Untitled pack";

/// The title of the window.
pub(crate) fn window_title(info: &PackInfo) -> String {
    match bare(&info.title) {
        it if it.trim().is_empty() => format!("{UNTITLED}: editor’s report"),
        it => format!("{it}: editor’s report"),
    }
}

pub(crate) fn masthead(contents: &Contents, problems: &[Problem], unreadable: &[Unreadable]) -> Markup {
    let info = contents.pack.info();
    let has_problems = !problems.is_empty() || !unreadable.is_empty();
    html! {
        header.masthead {
            p.kind { "Editor’s report" }
            h1 {
                @if info.title.trim().is_empty() { (UNTITLED) } @else { (text(&info.title)) }
            }
            (imprint(info))
            p.summary { (summary(contents, unreadable).sentences().join(" ")) }
            nav aria-label="Parts of the report" {
                ul {
                    @if has_problems { li { a href="#problems" { "Problems (" (problems.len()) ")" } } }
                    li { a href="#pack" { "The pack" } }
                    li { a href="#coverage" { "Coverage" } }
                    @if contents.has_boards() { li { a href="#marks" { "Marks" } } }
                }
            }
        }
    }
}

/// Who edits the pack and how it may be used, as far as that is known.
fn imprint(info: &PackInfo) -> Markup {
    html! {
        p.imprint {
            @if !info.editor.trim().is_empty() { "Edited by " (text(&info.editor)) ". " }
            @match &info.licence {
                Some(licence) => { "Licence: " (text(licence)) "." }
                None => { "No licence is named." }
            }
        }
    }
}

fn summary(contents: &Contents, unreadable: &[Unreadable]) -> Summary {
    let sound = |it: &&study::Study| it.finding() == Finding::One;
    let studies = contents.pack.studies();
    Summary {
        puzzles: studies.len(),
        sound: studies.iter().filter(sound).count(),
        unexplained: studies.iter().filter(sound).filter(|it| !it.is_publishable()).count(),
        sealed: contents.n_sealed(),
        unreadable: unreadable.len(),
        is_proposed: contents.pack.is_proposed(),
    }
}
