//! Textbook positions: what a technique's definition asks for, what it concludes there, and a near miss.
//!
//! `tests/textbook/positions.toml` holds them, each with its source. The technique, asked alone, finds exactly
//! what the definition concludes; with one candidate more, or one digit less, it finds nothing. BatSat, a
//! general SAT solver told nothing but the rules of the board, says that all of it follows in the position, and that it
//! would be wrong in the near miss.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use batsat::{BasicSolver, Lit, SolverInterface, lbool};
use grid::{Cell, CellSet, Digit, DigitSet, Grid, Size};
use reason::{TECHNIQUES, View};
use rulebook::{Claim, Puzzle};
use trail::{Argument, Cites, Proposal, TechniqueId};

const SIZE: Size = Size::NINE;

#[test]
fn textbook_positions_give_what_the_textbook_says_and_near_misses_nothing() {
    let mut rules = Rules::new();
    let mut tried = BTreeSet::new();
    for it in positions() {
        let name = format!("{}, {}", it.technique, it.source);
        let position = Position::of(&it.shows);
        let gives: BTreeSet<String> = it.gives.iter().flat_map(|it| claims(it)).map(shown).collect();
        assert_eq!(position.found(&it.technique), gives, "{name}");
        assert!(rules.allow(&position, None), "{name}: no board is like that");
        for claim in it.gives.iter().flat_map(|it| claims(it)) {
            assert!(!rules.allow(&position, Some(claim)), "{name}: {claim:?} need not be");
        }

        let miss = position.but_for(&it.near_miss);
        let found = miss.found(&it.technique);
        assert!(found.is_empty(), "{name}: {} makes no difference: {found:?}", it.near_miss);
        let wrong = claims(&it.wrong);
        assert!(wrong.len() == 1 && gives.contains(&shown(wrong[0])), "{name}: {}", it.wrong);
        assert!(rules.allow(&miss, Some(wrong[0])), "{name}: {} would still be right", it.wrong);
        tried.insert(it.technique);
    }
    // Every technique that finds something where there is no clue has one.
    let cases = crate::support::case_file::all();
    let needs_no_clue = |technique: &str| {
        let found = cases[technique].iter().filter(|it| !it.steps.is_empty());
        found.clone().any(|it| it.puzzle.clues().is_empty() && it.known.iter().all(|it| it.house().is_none()))
    };
    let all = TECHNIQUES.iter().map(|it| it.id().name());
    let missing: Vec<&str> = all.filter(|it| needs_no_clue(it) && !tried.contains(*it)).collect();
    assert!(missing.is_empty() && tried.len() >= 24, "{missing:?}, {}", tried.len());
}

/// One table of the file.
struct Textbook {
    technique: String,
    source: String,
    shows: Vec<String>,
    gives: Vec<String>,
    near_miss: String,
    wrong: String,
}

fn positions() -> Vec<Textbook> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/textbook/positions.toml");
    let file: toml::Table = toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let read = |table: &toml::Value| {
        let table = table.as_table().unwrap();
        let text = |key: &str| table[key].as_str().unwrap_or_else(|| panic!("{key} is no text")).to_owned();
        let texts = |key: &str| {
            let items = table[key].as_array().unwrap_or_else(|| panic!("{key} is no list")).iter();
            items.map(|it| it.as_str().unwrap().to_owned()).collect::<Vec<_>>()
        };
        assert_eq!(table.len(), 6, "{table:?}");
        Textbook {
            technique: text("technique"),
            source: text("source"),
            shows: texts("shows"),
            gives: texts("gives"),
            near_miss: text("near_miss"),
            wrong: text("wrong"),
        }
    };
    file["position"].as_array().unwrap().iter().map(read).collect()
}

/// The digits that stand on the board, and what else the cells are left with.
#[derive(Clone, Default)]
struct Position {
    placed: BTreeMap<Cell, Digit>,
    lacks: BTreeMap<Cell, DigitSet>,
}

impl Position {
    fn of(shows: &[String]) -> Position {
        let mut position = Position::default();
        shows.iter().for_each(|it| position.show(it));
        position
    }

    fn show(&mut self, text: &str) {
        let words: Vec<&str> = text.split(' ').collect();
        match words[..] {
            [at, "is", value] => _ = self.placed.insert(cell(at), digit(value)),
            [kind, number, "has", value, "at", ref places @ ..] => {
                let house = SIZE.houses().find(|it| it.to_string() == format!("{kind} {number}")).unwrap();
                let places: CellSet = places.iter().map(|it| cell(it)).collect();
                let others = SIZE.cells_of(house).into_iter().filter(|it| !places.contains(*it));
                others.for_each(|it| self.take_away(it, DigitSet::only(digit(value))));
            }
            _ => {
                let (of, left) = text.split_once(" hold ").unwrap_or_else(|| panic!("what is {text}?"));
                let left: DigitSet = left.split(' ').map(digit).collect();
                of.split(' ').for_each(|it| self.take_away(cell(it), SIZE.digits() - left));
            }
        }
    }

    fn take_away(&mut self, from: Cell, digits: DigitSet) {
        let lacks = self.lacks.entry(from).or_default();
        *lacks = *lacks | digits;
    }

    /// With one candidate more, `r2c5 can be 4`, or one digit less, `r5c1 is empty`.
    fn but_for(&self, change: &str) -> Position {
        let mut position = self.clone();
        match change.split(' ').collect::<Vec<_>>()[..] {
            [at, "is", "empty"] => assert!(position.placed.remove(&cell(at)).is_some(), "{change}"),
            [at, "can", "be", value] => {
                let lacks = position.lacks.get_mut(&cell(at)).filter(|it| it.contains(digit(value)));
                let lacks = lacks.unwrap_or_else(|| panic!("{change} anyhow"));
                *lacks = lacks.without(digit(value));
            }
            _ => panic!("what is {change}?"),
        }
        position
    }

    /// All that the technique concludes when it is asked alone.
    fn found(&self, technique: &str) -> BTreeSet<String> {
        let givens =
            self.placed.iter().fold(Grid::empty(SIZE), |board, (at, digit)| board.with(*at, Some(*digit)));
        let puzzle = Puzzle::new(givens, []);
        let mut view = View::new(&puzzle);
        let lacks = self.lacks.iter().flat_map(|(at, digits)| digits.iter().map(|it| Claim::IsNot(*at, it)));
        let conclusions: Vec<_> = lacks.map(|it| (it, Cites::default())).collect();
        if !conclusions.is_empty() {
            let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
            view.take(Proposal { technique: TechniqueId::new("test-given"), argument, conclusions }).unwrap();
        }
        let asked = TECHNIQUES.iter().find(|it| it.id().name() == technique);
        let steps = asked.unwrap_or_else(|| panic!("no technique {technique}")).find(&view);
        steps.iter().flat_map(|it| &it.conclusions).map(|it| shown(it.0)).collect()
    }
}

/// `r2c2 is 7`, or every removal of `4 5 from r1c3 r3c3`.
fn claims(text: &str) -> Vec<Claim> {
    if let [at, "is", value] = text.split(' ').collect::<Vec<_>>()[..] {
        return vec![Claim::Is(cell(at), digit(value))];
    }
    let (digits, from) = text.split_once(" from ").unwrap_or_else(|| panic!("what is {text}?"));
    let each = |at| digits.split(' ').map(move |it| Claim::IsNot(cell(at), digit(it)));
    from.split(' ').flat_map(each).collect()
}

fn shown(claim: Claim) -> String {
    format!("{claim:?}")
}

fn cell(text: &str) -> Cell {
    SIZE.cells().find(|it| it.to_string() == text).unwrap_or_else(|| panic!("no cell {text}"))
}

fn digit(text: &str) -> Digit {
    SIZE.digit(text.parse().unwrap()).unwrap_or_else(|| panic!("no digit {text}"))
}

/// The rules of the board, as clauses: each cell has a digit, and each house each digit once.
struct Rules(BasicSolver);

impl Rules {
    fn new() -> Rules {
        let mut rules = Rules(BasicSolver::default());
        for at in SIZE.cells() {
            let each: Vec<(Cell, Digit)> = SIZE.digits().iter().map(|it| (at, it)).collect();
            rules.one_of(&each);
        }
        for house in SIZE.houses() {
            for digit in SIZE.digits().iter() {
                let each: Vec<(Cell, Digit)> =
                    SIZE.cells_of(house).into_iter().map(|it| (it, digit)).collect();
                rules.one_of(&each);
            }
        }
        rules
    }

    fn literal(&mut self, (at, digit): (Cell, Digit), holds: bool) -> Lit {
        let number = at.slot() * 16 + usize::from(digit.get());
        Lit::new(self.0.var_of_int(number as u32 + 1), holds)
    }

    fn one_of(&mut self, each: &[(Cell, Digit)]) {
        let mut some: Vec<Lit> = each.iter().map(|it| self.literal(*it, true)).collect();
        self.0.add_clause_reuse(&mut some);
        for (at, a) in each.iter().enumerate() {
            for b in &each[at + 1..] {
                let mut not_both = vec![self.literal(*a, false), self.literal(*b, false)];
                self.0.add_clause_reuse(&mut not_both);
            }
        }
    }

    /// Whether a board is like the position and denies the claim.
    fn allow(&mut self, position: &Position, denied: Option<Claim>) -> bool {
        let mut assumed = Vec::new();
        for (at, digit) in &position.placed {
            assumed.push(self.literal((*at, *digit), true));
        }
        for (at, lacks) in &position.lacks {
            assumed.extend(lacks.iter().map(|it| self.literal((*at, it), false)).collect::<Vec<_>>());
        }
        assumed.extend(denied.map(|it| match it {
            Claim::Is(at, digit) => self.literal((at, digit), false),
            Claim::IsNot(at, digit) => self.literal((at, digit), true),
            other => unreachable!("{other:?}"),
        }));
        match self.0.solve_limited(&assumed) {
            it if it == lbool::TRUE => true,
            it if it == lbool::FALSE => false,
            _ => unreachable!("no limit was set"),
        }
    }
}
