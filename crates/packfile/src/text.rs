//! The characters of a TOML string, each with the bytes of the file it was written with.
//!
//! The parser gives a string's value and the place of the whole; a grid needs the place of every
//! character. So the string is read here once more, from its quotes on. What the parser found fault
//! with is not brought here; whatever comes, the places stay inside the string.

use std::ops::Range;

/// A character and its place.
pub(crate) type Placed = (char, Range<usize>);

/// The characters of the string whose source, quotes and all, is `raw` and begins at byte `start`.
pub(crate) fn characters(raw: &str, start: usize) -> Vec<Placed> {
    let quote = if raw.starts_with('\'') { '\'' } else { '"' };
    let triple = raw.len() >= 6 && raw.chars().take(3).all(|it| it == quote);
    let quotes = if triple { 3 } else { 1 };
    let mut from = quotes;
    if triple {
        // A line break right after the opening quotes is not part of the string.
        let rest = raw.get(from..).unwrap_or_default();
        from += if rest.starts_with("\r\n") { 2 } else { usize::from(rest.starts_with('\n')) };
    }
    let inside = raw.get(from..raw.len().saturating_sub(quotes)).unwrap_or_default();
    let mut reader = Reader { rest: inside, at: start + from };
    let mut characters = Vec::with_capacity(inside.len());
    while let Some((it, place)) = reader.next() {
        match (it, quote) {
            ('\\', '"') => characters.extend(reader.escape().map(|it| (it, place.start..reader.at))),
            _ => characters.push((it, place)),
        }
    }
    characters
}

/// What is left of a string, and where that begins in the file.
struct Reader<'a> {
    rest: &'a str,
    at: usize,
}

impl Reader<'_> {
    fn next(&mut self) -> Option<Placed> {
        let it = self.rest.chars().next()?;
        let start = self.at;
        self.rest = &self.rest[it.len_utf8()..];
        self.at += it.len_utf8();
        Some((it, start..self.at))
    }

    /// What stands after a backslash: the character it means, or none for a line end it takes away.
    fn escape(&mut self) -> Option<char> {
        match self.next()?.0 {
            'b' => Some('\u{8}'),
            'e' => Some('\u{1b}'),
            'f' => Some('\u{c}'),
            'n' => Some('\n'),
            'r' => Some('\r'),
            't' => Some('\t'),
            'x' => self.hexadecimal(2),
            'u' => self.hexadecimal(4),
            'U' => self.hexadecimal(8),
            it if it.is_whitespace() => {
                while self.rest.starts_with([' ', '\t', '\n', '\r']) {
                    self.next();
                }
                None
            }
            it => Some(it),
        }
    }

    fn hexadecimal(&mut self, n_digits: usize) -> Option<char> {
        let digits: String = (0..n_digits).filter_map(|_| self.next()).map(|it| it.0).collect();
        u32::from_str_radix(&digits, 16).ok().and_then(char::from_u32)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use toml::de::DeTable;

    use super::*;

    /// What the parser says the string is, if it finds no fault; and what is read here.
    fn both(raw: &str) -> Option<(String, Vec<Placed>)> {
        let source = format!("k = {raw}\n");
        let (table, errors) = DeTable::parse_recoverable(&source);
        let value = table.get_ref().get("k")?;
        let sound = errors.is_empty() && value.get_ref().is_str() && table.get_ref().len() == 1;
        let text = value.get_ref().as_str().filter(|_| sound)?.to_owned();
        let span = value.span();
        Some((text, characters(&source[span.clone()], span.start)))
    }

    #[test]
    fn each_kind_of_string() {
        for raw in [
            r#""""#,
            "''",
            r#""a\tb\u0041\U0001F33F\x41\\\"""#,
            r"'a\t'",
            "\"\"\"\n1 .\r\n. 2\n\"\"\"",
            "'''\r\n1 .\n. 2\n'''",
            "\"\"\"a\"\"b\"\"\"\"\"",
            "\"\"\"one \\\n   \n  two\\  \n three\"\"\"",
        ] {
            let (text, characters) = both(raw).unwrap_or_else(|| unreachable!("{raw} is TOML"));
            assert_eq!(characters.iter().map(|it| it.0).collect::<String>(), text, "{raw}");
            let rises = characters.windows(2).all(|it| it[0].1.end <= it[1].1.start);
            assert!(rises, "{raw}: {characters:?}");
        }
    }

    #[test]
    fn places_are_bytes_of_the_file() {
        let raw = "\"\"\"\né5\\u0037x\"\"\"";
        let places: Vec<Range<usize>> = characters(raw, 100).into_iter().map(|it| it.1).collect();
        assert_eq!(places, [104..106, 106..107, 107..113, 113..114]);
    }

    proptest! {
        /// The outside opinion is the `toml` crate.
        #[test]
        fn reads_as_the_parser_does(
            quotes in prop::sample::select(vec!["\"", "'", "\"\"\"", "'''"]),
            inside in r#"([0-9.| \n"'é]|\r\n|\\[bfnrte"\\ ]|\\u00[46][0-9]|\\ *\n){0,40}"#,
        ) {
            let raw = format!("{quotes}{inside}{quotes}");
            if let Some((text, characters)) = both(&raw) {
                prop_assert_eq!(characters.into_iter().map(|it| it.0).collect::<String>(), text);
            }
        }

        #[test]
        fn places_stay_inside_whatever_comes(raw in any::<String>(), start in 0usize..1000) {
            for (_, place) in characters(&raw, start) {
                prop_assert!(start <= place.start && place.start < place.end);
                prop_assert!(place.end <= start + raw.len());
            }
        }
    }
}
