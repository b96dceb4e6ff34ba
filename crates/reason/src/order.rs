//! The order in which needed steps are told, and the passages they fall into.

use grid::{CellSet, Size};
use rulebook::Claim;
use trail::{StepId, Theme, Trail, Walkthrough};

use crate::effort::{cells, eye_move};
use crate::technique;

/// Puts the steps in an order in which each comes when it is wanted, and cuts the result into passages.
///
/// The digit comes next that asks least: what leads to it and is not said yet, and the way of the eye.
/// What leads to it is said just before, each thing just before what rests on it, so that nothing has to be
/// kept in mind for long. Ties go to the earlier step.
pub(crate) fn arrange(size: Size, trail: Trail) -> Walkthrough {
    let order = Order::new(&trail).just_in_time();
    in_passages(size, trail.reordered(&order).unwrap_or(trail))
}

/// Cuts the steps into passages, in the order in which they are.
pub(crate) fn in_passages(size: Size, trail: Trail) -> Walkthrough {
    let themes = themes(size, &trail);
    Walkthrough::new(trail, |_, step| themes[step.index()]).in_short_passages(LONGEST)
}

/// The steps of a trail while they are put in order.
struct Order<'a> {
    trail: &'a Trail,
    /// By step: the steps it cites, in order.
    cited: Vec<Vec<StepId>>,
    /// By step: the steps that rest on it, itself among them.
    rests_on: Vec<Vec<StepId>>,
    /// By step.
    efforts: Vec<u64>,
    /// By step: the effort of the step and of all that leads to it and has not been said.
    asks: Vec<u64>,
    /// By step: the cells it settles something about.
    cells: Vec<CellSet>,
    /// By step: whether it has its place.
    is_said: Vec<bool>,
    order: Vec<StepId>,
}

impl<'a> Order<'a> {
    fn new(trail: &'a Trail) -> Order<'a> {
        let steps = || trail.steps().map(|it| it.0);
        let cited: Vec<Vec<StepId>> =
            steps().map(|it| trail.steps_cited_by(it).into_iter().collect()).collect();
        let efforts: Vec<u64> = steps().map(|it| weight(trail, it)).collect();
        let mut rests_on: Vec<Vec<StepId>> = vec![Vec::new(); trail.n_steps()];
        let mut asks = vec![0; trail.n_steps()];
        for step in steps() {
            for it in all_below(&cited, step) {
                rests_on[it.index()].push(step);
                asks[step.index()] += efforts[it.index()];
            }
        }
        Order {
            trail,
            cited,
            rests_on,
            efforts,
            asks,
            cells: steps().map(|it| cells(trail, it)).collect(),
            is_said: vec![false; trail.n_steps()],
            order: Vec::new(),
        }
    }

    fn just_in_time(mut self) -> Vec<StepId> {
        let settling: Vec<StepId> =
            self.trail.steps().map(|it| it.0).filter(|it| self.settles(*it)).collect();
        let mut eye = CellSet::EMPTY;
        loop {
            let wanted = settling.iter().filter(|it| !self.is_said[it.index()]);
            let priced =
                wanted.map(|it| (self.asks[it.index()] + eye_move(eye, self.cells[it.index()]), *it));
            let Some((_, next)) = priced.min() else { break };
            self.say(next);
            eye = self.cells[next.index()];
        }
        // Steps that no digit rests on, if the trail has any, keep their order.
        let left: Vec<StepId> = self.trail.steps().map(|it| it.0).collect();
        left.into_iter().for_each(|it| self.say(it));
        self.order
    }

    /// Whether the step places a digit.
    fn settles(&self, id: StepId) -> bool {
        let concluded = self.trail.step(id).concludes().iter();
        concluded.into_iter().any(|it| matches!(self.trail.fact(*it).claim(), Claim::Is(..)))
    }

    /// Says the step after all that leads to it.
    fn say(&mut self, id: StepId) {
        if self.is_said[id.index()] {
            return;
        }
        for it in self.cited[id.index()].clone() {
            self.say(it);
        }
        self.is_said[id.index()] = true;
        self.rests_on[id.index()].iter().for_each(|it| self.asks[it.index()] -= self.efforts[id.index()]);
        self.order.push(id);
    }
}

/// The step and all that it rests on.
fn all_below(cited: &[Vec<StepId>], step: StepId) -> Vec<StepId> {
    let mut is_counted = vec![false; cited.len()];
    let mut below = vec![step];
    let mut next = 0;
    while let Some(it) = below.get(next) {
        let fresh =
            cited[it.index()].iter().filter(|it| !std::mem::replace(&mut is_counted[it.index()], true));
        below.extend(fresh);
        next += 1;
    }
    below
}

/// The step's weight: its technique's, or for a small argument more than any technique's.
pub(crate) fn weight(trail: &Trail, step: StepId) -> u64 {
    technique(trail.step(step).technique()).map_or(120, |it| u64::from(it.weight()))
}

/// A passage of more steps than this has no place to take breath.
const LONGEST: usize = 24;

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
            "crust-mates" | "crust-sums" | "crust-turn-settled" => Theme::Crusts,
            "filling-sets" | "outside-digits" | "spent-clue" | "last-in-sum" | "last-outside"
            | "held-digit" | "side-holds" | "sum-partners" | "partners-anywhere" | "neighbour-trials" => {
                Theme::Sums
            }
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
}
