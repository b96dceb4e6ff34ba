//! Each technique by cases: `tests/data/<technique>/<case>.toml`.
//!
//! A case has a grid of givens (a character a cell, `.` for an empty one; spaces are for the eye), clues
//! as in a puzzle file, facts known beyond the page, and the steps that the technique of its folder
//! finds, each as its conclusions in short form (see `support/shorthand.rs`). Every conclusion has to
//! pass `replay`. `UPDATE_CASES=1 cargo test -p reason` writes the steps anew; judge each by hand before
//! keeping it.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use grid::{CellSet, Grid, House, HouseKind, Size};
use prove::{Limit, Verdict};
use reason::small_argument::Arguments;
use reason::{Settings, TECHNIQUES, Technique, View};
use replay::{Cap, Refusal, judge};
use rulebook::{Claim, Clue, Puzzle, Rule, SANDWICH};
use trail::{Argument, Cites, FactId, Proposal, TechniqueId};

use crate::support::shorthand;

/// What one conclusion may cost; those of techniques take a node or a few.
const CAP: Cap = Cap(2000);

/// What a case file says.
pub(crate) struct Case {
    path: PathBuf,
    text: String,
    puzzle: Puzzle,
    known: Vec<Claim>,
    /// The conclusions of each step.
    pub(crate) steps: Vec<Vec<String>>,
}

/// The cases of each technique, by the name of their folder.
pub(crate) fn all() -> BTreeMap<String, Vec<Case>> {
    let data = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data");
    let name = |it: &Path| it.file_name().unwrap().to_str().unwrap().to_owned();
    list(&data).iter().map(|it| (name(it), list(it).iter().map(|it| load(it)).collect())).collect()
}

#[test]
fn techniques_find_what_their_cases_say() {
    let mut faults = Vec::new();
    for (folder, cases) in all() {
        let all = TECHNIQUES.into_iter().chain([&SmallArgument as &dyn Technique]);
        let technique = all.into_iter().find(|it| it.id().name() == folder);
        let technique = technique.unwrap_or_else(|| panic!("{folder}: no technique of that name"));
        faults.extend(cases.iter().filter_map(|it| check(technique, it).err()));
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

/// The small argument, so that it can be tried like a technique. Its puzzles have one solution.
struct SmallArgument;

impl Technique for SmallArgument {
    fn id(&self) -> TechniqueId {
        TechniqueId::SMALL_ARGUMENT
    }

    fn weight(&self) -> u32 {
        u32::MAX
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let verdict = prove::verdict(view.puzzle(), Limit(1_000));
        let Verdict::One(solution) = verdict else { panic!("not one solution: {verdict:?}") };
        let effort = Settings::THOROUGH.argument;
        Arguments::new(&solution, effort).find(view, |_| 0).into_iter().collect()
    }
}

/// Whether the technique finds the case's steps and no others, and each is new and follows from what it
/// cites.
fn check(technique: &dyn Technique, case: &Case) -> Result<(), String> {
    let fault = |what: String| Err(format!("{}: {what}", case.path.display()));
    let mut view = View::new(&case.puzzle);
    if !case.known.is_empty() {
        view.take(given(&case.known)).unwrap();
    }
    let found = technique.find(&view);
    if technique.n_open(&view) != found.len() {
        return fault(format!("{} open, {} found", technique.n_open(&view), found.len()));
    }
    for proposal in &found {
        let mut after = view.clone();
        if let Err(error) = after.take(proposal.clone()) {
            return fault(error.to_string());
        }
        for (claim, cites) in &proposal.conclusions {
            let shown = shorthand::write(*claim);
            if let Err(refusal) = judge(&case.puzzle, view.trail(), claim, cites, CAP) {
                return fault(format!("{shown}: {refusal}"));
            }
            if contradict_each_other(&view, cites) {
                return fault(format!("{shown}: what it cites contradicts itself, so it shows nothing"));
            }
            if proposal.technique != technique.id() || !view.is_news(*claim) || after.is_news(*claim) {
                return fault(format!("{shown}: not news, or still news afterwards"));
            }
        }
        // A step that has been taken is not offered again.
        let taken = shown_step(proposal);
        if technique.find(&after).iter().any(|it| shown_step(it) == taken) {
            return fault(format!("{taken:?}: offered again"));
        }
    }

    let mut got: Vec<Vec<String>> = found.iter().map(shown_step).collect();
    got.sort();
    if std::env::var_os("UPDATE_CASES").is_some() {
        std::fs::write(&case.path, rewritten(case, &got)).unwrap();
    }
    match got == case.steps {
        true => Ok(()),
        false => fault(format!("\n--- expected\n{:#?}\n--- got\n{got:#?}", case.steps)),
    }
}

/// The facts of a case as a step that cites nothing.
fn given(known: &[Claim]) -> Proposal {
    let conclusions = known.iter().map(|it| (*it, Cites::default())).collect();
    let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
    Proposal { technique: TechniqueId::new("test-given"), argument, conclusions }
}

/// Whether not even a plain falsehood can be refuted from the citations.
fn contradict_each_other(view: &View, cites: &Cites) -> bool {
    let size = view.size();
    let of_fact = |it: &FactId| view.trail().fact(*it).claim();
    let of_clue = |it| Some(view.puzzle().clue(it)?.line);
    let house = (cites.houses.first().copied())
        .or(cites.clues.first().and_then(|it| of_clue(*it)))
        .or(cites.facts.iter().find_map(|it| of_fact(it).house()))
        .or(cites.facts.iter().find_map(|it| Some(size.houses_of(of_fact(it).cell()?)[0])));
    let falsehood = house.map(|house| Claim::CrustAmong { house, cells: CellSet::EMPTY });
    let judged = falsehood.map(|it| judge(view.puzzle(), view.trail(), &it, cites, Cap(100_000)));
    !matches!(judged, Some(Err(Refusal::Counterexample(_))))
}

fn shown_step(proposal: &Proposal) -> Vec<String> {
    let mut shown: Vec<String> = proposal.conclusions.iter().map(|it| shorthand::write(it.0)).collect();
    shown.sort();
    shown
}

/// The case's text with other steps, which come last in it.
fn rewritten(case: &Case, steps: &[Vec<String>]) -> String {
    let (before, _) = case.text.split_once("steps = ").unwrap();
    let line = |step: &Vec<String>| {
        let shown: Vec<String> = step.iter().map(|it| format!("\"{it}\"")).collect();
        match shown.iter().map(|it| it.len() + 2).sum::<usize>() < 100 {
            true => format!("    [{}],\n", shown.join(", ")),
            false => format!("    [\n        {},\n    ],\n", shown.join(",\n        ")),
        }
    };
    match steps {
        [] => format!("{before}steps = []\n"),
        steps => format!("{before}steps = [\n{}]\n", steps.iter().map(line).collect::<String>()),
    }
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
    if let Some(unknown) = table.keys().next() {
        return Err(format!("unknown key: {unknown}"));
    }
    Ok(Case {
        path: path.to_owned(),
        text: text.to_owned(),
        puzzle: Puzzle::new(givens, clues),
        known,
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

/// The short form is read back as it was written.
#[test]
fn the_short_form_says_what_it_is_given() {
    let texts = [
        "r1c2 is 5",
        "r1c4 not 7",
        "r1c4 crust",
        "r1c2 filling",
        "row 4 cells 3-5",
        "column 4 spent 2 3 8",
        "row 4 spent",
        "row 4 has 5 in r4c1 r4c2",
        "box 1 crust in r1c1 r3c2",
    ];
    for text in texts {
        assert_eq!(shorthand::read(Size::NINE, text).map(shorthand::write).as_deref(), Ok(text));
    }
    for text in ["r1c10 is 5", "r1c1 is 10", "row 4 cells 3", "row 4", "line 4 spent", "r1c1 is  5"] {
        assert!(shorthand::read(Size::NINE, text).is_err(), "{text}");
    }
}
