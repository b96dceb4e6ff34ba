//! The pack's folder, which is the truth: what is in its files, and how one of them is changed.
//!
//! Read are `pack.toml`, `calibration.json` and every `.toml` file in `puzzles`, one level deep; names that begin with a
//! dot belong to editors and are passed over. Nothing outside the folder is read or written, not even through a link. A
//! file is changed only from what it was when the edit began, as told by its digest, and only whole: the new text is
//! written beside it, brought to the disk, and takes its place in one step.
//!
//! Left out: what the bytes mean, which is for `packfile`. Between the last look at a file and the step that replaces it
//! another program may still write to it, for a few microseconds; what the desk then replaces is in the desk's history
//! only as it was before.

mod beside;
mod digest;
mod held;
mod lock;
mod own;
mod write;

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use packfile::{Calibrations, Code, MOST_BYTES, Problem, ReadPack, SourceFile, read_calibration, read_pack};

use crate::failure::{Failure, shown};

pub(crate) use beside::{BESIDE, Beside};
pub(crate) use digest::Digest;
pub(crate) use held::Held;
pub(crate) use write::Unwritten;

/// The file that makes a folder a pack.
pub(crate) const PACK_FILE: &str = "pack.toml";
/// What test solves have taught.
const CALIBRATION: &str = "calibration.json";
/// The folder of the puzzle files.
pub(crate) const PUZZLES: &str = "puzzles";
/// The folder of the test solves.
pub(crate) const SOLVES: &str = "solves";
/// The desk's own folder within the pack: its store, its lock, and texts on their way to a file.
const OWN: &str = ".galley";

/// A pack's folder that this desk, and no other, works in.
#[derive(Debug)]
pub(crate) struct Folder {
    /// Without links, so that what lies within can be told.
    root: PathBuf,
    lock: lock::Lock,
    /// How bytes are put into a file, so that a test can have a full disk.
    put: fn(&mut File, &[u8]) -> io::Result<()>,
}

/// What the folder held at one moment.
#[derive(Debug)]
pub(crate) struct Reading {
    /// The files by their names within the pack.
    pub(crate) files: BTreeMap<String, Vec<u8>>,
    /// What could be read of them.
    pub(crate) read: ReadPack,
    /// What test solves have taught.
    pub(crate) calibrations: Calibrations,
    /// Everything that is wrong with the files.
    pub(crate) problems: Vec<Problem>,
}

impl Folder {
    /// Takes the pack's folder, until this is dropped. `path` is the folder or its `pack.toml`.
    ///
    /// # Errors
    ///
    /// If there is no pack, it cannot be written to, or another desk works in it.
    pub(crate) fn take(path: &Path) -> Result<Folder, Failure> {
        let own = Folder::own_of(path)?;
        let root = own.parent().unwrap_or(path).to_owned();
        Folder::make_own(&own)?;
        let lock = lock::Lock::take(&own.join("desk.lock"), &root)?;
        let folder = Folder { root, lock, put: |file, bytes| file.write_all(bytes) };
        folder.clear_remains();
        Ok(folder)
    }

    /// Makes the desk's own folder, if it is not there: for its owner alone, and passed over by git, for it holds who solved
    /// what, and hashes of passwords. One that is there is closed to everybody else, whoever of its group may work in it.
    ///
    /// # Errors
    ///
    /// If the system refuses.
    pub(crate) fn make_own(own: &Path) -> Result<(), Failure> {
        let made = own::make(own);
        made.map_err(|it| Failure::of_file(own, "cannot be made", &it))
    }

    /// The desk's own folder within the pack at that path. It is not made.
    ///
    /// # Errors
    ///
    /// If there is no pack.
    pub(crate) fn own_of(path: &Path) -> Result<PathBuf, Failure> {
        let is_pack_file = path.file_name().is_some_and(|it| it == PACK_FILE) && path.is_file();
        let path = if is_pack_file { path.parent().unwrap_or(path) } else { path };
        let path = if path.as_os_str().is_empty() { Path::new(".") } else { path };
        let root = path.canonicalize().map_err(|it| Failure::of_file(path, "cannot be opened", &it))?;
        if !root.join(PACK_FILE).is_file() {
            return Err(Failure::new(
                format!("there is no pack at {}", shown(path)),
                "name the folder of a pack; `galley new DIR` starts one",
            ));
        }
        Ok(root.join(OWN))
    }

    /// The same on a disk that is full.
    #[cfg(all(test, target_os = "linux"))]
    pub(crate) fn on_a_full_disk(self) -> Folder {
        let put =
            |_: &mut File, bytes: &[u8]| File::options().write(true).open("/dev/full")?.write_all(bytes);
        Folder { put, ..self }
    }

    /// The pack's folder.
    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// The desk's own folder.
    pub(crate) fn own(&self) -> PathBuf {
        self.root.join(OWN)
    }

    /// Lets another desk take the pack. Nothing may be written after it.
    pub(crate) fn let_go(&self) {
        self.lock.release();
    }

    /// Reads everything that there is now. A file that goes away while this runs is not there.
    ///
    /// # Errors
    ///
    /// If a file or folder is there and cannot be read.
    pub(crate) fn read(&self) -> Result<Reading, Failure> {
        let mut files = BTreeMap::new();
        let mut problems = Vec::new();
        for name in self.names()? {
            let path = self.root.join(&name);
            if !self.holds(&path) {
                match fs::symlink_metadata(&path) {
                    Ok(_) => problems.push(leads_outside(name)),
                    Err(_) => continue,
                }
                continue;
            }
            match bytes_of(&path) {
                Ok(bytes) => _ = files.insert(name, bytes),
                Err(error) if error.kind() == io::ErrorKind::NotFound => {}
                Err(error) => return Err(Failure::of_file(&path, "cannot be read", &error)),
            }
        }
        let mut reading = Reading::of(files);
        reading.problems.extend(problems);
        Ok(reading)
    }

    /// The names of the pack's files within it, with forward slashes.
    fn names(&self) -> Result<Vec<String>, Failure> {
        let mut names: Vec<String> = [PACK_FILE, CALIBRATION].map(str::to_owned).into();
        names.retain(|it| fs::symlink_metadata(self.root.join(it)).is_ok());
        let folder = self.root.join(PUZZLES);
        let entries = match fs::read_dir(&folder) {
            Ok(it) => it,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(names),
            Err(error) => return Err(Failure::of_file(&folder, "cannot be read", &error)),
        };
        for entry in entries {
            let entry = entry.map_err(|it| Failure::of_file(&folder, "cannot be read", &it))?;
            let name = entry.file_name().to_string_lossy().into_owned();
            // `.TOML` is taken too, so that the file is spoken of rather than silently left out.
            let is_meant = entry.path().extension().is_some_and(|it| it.eq_ignore_ascii_case("toml"));
            if is_meant && !name.starts_with('.') && !entry.path().is_dir() {
                names.push(format!("{PUZZLES}/{name}"));
            }
        }
        names.sort();
        Ok(names)
    }

    /// Whether what the path leads to, through whatever links, lies in the pack.
    pub(crate) fn holds(&self, path: &Path) -> bool {
        path.canonicalize().is_ok_and(|it| it.starts_with(&self.root))
    }
}

impl Reading {
    /// What those files say.
    fn of(files: BTreeMap<String, Vec<u8>>) -> Reading {
        let source = |name: &str| files.get(name).map(|it| SourceFile::new(name, &it[..]));
        let puzzles: Vec<SourceFile> =
            files.keys().filter(|it| it.starts_with(PUZZLES)).filter_map(|it| source(it)).collect();
        let (read, of_pack) = read_pack(source(PACK_FILE).as_ref(), &puzzles);
        let (calibrations, of_calibration) =
            source(CALIBRATION).as_ref().map(read_calibration).unwrap_or_default();
        let problems = of_pack.into_iter().chain(of_calibration).collect();
        Reading { files, read, calibrations, problems }
    }

    /// What they would say with another text in one of them; the first new error of that file, if it has one.
    pub(crate) fn with(&self, file: &str, text: &str) -> Result<Reading, Problem> {
        let mut files = self.files.clone();
        files.insert(file.to_owned(), text.as_bytes().to_vec());
        let reading = Reading::of(files);
        let is_new = |it: &Problem| !self.problems.iter().any(|old| old.message == it.message);
        let fault =
            reading.problems.iter().find(|it| it.file == file && it.is_error() && is_new(it)).cloned();
        fault.map_or(Ok(reading), Err)
    }

    /// What tells this state of a file from any other; none if there is no such file.
    pub(crate) fn digest(&self, file: &str) -> Option<Digest> {
        self.files.get(file).map(|it| Digest::of(it))
    }

    /// The file of the puzzle with that id, whether it could be read or not.
    pub(crate) fn file_of(&self, id: &str) -> Option<&str> {
        let readable = self.read.files.iter().find(|it| it.0.as_str() == id).map(|it| &it.1[..]);
        readable.or_else(|| self.read.unreadable.iter().find(|it| it.name == id).map(|it| &it.file[..]))
    }

    /// A file's text, if it is there and is text.
    pub(crate) fn text(&self, file: &str) -> Option<&str> {
        self.files.get(file).and_then(|it| std::str::from_utf8(it).ok())
    }
}

/// Whether those are all bytes of a file, not those of one that is too large.
pub(crate) fn is_whole(bytes: &[u8]) -> bool {
    bytes.len() <= MOST_BYTES
}

/// The file's bytes; of one that is too large, enough to be refused for it.
fn bytes_of(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(MOST_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The problem of a file that is a link to somewhere else.
fn leads_outside(file: String) -> Problem {
    Problem {
        code: Code::PathLeavesPack,
        severity: Code::PathLeavesPack.severity(),
        file,
        at: None,
        message: "the file is a link that leads out of the pack, or nowhere".to_owned(),
        help: Some("put the file itself where the link is".to_owned()),
    }
}
