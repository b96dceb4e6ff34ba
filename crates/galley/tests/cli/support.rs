//! A folder for each test, and the program run inside it.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;
use snapbox::cmd::Command;

/// A fresh folder named after a test.
pub(crate) struct Folder(PathBuf);

impl Folder {
    /// An empty folder.
    pub(crate) fn new(test: &str) -> Folder {
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(test);
        if path.exists() {
            fs::remove_dir_all(&path).unwrap();
        }
        fs::create_dir_all(&path).unwrap();
        Folder(path)
    }

    /// A folder that holds the pack `lamp-store`.
    pub(crate) fn with_pack(test: &str) -> Folder {
        let folder = Folder::new(test);
        for file in files_below(&packs()) {
            folder.write(&file, fs::read(packs().join(&file)).unwrap());
        }
        folder
    }

    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    pub(crate) fn write(&self, file: &str, bytes: impl AsRef<[u8]>) {
        let path = self.0.join(file);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }

    pub(crate) fn bytes(&self, file: &str) -> Vec<u8> {
        let path = self.0.join(file);
        fs::read(&path).unwrap_or_else(|it| panic!("{}: {it}", path.display()))
    }

    pub(crate) fn read(&self, file: &str) -> String {
        String::from_utf8(self.bytes(file)).unwrap_or_else(|it| panic!("{file}: {it}"))
    }

    /// Every file in a folder of it, by its path there, with what it holds.
    pub(crate) fn all_in(&self, folder: &str) -> BTreeMap<String, Vec<u8>> {
        let prefix = format!("{folder}/");
        let files = self.files().into_iter().filter(|it| it.starts_with(&prefix));
        files.map(|it| (it[prefix.len()..].to_owned(), self.bytes(&it))).collect()
    }

    /// Writes a file again with one text in it replaced, which must be there.
    pub(crate) fn replace(&self, file: &str, old: &str, new: &str) {
        let text = self.read(file);
        assert!(text.contains(old), "{file} does not hold {old}");
        self.write(file, text.replacen(old, new, 1));
    }

    pub(crate) fn exists(&self, file: &str) -> bool {
        self.0.join(file).symlink_metadata().is_ok()
    }

    /// Every file below it, with forward slashes, in order.
    pub(crate) fn files(&self) -> Vec<String> {
        files_below(&self.0)
    }

    /// The program, to be run in this folder.
    pub(crate) fn command(&self) -> Command {
        let command = Command::new(env!("CARGO_BIN_EXE_galley")).current_dir(&self.0);
        command.env_remove("NO_COLOR").env("TERM", "xterm")
    }

    /// Runs the program.
    pub(crate) fn run(&self, args: &[&str]) -> Ran {
        let output = self.command().args(args).output().unwrap();
        Ran {
            args: args.join(" "),
            code: output.status.code(),
            stdout: String::from_utf8(output.stdout).unwrap(),
            stderr: String::from_utf8(output.stderr).unwrap(),
        }
    }
}

/// What a run gave.
#[derive(Debug)]
pub(crate) struct Ran {
    args: String,
    pub(crate) code: Option<i32>,
    pub(crate) stdout: String,
    pub(crate) stderr: String,
}

impl Ran {
    /// Demands the exit code; whatever the code, nothing may have panicked and no path of this machine
    /// may show.
    #[track_caller]
    pub(crate) fn code(self, code: i32) -> Ran {
        assert_eq!(self.code, Some(code), "galley {}\n{}\n{}", self.args, self.stdout, self.stderr);
        for text in [&self.stdout, &self.stderr] {
            assert!(!text.contains("panicked"), "galley {}\n{text}", self.args);
            assert!(!text.contains(env!("CARGO_TARGET_TMPDIR")), "galley {}\n{text}", self.args);
        }
        self
    }

    /// Demands a text in stderr.
    #[track_caller]
    pub(crate) fn says(self, text: &str) -> Ran {
        assert!(self.stderr.contains(text), "galley {}\nno {text:?} in:\n{}", self.args, self.stderr);
        self
    }

    /// Demands a text in stdout.
    #[track_caller]
    pub(crate) fn prints(self, text: &str) -> Ran {
        assert!(self.stdout.contains(text), "galley {}\nno {text:?} in:\n{}", self.args, self.stdout);
        self
    }

    /// The document on stdout.
    #[track_caller]
    pub(crate) fn json(&self) -> Value {
        let document: Value = serde_json::from_str(&self.stdout)
            .unwrap_or_else(|it| panic!("galley {}: {it}\n{}", self.args, self.stdout));
        assert_eq!(document["format"], 1, "galley {}", self.args);
        document
    }
}

fn packs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/packs")
}

fn files_below(root: &Path) -> Vec<String> {
    let mut found = Vec::new();
    let mut folders = vec![root.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            match path.is_dir() {
                true => folders.push(path),
                false => found.push(path.strip_prefix(root).unwrap().to_str().unwrap().replace('\\', "/")),
            }
        }
    }
    found.sort();
    found
}

/// A puzzle file without a given 1 or 9 and without clues.
pub(crate) const BLANK: &str = "\
format = 1
title = \"Blank page\"
setter = \"Fern\"
grid = \"\"\"
. . . . . . . . .
. . . . . . . . .
. . . . . . . . .
. . . . . . . . .
. . . . . . . . .
. . . . . . . . .
. . . . . . . . .
. . . . . . . . .
. . . . . . . . .
\"\"\"
";
