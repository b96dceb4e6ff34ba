//! `galley season`: where every puzzle stands, what to record next, and the calendar of it.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use pack::Day;
use packfile::{LoggedRehearsal, LoggedSolve, SourceFile, read_notes, read_rehearsal, read_solve};
use season::{Reached, Row, Season, Seen, Standing, calendar, day_at, seconds_at};

use crate::job::With;
use crate::json;
use crate::load::{CAPTIONS, NOTES, REHEARSALS, SOLVES, load_folder, root_of, shown, write_file};
use crate::outcome::{Failure, Outcome};
use crate::print;
use crate::screen::Screen;
use crate::studies::{Found, Target};

/// The command.
#[derive(Debug)]
pub(crate) struct SeasonOf {
    /// The pack.
    pub(crate) target: Target,
    /// The day it is; none for this machine's.
    pub(crate) on: Option<Day>,
    /// Where to write the calendar.
    pub(crate) calendar: Option<PathBuf>,
}

impl SeasonOf {
    /// Tells where every puzzle stands.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.target.study(with)?;
        let root = root_of(&self.target.path);
        let now = self.on.map_or_else(now, seconds_at);
        let beside = Beside::read(root)?;
        let seen = Seen {
            solves: &beside.solves,
            rehearsals: &beside.rehearsals,
            notes: beside.notes,
            captioned: beside.captioned,
            today: day_at(now),
        };
        let season = Season::of(&found.pack, &seen);
        let mut note = String::new();
        if let Some(path) = &self.calendar {
            write_file(path, calendar(&season, found.pack.info(), now).as_bytes())?;
            note = format!("wrote {}\n", print::visible(&path.to_string_lossy()));
        }
        Ok(Outcome {
            problems: found.problems(with),
            result: match with.is_json {
                true => json::text(&document(&season, &found)),
                false => in_words(&season, with.stdout),
            },
            note: if with.is_json { String::new() } else { note },
            has_errors: found.has_errors(),
        })
    }
}

/// Seconds since 1970 in the time of Greenwich.
#[expect(
    clippy::disallowed_methods,
    reason = "what is out and what is planned depends on the day; --on names another"
)]
fn now() -> i64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    i64::try_from(since.as_secs()).unwrap_or_default()
}

/// What lies beside the puzzles. A file with a fault is passed over: the command that uses it says what is wrong.
#[derive(Default)]
struct Beside {
    solves: Vec<LoggedSolve>,
    rehearsals: Vec<LoggedRehearsal>,
    notes: BTreeMap<String, usize>,
    captioned: BTreeSet<String>,
}

impl Beside {
    /// Of a puzzle file alone there is nothing.
    fn read(root: &Path) -> Result<Beside, Failure> {
        if !root.is_dir() {
            let message = format!("{} is one puzzle, and a season is of a pack", shown(root));
            return Err(Failure::new(message, "name the pack's folder"));
        }
        let of = |folder, ending| load_folder(root, folder, ending).map(|it| it.0);
        let stem = |it: &SourceFile| {
            Path::new(&it.path).file_stem().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default()
        };
        Ok(Beside {
            solves: of(SOLVES, "json")?.iter().filter_map(|it| read_solve(it).ok()).collect(),
            rehearsals: of(REHEARSALS, "json")?.iter().filter_map(|it| read_rehearsal(it).ok()).collect(),
            notes: of(NOTES, "toml")?.iter().map(|it| (stem(it), read_notes(it).0.steps.len())).collect(),
            captioned: of(CAPTIONS, "vtt")?.iter().map(stem).collect(),
        })
    }
}

fn in_words(season: &Season, screen: Screen) -> String {
    if season.rows.is_empty() {
        return String::new();
    }
    let mut table = print::table(&["puzzle", "is", "next days", "waited for"], screen);
    for row in &season.rows {
        let day = |what: &str, on: Option<Day>| on.map(|it| format!("{what} {it}"));
        let days: Vec<String> =
            [day("record", row.record), day("release", row.release)].into_iter().flatten().collect();
        let waits: Vec<String> =
            row.waiting.iter().map(|it| format!("{}: {}", it.who.name(), it.what)).collect();
        table.add_row(vec![print::visible(&row.title), stands(row), days.join("; "), waits.join("; ")]);
    }
    let mut text = format!("{table}\n");
    if !season.to_record.is_empty() {
        text += "\nto record, in this order:\n";
        for (at, it) in season.to_record.iter().enumerate() {
            text +=
                &print::folded(&format!("{}. {}: {}", at + 1, print::visible(&it.title), it.says), screen);
        }
    }
    text
}

/// The stages that are reached, and those that were.
fn stands(row: &Row) -> String {
    let of = |reached: Reached| -> Vec<&str> {
        let those = row.standings.iter().filter(|it| it.reached == reached);
        those.map(|it: &Standing| it.stage.name()).collect()
    };
    let (now, before) = (of(Reached::Yes), of(Reached::Before));
    match before.is_empty() {
        true => now.join(", "),
        false => format!("{}; as it was before: {}", now.join(", "), before.join(", ")),
    }
}

fn document(season: &Season, found: &Found) -> json::Season {
    let puzzle = |row: &Row| json::SeasonPuzzle {
        id: row.id.to_string(),
        title: row.title.clone(),
        stages: row.standings.iter().map(stage).collect(),
        approved: row.approved.says(),
        waiting: (row.waiting.iter())
            .map(|it| json::Waiting { who: it.who.name(), what: it.what.clone() })
            .collect(),
        breaks: row.breaks.clone(),
    };
    let next = season.to_record.iter();
    json::Season {
        format: json::FORMAT,
        puzzles: season.rows.iter().map(puzzle).collect(),
        to_record: next.map(|it| json::ToRecord { id: it.id.to_string(), says: it.says.clone() }).collect(),
        unreadable: found.unreadable_files(),
        problems: found.all_problems(),
    }
}

fn stage(it: &Standing) -> json::SeasonStage {
    json::SeasonStage {
        stage: it.stage.name(),
        reached: match it.reached {
            Reached::No => "no",
            Reached::Before => "before",
            Reached::Yes => "yes",
        },
        on: it.on.map(|it| it.to_string()),
        says: it.says.clone(),
    }
}
