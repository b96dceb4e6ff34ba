//! The page of the outputs: what to press and how, the jobs, and what was pressed, to be looked at and taken.

use std::sync::Arc;

use axum::extract::State;
use axum::response::Html;
use maud::{Markup, html};
use page::text;

use super::frame::{Here, Page};
use super::jobs::jobs;
use super::pack::{title, trouble};
use crate::api::{PressedFile, pressed_files};
use crate::state::Desk;

/// A word of a form, and what it is on the page.
type Word = (&'static str, &'static str);

/// The words of a form of the booklet, with what each is, in groups of which one is chosen.
const FORMS: [(&str, &str, &[Word]); 4] = [
    ("paper", "Paper", &[("a4", "A4"), ("letter", "Letter")]),
    ("ink", "Ink", &[("colour", "in colour"), ("black", "in black alone")]),
    (
        "layout",
        "Puzzles",
        &[("one", "one a page"), ("two", "two a page"), ("four", "four a page"), ("large", "large print")],
    ),
    ("walkthroughs", "Walkthroughs", &[("", "left out"), ("walkthroughs", "in an appendix")]),
];

pub(super) async fn page(State(desk): State<Arc<Desk>>) -> Html<String> {
    let view = desk.view();
    let name = title(&view.reading);
    let files = pressed_files(&desk).await;
    let main = html! {
        h1 { "Press" }
        p.lead { "Report, booklets, site, cue sheets and stages of " (text(&name)) ", written into the folder " code { "out" } " of the pack." }
        (trouble(&view))
        @if desk.pressing.is_some() { (form(&view.reading.read.pack.info.booklets)) } @else {
            p.trouble { "This desk was started without a press. The command " code { "galley desk" } " brings one." }
        }
        (jobs(&desk.jobs.all()))
        (outputs(&files))
    };
    Page { title: format!("{name}: press"), script: Some("press.js"), here: Here::Press, main }.render(&desk)
}

fn form(of_pack: &[pack::Form]) -> Markup {
    let usual = match of_pack {
        [] => "one booklet on A4, in colour".to_owned(),
        forms => {
            let name = |it: &pack::Form| match it.to_string() {
                it if it.is_empty() => "a4".to_owned(),
                it => it,
            };
            format!("as the pack says: {}", tell::list(&forms.iter().map(name).collect::<Vec<_>>()))
        }
    };
    html! {
        section aria-labelledby="choose-head" {
            h2 #choose-head { "What to press" }
            form #press {
                p { label for="issued" { "Day of issue, printed in the booklet (none by default)" } input #issued name="issued" type="date"; }
                fieldset {
                    legend { "Booklets" }
                    p { label.plain { input type="radio" name="which" value="" checked; " " (text(&tell::capital(&usual))) } }
                    p { label.plain { input type="radio" name="which" value="own"; " these:" } }
                    ul #forms hidden {}
                    div #form-words.choices hidden {
                        @for (key, label, words) in FORMS {
                            p {
                                label for={ "form-" (key) } { (label) }
                                select id={ "form-" (key) } data-form {
                                    @for (word, says) in words { option value=(word) { (says) } }
                                }
                            }
                        }
                        p.actions { button type="button" #add-form { "Add this booklet" } }
                    }
                }
                p { label.plain { input type="checkbox" name="strict"; " Write nothing if a puzzle has changed since its setter approved it" } }
                p { label.plain { input type="checkbox" name="print_cues"; " Print the cue sheets, too (a second or two for each puzzle)" } }
                p { label.plain { input type="checkbox" name="unseal"; " Publish sealed puzzles, too: this shows them" } }
                p.actions { button { "Press" } }
                p.said #said role="status" {}
            }
        }
    }
}

fn outputs(files: &[PressedFile]) -> Markup {
    let at = |name: &str| files.iter().find(|it| it.name == name);
    let booklets: Vec<&PressedFile> = files.iter().filter(|it| it.pages.is_some()).collect();
    html! {
        section #outputs aria-labelledby="outputs-head" {
            h2 #outputs-head { "What was pressed" }
            @if files.is_empty() { p { "Nothing yet." } } @else {
                ul {
                    @if let Some(it) = at("site/index.html") {
                        li { a href=(it.address) target="_blank" { "The site" } ", to be opened and played. What is written on its sheets here is forgotten with the page." }
                    }
                    @if let Some(it) = at("report.html") { li { a href=(it.address) target="_blank" { "The report" } } }
                    @for it in &booklets {
                        li { a href=(it.address) target="_blank" { (it.name) } ", " (counted(it.pages.unwrap_or_default(), "page")) }
                    }
                }
                @for it in &booklets { (pages(it)) }
                details {
                    summary { "All " (counted(files.len(), "file")) }
                    ul.files {
                        @for it in files {
                            li { a href=(it.address) download=(it.name.rsplit('/').next().unwrap_or_default()) { (it.name) } " " span.place { (size(it.bytes)) } }
                        }
                    }
                }
            }
        }
    }
}

/// The pages of a booklet as pictures, each asked for when it comes into view.
fn pages(it: &PressedFile) -> Markup {
    html! {
        details.booklet {
            summary { "Pages of " (it.name) }
            ol.pages tabindex="0" aria-label={ "Pages of " (it.name) } {
                @for page in 1..=it.pages.unwrap_or_default() {
                    // The size tells a picture that was pressed anew from the one before.
                    li { img loading="lazy" alt={ "Page " (page) } width="420" height="594" src={ "/api/1/press/pages/" (it.name) "/" (page) "?" (it.bytes) }; }
                }
            }
        }
    }
}

fn counted(n: usize, what: &str) -> String {
    format!("{n} {what}{}", if n == 1 { "" } else { "s" })
}

fn size(bytes: u64) -> String {
    match bytes {
        0..1000 => format!("{bytes} bytes"),
        1000..1_000_000 => format!("{} kB", bytes / 1000),
        _ => format!("{}.{} MB", bytes / 1_000_000, bytes / 100_000 % 10),
    }
}
