//! What a pack is made of.

use std::collections::BTreeMap;
use std::fmt;

use rulebook::Puzzle;
use trail::TechniqueId;

use crate::{Day, Form, Said, Weights};

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
    /// The setter's permission, in the editor's words.
    pub permission: Option<String>,
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
    /// Where its recording can be seen.
    pub recording: Option<String>,
    /// The day on which the recording comes out.
    pub release: Option<Day>,
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
            permission: None,
            intends: Vec::new(),
            sealed: false,
            note: None,
            shelf: None,
            state: State::default(),
            reason: None,
            features: None,
            recording: None,
            release: None,
            said: Vec::new(),
            puzzle,
        }
    }
}

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
