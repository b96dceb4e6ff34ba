//! Part of a position: what is known of some houses, on a board that is otherwise empty.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, Grid, House, Size};
use reason::{Technique, View};
use rulebook::{Claim, Puzzle};
use trail::{Argument, Cites, Origin, Proposal, TechniqueId};

/// Some houses, and perhaps a cell elsewhere that is asked about.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) houses: BTreeSet<House>,
    pub(super) cell: Option<Cell>,
}

impl Part {
    /// Of the houses that the claim rests on those that it takes to show it, once it is told what is left to each of
    /// their cells and to the cell of the claim. None if the technique does not show it from what is known.
    pub(super) fn fewest_houses(
        position: &View,
        asked: &dyn Technique,
        claim: &Claim,
        cites: &Cites,
    ) -> Option<Part> {
        let shows = |part: &Part| {
            let extract = Extract::of(position, part);
            extract.view().is_some_and(|shown| !asked.find_wanted(&shown, &|it| it == claim).is_empty())
        };
        // A technique may look at more than it rests on, to see whether what it says serves something.
        let all = || position.size().houses().collect();
        let starts = [houses_of(position, claim, cites), all()];
        let mut starts = starts.into_iter().map(|houses| Part { houses, cell: claim.cell() });
        let mut part = starts.find(shows)?;
        for house in part.houses.clone() {
            let mut fewer = part.clone();
            fewer.houses.remove(&house);
            if !fewer.houses.is_empty() && shows(&fewer) {
                part = fewer;
            }
        }
        Some(part)
    }

    /// Whether the claim is about one of its cells, or one of its houses.
    pub(super) fn has(&self, size: Size, claim: &Claim) -> bool {
        match (claim.cell(), claim.house()) {
            (Some(cell), _) => self.cells(size).contains(cell),
            (None, house) => house.is_some_and(|it| self.houses.contains(&it)),
        }
    }

    /// The cells that are shown.
    pub(super) fn cells(&self, size: Size) -> CellSet {
        self.houses.iter().flat_map(|it| size.cells_of(*it)).chain(self.cell).collect()
    }
}

/// What is printed, and what is told besides.
#[derive(Clone, Debug)]
pub(super) struct Extract {
    /// The given digits and clues.
    pub(super) puzzle: Puzzle,
    /// What is told of kinds and of houses, and then which digits cells cannot be.
    told: [Vec<Claim>; 2],
}

impl Extract {
    /// Everything that the position knows of that part.
    pub(super) fn of(position: &View, part: &Part) -> Extract {
        let size = position.size();
        let (houses, cells) = (&part.houses, part.cells(size));
        let givens = Grid::from_fn(size, |it| position.digit(it).filter(|_| cells.contains(it)));
        let clues = position.puzzle().clues().iter().filter(|it| houses.contains(&it.line));
        let open: Vec<Cell> = cells.iter().filter(|it| position.digit(*it).is_none()).collect();
        let kinds = open.iter().filter_map(|it| match () {
            () if position.is_crust(*it) => Some(Claim::Crust(*it)),
            () if position.is_filling(*it) => Some(Claim::Filling(*it)),
            () => None,
        });
        let of_houses = position.house_facts().map(|it| it.1);
        let of_houses = of_houses.filter(|it| it.house().is_some_and(|it| houses.contains(&it)));
        let struck = open.iter().flat_map(|cell| {
            let digits = size.digits() - position.candidates(*cell);
            digits.iter().map(|it| Claim::IsNot(*cell, it)).collect::<Vec<_>>()
        });
        Extract {
            puzzle: Puzzle::new(givens, clues.copied()),
            told: [kinds.chain(of_houses).collect(), struck.collect()],
        }
    }

    /// That page, with those claims told.
    pub(super) fn telling(puzzle: Puzzle, claims: Vec<Claim>) -> Extract {
        let (struck, others) = claims.into_iter().partition(|it| matches!(it, Claim::IsNot(..)));
        Extract { puzzle, told: [others, struck] }
    }

    /// As much of what is shown as the step rests on.
    pub(super) fn cited_by(shown: &View, step: &Proposal) -> Extract {
        let cites = step.conclusions.iter().fold(Cites::default(), |all, (_, it)| all.and(it));
        let facts: Vec<_> = cites.facts.iter().map(|it| shown.trail().fact(*it)).collect();
        let is_given = |cell: Cell| facts.iter().any(|it| *it.origin() == Origin::Page(cell));
        let givens = Grid::from_fn(shown.size(), |it| shown.digit(it).filter(|_| is_given(it)));
        let clues = cites.clues.iter().filter_map(|it| shown.puzzle().clue(*it)).copied();
        let told = facts.iter().filter(|it| it.step().is_some()).map(|it| it.claim());
        Extract::telling(Puzzle::new(givens, clues), told.collect())
    }

    /// What it shows; none if that cannot be told.
    pub(super) fn view(&self) -> Option<View<'_>> {
        let mut view = View::new(&self.puzzle);
        for claims in &self.told {
            let news = claims.iter().filter(|it| view.is_news(**it));
            let conclusions: Vec<(Claim, Cites)> = news.map(|it| (*it, Cites::default())).collect();
            if !conclusions.is_empty() {
                // Told, not argued for: whatever argument has no parts will do.
                let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
                view.take(Proposal { technique: TechniqueId::SMALL_ARGUMENT, argument, conclusions }).ok()?;
            }
        }
        Some(view)
    }
}

/// Every house that is cited, by itself, with its clue or with a fact about it.
fn houses_of(position: &View, claim: &Claim, cites: &Cites) -> BTreeSet<House> {
    let clues = cites.clues.iter().filter_map(|it| position.puzzle().clue(*it)).map(|it| it.line);
    let facts = cites.facts.iter().map(|it| position.trail().fact(*it).claim());
    let facts = facts.chain([*claim]).filter_map(|it| it.house());
    cites.houses.iter().copied().chain(clues).chain(facts).collect()
}
