//! A setter's message, read for the puzzle in it.

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::id_of;
use crate::answers::{Refused, RefusedBody};
use crate::message;
use crate::state::Desk;
use crate::typed::TypedClues;

/// A text that holds a puzzle.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct MessageToRead {
    /// The text, with whatever else it says.
    text: String,
}

/// What was found in it.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct MessageRead {
    /// Row by row from the top; 0 is an empty cell.
    givens: Vec<u8>,
    /// The clues; null if none are told.
    clues: Option<TypedClues>,
}

/// Finds a grid of the puzzle's size, and its clues, in a text. Nothing is written.
#[utoipa::path(
    post, path = "/api/1/puzzles/{id}/message", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = MessageToRead,
    responses((status = 200, body = MessageRead), (status = 404, body = RefusedBody), (status = 422, body = RefusedBody)),
)]
pub(crate) async fn read(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<MessageToRead>, JsonRejection>,
) -> Result<Json<MessageRead>, Refused> {
    let Json(MessageToRead { text }) = asked?;
    let id = id_of(&id)?;
    let reading = desk.view().reading;
    let entry = reading.read.pack.entries.iter().find(|it| it.id == id).ok_or_else(Refused::no_puzzle)?;
    let size = entry.puzzle.size();
    let nothing = || {
        let message = format!("there is no grid of {size} in that text");
        let help = "paste one line of cells, or a block of rows, with dots for empty cells";
        Refused::new(StatusCode::UNPROCESSABLE_ENTITY, message, help)
    };
    let message::Message { givens, clues } = message::read(&text, size).ok_or_else(nothing)?;
    Ok(Json(MessageRead { givens, clues }))
}
