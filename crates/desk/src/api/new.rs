//! A new puzzle: a file with an empty board to type on.

use std::sync::Arc;

use ::pack::{Entry, PuzzleId};
use axum::Json;
use axum::extract::State;
use axum::extract::rejection::JsonRejection;
use axum::http::StatusCode;
use grid::{Grid, Size};
use packfile::{puzzle_template, write_puzzle};
use rulebook::Puzzle;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::answers::{Refused, RefusedBody};
use crate::folder::{PUZZLES, Reading};
use crate::state::Desk;

/// Longer titles and names are none.
const MOST_LETTERS: usize = 120;

/// A puzzle that is not there yet.
#[derive(Clone, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PuzzleToBegin {
    /// Its title, on one line. Its id is made from it.
    pub(crate) title: String,
    /// Who set it, on one line.
    pub(crate) setter: String,
    /// How many rows and columns its board has, from 4 to 16, as far as there are boxes for it.
    pub(crate) side: u8,
}

/// A puzzle that was begun.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct PuzzleBegun {
    /// Its id, which is the name of its file.
    pub(crate) id: String,
}

/// Writes a file for a new puzzle, with an empty board and no clues.
#[utoipa::path(
    post, path = "/api/1/puzzles", tag = "puzzle", request_body = PuzzleToBegin,
    responses((status = 201, body = PuzzleBegun), (status = 409, body = RefusedBody), (status = 422, body = RefusedBody)),
)]
pub(crate) async fn begin(
    State(desk): State<Arc<Desk>>,
    asked: Result<Json<PuzzleToBegin>, JsonRejection>,
) -> Result<(StatusCode, Json<PuzzleBegun>), Refused> {
    let Json(PuzzleToBegin { title, setter, side }) = asked?;
    let is_line =
        |it: &str| !it.trim().is_empty() && it.len() <= MOST_LETTERS && !it.contains(char::is_control);
    if !is_line(&title) || !is_line(&setter) {
        return Err(Refused::unfit(
            "a puzzle has a title and a setter, each on one line of at most 120 letters",
        ));
    }
    let size = Size::of_side(side).ok_or_else(|| Refused::unfit("there is no board of that size"))?;
    let id = id_for(&title, &desk.view().reading);
    let text = match size == Size::NINE {
        true => puzzle_template(title.trim(), setter.trim()),
        false => {
            let puzzle = Puzzle::new(Grid::empty(size), []);
            write_puzzle(&Entry::new(id.clone(), title.trim(), setter.trim(), puzzle))
        }
    };
    desk.write(&format!("{PUZZLES}/{id}.toml"), None, text).await?;
    Ok((StatusCode::CREATED, Json(PuzzleBegun { id: id.to_string() })))
}

/// An id that is like the title and that no file of the pack has: `first-light`, or `first-light-2`.
pub(super) fn id_for(title: &str, reading: &Reading) -> PuzzleId {
    let letters = title.to_ascii_lowercase();
    let words = letters.split(|it: char| !it.is_ascii_alphanumeric()).filter(|it| !it.is_empty());
    let mut name = words.collect::<Vec<_>>().join("-");
    name.truncate(50);
    let name = match name.trim_matches('-') {
        "" => "puzzle",
        it => it,
    };
    // Names count in lower case, as the files of a pack do.
    let is_taken =
        |it: &str| reading.files.keys().any(|file| file.to_lowercase() == format!("{PUZZLES}/{it}.toml"));
    let numbered = (2..).map(|it: u32| format!("{name}-{it}"));
    let free = [name.to_owned()].into_iter().chain(numbered).find(|it| !is_taken(it));
    free.as_deref().and_then(PuzzleId::new).unwrap_or_else(|| unreachable!("letters, digits and hyphens"))
}
