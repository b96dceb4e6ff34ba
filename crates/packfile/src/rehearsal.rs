//! Reading the log of a rehearsal or a recording, `rehearsals/*.json`.

use captions::Time;
use pack::{Entry, Event, Happening, Rehearsal};
use serde::Deserialize;

use crate::json::{problem, read_json};
use crate::phrases::quoted;
use crate::solve::values::{At, CellName, DigitNumber, Line, Seconds, Span, in_order};
use crate::{Code, Problem, SourceFile, fingerprint};

/// A log, and what its file says of where it comes from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LoggedRehearsal {
    /// The file, as the caller named it.
    pub file: String,
    /// The log.
    pub rehearsal: Rehearsal,
    /// The fingerprint that the puzzle had then, if it was noted.
    pub fingerprint: Option<String>,
    /// When it began, as the file says it.
    pub started: Option<String>,
}

/// Reads one log. A file with any fault is none, for times that are half right are wrong.
pub fn read_rehearsal(file: &SourceFile) -> Result<LoggedRehearsal, Problem> {
    let it: Written = read_json(file, "a rehearsal")?;
    let total = time(&it.seconds);
    let events: Vec<Event> = it.events.into_iter().map(|it| it.0).collect();
    if let Some(last) = events.last().filter(|it| it.at > total) {
        let message = format!("something happens at {} and the whole is {total} long", last.at);
        let help = Some("see what `docs/format.md` says of a rehearsal".to_owned());
        return Err(Problem { help, ..problem(Code::NotAsWritten, file, message) });
    }
    let rehearsal =
        Rehearsal { puzzle: it.puzzle.0, is_recording: matches!(it.kind, Kind::Recording), total, events };
    let started = it.started.map(|it| it.0);
    Ok(LoggedRehearsal { file: file.path.clone(), rehearsal, fingerprint: it.fingerprint, started })
}

impl LoggedRehearsal {
    /// Checks that it is of this puzzle as it is now.
    ///
    /// # Errors
    ///
    /// Why it is of no use.
    pub fn check(&self, entry: &Entry) -> Result<(), Problem> {
        let file = SourceFile::new(&*self.file, "");
        let refused = |message: String, help: &str| {
            Err(Problem { help: Some(help.to_owned()), ..problem(Code::RehearsalOutdated, &file, message) })
        };
        if self.rehearsal.puzzle != entry.id.as_str() {
            let (found, meant) = (quoted(&self.rehearsal.puzzle), quoted(entry.id.as_str()));
            return refused(format!("it is of {found}, not of {meant}"), "name the log of this puzzle");
        }
        match &self.fingerprint {
            Some(it) if *it != fingerprint(&entry.puzzle) => refused(
                format!("{} has changed since: a given or a clue is another", quoted(&self.rehearsal.puzzle)),
                "record it again as it is now",
            ),
            _ => Ok(()),
        }
    }
}

/// The file as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    #[serde(rename = "format")]
    _format: u64,
    puzzle: Line,
    fingerprint: Option<String>,
    kind: Kind,
    started: Option<Line>,
    seconds: Seconds,
    #[serde(deserialize_with = "in_order")]
    events: Vec<Read>,
}

#[derive(Deserialize)]
enum Kind {
    #[serde(rename = "rehearsal")]
    Rehearsal,
    #[serde(rename = "recording")]
    Recording,
}

/// An event, once it is known to have what its kind needs.
#[derive(Deserialize)]
#[serde(try_from = "WrittenEvent")]
struct Read(Event);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenEvent {
    at: Seconds,
    is: Is,
    step: Option<usize>,
    key: Option<Line>,
    cell: Option<CellName>,
    digit: Option<DigitNumber>,
    since: Option<Seconds>,
}

#[derive(Deserialize)]
#[serde(rename_all = "lowercase")]
enum Is {
    Opening,
    Step,
    Close,
    Digit,
    Crust,
    Filling,
    Mark,
    Undone,
    Pause,
    Resume,
}

impl TryFrom<WrittenEvent> for Read {
    type Error = String;

    fn try_from(it: WrittenEvent) -> Result<Read, String> {
        let cell = it.cell.map(|it| it.0);
        let is = match (it.is, it.step, it.key, cell, it.digit, it.since) {
            (Is::Opening, None, None, None, None, None) => Happening::Opening,
            (Is::Close, None, None, None, None, None) => Happening::Close,
            (Is::Pause, None, None, None, None, None) => Happening::Pause,
            (Is::Resume, None, None, None, None, None) => Happening::Resume,
            (Is::Step, Some(number), Some(key), None, None, None) => Happening::Step { number, key: key.0 },
            (Is::Digit, None, None, Some(cell), Some(digit), None) => Happening::Digit(cell, digit.0),
            (Is::Crust | Is::Filling | Is::Mark, None, None, Some(cell), _, None) => Happening::Mark(cell),
            (Is::Undone, None, None, Some(cell), None, Some(since)) => {
                Happening::Undone { cell, since: time(&since) }
            }
            _ => return Err("an event has other keys than what happened takes".to_owned()),
        };
        Ok(Read(Event { at: time(&it.at), is }))
    }
}

impl At for Read {
    fn span(&self) -> Span {
        let at = self.0.at.as_seconds();
        Span { from: at, to: at }
    }
}

fn time(seconds: &Seconds) -> Time {
    Time::of(seconds.0)
}
