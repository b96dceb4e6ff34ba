//! Whatever is on the page, nothing breaks and nothing false is said: pages made of arbitrary bytes.
//!
//! `PROPTEST_CASES` says how many pages are read; more go further along the same row.

use std::collections::BTreeMap;

use grid::{Digit, Grid, Size};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use prove::{
    Change, Digging, Effort, Limit, Member, Mends, Printed, Solutions, Spare, Verdict, canonical, changes_at,
    conflict, count, differences, fewest, irreducible, mends_at, open_clues, open_givens, single_givens,
    spare, verdict,
};
use rulebook::{Clue, Puzzle, SANDWICH};

use crate::plain_search;
use crate::seeded::{self, Seeded};

/// Little, so that large boards full of nonsense are left soon.
const LIMIT: Limit = Limit(60);

const CAP: u64 = 12;

const DIGGING: Digging = Digging { work: 300, limit: Limit(20), more_work: 100, choices: 200 };

const EFFORT: Effort = Effort { limit: Limit(20), verdicts: 60, choices: 200 };

fn config() -> ProptestConfig {
    ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(4), ..Default::default() }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn nothing_false_is_said(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let puzzle = read(&bytes);
        let answer = verdict(&puzzle, LIMIT);
        a_verdict_is_true(&puzzle, &answer);
        what_is_spare_is_sorted(&puzzle);
        mends_are_true(&puzzle);
        a_conflict_is_one(&puzzle, &answer);
        what_settles_is_true(&puzzle, &answer);
        _ = canonical(&puzzle, Limit(30));
    }
}

/// How many solutions there are, up to the cap, where the plain search comes to an end.
fn counted_plainly(puzzle: &Puzzle) -> Option<u64> {
    let is_small = match puzzle.size().side() {
        4 => true,
        6 => puzzle.givens().filled().count() >= 14,
        _ => false,
    };
    is_small.then(|| plain_search::count(puzzle, CAP))
}

fn a_verdict_is_true(puzzle: &Puzzle, answer: &Verdict) {
    let n = match answer {
        Verdict::None => 0,
        Verdict::One(only) => {
            assert!(puzzle.is_solved_by(only));
            1
        }
        Verdict::Many(many) => {
            assert!(many.first != many.second && !differences(many).is_empty());
            assert!(puzzle.is_solved_by(&many.first) && puzzle.is_solved_by(&many.second));
            2
        }
        Verdict::Undecided => return,
    };
    assert!(count(puzzle, 2, LIMIT).is_none_or(|it| it == n), "{puzzle:?}");
    assert!(counted_plainly(puzzle).is_none_or(|it| it.min(2) == n), "{puzzle:?}");
}

fn what_is_spare_is_sorted(puzzle: &Puzzle) {
    let known = spare(puzzle, LIMIT);
    let left = irreducible(puzzle, &known, LIMIT);
    assert!(left.gone.iter().all(|it| !Printed::all(&left.puzzle).contains(it)));
    let Spare { spare, needed, undecided } = known;
    assert_eq!(spare.len() + needed.len() + undecided.len(), Printed::all(puzzle).len());
    for (printed, expected) in [(spare, true), (needed, false)] {
        for it in printed {
            let n = counted_plainly(&it.taken_from(puzzle));
            assert!(n.is_none_or(|it| (it == 1) == expected), "{it:?} of {puzzle:?}");
        }
    }
}

fn mends_are_true(puzzle: &Puzzle) {
    // All of a large page would take long, so there only what is printed first and last.
    let mut tried = Printed::all(puzzle);
    if puzzle.size().side() > 6 && tried.len() > 2 {
        tried.drain(1..tried.len() - 1);
    }
    let found: Mends = tried.iter().map(|it| mends_at(puzzle, *it, CAP, LIMIT)).collect();
    let changes: Vec<Change> = tried.into_iter().flat_map(|it| changes_at(puzzle, it)).collect();
    assert_eq!(found.n_changes, changes.len());
    assert!(found.mends.iter().all(|it| changes.contains(&it.change)));
    for change in changes {
        let said = found.mends.iter().find(|it| it.change == change).map(|it| it.solutions);
        let n = counted_plainly(&change.applied_to(puzzle));
        let is_true = n.is_none_or(|n| match said {
            None => n == 0,
            Some(None) => true,
            Some(Some(Solutions::Exactly(said))) => n == said,
            Some(Some(Solutions::AtLeast(said))) => n >= said,
        });
        assert!(is_true, "{change:?} is said to leave {said:?} in {puzzle:?}, but leaves {n:?}");
    }
}

fn a_conflict_is_one(puzzle: &Puzzle, answer: &Verdict) {
    let Some(found) = conflict(puzzle, DIGGING) else { return };
    assert!(matches!(answer, Verdict::None | Verdict::Undecided), "{puzzle:?}");
    assert!((1..=found.members.len()).contains(&found.at_least));
    // What contradicts some houses contradicts all of them.
    let blank = Puzzle::new(Grid::empty(puzzle.size()), []);
    let printed = found.members.iter().filter_map(|it| match *it {
        Member::Given(cell, digit) => Some(Printed::Given(cell, digit)),
        Member::Clue(clue) => Some(Printed::Clue(clue)),
        Member::House(_) => None,
    });
    let part = printed.fold(blank, |page, it| it.added_to(&page));
    let is_impossible = |it| matches!(it, Verdict::None | Verdict::Undecided);
    assert!(is_impossible(verdict(&part, LIMIT)), "{found:?} of {puzzle:?}");
    assert!(counted_plainly(&part).is_none_or(|it| it == 0), "{found:?} of {puzzle:?}");
}

fn what_settles_is_true(puzzle: &Puzzle, answer: &Verdict) {
    let Verdict::Many(many) = answer else { return };
    if puzzle.size().side() <= 9 {
        for it in single_givens(puzzle, many, Limit(20)).givens {
            let n = counted_plainly(&it.added_to(puzzle));
            assert!(n.is_none_or(|it| it == 1), "{it:?} for {puzzle:?}");
        }
    }
    for offered in [open_givens(puzzle, &many.first), open_clues(puzzle, &many.first)] {
        let Some(settling) = fewest(puzzle, &many.first, &offered, EFFORT) else { continue };
        assert!((1..=settling.added.len()).contains(&settling.at_least));
        let settled = settling.added.iter().fold(puzzle.clone(), |page, it| it.added_to(&page));
        let answer = verdict(&settled, Limit(1_000));
        assert_eq!(answer, Verdict::One(many.first.clone()), "{settling:?} for {puzzle:?}");
    }
}

/// Bytes, one after another, and zeros when there are no more.
struct Bytes<'a>(std::slice::Iter<'a, u8>);

impl Bytes<'_> {
    fn next(&mut self) -> u8 {
        self.0.next().copied().unwrap_or(0)
    }

    fn below(&mut self, n: usize) -> usize {
        usize::from(self.next()) % n
    }

    /// True in so many of 256 cases.
    fn chance(&mut self, of_256: u8) -> bool {
        self.next() < of_256
    }
}

/// Any bytes as a page: part of a true one or a blank, and on it some things that are as likely nonsense.
fn read(bytes: &[u8]) -> Puzzle {
    let mut bytes = Bytes(bytes.iter());
    let size = size(&mut bytes);
    let (mut givens, mut clues) = (Grid::empty(size), Vec::new());
    if bytes.chance(170) {
        let full = plain_grid(size, bytes.next());
        let (n_givens, n_clues) = (bytes.next(), bytes.next());
        givens = Grid::from_fn(size, |it| full.get(it).filter(|_| bytes.chance(n_givens)));
        clues.extend(seeded::true_clues(&full).into_iter().filter(|_| bytes.chance(n_clues)));
    }
    for _ in 0..bytes.below(5) {
        // Off the board there is no cell, and what is no digit of the size is a blank.
        if let Some(cell) = size.cell(bytes.below(18) as u8, bytes.below(18) as u8) {
            givens = givens.with(cell, Digit::new(bytes.next() % 18));
        }
    }
    // Lines of a larger board, boxes, one line twice, and numbers that no line has.
    let lines: Vec<_> = Size::of_side(16).expect("a size").houses().collect();
    for _ in 0..bytes.below(5) {
        let line = lines[bytes.below(lines.len())];
        let value = u16::from_be_bytes([if bytes.chance(30) { bytes.next() } else { 0 }, bytes.next()]);
        clues.insert(0, Clue { rule: &SANDWICH, line, value });
    }
    Puzzle::new(givens, clues)
}

/// Any size, but small ones twice as often as all others.
fn size(bytes: &mut Bytes) -> Size {
    let all: Vec<Size> =
        (2..=8).flat_map(|width| (2..=8).filter_map(move |it| Size::new(width, it))).collect();
    let small: Vec<Size> = all.iter().copied().filter(|it| it.side() <= 6).collect();
    let offered = if bytes.chance(170) { small } else { all };
    offered[bytes.below(offered.len())]
}

/// The plainest full grid of a size, its digits renamed round.
fn plain_grid(size: Size, first: u8) -> Grid {
    let (side, width, height) = (size.side(), size.box_width(), size.box_height());
    Grid::from_fn(size, |cell| {
        let (row, column) = (cell.row() - 1, cell.column() - 1);
        size.digit((row % height * width + row / height + column + first % side) % side + 1)
    })
}

#[test]
fn bytes_make_every_kind_of_page() {
    let mut seeded = Seeded::new(6);
    // By whether the plain search comes to an end, and what is said.
    let mut n_of = BTreeMap::<(bool, &str), u32>::new();
    for _ in 0..400 {
        let bytes: Vec<u8> = (0..400).map(|_| seeded.below(256) as u8).collect();
        let puzzle = read(&bytes);
        let kind = match verdict(&puzzle, LIMIT) {
            Verdict::None => "none",
            Verdict::One(_) => "one",
            Verdict::Many(_) => "many",
            Verdict::Undecided => "undecided",
        };
        *n_of.entry((counted_plainly(&puzzle).is_some(), kind)).or_default() += 1;
    }
    let n = |small, kind| n_of.get(&(small, kind)).copied().unwrap_or_default();
    for (small, kind) in
        [false, true].into_iter().flat_map(|it| ["none", "one", "many"].map(|kind| (it, kind)))
    {
        assert!(n(small, kind) >= 10, "{n_of:?}");
    }
    assert!(n(false, "undecided") >= 10, "{n_of:?}");
}
