//! The case files of techniques, read: `tests/data/<technique>/<case>.toml`.
//!
//! `cases` says what is in them and tries them; the guide to techniques, which `tell` writes, shows one of
//! each folder: the case with `example = true`.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use grid::{Grid, House, HouseKind, Size};
use rulebook::{Claim, Clue, Puzzle, Rule, SANDWICH};

use super::shorthand;

/// What a case file says.
pub(crate) struct Case {
    pub(crate) path: PathBuf,
    pub(crate) text: String,
    pub(crate) puzzle: Puzzle,
    pub(crate) known: Vec<Claim>,
    /// Whether it is the one that the guide to techniques shows.
    pub(crate) is_example: bool,
    /// The conclusions of each step.
    pub(crate) steps: Vec<Vec<String>>,
}

/// The cases of each technique, by the name of their folder.
pub(crate) fn all() -> BTreeMap<String, Vec<Case>> {
    let data = Path::new(env!("CARGO_MANIFEST_DIR")).join("../reason/tests/data");
    let name = |it: &Path| it.file_name().unwrap().to_str().unwrap().to_owned();
    list(&data).iter().map(|it| (name(it), list(it).iter().map(|it| load(it)).collect())).collect()
}

fn list(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap_or_else(|it| panic!("{}: {it}", folder.display()));
    let mut paths: Vec<PathBuf> = entries.map(|it| it.unwrap().path()).collect();
    paths.sort();
    paths
}

fn load(path: &Path) -> Case {
    let text = std::fs::read_to_string(path).unwrap();
    parse(path, &text).unwrap_or_else(|it| panic!("{}: {it}", path.display()))
}

fn parse(path: &Path, text: &str) -> Result<Case, String> {
    if !text.starts_with("# ") {
        return Err("it does not say why it is there".to_owned());
    }
    let mut table: toml::Table = toml::from_str(text).map_err(|it| it.to_string())?;
    let mut take = |key: &str| table.remove(key);
    let grid = take("grid").ok_or("no grid")?;
    let grid: String = grid.as_str().ok_or("the grid is no text")?.split(' ').collect();
    let givens = Grid::from_line(&grid).map_err(|it| format!("{it:?}"))?;
    let size = givens.size();
    let mut clues = Vec::new();
    for (key, kind) in [("rows", HouseKind::Row), ("columns", HouseKind::Column)] {
        if let Some(values) = take(key) {
            clues.extend(read_clues(size, kind, values.as_str().ok_or("clues are no text")?)?);
        }
    }
    let known = take("known").map_or(Ok(Vec::new()), |it| strings(&it))?;
    let steps = take("steps").ok_or("no steps")?;
    let steps = steps.as_array().ok_or("steps are no list")?.iter().map(strings).collect::<Result<_, _>>()?;
    let known = known.iter().map(|it| shorthand::read(size, it)).collect::<Result<_, _>>()?;
    let is_example = take("example").is_some_and(|it| it.as_bool() == Some(true));
    if let Some(unknown) = table.keys().next() {
        return Err(format!("unknown key: {unknown}"));
    }
    Ok(Case {
        path: path.to_owned(),
        text: text.to_owned(),
        puzzle: Puzzle::new(givens, clues),
        known,
        is_example,
        steps,
    })
}

fn strings(value: &toml::Value) -> Result<Vec<String>, String> {
    let items = value.as_array().ok_or("no list")?.iter();
    items.map(|it| Ok(it.as_str().ok_or("no text")?.to_owned())).collect()
}

fn read_clues(size: Size, kind: HouseKind, values: &str) -> Result<Vec<Clue>, String> {
    let values: Vec<&str> = values.split_whitespace().collect();
    if values.len() != usize::from(size.side()) {
        return Err(format!("{} clues beside {size} lines", values.len()));
    }
    let mut clues = Vec::new();
    for (number, value) in (1..).zip(values).filter(|it| it.1 != ".") {
        let line: House = size.house(kind, number).ok_or("no such line")?;
        let value = value.parse().map_err(|it| format!("{value}: {it}"))?;
        if !SANDWICH.reachable(size).contains(&value) {
            return Err(format!("no line has the sum {value}"));
        }
        clues.push(Clue { rule: &SANDWICH, line, value });
    }
    Ok(clues)
}
