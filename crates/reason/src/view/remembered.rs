//! What was worked out about a position as a whole, remembered until more is known.

use std::sync::OnceLock;

use grid::{Cell, Digit, House};
use rulebook::Claim;
use trail::Proposal;

use crate::chains::Chain;

/// Searches of techniques that are asked twice: what is open, and then what one step of it cites.
#[derive(Clone, Default, Debug)]
pub(crate) struct Remembered {
    /// The open cells that alone can hold a digit in a house.
    pub(crate) only_places: OnceLock<Vec<(House, Cell, Digit)>>,
    /// The chains that houses and cells alone make.
    pub(crate) plain_chains: OnceLock<Vec<Chain>>,
    /// The chains that need what clues imply.
    pub(crate) chains_through_clues: OnceLock<Vec<Chain>>,
    /// The lines on whose neighbours some way was tried in vain, with what that shows, cell by cell.
    pub(crate) trials: OnceLock<Vec<(House, Vec<Vec<Claim>>)>>,
    /// What is tried and followed to its end.
    pub(crate) followed: OnceLock<Vec<Proposal>>,
}
