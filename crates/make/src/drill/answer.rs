//! Whether an answer is right, and all there is to say: asked of the checker, which knows no technique.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, House, Size};
use reason::{Settings, View};
use replay::{Cap, Judge, Refusal};
use rulebook::Claim;
use trail::{Cites, Proposal};

/// Cells that are named beside the one that is asked about, at most.
const MOST_BESIDE: usize = 3;

/// Nodes within which the checker must find a filling that shows that something more does not follow.
const CAP: Cap = Cap(5_000);

/// Whether the two answer one question: they are of one kind, and about the same cell or house.
pub(super) fn of_one_kind(one: &Claim, other: &Claim) -> bool {
    kind(one) == kind(other) && one.cell() == other.cell() && one.house() == other.house()
}

fn kind(claim: &Claim) -> u8 {
    match claim {
        Claim::Is(..) => 0,
        Claim::IsNot(..) => 1,
        Claim::Crust(_) | Claim::Filling(_) => 2,
        Claim::FillingCells { .. } => 3,
        Claim::Spent { .. } => 4,
        Claim::CrustAmong { .. } => 5,
        Claim::DigitAmong { .. } => 6,
    }
}

/// Whether each conclusion of the step follows from what it cites and from nothing else.
pub(super) fn is_proved(shown: &View, step: &Proposal) -> bool {
    let judge = Judge::new(shown.puzzle());
    let cap = Settings::TECHNIQUES_ALONE.cap;
    step.conclusions.iter().all(|(claim, cites)| judge.judge(shown.trail(), claim, cites, cap).is_ok())
}

/// Whether nothing beyond the answer follows about what is asked, not even from all rows, columns and boxes.
pub(super) fn is_whole(shown: &View, houses: &BTreeSet<House>, answer: &[Claim]) -> bool {
    let is_open = what_is_open(shown);
    answer.iter().flat_map(|it| beyond(shown, houses, it, answer)).all(|it| is_open(&it))
}

/// Others of these cells of which the same might be asked, but does not follow: most techniques find only crusts, or only
/// filling, so that "which of the two?" would soon be answered unseen. Those next to the cell that is asked about, as
/// many of them before it as its place on the board has it, so that the order gives nothing away; where it is in none of
/// the houses, neither are they. None where the answer is something else.
pub(super) fn beside(shown: &View, houses: &BTreeSet<House>, answer: &[Claim]) -> CellSet {
    let [it @ (Claim::Crust(asked) | Claim::Filling(asked))] = *answer else { return CellSet::EMPTY };
    let same_of =
        |cell| if matches!(it, Claim::Crust(_)) { Claim::Crust(cell) } else { Claim::Filling(cell) };
    let is_open = what_is_open(shown);
    let is_unknown = |cell: Cell| cell != asked && !shown.is_crust(cell) && !shown.is_filling(cell);
    let within: CellSet = houses.iter().flat_map(|it| shown.size().cells_of(*it)).collect();
    let near = if within.contains(asked) { within } else { shown.size().peers(asked) - within };
    let others: Vec<Cell> = near.iter().filter(|it| is_unknown(*it) && is_open(&same_of(*it))).collect();
    let n_before = others.partition_point(|it| *it < asked);
    let wanted_before = shown.size().index(asked) % (MOST_BESIDE + 1);
    let n_after = others.len() - n_before;
    let first = n_before - wanted_before.max(MOST_BESIDE.saturating_sub(n_after)).min(n_before);
    others.into_iter().skip(first).take(MOST_BESIDE).collect()
}

/// Whether a claim is shown not to follow, from all that is shown and all rows, columns and boxes.
fn what_is_open(shown: &View) -> impl Fn(&Claim) -> bool {
    let judge = Judge::new(shown.puzzle());
    let cites = Cites {
        houses: shown.size().houses().collect(),
        clues: shown.puzzle().clue_ids().map(|it| it.0).collect(),
        facts: shown.trail().facts().map(|it| it.0).collect(),
        ..Cites::default()
    };
    move |it| matches!(judge.judge(shown.trail(), it, &cites, CAP), Err(Refusal::Counterexample(_)))
}

/// What would say more than that part of the answer.
fn beyond(shown: &View, houses: &BTreeSet<House>, part: &Claim, answer: &[Claim]) -> Vec<Claim> {
    let without = |cells: CellSet, it: Cell| cells - [it].into_iter().collect::<CellSet>();
    match *part {
        Claim::IsNot(cell, _) => {
            let others = shown.candidates(cell).iter().map(|it| Claim::IsNot(cell, it));
            others.filter(|it| !answer.contains(it)).collect()
        }
        Claim::Filling(cell) | Claim::Crust(cell) => {
            shown.candidates(cell).iter().map(|it| Claim::Is(cell, it)).collect()
        }
        Claim::FillingCells { line, fewest, most } if fewest < most => vec![
            Claim::FillingCells { line, fewest: fewest + 1, most },
            Claim::FillingCells { line, fewest, most: most - 1 },
        ],
        // Each house has two crusts, so what is asked is where one of them is within another house. If each of the
        // cells may be the only place there, every right answer names them all.
        Claim::CrustAmong { house, cells } if cells.len() > 1 => {
            let place = crossing(shown.size(), houses, house, cells);
            cells.iter().map(|it| Claim::CrustAmong { house, cells: without(place, it) }).collect()
        }
        Claim::DigitAmong { house, digit, cells } if cells.len() > 1 => {
            cells.iter().map(|it| Claim::DigitAmong { house, digit, cells: without(cells, it) }).collect()
        }
        _ => Vec::new(),
    }
}

/// What the house has in common with the first other house that holds all of these cells; they themselves if none
/// does.
fn crossing(size: Size, houses: &BTreeSet<House>, house: House, cells: CellSet) -> CellSet {
    let members = |it: House| size.cells_of(it).into_iter().collect::<CellSet>();
    let others = houses.iter().filter(|it| **it != house).map(|it| members(*it));
    others.into_iter().find(|it| cells.is_subset(it)).map_or(cells, |it| it & members(house))
}
