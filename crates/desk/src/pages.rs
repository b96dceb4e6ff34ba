//! The pages.

use std::sync::Arc;

use axum::Router;

use crate::state::Desk;

pub(crate) fn routes() -> Router<Arc<Desk>> {
    Router::new()
}
