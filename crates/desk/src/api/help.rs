//! Help in a test solve, from where the solver is: the answers of the site's engine, given by the desk, for the page of a test
//! solve does not know the solution.
//!
//! Of an answer no more is told than was asked for, where before what and what before why; and the desk notes that it was,
//! before it tells it. So whoever asks without the page leaves the same trace.

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use player::Player;
use reason::Known;
use serde::Deserialize;
use serde_json::{Value, json};
use utoipa::ToSchema;

use super::solves::{is_moment, puzzle_of};
use crate::answers::{Refused, RefusedBody};
use crate::aside::in_turn;
use crate::pages::embedded;
use crate::state::{Desk, News, study_of};
use crate::store::NotTaken;

/// A question from the sheet.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct AskedHelp {
    /// What is asked.
    question: Question,
    /// How much of the answer is asked for; its place, if nothing is said.
    #[serde(default)]
    part: Part,
    /// The cell, row by row from 0, for `why`.
    cell: Option<usize>,
    /// What is written, as the site's sheet tells it to its engine.
    sheet: String,
    /// Milliseconds of solving since the beginning.
    after_ms: i64,
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

/// A part of an answer. What is wrong has two: where, and which it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Deserialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
enum Part {
    #[default]
    Where,
    What,
    Why,
}

/// Answers a question from what is written in a test solve, and notes in its log that this was told: `hint` with the part,
/// or `check` if it was only that nothing is wrong so far.
#[utoipa::path(
    post, path = "/api/1/solves/{id}/help", tag = "solves",
    params(("id" = String, Path, description = "what the page calls the solve")),
    request_body = AskedHelp,
    responses((status = 200, description = "what of the site's engine's answer was asked for, as JSON"),
        (status = 404, body = RefusedBody), (status = 409, body = RefusedBody), (status = 422, body = RefusedBody),
        (status = 503, body = RefusedBody), (status = 507, body = RefusedBody)),
)]
pub(crate) async fn help(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<AskedHelp>, JsonRejection>,
) -> Result<Response, Refused> {
    let Json(asked) = asked?;
    let solve = desk.store.solve(&id).await.map_err(|it| Refused::unkept(&desk, &it))?;
    let solve = solve.ok_or_else(|| Refused::not_taken(&desk, &NotTaken::NoSuchSolve))?;
    if !is_moment(asked.after_ms) {
        return Err(Refused::unfit("a test solve lasts a week at most"));
    }
    let view = desk.view();
    let known = view.pack.as_ref().and_then(|it| study_of(it, &solve.puzzle)?.known());
    let mut page = embedded(puzzle_of(&view.reading, &solve)?);
    // What the puzzles before have taught comes first.
    let taught = known.unwrap_or(Known::ALL).techniques().map(|it| it.id().name());
    page["taught"] = json!(taught.collect::<Vec<_>>());
    let (part, after_ms) = (asked.part, asked.after_ms);
    let answer = in_turn(&desk, &desk.helping, move |_| answer(&page.to_string(), &asked)).await??;
    let (answer, noted) = told(answer, part);
    if let Some((what, value)) = noted {
        let noted = desk.store.note_event(&id, what, after_ms, value).await;
        noted.map_err(|it| Refused::not_taken(&desk, &it))?;
        desk.tell(News::Solves);
    }
    Ok(([(CONTENT_TYPE, "application/json")], answer.to_string()).into_response())
}

fn answer(page: &str, asked: &AskedHelp) -> Result<Value, Refused> {
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
    let answer = answer.map_err(|it| Refused::unfit(it.to_string()))?;
    Ok(serde_json::from_str(&answer).unwrap_or_else(|it| unreachable!("the engine answers in JSON: {it}")))
}

/// What of an answer goes to the page, and the event that it is: its name and value.
fn told(mut answer: Value, part: Part) -> (Value, Option<(&'static str, Option<i64>)>) {
    let kind = answer["kind"].as_str().map(str::to_owned);
    let keys: &[&str] = match (kind.as_deref(), part) {
        (Some("hint"), Part::Where) => &["where"],
        (Some("hint"), Part::What) => &["what", "taught"],
        (Some("hint"), Part::Why) => &["why", "settles"],
        (Some("mistake"), Part::Where) => &["near"],
        (Some("mistake"), Part::What | Part::Why) => &["which"],
        (Some("why"), _) => return (answer, Some(("hint", Some(4)))),
        // That nothing is wrong is told too: who asks after each guess would read off the solution.
        (Some(_), _) => return (answer, Some(("check", None))),
        // Pencil marks come from what stands on the sheet alone.
        (None, _) => return (answer, None),
    };
    if let Some(all) = answer.as_object_mut() {
        all.retain(|key, _| key == "kind" || keys.contains(&&key[..]));
    }
    (answer, Some(("hint", Some(part as i64 + 1))))
}
