//! Every size that the paper comes in, up to 16x16.

use grid::{Grid, Size};
use prove::{Limit, Verdict, some_solution, verdict};
use rulebook::Puzzle;

use crate::seeded::{self, Seeded};

const LIMIT: Limit = Limit(200_000);

fn sizes() -> Vec<Size> {
    let all = (2..=8).flat_map(|width| (2..=8).filter_map(move |height| Size::new(width, height)));
    all.collect()
}

fn random_grid(size: Size, seeded: &mut Seeded) -> Grid {
    some_solution(&Puzzle::new(Grid::empty(size), []), LIMIT, &mut |digits| seeded.below(digits.len()))
        .unwrap_or_else(|| panic!("a grid of {size:?}"))
}

#[test]
fn every_size_is_decided() {
    let sizes = sizes();
    assert_eq!(sizes.len(), 19, "{sizes:?}");
    for size in sizes {
        let mut seeded = Seeded::new(31);
        let grid = random_grid(size, &mut seeded);
        let sums = seeded::true_clues(&grid);

        let shown = Grid::from_fn(size, |it| grid.get(it).filter(|_| seeded.chance(65)));
        let puzzle = Puzzle::new(shown.clone(), sums.clone());
        match verdict(&puzzle, LIMIT) {
            Verdict::One(only) => assert_eq!(only, grid, "{size:?}"),
            Verdict::Many(many) => {
                assert_ne!(many.first, many.second);
                assert!(puzzle.is_solved_by(&many.first) && puzzle.is_solved_by(&many.second), "{size:?}");
            }
            other => panic!("{size:?}: {other:?}"),
        }

        // A full page has the one solution that it shows, and with a wrong sum none.
        assert_eq!(verdict(&Puzzle::new(grid.clone(), sums.clone()), LIMIT), Verdict::One(grid.clone()));
        let mut wrong = sums;
        wrong[0].value += 1;
        assert_eq!(verdict(&Puzzle::new(grid, wrong), LIMIT), Verdict::None, "{size:?}");
    }
}
