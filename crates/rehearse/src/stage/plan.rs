//! The walkthrough as the stage's scripts read it; `stage/plan.js` says what each part is for.

use std::collections::BTreeMap;

use draw::{Board, Scale};
use grid::{Cell, Digit, House, HouseKind, Size};
use pack::Entry;
use rulebook::Claim;
use serde::Serialize;
use trail::{StepId, Trail};

use crate::introductions::Introduction;
use crate::{Cue, Plan, Setting};

#[derive(Serialize)]
struct Data<'a> {
    format: u8,
    /// What is said before the first step.
    opening: Said<'a>,
    passages: Vec<DataPassage<'a>>,
    steps: Vec<DataStep<'a>>,
    /// What is said after the last.
    close: Said<'a>,
    /// Seconds, as are all times.
    total: f64,
    target: Option<f64>,
    /// How hard the techniques are to see, by name.
    weights: BTreeMap<&'static str, u32>,
}

#[derive(Serialize)]
struct Said<'a> {
    lines: Vec<&'a str>,
    takes: f64,
}

#[derive(Serialize)]
struct DataPassage<'a> {
    title: &'a str,
    /// The number of its first step.
    first: usize,
    starts: f64,
    takes: f64,
}

/// A step, what is to be kept in mind with it, and what it puts on the board.
#[derive(Serialize)]
struct DataStep<'a> {
    key: &'a str,
    technique: &'static str,
    name: &'static str,
    says: &'a str,
    note: Option<&'a str>,
    /// What its technique is, line by line, where it is new.
    introduces: Vec<&'a str>,
    /// Why viewers may stumble.
    stumbles: Vec<&'a str>,
    /// What to ask them first.
    asks: Vec<&'a str>,
    starts: f64,
    takes: f64,
    /// Cell and digit.
    ink: Vec<(usize, u8)>,
    /// Cell and the id of its mark.
    marks: Vec<(usize, &'static str)>,
    /// Cell and digit that is removed.
    without: Vec<(usize, u8)>,
    /// Rows, then columns, whose clues are spent.
    spent: Vec<usize>,
    /// Cells in which the picture has small digits.
    small: Vec<usize>,
    /// What the picture of the board has more below it and above it.
    below: String,
    above: String,
}

/// The plan, as JSON that can stand in a script element.
pub(super) fn data(setting: &Setting, plan: &Plan) -> String {
    let script = &plan.script;
    let mut passages = Vec::new();
    let mut steps = Vec::new();
    for passage in &script.passages {
        passages.push(DataPassage {
            title: &passage.title,
            first: passage.cues.first().map_or(0, |it| it.step.number()),
            starts: passage.starts.as_seconds(),
            takes: passage.takes.as_seconds(),
        });
        let mut starts = passage.starts;
        for cue in &passage.cues {
            steps.push(DataStep { starts: starts.as_seconds(), ..step(setting, plan, cue) });
            starts = starts + cue.takes;
        }
    }
    let data = Data {
        format: 1,
        opening: Said { lines: script.opening_lines().collect(), takes: script.opening.as_seconds() },
        passages,
        steps,
        close: Said { lines: vec![&script.close], takes: script.closing.as_seconds() },
        total: script.total().as_seconds(),
        target: plan.target.map(captions::Time::as_seconds),
        weights: reason::TECHNIQUES.iter().map(|it| (it.id().name(), it.weight())).collect(),
    };
    let json = serde_json::to_string(&data).unwrap_or_else(|it| unreachable!("plain data: {it}"));
    // No text of a pack may end the element that holds this.
    json.replace('<', "\\u003c")
}

fn step<'a>(setting: &Setting, plan: &'a Plan, cue: &'a Cue) -> DataStep<'a> {
    let entry = setting.study.entry();
    let size = entry.puzzle.size();
    let trail = setting.account.explained.walkthrough().trail();
    let claims = || trail.step(cue.step).concludes().iter().map(|it| trail.fact(*it).claim());
    let (small, [below, above]) = picture(entry, trail, cue.step);
    let introduced = plan.introductions.iter().filter(|it| it.step == cue.step);
    DataStep {
        key: &cue.key,
        technique: cue.technique.name(),
        name: tell::technique_name(cue.technique),
        says: &cue.says,
        note: cue.note.as_deref(),
        introduces: introduced.flat_map(lines).collect(),
        stumbles: plan.stumbles.iter().filter(|it| it.step == cue.step).map(|it| &*it.why).collect(),
        asks: plan.questions.iter().filter(|it| it.step == Some(cue.step)).map(|it| &*it.asks).collect(),
        starts: 0.0,
        takes: cue.takes.as_seconds(),
        ink: claims().filter_map(|it| is(size, it)).collect(),
        marks: claims().filter_map(|it| marked(size, it)).collect(),
        without: claims().filter_map(|it| without(size, it)).collect(),
        spent: claims().filter_map(|it| spent(size, it)).collect(),
        small,
        below,
        above,
    }
}

fn lines(it: &Introduction) -> impl Iterator<Item = &str> {
    [&*it.says].into_iter().chain(it.figures.iter().map(|it| &**it))
}

/// The cells with small digits, and what the step points at.
fn picture(entry: &Entry, trail: &Trail, step: StepId) -> (Vec<usize>, [String; 2]) {
    let size = entry.puzzle.size();
    let (digits, marks) = draw::marks_for(&entry.puzzle, trail, &[step]);
    let board = Board {
        puzzle: &entry.puzzle,
        digits: &digits,
        marks: &marks,
        title: "",
        scale: Scale::Large,
        coordinates: true,
    };
    let draw::Pointing { below, above } = draw::pointing(&board);
    let has_small = |it: &Cell| marks.pencilled.contains_key(it) || marks.removed.contains_key(it);
    let open = size.cells().filter(|it| digits.get(*it).is_none());
    (open.filter(has_small).map(|it| size.index(it)).collect(), [below, above])
}

fn is(size: Size, claim: Claim) -> Option<(usize, u8)> {
    let Claim::Is(cell, digit) = claim else { return None };
    Some((size.index(cell), Digit::get(digit)))
}

fn without(size: Size, claim: Claim) -> Option<(usize, u8)> {
    let Claim::IsNot(cell, digit) = claim else { return None };
    Some((size.index(cell), Digit::get(digit)))
}

fn marked(size: Size, claim: Claim) -> Option<(usize, &'static str)> {
    match claim {
        Claim::Crust(cell) => Some((size.index(cell), "crust")),
        Claim::Filling(cell) => Some((size.index(cell), "filling")),
        _ => None,
    }
}

fn spent(size: Size, claim: Claim) -> Option<usize> {
    let Claim::Spent { line, .. } = claim else { return None };
    Some(place(size, line))
}

/// Rows from the top, then columns from the left.
fn place(size: Size, line: House) -> usize {
    let first = if line.kind() == HouseKind::Row { 0 } else { usize::from(size.side()) };
    first + usize::from(line.number()) - 1
}
