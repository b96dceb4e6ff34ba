//! Expected minutes grow with the effort of steps and fall with the number of open ones.
//!
//! Published finding behind both (R. Pelánek, FLAIRS 2011 and arXiv:1403.7373, digest in `facts.md`):
//! step difficulty correlates with human solving time at 0.68 / 0.83, few open steps at 0.67 / 0.69,
//! the number of givens at 0.25 / 0.27.

use grade::{ARGUMENT_LOOK, CARRY_OUT, LEAST_WAIT, estimate};
use grid::{Cell, Grid, Size};
use reason::{Survey, TECHNIQUES};
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
        open: open.to_vec(),
    };
    trail.steps().map(survey).collect()
}

#[test]
fn harder_techniques_take_longer() {
    let seconds = TECHNIQUES.map(|it| {
        let trail = trail(it.id(), 1);
        estimate(&surveys(&trail, &[(it.id(), 1)]), &trail).seconds()
    });
    assert!(seconds.is_sorted_by(|a, b| a < b), "{seconds:?}");
}

#[test]
fn the_fewer_open_the_longer_the_wait() {
    let id = TechniqueId::new("naked-single");
    let trail = trail(id, 1);
    let wait = |places| estimate(&surveys(&trail, &[(id, places)]), &trail).steps[0].wait;
    assert!(wait(1) > wait(2) && wait(2) > wait(5));
    assert_eq!(wait(1_000), LEAST_WAIT);
}

#[test]
fn harder_steps_that_are_open_too_do_not_shorten_the_wait() {
    let (easy, hard) = (TechniqueId::new("naked-single"), TechniqueId::new("hidden-triple"));
    let trail = trail(easy, 1);
    let alone = estimate(&surveys(&trail, &[(easy, 1)]), &trail);
    let with_hard = estimate(&surveys(&trail, &[(easy, 1), (hard, 9)]), &trail);
    assert_eq!(alone, with_hard);
    assert_eq!(with_hard.steps[0].open, 1);
}

#[test]
fn an_argument_takes_longest() {
    let small = trail(TechniqueId::SMALL_ARGUMENT, 1);
    let argued = estimate(&surveys(&small, &[]), &small);
    assert!(argued.seconds() > ARGUMENT_LOOK);
    let hardest = TECHNIQUES[TECHNIQUES.len() - 1].id();
    let trail = trail(hardest, 1);
    assert!(argued.seconds() > estimate(&surveys(&trail, &[(hardest, 1)]), &trail).seconds());
}

#[test]
fn minutes_add_up() {
    let id = TechniqueId::new("hidden-single");
    let trail = trail(id, 10);
    let estimate = estimate(&surveys(&trail, &[(id, 2)]), &trail);
    // Weight 8 with two places open: four seconds of waiting, ten times.
    assert!((estimate.seconds() - 10.0 * (4.0 + CARRY_OUT)).abs() < 1e-9);
    assert!((estimate.minutes() * 60.0 - estimate.seconds()).abs() < 1e-9);
    assert!((estimate.by_technique.values().sum::<f64>() - estimate.seconds()).abs() < 1e-9);
    assert_eq!(estimate.narrowest(3).len(), 3);
}
