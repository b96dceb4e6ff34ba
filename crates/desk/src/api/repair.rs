//! What would make a typed board sound, each as a board to take with one press.

use std::sync::Arc;

use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use prove::{Limit, Printed, Settling, Verdict};
use rulebook::Puzzle;
use serde::Serialize;
use study::{Mending, Settlings};
use utoipa::ToSchema;

use super::board::Typed;
use super::id_of;
use crate::answers::{Refused, RefusedBody};
use crate::aside::in_turn;
use crate::state::Desk;
use crate::typed::TypedBoard;

/// Nodes of the proof before anything is looked for.
const PROOF: Limit = Limit(2_000_000);
/// So many of a kind are offered: the likeliest come first.
const MOST_OFFERED: usize = 12;

/// What would make a board sound.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct RepairOffers {
    /// What was found out, in sentences.
    pub(crate) says: Vec<String>,
    /// What may be taken.
    pub(crate) offers: Vec<Offer>,
}

/// One change that may be taken.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct Offer {
    /// The change in words.
    pub(crate) says: String,
    /// What it leads to, and what speaks for it.
    pub(crate) why: String,
    /// The whole board with it.
    pub(crate) board: TypedBoard,
}

/// Looks for what would mend or settle a board that is typed in the place of a puzzle's. It ends when nobody waits.
#[utoipa::path(
    post, path = "/api/1/puzzles/{id}/repair", tag = "puzzle",
    params(("id" = String, Path, description = "the puzzle's id")),
    request_body = TypedBoard,
    responses((status = 200, body = RepairOffers), (status = 403, body = RefusedBody), (status = 404, body = RefusedBody),
        (status = 422, body = RefusedBody)),
)]
pub(crate) async fn repair(
    State(desk): State<Arc<Desk>>,
    Path(id): Path<String>,
    board: Result<Json<TypedBoard>, JsonRejection>,
) -> Result<Json<RepairOffers>, Refused> {
    let Json(board) = board?;
    let typed = Typed::over(&desk, &id_of(&id)?, &board).await?;
    let entry =
        typed.entry.map_err(|_| Refused::unfit("it is no puzzle yet, so there is nothing to mend"))?;
    in_turn(&desk, &desk.computing, move |_| offers(&entry.puzzle)).await.map(Json)
}

fn offers(puzzle: &Puzzle) -> RepairOffers {
    match prove::verdict(puzzle, PROOF) {
        Verdict::One(_) => {
            RepairOffers { says: vec!["There is nothing to mend.".to_owned()], offers: Vec::new() }
        }
        Verdict::Undecided => {
            let says = "It could not be decided how many solutions there are: print a few more digits first.";
            RepairOffers { says: vec![says.to_owned()], offers: Vec::new() }
        }
        Verdict::None => mending(puzzle),
        Verdict::Many(many) => settling(puzzle, &Settlings::of(puzzle, &many)),
    }
}

fn mending(puzzle: &Puzzle) -> RepairOffers {
    let found = Mending::of(puzzle);
    let conflict = found.conflict.as_ref().map(tell::conflict);
    let offers = found.mends.mends.iter().take(MOST_OFFERED).map(|it| {
        let slips: Vec<&str> = it.slips.iter().map(|it| tell::slip(*it)).collect();
        let solutions = format!("solutions then: {}", tell::n_solutions(it.solutions));
        Offer {
            says: tell::change(it.change),
            why: [solutions]
                .into_iter()
                .chain(slips.into_iter().map(str::to_owned))
                .collect::<Vec<_>>()
                .join("; "),
            board: TypedBoard::of(&it.change.applied_to(puzzle)),
        }
    });
    RepairOffers {
        says: conflict.into_iter().chain([tell::mends_summary(&found.mends)]).collect(),
        offers: offers.collect(),
    }
}

fn settling(puzzle: &Puzzle, found: &Settlings) -> RepairOffers {
    let offer = |added: &[Printed], why: &str| Offer {
        says: tell::list(&added.iter().map(|it| tell::to_print(*it)).collect::<Vec<_>>()),
        why: why.to_owned(),
        board: TypedBoard::of(&added.iter().fold(puzzle.clone(), |puzzle, it| it.added_to(&puzzle))),
    };
    let single = found.single.givens.iter().take(MOST_OFFERED);
    let mut offers: Vec<Offer> =
        single.map(|it| offer(&[*it], "leaves exactly one solution by itself")).collect();
    let mut several = |it: &Option<Settling>, what: &str| {
        if let Some(it) = it.as_ref().filter(|it| !it.added.is_empty()) {
            let fewest = if it.is_fewest() { "the fewest" } else { "the fewest that were found" };
            let new = offer(&it.added, &format!("{fewest} {what} that leave one of the two solutions"));
            if !offers.iter().any(|it| it.board == new.board) {
                offers.push(new);
            }
        }
    };
    for it in &found.towards {
        several(&it.givens, "givens");
        several(&it.clues, "clues");
    }
    RepairOffers { says: vec![tell::single_givens(&found.single)], offers }
}
