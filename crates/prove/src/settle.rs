//! What has to be added to a puzzle with several solutions so that one is left.

use grid::{Digit, Grid};
use rulebook::{Clue, Puzzle, Rule};

use crate::hitting::{Hitting, Set};
use crate::{Limit, Many, Printed, Verdict, verdict};

/// How much work a search for the fewest additions may take.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Effort {
    /// For each verdict.
    pub limit: Limit,
    /// So many verdicts in all.
    pub verdicts: usize,
    /// So many nodes of the search for a smallest choice.
    pub choices: u64,
}

/// Additions that leave exactly one solution, none of which can be left out.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Settling {
    /// What to print, in the order of the page.
    pub added: Vec<Printed>,
    /// It takes at least so many of what was offered: where that is the number of additions, these are
    /// proved to be the fewest.
    pub at_least: usize,
}

/// What became of the search for single givens.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SingleGivens {
    /// Every given that leaves exactly one solution all by itself, in the order of the page.
    pub givens: Vec<Printed>,
    /// How many more might; the limit was reached.
    pub n_undecided: usize,
}

impl Settling {
    /// Whether nothing offered does it with less.
    pub fn is_fewest(&self) -> bool {
        self.at_least == self.added.len()
    }
}

/// The cells in which two solutions differ, and what they hold there, in reading order.
pub fn differences(many: &Many) -> Vec<(grid::Cell, Digit, Digit)> {
    let differing = many.first.filled().filter_map(|(cell, first)| {
        let second = many.second.get(cell)?;
        (first != second).then_some((cell, first, second))
    });
    differing.collect()
}

/// Every given, of whichever solution, that leaves exactly one solution all by itself. `many` are two
/// solutions.
pub fn single_givens(puzzle: &Puzzle, many: &Many, limit: Limit) -> SingleGivens {
    let size = puzzle.size();
    let mut found = SingleGivens { givens: Vec::new(), n_undecided: 0 };
    // What two known solutions have in common leaves at least those two.
    let mut met = vec![many.first.clone(), many.second.clone()];
    for cell in size.cells().filter(|it| !puzzle.is_given(*it)) {
        for digit in size.digits().iter() {
            let given = Printed::Given(cell, digit);
            if met.iter().filter(|it| given.is_true_of(it)).count() > 1 {
                continue;
            }
            match verdict(&given.added_to(puzzle), limit) {
                Verdict::None => {}
                Verdict::One(_) => found.givens.push(given),
                Verdict::Undecided => found.n_undecided += 1,
                Verdict::Many(it) => {
                    for solution in [it.first, it.second] {
                        if !met.contains(&solution) {
                            met.push(solution);
                        }
                    }
                }
            }
        }
    }
    found
}

/// Every given of a solution that is not on the page yet.
pub fn open_givens(puzzle: &Puzzle, solution: &Grid) -> Vec<Printed> {
    let open = solution.filled().filter(|(cell, _)| !puzzle.is_given(*cell));
    open.map(|(cell, digit)| Printed::Given(cell, digit)).collect()
}

/// Every clue, true of a solution, that is not on the page yet; of the rules that have clues there already.
pub fn open_clues(puzzle: &Puzzle, solution: &Grid) -> Vec<Printed> {
    let size = puzzle.size();
    let mut rules: Vec<&'static dyn Rule> = Vec::new();
    for it in puzzle.clues() {
        if !rules.iter().any(|rule| rule.id() == it.rule.id()) {
            rules.push(it.rule);
        }
    }
    let places = size.lines().flat_map(|line| rules.iter().map(move |rule| (line, *rule)));
    let open = places.filter(|(line, rule)| puzzle.clue_at(*rule, *line).is_none());
    let clue = |(line, rule): (_, &'static dyn Rule)| {
        let values = rule.reachable(size).into_iter().map(|value| Printed::Clue(Clue { rule, line, value }));
        values.into_iter().find(|it| it.is_true_of(solution))
    };
    open.filter_map(clue).collect()
}

/// The fewest of what is offered, all of it true of one chosen solution, that leave only that solution.
///
/// None if not even all of it together does, or the work allowed was used up before any way was found, or more than
/// 384 things are offered: a 16x16 page has no room for more than 288.
///
/// Each other solution breaks some of what is offered, and one of those has to be printed. A smallest
/// choice from the sets found so far is tried; where it leaves another solution, that gives one more set.
pub fn fewest(puzzle: &Puzzle, chosen: &Grid, offered: &[Printed], effort: Effort) -> Option<Settling> {
    let everything = Set::first(offered.len())?;
    let mut search = Search { puzzle, chosen, offered, everything, effort, n_verdicts: 0, best: None };
    match search.other_with(&everything) {
        Ok(None) => {}
        Ok(Some(_)) | Err(GivenUp) => return None,
    }
    let mut hitting = Hitting::new((0..offered.len()).map(|it| [it].into_iter().collect()).collect());
    // Whether it came to its end is told by the bound.
    _ = search.narrow_down(&mut hitting);
    let (best, at_least) = (search.best?, hitting.at_least());
    Some(Settling { added: best.iter().map(|it| offered[it]).collect(), at_least: at_least.min(best.len()) })
}

/// The work allowed is used up.
struct GivenUp;

struct Search<'a> {
    puzzle: &'a Puzzle,
    chosen: &'a Grid,
    offered: &'a [Printed],
    /// All that is offered.
    everything: Set,
    effort: Effort,
    n_verdicts: usize,
    /// The fewest additions known to be enough.
    best: Option<Set>,
}

impl Search<'_> {
    /// Goes on until the best way known is as small as a choice can be.
    fn narrow_down(&mut self, hitting: &mut Hitting) -> Result<(), GivenUp> {
        let mut choices = self.effort.choices;
        loop {
            let choice = hitting.smallest(&mut choices).ok_or(GivenUp)?;
            let n_best = self.best.map_or(usize::MAX, |it| it.len());
            if choice.len() == n_best {
                return Ok(());
            }
            // Going on from the choice until it is enough gives several sets at once, and a way that is
            // enough though perhaps not the shortest.
            let mut with = choice;
            while let Some(broken) = self.least_broken(&with)? {
                hitting.add(broken);
                with.insert(broken.iter().next().ok_or(GivenUp)?);
            }
            let enough = self.irreducible(with)?;
            if enough.len() < n_best {
                self.best = Some(enough);
            }
        }
    }

    /// What some other solution breaks, although all of `with` is printed, such that no other
    /// solution breaks only a part of it; none if there is no other solution.
    fn least_broken(&mut self, with: &Set) -> Result<Option<Set>, GivenUp> {
        let Some(mut broken) = self.other_with(with)? else { return Ok(None) };
        let mut looked_at = Set::default();
        while let Some(it) = broken.without(&looked_at).iter().next() {
            looked_at.insert(it);
            let mut kept = self.everything.without(&broken);
            kept.insert(it);
            if let Some(fewer) = self.other_with(&kept)? {
                broken = fewer;
            }
        }
        Ok(Some(broken))
    }

    /// The same without what can be left out, the last first.
    fn irreducible(&mut self, mut enough: Set) -> Result<Set, GivenUp> {
        let members: Vec<usize> = enough.iter().collect();
        for it in members.into_iter().rev() {
            let fewer = enough.without(&[it].into_iter().collect());
            if self.other_with(&fewer)?.is_none() {
                enough = fewer;
            }
        }
        Ok(enough)
    }

    /// What another solution breaks, of all that is offered, if there is one with these printed.
    fn other_with(&mut self, printed: &Set) -> Result<Option<Set>, GivenUp> {
        self.n_verdicts += 1;
        if self.n_verdicts > self.effort.verdicts {
            return Err(GivenUp);
        }
        let with = printed.iter().fold(self.puzzle.clone(), |puzzle, it| self.offered[it].added_to(&puzzle));
        let many = match verdict(&with, self.effort.limit) {
            Verdict::One(only) if only == *self.chosen => return Ok(None),
            Verdict::Many(it) => it,
            // The chosen one is a solution and all that is offered is true of it, or nothing can be said.
            Verdict::One(_) | Verdict::None | Verdict::Undecided => return Err(GivenUp),
        };
        let other = if many.first == *self.chosen { many.second } else { many.first };
        let is_broken = |it: &usize| !self.offered[*it].is_true_of(&other);
        Ok(Some((0..self.offered.len()).filter(is_broken).collect()))
    }
}
