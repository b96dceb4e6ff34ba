//! The two pages as HTML, before their scripts fill them.

use draw::{Board, Marks, Scale};
use maud::{DOCTYPE, Markup, PreEscaped, html};
use pack::Entry;
use page::{bare, text};

use super::{On, opening};

pub(super) const STAGE_STYLE_PATH: &str = "stage.css";
pub(super) const PRESENTER_STYLE_PATH: &str = "presenter.css";
pub(super) const STAGE_SCRIPT_PATH: &str = "stage.js";
pub(super) const PRESENTER_SCRIPT_PATH: &str = "presenter.js";
pub(super) const ENGINE_PATH: &str = "engine.js";

/// Nothing may run and nothing may be fetched but the files beside the page. `file:` is for reading from a disk, where
/// some browsers do not count a neighbour as `'self'`; `data:` is the icon that there is none.
const POLICY: &str = "default-src 'none'; script-src 'self' file:; style-src 'self' file:; img-src data:; \
     base-uri 'none'; form-action 'none'";

/// The presenter's page may also run the engine, and no other code, in a worker that its own script makes.
const POLICY_WITH_ENGINE: &str = "default-src 'none'; script-src 'self' file: 'wasm-unsafe-eval'; worker-src blob:; \
     style-src 'self' file:; img-src data:; base-uri 'none'; form-action 'none'";

/// The style of the page that is recorded.
pub(super) fn stage_style() -> String {
    [&page::style(), site::BOARD_STYLE, include_str!("board.css"), include_str!("stage.css")].concat()
}

/// The style of the presenter's page.
pub(super) fn presenter_style() -> String {
    [&page::style(), site::BOARD_STYLE, include_str!("board.css"), include_str!("presenter.css")].concat()
}

/// The page that is recorded.
pub(super) fn stage(on: &On) -> String {
    let content = html! {
        main #main tabindex="-1" {
            section.title aria-label="The title" {
                h1 { (text(&on.entry.title)) }
                (opening::credit(on.entry, on.pack_title))
            }
            section.sheet aria-label="The board" { figure.board { (board(on.entry)) } }
            section.rules aria-label="The rules" { h2 { "Rules" } (opening::rules(&on.plan.script.rules)) }
        }
    };
    document(on, "stage", POLICY, [STAGE_STYLE_PATH, STAGE_SCRIPT_PATH], &content)
}

/// The presenter's page.
pub(super) fn presenter(on: &On) -> String {
    let entry = on.entry;
    let content = html! {
        a.skip href="#main" { "Skip to the words" }
        header.running {
            div {
                p.kind { "Presenter’s page" }
                h1 { (text(&entry.title)) }
            }
            section.time aria-label="Time" {
                p.clock { "0:00" }
                p.against {}
            }
        }
        noscript { p.notice { "This page needs its script, which is in the same folder." } }
        p.notice role="alert" {}
        main #main tabindex="-1" {
            section.words {
                section.now { h2 { "Now" } div.said {} }
                section.next { h2 { "Next" } div.said {} }
                section.watch { h2 { "From the board" } div.told aria-live="polite" {} }
            }
            section.side {
                section.sheet { h2 { "On the stage" } figure.board { (board(entry)) } p.status role="status" {} }
                div.doing {}
                section.passages { h2 { "Passages" } ol {} }
                (new_here(on))
                (asked(on))
                (orphans(on))
                section.logs { h2 { "Logs" } div.all {} }
                details.keys open { summary { "Keys, in either window" } dl {} }
            }
        }
    };
    document(on, "presenter", POLICY_WITH_ENGINE, [PRESENTER_STYLE_PATH, PRESENTER_SCRIPT_PATH], &content)
}

fn document(on: &On, kind: &str, policy: &str, [style, script]: [&str; 2], content: &Markup) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content=(policy);
                meta name="robots" content="noindex";
                title { (bare(&on.entry.title)) ": " (kind) }
                link rel="icon" href="data:,";
                link rel="stylesheet" href=(style);
                script src=(script) defer {}
            }
            body class=(kind) {
                (content)
                script type="application/json" id=(site::PUZZLE_DATA) { (PreEscaped(&on.puzzle)) }
                script type="application/json" id="plan-data" { (PreEscaped(&on.data)) }
            }
        }
    };
    page.into_string()
}

/// What is to be introduced, and what needs no repeating.
fn new_here(on: &On) -> Markup {
    let name = |it| tell::technique_name(it);
    html! {
        @if !on.plan.introductions.is_empty() {
            section.new {
                h2 { "New here" }
                dl {
                    @for it in &on.plan.introductions {
                        dt { (tell::capital(name(it.technique))) ", step " (it.step.number()) }
                        dd {
                            p { (it.says) }
                            @for figures in &it.figures { p { (figures) } }
                        }
                    }
                }
            }
        }
        @if !on.plan.taught.is_empty() {
            details.known {
                summary { "Taught before" }
                @for it in &on.plan.taught {
                    p {
                        (tell::capital(name(it.technique)))
                        @if let Some(title) = &it.by { ", in " (text(title)) }
                    }
                }
            }
        }
    }
}

/// Questions to viewers that belong to no step.
fn asked(on: &On) -> Markup {
    let free: Vec<&str> =
        on.plan.questions.iter().filter(|it| it.step.is_none()).map(|it| &*it.asks).collect();
    html! {
        @if !free.is_empty() {
            section.asked { h2 { "To ask" } @for it in free { p { (it) } } }
        }
    }
}

/// Notes on steps that are gone.
fn orphans(on: &On) -> Markup {
    html! {
        @if !on.plan.orphans.is_empty() {
            section.orphans {
                h2 { "Notes on steps that the walkthrough no longer has" }
                dl {
                    @for it in &on.plan.orphans { dt { (text(&it.key)) } dd { (text(&it.says)) } }
                }
            }
        }
    }
}

/// The board as it is printed; the scripts write on it.
fn board(entry: &Entry) -> Markup {
    let title = format!("{}: the puzzle", bare(&entry.title));
    let board = Board {
        puzzle: &entry.puzzle,
        digits: entry.puzzle.givens(),
        marks: &Marks::default(),
        title: &title,
        scale: Scale::Large,
        coordinates: true,
    };
    PreEscaped(draw::board(&board))
}
