//! How the desk says no: a status, what was found, and the next move.

use std::path::Path;

use axum::Json;
use axum::extract::rejection::{JsonRejection, QueryRejection};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use packfile::Problem;
use serde::Serialize;
use utoipa::ToSchema;

use crate::failure::Failure;
use crate::state::Desk;
use crate::store::{NotTaken, Unkept};

/// A request that was not done, or not done at all.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Refused {
    pub(crate) status: StatusCode,
    pub(crate) body: RefusedBody,
}

/// What is said of it.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct RefusedBody {
    /// What was found.
    pub(crate) message: String,
    /// The next move.
    pub(crate) help: String,
}

impl Refused {
    pub(crate) fn new(status: StatusCode, message: impl Into<String>, help: impl Into<String>) -> Refused {
        Refused { status, body: RefusedBody { message: message.into(), help: help.into() } }
    }

    pub(crate) fn ending() -> Refused {
        Refused::new(
            StatusCode::SERVICE_UNAVAILABLE,
            "the desk is ending",
            "start it again and try once more",
        )
    }

    /// The work has brought Galley down; the desk goes on.
    pub(crate) fn fault() -> Refused {
        Refused::new(
            StatusCode::INTERNAL_SERVER_ERROR,
            "it could not be done, which is a fault of Galley's",
            "send what was asked, and what was said where the desk was started, to Galley's makers",
        )
    }

    pub(crate) fn changed_meanwhile(file: &str) -> Refused {
        Refused::new(
            StatusCode::CONFLICT,
            format!("{file} was changed or taken away since this edit began"),
            "look at it as it is now and make the change again; nothing was written",
        )
    }

    pub(crate) fn outside_pack(file: &str) -> Refused {
        let help = "put the file itself where the link is";
        Refused::new(StatusCode::FORBIDDEN, format!("{file} leads out of the pack"), help)
    }

    pub(crate) fn no_puzzle() -> Refused {
        let help = "go back to the pack and take one of its puzzles";
        Refused::new(StatusCode::NOT_FOUND, "the pack has no such puzzle", help)
    }

    pub(crate) fn sealed() -> Refused {
        let help = "solve it first, or open the seal";
        Refused::new(StatusCode::FORBIDDEN, "the puzzle is sealed", help)
    }

    /// What was sent cannot be what a page meant.
    pub(crate) fn unfit(message: impl Into<String>) -> Refused {
        let help = "see what the description of this interface says";
        Refused::new(StatusCode::UNPROCESSABLE_ENTITY, message, help)
    }

    /// What was typed would keep a file from being read.
    pub(crate) fn faulty(it: Problem) -> Refused {
        let help = it.help.unwrap_or_else(|| "choose another".to_owned());
        Refused::new(StatusCode::UNPROCESSABLE_ENTITY, it.message, help)
    }

    pub(crate) fn failed(failure: &Failure) -> Refused {
        Refused::new(StatusCode::INTERNAL_SERVER_ERROR, &*failure.message, &*failure.help)
    }

    /// The disk is full; nothing was written.
    pub(crate) fn no_room(failure: &Failure) -> Refused {
        Refused { status: StatusCode::INSUFFICIENT_STORAGE, ..Refused::failed(failure) }
    }

    /// The store did not take it. Where the pack lies is nobody's business who was invited.
    pub(crate) fn unkept(_: &Desk, it: &Unkept) -> Refused {
        let failure = it.failure(Path::new(".galley/desk.db"));
        let status = match it {
            Unkept::Locked => StatusCode::SERVICE_UNAVAILABLE,
            Unkept::DiskFull => StatusCode::INSUFFICIENT_STORAGE,
            Unkept::Other(_) => StatusCode::INTERNAL_SERVER_ERROR,
        };
        Refused { status, ..Refused::failed(&failure) }
    }

    pub(crate) fn not_taken(desk: &Desk, it: &NotTaken) -> Refused {
        match it {
            NotTaken::NoSuchSolve => Refused::new(
                StatusCode::NOT_FOUND,
                "no test solve is called so",
                "begin it first; what was written on the sheet is still in the browser",
            ),
            NotTaken::IdTaken(id) => Refused::new(
                StatusCode::CONFLICT,
                format!("something else was told before under the name {id}"),
                "keep what was told first; nothing was taken of this",
            ),
            NotTaken::TooMany => Refused::new(
                StatusCode::UNPROCESSABLE_ENTITY,
                "there is more of this than one person solves",
                "ask the pack's editor; nothing was taken of this, and what was taken before is kept",
            ),
            NotTaken::Unkept(it) => Refused::unkept(desk, it),
        }
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        (self.status, Json(self.body)).into_response()
    }
}

impl From<JsonRejection> for Refused {
    fn from(it: JsonRejection) -> Refused {
        let message = match it.status() {
            StatusCode::PAYLOAD_TOO_LARGE => "more was sent than a page of the desk sends".to_owned(),
            _ => it.body_text(),
        };
        Refused { status: it.status(), ..Refused::unfit(message) }
    }
}

impl From<QueryRejection> for Refused {
    fn from(it: QueryRejection) -> Refused {
        Refused { status: it.status(), ..Refused::unfit(it.body_text()) }
    }
}
