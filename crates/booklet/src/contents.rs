//! Which puzzles of a pack are in its booklet.

use grid::Grid;
use pack::PuzzleId;
use study::{Account, StudiedPack, Study};

/// Why a puzzle is not in the booklet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LeftOut {
    /// It is sealed: a booklet holds its solution and hints.
    Sealed,
    /// It is not proved to have exactly one solution, or has no walkthrough that was checked.
    NotPublishable,
}

/// A puzzle that is in the booklet, with what its pages need.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Chosen<'a> {
    /// Its number in the pack, from 1. What is left out keeps its number, so that a puzzle has the
    /// same one everywhere.
    pub(crate) number: usize,
    /// The editor's tier it falls on.
    pub(crate) shelf: Option<&'a str>,
    /// The puzzle, studied.
    pub(crate) study: &'a Study,
    /// Its only solution.
    pub(crate) solution: &'a Grid,
    /// Its walkthrough.
    pub(crate) account: &'a Account,
}

/// The puzzles that may be published, in the pack's order, and the others.
pub(crate) fn choose(pack: &StudiedPack) -> (Vec<Chosen<'_>>, Vec<(PuzzleId, LeftOut)>) {
    let (mut chosen, mut left_out) = (Vec::new(), Vec::new());
    for (at, study) in pack.studies().iter().enumerate() {
        let placement = pack.placement(at);
        let opened = study.opened();
        let why = if opened.is_none() { LeftOut::Sealed } else { LeftOut::NotPublishable };
        let found = opened.filter(|_| study.is_publishable()).and_then(|it| it.solution.zip(it.account));
        match found {
            Some((solution, account)) => chosen.push(Chosen {
                number: placement.number,
                shelf: placement.shelf,
                study,
                solution,
                account,
            }),
            None => left_out.push((study.entry().id.clone(), why)),
        }
    }
    (chosen, left_out)
}
