//! Questions about one cell: why is that so, and is it so already?

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use grid::{Cell, Digit, Grid, Size};
use reason::{Judgement, Settings, Solved, Unanswered, Why, judge_claim, why};
use rulebook::{Claim, Puzzle};
use serde::{Deserialize, Serialize};
use study::Study;
use utoipa::ToSchema;

use super::id_of;
use crate::answers::{Refused, RefusedBody};
use crate::aside::in_turn;
use crate::state::{Desk, study_of};

/// A claim that takes more steps than this to follow is said not to follow yet, where nobody asks for another number.
const WITHIN: usize = 12;
/// No walkthrough is so long.
const MOST_WITHIN: usize = 500;

/// Something about a cell.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct AskedClaim {
    /// The cell, row by row from 0.
    cell: usize,
    /// What is said of it.
    says: Says,
    /// The digit, for `is` and `is-not`; a reason for what the cell holds, whatever that is, needs none.
    digit: Option<u8>,
}

/// What is said of a cell.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
enum Says {
    Is,
    IsNot,
    Crust,
    Filling,
}

/// A claim to be judged, and from what.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct AskedJudgement {
    claim: AskedClaim,
    /// The step of the walkthrough, from 1, after which the board is looked at; none for what is printed.
    after: Option<usize>,
    /// The most steps in which it has to follow; 12 if none is given.
    within: Option<usize>,
}

/// An answer, with the steps that show it.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct Answer {
    /// `reason`, `follows`, `not-yet`, `untrue` or `wrong-board`.
    answer: &'static str,
    /// In words.
    says: String,
    /// Each of them is needed; none where nothing is shown, or it stands on the board.
    steps: Vec<ToldStep>,
    /// For what is not true: what is to be seen on the full board that shows it, and its picture (SVG).
    counterexample: Option<(&'static str, String)>,
}

/// A step, told.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct ToldStep {
    /// The technique's name.
    technique: &'static str,
    /// What a teacher would say.
    says: String,
}

/// Why something is so: the shortest proof that was found, back to what is printed.
#[utoipa::path(
    post, path = "/api/1/puzzles/{id}/why", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = AskedClaim,
    responses((status = 200, body = Answer), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn ask_why(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<AskedClaim>, JsonRejection>,
) -> Result<Json<Answer>, Refused> {
    let Json(asked) = asked?;
    answered(&desk, &id, move |solved| {
        let size = solved.puzzle.size();
        let cell = asked.cell(size)?;
        let claim = match (asked.says, asked.digit) {
            (Says::Is, None) => Claim::Is(cell, solved.solution.get(cell).ok_or_else(no_walkthrough)?),
            _ => asked.claim(size)?,
        };
        let found = why(solved, claim, Settings::THOROUGH).map_err(|it| unanswered(&it))?;
        Ok(Answer {
            answer: "reason",
            says: tell::because_of(size, &found),
            steps: told(solved.puzzle, &found),
            counterexample: None,
        })
    })
    .await
}

/// Whether something is so, and whether it follows from a board: what to answer to somebody who says it does.
#[utoipa::path(
    post, path = "/api/1/puzzles/{id}/judge", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = AskedJudgement,
    responses((status = 200, body = Answer), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn judge(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    asked: Result<Json<AskedJudgement>, JsonRejection>,
) -> Result<Json<Answer>, Refused> {
    let Json(asked) = asked?;
    answered(&desk, &id, move |solved| {
        let claim = asked.claim.claim(solved.puzzle.size())?;
        let within = asked.within.unwrap_or(WITHIN).clamp(1, MOST_WITHIN);
        let board = asked.board(solved)?;
        let judged = judge_claim(solved, &board, claim, within, Settings::THOROUGH);
        let judged = judged.map_err(|it| unanswered(&it))?;
        let size = judged.board.size();
        let (answer, reason) = match &judged.judgement {
            Judgement::WrongBoard(_) => ("wrong-board", None),
            Judgement::Follows(it) => ("follows", Some(it)),
            Judgement::NotYet { .. } => ("not-yet", None),
            Judgement::Untrue { against, .. } => ("untrue", against.as_ref()),
        };
        let says = tell::judged(&judged, claim, within);
        let says = reason.map_or(says.clone(), |it| format!("{says} {}", tell::because_of(size, it)));
        let steps = reason.map(|it| told(&judged.board, it)).unwrap_or_default();
        let counterexample = match &judged.judgement {
            Judgement::Untrue { counterexample, .. } => Some(drawn(&judged.board, claim, counterexample)),
            _ => None,
        };
        Ok(Answer { answer, says, steps, counterexample })
    })
    .await
}

impl AskedClaim {
    fn cell(self, size: Size) -> Result<Cell, Refused> {
        size.cells().nth(self.cell).ok_or_else(|| Refused::unfit("the board has no such cell"))
    }

    fn claim(self, size: Size) -> Result<Claim, Refused> {
        let cell = self.cell(size)?;
        let digit = || -> Result<Digit, Refused> {
            let digit = self.digit.ok_or_else(|| Refused::unfit("a digit is missing"))?;
            size.digit(digit).ok_or_else(|| Refused::unfit(format!("its digits are 1 to {}", size.side())))
        };
        Ok(match self.says {
            Says::Is => Claim::Is(cell, digit()?),
            Says::IsNot => Claim::IsNot(cell, digit()?),
            Says::Crust => Claim::Crust(cell),
            Says::Filling => Claim::Filling(cell),
        })
    }
}

impl AskedJudgement {
    /// The board from which the claim is judged.
    fn board(&self, solved: Solved<'_>) -> Result<Grid, Refused> {
        let Some(after) = self.after else { return Ok(solved.puzzle.givens().clone()) };
        let step = solved.walkthrough.steps().map(|it| it.0).find(|it| it.number() == after);
        let step = step.ok_or_else(|| Refused::unfit(format!("the walkthrough has no step {after}")))?;
        Ok(draw::marks_for(solved.puzzle, solved.walkthrough, &[step]).0)
    }
}

/// Answers from a puzzle that is open and has a walkthrough, beside the thread that serves.
async fn answered(
    desk: &Arc<Desk>,
    id: &str,
    answer: impl FnOnce(Solved<'_>) -> Result<Answer, Refused> + Send + 'static,
) -> Result<Json<Answer>, Refused> {
    let id = id_of(id)?;
    let (_, pack) = desk.studied().await?;
    let answer = in_turn(desk, &desk.computing, move |_| {
        let study = study_of(&pack, id.as_str()).ok_or_else(Refused::no_puzzle)?;
        answer(solved(study)?)
    });
    answer.await?.map(Json)
}

/// What answers are found from, unless the puzzle is sealed or has no walkthrough.
pub(super) fn solved(study: &Study) -> Result<Solved<'_>, Refused> {
    let opened = study.opened().ok_or_else(Refused::sealed)?;
    Ok(Solved {
        puzzle: &study.entry().puzzle,
        solution: opened.solution.ok_or_else(no_walkthrough)?,
        walkthrough: opened.account.ok_or_else(no_walkthrough)?.explained.walkthrough().trail(),
    })
}

/// What is said of the full board on which the claim does not hold, and its picture.
fn drawn(puzzle: &Puzzle, claim: Claim, digits: &Grid) -> (&'static str, String) {
    let marks = draw::Marks { conclusions: claim.cell().into_iter().collect(), ..draw::Marks::default() };
    let title = tell::counterexample();
    let board =
        draw::Board { puzzle, digits, marks: &marks, title, scale: draw::Scale::Small, coordinates: true };
    (title, draw::board(&board))
}

fn told(board: &Puzzle, why: &Why) -> Vec<ToldStep> {
    let trail = why.trail();
    let step = |(id, step): (trail::StepId, &trail::Step)| ToldStep {
        technique: tell::technique_name(step.technique()),
        says: tell::says(board, trail, id),
    };
    trail.steps().map(step).collect()
}

fn no_walkthrough() -> Refused {
    let help = "make it sound first; then ask again";
    Refused::new(StatusCode::UNPROCESSABLE_ENTITY, "there is no walkthrough to answer from", help)
}

fn unanswered(it: &Unanswered) -> Refused {
    match it {
        Unanswered::Untrue => {
            let help = "ask whether it is so, to see what is";
            Refused::new(StatusCode::UNPROCESSABLE_ENTITY, "that is not so", help)
        }
        Unanswered::NotReached | Unanswered::Refused(..) => Refused::new(
            StatusCode::INTERNAL_SERVER_ERROR,
            "no step leads there, which is a fault of Galley's",
            "send the puzzle's file and the question to Galley's makers",
        ),
    }
}
