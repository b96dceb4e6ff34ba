//! How soon a question ends once somebody asks to stop: `cargo bench -p prove --bench stops`.
//!
//! Hard questions about large boards are asked, and it is noted when they look up to see whether they should stop. The
//! longest they work without looking up is how long an interrupt may go unheard. After a while they are told
//! to stop, and it is noted how soon they then end.

#![expect(clippy::disallowed_methods, clippy::print_stdout, reason = "a bench reads the clock and prints")]

#[path = "../tests/agreement/seeded.rs"]
#[allow(dead_code, reason = "a bench draws fewer kinds of puzzle than the tests do")]
mod seeded;

use std::cell::RefCell;
use std::rc::Rc;
use std::time::{Duration, Instant};

use grid::{Grid, Size};
use prove::{
    Digging, Effort, Limit, Printed, Symmetries, Verdict, canonical_grid, conflict, count, fewest,
    interruptible, mends, open_givens, some_solution, spare, verdict,
};
use rulebook::{Clue, Puzzle};
use seeded::Seeded;

const FAR: Limit = Limit(u64::MAX);
/// So long nobody asks to stop.
const PATIENCE: Duration = Duration::from_secs(3);

fn main() {
    let size = Size::of_side(16).expect("a size");
    let mut seeded = Seeded::new(3);
    let blank = Puzzle::new(Grid::empty(size), []);
    let mut prefer = |digits: &[_]| seeded.below(digits.len());
    let full = some_solution(&blank, FAR, &mut prefer).expect("16x16 has full grids");
    let with_givens = |percent: usize, seeded: &mut Seeded| {
        let givens = Grid::from_fn(size, |it| full.get(it).filter(|_| seeded.chance(percent)));
        Puzzle::new(givens, seeded::true_clues(&full))
    };
    for percent in [0, 8, 16, 24] {
        let puzzle = with_givens(percent, &mut seeded);
        report(&format!("count, 16x16, {percent} % given"), || _ = count(&puzzle, u64::MAX, FAR));
    }
    let puzzle = with_givens(24, &mut seeded);
    report("what is spare, 16x16", || _ = spare(&puzzle, FAR));
    report("fewest givens, 16x16", || {
        let effort = Effort { limit: FAR, verdicts: usize::MAX, choices: u64::MAX };
        _ = fewest(&puzzle, &full, &open_givens(&puzzle, &full), effort);
    });
    let sparse = with_givens(14, &mut seeded);
    report("fewest givens, 16x16, fewer given", || {
        let effort = Effort { limit: FAR, verdicts: usize::MAX, choices: u64::MAX };
        _ = fewest(&sparse, &full, &open_givens(&sparse, &full), effort);
    });
    let wrong = misprinted(&with_givens(35, &mut seeded), &mut seeded);
    report("mends, 16x16", || _ = mends(&wrong, 100, FAR));
    let digging = Digging { work: u64::MAX, limit: Limit(1_000), more_work: u64::MAX, choices: u64::MAX };
    report("smallest conflict, 16x16", || _ = conflict(&wrong, digging));
    let nine = seeded::sparse_puzzle(Size::NINE, &mut seeded, |it| {
        matches!(verdict(it, Limit(1_000_000)), Verdict::One(_))
    });
    let wrong = misprinted(&nine, &mut seeded);
    report("smallest conflict, 9x9", || _ = conflict(&wrong, digging));
    let plain = Grid::from_fn(size, |cell| {
        let (row, column) = (cell.row() - 1, cell.column() - 1);
        size.digit((row % 4 * 4 + row / 4 + column) % 16 + 1)
    });
    report("canonical form, a regular 16x16 grid", || _ = canonical_grid(Symmetries::Classic, &plain, FAR));
}

/// The puzzle with one sum replaced so that there is no solution.
fn misprinted(puzzle: &Puzzle, seeded: &mut Seeded) -> Puzzle {
    loop {
        let clue = puzzle.clues()[seeded.below(puzzle.clues().len())];
        let values = clue.rule.reachable(puzzle.size());
        let value = values[seeded.below(values.len())];
        let wrong = Printed::Clue(Clue { value, ..clue }).added_to(puzzle);
        if verdict(&wrong, Limit(1_000)) == Verdict::None {
            return wrong;
        }
    }
}

/// When the question looked up.
struct Looks {
    start: Instant,
    last: Instant,
    longest: Duration,
    n: u64,
    told: Option<Instant>,
}

fn report(name: &str, question: impl FnOnce()) {
    let start = Instant::now();
    let looks =
        Rc::new(RefCell::new(Looks { start, last: start, longest: Duration::ZERO, n: 0, told: None }));
    let noted = Rc::clone(&looks);
    let is_asked = move || {
        let mut looks = noted.borrow_mut();
        let now = Instant::now();
        if looks.told.is_none() {
            looks.longest = looks.longest.max(now - looks.last);
            (looks.last, looks.n) = (now, looks.n + 1);
            looks.told = (now - looks.start > PATIENCE).then_some(now);
        }
        looks.told.is_some()
    };
    interruptible(is_asked, question);
    let looks = looks.borrow();
    let millis = |it: Duration| it.as_secs_f64() * 1e3;
    let ended = match looks.told {
        Some(it) => format!("told to stop, it ended within {:.3} ms", millis(it.elapsed())),
        None => format!("it ended by itself after {:.0} ms", millis(start.elapsed())),
    };
    println!(
        "{name}: {} looks, {:.3} ms apart at the mean and {:.3} ms at most; {ended}",
        looks.n,
        millis(looks.last - looks.start) / looks.n.max(1) as f64,
        millis(looks.longest),
    );
}
