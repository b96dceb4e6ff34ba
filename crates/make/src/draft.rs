//! A puzzle on its way: part of a solution, and part of its clues.

use grid::{Cell, CellSet, Digit, Grid, House};
use prove::{Limit, Verdict};
use rand::Rng;
use rand::seq::SliceRandom;
use rulebook::{Clue, Puzzle, Rule, SANDWICH};
use trail::Trail;

use crate::brief::{Brief, Clues, Kind, Look};

/// More nodes than the proof of any puzzle here needs.
pub(crate) const LIMIT: Limit = Limit(1_000_000);

/// It has one solution, and the techniques that are known reach it: that stays so whatever is taken away.
#[derive(Clone, Debug)]
pub(crate) struct Draft<'b> {
    brief: &'b Brief,
    solution: &'b Grid,
    page: Page,
    /// A way through it.
    pub(crate) way: Trail,
}

/// What is printed.
#[derive(Clone, Debug)]
struct Page {
    given: CellSet,
    clues: Vec<Clue>,
}

/// What comes and goes together.
#[derive(Clone, Copy, Debug)]
enum Part {
    Givens(CellSet),
    /// A line's clue, and perhaps that of the line opposite.
    Clues(House, House),
}

/// The work was stopped.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Stopped;

/// Whether somebody asked to stop.
pub type Stop<'a> = &'a (dyn Fn() -> bool + Sync);

impl<'b> Draft<'b> {
    /// The whole solution, with every clue.
    pub(crate) fn whole(brief: &'b Brief, solution: &'b Grid) -> Draft<'b> {
        let clues = match brief.kind {
            Kind::Classic => Vec::new(),
            Kind::Sandwich => brief.size.lines().map(|it| sandwich(solution, it)).collect(),
        };
        let way = Trail::from_page(&Puzzle::new(solution.clone(), []));
        Draft { brief, solution, page: Page { given: brief.size.cells().collect(), clues }, way }
    }

    pub(crate) fn n_givens(&self) -> usize {
        self.page.given.len()
    }

    pub(crate) fn n_clues(&self) -> usize {
        self.page.clues.len()
    }

    pub(crate) fn puzzle(&self) -> Puzzle {
        self.page.puzzle(self.solution)
    }

    /// Takes away, in random order, whatever can go. Which of givens and clues goes first decides what is left
    /// of the other, so the brief's numbers and its wish for clues say that.
    pub(crate) fn cut_back(&mut self, random: &mut impl Rng, stop: Stop) -> Result<(), Stopped> {
        let mut givens = self.givens_by_part();
        givens.shuffle(random);
        let mut clues = self.clues_by_part();
        clues.shuffle(random);
        let least = self.brief.givens.least;
        match self.brief.clues {
            Clues::Needed | Clues::All | Clues::Symmetric => {
                self.take(givens, least, stop)?;
                self.take(clues, 0, stop)
            }
            Clues::Few => {
                // As many givens as may stay are left until no clue can go.
                self.take(givens.clone(), self.brief.givens.most, stop)?;
                self.take(clues, 0, stop)?;
                self.take(givens, least, stop)
            }
            Clues::Within(span) => {
                self.take(givens.clone(), self.brief.givens.most, stop)?;
                self.take(clues.clone(), span.most, stop)?;
                self.take(givens, least, stop)?;
                self.take(clues, span.least, stop)
            }
        }
    }

    fn givens_by_part(&self) -> Vec<Part> {
        let size = self.brief.size;
        let opposite = |it: Cell| size.cell(size.side() + 1 - it.row(), size.side() + 1 - it.column());
        let turned = |it: Cell| opposite(it).filter(|_| self.brief.look == Look::Symmetric).unwrap_or(it);
        let first = size.cells().filter(|it| *it <= turned(*it));
        first.map(|it| Part::Givens([it, turned(it)].into_iter().collect())).collect()
    }

    fn clues_by_part(&self) -> Vec<Part> {
        let size = self.brief.size;
        let opposite = |it: House| size.house(it.kind(), size.side() + 1 - it.number()).unwrap_or(it);
        let lines = self.page.clues.iter().map(|it| it.line);
        match self.brief.clues {
            Clues::All => Vec::new(),
            Clues::Symmetric => lines
                .filter(|it| it.number() <= opposite(*it).number())
                .map(|it| Part::Clues(it, opposite(it)))
                .collect(),
            _ => lines.map(|it| Part::Clues(it, it)).collect(),
        }
    }

    /// Takes the parts away in that order, as far as they can go and so many of their kind are left.
    ///
    /// What cannot go cannot go later either, so several may be tried at once: twice as many each time that goes
    /// well, and one by one where it does not.
    fn take(&mut self, parts: Vec<Part>, least: usize, stop: Stop) -> Result<(), Stopped> {
        let mut parts = &parts[..];
        let mut at_once = 1;
        while !parts.is_empty() {
            if stop() {
                return Err(Stopped);
            }
            let (now, later) = parts.split_at(at_once.min(parts.len()));
            if self.try_without(now, least) {
                parts = later;
                at_once *= 2;
            } else if now.len() == 1 {
                parts = later;
            } else {
                at_once = now.len() / 2;
            }
        }
        Ok(())
    }

    /// Takes these away if enough is left, and a way through.
    fn try_without(&mut self, parts: &[Part], least: usize) -> bool {
        let smaller = parts.iter().fold(self.page.clone(), Page::without);
        let is_short = match parts.first() {
            Some(Part::Givens(_)) => smaller.given.len() < least,
            Some(Part::Clues(..)) => smaller.clues.len() < least,
            None => true,
        };
        let way = if is_short { None } else { self.way_through(&smaller) };
        let can_go = way.is_some();
        if let Some(way) = way {
            (self.page, self.way) = (smaller, way);
        }
        can_go
    }

    /// A way through such a page, if it has one solution that the known techniques reach.
    fn way_through(&self, page: &Page) -> Option<Trail> {
        let puzzle = page.puzzle(self.solution);
        // The proof takes a hundredth of the time that the techniques take to get stuck.
        matches!(prove::verdict(&puzzle, LIMIT), Verdict::One(_))
            .then(|| reason::solve(&puzzle, self.solution, self.brief.settings()).ok())?
    }
}

impl Page {
    fn puzzle(&self, solution: &Grid) -> Puzzle {
        let given = |cell| solution.get(cell).filter(|_| self.given.contains(cell));
        Puzzle::new(Grid::from_fn(solution.size(), given), self.clues.iter().copied())
    }

    fn without(mut self, part: &Part) -> Page {
        match part {
            Part::Givens(cells) => self.given = self.given - *cells,
            Part::Clues(a, b) => self.clues.retain(|it| it.line != *a && it.line != *b),
        }
        self
    }
}

/// The true sandwich clue of a line.
pub(crate) fn sandwich(solution: &Grid, line: House) -> Clue {
    let size = solution.size();
    let digits: Vec<Digit> = size.cells_of(line).into_iter().filter_map(|it| solution.get(it)).collect();
    let value = SANDWICH.reachable(size).into_iter().find(|it| SANDWICH.allows(size, *it, &digits));
    Clue { rule: &SANDWICH, line, value: value.unwrap_or_else(|| unreachable!("a full line has a sum")) }
}
