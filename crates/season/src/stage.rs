//! The stages of a puzzle's way, and how each is seen in the files.

use std::collections::BTreeMap;

use grade::{Outcome, Solve};
use grid::{Cell, Digit, Grid};
use pack::{Day, Entry, State};
use packfile::fingerprint;
use study::{Finding, StudiedPack, Study};

use crate::Seen;

/// A stage of a puzzle's way.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Stage {
    /// Its file is there.
    Received,
    /// It is proved to have one solution.
    Sound,
    /// Somebody has solved it as it is.
    TestSolved,
    /// The editor has given it a place.
    Placed,
    /// Its walkthrough has been rehearsed.
    Rehearsed,
    /// Its walkthrough has been recorded.
    Recorded,
    /// The recording has captions.
    Captioned,
    /// The recording is out.
    Published,
}

/// All of them, in order.
pub const STAGES: [Stage; 8] = [
    Stage::Received,
    Stage::Sound,
    Stage::TestSolved,
    Stage::Placed,
    Stage::Rehearsed,
    Stage::Recorded,
    Stage::Captioned,
    Stage::Published,
];

impl Stage {
    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Stage::Received => "received",
            Stage::Sound => "sound",
            Stage::TestSolved => "test-solved",
            Stage::Placed => "placed",
            Stage::Rehearsed => "rehearsed",
            Stage::Recorded => "recorded",
            Stage::Captioned => "captioned",
            Stage::Published => "published",
        }
    }
}

/// Whether a stage is reached.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Reached {
    /// It is not.
    No,
    /// It was, with the puzzle as it was before somebody changed it.
    Before,
    /// It is.
    Yes,
}

/// How a puzzle stands at one stage.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Standing {
    /// The stage.
    pub stage: Stage,
    /// Whether it is reached.
    pub reached: Reached,
    /// When it was reached, or is to be, if that is known.
    pub on: Option<Day>,
    /// By what it is known, in a few words.
    pub says: String,
}

/// How a puzzle stands at each stage.
pub(crate) fn standings(pack: &StudiedPack, study: &Study, seen: &Seen<'_>) -> Vec<Standing> {
    let entry = study.entry();
    let print = fingerprint(&entry.puzzle);
    let recorded = recorded(entry, seen, &print);
    let standing = |stage| {
        let (reached, on, says) = match stage {
            Stage::Received => (Reached::Yes, entry.received, "its file is in the pack".to_owned()),
            Stage::Sound => sound(study.finding()),
            Stage::TestSolved => solved(entry, seen, &print),
            Stage::Placed => placed(pack, entry),
            Stage::Rehearsed => logged(entry, seen, &print, false),
            Stage::Recorded => recorded.clone(),
            Stage::Captioned => captioned(entry, seen),
            Stage::Published => published(study, seen, recorded.0),
        };
        Standing { stage, reached, on, says }
    };
    STAGES.into_iter().map(standing).collect()
}

type Found = (Reached, Option<Day>, String);

fn sound(finding: Finding) -> Found {
    let (reached, says) = match finding {
        Finding::One => (Reached::Yes, "one solution, proved"),
        Finding::None => (Reached::No, "no solution"),
        Finding::Many => (Reached::No, "several solutions"),
        Finding::Undecided => (Reached::No, "not decided"),
    };
    (reached, None, says.to_owned())
}

/// By the solves that end with the solution; of the puzzle as it was before, by those that say so.
fn solved(entry: &Entry, seen: &Seen<'_>, print: &str) -> Found {
    let of_puzzle = seen.solves.iter().filter(|it| it.solve.puzzle == entry.id.as_str());
    let solved = of_puzzle.filter(|it| it.solve.outcome == Outcome::Solved);
    let (mut now, before): (Vec<_>, Vec<_>) =
        solved.partition(|it| it.fingerprint.as_deref().is_none_or(|it| it == print));
    now.retain(|it| ends_right(entry, &it.solve));
    let people = |solves: &[&packfile::LoggedSolve]| {
        let names: std::collections::BTreeSet<&str> = solves.iter().map(|it| &it.solve.solver[..]).collect();
        tell::list(&names.into_iter().collect::<Vec<_>>())
    };
    let last = |solves: &[&packfile::LoggedSolve]| {
        solves.iter().filter_map(|it| day_of(it.started.as_deref()?)).max()
    };
    match (now.is_empty(), before.is_empty()) {
        (false, _) => (Reached::Yes, last(&now), format!("by {}", people(&now))),
        (true, false) => {
            (Reached::Before, last(&before), format!("as it was before, by {}", people(&before)))
        }
        (true, true) => (Reached::No, None, "by nobody yet".to_owned()),
    }
}

/// Whether a solve says that it ended with the puzzle's solution, and did.
pub(crate) fn ends_right(entry: &Entry, solve: &Solve) -> bool {
    let (size, givens) = (entry.puzzle.size(), entry.puzzle.givens());
    let last: BTreeMap<Cell, Option<Digit>> = solve.entries.iter().map(|it| (it.cell, it.digit)).collect();
    let end = Grid::from_fn(size, |it| givens.get(it).or_else(|| *last.get(&it)?));
    solve.outcome == Outcome::Solved && entry.puzzle.is_solved_by(&end)
}

fn placed(pack: &StudiedPack, entry: &Entry) -> Found {
    let at = pack.studies().iter().position(|it| it.entry().id == entry.id);
    let is_pinned = pack.info().pins.contains_key(&entry.id);
    match (at, entry.state) {
        (Some(at), _) if is_pinned => (Reached::Yes, None, format!("number {}, pinned", at + 1)),
        (Some(at), _) if !pack.is_proposed() => (Reached::Yes, None, format!("number {}", at + 1)),
        (Some(at), _) => (Reached::No, None, format!("number {} of a proposed order", at + 1)),
        (None, State::Pool) => (Reached::No, None, "in the pool".to_owned()),
        (None, State::Later) => (Reached::No, None, "kept for later".to_owned()),
        (None, State::Declined) => (Reached::No, None, "declined".to_owned()),
        (None, _) => (Reached::No, None, "no place".to_owned()),
    }
}

/// By the logs of the stage.
fn logged(entry: &Entry, seen: &Seen<'_>, print: &str, is_recording: bool) -> Found {
    let of_kind = |it: &&packfile::LoggedRehearsal| {
        it.rehearsal.puzzle == entry.id.as_str() && it.rehearsal.is_recording == is_recording
    };
    let (now, before): (Vec<_>, Vec<_>) = (seen.rehearsals.iter().filter(of_kind))
        .partition(|it| it.fingerprint.as_deref().is_none_or(|it| it == print));
    let last = |logs: &[&packfile::LoggedRehearsal]| {
        logs.iter().filter_map(|it| day_of(it.started.as_deref()?)).max()
    };
    let n = |n: usize| if n == 1 { "one log".to_owned() } else { format!("{n} logs") };
    match (now.len(), before.len()) {
        (0, 0) => (Reached::No, None, "no log".to_owned()),
        (0, it) => (Reached::Before, last(&before), format!("as it was before: {}", n(it))),
        (it, _) => (Reached::Yes, last(&now), n(it)),
    }
}

/// By an address in the file, or the log of a recording. A log alone tells whether the puzzle was another then.
fn recorded(entry: &Entry, seen: &Seen<'_>, print: &str) -> Found {
    let (reached, on, says) = logged(entry, seen, print, true);
    match (reached, &entry.recording) {
        (Reached::Before, _) => (reached, on, says),
        (Reached::No, Some(_)) => (Reached::Yes, None, "its address is in the file".to_owned()),
        (Reached::No, None) => {
            let says = if entry.record.is_some() { "planned" } else { "no day is planned" };
            (Reached::No, entry.record, says.to_owned())
        }
        (Reached::Yes, _) => (reached, on, says),
    }
}

fn captioned(entry: &Entry, seen: &Seen<'_>) -> Found {
    match seen.captioned.contains(entry.id.as_str()) {
        true => (Reached::Yes, None, format!("captions/{}.vtt", entry.id)),
        false => (Reached::No, None, "no captions".to_owned()),
    }
}

/// As the site has it: a recording without a day of release is out, and one with a day is out from then on.
fn published(study: &Study, seen: &Seen<'_>, recorded: Reached) -> Found {
    let entry = study.entry();
    let is_out = entry.release.is_none_or(|release| seen.today.is_some_and(|today| release <= today));
    if entry.recording.is_none() || !is_out {
        let says = if entry.release.is_some() { "planned" } else { "no day is planned" };
        return (Reached::No, entry.release, says.to_owned());
    }
    match (study.is_publishable(), recorded) {
        (true, Reached::Before) => {
            (Reached::Before, entry.release, "the puzzle has changed since it was recorded".to_owned())
        }
        (true, _) => (Reached::Yes, entry.release, "the recording is out".to_owned()),
        (false, _) => (Reached::Before, entry.release, "the recording is out, the puzzle is not".to_owned()),
    }
}

/// The day with which a moment begins: `2026-11-02T19:30:00Z`, or as the desk's store has it, with a space.
pub(crate) fn day_of(moment: &str) -> Option<Day> {
    moment.get(..10)?.parse().ok()
}
