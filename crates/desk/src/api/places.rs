//! Where a puzzle stands, set by hand: the place it is pinned to, its shelf, whether it is in the pack; each weighed before
//! it is kept.

use std::sync::Arc;

use ::pack::PuzzleId;
use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use serde::Deserialize;
use utoipa::ToSchema;

use super::order::{OrderWeighed, weighed};
use super::{Written, digest_of, id_of};
use crate::answers::{Refused, RefusedBody};
use crate::aside::Waiting;
use crate::edit::{NotChangeable, with_pin, with_standing};
use crate::folder::{Digest, PACK_FILE, Reading};
use crate::state::Desk;

/// A place to pin a puzzle to.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Pin {
    /// The place, from 1; null to take the pin away.
    pub(crate) place: Option<usize>,
    /// The digest of `pack.toml` when the edit began.
    pub(crate) began_from: String,
}

/// How a puzzle is to stand.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Standing {
    /// One of the pack's shelves; null to leave it to Galley.
    pub(crate) shelf: Option<String>,
    /// `in`, `pool`, `later` or `declined`; null to say nothing.
    pub(crate) state: Option<String>,
    /// Why, on one line; null to say nothing.
    pub(crate) reason: Option<String>,
    /// The digest of the puzzle's file when the edit began.
    pub(crate) began_from: String,
}

/// A file as it would be.
struct Changed {
    file: String,
    began_from: Digest,
    text: String,
    reading: Arc<Reading>,
}

/// What the pack would be with a puzzle pinned there. Nothing is written.
#[utoipa::path(
    post, path = "/api/1/pack/pins/{id}/weighed", tag = "pack", request_body = Pin,
    params(("id" = String, Path, description = "the puzzle's id")),
    responses((status = 200, body = OrderWeighed), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn weigh_pin(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<Pin>, JsonRejection>,
) -> Result<Json<OrderWeighed>, Refused> {
    let changed = pinned(&desk, &id, &asked?.0)?;
    weigh(&desk, changed).await
}

/// Pins a puzzle to a place in `pack.toml`, or takes its pin away.
#[utoipa::path(
    put, path = "/api/1/pack/pins/{id}", tag = "pack", request_body = Pin,
    params(("id" = String, Path, description = "the puzzle's id")),
    responses((status = 200, body = Written), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn pin(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<Pin>, JsonRejection>,
) -> Result<Json<Written>, Refused> {
    let changed = pinned(&desk, &id, &asked?.0)?;
    write(&desk, changed).await
}

/// What the pack would be with a puzzle that stands so. Nothing is written.
#[utoipa::path(
    post, path = "/api/1/puzzles/{id}/standing/weighed", tag = "pack", request_body = Standing,
    params(("id" = String, Path, description = "the puzzle's id")),
    responses((status = 200, body = OrderWeighed), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn weigh_standing(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<Standing>, JsonRejection>,
) -> Result<Json<OrderWeighed>, Refused> {
    let changed = standing(&desk, &id, &asked?.0)?;
    weigh(&desk, changed).await
}

/// Writes shelf, state and reason into a puzzle's file.
#[utoipa::path(
    put, path = "/api/1/puzzles/{id}/standing", tag = "pack", request_body = Standing,
    params(("id" = String, Path, description = "the puzzle's id")),
    responses((status = 200, body = Written), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn stand(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<Standing>, JsonRejection>,
) -> Result<Json<Written>, Refused> {
    let changed = standing(&desk, &id, &asked?.0)?;
    write(&desk, changed).await
}

fn pinned(desk: &Desk, id: &str, asked: &Pin) -> Result<Changed, Refused> {
    let reading = desk.view().reading;
    let id = entry_id(&reading, id)?;
    let began_from = digest_of(&asked.began_from)?;
    changed(reading, PACK_FILE.to_owned(), began_from, |text| with_pin(text, id.as_str(), asked.place))
}

fn standing(desk: &Desk, id: &str, asked: &Standing) -> Result<Changed, Refused> {
    let reading = desk.view().reading;
    let id = entry_id(&reading, id)?;
    let filled =
        |it: &Option<String>| it.as_deref().map(str::trim).filter(|it| !it.is_empty()).map(str::to_owned);
    let (shelf, state, reason) = (filled(&asked.shelf), filled(&asked.state), filled(&asked.reason));
    if reason.as_ref().is_some_and(|it| it.len() > 400 || it.contains(char::is_control)) {
        return Err(Refused::unfit("a reason is one line of at most 400 letters"));
    }
    let file = reading.file_of(id.as_str()).ok_or_else(Refused::no_puzzle)?.to_owned();
    let began_from = digest_of(&asked.began_from)?;
    changed(reading, file, began_from, |text| {
        with_standing(text, shelf.as_deref(), state.as_deref(), reason.as_deref())
    })
}

fn entry_id(reading: &Reading, id: &str) -> Result<PuzzleId, Refused> {
    let id = id_of(id)?;
    let is_there = reading.read.pack.entries.iter().any(|it| it.id == id);
    is_there.then_some(id).ok_or_else(Refused::no_puzzle)
}

/// A file that is still what the edit began from, with a change.
fn changed(
    reading: Arc<Reading>,
    file: String,
    began_from: Digest,
    change: impl FnOnce(&str) -> Result<String, NotChangeable>,
) -> Result<Changed, Refused> {
    if reading.digest(&file) != Some(began_from) {
        return Err(Refused::changed_meanwhile(&file));
    }
    let text = reading.text(&file).ok_or_else(|| Refused::unfit(format!("{file} is no text")))?;
    let cannot = |_| Refused::unfit(format!("{file} is not written so that this could be put in it"));
    let text = change(text).map_err(cannot)?;
    Ok(Changed { file, began_from, text, reading })
}

async fn write(desk: &Arc<Desk>, changed: Changed) -> Result<Json<Written>, Refused> {
    changed.read()?;
    let digest = desk.write(&changed.file, Some(changed.began_from), changed.text).await?;
    Ok(Json(Written { digest: digest.to_string() }))
}

async fn weigh(desk: &Arc<Desk>, changed: Changed) -> Result<Json<OrderWeighed>, Refused> {
    let after = changed.read()?;
    let (_, before) = desk.studied().await?;
    let (waiting, opened) = (Waiting::default(), desk.seals().await);
    let is_left = waiting.is_left(desk);
    let then = move |after| weighed(&before, &after);
    Ok(Json(desk.study_for(Arc::new(after), opened, None, move || is_left.is_so(), then).await?))
}

impl Changed {
    /// The pack as it would be read; refused if the change is what keeps a part of it from being read.
    fn read(&self) -> Result<Reading, Refused> {
        self.reading.with(&self.file, &self.text).map_err(Refused::faulty)
    }
}
