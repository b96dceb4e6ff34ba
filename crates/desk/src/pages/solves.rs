//! Test solves: which there are, and what happened in one.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use ::pack::Entry;
use axum::extract::{Extension, Path, State};
use axum::response::Html;
use draw::ProgressLine;
use grade::Timed;
use maud::{Markup, PreEscaped, html};
use page::{bare, text};
use trail::TechniqueId;

use super::frame::{Here, NoPage, Page};
use super::pack::trouble;
use crate::answers::Refused;
use crate::api::{WholeSolve, whole_solve};
use crate::doors::Caller;
use crate::logged;
use crate::state::{Desk, View, study_of};
use crate::stops::stops;
use crate::store::{Begun, SolveEvent};

pub(super) async fn list(State(desk): State<Arc<Desk>>) -> Result<Html<String>, NoPage> {
    let view = desk.view();
    let solves = desk.store.solves().await.map_err(|it| Refused::unkept(&desk, &it))?;
    let title_of = |id: &str| {
        let entry = view.reading.read.pack.entries.iter().find(|it| it.id.as_str() == id);
        entry.map_or_else(|| id.to_owned(), |it| it.title.clone())
    };
    let mut by_puzzle: BTreeMap<&str, Vec<&Begun>> = BTreeMap::new();
    for it in &solves {
        by_puzzle.entry(&it.puzzle).or_default().push(it);
    }
    let main = html! {
        h1 { "Test solves" }
        (trouble(&view))
        @if by_puzzle.is_empty() { p.lead { "No test solve has been logged at this desk yet." } }
        @for (puzzle, solves) in by_puzzle {
            section {
                h2 { a href={ "/puzzles/" (puzzle) "/solves" } { (text(&title_of(puzzle))) } }
                ul { @for it in solves {
                    li { a href={ "/solves/" (it.id) } { (text(&it.solver)) ", " (text(&it.kind)) } ", " (it.begun_at) " (Greenwich)" }
                } }
            }
        }
    };
    Ok(Page { title: "Test solves".to_owned(), script: Some("pack.js"), here: Here::Solves, main }
        .render(&desk))
}

pub(super) async fn review(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
    Path(id): Path<String>,
) -> Result<Html<String>, NoPage> {
    let WholeSolve { solve, events, is_kept_back } = whole_solve(&desk, &caller, &id).await?;
    let view = desk.view();
    let entry = view.reading.read.pack.entries.iter().find(|it| it.id.as_str() == solve.puzzle);
    let title = entry.map_or_else(|| solve.puzzle.clone(), |it| it.title.clone());
    let is_as_it_was = entry.is_some_and(|it| packfile::fingerprint(&it.puzzle) == solve.fingerprint);
    let side = entry.map_or(9, |it| i64::from(it.puzzle.size().side()));
    let main = html! {
        h1 { (text(&title)) ": a test solve" }
        p.setter { "By " (text(&solve.solver)) ", " (text(&solve.kind)) ", begun " (solve.begun_at) " (Greenwich)" }
        @if !is_as_it_was { p.lead { "The puzzle has changed since, or is no longer in the pack." } }
        @if is_kept_back { p.lead { "The puzzle is sealed, so what was written where is not told." } }
        (summary(&events))
        @if let Some(entry) = entry.filter(|_| is_as_it_was) { (time_line(&solve, &events, &view, entry)) }
        (against_the_walkthrough(&solve, &events, &view, entry.filter(|_| is_as_it_was)))
        section #hindsight aria-labelledby="hindsight-head" data-solve=(solve.id) {
            h2 #hindsight-head { "Looked back on" }
            p role="status" { "What was known at each digit is being found out." }
        }
        @if is_as_it_was {
            p.actions { button type="button" #write data-solve=(solve.id) { "Write it into the pack’s solves" } }
            p #said role="status" {}
        }
        @if !events.is_empty() {
            h2 { "What happened" }
            table {
                caption { "In time of solving: pauses are not counted." }
                thead { tr { th scope="col" { "Time" } th scope="col" { "What" } } }
                tbody { @for it in &events { tr { td.number { (time(it.after_ms)) } td { (says(it, side)) } } } }
            }
        }
    };
    Ok(Page { title: format!("{title}: test solve"), script: Some("solves.js"), here: Here::Solves, main }
        .render(&desk))
}

/// How the board filled, beside what is expected of a regular; of a sealed puzzle nothing is expected.
fn time_line(begun: &Begun, events: &[SolveEvent], view: &View, entry: &Entry) -> Markup {
    const MINUTE: f64 = 60.0;
    let mut filled: BTreeSet<i64> = BTreeSet::new();
    // Where the cells are kept back, so is the line.
    let of_solve = events.iter().filter(|it| it.what == "ink").filter_map(|it| {
        let cell = it.cell?;
        match it.value {
            None | Some(0) => filled.remove(&cell),
            Some(_) => filled.insert(cell),
        };
        Some((it.after_ms as f64 / 1000.0 / MINUTE, filled.len()))
    });
    let points: Vec<(f64, usize)> = of_solve.collect();
    if points.is_empty() {
        return html! {};
    }
    let account = view.pack.as_ref().and_then(|it| study_of(it, &begun.puzzle)?.opened()?.account);
    let expected =
        account.map(|it| it.estimate.curve().into_iter().map(|(at, n)| (at / MINUTE, n)).collect());
    let name = bare(&begun.solver);
    let lines = [
        Some(ProgressLine { name: &name, points, is_expected: false }),
        expected.map(|points| ProgressLine { name: "a regular, expected", points, is_expected: true }),
    ];
    let lines: Vec<ProgressLine> = lines.into_iter().flatten().collect();
    let size = entry.puzzle.size();
    let n_open = size.n_cells() - entry.puzzle.givens().filled().count();
    let title = format!("{}: how the board filled", bare(&entry.title));
    html! { figure.curve { (PreEscaped(draw::progress_curve(&title, &lines, n_open))) } }
}

/// Where this solver took longest beside what is expected of a regular, by the steps of the walkthrough. Nothing of a sealed
/// puzzle, and of one that is another now.
fn against_the_walkthrough(
    begun: &Begun,
    events: &[SolveEvent],
    view: &View,
    entry: Option<&Entry>,
) -> Markup {
    let study = view.pack.as_ref().and_then(|it| study_of(it, &begun.puzzle));
    let account = study.and_then(|it| it.opened()?.account);
    let (Some(entry), Some(account)) = (entry, account) else { return html! {} };
    let solve = logged::solve(begun, events, entry.puzzle.size());
    let timed = match Timed::new(&solve, &account.course()) {
        Ok(it) => it,
        Err(mismatch) => {
            return html! { p { "It cannot be held against the walkthrough: " (mismatch.to_string()) "." } };
        }
    };
    let trail = account.explained.walkthrough().trail();
    let places = stops(&timed, account);
    let techniques: Vec<TechniqueId> = trail.steps().map(|it| it.1.technique()).collect();
    html! {
        h2 { "Where it stopped" }
        @if places.is_empty() {
            p { "Nowhere longer than a regular is expected to take." }
        } @else {
            div.wide tabindex="0" role="region" aria-label="Where it stopped" { table {
                caption {
                    "The time before a right digit goes to the steps of the walkthrough that it rests on and none before it did; \
                     what took longest beyond what a regular is expected to take comes first."
                }
                thead { tr { th scope="col" { "Steps" } th scope="col" { "The last of them" } th scope="col" { "Took" } th scope="col" { "Expected" } } }
                tbody {
                    @for (it, expected) in places {
                        @let last = it.steps.last().and_then(|at| techniques.get(*at));
                        tr {
                            td { (tell::capital(&numbered(&it.steps))) @if it.has_hint { ", with a hint" } }
                            td { (last.map(|it| tell::technique_name(*it)).unwrap_or_default()) }
                            td.number { (time((it.seconds * 1000.0) as i64)) }
                            td.number { (time((expected * 1000.0) as i64)) }
                        }
                    }
                }
            } }
        }
    }
}

/// `step 4`, `steps 2 to 18 and 20`: places of steps, counted from 0 and rising.
fn numbered(steps: &[usize]) -> String {
    let parts = steps.chunk_by(|a, b| a + 1 == *b).map(|it| match it {
        [only] => format!("{}", only + 1),
        [first, .., last] => format!("{} to {}", first + 1, last + 1),
        [] => String::new(),
    });
    let parts: Vec<String> = parts.collect();
    format!("step{} {}", if steps.len() == 1 { "" } else { "s" }, tell::list(&parts))
}

/// How long it took, and where the solver stopped longest.
fn summary(events: &[SolveEvent]) -> Markup {
    let inked: Vec<&SolveEvent> = logged::digits(events).collect();
    let hints = logged::hints(events).count();
    // What came after the end is not time of solving.
    let solved = events.iter().find(|it| it.what == "solved");
    let (is_solved, end) = (solved.is_some(), solved.or(events.last()));
    let mut stops: Vec<(i64, i64)> =
        inked.windows(2).map(|it| (it[1].after_ms - it[0].after_ms, it[1].after_ms)).collect();
    stops.sort_by_key(|it| (-it.0, it.1));
    html! {
        dl.notes {
            dt { "Time" } dd { (time(end.map_or(0, |it| it.after_ms))) @if is_solved { ", solved" } @else { ", not solved" } }
            dt { "Digits written" } dd { (inked.len()) }
            dt { "Hints asked for" } dd { (hints) }
            @if !stops.is_empty() {
                dt { "Longest waits between two digits" }
                dd { ul { @for (long, at) in stops.iter().take(3) { li { (time(*long)) ", until " (time(*at)) } } } }
            }
        }
    }
}

/// What happened, in words.
fn says(it: &SolveEvent, side: i64) -> String {
    let cell =
        it.cell.map_or_else(|| "a cell".to_owned(), |it| format!("r{}c{}", it / side + 1, it % side + 1));
    match (&it.what[..], it.value.unwrap_or_default()) {
        ("ink", _) if it.cell.is_none() && it.value.is_none() => "a digit".to_owned(),
        ("ink", 0) => format!("{cell} rubbed out"),
        ("ink", digit) => format!("{digit} in {cell}"),
        ("pencil", _) => format!("pencil in {cell}"),
        ("mark", _) => format!("a mark on {cell}"),
        ("clue", _) => "a clue struck or not".to_owned(),
        ("undo", _) => "took something back".to_owned(),
        ("redo", _) => "did it again".to_owned(),
        ("hint", 1) => "asked where to look".to_owned(),
        ("hint", 2) => "asked what is there".to_owned(),
        ("hint", 3) => "asked why".to_owned(),
        ("hint", 4) => "asked why a digit is so".to_owned(),
        ("hint", _) => "asked for a hint".to_owned(),
        ("check", _) => "was told that nothing is wrong so far".to_owned(),
        ("pause", _) => "paused".to_owned(),
        ("resume", _) => "went on".to_owned(),
        ("solved", _) => "solved".to_owned(),
        ("gave-up", _) => "gave up".to_owned(),
        (_, _) => "left the page".to_owned(),
    }
}

/// Minutes and seconds.
pub(super) fn time(ms: i64) -> String {
    let seconds = ms / 1000;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_that_follow_each_other_are_told_as_one() {
        assert_eq!(numbered(&[3]), "step 4");
        assert_eq!(numbered(&[1, 2, 3, 5]), "steps 2 to 4 and 6");
    }

    #[test]
    fn happenings_are_told() {
        let it = |what: &str, value| SolveEvent {
            id: "a".to_owned(),
            after_ms: 0,
            what: what.to_owned(),
            cell: Some(10),
            value,
        };
        assert_eq!(says(&it("ink", Some(4)), 9), "4 in r2c2");
        assert_eq!(says(&it("ink", Some(0)), 6), "r2c5 rubbed out");
        assert_eq!(says(&it("left", None), 9), "left the page");
        assert_eq!(says(&it("hint", Some(3)), 9), "asked why");
        let kept_back = SolveEvent { cell: None, ..it("pencil", None) };
        assert_eq!(says(&kept_back, 9), "pencil in a cell");
        let of = |value| says(&SolveEvent { cell: None, ..it("ink", value) }, 9);
        assert_eq!((of(None), of(Some(0))), ("a digit".to_owned(), "a cell rubbed out".to_owned()));
        assert_eq!((time(61_999), time(600_000)), ("1:01".to_owned(), "10:00".to_owned()));
    }
}
