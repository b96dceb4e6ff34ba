//! What a puzzle could do without.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use prove::{Limit, Spare};
use serde::Serialize;
use study::Study;
use utoipa::ToSchema;

use super::id_of;
use crate::answers::{Refused, RefusedBody};
use crate::aside::in_turn;
use crate::state::{Desk, study_of};

/// Nodes for each given and clue of which it is asked whether the puzzle could do without it.
const TRIAL: Limit = Limit(200_000);

/// What could go, each by itself, and leave one solution.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct SpareParts {
    /// Givens and clues, in words.
    spare: Vec<String>,
    /// Those of which it was not found out within the work allowed.
    undecided: Vec<String>,
}

/// The same of a study.
pub(super) fn spare_of(study: &Study) -> Spare {
    prove::spare(&study.entry().puzzle, TRIAL)
}

/// Which givens and clues of a sound puzzle could go. Nothing is told of a sealed one.
#[utoipa::path(
    get, path = "/api/1/puzzles/{id}/spare", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    responses((status = 200, body = SpareParts), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn spare(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Json<SpareParts>, Refused> {
    let id = id_of(&id)?;
    let (_, pack) = desk.studied().await?;
    let found = in_turn(&desk, &desk.computing, move |_| {
        let study = study_of(&pack, id.as_str()).ok_or_else(Refused::no_puzzle)?;
        let opened = study.opened().ok_or_else(Refused::sealed)?;
        if opened.solution.is_none() {
            return Err(Refused::unfit("it has not exactly one solution, so nothing of it is to spare"));
        }
        let found = spare_of(study);
        let told = |of: &[prove::Printed]| of.iter().map(|it| tell::to_print(*it)).collect();
        Ok(SpareParts { spare: told(&found.spare), undecided: told(&found.undecided) })
    });
    found.await?.map(Json)
}
