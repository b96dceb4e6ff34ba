//! Is that so, and does it follow from a board? Over puzzles from a seed.

use grid::{CellSet, Digit, DigitSet, Grid};
use reason::{Judgement, Known as Techniques, Position, Settings, TECHNIQUES, judge_claim, n_steps_to};
use rulebook::{Claim, Clue, Puzzle};

use crate::support::known::{Known, SETTINGS, check_reason, corpus};
use crate::support::seeded::Seeded;

#[test]
fn a_claim_is_judged_by_the_solution_and_by_what_follows() {
    const WITHIN: usize = 4;
    let mut n = [0; 4];
    for (known, board) in corpus().iter().flat_map(|it| boards(it).map(move |board| (it, board))) {
        for claim in known.claims().into_iter().step_by(3) {
            let name = format!("{}: {claim:?} on {board}", known.name);
            let judged = judge_claim(known.solved(), &board, claim, WITHIN, SETTINGS).unwrap();
            let standing = judged.board.givens();
            match judged.judgement {
                Judgement::Follows(why) => {
                    assert!(known.holds(claim), "{name}");
                    assert!(why.trail().n_steps() <= WITHIN, "{name}");
                    check_reason(&name, &judged.board, claim, &why);
                    n[0] += 1;
                }
                Judgement::NotYet { missing, n_steps } => {
                    assert!(known.holds(claim) && n_steps <= WITHIN, "{name}");
                    check_missing(&name, known, &board, claim, WITHIN, &missing);
                    n[1] += 1;
                }
                Judgement::Untrue { answer, open, against, counterexample } => {
                    check_counterexample(&name, &judged.board, claim, &counterexample);
                    assert!(!known.holds(claim), "{name}");
                    let cell = claim.cell().unwrap();
                    assert_eq!(answer, known.answer(cell), "{name}");
                    assert!(open.contains(answer), "{name}");
                    assert!(standing.get(cell).is_none_or(|it| open.single() == Some(it)), "{name}");
                    if let Some(why) = against {
                        check_reason(&name, &judged.board, why.goal, &why);
                        // Exactly one of the two is true, whatever the cell holds.
                        let holds = |claim: Claim, digit| claim.holds(known.size(), |_| digit);
                        let all = known.size().digits();
                        assert!(all.iter().all(|it| holds(claim, it) != holds(why.goal, it)), "{name}");
                    }
                    n[2] += 1;
                }
                Judgement::WrongBoard(_) => n[3] += 1,
            }
        }
    }
    assert!(n[..3].iter().all(|it| *it > 10) && n[3] == 0, "{n:?}");
}

#[test]
fn wrong_digits_on_the_board_are_named() {
    for it in corpus() {
        let (cell, _) = it.made.solution.filled().find(|(cell, _)| !it.made.puzzle.is_given(*cell)).unwrap();
        let (given, printed) = it.made.puzzle.givens().filled().next().unwrap();
        let other = |digit: Digit| it.size().digits().without(digit).iter().next();
        let board = it.made.puzzle.givens().clone().with(cell, other(it.answer(cell)));
        let board = board.with(given, other(printed));
        let claim = Claim::Is(cell, it.answer(cell));
        let judged = judge_claim(it.solved(), &board, claim, 12, SETTINGS).unwrap();
        let mut wrong = vec![(cell, board.get(cell).unwrap()), (given, board.get(given).unwrap())];
        wrong.sort();
        assert_eq!(judged.judgement, Judgement::WrongBoard(wrong), "{}", it.name);
    }
}

/// What takes so many steps does not follow within one fewer.
#[test]
fn within_is_kept() {
    for it in corpus() {
        for claim in it.true_claims().into_iter().step_by(11) {
            let follows = |within| {
                let empty = Grid::empty(it.size());
                match judge_claim(it.solved(), &empty, claim, within, SETTINGS).unwrap().judgement {
                    Judgement::Follows(why) => Some(why.trail().n_steps()),
                    _ => None,
                }
            };
            if let Some(n_steps) = follows(6).filter(|it| *it > 1) {
                assert_eq!(follows(n_steps - 1), None, "{}: {claim:?}", it.name);
            }
        }
    }
}

/// The givens alone, and the givens with half of the other digits.
fn boards(known: &Known) -> impl Iterator<Item = Grid> {
    let mut seeded = Seeded::new(7);
    let halfway = Grid::from_fn(known.size(), |it| (seeded.below(2) == 0).then(|| known.answer(it)));
    [Grid::empty(known.size()), halfway].into_iter()
}

#[test]
fn no_harder_technique_is_used_than_allowed() {
    let hardest = TECHNIQUES[8].id();
    let settings = Settings { known: Techniques::up_to(hardest), ..SETTINGS };
    let allowed = |id| TECHNIQUES.iter().take(9).any(|it| it.id() == id);
    for it in corpus() {
        for claim in it.true_claims().into_iter().step_by(5) {
            let empty = Grid::empty(it.size());
            let judged = judge_claim(it.solved(), &empty, claim, 8, settings).unwrap();
            if let Judgement::Follows(why) = judged.judgement {
                assert!(why.trail().steps().all(|(_, it)| allowed(it.technique())), "{}: {claim:?}", it.name);
            }
        }
    }
}

/// The full board agrees with every digit, house and clue, and not with the claim.
fn check_counterexample(name: &str, board: &Puzzle, claim: Claim, full: &Grid) {
    let size = board.size();
    assert!(board.givens().filled().all(|(cell, digit)| full.get(cell) == Some(digit)), "{name}");
    let digits = |house| size.cells_of(house).into_iter().map(|it| full.get(it).unwrap());
    assert!(size.houses().all(|it| digits(it).collect::<DigitSet>() == size.digits()), "{name}");
    let allows = |it: &Clue| it.rule.allows(size, it.value, &digits(it.line).collect::<Vec<_>>());
    assert!(board.clues().iter().all(allows), "{name}");
    assert!(!claim.holds(size, |it| full.get(it).unwrap()), "{name}");
}

/// What is missing is true, says less of the cell than the claim, and is enough; nothing of it can be spared.
fn check_missing(name: &str, known: &Known, board: &Grid, claim: Claim, within: usize, missing: &[Claim]) {
    // What says the same, or more, about the cell is no help.
    let says_as_much = |it: &Claim| {
        let digits = known.size().digits();
        it.cell() == claim.cell()
            && digits.iter().all(|d| !it.holds(known.size(), |_| d) || claim.holds(known.size(), |_| d))
    };
    assert!(!missing.iter().any(says_as_much), "{name}: {missing:?}");
    assert!(!missing.is_empty() && missing.iter().all(|it| known.holds(*it)), "{name}: {missing:?}");
    let follows = |missing: &[Claim]| {
        let (digits, notes): (Vec<Claim>, Vec<Claim>) =
            missing.iter().partition(|it| matches!(it, Claim::Is(..)));
        let put = |board: Grid, it: &Claim| match *it {
            Claim::Is(cell, digit) => board.with(cell, Some(digit)),
            _ => board,
        };
        let given = known.made.puzzle.givens().filled();
        let standing = given.fold(board.clone(), |board, (cell, digit)| board.with(cell, Some(digit)));
        let board = Puzzle::new(digits.iter().fold(standing, put), known.made.puzzle.clues().iter().copied());
        let position = Position { board: &board, notes: &notes, pencilled: CellSet::EMPTY };
        n_steps_to(position, claim, within, SETTINGS).is_some()
    };
    assert!(follows(missing), "{name}: {missing:?}");
    for spared in missing {
        let fewer: Vec<Claim> = missing.iter().copied().filter(|it| it != spared).collect();
        assert!(!follows(&fewer), "{name}: {missing:?} without {spared:?}");
    }
}
