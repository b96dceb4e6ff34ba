//! Which puzzles are the same seen from another side, or have the same solution.

use std::path::{Path, PathBuf};

use rayon::prelude::*;
use study::{Compared, Study, TwinKind, twins};

use crate::job::With;
use crate::outcome::Failure;
use crate::studies::{Depth, Found, Target};
use crate::trouble::Trouble;
use crate::{load, print};

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
    for group in twins(&compared) {
        for one in group.members.iter().filter(|it| own.contains(&it.file)) {
            let others = group.members.iter().filter(|it| it.file != one.file).map(|it| name(it));
            let (code, same) = match group.kind {
                TwinKind::Puzzle => ("twin", "is the same puzzle as"),
                TwinKind::Solution => ("twin-solution", "has the same solution as"),
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

/// `"First light" (lantern-room/puzzles/first-light.toml)`.
pub(crate) fn name(it: &Compared<'_>) -> String {
    format!("\"{}\" ({})", print::visible(&it.study.entry().title), print::visible(&it.file))
}
