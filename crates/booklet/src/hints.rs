//! The three staged hints of a puzzle: the only place where `tell` is asked for them.

use rulebook::Puzzle;
use study::Account;
use typst::foundations::{Array, IntoValue, Value};

/// Where to look, what to look for, and why: about the way in that rests on the page alone. Each hint
/// is its lines; none at all for a puzzle that is printed solved.
pub(crate) fn staged(puzzle: &Puzzle, account: &Account) -> Array {
    let hints = account.way_in().and_then(|it| tell::hints(puzzle, it));
    let lines =
        |hint: String| -> Value { Value::Array(hint.lines().map(|it| it.to_owned().into_value()).collect()) };
    hints.into_iter().flatten().map(lines).collect()
}
