//! A file replaced as a whole, or left as it was.

use std::fs::{self, File};
use std::io;
use std::path::Path;

use tempfile::Builder;

use super::{Digest, Folder};
use crate::failure::Failure;

/// Texts on their way begin so; what a killed desk has left is cleared away when the next one starts.
const ON_ITS_WAY: &str = "on-its-way-";

/// Why a file was not written. It is as it was.
#[derive(Debug)]
pub(crate) enum Unwritten {
    /// It is not what the edit began from: another program has changed it, or taken it away.
    ChangedMeanwhile,
    /// It would lie outside the pack.
    OutsidePack,
    /// The disk is full.
    NoRoom(Failure),
    /// The system refused.
    Failed(Failure),
}

impl Unwritten {
    fn of(path: &Path, did: &str, error: &io::Error) -> Unwritten {
        let failure = Failure::of_file(path, did, error);
        match error.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Unwritten::NoRoom(failure),
            _ => Unwritten::Failed(failure),
        }
    }
}

impl Folder {
    /// Replaces a file that was `began_from` when the edit began; with none, makes a file that was not there.
    pub(crate) fn write(&self, file: &str, began_from: Option<Digest>, text: &str) -> Result<(), Unwritten> {
        let path = self.root.join(file);
        let folder = path.parent().unwrap_or(&self.root);
        if began_from.is_none() {
            // Nothing is made but in the folders of the puzzles and the test solves.
            let of = if file.starts_with(super::SOLVES) { super::SOLVES } else { super::PUZZLES };
            let needed = self.root.join(of);
            let made = fs::create_dir_all(&needed);
            made.map_err(|it| Unwritten::of(&needed, "cannot be made", &it))?;
        }
        let real_folder = folder.canonicalize().map_err(|_| Unwritten::ChangedMeanwhile)?;
        if !real_folder.starts_with(&self.root) {
            return Err(Unwritten::OutsidePack);
        }
        // A link is followed, so that it stays a link; it must not lead out of the pack.
        let path = match path.canonicalize() {
            Ok(it) if !it.starts_with(&self.root) => return Err(Unwritten::OutsidePack),
            Ok(it) => it,
            Err(_) => path,
        };
        self.replace(&path, began_from, text)
    }

    fn replace(&self, path: &Path, began_from: Option<Digest>, text: &str) -> Result<(), Unwritten> {
        let refused = |it: &io::Error| Unwritten::of(path, "cannot be written", it);
        let mut new = Builder::new().prefix(ON_ITS_WAY).tempfile_in(self.own()).map_err(|it| refused(&it))?;
        (self.put)(new.as_file_mut(), text.as_bytes()).map_err(|it| refused(&it))?;
        let modes = match fs::metadata(path) {
            Ok(it) => Some(it.permissions()),
            // A new file may be read as any other that a person makes here.
            Err(_) => fs::metadata(self.root.join(super::PACK_FILE)).ok().map(|it| it.permissions()),
        };
        if let Some(modes) = modes {
            new.as_file().set_permissions(modes).map_err(|it| refused(&it))?;
        }
        new.as_file().sync_all().map_err(|it| refused(&it))?;
        if digest_at(path).map_err(|it| refused(&it))? != began_from {
            return Err(Unwritten::ChangedMeanwhile);
        }
        let persisted = match began_from {
            Some(_) => new.persist(path),
            None => new.persist_noclobber(path),
        };
        match persisted {
            Ok(_) => {}
            Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => {
                return Err(Unwritten::ChangedMeanwhile);
            }
            Err(error) => return Err(refused(&error.error)),
        }
        // The new name must be on the disk too. Where folders cannot be opened the system sees to that.
        if let Some(folder) = path.parent().and_then(|it| File::open(it).ok()) {
            folder.sync_all().map_err(|it| refused(&it))?;
        }
        Ok(())
    }

    /// Clears away what a desk that was killed has left on its way.
    pub(super) fn clear_remains(&self) {
        for it in fs::read_dir(self.own()).into_iter().flatten().flatten() {
            if it.file_name().to_string_lossy().starts_with(ON_ITS_WAY) {
                // If it cannot be cleared it is only in the way of nobody.
                _ = fs::remove_file(it.path());
            }
        }
    }
}

fn digest_at(path: &Path) -> io::Result<Option<Digest>> {
    // The whole of it, however large: what began from it did so from the whole.
    match fs::read(path) {
        Ok(bytes) => Ok(Some(Digest::of(&bytes))),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
    }
}

#[cfg(test)]
mod tests {
    use tempfile::TempDir;

    use super::*;

    fn pack() -> (TempDir, Folder) {
        let dir = TempDir::new().unwrap();
        fs::write(dir.path().join("pack.toml"), "format = 1\n").unwrap();
        fs::create_dir(dir.path().join("puzzles")).unwrap();
        fs::write(dir.path().join("puzzles/a.toml"), "one").unwrap();
        let folder = Folder::take(dir.path()).unwrap();
        (dir, folder)
    }

    #[test]
    fn a_file_is_replaced_only_from_what_it_was() {
        let (dir, folder) = pack();
        let one = Some(Digest::of(b"one"));
        folder.write("puzzles/a.toml", one, "two").unwrap();
        assert_eq!(fs::read(dir.path().join("puzzles/a.toml")).unwrap(), b"two");
        let stale = folder.write("puzzles/a.toml", one, "three");
        assert!(matches!(stale, Err(Unwritten::ChangedMeanwhile)));
        let there = folder.write("puzzles/a.toml", None, "three");
        assert!(matches!(there, Err(Unwritten::ChangedMeanwhile)));
        fs::remove_file(dir.path().join("puzzles/a.toml")).unwrap();
        let gone = folder.write("puzzles/a.toml", Some(Digest::of(b"two")), "three");
        assert!(matches!(gone, Err(Unwritten::ChangedMeanwhile)));
        folder.write("puzzles/b.toml", None, "new").unwrap();
        assert_eq!(fs::read(dir.path().join("puzzles/b.toml")).unwrap(), b"new");
        let remains = fs::read_dir(folder.own()).unwrap().flatten();
        assert!(
            remains.into_iter().all(|it| it.file_name() == "desk.lock" || it.file_name() == ".gitignore")
        );
    }

    #[test]
    #[cfg(unix)]
    fn links_stay_links_and_lead_nowhere_else() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let (dir, folder) = pack();
        let outside = TempDir::new().unwrap();
        fs::write(outside.path().join("x.toml"), "out").unwrap();
        symlink(outside.path().join("x.toml"), dir.path().join("puzzles/x.toml")).unwrap();
        symlink(outside.path(), dir.path().join("elsewhere")).unwrap();
        symlink("a.toml", dir.path().join("puzzles/within.toml")).unwrap();
        for file in ["puzzles/x.toml", "elsewhere/x.toml", "../x.toml"] {
            let refused = folder.write(file, Some(Digest::of(b"out")), "in");
            assert!(matches!(refused, Err(Unwritten::OutsidePack)), "{file}: {refused:?}");
        }
        assert_eq!(fs::read(outside.path().join("x.toml")).unwrap(), b"out");
        assert!(!folder.read().unwrap().files.contains_key("puzzles/x.toml"));
        fs::set_permissions(dir.path().join("puzzles/a.toml"), fs::Permissions::from_mode(0o640)).unwrap();
        folder.write("puzzles/within.toml", Some(Digest::of(b"one")), "two").unwrap();
        assert!(fs::symlink_metadata(dir.path().join("puzzles/within.toml")).unwrap().is_symlink());
        let modes = fs::metadata(dir.path().join("puzzles/a.toml")).unwrap().permissions().mode();
        assert_eq!(modes & 0o777, 0o640);
    }

    #[test]
    fn a_second_desk_says_so() {
        let (dir, folder) = pack();
        let refused = Folder::take(dir.path()).unwrap_err();
        assert!(refused.message.contains("another desk works on the pack"), "{refused}");
        drop(folder);
        fs::write(dir.path().join(".galley/on-its-way-abc"), "half").unwrap();
        Folder::take(dir.path()).unwrap();
        assert!(!dir.path().join(".galley/on-its-way-abc").exists());
    }

    #[test]
    fn what_is_no_pack_is_refused() {
        let dir = TempDir::new().unwrap();
        let refused = Folder::take(dir.path()).unwrap_err();
        assert!(refused.message.starts_with("there is no pack at"), "{refused}");
        assert!(Folder::take(&dir.path().join("none")).is_err());
    }
}
