//! Titles of passages: what each is about, and no two alike in one walkthrough.
//!
//! A title names what the steps look at or end with: the lines whose sums they work, the digits they
//! place, the boxes they stay in. It promises nothing beyond them: a row falls only if it is full then.

use std::collections::{BTreeMap, BTreeSet};

use grid::{Cell, CellSet, Digit, DigitSet, Grid, House, HouseKind, Size};
use rulebook::{Claim, ClueId, Puzzle, crusts, filling_digits};
use trail::{Argument, Because, Branch, End, Passage, StepId, Theme, Trail, Walkthrough};

use crate::Voice;
use crate::lists::{capital, count, digits, either_digit, houses, list};
use crate::prose::n_words;

/// The title of each passage in order, without a full stop, as the booklet prints it:
/// `Place crusts in the upper boxes`, `The sums of row 4 and column 2`, `Row 7 falls`.
pub fn passage_titles(puzzle: &Puzzle, walkthrough: &Walkthrough) -> Vec<String> {
    passage_titles_in(Voice::Booklet, puzzle, walkthrough)
}

/// The titles as that voice puts them.
pub fn passage_titles_in(voice: Voice, puzzle: &Puzzle, walkthrough: &Walkthrough) -> Vec<String> {
    let trail = walkthrough.trail();
    let mut board = puzzle.givens().clone();
    let mut taken = BTreeSet::new();
    let passages = walkthrough.passages().iter().map(|passage| {
        let about = About::new(puzzle, trail, passage, board.clone());
        board = about.after.clone();
        let titles = about.titles(puzzle.size());
        // The last one names the passage's first step, so it is always free.
        let title = titles.iter().find(|it| !taken.contains(*it)).or(titles.last());
        let title = title.cloned().unwrap_or_default();
        taken.insert(title.clone());
        voice.puts(&title).into_owned()
    });
    passages.collect()
}

/// The most words of a title, unless another one is like it.
const MOST_WORDS: usize = 8;

/// What the steps of a passage come to.
struct About<'a> {
    puzzle: &'a Puzzle,
    theme: Theme,
    arguments: Vec<&'a Argument>,
    /// All they conclude, in order.
    claims: Vec<Claim>,
    /// The board as they leave it.
    after: Grid,
    first: Option<StepId>,
}

impl<'a> About<'a> {
    fn new(puzzle: &'a Puzzle, trail: &'a Trail, passage: &Passage, before: Grid) -> About<'a> {
        let concluded = |it: &StepId| trail.step(*it).concludes().iter().map(|it| trail.fact(*it).claim());
        let claims: Vec<Claim> = passage.steps.iter().flat_map(concluded).collect();
        let after = claims.iter().fold(before, |board, it| match *it {
            Claim::Is(cell, digit) => board.with(cell, Some(digit)),
            _ => board,
        });
        About {
            puzzle,
            theme: passage.theme,
            arguments: passage.steps.iter().map(|it| trail.step(*it).argument()).collect(),
            claims,
            after,
            first: passage.steps.first().copied(),
        }
    }

    /// Titles that fit, the best first: what was worked at before is worked at again.
    fn titles(&self, size: Size) -> Vec<String> {
        let base = self.base(size);
        let again = format!("{base}, again");
        let first = self.first.map(|it| format!("{base}, from step {}", it.number()));
        [Some(base), Some(again), first].into_iter().flatten().collect()
    }

    fn base(&self, size: Size) -> String {
        match self.theme {
            Theme::Crusts => self.of_crusts(size),
            Theme::Sums => self.of_sums().unwrap_or_else(|| self.of_digits(size)),
            Theme::House(house) if self.is_full(size.cells_of(house)) => {
                format!("{} falls", capital(&house.to_string()))
            }
            Theme::House(house) => format!("Digits in {house}"),
            Theme::Argument => self.of_arguments(size).unwrap_or_else(|| self.of_digits(size)),
            Theme::Finish if self.is_full(size.cells()) => match self.placed().count() {
                1 => "The last cell".to_owned(),
                n => format!("The last {} cells", count(n)),
            },
            Theme::Digits | Theme::Finish => self.of_digits(size),
        }
    }

    fn of_crusts(&self, size: Size) -> String {
        let of_crust = |it: &Claim| match *it {
            Claim::Crust(cell) => Some(cell),
            Claim::Is(cell, digit) => (!filling_digits(size).contains(digit)).then_some(cell),
            _ => None,
        };
        let found: CellSet = self.claims.iter().filter_map(of_crust).collect();
        match found.is_empty() {
            false => match place(size, found).as_str() {
                "" => match around(size, found).as_str() {
                    "" => "Crusts here and there".to_owned(),
                    at => format!("Place crusts{at}"),
                },
                at => format!("Place crusts{at}"),
            },
            true => {
                let away: CellSet = self.claims.iter().filter_map(Claim::cell).collect();
                match (away.is_empty(), self.lines().first()) {
                    (true, Some(line)) => format!("The crusts of {line}"),
                    _ => format!("Cells without crusts{}", place(size, away)),
                }
            }
        }
    }

    /// By the lines whose sums are worked; none if no step works one.
    fn of_sums(&self) -> Option<String> {
        let lines = self.lines();
        let named: BTreeSet<House> = lines.iter().take(2).copied().collect();
        let said = list(&houses(&named));
        match lines.len() {
            0 => None,
            1 => Some(format!("The sum of {said}")),
            2 => Some(format!("The sums of {said}")),
            _ => Some(format!("Sums around {said}")),
        }
    }

    fn of_digits(&self, size: Size) -> String {
        let placed: DigitSet = self.placed().map(|it| it.1).collect();
        let cells: CellSet = self.placed().map(|it| it.0).collect();
        let first = self.placed().next();
        match (placed.len(), first) {
            (0, _) => {
                let cells: CellSet = self.claims.iter().filter_map(Claim::cell).collect();
                format!("Rule out digits{}", place(size, cells))
            }
            (_, Some((cell, digit))) if cells.len() == 1 => format!("Place {digit} at {cell}"),
            (1 | 2, _) => {
                let each: Vec<String> = placed.iter().map(|it| format!("{it}s")).collect();
                let title = format!("Place {}{}", list(&each), place(size, cells));
                // Some boxes take many words to name.
                if n_words(&title) <= MOST_WORDS { title } else { format!("Digits{}", place(size, cells)) }
            }
            _ => match (place(size, cells).as_str(), self.falls(size).as_slice()) {
                ("", [only]) => format!("{} falls", capital(&only.to_string())),
                ("", [a, b, ..]) => format!("{} and {b} fall", capital(&a.to_string())),
                ("", []) => self.of_scattered(size, cells),
                (at, _) => format!("Digits{at}"),
            },
        }
    }

    /// Of digits that lie all over the board: those of which none is left to place, or where most of them lie.
    fn of_scattered(&self, size: Size, cells: CellSet) -> String {
        let is_done = |digit: &Digit| {
            let placed = size.cells().filter(|it| self.after.get(*it) == Some(*digit)).count();
            placed == usize::from(size.side())
        };
        let done: DigitSet = self.placed().map(|it| it.1).filter(is_done).collect();
        let each: Vec<String> = done.iter().map(|it| format!("{it}s")).collect();
        match (done.len(), around(size, cells).as_str()) {
            (1..=3, _) => format!("All {} found", list(&each)),
            (_, "") => "Digits here and there".to_owned(),
            (_, at) => format!("Digits{at}"),
        }
    }

    /// By what is supposed; none if no step supposes anything.
    fn of_arguments(&self, size: Size) -> Option<String> {
        let branches = |it: &&'a Argument| match *it {
            Argument::Cases { branches, .. } => Some(branches),
            _ => None,
        };
        let argued: Vec<&[Branch]> = self.arguments.iter().filter_map(branches).map(Vec::as_slice).collect();
        let first = argued.first()?.first()?;
        let about = || {
            let (of_clues, cells) = (self.lines_argued(&argued), argued.iter().copied().flatten());
            match (of_clues.is_empty(), around(size, cells.map(|it| it.cell).collect()).as_str()) {
                (false, _) => format!(": {}", list(&houses(&of_clues))),
                (true, "") => format!(" about {}", first.cell),
                (true, at) => at.replacen(" around", ":", 1),
            }
        };
        Some(match argued.as_slice() {
            [[only]] => match supposed(size, only.digits) {
                Some(what) => format!("Can {} be {what}?", only.cell),
                None => format!("A small argument about {}", only.cell),
            },
            [_] => format!("A small argument{}", about()),
            several => format!("{} small arguments{}", capital(&count(several.len())), about()),
        })
    }

    /// The lines whose clues the cases use most, two at most.
    fn lines_argued(&self, argued: &[&[Branch]]) -> BTreeSet<House> {
        let mut clues = Vec::new();
        argued.iter().for_each(|it| clues_of(it, &mut clues));
        let mut n_uses: BTreeMap<House, usize> = BTreeMap::new();
        let lines = clues.iter().filter_map(|it| Some(self.puzzle.clue(*it)?.line));
        lines.for_each(|it| *n_uses.entry(it).or_default() += 1);
        let mut lines: Vec<House> = n_uses.keys().copied().collect();
        lines.sort_by_key(|it| std::cmp::Reverse(n_uses[it]));
        lines.into_iter().take(2).collect()
    }

    /// The lines whose sums the steps work, those of most steps first, then in order.
    fn lines(&self) -> Vec<House> {
        let mut n_steps: BTreeMap<House, usize> = BTreeMap::new();
        self.arguments
            .iter()
            .filter_map(|it| line_of(it))
            .for_each(|it| *n_steps.entry(it).or_default() += 1);
        let mut lines: Vec<House> = n_steps.keys().copied().collect();
        lines.sort_by_key(|it| std::cmp::Reverse(n_steps[it]));
        lines
    }

    /// The houses that the passage fills up, in the order in which it does.
    fn falls(&self, size: Size) -> Vec<House> {
        let last = |house: &House| {
            let cells: CellSet = size.cells_of(*house).into_iter().collect();
            self.placed().enumerate().filter(|(_, it)| cells.contains(it.0)).map(|it| it.0).last()
        };
        let full = size.houses().filter(|it| self.is_full(size.cells_of(*it)));
        let mut falls: Vec<(usize, House)> = full.filter_map(|it| Some((last(&it)?, it))).collect();
        falls.sort_unstable();
        falls.into_iter().map(|it| it.1).collect()
    }

    fn placed(&self) -> impl Iterator<Item = (Cell, grid::Digit)> {
        self.claims.iter().filter_map(|it| match *it {
            Claim::Is(cell, digit) => Some((cell, digit)),
            _ => None,
        })
    }

    fn is_full(&self, cells: impl IntoIterator<Item = Cell>) -> bool {
        cells.into_iter().all(|it| self.after.get(it).is_some())
    }
}

/// The clues that the cases use, once for each time.
fn clues_of(branches: &[Branch], clues: &mut Vec<ClueId>) {
    for branch in branches {
        clues.extend(branch.chain.iter().filter_map(|link| match link.because {
            Because::Clue(clue) => Some(clue),
            _ => None,
        }));
        match &branch.end {
            End::NoWay(clue) => clues.push(*clue),
            End::Split(parts) => clues_of(parts, clues),
            _ => {}
        }
    }
}

/// The line whose sum or whose crusts' places the argument works with.
fn line_of(argument: &Argument) -> Option<House> {
    match argument {
        Argument::CrustsTouch { line, .. }
        | Argument::CrustsAtEnds { line, .. }
        | Argument::CrustDistance { line, .. }
        | Argument::Reach { line, .. }
        | Argument::Sets { line, .. }
        | Argument::SpentSplits { line, .. }
        | Argument::SideHolds { line, .. }
        | Argument::HeldActs { line, .. }
        | Argument::Remainder { line, .. }
        | Argument::Misfits { line, .. } => Some(*line),
        _ => None,
    }
}

/// What a cell is supposed to be, if that is short.
fn supposed(size: Size, left: DigitSet) -> Option<String> {
    let (one, last) = crusts(size);
    match left.len() {
        _ if left == DigitSet::only(one).with(last) => Some("a crust".to_owned()),
        _ if left == filling_digits(size) => Some("filling".to_owned()),
        1 => Some(digits(left)),
        2 | 3 => Some(either_digit(left)),
        _ => None,
    }
}

/// ` around row 3 and column 7`: the two lines or boxes that hold most of the cells, if they hold two or more.
fn around(size: Size, cells: CellSet) -> String {
    let n_held = |house: &House| size.cells_of(*house).into_iter().filter(|it| cells.contains(*it)).count();
    let mut held: Vec<House> = size.houses().filter(|it| n_held(it) >= 2).collect();
    held.sort_by_key(|it| std::cmp::Reverse(n_held(it)));
    match held.is_empty() {
        true => String::new(),
        false => format!(" around {}", list(&houses(&held.into_iter().take(2).collect()))),
    }
}

/// ` in row 4`, ` in the upper boxes`, ` in boxes 4 to 6`: the least that holds all the cells; nothing
/// if they lie all over the board.
fn place(size: Size, cells: CellSet) -> String {
    let holds = |house: &House| cells.is_subset(&size.cells_of(*house).into_iter().collect());
    if let Some(house) = size.houses().find(holds) {
        return format!(" in {house}");
    }
    let boxes: BTreeSet<House> = cells.iter().map(|it| size.houses_of(it)[2]).collect();
    let across = u16::from(size.side() / size.box_width());
    let number = |it: &House| u16::from(it.number()) - 1;
    let bands: BTreeSet<u16> = boxes.iter().map(|it| number(it) / across).collect();
    let stacks: BTreeSet<u16> = boxes.iter().map(|it| number(it) % across).collect();
    let down = u16::from(size.side()) / across;
    let all = |holds: &dyn Fn(u16) -> bool| {
        let of_kind = size.houses().filter(|it| it.kind() == HouseKind::Box && holds(number(it)));
        format!(" in {}", list(&houses(&of_kind.collect())))
    };
    match (bands.first(), stacks.first()) {
        (Some(0), _) if bands.len() == 1 => " in the upper boxes".to_owned(),
        (Some(band), _) if bands.len() == 1 && band + 1 == down => " in the lower boxes".to_owned(),
        (Some(band), _) if bands.len() == 1 => all(&|it| it / across == *band),
        (_, Some(0)) if stacks.len() == 1 => " in the left boxes".to_owned(),
        (_, Some(stack)) if stacks.len() == 1 && stack + 1 == across => " in the right boxes".to_owned(),
        (_, Some(stack)) if stacks.len() == 1 => all(&|it| it % across == *stack),
        _ => String::new(),
    }
}
