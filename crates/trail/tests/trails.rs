//! A trail takes only what rests on earlier facts, and slices to what a goal needs.

use grid::{Cell, DigitSet, Grid, HouseKind, Size};
use rulebook::{Claim, Puzzle};
use trail::{
    Argument, Branch, Cites, End, Misfit, Origin, Proposal, PushError, Step, TechniqueId, Theme, Trail,
    Walkthrough,
};

const GUESS: TechniqueId = TechniqueId::new("test-technique");

fn puzzle() -> Puzzle {
    Puzzle::new(Grid::from_line("1...............").unwrap(), [])
}

fn cell(row: u8, column: u8) -> Cell {
    Size::of_side(4).unwrap().cell(row, column).unwrap()
}

fn proposal(conclusions: Vec<(Claim, Cites)>) -> Proposal {
    let digit = Size::NINE.digit(1).unwrap();
    Proposal { technique: GUESS, argument: Argument::OneDigit { cell: cell(1, 1), digit }, conclusions }
}

fn not(row: u8, column: u8) -> Claim {
    Claim::IsNot(cell(row, column), Size::NINE.digit(1).unwrap())
}

#[test]
fn facts_of_the_page_come_first() {
    let trail = Trail::from_page(&puzzle());
    let facts: Vec<_> = trail.facts().map(|(_, it)| it.origin().clone()).collect();
    assert_eq!(facts, [Origin::Page(cell(1, 1))]);
}

#[test]
fn a_step_cannot_cite_itself_or_the_future() {
    let mut other = Trail::from_page(&puzzle());
    let ahead = other.push(proposal(vec![(not(1, 2), Cites::default())])).unwrap();
    let ahead = other.step(ahead).concludes()[0];
    let mut trail = Trail::from_page(&puzzle());
    let circular = proposal(vec![(not(1, 2), Cites::default()), (not(1, 3), Cites::default().fact(ahead))]);
    assert_eq!(trail.push(circular), Err(PushError::UnknownFact(ahead)));
    assert_eq!(trail.push(proposal(vec![])), Err(PushError::NoConclusion));
    let cases = Proposal {
        argument: Argument::Cases { branches: vec![], is_smallest: true },
        ..proposal(vec![(not(1, 2), Cites::default())])
    };
    assert_eq!(trail.push(cases), Err(PushError::CaseCount));
    assert_eq!(trail, Trail::from_page(&puzzle()));
}

#[test]
fn what_is_noted_later_on_is_cited_like_any_fact_and_is_never_sliced_away() {
    let mut trail = Trail::from_page(&puzzle());
    let step = trail.push(proposal(vec![(not(1, 2), Cites::default())])).unwrap();
    let noted = trail.note(not(1, 3));
    assert_eq!(trail.fact(noted).origin(), &Origin::Noted);
    trail.push(proposal(vec![(not(1, 4), Cites::default().fact(noted))])).unwrap();
    let sliced = trail.needed_for([trail.step(step).concludes()[0]]);
    let claims: Vec<Claim> = sliced.facts().map(|it| it.1.claim()).collect();
    // Facts without a step come first.
    assert_eq!(claims[1..], [not(1, 3), not(1, 2)]);
}

#[test]
fn slicing_keeps_what_the_goal_rests_on() {
    let mut trail = Trail::from_page(&puzzle());
    let given = trail.facts().next().unwrap().0;
    let first = trail
        .push(proposal(vec![
            (not(1, 2), Cites::default().fact(given)),
            (not(1, 3), Cites::default().fact(given)),
        ]))
        .unwrap();
    let kept = trail.step(first).concludes()[1];
    trail.push(proposal(vec![(not(2, 1), Cites::default().fact(given))])).unwrap();
    let last = trail.push(proposal(vec![(not(2, 2), Cites::default().fact(kept))])).unwrap();
    let goal = trail.step(last).concludes()[0];

    let sliced = trail.needed_for([goal]);
    let claims: Vec<Claim> = sliced.facts().skip(1).map(|(_, it)| it.claim()).collect();
    assert_eq!(claims, [not(1, 3), not(2, 2)]);
    let (last, _) = sliced.steps().last().unwrap();
    let cited: Vec<usize> = sliced.steps_cited_by(last).iter().map(|it| it.number()).collect();
    assert_eq!(cited, [1]);
    assert_eq!(sliced.needed_for(sliced.step(last).concludes().to_vec()), sliced);
}

#[test]
fn steps_can_change_places_only_if_nothing_cites_ahead() {
    let mut trail = Trail::from_page(&puzzle());
    let given = trail.facts().next().unwrap().0;
    let a = trail.push(proposal(vec![(not(1, 2), Cites::default().fact(given))])).unwrap();
    let of_a = trail.step(a).concludes()[0];
    let b = trail.push(proposal(vec![(not(2, 1), Cites::default().fact(given))])).unwrap();
    let c = trail.push(proposal(vec![(not(2, 2), Cites::default().fact(of_a))])).unwrap();
    let moved = trail.reordered(&[b, a, c]).unwrap();
    let claims: Vec<Claim> = moved.facts().skip(1).map(|(_, it)| it.claim()).collect();
    assert_eq!(claims, [not(2, 1), not(1, 2), not(2, 2)]);
    assert_eq!(trail.reordered(&[c, a, b]), Err(PushError::UnknownFact(of_a)));
    assert_eq!(trail.reordered(&[a, b]), Err(PushError::NotAnOrder));
    assert_eq!(trail.reordered(&[a, a, b, c]), Err(PushError::NotAnOrder));
    assert_eq!(moved.steps().map(|(_, it)| it.technique()).collect::<Vec<_>>(), [GUESS; 3]);
    assert!(!moved.steps().any(|(_, it)| Step::is_small_argument(it)));
}

#[test]
fn what_is_concluded_of_the_same_by_the_same_is_said_once() {
    let mut trail = Trail::from_page(&puzzle());
    let given = trail.facts().next().unwrap().0;
    let on_given = || Cites::default().fact(given);
    let mut push = |it: Proposal| {
        let step = trail.push(it).unwrap();
        trail.step(step).concludes()[0]
    };
    let first = push(proposal(vec![(not(1, 2), on_given())]));
    let between = push(proposal(vec![(not(2, 2), Cites::default().fact(first))]));
    let again = push(proposal(vec![(not(1, 3), on_given()), (not(1, 4), on_given())]));
    let other = Argument::OneDigit { cell: cell(1, 2), digit: Size::NINE.digit(1).unwrap() };
    push(Proposal { argument: other, ..proposal(vec![(not(3, 1), on_given())]) });
    push(Proposal { technique: TechniqueId::new("another"), ..proposal(vec![(not(4, 1), on_given())]) });
    push(proposal(vec![(not(4, 4), on_given().fact(between).fact(again))]));

    let once = trail.saying_once();
    let concluded: Vec<Vec<Claim>> = (once.steps())
        .map(|(_, it)| it.concludes().iter().map(|it| once.fact(*it).claim()).collect())
        .collect();
    let together = vec![not(1, 2), not(1, 3), not(1, 4)];
    let others = [not(2, 2), not(3, 1), not(4, 1), not(4, 4)].map(|it| vec![it]);
    assert_eq!(concluded, [vec![together], others.to_vec()].concat());
    // What rested on them rests on the same.
    let cited = once.facts().last().unwrap().1.cites().unwrap().facts.iter();
    let cited: Vec<Claim> = cited.map(|it| once.fact(*it).claim()).collect();
    assert_eq!(cited, [once.fact(given).claim(), not(1, 3), not(2, 2)]);
    assert_eq!(once.saying_once(), once);
}

#[test]
fn what_is_argued_for_each_conclusion_by_itself_stays_apart() {
    let branch = |column| Branch {
        cell: cell(1, column),
        digits: DigitSet::EMPTY,
        chain: vec![],
        end: End::NoDigit(cell(1, column)),
    };
    let mut trail = Trail::from_page(&puzzle());
    for column in [2, 3] {
        let argument = Argument::Cases { branches: vec![branch(2)], is_smallest: true };
        let step = Proposal { argument, ..proposal(vec![(not(1, column), Cites::default())]) };
        trail.push(step).unwrap();
    }
    assert_eq!(trail.saying_once(), trail);
}

#[test]
fn passages_follow_the_theme() {
    let mut trail = Trail::from_page(&puzzle());
    for column in 2..=4 {
        trail.push(proposal(vec![(not(1, column), Cites::default())])).unwrap();
    }
    let walkthrough = Walkthrough::new(trail, |_, step| match step.number() {
        1 | 2 => Theme::Crusts,
        _ => Theme::Finish,
    });
    let lengths: Vec<usize> = walkthrough.passages().iter().map(|it| it.steps.len()).collect();
    assert_eq!(lengths, [2, 1]);
    assert!(!walkthrough.is_complete(&puzzle()));
    assert_eq!(walkthrough.board(&puzzle()).to_string(), "1...............");
}

#[test]
fn long_passages_are_cut_into_parts_of_about_equal_length() {
    let steps = |n: usize| {
        let cells = (1..=4).flat_map(|row| (1..=4).map(move |column| (row, column)));
        let mut trail = Trail::from_page(&puzzle());
        for (row, column) in cells.skip(1).take(n) {
            trail.push(proposal(vec![(not(row, column), Cites::default())])).unwrap();
        }
        let whole = Walkthrough::new(trail, |_, _| Theme::Digits).in_short_passages(4);
        whole.passages().iter().map(|it| it.steps.len()).collect::<Vec<_>>()
    };
    for (n, lengths) in
        [(0, &[][..]), (3, &[3]), (4, &[4]), (5, &[2, 3]), (9, &[3, 3, 3]), (13, &[3, 3, 3, 4])]
    {
        assert_eq!(steps(n), lengths, "{n}");
    }
}

/// An argument with a part a conclusion was once cut down in one place and not in the others, so that the
/// trail refused the step.
#[test]
fn bug_an_argument_keeps_the_parts_of_the_conclusions_that_stay() {
    let nine = Size::NINE;
    let only = |digit| DigitSet::only(nine.digit(digit).unwrap());
    let branch = |digit| Branch {
        cell: cell(1, 2),
        digits: only(digit),
        chain: vec![],
        end: End::NoDigit(cell(1, 2)),
    };
    let misfit = |digit| Misfit { digits: only(digit), pairs: vec![], sets: vec![], refused: vec![] };
    let line = nine.house(HouseKind::Row, 1).unwrap();
    let misfits = |tries| Argument::Misfits { line, cell: cell(1, 2), tries, around: vec![] };
    let (all, kept) = ([1, 2, 3], [1, 3]);
    for (whole, expected) in [
        (
            Argument::Cases { branches: all.map(branch).into(), is_smallest: true },
            Argument::Cases { branches: kept.map(branch).into(), is_smallest: true },
        ),
        (misfits(all.map(misfit).into()), misfits(kept.map(misfit).into())),
    ] {
        assert_eq!(whole.n_parts(), Some(3));
        let conclusions = vec![not(1, 2), not(1, 3), not(1, 4)].into_iter().map(|it| (it, Cites::default()));
        let mut step = Proposal { argument: whole, ..proposal(conclusions.collect()) };
        step.retain(|claim, _| *claim != not(1, 3));
        assert_eq!((&step.argument, step.conclusions.len()), (&expected, 2));
        assert!(Trail::from_page(&puzzle()).push(step).is_ok());
    }
}
