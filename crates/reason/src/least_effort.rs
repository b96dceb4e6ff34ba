//! The search for a walkthrough that takes little effort.
//!
//! The steps are taken once, with all that was open beside them, and the cheapest of those are chosen
//! ([`cheapest`]). What the easiest way leads past is not among them: a hard step is taken as soon as
//! nothing easier is open, although a little later what it gives may be had for less. So the costliest step
//! is avoided on a detour, and stays avoided if the whole gets cheaper by that.

use grid::Grid;
use rulebook::Claim;
use trail::{Step, Trail};

use crate::chosen::cheapest;
use crate::classic::FOLLOWED;
use crate::effort::of_step_on;
use crate::explain::goals;
use crate::offer::Claims;
use crate::steps::{Avoided, Run, Terms};
use crate::{Settings, Stopped, View, technique};

/// Where one of so many last tries to do without a step has helped, more tries might.
const LAST_TRIES: usize = 4;

/// What the search found.
pub(crate) struct LeastEffort {
    /// The trail found that takes least effort step by step.
    pub(crate) trail: Trail,
    /// What is needed of the easiest step again and again: in order and with nothing cited to spare it may be the better.
    pub(crate) by_ease: Trail,
    /// Whether it ended because of its limit, while it was still finding better ways or before it tried any.
    pub(crate) has_reached_limit: bool,
}

/// Up to `detours` steps are tried to be done without; none where a small argument is needed, or what is tried and
/// followed, because each run would look for it anew.
pub(crate) fn least_effort(
    page: &View,
    solution: &Grid,
    settings: Settings,
    detours: usize,
) -> Result<LeastEffort, Stopped> {
    let mut claims = Claims::default();
    let mut best = Choice::of(Terms { page, solution, settings, avoided: &[] }.run(&mut claims, None)?);
    let by_ease = best.run.trail.needed_for(goals(&best.run.trail));
    let takes_long = |it: &Step| it.is_small_argument() || it.technique() == FOLLOWED;
    let detours = if best.trail.steps().any(|it| takes_long(it.1)) { 0 } else { detours };
    let mut avoided: Vec<Avoided> = Vec::new();
    let mut tried: Vec<Avoided> = Vec::new();
    // After how many tries the last was made that helped.
    let mut helped_last = 0;
    for _ in 0..detours {
        let Some(costliest) = costliest(&best.trail, &tried) else { break };
        tried.push(costliest);
        avoided.push(costliest);
        // A step that is far harder would hardly be better, nor would an argument.
        let weight = technique(costliest.1).map_or(u32::MAX, |it| it.weight() * 2);
        let known = settings.known.weighing_at_most(weight);
        let settings = Settings { known, arguments: 0, ..settings };
        match (Terms { page, solution, settings, avoided: &avoided }).better_than(&mut claims, &best) {
            Some(better) => {
                best = better;
                helped_last = tried.len();
            }
            // There is no way without it, or a longer one.
            None => _ = avoided.pop(),
        }
    }
    let has_reached_limit =
        costliest(&best.trail, &tried).is_some() && (detours == 0 || helped_last + LAST_TRIES > tried.len());
    Ok(LeastEffort { trail: best.trail, by_ease, has_reached_limit })
}

/// The cheapest steps of what a run had to offer.
struct Choice {
    run: Run,
    trail: Trail,
    effort: u64,
}

impl Choice {
    fn of(run: Run) -> Choice {
        let goals = goals(&run.trail);
        let chosen = cheapest(&run, &goals);
        Choice { effort: chosen.effort(), trail: chosen.trail(&goals), run }
    }

    /// The same, if it takes less than that.
    fn below(effort: u64, run: Run) -> Option<Choice> {
        let goals = goals(&run.trail);
        let chosen = Some(cheapest(&run, &goals)).filter(|it| it.effort() < effort)?;
        Some(Choice { effort: chosen.effort(), trail: chosen.trail(&goals), run })
    }
}

impl Terms<'_> {
    /// A better choice on these terms, if there is one. A quick detour finds that out; what was open beside it
    /// may then make it better still.
    fn better_than(self, claims: &mut Claims, best: &Choice) -> Option<Choice> {
        let quick = Choice::below(best.effort, self.detour(claims, &best.run).ok()?)?;
        let run = self.run(claims, Some(&quick.run)).ok();
        run.and_then(|it| Choice::below(quick.effort, it)).or(Some(quick))
    }
}

/// The step that takes most effort by itself, of those not tried yet; of equals the last.
fn costliest(trail: &Trail, tried: &[Avoided]) -> Option<Avoided> {
    let untried = trail.steps().filter(|(_, it)| !tried.contains(&named(trail, it)));
    let costliest = untried.max_by_key(|(_, it)| of_step_on(trail, it));
    costliest.map(|it| named(trail, it.1))
}

/// The step as one that is to be done without.
fn named(trail: &Trail, step: &Step) -> Avoided {
    let claim: Claim = trail.fact(step.concludes()[0]).claim();
    (claim, step.technique())
}
