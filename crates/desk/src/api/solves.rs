//! Test solves, as they happen.

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Extension, Path, State};
use axum::http::StatusCode;
use grid::Grid;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::id_of;
use crate::answers::{Refused, RefusedBody};
use crate::doors::Caller;
use crate::folder::{Digest, SOLVES};
use crate::logged;
use crate::state::{Desk, News};
use crate::store::{Begun, NotTaken, SolveEvent, Taken};

/// So many events are taken at once: a page that was offline for hours sends them in parts.
const MOST_EVENTS: usize = 500;
/// Longer names are none.
const MOST_LETTERS: usize = 80;
/// The kinds of solvers, as files of solves name them.
const KINDS: [&str; 3] = ["newcomer", "regular", "old hand"];
/// What can happen.
const HAPPENINGS: [&str; 12] =
    ["ink", "pencil", "mark", "clue", "undo", "redo", "hint", "pause", "resume", "solved", "gave-up", "left"];

/// A test solve that begins.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SolveToBegin {
    /// What the page calls it: letters, digits and hyphens, so long that nobody else takes the same.
    pub(crate) id: String,
    /// The puzzle's id.
    pub(crate) puzzle: String,
    /// What tells the puzzle from what it may become.
    pub(crate) fingerprint: String,
    /// Who solves.
    pub(crate) solver: String,
    /// How used to such puzzles they are: newcomer, regular or old hand.
    pub(crate) kind: String,
}

/// Events that a page has not been told are kept.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct EventsToTake {
    /// 500 at most.
    pub(crate) events: Vec<SolveEvent>,
}

/// A test solve with all that happened.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct WholeSolve {
    /// Who solves what.
    pub(crate) solve: Begun,
    /// What happened, in time.
    pub(crate) events: Vec<SolveEvent>,
}

/// All test solves, the latest first.
#[utoipa::path(get, path = "/api/1/solves", tag = "solves", responses((status = 200, body = Vec<Begun>)))]
pub(crate) async fn all(State(desk): State<Arc<Desk>>) -> Result<Json<Vec<Begun>>, Refused> {
    desk.store.solves().await.map(Json).map_err(|it| Refused::unkept(&desk, &it))
}

/// Begins a test solve. Told twice, it is the same one.
#[utoipa::path(
    post, path = "/api/1/solves", tag = "solves", request_body = SolveToBegin,
    responses((status = 201, body = Begun), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody), (status = 503, body = RefusedBody), (status = 507, body = RefusedBody)),
)]
pub(crate) async fn begin(
    State(desk): State<Arc<Desk>>,
    Extension(caller): Extension<Caller>,
    asked: Result<Json<SolveToBegin>, JsonRejection>,
) -> Result<(StatusCode, Json<Begun>), Refused> {
    let Json(SolveToBegin { id, puzzle, fingerprint, solver, kind }) = asked?;
    let invited = caller.who.invited();
    // Whoever was invited solves under the name of the invitation.
    let solver = invited.map_or(solver, |it| it.person.clone());
    if !is_name(&id) {
        return Err(Refused::unfit("the id of a solve is 8 to 64 letters, digits and hyphens"));
    }
    let is_line =
        |it: &str| !it.trim().is_empty() && it.len() <= MOST_LETTERS && !it.contains(char::is_control);
    if !is_line(&solver) || !KINDS.contains(&&kind[..]) {
        return Err(Refused::unfit(
            "say who solves, on one line, and whether a newcomer, a regular or an old hand",
        ));
    }
    let view = desk.view();
    let puzzle = id_of(&puzzle)?;
    if let Some(it) = invited {
        let assigned = desk.store.assigned(&it.invitation).await.map_err(|it| Refused::unkept(&desk, &it))?;
        if !assigned.iter().any(|it| *it == puzzle.as_str()) {
            return Err(Refused::no_puzzle());
        }
    }
    let entry =
        view.reading.read.pack.entries.iter().find(|it| it.id == puzzle).ok_or_else(Refused::no_puzzle)?;
    if packfile::fingerprint(&entry.puzzle) != fingerprint {
        let help = "load the page again to solve it as it is now";
        return Err(Refused::new(
            StatusCode::CONFLICT,
            "the puzzle has changed since this page was loaded",
            help,
        ));
    }
    let begun = Begun { id, puzzle: puzzle.to_string(), fingerprint, solver, kind, begun_at: String::new() };
    let begun = match invited {
        None => desk.store.begin_solve(&begun).await,
        Some(it) => desk.store.begin_invited_solve(&begun, &it.invitation).await,
    };
    let begun = begun.map_err(|it| Refused::not_taken(&desk, &it))?;
    desk.tell(News::Solves);
    Ok((StatusCode::CREATED, Json(begun)))
}

/// Takes what happened in a test solve. An event that was taken before is not taken again; what differs from what was
/// told under the same name is refused, with all that came with it.
#[utoipa::path(
    post, path = "/api/1/solves/{id}/events", tag = "solves",
    params(("id" = String, Path, description = "what the page calls the solve")),
    request_body = EventsToTake,
    responses((status = 200, body = Taken), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody), (status = 503, body = RefusedBody), (status = 507, body = RefusedBody)),
)]
pub(crate) async fn events(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<EventsToTake>, JsonRejection>,
) -> Result<Json<Taken>, Refused> {
    let Json(EventsToTake { events }) = asked?;
    if events.len() > MOST_EVENTS {
        return Err(Refused::unfit(format!("{MOST_EVENTS} events are taken at once, no more")));
    }
    if !events.iter().all(is_event) {
        return Err(Refused::unfit(
            "an event has an id of 1 to 64 letters, digits and hyphens, a time of at most a week, and one of the happenings that are known",
        ));
    }
    let taken = desk.store.take_events(&id, &events).await.map_err(|it| Refused::not_taken(&desk, &it))?;
    if taken.new > 0 {
        desk.tell(News::Solves);
    }
    Ok(Json(taken))
}

/// A test solve with all that happened.
#[utoipa::path(
    get, path = "/api/1/solves/{id}", tag = "solves",
    params(("id" = String, Path, description = "what the page calls the solve")),
    responses((status = 200, body = WholeSolve), (status = 404, body = RefusedBody)),
)]
pub(crate) async fn one(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Json<WholeSolve>, Refused> {
    let unkept = |it| Refused::unkept(&desk, &it);
    let nothing = || {
        let help = "go back to the test solves and take one of them";
        Refused::new(StatusCode::NOT_FOUND, "no test solve is called so", help)
    };
    let solve = desk.store.solve(&id).await.map_err(unkept)?.ok_or_else(nothing)?;
    let events = desk.store.events_of(&id).await.map_err(unkept)?;
    Ok(Json(WholeSolve { solve, events }))
}

/// A board that a solver has filled.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct FullBoard {
    /// Row by row from the top.
    pub(crate) digits: Vec<u8>,
}

/// Whether a full board is right.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct Judged {
    /// Whether it solves the puzzle.
    pub(crate) is_solved: bool,
}

/// Says whether a board that was filled in a test solve is right, and not where it is not. Once the pack's editor has solved
/// a sealed puzzle, its seal is open at this desk.
#[utoipa::path(
    post, path = "/api/1/solves/{id}/judged", tag = "solves",
    params(("id" = String, Path, description = "what the page calls the solve")),
    request_body = FullBoard,
    responses((status = 200, body = Judged), (status = 404, body = RefusedBody), (status = 422, body = RefusedBody)),
)]
pub(crate) async fn judge(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<FullBoard>, JsonRejection>,
) -> Result<Json<Judged>, Refused> {
    let Json(FullBoard { digits }) = asked?;
    let solve = desk.store.solve(&id).await.map_err(|it| Refused::unkept(&desk, &it))?;
    let solve = solve.ok_or_else(|| Refused::not_taken(&desk, &NotTaken::NoSuchSolve))?;
    let reading = desk.view().reading;
    let entry = reading.read.pack.entries.iter().find(|it| it.id.as_str() == solve.puzzle);
    let entry = entry.ok_or_else(Refused::no_puzzle)?;
    let (puzzle, is_sealed) = (&entry.puzzle, entry.sealed);
    let size = puzzle.size();
    let is_full = digits.len() == size.n_cells() && digits.iter().all(|it| size.digit(*it).is_some());
    if !is_full {
        return Err(Refused::unfit(format!("that is no full {size} board")));
    }
    let grid = Grid::from_fn(size, |cell| size.digit(digits[size.index(cell)]));
    let is_solved = puzzle.is_solved_by(&grid);
    if is_solved && is_sealed && is_same_person(&solve.solver, &reading.read.pack.info.editor) {
        desk.set_opened(&solve.puzzle, true).await.map_err(|it| Refused::unkept(&desk, &it))?;
    }
    Ok(Json(Judged { is_solved }))
}

/// The file that a test solve was written to.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct SolveWritten {
    /// Its name within the pack.
    pub(crate) file: String,
}

/// Writes a test solve into the pack's `solves`, where it teaches what minutes are; once more when it has gone on.
#[utoipa::path(
    put, path = "/api/1/solves/{id}/file", tag = "solves",
    params(("id" = String, Path, description = "what the page calls the solve")),
    responses((status = 200, body = SolveWritten), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody)),
)]
pub(crate) async fn write(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Json<SolveWritten>, Refused> {
    let unkept = |it| Refused::unkept(&desk, &it);
    let begun = desk.store.solve(&id).await.map_err(unkept)?;
    let begun = begun.ok_or_else(|| Refused::not_taken(&desk, &NotTaken::NoSuchSolve))?;
    let events = desk.store.events_of(&id).await.map_err(unkept)?;
    let reading = desk.view().reading;
    let entry = reading.read.pack.entries.iter().find(|it| it.id.as_str() == begun.puzzle);
    let size = entry.ok_or_else(Refused::no_puzzle)?.puzzle.size();
    // Both parts were looked at when the solve was begun: letters, digits and hyphens.
    let file = format!("{SOLVES}/{}-{id}.json", begun.puzzle);
    let text = logged::file(&begun, &logged::solve(&begun, &events, size));
    let there = tokio::fs::read(desk.folder().root().join(&file)).await.ok();
    desk.write(&file, there.map(|it| Digest::of(&it)), text).await?;
    Ok(Json(SolveWritten { file }))
}

/// Names are typed by hand.
fn is_same_person(a: &str, b: &str) -> bool {
    let words = |it: &str| it.split_whitespace().map(str::to_lowercase).collect::<Vec<_>>();
    words(a) == words(b)
}

fn is_event(it: &SolveEvent) -> bool {
    const WEEK: i64 = 7 * 24 * 60 * 60 * 1000;
    let cells = 0..i64::from(16 * 16);
    let values = 0..i64::from(1 << 17);
    (1..=64).contains(&it.id.len())
        && it.id.bytes().all(|it| it.is_ascii_alphanumeric() || it == b'-')
        && (0..=WEEK).contains(&it.after_ms)
        && HAPPENINGS.contains(&&it.what[..])
        && it.cell.is_none_or(|it| cells.contains(&it))
        && it.value.is_none_or(|it| values.contains(&it))
}

fn is_name(it: &str) -> bool {
    (8..=64).contains(&it.len()) && it.bytes().all(|it| it.is_ascii_alphanumeric() || it == b'-')
}
