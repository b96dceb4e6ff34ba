//! What the TOML parser makes of a file, faults and all.
//!
//! The parser recovers from most slips but gives up on the document at a line such as `setter "Fern"`,
//! which has a key and no `=`. Such lines are blanked, byte for byte, and the text is parsed again, so
//! that one slip does not hide the problems below it; no place moves.

use std::borrow::Cow;
use std::ops::Range;

use toml::de::DeTable;

/// How the parser's message about such a line begins.
const GIVES_UP_AT: &str = "key with no value";

/// A text that was parsed once, and what the parser found wrong with it.
pub(crate) struct Syntax<'a> {
    text: Cow<'a, str>,
    faults: Vec<(Range<usize>, String)>,
}

impl<'a> Syntax<'a> {
    /// Parses the text.
    pub(crate) fn of(text: &'a str) -> Syntax<'a> {
        let mut faults = faults_of(text);
        let gave_up = faults.iter().filter(|it| it.1.starts_with(GIVES_UP_AT)).map(|it| it.0.start);
        let text = without_lines(text, gave_up);
        if let Cow::Owned(text) = &text {
            faults.extend(faults_of(text));
            faults.sort_by_key(|it| (it.0.start, it.0.end));
            faults.dedup();
        }
        Syntax { text, faults }
    }

    /// The table, as far as it could be recovered. Its places are those of the text.
    pub(crate) fn table(&self) -> DeTable<'_> {
        DeTable::parse_recoverable(&self.text).0.into_inner()
    }

    /// What the parser found wrong, and where.
    pub(crate) fn faults(&self) -> &[(Range<usize>, String)] {
        &self.faults
    }
}

/// What the parser finds wrong with the text, and where; at its end if it does not say where.
fn faults_of(text: &str) -> Vec<(Range<usize>, String)> {
    let (_, errors) = DeTable::parse_recoverable(text);
    let place = |it: Option<Range<usize>>| it.unwrap_or(text.len()..text.len());
    errors.iter().map(|it| (place(it.span()), it.message().to_owned())).collect()
}

/// The text with the lines that hold those bytes made blank, each byte of them a space.
fn without_lines(text: &str, places: impl Iterator<Item = usize>) -> Cow<'_, str> {
    let mut places: Vec<usize> = places.collect();
    if places.is_empty() {
        return Cow::Borrowed(text);
    }
    places.sort_unstable();
    let mut blanked = String::with_capacity(text.len());
    for line in text.split_inclusive('\n') {
        let (start, content) = (blanked.len(), line.trim_end_matches(['\r', '\n']));
        let next = places.partition_point(|it| *it < start);
        if places.get(next).is_some_and(|it| *it <= start + content.len()) {
            blanked.extend(std::iter::repeat_n(' ', content.len()));
            blanked.push_str(&line[content.len()..]);
        } else {
            blanked.push_str(line);
        }
    }
    Cow::Owned(blanked)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_without_an_equals_sign_hides_nothing() {
        let text = "title = \"é\"\r\nsetter «Fern»\r\njust words\nsealed = true\n";
        let syntax = Syntax::of(text);
        assert_eq!(syntax.text.len(), text.len());
        let table = syntax.table();
        let keys: Vec<&str> = table.keys().map(|it| it.get_ref().as_ref()).collect();
        assert_eq!(keys, ["sealed", "title"]);
        assert!(table.keys().all(|it| &text[it.span()] == it.get_ref()));
        assert!(!syntax.faults().is_empty());
    }

    #[test]
    fn a_sound_text_is_left_alone() {
        let syntax = Syntax::of("title = \"x\"\n");
        assert!(matches!(syntax.text, Cow::Borrowed(_)) && syntax.faults().is_empty());
    }
}
