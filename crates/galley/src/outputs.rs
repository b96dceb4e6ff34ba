//! Everything that `galley press` writes: made, read back, and proved again before it counts.
//!
//! The report is for the editor and always written. The booklet and the site are for solvers: what is
//! published in them is read out of the finished files, compared with the pack and proved once more. A
//! difference is a fault of Galley's, and nothing is written then. Cue sheets, covers and texts are for whoever
//! records.

mod booklet;
mod cues;
mod site;
mod stages;

use pack::{Day, Entry, Form, PuzzleId};
use prove::{Limit, Verdict, verdict};
use rayon::prelude::*;
use report::Worths;
use rulebook::Puzzle;
use study::{LeftOut, Study};

use crate::folder::Files;
use crate::job::With;
use crate::outcome::Failure;
use crate::progress;
use crate::recordings::Recordings;
use crate::studies::Found;

pub(crate) use ::booklet::Alteration;

/// Nodes that proving a published puzzle again may take; it was proved within fewer.
const PROOF: Limit = Limit(40_000_000);

/// What is written, and what the editor should know about it.
#[derive(Debug, Default)]
pub(crate) struct Outputs {
    /// The files.
    pub(crate) files: Files,
    /// The puzzles that are in neither booklet nor site, and why.
    pub(crate) left_out: Vec<(PuzzleId, LeftOut)>,
    /// Whether booklet and site are written: only if there is a puzzle to publish.
    pub(crate) is_published: bool,
    /// Texts that could not be printed in the booklet as they are.
    pub(crate) alterations: Vec<Alteration>,
}

/// What is wanted beside what the pack says.
#[derive(Debug)]
pub(crate) struct Wanted<'a> {
    /// The day on which booklet and site come out.
    pub(crate) issued: Option<Day>,
    /// The forms of the booklet.
    pub(crate) forms: &'a [Form],
    /// Whether cue sheets are printed, too.
    pub(crate) print_cues: bool,
}

/// Makes all files of the pack.
///
/// # Errors
///
/// If what was made is not what should be published, or the work is interrupted.
pub(crate) fn outputs(
    found: &Found,
    wanted: &Wanted<'_>,
    recordings: &Recordings,
    with: &With,
) -> Result<Outputs, Failure> {
    let pack = &found.pack;
    let worths = worths(found, with)?;
    let sign = progress::waiting("looking for exercises", with);
    let lessons = primer::primer(pack, &|| with.stop.is_asked());
    sign.finish_and_clear();
    let lessons = lessons.ok_or_else(Failure::interrupted)?;
    let sign = progress::waiting("making report, booklet, site, cue sheets and stages", with);
    // The booklet takes about as long as all the others together.
    let (for_editor, for_solvers) = rayon::join(
        || (report(found, &worths), cues::cues(found, recordings, wanted.print_cues)),
        || {
            (!pack.published().is_empty()).then(|| {
                rayon::join(
                    || booklet::booklets(pack, &lessons, wanted.issued, wanted.forms),
                    || site::site(pack, &lessons, wanted.issued),
                )
            })
        },
    );
    sign.finish_and_clear();
    with.stop.check()?;

    let (report, cues) = for_editor;
    let mut files: Files = report;
    files.extend(cues?);
    files.extend(stages::stages(found, recordings));
    let mut alterations = Vec::new();
    let is_published = for_solvers.is_some();
    if let Some((booklet, site)) = for_solvers {
        let (booklet, altered) = booklet?;
        files.extend(booklet);
        files.extend(site?);
        alterations = altered;
    }
    Ok(Outputs { files, left_out: pack.left_out(), is_published, alterations })
}

/// What the techniques are worth that a puzzle introduces or is meant to teach. Those that are only practised are left
/// to `galley teaches`: each takes a walkthrough of its own, and nobody asks it of a hidden single.
fn worths(found: &Found, with: &With) -> Result<Worths, Failure> {
    let coverage = found.pack.coverage();
    let studies = found.pack.studies();
    let bar = progress::counting(studies.len(), with);
    let of = |study: &Study| {
        with.stop.check()?;
        let entry = study.entry();
        let meant: Vec<_> = entry.intends.iter().filter_map(|it| tell::technique_meant(it)).collect();
        let is_new = |id| coverage.iter().any(|it| it.technique == id && it.taught_in() == Some(&entry.id));
        let worths = with.stop.interrupting(|| study.worth(|id| meant.contains(&id) || is_new(id)))?;
        bar.inc(1);
        Ok(worths.map(|it| (entry.id.clone(), it)))
    };
    let worths: Result<Vec<_>, Failure> = studies.par_iter().map(of).collect();
    bar.finish_and_clear();
    Ok(worths?.into_iter().flatten().collect())
}

fn report(found: &Found, worths: &Worths) -> Files {
    let report = report::report(&found.pack, worths, &found.problems_of_files, &found.unreadable);
    Files::from([("report.html".to_owned(), report.into_bytes())])
}

/// Proves a puzzle as it was read back from `what`.
fn prove_again(what: &str, entry: &Entry, as_read: &Puzzle) -> Result<(), Failure> {
    match verdict(as_read, PROOF) {
        Verdict::One(_) => Ok(()),
        _ => Err(differs(
            what,
            &format!("\"{}\" does not have exactly one solution as it stands there", entry.title),
        )),
    }
}

/// The failure of an output that is not what should be published.
fn differs(what: &str, how: &str) -> Failure {
    Failure::new(
        format!("the {what} was not written, because it does not hold what the pack holds: {how}"),
        "this is a fault of Galley's: send the pack to its makers",
    )
}
