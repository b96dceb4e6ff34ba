//! The letter to a setter.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::header::CONTENT_TYPE;
use axum::response::IntoResponse;
use season::{Letter, TestedBy};
use serde::Serialize;
use utoipa::ToSchema;

use super::id_of;
use super::spare::spare_of;
use crate::answers::{Refused, RefusedBody};
use crate::aside::in_turn;
use crate::seasonal::Seasonal;
use crate::state::{Desk, study_of};

/// A letter.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct LetterToSend {
    /// What it is about, on one line.
    pub(crate) subject: String,
    /// The text.
    pub(crate) text: String,
}

/// What the setter of a puzzle can be told of it as it is kept. Of a sealed puzzle it says the verdict alone.
#[utoipa::path(
    get, path = "/api/1/puzzles/{id}/letter", tag = "season",
    params(("id" = String, Path, description = "the puzzle's id")),
    responses((status = 200, body = LetterToSend), (status = 404, body = RefusedBody)),
)]
pub(crate) async fn letter(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Json<LetterToSend>, Refused> {
    let Letter { subject, text } = letter_of(&desk, &id).await?;
    Ok(Json(LetterToSend { subject, text }))
}

/// The same as plain text.
#[utoipa::path(
    get, path = "/api/1/puzzles/{id}/letter.txt", tag = "season",
    params(("id" = String, Path, description = "the puzzle's id")),
    responses((status = 200, content_type = "text/plain", description = "the letter"), (status = 404, body = RefusedBody)),
)]
pub(crate) async fn plain(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<impl IntoResponse, Refused> {
    let text = letter_of(&desk, &id).await?.text;
    Ok(([(CONTENT_TYPE, "text/plain; charset=utf-8")], text))
}

async fn letter_of(desk: &Arc<Desk>, id: &str) -> Result<Letter, Refused> {
    let id = id_of(id)?;
    let seasonal = Seasonal::of(desk).await?;
    let found = in_turn(desk, &desk.computing, move |_| {
        let study = study_of(&seasonal.pack, id.as_str())?;
        let is_one = study.opened().is_some_and(|it| it.solution.is_some());
        let spare = is_one.then(|| spare_of(study));
        let tested = TestedBy::of(study.entry(), &seasonal.beside.solves);
        Some(season::letter(seasonal.pack.info(), study, spare.as_ref(), &tested))
    });
    found.await?.ok_or_else(Refused::no_puzzle)
}
