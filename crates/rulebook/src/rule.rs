//! What a rule has to say for itself, and the list of all rules.

use std::fmt;

use grid::{Digit, DigitSet, Size};

use crate::sandwich::SANDWICH;
use crate::{Between, Clue, Ways};

/// Every rule beyond the classic one, by which each house holds each digit once.
pub static RULES: [&dyn Rule; 1] = [&SANDWICH];

/// The rule of that name, as a puzzle file writes it.
pub fn rule(name: &str) -> Option<&'static dyn Rule> {
    RULES.into_iter().find(|it| it.id().name() == name)
}

/// A rule's name, as files and JSON write it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RuleId(&'static str);

impl RuleId {
    /// Names a rule; only rules do this, for themselves. No two rules may have the same name.
    pub const fn new(name: &'static str) -> RuleId {
        RuleId(name)
    }

    /// The name.
    pub fn name(self) -> &'static str {
        self.0
    }
}

impl fmt::Debug for RuleId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

/// A rule whose clues stand beside rows and columns.
pub trait Rule: Sync {
    /// The rule's name.
    fn id(&self) -> RuleId;

    /// The definition: whether the line, read from its start, satisfies a clue of this value.
    ///
    /// `digits` holds one digit a cell, and each digit of the size once.
    fn allows(&self, size: Size, value: u16, digits: &[Digit]) -> bool;

    /// The same as ways to fill the clue's line.
    fn ways(&self, size: Size, clue: &Clue) -> Ways;

    /// The same in a closed form, where the rule has one: which digits may lie between two end digits.
    ///
    /// A rule that has none can be proved all the same, by its [`Rule::ways`]; with one it is proved
    /// faster, most of all on large boards, where a clue has thousands of ways.
    fn between(&self, _size: Size, _value: u16) -> Option<Between> {
        None
    }

    /// Every value that some line satisfies, rising.
    fn reachable(&self, size: Size) -> Vec<u16>;

    /// The digits of which a clue's value is the sum of some, each used at most once; none if the
    /// rule's values are no such sums. For those who explain why a value is not reachable.
    fn summands(&self, _size: Size) -> Option<DigitSet> {
        None
    }

    /// Whether exchanging the two digits everywhere never changes what a line satisfies.
    fn blind_to(&self, size: Size, a: Digit, b: Digit) -> bool;

    /// Whether a line satisfies the same when it is read from its other end.
    fn same_both_ways(&self) -> bool;
}

impl fmt::Debug for dyn Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.id().fmt(f)
    }
}
