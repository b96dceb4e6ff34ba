//! A test solve looked back on.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use serde::Serialize;
use utoipa::ToSchema;

use super::questions::solved;
use crate::answers::{Refused, RefusedBody};
use crate::aside::lost;
use crate::hindsight::hindsight;
use crate::state::{Desk, study_of};
use crate::store::NotTaken;

/// What is seen when a test solve is looked back on. Times are milliseconds of solving.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct LookedBack {
    /// Right digits that could not be known yet.
    leaps: Vec<ToldLeap>,
    /// Wrong digits.
    slips: Vec<ToldSlip>,
    /// Techniques that were used long after they could be.
    late: Vec<ToldLate>,
    /// So many right digits were written while something wrong stood on the sheet; they are not judged.
    n_unjudged: usize,
}

/// A right digit that could not be known yet.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct ToldLeap {
    after_ms: i64,
    /// As in `r4c7 is 5`.
    digit: String,
    /// So many digits stood on the board.
    n_known: usize,
    /// What would have justified it.
    says: String,
}

/// A wrong digit.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct ToldSlip {
    after_ms: i64,
    /// As in `r4c7 is 5`.
    digit: String,
}

/// A technique that was used late.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct ToldLate {
    technique: &'static str,
    /// Since when there was a place for it.
    open_ms: i64,
    /// When a digit was first written that takes it.
    used_ms: i64,
}

/// Looks back on a test solve: digits that were written before they could be known, and techniques that came late.
#[utoipa::path(
    get, path = "/api/1/solves/{id}/hindsight", tag = "solves",
    params(("id" = String, Path, description = "what the page calls the solve")),
    responses((status = 200, body = LookedBack), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 409, body = RefusedBody), (status = 422, body = RefusedBody)),
)]
pub(crate) async fn look_back(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Json<LookedBack>, Refused> {
    let unkept = |it| Refused::unkept(&desk, &it);
    let begun = desk.store.solve(&id).await.map_err(unkept)?;
    let begun = begun.ok_or_else(|| Refused::not_taken(&desk, &NotTaken::NoSuchSolve))?;
    let events = desk.store.events_of(&id).await.map_err(unkept)?;
    let (_, pack) = desk.studied().await?;
    let watched = Arc::clone(&desk);
    let found = tokio::task::spawn_blocking(move || {
        let study = study_of(&pack, &begun.puzzle).ok_or_else(Refused::no_puzzle)?;
        if packfile::fingerprint(&study.entry().puzzle) != begun.fingerprint {
            let help = "look at what happened; it cannot be judged by another puzzle";
            return Err(Refused::new(
                StatusCode::CONFLICT,
                "the puzzle has changed since it was solved",
                help,
            ));
        }
        if study.is_sealed() {
            return Err(Refused::sealed());
        }
        let size = study.entry().puzzle.size();
        let found = hindsight(solved(study)?, &events, &|| watched.is_ending());
        let says = |claim| tell::claim(size, &claim);
        let is = |cell, digit| says(rulebook::Claim::Is(cell, digit));
        let leaps = found.leaps.into_iter().map(|it| ToldLeap {
            after_ms: it.after_ms,
            digit: is(it.cell, it.digit),
            n_known: it.n_known,
            says: it
                .way
                .as_ref()
                .map_or_else(tell::nothing_leads_there, |it| tell::would_have_taken(size, it)),
        });
        let slips = found
            .slips
            .into_iter()
            .map(|it| ToldSlip { after_ms: it.after_ms, digit: is(it.cell, it.digit) });
        let late = found.late.into_iter().map(|it| ToldLate {
            technique: tell::technique_name(it.technique),
            open_ms: it.open_ms,
            used_ms: it.used_ms,
        });
        Ok(LookedBack {
            leaps: leaps.collect(),
            slips: slips.collect(),
            late: late.collect(),
            n_unjudged: found.n_unjudged,
        })
    });
    found.await.map_err(|it| lost(&it))?.map(Json)
}
