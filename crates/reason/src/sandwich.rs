//! Techniques of sandwich clues, one file each, over a common look at one line.

mod chain_through_clues;
mod crust_among;
mod crust_distance;
mod crust_held;
mod crust_mates;
mod crust_places;
mod crust_reach;
mod crust_sums;
mod crusts_adjacent;
mod crusts_at_ends;
mod crusts_confined;
mod crusts_found;
mod crusts_in_turn;
mod crusts_shared;
mod grounds;
mod held_digit;
mod line;
mod line_rules;
mod misfits;
mod neighbour_trials;
mod remainder;
mod sees_both_crusts;
mod side_holds;
mod spent_clue;
mod sum_partners;
mod sums;

pub(crate) use chain_through_clues::ChainThroughClues;
pub(crate) use crust_among::CrustAmong;
pub(crate) use crust_distance::CrustDistance;
pub(crate) use crust_held::CrustHeld;
pub(crate) use crust_mates::CrustMates;
pub(crate) use crust_places::CrustPlaces;
pub(crate) use crust_reach::CrustReach;
pub(crate) use crust_sums::CrustSums;
pub(crate) use crusts_adjacent::CrustsAdjacent;
pub(crate) use crusts_at_ends::CrustsAtEnds;
pub(crate) use crusts_confined::CrustsConfined;
pub(crate) use crusts_found::CrustsFound;
pub(crate) use crusts_in_turn::{CrustTurnSettled, CrustsInTurn};
pub(crate) use crusts_shared::CrustsShared;
pub(crate) use grounds::{Known as KnownOfCells, without_spare};
pub(crate) use held_digit::HeldDigit;
pub(crate) use line::Sets;
pub(crate) use line_rules::LineRules;
pub(crate) use misfits::Misfits;
pub(crate) use neighbour_trials::NeighbourTrials;
pub(crate) use remainder::{LAST_IN_SUM, LAST_OUTSIDE};
pub(crate) use sees_both_crusts::SeesBothCrusts;
pub(crate) use side_holds::SideHolds;
pub(crate) use spent_clue::SpentClue;
pub(crate) use sum_partners::{PARTNERS_ANYWHERE, SUM_PARTNERS};
pub(crate) use sums::{FILLING_SETS, OUTSIDE_DIGITS};

use rulebook::{Rule, RuleId, SANDWICH};

use crate::View;

/// The rule that these techniques are about.
fn rule() -> Option<RuleId> {
    Some(SANDWICH.id())
}

/// Whether crusts mean anything in this puzzle.
fn has_sandwiches(view: &View) -> bool {
    !view.clued_lines().is_empty()
}
