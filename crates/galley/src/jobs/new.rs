//! `galley new`: a pack to begin with.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use packfile::{pack_template, puzzle_template};

use crate::job::With;
use crate::json;
use crate::load::{PACK_FILE, PUZZLES, reason, shown};
use crate::outcome::{Failure, Outcome};

/// A puzzle file to copy. It lies outside the folder of the puzzles, for it is none.
const TEMPLATE: &str = "puzzle-template.toml";

/// The command.
#[derive(Debug)]
pub(crate) struct New {
    /// The folder to make.
    pub(crate) dir: PathBuf,
}

impl New {
    /// Writes the files of a pack without puzzles, and says what to do next.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        self.check_is_free()?;
        let title = title_of(&self.dir);
        let files = [
            (PACK_FILE, pack_template(&title)),
            (TEMPLATE, puzzle_template("The puzzle's title", "The setter's name")),
        ];
        self.write(&files).map_err(|it| self.cannot_write(&it))?;
        let written = files.iter().map(|it| self.dir.join(it.0).to_string_lossy().into_owned()).collect();
        let result = match with.is_json {
            true => json::text(&json::New {
                format: json::FORMAT,
                pack: self.dir.to_string_lossy().into_owned(),
                written,
            }),
            false => self.next_moves(&written),
        };
        Ok(Outcome { result, ..Outcome::default() })
    }

    fn check_is_free(&self) -> Result<(), Failure> {
        match fs::read_dir(&self.dir).map(|mut it| it.next().is_none()) {
            Ok(true) => Ok(()),
            Ok(false) => Err(Failure::new(
                format!("{} is not empty", shown(&self.dir)),
                "name a folder that does not exist yet, or is empty",
            )),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
            Err(error) if error.kind() == io::ErrorKind::NotADirectory => Err(Failure::new(
                format!("{} is not a folder", shown(&self.dir)),
                "name a folder that does not exist yet, or is empty",
            )),
            Err(error) => Err(self.cannot_write(&error)),
        }
    }

    fn write(&self, files: &[(&str, String)]) -> io::Result<()> {
        fs::create_dir_all(self.dir.join(PUZZLES))?;
        for (name, text) in files {
            fs::write(self.dir.join(name), text)?;
        }
        Ok(())
    }

    fn cannot_write(&self, error: &io::Error) -> Failure {
        Failure::new(
            format!("{} cannot be written: {}", shown(&self.dir), reason(error)),
            "look whether the place may be written to, or name another",
        )
    }

    fn next_moves(&self, written: &[String]) -> String {
        let dir = self.dir.display();
        let example = self.dir.join(PUZZLES).join("first-light.toml");
        format!(
            "wrote {}\n\nNext:\n  \
             1. say in {} what the pack is called and who edits it\n  \
             2. copy {} to {}, and fill it in; one file a puzzle\n  \
             3. galley check {dir}\n",
            written.join(" and "),
            written[0],
            written[1],
            example.display(),
        )
    }
}

/// `Lantern room` for a folder `lantern-room`.
fn title_of(dir: &Path) -> String {
    // `.` has no name of its own.
    let whole = fs::canonicalize(dir).unwrap_or_else(|_| dir.to_owned());
    let name = whole.file_name().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default();
    let is_between = |it: char| it == '-' || it == '_' || it.is_whitespace() || it.is_control();
    let name_words: Vec<&str> = name.split(is_between).filter(|it| !it.is_empty()).collect();
    match name_words.is_empty() {
        true => "A pack".to_owned(),
        false => tell::capital(&name_words.join(" ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn titles_come_from_folders() {
        for (dir, title) in [
            ("lantern-room", "Lantern room"),
            ("packs/small_hours/", "Small hours"),
            ("--", "A pack"),
            ("/", "A pack"),
            ("été", "Été"),
        ] {
            assert_eq!(title_of(Path::new(dir)), title);
        }
    }
}
