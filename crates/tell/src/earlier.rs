//! What a step not far back has said in full, so that it need not be said again.

use grid::DigitSet;
use rulebook::{Claim, ClueId};
use trail::{Argument, Side, StepId};

use crate::Voice;
use crate::telling::Telling;

/// So many steps back a reader is sent.
const NEAR: usize = 12;
/// So many steps back a listener remembers.
const NEAR_ALOUD: usize = 4;

/// The step near by that worked out what the clue leaves outside its crusts.
pub(crate) fn sum_outside(it: &Telling<'_>, of: ClueId) -> Option<StepId> {
    outside_before(it, it.step, of)
}

/// The step near by that listed the sets of the same sum, with those it left, if it left all these.
pub(crate) fn sets<'a>(
    it: &Telling<'a>,
    of: ClueId,
    on: Side,
    left: &[DigitSet],
) -> Option<(StepId, &'a [DigitSet])> {
    sets_before(it, it.step, (of, on), left)
}

/// The step near by that worked out the same for another line, and whether that line's clue has the same value;
/// if not, it has the same bounds.
pub(crate) fn same_value(it: &Telling<'_>) -> Option<(StepId, bool)> {
    let before = value_before(it, it.step)?;
    let sum = |step: StepId| match it.trail.step(step).argument() {
        Argument::CrustDistance { sum, .. } | Argument::CrustsAtEnds { sum, .. } => Some(*sum),
        _ => None,
    };
    Some((before, sum(before) == sum(it.step)))
}

/// Whether a step before has said what the filling digits of a line add up to. Every line has the same.
pub(crate) fn total(it: &Telling<'_>) -> bool {
    let says_it = |step: StepId| {
        let argument = it.trail.step(step).argument();
        matches!(
            argument,
            Argument::Sets { side: Side::Outside, .. } | Argument::Remainder { side: Side::Outside, .. }
        )
    };
    it.trail.steps().map(|it| it.0).take(it.step.index()).any(says_it)
}

/// Whether the step right before this one concludes such a fact, so that it has just been read.
pub(crate) fn just_found(it: &Telling<'_>, is_meant: impl Fn(&Claim) -> bool) -> bool {
    let before = it.step.index().checked_sub(1).and_then(|at| it.trail.steps().map(|it| it.1).nth(at));
    before.is_some_and(|step| step.concludes().iter().any(|fact| is_meant(&it.trail.fact(*fact).claim())))
}

fn value_before(it: &Telling<'_>, at: StepId) -> Option<StepId> {
    let is_same = |a: &Argument, b: &Argument| match (a, b) {
        (
            Argument::CrustDistance { short: a_short, over: a_over, .. },
            Argument::CrustDistance { short: b_short, over: b_over, .. },
        ) => (a_short, a_over) == (b_short, b_over) && !(a_short.is_empty() && a_over.is_empty()),
        (Argument::CrustsAtEnds { sum: a, .. }, Argument::CrustsAtEnds { sum: b, .. }) => a == b,
        _ => false,
    };
    let argument = |it_: StepId| it.trail.step(it_).argument();
    near(it, at).find(|it_| is_same(argument(*it_), argument(at)) && value_before(it, *it_).is_none())
}

/// ` (step 4)`, or aloud that it has been said.
pub(crate) fn named(voice: Voice, step: StepId) -> String {
    match voice {
        Voice::Spoken => ", as before".to_owned(),
        _ => format!(" (step {})", step.number()),
    }
}

/// Only steps that say it themselves count: nobody is sent to a step that sends on.
fn outside_before(it: &Telling<'_>, at: StepId, of: ClueId) -> Option<StepId> {
    let says_it = |step: &StepId| match it.trail.step(*step).argument() {
        Argument::Sets { clue, side: Side::Outside, sets, .. } => {
            *clue == of && sets_before(it, *step, (of, Side::Outside), sets).is_none()
        }
        Argument::Remainder { clue, side: Side::Outside, .. } => *clue == of,
        _ => false,
    };
    near(it, at).filter(says_it).find(|it_| outside_before(it, *it_, of).is_none())
}

fn sets_before<'a>(
    it: &Telling<'a>,
    at: StepId,
    of: (ClueId, Side),
    left: &[DigitSet],
) -> Option<(StepId, &'a [DigitSet])> {
    let lists = |step: StepId| match it.trail.step(step).argument() {
        Argument::Sets { clue, side, sets, .. } if (*clue, *side) == of => Some((step, sets.as_slice())),
        _ => None,
    };
    let has_all = |sets: &[DigitSet]| sets.len() > 1 && left.iter().all(|it| sets.contains(it));
    let listed = near(it, at).filter_map(lists).filter(|(_, sets)| has_all(sets));
    listed.filter(|(step, sets)| sets_before(it, *step, of, sets).is_none()).last()
}

/// The steps that are not long before this one.
fn near<'a>(it: &Telling<'a>, at: StepId) -> impl Iterator<Item = StepId> + use<'a> {
    let near = if it.voice == Voice::Spoken { NEAR_ALOUD } else { NEAR };
    let first = at.index().saturating_sub(near);
    it.trail.steps().map(|it| it.0).skip(first).take(at.index() - first)
}
