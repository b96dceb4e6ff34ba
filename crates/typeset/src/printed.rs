//! Texts from a pack's files, as they are printed.
//!
//! A text becomes one line: white space becomes single spaces, controls and characters that no font
//! has become U+FFFD, and characters that act without being seen (such as those that turn the
//! direction of what follows) are dropped. What is long beyond all use is cut, so that no title can
//! push a board off its page. Markup needs no care: the typesetter gets texts as values and never
//! reads them as its own language.

use crate::fonts::{FONTS, REPLACEMENT};

/// Most characters of a title or a name.
pub const LONGEST_NAME: usize = 300;

/// Most characters of a text that is a sentence or more.
pub const LONGEST_TEXT: usize = 900;

/// Most characters of a title in a running head.
const LONGEST_RUNNING: usize = 60;

/// What had to be done to a text before it could be printed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Alteration {
    /// No font has these characters, so U+FFFD is printed in their place.
    Replaced {
        /// The text.
        text: String,
        /// The characters, rising, each once.
        characters: Vec<char>,
    },
    /// The text was cut after so many characters.
    Cut {
        /// The text.
        text: String,
        /// How many of its characters are printed.
        kept: usize,
    },
}

/// Makes texts printable, and remembers what it had to alter.
#[derive(Debug, Default)]
pub struct Printer {
    alterations: Vec<Alteration>,
}

impl Printer {
    /// A title or a name.
    pub fn name(&mut self, text: &str) -> String {
        self.print(text, LONGEST_NAME)
    }

    /// A title in a running head, which has one line: cut without a word, because the whole title
    /// stands elsewhere.
    pub fn running(&self, text: &str) -> String {
        Printer::default().print(text, LONGEST_RUNNING)
    }

    /// A sentence or more.
    pub fn text(&mut self, text: &str) -> String {
        self.print(text, LONGEST_TEXT)
    }

    /// What was altered, each alteration once, in the order in which it happened.
    pub fn into_alterations(self) -> Vec<Alteration> {
        self.alterations
    }

    fn print(&mut self, text: &str, longest: usize) -> String {
        let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let mut missing = Vec::new();
        let mut out = String::with_capacity(line.len());
        for it in line.chars().filter(|it| !is_unseen(*it)) {
            let is_printable = it == ' ' || joins(it) || (!it.is_control() && FONTS.have(it));
            if !is_printable {
                missing.push(it);
            }
            out.push(if is_printable { it } else { REPLACEMENT });
        }
        missing.retain(|it| *it != REPLACEMENT);
        missing.sort_unstable();
        missing.dedup();
        if !missing.is_empty() {
            self.note(Alteration::Replaced { text: text.to_owned(), characters: missing });
        }
        if out.chars().count() > longest {
            out = out.chars().take(longest - 1).chain(['…']).collect();
            self.note(Alteration::Cut { text: text.to_owned(), kept: longest - 1 });
        }
        let out = out.trim();
        if out.is_empty() { REPLACEMENT.to_string() } else { out.to_owned() }
    }

    fn note(&mut self, it: Alteration) {
        if !self.alterations.contains(&it) {
            self.alterations.push(it);
        }
    }
}

/// The two characters that only say whether their neighbours join; they shape some scripts.
pub fn joins(it: char) -> bool {
    matches!(it, '\u{200c}' | '\u{200d}')
}

/// Characters that are never seen themselves but change what stands around them.
fn is_unseen(it: char) -> bool {
    matches!(it,
        '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}'
        | '\u{180b}'..='\u{180f}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{3164}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{ffa0}'
        | '\u{fff0}'..='\u{fff8}' | '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}'
        | '\u{e0000}'..='\u{e0fff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_become_one_visible_line() {
        let mut printer = Printer::default();
        assert_eq!(printer.name(" a\t\n b\u{a0} "), "a b");
        assert_eq!(printer.name("\u{202e}abc\u{2067}\u{200b}"), "abc");
        assert_eq!(printer.name("שלום «ж» Ω"), "שלום «ж» Ω");
        assert!(printer.into_alterations().is_empty());
    }

    #[test]
    fn what_no_font_has_is_replaced_and_said() {
        let mut printer = Printer::default();
        assert_eq!(printer.name("灯\u{0}a灯"), "\u{fffd}\u{fffd}a\u{fffd}");
        assert_eq!(printer.name("\u{200b}"), "\u{fffd}");
        let characters = vec!['\u{0}', '灯'];
        let text = "灯\u{0}a灯".to_owned();
        assert_eq!(printer.into_alterations(), [Alteration::Replaced { text, characters }]);
        assert!(FONTS.have(REPLACEMENT));
    }

    #[test]
    fn what_is_too_long_is_cut_and_said() {
        let mut printer = Printer::default();
        let long = "ab ".repeat(500);
        let printed = printer.name(&long);
        assert!(printed.chars().count() <= LONGEST_NAME && printed.ends_with('…'));
        assert_eq!(printer.into_alterations(), [Alteration::Cut { text: long, kept: LONGEST_NAME - 1 }]);
    }
}
