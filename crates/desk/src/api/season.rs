//! Where every puzzle stands, and the days that are planned.

use std::sync::Arc;

use ::pack::{Day, PuzzleId};
use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::IntoResponse;
use packfile::{SourceFile, read_puzzle};
use season::{Reached, Row};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::{Written, digest_of, id_of};
use crate::answers::{Refused, RefusedBody};
use crate::clock;
use crate::edit::texts::with_texts;
use crate::folder::{Digest, Reading};
use crate::seasonal::Seasonal;
use crate::state::Desk;

/// The season.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct SeasonNow {
    /// The puzzles: first those that have a place, in order.
    pub(crate) puzzles: Vec<SeasonPuzzle>,
    /// What to record, in the order in which to do it.
    pub(crate) to_record: Vec<NextRecording>,
}

/// Where a puzzle stands.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct SeasonPuzzle {
    /// Its id.
    pub(crate) id: String,
    /// Its title.
    pub(crate) title: String,
    /// How it stands at each stage of its way.
    pub(crate) stages: Vec<SeasonStage>,
    /// Whether its setter has approved it as it is, as a sentence.
    pub(crate) approved: String,
    /// Who is waited for, and for what.
    pub(crate) waiting: Vec<SeasonWaiting>,
    /// What a change to it would break, in sentences.
    pub(crate) breaks: Vec<String>,
}

/// A stage of a puzzle's way.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct SeasonStage {
    /// Its name.
    pub(crate) stage: String,
    /// `yes`, `no`, or `before`: with the puzzle as it was before a change.
    pub(crate) reached: String,
    /// The day on which it was reached or is to be, such as `2026-12-01`.
    pub(crate) on: Option<String>,
    /// By what that is known.
    pub(crate) says: String,
}

/// Somebody who is waited for.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct SeasonWaiting {
    /// `setter`, `tester` or `editor`.
    pub(crate) who: String,
    /// What they are to do.
    pub(crate) what: String,
}

/// A puzzle to record.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct NextRecording {
    /// Its id.
    pub(crate) id: String,
    /// Why it stands at this place.
    pub(crate) says: String,
}

/// The days that an editor sets. Each is such as `2026-12-01`, or null for none.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct DaysToKeep {
    /// When the puzzle came.
    pub(crate) received: Option<String>,
    /// When it is to be recorded.
    pub(crate) record: Option<String>,
    /// When the recording comes out.
    pub(crate) release: Option<String>,
    /// The digest that the puzzle's file had when the edit began.
    pub(crate) began_from: String,
}

/// Where every puzzle stands, once everything is found out.
#[utoipa::path(get, path = "/api/1/season", tag = "season", responses((status = 200, body = SeasonNow)))]
pub(crate) async fn season(State(desk): State<Arc<Desk>>) -> Result<Json<SeasonNow>, Refused> {
    let season = Seasonal::of(&desk).await?.season;
    let next =
        season.to_record.iter().map(|it| NextRecording { id: it.id.to_string(), says: it.says.clone() });
    Ok(Json(SeasonNow { puzzles: season.rows.iter().map(told).collect(), to_record: next.collect() }))
}

/// What a stage's state is called.
pub(crate) fn reached(it: Reached) -> &'static str {
    match it {
        Reached::No => "no",
        Reached::Before => "before",
        Reached::Yes => "yes",
    }
}

fn told(row: &Row) -> SeasonPuzzle {
    let stages = row.standings.iter().map(|it| SeasonStage {
        stage: it.stage.name().to_owned(),
        reached: reached(it.reached).to_owned(),
        on: it.on.map(|it| it.to_string()),
        says: it.says.clone(),
    });
    let waiting =
        row.waiting.iter().map(|it| SeasonWaiting { who: it.who.name().to_owned(), what: it.what.clone() });
    SeasonPuzzle {
        id: row.id.to_string(),
        title: row.title.clone(),
        stages: stages.collect(),
        approved: row.approved.says(),
        waiting: waiting.collect(),
        breaks: row.breaks.clone(),
    }
}

/// The planned days as a calendar (RFC 5545).
#[utoipa::path(
    get, path = "/api/1/season/calendar", tag = "season",
    responses((status = 200, content_type = "text/calendar", description = "the calendar")),
)]
pub(crate) async fn calendar(State(desk): State<Arc<Desk>>) -> Result<impl IntoResponse, Refused> {
    let seasonal = Seasonal::of(&desk).await?;
    let text = season::calendar(&seasonal.season, seasonal.pack.info(), clock::now());
    let heads = [
        (CONTENT_TYPE, "text/calendar; charset=utf-8"),
        (CONTENT_DISPOSITION, "attachment; filename=\"season.ics\""),
    ];
    Ok((heads, text))
}

/// Keeps a puzzle's days in its file.
#[utoipa::path(
    put, path = "/api/1/puzzles/{id}/days", tag = "season",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = DaysToKeep,
    responses((status = 200, body = Written), (status = 404, body = RefusedBody), (status = 409, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn days(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<DaysToKeep>, JsonRejection>,
) -> Result<Json<Written>, Refused> {
    let Json(DaysToKeep { received, record, release, began_from }) = asked?;
    let days = [("received", received), ("record", record), ("release", release)];
    for (key, day) in &days {
        if day.as_ref().is_some_and(|it| it.parse::<Day>().is_err()) {
            return Err(Refused::unfit(format!("`{key}` is no day such as 2026-12-01")));
        }
    }
    let reading = desk.view().reading;
    kept_with(&desk, &reading, &id_of(&id)?, Some(digest_of(&began_from)?), &days).await
}

/// Writes these texts into a puzzle's file, which still is what it was `began_from`, or what was last read of it.
pub(super) async fn kept_with(
    desk: &Arc<Desk>,
    reading: &Reading,
    id: &PuzzleId,
    began_from: Option<Digest>,
    texts: &[(&str, Option<String>)],
) -> Result<Json<Written>, Refused> {
    let file = reading.file_of(id.as_str()).ok_or_else(Refused::no_puzzle)?.to_owned();
    let digest = reading.digest(&file).ok_or_else(Refused::no_puzzle)?;
    if began_from.is_some_and(|it| it != digest) {
        return Err(Refused::changed_meanwhile(&file));
    }
    let unfit = || Refused::unfit(format!("{file} is not written so that this could be put in it"));
    let text = with_texts(reading.text(&file).ok_or_else(unfit)?, texts).map_err(|_| unfit())?;
    if read_puzzle(&SourceFile::new(&*file, &*text)).0.is_err() {
        return Err(unfit());
    }
    let digest = desk.write(&file, Some(digest), text).await?;
    Ok(Json(Written { digest: digest.to_string() }))
}
