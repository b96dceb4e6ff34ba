//! Sound steps spoiled: a wrong conclusion, a reason not cited, one cited to spare, and arguments that
//! go round in a circle.

mod common;

use common::{assert_counterexample, cell, claim, given, house, list, puzzle, step, supposing};
use grid::Size;
use replay::{Cap, Refusal, judge, replay, spares, without_spare};
use rulebook::{Claim, Puzzle};
use trail::{Cited, Cites, FactId, PushError, Theme, Trail, Walkthrough};

const CAP: Cap = Cap(1000);

/// 4x4, crusts 1 and 4. Row 1 has the sum 5, so its crusts are at the ends.
fn page() -> Puzzle {
    puzzle("4...............", "row 1: 5, column 1: 2, row 4: 2, column 4: 5")
}

/// Sound steps on [`page`]: a conclusion, houses, clues (by their lines) and facts, none to spare.
const STEPS: [[&str; 4]; 6] = [
    ["r1c4 crust", "", "row 1", ""],
    ["r1c4=1", "row 1", "", "r1c1=4, r1c4 crust"],
    ["r4c4=4", "column 4", "", "r1c4=1, r4c4 crust"],
    ["column 1 holds 1 to 1", "", "column 1", ""],
    ["r3c1=1", "", "", "column 1 holds 1 to 1, r1c1=4"],
    ["row 1 spent 2 3", "", "row 1", ""],
];

/// A step with all that may be cited for it.
struct Sound {
    puzzle: Puzzle,
    trail: Trail,
    claim: Claim,
    cites: Cites,
    /// Facts that have nothing to do with it.
    idle: Vec<FactId>,
}

impl Sound {
    fn new([conclusion, houses, clues, facts]: [&str; 4]) -> Sound {
        let puzzle = page();
        let size = puzzle.size();
        let mut known: Vec<Claim> = list(facts).map(|it| claim(size, it)).collect();
        let n_cited = known.len();
        known.extend(list("r2c3=1, r3c2!=1").map(|it| claim(size, it)));
        let (trail, ids) = supposing(&puzzle, &known);
        let line = |it| puzzle.clue_ids().find(|(_, clue)| clue.line == house(size, it)).unwrap().0;
        let cites = Cites {
            houses: list(houses).map(|it| house(size, it)).collect(),
            clues: list(clues).map(line).collect(),
            facts: ids[..n_cited].iter().copied().collect(),
            ..Cites::default()
        };
        let claim = claim(size, conclusion);
        Sound { idle: ids[n_cited..].to_vec(), puzzle, trail, claim, cites }
    }

    fn all() -> impl Iterator<Item = Sound> {
        STEPS.into_iter().map(Sound::new)
    }

    fn spares(&self, cites: &Cites) -> Vec<Cited> {
        let spares = spares(&self.puzzle, &self.trail, &self.claim, cites, CAP);
        spares.inspect(|it| assert!(it.is_proved)).map(|it| it.cited).collect()
    }

    fn without_spare(&self, cites: &Cites) -> Cites {
        without_spare(&self.puzzle, &self.trail, &self.claim, cites, CAP, |_, _| true)
    }
}

#[test]
fn sound_steps_follow_and_spare_nothing() {
    for it in Sound::all() {
        assert!(judge(&it.puzzle, &it.trail, &it.claim, &it.cites, CAP).is_ok(), "{:?}", it.claim);
        assert_eq!(it.spares(&it.cites), [], "{:?}", it.claim);
        assert_eq!(it.without_spare(&it.cites), it.cites, "{:?}", it.claim);
    }
}

#[test]
fn whatever_else_is_cited_is_named_as_spare() {
    for it in Sound::all() {
        for &fact in &it.idle {
            let more = it.cites.clone().fact(fact);
            assert_eq!(it.spares(&more), [Cited::Fact(fact)], "{:?}", it.claim);
            assert_eq!(it.without_spare(&more), it.cites, "{:?}", it.claim);
        }
        let idle = house(it.puzzle.size(), "box 4");
        let more = it.cites.clone().house(idle);
        assert_eq!(it.spares(&more), [Cited::House(idle)], "{:?}", it.claim);
        assert_eq!(it.without_spare(&more), it.cites, "{:?}", it.claim);
        // All at once.
        let most = it.idle.iter().fold(more, |cites, fact| cites.fact(*fact));
        assert_eq!(it.spares(&most).len(), 3, "{:?}", it.claim);
        assert_eq!(it.without_spare(&most), it.cites, "{:?}", it.claim);
    }
}

#[test]
fn a_clue_or_a_fact_about_a_house_makes_its_house_spare() {
    for (at, line) in [(0, "row 1"), (4, "column 1"), (5, "row 1")] {
        let it = Sound::new(STEPS[at]);
        let line = house(it.puzzle.size(), line);
        let more = it.cites.clone().house(line);
        assert_eq!(it.spares(&more), [Cited::House(line)], "{:?}", it.claim);
    }
}

/// Each of two reasons can be spared beside the other, but not both.
#[test]
fn of_two_reasons_for_the_same_one_is_kept() {
    let puzzle = puzzle("2...............", "");
    let size = puzzle.size();
    let (trail, ids) = supposing(&puzzle, &[claim(size, "r3c2=2")]);
    let not_two = claim(size, "r1c2!=2");
    let first = given(&trail, cell(size, "r1c1"));
    let cites = Cites::default().fact(first).fact(ids[0]);
    let cites = cites.house(house(size, "row 1")).house(house(size, "column 2"));
    let all: Vec<Cited> = cites.each().collect();
    assert_eq!(spares(&puzzle, &trail, &not_two, &cites, CAP).map(|it| it.cited).collect::<Vec<_>>(), all);
    // The later fact goes, and then its house.
    let kept = without_spare(&puzzle, &trail, &not_two, &cites, CAP, |_, _| true);
    assert_eq!(kept, Cites::default().fact(first).house(house(size, "row 1")));
    // Whoever needs the later fact for something else keeps it.
    let kept = without_spare(&puzzle, &trail, &not_two, &cites, CAP, |it, _| it != Cited::Fact(ids[0]));
    assert_eq!(kept, Cites::default().fact(ids[0]).house(house(size, "column 2")));
}

#[test]
fn what_is_not_decided_is_not_shown_to_be_needed_and_is_kept() {
    let it = Sound::new(STEPS[1]);
    let undecided: Vec<_> = spares(&it.puzzle, &it.trail, &it.claim, &it.cites, Cap(0)).collect();
    assert_eq!(undecided.len(), it.cites.each().count());
    assert!(undecided.iter().all(|it| !it.is_proved));
    let kept = without_spare(&it.puzzle, &it.trail, &it.claim, &it.cites, Cap(0), |_, _| true);
    assert_eq!(kept, it.cites);
}

#[test]
fn each_reason_left_out_and_each_wrong_conclusion_has_a_counterexample() {
    let mut n = 0;
    for it in Sound::all() {
        let mut refused = |claim: &Claim, cites: &Cites| match judge(&it.puzzle, &it.trail, claim, cites, CAP)
        {
            Err(Refusal::Counterexample(filling)) => {
                assert_counterexample(&it.puzzle, &it.trail, claim, cites, &filling);
                n += 1;
            }
            other => panic!("{claim:?} from {cites:?} gave {other:?}"),
        };
        for cited in it.cites.each() {
            refused(&it.claim, &cited.left_out_of(&it.cites));
        }
        for wrong in others_than(it.puzzle.size(), it.claim) {
            refused(&wrong, &it.cites);
        }
    }
    assert!(n > 20, "only {n} were tried");
}

/// Claims of the same kind about the same cell or line that cannot be true beside this one.
fn others_than(size: Size, claim: Claim) -> Vec<Claim> {
    match claim {
        Claim::Is(cell, digit) => {
            let others = size.digits().without(digit).iter().map(|it| Claim::Is(cell, it));
            others.chain([Claim::IsNot(cell, digit)]).collect()
        }
        Claim::IsNot(cell, digit) => vec![Claim::Is(cell, digit)],
        Claim::Crust(cell) => vec![Claim::Filling(cell)],
        Claim::Filling(cell) => vec![Claim::Crust(cell)],
        Claim::FillingCells { line, fewest, most } => {
            let beyond = (0..=size.side() - 2).filter(|it| *it < fewest || most < *it);
            beyond.map(|it| Claim::FillingCells { line, fewest: it, most: it }).collect()
        }
        Claim::Spent { line, filling } => {
            let others = rulebook::filling_digits(size).subsets().filter(|it| *it != filling);
            others.map(|filling| Claim::Spent { line, filling }).collect()
        }
        Claim::CrustAmong { .. } | Claim::DigitAmong { .. } => Vec::new(),
    }
}

#[test]
fn a_circle_cannot_be_built() {
    let puzzle = page();
    let size = puzzle.size();
    let is_two = claim(size, "r1c2=2");
    let (longer, ids) = supposing(&puzzle, &[is_two]);
    let circle = step(vec![(is_two, Cites::default().fact(ids[0]))]);
    // Its own conclusion, which the trail does not hold yet.
    let mut trail = Trail::from_page(&puzzle);
    assert_eq!(trail.push(circle.clone()), Err(PushError::UnknownFact(ids[0])));
    // Another conclusion of the same step.
    let pair = step(vec![(is_two, Cites::default()), (is_two, Cites::default().fact(ids[0]))]);
    assert_eq!(trail.push(pair), Err(PushError::UnknownFact(ids[0])));
    assert_eq!(trail, Trail::from_page(&puzzle));
    // Said twice it follows from itself, but the first saying is refused.
    let mut twice = longer;
    twice.push(circle).unwrap();
    let told = Walkthrough::new(twice, |_, _| Theme::Digits);
    let (refused, refusal) = replay(&puzzle, told, CAP).unwrap_err();
    assert_eq!(refused, ids[0]);
    assert!(matches!(refusal, Refusal::Counterexample(_)), "{refusal:?}");
}
