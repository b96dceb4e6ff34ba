//! What goes back to the page: JSON of these shapes, which `site`'s script reads.

use serde::Serialize;

/// An answer, told apart by `kind`.
#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub(crate) enum Answer {
    /// A step from here, in three parts.
    Hint(Hint),
    /// Something does not fit, in two parts.
    Mistake { near: Said, which: Said },
    /// Why a digit is what it is.
    Why(Why),
    /// The board is full and right.
    Done,
    /// Nothing is wrong so far.
    Fits,
    /// A digit can be known in so many steps.
    Follows { steps: usize },
    /// A digit is right, and cannot be known yet.
    #[serde(rename = "not-yet")]
    NotYet,
    /// Nothing can be said, and why.
    None { text: String },
}

#[derive(Serialize)]
pub(crate) struct Hint {
    pub(crate) technique: &'static str,
    pub(crate) name: &'static str,
    /// The hardest technique of the steps that lead there.
    pub(crate) hardest: &'static str,
    /// Whether the pack has taught it by then.
    pub(crate) taught: bool,
    #[serde(rename = "where")]
    pub(crate) look_at: Said,
    pub(crate) what: Said,
    pub(crate) why: Drawn,
    pub(crate) settles: Settles,
}

/// A text and the cells it is about, row by row from 0.
#[derive(Serialize)]
pub(crate) struct Said {
    pub(crate) text: String,
    pub(crate) cells: Vec<usize>,
}

/// A text and its picture, an SVG element.
#[derive(Serialize)]
pub(crate) struct Drawn {
    pub(crate) text: String,
    pub(crate) picture: String,
}

/// What can be written down.
#[derive(Serialize, Default)]
pub(crate) struct Settles {
    /// Cell and digit.
    pub(crate) ink: Vec<(usize, u8)>,
    /// Cell and what its pencil marks should be.
    pub(crate) pencil: Vec<(usize, Vec<u8>)>,
    /// Cell and mark.
    pub(crate) marks: Vec<(usize, &'static str)>,
}

#[derive(Serialize)]
pub(crate) struct Why {
    pub(crate) text: String,
    pub(crate) steps: Vec<WhyStep>,
}

#[derive(Serialize)]
pub(crate) struct WhyStep {
    pub(crate) technique: &'static str,
    pub(crate) name: &'static str,
    pub(crate) text: String,
    pub(crate) picture: String,
}

/// The pencil marks of each cell.
#[derive(Serialize)]
pub(crate) struct Pencil {
    pub(crate) pencil: Vec<Vec<u8>>,
}

/// The answer as text.
pub(crate) fn text(answer: &impl Serialize) -> String {
    serde_json::to_string(answer).unwrap_or_else(|it| unreachable!("plain data: {it}"))
}
