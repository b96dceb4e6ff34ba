//! All test solves of one puzzle together: how long each took beside what is expected, and where several stopped.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::extract::{Path, State};
use axum::response::Html;
use grade::{Outcome, Solve, Timed};
use maud::{Markup, html};
use page::text;
use study::{Account, Study};

use super::frame::{Here, NoPage, Page};
use super::pack::trouble;
use super::solves::time;
use crate::answers::Refused;
use crate::api::id_of;
use crate::aside::aside;
use crate::logged;
use crate::state::{Desk, study_of};
use crate::stops::{MOST_PLACES, stops};

/// A test solve of the puzzle as it is now.
struct Tested {
    solve: Solve,
    /// So many digits were written.
    n_digits: usize,
    begun_at: String,
    /// Its page at this desk; none if it came as a file.
    page: Option<String>,
}

pub(super) async fn page(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Html<String>, NoPage> {
    let id = id_of(&id)?;
    let (_, pack) = desk.studied().await?;
    let study = study_of(&pack, id.as_str()).ok_or_else(Refused::no_puzzle)?;
    let (tested, n_of_others) = tested(&desk, study).await?;
    let account = study.opened().and_then(|it| it.account);
    let title = format!("{}: test solves", study.entry().title);
    let main = html! {
        h1 { (text(&study.entry().title)) ": all test solves" }
        (trouble(&desk.view()))
        @if n_of_others > 0 {
            p.lead { (tell::capital(&tell::count(n_of_others))) " more of the puzzle as it was before it changed." }
        }
        @if tested.is_empty() {
            p.lead { "Nobody has test-solved it as it is now." }
        } @else {
            (times(&tested, account))
            @match account {
                Some(account) => { (places(&tested, account)) }
                None => { p { "Where they stopped is told once there is a walkthrough and the seal is open." } }
            }
        }
        p { a href={ "/puzzles/" (id) } { "To the puzzle" } }
    };
    Ok(Page { title, script: Some("pack.js"), here: Here::Solves, main }.render(&desk))
}

/// The solves of the puzzle as it is now, those of this desk first; and how many there are of what it was.
async fn tested(desk: &Arc<Desk>, study: &Study) -> Result<(Vec<Tested>, usize), Refused> {
    let entry = study.entry();
    let (id, fingerprint) = (entry.id.to_string(), packfile::fingerprint(&entry.puzzle));
    let unkept = |it| Refused::unkept(desk, &it);
    let begun = desk.store.solves().await.map_err(unkept)?.into_iter().filter(|it| it.puzzle == id);
    let (now, before): (Vec<_>, Vec<_>) = begun.partition(|it| it.fingerprint == fingerprint);
    let known: Vec<String> = now.iter().chain(&before).map(|it| it.id.clone()).collect();
    let mut tested = Vec::new();
    for it in now {
        let events = desk.store.events_of(&it.id).await.map_err(unkept)?;
        let solve = logged::solve(&it, &events, entry.puzzle.size());
        let n_digits = logged::digits(&events).count();
        tested.push(Tested { solve, n_digits, begun_at: it.begun_at, page: Some(it.id) });
    }
    let reader = Arc::clone(desk);
    let files = aside(move || reader.folder().beside()).await?.map_err(|it| Refused::failed(&it))?.solves;
    // What this desk has written is in its store, too.
    let is_foreign = |file: &str| !known.iter().any(|it| file.contains(&it[..]));
    let of_puzzle = files.into_iter().filter(|it| it.solve.puzzle == id && is_foreign(&it.file));
    let (now, others): (Vec<_>, Vec<_>) =
        of_puzzle.partition(|it| it.fingerprint.as_ref().is_none_or(|it| *it == fingerprint));
    let n_of_others = before.len() + others.len();
    tested.extend(now.into_iter().map(|it| Tested {
        n_digits: it.solve.entries.iter().filter(|it| it.digit.is_some()).count(),
        solve: it.solve,
        begun_at: it.started.unwrap_or_default(),
        page: None,
    }));
    Ok((tested, n_of_others))
}

/// How long each took, beside what is expected of such a solver.
fn times(tested: &[Tested], account: Option<&Account>) -> Markup {
    let expected = |it: &Solve| {
        let mut solvers = account?.estimate.solvers();
        solvers.find(|(kind, _)| kind.name == it.kind.name).map(|it| it.1.median)
    };
    html! {
        div.wide tabindex="0" role="region" aria-label="How long each took" { table {
            caption { "Time of solving: pauses are not counted." }
            thead { tr {
                @for name in ["Who", "Kind", "Begun", "Took", "Expected", "Ended", "Digits", "Hints"] { th scope="col" { (name) } }
            } }
            tbody { @for it in tested {
                tr {
                    td { @match &it.page {
                        Some(id) => { a href={ "/solves/" (id) } { (text(&it.solve.solver)) } }
                        None => { (text(&it.solve.solver)) }
                    } }
                    td { (it.solve.kind.name) @if it.solve.is_aloud { ", aloud" } }
                    td { (text(&it.begun_at)) }
                    td.number { (seconds(took(&it.solve))) }
                    td.number { (expected(&it.solve).map(seconds).unwrap_or_default()) }
                    td { (match it.solve.outcome { Outcome::Solved => "solved", Outcome::GaveUp => "given up", Outcome::Left => "left" }) }
                    td.number { (it.n_digits) }
                    td.number { (it.solve.hints.len()) }
                }
            } }
        } }
    }
}

/// Somebody who stopped: who, how long, and with a hint or without.
struct Stopped<'a> {
    solver: &'a str,
    seconds: f64,
    expected: f64,
    has_hint: bool,
}

/// Where they stopped, by the step that was found then; where most stopped first.
fn places(tested: &[Tested], account: &Account) -> Markup {
    let course = account.course();
    let mut by_step: BTreeMap<usize, Vec<Stopped>> = BTreeMap::new();
    let mut unfit: Vec<(&str, String)> = Vec::new();
    for it in tested {
        match Timed::new(&it.solve, &course) {
            Ok(timed) => {
                for (at, expected) in stops(&timed, account) {
                    let (solver, seconds, has_hint) = (&*it.solve.solver, at.seconds, at.has_hint);
                    // By the last step that was found then.
                    let Some(step) = at.steps.last() else { continue };
                    let stopped = Stopped { solver, seconds, expected, has_hint };
                    by_step.entry(*step).or_default().push(stopped);
                }
            }
            Err(it_is) => unfit.push((&it.solve.solver, it_is.to_string())),
        }
    }
    let excess = |of: &[Stopped]| of.iter().map(|it| it.seconds - it.expected).sum::<f64>();
    let mut by_step: Vec<(usize, Vec<Stopped>)> = by_step.into_iter().collect();
    by_step.sort_by(|a, b| b.1.len().cmp(&a.1.len()).then(excess(&b.1).total_cmp(&excess(&a.1))));
    let techniques: Vec<_> =
        account.explained.walkthrough().trail().steps().map(|it| it.1.technique()).collect();
    let narrow: Vec<usize> = account.estimate.narrow_places().iter().map(|it| it.step.index()).collect();
    html! {
        h2 { "Where they stopped" }
        @for (who, why) in &unfit { p { (text(who)) "’s solve cannot be held against the walkthrough: " (why) "." } }
        @if by_step.is_empty() {
            p { "Nowhere longer than is expected." }
        } @else {
            div.wide tabindex="0" role="region" aria-label="Where they stopped" { table {
                caption { "By the step of the walkthrough that was found then, of each solver the " (tell::count(MOST_PLACES)) " longest; where most of them stopped comes first." }
                thead { tr { @for name in ["Step", "Technique", "Solvers", "Who, and took against expected"] { th scope="col" { (name) } } } }
                tbody { @for (step, of) in &by_step {
                    tr {
                        td { (step + 1) @if narrow.contains(step) { ", a narrow place" } }
                        td { (techniques.get(*step).map(|it| tell::technique_name(*it)).unwrap_or_default()) }
                        td.number { (of.len()) }
                        td { ul.plain { @for it in of {
                            li { (text(it.solver)) ": " (seconds(it.seconds)) " against " (seconds(it.expected)) @if it.has_hint { ", with a hint" } }
                        } } }
                    }
                } }
            } }
        }
    }
}

/// Seconds of solving.
fn took(solve: &Solve) -> f64 {
    let away: f64 = solve.pauses.iter().map(|[from, to]| to - from).sum();
    let last = solve.entries.iter().map(|it| it.at).chain(solve.hints.iter().copied()).fold(0.0, f64::max);
    (last - away).max(0.0)
}

fn seconds(it: f64) -> String {
    time((it * 1000.0) as i64)
}
