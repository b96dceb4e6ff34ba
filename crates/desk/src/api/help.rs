//! Help in a test solve, from where the solver is: the answers of the site's engine, given by the desk, for the page of a test
//! solve does not know the solution.

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use player::Player;
use reason::Known;
use serde::Deserialize;
use serde_json::json;
use utoipa::ToSchema;

use crate::answers::{Refused, RefusedBody};
use crate::aside::in_turn;
use crate::pages::embedded;
use crate::state::{Desk, study_of};
use crate::store::NotTaken;

/// A question from the sheet.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct AskedHelp {
    /// What is asked.
    question: Question,
    /// The cell, row by row from 0, for `why`.
    cell: Option<usize>,
    /// What is written, as the site's sheet tells it to its engine.
    sheet: String,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
enum Question {
    /// Where, what and why of a step from here.
    Hint,
    /// Whether all is right so far.
    Check,
    /// Why the digit in a cell is so.
    Why,
    /// The digits that each cell does not see.
    Pencil,
}

/// Answers a question from what is written in a test solve. Asking is no event by itself: the page notes it.
#[utoipa::path(
    post, path = "/api/1/solves/{id}/help", tag = "solves",
    params(("id" = String, Path, description = "what the page calls the solve")),
    request_body = AskedHelp,
    responses((status = 200, description = "what the site's engine answers, as JSON"), (status = 404, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn help(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<AskedHelp>, JsonRejection>,
) -> Result<Response, Refused> {
    let Json(asked) = asked?;
    let solve = desk.store.solve(&id).await.map_err(|it| Refused::unkept(&desk, &it))?;
    let solve = solve.ok_or_else(|| Refused::not_taken(&desk, &NotTaken::NoSuchSolve))?;
    let view = desk.view();
    let known = view.pack.as_ref().and_then(|it| study_of(it, &solve.puzzle)?.known());
    let entry = view.reading.read.pack.entries.iter().find(|it| it.id.as_str() == solve.puzzle);
    let entry = entry.filter(|it| packfile::fingerprint(&it.puzzle) == solve.fingerprint);
    let mut page = embedded(entry.ok_or_else(Refused::no_puzzle)?);
    // What the puzzles before have taught comes first.
    let taught = known.unwrap_or(Known::ALL).techniques().map(|it| it.id().name());
    page["taught"] = json!(taught.collect::<Vec<_>>());
    let answer = in_turn(&desk, &desk.helping, move |_| answer(&page.to_string(), &asked)).await??;
    Ok(([(CONTENT_TYPE, "application/json")], answer).into_response())
}

fn answer(page: &str, asked: &AskedHelp) -> Result<String, Refused> {
    let no_help = |it: player::NoPuzzle| Refused::unfit(format!("there is no help: {it}"));
    let mut player = Player::new(page).map_err(no_help)?;
    let answer = match asked.question {
        Question::Hint => player.hint(&asked.sheet),
        Question::Check => player.check(&asked.sheet),
        Question::Why => {
            player.why(&asked.sheet, asked.cell.ok_or_else(|| Refused::unfit("a cell is missing"))?)
        }
        Question::Pencil => player.pencil(&asked.sheet),
    };
    answer.map_err(|it| Refused::unfit(it.to_string()))
}
