//! The page of the pack: its order, to be rearranged, what that costs, its curve and coverage, and what is wrong with its
//! files.

use std::sync::Arc;

use ::pack::PuzzleId;
use axum::extract::State;
use axum::response::Html;
use draw::{CoverageRow, CurvePoint, Met, coverage_chart, minutes_curve};
use maud::{Markup, PreEscaped, html};
use page::{bare, sentence, text};
use study::{Finding, StudiedPack, Study, TwinKind};
use trail::TechniqueId;

use super::frame::{Here, Page};
use super::gaps::{gaps, set_puzzles};
use super::places::places;
use super::problems::problems;
use crate::api::problems as problems_of;
use crate::folder::{PACK_FILE, Reading};
use crate::state::{Desk, View, study_of};
use crate::words;

pub(super) async fn page(State(desk): State<Arc<Desk>>) -> Html<String> {
    let view = desk.view();
    let title = title(&view.reading);
    let main = html! {
        h1 { (text(&title)) }
        (trouble(&view))
        (files(&view.reading))
        @match &view.pack {
            Some(pack) => { (order(&view.reading, pack)) (curve(pack)) (coverage(pack)) (twins(&view, pack)) (gaps(pack)) }
            None => { (being_studied(&view)) }
        }
        (set_puzzles())
        @if let Some(pack) = &view.pack { (aside(pack)) (places(&view.reading, pack)) }
        (new_puzzle())
    };
    Page { title: format!("{title}: pack"), script: Some("pack.js"), here: Here::Pack, main }.render(&desk)
}

/// What the pack is called.
pub(super) fn title(reading: &Reading) -> String {
    match reading.read.pack.info.title.trim() {
        "" => "Untitled pack".to_owned(),
        it => it.to_owned(),
    }
}

/// What cannot be read, kept or found out at the moment.
pub(super) fn trouble(view: &View) -> Markup {
    html! {
        @for it in view.troubles() {
            p.trouble role="alert" {
                "Not all is well: " (sentence(&it.message)) " What stands here may be from before. Help: " (sentence(&it.help))
            }
        }
    }
}

fn files(reading: &Reading) -> Markup {
    let found = problems_of(reading);
    html! {
        @if !found.is_empty() {
            section #problems aria-labelledby="problems-head" {
                h2 #problems-head { "Problems" }
                (problems(&found))
            }
        }
    }
}

fn being_studied(view: &View) -> Markup {
    html! {
        section #order aria-labelledby="order-head" {
            h2 #order-head { "Order" }
            @if !view.is_given_up() {
                p { "The puzzles are being proved, walked through and put in order. This page follows by itself." }
            }
            ul { @for it in &view.reading.read.pack.entries {
                li { a href={ "/puzzles/" (it.id) } { (text(&it.title)) } ", by " (text(&it.setter)) }
            } }
        }
    }
}

/// The order as a list whose items can be moved.
fn order(reading: &Reading, pack: &StudiedPack) -> Markup {
    let digest = reading.digest(PACK_FILE).map(|it| it.to_string()).unwrap_or_default();
    html! {
        section #order aria-labelledby="order-head" data-digest=(digest) {
            h2 #order-head { "Order" }
            p.lead {
                @if pack.is_proposed() { "This is the order that Galley proposes. " } @else { "This is your order. " }
                "Move a puzzle by dragging its row, or with the arrow keys on one of its two arrows; Home and End move it to \
                 either end. What the move changes is told, and nothing is written until you keep it."
            }
            div.spread {
                ol.order {
                    @for (at, study) in pack.studies().iter().enumerate() { (row(pack, at, study)) }
                }
                div #weighed role="region" aria-label="What your moves change" {
                    p.says role="status" { "Nothing is moved." }
                    div.flaws {}
                    p.actions {
                        button type="button" #keep disabled { "Keep this order" }
                        button type="button" #put-back disabled { "Put it back" }
                    }
                }
            }
        }
    }
}

fn row(pack: &StudiedPack, at: usize, study: &Study) -> Markup {
    let entry = study.entry();
    let title = bare(&entry.title);
    let shelf = pack.placement(at).shelf;
    html! {
        li data-id=(entry.id) data-title=(title) {
            span.number { (at + 1) }
            div.what {
                a.title href={ "/puzzles/" (entry.id) } { (text(&entry.title)) }
                p {
                    "by " (text(&entry.setter)) ". "
                    (verdict(study)) ". "
                    @if let Some(range) = study.minutes() { (words::range(range)) " minutes. " }
                    @if let Some(shelf) = shelf { "Shelf: " (text(shelf)) ". " }
                    @if let Some(placed) = study.opened().and_then(|it| it.placed) {
                        @if placed.new.is_empty() { "Nothing new." } @else {
                            "New here: " (words::techniques(&placed.new.iter().copied().collect::<Vec<_>>())) "."
                        }
                    }
                }
            }
            div.move {
                button type="button" data-by="-1" aria-label={ "Move " (title) " earlier" } { "↑" }
                button type="button" data-by="1" aria-label={ "Move " (title) " later" } { "↓" }
            }
        }
    }
}

fn verdict(study: &Study) -> Markup {
    let finding = tell::capital(words::finding(study.finding()));
    html! {
        @if study.finding() == Finding::One { (finding) } @else { strong.unsound { (finding) } }
        @if study.lacks_walkthrough() { ", " strong.unsound { "no walkthrough" } }
        @if study.is_sealed() { ", sealed" }
    }
}

fn curve(pack: &StudiedPack) -> Markup {
    let studies = pack.studies();
    let labels: Vec<String> = studies.iter().map(|it| bare(&it.entry().title)).collect();
    let point = |(at, it): (usize, &Study)| CurvePoint {
        label: &labels[at],
        minutes: it.opened().and_then(|it| Some(it.account?.estimate.minutes())),
        range: it.minutes().map(|it| (f64::from(it.from), f64::from(it.to))),
        shelf: pack.placement(at).shelf,
    };
    let points: Vec<CurvePoint> = studies.iter().enumerate().map(point).collect();
    html! {
        @if points.iter().any(|it| it.range.is_some()) {
            section aria-labelledby="curve-head" {
                h2 #curve-head { "Minutes" }
                figure.curve {
                    (PreEscaped(minutes_curve("Expected minutes in the order of the pack", &points)))
                    figcaption {
                        "Expected minutes of a regular; upright lines show the range, " (tell::basis(pack.n_solves())) "."
                    }
                }
            }
        }
    }
}

fn coverage(pack: &StudiedPack) -> Markup {
    let coverage = pack.coverage();
    let used = coverage.iter().filter(|it| !it.puzzles.is_empty());
    let row = |it: &pack::Coverage| CoverageRow {
        label: tell::technique_name(it.technique),
        cells: (pack.studies().iter())
            .map(|study| match &study.entry().id {
                id if it.taught_in() == Some(id) => Met::Introduced,
                id if it.puzzles.contains(id) => Met::Practised,
                _ => Met::Not,
            })
            .collect(),
    };
    let rows: Vec<CoverageRow> = used.map(row).collect();
    let titles: Vec<String> = pack.studies().iter().map(|it| bare(&it.entry().title)).collect();
    let titles: Vec<&str> = titles.iter().map(|it| &it[..]).collect();
    let missing: Vec<TechniqueId> = coverage
        .iter()
        .filter(|it| it.puzzles.is_empty() && !it.is_known && it.technique != TechniqueId::SMALL_ARGUMENT)
        .map(|it| it.technique)
        .collect();
    let has_seal = pack.all().any(Study::is_sealed);
    html! {
        section aria-labelledby="coverage-head" {
            h2 #coverage-head { "Coverage" }
            @if rows.is_empty() { p { "No open puzzle has a walkthrough, so none teaches a technique yet." } } @else {
                figure.taught {
                    (PreEscaped(coverage_chart("What each puzzle introduces and practises", &titles, &rows)))
                    figcaption { "A square where a technique is introduced, a ring where it is practised." }
                }
            }
            @if has_seal {
                p { "What no puzzle teaches is not said while one is sealed: it might." }
            } @else if !missing.is_empty() {
                p { "Not taught yet: " (words::techniques(&missing)) "." }
            }
        }
    }
}

/// Puzzles that are one, seen from another side; nothing where there are none.
fn twins(view: &View, pack: &StudiedPack) -> Markup {
    let link = |id: &PuzzleId| {
        let title = study_of(pack, id.as_str()).map_or_else(|| id.to_string(), |it| it.entry().title.clone());
        html! { a href={ "/puzzles/" (id) } { (text(&title)) } }
    };
    html! {
        @if !view.twins.is_empty() {
            section #twins aria-labelledby="twins-head" {
                h2 #twins-head { "Twins" }
                p { "Ask their setters, or leave one of each out. Earlier packs are compared by " code { "galley twins" } "." }
                ul { @for it in view.twins.iter() {
                    li {
                        @match it.kind {
                            TwinKind::Puzzle => "The same puzzle, seen from another side or copied: ",
                            TwinKind::Solution => "The same solution, seen from another side or copied: ",
                        }
                        @for (at, id) in it.puzzles.iter().enumerate() { @if at > 0 { ", " } (link(id)) }
                    }
                } }
            }
        }
    }
}

/// A file for a puzzle that was sent, to be typed or pasted on its own page.
fn new_puzzle() -> Markup {
    html! {
        section aria-labelledby="new-head" {
            h2 #new-head { "A new puzzle" }
            form #new {
                p { label for="new-title" { "Title" } input #new-title name="title" required maxlength="120" autocomplete="off"; }
                p { label for="new-setter" { "Who set it" } input #new-setter name="setter" required maxlength="120" autocomplete="off"; }
                p {
                    label for="new-side" { "Size" }
                    select #new-side name="side" {
                        @for size in (4..=16).filter_map(grid::Size::of_side) {
                            option value=(size.side()) selected[size == grid::Size::NINE] { (size) }
                        }
                    }
                }
                p.actions { button { "Begin a file for it" } }
            }
        }
    }
}

fn aside(pack: &StudiedPack) -> Markup {
    html! {
        @if !pack.aside().is_empty() {
            section aria-labelledby="aside-head" {
                h2 #aside-head { "Without a place" }
                ul {
                    @for it in pack.aside() {
                        li {
                            a href={ "/puzzles/" (it.entry().id) } { (text(&it.entry().title)) }
                            ", by " (text(&it.entry().setter)) ": " (words::no_place(it.entry().state)) ". " (verdict(it)) "."
                        }
                    }
                }
            }
        }
    }
}
