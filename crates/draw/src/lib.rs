//! Boards and curves as SVG, in the look of an editor's proof sheet.
//!
//! Ink is what the page prints, blue pencil is what was reasoned, grey is what is set aside. Every
//! mark has a form of its own besides its colour:
//!
//! | mark | form |
//! | --- | --- |
//! | crust | hatching |
//! | filling | small ring |
//! | premise | outline |
//! | conclusion | filled square |
//! | removed candidate | struck digit |
//! | spent clue | struck number |
//! | row or column looked at | bar in the margin |
//! | box looked at | brackets at its corners |
//!
//! Every function is pure: equal inputs give equal bytes, and every text that comes from outside is
//! escaped. A picture carries the colours of light paper in its attributes; beside [`STYLE`] on the
//! same page (or inside it, see [`standalone`]) it follows the reader's light, dark or printed page.
//! Pictures use no ids, so any number of them can stand on one page.
//!
//! Left out: words for steps and techniques (`tell`), pages around the pictures (`report`), and any
//! measuring of text in a real font: figures are placed by proportions that suit every common serif.

mod board;
mod candidates;
mod clues;
mod coverage;
mod curve;
mod describe;
mod ink;
mod marks;
mod pointing;
mod progress;
mod rules;
mod sheet;
mod svg;
mod swatch;

pub use board::{Board, Pointing, board, layout, pointing};
pub use coverage::{CoverageRow, Met, coverage_chart};
pub use curve::{CurvePoint, minutes_curve};
pub use ink::{STYLE, standalone};
pub use marks::{Marks, marks_for};
pub use progress::{ProgressLine, progress_curve};
pub use sheet::{Layout, Scale};
pub use swatch::{Mark, swatch};
