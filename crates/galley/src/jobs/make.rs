//! `galley make`: puzzles set to a brief.

pub(super) mod asked;
mod files;
mod gap;
mod told;

use std::path::PathBuf;

use grade::Calibration;
use make::{Batch, Brief, Made, Others, Tally, Wanted};
use pack::{Entry, PuzzleId};
use packfile::write_puzzle;
use prove::{Limit, Verdict};

use crate::args::RawMake;
use crate::job::With;
use crate::load::shown;
use crate::outcome::{Failure, Outcome};
use crate::{json, load, progress, words};
use files::Place;
pub(crate) use gap::Gaps;

/// Nodes that the proof of a puzzle to be avoided may take; one that takes more is compared by its page alone.
const PROOF: Limit = Limit(1_000_000);

/// The command.
#[derive(Clone, Debug)]
pub(crate) struct Make {
    brief: Brief,
    seed: u64,
    wanted: Wanted,
    /// What corrects the minutes; nothing unless it is for a pack that has been test-solved.
    calibration: Calibration,
    avoid: Vec<PathBuf>,
    title: Option<String>,
    setter: String,
    place: Place,
}

/// A puzzle that was made, as a pack would hold it.
#[derive(Debug)]
struct Finished {
    made: Made,
    entry: Entry,
    text: String,
    file: Option<PathBuf>,
}

impl TryFrom<RawMake> for Make {
    type Error = Failure;

    fn try_from(raw: RawMake) -> Result<Make, Failure> {
        let brief = asked::brief(&raw)?;
        let wanted = Wanted { count: usize::from(raw.count.unwrap_or(1)), tries: raw.tries };
        raw.title.iter().try_for_each(|it| check_is_line("title", it))?;
        check_is_line("setter", &raw.setter)?;
        let RawMake { seed, avoid, title, setter, out, .. } = raw;
        let place = Place::of(out, wanted.count)?;
        // Without it the arguments are refused.
        let seed = seed.unwrap_or_default();
        let calibration = Calibration::default();
        Ok(Make { brief, seed, wanted, calibration, avoid, title, setter, place })
    }
}

impl Make {
    /// Makes the puzzles, and prints or writes their files.
    pub(crate) fn run(self, with: &With) -> Result<Outcome, Failure> {
        self.check_is_free()?;
        let (others, note) = self.others(with)?;
        let (finished, tally) = self.set(&others, with)?;
        with.stop.check()?;
        let files: Vec<_> =
            finished.iter().filter_map(|it| Some((it.file.clone()?, it.text.clone()))).collect();
        if !files.is_empty() {
            self.place.write(&files)?;
        }
        let is_short = finished.len() < self.wanted.count;
        Ok(Outcome {
            problems: match is_short && !with.is_json {
                true => told::too_few(finished.len(), &tally, self.wanted.count),
                false => String::new(),
            },
            result: match (with.is_json, &self.place) {
                (true, _) => json::text(&told::document(&self, &finished, &tally)),
                (false, Place::Nowhere) => printed(&finished),
                (false, _) => String::new(),
            },
            note: match (with.is_json, finished.is_empty()) {
                (true, _) => String::new(),
                // How the tries went is told as the reason.
                (_, true) => note,
                _ => note + &told::in_words(&self.brief, &finished, &tally, with.stderr),
            },
            has_errors: is_short,
        })
    }

    fn check_is_free(&self) -> Result<(), Failure> {
        let ids: Vec<PuzzleId> = (1..=self.wanted.count).map(|it| self.id(it)).collect();
        self.place.check_is_free(&ids)
    }

    /// Makes the puzzles, and writes nothing yet.
    fn set(&self, others: &Others, with: &With) -> Result<(Vec<Finished>, Tally), Failure> {
        let batch = self.batch(others, with)?;
        let made = batch.made.into_iter().enumerate();
        Ok((made.map(|(at, it)| self.finished(at, it, self.id(at + 1))).collect(), batch.tally))
    }

    fn batch(&self, others: &Others, with: &With) -> Result<Batch, Failure> {
        let mut sign = progress::waiting("setting a puzzle", with);
        let mut watch = |it: &Tally| sign.set_message(told::so_far(it, self.wanted.count));
        let stop = || with.stop.is_asked();
        let batch =
            make::make(&self.brief, self.seed, self.wanted, others, &self.calibration, &mut watch, &stop);
        sign.finish_and_clear();
        match batch.is_stopped {
            true => Err(Failure::interrupted()),
            false => Ok(batch),
        }
    }

    /// What the puzzles must differ from, and what of it could not be read.
    fn others(&self, with: &With) -> Result<(Others, String), Failure> {
        let mut others = Others::none(self.brief.kind);
        let mut note = String::new();
        for path in &self.avoid {
            let loaded = load::load(path)?;
            for entry in &loaded.pack.entries {
                // The solution of a sealed puzzle is nobody's business.
                let verdict = || with.stop.interrupting(|| prove::verdict(&entry.puzzle, PROOF));
                match (!entry.sealed).then(verdict).transpose()? {
                    Some(Verdict::One(solution)) => others.add(&entry.puzzle, Some(&solution)),
                    _ => others.add(&entry.puzzle, None),
                }
            }
            if !loaded.unreadable.is_empty() {
                let files = words::counted(loaded.unreadable.len(), "file");
                note.push_str(&format!("{files} of {} cannot be read, and may hold twins\n", shown(path)));
            }
        }
        Ok((others, note))
    }

    /// The id of the puzzle with that number, from 1.
    fn id(&self, number: usize) -> PuzzleId {
        if let Place::File(_, id) = &self.place {
            return id.clone();
        }
        let what = self.brief.teaches.last().map_or("made", |it| it.name());
        let id = format!("{what}-{}-{number}", self.seed);
        PuzzleId::new(&id).unwrap_or_else(|| unreachable!("{id} is no id"))
    }

    fn finished(&self, at: usize, made: Made, id: PuzzleId) -> Finished {
        let title = self.title.clone().unwrap_or_else(|| format!("Seed {}", self.seed));
        let title = if self.wanted.count == 1 { title } else { format!("{title}, {}", at + 1) };
        let mut entry = Entry::new(id, &title, &self.setter, made.puzzle.clone());
        entry.intends = self.brief.teaches.iter().map(|it| it.name().to_owned()).collect();
        let text = write_puzzle(&entry);
        Finished { file: self.place.file_of(&entry.id), text, entry, made }
    }
}

/// The files one after another; the name of each stands before it where there are several.
fn printed(finished: &[Finished]) -> String {
    match finished {
        [one] => one.text.clone(),
        several => {
            let texts = several.iter().map(|it| format!("# {}.toml\n{}", it.entry.id, it.text));
            texts.collect::<Vec<_>>().join("\n")
        }
    }
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
