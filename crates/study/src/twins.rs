//! Which puzzles are the same seen from another side, or have the same solution.

use std::collections::BTreeMap;

use prove::{Canonical, Limit, Symmetries, canonical, canonical_grid};

use crate::Study;

/// Arrangements looked at for each form: even a blank page takes fewer.
const FORM: Limit = Limit(100_000);

/// A puzzle with what its twins have in common with it.
#[derive(Debug)]
pub struct Compared<'a> {
    /// The puzzle.
    pub study: &'a Study,
    /// What tells it from the others: its file, as a person would type it.
    pub file: String,
    /// None if the limit was reached.
    pub page: Option<Canonical>,
    /// By the symmetries under which it may be compared; none of a sealed puzzle, whose solution is kept
    /// back, and of one that has not one solution.
    solutions: BTreeMap<Sight, Canonical>,
}

/// Which grids count as one.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Sight {
    /// Turned, mirrored, with the 1 and the largest digit exchanged.
    Turned,
    /// Whatever the classic rule leaves alone: for two puzzles without clues.
    Classic,
}

/// Puzzles that have something in common.
#[derive(Debug)]
pub struct Twins<'a> {
    /// What.
    pub kind: TwinKind,
    /// Two or more.
    pub members: Vec<&'a Compared<'a>>,
}

/// What they have in common.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum TwinKind {
    /// The whole puzzle, turned, mirrored or relabelled as its rules allow.
    Puzzle,
    /// The solution alone.
    Solution,
}

impl Compared<'_> {
    /// Finds out what is compared of the puzzle in that file.
    pub fn of(study: &Study, file: String) -> Compared<'_> {
        let puzzle = &study.entry().puzzle;
        let solution = study.opened().and_then(|it| it.solution);
        let sights = [
            Some((Sight::Turned, Symmetries::SANDWICH)),
            puzzle.clues().is_empty().then_some((Sight::Classic, Symmetries::Classic)),
        ];
        let solutions = sights
            .into_iter()
            .flatten()
            .filter_map(|(sight, symmetries)| Some((sight, canonical_grid(symmetries, solution?, FORM)?)));
        Compared { study, file, page: canonical(puzzle, FORM), solutions: solutions.collect() }
    }
}

/// Those with the same page first, then those that only have the same solution; each in the order in which the
/// puzzles are given.
pub fn twins<'a>(compared: &'a [Compared<'a>]) -> Vec<Twins<'a>> {
    let mut groups: Vec<Twins> = same(compared, |it| it.page.as_ref())
        .into_iter()
        .map(|members| Twins { kind: TwinKind::Puzzle, members })
        .collect();
    for sight in [Sight::Turned, Sight::Classic] {
        for members in same(compared, |it| it.solutions.get(&sight)) {
            let is_told =
                |it: &Twins| members.iter().all(|one| it.members.iter().any(|it| it.file == one.file));
            if !groups.iter().any(is_told) {
                groups.push(Twins { kind: TwinKind::Solution, members });
            }
        }
    }
    groups
}

/// Groups of two or more that have a form in common.
fn same<'a>(
    compared: &'a [Compared<'a>],
    form: impl Fn(&'a Compared<'a>) -> Option<&'a Canonical>,
) -> Vec<Vec<&'a Compared<'a>>> {
    let mut by_form: BTreeMap<&Canonical, Vec<(usize, &Compared)>> = BTreeMap::new();
    for (at, it) in compared.iter().enumerate() {
        if let Some(form) = form(it) {
            by_form.entry(form).or_default().push((at, it));
        }
    }
    let mut groups: Vec<_> = by_form.into_values().filter(|it| it.len() > 1).collect();
    groups.sort_by_key(|it| it[0].0);
    groups.into_iter().map(|it| it.into_iter().map(|it| it.1).collect()).collect()
}
