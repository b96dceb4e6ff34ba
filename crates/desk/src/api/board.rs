//! A board that is typed: what it is worth, and keeping it.

use std::collections::BTreeSet;
use std::sync::Arc;

use ::pack::{Entry, PuzzleId};
use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use packfile::{Problem, SourceFile, read_puzzle};
use prove::{Limit, Verdict};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::{Written, digest_of, id_of};
use crate::answers::{Refused, RefusedBody};
use crate::aside::aside;
use crate::edit::with_board;
use crate::folder::Reading;
use crate::state::Desk;
use crate::typed::TypedBoard;
use crate::words;

/// Nodes of a proof between two keystrokes: a pack's puzzles take a hundredth of it.
const WHILE_TYPING: Limit = Limit(20_000);

/// What a typed board is worth.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct BoardVerdict {
    /// `one`, `none`, `many`, `undecided`, or `unreadable` for what is no puzzle.
    pub(crate) verdict: String,
    /// The same as a sentence.
    pub(crate) says: String,
    /// What keeps it from being a puzzle.
    pub(crate) problems: Vec<Told>,
    /// Cells, counted from 0, in which two of its solutions differ, with both digits.
    pub(crate) differences: Vec<(usize, u8, u8)>,
}

/// A problem in words.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct Told {
    /// What was found.
    pub(crate) message: String,
    /// The next move.
    pub(crate) help: Option<String>,
}

/// A board, and the state of the file that it was typed over.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct BoardToKeep {
    /// What is printed.
    pub(crate) board: TypedBoard,
    /// The digest of the file when the edit began.
    pub(crate) began_from: String,
}

/// What a board is worth that is typed in the place of a puzzle's. Nothing is written.
#[utoipa::path(
    post, path = "/api/1/puzzles/{id}/verdict", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = TypedBoard,
    responses((status = 200, body = BoardVerdict), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn verdict(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    board: Result<Json<TypedBoard>, JsonRejection>,
) -> Result<Json<BoardVerdict>, Refused> {
    let Json(board) = board?;
    let typed = Typed::over(&desk, &id_of(&id)?, &board).await?;
    aside(move || typed.verdict()).await.map(Json)
}

/// Writes a board into the puzzle's file. Everything else in the file stays as it is.
#[utoipa::path(
    put, path = "/api/1/puzzles/{id}/board", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = BoardToKeep,
    responses((status = 200, body = Written), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 409, body = RefusedBody), (status = 422, body = RefusedBody)),
)]
pub(crate) async fn keep(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<BoardToKeep>, JsonRejection>,
) -> Result<Json<Written>, Refused> {
    let Json(BoardToKeep { board, began_from }) = asked?;
    let began_from = digest_of(&began_from)?;
    let id = id_of(&id)?;
    let file = desk.view().reading.file_of(id.as_str()).ok_or_else(Refused::no_puzzle)?.to_owned();
    if desk.view().reading.digest(&file) != Some(began_from) {
        return Err(Refused::changed_meanwhile(&file));
    }
    let typed = Typed::over(&desk, &id, &board).await?;
    if let Err(problems) = &typed.entry {
        let message = problems.first().map_or("it is no puzzle", |it| &it.message);
        return Err(Refused::unfit(message));
    }
    let digest = desk.write(&file, Some(began_from), typed.text).await?;
    Ok(Json(Written { digest: digest.to_string() }))
}

/// A puzzle's file with a typed board in it.
#[derive(Debug)]
pub(super) struct Typed {
    text: String,
    pub(super) entry: Result<Entry, Vec<Problem>>,
}

impl Typed {
    /// The board in the place of that of a puzzle, which is not sealed.
    pub(super) async fn over(desk: &Arc<Desk>, id: &PuzzleId, board: &TypedBoard) -> Result<Typed, Refused> {
        let reading = desk.view().reading;
        let entry = entry_of(&reading, id)?;
        let opened = desk.seals().await;
        if entry.sealed && !opened.iter().any(|it| it == id.as_str()) {
            return Err(Refused::sealed());
        }
        let file = reading.file_of(id.as_str()).ok_or_else(Refused::no_puzzle)?;
        let text = reading.text(file).ok_or_else(Refused::no_puzzle)?;
        let size = entry.puzzle.size();
        if !board.fits(size) {
            return Err(Refused::unfit(format!(
                "the board is no {size} board with the clues that it may have"
            )));
        }
        let not_changeable =
            |_| Refused::unfit(format!("{file} is not written so that a board could be put in it"));
        let text = with_board(text, size, board).map_err(not_changeable)?;
        let (read, problems) = read_puzzle(&SourceFile::new(file, &*text));
        // What only matters beside other files, such as the names of shelves, was looked at when they were read.
        let entry = read.map_err(|_| problems.into_iter().filter(Problem::is_error).collect());
        Ok(Typed { text, entry })
    }

    fn verdict(self) -> BoardVerdict {
        let entry = match self.entry {
            Ok(it) => it,
            Err(problems) => {
                let mut said = BTreeSet::new();
                let told = problems.into_iter().filter(|it| said.insert(it.message.clone()));
                return BoardVerdict {
                    verdict: "unreadable".to_owned(),
                    says: "This is no puzzle yet.".to_owned(),
                    problems: told.map(|it| Told { message: it.message, help: it.help }).collect(),
                    differences: Vec::new(),
                };
            }
        };
        let verdict = prove::verdict(&entry.puzzle, WHILE_TYPING);
        let differences = match &verdict {
            Verdict::Many(many) => prove::differences(many),
            _ => Vec::new(),
        };
        let size = entry.puzzle.size();
        let finding = words::found(&verdict);
        BoardVerdict {
            verdict: words::state(finding).to_owned(),
            says: words::verdict(finding).to_owned(),
            problems: Vec::new(),
            differences: differences
                .iter()
                .map(|(cell, a, b)| (size.index(*cell), a.get(), b.get()))
                .collect(),
        }
    }
}

/// The puzzle of that id, if it could be read.
fn entry_of<'a>(reading: &'a Reading, id: &PuzzleId) -> Result<&'a Entry, Refused> {
    reading.read.pack.entries.iter().find(|it| it.id == *id).ok_or_else(Refused::no_puzzle)
}
