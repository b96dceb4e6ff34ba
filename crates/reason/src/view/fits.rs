//! What the lines leave to their cells, remembered until something about a line changes.

use std::sync::OnceLock;

use grid::DigitSet;

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
    /// The sets that still make the line's sum; forgotten too when the places left for its crusts change.
    pub(crate) sets: OnceLock<Sets>,
}
