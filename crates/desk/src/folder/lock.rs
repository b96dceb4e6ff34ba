//! One desk a pack: a file that the system lets only one program hold, and lets go when that ends in whatever way.

use std::fs::{File, OpenOptions, TryLockError};
use std::path::Path;

use crate::failure::{Failure, shown};

/// The pack is this desk's while it lives.
#[derive(Debug)]
pub(super) struct Lock(File);

impl Lock {
    /// Takes the lock on the pack in that folder.
    pub(super) fn take(path: &Path, pack: &Path) -> Result<Lock, Failure> {
        let options = || OpenOptions::new().create(true).truncate(false).write(true).open(path);
        let file = options().map_err(|it| Failure::of_file(path, "cannot be opened", &it))?;
        match file.try_lock() {
            Ok(()) => Ok(Lock(file)),
            Err(TryLockError::WouldBlock) => Err(Failure::new(
                format!("another desk works on the pack in {}", shown(pack)),
                "go to its page in the browser, or end it before this one is started",
            )),
            Err(TryLockError::Error(error)) => Err(Failure::of_file(path, "cannot be locked", &error)),
        }
    }

    /// Lets the pack go, though something may still hold this.
    pub(super) fn release(&self) {
        // If it cannot be let go now, it is when the program ends.
        _ = self.0.unlock();
    }
}
