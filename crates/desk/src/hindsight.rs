//! What was known whenever a digit was written in a test solve: leaps, slips, and techniques that came late.
//!
//! A right digit is a leap if it takes more steps by techniques, from what stood on the sheet, than the walkthrough ever takes
//! from its digits to the next one, and more than [`AT_LEAST`]. Once something wrong stands there, everything
//! follows, so nothing is judged until it is gone; nor is what an undo puts back. A technique is late if it was used for a digit long after it could first be.

use std::collections::BTreeSet;

use grid::{Cell, Digit, DigitSet, Grid, Size};
use reason::{Position, Settings, Solved, TECHNIQUES, View, Written, easiest_to, mistake, shortest_to};
use rulebook::{Claim, Puzzle};
use trail::{FactId, StepId, TechniqueId, Trail};

use crate::logged::with_put_back;
use crate::store::SolveEvent;

/// So many steps may be seen at once wherever the walkthrough takes fewer.
const AT_LEAST: usize = 12;

/// Milliseconds after which a technique that could be used is late.
const LATE: i64 = 60_000;

/// What is seen when a test solve is looked back on.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(crate) struct Hindsight {
    pub(crate) leaps: Vec<Leap>,
    pub(crate) slips: Vec<Slip>,
    /// Those that came latest first.
    pub(crate) late: Vec<Late>,
    /// So many right digits were written while something wrong stood on the sheet.
    pub(crate) n_unjudged: usize,
}

/// A right digit that could not be known yet.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Leap {
    pub(crate) after_ms: i64,
    pub(crate) cell: Cell,
    pub(crate) digit: Digit,
    /// So many digits stood on the board.
    pub(crate) n_known: usize,
    /// The steps that lead there; none if techniques do not.
    pub(crate) way: Option<Trail>,
}

/// A wrong digit.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Slip {
    pub(crate) after_ms: i64,
    pub(crate) cell: Cell,
    pub(crate) digit: Digit,
}

/// A technique that was used long after it could be.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Late {
    pub(crate) technique: TechniqueId,
    /// When there first was a place for it.
    pub(crate) open_ms: i64,
    /// When a digit was first written that takes it.
    pub(crate) used_ms: i64,
}

/// Looks back on what happened in a solve of the puzzle. It computes for some seconds.
pub(crate) fn hindsight(solved: Solved<'_>, events: &[SolveEvent], is_over: &dyn Fn() -> bool) -> Hindsight {
    let mut sheet = Sheet::new(solved.puzzle);
    let within = AT_LEAST.max(most_steps_to_a_digit(solved.walkthrough));
    let mut found = Hindsight::default();
    let mut watched = Watched::new(solved);
    watched.look(&sheet, 0);
    for (it, is_put_back) in with_put_back(events) {
        if is_over() {
            break;
        }
        let Some(cell) = it.cell.and_then(|at| sheet.cells.get(usize::try_from(at).ok()?).copied()) else {
            continue;
        };
        let digit = it.value.and_then(|it| sheet.size.digit(u8::try_from(it).ok()?));
        if let ("ink", Some(digit), false) = (&it.what[..], digit, is_put_back) {
            let is_right = solved.solution.get(cell) == Some(digit);
            match (is_right, mistake(solved.puzzle, &sheet.written(), solved.solution).is_none()) {
                (false, _) => found.slips.push(Slip { after_ms: it.after_ms, cell, digit }),
                (true, false) => found.n_unjudged += 1,
                (true, true) if sheet.ink.get(cell).is_some() => {}
                (true, true) => {
                    found.leaps.extend(weighed(&sheet, (cell, digit), within, it.after_ms, &mut watched));
                }
            }
        }
        sheet.take(it, cell);
        watched.look(&sheet, it.after_ms);
    }
    found.late = watched.late();
    found
}

/// A leap, if the digit is one; else the techniques that it takes are noted as used.
fn weighed(
    sheet: &Sheet,
    (cell, digit): (Cell, Digit),
    within: usize,
    after_ms: i64,
    watched: &mut Watched,
) -> Option<Leap> {
    let (board, (notes, pencilled)) = (sheet.board(), sheet.written().notes());
    let position = Position { board: &board, notes: &notes, pencilled };
    let (claim, alone) = (Claim::Is(cell, digit), Settings::TECHNIQUES_ALONE);
    if let Some(way) = shortest_to(position, claim, within, alone) {
        way.steps().for_each(|(_, it)| watched.used(it.technique(), after_ms));
        return None;
    }
    let n_known = sheet.ink.filled().count();
    Some(Leap { after_ms, cell, digit, n_known, way: easiest_to(position, claim, alone) })
}

/// The most steps that a digit of the walkthrough takes where the digits before it are known and nothing else.
fn most_steps_to_a_digit(walkthrough: &Trail) -> usize {
    let is_digit = |it: FactId| matches!(walkthrough.fact(it).claim(), Claim::Is(..));
    let n_steps = |digit: FactId| {
        let mut steps: BTreeSet<StepId> = BTreeSet::new();
        let mut open = vec![digit];
        while let Some(fact) = open.pop().map(|it| walkthrough.fact(it)) {
            let (Some(step), Some(cites)) = (fact.step(), fact.cites()) else { continue };
            steps.insert(step);
            open.extend(cites.facts.iter().filter(|it| !is_digit(**it)));
        }
        steps.len()
    };
    walkthrough.facts().map(|it| it.0).filter(|it| is_digit(*it)).map(n_steps).max().unwrap_or_default()
}

/// What stands on the sheet.
struct Sheet<'p> {
    puzzle: &'p Puzzle,
    size: Size,
    cells: Vec<Cell>,
    ink: Grid,
    /// Two digits or more are all that the cell may be.
    pencil: Vec<DigitSet>,
    marks: Vec<Option<Claim>>,
}

impl<'p> Sheet<'p> {
    fn new(puzzle: &'p Puzzle) -> Sheet<'p> {
        let size = puzzle.size();
        let n = size.n_cells();
        Sheet {
            puzzle,
            size,
            cells: size.cells().collect(),
            ink: puzzle.givens().clone(),
            pencil: vec![DigitSet::EMPTY; n],
            marks: vec![None; n],
        }
    }

    /// Takes what happened to the cell.
    fn take(&mut self, it: &SolveEvent, cell: Cell) {
        if self.puzzle.givens().get(cell).is_some() {
            return;
        }
        let (at, value) = (self.size.index(cell), it.value.unwrap_or_default());
        match &it.what[..] {
            "ink" => {
                let digit = u8::try_from(value).ok().and_then(|it| self.size.digit(it));
                self.ink = self.ink.clone().with(cell, digit);
            }
            "pencil" => {
                self.pencil[at] = self.size.digits().iter().filter(|it| value >> it.get() & 1 == 1).collect()
            }
            "mark" => self.marks[at] = self.marked(cell, value),
            _ => {}
        }
    }

    /// What a mark says, by its place among the puzzle's, from 1.
    fn marked(&self, cell: Cell, value: i64) -> Option<Claim> {
        let marks = tell::cell_marks(self.puzzle);
        match marks.get(usize::try_from(value).ok()?.checked_sub(1)?)?.id {
            "crust" => Some(Claim::Crust(cell)),
            "filling" => Some(Claim::Filling(cell)),
            _ => None,
        }
    }

    /// The board as if what is in ink were printed.
    fn board(&self) -> Puzzle {
        Puzzle::new(self.ink.clone(), self.puzzle.clues().iter().copied())
    }

    /// What is written on the cells that have no digit, as the questions about sheets take it.
    fn written(&self) -> Written {
        let open = || self.cells.iter().filter(|it| self.ink.get(**it).is_none());
        let pencil = open().map(|it| (*it, self.pencil[self.size.index(*it)])).filter(|it| it.1.len() > 1);
        let marks = open().filter_map(|it| self.marks[self.size.index(*it)]);
        Written { ink: self.ink.clone(), pencil: pencil.collect(), marks: marks.collect() }
    }
}

/// The techniques of the walkthrough: since when there is a place for each, and when it was first used.
struct Watched {
    techniques: Vec<(TechniqueId, Option<i64>, Option<i64>)>,
}

impl Watched {
    fn new(solved: Solved<'_>) -> Watched {
        let used = |id: TechniqueId| solved.walkthrough.steps().any(|(_, it)| it.technique() == id);
        // A last resort has a place nearly everywhere, and nobody should take it early.
        let techniques =
            TECHNIQUES.iter().filter(|it| !it.is_last_resort()).map(|it| it.id()).filter(|it| used(*it));
        Watched { techniques: techniques.map(|it| (it, None, None)).collect() }
    }

    /// Notes which techniques have found a place by now. From what is wrong nothing can be seen.
    fn look(&mut self, sheet: &Sheet, after_ms: i64) {
        if self.techniques.iter().all(|it| it.1.is_some()) {
            return;
        }
        let (board, (notes, _)) = (sheet.board(), sheet.written().notes());
        let view = View::of_sheet(&board, &notes);
        for (id, open, _) in self.techniques.iter_mut().filter(|it| it.1.is_none()) {
            let has_place = reason::technique(*id).is_some_and(|it| it.n_open(&view) > 0);
            *open = has_place.then_some(after_ms);
        }
    }

    fn used(&mut self, id: TechniqueId, after_ms: i64) {
        if let Some((_, _, used)) = self.techniques.iter_mut().find(|it| it.0 == id) {
            used.get_or_insert(after_ms);
        }
    }

    fn late(&self) -> Vec<Late> {
        let late = self.techniques.iter().filter_map(|(technique, open, used)| {
            Some(Late { technique: *technique, open_ms: (*open)?, used_ms: (*used)? })
        });
        let mut late: Vec<Late> = late.filter(|it| it.used_ms - it.open_ms >= LATE).collect();
        late.sort_by_key(|it| (it.open_ms - it.used_ms, it.technique));
        late
    }
}

#[cfg(test)]
mod tests {
    use packfile::{SourceFile, read_pack};
    use reason::{Known, solve};

    use super::*;

    fn event(after_ms: i64, what: &str, cell: i64, value: i64) -> SolveEvent {
        let id = format!("{after_ms}-{cell}");
        SolveEvent { id, after_ms, what: what.to_owned(), cell: Some(cell), value: Some(value) }
    }

    /// What a hard puzzle of the demo looks like in hindsight.
    fn looked_back(make: impl Fn(&Puzzle, &Grid, &trail::Trail) -> Vec<SolveEvent>) -> Hindsight {
        let text = include_str!("../../../demo/lantern-room/puzzles/small-hours.toml");
        let info = SourceFile::new("pack.toml", "format = 1\ntitle = \"T\"\neditor = \"E\"\n");
        let pack = read_pack(Some(&info), &[SourceFile::new("puzzles/small-hours.toml", text)]).0.pack;
        let puzzle = &pack.entries[0].puzzle;
        let prove::Verdict::One(solution) = prove::verdict(puzzle, prove::Limit(1_000_000)) else {
            panic!("the demo is sound")
        };
        let settings = Settings { known: Known::ALL, ..Settings::TECHNIQUES_ALONE };
        let walkthrough = solve(puzzle, &solution, settings).unwrap();
        let events = make(puzzle, &solution, &walkthrough);
        let solved = Solved { puzzle, solution: &solution, walkthrough: &walkthrough };
        hindsight(solved, &events, &|| false)
    }

    /// The digits in the order of the walkthrough, one every `apart` milliseconds.
    fn in_order(puzzle: &Puzzle, walkthrough: &trail::Trail, apart: i64) -> Vec<SolveEvent> {
        let size = puzzle.size();
        let found =
            walkthrough.facts().filter(|it| it.1.step().is_some()).filter_map(|it| match it.1.claim() {
                Claim::Is(cell, digit) => Some((size.index(cell) as i64, i64::from(digit.get()))),
                _ => None,
            });
        found.zip(1..).map(|((cell, digit), n)| event(n * apart, "ink", cell, digit)).collect()
    }

    #[test]
    fn who_goes_by_the_walkthrough_leaps_nowhere_and_is_late_nowhere() {
        let found = looked_back(|puzzle, _, walkthrough| in_order(puzzle, walkthrough, 10));
        assert_eq!(found, Hindsight::default());
    }

    #[test]
    fn who_fills_the_board_from_its_end_leaps() {
        let found = looked_back(|puzzle, _, walkthrough| {
            let mut events = in_order(puzzle, walkthrough, 1000);
            let n = events.len() as i64;
            events.reverse();
            events.iter_mut().zip(1..).for_each(|(it, at)| it.after_ms = at * 1000);
            assert!(n > 30);
            events.truncate(12);
            events
        });
        assert!(!found.leaps.is_empty() && found.leaps.iter().all(|it| it.way.is_some()), "{found:?}");
        assert!(found.slips.is_empty() && found.n_unjudged == 0);
    }

    #[test]
    fn nothing_is_judged_while_something_wrong_stands_there() {
        let found = looked_back(|puzzle, solution, walkthrough| {
            let mut events = in_order(puzzle, walkthrough, 1000);
            let first = events[0].clone();
            let right = first.value.unwrap();
            let other = solution.size().digits().iter().map(|it| i64::from(it.get())).find(|it| *it != right);
            events.insert(0, event(1, "ink", first.cell.unwrap(), other.unwrap()));
            // The slip stands there while three digits are written; then the right one takes its place.
            let mended = events.remove(1);
            events.truncate(4);
            events.push(SolveEvent { after_ms: 9000, ..mended });
            events
        });
        assert_eq!((found.slips.len(), found.n_unjudged), (1, 4), "{found:?}");
    }

    /// A digit that had been found, was rubbed out and came back by an undo.
    #[test]
    fn what_an_undo_puts_back_is_no_leap() {
        let found = looked_back(|puzzle, _, walkthrough| {
            let mut events = in_order(puzzle, walkthrough, 10);
            let (n, last) = (events.len() as i64, events.last().cloned().unwrap());
            let all: Vec<SolveEvent> = events.clone();
            // All of them go, the last comes back first.
            for (it, at) in all.iter().zip(1..) {
                events.push(event(n * 10 + at, "ink", it.cell.unwrap(), 0));
            }
            events.push(event(n * 20 + 1, "undo", 0, 1));
            events.push(event(n * 20 + 1, "ink", last.cell.unwrap(), last.value.unwrap()));
            events
        });
        assert!(found.leaps.is_empty() && found.slips.is_empty(), "{found:?}");
    }

    #[test]
    fn a_technique_that_waited_is_late_by_as_much() {
        let found = looked_back(|puzzle, _, walkthrough| in_order(puzzle, walkthrough, LATE));
        assert!(!found.late.is_empty(), "the walkthrough begins with a technique that has a place at once");
        assert!(found.late.iter().all(|it| it.used_ms - it.open_ms >= LATE && it.open_ms >= 0));
        assert!(found.late.is_sorted_by_key(|it| it.open_ms - it.used_ms));
    }
}
