//! The clues of a puzzle file: one table a rule, with `rows` and `columns`.
//!
//! Nothing here knows a certain rule: names, values and reasons come from `rulebook`.

use std::ops::Range;

use grid::{HouseKind, Size};
use rulebook::{Clue, RULES, Rule};
use toml::de::DeTable;

use crate::fault::{Fault, Move};
use crate::read::Reader;
use crate::text::Placed;
use crate::{plans, puzzle};

/// The keys of a rule's table, and the lines their clues stand beside.
pub(crate) const LINES: [(&str, HouseKind); 2] = [("rows", HouseKind::Row), ("columns", HouseKind::Column)];

/// Reads the table of every rule. Without a size, clues are only looked at for being numbers.
pub(crate) fn read_clues(reader: &mut Reader<'_>, table: &DeTable<'_>, size: Option<Size>) -> Vec<Clue> {
    RULES.into_iter().flat_map(|rule| read_rule(reader, table, rule, size)).collect()
}

fn read_rule(
    reader: &mut Reader<'_>,
    table: &DeTable<'_>,
    rule: &'static dyn Rule,
    size: Option<Size>,
) -> Vec<Clue> {
    let Some(table) = reader.table(table, rule.id().name()) else { return Vec::new() };
    reader.only_keys(
        table,
        &LINES.map(|it| it.0),
        "a table of clues",
        &[(&puzzle::KEYS, Move::AboveHeadings), (&plans::KEYS, Move::AboveHeadings)],
    );
    let reachable = size.map(|it| rule.reachable(it)).unwrap_or_default();
    let mut clues = Vec::new();
    for (key, kind) in LINES {
        let Some(text) = reader.characters(table, key) else { continue };
        let words = words_of(&text.value);
        if let Some(size) = size.filter(|it| usize::from(it.side()) != words.len()) {
            let range = match words.get(usize::from(size.side())) {
                Some(surplus) => surplus.1.start..text.range.end,
                None => text.range,
            };
            reader.note(range, Fault::ClueCount { key, found: words.len(), size });
        }
        for (number, (word, range)) in (1..=u8::MAX).zip(words) {
            if word == "." {
                continue;
            }
            match (read_value(&word, rule, size, &reachable), size.and_then(|it| it.house(kind, number))) {
                (Ok(value), Some(line)) => clues.push(Clue { rule, line, value }),
                (Ok(_), None) => {}
                (Err(fault), _) => reader.note(range, fault),
            }
        }
    }
    clues
}

/// The words of a text with their places.
fn words_of(text: &[Placed]) -> Vec<(String, Range<usize>)> {
    let words = text.split(|(it, _)| it.is_whitespace()).filter(|it| !it.is_empty());
    let word = |it: &[Placed]| {
        let (first, last) = (it.first()?, it.last()?);
        Some((it.iter().map(|it| it.0).collect(), first.1.start..last.1.end))
    };
    words.filter_map(word).collect()
}

/// The value of a clue, if it is a number that some line has.
fn read_value(word: &str, rule: &dyn Rule, size: Option<Size>, reachable: &[u16]) -> Result<u16, Fault> {
    if !word.chars().all(|it| it.is_ascii_digit()) {
        return Err(Fault::ClueNotANumber { found: word.to_owned() });
    }
    let Some(size) = size else { return Ok(0) };
    let summands = rule.summands(size);
    match word.parse::<u16>() {
        Ok(value) if reachable.contains(&value) => Ok(value),
        Ok(found) if reachable.last().is_some_and(|most| found < *most) => {
            let (rule, reachable) = (rule.id().name(), reachable.to_vec());
            Err(Fault::SumNotReachable { found, rule, summands, reachable })
        }
        _ => Err(Fault::ClueTooLarge { found: word.to_owned(), summands, reachable: reachable.to_vec() }),
    }
}
