//! A caller who wants no more gets no answer, and never a wrong one.

use std::cell::Cell;
use std::rc::Rc;

use grid::{Grid, Size};
use prove::{Digging, Limit, Printed, Verdict, canonical, conflict, count, interruptible, mends, verdict};
use rulebook::{Clue, Puzzle, SANDWICH};

const FAR: Limit = Limit(u64::MAX);

/// Says "stop" from the `n`-th time on that it is asked, and how often that was.
fn from_the(n: u32) -> (impl Fn() -> bool + 'static, Rc<Cell<u32>>) {
    let n_asked = Rc::new(Cell::new(0));
    let counted = Rc::clone(&n_asked);
    let is_asked = move || {
        counted.set(counted.get() + 1);
        counted.get() >= n
    };
    (is_asked, n_asked)
}

#[test]
fn an_endless_question_ends_when_it_is_asked_to() {
    let blank = Puzzle::new(Grid::empty(Size::NINE), []);
    let (is_asked, n_asked) = from_the(5);
    assert_eq!(interruptible(is_asked, || count(&blank, u64::MAX, FAR)), None);
    assert_eq!(n_asked.get(), 5, "it looks up now and then, and ends at once");
    // Nobody asks any more.
    assert_eq!(count(&blank, 10, FAR), Some(10));
}

#[test]
fn whoever_does_not_ask_gets_the_same_answer() {
    let puzzle = wrong();
    let found = mends(&puzzle, 10, Limit(100_000));
    assert_eq!(interruptible(|| false, || mends(&puzzle, 10, Limit(100_000))), found);
    assert!(!found.mends.is_empty());
    // Interrupted in the middle: less is known, and nothing else.
    let (is_asked, _) = from_the(4);
    let partly = interruptible(is_asked, || mends(&puzzle, 10, Limit(100_000)));
    let known = partly.mends.iter().filter(|it| it.solutions.is_some());
    assert!(known.clone().all(|it| found.mends.contains(it)));
    assert!(known.count() < found.mends.len());
}

#[test]
fn a_conflict_is_given_up() {
    let digging = Digging { work: u64::MAX, limit: FAR, more_work: u64::MAX, choices: u64::MAX };
    let puzzle = wrong();
    for n in [1, 40] {
        let (is_asked, _) = from_the(n);
        // The first may be found before it is asked; to prove it the smallest would take longer.
        let found = interruptible(is_asked, || conflict(&puzzle, digging));
        assert!(found.is_none_or(|it| !it.is_smallest()), "{n}");
    }
}

#[test]
fn writing_down_a_large_page_is_given_up() {
    let size = Size::of_side(16).unwrap();
    // Of sums that have many ways, so that there is much to be written; and a digit twice in a row.
    let clues = size.lines().map(|line| Clue { rule: &SANDWICH, line, value: 59 });
    let one = size.digit(1);
    let givens = [1, 2].iter().fold(Grid::empty(size), |it, at| it.with(size.cell(1, *at).unwrap(), one));
    let puzzle = Puzzle::new(givens, clues);
    let digging = Digging { work: 1_000, limit: Limit(200), more_work: 0, choices: 1 };
    let (is_asked, n_asked) = from_the(u32::MAX);
    let found = interruptible(is_asked, || conflict(&puzzle, digging)).expect("a conflict");
    assert_eq!(found.members.len(), 3);
    assert!(n_asked.get() > 32, "it looks up before each clue");
    let (is_asked, n_asked) = from_the(5);
    assert_eq!(interruptible(is_asked, || conflict(&puzzle, digging)), None);
    assert_eq!(n_asked.get(), 5);
}

#[test]
fn a_canonical_form_is_given_up() {
    let puzzle = Puzzle::new(Grid::empty(Size::NINE), []);
    assert!(canonical(&puzzle, FAR).is_some());
    assert_eq!(interruptible(|| true, || canonical(&puzzle, FAR)), None);
}

#[test]
fn the_inner_callback_counts_until_it_is_answered() {
    let blank = Puzzle::new(Grid::empty(Size::NINE), []);
    let ask = || verdict(&blank, Limit(1_000));
    let (inner, outer) = interruptible(|| true, || (interruptible(|| false, ask), ask()));
    assert!(matches!(inner, Verdict::Many(_)));
    assert_eq!(outer, Verdict::Undecided);
}

/// A puzzle with a given that its sums do not allow.
fn wrong() -> Puzzle {
    let givens = "..........1...8..7.......................9.....................76...........8....";
    let sums = [9, 7, 0, 0, 18, 20, 4, 0, 0, 0, 0, 0, 0, 0, 0, 12, 0, 11];
    let clues = Size::NINE.lines().zip(sums).map(|(line, value)| Clue { rule: &SANDWICH, line, value });
    let puzzle = Puzzle::new(Grid::from_line(givens).unwrap(), clues);
    let Verdict::Many(many) = verdict(&puzzle, FAR) else { panic!("it has several solutions") };
    let open = Size::NINE.cells().filter(|it| !puzzle.is_given(*it));
    let others = open.flat_map(|cell| Size::NINE.digits().iter().map(move |it| Printed::Given(cell, it)));
    let mut wrong = others.filter(|it| !it.is_true_of(&many.first)).map(|it| it.added_to(&puzzle));
    wrong.find(|it| verdict(it, FAR) == Verdict::None).unwrap()
}
