//! References to earlier steps: "(step 4)", "(steps 2, 5 to 7 and 9)".
//!
//! A digit that has been placed can be seen on the board, so it is not referred to. Everything else a
//! step rests on (crusts, filling, sums, removals) is, once, and beside the premise it supports
//! where an argument knows that; what no argument mentions is caught by [`Refs::take_left_over`].

use std::collections::BTreeSet;

use rulebook::Claim;
use trail::{StepId, Trail};

use crate::Voice;
use crate::lists::{listed, numbers_in_stretches};

/// More references than this would bury the sentence they stand in.
const MOST_INLINE: usize = 5;

/// The references a step needs, and which of them have been made.
#[derive(Debug)]
pub(crate) struct Refs {
    /// The facts to refer to, with their steps, in order; and whether an argument has referred to them.
    facts: Vec<(Claim, StepId, bool)>,
    voice: Voice,
}

impl Refs {
    /// What the step's conclusions rest on and a board does not show.
    pub(crate) fn of(voice: Voice, trail: &Trail, step: StepId) -> Refs {
        let cited = trail.cites_of(step).facts;
        let facts = cited.into_iter().map(|it| trail.fact(it)).filter_map(|fact| match fact.claim() {
            Claim::Is(..) => None,
            claim => Some((claim, fact.step()?, false)),
        });
        Refs { facts: facts.collect(), voice }
    }

    /// ` (step 4)` for the facts the premise at hand rests on, or nothing.
    pub(crate) fn to(&mut self, is_meant: impl Fn(&Claim) -> bool) -> String {
        let mut steps = BTreeSet::new();
        for (claim, step, made) in &mut self.facts {
            if is_meant(claim) {
                *made = true;
                steps.insert(step.number());
            }
        }
        self.in_brackets(&steps)
    }

    /// ` (step 4)` for all that has not been referred to, or nothing if that would be long.
    pub(crate) fn rest(&mut self) -> String {
        let named = self.rest_named().filter(|_| self.voice != Voice::Spoken);
        named.map_or_else(String::new, |it| format!(" ({it})"))
    }

    /// `step 4`, `steps 4 and 6` for all that has not been referred to; none if there is nothing or
    /// it would be long.
    pub(crate) fn rest_named(&mut self) -> Option<String> {
        let steps = self.unmade();
        let is_spoken = self.voice == Voice::Spoken;
        if steps.is_empty() || (said(&steps).len() > MOST_INLINE && !is_spoken) {
            return None;
        }
        self.facts.iter_mut().for_each(|it| it.2 = true);
        Some(if is_spoken { "what we know".to_owned() } else { named(&steps) })
    }

    /// The numbers of the steps that have still not been referred to, to be listed after "steps".
    pub(crate) fn take_left_over(&mut self) -> Vec<String> {
        let steps = said(&self.unmade());
        self.facts.iter_mut().for_each(|it| it.2 = true);
        if self.voice == Voice::Spoken { Vec::new() } else { steps }
    }

    /// Whether the step rests on such a fact.
    pub(crate) fn has(&self, is_meant: impl Fn(&Claim) -> bool) -> bool {
        self.facts.iter().any(|it| is_meant(&it.0))
    }

    /// A listener cannot look a step up, so nothing is said of it aloud.
    fn in_brackets(&self, steps: &BTreeSet<usize>) -> String {
        match steps.is_empty() || self.voice == Voice::Spoken {
            true => String::new(),
            false => format!(" ({})", named(steps)),
        }
    }

    /// Steps with a fact that has not been referred to; a step already named need not be named again.
    fn unmade(&self) -> BTreeSet<usize> {
        let numbers = |made: bool| self.facts.iter().filter(move |it| it.2 == made).map(|it| it.1.number());
        let named: BTreeSet<usize> = numbers(true).collect();
        numbers(false).filter(|it| !named.contains(it)).collect()
    }
}

fn named(steps: &BTreeSet<usize>) -> String {
    let plural = if steps.len() == 1 { "" } else { "s" };
    format!("step{plural} {}", listed(&said(steps), "and"))
}

fn said(steps: &BTreeSet<usize>) -> Vec<String> {
    numbers_in_stretches(&steps.iter().copied().collect::<Vec<_>>())
}
