//! An output folder that is there as a whole or not at all, and that never costs anybody a file.
//!
//! Files are written into a hidden folder beside it, which then takes its place. A list of what was
//! written stays inside it; a folder that holds anything else, at whatever depth, is left alone, because
//! somebody may want it.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};
use tempfile::TempDir;

use crate::load::{parent_of, reason, shown};
use crate::outcome::Failure;

/// The file that says what Galley wrote.
const LIST: &str = ".galley";

/// The number of the list's format.
const FORMAT: u8 = 1;

/// What stands in [`LIST`].
#[derive(Serialize, Deserialize)]
struct Written {
    format: u8,
    /// Their paths within the folder; folders are parted by `/`.
    files: Vec<String>,
}

/// Files by their paths within a folder; folders are parted by `/`.
pub(crate) type Files = BTreeMap<String, Vec<u8>>;

/// A folder that may be written.
#[derive(Debug)]
pub(crate) struct OutFolder {
    path: PathBuf,
    parent: PathBuf,
    name: OsString,
}

impl OutFolder {
    /// The folder of that path, if it can be written without a loss: it is not there yet, or holds
    /// nothing but what Galley wrote. Nothing is changed yet.
    ///
    /// # Errors
    ///
    /// If it holds something else, or cannot be written.
    pub(crate) fn claim(path: &Path) -> Result<OutFolder, Failure> {
        let Some(name) = path.file_name() else {
            return Err(Failure::new(
                format!("{} is no name for a new folder", shown(path)),
                "name a folder to write, such as --out out",
            ));
        };
        let folder = OutFolder { path: path.to_owned(), parent: parent_of(path), name: name.to_owned() };
        folder.check()?;
        // Better to know now than after the work.
        folder.workplace()?;
        Ok(folder)
    }

    /// Puts these files, and nothing else, into the folder, in place of those of the time before.
    /// Gives their paths, in order.
    ///
    /// # Errors
    ///
    /// If they cannot be written; the folder is then as it was.
    pub(crate) fn replace(&self, files: &Files) -> Result<Vec<String>, Failure> {
        self.check()?;
        let workplace = self.workplace()?;
        let new = workplace.path().join("new");
        self.write(&new, files).map_err(|it| self.cannot_write(&it))?;
        self.swap(workplace, &new).map_err(|it| self.cannot_write(&it))?;
        Ok(files.keys().map(|it| self.path.join(it).to_string_lossy().into_owned()).collect())
    }

    fn write(&self, new: &Path, files: &Files) -> io::Result<()> {
        fs::create_dir(new)?;
        for (name, bytes) in files {
            let path = new.join(name);
            fs::create_dir_all(path.parent().unwrap_or(new))?;
            fs::write(path, bytes)?;
        }
        let names = files.keys().cloned().collect();
        let list = serde_json::to_string(&Written { format: FORMAT, files: names })?;
        fs::write(new.join(LIST), list + "\n")
    }

    /// Puts the new folder in place of the old one, which goes away with the workplace.
    fn swap(&self, workplace: TempDir, new: &Path) -> io::Result<()> {
        let old = workplace.path().join("old");
        let had_old = self.path.exists();
        if had_old {
            fs::rename(&self.path, &old)?;
        }
        let placed = fs::rename(new, &self.path);
        if placed.is_err() && had_old {
            fs::rename(&old, &self.path)?;
        }
        placed?;
        // A leftover beside the folder is no reason to say that nothing was written.
        _ = workplace.close();
        Ok(())
    }

    /// A hidden folder beside the one to write, so that moving it is a single step.
    fn workplace(&self) -> Result<TempDir, Failure> {
        if !self.parent.is_dir() {
            return Err(Failure::new(
                format!(
                    "the folder {} cannot be written: {} is no folder",
                    shown(&self.path),
                    shown(&self.parent)
                ),
                "make that folder first, or choose another place with --out",
            ));
        }
        let mut prefix = OsString::from(".");
        prefix.push(&self.name);
        prefix.push("-");
        let made = tempfile::Builder::new().prefix(&prefix).tempdir_in(&self.parent);
        made.map_err(|it| self.cannot_write(&it))
    }

    /// Whether the folder holds nothing that was not written here.
    fn check(&self) -> Result<(), Failure> {
        let kind = match fs::symlink_metadata(&self.path) {
            Ok(it) => it,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
            Err(error) => return Err(self.cannot_write(&error)),
        };
        if !kind.is_dir() {
            return Err(Failure::new(
                format!("{} is not a folder", shown(&self.path)),
                "move it away, or choose another place with --out",
            ));
        }
        match self.first_foreign().map_err(|it| self.cannot_write(&it))? {
            None => Ok(()),
            Some(foreign) => Err(Failure::new(
                format!(
                    "{} holds {}, which Galley did not write",
                    shown(&self.path),
                    shown(Path::new(&foreign))
                ),
                "move it away, or choose another place with --out",
            )),
        }
    }

    /// The first thing in the folder that is not on its list, by its path within the folder.
    fn first_foreign(&self) -> io::Result<Option<String>> {
        let list = fs::read(self.path.join(LIST)).ok().and_then(|it| serde_json::from_slice(&it).ok());
        let ours = |it: Written| if it.format == FORMAT { it.files } else { Vec::new() };
        let mut ours = list.map(ours).unwrap_or_default();
        if !ours.is_empty() {
            ours.push(LIST.to_owned());
        }
        let mut foreign = Vec::new();
        find_foreign(&self.path, "", &ours, &mut foreign)?;
        Ok(foreign.into_iter().min())
    }

    fn cannot_write(&self, error: &io::Error) -> Failure {
        Failure::new(
            format!("the folder {} cannot be written: {}", shown(&self.path), reason(error)),
            "look whether the place may be written to, or choose another with --out",
        )
    }
}

/// Adds what is in the folder and not among `ours`; `prefix` is what stands before its entries' names. A
/// folder counts as ours if it leads to a file of ours, and is then looked into.
fn find_foreign(folder: &Path, prefix: &str, ours: &[String], foreign: &mut Vec<String>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let path = format!("{prefix}{}", entry.file_name().to_string_lossy());
        let inside = format!("{path}/");
        let kind = entry.file_type()?;
        if kind.is_dir() && ours.iter().any(|it| it.starts_with(&inside)) {
            find_foreign(&entry.path(), &inside, ours, foreign)?;
        } else if !kind.is_file() || !ours.contains(&path) {
            foreign.push(path);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).unwrap();
        let mut names: Vec<String> =
            entries.map(|it| it.unwrap().file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    fn files(files: &[(&str, &str)]) -> Files {
        files.iter().map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec())).collect()
    }

    #[test]
    fn a_folder_is_replaced_as_a_whole() {
        let place = tempfile::tempdir().unwrap();
        let out = place.path().join("out");
        let folder = OutFolder::claim(&out).unwrap();
        assert!(!out.exists());
        folder.replace(&files(&[("a.html", "first"), ("b/c/d.html", "b")])).unwrap();
        assert_eq!(names(&out), [".galley", "a.html", "b"]);
        assert_eq!(fs::read_to_string(out.join("b/c/d.html")).unwrap(), "b");
        OutFolder::claim(&out).unwrap().replace(&files(&[("a.html", "second")])).unwrap();
        assert_eq!(names(&out), [".galley", "a.html"]);
        assert_eq!(fs::read_to_string(out.join("a.html")).unwrap(), "second");
        assert_eq!(names(place.path()), ["out"], "nothing is left beside it");
    }

    #[test]
    fn what_galley_did_not_write_is_left_alone() {
        let place = tempfile::tempdir().unwrap();
        let out = place.path().join("out");
        OutFolder::claim(&out).unwrap().replace(&files(&[("a.html", "first"), ("b/c.html", "c")])).unwrap();
        let folder = OutFolder::claim(&out).unwrap();
        fs::write(out.join("notes.txt"), "mine").unwrap();
        for refusal in [OutFolder::claim(&out).map(|_| ()), folder.replace(&Files::new()).map(|_| ())] {
            assert!(refusal.unwrap_err().message.contains("`notes.txt`, which Galley did not write"));
        }
        assert_eq!(names(&out), [".galley", "a.html", "b", "notes.txt"]);
        fs::remove_file(out.join("notes.txt")).unwrap();
        for mine in ["b/mine.txt", "b/mine/too.txt"] {
            fs::create_dir_all(out.join(mine).parent().unwrap()).unwrap();
            fs::write(out.join(mine), "mine").unwrap();
            let first = mine.split_inclusive('/').take(2).collect::<String>();
            let message = OutFolder::claim(&out).unwrap_err().message;
            assert!(message.contains(&format!("`{}`, which", first.trim_end_matches('/'))), "{message}");
            fs::remove_file(out.join(mine)).unwrap();
        }
        // An empty folder is nobody's loss, but whose it is is not known.
        assert!(OutFolder::claim(&out).is_err());
        fs::remove_dir(out.join("b/mine")).unwrap();
        assert!(OutFolder::claim(&out).is_ok());
        // A list of a format that is not known protects nothing, so everything is foreign.
        fs::write(out.join(LIST), r#"{"format":2,"files":["a.html"]}"#).unwrap();
        assert!(OutFolder::claim(&out).is_err());
    }

    #[test]
    fn a_file_in_the_way_is_no_folder() {
        let place = tempfile::tempdir().unwrap();
        let out = place.path().join("out");
        fs::write(&out, "mine").unwrap();
        assert!(OutFolder::claim(&out).unwrap_err().message.ends_with("is not a folder"));
        assert!(OutFolder::claim(&out.join("deeper")).is_err());
        assert!(OutFolder::claim(Path::new("..")).is_err());
        assert_eq!(fs::read_to_string(&out).unwrap(), "mine");
    }
}
