//! The pack at a glance: a row a puzzle, and the curve of minutes.

use draw::CurvePoint;
use maud::{Markup, PreEscaped, html};
use study::{Finding, Study};

use crate::contents::Contents;
use crate::puzzle::anchor;
use crate::words;
use page::{bare, text};

pub(crate) fn section(contents: &Contents) -> Markup {
    let studies = contents.pack.studies();
    html! {
        section #pack {
            h2 { "The pack" }
            @if studies.is_empty() {
                p { "There is no puzzle to show." }
            } @else {
                (table(contents))
                (curve(contents))
            }
            (aside(contents))
        }
    }
}

/// The heads of the table; on a narrow page each cell repeats its own.
const HEADS: [&str; 7] = ["No.", "Title", "Setter", "Verdict", "Minutes", "New here", "Shelf"];

fn table(contents: &Contents) -> Markup {
    let n_shelves = contents.pack.info().shelves.len();
    let heads = &HEADS[..if n_shelves == 0 { HEADS.len() - 1 } else { HEADS.len() }];
    html! {
        table.pack {
            caption { (caption(contents)) }
            thead {
                tr {
                    @for head in heads { th scope="col" { (head) } }
                }
            }
            tbody {
                @for (at, study) in contents.pack.studies().iter().enumerate() {
                    (row(contents, at, study))
                }
            }
        }
    }
}

fn caption(contents: &Contents) -> Markup {
    let studies = contents.pack.studies();
    html! {
        @if studies.iter().any(|it| it.minutes().is_some()) {
            "Minutes are for a regular who knows the techniques: " (tell::basis(contents.pack.n_solves())) "."
        }
        @if contents.n_sealed() > 0 {
            " What is new is counted among the open puzzles; the sealed ones are left out."
        }
        @if contents.pack.is_proposed() && studies.iter().any(|it| !it.is_publishable()) {
            " Puzzles without a walkthrough come last."
        }
    }
}

fn row(contents: &Contents, at: usize, study: &Study) -> Markup {
    let entry = study.entry();
    let placement = contents.pack.placement(at);
    html! {
        tr {
            td.number data-head=(HEADS[0]) { (placement.number) }
            th scope="row" data-head=(HEADS[1]) {
                a href={ "#" (anchor(&entry.id)) } { (text(&entry.title)) }
            }
            td data-head=(HEADS[2]) { (text(&entry.setter)) }
            td data-head=(HEADS[3]) { (verdict(study)) }
            td.minutes data-head=(HEADS[4]) { (minutes(study)) }
            td data-head=(HEADS[5]) { (new_here(contents, study)) }
            @if !contents.pack.info().shelves.is_empty() {
                td data-head=(HEADS[6]) { (text(placement.shelf.unwrap_or("none"))) }
            }
        }
    }
}

/// The puzzles that have no place, with why.
fn aside(contents: &Contents) -> Markup {
    let aside = contents.pack.aside();
    html! {
        @if !aside.is_empty() {
            h3 { "Without a place" }
            ul.aside {
                @for study in aside {
                    @let entry = study.entry();
                    li {
                        (text(&entry.title)) ", by " (text(&entry.setter)) ": "
                        (words::state(entry.state))
                        @if let Some(reason) = &entry.reason { " (" (text(reason)) ")" }
                        ". " (words::verdict(study.finding()))
                        @if let Some(range) = study.minutes() { " " (words::range(range)) " minutes." }
                    }
                }
            }
        }
    }
}

fn verdict(study: &Study) -> Markup {
    let finding = words::finding(study.finding());
    html! {
        @if study.finding() == Finding::One { (finding) } @else { strong.unsound { (finding) } }
        @if study.finding() == Finding::One && !study.is_publishable() {
            ", " strong.unsound { "no walkthrough" }
        }
        @if study.is_sealed() { ", sealed" }
    }
}

fn minutes(study: &Study) -> Markup {
    let range = study.minutes().map(words::range);
    let exact = study.opened().and_then(|it| Some(it.account?.estimate.minutes()));
    html! {
        @match (exact, range) {
            (Some(exact), Some(range)) => { (words::whole_minutes(exact)) " " span.range { "(" (range) ")" } }
            (None, Some(range)) => { (range) }
            (_, None) => { "not known" }
        }
    }
}

fn new_here(contents: &Contents, study: &Study) -> Markup {
    let new = contents.new_in(&study.entry().id);
    html! {
        @if study.is_sealed() { "sealed" }
        @else if !study.is_publishable() { "not known" }
        @else if new.is_empty() { "nothing" }
        @else { (words::techniques(&new)) }
    }
}

fn curve(contents: &Contents) -> Markup {
    let studies = contents.pack.studies();
    if studies.iter().all(|it| it.minutes().is_none()) {
        return html! {};
    }
    let labels: Vec<String> = studies.iter().map(|it| bare(&it.entry().title)).collect();
    let points = studies.iter().enumerate().map(|(at, it)| CurvePoint {
        label: &labels[at],
        minutes: it.opened().and_then(|it| Some(it.account?.estimate.minutes())),
        range: it.minutes().map(|it| (f64::from(it.from), f64::from(it.to))),
        shelf: contents.pack.placement(at).shelf,
    });
    let points: Vec<CurvePoint> = points.collect();
    html! {
        figure.curve {
            (PreEscaped(draw::minutes_curve("Expected minutes in the order of the pack", &points)))
            figcaption {
                "Expected minutes in the order of the pack. Upright lines show the range."
                @if points.iter().any(|it| it.minutes.is_none()) { " A cross means that no single figure is given." }
            }
        }
    }
}
