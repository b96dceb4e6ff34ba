//! One file being read: its table, its values by type, and the faults found on the way.

use std::collections::BTreeSet;
use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::fault::{Fault, KeyHint, Kind, Move};
use crate::nearest::nearest;
use crate::source::Source;
use crate::syntax::Syntax;
use crate::text::{Placed, characters};
use crate::{FORMAT, Problem};

/// A file of which more than this is wrong is some other file.
const MOST_PROBLEMS: usize = 100;

/// Reads the values of one file and gathers what is wrong with them.
pub(crate) struct Reader<'a> {
    source: Source<'a>,
    /// What the parser found fault with; values that touch such a place are not looked at.
    broken: Vec<Range<usize>>,
    /// Their places are worked out at the end, for those that are shown.
    found: Vec<(Range<usize>, Problem)>,
}

/// A value and the bytes it was written with.
pub(crate) struct At<T> {
    pub(crate) value: T,
    pub(crate) range: Range<usize>,
}

impl<'a> Reader<'a> {
    /// Begins to read what the parser made of the source; its faults are noted at once.
    ///
    /// A text with very many faults is not meant to be TOML, so nothing more is read from it.
    pub(crate) fn new<'t>(source: Source<'a>, syntax: &'t Syntax<'_>) -> (Reader<'a>, DeTable<'t>) {
        let broken = syntax.faults().iter().map(|it| it.0.clone()).collect();
        let mut reader = Reader { source, broken, found: Vec::new() };
        let mut table = syntax.table();
        let mut lines = BTreeSet::new();
        for (range, message) in syntax.faults() {
            // One slip often trips the parser several times, mostly on the line it is in.
            if lines.insert(reader.source.line(range.start)) {
                let (range, fault) = reader.fault_of_toml(&table, range.clone(), message);
                reader.note(range, fault);
            }
        }
        if reader.broken.len() > MOST_PROBLEMS {
            table = DeTable::new();
        }
        (reader, table)
    }

    /// The text of those bytes, as it is written.
    pub(crate) fn slice(&self, range: Range<usize>) -> &'a str {
        self.source.slice(range)
    }

    /// Notes a fault at those bytes.
    pub(crate) fn note(&mut self, range: Range<usize>, fault: Fault) {
        self.found.push((range, fault.in_file(self.source.path())));
    }

    /// The problems, in the order of their places. Of too many, errors are shown before warnings.
    pub(crate) fn finish(mut self) -> Vec<Problem> {
        let place = |it: &(Range<usize>, Problem)| (it.0.start, it.0.end);
        self.found.sort_by_key(|it| (it.1.severity, place(it)));
        let n_more = self.found.len().saturating_sub(MOST_PROBLEMS);
        self.found.truncate(MOST_PROBLEMS);
        self.found.sort_by_key(place);
        let more = (n_more > 0).then(|| Fault::MoreProblems { n_more }.in_file(self.source.path()));
        let placed = |(range, problem)| Problem { at: Some(self.source.span(range)), ..problem };
        self.found.into_iter().map(placed).chain(more).collect()
    }

    /// Whether the file says a format that is read here. If it says another, that is noted, and nothing
    /// else about the file should be: it follows rules that are not known.
    pub(crate) fn format(&mut self, table: &DeTable<'_>) -> bool {
        let Some(value) = self.needed(table, "format", "format = 1") else { return true };
        let range = value.span();
        match value.get_ref() {
            DeValue::Integer(it) if i64::from_str_radix(it.as_str(), it.radix()) == Ok(i64::from(FORMAT)) => {
                true
            }
            DeValue::Integer(_) => {
                let found = self.source.slice(range.clone()).to_owned();
                self.note(range, Fault::UnknownFormat { found });
                false
            }
            other => {
                self.wrong_type("format", range, other, Kind::Number);
                true
            }
        }
    }

    /// Notes every key of the table that is not known.
    ///
    /// `place` names the table in a sentence; `elsewhere` are keys that are known in other places, with
    /// the next move for each group of them.
    pub(crate) fn only_keys(
        &mut self,
        table: &DeTable<'_>,
        known: &[&'static str],
        place: &'static str,
        elsewhere: &[(&[&'static str], Move)],
    ) {
        let unknown = table.keys().filter(|it| !known.contains(&it.get_ref().as_ref()));
        let mut unknown: Vec<_> = unknown.filter(|it| !self.touches_fault(&it.span())).collect();
        unknown.sort_by_key(|it| it.span().start);
        for (at, spanned) in unknown.into_iter().enumerate() {
            let (key, range) = (spanned.get_ref().to_string(), spanned.span());
            let belongs = elsewhere.iter().find(|(keys, _)| keys.contains(&&key[..]));
            // Of thousands of keys only the first are shown, so only those are worth a search.
            let near = if at < MOST_PROBLEMS { nearest(&key, known.iter().copied()) } else { None };
            let hint = match (belongs, near) {
                (Some((_, to)), _) => KeyHint::Move(*to),
                (None, Some(meant)) => KeyHint::Meant(meant),
                (None, None) => KeyHint::OneOf(known.to_vec()),
            };
            self.note(range, Fault::UnknownKey { key, place, hint });
        }
    }

    /// The value of a key that must be there.
    ///
    /// `example` is the line to add where it is missing. A file that the parser did not get through is
    /// not said to miss anything: the key may stand in the part that was not read.
    fn needed<'t, 'v>(
        &mut self,
        table: &'t DeTable<'v>,
        key: &'static str,
        example: &'static str,
    ) -> Option<&'t Spanned<DeValue<'v>>> {
        if !table.contains_key(key) && self.broken.is_empty() {
            self.note(0..0, Fault::MissingKey { key, example });
        }
        self.value(table, key)
    }

    /// The value of a key, unless the parser found fault with it.
    fn value<'t, 'v>(&self, table: &'t DeTable<'v>, key: &str) -> Option<&'t Spanned<DeValue<'v>>> {
        table.get(key).filter(|it| self.is_sound(&it.span()))
    }

    fn is_sound(&self, range: &Range<usize>) -> bool {
        // The parser fills a gap with a value that stands nowhere.
        !range.is_empty() && !self.touches_fault(range)
    }

    fn touches_fault(&self, range: &Range<usize>) -> bool {
        self.broken.iter().any(|it| it.start <= range.end && range.start <= it.end)
    }

    /// A text, whatever it holds.
    pub(crate) fn text(&mut self, table: &DeTable<'_>, key: &str) -> Option<At<String>> {
        let value = self.value(table, key)?;
        self.text_of(key, value)
    }

    fn text_of(&mut self, key: &str, value: &Spanned<DeValue<'_>>) -> Option<At<String>> {
        match value.get_ref() {
            DeValue::String(it) => Some(At { value: it.to_string(), range: value.span() }),
            other => {
                self.wrong_type(key, value.span(), other, Kind::Text);
                None
            }
        }
    }

    /// A text that is not empty and fits on one line.
    pub(crate) fn line(&mut self, table: &DeTable<'_>, key: &str) -> Option<At<String>> {
        let value = self.value(table, key)?;
        self.line_of(key, value)
    }

    fn line_of(&mut self, key: &str, value: &Spanned<DeValue<'_>>) -> Option<At<String>> {
        let text = self.text_of(key, value)?;
        let key = key.to_owned();
        let fault = match text.value.chars().find(|it| it.is_control()) {
            _ if text.value.trim().is_empty() => Fault::EmptyText { key },
            Some(found) => Fault::NotOneLine { key, found },
            None => return Some(text),
        };
        self.note(text.range, fault);
        None
    }

    /// A text that must be there, is not empty and fits on one line.
    pub(crate) fn needed_line(
        &mut self,
        table: &DeTable<'_>,
        key: &'static str,
        example: &'static str,
    ) -> Option<At<String>> {
        let value = self.needed(table, key, example)?;
        self.line_of(key, value)
    }

    /// A text that must be there, as its characters with their places.
    pub(crate) fn needed_characters(
        &mut self,
        table: &DeTable<'_>,
        key: &'static str,
        example: &'static str,
    ) -> Option<At<Vec<Placed>>> {
        let value = self.needed(table, key, example)?;
        self.characters_of(key, value)
    }

    /// A text as its characters with their places.
    pub(crate) fn characters(&mut self, table: &DeTable<'_>, key: &str) -> Option<At<Vec<Placed>>> {
        let value = self.value(table, key)?;
        self.characters_of(key, value)
    }

    fn characters_of(&mut self, key: &str, value: &Spanned<DeValue<'_>>) -> Option<At<Vec<Placed>>> {
        let At { range, .. } = self.text_of(key, value)?;
        Some(At { value: characters(self.source.slice(range.clone()), range.start), range })
    }

    /// True or false; false if the key is not there.
    pub(crate) fn flag(&mut self, table: &DeTable<'_>, key: &str) -> bool {
        let Some(value) = self.value(table, key) else { return false };
        match value.get_ref() {
            DeValue::Boolean(it) => *it,
            other => {
                self.wrong_type(key, value.span(), other, Kind::Flag);
                false
            }
        }
    }

    /// A whole number from `least` to `most`.
    pub(crate) fn count(&mut self, table: &DeTable<'_>, key: &str, least: u64, most: u64) -> Option<At<u64>> {
        let value = self.value(table, key)?;
        let range = value.span();
        match value.get_ref() {
            DeValue::Integer(it) => match u64::from_str_radix(it.as_str(), it.radix()) {
                Ok(value) if (least..=most).contains(&value) => Some(At { value, range }),
                _ => {
                    let found = self.source.slice(range.clone()).to_owned();
                    self.note(range, Fault::NotInRange { key: key.to_owned(), found, least, most });
                    None
                }
            },
            other => {
                self.wrong_type(key, range, other, Kind::Count);
                None
            }
        }
    }

    /// A list of texts, none empty and each on one line; the faulty ones are left out.
    pub(crate) fn lines(&mut self, table: &DeTable<'_>, key: &str) -> Option<At<Vec<At<String>>>> {
        let value = self.value(table, key)?;
        match value.get_ref() {
            DeValue::Array(items) => {
                let lines = items.iter().filter_map(|item| match item.get_ref() {
                    DeValue::String(_) => self.line_of(key, item),
                    other => {
                        let found = format!("a list with {}", type_name(other));
                        let fault = Fault::WrongType { key: key.to_owned(), found, expected: Kind::Texts };
                        self.note(item.span(), fault);
                        None
                    }
                });
                Some(At { value: lines.collect(), range: value.span() })
            }
            other => {
                self.wrong_type(key, value.span(), other, Kind::Texts);
                None
            }
        }
    }

    /// A list of texts in which each stands once; a text that comes again is noted and left out.
    pub(crate) fn names(&mut self, table: &DeTable<'_>, key: &'static str) -> Vec<String> {
        let mut names: Vec<String> = Vec::new();
        let mut seen = BTreeSet::new();
        for item in self.lines(table, key).map(|it| it.value).unwrap_or_default() {
            match seen.insert(item.value.clone()) {
                true => names.push(item.value),
                false => self.note(item.range, Fault::ListedTwice { key, item: item.value }),
            }
        }
        names
    }

    /// A table within the table.
    pub(crate) fn table<'t, 'v>(&mut self, table: &'t DeTable<'v>, key: &str) -> Option<&'t DeTable<'v>> {
        self.table_headed(table, key, key)
    }

    /// The same for one with that heading: a table in a table that is not the whole file.
    pub(crate) fn table_headed<'t, 'v>(
        &mut self,
        table: &'t DeTable<'v>,
        key: &str,
        heading: &str,
    ) -> Option<&'t DeTable<'v>> {
        let value = self.value(table, key)?;
        match value.get_ref() {
            DeValue::Table(it) => Some(it),
            other => {
                self.wrong_type(heading, value.span(), other, Kind::Table);
                None
            }
        }
    }

    fn wrong_type(&mut self, key: &str, range: Range<usize>, found: &DeValue<'_>, expected: Kind) {
        let found = type_name(found).to_owned();
        self.note(range, Fault::WrongType { key: key.to_owned(), found, expected });
    }

    /// What the parser said, where it can be said better.
    fn fault_of_toml(
        &self,
        table: &DeTable<'_>,
        range: Range<usize>,
        message: &str,
    ) -> (Range<usize>, Fault) {
        if message.starts_with("duplicate key") {
            let key = self.source.slice(range.clone()).to_owned();
            return (range, Fault::KeyTwice { key });
        }
        // A text in three quotes that is never closed swallows the rest of the file; where it began says
        // more than where the file ends.
        if message.starts_with("invalid multi-line") && range.start == self.source.text().len() {
            let inner = table.values().filter_map(|it| it.get_ref().as_table());
            let values = table.values().chain(inner.flat_map(|it| it.values()));
            if let Some(open) = values.map(Spanned::span).find(|it| it.end == range.start) {
                let quotes = if self.source.slice(open.clone()).starts_with('\'') { "'''" } else { "\"\"\"" };
                return (open.start..open.start + 3, Fault::NeverClosed { quotes });
            }
        }
        (range, Fault::NotToml { message: message.to_owned() })
    }
}

/// The type of a value, in words.
fn type_name(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) => "a number",
        DeValue::Float(_) => "a decimal number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date or time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
