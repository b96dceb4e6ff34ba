//! Expected minutes grow with the effort of steps and fall with the number of open ones.
//!
//! Published finding behind both (R. Pelánek, FLAIRS 2011 and arXiv:1403.7373, digest in `facts.md`):
//! step difficulty correlates with human solving time at 0.68 / 0.83, few open steps at 0.67 / 0.69,
//! the number of givens at 0.25 / 0.27.

use grade::{ARGUMENT_LOOK, CARRY_OUT, Calibration, Estimate, LEAST_WAIT, Pace, Solver, Wait, estimate};
use grid::{Cell, Grid, Size};
use reason::{Known, Survey, TECHNIQUES, technique};
use rulebook::{Claim, Puzzle};
use trail::{Argument, Branch, Cites, End, Proposal, TechniqueId, Trail};

fn cell() -> Cell {
    Size::NINE.cell(1, 1).unwrap()
}

/// A trail of `n` steps of one technique; what they say does not matter here.
fn trail(technique: TechniqueId, n: usize) -> Trail {
    let digit = Size::NINE.digit(5).unwrap();
    let claim = Claim::IsNot(cell(), digit);
    let argument = match technique == TechniqueId::SMALL_ARGUMENT {
        true => Argument::Cases {
            branches: vec![Branch {
                cell: cell(),
                digits: Default::default(),
                chain: vec![],
                end: End::NoDigit(cell()),
            }],
            is_smallest: true,
        },
        false => Argument::OneDigit { cell: cell(), digit },
    };
    let mut trail = Trail::from_page(&Puzzle::new(Grid::empty(Size::NINE), []));
    for _ in 0..n {
        let conclusions = vec![(claim, Cites::default())];
        trail.push(Proposal { technique, argument: argument.clone(), conclusions }).unwrap();
    }
    trail
}

fn surveys(trail: &Trail, open: &[(TechniqueId, usize)]) -> Vec<Survey> {
    let survey = |(step, it): (_, &trail::Step)| Survey {
        step,
        technique: it.technique(),
        conclusions: it.concludes().len(),
        held: 1,
        eye: 1,
        open: open.to_vec(),
    };
    trail.steps().map(survey).collect()
}

/// A walkthrough of `n` steps of one technique, with so much open at each.
fn estimated(technique: TechniqueId, n: usize, open: &[(TechniqueId, usize)]) -> Estimate {
    let trail = trail(technique, n);
    estimate(&surveys(&trail, open), &trail, Known::ALL, &Calibration::default())
}

const EASY: TechniqueId = TechniqueId::new("naked-single");
const HARD: TechniqueId = TechniqueId::new("hidden-triple");
const HARDEST: TechniqueId = TechniqueId::new("line-and-box-share-a-set");

#[test]
fn harder_techniques_take_longer() {
    let seconds = TECHNIQUES.map(|it| estimated(it.id(), 1, &[(it.id(), 1)]).steps[0].wait);
    assert!(seconds.is_sorted_by(|a, b| a < b), "{seconds:?}");
    // Taken alone, a technique is noticed in its weight in seconds, beside the least.
    assert_eq!(seconds[0], LEAST_WAIT + f64::from(TECHNIQUES[0].weight()));
}

#[test]
fn the_fewer_open_the_longer_the_wait() {
    let wait = |places| estimated(EASY, 1, &[(EASY, places)]).steps[0].wait;
    assert!(wait(1) > wait(2) && wait(2) > wait(5));
    assert!(wait(100_000) - LEAST_WAIT < 0.01);
}

/// Two puzzles with the same steps and another number of them open at once: on puzzles that need singles only that is
/// the only published signal (Pelánek, arXiv:1403.7373: 0.73 to 0.80).
#[test]
fn few_open_steps_alone_make_a_puzzle_harder() {
    let [few, many] = [1, 6].map(|places| estimated(EASY, 60, &[(EASY, places)]));
    for (few, many) in few.times.iter().zip(many.times) {
        assert!(few.median > 1.5 * many.median && few.ninetieth > many.ninetieth, "{few:?} {many:?}");
    }
}

/// Two puzzles with the same number open at once and another effort of single steps: the strongest published signal
/// (the same, 0.68 and 0.83).
#[test]
fn the_effort_of_steps_alone_makes_a_puzzle_harder() {
    let [easy, hard] = [EASY, HARD].map(|it| estimated(it, 60, &[(it, 2)]));
    for (easy, hard) in easy.times.iter().zip(hard.times) {
        assert!(hard.median > 1.5 * easy.median && hard.tenth > easy.tenth, "{easy:?} {hard:?}");
    }
}

/// Effort grows with what a deduction depends on (Lee, Goodwin, Johnson-Laird 2008), and the eye goes on where it
/// is (common practice, no source).
#[test]
fn steps_that_hold_more_and_lie_far_off_are_seen_later() {
    let trail = trail(HARD, 1);
    let wait = |held, eye| {
        let mut surveys = surveys(&trail, &[(HARD, 1)]);
        (surveys[0].held, surveys[0].eye) = (held, eye);
        estimate(&surveys, &trail, Known::ALL, &Calibration::default()).steps[0].wait
    };
    assert!(wait(1, 1) < wait(2, 1) && wait(2, 1) < wait(6, 1));
    assert!(wait(2, 0) < wait(2, 1) && wait(2, 1) < wait(2, 2));
}

#[test]
fn what_is_not_known_is_not_noticed() {
    let open = [(EASY, 9), (HARD, 1)];
    let trail = trail(HARD, 1);
    let surveys = surveys(&trail, &open);
    let [all, hard] =
        [Known::ALL, Known::only([HARD])].map(|it| estimate(&surveys, &trail, it, &Calibration::default()));
    assert_eq!((all.steps[0].open, hard.steps[0].open), (10, 1));
    assert!(hard.steps[0].wait > 2.0 * all.steps[0].wait);
    assert_eq!(
        estimate(&surveys, &trail, Known::only([]), &Calibration::default()),
        hard,
        "the walkthrough's own step always is"
    );
}

#[test]
fn newcomers_to_the_genre_lose_most_on_its_own_techniques() {
    let ratio = |id| {
        let estimate = estimated(id, 40, &[(id, 1)]);
        let [newcomer, regular, old_hand] = estimate.times;
        assert!(newcomer.median > regular.median && regular.median > old_hand.median, "{id}");
        newcomer.median / regular.median
    };
    let (classic, genre) = (TechniqueId::new("naked-pair"), TechniqueId::new("crust-distance"));
    assert!(technique(classic).unwrap().rule().is_none() && technique(genre).unwrap().rule().is_some());
    assert!(ratio(genre) > ratio(classic));
    assert_eq!(Solver::ALL.map(|it| it.name), ["newcomer", "regular", "old hand"]);
}

#[test]
fn an_argument_takes_longest() {
    let argued = estimated(TechniqueId::SMALL_ARGUMENT, 1, &[]).steps[0].clone();
    assert!(argued.wait > ARGUMENT_LOOK);
    let hardest = TECHNIQUES[TECHNIQUES.len() - 1].id();
    let it = estimated(hardest, 1, &[(hardest, 1)]).steps[0].clone();
    assert!(argued.wait + argued.work > it.wait + it.work);
}

#[test]
fn the_runs_agree_with_what_can_be_computed() {
    // Where hardly anything is left to luck, the median is the sum of the sure parts, for the median of a
    // logarithmic normal distribution is 1, and its tenth and ninetieth percentiles lie 1.2816 standard
    // deviations off (any table of the normal distribution).
    let estimate = estimated(EASY, 50, &[(EASY, 100_000)]);
    for (solver, times) in estimate.solvers() {
        let sure = 50.0 * (LEAST_WAIT + CARRY_OUT * solver.hands);
        let is_near = |it: f64, expected: f64| (it / expected - 1.0).abs() < 0.08;
        assert!(is_near(times.median, sure), "{times:?} {sure}");
        assert!(is_near(times.tenth, sure * (-1.2816 * solver.spread).exp()), "{times:?} {sure}");
        assert!(is_near(times.ninetieth, sure * (1.2816 * solver.spread).exp()), "{times:?} {sure}");
    }
}

#[test]
fn parts_add_up_and_equal_puzzles_take_equally_long() {
    let estimate = estimated(EASY, 10, &[(EASY, 2)]);
    let weight = f64::from(technique(EASY).unwrap().weight());
    let step = LEAST_WAIT + weight / 2.0 + CARRY_OUT;
    let sum: f64 = estimate.steps.iter().map(|it| it.wait + it.work).sum();
    assert!((sum - 10.0 * step).abs() < 1e-9);
    assert!((estimate.by_technique.values().sum::<f64>() - sum).abs() < 1e-9);
    assert!((estimate.minutes() * 60.0 - estimate.seconds()).abs() < 1e-9);
    assert_eq!(estimate.narrowest(3).len(), 3);
    assert_eq!(estimate, estimated(EASY, 10, &[(EASY, 2)]));
    let times = estimate.regular();
    assert!(times.tenth < times.median && times.median < times.ninetieth);
}

/// A narrow place is one however many steps elsewhere are waited for longer, and however many others there are.
#[test]
fn every_narrow_place_is_named() {
    let trail = trail(EASY, 12);
    let mut surveys = surveys(&trail, &[(EASY, 1)]);
    // Three that are waited for longest have others beside them, and four are seen at once.
    surveys[..3].iter_mut().for_each(|it| (it.technique, it.open) = (HARDEST, vec![(HARDEST, 5)]));
    surveys[3..7].iter_mut().for_each(|it| it.open = vec![(EASY, 20)]);
    let estimate = estimate(&surveys, &trail, Known::ALL, &Calibration::default());
    let wait = |at: usize| estimate.steps[at].wait;
    assert!((0..3).all(|it| wait(it) > wait(7)) && (3..7).all(|it| wait(it) < wait(7)));
    let found: Vec<usize> = estimate.narrow_places().iter().map(|it| it.step.index()).collect();
    assert_eq!(found, [7, 8, 9, 10, 11]);
}

#[test]
fn the_curve_counts_filled_cells() {
    let mut trail = Trail::from_page(&Puzzle::new(Grid::empty(Size::NINE), []));
    let digit = |it| Size::NINE.digit(it).unwrap();
    let cells: Vec<Cell> = Size::NINE.cells().take(3).collect();
    let claims = [
        vec![Claim::IsNot(cells[0], digit(1))],
        vec![Claim::Is(cells[0], digit(5)), Claim::Is(cells[1], digit(6))],
        vec![Claim::Is(cells[2], digit(7))],
    ];
    for claims in claims {
        let conclusions = claims.into_iter().map(|it| (it, Cites::default())).collect();
        let argument = Argument::OneDigit { cell: cells[0], digit: digit(5) };
        trail.push(Proposal { technique: EASY, argument, conclusions }).unwrap();
    }
    let curve = estimate(&surveys(&trail, &[(EASY, 1)]), &trail, Known::ALL, &Calibration::default()).curve();
    assert_eq!(curve.iter().map(|it| it.1).collect::<Vec<_>>(), [0, 2, 3]);
    assert!(curve.is_sorted_by(|a, b| a.0 < b.0), "{curve:?}");
}

#[test]
fn a_calibration_corrects_pace_and_waits() {
    let trail = trail(EASY, 40);
    let surveys = surveys(&trail, &[(EASY, 1)]);
    let estimated = |ratio, wait| {
        let paces = [0, 5, 1].map(|n_solves| Pace { ratio, n_solves });
        let waits = [(EASY, Wait { ratio: wait, n_steps: 12 })].into();
        estimate(&surveys, &trail, Known::ALL, &Calibration::new(paces, waits).unwrap())
    };
    let plain = estimate(&surveys, &trail, Known::ALL, &Calibration::default());
    assert_eq!((plain.n_solves, estimated(1.0, 1.0).n_solves), (0, 6));
    assert_eq!(estimated(1.0, 1.0).n_solves_by, [0, 5, 1]);
    assert_eq!(estimated(1.0, 1.0).times, plain.times);
    let is_near = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-9;
    let twice = estimated(2.0, 1.0);
    for (twice, plain) in twice.times.iter().zip(plain.times) {
        assert!(is_near(twice.median, 2.0 * plain.median) && is_near(twice.tenth, 2.0 * plain.tenth));
    }
    assert!(is_near(
        twice.steps[0].wait + twice.steps[0].work,
        2.0 * (plain.steps[0].wait + plain.steps[0].work)
    ));
    let longer = &estimated(1.0, 3.0).steps[0];
    assert!(is_near(longer.wait - LEAST_WAIT, 3.0 * (plain.steps[0].wait - LEAST_WAIT)));
    assert_eq!(longer.work, plain.steps[0].work);
}
