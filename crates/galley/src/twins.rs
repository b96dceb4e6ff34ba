//! Which puzzles are the same seen from another side, or have the same solution.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use prove::{Canonical, Limit, Symmetries, canonical, canonical_grid};
use rayon::prelude::*;
use study::Study;

use crate::job::With;
use crate::outcome::Failure;
use crate::studies::{Depth, Found, Target};
use crate::trouble::Trouble;
use crate::{load, print};

/// Arrangements looked at for each form: even a blank page takes fewer.
const FORM: Limit = Limit(100_000);

/// A puzzle with what its twins have in common with it.
pub(crate) struct Compared<'a> {
    pub(crate) study: &'a Study,
    /// Its file, as a person would type it.
    pub(crate) file: String,
    /// None if the limit was reached.
    pub(crate) page: Option<Canonical>,
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
pub(crate) struct Group<'a> {
    pub(crate) kind: Kind,
    pub(crate) members: Vec<&'a Compared<'a>>,
}

/// What they have in common.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Kind {
    Puzzle,
    Solution,
}

/// Each of the packs once, however often it is named, with its puzzles proved.
///
/// # Errors
///
/// If one cannot be read, or the work is interrupted.
pub(crate) fn packs_at(paths: &[PathBuf], unseal: bool, with: &With) -> Result<Vec<Found>, Failure> {
    let mut seen = Vec::new();
    let mut found = Vec::new();
    for path in paths {
        let loaded = load::load(path)?;
        let real = real(path);
        if seen.contains(&real) {
            continue;
        }
        seen.push(real);
        let target = Target { path: path.clone(), unseal };
        found.push(target.study_loaded(loaded, Depth::Verdict, with)?);
    }
    Ok(found)
}

/// A warning for each puzzle that has a twin, in its own pack or in one of the archive.
///
/// # Errors
///
/// If the work is interrupted.
pub(crate) fn warnings(found: &Found, archive: &[Found], with: &With) -> Result<Vec<Trouble>, Failure> {
    let own = found.pack.all().map(|it| (it, found.path_of(it)));
    let others = archive.iter().flat_map(|it| it.pack.all().map(move |study| (study, it.path_of(study))));
    let mut files = Vec::new();
    let puzzles: Vec<(&Study, String)> = own
        .chain(others)
        // The archive may hold the pack itself.
        .filter(|it| {
            let real = real(Path::new(&it.1));
            let is_new = !files.contains(&real);
            files.push(real);
            is_new
        })
        .collect();
    let compared: Vec<Compared> = puzzles
        .into_par_iter()
        .map(|(study, file)| with.stop.interrupting(|| Compared::of(study, file)))
        .collect::<Result<_, _>>()?;
    let own: Vec<String> = found.pack.all().map(|it| found.path_of(it)).collect();
    let mut troubles = Vec::new();
    for group in groups(&compared) {
        for one in group.members.iter().filter(|it| own.contains(&it.file)) {
            let others = group.members.iter().filter(|it| it.file != one.file).map(|it| it.name());
            let (code, same) = match group.kind {
                Kind::Puzzle => ("twin", "is the same puzzle as"),
                Kind::Solution => ("twin-solution", "has the same solution as"),
            };
            let others = tell::list(&others.collect::<Vec<_>>());
            let title = &one.study.entry().title;
            troubles.push(Trouble {
                code,
                is_error: false,
                file: found.file_of(one.study).to_owned(),
                at: None,
                message: format!("\"{title}\" {same} {others}, seen from another side or copied"),
                why: None,
                help: Some("ask the setter, or leave one of them out".to_owned()),
            });
        }
    }
    Ok(troubles)
}

/// The path without links and detours, so that a file is known again.
pub(crate) fn real(path: &Path) -> PathBuf {
    path.canonicalize().unwrap_or_else(|_| path.to_owned())
}

impl Compared<'_> {
    pub(crate) fn of(study: &Study, file: String) -> Compared<'_> {
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

    /// `"First light" (lantern-room/puzzles/first-light.toml)`.
    pub(crate) fn name(&self) -> String {
        format!("\"{}\" ({})", print::visible(&self.study.entry().title), print::visible(&self.file))
    }
}

/// Those with the same page first, then those that only have the same solution; each in the order in which the
/// packs were named.
pub(crate) fn groups<'a>(compared: &'a [Compared<'a>]) -> Vec<Group<'a>> {
    let mut groups: Vec<Group> = same(compared, |it| it.page.as_ref())
        .into_iter()
        .map(|members| Group { kind: Kind::Puzzle, members })
        .collect();
    for sight in [Sight::Turned, Sight::Classic] {
        for members in same(compared, |it| it.solutions.get(&sight)) {
            let is_told =
                |it: &Group| members.iter().all(|one| it.members.iter().any(|it| it.file == one.file));
            if !groups.iter().any(is_told) {
                groups.push(Group { kind: Kind::Solution, members });
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
