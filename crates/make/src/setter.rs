//! The setter: grow until a person could solve it, then cut back.

use std::fmt;

use grid::{Cell, CellSet, Digit, Grid, House, Size};
use prove::{Limit, Verdict};
use rand::seq::SliceRandom;
use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rayon::prelude::*;
use reason::{Known, Settings, Stopped};
use replay::Checked;
use rulebook::{Clue, Puzzle, Rule, SANDWICH};
use trail::Trail;

use crate::{Brief, Kind};

/// How many solutions are tried before the brief counts as not met.
const ATTEMPTS: u64 = 64;

/// More than any puzzle here needs.
const LIMIT: Limit = Limit(1_000_000);

/// A puzzle set to a brief.
#[derive(Clone, Debug)]
pub struct Made {
    /// The puzzle.
    pub puzzle: Puzzle,
    /// Its only solution.
    pub solution: Grid,
    /// Its walkthrough.
    pub explained: Checked,
}

/// Why no puzzle was made.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum MakeError {
    /// None of so many attempts met the brief.
    NotMet(u64),
    /// The caller asked to stop.
    Stopped,
}

impl fmt::Display for MakeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            MakeError::NotMet(attempts) => write!(f, "none of {attempts} attempts met the brief"),
            MakeError::Stopped => write!(f, "stopped before the brief was met"),
        }
    }
}

impl std::error::Error for MakeError {}

/// Sets a puzzle to the brief. The same brief and seed give the same puzzle, on any number of cores.
///
/// `stop` is asked now and then; once it says true, the work ends.
///
/// # Errors
///
/// If no attempt meets the brief, or the work was stopped.
pub fn make(brief: &Brief, seed: u64, stop: &(dyn Fn() -> bool + Sync)) -> Result<Made, MakeError> {
    // The first attempt that succeeds counts, not the first to finish: cores make no difference.
    let made = (0..ATTEMPTS).into_par_iter().find_map_first(|attempt| {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        random.set_stream(attempt);
        attempt_once(brief, &mut random, stop)
    });
    match made {
        Some(made) => Ok(made),
        None if stop() => Err(MakeError::Stopped),
        None => Err(MakeError::NotMet(ATTEMPTS)),
    }
}

fn attempt_once(brief: &Brief, random: &mut impl Rng, stop: &(dyn Fn() -> bool + Sync)) -> Option<Made> {
    let solution = random_solution(brief.size, random)?;
    let mut draft = Draft::new(brief, &solution, random);
    draft.grow(stop)?;
    draft.cut_back(random, stop)?;
    let fits = draft.n_givens() <= brief.givens && draft.clues.len() <= brief.clues;
    let explained = fits.then(|| reason::explain(&draft.puzzle(), &solution, draft.settings()).ok())??;
    let uses = |technique| explained.walkthrough().trail().steps().any(|(_, it)| it.technique() == technique);
    let teaches = brief.teaches.iter().all(|it| uses(*it));
    let puzzle = draft.puzzle();
    teaches.then_some(Made { puzzle, solution, explained })
}

/// A full grid, by a search that tries digits in random order.
fn random_solution(size: Size, random: &mut impl Rng) -> Option<Grid> {
    let empty = Puzzle::new(Grid::empty(size), []);
    prove::some_solution(&empty, LIMIT, &mut |digits| random.random_range(0..digits.len()))
}

/// A puzzle on its way: part of a solution, and part of its clues.
struct Draft<'b> {
    brief: &'b Brief,
    solution: &'b Grid,
    given: CellSet,
    clues: Vec<Clue>,
}

impl<'b> Draft<'b> {
    /// Every clue, and about half the givens that the brief allows.
    fn new(brief: &'b Brief, solution: &'b Grid, random: &mut impl Rng) -> Draft<'b> {
        let clues = match brief.kind {
            Kind::Classic => Vec::new(),
            Kind::Sandwich => brief.size.lines().map(|it| sandwich(solution, it)).collect(),
        };
        let mut draft = Draft { brief, solution, given: CellSet::EMPTY, clues };
        let mut cells: Vec<Cell> = brief.size.cells().collect();
        cells.shuffle(random);
        for cell in cells {
            if draft.n_givens() < brief.givens / 2 {
                draft.given = draft.given | draft.orbit(cell);
            }
        }
        draft
    }

    /// The cells whose givens come and go together.
    fn orbit(&self, cell: Cell) -> CellSet {
        let size = self.brief.size;
        let turned = size.cell(size.side() + 1 - cell.row(), size.side() + 1 - cell.column());
        std::iter::once(cell).chain(turned.filter(|_| self.brief.balanced)).collect()
    }

    fn n_givens(&self) -> usize {
        self.given.len()
    }

    fn puzzle(&self) -> Puzzle {
        let given = |cell| self.solution.get(cell).filter(|_| self.given.contains(cell));
        Puzzle::new(Grid::from_fn(self.brief.size, given), self.clues.iter().copied())
    }

    fn settings(&self) -> Settings {
        match self.brief.hardest {
            None => Settings::THOROUGH,
            Some(it) => Settings { known: Known::up_to(it), ..Settings::TECHNIQUES_ALONE },
        }
    }

    /// A cell where a given would help: where two solutions differ, or where a solver is stuck.
    fn trouble(&self) -> Option<Cell> {
        let differs =
            |other: &Grid| self.brief.size.cells().find(|it| other.get(*it) != self.solution.get(*it));
        match prove::verdict(&self.puzzle(), LIMIT) {
            Verdict::Many(many) => differs(&many.first).or(differs(&many.second)),
            Verdict::One(_) => match reason::solve(&self.puzzle(), self.solution, self.settings()) {
                Err(Stopped::Stuck(board)) => self.middle_open_cell(&board),
                _ => None,
            },
            Verdict::None | Verdict::Undecided => None,
        }
    }

    /// The open cell that sees the most open cells: a given there helps most.
    fn middle_open_cell(&self, board: &Grid) -> Option<Cell> {
        let size = self.brief.size;
        let open: CellSet = size.cells().filter(|it| board.get(*it).is_none()).collect();
        open.iter().max_by_key(|it| (size.peers(*it) & open).len())
    }

    /// Adds givens until the puzzle has one solution that the brief's techniques reach. None if that
    /// takes far more givens than the brief allows.
    fn grow(&mut self, stop: &(dyn Fn() -> bool + Sync)) -> Option<()> {
        while let Some(cell) = self.trouble() {
            self.given = self.given | self.orbit(cell);
            if stop() || self.n_givens() > self.brief.givens + 12 {
                return None;
            }
        }
        Some(())
    }

    /// Takes away, in random order, what can be spared, until the brief's numbers are met and the
    /// techniques it wants are called for. None if the work was stopped.
    fn cut_back(&mut self, random: &mut impl Rng, stop: &(dyn Fn() -> bool + Sync)) -> Option<()> {
        let mut givens: Vec<Cell> = self.given.iter().collect();
        givens.shuffle(random);
        let mut lines: Vec<House> = self.clues.iter().map(|it| it.line).collect();
        lines.shuffle(random);
        // Clues first: they are what the brief is most often strict about.
        for line in lines {
            if self.clues.len() <= self.brief.clues {
                break;
            }
            if stop() {
                return None;
            }
            let before = self.clues.clone();
            self.clues.retain(|it| it.line != line);
            if self.walk().is_none() {
                self.clues = before;
            }
        }
        let mut walk = self.walk()?;
        for cell in givens {
            if self.n_givens() <= self.brief.givens && self.teaches(&walk) {
                break;
            }
            if stop() {
                return None;
            }
            let before = self.given;
            self.given = before - self.orbit(cell);
            match self.walk() {
                Some(shorter) => walk = shorter,
                None => self.given = before,
            }
        }
        Some(())
    }

    /// A way through the puzzle as it stands, if it has one solution that the brief's techniques reach.
    fn walk(&self) -> Option<Trail> {
        let puzzle = self.puzzle();
        matches!(prove::verdict(&puzzle, LIMIT), Verdict::One(_))
            .then(|| reason::solve(&puzzle, self.solution, self.settings()).ok())?
    }

    /// Whether the way uses every technique that the brief wants.
    fn teaches(&self, walk: &Trail) -> bool {
        self.brief.teaches.iter().all(|wanted| walk.steps().any(|(_, it)| it.technique() == *wanted))
    }
}

/// The true sandwich clue of a line.
fn sandwich(solution: &Grid, line: House) -> Clue {
    let size = solution.size();
    let digits: Vec<Digit> = size.cells_of(line).into_iter().filter_map(|it| solution.get(it)).collect();
    let value = SANDWICH.reachable(size).into_iter().find(|it| SANDWICH.allows(size, *it, &digits));
    Clue { rule: &SANDWICH, line, value: value.unwrap_or_else(|| unreachable!("a full line has a sum")) }
}
