//! What tells a puzzle from what it was before somebody changed it.

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
    format!("{:016x}", fnv_1a(text.as_bytes()))
}

/// As its authors published it (G. Fowler, L. Noll, K.-P. Vo; numbers from memory, checked by their test values).
fn fnv_1a(bytes: &[u8]) -> u64 {
    let next = |hash: u64, byte: &u8| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, next)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Test values published with the function (from memory).
    #[test]
    fn it_is_the_published_function() {
        assert_eq!(fnv_1a(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fnv_1a(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv_1a(b"foobar"), 0x8594_4171_f739_67e8);
    }
}
