//! `galley make`: a puzzle set to a brief.

use std::fs::OpenOptions;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use grid::Size;
use make::{Brief, Kind, Made, MakeError};
use pack::{Entry, PuzzleId};
use packfile::write_puzzle;
use reason::{TECHNIQUES, technique};
use study::study;
use trail::TechniqueId;

use crate::args::RawMake;
use crate::job::With;
use crate::load::{reason, shown};
use crate::outcome::{Failure, Outcome};
use crate::{json, progress, words};

/// Givens that a puzzle with sandwich clues may have, unless told otherwise.
const SANDWICH_GIVENS: u8 = 24;

/// The same for one without.
const CLASSIC_GIVENS: u8 = 40;

/// The command.
#[derive(Debug)]
pub(crate) struct Make {
    brief: Brief,
    seed: u64,
    id: PuzzleId,
    title: String,
    setter: String,
    out: Option<PathBuf>,
}

impl TryFrom<RawMake> for Make {
    type Error = Failure;

    fn try_from(raw: RawMake) -> Result<Make, Failure> {
        let hardest = raw.hardest.as_deref().and_then(words::technique_named);
        let teaches: Vec<TechniqueId> =
            raw.teaches.iter().filter_map(|it| words::technique_named(it)).collect();
        if let Some(hardest) = hardest {
            check_is_reachable(hardest, &teaches)?;
        }
        let givens = raw.givens.unwrap_or(if raw.classic { CLASSIC_GIVENS } else { SANDWICH_GIVENS });
        let brief = Brief {
            size: Size::NINE,
            kind: if raw.classic { Kind::Classic } else { Kind::Sandwich },
            givens: usize::from(givens),
            clues: if raw.classic { 0 } else { usize::from(raw.clues) },
            balanced: raw.balanced,
            hardest,
            teaches,
        };
        let id = match &raw.out {
            Some(path) => id_for(path)?,
            None => standard_output(),
        };
        let title = raw.title.unwrap_or_else(|| format!("Seed {}", raw.seed));
        check_is_line("title", &title)?;
        check_is_line("setter", &raw.setter)?;
        Ok(Make { brief, seed: raw.seed, id, title, setter: raw.setter, out: raw.out })
    }
}

impl Make {
    /// Makes the puzzle, and prints or writes its file.
    pub(crate) fn run(self, with: &With) -> Result<Outcome, Failure> {
        self.check_is_free()?;
        let sign = progress::waiting("setting a puzzle", with);
        let made = make::make(&self.brief, self.seed, &|| with.stop.is_asked());
        sign.finish_and_clear();
        let made = made.map_err(|it| self.not_made(&it))?;
        let entry = self.entry(&made);
        let text = write_puzzle(&entry);
        with.stop.check()?;
        if let Some(path) = &self.out {
            write_new(path, &text)?;
        }
        let written = self.out.as_ref().map(|it| it.to_string_lossy().into_owned());
        let note = in_words(&made, written.as_deref());
        let result = match (with.is_json, &self.out) {
            (true, _) => json::text(&self.document(&made, entry, text, written)),
            (false, None) => text,
            (false, Some(_)) => String::new(),
        };
        Ok(Outcome { result, note: if with.is_json { String::new() } else { note }, ..Outcome::default() })
    }

    fn check_is_free(&self) -> Result<(), Failure> {
        match &self.out {
            Some(path) if path.symlink_metadata().is_ok() => Err(already_there(path)),
            _ => Ok(()),
        }
    }

    fn not_made(&self, error: &MakeError) -> Failure {
        match error {
            MakeError::Stopped => Failure::interrupted(),
            MakeError::NotMet(_) => Failure::new(
                error.to_string(),
                "allow more givens or clues, name fewer or other techniques, or try another seed",
            ),
        }
    }

    fn entry(&self, made: &Made) -> Entry {
        Entry::new(self.id.clone(), &self.title, &self.setter, made.puzzle.clone())
    }

    fn document(&self, made: &Made, entry: Entry, text: String, written: Option<String>) -> json::Made {
        json::Made {
            format: json::FORMAT,
            seed: self.seed,
            givens: made.puzzle.givens().filled().count(),
            clues: made.puzzle.clues().len(),
            steps: made.explained.walkthrough().trail().n_steps(),
            techniques: words::ids(&techniques(made)),
            minutes: study(entry, false).minutes().map(json::Minutes::from),
            text,
            written,
        }
    }
}

/// What was made, in a line.
fn in_words(made: &Made, written: Option<&str>) -> String {
    let givens = words::counted(made.puzzle.givens().filled().count(), "given");
    let clues = words::counted(made.puzzle.clues().len(), "clue");
    let steps = words::counted(made.explained.walkthrough().trail().n_steps(), "step");
    let what = format!("{givens}, {clues}, {steps}: {}", words::techniques(&techniques(made)));
    match written {
        Some(path) => format!("wrote {path}: {what}\n"),
        None => format!("{what}\n"),
    }
}

/// The techniques that the walkthrough uses, easiest first.
fn techniques(made: &Made) -> Vec<TechniqueId> {
    let is_used =
        |id: &TechniqueId| made.explained.walkthrough().trail().steps().any(|(_, it)| it.technique() == *id);
    all_techniques().filter(is_used).collect()
}

fn all_techniques() -> impl Iterator<Item = TechniqueId> {
    TECHNIQUES.iter().map(|it| it.id()).chain([TechniqueId::SMALL_ARGUMENT])
}

/// A puzzle cannot use a technique that is harder than its hardest.
fn check_is_reachable(hardest: TechniqueId, teaches: &[TechniqueId]) -> Result<(), Failure> {
    let rank = |id: TechniqueId| TECHNIQUES.iter().position(|it| it.id() == id);
    let too_hard = |id: &&TechniqueId| technique(**id).is_none() || rank(**id) > rank(hardest);
    match teaches.iter().find(too_hard) {
        None => Ok(()),
        Some(it) => Err(Failure::new(
            format!("`{it}` is harder than `{hardest}`, the hardest technique allowed"),
            "name a harder one there, or leave out --hardest",
        )),
    }
}

/// The id that a puzzle file of that path has.
fn id_for(path: &Path) -> Result<PuzzleId, Failure> {
    let name = path.file_name().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default();
    name.strip_suffix(".toml").and_then(PuzzleId::new).ok_or_else(|| {
        Failure::new(
            format!("{} is no name for a puzzle file", shown(path)),
            "use 1 to 64 lower-case letters, digits and hyphens and then .toml, such as first-light.toml",
        )
    })
}

/// An id for a puzzle that has no file yet; it is not printed.
fn standard_output() -> PuzzleId {
    PuzzleId::new("made").unwrap_or_else(|| unreachable!("the name is an id"))
}

/// Whether a puzzle file can hold the text.
fn check_is_line(option: &str, text: &str) -> Result<(), Failure> {
    let fault = match text {
        _ if text.trim().is_empty() => "is empty",
        _ if text.contains(char::is_control) => "is not one line of text",
        _ => return Ok(()),
    };
    Err(Failure::new(format!("the {option} {fault}"), format!("give a --{option} of one line")))
}

/// Writes a file that must not be there yet.
fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
    let opened = OpenOptions::new().write(true).create_new(true).open(path);
    let mut file = opened.map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => already_there(path),
        _ => cannot_write(path, &error),
    })?;
    file.write_all(text.as_bytes()).map_err(|error| {
        // Half a puzzle helps nobody. That it cannot be taken away either changes nothing.
        _ = std::fs::remove_file(path);
        cannot_write(path, &error)
    })
}

fn already_there(path: &Path) -> Failure {
    Failure::new(format!("{} is already there", shown(path)), "name another file, or move that one away")
}

fn cannot_write(path: &Path, error: &io::Error) -> Failure {
    Failure::new(
        format!("{} cannot be written: {}", shown(path), reason(error)),
        "look whether its folder is there and may be written to",
    )
}
