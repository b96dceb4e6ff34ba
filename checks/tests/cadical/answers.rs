//! What is spare, what mends, what settles and what contradicts: CaDiCaL says the same, on every size.

use grid::{Cell, Digit, Grid, House, Size};
use prove::{
    Change, Digging, Effort, Limit, Many, Member, Printed, Solutions, Spare, Verdict, changes_at, conflict,
    fewest, irreducible, mends, open_clues, open_givens, single_givens, spare, verdict,
};
use rulebook::{Clue, Puzzle};

use crate::clauses::{self, Statement};
use crate::random_grid::random_grid;
use crate::seeded::{self, Seeded};
use crate::solver::CaDiCaL;

/// Enough up to 10x10. On larger boards some things stay undecided, about which nothing is claimed.
const LIMIT: Limit = Limit(1_000);

/// So little that what is decided is decided soon, by CaDiCaL too.
const FEW: Limit = Limit(30);

/// Solutions of mended puzzles are counted so far.
const CAP: u64 = 5;

/// Of answers that are the same for very many things, so many are asked about, drawn at random.
const N_ASKED: usize = 12;

fn sizes() -> impl Iterator<Item = Size> {
    (2..=8).flat_map(|width| (2..=8).filter_map(move |height| Size::new(width, height)))
}

/// Sizes on which little can be decided soon.
fn large_sizes() -> impl Iterator<Item = Size> {
    [(4, 3), (3, 4), (5, 3), (4, 4)].into_iter().filter_map(|(width, height)| Size::new(width, height))
}

/// How many solutions CaDiCaL finds, up to a number.
fn counted(puzzle: &Puzzle, up_to: usize) -> usize {
    clauses::solutions(puzzle, up_to, Statement::Definition, &mut CaDiCaL::default()).len()
}

fn is_decided(size: Size, n_undecided: usize) {
    assert!(n_undecided == 0 || size.side() > 10, "{n_undecided} undecided on {size:?}");
}

fn drawn<T: Clone>(from: &[T], seeded: &mut Seeded) -> Vec<T> {
    let mut drawn = seeded.shuffled(from.iter().cloned());
    drawn.truncate(N_ASKED);
    drawn
}

/// A puzzle with all sums and one solution, and that solution.
fn sound(size: Size, seeded: &mut Seeded) -> (Puzzle, Grid) {
    let grid = random_grid(size, seeded);
    let mut cells = seeded.shuffled(size.cells());
    // On large boards two fifths are shown, so that every answer is found soon.
    let mut shown = cells.split_off(size.n_cells() * if size.side() > 9 { 60 } else { 80 } / 100);
    loop {
        let givens = Grid::from_fn(size, |it| grid.get(it).filter(|_| shown.contains(&it)));
        let puzzle = Puzzle::new(givens, seeded::true_clues(&grid));
        if verdict(&puzzle, LIMIT) == Verdict::One(grid.clone()) {
            return (puzzle, grid);
        }
        shown.extend(cells.pop());
    }
}

/// The puzzle with one thing printed replaced so that there is no solution.
fn misprinted(puzzle: &Puzzle, seeded: &mut Seeded) -> Puzzle {
    loop {
        let printed = Printed::all(puzzle);
        let changes = changes_at(puzzle, printed[seeded.below(printed.len())]);
        let wrong = changes[seeded.below(changes.len())].applied_to(puzzle);
        if verdict(&wrong, LIMIT) == Verdict::None {
            return wrong;
        }
    }
}

#[test]
fn what_is_spare_and_what_is_needed() {
    for size in sizes() {
        let mut seeded = Seeded::new(201);
        let (puzzle, _) = sound(size, &mut seeded);
        let known = spare(&puzzle, LIMIT);
        let left = irreducible(&puzzle, &known, LIMIT);
        let Spare { spare, needed, undecided } = known;
        is_decided(size, undecided.len() + left.undecided.len());
        for it in drawn(&spare, &mut seeded) {
            assert_eq!(counted(&it.taken_from(&puzzle), 2), 1, "{it:?} of {puzzle:?}");
        }
        for it in drawn(&needed, &mut seeded) {
            assert_eq!(counted(&it.taken_from(&puzzle), 2), 2, "{it:?} of {puzzle:?}");
        }
        assert!(!left.gone.is_empty() || spare.is_empty());
        let page = left.gone.iter().fold(puzzle.clone(), |page, it| it.taken_from(&page));
        assert_eq!(page, left.puzzle);
        // On larger boards CaDiCaL takes minutes where so many nodes leave nothing to spare; forms for which fewer do
        // are held against it below.
        if size.side() <= 10 {
            assert_eq!(counted(&left.puzzle, 2), 1, "{:?}", left.puzzle);
            for it in drawn(&Printed::all(&left.puzzle), &mut seeded) {
                assert_eq!(counted(&it.taken_from(&left.puzzle), 2), 2, "{it:?} of {:?}", left.puzzle);
            }
        }
    }
}

#[test]
fn a_large_irreducible_form_needs_everything_in_it() {
    for size in large_sizes() {
        let mut seeded = Seeded::new(211);
        let (puzzle, solution) = sound(size, &mut seeded);
        let left = irreducible(&puzzle, &spare(&puzzle, FEW), FEW);
        assert!(left.gone.len() > size.n_cells() / 4, "{left:?}");
        let other = |page: &Puzzle| {
            clauses::another_solution(page, &solution, Statement::Definition, &mut CaDiCaL::default())
        };
        assert!(left.puzzle.is_solved_by(&solution));
        assert_eq!(other(&left.puzzle), None, "{:?}", left.puzzle);
        // Of what stayed because it was not clear nothing is claimed.
        let mut needed = Printed::all(&left.puzzle);
        needed.retain(|it| !left.undecided.contains(it));
        assert!(needed.len() >= N_ASKED, "{left:?}");
        // On 12x12 all of it; beyond, CaDiCaL takes seconds for each thing.
        let n_asked = if size.side() == 12 { needed.len() } else { 5 };
        for it in seeded.shuffled(needed).into_iter().take(n_asked) {
            let page = it.taken_from(&left.puzzle);
            let theirs = other(&page).unwrap_or_else(|| panic!("{it:?} of {:?}", left.puzzle));
            assert!(page.is_solved_by(&theirs) && !it.is_true_of(&theirs), "{it:?} of {:?}", left.puzzle);
        }
    }
}

#[test]
fn every_mend_leaves_as_many_solutions_as_is_said() {
    for size in sizes() {
        let mut seeded = Seeded::new(202);
        let (sound, _) = sound(size, &mut seeded);
        let puzzle = misprinted(&sound, &mut seeded);
        let found = mends(&puzzle, CAP, LIMIT);
        is_decided(size, found.mends.iter().filter(|it| it.solutions.is_none()).count());
        for it in found.mends.iter().filter(|it| it.solutions.is_some()) {
            let n = counted(&it.change.applied_to(&puzzle), CAP as usize) as u64;
            let expected = if n < CAP { Solutions::Exactly(n) } else { Solutions::AtLeast(n) };
            assert_eq!(it.solutions, Some(expected), "{:?} of {puzzle:?}", it.change);
        }
        // All others leave none.
        let all = Printed::all(&puzzle).into_iter().flat_map(|it| changes_at(&puzzle, it));
        let others: Vec<Change> =
            all.filter(|it| found.mends.iter().all(|mend| mend.change != *it)).collect();
        assert_eq!(others.len() + found.mends.len(), found.n_changes);
        for it in drawn(&others, &mut seeded) {
            assert_eq!(counted(&it.applied_to(&puzzle), 1), 0, "{it:?} of {puzzle:?}");
        }
    }
}

#[test]
fn what_settles_leaves_the_chosen_solution_and_nothing_less_does() {
    let effort = Effort { limit: LIMIT, verdicts: 2_000, choices: 20_000 };
    for size in sizes() {
        let mut seeded = Seeded::new(203);
        let (sound, solution) = sound(size, &mut seeded);
        let puzzle = with_several(&sound, &mut seeded);
        let Verdict::Many(many) = verdict(&puzzle, LIMIT) else { unreachable!("there are several") };
        for offered in [open_givens(&puzzle, &solution), open_clues(&puzzle, &solution)] {
            let Some(settling) = fewest(&puzzle, &solution, &offered, effort) else {
                let all = offered.iter().fold(puzzle.clone(), |page, it| it.added_to(&page));
                assert_eq!(counted(&all, 2), 2, "{puzzle:?}");
                continue;
            };
            let settled = settling.added.iter().fold(puzzle.clone(), |page, it| it.added_to(&page));
            let theirs = clauses::solutions(&settled, 2, Statement::Definition, &mut CaDiCaL::default());
            assert_eq!(theirs, std::slice::from_ref(&solution), "{settling:?} for {puzzle:?}");
            for it in &settling.added {
                assert_eq!(counted(&it.taken_from(&settled), 2), 2, "{it:?} of {settling:?} for {puzzle:?}");
            }
        }
        single_givens_leave_one(&puzzle, &many, &mut seeded);
    }
}

/// Without things printed, one after another, until there are several solutions.
fn with_several(puzzle: &Puzzle, seeded: &mut Seeded) -> Puzzle {
    let mut fewer = puzzle.clone();
    for it in seeded.shuffled(Printed::all(puzzle)) {
        fewer = it.taken_from(&fewer);
        if matches!(verdict(&fewer, LIMIT), Verdict::Many(_)) {
            break;
        }
    }
    fewer
}

fn single_givens_leave_one(puzzle: &Puzzle, many: &Many, seeded: &mut Seeded) {
    let found = single_givens(puzzle, many, LIMIT);
    let size = puzzle.size();
    is_decided(size, found.n_undecided);
    for it in drawn(&found.givens, seeded) {
        assert_eq!(counted(&it.added_to(puzzle), 2), 1, "{it:?} for {puzzle:?}");
    }
    let open = size.cells().filter(|it| !puzzle.is_given(*it));
    let all = open.flat_map(|cell| size.digits().iter().map(move |it| Printed::Given(cell, it)));
    let others: Vec<Printed> = all.filter(|it| !found.givens.contains(it)).collect();
    if found.n_undecided > 0 {
        return;
    }
    for it in drawn(&others, seeded) {
        assert_ne!(counted(&it.added_to(puzzle), 2), 1, "{it:?} for {puzzle:?}");
    }
}

#[test]
fn a_conflict_contradicts_itself_and_nothing_less_of_it_does() {
    let digging = Digging { work: 400, limit: Limit(200), more_work: 0, choices: 1 };
    for size in sizes() {
        let mut seeded = Seeded::new(204);
        let (sound, _) = sound(size, &mut seeded);
        let puzzle = misprinted(&sound, &mut seeded);
        let found = conflict(&puzzle, digging).unwrap_or_else(|| panic!("a conflict of {puzzle:?}"));
        is_irreducible(size, &found.members);
    }
}

#[test]
fn a_large_conflict_with_many_members_needs_them_all() {
    let digging = Digging { work: 1_500, limit: Limit(200), more_work: 0, choices: 1 };
    for size in large_sizes() {
        let mut seeded = Seeded::new(207);
        let (sound, _) = sound(size, &mut seeded);
        let left = irreducible(&sound, &spare(&sound, FEW), FEW).puzzle;
        // With nothing to spare a wrong sum contradicts much.
        let drawn = std::iter::repeat_with(|| conflict(&with_a_wrong_sum(&left, &mut seeded), digging));
        let found = drawn.flatten().find(|it| it.members.len() >= 12).expect("it goes on for ever");
        is_irreducible(size, &found.members);
    }
}

/// The puzzle with one sum replaced so that there is no solution.
fn with_a_wrong_sum(puzzle: &Puzzle, seeded: &mut Seeded) -> Puzzle {
    loop {
        let clue = puzzle.clues()[seeded.below(puzzle.clues().len())];
        let changes = changes_at(puzzle, Printed::Clue(clue));
        let wrong = changes[seeded.below(changes.len())].applied_to(puzzle);
        if verdict(&wrong, LIMIT) == Verdict::None {
            return wrong;
        }
    }
}

fn is_irreducible(size: Size, members: &[Member]) {
    assert!(!can_hold(size, members), "{members:?}");
    for gone in members {
        // A line takes its clue along.
        let stays = |it: &&Member| match (gone, *it) {
            (Member::House(house), Member::Clue(clue)) => clue.line != *house,
            _ => *it != gone,
        };
        let rest: Vec<Member> = members.iter().filter(stays).copied().collect();
        assert!(can_hold(size, &rest), "{members:?} without {gone:?}");
    }
}

fn can_hold(size: Size, members: &[Member]) -> bool {
    let (mut givens, mut clues, mut houses) = (Grid::empty(size), Vec::<Clue>::new(), Vec::<House>::new());
    for it in members {
        match *it {
            Member::Given(cell, digit) => givens = with(givens, cell, digit),
            Member::Clue(clue) => clues.push(clue),
            Member::House(house) => houses.push(house),
        }
    }
    clauses::can_hold(&givens, &clues, &houses, Statement::Definition, &mut CaDiCaL::default())
}

fn with(grid: Grid, cell: Cell, digit: Digit) -> Grid {
    grid.with(cell, Some(digit))
}
