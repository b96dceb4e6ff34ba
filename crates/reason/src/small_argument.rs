//! The last resort: a small argument by cases.
//!
//! Where no technique offers a step, some candidate can still be shown to be impossible from a few
//! houses and clues. A SAT solver is asked, for every open question at once, which premises already
//! decide it (`cores`); the shortest answers are cut down until nothing can be spared, first among
//! houses and clues, then among known facts (`ground`); what is left is worked out as cases a
//! person can follow (`trace`). It counts only if `replay` accepts it. Published work on the same
//! idea, explanations from smallest unsatisfiable subsets: B. Bogaerts, E. Gamba, T. Guns,
//! Artificial Intelligence 300 (2021) 103550.
//!
//! The argument is irreducible (no premise can be dropped), not proven to be the smallest.

mod cores;
mod encode;
mod ground;
mod premise;
mod trace;

use grid::{Cell, Grid};
use rulebook::Claim;
use trail::{Argument, Branch, Cites, Proposal, TechniqueId};

use crate::View;
use crate::effort::size_of;
use cores::Core;
pub use premise::{Goal, Premise};

/// How much work an argument may cost.
#[derive(Clone, Copy, Debug)]
pub struct Effort {
    /// How many of the shortest cores are cut down and looked at first.
    pub cores: usize,
    /// Nodes `replay` may use for a conclusion.
    pub cap: replay::Cap,
    /// Cases one conclusion may take to tell; an argument that needs more is left for another.
    pub cases: usize,
    /// Cases one conclusion may take where no other argument can be told.
    pub cases_at_worst: usize,
    /// Conclusions a step may draw from the same premises.
    pub conclusions: usize,
}

/// The smallest argument found for anything still open, with every conclusion its premises prove.
///
/// `solution` is the puzzle's only one: it says which claims are worth a try, and is no part of the
/// argument. None if no argument within the effort passes `replay`.
pub fn find(view: &View, solution: &Grid, effort: Effort) -> Option<Proposal> {
    find_among(view, &premise::open_goals(view, solution), effort)
}

/// The same for what is open about one cell.
pub(crate) fn find_about(view: &View, solution: &Grid, cell: Cell, effort: Effort) -> Option<Proposal> {
    let open = premise::open_goals(view, solution).into_iter();
    find_among(view, &open.filter(|it| it.cell == cell).collect::<Vec<_>>(), effort)
}

fn find_among(view: &View, goals: &[Goal], effort: Effort) -> Option<Proposal> {
    let mut prover = encode::Prover::new(view);
    let mut shortest = cores::shortest(&mut prover, goals, effort.cores);
    let rest = shortest.split_off(effort.cores.min(shortest.len()));
    cores::shrink_all(&mut prover, &mut shortest);
    let (core, first) = easiest_told(view, &shortest, effort)
        .or_else(|| first_told(view, &mut prover, shortest.into_iter().chain(rest), effort))?;
    let mut conclusions = vec![first];
    for goal in cores::others_proved(&mut prover, goals, &core) {
        if conclusions.len() == effort.conclusions {
            break;
        }
        conclusions.extend(told(view, &goal, effort));
    }
    let (conclusions, branches): (Vec<_>, Vec<Branch>) =
        conclusions.into_iter().map(|it| ((it.claim, it.cites), it.branch)).unzip();
    Some(Proposal {
        technique: TechniqueId::SMALL_ARGUMENT,
        argument: Argument::Cases(branches),
        conclusions,
    })
}

/// Of the cores that hold little more in view than the shortest, the one that is told in the fewest
/// cases and consequences.
fn easiest_told(view: &View, shrunk: &[Core], effort: Effort) -> Option<(Core, Told)> {
    let fewest = shrunk.first()?.premises.len();
    let near = shrunk.iter().take_while(|it| it.premises.len() <= fewest + 1).take(COMPARED);
    let told = near.filter_map(|core| Some((core.clone(), told(view, core, effort)?)));
    told.min_by_key(|(core, it)| core.premises.len() as u64 + size_of(&it.branch))
}

/// How many arguments are worked out to find the one that is told most easily.
const COMPARED: usize = 8;

/// The first core that can be told at all, however many cases it takes: so that every puzzle is
/// explained to the end.
fn first_told(
    view: &View,
    prover: &mut encode::Prover,
    cores: impl Iterator<Item = Core>,
    effort: Effort,
) -> Option<(Core, Told)> {
    let mut cores: Vec<Core> = cores.collect();
    cores.iter_mut().for_each(|it| cores::shrink(prover, it));
    let patient = Effort { cases: effort.cases_at_worst, ..effort };
    cores.into_iter().find_map(|core| told(view, &core, patient).map(|it| (core, it)))
}

/// A conclusion that can be told as cases and has passed `replay`.
struct Told {
    claim: Claim,
    cites: Cites,
    branch: Branch,
}

fn told(view: &View, core: &Core, effort: Effort) -> Option<Told> {
    let cites = ground::cites(view, core)?;
    let branch = trace::trace(view, core.goal, &cites, effort.cases)?;
    let claim = core.goal.claim;
    replay::judge(view.puzzle(), view.trail(), &claim, &cites, effort.cap).ok()?;
    Some(Told { claim, cites, branch })
}
