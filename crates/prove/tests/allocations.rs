//! The search asks for no memory: what it needs was made for the first puzzle of the size.

use std::alloc::{GlobalAlloc, Layout, System};
use std::cell::Cell;

use grid::{Grid, Size};
use prove::{Limit, count};
use rulebook::Puzzle;

#[allow(dead_code, reason = "only full grids and their sums are drawn here")]
#[path = "agreement/seeded.rs"]
mod seeded;

/// The system's allocator, which also counts how often this thread asks it for memory.
struct Counting;

thread_local! {
    static N_ASKED: Cell<u64> = const { Cell::new(0) };
}

// SAFETY: everything is passed on to the system's allocator as it is; counting needs no memory of its own, because
// a `const` thread-local without a destructor is not made on first use.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        N_ASKED.set(N_ASKED.get() + 1);
        // SAFETY: the caller keeps to the contract.
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, memory: *mut u8, layout: Layout) {
        // SAFETY: as above.
        unsafe { System.dealloc(memory, layout) }
    }
}

#[global_allocator]
static COUNTING: Counting = Counting;

#[test]
fn a_search_through_many_nodes_asks_for_no_memory() {
    let mut seeded = seeded::Seeded::new(71);
    let grid = seeded::full_grid(Size::NINE, &mut seeded);
    let without_givens = |clues| Puzzle::new(Grid::empty(Size::NINE), clues);
    let all_sums = without_givens(seeded::true_clues(&grid));
    // Nearly as many levels as can be, and solutions without end.
    let blank = without_givens(Vec::new());
    let n_asked = |puzzle: &Puzzle, n_nodes| {
        let before = N_ASKED.get();
        count(puzzle, u64::MAX, Limit(n_nodes));
        N_ASKED.get() - before
    };
    assert!(n_asked(&all_sums, 20_000) > 0, "the tables of the size and the sums are made");
    n_asked(&blank, 20_000);
    for puzzle in [&all_sums, &blank] {
        assert_eq!(n_asked(puzzle, 20_000), 0, "{puzzle:?}");
    }
}
