//! What is kept of a setter, once for all of their puzzles.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use axum::extract::rejection::JsonRejection;
use serde::Deserialize;
use utoipa::ToSchema;

use super::{Written, digest_of};
use crate::answers::{Refused, RefusedBody};
use crate::edit::texts::with_setter;
use crate::folder::PACK_FILE;
use crate::state::Desk;

/// Longer texts are none that people write of a setter.
const MOST_BYTES: usize = 4000;

/// What is to be kept of a setter.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SetterToKeep {
    /// The name that the puzzles' files have.
    pub(crate) name: String,
    /// The name to print; null for that one.
    pub(crate) credit: Option<String>,
    /// A whole address on the web.
    pub(crate) link: Option<String>,
    /// What they wish, for the editor's eyes.
    pub(crate) wishes: Option<String>,
    /// The digest that `pack.toml` had when the edit began.
    pub(crate) began_from: String,
}

/// Keeps in `pack.toml` how a setter is credited and what they wish.
#[utoipa::path(
    put, path = "/api/1/setters", tag = "season", request_body = SetterToKeep,
    responses((status = 200, body = Written), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn keep(
    State(desk): State<Arc<Desk>>,
    asked: Result<Json<SetterToKeep>, JsonRejection>,
) -> Result<Json<Written>, Refused> {
    let Json(SetterToKeep { name, credit, link, wishes, began_from }) = asked?;
    let began_from = digest_of(&began_from)?;
    let reading = desk.view().reading;
    if reading.digest(PACK_FILE) != Some(began_from) {
        return Err(Refused::changed_meanwhile(PACK_FILE));
    }
    if !reading.read.pack.entries.iter().any(|it| it.setter == name) {
        let help = "load the page again to see who is";
        return Err(Refused::new(axum::http::StatusCode::NOT_FOUND, "no puzzle is by that setter", help));
    }
    let texts = [("credit", credit), ("link", link), ("wishes", wishes)];
    if texts.iter().any(|it| it.1.as_ref().is_some_and(|it| it.len() > MOST_BYTES)) {
        return Err(Refused::unfit(format!("a text of more than {MOST_BYTES} bytes is none about a setter")));
    }
    let texts = texts.map(|(key, it)| (key, it.map(|it| it.trim().to_owned()).filter(|it| !it.is_empty())));
    let unfit = || Refused::unfit("pack.toml is not written so that this could be put in it");
    let text = with_setter(reading.text(PACK_FILE).ok_or_else(unfit)?, &name, &texts).map_err(|_| unfit())?;
    reading.with(PACK_FILE, &text).map_err(Refused::faulty)?;
    let digest = desk.write(PACK_FILE, Some(began_from), text).await?;
    Ok(Json(Written { digest: digest.to_string() }))
}
