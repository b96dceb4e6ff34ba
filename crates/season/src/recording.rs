//! What to record next. The order of recording is rarely the order of the pack: what can no longer change comes first,
//! and what waits for somebody last.

use std::cmp::Reverse;

use pack::{PuzzleId, Said};
use study::{Finding, StudiedPack};

use crate::{Approved, Reached, Row, Stage};

/// A puzzle to record, and why it stands where it stands.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ToRecord {
    /// The puzzle.
    pub id: PuzzleId,
    /// Its title.
    pub title: String,
    /// Why now, or why not yet.
    pub says: String,
}

/// The puzzles that have a place, are sound and are not recorded as they are, in the order in which to record them.
///
/// First those whose setter has approved them, which nothing but the editor can change any more; among these the
/// one with the earliest planned day, then the one that has most behind it, then one whose place is held by a pin or by
/// what recordings say, for that place will stay. What is left is as the pack has it.
pub(crate) fn to_record(pack: &StudiedPack, rows: &[Row]) -> Vec<ToRecord> {
    let mut candidates: Vec<(usize, &Row)> = (pack.studies().iter().enumerate())
        .filter(|(_, it)| it.finding() == Finding::One)
        .filter_map(|(at, it)| Some((at, rows.iter().find(|row| row.id == it.entry().id)?)))
        .filter(|(_, row)| !has(row, Stage::Recorded))
        .collect();
    let key = |(at, row): &(usize, &Row)| {
        let is_stalled = !matches!(row.approved, Approved::Yes(_));
        let is_unplanned = row.record.is_none();
        let is_held = held_by(pack, &row.id).is_some();
        (is_stalled, is_unplanned, row.record, Reverse(behind(row).len()), !is_held, *at)
    };
    candidates.sort_by_key(key);
    let told = |(_, row): (usize, &Row)| ToRecord {
        id: row.id.clone(),
        title: row.title.clone(),
        says: reason(pack, row),
    };
    candidates.into_iter().map(told).collect()
}

fn has(row: &Row, stage: Stage) -> bool {
    row.standings.iter().any(|it| it.stage == stage && it.reached == Reached::Yes)
}

/// What has been done of what comes before a recording.
fn behind(row: &Row) -> Vec<&'static str> {
    let stages = [Stage::TestSolved, Stage::Placed, Stage::Rehearsed];
    stages.into_iter().filter(|it| has(row, *it)).map(Stage::name).collect()
}

/// What holds a puzzle's place.
fn held_by(pack: &StudiedPack, id: &PuzzleId) -> Option<&'static str> {
    if pack.info().pins.contains_key(id) {
        return Some("its place is pinned");
    }
    let names = |it: &Said| matches!(it, Said::After(other) | Said::Before(other) | Said::RightAfter(other) if other == id);
    let is_told = |it: &study::Study| {
        let entry = it.entry();
        (entry.id == *id && !entry.said.is_empty()) || entry.said.iter().any(names)
    };
    pack.all().any(is_told).then_some("recordings speak of its place")
}

fn reason(pack: &StudiedPack, row: &Row) -> String {
    let mut done = behind(row);
    let waits = match row.approved {
        Approved::Yes(_) => {
            done.insert(0, "approved");
            None
        }
        Approved::No => Some("it waits for its setter's approval"),
        Approved::Outdated(_) => Some("it has changed since its setter approved it"),
    };
    let missing = [Stage::TestSolved, Stage::Placed, Stage::Rehearsed];
    let missing: Vec<&str> = missing.into_iter().filter(|it| !has(row, *it)).map(Stage::name).collect();
    let mut parts = Vec::new();
    parts.extend(waits.map(str::to_owned));
    parts.extend(row.record.map(|it| format!("planned for {}", tell::day(it))));
    if !done.is_empty() {
        parts.push(tell::list(&done));
    }
    if !missing.is_empty() {
        parts.push(format!("not yet {}", missing.join(" or ")));
    }
    parts.extend(held_by(pack, &row.id).map(str::to_owned));
    if row.is_sealed {
        parts.push("sealed, so that it can be recorded cold".to_owned());
    }
    format!("{}.", tell::capital(&parts.join("; ")))
}
