//! The desk's own folder, closed to whom it is nothing to.

use std::fs::{self, DirBuilder, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::Path;

/// What keeps git from taking any of it.
const IGNORED: &str = "# The desk's own: test solves, the history of files, who may come in.\n*\n";

/// Makes the folder, if it is not there.
pub(super) fn make(path: &Path) -> io::Result<()> {
    let mut builder = DirBuilder::new();
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    match builder.create(path) {
        Err(it) if it.kind() == ErrorKind::AlreadyExists && path.is_dir() => close(path),
        it => it?,
    }
    match OpenOptions::new().write(true).create_new(true).open(path.join(".gitignore")) {
        Err(it) if it.kind() == ErrorKind::AlreadyExists => Ok(()),
        it => it?.write_all(IGNORED.as_bytes()),
    }
}

/// Takes from everybody else what a folder that was made before may allow them.
#[cfg(unix)]
fn close(path: &Path) {
    use std::os::unix::fs::PermissionsExt;
    let Ok(about) = fs::metadata(path) else { return };
    let mode = about.permissions().mode();
    if mode & 0o007 != 0 {
        // Whose it is not cannot; the desk works in it all the same.
        _ = fs::set_permissions(path, fs::Permissions::from_mode(mode & !0o007));
    }
}

#[cfg(not(unix))]
fn close(_: &Path) {}

#[cfg(test)]
mod tests {
    use tempfile::TempDir;

    use super::*;

    #[test]
    #[cfg(unix)]
    fn nobody_else_may_look_in() {
        use std::os::unix::fs::PermissionsExt;
        let dir = TempDir::new().unwrap();
        let path = dir.path().join(".galley");
        let mode = || fs::metadata(&path).unwrap().permissions().mode() & 0o777;
        make(&path).unwrap();
        assert_eq!(mode(), 0o700);
        for (before, after) in [(0o755, 0o750), (0o777, 0o770), (0o700, 0o700)] {
            fs::set_permissions(&path, fs::Permissions::from_mode(before)).unwrap();
            make(&path).unwrap();
            assert_eq!(mode(), after, "{before:o}");
        }
    }

    #[test]
    fn git_passes_it_over_and_what_somebody_wrote_there_stays() {
        let dir = TempDir::new().unwrap();
        let path = dir.path().join(".galley");
        make(&path).unwrap();
        let ignored = path.join(".gitignore");
        assert!(fs::read_to_string(&ignored).unwrap().lines().any(|it| it == "*"));
        fs::write(&ignored, "desk.lock\n").unwrap();
        make(&path).unwrap();
        assert_eq!(fs::read_to_string(&ignored).unwrap(), "desk.lock\n");
        let file = dir.path().join("file");
        fs::write(&file, "").unwrap();
        assert!(make(&file).is_err());
    }
}
