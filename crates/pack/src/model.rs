//! What a pack is made of.

use std::collections::BTreeMap;
use std::fmt;
use std::str::FromStr;

use rulebook::Puzzle;
use trail::TechniqueId;

use crate::{Approval, Day, Form, Said, Setter, Weights};

/// A puzzle's name within its pack: its file's name without `.toml`.
///
/// Invariant: one or more lower-case letters, digits and hyphens, at most 64, so that it can stand in
/// an address and a file name.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PuzzleId(String);

impl PuzzleId {
    /// The id of that name, if it can be one.
    pub fn new(name: &str) -> Option<PuzzleId> {
        let fits = |it: char| it.is_ascii_lowercase() || it.is_ascii_digit() || it == '-';
        ((1..=64).contains(&name.len()) && name.chars().all(fits)).then(|| PuzzleId(name.to_owned()))
    }

    /// The name.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for PuzzleId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl fmt::Debug for PuzzleId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// What `pack.toml` says.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct PackInfo {
    /// The pack's title; empty if it is not known.
    pub title: String,
    /// Who edits it; empty if it is not known.
    pub editor: String,
    /// The licence it is given out under, as an SPDX name or in words.
    pub licence: Option<String>,
    /// Where the site will be.
    pub base_url: Option<String>,
    /// The editor's own tiers, easiest first.
    pub shelves: Vec<Shelf>,
    /// The editor's order; none if Galley is to propose one.
    pub order: Option<Vec<PuzzleId>>,
    /// The techniques that solvers know before the first puzzle.
    pub knows: Vec<TechniqueId>,
    /// The places, from 1, that the editor has settled. No two puzzles have the same.
    pub pins: BTreeMap<PuzzleId, usize>,
    /// What each flaw of an order costs.
    pub weights: Weights,
    /// The forms in which the booklet is printed; none for the usual one alone.
    pub booklets: Vec<Form>,
    /// What is known to be wrong in what has been published, newest first or as the editor has it.
    pub errata: Vec<Erratum>,
    /// How long the text under a recording may be.
    pub text_limits: TextLimits,
    /// What is kept of setters, each under the name that the puzzles' files have.
    pub setters: BTreeMap<String, Setter>,
}

/// The most characters of the text under a recording; none without a limit.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct TextLimits {
    /// Of its title.
    pub title: Option<usize>,
    /// Of the text.
    pub text: Option<usize>,
}

/// Something that is wrong in what has been published.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Erratum {
    /// When it was noted.
    pub noted: Day,
    /// What is wrong, and what is right.
    pub says: String,
}

/// One of the editor's tiers.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Shelf {
    /// What it is called.
    pub name: String,
    /// A puzzle of it takes a regular at most so many minutes; none without a limit.
    pub minutes: Option<u32>,
    /// A puzzle of it needs nothing harder; none without a limit.
    pub hardest: Option<TechniqueId>,
}

/// Without limits.
impl<T: Into<String>> From<T> for Shelf {
    fn from(name: T) -> Shelf {
        Shelf { name: name.into(), ..Shelf::default() }
    }
}

/// Whether a puzzle has a place in the pack.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum State {
    /// Nothing is said: it has a place, unless there are fewer places than puzzles.
    #[default]
    Undecided,
    /// It has a place.
    In,
    /// It may get one when a choice is made.
    Pool,
    /// It is kept for a later pack.
    Later,
    /// It was turned down.
    Declined,
}

impl State {
    /// Whether a puzzle in that state has a place where there are places for all.
    pub fn has_place(self) -> bool {
        matches!(self, State::Undecided | State::In)
    }
}

/// One puzzle file that could be read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Entry {
    /// The file's name without `.toml`.
    pub id: PuzzleId,
    /// The puzzle's title.
    pub title: String,
    /// Who set it.
    pub setter: String,
    /// How the setter is credited, as `pack.toml` has it.
    pub credit: Setter,
    /// When it came.
    pub received: Option<Day>,
    /// The setter's permission, in the editor's words.
    pub permission: Option<String>,
    /// What the setter has approved.
    pub approved: Option<Approval>,
    /// What the setter meant it to teach.
    pub intends: Vec<String>,
    /// Whether the editor still wants to solve it unspoilt.
    pub sealed: bool,
    /// A note of the editor's.
    pub note: Option<String>,
    /// The name of the editor's tier it is meant for; none where the editor has not said.
    pub shelf: Option<String>,
    /// Whether it has a place in the pack.
    pub state: State,
    /// Why it is in that state, in the editor's words.
    pub reason: Option<String>,
    /// The technique that its walkthrough should show, if it can.
    pub features: Option<TechniqueId>,
    /// The day on which the editor means to record it.
    pub record: Option<Day>,
    /// Where its recording can be seen.
    pub recording: Option<String>,
    /// The day on which the recording comes out.
    pub release: Option<Day>,
    /// What is to be seen when in the recording, from its beginning on.
    pub chapters: Vec<Chapter>,
    /// What has been said of its place in a recording.
    pub said: Vec<Said>,
    /// The puzzle.
    pub puzzle: Puzzle,
}

impl Entry {
    /// An entry with these and nothing else said.
    pub fn new(id: PuzzleId, title: impl Into<String>, setter: impl Into<String>, puzzle: Puzzle) -> Entry {
        Entry {
            id,
            title: title.into(),
            setter: setter.into(),
            credit: Setter::default(),
            received: None,
            permission: None,
            approved: None,
            intends: Vec::new(),
            sealed: false,
            note: None,
            shelf: None,
            state: State::default(),
            reason: None,
            features: None,
            record: None,
            recording: None,
            release: None,
            chapters: Vec::new(),
            said: Vec::new(),
            puzzle,
        }
    }

    /// The setter's name as it is printed.
    pub fn credited(&self) -> &str {
        self.credit.credit.as_deref().unwrap_or(&self.setter)
    }
}

/// A stretch of a recording, up to the next.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Chapter {
    /// When it begins, in seconds from the beginning of the recording.
    pub at: u32,
    /// What it is called.
    pub title: String,
}

impl Chapter {
    /// `1:05`, `1:02:03`: how people write when a chapter begins.
    pub fn begins(&self) -> String {
        let (hours, minutes, seconds) = (self.at / 3600, self.at / 60 % 60, self.at % 60);
        match hours {
            0 => format!("{minutes}:{seconds:02}"),
            _ => format!("{hours}:{minutes:02}:{seconds:02}"),
        }
    }
}

/// Reads `1:05 Place the crusts`: hours if there are any, minutes, seconds, a space and a title.
impl FromStr for Chapter {
    type Err = NoChapter;

    fn from_str(text: &str) -> Result<Chapter, NoChapter> {
        let (time, title) = text.split_once(' ').ok_or(NoChapter)?;
        let parts: Vec<&str> = time.split(':').collect();
        let two_figures = |it: &&str| it.len() == 2 && it.bytes().all(|it| it.is_ascii_digit());
        let is_plain = matches!(parts.len(), 2 | 3) && parts[1..].iter().all(two_figures);
        let is_first_plain =
            (1..=2).contains(&parts[0].len()) && parts[0].bytes().all(|it| it.is_ascii_digit());
        if !is_plain || !is_first_plain || title.trim().is_empty() {
            return Err(NoChapter);
        }
        let numbers: Vec<u32> =
            parts.iter().map(|it| it.parse().map_err(|_| NoChapter)).collect::<Result<_, _>>()?;
        // But for the first, no part reaches 60.
        if numbers[1..].iter().any(|it| *it >= 60) {
            return Err(NoChapter);
        }
        let at = numbers.into_iter().fold(0, |all, it| all * 60 + it);
        Ok(Chapter { at, title: title.trim().to_owned() })
    }
}

/// The text is no chapter.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoChapter;

impl fmt::Display for NoChapter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a chapter is written as minutes, seconds and a title, such as 1:05 Place the crusts")
    }
}

impl std::error::Error for NoChapter {}

/// A pack, as far as its files could be read.
///
/// Entries are in order of id.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Pack {
    /// What `pack.toml` says.
    pub info: PackInfo,
    /// The puzzles.
    pub entries: Vec<Entry>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chapters_are_read_as_people_write_them() {
        for (text, at) in [
            ("0:00 Opening", 0),
            ("1:05 Place the crusts", 65),
            ("12:30 Row 4", 750),
            ("1:02:03 The end", 3723),
        ] {
            let chapter: Chapter = text.parse().unwrap();
            assert_eq!(
                (chapter.at, format!("{} {}", chapter.begins(), chapter.title)),
                (at, text.to_owned())
            );
        }
        for bad in
            ["", "1:05", "1:5 a", "1:60 a", "105 a", "1:05  ", "-1:05 a", "1:60:00 a", "a:05 b", "1:2:03 a"]
        {
            assert_eq!(bad.parse::<Chapter>(), Err(NoChapter), "{bad}");
        }
    }
}
