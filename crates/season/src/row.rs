//! The season: a row a puzzle.

use std::collections::{BTreeMap, BTreeSet};

use pack::{Day, PuzzleId};
use packfile::{LoggedRehearsal, LoggedSolve};
use study::{StudiedPack, Study};

use crate::Approved;
use crate::breaks::breaks;
use crate::recording::{ToRecord, to_record};
use crate::stage::{Standing, standings};
use crate::waiting::{Waiting, waiting};

/// What was found beside the puzzles.
#[derive(Clone, Debug, Default)]
pub struct Seen<'a> {
    /// The test solves, whatever puzzles they are of.
    pub solves: &'a [LoggedSolve],
    /// The logs of rehearsals and recordings.
    pub rehearsals: &'a [LoggedRehearsal],
    /// How many notes hang on the steps of which puzzle.
    pub notes: BTreeMap<String, usize>,
    /// The puzzles whose recordings have captions.
    pub captioned: BTreeSet<String>,
    /// Today; without it nothing with a day of release is out.
    pub today: Option<Day>,
}

/// Where every puzzle stands.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Season {
    /// The puzzles: first those that have a place, in order.
    pub rows: Vec<Row>,
    /// What to record, in the order in which to do it.
    pub to_record: Vec<ToRecord>,
}

/// Where one puzzle stands.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Row {
    /// The puzzle.
    pub id: PuzzleId,
    /// Its title.
    pub title: String,
    /// Who set it, as the files have it.
    pub setter: String,
    /// Whether it is sealed.
    pub is_sealed: bool,
    /// How it stands at each stage.
    pub standings: Vec<Standing>,
    /// Whether its setter has approved it as it is.
    pub approved: Approved,
    /// Who is waited for.
    pub waiting: Vec<Waiting>,
    /// What a change would break.
    pub breaks: Vec<String>,
    /// The day on which it is to be recorded.
    pub record: Option<Day>,
    /// The day on which the recording is to come out.
    pub release: Option<Day>,
}

impl Season {
    /// The season of a pack with what was found beside it.
    pub fn of(pack: &StudiedPack, seen: &Seen<'_>) -> Season {
        let rows: Vec<Row> = pack.all().map(|it| row(pack, it, seen)).collect();
        let to_record = to_record(pack, &rows);
        Season { rows, to_record }
    }
}

fn row(pack: &StudiedPack, study: &Study, seen: &Seen<'_>) -> Row {
    let entry = study.entry();
    let standings = standings(pack, study, seen);
    let approved = Approved::of(entry);
    Row {
        id: entry.id.clone(),
        title: entry.title.clone(),
        setter: entry.setter.clone(),
        is_sealed: study.is_sealed(),
        waiting: waiting(study, &standings, approved),
        breaks: breaks(study, seen, &standings, approved),
        standings,
        approved,
        record: entry.record,
        release: entry.release,
    }
}
