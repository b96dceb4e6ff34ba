//! What the pack lacks: setting a puzzle for it as a job, and what becomes of what was set.

use std::sync::Arc;

use ::pack::State as Standing;
use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use make::Wanted;
use packfile::write_puzzle;
use reason::TECHNIQUES;
use serde::{Deserialize, Serialize};
use trail::TechniqueId;
use utoipa::ToSchema;

use super::jobs::{job_of, no_job, too_many};
use super::new::{PuzzleBegun, id_for};
use crate::answers::{Refused, RefusedBody};
use crate::folder::PUZZLES;
use crate::jobs::{JobNow, JobState, Kind, Watched, Yield};
use crate::setting::{Fate, Gaps, Order, SetPuzzles, USUAL_TRIES, set};
use crate::state::Desk;
use crate::words;

/// What the pack lacks.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct GapsNow {
    /// Whether it is said at all: not while a puzzle is sealed.
    pub(crate) is_said: bool,
    /// Techniques that no puzzle uses.
    pub(crate) never_taught: Vec<String>,
    /// Techniques that one puzzle introduces and no other uses.
    pub(crate) never_practised: Vec<String>,
}

/// How to set a puzzle.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PuzzlesToSet {
    /// What everything random comes from, a whole number in figures; null for any.
    pub(crate) seed: Option<String>,
    /// How many puzzles, 1 to 5.
    pub(crate) count: u8,
    /// How many random solutions are tried before it is given up, at most 100,000; null for 1,000.
    pub(crate) tries: Option<u32>,
}

/// A puzzle that was set.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct MadePuzzle {
    /// A title for it.
    pub(crate) title: String,
    /// `open`, `kept` or `discarded`.
    pub(crate) fate: String,
    /// The id of its file, if it was kept.
    pub(crate) id: Option<String>,
    /// How many givens and clues it has, and how many steps its walkthrough.
    pub(crate) givens: usize,
    /// The same of clues.
    pub(crate) clues: usize,
    /// The same of steps.
    pub(crate) steps: usize,
    /// Minutes of a regular, as in `10 to 20`.
    pub(crate) minutes: String,
    /// The board, as a picture.
    pub(crate) picture: String,
    /// The step where it turns on what it teaches.
    pub(crate) moment_step: Option<usize>,
    /// That step in words.
    pub(crate) moment_says: Option<String>,
    /// The board before that step, as a picture.
    pub(crate) moment_picture: Option<String>,
}

/// What becomes of a puzzle that was set.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PuzzleToKeep {
    /// Its title, on one line.
    pub(crate) title: String,
    /// Whether it gets a place in the pack at once; otherwise it is in the pool.
    pub(crate) has_place: bool,
}

/// What the pack lacks.
#[utoipa::path(get, path = "/api/1/gaps", tag = "pack", responses((status = 200, body = GapsNow)))]
pub(crate) async fn gaps(State(desk): State<Arc<Desk>>) -> Result<Json<GapsNow>, Refused> {
    let gaps = Gaps::of(&desk.studied().await?.1);
    let names = |it: &[TechniqueId]| it.iter().map(|it| it.name().to_owned()).collect();
    Ok(Json(GapsNow {
        is_said: gaps.is_some(),
        never_taught: gaps.as_ref().map(|it| names(&it.never_taught)).unwrap_or_default(),
        never_practised: gaps.as_ref().map(|it| names(&it.never_practised)).unwrap_or_default(),
    }))
}

/// Sets puzzles that cannot be finished without a technique that the pack lacks, as a job.
#[utoipa::path(
    post, path = "/api/1/gaps/{technique}", tag = "jobs", request_body = PuzzlesToSet,
    params(("technique" = String, Path, description = "the technique's name, as in `naked-pair`")),
    responses((status = 202, body = JobNow), (status = 404, body = RefusedBody), (status = 422, body = RefusedBody),
        (status = 429, body = RefusedBody)),
)]
pub(crate) async fn begin(
    State(desk): State<Arc<Desk>>,
    Path(technique): Path<String>,
    asked: Result<Json<PuzzlesToSet>, JsonRejection>,
) -> Result<(StatusCode, Json<JobNow>), Refused> {
    let Json(PuzzlesToSet { seed, count, tries }) = asked?;
    let tries = tries.map_or(USUAL_TRIES, u64::from);
    if !(1..=5).contains(&count) || !(1..=100_000).contains(&tries) {
        return Err(Refused::unfit("one to five puzzles are set, in at most 100000 tries"));
    }
    let seed = match seed {
        Some(it) => it.trim().parse().map_err(|_| {
            let help = "write a whole number, such as 7, or nothing for any";
            Refused::new(StatusCode::UNPROCESSABLE_ENTITY, "the seed is no whole number", help)
        })?,
        None => any_seed()?,
    };
    let pack = desk.studied().await?.1;
    let teaches = TECHNIQUES.iter().map(|it| it.id()).find(|it| it.name() == technique);
    let teaches =
        teaches.filter(|it| Gaps::of(&pack).is_some_and(|gaps| gaps.have(*it))).ok_or_else(|| {
            let help = "load the page of the pack again: what it lacks may have changed";
            Refused::new(StatusCode::NOT_FOUND, "the pack does not lack such a technique", help)
        })?;
    let wanted = Wanted { count: usize::from(count), tries };
    let order = Order { teaches, seed, wanted };
    let title = format!("Setting a puzzle for {} from seed {seed}", tell::technique_name(teaches));
    let work = move |watched: &Watched| set(&order, &pack, watched).map(Yield::Set);
    let job = desk.jobs.begin(Kind::Set, title, Box::new(work)).map_err(|_| too_many())?;
    Ok((StatusCode::ACCEPTED, Json(job)))
}

/// Writes a file for a puzzle that was set, under a name that no file has.
#[utoipa::path(
    post, path = "/api/1/jobs/{id}/made/{at}/file", tag = "jobs", request_body = PuzzleToKeep,
    params(("id" = u64, Path, description = "the job's number"), ("at" = usize, Path, description = "which puzzle, from 1")),
    responses((status = 201, body = PuzzleBegun), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn keep(
    State(desk): State<Arc<Desk>>,
    Path((id, at)): Path<(String, String)>,
    asked: Result<Json<PuzzleToKeep>, JsonRejection>,
) -> Result<(StatusCode, Json<PuzzleBegun>), Refused> {
    let Json(PuzzleToKeep { title, has_place }) = asked?;
    if title.trim().is_empty() || title.len() > 120 || title.contains(char::is_control) {
        return Err(Refused::unfit("a puzzle has a title, on one line of at most 120 letters"));
    }
    let (job, at, set) = open_one(&desk, &id, &at)?;
    let file_id = id_for(&title, &desk.view().reading);
    let standing = if has_place { Standing::Undecided } else { Standing::Pool };
    let entry = set.entry(at, file_id.clone(), title.trim(), standing).ok_or_else(no_job)?;
    // Claimed before it is written, so that who asks twice does not have it twice.
    decide(&desk, job, at, &Fate::Open, Fate::Kept(file_id.clone()))?;
    let written = desk.write(&format!("{PUZZLES}/{file_id}.toml"), None, write_puzzle(&entry)).await;
    if let Err(refused) = written {
        decide(&desk, job, at, &Fate::Kept(file_id), Fate::Open)?;
        return Err(refused);
    }
    Ok((StatusCode::CREATED, Json(PuzzleBegun { id: file_id.to_string() })))
}

/// Lets go of a puzzle that was set. From its seed it can be made again.
#[utoipa::path(
    post, path = "/api/1/jobs/{id}/made/{at}/discarded", tag = "jobs",
    params(("id" = u64, Path, description = "the job's number"), ("at" = usize, Path, description = "which puzzle, from 1")),
    responses((status = 204, description = "it is gone"), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody)),
)]
pub(crate) async fn discard(
    State(desk): State<Arc<Desk>>,
    Path((id, at)): Path<(String, String)>,
) -> Result<StatusCode, Refused> {
    let (job, at, _) = open_one(&desk, &id, &at)?;
    decide(&desk, job, at, &Fate::Open, Fate::Discarded)?;
    Ok(StatusCode::NO_CONTENT)
}

/// The puzzles that were set, as they are shown.
pub(super) fn made(set: &SetPuzzles) -> Vec<MadePuzzle> {
    let one = |(at, it): (usize, &crate::setting::SetPuzzle)| {
        let title = set.title(at);
        let moment = it.moment(set.teaches);
        MadePuzzle {
            fate: match it.fate {
                Fate::Open => "open",
                Fate::Kept(_) => "kept",
                Fate::Discarded => "discarded",
            }
            .to_owned(),
            id: if let Fate::Kept(id) = &it.fate { Some(id.to_string()) } else { None },
            givens: it.made.puzzle.givens().filled().count(),
            clues: it.made.puzzle.clues().len(),
            steps: it.made.explained.walkthrough().trail().n_steps(),
            minutes: words::range(it.minutes()),
            picture: it.picture(&title),
            moment_step: moment.as_ref().map(|it| it.0.number()),
            moment_says: moment.as_ref().map(|it| it.1.clone()),
            moment_picture: moment.map(|it| it.2),
            title,
        }
    };
    set.made.iter().enumerate().map(one).collect()
}

/// A puzzle that was set: the job's number, its own from 0, and all of them.
fn open_one(desk: &Desk, id: &str, at: &str) -> Result<(u64, usize, SetPuzzles), Refused> {
    let job = job_of(desk, id)?;
    let at = at.parse::<usize>().ok().and_then(|it| it.checked_sub(1)).ok_or_else(no_job)?;
    let Some(Yield::Set(set)) = desk.jobs.yielded(job.id).filter(|_| job.state == JobState::Done) else {
        return Err(no_job());
    };
    set.made.get(at).ok_or_else(no_job)?;
    Ok((job.id, at, set))
}

/// Turns one fate of a puzzle into another, unless it has become another meanwhile.
fn decide(desk: &Desk, job: u64, at: usize, from: &Fate, to: Fate) -> Result<(), Refused> {
    let mut is_decided = false;
    desk.jobs.change_yield(job, |it| {
        if let Yield::Set(set) = it
            && let Some(one) = set.made.get_mut(at).filter(|it| it.fate == *from)
        {
            one.fate = to;
            is_decided = true;
        }
    });
    let help = "load the page again";
    let taken =
        || Refused::new(StatusCode::CONFLICT, "it is decided already what becomes of this puzzle", help);
    is_decided.then_some(()).ok_or_else(taken)
}

/// A seed short enough to be typed again.
fn any_seed() -> Result<u64, Refused> {
    let mut bytes = [0; 4];
    getrandom::fill(&mut bytes).map_err(|it| {
        Refused::new(
            StatusCode::INTERNAL_SERVER_ERROR,
            format!("there is no chance to be had: {it}"),
            "type a seed",
        )
    })?;
    Ok(u64::from(u32::from_le_bytes(bytes)) % 1_000_000)
}
