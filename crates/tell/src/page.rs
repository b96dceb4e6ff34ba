//! Words for what is not a step: why a puzzle can have no single answer.

use grid::{Digit, Size};
use rulebook::crusts;

/// Why a puzzle that nothing tells `a` and `b` apart on never has exactly one solution.
///
/// For a pair that `Puzzle::exchange` returned.
pub fn exchange_explanation(size: Size, a: Digit, b: Digit) -> String {
    let (one, last) = crusts(size);
    let clues = match (a, b) == (one, last) || (a, b) == (last, one) {
        true => format!("a sandwich sum stays the same when its {a} and its {b} change places"),
        false => "every clue stays true when they change places".to_owned(),
    };
    format!(
        "No given is {a} or {b}, and {clues}. So exchanging every {a} with every {b} turns any solution \
         into another one. The number of solutions is therefore never one: it is none, or even. A given \
         {a} or {b} would tell them apart."
    )
}
