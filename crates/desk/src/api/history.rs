//! What a puzzle's file was before it was changed, and going back to it.

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::{JsonRejection, QueryRejection};
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use packfile::{SourceFile, read_puzzle};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};

use super::{Written, digest_of, id_of};
use crate::answers::{Refused, RefusedBody};
use crate::folder::Reading;
use crate::state::{Desk, study_of};
use crate::store::MOST_AT_ONCE;
use crate::typed::TypedBoard;

/// A change of a file.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct FileChange {
    /// What it is called.
    pub(crate) id: String,
    /// When it was made, or seen, in the time of Greenwich.
    pub(crate) at: String,
    /// `desk`, or `elsewhere` for another program.
    pub(crate) made_by: String,
    /// The lines that were taken away, and those that came in their place, each behind `-` or `+`.
    pub(crate) lines: Vec<String>,
    /// The board before, if the file was a puzzle, to go back to.
    pub(crate) board_before: Option<TypedBoard>,
    /// Whether there was a file before, to go back to as a whole.
    pub(crate) was_there: bool,
}

/// Changes of a file, the last first.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct FileHistory {
    /// Fifty at most.
    pub(crate) changes: Vec<FileChange>,
    /// Whether there may be earlier ones: they are asked for with `before`.
    pub(crate) has_more: bool,
}

/// Which of the changes.
#[derive(Clone, Debug, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub(crate) struct Before {
    /// Those that came before the change that is called so; none for the latest.
    before: Option<String>,
}

/// The state of the file that is gone back from.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct GoingBack {
    /// The digest of the file as it was when this was asked.
    pub(crate) began_from: String,
}

/// The changes of a puzzle's file, the last first, fifty at once: those made at the desk, and those of other programs that
/// were seen, or happened since the desk last knew the file.
#[utoipa::path(
    get, path = "/api/1/puzzles/{id}/history", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id"), Before),
    responses((status = 200, body = FileHistory), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 400, body = RefusedBody)),
)]
pub(crate) async fn history(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    before: Result<Query<Before>, QueryRejection>,
) -> Result<Json<FileHistory>, Refused> {
    let Query(Before { before }) = before?;
    let (_, file) = open_file(&desk, &id).await?;
    let changes = desk.store.changes_of(&file, before.as_deref()).await;
    let changes = changes.map_err(|it| Refused::unkept(&desk, &it))?;
    let has_more = i64::try_from(changes.len()).is_ok_and(|it| it == MOST_AT_ONCE);
    let told = changes.into_iter().map(|it| {
        let was_there = it.text_before.is_some();
        let before = it.text_before.unwrap_or_default();
        let read = read_puzzle(&SourceFile::new(&*file, &*before)).0;
        FileChange {
            id: it.id,
            at: it.changed_at,
            made_by: it.made_by,
            lines: differences(&before, &it.text_after),
            board_before: read.ok().map(|it| TypedBoard::of(&it.puzzle)),
            was_there,
        }
    });
    Ok(Json(FileHistory { changes: told.collect(), has_more }))
}

/// Puts a puzzle's file back, as a whole, to what it was before a change. That is a change, too.
#[utoipa::path(
    put, path = "/api/1/puzzles/{id}/history/{change}", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id"),
        ("change" = String, Path, description = "what the change is called")),
    request_body = GoingBack,
    responses((status = 200, body = Written), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 409, body = RefusedBody), (status = 422, body = RefusedBody)),
)]
pub(crate) async fn go_back(
    State(desk): State<Arc<Desk>>,
    Path((id, change)): Path<(String, String)>,
    asked: Result<Json<GoingBack>, JsonRejection>,
) -> Result<Json<Written>, Refused> {
    let Json(GoingBack { began_from }) = asked?;
    let began_from = digest_of(&began_from)?;
    let (reading, file) = open_file(&desk, &id).await?;
    let change = desk.store.change_of(&file, &change).await.map_err(|it| Refused::unkept(&desk, &it))?;
    let change = change.ok_or_else(|| {
        let help = "load the page again to see which there are";
        Refused::new(StatusCode::NOT_FOUND, "the file has no such change", help)
    })?;
    let text = change.text_before.ok_or_else(|| Refused::unfit("the file was new then"))?;
    if reading.digest(&file) != Some(began_from) {
        return Err(Refused::changed_meanwhile(&file));
    }
    reading.with(&file, &text).map_err(Refused::faulty)?;
    let digest = desk.write(&file, Some(began_from), text).await?;
    Ok(Json(Written { digest: digest.to_string() }))
}

/// The files as they are, and that of a puzzle which is not sealed.
async fn open_file(desk: &Desk, id: &str) -> Result<(Arc<Reading>, String), Refused> {
    let id = id_of(id)?;
    let (reading, pack) = desk.studied().await?;
    let file = reading.file_of(id.as_str()).ok_or_else(Refused::no_puzzle)?.to_owned();
    // Whether a file that is no puzzle is meant to be sealed is not known.
    if study_of(&pack, id.as_str()).ok_or_else(Refused::no_puzzle)?.is_sealed() {
        return Err(Refused::sealed());
    }
    Ok((reading, file))
}

/// The lines that differ between two texts.
fn differences(before: &str, after: &str) -> Vec<String> {
    let diff = similar::TextDiff::from_lines(before, after);
    let changed = diff.iter_all_changes().filter(|it| it.tag() != similar::ChangeTag::Equal);
    changed.map(|it| format!("{}{}", it.tag(), it.value().trim_end())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_lines_that_differ_are_told() {
        assert_eq!(differences("a\nb\nc\n", "a\nB\nc\n"), ["-b", "+B"]);
        assert_eq!(differences("", "a\n"), ["+a"]);
        assert!(differences("a\n", "a\n").is_empty());
    }
}
