//! What the lines leave to their cells, remembered until something about a line changes.

use std::sync::OnceLock;

use grid::DigitSet;
use rulebook::Claim;

use super::Implied;
use crate::sandwich::Sets;

/// What a line leaves to its cells.
#[derive(Clone, Debug)]
pub(crate) struct Fits {
    /// For each cell, the digits that fit there when nothing but the house is looked at.
    pub(crate) in_house: Vec<DigitSet>,
    /// For each cell, the digits that some way to place the crusts (and to make the sum) has there.
    pub(crate) in_ways: Vec<DigitSet>,
    /// How many pairs of places the crusts have in some way.
    pub(crate) n_pairs: usize,
}

/// The fits of a line, each worked out when it is first asked for.
#[derive(Clone, Default, Debug)]
pub(crate) struct LineFits {
    /// By the distance of the crusts alone.
    pub(crate) by_distance: OnceLock<Fits>,
    /// By the sum.
    pub(crate) by_sum: OnceLock<Fits>,
    /// What one digit or crust in the line says of another, by the sum; none where there are too many ways
    /// to look at.
    pub(crate) implied: OnceLock<Option<Implied>>,
    /// What follows on the sides of the crusts; forgotten too when the places left for them change or a digit of the
    /// line is placed.
    pub(crate) on_sides: OnSides,
}

/// What follows on the two sides of a line's crusts, each worked out when it is first asked for.
#[derive(Clone, Default, Debug)]
pub(crate) struct OnSides {
    /// The sets that still make the line's sum.
    pub(crate) sets: OnceLock<Sets>,
    /// What is new by these sets.
    pub(crate) by_sets: OnceLock<Vec<Claim>>,
    /// What is new by the digits that are known to lie between.
    pub(crate) by_spent: OnceLock<Vec<Claim>>,
}
