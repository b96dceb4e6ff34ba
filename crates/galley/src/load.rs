//! From a path to a pack: which files are read, and which are left alone.
//!
//! Of a folder: `pack.toml` and every `.toml` file in `puzzles`, one level deep; names that begin with a dot
//! belong to editors and are passed over; and `calibration.json`, if there is one. Nothing outside the folder
//! is read, not even through a link. A single puzzle file becomes a pack of one, with the calibration of the pack
//! that it lies in. What the bytes mean is for `packfile`.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use pack::{Pack, PackInfo, PuzzleId};
use packfile::{
    Calibrations, Code, MOST_BYTES, Problem, SourceFile, Unreadable, read_calibration, read_pack, read_puzzle,
};

use crate::outcome::Failure;
use crate::print;

/// The file that makes a folder a pack.
pub(crate) const PACK_FILE: &str = "pack.toml";

/// The file of what test solves have taught.
pub(crate) const CALIBRATION: &str = "calibration.json";

/// The folder of the test solves.
pub(crate) const SOLVES: &str = "solves";

/// The folder of the notes for recordings.
pub(crate) const NOTES: &str = "notes";

/// The folder of the logs of rehearsals and recordings.
pub(crate) const REHEARSALS: &str = "rehearsals";

/// The folder of the captions under recordings.
pub(crate) const CAPTIONS: &str = "captions";

/// The template of the text under recordings.
pub(crate) const UNDER: &str = "under-recordings.txt";

/// The folder of the puzzle files.
pub(crate) const PUZZLES: &str = "puzzles";

/// A pack as far as it could be read.
#[derive(Debug)]
pub(crate) struct Loaded {
    /// What could be read.
    pub(crate) pack: Pack,
    /// The file of each puzzle that could be read.
    pub(crate) files: BTreeMap<PuzzleId, String>,
    /// The puzzle files that could not be read.
    pub(crate) unreadable: Vec<Unreadable>,
    /// What the pack's test solves have taught.
    pub(crate) calibrations: Calibrations,
    /// Everything that is wrong with the files.
    pub(crate) problems: Vec<Problem>,
    /// The files themselves, to show the lines that have problems.
    pub(crate) sources: Sources,
    /// Whether a folder was named, rather than one puzzle file.
    pub(crate) is_pack: bool,
    /// The calibration that a single puzzle file is given by the pack that it lies in, as a person would type its path.
    pub(crate) borrowed: Option<String>,
}

impl Loaded {
    /// The pack cut down to one puzzle, readable or not. `path` is where the pack is.
    ///
    /// # Errors
    ///
    /// If no file has that id.
    pub(crate) fn only(mut self, id: &str, path: &Path) -> Result<Loaded, Failure> {
        let file = self.file_of(id, path)?;
        self.pack.entries.retain(|it| it.id.as_str() == id);
        self.unreadable.retain(|it| it.name == id);
        self.pack.info.order = None;
        self.problems.retain(|it| it.file == file);
        Ok(self)
    }

    /// The file with that id, readable or not. `path` is where the pack is.
    ///
    /// # Errors
    ///
    /// If there is none.
    pub(crate) fn file_of(&self, id: &str, path: &Path) -> Result<String, Failure> {
        let readable =
            self.pack.entries.iter().filter(|it| it.id.as_str() == id).map(|it| &self.files[&it.id]);
        let unreadable = self.unreadable.iter().filter(|it| it.name == id).map(|it| &it.file);
        readable.chain(unreadable).next().cloned().ok_or_else(|| {
            let message = format!("no puzzle `{}` in {}", print::visible(id), shown(path));
            Failure::new(message, self.which())
        })
    }

    /// The next move of whoever has to name a puzzle.
    pub(crate) fn which(&self) -> String {
        let ids: Vec<String> = (self.pack.entries.iter().map(|it| it.id.to_string()))
            .chain(self.unreadable.iter().map(|it| it.name.clone()))
            .collect();
        match ids.is_empty() {
            true => "the pack has no puzzles yet".to_owned(),
            false => format!("name one of these: {}", print::visible(&ids.join(", "))),
        }
    }
}

/// The files that were read, by the names that problems call them.
#[derive(Debug, Default)]
pub(crate) struct Sources {
    /// What stands before a name to make it a path from here: empty, or `some/pack/`.
    folder: String,
    files: BTreeMap<String, Vec<u8>>,
}

impl Sources {
    /// The path of a file as a person would type it.
    pub(crate) fn path(&self, file: &str) -> String {
        format!("{}{file}", self.folder)
    }

    /// Takes these files too.
    pub(crate) fn add(&mut self, files: Vec<SourceFile>) {
        self.files.extend(files.into_iter().map(|it| (it.path, it.bytes)));
    }

    /// The file's text, if it is text.
    pub(crate) fn text(&self, file: &str) -> Option<&str> {
        self.files.get(file).and_then(|it| std::str::from_utf8(it).ok())
    }
}

/// Reads the pack, or the one puzzle, at that path.
///
/// # Errors
///
/// If there is nothing at the path, or a file cannot be read. That a file's content is wrong is no
/// error but a trouble.
pub(crate) fn load(path: &Path) -> Result<Loaded, Failure> {
    let path = root_of(path);
    match fs::metadata(path) {
        Ok(it) if it.is_dir() => load_pack(path),
        Ok(_) => load_puzzle(path),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Err(Failure::new(
            format!("there is nothing at {}", shown(path)),
            "name a pack's folder or a puzzle file; `galley new DIR` starts a pack",
        )),
        Err(error) => Err(cannot_read(path, &error)),
    }
}

/// The pack's folder, if its own file is named; else the path itself.
pub(crate) fn root_of(path: &Path) -> &Path {
    let is_pack_file = path.file_name().is_some_and(|it| it == PACK_FILE) && path.is_file();
    let folder = path.parent().filter(|it| is_pack_file && !it.as_os_str().is_empty());
    folder.unwrap_or(if is_pack_file { Path::new(".") } else { path })
}

fn load_pack(root: &Path) -> Result<Loaded, Failure> {
    let real_root = root.canonicalize().map_err(|it| cannot_read(root, &it))?;
    let (found, outside): (Vec<String>, Vec<String>) =
        names_of(root)?.into_iter().partition(|it| is_inside(&real_root, &root.join(it)));
    let mut files = Vec::new();
    for name in found {
        let bytes = read(&root.join(&name))?;
        files.push(SourceFile::new(name, bytes));
    }
    let (infos, files): (Vec<SourceFile>, Vec<SourceFile>) =
        files.into_iter().partition(|it| it.path == PACK_FILE);
    let (calibration, puzzles): (Vec<SourceFile>, Vec<SourceFile>) =
        files.into_iter().partition(|it| it.path == CALIBRATION);

    let (read, mut problems) = read_pack(infos.first(), &puzzles);
    let (calibrations, of_calibration) = calibration.first().map(read_calibration).unwrap_or_default();
    problems.extend(of_calibration);
    problems.extend(outside.into_iter().map(leads_outside));
    let folder = match root.to_string_lossy() {
        it if it == "." => String::new(),
        it if it.ends_with('/') => it.into_owned(),
        it => format!("{it}/"),
    };
    let files = infos.into_iter().chain(puzzles).chain(calibration).map(|it| (it.path, it.bytes)).collect();
    Ok(Loaded {
        pack: read.pack,
        files: read.files,
        unreadable: read.unreadable,
        calibrations,
        problems,
        sources: Sources { folder, files },
        is_pack: true,
        borrowed: None,
    })
}

fn load_puzzle(path: &Path) -> Result<Loaded, Failure> {
    let name = path.to_string_lossy().into_owned();
    let file = SourceFile::new(name.clone(), read(path)?);
    let (read, mut problems) = read_puzzle(&file);
    let calibration = calibration_beside(path)?;
    let (calibrations, of_calibration) = calibration.as_ref().map(read_calibration).unwrap_or_default();
    problems.extend(of_calibration);
    let (entries, unreadable) = match read {
        Ok(entry) => (vec![entry], Vec::new()),
        Err(it) => (Vec::new(), vec![it]),
    };
    let title = entries.first().map_or(String::new(), |it| it.title.clone());
    let info = PackInfo { title, ..PackInfo::default() };
    Ok(Loaded {
        files: entries.iter().map(|it| (it.id.clone(), name.clone())).collect(),
        pack: Pack { info, entries },
        unreadable,
        calibrations,
        problems,
        borrowed: calibration.as_ref().map(|it| it.path.clone()),
        sources: Sources {
            folder: String::new(),
            files: calibration.into_iter().chain([file]).map(|it| (it.path, it.bytes)).collect(),
        },
        is_pack: false,
    })
}

/// The calibration of the pack that the puzzle file lies in, if it lies in one that has any: in the pack's folder, or in
/// a folder of that.
///
/// # Errors
///
/// If it cannot be read.
fn calibration_beside(puzzle: &Path) -> Result<Option<SourceFile>, Failure> {
    let Some(root) = pack_around(puzzle) else { return Ok(None) };
    let path = if root == Path::new(".") { PathBuf::from(CALIBRATION) } else { root.join(CALIBRATION) };
    let real_root = root.canonicalize().map_err(|it| cannot_read(&root, &it))?;
    // As for a pack: nothing outside it is read, not even through a link.
    match path.is_file() && is_inside(&real_root, &path) {
        true => Ok(Some(SourceFile::new(path.to_string_lossy(), read(&path)?))),
        false => Ok(None),
    }
}

/// The folder of the pack that the puzzle file lies in: its own, or the one above.
fn pack_around(puzzle: &Path) -> Option<PathBuf> {
    let folder = parent_of(puzzle);
    let above = match folder == Path::new(".") {
        true => PathBuf::from(".."),
        false => parent_of(&folder),
    };
    [folder, above].into_iter().find(|it| it.join(PACK_FILE).is_file())
}

/// The pack that has the puzzle of that file, if one does, and what the file is called there.
pub(crate) fn pack_with(puzzle: &Path) -> Option<(PathBuf, String)> {
    let root = pack_around(puzzle)?;
    let name = format!("{PUZZLES}/{}", puzzle.file_name()?.to_str()?);
    let real = |it: &Path| it.canonicalize().ok();
    (real(&root.join(&name))? == real(puzzle)?).then_some((root, name))
}

/// The names of a pack's files, relative to it and with forward slashes, in order.
fn names_of(root: &Path) -> Result<Vec<String>, Failure> {
    let mut names = Vec::new();
    for file in [PACK_FILE, CALIBRATION] {
        if fs::symlink_metadata(root.join(file)).is_ok() {
            names.push(file.to_owned());
        }
    }
    // `.TOML` is taken too, so that the file is spoken of rather than silently left out.
    names.extend(names_in(root, PUZZLES, "toml")?);
    names.sort();
    Ok(names)
}

/// The test solves of the pack in that folder: those that can be read as files, and a problem for each that cannot.
///
/// # Errors
///
/// If a file cannot be read.
pub(crate) fn load_solves(root: &Path) -> Result<(Vec<SourceFile>, Vec<Problem>), Failure> {
    load_folder(root, SOLVES, "json")
}

/// The files of one folder of the pack that end so: those that can be read as files, and a problem for each that
/// cannot.
///
/// # Errors
///
/// If a file cannot be read.
pub(crate) fn load_folder(
    root: &Path,
    folder: &str,
    ending: &str,
) -> Result<(Vec<SourceFile>, Vec<Problem>), Failure> {
    let real_root = root.canonicalize().map_err(|it| cannot_read(root, &it))?;
    let (found, outside): (Vec<String>, Vec<String>) =
        names_in(root, folder, ending)?.into_iter().partition(|it| is_inside(&real_root, &root.join(it)));
    let mut files = Vec::new();
    for name in found {
        let bytes = read(&root.join(&name))?;
        files.push(SourceFile::new(name, bytes));
    }
    Ok((files, outside.into_iter().map(leads_outside).collect()))
}

/// A file of the pack that need not be there; one that leads out of it is not.
///
/// # Errors
///
/// If it is there and cannot be read.
pub(crate) fn read_if_there(root: &Path, name: &str) -> Result<Option<SourceFile>, Failure> {
    let path = root.join(name);
    let real_root = root.canonicalize().map_err(|it| cannot_read(root, &it))?;
    match path.is_file() && is_inside(&real_root, &path) {
        true => Ok(Some(SourceFile::new(name, read(&path)?))),
        false => Ok(None),
    }
}

/// A file that was named, whatever it is.
///
/// # Errors
///
/// If it is not there, cannot be read or is larger than a pack's files are.
pub(crate) fn read_file(path: &Path) -> Result<SourceFile, Failure> {
    let bytes = read(path)?;
    if bytes.len() > MOST_BYTES {
        return Err(Failure::new(
            format!("{} is larger than {MOST_BYTES} bytes", shown(path)),
            "name the right file",
        ));
    }
    Ok(SourceFile::new(path.to_string_lossy(), bytes))
}

/// Writes a file that was named, all of it or nothing.
///
/// # Errors
///
/// If it cannot be written.
pub(crate) fn write_file(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let written = tempfile::NamedTempFile::new_in(parent_of(path)).and_then(|mut file| {
        file.write_all(bytes)?;
        file.persist(path).map_err(|it| it.error)
    });
    written.map(|_| ()).map_err(|it| cannot_write(path, &it))
}

/// The names of the files in a folder of the pack that end so, relative to the pack, in order; none if there is no such
/// folder.
fn names_in(root: &Path, folder: &str, extension: &str) -> Result<Vec<String>, Failure> {
    let path = root.join(folder);
    let mut names = Vec::new();
    let entries = match fs::read_dir(&path) {
        Ok(it) => it,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(names),
        Err(error) => return Err(cannot_read(&path, &error)),
    };
    for entry in entries {
        let entry = entry.map_err(|it| cannot_read(&path, &it))?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let is_meant = entry.path().extension().is_some_and(|it| it.eq_ignore_ascii_case(extension));
        if is_meant && !name.starts_with('.') && !entry.path().is_dir() {
            names.push(format!("{folder}/{name}"));
        }
    }
    names.sort();
    Ok(names)
}

/// Whether the file that a path leads to, through whatever links, lies in the pack.
fn is_inside(real_root: &Path, path: &Path) -> bool {
    path.canonicalize().is_ok_and(|it| it.starts_with(real_root))
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

/// The file's bytes; of one that is too large to be a puzzle, enough to be refused for it.
fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    let mut bytes = Vec::new();
    let most = MOST_BYTES as u64 + 1;
    let taken = File::open(path).and_then(|it| it.take(most).read_to_end(&mut bytes));
    taken.map_err(|it| cannot_read(path, &it))?;
    Ok(bytes)
}

/// The failure of a path that is there and cannot be read.
pub(crate) fn cannot_read(path: &Path, error: &io::Error) -> Failure {
    Failure::new(
        format!("{} cannot be read: {}", shown(path), reason(error)),
        "look whether the path is right and may be read",
    )
}

/// The failure of a file that cannot be written.
pub(crate) fn cannot_write(path: &Path, error: &io::Error) -> Failure {
    Failure::new(
        format!("{} cannot be written: {}", shown(path), reason(error)),
        "look whether its folder is there and may be written to",
    )
}

/// Why the system refused, in its own words without its number.
pub(crate) fn reason(error: &io::Error) -> String {
    let words = error.to_string();
    let words = words.split(" (os error").next().unwrap_or_default();
    words.to_lowercase()
}

/// A path between marks; its control characters written out, for it may hold anything.
pub(crate) fn shown(path: &Path) -> String {
    let shown = path.to_string_lossy();
    let shown: String = (shown.chars())
        .flat_map(|it| if it.is_control() { it.escape_default().collect() } else { vec![it] })
        .collect();
    format!("`{shown}`")
}

/// The folder a path lies in; the current one if it names none.
pub(crate) fn parent_of(path: &Path) -> PathBuf {
    match path.parent() {
        Some(it) if !it.as_os_str().is_empty() => it.to_owned(),
        _ => PathBuf::from("."),
    }
}
