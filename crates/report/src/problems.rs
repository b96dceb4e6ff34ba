//! What is wrong with the files, file by file.

use maud::{Markup, html};
use packfile::{Problem, Severity, Unreadable};

use page::{sentence, text};

/// Every problem at its place, and the files that could not be read as puzzles; nothing if there are
/// none.
pub(crate) fn section(problems: &[Problem], unreadable: &[Unreadable]) -> Markup {
    let files: Vec<&[Problem]> = problems.chunk_by(|a, b| a.file == b.file).collect();
    let has_problem = |it: &&Unreadable| problems.iter().any(|problem| problem.file == it.file);
    let others: Vec<&Unreadable> = unreadable.iter().filter(|it| !has_problem(it)).collect();
    if files.is_empty() && others.is_empty() {
        return html! {};
    }
    html! {
        section #problems {
            h2 { "Problems" }
            @for of_file in files {
                @if let Some(first) = of_file.first() {
                    (file(&first.file, of_file, unreadable.iter().find(|it| it.file == first.file)))
                }
            }
            @for it in others { (file(&it.file, &[], Some(it))) }
        }
    }
}

fn file(path: &str, problems: &[Problem], unreadable: Option<&Unreadable>) -> Markup {
    html! {
        h3.file { (text(path)) }
        @if let Some(it) = unreadable {
            p {
                @match &it.title {
                    Some(title) => { "“" (text(title)) "”" }
                    None => { "The puzzle " (text(&it.name)) }
                }
                " could not be read as a puzzle and is left out of everything below."
            }
        }
        @if !problems.is_empty() {
            ul.problems { @for it in problems { li { (problem(it)) } } }
        }
    }
}

fn problem(it: &Problem) -> Markup {
    let severity = match it.severity {
        Severity::Error => "Error",
        Severity::Warning => "Warning",
    };
    html! {
        p.place {
            @match it.at {
                Some(at) => { "Line " (at.line) ", column " (at.column) }
                None => { "Whole file" }
            }
        }
        div {
            p { strong { (severity) ":" } " " (sentence(&it.message)) }
            @if let Some(help) = &it.help { p.help { "Help: " (sentence(help)) } }
            p.code { (it.code.name()) }
        }
    }
}
