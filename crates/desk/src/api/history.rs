//! What a puzzle's file was before the desk changed it.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use packfile::{SourceFile, read_puzzle};
use serde::Serialize;
use utoipa::ToSchema;

use super::id_of;
use crate::answers::{Refused, RefusedBody};
use crate::state::{Desk, study_of};
use crate::typed::TypedBoard;

/// A change of a file that was made at the desk.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct FileChange {
    /// When, in the time of Greenwich.
    pub(crate) at: String,
    /// The lines that were taken away, and those that came in their place, each behind `-` or `+`.
    pub(crate) lines: Vec<String>,
    /// The board before, if the file was a puzzle, to go back to.
    pub(crate) board_before: Option<TypedBoard>,
}

/// The latest changes of a puzzle's file, the last first; fifty at most.
#[utoipa::path(
    get, path = "/api/1/puzzles/{id}/history", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    responses((status = 200, body = Vec<FileChange>), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody)),
)]
pub(crate) async fn history(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
) -> Result<Json<Vec<FileChange>>, Refused> {
    let id = id_of(&id)?;
    let (reading, pack) = desk.studied().await?;
    let file = reading.file_of(id.as_str()).ok_or_else(Refused::no_puzzle)?.to_owned();
    // Whether a file that is no puzzle is meant to be sealed is not known.
    if study_of(&pack, id.as_str()).ok_or_else(Refused::no_puzzle)?.is_sealed() {
        return Err(Refused::sealed());
    }
    let changes = desk.store.changes_of(&file).await.map_err(|it| Refused::unkept(&desk, &it))?;
    let told = changes.into_iter().map(|it| {
        let before = it.text_before.unwrap_or_default();
        let read = read_puzzle(&SourceFile::new(&*file, &*before)).0;
        FileChange {
            at: it.changed_at,
            lines: differences(&before, &it.text_after),
            board_before: read.ok().map(|it| TypedBoard::of(&it.puzzle)),
        }
    });
    Ok(Json(told.collect()))
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
