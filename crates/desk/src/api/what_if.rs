//! A changed board beside the one that is kept: verdict, walkthrough and minutes.

use std::sync::Arc;

use ::pack::Entry;
use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use serde::Serialize;
use study::{Finding, MinutesRange, Study, proved};
use utoipa::ToSchema;

use super::board::Typed;
use super::id_of;
use crate::answers::{Refused, RefusedBody};
use crate::aside::in_turn;
use crate::state::{Desk, study_of};
use crate::typed::TypedBoard;
use crate::words;

/// What is found out about one board.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct BoardAccount {
    /// `one`, `none`, `many` or `undecided`.
    pub(crate) verdict: String,
    /// The same as a sentence.
    pub(crate) says: String,
    /// Each kind of solver with the minutes in the middle and the range that eight solves in ten fall into; none without
    /// a walkthrough.
    pub(crate) minutes: Vec<SolverMinutes>,
    /// So many steps, or why there is no walkthrough.
    pub(crate) walkthrough: String,
    /// The techniques of the walkthrough, easiest first.
    pub(crate) techniques: Vec<String>,
    /// The ways in, in words.
    pub(crate) ways_in: Vec<String>,
    /// The passages of the walkthrough by their titles.
    pub(crate) passages: Vec<String>,
}

/// The minutes of one kind of solver.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct SolverMinutes {
    /// The kind.
    pub(crate) solver: String,
    /// In the middle.
    pub(crate) middle: u32,
    /// From the tenth to the ninetieth percentile, as in `10 to 20`.
    pub(crate) range: String,
}

/// Two boards side by side.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct WhatIf {
    /// The board of the file.
    pub(crate) kept: BoardAccount,
    /// The board that is tried, walked through with what a solver knows at the puzzle's place in the pack.
    pub(crate) tried: BoardAccount,
}

/// Finds out everything about a board that is tried in the place of a puzzle's. Nothing is written.
#[utoipa::path(
    post, path = "/api/1/puzzles/{id}/what-if", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = TypedBoard,
    responses((status = 200, body = WhatIf), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn what_if(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    board: Result<Json<TypedBoard>, JsonRejection>,
) -> Result<Json<WhatIf>, Refused> {
    let Json(board) = board?;
    let id = id_of(&id)?;
    let (reading, pack) = desk.studied().await?;
    let typed = Typed::over(&desk, &id, &board).await?;
    let entry =
        typed.entry.map_err(|_| Refused::unfit("it is no puzzle yet, so it cannot be walked through"))?;
    let kept = study_of(&pack, id.as_str()).ok_or_else(Refused::no_puzzle)?;
    let known = kept.known();
    let kept = account_of(kept).ok_or_else(Refused::sealed)?;
    let calibration = reading.calibrations.silent.clone();
    let tried = in_turn(&desk, &desk.computing, move |is_left| {
        let study = proved(Entry { sealed: false, ..entry }, false).calibrated(&calibration);
        let study = match known {
            Some(known) if !is_left.is_so() => study.for_solver(known),
            _ => study,
        };
        account_of(&study)
    });
    let tried = tried.await?.ok_or_else(Refused::sealed)?;
    Ok(Json(WhatIf { kept, tried }))
}

/// What is found out about a puzzle; none while it is sealed.
pub(crate) fn account_of(study: &Study) -> Option<BoardAccount> {
    let opened = study.opened()?;
    let puzzle = &study.entry().puzzle;
    let account = opened.account;
    let trail = account.map(|it| it.explained.walkthrough().trail());
    let walkthrough = match (trail, study.finding()) {
        (Some(trail), _) => tell::steps(trail),
        (None, Finding::One) => "No walkthrough that can be read out.".to_owned(),
        (None, _) => "None: there is not exactly one solution.".to_owned(),
    };
    let minutes = account.map(|it| {
        let of = |(solver, times): (grade::Solver, grade::Times)| SolverMinutes {
            solver: tell::capital(solver.name),
            middle: words::whole_minutes(times.median / 60.0),
            range: words::range(MinutesRange::of(times, it.estimate.n_solves)),
        };
        it.estimate.solvers().map(of).collect()
    });
    let techniques = account.map(|it| reason::by_ease(it.techniques().iter().copied())).unwrap_or_default();
    let ways_in = account.map(|it| tell::ways_in(puzzle, &it.ways_in(puzzle))).unwrap_or_default();
    let passages = account.map(|it| tell::passage_titles(puzzle, it.explained.walkthrough()));
    Some(BoardAccount {
        verdict: words::state(study.finding()).to_owned(),
        says: words::verdict(study.finding()).to_owned(),
        minutes: minutes.unwrap_or_default(),
        walkthrough,
        techniques: techniques.into_iter().map(|it| tell::technique_name(it).to_owned()).collect(),
        ways_in,
        passages: passages.unwrap_or_default(),
    })
}
