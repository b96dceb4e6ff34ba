//! The cue sheet as a page.

use captions::Time;
use draw::{Board, Marks, Scale};
use grid::Grid;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use pack::Entry;
use trail::{StepId, Trail};

use crate::{MOST_STEPS, basis, is_new};
use page::{bare, text};
use rehearse::{Cue, Passage, Plan, Script, Setting, Taught};

/// The rules of the page, beside those that all pages share.
const STYLE: &str = include_str!("cue.css");

/// Nothing may run and nothing may be fetched, whatever a file of the pack holds.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

/// The cue sheet of a puzzle, as one HTML page. Equal inputs give equal bytes.
pub fn on_screen(setting: &Setting, plan: &Plan) -> String {
    let script = &plan.script;
    let entry = setting.study().entry();
    let trail = setting.account().explained.walkthrough().trail();
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
                (masthead(setting, plan))
                main {
                    (beforehand(plan))
                    (opening(entry, script))
                    @for (at, it) in script.passages.iter().enumerate() { (passage(entry, trail, plan, at, it)) }
                    (close(script))
                    (orphans(plan))
                    section.marks {
                        h2 { "Marks on the boards" }
                        (page::key())
                    }
                }
            }
        }
    };
    page.into_string()
}

/// What it is, and when everything begins.
fn masthead(setting: &Setting, plan: &Plan) -> Markup {
    let (entry, pack_title, script) = (setting.study().entry(), setting.pack_title(), &plan.script);
    html! {
        header.masthead {
            p.kind { "Cue sheet" }
            h1 { (text(&entry.title)) }
            p.credit {
                "Set by " (text(entry.credited())) "."
                @if !pack_title.trim().is_empty() { " From " (text(pack_title)) "." }
            }
            table.times {
                caption {
                    "About " strong { (script.total().clock()) } " to speak: " (basis(plan))
                }
                thead { tr { th scope="col" { "Part" } th scope="col" { "Starts" } th scope="col" { "Takes" } } }
                tbody {
                    tr {
                        th scope="row" { a href="#opening" { "Credit and rules" } }
                        td { (Time(0).clock()) }
                        td { (script.opening.clock()) }
                    }
                    @for (at, it) in script.passages.iter().enumerate() {
                        tr {
                            th scope="row" { a href={ "#" (anchor(at)) } { (it.title) } " " (steps(it)) }
                            td { (it.starts.clock()) }
                            td { (it.takes.clock()) }
                        }
                    }
                    tr {
                        th scope="row" { a href="#close" { "Close" } }
                        td { (script.closes().clock()) }
                        td { (script.closing.clock()) }
                    }
                }
                tfoot { tr { th scope="row" { "All" } td {} td { (script.total().clock()) } } }
            }
        }
    }
}

/// What to have in mind: what is new, what is not, what to ask, and what to say more shortly.
fn beforehand(plan: &Plan) -> Markup {
    html! {
        section #beforehand {
            h2 { "Before you begin" }
            @if !plan.introductions.is_empty() {
                h3 { "New here" }
                dl {
                    @for it in &plan.introductions {
                        dt { (tell::technique_name(it.technique)) " " span.steps { "first at step " (it.step.number()) } }
                        dd {
                            @if !it.says.is_empty() { p { (it.says) } }
                            @for it in &it.figures { p.figures { (it) } }
                        }
                    }
                }
            }
            @if !plan.taught.is_empty() {
                h3 { "Taught before" }
                ul {
                    @for it in &plan.taught {
                        li { (text(&taught(it))) }
                    }
                }
            }
            @if !plan.questions.is_empty() {
                h3 { "To ask" }
                ul {
                    @for it in &plan.questions {
                        li { (text(&it.asks)) @if let Some(step) = it.step { " " span.steps { "before step " (step.number()) } } }
                    }
                }
            }
            @if !plan.stumbles.is_empty() {
                h3 { "Where viewers may stumble" }
                ul { @for it in &plan.stumbles { li { "Step " (it.step.number()) ". " (it.why) } } }
            }
            @if let Some(target) = plan.target {
                h3 { "To keep to " (target.clock()) }
                ul { @for (it, _) in to_shorten(plan) { li { (it) } } }
            }
        }
    }
}

/// A technique that was taught before, and where.
pub(crate) fn taught(it: &Taught) -> String {
    let name = tell::technique_name(it.technique);
    match &it.by {
        Some(title) => format!("{name}, in {}", bare(title)),
        None => format!("{name}, known from the start"),
    }
}

/// What to say more shortly so that the target is met, a sentence each; with nothing below them.
pub(crate) fn to_shorten(plan: &Plan) -> Vec<(String, Vec<String>)> {
    let (shorter, over) = plan.shortened();
    let mut said: Vec<String> = (shorter.iter())
        .map(|it| format!("Say {} together; that saves {}.", page::steps(&it.steps), it.saves.clock()))
        .collect();
    if over > Time(0) {
        said.push(format!("It is {} too long even then.", over.clock()));
    } else if said.is_empty() {
        said.push("Nothing needs to be shortened.".to_owned());
    }
    said.into_iter().map(|it| (it, Vec::new())).collect()
}

/// The credit line and the rules, to be read out beside the board as it is printed.
fn opening(entry: &Entry, script: &Script) -> Markup {
    html! {
        section #opening tabindex="-1" {
            h2 { "Credit and rules" (times(Time(0), script.opening)) }
            div.stretch {
                figure { (board(entry, entry.puzzle.givens(), &Marks::default(), "the puzzle")) }
                div.spoken {
                    @for line in script.greeting.lines() { p { (text(line)) } }
                    p { (text(&script.credit)) }
                    @for rule in &script.rules {
                        h3 { (rule.name) }
                        @for it in &rule.full { p { (it) } }
                    }
                    @if !script.whereabouts.is_empty() { p { (script.whereabouts) } }
                }
            }
        }
    }
}

/// What is said after the last step.
fn close(script: &Script) -> Markup {
    html! {
        section #close {
            h2 { "Close" (times(script.closes(), script.closing)) }
            div.spoken { @for line in script.close.lines() { p { (text(line)) } } }
        }
    }
}

/// The notes whose steps are gone.
fn orphans(plan: &Plan) -> Markup {
    html! {
        @if !plan.orphans.is_empty() {
            section #orphans {
                h2 { "Notes on steps that are no longer made" }
                dl { @for it in &plan.orphans { dt { (text(&it.key)) } dd { (page::paragraphs(&it.says)) } } }
            }
        }
    }
}

fn passage(entry: &Entry, trail: &Trail, plan: &Plan, at: usize, passage: &Passage) -> Markup {
    html! {
        section.passage id=(anchor(at)) {
            h2 { (passage.title) (times(passage.starts, passage.takes)) }
            @for it in page::stretches(&passage.cues, MOST_STEPS) { (stretch(entry, trail, plan, it)) }
        }
    }
}

/// Some steps beside the board as they leave it.
fn stretch(entry: &Entry, trail: &Trail, plan: &Plan, cues: &[Cue]) -> Markup {
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
                        p.margin {
                            span.technique { (tell::technique_name(it.technique)) }
                            @if is_new(plan, it) { " " span.new { "new" } }
                            " " span.takes { (it.takes.clock()) }
                        }
                        @for line in it.says.lines() { p { (said(line)) } }
                        @if let Some(note) = &it.note { div.note { (page::paragraphs(note)) } }
                    }
                }
            }
        }
    }
}

/// A line as it is read: what it comes to in bold.
fn said(line: &str) -> Markup {
    let (premises, conclusion) = crate::said(line);
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
fn times(starts: Time, takes: Time) -> Markup {
    html! { " " span.times { "from " (starts.clock()) ", takes " (takes.clock()) } }
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
