//! The primer: a section a technique, with the pack's own first use of it and exercises that answer back.
//!
//! No script runs: what may be answered is a row of folds, each of which says whether it is right.

use draw::{Marks, Scale};
use maud::{Markup, html};
use primer::{CellKind, Exercise, Lesson, Strip, StripCell};

use crate::contents::Contents;
use crate::frame::{Page, bare_pack_title, imprint, pack_title};
use crate::{index, puzzle};
use page::{bare, text};

/// Where the primer is.
pub(crate) const PATH: &str = "primer.html";

pub(crate) fn page(contents: &Contents) -> String {
    let info = contents.info;
    let title = format!("Primer: {}", bare_pack_title(info));
    let page = Page {
        has_feed: contents.has_feed(),
        description: format!("{title}. The techniques of the pack, one by one, with exercises."),
        header: html! {
            nav.running aria-label="Pack" { p { a href=(index::PATH) { (pack_title(info)) } } }
        },
        main: html! {
            header.masthead {
                p.kind { "Primer" }
                h1 { "The techniques, one by one" }
            }
            p.lead {
                "In the order in which the puzzles bring them: what each is, where it is first needed, and exercises. Open an "
                "answer to see whether it is right."
            }
            @for it in &contents.primer.lessons { (lesson(contents, it)) }
        },
        footer: html! { p.credits { (imprint(info)) } },
        ..Page::new(info, PATH, title.clone())
    };
    page.render()
}

fn lesson(contents: &Contents, it: &Lesson) -> Markup {
    let name = tell::capital(tell::technique_name(it.technique));
    html! {
        section.lesson id=(it.technique.name()) {
            h2 { (name) }
            p { (tell::technique_description(it.technique)) }
            (first_use(contents, it))
            @for (number, exercise) in (1..).zip(&it.exercises) { (set(&name, number, exercise)) }
        }
    }
}

/// The first step of the pack that takes the technique, folded, because it gives away a part of its puzzle.
fn first_use(contents: &Contents, it: &Lesson) -> Markup {
    let published = &contents.published[it.first.published];
    let entry = published.study.entry();
    let trail = published.account.explained.walkthrough().trail();
    let (digits, marks) = draw::marks_for(&entry.puzzle, trail, &[it.first.step]);
    let title = format!("{}: after step {}", bare(&entry.title), it.first.step.number());
    html! {
        p {
            "First needed in puzzle " (published.number) ", "
            a href=(puzzle::path(&entry.id)) { (text(&entry.title)) } "."
        }
        details {
            summary { "Show that step: it gives away a part of the puzzle" }
            @if let [only] = it.first.strips.as_slice() {
                p { "Just before it, these digits were left:" }
                (strip(only))
            }
            div.stretch {
                figure {
                    (puzzle::board(&entry.puzzle, &digits, &marks, &title, Scale::Small))
                    figcaption { "After step " (it.first.step.number()) }
                }
                (page::told(&it.first.says))
            }
        }
    }
}

fn set(name: &str, number: usize, it: &Exercise) -> Markup {
    let drill = &it.drill;
    let title = format!("{name}, exercise {number}");
    html! {
        article.exercise {
            h3 { "Exercise " (number) ": " (it.about) }
            div.stretch {
                figure { (puzzle::board(&drill.puzzle, drill.puzzle.givens(), &shown(it), &title, Scale::Small)) }
                div {
                    @for it in &it.strips { (strip(it)) }
                    @if !it.known.is_empty() { p { "Known besides: " (it.known.join("; ")) "." } }
                    p.question { strong { (it.question) } }
                    @if !it.choices.is_empty() {
                        div.choices {
                            @for choice in &it.choices {
                                details {
                                    summary { (choice.label) }
                                    p { strong { (if choice.is_right { "Right. " } else { "No. " }) } (choice.says) }
                                }
                            }
                        }
                    }
                    details.key {
                        summary { "Show the answer" }
                        p { (it.answer) }
                        (solved(it, &title))
                    }
                }
            }
        }
    }
}

/// A row, column or box by itself, large enough to read what is left to each cell.
fn strip(it: &Strip) -> Markup {
    html! {
        div.strip role="img" aria-label=(it.in_words()) {
            p.name { (it.title()) @if let Some(clue) = it.clue { " " strong { (clue) } } }
            div.cells {
                @for row in it.cells.chunks(it.across.max(1)) {
                    div.row { @for cell in row { (strip_cell(cell)) } }
                }
            }
        }
    }
}

fn strip_cell(it: &StripCell) -> Markup {
    let kind = it.kind().map(CellKind::name).unwrap_or_default();
    let how = if it.digits.len() == 1 { "ink" } else { "pencil" };
    html! {
        div class=(format!("cell busy {how} {kind}")) {
            @if it.digits.is_empty() { span { "?" } }
            @for digit in it.digits.iter() { span { (digit) } }
        }
    }
}

/// What is known before the answer: the digits left to each cell, the kinds, and which houses are shown.
fn shown(it: &Exercise) -> Marks {
    let cells = || it.strips.iter().flat_map(|it: &Strip| &it.cells);
    let open = |cell| it.drill.puzzle.givens().get(cell).is_none();
    Marks {
        crusts: cells().filter(|it| it.is_crust && open(it.cell)).map(|it| it.cell).collect(),
        filling: cells().filter(|it| it.is_filling && open(it.cell)).map(|it| it.cell).collect(),
        pencilled: cells()
            .filter(|it| open(it.cell) && !it.digits.is_empty())
            .map(|it| (it.cell, it.digits))
            .collect(),
        looked_at: it.drill.houses.iter().copied().collect(),
        premises: it.drill.named(),
        ..Marks::default()
    }
}

/// The board once the step that answers is taken.
fn solved(it: &Exercise, title: &str) -> Markup {
    let (digits, marks) = draw::marks_for(&it.drill.puzzle, &it.drill.trail, &[it.drill.step]);
    let title = format!("{title}, answered");
    html! { figure { (puzzle::board(&it.drill.puzzle, &digits, &marks, &title, Scale::Small)) } }
}
