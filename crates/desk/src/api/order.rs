//! The order of the pack: what another would cost, and keeping it.

use std::collections::BTreeSet;
use std::sync::Arc;

use ::pack::PuzzleId;
use axum::Json;
use axum::extract::State;
use axum::extract::rejection::JsonRejection;
use serde::{Deserialize, Serialize};
use study::{StudiedPack, Study};
use utoipa::ToSchema;

use super::{Written, digest_of};
use crate::answers::{Refused, RefusedBody};
use crate::aside::Waiting;
use crate::edit::with_order;
use crate::folder::{PACK_FILE, Reading};
use crate::state::Desk;

/// An order that is tried.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct OrderToWeigh {
    /// The ids of all puzzles that have a place, each once.
    pub(crate) order: Vec<String>,
}

/// An order to keep, and the state of `pack.toml` that it was made over.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct OrderToKeep {
    /// The ids of all puzzles that have a place, each once.
    pub(crate) order: Vec<String>,
    /// The digest of `pack.toml` when the edit began.
    pub(crate) began_from: String,
}

/// What becomes of the pack in another order.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct OrderWeighed {
    /// What both orders cost, and of what that is made up; kept back while a puzzle is sealed.
    pub(crate) says: String,
    /// What the order as it stands costs; null while a puzzle is sealed.
    pub(crate) cost_before: Option<u64>,
    /// What the one that is tried costs; null while a puzzle is sealed.
    pub(crate) cost: Option<u64>,
    /// What speaks against a place and did not before.
    pub(crate) worse: Vec<OrderFlaw>,
    /// What spoke against a place and does not now.
    pub(crate) better: Vec<OrderFlaw>,
}

/// Something that speaks against a place.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct OrderFlaw {
    /// The puzzle's title.
    pub(crate) title: String,
    /// What it is.
    pub(crate) says: String,
}

/// Weighs an order against the one that stands. Nothing is written.
#[utoipa::path(
    post, path = "/api/1/pack/order/weighed", tag = "pack", request_body = OrderToWeigh,
    responses((status = 200, body = OrderWeighed), (status = 422, body = RefusedBody)),
)]
pub(crate) async fn weigh(
    State(desk): State<Arc<Desk>>,
    asked: Result<Json<OrderToWeigh>, JsonRejection>,
) -> Result<Json<OrderWeighed>, Refused> {
    let Json(OrderToWeigh { order }) = asked?;
    let (reading, before) = desk.studied().await?;
    let order = checked(&reading, order)?;
    let (waiting, opened) = (Waiting::default(), desk.seals().await);
    let is_left = waiting.is_left(&desk);
    let then = move |after| weighed(&before, &after);
    Ok(Json(desk.study_for(reading, opened, Some(order), move || is_left.is_so(), then).await?))
}

/// Writes an order into `pack.toml`. Everything else in the file stays as it is.
#[utoipa::path(
    put, path = "/api/1/pack/order", tag = "pack", request_body = OrderToKeep,
    responses((status = 200, body = Written), (status = 409, body = RefusedBody), (status = 422, body = RefusedBody)),
)]
pub(crate) async fn keep(
    State(desk): State<Arc<Desk>>,
    asked: Result<Json<OrderToKeep>, JsonRejection>,
) -> Result<Json<Written>, Refused> {
    let Json(OrderToKeep { order, began_from }) = asked?;
    let began_from = digest_of(&began_from)?;
    let reading = desk.view().reading;
    if reading.digest(PACK_FILE) != Some(began_from) {
        return Err(Refused::changed_meanwhile(PACK_FILE));
    }
    let order: Vec<String> = checked(&reading, order)?.iter().map(PuzzleId::to_string).collect();
    let text = reading.text(PACK_FILE).ok_or_else(|| Refused::unfit("pack.toml is no text"))?;
    let text = with_order(text, &order)
        .map_err(|_| Refused::unfit("pack.toml is not written so that an order could be put in it"))?;
    let digest = desk.write(PACK_FILE, Some(began_from), text).await?;
    Ok(Json(Written { digest: digest.to_string() }))
}

/// The order, if it names every puzzle that has a place, each once.
fn checked(reading: &Reading, order: Vec<String>) -> Result<Vec<PuzzleId>, Refused> {
    let placed = reading.read.pack.entries.iter().filter(|it| it.state.has_place()).map(|it| it.id.clone());
    let placed: BTreeSet<PuzzleId> = placed.collect();
    let order: Option<Vec<PuzzleId>> = order.iter().map(|it| PuzzleId::new(it)).collect();
    let order =
        order.filter(|it| it.len() == placed.len() && it.iter().cloned().collect::<BTreeSet<_>>() == placed);
    order.ok_or_else(|| Refused::unfit("the order does not name every puzzle that has a place, each once"))
}

pub(super) fn weighed(before: &StudiedPack, after: &StudiedPack) -> OrderWeighed {
    let has_seal = after.all().any(Study::is_sealed);
    let changes = tell::order_changes(before, after);
    let told = |all: Vec<tell::Against>| -> Vec<OrderFlaw> {
        all.into_iter().map(|it| OrderFlaw { title: it.title, says: it.says }).collect()
    };
    let (costs_before, costs) = (before.costs(), after.costs());
    OrderWeighed {
        says: match has_seal {
            true => "What these orders cost is kept back while a puzzle is sealed.".to_owned(),
            false => format!(
                "As it stands, the order costs {} ({}); so, {} ({}).",
                costs_before.total(),
                tell::costs(costs_before),
                costs.total(),
                tell::costs(costs)
            ),
        },
        cost_before: (!has_seal).then(|| costs_before.total()),
        cost: (!has_seal).then(|| costs.total()),
        worse: told(changes.worse),
        better: told(changes.better),
    }
}
