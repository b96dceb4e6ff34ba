//! What the files of made puzzles are called, and how they are written.

use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use pack::PuzzleId;

use crate::load::{cannot_write, shown};
use crate::outcome::Failure;

/// Where puzzles go.
#[derive(Clone, Debug)]
pub(super) enum Place {
    /// Standard output.
    Nowhere,
    /// One file.
    File(PathBuf, PuzzleId),
    /// A folder.
    Folder(PathBuf),
}

impl Place {
    /// The place that was named, for so many puzzles.
    pub(super) fn of(out: Option<PathBuf>, count: usize) -> Result<Place, Failure> {
        let Some(path) = out else { return Ok(Place::Nowhere) };
        let name = path.file_name().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default();
        let Some(stem) = name.strip_suffix(".toml") else { return Ok(Place::Folder(path)) };
        if count > 1 {
            return Err(Failure::new(
                format!("{} is one file, and {count} puzzles are wanted", shown(&path)),
                "name a folder, whose name does not end in .toml",
            ));
        }
        match PuzzleId::new(stem) {
            Some(id) => Ok(Place::File(path, id)),
            None => Err(Failure::new(
                format!("{} is no name for a puzzle file", shown(&path)),
                "use 1 to 64 lower-case letters, digits and hyphens and then .toml, such as first-light.toml",
            )),
        }
    }

    /// The file of a puzzle, if it gets one.
    pub(super) fn file_of(&self, id: &PuzzleId) -> Option<PathBuf> {
        match self {
            Place::Nowhere => None,
            Place::File(path, _) => Some(path.clone()),
            Place::Folder(folder) => Some(folder.join(format!("{id}.toml"))),
        }
    }

    /// Looks, before there is work done in vain, whether none of these is there.
    pub(super) fn check_is_free(&self, ids: &[PuzzleId]) -> Result<(), Failure> {
        if let Place::Folder(folder) = self
            && folder.exists()
            && !folder.is_dir()
        {
            return Err(Failure::new(format!("{} is no folder", shown(folder)), "name another folder"));
        }
        let mut files = ids.iter().filter_map(|it| self.file_of(it));
        files.find(|it| it.symlink_metadata().is_ok()).map_or(Ok(()), |it| Err(already_there(&it)))
    }

    /// Writes the files, all of them or none.
    pub(super) fn write(&self, files: &[(PathBuf, String)]) -> Result<(), Failure> {
        let mut written: Vec<&Path> = Vec::new();
        let made_folder = match self {
            Place::Folder(folder) if !folder.exists() => {
                fs::create_dir(folder).map_err(|it| cannot_write(folder, &it))?;
                Some(folder)
            }
            _ => None,
        };
        for (path, text) in files {
            if let Err(failure) = write_new(path, text) {
                // Some of the puzzles help nobody who counts on all. That they cannot be taken away either
                // changes nothing.
                written.iter().for_each(|it| _ = fs::remove_file(it));
                made_folder.iter().for_each(|it| _ = fs::remove_dir(it));
                return Err(failure);
            }
            written.push(path);
        }
        Ok(())
    }
}

/// Writes a file that must not be there yet.
fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
    let opened = OpenOptions::new().write(true).create_new(true).open(path);
    let mut file = opened.map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => already_there(path),
        _ => cannot_write(path, &error),
    })?;
    file.write_all(text.as_bytes()).map_err(|error| {
        // Half a puzzle helps nobody.
        _ = fs::remove_file(path);
        cannot_write(path, &error)
    })
}

fn already_there(path: &Path) -> Failure {
    Failure::new(format!("{} is already there", shown(path)), "name another file, or move that one away")
}
