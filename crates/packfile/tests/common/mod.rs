//! Entries of every shape that a puzzle file can have, for properties, and cases that lie in files.
#![allow(dead_code, reason = "each test file uses a part of it")]

use std::path::Path;

use grid::{Digit, Grid, HouseKind, Size};
use pack::{Entry, PuzzleId, SAID_PLAINLY, Said, State};
use packfile::SourceFile;
use proptest::prelude::*;
use reason::TECHNIQUES;
use rulebook::{Clue, Puzzle, RULES};
use trail::TechniqueId;

/// A text for one line: not blank, no control characters.
pub(crate) fn line() -> impl Strategy<Value = String> {
    "\\PC{1,30}".prop_filter("blank", |it| !it.trim().is_empty() && !it.chars().any(char::is_control))
}

fn size() -> impl Strategy<Value = Size> {
    let shapes = (2u8..=8).flat_map(|width| (2u8..=8).filter_map(move |height| Size::new(width, height)));
    prop::sample::select(shapes.collect::<Vec<Size>>())
}

/// Some of the cells of a full grid, the same up to the names of the digits for all of one size.
fn givens(size: Size) -> impl Strategy<Value = Grid> {
    let (side, width, height) = (size.side(), size.box_width(), size.box_height());
    let names = Just((1..=side).collect::<Vec<u8>>()).prop_shuffle();
    let shown = prop::collection::vec(prop::bool::weighted(0.3), size.n_cells());
    (names, shown).prop_map(move |(names, shown)| {
        Grid::from_fn(size, |cell| {
            let (row, column) = (cell.row() - 1, cell.column() - 1);
            let place = (width * (row % height) + row / height + column) % side;
            shown[size.index(cell)].then(|| Digit::new(names[usize::from(place)])).flatten()
        })
    })
}

fn clues(size: Size) -> impl Strategy<Value = Vec<Clue>> {
    let lines: Vec<_> = [HouseKind::Row, HouseKind::Column]
        .into_iter()
        .flat_map(|kind| (1..=size.side()).filter_map(move |number| size.house(kind, number)))
        .collect();
    let one_rule = RULES.map(move |rule| {
        let value = prop::option::of(prop::sample::select(rule.reachable(size)));
        let lines = lines.clone();
        prop::collection::vec(value, lines.len()).prop_map(move |values| {
            let clues = lines.iter().zip(values);
            clues.filter_map(|(&line, value)| Some(Clue { rule, line, value: value? })).collect::<Vec<Clue>>()
        })
    });
    one_rule.prop_map(|it| it.into_iter().flatten().collect())
}

/// Any entry that a file can hold.
pub(crate) fn entry() -> impl Strategy<Value = Entry> {
    let puzzle = size().prop_flat_map(|size| (givens(size), clues(size)));
    let texts = (line(), line(), prop::option::of(line()), prop::option::of(any::<String>()));
    let intends = prop::collection::btree_set(line(), 0..3);
    (id(), texts, intends, any::<bool>(), plans(), puzzle).prop_map(
        |(id, (title, setter, permission, note), intends, sealed, plans, (givens, clues))| {
            let (shelf, state, reason, features, said) = plans;
            Entry {
                permission,
                intends: intends.into_iter().collect(),
                sealed,
                note,
                shelf,
                state,
                reason,
                features,
                said,
                ..Entry::new(id, title, setter, Puzzle::new(givens, clues))
            }
        },
    )
}

fn id() -> impl Strategy<Value = PuzzleId> {
    "[a-z0-9-]{1,12}".prop_filter_map("id", |it| PuzzleId::new(&it))
}

type Plans = (Option<String>, State, Option<String>, Option<TechniqueId>, Vec<Said>);

/// What a file may say of the puzzle's place.
fn plans() -> impl Strategy<Value = Plans> {
    let states = [State::Undecided, State::In, State::Pool, State::Later, State::Declined];
    let technique = || prop::sample::select(TECHNIQUES.map(|it| it.id()).to_vec());
    let said = prop_oneof![
        prop::sample::select(SAID_PLAINLY.map(|it| it.1).to_vec()),
        (1..100usize).prop_map(Said::Number),
        id().prop_map(Said::After),
        id().prop_map(Said::Before),
        id().prop_map(Said::RightAfter),
        technique().prop_map(Said::FirstWith),
    ];
    let said = prop::collection::vec(said, 0..3);
    let text = || prop::option::of(line());
    (text(), prop::sample::select(states.to_vec()), text(), prop::option::of(technique()), said)
}

/// Compares what `shown` makes of each `.json` file of a folder in `tests/data` with the `.problems` beside it, or
/// writes that.
pub(crate) fn cases(folder: &str, shown: impl Fn(&SourceFile) -> String) {
    cases_ending(folder, "json", shown);
}

/// The same for files that end otherwise.
pub(crate) fn cases_ending(folder: &str, ending: &str, shown: impl Fn(&SourceFile) -> String) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(folder);
    let paths = std::fs::read_dir(&folder).unwrap().map(|it| it.unwrap().path());
    let mut paths: Vec<_> = paths.filter(|it| it.extension().is_some_and(|it| it == ending)).collect();
    paths.sort();
    assert!(!paths.is_empty());
    let mut differences = Vec::new();
    for path in paths {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let got = shown(&SourceFile::new(name, std::fs::read(&path).unwrap()));
        let expected_at = path.with_extension("problems");
        if std::env::var_os("UPDATE_CASES").is_some() {
            std::fs::write(&expected_at, &got).unwrap();
        }
        let expected = std::fs::read_to_string(&expected_at).unwrap_or_default();
        if expected != got {
            differences.push(format!("{}\n--- expected\n{expected}--- got\n{got}", expected_at.display()));
        }
    }
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}
