//! Why a conclusion is not accepted.

use std::fmt;

use grid::{Cell, Digit};
use rulebook::ClueId;

use crate::Spare;

/// Why a conclusion is not accepted.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Refusal {
    /// It, or something it cites, is not to be found on the page: a given that is not printed there, a
    /// cell or house off the board, or a cell outside the house it is claimed of.
    NotOnPage,
    /// It cites a clue that the puzzle does not have.
    UnknownClue(ClueId),
    /// It does not follow: this filling of the cells involved, in reading order, agrees with everything
    /// cited and breaks the claim.
    Counterexample(Vec<(Cell, Digit)>),
    /// It follows, but one of its premises is not shown to be needed: no counterexample was found without it.
    Spare(Spare),
    /// The search for a counterexample was not finished within the cap.
    CapReached,
}

/// Says what is wrong, in lower case and without the conclusion it is about.
impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refusal::NotOnPage => write!(f, "it speaks of something that is not on the page"),
            Refusal::UnknownClue(id) => {
                write!(f, "it cites clue {}, which the puzzle does not have", id.index() + 1)
            }
            Refusal::Counterexample(filling) => {
                write!(f, "it does not follow from what it cites:")?;
                filling.iter().try_for_each(|(cell, digit)| write!(f, " {cell}={digit}"))
            }
            Refusal::Spare(it) if it.is_proved => {
                write!(f, "it follows without {}, which it cites", it.cited)
            }
            Refusal::Spare(it) => write!(f, "it was not shown to need {}, which it cites", it.cited),
            Refusal::CapReached => write!(f, "the search for a counterexample was not finished"),
        }
    }
}

impl std::error::Error for Refusal {}
