//! A puzzle on its way: part of a solution, and part of its clues.

use grid::{Cell, CellSet, Digit, Grid, House};
use prove::{Limit, Verdict};
use rand::seq::SliceRandom;
use rand::{Rng, RngExt};
use rulebook::{Claim, Clue, Puzzle, Rule, SANDWICH};
use trail::{TechniqueId, Trail};

use crate::brief::{Brief, Clues, Kind, Look};

/// More nodes than the proof of any puzzle here needs.
pub(crate) const LIMIT: Limit = Limit(1_000_000);

/// It has one solution, and that stays so whatever is taken away.
#[derive(Clone, Debug)]
pub(crate) struct Draft<'b> {
    brief: &'b Brief,
    solution: &'b Grid,
    page: Page,
    stays: Stays,
    /// How far the known techniques lead; none where that was not looked for.
    pub(crate) far: Option<Trail>,
}

/// What else stays true whatever is taken away.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Stays {
    /// Nothing: what is left has nothing to spare for its one solution.
    OneSolution,
    /// The techniques that are known reach it.
    WayThrough,
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

/// How many givens and clues are left.
#[derive(Clone, Copy, Debug)]
struct Left {
    givens: usize,
    clues: usize,
}

/// The work was stopped.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Stopped;

/// Whether somebody asked to stop.
pub type Stop<'a> = &'a (dyn Fn() -> bool + Sync);

impl<'b> Draft<'b> {
    /// The whole solution, with every clue; a way through it stays.
    pub(crate) fn with_way(brief: &'b Brief, solution: &'b Grid) -> Draft<'b> {
        let way = Trail::from_page(&Puzzle::new(solution.clone(), []));
        Draft { stays: Stays::WayThrough, far: Some(way), ..Draft::whole(brief, solution) }
    }

    /// The whole solution, with every clue.
    pub(crate) fn whole(brief: &'b Brief, solution: &'b Grid) -> Draft<'b> {
        let clues = match brief.kind {
            Kind::Classic => Vec::new(),
            Kind::Sandwich => brief.size.lines().map(|it| sandwich(solution, it)).collect(),
        };
        let page = Page { given: brief.size.cells().collect(), clues };
        Draft { brief, solution, page, stays: Stays::OneSolution, far: None }
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
        let least = self.least();
        let most_givens = Left { givens: self.brief.givens.most, ..least };
        match self.brief.clues {
            Clues::Needed | Clues::All | Clues::Symmetric => {
                self.take(&givens, least, stop)?;
                self.take(&clues, least, stop)
            }
            Clues::Few => {
                // As many givens as may stay are left until no clue can go.
                self.take(&givens, most_givens, stop)?;
                self.take(&clues, least, stop)?;
                self.take(&givens, least, stop)
            }
            Clues::Within(span) => {
                self.take(&givens, most_givens, stop)?;
                self.take(&clues, Left { clues: span.most, ..least }, stop)?;
                self.take(&givens, least, stop)?;
                self.take(&clues, least, stop)
            }
        }
    }

    /// Takes away so many of the clues that can go, drawn by lot.
    pub(crate) fn take_clues(&mut self, n: usize, random: &mut impl Rng) {
        let mut clues = self.clues_by_part();
        clues.shuffle(random);
        self.page = clues.iter().take(n).fold(self.page.clone(), Page::without);
    }

    /// The same with something printed that was not, and without whatever can go for it, in random order. None if
    /// everything is printed.
    pub(crate) fn exchanged(&self, random: &mut impl Rng, stop: Stop) -> Result<Option<Draft<'b>>, Stopped> {
        let whole = Draft::whole(self.brief, self.solution);
        let has = |it: &Part| self.page.has(it);
        let (mut kept, mut new): (Vec<Part>, Vec<Part>) = whole.givens_by_part().into_iter().partition(has);
        let (kept_clues, new_clues): (Vec<Part>, Vec<Part>) =
            whole.clues_by_part().into_iter().partition(has);
        kept.extend(kept_clues);
        // Cells are many more than lines.
        if !new_clues.is_empty() && (new.is_empty() || random.random_ratio(1, 4)) {
            new = new_clues;
        }
        if new.is_empty() {
            return Ok(None);
        }
        let new = new[random.random_range(0..new.len())];
        kept.shuffle(random);
        kept.push(new);
        let mut draft = Draft { page: self.page.clone().with(&new, &whole.page), far: None, ..self.clone() };
        draft.take(&kept, self.least(), stop)?;
        Ok(Some(draft))
    }

    /// Finds out how far the known techniques lead: how many cells are filled then.
    pub(crate) fn go_through(&mut self) -> usize {
        let far = reason::solve_as_far(&self.puzzle(), self.solution, self.brief.settings());
        self.far = far.ok();
        self.n_filled()
    }

    /// How many cells were filled where the known techniques led no farther.
    pub(crate) fn n_filled(&self) -> usize {
        self.far.as_ref().map_or(0, n_filled)
    }

    /// The same for a solver who knows all but that technique.
    pub(crate) fn n_filled_without(&self, technique: TechniqueId) -> usize {
        // Whoever did not use it gets as far without it; that it is used does not show that it is needed.
        let is_used = |far: &Trail| far.steps().any(|(_, it)| it.technique() == technique);
        match &self.far {
            Some(far) if !is_used(far) => n_filled(far),
            _ => {
                let others = self.brief.without(technique);
                reason::solve_as_far(&self.puzzle(), self.solution, others).as_ref().map_or(0, n_filled)
            }
        }
    }

    /// Whether it has no more givens and clues than are allowed.
    pub(crate) fn is_within(&self) -> bool {
        let has_few_clues = match self.brief.clues {
            Clues::Within(span) => self.n_clues() <= span.most,
            _ => true,
        };
        has_few_clues && self.n_givens() <= self.brief.givens.most
    }

    /// How many must be left in the end.
    fn least(&self) -> Left {
        let clues = match self.brief.clues {
            Clues::Within(span) => span.least,
            _ => 0,
        };
        Left { givens: self.brief.givens.least, clues }
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

    /// Takes the parts away in that order, as far as they can go and so much is left.
    ///
    /// What cannot go cannot go later either, so several may be tried at once: twice as many each time that goes
    /// well, and one by one where it does not.
    fn take(&mut self, parts: &[Part], least: Left, stop: Stop) -> Result<(), Stopped> {
        let mut parts = parts;
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

    /// Takes these away if enough is left, and what is to stay true stays so.
    fn try_without(&mut self, parts: &[Part], least: Left) -> bool {
        let smaller = parts.iter().fold(self.page.clone(), Page::without);
        let is_short = |now: usize, then: usize, least: usize| then < now && then < least;
        if is_short(self.page.given.len(), smaller.given.len(), least.givens)
            || is_short(self.page.clues.len(), smaller.clues.len(), least.clues)
        {
            return false;
        }
        let puzzle = smaller.puzzle(self.solution);
        // The proof takes a hundredth of the time that the techniques take to get stuck.
        if !matches!(prove::verdict(&puzzle, LIMIT), Verdict::One(_)) {
            return false;
        }
        if self.stays == Stays::WayThrough {
            let Ok(way) = reason::solve(&puzzle, self.solution, self.brief.settings()) else { return false };
            self.far = Some(way);
        }
        self.page = smaller;
        true
    }
}

impl Page {
    fn puzzle(&self, solution: &Grid) -> Puzzle {
        let given = |cell| solution.get(cell).filter(|_| self.given.contains(cell));
        Puzzle::new(Grid::from_fn(solution.size(), given), self.clues.iter().copied())
    }

    fn has(&self, part: &Part) -> bool {
        match part {
            Part::Givens(cells) => cells.is_subset(&self.given),
            Part::Clues(line, _) => self.clues.iter().any(|it| it.line == *line),
        }
    }

    /// With a part of the whole page.
    fn with(mut self, part: &Part, whole: &Page) -> Page {
        match part {
            Part::Givens(cells) => self.given = self.given | *cells,
            Part::Clues(a, b) => {
                self.clues.extend(whole.clues.iter().filter(|it| it.line == *a || it.line == *b));
            }
        }
        self
    }

    fn without(mut self, part: &Part) -> Page {
        match part {
            Part::Givens(cells) => self.given = self.given - *cells,
            Part::Clues(a, b) => self.clues.retain(|it| it.line != *a && it.line != *b),
        }
        self
    }
}

/// How many cells are filled in the end.
fn n_filled(far: &Trail) -> usize {
    let filled = far.facts().filter_map(|(_, it)| match it.claim() {
        Claim::Is(cell, _) => Some(cell),
        _ => None,
    });
    filled.collect::<CellSet>().len()
}

/// The true sandwich clue of a line.
pub(crate) fn sandwich(solution: &Grid, line: House) -> Clue {
    let size = solution.size();
    let digits: Vec<Digit> = size.cells_of(line).into_iter().filter_map(|it| solution.get(it)).collect();
    let value = SANDWICH.reachable(size).into_iter().find(|it| SANDWICH.allows(size, *it, &digits));
    Clue { rule: &SANDWICH, line, value: value.unwrap_or_else(|| unreachable!("a full line has a sum")) }
}
