//! Writing a puzzle file.

use std::fmt::Write;

use grid::{Cell, Digit, Grid, Size};
use pack::Entry;
use rulebook::{Puzzle, RULES, Rule};
use toml::Value;

use crate::FORMAT;
use crate::clues::LINES;
use crate::plans::state_name;

/// The puzzle file of an entry: TOML that [`read_puzzle`](crate::read_puzzle) reads back as the same
/// entry, laid out for people.
///
/// The entry's texts must be such as a file may hold: title, setter, permission and aims on one line
/// and not empty, its clues reachable, its givens without repeats. The id is not in the file; it is
/// the file's name.
pub fn write_puzzle(entry: &Entry) -> String {
    let size = entry.puzzle.size();
    let mut text = format!("format = {FORMAT}\n");
    let mut line = |key: &str, value: Value| text.push_str(&format!("{key} = {value}\n"));
    let of_text = |it: &String| Value::String(it.clone());
    line("title", of_text(&entry.title));
    line("setter", of_text(&entry.setter));
    if let Some(received) = entry.received {
        line("received", Value::String(received.to_string()));
    }
    if let Some(permission) = &entry.permission {
        line("permission", of_text(permission));
    }
    if let Some(approved) = &entry.approved {
        line("approved", Value::String(approved.to_string()));
    }
    if !entry.intends.is_empty() {
        line("intends", Value::Array(entry.intends.iter().map(of_text).collect()));
    }
    if entry.sealed {
        line("sealed", Value::Boolean(true));
    }
    if let Some(note) = &entry.note {
        line("note", of_text(note));
    }
    if let Some(shelf) = &entry.shelf {
        line("shelf", of_text(shelf));
    }
    if let Some(state) = state_name(entry.state) {
        line("state", Value::String(state.to_owned()));
    }
    if let Some(reason) = &entry.reason {
        line("reason", of_text(reason));
    }
    if let Some(technique) = entry.features {
        line("features", Value::String(technique.to_string()));
    }
    if let Some(record) = entry.record {
        line("record", Value::String(record.to_string()));
    }
    if let Some(recording) = &entry.recording {
        line("recording", of_text(recording));
    }
    if let Some(release) = entry.release {
        line("release", Value::String(release.to_string()));
    }
    if !entry.chapters.is_empty() {
        let lines = entry.chapters.iter().map(|it| Value::String(format!("{} {}", it.begins(), it.title)));
        line("chapters", Value::Array(lines.collect()));
    }
    if !entry.said.is_empty() {
        line("said", Value::Array(entry.said.iter().map(|it| Value::String(it.to_string())).collect()));
    }
    if size != Size::NINE {
        line("size", Value::String(size.to_string()));
    }
    if Size::of_side(size.side()) != Some(size) {
        line("box", Value::String(format!("{}x{}", size.box_width(), size.box_height())));
    }
    text.push_str(&format!("grid = \"\"\"\n{}\"\"\"\n", drawn(entry.puzzle.givens())));
    for rule in RULES {
        write_clues(&mut text, &entry.puzzle, rule);
    }
    text
}

/// The grid, a line a row, with rules between the boxes.
pub(crate) fn drawn(grid: &Grid) -> String {
    let size = grid.size();
    let (across, down) = (size.box_width(), size.box_height());
    let mut text = String::new();
    for row in 1..=size.side() {
        let cells: Vec<char> = (1..=size.side())
            .map(|column| {
                size.cell(row, column).and_then(|it: Cell| grid.get(it)).map_or('.', Digit::to_char)
            })
            .collect();
        let boxes: Vec<String> = (cells.chunks(usize::from(across)))
            .map(|it| it.iter().map(char::to_string).collect::<Vec<_>>().join(" "))
            .collect();
        text.push_str(&boxes.join(" | "));
        text.push('\n');
        if row % down == 0 && row != size.side() {
            // Each box is `2 * across - 1` wide, with a space on either side of the upright rules.
            let last = boxes.len() - 1;
            let rule = |(at, it): (usize, &String)| {
                "-".repeat(it.len() + usize::from(at > 0) + usize::from(at < last))
            };
            text.push_str(&boxes.iter().enumerate().map(rule).collect::<Vec<_>>().join("+"));
            text.push('\n');
        }
    }
    text
}

/// The table of a rule that has clues, its two lines padded to the same columns.
fn write_clues(text: &mut String, puzzle: &Puzzle, rule: &dyn Rule) {
    if !puzzle.clues().iter().any(|it| it.rule.id() == rule.id()) {
        return;
    }
    let size = puzzle.size();
    let clue = |line| puzzle.clue_at(rule, line).map_or(".".to_owned(), |(_, it)| it.value.to_string());
    let texts = LINES.map(|(key, kind)| {
        let lines = size.lines().filter(|it| it.kind() == kind);
        (key, lines.map(clue).collect::<Vec<String>>())
    });
    let width = texts.iter().flat_map(|it| &it.1).map(String::len).max().unwrap_or(1);
    // Writing to a text cannot fail.
    _ = writeln!(text, "\n[{}]", rule.id().name());
    for (key, clues) in texts {
        let padded: Vec<String> = clues.iter().map(|it| format!("{it:>width$}")).collect();
        _ = writeln!(text, "{key:<7} = \"{}\"", padded.join(" "));
    }
}
