//! What lies in the pack's folder beside its puzzles: test solves, logs of the stage, notes, captions.
//!
//! It is read when it is asked for. A file with a fault is passed over: the command that uses it says what is wrong.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use packfile::{LoggedRehearsal, LoggedSolve, SourceFile, read_notes, read_rehearsal, read_solve};

use super::{Folder, SOLVES, bytes_of};
use crate::failure::Failure;

const REHEARSALS: &str = "rehearsals";
const NOTES: &str = "notes";
const CAPTIONS: &str = "captions";

/// The folders of all this.
pub(crate) const BESIDE: [&str; 4] = [SOLVES, REHEARSALS, NOTES, CAPTIONS];

/// What there is.
#[derive(Clone, Debug, Default)]
pub(crate) struct Beside {
    /// The test solves.
    pub(crate) solves: Vec<LoggedSolve>,
    /// The logs of rehearsals and recordings.
    pub(crate) rehearsals: Vec<LoggedRehearsal>,
    /// How many notes hang on the steps of which puzzle.
    pub(crate) notes: BTreeMap<String, usize>,
    /// The puzzles that have captions.
    pub(crate) captioned: BTreeSet<String>,
}

impl Folder {
    /// Reads it.
    ///
    /// # Errors
    ///
    /// If a folder is there and cannot be read.
    pub(crate) fn beside(&self) -> Result<Beside, Failure> {
        let solves = self.files_in(SOLVES, "json")?;
        let rehearsals = self.files_in(REHEARSALS, "json")?;
        let notes = self.files_in(NOTES, "toml")?;
        let stem = |it: &SourceFile| {
            Path::new(&it.path).file_stem().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default()
        };
        Ok(Beside {
            solves: solves.iter().filter_map(|it| read_solve(it).ok()).collect(),
            rehearsals: rehearsals.iter().filter_map(|it| read_rehearsal(it).ok()).collect(),
            notes: notes.iter().map(|it| (stem(it), read_notes(it).0.steps.len())).collect(),
            captioned: self.files_in(CAPTIONS, "vtt")?.iter().map(stem).collect(),
        })
    }

    /// What tells whether anything of this has changed: names, sizes and times.
    pub(crate) fn beside_stamp(&self) -> Vec<(PathBuf, u64, Option<SystemTime>)> {
        let folders = BESIDE.into_iter().filter_map(|it| fs::read_dir(self.root.join(it)).ok());
        let files = folders.flatten().filter_map(|it| {
            let entry = it.ok()?;
            let about = entry.metadata().ok()?;
            Some((entry.path(), about.len(), about.modified().ok()))
        });
        let mut stamp: Vec<_> = files.collect();
        stamp.sort();
        stamp
    }

    /// The files of one folder of the pack that end so, by name; those that lead out of the pack are none.
    fn files_in(&self, folder: &str, ending: &str) -> Result<Vec<SourceFile>, Failure> {
        let path = self.root.join(folder);
        let unread = |it: &io::Error| Failure::of_file(&path, "cannot be read", it);
        let entries = match fs::read_dir(&path) {
            Ok(it) => it,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            Err(error) => return Err(unread(&error)),
        };
        let mut files = Vec::new();
        for entry in entries {
            let entry = entry.map_err(|it| unread(&it))?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let is_meant = entry.path().extension().is_some_and(|it| it == ending) && !name.starts_with('.');
            if !is_meant || !entry.path().is_file() || !self.holds(&entry.path()) {
                continue;
            }
            // A file that goes away meanwhile is not there.
            if let Ok(bytes) = bytes_of(&entry.path()) {
                files.push(SourceFile::new(format!("{folder}/{name}"), bytes));
            }
        }
        files.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(files)
    }
}
