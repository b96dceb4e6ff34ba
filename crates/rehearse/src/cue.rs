//! The cue sheet as a page: an overview with times, the opening, then the walkthrough in large type.

use draw::{Board, Marks, Scale};
use grid::Grid;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use pack::Entry;
use study::Study;
use trail::{StepId, Trail};

use crate::pace::{MARK_MILLISECONDS, WORDS_A_MINUTE};
use crate::script::{Cue, Passage, Script};
use crate::speech::Seconds;
use page::{bare, text};

/// The rules of the page, beside those that all pages share.
const STYLE: &str = include_str!("cue.css");

/// Nothing may run and nothing may be fetched, whatever a file of the pack holds.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

/// At most so many steps are spoken beside one board: about as much as a presenter's eye keeps hold of.
const MOST_STEPS: usize = 6;

/// The cue sheet of a puzzle, as one HTML page; none if it is sealed or has no walkthrough.
///
/// `pack_title` is named in the credit line, unless it is blank. Equal inputs give equal bytes.
pub fn cue_sheet(study: &Study, pack_title: &str) -> Option<String> {
    let account = study.opened()?.account?;
    let script = Script::new(study, account, pack_title);
    let entry = study.entry();
    let trail = account.explained.walkthrough().trail();
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                title { (bare(&entry.title)) ": cue sheet" }
                style { (PreEscaped(page::style())) (PreEscaped(STYLE)) }
            }
            body {
                a.skip href="#opening" { "Skip to the opening" }
                (masthead(entry, pack_title, &script))
                main {
                    (opening(entry, pack_title, &script))
                    @for (at, it) in script.passages.iter().enumerate() { (passage(entry, trail, at, it)) }
                    section.marks {
                        h2 { "Marks on the boards" }
                        (page::key())
                    }
                }
            }
        }
    };
    Some(page.into_string())
}

/// What it is, and when everything begins.
fn masthead(entry: &Entry, pack_title: &str, script: &Script) -> Markup {
    html! {
        header.masthead {
            p.kind { "Cue sheet" }
            h1 { (text(&entry.title)) }
            p.credit {
                "Set by " (text(&entry.setter)) "."
                @if !pack_title.trim().is_empty() { " From " (text(pack_title)) "." }
            }
            table.times {
                caption {
                    "About " strong { (script.total()) } " to speak: " (WORDS_A_MINUTE) " words a minute, and "
                    (seconds(MARK_MILLISECONDS)) " for each mark put on the board. Estimated, not timed."
                }
                thead { tr { th scope="col" { "Part" } th scope="col" { "Starts" } th scope="col" { "Takes" } } }
                tbody {
                    tr {
                        th scope="row" { a href="#opening" { "Credit and rules" } }
                        td { (Seconds::default()) }
                        td { (script.opening) }
                    }
                    @for (at, it) in script.passages.iter().enumerate() {
                        tr {
                            th scope="row" { a href={ "#" (anchor(at)) } { (it.title) } " " (steps(it)) }
                            td { (it.starts) }
                            td { (it.takes) }
                        }
                    }
                }
                tfoot { tr { th scope="row" { "All" } td {} td { (script.total()) } } }
            }
        }
    }
}

/// The credit line and the rules, to be read out beside the board as it is printed.
fn opening(entry: &Entry, pack_title: &str, script: &Script) -> Markup {
    html! {
        section #opening tabindex="-1" {
            h2 { "Credit and rules" (times(Seconds::default(), script.opening)) }
            div.stretch {
                figure { (board(entry, entry.puzzle.givens(), &Marks::default(), "the puzzle")) }
                div.spoken {
                    p {
                        (text(&entry.title)) ", set by " (text(&entry.setter))
                        @if !pack_title.trim().is_empty() { ", from " (text(pack_title)) }
                        "."
                    }
                    @for rule in &script.rules {
                        h3 { (rule.name) }
                        @for it in &rule.full { p { (it) } }
                    }
                }
            }
        }
    }
}

fn passage(entry: &Entry, trail: &Trail, at: usize, passage: &Passage) -> Markup {
    html! {
        section.passage id=(anchor(at)) {
            h2 { (passage.title) (times(passage.starts, passage.takes)) }
            @for it in page::stretches(&passage.cues, MOST_STEPS) { (stretch(entry, trail, it)) }
        }
    }
}

/// Some steps beside the board as they leave it.
fn stretch(entry: &Entry, trail: &Trail, cues: &[Cue]) -> Markup {
    let steps: Vec<StepId> = cues.iter().map(|it| it.step).collect();
    let (digits, marks) = draw::marks_for(&entry.puzzle, trail, &steps);
    let last = steps.last().map_or(0, |it| it.number());
    html! {
        div.stretch {
            figure {
                (board(entry, &digits, &marks, &format!("after step {last}")))
                figcaption { "After step " (last) }
            }
            ol start=(steps.first().map_or(1, |it| it.number())) {
                @for it in cues {
                    li.spoken {
                        p.margin { span.technique { (it.technique) } " " span.takes { (it.takes) } }
                        @for line in it.says.lines() { p { (said(line)) } }
                    }
                }
            }
        }
    }
}

/// A line as it is read: what it comes to in bold.
fn said(line: &str) -> Markup {
    // A step ends in its conclusions, after "So"; a line without one has nothing that stands out.
    let (premises, conclusion) = match line.rfind(". So ") {
        Some(at) => line.split_at(at + 2),
        None => (line, ""),
    };
    html! {
        (premises)
        @if !conclusion.is_empty() { strong { (conclusion) } }
    }
}

fn board(entry: &Entry, digits: &Grid, marks: &Marks, what: &str) -> Markup {
    let title = format!("{}: {what}", bare(&entry.title));
    let board =
        Board { puzzle: &entry.puzzle, digits, marks, title: &title, scale: Scale::Small, coordinates: true };
    PreEscaped(draw::board(&board))
}

/// When a part begins and how long it takes, beside its heading.
fn times(starts: Seconds, takes: Seconds) -> Markup {
    html! { " " span.times { "from " (starts) ", takes " (takes) } }
}

fn steps(passage: &Passage) -> Markup {
    let number = |it: Option<&Cue>| it.map_or(0, |it| it.step.number());
    let (first, last) = (number(passage.cues.first()), number(passage.cues.last()));
    html! {
        span.steps { @if first == last { "step " (first) } @else { "steps " (first) " to " (last) } }
    }
}

/// The id of a passage's section.
fn anchor(at: usize) -> String {
    format!("passage-{}", at + 1)
}

/// `1.5 seconds`.
fn seconds(milliseconds: u64) -> String {
    let (whole, tenths) = (milliseconds / 1_000, milliseconds % 1_000 / 100);
    if tenths == 0 { format!("{whole} seconds") } else { format!("{whole}.{tenths} seconds") }
}
