//! Puzzles with all that is needed to ask about them, and what holds for every reason.

use std::sync::OnceLock;

use grid::{Cell, Digit, Size};
use reason::{Settings, Solved, Why, explain};
use replay::{Cap, Checked, judge};
use rulebook::{Claim, Puzzle};
use trail::FactId;

use crate::support::seeded::{self, Made};

/// Side, sandwich clues, seed, and of how many claims one is tried: boards of 9x9 have hundreds.
const CORPUS: [(u8, usize, u64, usize); 6] =
    [(4, 8, 0, 1), (4, 0, 1, 1), (6, 12, 0, 3), (6, 12, 1, 3), (9, 18, 0, 23), (9, 0, 1, 23)];

pub(crate) const SETTINGS: Settings = Settings::THOROUGH;

/// A puzzle with all that is needed to ask about it.
pub(crate) struct Known {
    pub(crate) name: String,
    pub(crate) made: Made,
    explained: Checked,
    one_in: usize,
}

impl Known {
    /// What questions are asked about.
    pub(crate) fn solved(&self) -> Solved<'_> {
        let walkthrough = self.explained.walkthrough().trail();
        Solved { puzzle: &self.made.puzzle, solution: &self.made.solution, walkthrough }
    }

    pub(crate) fn size(&self) -> Size {
        self.made.puzzle.size()
    }

    /// What the cell holds.
    pub(crate) fn answer(&self, cell: Cell) -> Digit {
        self.made.solution.get(cell).unwrap()
    }

    /// Whether the claim is true.
    pub(crate) fn holds(&self, claim: Claim) -> bool {
        claim.holds(self.size(), |it| self.answer(it))
    }

    /// Every claim about one cell, true and untrue; on large boards some of them.
    pub(crate) fn claims(&self) -> Vec<Claim> {
        let about = |cell| {
            let digits = self.size().digits().iter();
            digits
                .flat_map(move |it| [Claim::Is(cell, it), Claim::IsNot(cell, it)])
                .chain([Claim::Crust(cell), Claim::Filling(cell)])
        };
        self.size().cells().flat_map(about).step_by(self.one_in).collect()
    }

    /// What every cell holds, and those of the claims that are true.
    pub(crate) fn true_claims(&self) -> Vec<Claim> {
        let digits = self.size().cells().map(|it| Claim::Is(it, self.answer(it)));
        digits.chain(self.claims().into_iter().filter(|it| self.holds(*it))).collect()
    }
}

/// The puzzles, explained once for all tests.
pub(crate) fn corpus() -> &'static [Known] {
    static KNOWN: OnceLock<Vec<Known>> = OnceLock::new();
    let known = CORPUS.iter().map(|&(side, n_clues, seed, one_in)| {
        let made = seeded::puzzle(Size::of_side(side).unwrap(), n_clues, seed);
        let explained = explain(&made.puzzle, &made.solution, SETTINGS).unwrap();
        Known { name: format!("seed {seed} on {side}x{side}"), made, explained, one_in }
    });
    KNOWN.get_or_init(|| known.collect())
}

/// The proof follows step by step, `by` is its end, settles the claim, and needs every fact before it.
pub(crate) fn check_reason(name: &str, board: &Puzzle, claim: Claim, why: &Why) {
    let (size, trail) = (board.size(), why.trail());
    assert_eq!(why.goal, claim, "{name}");
    for (_, fact) in trail.facts() {
        match fact.cites() {
            Some(cites) => _ = judge(board, trail, &fact.claim(), cites, Cap(100_000)).unwrap(),
            None => assert!(matches!(fact.claim(), Claim::Is(it, _) if board.is_given(it)), "{name}"),
        }
    }
    let end: Vec<FactId> = trail.facts().filter(|(_, it)| it.claim() == why.by).map(|it| it.0).collect();
    assert_eq!(end.len(), 1, "{name}: {:?}", why.by);
    assert_eq!(trail.fact(end[0]).step(), trail.steps().next_back().map(|it| it.0), "{name}");
    assert_eq!(&trail.needed_for(end), trail, "{name}");
    match why.seen_in {
        Some(house) => assert!(size.cells_of(house).contains(&why.by.cell().unwrap()), "{name}"),
        None => {
            let fits = |it: &Digit| why.by.holds(size, |_| *it);
            assert_eq!(why.by.cell(), claim.cell(), "{name}");
            assert!(size.digits().iter().filter(fits).all(|it| claim.holds(size, |_| it)), "{name}");
        }
    }
}
