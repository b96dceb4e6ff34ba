//! Small digits in a cell: candidates that remain, and removed ones, struck.
//!
//! They are packed in rising order, as large as their number allows, because a step is mostly about
//! one or two of them.

use grid::{Digit, DigitSet};

use crate::ink::Tone;
use crate::sheet::{Pen, Square};
use crate::svg::{figure, path, stretch, type_of};

/// The small digits of one cell. A digit that is in both sets counts as removed. With `ringed`, the
/// upper right corner is left free.
pub(crate) fn candidates(
    square: Square,
    pen: &Pen,
    remain: DigitSet,
    removed: DigitSet,
    ringed: bool,
) -> String {
    let digits: Vec<Digit> = (remain | removed).iter().collect();
    let columns = columns_for(digits.len());
    let rows = digits.len().div_ceil(columns);
    let size = square.side * type_size(columns, pen.wide_digits);
    let (inset, top) = (square.side * 0.11, if ringed { square.side * 0.17 } else { 0.0 });
    let pitch = (square.side - 2.0 * inset) / columns as f64;
    let line_pitch = (square.side - 2.0 * inset - top) / columns as f64;
    let (middle_x, middle_y) = (square.middle().0, square.middle().1 + top / 2.0);
    let place = |at: usize| {
        // The last row keeps to the columns of those above it.
        let (row, column) = ((at / columns) as f64, (at % columns) as f64);
        let across = column - (columns - 1) as f64 / 2.0;
        let down = row - (rows - 1) as f64 / 2.0;
        (middle_x + across * pitch, middle_y + down * line_pitch)
    };

    let (mut kept, mut struck, mut strikes) = (String::new(), String::new(), String::new());
    for (at, &digit) in digits.iter().enumerate() {
        let middle = place(at);
        match removed.contains(digit) {
            false => kept += &figure(middle, size, digit),
            true => {
                struck += &figure(middle, size, digit);
                strikes += &strike(middle, size, if digit.get() > 9 { 2 } else { 1 });
            }
        }
    }
    let mut out = String::new();
    for (tone, texts) in [(Tone::Pencil, kept), (Tone::Grey, struck)] {
        out += &crate::svg::group(&type_of(tone, size, "middle"), &texts);
    }
    out + &path(&Tone::Pencil.line((size * 0.06).max(0.6)), &strikes)
}

/// A stroke through so many figures, rising to the right.
fn strike((x, y): (f64, f64), size: f64, n_figures: usize) -> String {
    let (half_width, half_height) = (size * (0.1 + 0.26 * n_figures as f64), size * 0.36);
    stretch((x - half_width, y + half_height), (x + half_width, y - half_height))
}

/// In how many columns so many digits are packed.
fn columns_for(n_digits: usize) -> usize {
    match n_digits {
        0 | 1 => 1,
        2..=4 => 2,
        5..=9 => 3,
        _ => 4,
    }
}

/// The type size that fits so many columns, as a part of the cell's side.
fn type_size(columns: usize, wide: bool) -> f64 {
    match (columns, wide) {
        (1, false) => 0.52,
        (1, true) => 0.46,
        (2, false) => 0.41,
        (2, true) => 0.33,
        (3, false) => 0.29,
        (3, true) => 0.22,
        (_, false) => 0.23,
        (_, true) => 0.17,
    }
}
