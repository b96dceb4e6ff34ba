//! The desk's own folder, taken away or replaced while the desk runs: what is written then would be lost with it, and
//! another desk could take the pack. So nothing is taken any more, and it is said.

use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::{Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use super::Desk;
use crate::answers::Refused;
use crate::failure::Failure;

impl Desk {
    /// That the lock or the store is no longer the one that this desk holds open.
    pub(super) fn lost_own(&self) -> Option<Failure> {
        let is_there = self.held.iter().all(|it| it.is_in_its_place());
        (!is_there).then(|| {
            Failure::new(
                "the desk's own folder `.galley` was taken away or replaced while the desk ran, so nothing is kept any more",
                "put it back where it was, if it is still there; or end the desk and start it again, with what is left",
            )
        })
    }
}

/// Refuses what would be written, and says nothing was kept that may not have been.
pub(crate) async fn kept_or_refused(State(desk): State<Arc<Desk>>, request: Request, next: Next) -> Response {
    if matches!(*request.method(), Method::GET | Method::HEAD) {
        return next.run(request).await;
    }
    let refused = |it: Failure| {
        let status = StatusCode::SERVICE_UNAVAILABLE;
        Refused { status, ..Refused::failed(&it) }.into_response()
    };
    if let Some(lost) = desk.lost_own() {
        return refused(lost);
    }
    let answer = next.run(request).await;
    // Once more: it may have gone meanwhile.
    match desk.lost_own() {
        Some(lost) if answer.status().is_success() => refused(lost),
        _ => answer,
    }
}
