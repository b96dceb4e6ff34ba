//! The search for a walkthrough that takes little effort.
//!
//! The steps are taken once, with all that was open beside them, and the cheapest of those are chosen
//! ([`cheapest`]). What the easiest way leads past is not among them: a hard step is taken as soon as
//! nothing easier is open, although a little later what it gives may be had for less. So the costliest step
//! is avoided in another run, and stays avoided if the whole gets cheaper by that.

use grid::Grid;
use rulebook::{Claim, Puzzle};
use trail::{Step, Trail};

use crate::chosen::cheapest;
use crate::effort::{of_step, of_steps};
use crate::explain::goals;
use crate::steps::{Avoided, take_steps};
use crate::{Settings, Stopped, technique};

/// Two trails to choose from when they are in order and nothing is cited to spare: the one found that takes least
/// effort step by step, and what is needed of the easiest step again and again. Up to `detours` steps are tried to
/// be done without; none where a small argument is needed, because each run would look for it anew.
pub(crate) fn least_effort(
    puzzle: &Puzzle,
    solution: &Grid,
    settings: Settings,
    detours: usize,
) -> Result<Vec<Trail>, Stopped> {
    let run = |settings: Settings, avoided: &[Avoided]| {
        let mut offers = Vec::new();
        let trail = take_steps(puzzle, solution, settings, avoided, Some(&mut offers))?;
        let goals = goals(&trail);
        Ok((cheapest(&trail, &offers, &goals), trail.needed_for(goals)))
    };
    let (mut best, by_ease) = run(settings, &[])?;
    let detours = if best.steps().any(|it| it.1.is_small_argument()) { 0 } else { detours };
    let by_techniques = Settings { arguments: 0, ..settings };
    let mut avoided: Vec<Avoided> = Vec::new();
    let mut tried: Vec<Avoided> = Vec::new();
    for _ in 0..detours {
        let Some(costliest) = costliest(&best, &tried) else { break };
        tried.push(costliest);
        avoided.push(costliest);
        // A step that is far harder would hardly be better.
        let weight = technique(costliest.0).map_or(u32::MAX, |it| it.weight() * 2);
        let known = settings.known.weighing_at_most(weight);
        match run(Settings { known, ..by_techniques }, &avoided) {
            Ok((other, _)) if of_steps(&other) < of_steps(&best) => best = other,
            // There is no way without it, or a longer one.
            _ => _ = avoided.pop(),
        }
    }
    Ok(vec![best, by_ease])
}

/// The step that takes most effort by itself, of those not tried yet; of equals the last.
fn costliest(trail: &Trail, tried: &[Avoided]) -> Option<Avoided> {
    let name = |it: &Step| -> Avoided {
        let claim: Claim = trail.fact(it.concludes()[0]).claim();
        (it.technique(), claim)
    };
    let untried = trail.steps().filter(|(_, it)| !tried.contains(&name(it)));
    let costliest =
        untried.max_by_key(|(id, it)| of_step(it.technique(), it.argument(), &trail.cites_of(*id)));
    costliest.map(|it| name(it.1))
}
