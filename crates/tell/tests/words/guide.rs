//! The guide to techniques, `docs/techniques.md`: written from the registry, the words and one case of each
//! technique, and held to them. `UPDATE_CASES=1 cargo test -p tell guide` writes it anew.

use std::fmt::Write;

use grid::{Cell, CellSet, HouseKind, Size};
use prove::{Limit, Verdict};
use reason::small_argument::Arguments;
use reason::{Settings, TECHNIQUES, Technique, View};
use rulebook::{Claim, Puzzle, SANDWICH};
use tell::{capital, says, technique_description, technique_name};
use trail::{Argument, Cites, Proposal, TechniqueId};

use crate::case_file::{self, Case};

const GUIDE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/techniques.md");

const OPENING: &str = "\
# Techniques

Every technique that a walkthrough can use, easiest first, with what is to be understood before it and an example. This
page is written by a test (`UPDATE_CASES=1 cargo test -p tell guide`) from the registry of techniques, their words and
their cases, so it is what the program does.

Seconds are a rough estimate of how long it takes somebody who knows the technique to see one such step; they are not
yet calibrated.

In the examples clues stand above and to the left. Digits are on the board, `#` is a known crust, `-` is known to be
filling, `*` is a cell that the step says something new about, and `.` is any other cell. What else is known is listed
as step 1.
";

#[test]
fn the_guide_shows_every_technique() {
    let mut cases = case_file::all();
    let mut got = OPENING.to_owned();
    for it in TECHNIQUES {
        let of_it = cases.remove(it.id().name()).unwrap();
        let example = of_it.iter().find(|it| it.is_example).unwrap();
        heading(&mut got, it.id());
        facts(&mut got, it);
        shown(&mut got, example, |view| it.find(view));
    }
    let id = TechniqueId::SMALL_ARGUMENT;
    let of_it = cases.remove(id.name()).unwrap();
    heading(&mut got, id);
    got += "- No technique: it is taken where none of those above leads on.\n\n";
    shown(&mut got, of_it.iter().find(|it| it.is_example).unwrap(), small_arguments);
    assert!(cases.is_empty(), "no technique has these: {:?}", cases.keys());

    if std::env::var_os("UPDATE_CASES").is_some() {
        std::fs::write(GUIDE, &got).unwrap();
    }
    let expected = std::fs::read_to_string(GUIDE).unwrap();
    for (got, expected) in got.split("\n## ").zip(expected.split("\n## ")) {
        assert_eq!(got, expected, "\n--- expected\n{expected}\n--- got\n{got}\n");
    }
    assert_eq!(got, expected, "docs/techniques.md lacks a technique, or has one too many");
}

fn heading(text: &mut String, id: TechniqueId) {
    _ = writeln!(text, "\n## {}\n\n{}\n", capital(technique_name(id)), technique_description(id));
}

/// What is to be understood first, and the seconds.
fn facts(text: &mut String, it: &dyn Technique) {
    // The address of a heading is its text with hyphens for spaces.
    let link = |id: &TechniqueId| {
        let name = technique_name(*id);
        format!("[{name}](#{})", name.to_lowercase().replace(' ', "-"))
    };
    let first: Vec<String> = it.prerequisites().iter().map(link).collect();
    let first = if first.is_empty() { "nothing but the rules".to_owned() } else { first.join(", ") };
    _ = writeln!(text, "- Understand first: {first}.\n- About {} seconds.\n", it.weight());
}

/// The case's board with the first step that is found on it, and that step in words.
fn shown(text: &mut String, case: &Case, find: impl Fn(&View) -> Vec<Proposal>) {
    let mut view = View::new(&case.puzzle);
    if !case.known.is_empty() {
        let conclusions = case.known.iter().map(|it| (*it, Cites::default())).collect();
        let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
        view.take(Proposal { technique: TechniqueId::new("by-hand"), argument, conclusions }).unwrap();
    }
    let found = find(&view).into_iter().next().unwrap();
    let new: Vec<Claim> = found.conclusions.iter().map(|it| it.0).collect();
    let step = view.take(found).unwrap();
    _ = write!(text, "```text\n{}```\n\n", board(&case.puzzle, &case.known, &new));
    let listed: Vec<String> =
        case.known.iter().filter(|it| !is_drawn(it)).map(|it| tell::claim(case.puzzle.size(), it)).collect();
    if !listed.is_empty() {
        _ = writeln!(text, "Known: {}.\n", listed.join("; "));
    }
    for line in says(&case.puzzle, view.trail(), step).lines() {
        _ = writeln!(text, "> {line}");
    }
}

/// Whether the board shows the fact.
fn is_drawn(claim: &Claim) -> bool {
    matches!(claim, Claim::Is(..) | Claim::Crust(_) | Claim::Filling(_))
}

fn small_arguments(view: &View) -> Vec<Proposal> {
    let Verdict::One(solution) = prove::verdict(view.puzzle(), Limit(1_000)) else {
        panic!("not one solution")
    };
    Arguments::new(&solution, Settings::THOROUGH.argument).find(view, |_| 0).into_iter().collect()
}

/// The board in text, boxes apart, with the clues.
fn board(puzzle: &Puzzle, known: &[Claim], new: &[Claim]) -> String {
    let size = puzzle.size();
    let news: CellSet = new.iter().filter_map(Claim::cell).collect();
    let value = |kind, number| {
        let line = size.house(kind, number).unwrap();
        puzzle.clue_at(&SANDWICH, line).map_or(String::new(), |it| it.1.value.to_string())
    };
    let clues: Vec<String> = (1..=size.side()).map(|it| value(HouseKind::Column, it)).collect();
    let mut text = String::new();
    if clues.iter().any(|it| !it.is_empty()) {
        row(&mut text, size, "", &clues);
    }
    for number in 1..=size.side() {
        let cells = size.cells_of(size.house(HouseKind::Row, number).unwrap());
        let cells: Vec<String> =
            cells.into_iter().map(|it| drawn(puzzle, known, news, it).to_string()).collect();
        row(&mut text, size, &value(HouseKind::Row, number), &cells);
        if number % size.box_height() == 0 && number < size.side() {
            text.push('\n');
        }
    }
    text
}

/// A line of the board: the clue, and the cells with more room between boxes.
fn row(text: &mut String, size: Size, clue: &str, cells: &[String]) {
    let mut line = format!("{clue:>2}  ");
    for (at, cell) in (0..).zip(cells) {
        if at > 0 && at % size.box_width() == 0 {
            line.push_str("  ");
        }
        _ = write!(line, "{cell:>3}");
    }
    text.push_str(line.trim_end());
    text.push('\n');
}

fn drawn(puzzle: &Puzzle, known: &[Claim], news: CellSet, cell: Cell) -> String {
    let placed = known.iter().find_map(|it| match it {
        Claim::Is(at, digit) if *at == cell => Some(*digit),
        _ => None,
    });
    match puzzle.givens().get(cell).or(placed) {
        Some(digit) => digit.to_string(),
        None if news.contains(cell) => "*".to_owned(),
        None if known.contains(&Claim::Crust(cell)) => "#".to_owned(),
        None if known.contains(&Claim::Filling(cell)) => "-".to_owned(),
        None => ".".to_owned(),
    }
}
