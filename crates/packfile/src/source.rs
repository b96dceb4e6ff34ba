//! A file as bytes, as text, and the way from a byte to its line and column.

use std::ops::Range;

use crate::fault::Fault;
use crate::{Problem, Span};

/// The most bytes that a file of a pack may have: far more than any needs, and few enough that a film
/// dropped into the folder by mistake is told from a puzzle at once.
pub const MOST_BYTES: usize = 1 << 20;

const BYTE_ORDER_MARK: char = '\u{feff}';

/// One file of a pack, as the caller found it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SourceFile {
    /// Its path relative to the pack, with forward slashes, such as `puzzles/first-light.toml`. A puzzle
    /// read alone may have any path.
    pub path: String,
    /// What it holds. Nothing is promised about it.
    pub bytes: Vec<u8>,
}

impl SourceFile {
    /// The file of that path with those contents.
    pub fn new(path: impl Into<String>, bytes: impl Into<Vec<u8>>) -> SourceFile {
        SourceFile { path: path.into(), bytes: bytes.into() }
    }

    /// The file's name without its folders and without `.toml`: the puzzle's id, if it can be one.
    pub(crate) fn stem(&self) -> &str {
        let name = self.path.rsplit(['/', '\\']).next().unwrap_or_default();
        name.strip_suffix(".toml").unwrap_or(name)
    }
}

/// A file that is text, and where its lines begin.
#[derive(Debug)]
pub(crate) struct Source<'a> {
    path: &'a str,
    text: &'a str,
    line_starts: Vec<usize>,
}

impl<'a> Source<'a> {
    /// The file as text, or why it is none.
    pub(crate) fn open(file: &'a SourceFile) -> Result<Source<'a>, Problem> {
        let bytes = &file.bytes[..];
        if bytes.len() > MOST_BYTES {
            return Err(Fault::FileTooLarge.in_file(&file.path));
        }
        if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
            return Err(Fault::Utf16.at(&file.path, Span { start: 0, end: 2, line: 1, column: 1 }));
        }
        match std::str::from_utf8(bytes) {
            Ok(text) => Ok(Source::of(&file.path, text)),
            Err(error) => {
                let (start, end) = (error.valid_up_to(), bytes.len());
                let end = error.error_len().map_or(end, |it| start + it);
                // The text before the fault is sound, and says which line and column the fault is in.
                let before = std::str::from_utf8(&bytes[..start]).unwrap_or_default();
                let at = Span { end, ..Source::of(&file.path, before).span(start..start) };
                Err(Fault::NotUtf8 { byte: bytes[start], place: start }.at(&file.path, at))
            }
        }
    }

    fn of(path: &'a str, text: &'a str) -> Source<'a> {
        let after_breaks = text.match_indices('\n').map(|(at, _)| at + 1);
        Source { path, text, line_starts: std::iter::once(0).chain(after_breaks).collect() }
    }

    /// The file's path, as the caller named it.
    pub(crate) fn path(&self) -> &'a str {
        self.path
    }

    /// The whole text.
    pub(crate) fn text(&self) -> &'a str {
        self.text
    }

    /// The text of those bytes; empty if they do not begin and end between characters.
    pub(crate) fn slice(&self, range: Range<usize>) -> &'a str {
        self.text.get(range).unwrap_or_default()
    }

    /// The line, from 1, in which a byte lies.
    pub(crate) fn line(&self, offset: usize) -> usize {
        self.line_starts.partition_point(|it| *it <= offset)
    }

    /// The byte at a line, from 1, and so many bytes into it; cut to the file.
    pub(crate) fn offset(&self, line: usize, bytes: usize) -> usize {
        let start = self.line_starts.get(line.saturating_sub(1)).copied();
        start.map_or(self.text.len(), |it| (it + bytes).min(self.text.len()))
    }

    /// The span of those bytes, cut to the file.
    pub(crate) fn span(&self, range: Range<usize>) -> Span {
        let start = self.text.floor_char_boundary(range.start);
        let end = self.text.floor_char_boundary(range.end).max(start);
        let line = self.line(start);
        let before = self.slice(self.line_starts[line - 1]..start);
        let column = before.chars().filter(|it| *it != BYTE_ORDER_MARK).count() + 1;
        Span { start, end, line, column }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place(text: &str, offset: usize) -> (usize, usize) {
        let file = SourceFile::new("x.toml", text);
        let span = Source::open(&file).unwrap().span(offset..offset);
        (span.line, span.column)
    }

    #[test]
    fn columns_count_characters() {
        let text = "title = \"Fêté\"\r\nx";
        assert_eq!(place(text, 0), (1, 1));
        assert_eq!(place(text, text.find('t').unwrap()), (1, 1));
        assert_eq!(place(text, text.rfind('"').unwrap()), (1, 14));
        assert_eq!(place(text, text.len() - 1), (2, 1));
        assert_eq!(place(text, text.len()), (2, 2));
        assert_eq!(place(text, text.len() + 9), (2, 2));
        assert_eq!(place("", 0), (1, 1));
        assert_eq!(place("\u{feff}abc", 4), (1, 2));
    }

    #[test]
    fn bytes_that_are_no_text_are_found() {
        let file = SourceFile::new("x.toml", *b"a\nbc\xe9de");
        let problem = Source::open(&file).unwrap_err();
        assert_eq!(problem.at, Some(Span { start: 4, end: 5, line: 2, column: 3 }));
        let file = SourceFile::new("x.toml", [0xff, 0xfe, b'a', 0]);
        assert_eq!(Source::open(&file).unwrap_err().code, crate::Code::NotUtf8);
        let file = SourceFile::new("x.toml", vec![b'#'; MOST_BYTES]);
        assert!(Source::open(&file).is_ok());
        let file = SourceFile::new("x.toml", vec![b'#'; MOST_BYTES + 1]);
        assert_eq!(Source::open(&file).unwrap_err().code, crate::Code::FileTooLarge);
    }

    #[test]
    fn stems_are_names_without_folders() {
        for (path, stem) in [("puzzles/a.toml", "a"), ("a.toml", "a"), ("x/y/B c.toml", "B c"), ("a/", "")] {
            assert_eq!(SourceFile::new(path, "").stem(), stem, "{path}");
        }
    }
}
