//! The cue sheet as a page: an overview with times, the opening, then the walkthrough in large type.

use captions::Time;
use draw::{Board, Marks, Scale};
use grid::Grid;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use pack::Entry;
use trail::{StepId, Trail};

use crate::{Cue, Passage, Plan, Script, Setting};
use page::{bare, text};

/// The rules of the page, beside those that all pages share.
const STYLE: &str = include_str!("cue.css");

/// Nothing may run and nothing may be fetched, whatever a file of the pack holds.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

/// At most so many steps are spoken beside one board: about as much as a presenter's eye keeps hold of.
const MOST_STEPS: usize = 6;

/// The cue sheet of a puzzle, as one HTML page. Equal inputs give equal bytes.
pub fn cue_sheet(setting: &Setting, plan: &Plan) -> String {
    let script = &plan.script;
    let entry = setting.study.entry();
    let trail = setting.account.explained.walkthrough().trail();
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
    let (entry, pack_title, script) = (setting.study.entry(), &setting.pack_title, &plan.script);
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
                    "About " strong { (script.total().clock()) } " to speak: " (plan.pace.words_a_minute)
                    " words a minute, and " (seconds(plan.pace.mark)) " for each mark put on the board. "
                    (basis(plan))
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
    let (shorter, over) = plan.shortened();
    let numbers = |steps: &[StepId]| page::steps(steps);
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
                        li {
                            (tell::technique_name(it.technique))
                            @match &it.by {
                                Some(title) => { ", in " (text(title)) }
                                None => { ", known from the start" }
                            }
                        }
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
                @if shorter.is_empty() && over == Time(0) { p { "Nothing needs to be shortened." } }
                ul {
                    @for it in shorter {
                        li { "Say " (numbers(&it.steps)) " together; that saves " (it.saves.clock()) "." }
                    }
                }
                @if over > Time(0) { p { "It is " (over.clock()) " too long even then." } }
            }
        }
    }
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

/// What the times rest on.
fn basis(plan: &Plan) -> String {
    match plan.pace.n_steps {
        0 => "Estimated, not timed.".to_owned(),
        n => format!("Your own pace, from {n} steps of rehearsals."),
    }
}

/// Whether a step is the first of a technique that is new here.
fn is_new(plan: &Plan, cue: &Cue) -> bool {
    plan.introductions.iter().any(|it| it.step == cue.step)
}

/// The id of a passage's section.
fn anchor(at: usize) -> String {
    format!("passage-{}", at + 1)
}

/// `1.5 seconds`.
fn seconds(Time(milliseconds): Time) -> String {
    let (whole, tenths) = (milliseconds / 1_000, milliseconds % 1_000 / 100);
    if tenths == 0 { format!("{whole} seconds") } else { format!("{whole}.{tenths} seconds") }
}
