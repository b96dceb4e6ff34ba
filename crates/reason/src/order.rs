//! The order in which needed steps are told, and the passages they fall into.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Size};
use rulebook::Claim;
use trail::{StepId, Theme, Trail, Walkthrough};

use crate::technique;

/// Seconds by which a step counts as harder for each move of the eye: another house, another part of
/// the board.
const EYE_MOVE: u32 = 4;

/// Puts the steps in an order in which each is easy to reach from the one before, and cuts the
/// result into passages.
///
/// Among the steps whose premises are known, the one that is easiest to see and nearest to where the
/// eye is comes next; ties go to the earlier one.
pub(crate) fn arrange(size: Size, trail: Trail) -> Walkthrough {
    let order = easiest_next(&trail);
    let trail = trail.reordered(&order).unwrap_or(trail);
    let themes = themes(size, &trail);
    Walkthrough::new(trail, |_, step| themes[step.index()])
}

fn easiest_next(trail: &Trail) -> Vec<StepId> {
    let cited: Vec<BTreeSet<StepId>> = trail.steps().map(|(id, _)| trail.steps_cited_by(id)).collect();
    let mut waiting: Vec<StepId> = trail.steps().map(|it| it.0).collect();
    let mut done: BTreeSet<StepId> = BTreeSet::new();
    let mut order = Vec::new();
    let mut eye = CellSet::EMPTY;
    while !waiting.is_empty() {
        let ready = waiting.iter().copied().filter(|it| cited[it.index()].is_subset(&done));
        let cost = |it: &StepId| weight(trail, *it) + EYE_MOVE * distance(eye, cells(trail, *it));
        let Some(next) = ready.min_by_key(cost) else { break };
        waiting.retain(|it| *it != next);
        done.insert(next);
        order.push(next);
        eye = cells(trail, next);
    }
    order
}

fn weight(trail: &Trail, step: StepId) -> u32 {
    technique(trail.step(step).technique()).map_or(120, |it| it.weight())
}

/// The cells a step settles something about.
fn cells(trail: &Trail, step: StepId) -> CellSet {
    let claims = trail.step(step).concludes().iter().map(|it| trail.fact(*it).claim());
    claims.filter_map(|it| it.cell()).collect()
}

/// 0 where some cell shares a row, column or stays in place, 1 near by, 2 far off.
pub(crate) fn distance(from: CellSet, to: CellSet) -> u32 {
    let gap = |a: Cell, b: Cell| a.row().abs_diff(b.row()).min(a.column().abs_diff(b.column()));
    let gaps = from.iter().flat_map(|a| to.iter().map(move |b| gap(a, b)));
    match gaps.min() {
        None | Some(0) => 0,
        Some(1..=2) => 1,
        Some(_) => 2,
    }
}

/// Passages shorter than this are told as part of their neighbours.
const SHORTEST: usize = 3;

fn themes(size: Size, trail: &Trail) -> Vec<Theme> {
    let mut themes: Vec<Theme> = trail.steps().map(|(id, _)| theme_of(trail, id)).collect();
    finish(trail, &mut themes);
    join_short(&mut themes);
    settle_houses(size, trail, &mut themes);
    themes
}

fn theme_of(trail: &Trail, id: StepId) -> Theme {
    let step = trail.step(id);
    if step.is_small_argument() {
        return Theme::Argument;
    }
    match trail.fact(step.concludes()[0]).claim() {
        Claim::Crust(_) | Claim::Filling(_) | Claim::FillingCells { .. } | Claim::CrustAmong { .. } => {
            Theme::Crusts
        }
        Claim::Spent { .. } | Claim::DigitAmong { .. } => Theme::Sums,
        Claim::Is(..) | Claim::IsNot(..) => match step.technique().name() {
            "crust-mates" | "crust-sums" => Theme::Crusts,
            "filling-sets" | "outside-digits" | "spent-clue" | "last-in-sum" | "last-outside"
            | "held-digit" | "sum-partners" | "partners-anywhere" | "neighbour-trials" => Theme::Sums,
            _ => Theme::Digits,
        },
    }
}

/// A finish longer than this has a part that is worth telling apart.
const LONGEST_FINISH: usize = 20;

/// From where on only digits are placed, the walkthrough is finishing.
fn finish(trail: &Trail, themes: &mut [Theme]) {
    let places = |id: StepId| {
        let concluded = trail.step(id).concludes().iter().map(|it| trail.fact(*it).claim());
        concluded.into_iter().all(|it| matches!(it, Claim::Is(..)))
    };
    let steps: Vec<StepId> = trail.steps().map(|it| it.0).collect();
    for id in steps.into_iter().rev().take(LONGEST_FINISH).take_while(|it| places(*it)) {
        themes[id.index()] = Theme::Finish;
    }
}

/// Gives short stretches the theme of the stretch before (the first that of the one after); an
/// argument by cases always stands alone.
fn join_short(themes: &mut [Theme]) {
    let mut start = 0;
    while start < themes.len() {
        let theme = themes[start];
        let end = start + themes[start..].iter().take_while(|it| **it == theme).count();
        let is_fixed = matches!(theme, Theme::Argument | Theme::Finish);
        if end - start < SHORTEST && !is_fixed {
            let before = start.checked_sub(1).map(|it| themes[it]);
            let after = themes.get(end).copied();
            let joins = |it: &Theme| !matches!(it, Theme::Argument | Theme::Finish);
            if let Some(other) = before.filter(joins).or(after.filter(joins)) {
                themes[start..end].fill(other);
            }
        }
        start = end;
    }
}

/// A stretch of digits that all lie in one house is about that house.
fn settle_houses(size: Size, trail: &Trail, themes: &mut [Theme]) {
    let mut start = 0;
    while start < themes.len() {
        let end = start + themes[start..].iter().take_while(|it| **it == themes[start]).count();
        if themes[start] == Theme::Digits {
            let ids = trail.steps().map(|it| it.0).skip(start).take(end - start);
            let all = ids.fold(CellSet::EMPTY, |all, it| all | cells(trail, it));
            if let Some(house) =
                size.houses().find(|it| all.is_subset(&size.cells_of(*it).into_iter().collect()))
            {
                themes[start..end].fill(Theme::House(house));
            }
        }
        start = end;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Theme::{Argument, Crusts, Digits, Finish, Sums};

    #[test]
    fn short_stretches_join_the_one_before() {
        let cases: [(&[Theme], &[Theme]); 5] = [
            (&[Crusts, Crusts, Crusts, Digits, Crusts], &[Crusts; 5]),
            (&[Digits, Crusts, Crusts, Crusts], &[Crusts; 4]),
            (&[Argument, Digits, Sums, Sums, Sums], &[Argument, Sums, Sums, Sums, Sums]),
            (&[Digits, Argument, Digits], &[Digits, Argument, Digits]),
            (&[Sums, Sums, Sums, Digits, Finish], &[Sums, Sums, Sums, Sums, Finish]),
        ];
        for (before, after) in cases {
            let mut themes = before.to_vec();
            join_short(&mut themes);
            assert_eq!(themes, after, "{before:?}");
        }
    }

    #[test]
    fn the_eye_counts_how_far_cells_lie_from_a_common_line() {
        let cell = |row, column| Size::NINE.cell(row, column).into_iter().collect::<CellSet>();
        assert_eq!(distance(CellSet::EMPTY, cell(5, 5)), 0);
        assert_eq!(distance(cell(1, 1), cell(1, 9)), 0);
        assert_eq!(distance(cell(1, 1), cell(3, 9)), 1);
        assert_eq!(distance(cell(1, 1), cell(9, 9)), 2);
    }
}
