//! One puzzle: its board, its seal, and the board after a step of its walkthrough.

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use draw::{Board, Scale};
use serde::{Deserialize, Serialize};
use study::Study;
use utoipa::ToSchema;

use super::what_if::{BoardAccount, account_of};
use super::{Written, digest_of, id_of};
use crate::answers::{Refused, RefusedBody};
use crate::edit::with_seal;
use crate::state::{Desk, study_of};
use crate::typed::TypedBoard;
use crate::words;

/// A puzzle.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct PuzzleNow {
    /// Its id.
    pub(crate) id: String,
    /// Its title.
    pub(crate) title: String,
    /// Who set it.
    pub(crate) setter: String,
    /// The digest of its file: an edit begins from it.
    pub(crate) digest: String,
    /// Whether it is sealed at this desk. Then nothing is told but verdict and minutes.
    pub(crate) is_sealed: bool,
    /// `one`, `none`, `many` or `undecided`.
    pub(crate) verdict: String,
    /// The range of minutes that eight solves in ten fall into.
    pub(crate) minutes: Option<String>,
    /// What is printed; null while it is sealed.
    pub(crate) board: Option<TypedBoard>,
    /// What was found out; null while it is sealed.
    pub(crate) account: Option<BoardAccount>,
}

/// Whether a seal is to be open at this desk.
#[derive(Clone, Copy, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SealToSet {
    /// Open it, or close it again.
    pub(crate) open: bool,
}

/// The puzzle, once everything is found out about it.
#[utoipa::path(
    get, path = "/api/1/puzzles/{id}", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    responses((status = 200, body = PuzzleNow), (status = 404, body = RefusedBody)),
)]
pub(crate) async fn puzzle(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Json<PuzzleNow>, Refused> {
    let id = id_of(&id)?;
    let (reading, pack) = desk.studied().await?;
    let study = study_of(&pack, id.as_str()).ok_or_else(Refused::no_puzzle)?;
    let digest = reading.file_of(id.as_str()).and_then(|it| reading.digest(it));
    Ok(Json(PuzzleNow {
        id: id.to_string(),
        title: study.entry().title.clone(),
        setter: study.entry().setter.clone(),
        digest: digest.ok_or_else(Refused::no_puzzle)?.to_string(),
        is_sealed: study.is_sealed(),
        verdict: words::state(study.finding()).to_owned(),
        minutes: study.minutes().map(words::range),
        board: (!study.is_sealed()).then(|| TypedBoard::of(&study.entry().puzzle)),
        account: account_of(study),
    }))
}

/// Opens a seal at this desk, or closes it again. The puzzle's file still says that it is sealed.
#[utoipa::path(
    put, path = "/api/1/puzzles/{id}/seal", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = SealToSet,
    responses((status = 204), (status = 404, body = RefusedBody), (status = 422, body = RefusedBody)),
)]
pub(crate) async fn seal(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<SealToSet>, JsonRejection>,
) -> Result<axum::http::StatusCode, Refused> {
    let Json(SealToSet { open }) = asked?;
    let id = id_of(&id)?;
    let is_there = desk.view().reading.read.pack.entries.iter().any(|it| it.id == id);
    if !is_there {
        return Err(Refused::no_puzzle());
    }
    desk.set_opened(id.as_str(), open).await.map_err(|it| Refused::unkept(&desk, &it))?;
    Ok(axum::http::StatusCode::NO_CONTENT)
}

/// Whether a puzzle's file is to say that it is sealed, for everybody.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SealToWrite {
    /// Whether it is sealed.
    pub(crate) sealed: bool,
    /// The digest of the file as it was when this was asked.
    pub(crate) began_from: String,
}

/// Writes into a puzzle's file whether it is sealed. Nothing else of it changes.
#[utoipa::path(
    put, path = "/api/1/puzzles/{id}/sealed", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = SealToWrite,
    responses((status = 200, body = Written), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn write_seal(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<SealToWrite>, JsonRejection>,
) -> Result<Json<Written>, Refused> {
    let Json(SealToWrite { sealed, began_from }) = asked?;
    let (id, began_from) = (id_of(&id)?, digest_of(&began_from)?);
    let reading = desk.view().reading;
    let file = reading.file_of(id.as_str()).ok_or_else(Refused::no_puzzle)?;
    let text = reading.text(file).ok_or_else(Refused::no_puzzle)?;
    let not_changeable =
        |_| Refused::unfit(format!("{file} is not written so that its seal could be changed"));
    let text = with_seal(text, sealed).map_err(not_changeable)?;
    let digest = desk.write(file, Some(began_from), text).await?;
    Ok(Json(Written { digest: digest.to_string() }))
}

/// The board as a step of the walkthrough leaves it, with what the step uses and settles.
#[utoipa::path(
    get, path = "/api/1/puzzles/{id}/steps/{step}/board", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id"), ("step" = usize, Path, description = "from 1")),
    responses((status = 200, content_type = "image/svg+xml", description = "a picture"), (status = 403, body = RefusedBody),
        (status = 404, body = RefusedBody)),
)]
pub(crate) async fn step_board(
    State(desk): State<Arc<Desk>>,
    Path((id, step)): Path<(String, String)>,
) -> Result<Response, Refused> {
    let id = id_of(&id)?;
    let (_, pack) = desk.studied().await?;
    let study = study_of(&pack, id.as_str()).ok_or_else(Refused::no_puzzle)?;
    if study.is_sealed() {
        return Err(Refused::sealed());
    }
    let picture = step.parse().ok().and_then(|it| board_after(study, it)).ok_or_else(Refused::no_puzzle)?;
    Ok(([(CONTENT_TYPE, "image/svg+xml")], picture).into_response())
}

/// The picture of the board after a step, from 1.
fn board_after(study: &Study, step: usize) -> Option<String> {
    let puzzle = &study.entry().puzzle;
    let trail = study.opened()?.account?.explained.walkthrough().trail();
    let step = trail.steps().map(|it| it.0).find(|it| it.number() == step)?;
    let (digits, marks) = draw::marks_for(puzzle, trail, &[step]);
    let title = format!("{}: after step {}", page::bare(&study.entry().title), step.number());
    let scale = Scale::Large;
    Some(draw::board(&Board {
        puzzle,
        digits: &digits,
        marks: &marks,
        title: &title,
        scale,
        coordinates: true,
    }))
}
