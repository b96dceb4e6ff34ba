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

/// What steps are called that are too many to be named in a sentence, or that nobody can look up.
pub(crate) const EARLIER_STEPS: &str = "earlier steps";

/// What has become of a reference.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Named {
    /// No argument has spoken of the fact.
    No,
    /// An argument has, and leaves its step to be named at the end.
    Later,
    /// The step is named, or need not be.
    Yes,
}

/// The references a step needs, and which of them have been made.
#[derive(Debug)]
pub(crate) struct Refs {
    /// The facts to refer to, with their steps, in order; and whether an argument has referred to them.
    facts: Vec<(Claim, StepId, Named)>,
    voice: Voice,
}

impl Refs {
    /// What the step's conclusions rest on and a board does not show.
    pub(crate) fn of(voice: Voice, trail: &Trail, step: StepId) -> Refs {
        let cited = trail.cites_of(step).facts;
        let facts = cited.into_iter().map(|it| trail.fact(it)).filter_map(|fact| match fact.claim() {
            Claim::Is(..) => None,
            claim => Some((claim, fact.step()?, Named::No)),
        });
        Refs { facts: facts.collect(), voice }
    }

    /// ` (step 4)` for the facts the premise at hand rests on, or nothing.
    pub(crate) fn to(&mut self, is_meant: impl Fn(&Claim) -> bool) -> String {
        let steps = self.set(is_meant, Named::Yes);
        self.in_brackets(&steps)
    }

    /// The same, or nothing if that would be long: then the steps are named at the end.
    pub(crate) fn few(&mut self, is_meant: impl Fn(&Claim) -> bool) -> String {
        let steps = self.set(&is_meant, Named::Later);
        match self.is_long(&steps) {
            true => String::new(),
            false => self.to(is_meant),
        }
    }

    /// ` (step 4)` for all that has not been referred to, or nothing if that would be long.
    pub(crate) fn rest(&mut self) -> String {
        let steps = self.unmade(Named::No);
        if self.is_long(&steps) {
            return String::new();
        }
        self.set_named();
        self.in_brackets(&steps)
    }

    /// `step 4`, `steps 4 and 6` for all that has not been referred to; `earlier steps` if that would be long or
    /// cannot be looked up; none if there is nothing.
    pub(crate) fn rest_named(&mut self) -> Option<String> {
        let steps = self.unmade(Named::No);
        let is_plain = self.voice == Voice::Spoken || self.is_long(&steps);
        if !self.is_long(&steps) {
            self.set_named();
        }
        (!steps.is_empty()).then(|| if is_plain { EARLIER_STEPS.to_owned() } else { named(&steps) })
    }

    /// The numbers of the steps that have still not been referred to, to be listed after "steps".
    pub(crate) fn take_left_over(&mut self) -> Vec<String> {
        let mut steps = self.unmade(Named::No);
        steps.extend(self.unmade(Named::Later));
        self.set(|_| true, Named::Yes);
        if self.voice == Voice::Spoken { Vec::new() } else { said(&steps) }
    }

    /// Notes that the step has been named.
    pub(crate) fn note(&mut self, step: StepId) {
        self.facts.iter_mut().filter(|it| it.1 == step).for_each(|it| it.2 = Named::Yes);
    }

    /// Leaves out the facts that a step which is referred to rests on as well.
    pub(crate) fn leave_out(&mut self, known: &[Claim]) {
        self.facts.retain(|it| !known.contains(&it.0));
    }

    /// Whether the step rests on such a fact.
    pub(crate) fn has(&self, is_meant: impl Fn(&Claim) -> bool) -> bool {
        self.facts.iter().any(|it| is_meant(&it.0))
    }

    /// Sets what has become of such facts, and gives their steps.
    fn set(&mut self, is_meant: impl Fn(&Claim) -> bool, to: Named) -> BTreeSet<usize> {
        let meant = self.facts.iter_mut().filter(|it| is_meant(&it.0));
        meant
            .map(|it| {
                it.2 = to;
                it.1.number()
            })
            .collect()
    }

    /// Notes that what no argument had spoken of is named.
    fn set_named(&mut self) {
        self.facts.iter_mut().filter(|it| it.2 == Named::No).for_each(|it| it.2 = Named::Yes);
    }

    /// Whether the steps are too many to be named within a sentence.
    fn is_long(&self, steps: &BTreeSet<usize>) -> bool {
        self.voice != Voice::Spoken && said(steps).len() > MOST_INLINE
    }

    /// A listener cannot look a step up, so nothing is said of it aloud.
    fn in_brackets(&self, steps: &BTreeSet<usize>) -> String {
        match steps.is_empty() || self.voice == Voice::Spoken {
            true => String::new(),
            false => format!(" ({})", named(steps)),
        }
    }

    /// Steps whose facts are so; a step already named need not be named again.
    fn unmade(&self, so: Named) -> BTreeSet<usize> {
        let numbers = |so: Named| self.facts.iter().filter(move |it| it.2 == so).map(|it| it.1.number());
        let made: BTreeSet<usize> = numbers(Named::Yes).collect();
        numbers(so).filter(|it| !made.contains(it)).collect()
    }
}

fn named(steps: &BTreeSet<usize>) -> String {
    let plural = if steps.len() == 1 { "" } else { "s" };
    format!("step{plural} {}", listed(&said(steps), "and"))
}

fn said(steps: &BTreeSet<usize>) -> Vec<String> {
    numbers_in_stretches(&steps.iter().copied().collect::<Vec<_>>())
}
