//! Test solves, as they happen.

use std::sync::Arc;

use ::pack::Entry;
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
use crate::folder::{Digest, Reading, SOLVES};
use crate::logged;
use crate::state::{Desk, News};
use crate::store::{Begun, NotTaken, SolveEvent, Taken, Unkept};

/// So many events are taken at once: a page that was offline for hours sends them in parts.
const MOST_EVENTS: usize = 500;
/// Longer names are none.
const MOST_LETTERS: usize = 80;
/// The kinds of solvers, as files of solves name them.
const KINDS: [&str; 3] = ["newcomer", "regular", "old hand"];
/// What a page can tell. Of hints and of the end the desk knows by itself.
const HAPPENINGS: [&str; 10] =
    ["ink", "pencil", "mark", "clue", "undo", "redo", "pause", "resume", "gave-up", "left"];
/// So many cells are named that were not told.
const MOST_NAMED: usize = 5;

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
    /// Whether the puzzle is sealed for the one who asks: then it is told that something was written, and not what and where.
    pub(crate) is_kept_back: bool,
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
    Extension(caller): Extension<Caller>,
    Path(id): Path<String>,
) -> Result<Json<WholeSolve>, Refused> {
    whole(&desk, &caller, &id).await.map(Json)
}

/// The same for a page. What a seal keeps back is not in it.
pub(crate) async fn whole(desk: &Desk, caller: &Caller, id: &str) -> Result<WholeSolve, Refused> {
    let unkept = |it| Refused::unkept(desk, &it);
    let nothing = || {
        let help = "go back to the test solves and take one of them";
        Refused::new(StatusCode::NOT_FOUND, "no test solve is called so", help)
    };
    let solve = desk.store.solve(id).await.map_err(unkept)?.ok_or_else(nothing)?;
    let mut events = desk.store.events_of(id).await.map_err(unkept)?;
    let is_kept_back = is_kept_back(desk, caller, &solve).await.map_err(unkept)?;
    if is_kept_back {
        for it in events.iter_mut().filter(|it| matches!(&it.what[..], "ink" | "pencil" | "mark")) {
            // That something was rubbed out may be known.
            (it.cell, it.value) = (None, it.value.filter(|it| *it == 0));
        }
    }
    Ok(WholeSolve { solve, events, is_kept_back })
}

/// Whether what was written would spoil the puzzle: its seal is closed here, and the solve is not that of whoever asks. What is
/// no puzzle of the pack at the moment may have a seal.
async fn is_kept_back(desk: &Desk, caller: &Caller, solve: &Begun) -> Result<bool, Unkept> {
    if caller.who.invited().is_some() || is_editors_own(desk, solve).await? {
        return Ok(false);
    }
    let reading = desk.view().reading;
    let entry = reading.read.pack.entries.iter().find(|it| it.id.as_str() == solve.puzzle);
    Ok(entry.is_none_or(|it| it.sealed) && !desk.store.opened_seals().await?.contains(&solve.puzzle))
}

/// Whether the pack's editor solves: nobody who was invited, and under the name that the pack gives them.
async fn is_editors_own(desk: &Desk, solve: &Begun) -> Result<bool, Unkept> {
    let reading = desk.view().reading;
    let has_name = is_same_person(&solve.solver, &reading.read.pack.info.editor);
    Ok(has_name && !desk.store.is_invited_solve(&solve.id).await?)
}

/// The puzzle of a test solve, as it was when that was begun.
pub(crate) fn puzzle_of<'a>(reading: &'a Reading, solve: &Begun) -> Result<&'a Entry, Refused> {
    let entry = reading.read.pack.entries.iter().find(|it| it.id.as_str() == solve.puzzle);
    let entry = entry.ok_or_else(Refused::no_puzzle)?;
    if packfile::fingerprint(&entry.puzzle) != solve.fingerprint {
        let help = "load the page again and begin anew; what was logged until now is kept";
        return Err(Refused::new(
            StatusCode::CONFLICT,
            "the puzzle has changed since this test solve was begun",
            help,
        ));
    }
    Ok(entry)
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

/// Says whether a board that was filled in a test solve is right, and not where it is not. If it is, the solve has ended: this
/// is noted in its log, in which the whole board must stand. Once the pack's editor has solved a sealed puzzle, its seal is open
/// at this desk.
#[utoipa::path(
    post, path = "/api/1/solves/{id}/judged", tag = "solves",
    params(("id" = String, Path, description = "what the page calls the solve")),
    request_body = FullBoard,
    responses((status = 200, body = Judged), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody), (status = 503, body = RefusedBody), (status = 507, body = RefusedBody)),
)]
pub(crate) async fn judge(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<FullBoard>, JsonRejection>,
) -> Result<Json<Judged>, Refused> {
    let Json(FullBoard { digits }) = asked?;
    let unkept = |it| Refused::unkept(&desk, &it);
    let solve = desk.store.solve(&id).await.map_err(unkept)?;
    let solve = solve.ok_or_else(|| Refused::not_taken(&desk, &NotTaken::NoSuchSolve))?;
    let reading = desk.view().reading;
    let entry = puzzle_of(&reading, &solve)?;
    let (puzzle, is_sealed) = (&entry.puzzle, entry.sealed);
    let size = puzzle.size();
    let is_full = digits.len() == size.n_cells() && digits.iter().all(|it| size.digit(*it).is_some());
    if !is_full {
        return Err(Refused::unfit(format!("that is no full {size} board")));
    }
    let grid = Grid::from_fn(size, |cell| size.digit(digits[size.index(cell)]));
    let events = desk.store.events_of(&id).await.map_err(unkept)?;
    let logged = logged::board(&events, puzzle);
    let untold: Vec<String> = size
        .cells()
        .filter(|it| grid.get(*it) != logged.get(*it))
        .take(MOST_NAMED)
        .map(|it| it.to_string())
        .collect();
    if !untold.is_empty() {
        return Err(Refused::new(
            StatusCode::CONFLICT,
            format!("not everything on this sheet was told to the desk: {}", tell::list(&untold)),
            "rub out what is written there and write it once more",
        ));
    }
    let is_solved = puzzle.is_solved_by(&grid);
    if is_solved {
        // It was when its last digit was written, however late that is judged.
        let inked = events.iter().filter(|it| it.what == "ink").map(|it| it.after_ms).max();
        let noted = desk.store.note_event(&id, "solved", inked.unwrap_or_default(), None).await;
        noted.map_err(|it| Refused::not_taken(&desk, &it))?;
        desk.tell(News::Solves);
    }
    if is_solved && is_sealed && is_editors_own(&desk, &solve).await.map_err(unkept)? {
        desk.set_opened(&solve.puzzle, true).await.map_err(unkept)?;
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
    let size = puzzle_of(&reading, &begun)?.puzzle.size();
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

/// Whether a test solve can have gone on for so many milliseconds.
pub(crate) fn is_moment(after_ms: i64) -> bool {
    const WEEK: i64 = 7 * 24 * 60 * 60 * 1000;
    (0..=WEEK).contains(&after_ms)
}

fn is_event(it: &SolveEvent) -> bool {
    let cells = 0..i64::from(16 * 16);
    let values = 0..i64::from(1 << 17);
    (1..=64).contains(&it.id.len())
        && it.id.bytes().all(|it| it.is_ascii_alphanumeric() || it == b'-')
        && is_moment(it.after_ms)
        && HAPPENINGS.contains(&&it.what[..])
        && it.cell.is_none_or(|it| cells.contains(&it))
        && it.value.is_none_or(|it| values.contains(&it))
}

fn is_name(it: &str) -> bool {
    (8..=64).contains(&it.len()) && it.bytes().all(|it| it.is_ascii_alphanumeric() || it == b'-')
}
