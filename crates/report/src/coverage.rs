//! What the pack teaches: each technique with the puzzles that use it, and what is still missing.

use draw::{CoverageRow, Met, coverage_chart};
use maud::{Markup, PreEscaped, html};
use pack::{Coverage, PuzzleId};
use page::bare;
use study::Study;
use trail::TechniqueId;

use crate::contents::Contents;
use crate::puzzle::anchor;

pub(crate) fn section(contents: &Contents) -> Markup {
    let (used, unused): (Vec<&Coverage>, Vec<&Coverage>) =
        contents.coverage.iter().partition(|it| !it.puzzles.is_empty());
    html! {
        section #coverage {
            h2 { "Coverage" }
            @if used.is_empty() {
                p { "No open puzzle has a walkthrough, so none teaches a technique yet." }
            } @else {
                (chart(contents, &used))
                (table(contents, &used))
            }
            (missing(contents, &unused))
        }
    }
}

/// Techniques against puzzles, as a picture.
fn chart(contents: &Contents, used: &[&Coverage]) -> Markup {
    let studies = contents.pack.studies();
    let titles: Vec<String> = studies.iter().map(|it| bare(&it.entry().title)).collect();
    let titles: Vec<&str> = titles.iter().map(|it| &it[..]).collect();
    let rows: Vec<CoverageRow> = used.iter().map(|it| row(contents, it)).collect();
    html! {
        figure.taught {
            (PreEscaped(coverage_chart("What each puzzle introduces and practises", &titles, &rows)))
            figcaption {
                "Techniques, easiest first, and the puzzles in the order of the pack: a square where one is introduced, \
                 a ring where it is practised."
            }
        }
    }
}

fn row<'a>(contents: &Contents, it: &Coverage) -> CoverageRow<'a> {
    let met = |study: &Study| match &study.entry().id {
        id if it.taught_in() == Some(id) => Met::Introduced,
        id if it.puzzles.contains(id) => Met::Practised,
        _ => Met::Not,
    };
    CoverageRow {
        label: tell::technique_name(it.technique),
        cells: contents.pack.studies().iter().map(met).collect(),
    }
}

fn table(contents: &Contents, used: &[&Coverage]) -> Markup {
    html! {
        table.coverage {
            caption {
                "Techniques, easiest first, and the puzzles whose walkthrough uses them."
                @if contents.n_sealed() > 0 { " Sealed puzzles are left out." }
            }
            thead {
                tr {
                    th scope="col" { "Technique" }
                    th scope="col" { "First in" }
                    th scope="col" { "Then in" }
                }
            }
            tbody {
                @for it in used {
                    tr {
                        th scope="row" { (description(it.technique)) }
                        td.number {
                            @match it.taught_in() {
                                Some(id) => { (link(contents, id)) }
                                None => { span.none { "known" } }
                            }
                        }
                        td.numbers { (numbers(contents, it.practised_in())) }
                    }
                }
            }
        }
    }
}

fn description(technique: TechniqueId) -> Markup {
    html! {
        span.technique { (tell::technique_name(technique)) }
        " " span.description { (tell::technique_description(technique)) }
    }
}

fn link(contents: &Contents, id: &PuzzleId) -> Markup {
    html! {
        @if let Some(number) = contents.number_of(id) {
            a.puzzle href={ "#" (anchor(id)) } aria-label={ "puzzle " (number) } { (number) }
        }
    }
}

fn numbers(contents: &Contents, puzzles: &[PuzzleId]) -> Markup {
    let numbers = puzzles.iter().filter_map(|it| contents.number_of(it)).map(|it| it.to_string());
    html! {
        @if puzzles.is_empty() { span.none { "none" } }
        @else { (numbers.collect::<Vec<_>>().join(", ")) }
    }
}

/// The techniques that no puzzle uses. A small argument is none that a pack would want to teach.
fn missing(contents: &Contents, unused: &[&Coverage]) -> Markup {
    let missing: Vec<TechniqueId> = unused
        .iter()
        .filter(|it| !it.is_known && it.technique != TechniqueId::SMALL_ARGUMENT)
        .map(|it| it.technique)
        .collect();
    if contents.pack.studies().is_empty() {
        return html! {};
    }
    html! {
        (once(contents))
        h3 { "Not taught yet" }
        @if contents.n_sealed() > 0 {
            p { "A sealed puzzle may teach what the others do not, so this list waits until none is sealed." }
        } @else if missing.is_empty() {
            p { "Nothing: every technique that Galley knows is used by some puzzle." }
        } @else {
            ul.missing { @for it in missing { li { (description(it)) } } }
        }
    }
}

/// The techniques that one puzzle introduces and no other practises.
fn once(contents: &Contents) -> Markup {
    let once = contents.coverage.iter().filter(|it| it.practised_in().is_empty());
    let once: Vec<(TechniqueId, &PuzzleId)> = once
        .filter(|it| it.technique != TechniqueId::SMALL_ARGUMENT)
        .filter_map(|it| Some((it.technique, it.taught_in()?)))
        .collect();
    html! {
        @if !once.is_empty() && contents.n_sealed() == 0 {
            h3 { "Introduced, and practised in no other puzzle" }
            ul.once {
                @for (technique, id) in once {
                    li { (tell::technique_name(technique)) ", in " (link(contents, id)) }
                }
            }
        }
    }
}
