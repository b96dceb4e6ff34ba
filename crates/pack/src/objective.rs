//! What an order of a pack is weighed by.

use std::collections::{BTreeMap, BTreeSet};
use std::iter::Sum;
use std::ops::Add;

use trail::TechniqueId;

use crate::PuzzleId;

/// Everything that decides what an order costs, beside the puzzles themselves.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Objective {
    /// What each flaw costs.
    pub weights: Weights,
    /// What solvers know before the first puzzle.
    pub knows: BTreeSet<TechniqueId>,
    /// What is to be understood before a technique. One that is not listed stands on nothing.
    pub prerequisites: BTreeMap<TechniqueId, BTreeSet<TechniqueId>>,
    /// The places, from 1, that the editor has settled. A place that the pack does not have, and one that an
    /// earlier id has, binds nothing.
    pub pins: BTreeMap<PuzzleId, usize>,
}

/// What each flaw of an order costs. The order with the least cost is proposed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Weights {
    /// Each technique, beyond the first, that is new in the same puzzle.
    pub new_at_once: u64,
    /// Each technique that a new one builds on and that nobody has been shown: it is not known from the start, no
    /// puzzle before uses it, nor does this one.
    pub prerequisite: u64,
    /// Each minute by which a puzzle is easier than the one before.
    pub minute_back: u64,
    /// A puzzle by the setter of the one before.
    pub same_setter: u64,
    /// A puzzle that opens with the technique with which the one before opens.
    pub same_break_in: u64,
    /// A puzzle that comes after one of a later shelf.
    pub shelf_back: u64,
    /// Where not all puzzles have a place: each technique that is in none of those that have.
    pub not_taught: u64,
    /// Each thing that a recording says of a puzzle's place and that is not so; of a puzzle that is left out, everything
    /// that is said of it.
    pub said_untrue: u64,
}

/// What seemed right for packs of a dozen puzzles: one thing new at a time matters most, then that nothing is missing
/// below it; two minutes of falling back weigh about as much as a technique too many. To record again takes an evening, so that what
/// recordings say is as good as a pin: it weighs as much as ten techniques too many. None is measured.
impl Default for Weights {
    fn default() -> Weights {
        Weights {
            new_at_once: 10,
            prerequisite: 8,
            minute_back: 4,
            same_setter: 3,
            same_break_in: 2,
            shelf_back: 15,
            not_taught: 12,
            said_untrue: 100,
        }
    }
}

/// How far a place falls short of what is wanted.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Flaws {
    /// Techniques that are new, beyond the first.
    pub extra_new: u64,
    /// Techniques that a new one builds on and that nobody has been shown.
    pub unprepared: u64,
    /// Seconds by which it is easier than the one before.
    pub seconds_back: u64,
    /// Whether the one before is by the same setter.
    pub same_setter: bool,
    /// Whether the one before opens with the same technique.
    pub same_break_in: bool,
    /// Whether one before is of a later shelf.
    pub shelf_back: bool,
}

/// What an order costs, part by part.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Costs {
    /// For techniques that are new at once.
    pub new_at_once: u64,
    /// For prerequisites that nobody has been shown.
    pub prerequisites: u64,
    /// For effort that falls back.
    pub minutes_back: u64,
    /// For setters twice running.
    pub same_setter: u64,
    /// For break-ins twice running.
    pub same_break_in: u64,
    /// For shelves out of order.
    pub shelves: u64,
    /// For techniques that are in none of the puzzles that have a place.
    pub not_taught: u64,
    /// For what recordings say and is not so.
    pub said_untrue: u64,
}

impl Weights {
    /// What a place with these flaws costs.
    pub fn costs(&self, flaws: Flaws) -> Costs {
        let once = |is_so, cost| if is_so { cost } else { 0 };
        Costs {
            new_at_once: self.new_at_once * flaws.extra_new,
            prerequisites: self.prerequisite * flaws.unprepared,
            minutes_back: self.minute_back * flaws.seconds_back / 60,
            same_setter: once(flaws.same_setter, self.same_setter),
            same_break_in: once(flaws.same_break_in, self.same_break_in),
            shelves: once(flaws.shelf_back, self.shelf_back),
            not_taught: 0,
            said_untrue: 0,
        }
    }
}

impl Costs {
    /// All of it: the number that a proposal makes as small as it can.
    pub fn total(&self) -> u64 {
        let Costs {
            new_at_once,
            prerequisites,
            minutes_back,
            same_setter,
            same_break_in,
            shelves,
            not_taught,
            said_untrue,
        } = self;
        let of_places = new_at_once + prerequisites + minutes_back + same_setter + same_break_in + shelves;
        of_places + not_taught + said_untrue
    }
}

impl Add for Costs {
    type Output = Costs;

    fn add(self, other: Costs) -> Costs {
        Costs {
            new_at_once: self.new_at_once + other.new_at_once,
            prerequisites: self.prerequisites + other.prerequisites,
            minutes_back: self.minutes_back + other.minutes_back,
            same_setter: self.same_setter + other.same_setter,
            same_break_in: self.same_break_in + other.same_break_in,
            shelves: self.shelves + other.shelves,
            not_taught: self.not_taught + other.not_taught,
            said_untrue: self.said_untrue + other.said_untrue,
        }
    }
}

impl Sum for Costs {
    fn sum<I: Iterator<Item = Costs>>(costs: I) -> Costs {
        costs.fold(Costs::default(), Add::add)
    }
}
