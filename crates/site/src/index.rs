//! The index: what the pack is, its puzzles in order, how the rules work, what the marks mean.

use maud::{Markup, html};

use crate::contents::Contents;
use crate::frame::{Page, Picture, bare_pack_title, imprint, pack_title};
use crate::words;
use crate::{metadata, preview, primer, puzzle};
use page::text;
use study::Published;

/// Where the index is.
pub(crate) const PATH: &str = "index.html";

/// The fragment of the rules in full.
pub(crate) const RULES: &str = "rules";

/// The fragment of the key of marks.
pub(crate) const MARKS: &str = "marks";

pub(crate) fn page(contents: &Contents) -> String {
    let info = contents.info;
    let main = html! {
        header.masthead {
            p.kind { (words::KIND) }
            h1 { (pack_title(info)) }
            p.imprint { (imprint(info)) }
        }
        p.lead { (words::about(contents.published.len())) }
        @if !contents.published.is_empty() {
            (puzzles(contents))
            (rules(contents))
            (marks())
        }
        (errata(contents))
    };
    let page = Page {
        has_feed: contents.has_feed(),
        picture: (!contents.published.is_empty()).then(|| Picture {
            path: preview::PACK_PATH.to_owned(),
            says: words::pack_picture(&bare_pack_title(info)),
        }),
        metadata: Some(metadata::of_pack(contents)),
        description: format!("{}. {}", bare_pack_title(info), words::about(contents.published.len())),
        main,
        footer: html! { p.credits { (credits(contents)) } },
        ..Page::new(info, PATH, bare_pack_title(info))
    };
    page.render()
}

/// Every puzzle in order, below the name of its shelf.
fn puzzles(contents: &Contents) -> Markup {
    html! {
        section #puzzles {
            h2 { "The puzzles" }
            p { (words::HOW_TO_USE) }
            p.note { "Minutes are for a regular who knows the techniques: " (tell::basis(contents.n_solves)) "." }
            @let known = contents.known();
            @if !known.is_empty() {
                p.known { "Taken to be known from the start: " (words::techniques(&known)) "." }
            }
            @if !contents.primer.lessons.is_empty() {
                p { a.primer href=(primer::PATH) { "Primer: the techniques, one by one, with exercises" } }
            }
            @for shelf in contents.shelves() {
                @if let Some(name) = shelf.first().and_then(|it| it.shelf) {
                    h3.shelf { (text(name)) }
                }
                ol.puzzles {
                    @for it in shelf { li { (entry(contents, it)) } }
                }
            }
        }
    }
}

fn entry(contents: &Contents, it: &Published) -> Markup {
    let entry = it.study.entry();
    let new = contents.new_in(it);
    html! {
        div.entry {
            p.number { (it.number) }
            p.title { a href=(puzzle::path(&entry.id)) { (text(&entry.title)) } }
            p.setter { "Set by " (text(entry.credited())) }
            @if let Some(minutes) = it.study.minutes() { p.minutes { (words::minutes(minutes)) } }
            p.teaches {
                @if new.is_empty() { "Practises what is known by then." }
                @else { "New: " (words::techniques(&new)) "." }
            }
        }
    }
}

fn rules(contents: &Contents) -> Markup {
    html! {
        section id=(RULES) {
            h2 { "How the rules work" }
            div.rules {
                @for (size, rule) in contents.rules() {
                    div {
                        h3 { (rule.name) @if let Some(size) = size { ", " (size) } }
                        @for it in &rule.full { p { (it) } }
                    }
                }
            }
        }
    }
}

/// What is known to be wrong in what was published; nothing if nothing is.
fn errata(contents: &Contents) -> Markup {
    let errata = &contents.info.errata;
    html! {
        @if !errata.is_empty() {
            section id="errata" {
                h2 { "Errata" }
                dl { @for it in errata { dt.note { (tell::day(it.noted)) } dd { (text(&it.says)) } } }
            }
        }
    }
}

fn marks() -> Markup {
    html! {
        section id=(MARKS) {
            h2 { "Marks on the boards" }
            p {
                "Cells are named by row and column: r4c7 is the seventh cell of the fourth row. In a walkthrough, a "
                "small board shows where the steps beside it lead."
            }
            (page::key())
        }
    }
}

/// Who set the puzzles, in the order in which they are first met, and the imprint.
fn credits(contents: &Contents) -> Markup {
    let mut setters: Vec<&str> = Vec::new();
    for it in contents.published.iter().map(|it| it.study.entry().credited()) {
        if !setters.contains(&it) {
            setters.push(it);
        }
    }
    html! {
        @for (at, it) in setters.iter().enumerate() {
            @match at {
                0 => { "Puzzles set by " }
                _ if at + 1 == setters.len() => { " and " }
                _ => { ", " }
            }
            (text(it))
        }
        @if !setters.is_empty() { ". " }
        (imprint(contents.info))
    }
}
