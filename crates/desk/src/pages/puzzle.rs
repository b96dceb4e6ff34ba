//! The page of one puzzle: typed, judged, mended and tried on the board itself; below it what was found out, and the
//! walkthrough.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::response::Html;
use maud::{Markup, html};
use page::{paragraphs, text};
use study::{Finding, StudiedPack, Study};

use super::frame::{Here, NoPage, Page};
use super::pack::trouble;
use super::problems::problems;
use super::{asking, letter, typing, walkthrough};
use crate::answers::Refused;
use crate::api::{BoardAccount, account_of, id_of, problems as problems_of};
use crate::folder::Reading;
use crate::state::{Desk, View, study_of};
use crate::typed::TypedBoard;
use crate::words;

pub(super) async fn page(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Html<String>, NoPage> {
    let view = desk.view();
    // The name of a file that is no puzzle need be no id; it is one of the names that were read all the same.
    let is_unreadable = view.reading.read.unreadable.iter().any(|it| it.name == id);
    if is_unreadable {
        return Ok(unreadable(&desk, &view, &id));
    }
    let id = id_of(&id)?;
    view.reading.file_of(id.as_str()).ok_or_else(Refused::no_puzzle)?;
    let (reading, pack) = desk.studied().await?;
    let study = study_of(&pack, id.as_str()).ok_or_else(Refused::no_puzzle)?;
    let main = html! {
        (heading(&pack, study))
        (trouble(&view))
        @match account_of(study) {
            Some(account) => { (open(&reading, &pack, study, &account)) }
            None => { (sealed(&pack, study)) }
        }
    };
    let title = format!("{}: puzzle", study.entry().title);
    Ok(Page { title, script: Some("puzzle.js"), here: Here::Puzzle, main }.render(&desk))
}

fn heading(pack: &StudiedPack, study: &Study) -> Markup {
    let number = pack.studies().iter().position(|it| it.entry().id == study.entry().id).map(|at| at + 1);
    html! {
        h1 { @if let Some(number) = number { span.number { (number) } " " } (text(&study.entry().title)) }
        p.setter { "Set by " (text(study.entry().credited())) }
    }
}

/// A file that is no puzzle: what is wrong with it, to be mended where it was written.
fn unreadable(desk: &Desk, view: &View, name: &str) -> Html<String> {
    let of_file = view.reading.read.unreadable.iter().find(|it| it.name == name);
    let file = of_file.map(|it| it.file.clone()).unwrap_or_default();
    let found: Vec<_> = problems_of(&view.reading).into_iter().filter(|it| it.file == file).collect();
    let title = of_file.and_then(|it| it.title.clone()).unwrap_or_else(|| name.to_owned());
    let main = html! {
        h1 { (text(&title)) }
        (trouble(view))
        p.lead { "This file is no puzzle yet. Mend it where you write your files; this page follows as soon as it is saved." }
        section { h2 { "Problems" } (problems(&found)) }
        // Of a puzzle that is perhaps meant to be sealed, nothing is shown: a misspelt word must not break a seal.
        @if let Some(source) = view.reading.text(&file).filter(|it| !it.to_lowercase().contains("seal")) {
            section { h2 { "The file" }
            pre.source tabindex="0" role="region" aria-label="The file" {
                @for (at, line) in source.lines().take(400).enumerate() {
                    span.line-number aria-hidden="true" { (at + 1) } (page::bare(line)) "\n"
                }
            } }
        }
    };
    Page { title: format!("{title}: puzzle"), script: Some("puzzle.js"), here: Here::Puzzle, main }
        .render(desk)
}

/// What may be said of a sealed puzzle, and no more.
fn sealed(pack: &StudiedPack, study: &Study) -> Markup {
    let at = pack.studies().iter().position(|it| it.entry().id == study.entry().id);
    html! {
        section #sealed data-puzzle=(study.entry().id) {
            p.lead { "This puzzle is sealed. What is on its board and what was found out are kept back until you open the seal." }
            dl.notes {
                dt { "Verdict" } dd { (words::verdict(study.finding())) }
                @if let Some(range) = study.minutes() {
                    dt { "Expected minutes" } dd { (words::range(range)) ", " (tell::basis(range.n_solves)) }
                }
                @if let Some(shelf) = at.and_then(|at| pack.placement(at).shelf) { dt { "Shelf" } dd { (text(shelf)) } }
            }
            p.actions { button type="button" #open-seal { "Open the seal" } }
            p { a href={ "/puzzles/" (study.entry().id) "/solve" } { "Solve it cold first" } }
        }
        (letter::section(study.entry()))
    }
}

fn open(reading: &Reading, pack: &StudiedPack, study: &Study, account: &BoardAccount) -> Markup {
    let entry = study.entry();
    let digest = reading.file_of(entry.id.as_str()).and_then(|it| reading.digest(it));
    html! {
        section #board aria-label="The board" data-puzzle=(entry.id) data-digest=[digest.map(|it| it.to_string())] {
            div.spread {
                div {
                    (typing::board(&entry.title, entry.puzzle.size(), &TypedBoard::of(&entry.puzzle)))
                    details.keys {
                        summary { "How to type here" }
                        dl {
                            dt { "Arrows, Home, End" } dd { "move between cells and clues" }
                            dt { "Digits" } dd { "print a digit or a clue" }
                            dt { "Backspace, Delete, 0" } dd { "take it away; beside a line 0 is a clue" }
                            dt { "Ctrl+Z, Ctrl+Shift+Z" } dd { "undo, redo" }
                            dt { "Ctrl+S" } dd { "keep the change" }
                            dt { "Ctrl+V" } dd { "paste a grid: one line of cells, or a block of rows" }
                        }
                    }
                }
                div.judged {
                    p.verdict role="status" { (words::verdict(study.finding())) }
                    ul.faults {}
                    p.actions {
                        button type="button" #undo disabled { "Undo" }
                        button type="button" #redo disabled { "Redo" }
                        button type="button" #keep disabled { "Keep the change" }
                        button type="button" #put-back disabled { "Put it back" }
                    }
                    p.actions {
                        button type="button" #repair hidden[study.finding() == Finding::One] { "What would make it sound?" }
                        button type="button" #what-if disabled { "What if it stood so?" }
                    }
                    div #offers role="region" aria-label="What would make it sound" {}
                    p.said role="status" #said {}
                    details.paste {
                        summary { "Paste a grid or a message" }
                        label for="pasted" { "One line of cells, or a block of rows, a dot or a nought for an empty cell; or a message with a grid in it, and clues in lines such as “rows: 6 . 17”" }
                        textarea #pasted rows="4" spellcheck="false" {}
                        p.actions { button type="button" #take-pasted { "Take it" } }
                    }
                }
            }
            div #tried role="region" aria-label="As it is kept, and as it is tried" tabindex="-1" {}
        }
        section #found aria-labelledby="found-head" {
            h2 #found-head { "What was found out" }
            (notes(study, account))
            p { a href={ "/puzzles/" (entry.id) "/solve" } { "Test-solve it" } }
            p { a href={ "/puzzles/" (entry.id) "/solves" } { "All its test solves" } }
            p.actions {
                @if entry.sealed {
                    button type="button" #close-seal data-puzzle=(entry.id) { "Close the seal again" }
                    button type="button" .write-seal data-sealed="false" { "Take the seal off, in the file too" }
                } @else {
                    button type="button" .write-seal data-sealed="true" { "Seal it, in the file" }
                }
            }
        }
        @if let Some(account) = study.opened().and_then(|it| it.account) {
            section #walkthrough aria-labelledby="walkthrough-head" {
                h2 #walkthrough-head { "Walkthrough" }
                @if pack.studies().iter().any(|it| it.entry().id == entry.id) {
                    p { "For a solver who knows what the puzzles before this one have taught." }
                }
                (walkthrough::walkthrough(study, account))
            }
            section #asking aria-labelledby="asking-head" {
                h2 #asking-head { "Ask about a cell" }
                (asking::asking(&entry.puzzle, account.explained.walkthrough().trail().n_steps()))
            }
        }
        (letter::section(entry))
        section #history aria-labelledby="history-head" data-puzzle=(entry.id) {
            h2 #history-head { "Changes of the file" }
            div.changes { p { "None yet." } }
        }
    }
}

fn notes(study: &Study, account: &BoardAccount) -> Markup {
    let entry = study.entry();
    let opened = study.opened();
    html! {
        dl.notes {
            dt { "Verdict" } dd { (account.says) }
            dt { "Walkthrough" } dd { (account.walkthrough) }
            @if !account.minutes.is_empty() {
                dt { "Expected minutes" }
                dd { ul { @for it in &account.minutes { li { (it.solver) ": " (it.middle) " (" (it.range) ")" } } } }
            }
            @if !account.ways_in.is_empty() {
                dt { @if account.ways_in.len() == 1 { "Way in" } @else { "Ways in" } }
                dd { ul { @for it in &account.ways_in { li { (it) } } } }
            }
            @if !account.techniques.is_empty() { dt { "Techniques" } dd { (tell::list(&account.techniques)) } }
            @if let Some(it) = opened.and_then(|it| it.account) {
                @let narrow = it.estimate.narrow_places();
                dt { "Narrow places" }
                dd {
                    @if narrow.is_empty() { (tell::no_narrow_place()) } @else {
                        ul { @for it in narrow { li { "Step " (it.step.number()) ": " (tell::wait(it)) } } }
                    }
                }
            }
            @if !entry.intends.is_empty() {
                dt { "Meant to teach" }
                dd { ul { @for it in &entry.intends { li { (text(it)) } } } }
            }
            @if study.finding() == Finding::One {
                dt { "Could go, each by itself" } dd #spare { "This is being found out." }
            }
            dt { "Permission" }
            dd { @match &entry.permission { Some(it) => { (paragraphs(it)) } None => { "None is noted." } } }
            @if let Some(note) = &entry.note { dt { "Note" } dd { (paragraphs(note)) } }
        }
    }
}
