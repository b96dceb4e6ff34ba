//! One small picture a mark, for a key that explains the marks.

use grid::{Digit, DigitSet, Size};

use crate::candidates::candidates;
use crate::ink::Tone;
use crate::pointing::outline;
use crate::rules::{hatching, ring};
use crate::sheet::{Pen, Scale, Square};
use crate::svg::{figure, group, path, picture, rect, stretch, type_of};

/// A mark that a board can carry.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Mark {
    /// A digit that is printed.
    Given,
    /// A digit that was found.
    Written,
    /// A cell known to hold a crust.
    Crust,
    /// A cell known to hold a filling digit.
    Filling,
    /// A cell or clue that is used.
    Premise,
    /// A cell that something was concluded about.
    Conclusion,
    /// A candidate that was removed.
    Removed,
    /// A candidate that is written small: a place that a digit keeps.
    Pencilled,
    /// A clue that has nothing more to say.
    Spent,
    /// A row, column or box that is looked at.
    LookedAt,
}

impl Mark {
    /// Every mark, in the order in which a key would explain them.
    pub const ALL: [Mark; 10] = [
        Mark::Given,
        Mark::Written,
        Mark::Crust,
        Mark::Filling,
        Mark::Premise,
        Mark::Conclusion,
        Mark::Removed,
        Mark::Pencilled,
        Mark::Spent,
        Mark::LookedAt,
    ];
}

/// Draws one mark by itself, as an SVG element of about 30 pixels; `title` is its accessible name.
pub fn swatch(mark: Mark, title: &str) -> String {
    let pen = Pen::new(Scale::Small, Size::NINE);
    let margin = pen.gap;
    let square = Square { x: margin, y: margin, side: pen.cell };
    let paper = pen.cell + 2.0 * margin;
    let frame = rect(&Tone::Rule.line(pen.thin), (square.x, square.y), (square.side, square.side));
    let digit = |ink, weight| {
        let type_of = type_of(ink, pen.digit, "middle");
        group(&format!("{type_of} font-weight=\"{weight}\""), &figure(square.middle(), pen.digit, 5))
    };
    let filled = |attributes: &str| rect(attributes, (square.x, square.y), (square.side, square.side));
    let five = Digit::new(5).map(DigitSet::only).unwrap_or_default();
    let content = match mark {
        Mark::Given => frame + &digit(Tone::Ink, 700),
        Mark::Written => frame + &digit(Tone::Pencil, 400),
        Mark::Crust => hatching(square, &pen, false) + &frame,
        Mark::Filling => ring(square, &pen, false) + &frame,
        Mark::Premise => frame + &outline(square, &pen),
        Mark::Conclusion => filled(&Tone::Tint.fill()) + &filled(&Tone::Blue.line(pen.stroke)),
        Mark::Removed => frame + &candidates(square, &pen, DigitSet::EMPTY, five, false),
        Mark::Pencilled => frame + &candidates(square, &pen, five, DigitSet::EMPTY, false),
        Mark::Spent => {
            let (x, y) = square.middle();
            let half = pen.clue * 0.76;
            let number = group(&type_of(Tone::Grey, pen.clue, "middle"), &figure((x, y), pen.clue, 12));
            number + &path(&Tone::Pencil.line(pen.stroke), &stretch((x - half, y), (x + half, y)))
        }
        Mark::LookedAt => {
            let x = square.right() + pen.bold;
            let (y, half) = (square.middle().1, square.side * 0.36);
            frame + &path(&Tone::Blue.line(pen.bold * 1.2), &stretch((x, y - half), (x, y + half)))
        }
    };
    picture("galley-swatch", (paper, paper), title, "", &content)
}
