//! A text as far as it can be read off a page.

use std::fmt;

use typeset::joins;

/// A text that is printed, or was read off a page.
///
/// Two are equal if they read the same on paper. That leaves out white space, which a break of the
/// line swallows. A text with letters that are written from right to left can be read off a page in
/// more than one order (`1 א` and `א 1` look alike), and its accents may be glyphs that repeat their
/// letter, so of such texts it is compared which characters they have, not in what order or how often.
#[derive(Clone)]
pub struct PrintedText(String);

impl PrintedText {
    /// A text on its way to the page.
    pub(crate) fn new(text: String) -> PrintedText {
        PrintedText(text)
    }

    /// The text. If it was read off a page and has letters written from right to left, they are in the
    /// order in which they stand on the paper.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    fn essence(&self) -> Vec<char> {
        let seen = |it: &char| !it.is_whitespace() && *it != '\u{200b}' && !joins(*it);
        let mut characters: Vec<char> = self.0.chars().filter(seen).collect();
        if characters.iter().any(|it| is_right_to_left(*it)) {
            characters.sort_unstable();
            characters.dedup();
        }
        characters
    }
}

impl PartialEq for PrintedText {
    fn eq(&self, other: &PrintedText) -> bool {
        self.essence() == other.essence()
    }
}

impl Eq for PrintedText {}

impl fmt::Display for PrintedText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl fmt::Debug for PrintedText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&self.0, f)
    }
}

/// Whether the character lies in one of the blocks of scripts written from right to left (Unicode's
/// ranges of default bidirectional class R or AL).
fn is_right_to_left(it: char) -> bool {
    matches!(it,
        '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{fefe}' | '\u{10800}'..='\u{10fff}'
        | '\u{1e800}'..='\u{1efff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_that_read_the_same_are_equal() {
        let same = |a: &str, b: &str| PrintedText::new(a.to_owned()) == PrintedText::new(b.to_owned());
        assert!(same("low wick", "lowwick"));
        assert!(same("שלום 12", "12 םולש"));
        assert!(!same("low wick", "low wicks"));
        assert!(!same("ab", "ba"));
        assert!(!same("שלום 12", "שלום 13"));
    }
}
