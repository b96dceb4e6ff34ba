//! A rule that is the sandwich rule in all but name and speed.

use grid::{Digit, Size};
use rulebook::{Clue, Rule, RuleId, SANDWICH, Ways};

/// The sandwich rule by another name, without its closed form.
pub(crate) struct Listed(pub(crate) &'static str);

impl Rule for Listed {
    fn id(&self) -> RuleId {
        RuleId::new(self.0)
    }

    fn allows(&self, size: Size, value: u16, digits: &[Digit]) -> bool {
        SANDWICH.allows(size, value, digits)
    }

    fn ways(&self, size: Size, clue: &Clue) -> Ways {
        SANDWICH.ways(size, clue)
    }

    fn reachable(&self, size: Size) -> Vec<u16> {
        SANDWICH.reachable(size)
    }

    fn blind_to(&self, size: Size, a: Digit, b: Digit) -> bool {
        SANDWICH.blind_to(size, a, b)
    }

    fn same_both_ways(&self) -> bool {
        SANDWICH.same_both_ways()
    }
}
