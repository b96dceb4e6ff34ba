//! What the pages use, and nothing beside it: `/api/1`, described by itself in OpenAPI.
//!
//! Each file is one thing that is asked about. Numbers of cells, lines and steps count as the page does, from 1, but for
//! cells and lines in lists, which count from 0.

mod approval;
mod board;
mod description;
mod gaps;
mod help;
mod hindsight;
mod history;
mod jobs;
mod letter;
mod message;
mod new;
mod news;
mod order;
mod pack;
mod people;
mod places;
mod press;
mod puzzle;
mod questions;
mod repair;
mod season;
mod session;
mod setters;
mod solves;
mod spare;
mod what_if;

use std::sync::Arc;

use ::pack::PuzzleId;
use axum::Router;
use axum::routing::{delete, get, post, put};
use serde::Serialize;
use utoipa::ToSchema;

use crate::answers::Refused;
use crate::folder::Digest;
use crate::state::Desk;

pub(crate) use pack::{PackProblem, problems};
pub(crate) use people::{InvitationNow, MOST_DAYS, People, of as people_of};
pub(crate) use press::{PressedFile, files as pressed_files};
pub(crate) use season::reached;
pub(crate) use solves::{WholeSolve, whole as whole_solve};
pub(crate) use what_if::{BoardAccount, account_of};

/// A change that was written.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct Written {
    /// What tells the file as it is now: the next edit begins from it.
    pub(crate) digest: String,
}

pub(crate) fn routes() -> Router<Arc<Desk>> {
    let routes = Router::new()
        .route("/openapi.json", get(description::description))
        .route("/invitations", post(people::invite))
        .route("/invitations/{id}", delete(people::revoke))
        .route("/invited", post(session::follow))
        .route("/people", get(people::people))
        .route("/session", post(session::sign_in).delete(session::sign_out))
        .route("/gaps", get(gaps::gaps))
        .route("/gaps/{technique}", post(gaps::begin))
        .route("/jobs", get(jobs::all))
        .route("/jobs/{id}", get(jobs::one))
        .route("/jobs/{id}/cancelled", post(jobs::cancel))
        .route("/jobs/{id}/made/{at}/file", post(gaps::keep))
        .route("/jobs/{id}/made/{at}/discarded", post(gaps::discard))
        .route("/news", get(news::news))
        .route("/pack/pins/{id}", put(places::pin))
        .route("/pack/pins/{id}/weighed", post(places::weigh_pin))
        .route("/puzzles/{id}/standing", put(places::stand))
        .route("/puzzles/{id}/standing/weighed", post(places::weigh_standing))
        .route("/press", get(press::there).post(press::begin))
        .route("/press/pages/{file}/{page}", get(press::page))
        .route("/pack", get(pack::pack))
        .route("/pack/order", put(order::keep))
        .route("/pack/order/weighed", post(order::weigh))
        .route("/puzzles", post(new::begin))
        .route("/puzzles/{id}", get(puzzle::puzzle))
        .route("/puzzles/{id}/board", put(board::keep))
        .route("/puzzles/{id}/spare", get(spare::spare))
        .route("/puzzles/{id}/message", post(message::read))
        .route("/puzzles/{id}/judge", post(questions::judge))
        .route("/puzzles/{id}/why", post(questions::ask_why))
        .route("/puzzles/{id}/history", get(history::history))
        .route("/puzzles/{id}/history/{change}", put(history::go_back))
        .route("/puzzles/{id}/repair", post(repair::repair))
        .route("/puzzles/{id}/seal", put(puzzle::seal))
        .route("/puzzles/{id}/sealed", put(puzzle::write_seal))
        .route("/puzzles/{id}/steps/{step}/board", get(puzzle::step_board))
        .route("/puzzles/{id}/verdict", post(board::verdict))
        .route("/puzzles/{id}/what-if", post(what_if::what_if))
        .route("/puzzles/{id}/approval", put(approval::approve))
        .route("/puzzles/{id}/days", put(season::days))
        .route("/puzzles/{id}/letter", get(letter::letter))
        .route("/puzzles/{id}/letter.txt", get(letter::plain))
        .route("/season", get(season::season))
        .route("/season/calendar", get(season::calendar))
        .route("/setters", put(setters::keep))
        .route("/solves", get(solves::all).post(solves::begin))
        .route("/solves/{id}", get(solves::one))
        .route("/solves/{id}/events", post(solves::events))
        .route("/solves/{id}/file", put(solves::write))
        .route("/solves/{id}/hindsight", get(hindsight::look_back))
        .route("/solves/{id}/help", post(help::help))
        .route("/solves/{id}/judged", post(solves::judge));
    Router::new().nest("/api/1", routes)
}

/// The id in an address; any other text, and so any path, is no puzzle.
pub(crate) fn id_of(text: &str) -> Result<PuzzleId, Refused> {
    PuzzleId::new(text).ok_or_else(Refused::no_puzzle)
}

/// A digest as a page was told it.
fn digest_of(text: &str) -> Result<Digest, Refused> {
    text.parse().map_err(|()| Refused::unfit("`began_from` is no digest"))
}
