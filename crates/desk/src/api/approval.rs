//! The setter's approval of a puzzle as it is, noted by one press.

use std::sync::Arc;

use ::pack::Approval;
use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use packfile::fingerprint;
use season::day_at;
use serde::Deserialize;
use utoipa::ToSchema;

use super::{Written, id_of, season::kept_with};
use crate::answers::{Refused, RefusedBody};
use crate::clock;
use crate::state::Desk;

/// What a setter has said.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Said {
    /// Whether the setter approves of it; if not, an approval is taken back.
    pub(crate) approved: bool,
    /// The fingerprint of the puzzle that is meant, as the page shows it: another one is not approved by mistake.
    pub(crate) fingerprint: String,
}

/// Notes in the puzzle's file that its setter has approved it today as it is, or takes that back.
#[utoipa::path(
    put, path = "/api/1/puzzles/{id}/approval", tag = "season",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = Said,
    responses((status = 200, body = Written), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn approve(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<Said>, JsonRejection>,
) -> Result<Json<Written>, Refused> {
    let Json(said) = asked?;
    let id = id_of(&id)?;
    let reading = desk.view().reading;
    let entry = reading.read.pack.entries.iter().find(|it| it.id == id).ok_or_else(Refused::no_puzzle)?;
    let now = fingerprint(&entry.puzzle);
    if now != said.fingerprint {
        let message = "the puzzle was changed since this page was made";
        let help = "look at it as it is now; nothing was written";
        return Err(Refused::new(StatusCode::CONFLICT, message, help));
    }
    let today =
        day_at(clock::now()).ok_or_else(|| Refused::unfit("this machine's clock knows no such day"))?;
    let approved = said.approved.then(|| Approval::new(today, &now)).flatten().map(|it| it.to_string());
    kept_with(&desk, &reading, &id, None, &[("approved", approved)]).await
}
