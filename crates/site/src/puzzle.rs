//! The page of one puzzle: a sheet to solve on, with notes in its margin, and below it what unfolds when
//! it is asked for. Without its script it is a sheet to print.

use draw::{Board, Marks, Scale};
use grid::Grid;
use maud::{Markup, PreEscaped, html};
use pack::{Entry, PuzzleId};

use crate::contents::Contents;
use crate::frame::{Page, Picture, bare_pack_title, imprint, pack_title};
use crate::{embedded, index, metadata, preview, recording, walkthrough, words};
use page::{bare, text};
use study::Published;

/// Where the page of a puzzle is, within the site. In a folder of its own, so that no id can meet the
/// name of another file.
pub(crate) fn path(id: &PuzzleId) -> String {
    format!("puzzles/{id}.html")
}

/// The way from a puzzle's page to the index.
const TO_INDEX: &str = "../";

/// The page of the puzzle at that place, from 0.
pub(crate) fn page(contents: &Contents, at: usize) -> String {
    let it = &contents.published[at];
    let entry = it.study.entry();
    let (title, setter) = (bare(&entry.title), bare(entry.credited()));
    let main = html! {
        div.sheet {
            div.heading {
                h1 { (text(&entry.title)) }
                p.setter {
                    "Set by "
                    @match &entry.credit.link {
                        Some(link) => { a href=(link) { (text(entry.credited())) } }
                        None => { (text(entry.credited())) }
                    }
                }
            }
            section.notes { (notes(contents, it)) }
            figure.board { (page_board(entry)) }
            (hints(it))
        }
        script type="application/json" id=(embedded::PUZZLE_DATA) { (PreEscaped(embedded::embedded(contents, at))) }
        (walkthrough(it))
        (techniques(contents, it))
        (solution(it))
    };
    let path = path(&entry.id);
    let page = Page {
        is_sheet: true,
        has_feed: contents.has_feed(),
        picture: Some(Picture {
            path: preview::path(&entry.id),
            says: words::puzzle_picture(&title, &setter),
        }),
        metadata: Some(metadata::of_puzzle(contents, it)),
        description: format!(
            "{title}, set by {setter}: a board to solve on, hints from where you are, a checked walkthrough and the \
             solution."
        ),
        header: header(contents, at),
        main,
        footer: footer(contents, at),
        ..Page::new(contents.info, &path, format!("{title}: {}", bare_pack_title(contents.info)))
    };
    page.render()
}

fn header(contents: &Contents, at: usize) -> Markup {
    html! {
        header.running {
            p { a href={ (TO_INDEX) (index::PATH) } { (pack_title(contents.info)) } }
            p.kind {
                "Puzzle " (contents.published[at].number)
                @if let Some(shelf) = contents.published[at].shelf { ", on the shelf " (text(shelf)) }
            }
        }
    }
}

/// The rules in short, how long it takes, what is new.
fn notes(contents: &Contents, it: &Published) -> Markup {
    let new = contents.new_in(it);
    html! {
        h2 { "Rules" }
        dl.rules {
            @for rule in tell::rules(&it.study.entry().puzzle) {
                dt { (rule.name) }
                dd { (rule.short) }
            }
        }
        p.full { a href={ (TO_INDEX) (index::PATH) "#" (index::RULES) } { "The rules in full" } }
        dl.about {
            @if let Some(minutes) = it.study.minutes() {
                dt { "Expected time" }
                dd { (words::minutes(minutes)) " (" (tell::basis(minutes.n_solves)) ")" }
            }
            (recording::notes(it.study.entry(), contents.issued))
            @if !new.is_empty() {
                dt { "New here" }
                dd { (tell::capital(&words::techniques(&new))) }
            }
        }
    }
}

/// The board as it is printed: the one that is read back.
fn page_board(entry: &Entry) -> Markup {
    let title = format!("{}: the puzzle", bare(&entry.title));
    board(&entry.puzzle, entry.puzzle.givens(), &Marks::default(), &title, Scale::Large)
}

/// A board of the page, with its rows and columns numbered.
pub(crate) fn board(
    puzzle: &rulebook::Puzzle,
    digits: &Grid,
    marks: &Marks,
    title: &str,
    scale: Scale,
) -> Markup {
    PreEscaped(draw::board(&Board { puzzle, digits, marks, title, scale, coordinates: true }))
}

/// Three hints on where to begin, each folded inside the one before.
fn hints(it: &Published) -> Markup {
    let puzzle = &it.study.entry().puzzle;
    let hints = it.account.way_in().and_then(|it| tell::hints(puzzle, it));
    let Some([look_at, look_for, why]) = hints else { return html! {} };
    html! {
        section.hints {
            h2 { "Hints on a place to begin" }
            p.note { "r4c7 is the cell in row 4, column 7." }
            details {
                summary { "Where?" }
                p { (look_at) }
                details {
                    summary { "What?" }
                    p { (look_for) }
                    details {
                        summary { "Why?" }
                        (page::told(&why))
                    }
                }
            }
        }
    }
}

fn walkthrough(it: &Published) -> Markup {
    let walkthrough = it.account.explained.walkthrough();
    html! {
        section.walkthrough {
            h2 { "Walkthrough" }
            details {
                summary {
                    (tell::capital(&words::walkthrough(walkthrough.trail().n_steps(), walkthrough.passages().len())))
                }
                p.note {
                    "Each passage opens by itself. "
                    a href={ (TO_INDEX) (index::PATH) "#" (index::MARKS) } { "What the marks mean" }
                }
                (walkthrough::passages(it.study.entry(), walkthrough))
            }
        }
    }
}

fn techniques(contents: &Contents, it: &Published) -> Markup {
    let (used, new) = (contents.used_in(it), contents.new_in(it));
    html! {
        section.techniques {
            h2 { "Techniques used" }
            details {
                summary { (words::n_techniques(used.len())) }
                dl {
                    @for id in used {
                        dt {
                            (tell::capital(tell::technique_name(id)))
                            @if new.contains(&id) { " " span.new { "new here" } }
                        }
                        dd { (tell::technique_description(id)) }
                    }
                }
            }
        }
    }
}

fn solution(it: &Published) -> Markup {
    let entry = it.study.entry();
    let title = format!("{}: the solution", bare(&entry.title));
    html! {
        section.solution {
            h2 { "Solution" }
            details {
                summary { "The filled board" }
                figure { (board(&entry.puzzle, it.solution, &Marks::default(), &title, Scale::Small)) }
            }
        }
    }
}

/// The way on, the credits and the licence.
fn footer(contents: &Contents, at: usize) -> Markup {
    let neighbour =
        |at: Option<usize>| at.and_then(|it| contents.published.get(it)).map(|it| it.study.entry());
    let entry = contents.published[at].study.entry();
    html! {
        nav.onward aria-label="Other puzzles" {
            @if let Some(before) = neighbour(at.checked_sub(1)) {
                p.before { "Previous: " a rel="prev" href=(beside(before)) { (text(&before.title)) } }
            }
            @if let Some(next) = neighbour(at.checked_add(1)) {
                p.next { "Next: " a rel="next" href=(beside(next)) { (text(&next.title)) } }
            }
        }
        p.credits {
            (text(&entry.title)) ", set by " (text(entry.credited())) ". From " (pack_title(contents.info)) ". "
            (imprint(contents.info))
        }
    }
}

/// The way from one puzzle's page to another's.
fn beside(entry: &Entry) -> String {
    format!("{}.html", entry.id)
}
