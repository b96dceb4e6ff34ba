//! What tells a puzzle from what it was before somebody changed it.

use std::hash::Hasher;

use fnv::FnvHasher;
use grid::Digit;
use rulebook::Puzzle;

/// A short text that is another one as soon as a given, a clue or the size of the puzzle is. Title, setter and
/// everything else may change without it.
///
/// FNV-1a with 64 bits: it notices slips, it does not keep anybody from making them.
pub fn fingerprint(puzzle: &Puzzle) -> String {
    let size = puzzle.size();
    let mut text = format!("{size} {}x{}\n", size.box_width(), size.box_height());
    text.extend(size.cells().map(|it| puzzle.givens().get(it).map_or('.', Digit::to_char)));
    for clue in puzzle.clues() {
        text.push_str(&format!("\n{} {} {}", clue.rule.id().name(), clue.line, clue.value));
    }
    let mut hasher = FnvHasher::default();
    hasher.write(text.as_bytes());
    format!("{:016x}", hasher.finish())
}

#[cfg(test)]
mod tests {
    use grid::{Grid, Size};

    use super::*;

    /// Computed by a program of a few lines in another language, from the function as it is published.
    #[test]
    fn fingerprints_stay_as_they_are() {
        let four = Puzzle::new(Grid::empty(Size::of_side(4).unwrap()), []);
        assert_eq!(fingerprint(&four), "ccb8451229a231c7");
    }
}
