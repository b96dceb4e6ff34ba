//! Pressing, which the program brings: the desk knows what may be chosen, where the outputs go, and how to show them.

use std::fmt::Debug;
use std::path::PathBuf;

use pack::{Day, Form};

use crate::failure::Failure;
use crate::jobs::Watched;

/// The folder of the outputs within the pack's.
pub(crate) const OUT: &str = "out";

/// Makes everything that is written of a pack.
pub trait Press: Debug + Send + Sync {
    /// Makes it, and puts it in the place of what was written before; or, if it fails or is cancelled, changes nothing.
    ///
    /// # Errors
    ///
    /// If it cannot be done, or `watched` says that it is cancelled.
    fn press(&self, wanted: &WantedPress, watched: &Watched) -> Result<Pressed, Failure>;
}

/// What is to be pressed, and how.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct WantedPress {
    /// The pack's folder.
    pub pack: PathBuf,
    /// The folder to write.
    pub out: PathBuf,
    /// The day to print in the booklet.
    pub issued: Option<Day>,
    /// The forms of the booklet; none for those that the pack names.
    pub forms: Vec<Form>,
    /// Whether cue sheets are printed, too.
    pub print_cues: bool,
    /// Whether sealed puzzles count as open.
    pub unseal: bool,
    /// Whether nothing is written where a puzzle has changed since its setter approved it.
    pub is_strict: bool,
}

/// What pressing has to say.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Pressed {
    /// What is wrong with the pack, as the command line says it; empty if nothing is.
    pub problems: String,
    /// What was written, and what was left out and why.
    pub note: String,
    /// Whether a problem is an error.
    pub has_errors: bool,
}
