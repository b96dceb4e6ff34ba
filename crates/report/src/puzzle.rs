//! One puzzle: its board with notes in the margin, its walkthrough, its solution.

use draw::{Board, Marks, Scale};
use maud::{Markup, PreEscaped, html};
use pack::PuzzleId;
use study::{Finding, Opened, Study};

use crate::contents::Contents;
use crate::{minutes, soundness, walkthrough, words};
use page::{bare, paragraphs, text};

/// The id of a puzzle's section.
pub(crate) fn anchor(id: &PuzzleId) -> String {
    format!("puzzle-{id}")
}

/// The section of the puzzle at that place, from 0.
pub(crate) fn section(contents: &Contents, at: usize) -> Markup {
    let study = contents.study(at);
    html! {
        section.puzzle id=(anchor(&study.entry().id)) {
            h2 { span.number { (at + 1) } " " (text(&study.entry().title)) }
            @match study.opened() {
                Some(opened) => { (open(contents, at, opened)) }
                None => { (sealed(contents, at)) }
            }
            p.back { a href="#pack" { "Back to the pack" } }
        }
    }
}

/// What may be said of a sealed puzzle, and no more.
fn sealed(contents: &Contents, at: usize) -> Markup {
    let study = contents.study(at);
    html! {
        p.setter { "Set by " (text(&study.entry().setter)) }
        p { "This puzzle is sealed. Its board, walkthrough and solution are kept back until it is unsealed." }
        dl.notes {
            (soundness::note(study))
            @if let Some(range) = study.minutes() {
                dt { "Expected minutes" }
                dd { p { (tell::capital(&words::range(range))) ", " (tell::basis(range.n_solves)) "." } }
            }
            @if let Some(shelf) = contents.pack.placement(at).shelf {
                dt { "Shelf" }
                dd { p { (text(shelf)) } }
            }
        }
    }
}

fn open(contents: &Contents, at: usize, opened: Opened) -> Markup {
    let study = contents.study(at);
    html! {
        p.setter { "Set by " (text(&study.entry().setter)) }
        div.spread {
            figure.page { (page(study)) }
            (notes(contents, at, opened))
        }
        (soundness::details(study, opened))
        @if let Some(account) = opened.account {
            h3 { "Walkthrough" }
            (walkthrough::passages(study.entry(), at + 1, account))
        }
        @if let Some(solution) = opened.solution {
            details.solution {
                summary { "Solution" }
                figure { (board(study, "solution", solution, &Marks::default(), Scale::Small)) }
            }
        }
    }
}

/// The board as it is printed.
fn page(study: &Study) -> Markup {
    let puzzle = &study.entry().puzzle;
    let title = format!("{}: the puzzle", bare(&study.entry().title));
    PreEscaped(draw::board(&Board {
        puzzle,
        digits: puzzle.givens(),
        marks: &Marks::default(),
        title: &title,
        scale: Scale::Large,
        coordinates: true,
    }))
}

/// A board of the puzzle with other digits; `what` says what it shows.
pub(crate) fn board(study: &Study, what: &str, digits: &grid::Grid, marks: &Marks, scale: Scale) -> Markup {
    let title = format!("{}: {what}", bare(&study.entry().title));
    let puzzle = &study.entry().puzzle;
    PreEscaped(draw::board(&Board { puzzle, digits, marks, title: &title, scale, coordinates: false }))
}

fn notes(contents: &Contents, at: usize, opened: Opened) -> Markup {
    let study = contents.study(at);
    let entry = study.entry();
    html! {
        dl.notes {
            (soundness::note(study))
            (minutes::note(at + 1, opened.account))
            (ways_in(study, opened))
            (techniques(contents, &entry.id, opened))
            (place(contents, at, opened))
            @if !entry.intends.is_empty() {
                dt { "Meant to teach" }
                dd { (intends(contents, entry, opened)) }
            }
            dt { "Permission" }
            dd {
                @match &entry.permission {
                    Some(permission) => { (paragraphs(permission)) }
                    None => { p { "None is noted." } }
                }
            }
            @if let Some(note) = &entry.note {
                dt { "Note" }
                dd { (paragraphs(note)) }
            }
        }
    }
}

/// Where the puzzle can be opened, each way by what to look at and the technique that is seen there.
fn ways_in(study: &Study, opened: Opened) -> Markup {
    let ways = opened.account.map(|it| it.ways_in(&study.entry().puzzle)).unwrap_or_default();
    html! {
        @if !ways.is_empty() {
            dt { @if ways.len() == 1 { "Way in" } @else { "Ways in" } }
            dd { ul { @for way in tell::ways_in(&study.entry().puzzle, &ways) { li { (way) } } } }
        }
    }
}

/// The techniques of the walkthrough: new ones first, each with what it is worth.
fn techniques(contents: &Contents, id: &PuzzleId, opened: Opened) -> Markup {
    let (new, practised) = (contents.new_in(id), contents.practised_in(id));
    let worths = contents.worths_in(id);
    let worth = |technique| worths?.iter().find(|it| it.0 == technique).map(|it| tell::worth(it.1));
    if opened.account.is_none() {
        return html! {};
    }
    html! {
        dt { "Techniques" }
        dd {
            @if !new.is_empty() {
                p { "New here:" }
                ul.new {
                    @for it in &new {
                        li { (tell::technique_name(*it)) @if let Some(worth) = worth(*it) { ", " (worth) } }
                    }
                }
            }
            @if !practised.is_empty() { p { "Practised: " (words::techniques(&practised)) "." } }
        }
    }
}

/// The place in the order, and what was weighed.
fn place(contents: &Contents, at: usize, opened: Opened) -> Markup {
    let placement = contents.pack.placement(at);
    html! {
        dt { "Place in the order" }
        dd {
            p {
                (placement.number) " of " (contents.pack.studies().len())
                @if let Some(shelf) = placement.shelf { ", on the shelf " (text(shelf)) }
                "."
            }
            @match opened.placed {
                Some(placed) => {
                    p { (tell::why_here(placement.number, placed)) }
                    @if let Some(before) = contents.before(at).filter(|it| it.is_sealed()) {
                        p {
                            (text(&before.entry().title))
                            ", just before it, is sealed, so their minutes are not compared."
                        }
                    }
                }
                None => { p { "Without a walkthrough its place is not weighed." } }
            }
        }
    }
}

/// What the setter meant it to teach, held against what that is worth here.
fn intends(contents: &Contents, entry: &pack::Entry, opened: Opened) -> Markup {
    let worths = contents.worths_in(&entry.id);
    html! {
        ul {
            @for it in &entry.intends {
                li {
                    (text(it))
                    @if let (Some(worths), Some(_)) = (worths, opened.account) { ": " (tell::as_meant(it, worths)) }
                    "."
                }
            }
        }
    }
}

/// Whether there is anything to look at beside the verdict.
pub(crate) fn is_sound(study: &Study) -> bool {
    study.finding() == Finding::One
}
