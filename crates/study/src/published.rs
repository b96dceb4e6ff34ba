//! What of a pack may be published, and what is left out.
//!
//! Everything that goes out to solvers (the booklet, the site) asks here, so that no two of them can
//! disagree on it: only what is open, has exactly one solution and a walkthrough that replayed.

use std::fmt;

use ::pack::PuzzleId;
use grid::Grid;

use crate::{Account, Finding, StudiedPack, Study};

/// A puzzle that may be published.
#[derive(Clone, Copy, Debug)]
pub struct Published<'a> {
    /// Its number in the pack, from 1. What is left out keeps its number, so that a puzzle has the
    /// same one in everything that is written, and keeps it when a seal is opened.
    pub number: usize,
    /// The editor's tier it falls on, if the pack has any.
    pub shelf: Option<&'a str>,
    /// The puzzle, studied.
    pub study: &'a Study,
    /// Its only solution.
    pub solution: &'a Grid,
    /// Its walkthrough.
    pub account: &'a Account,
}

/// Why a puzzle is not published.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum LeftOut {
    /// It is sealed. Nothing is said about whether it could be published otherwise.
    Sealed,
    /// It is not known to have exactly one solution.
    NotProved,
    /// It has one solution, but no walkthrough that is fit to be read out.
    NotExplained,
    /// It has no place in the pack at the moment.
    NoPlace,
}

impl StudiedPack {
    /// The puzzles that may be published, in order.
    pub fn published(&self) -> Vec<Published<'_>> {
        let published = self.studies().iter().enumerate().filter_map(|(at, study)| {
            let opened = study.opened()?;
            let placement = self.placement(at);
            Some(Published {
                number: placement.number,
                shelf: placement.shelf,
                study,
                solution: opened.solution?,
                account: opened.account?,
            })
        });
        published.collect()
    }

    /// The others, in order, and why; those without a place last.
    pub fn left_out(&self) -> Vec<(PuzzleId, LeftOut)> {
        let left_out = |it: &Study| Some((it.entry().id.clone(), it.left_out()?));
        let inside = self.studies().iter().filter_map(left_out);
        inside.chain(self.aside().iter().map(|it| (it.entry().id.clone(), LeftOut::NoPlace))).collect()
    }
}

impl Study {
    /// Why the puzzle is not published, if it is not, wherever it stands.
    pub fn left_out(&self) -> Option<LeftOut> {
        match self.finding() {
            _ if self.is_sealed() => Some(LeftOut::Sealed),
            Finding::None | Finding::Many | Finding::Undecided => Some(LeftOut::NotProved),
            Finding::One if !self.is_publishable() => Some(LeftOut::NotExplained),
            Finding::One => None,
        }
    }
}

impl fmt::Display for LeftOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            LeftOut::Sealed => "it is sealed",
            LeftOut::NotProved => "it is not proved to have exactly one solution",
            LeftOut::NotExplained => "it has no walkthrough that can be read out",
            LeftOut::NoPlace => "it has no place in the pack",
        })
    }
}
