//! The fewest houses that prove something open: sets of them are tried by size.
//!
//! One house with its clue is tried first, then every connected two, three and so on, each set for
//! everything that is open about its cells at once. Most sets are known to prove nothing before they are
//! looked at, because a board that was met before satisfies them and denies all of it; only where there is
//! no such board is one looked for, and what comes of that is either a proof or one more board. As nothing
//! smaller proves anything, what is found is the smallest there is. That no set need be tried that some
//! board allows is the idea of the published searches for optimal explanations (implicit hitting sets:
//! E. Gamba, B. Bogaerts, T. Guns, JAIR 78, 2023); where those ask another solver for the next set, few
//! houses allow to go through all.

use std::collections::BTreeSet;
use std::ops::ControlFlow;

use grid::CellSet;
use rulebook::Claim;

use super::encode::Answer;
use super::held::{self, HeldSet, members};
use super::premise::Goal;
use super::questions::{NoneLeft, Questions};
use super::trial::Tried;
use super::{Core, Effort};

/// Houses held in view together, with all that they prove.
pub(super) struct Set {
    /// Whether no fewer houses prove anything.
    pub(super) is_smallest: bool,
    pub(super) proofs: Vec<Core>,
}

/// Sets of the smallest size that proves anything, and of one house more, which may lead farther;
/// the smallest first, no two of which prove the same. Empty if nothing is proved within
/// reach of the effort.
pub(super) fn smallest(questions: &mut Questions, effort: Effort) -> Vec<Set> {
    let proving = vec![Vec::new(); questions.goals.len()];
    let mut sizes = 1..=effort.houses.min(questions.held.len());
    let mut search = Search { questions, proving };
    let smallest = sizes.by_ref().map(|n| search.of_size(n, effort.sets)).find(|it| !it.is_empty());
    let larger = sizes.next().filter(|it| *it <= IN_VIEW).map(|n| search.of_size(n, effort.sets));
    let smallest = smallest.unwrap_or_default();
    let n_smallest = smallest.len();
    let all = smallest.into_iter().chain(larger.into_iter().flatten()).enumerate();
    let mut seen = BTreeSet::new();
    let sets = all.map(|(at, proofs)| Set { is_smallest: at < n_smallest, proofs });
    sets.filter(|it| seen.insert(it.claims())).collect()
}

/// More houses than these are held in view only if nothing less proves anything.
const IN_VIEW: usize = 5;

impl Set {
    /// What is proved.
    pub(super) fn claims(&self) -> Vec<Claim> {
        self.proofs.iter().map(|it| it.goal.claim).collect()
    }
}

/// How many houses are asked about at once, in the hope for a board that satisfies them all.
const WIDE: u32 = 8;

struct Search<'q, 'a> {
    questions: &'q mut Questions<'a>,
    /// By goal: sets that prove it, as larger questions have shown.
    proving: Vec<Vec<HeldSet>>,
}

impl Search<'_, '_> {
    /// Up to `most` sets of so many houses that prove something.
    fn of_size(&mut self, n: usize, most: usize) -> Vec<Vec<Core>> {
        let mut found = Vec::new();
        // Whether all sets were visited does not matter: no smaller one proves anything.
        _ = held::connected(self.questions.held, n, |set| {
            let is_over = self.try_set(set, &mut found).is_err();
            if is_over || found.len() == most { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        found
    }

    /// Tries the set for everything open about its cells.
    fn try_set(&mut self, set: HeldSet, found: &mut Vec<Vec<Core>>) -> Result<(), NoneLeft> {
        let mut open = self.questions.open_about(set);
        let mut proofs = Vec::new();
        let mut tried = Ok(());
        while let Some(at) = open.first() {
            match self.ask_widely(set, at) {
                Err(none_left) => {
                    tried = Err(none_left);
                    break;
                }
                Ok(Answer::Proved(premises)) => {
                    proofs.push(Core { goal: self.questions.goals[at], premises });
                    open.take(at);
                }
                Ok(Answer::Counterexample(board)) => self.questions.keep(board, &mut open),
            }
        }
        if !proofs.is_empty() {
            found.push(proofs);
        }
        tried
    }

    /// Whether the set proves the goal.
    ///
    /// The set is tried with houses around it first: a board that satisfies more houses answers for more
    /// sets.
    fn ask_widely(&mut self, set: HeldSet, goal: usize) -> Result<Answer, NoneLeft> {
        let wide = self.widened(set, self.questions.goals[goal]);
        if wide != set && !self.proving[goal].iter().any(|it| it & !wide == 0) {
            match self.questions.try_deny(wide, goal)? {
                Tried::Board(board) => return Ok(Answer::Counterexample(board)),
                Tried::NoBoard => {
                    let Answer::Proved(premises) = self.questions.ask(wide, goal) else {
                        unreachable!("no board satisfies the houses and denies the goal")
                    };
                    self.proving[goal].push(held::holding(self.questions.held, &premises));
                }
                Tried::Undecided => {}
            }
        }
        match self.questions.try_deny(set, goal)? {
            Tried::Board(board) => Ok(Answer::Counterexample(board)),
            Tried::NoBoard | Tried::Undecided => Ok(self.questions.ask(set, goal)),
        }
    }

    /// The set with more houses, up to [`WIDE`]: those of the goal's cell, then others that touch the set.
    fn widened(&self, set: HeldSet, goal: Goal) -> HeldSet {
        let held = self.questions.held;
        let fill = |set: HeldSet, open: CellSet| {
            let touched = (0..held.len()).filter(|it| !(held[*it].open() & open).is_empty());
            touched.fold(set, |all, it| if all.count_ones() < WIDE { all | 1 << it } else { all })
        };
        let open = members(set).fold(CellSet::EMPTY, |all, it| all | held[it].open());
        fill(fill(set, [goal.cell].into_iter().collect()), open)
    }
}

#[cfg(test)]
mod tests {
    use grid::Size;
    use trail::Cites;

    use super::super::counterexamples::Met;
    use super::super::held::Held;
    use super::super::premise::{self, Premise};
    use super::super::seeded::{Made, puzzle as seeded};
    use super::*;
    use crate::{Settings, View};

    /// `replay` is asked about every set of so many houses, connected or not, and everything open.
    fn is_something_proved(view: &View, goals: &[Goal], held: &[Held], n: usize) -> bool {
        let facts = view.trail().facts().map(|it| it.0).collect();
        let known = Cites { facts, ..Cites::default() };
        let sets = sets_of(n, held.len()).into_iter();
        sets.map(|set| with(&known, set, held)).any(|cites| {
            let cap = replay::Cap(1_000_000);
            let is_proved =
                |it: &Goal| replay::judge(view.puzzle(), view.trail(), &it.claim, &cites, cap).is_ok();
            goals.iter().any(is_proved)
        })
    }

    /// Every set of `n` of so many.
    fn sets_of(n: usize, of: usize) -> Vec<HeldSet> {
        match (n, of) {
            (0, _) => vec![0],
            (_, 0) => Vec::new(),
            _ => {
                let with_last = sets_of(n - 1, of - 1).into_iter().map(|it| it | 1 << (of - 1));
                sets_of(n, of - 1).into_iter().chain(with_last).collect()
            }
        }
    }

    /// The citations with those houses and their clues besides.
    fn with(known: &Cites, set: HeldSet, held: &[Held]) -> Cites {
        let mut cites = known.clone();
        for premise in members(set).flat_map(|it| &held[it].premises) {
            match *premise {
                Premise::House(house) => _ = cites.houses.insert(house),
                Premise::Clue(clue, _) => _ = cites.clues.insert(clue),
                Premise::Fact(fact, ..) => _ = cites.facts.insert(fact),
            }
        }
        cites
    }

    /// What is seen in a house, said: `replay` looks at no house that is not cited.
    fn say_what_is_seen<'a>(view: &View<'a>) -> View<'a> {
        let digits = view.size().digits();
        let seen = view
            .open_cells()
            .flat_map(|cell| (digits - view.candidates(cell)).iter().map(move |it| Claim::IsNot(cell, it)))
            .filter(|it| view.fact(*it).is_none());
        let seen: Vec<Claim> = seen.collect();
        view.with(seen)
    }

    #[test]
    fn nothing_is_proved_by_fewer_houses() {
        let mut sizes_met = BTreeSet::new();
        for (side, n_clues, seeds) in [(4, 2, 0..6), (6, 4, 0..3), (9, 0, 0..3)] {
            for seed in seeds {
                let size = Size::of_side(side).unwrap();
                let Made { puzzle, solution } = seeded(size, n_clues, seed);
                let mut view = say_what_is_seen(&View::new(&puzzle));
                // Each position is followed by the one in which everything found is known.
                loop {
                    let goals = premise::open_goals(&view, &solution);
                    if goals.is_empty() {
                        break;
                    }
                    let held = held::all(&view);
                    let effort = Settings::THOROUGH.argument;
                    let met = Met::default();
                    let mut questions =
                        Questions::new(&view, &solution, &held, &goals, met, effort.questions);
                    let sets = smallest(&mut questions, effort);
                    let name = format!("{side}x{side}, {n_clues} clues, seed {seed}");
                    let houses = |it: &Set| -> usize {
                        let in_view = it.proofs.iter().flat_map(|it| &it.premises).map(|it| it.house());
                        in_view.collect::<BTreeSet<_>>().len()
                    };
                    let of_smallest: BTreeSet<usize> =
                        sets.iter().filter(|it| it.is_smallest).map(houses).collect();
                    let n = *of_smallest.first().unwrap();
                    assert_eq!(of_smallest.len(), 1, "{name}: {of_smallest:?}");
                    let fewer = is_something_proved(&view, &goals, &held, n - 1);
                    assert!(!fewer, "{name}: {} houses prove something", n - 1);
                    sizes_met.insert(n);
                    let claims: BTreeSet<Claim> = sets.iter().flat_map(Set::claims).collect();
                    view = say_what_is_seen(&view.with(claims));
                }
            }
        }
        assert!(sizes_met.len() > 1, "{sizes_met:?} shows little");
    }
}
