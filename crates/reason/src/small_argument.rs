//! The last resort: a small argument by cases.
//!
//! Where no technique offers a step, some candidate can still be shown to be impossible from a few houses and
//! clues. The fewest that prove anything are searched for (`smallest`), by questions that boards met before, trials
//! on those houses alone and a SAT solver answer, in this order (`questions`, `counterexamples`, `trial`, `encode`); of
//! those sets the one is taken that leads on best. Its proofs are cut down until nothing can be spared, among
//! houses and clues (`cores`), then among known facts (`ground`); what is left is worked out as cases a person
//! can follow (`trace`). It counts only if `replay` accepts it. Where the search for the fewest gives up, what the solver
//! used of all houses is cut down instead (`irreducible`): that argument is not proven to be the smallest, and
//! says so. Where that cannot be told either, and once a walkthrough holds more arguments than anybody reads, the
//! first that is easy to follow is taken (`quick`). Published work on the same idea, explanations from smallest
//! unsatisfiable subsets: B. Bogaerts, E. Gamba, T. Guns, Artificial Intelligence 300 (2021) 103550.

mod cores;
mod counterexamples;
mod encode;
mod ground;
mod held;
mod irreducible;
mod premise;
mod questions;
mod quick;
mod smallest;
mod trace;
mod trial;

#[cfg(test)]
#[path = "../tests/reasoning/support/seeded.rs"]
mod seeded;

use std::cmp::Reverse;

use grid::{Cell, Grid};
use rulebook::Claim;
use trail::{Argument, Branch, Cites, Proposal, TechniqueId};

use crate::View;
use cores::Core;
use counterexamples::Met;
use encode::Prover;
pub use premise::{Goal, Premise};
use questions::Questions;

/// How much work an argument may cost.
#[derive(Clone, Copy, Debug)]
pub struct Effort {
    /// Houses held in view at once, while the fewest are searched for.
    pub houses: usize,
    /// Questions to the solver in that search.
    pub questions: usize,
    /// Sets of the fewest houses among which one is chosen.
    pub sets: usize,
    /// Where that search gives up: how many of the shortest cores are cut down and looked at, and how many
    /// others that the same premises prove.
    pub cores: usize,
    /// Nodes `replay` may use for a conclusion.
    pub cap: replay::Cap,
    /// Cases one conclusion may take to tell; an argument that needs more is left for another.
    pub cases: usize,
    /// Cases that may be tried in all where no other argument can be told, and for those made quickly.
    pub cases_at_worst: usize,
    /// How many arguments of one solve are made with care. Those after are made quickly: a walkthrough with so
    /// many is hardly read.
    pub careful: usize,
    /// Conclusions a step may draw from the same premises.
    pub conclusions: usize,
}

/// The arguments of one solve, each found quicker for what was met in looking for those before.
#[derive(Debug)]
pub struct Arguments<'a> {
    solution: &'a Grid,
    effort: Effort,
    /// Boards that satisfied some houses without being the solution.
    met: Met,
    n_found: usize,
}

impl<'a> Arguments<'a> {
    /// No argument yet. `solution` is the puzzle's only one: it says which claims are worth a try, and is no
    /// part of an argument.
    pub fn new(solution: &'a Grid, effort: Effort) -> Arguments<'a> {
        Arguments { solution, effort, met: Met::default(), n_found: 0 }
    }

    /// An argument for something still open, from the fewest houses or little more, with the conclusions
    /// that they prove: the one whose conclusions lead farthest, by `leads_to`; of equals the smallest.
    ///
    /// None if no argument within the effort passes `replay`.
    pub fn find(&mut self, view: &View, leads_to: impl Fn(&[Claim]) -> usize) -> Option<Proposal> {
        self.find_among(view, &premise::open_goals(view, self.solution), leads_to)
    }

    /// The same for what is open about one cell.
    pub(crate) fn find_about(&mut self, view: &View, cell: Cell) -> Option<Proposal> {
        let open = premise::open_goals(view, self.solution).into_iter();
        self.find_among(view, &open.filter(|it| it.cell == cell).collect::<Vec<_>>(), |_| 0)
    }

    fn find_among(
        &mut self,
        view: &View,
        goals: &[Goal],
        leads_to: impl Fn(&[Claim]) -> usize,
    ) -> Option<Proposal> {
        self.n_found += 1;
        if self.n_found > self.effort.careful {
            let mut prover = Prover::new(view, self.solution);
            return quick::quick(view, &mut prover, goals, self.effort).map(|it| proposal(vec![it], false));
        }
        let held = held::all(view);
        let met = std::mem::take(&mut self.met);
        let mut questions = Questions::new(view, self.solution, &held, goals, met, self.effort.questions);
        let mut sets = smallest::smallest(&mut questions, self.effort);
        sets.sort_by_cached_key(|it| Reverse(leads_to(&it.claims())));
        let told = sets.into_iter().find_map(|set| {
            let told = self.told(view, &mut questions.prover, set.proofs);
            (!told.is_empty()).then(|| proposal(told, set.is_smallest))
        });
        let told = told.or_else(|| self.cut_from_all(view, &mut questions).map(|it| proposal(it, false)));
        self.met = questions.into_met();
        told
    }

    /// What can be told of the proofs, each cut down first.
    fn told(&self, view: &View, prover: &mut Prover, mut proofs: Vec<Core>) -> Vec<Told> {
        let kinds: Vec<Goal> = proofs.iter().map(|it| it.goal).filter(|it| it.denied.len() > 1).collect();
        // Where a cell is shown to be of a kind, the digits that go with it are not concluded again.
        let is_implied = |goal: &Goal| {
            let by = |it: &Goal| it.cell == goal.cell && it != goal && (goal.denied - it.denied).is_empty();
            kinds.iter().any(by)
        };
        proofs.retain(|it| !is_implied(&it.goal));
        let told = proofs.into_iter().filter_map(|mut core| {
            cores::shrink(prover, &mut core);
            told(view, &core, self.effort)
        });
        told.take(self.effort.conclusions).collect()
    }

    /// An argument from houses that are cut down from all of them; where none of those is easy to tell, a quick
    /// one, however many cases it takes: so that every puzzle is explained to the end.
    fn cut_from_all(&self, view: &View, questions: &mut Questions) -> Option<Vec<Told>> {
        questions.allow(self.effort.questions);
        let few_houses = irreducible::irreducible(questions, self.effort.cores);
        let easy = few_houses.into_iter().find_map(|(goal, houses)| {
            let mut core = questions.core(houses, goal)?;
            cores::shrink(&mut questions.prover, &mut core);
            Some((told_if_easy(view, &core, self.effort)?, core))
        });
        let Some((first, core)) = easy else {
            return quick::quick(view, &mut questions.prover, questions.goals, self.effort)
                .map(|it| vec![it]);
        };
        let others = cores::others_proved(&mut questions.prover, questions.goals, &core);
        let others = others.into_iter().take(self.effort.cores);
        let others = others.filter_map(|it| told_if_easy(view, &it, self.effort));
        Some([first].into_iter().chain(others).take(self.effort.conclusions).collect())
    }
}

fn proposal(told: Vec<Told>, is_smallest: bool) -> Proposal {
    let (conclusions, branches): (Vec<_>, Vec<Branch>) =
        told.into_iter().map(|it| ((it.claim, it.cites), it.branch)).unzip();
    Proposal {
        technique: TechniqueId::SMALL_ARGUMENT,
        argument: Argument::Cases { branches, is_smallest },
        conclusions,
    }
}

/// A conclusion that can be told as cases and has passed `replay`.
struct Told {
    claim: Claim,
    cites: Cites,
    branch: Branch,
}

/// The same where that looks worth the work: what to cite is looked for only if all that is known would do in not
/// many more cases.
fn told_if_easy(view: &View, core: &Core, effort: Effort) -> Option<Told> {
    trace::n_cases(view, core.goal, &core.premises, 2 * effort.cases)?;
    told(view, core, effort)
}

fn told(view: &View, core: &Core, effort: Effort) -> Option<Told> {
    told_from(view, core, ground::cites(view, core)?, effort)
}

fn told_from(view: &View, core: &Core, cites: Cites, effort: Effort) -> Option<Told> {
    let branch = trace::trace(view, core.goal, &cites, effort.cases)?;
    let claim = core.goal.claim;
    replay::judge(view.puzzle(), view.trail(), &claim, &cites, effort.cap).ok()?;
    Some(Told { claim, cites, branch })
}
