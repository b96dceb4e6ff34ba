//! What is recorded from: for each puzzle the stage and the presenter's page, and what they share.

use rayon::prelude::*;
use rehearse::{StageFiles, stage, stage_shared};
use study::Study;

use crate::folder::Files;
use crate::recordings::Recordings;
use crate::studies::Found;

/// The folder that they are written to.
const FOLDER: &str = "stage/";

/// The files of each puzzle that has a place, is open and has a walkthrough.
pub(super) fn stages(found: &Found, recordings: &Recordings) -> Files {
    let of = |study: &Study| recordings.setting(found, study).map(|it| stage(&it));
    let pages: Vec<StageFiles> = found.pack.studies().par_iter().filter_map(of).collect();
    let shared = (!pages.is_empty()).then(stage_shared);
    let all = pages.into_iter().chain(shared).flatten();
    all.map(|(path, bytes)| (format!("{FOLDER}{path}"), bytes)).collect()
}
