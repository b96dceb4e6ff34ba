//! The guide to techniques, `docs/techniques.md`: written from the registry, the words and one case of each
//! technique, and held to them. `UPDATE_CASES=1 cargo test -p tell guide` writes it anew.

use std::fmt::Write;

use grid::{Cell, CellSet, Digit, DigitSet, HouseKind, Size};
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

The words: a *house* is a row, a column or a box, a *line* a row or a column. A cell *sees* the others of its houses. Where
lines have clues, the *crusts* of a house are its 1 and its 9 (on another size, the largest digit), and all other digits
are *filling*. A clue is the sum of the digits *between* the crusts of its line; the other filling digits lie *outside*,
and a clue is *spent* once it is known which digits lie between.

Seconds are a rough estimate of how long it takes somebody who knows the technique to see one such step; they are not
yet calibrated.

In the examples clues stand above and to the left. Digits are on the board, `#` is a known crust, `-` is known to be
filling, `*` is a cell that the step says something new about, and `.` is any other cell. Where a cell is known to have
a few digits left they stand together, as in `27`; `x` is a cell that cannot hold the digit the example is about. What is
known beyond the page is step 1. A clue that the words do not speak of is there because without any clue there would be
no crusts.
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
    let board = Board::new(&case.puzzle, &case.known, &new);
    _ = write!(text, "```text\n{}```\n\n", board.drawn());
    let listed = case.known.iter().filter(|it| !board.shows(it));
    let listed: Vec<String> = listed.map(|it| tell::claim(case.puzzle.size(), it)).collect();
    if !listed.is_empty() {
        _ = writeln!(text, "Known: {}.\n", listed.join("; "));
    }
    let says = says(&case.puzzle, view.trail(), step);
    let lines: Vec<String> = says.lines().map(|it| format!("> {it}\n")).collect();
    *text += &lines.join(">\n");
}

fn small_arguments(view: &View) -> Vec<Proposal> {
    let Verdict::One(solution) = prove::verdict(view.puzzle(), Limit(1_000)) else {
        panic!("not one solution")
    };
    Arguments::new(&solution, Settings::THOROUGH.argument).find(view, |_| 0).into_iter().collect()
}

/// So many digits have room in a cell.
const FEW: usize = 3;

/// A board to be drawn in text.
struct Board<'a> {
    puzzle: &'a Puzzle,
    known: &'a [Claim],
    news: CellSet,
    /// The only digit that the other cells are known not to hold, if there is just one.
    digit: Option<Digit>,
}

impl<'a> Board<'a> {
    fn new(puzzle: &'a Puzzle, known: &'a [Claim], new: &[Claim]) -> Board<'a> {
        let news = new.iter().filter_map(Claim::cell).collect();
        let board = Board { puzzle, known, news, digit: None };
        let removed = known.iter().filter_map(|it| match *it {
            Claim::IsNot(cell, digit) if board.few(cell).is_none() => Some(digit),
            _ => None,
        });
        let removed: DigitSet = removed.collect();
        Board { digit: removed.single(), ..board }
    }

    /// Boxes apart, with the clues.
    fn drawn(&self) -> String {
        let size = self.puzzle.size();
        let value = |kind, number| {
            let line = size.house(kind, number).unwrap();
            self.puzzle.clue_at(&SANDWICH, line).map_or(String::new(), |it| it.1.value.to_string())
        };
        let clues: Vec<String> = (1..=size.side()).map(|it| value(HouseKind::Column, it)).collect();
        let mut text = String::new();
        if clues.iter().any(|it| !it.is_empty()) {
            row(&mut text, size, "", &clues);
        }
        for number in 1..=size.side() {
            let cells = size.cells_of(size.house(HouseKind::Row, number).unwrap());
            let cells: Vec<String> = cells.into_iter().map(|it| self.mark(it)).collect();
            row(&mut text, size, &value(HouseKind::Row, number), &cells);
            if number % size.box_height() == 0 && number < size.side() {
                text.push('\n');
            }
        }
        text
    }

    fn mark(&self, cell: Cell) -> String {
        let placed = self.known.iter().find_map(|it| match it {
            Claim::Is(at, digit) if *at == cell => Some(*digit),
            _ => None,
        });
        let knows = |claim| self.known.contains(&claim);
        match self.puzzle.givens().get(cell).or(placed) {
            Some(digit) => digit.to_string(),
            None if self.news.contains(cell) => "*".to_owned(),
            None if knows(Claim::Crust(cell)) => "#".to_owned(),
            None if knows(Claim::Filling(cell)) => "-".to_owned(),
            None => match self.few(cell) {
                Some(few) => few.iter().map(|it| it.to_string()).collect(),
                None if self.digit.is_some_and(|it| knows(Claim::IsNot(cell, it))) => "x".to_owned(),
                None => ".".to_owned(),
            },
        }
    }

    /// The digits that the removals known leave to the cell, if these are few.
    fn few(&self, cell: Cell) -> Option<DigitSet> {
        let all = self.puzzle.size().digits();
        let left: DigitSet = all.iter().filter(|it| !self.known.contains(&Claim::IsNot(cell, *it))).collect();
        (left.len() <= FEW && left != all).then_some(left)
    }

    /// Whether the drawing shows the fact.
    fn shows(&self, claim: &Claim) -> bool {
        match *claim {
            Claim::Is(..) => true,
            Claim::Crust(cell) => self.mark(cell) == "#",
            Claim::Filling(cell) => self.mark(cell) == "-",
            Claim::IsNot(cell, _) => {
                self.mark(cell) == "x" || (self.mark(cell) != "*" && self.few(cell).is_some())
            }
            _ => false,
        }
    }
}

/// A line of the board: the clue, and the cells with more room between boxes.
fn row(text: &mut String, size: Size, clue: &str, cells: &[String]) {
    let mut line = format!("{clue:>2}  ");
    for (at, cell) in (0..).zip(cells) {
        if at > 0 && at % size.box_width() == 0 {
            line.push_str("  ");
        }
        _ = write!(line, "{cell:>4}");
    }
    text.push_str(line.trim_end());
    text.push('\n');
}
