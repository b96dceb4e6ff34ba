//! A file that is held open, and whether its name still leads to it.

use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};

/// A file that was there.
#[derive(Debug)]
pub(crate) struct Held {
    path: PathBuf,
    identity: Identity,
}

/// What tells a file from any other that may take its name. Where the system tells no such thing it does not let a file
/// that is held open be taken away either.
type Identity = Option<(u64, u64)>;

impl Held {
    /// The file of that name as it is now.
    pub(crate) fn at(path: &Path) -> io::Result<Held> {
        Ok(Held { path: path.to_owned(), identity: identity(&fs::metadata(path)?) })
    }

    pub(crate) fn is_in_its_place(&self) -> bool {
        fs::metadata(&self.path).is_ok_and(|it| identity(&it) == self.identity)
    }
}

#[cfg(unix)]
fn identity(it: &Metadata) -> Identity {
    use std::os::unix::fs::MetadataExt;
    Some((it.dev(), it.ino()))
}

#[cfg(not(unix))]
fn identity(_: &Metadata) -> Identity {
    None
}
