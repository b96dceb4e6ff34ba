//! What a pack is made of.

use std::fmt;

use rulebook::Puzzle;

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
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PackInfo {
    /// The pack's title.
    pub title: String,
    /// Who edits it.
    pub editor: String,
    /// The licence it is given out under, as an SPDX name or in words.
    pub licence: Option<String>,
    /// Where the site will be.
    pub base_url: Option<String>,
    /// The editor's own tiers, easiest first.
    pub shelves: Vec<String>,
    /// The editor's order; none if Galley is to propose one.
    pub order: Option<Vec<PuzzleId>>,
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
    /// The puzzle.
    pub puzzle: Puzzle,
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
