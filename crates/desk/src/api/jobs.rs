//! The jobs of this desk: how far each is, what came of it, and its end.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use serde::Serialize;
use utoipa::ToSchema;

use super::gaps::{MadePuzzle, made};
use crate::answers::{Refused, RefusedBody};
use crate::jobs::{JobNow, Yield};
use crate::state::Desk;

/// A job with everything that came of it.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct JobWhole {
    /// How far it is.
    pub(crate) job: JobNow,
    /// What pressing had to say of the pack, as the command line says it.
    pub(crate) problems: Option<String>,
    /// What was written, and what was left out and why.
    pub(crate) note: Option<String>,
    /// The seed that puzzles were set from.
    pub(crate) seed: Option<String>,
    /// The puzzles that were set.
    pub(crate) made: Vec<MadePuzzle>,
}

/// All jobs that are remembered, the newest first.
#[utoipa::path(get, path = "/api/1/jobs", tag = "jobs", responses((status = 200, body = Vec<JobNow>)))]
pub(crate) async fn all(State(desk): State<Arc<Desk>>) -> Json<Vec<JobNow>> {
    Json(desk.jobs.all())
}

/// One job, and what came of it.
#[utoipa::path(
    get, path = "/api/1/jobs/{id}", tag = "jobs", params(("id" = u64, Path, description = "the job's number")),
    responses((status = 200, body = JobWhole), (status = 404, body = RefusedBody)),
)]
pub(crate) async fn one(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Json<JobWhole>, Refused> {
    let job = job_of(&desk, &id)?;
    let mut whole = JobWhole { job, problems: None, note: None, seed: None, made: Vec::new() };
    match desk.jobs.yielded(whole.job.id) {
        None => {}
        Some(Yield::Pressed(it)) => (whole.problems, whole.note) = (Some(it.problems), Some(it.note)),
        Some(Yield::Set(it)) => (whole.seed, whole.made) = (Some(it.seed.to_string()), made(&it)),
    }
    Ok(Json(whole))
}

/// Breaks a job off: at once if it waits, else as soon as it looks. One that is over stays as it is.
#[utoipa::path(
    post, path = "/api/1/jobs/{id}/cancelled", tag = "jobs", params(("id" = u64, Path, description = "the job's number")),
    responses((status = 202, body = JobNow), (status = 404, body = RefusedBody)),
)]
pub(crate) async fn cancel(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<(StatusCode, Json<JobNow>), Refused> {
    let id = job_of(&desk, &id)?.id;
    desk.jobs.cancel(id);
    Ok((StatusCode::ACCEPTED, Json(desk.jobs.one(id).ok_or_else(no_job)?)))
}

/// The job with the number that an address says.
pub(super) fn job_of(desk: &Desk, id: &str) -> Result<JobNow, Refused> {
    id.parse().ok().and_then(|it| desk.jobs.one(it)).ok_or_else(no_job)
}

pub(super) fn no_job() -> Refused {
    Refused::new(
        StatusCode::NOT_FOUND,
        "there is no such job",
        "look at the jobs there are; old ones are forgotten",
    )
}

/// The refusal of a job too many.
pub(super) fn too_many() -> Refused {
    let help = "wait until some are done, or break them off";
    Refused::new(StatusCode::TOO_MANY_REQUESTS, "many jobs wait already", help)
}
