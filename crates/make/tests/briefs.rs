//! Puzzles made to many briefs, each held against its brief by asking the prover, the solver and the checker
//! again.

use grade::Calibration;
use grid::{CellSet, Grid, Size};
use make::{Batch, Brief, Clues, Kind, Look, Made, Miss, Others, Span, Wanted, make, usually_known};
use prove::{Limit, Printed, Verdict, count, verdict};
use reason::{Known, Settings, View, solve, technique};
use replay::replay;
use rulebook::Puzzle;
use trail::{Argument, Cites, Proposal, TechniqueId};

const LIMIT: Limit = Limit(1_000_000);

fn id(name: &'static str) -> TechniqueId {
    let id = TechniqueId::new(name);
    assert!(technique(id).is_some(), "{name}");
    id
}

/// What most briefs here have in common.
fn brief(teaches: &[&'static str]) -> Brief {
    let teaches: Vec<TechniqueId> = teaches.iter().map(|it| id(it)).collect();
    Brief {
        size: Size::NINE,
        kind: Kind::Sandwich,
        known: usually_known(&teaches),
        teaches,
        minutes: None,
        givens: Span { least: 0, most: 24 },
        clues: Clues::Needed,
        look: Look::Any,
        is_spare_allowed: false,
    }
}

fn set(brief: &Brief, seed: u64, count: usize) -> Batch {
    let batch = make(
        brief,
        seed,
        Wanted { count, tries: 400 },
        &Others::none(brief.kind),
        &Calibration::default(),
        &mut |_| {},
        &|| false,
    );
    assert_eq!(batch.made.len(), count, "{brief:?}: {:?}", batch.tally);
    assert_eq!(batch.tally.found, count);
    assert_eq!(batch.tally.missed.values().sum::<u64>() + count as u64, batch.tally.tries);
    batch.made.iter().for_each(|it| holds(brief, it));
    batch
}

fn settings(known: Known) -> Settings {
    Settings { known, ..Settings::TECHNIQUES_ALONE }
}

/// Everything that a brief promises, whatever it says.
#[track_caller]
fn holds(brief: &Brief, made: &Made) {
    let Made { puzzle, solution, explained, .. } = made;
    assert!(puzzle.is_solved_by(solution));
    assert_eq!(count(puzzle, 2, LIMIT), Some(1));
    assert!(brief.givens.has(puzzle.givens().filled().count()), "{}", puzzle.givens());
    let walkthrough = explained.walkthrough();
    assert!(walkthrough.is_complete(puzzle));
    assert!(replay(puzzle, walkthrough.clone(), Settings::THOROUGH.cap).is_ok());
    assert!(walkthrough.trail().steps().all(|(_, it)| brief.known.has(it.technique())));
    let all = Printed::all(puzzle).into_iter();
    let beyond: Vec<Printed> = all.filter(|it| count(&it.taken_from(puzzle), 2, LIMIT) == Some(1)).collect();
    assert_eq!(made.beyond_unique, beyond);
    if !brief.is_spare_allowed {
        assert_eq!(spared(brief, made), [], "{brief:?}");
    }
    for taught in &brief.teaches {
        let moment = made.moment(*taught).unwrap();
        assert_eq!(walkthrough.trail().step(moment).technique(), *taught);
        assert!(is_turning_point(made, *taught, brief.known), "{taught}");
        let others = brief.known.techniques().map(|it| it.id()).filter(|it| it != taught);
        let without = solve(puzzle, solution, settings(Known::only(others)));
        assert!(matches!(without, Err(reason::Stopped::Stuck(_))), "{taught} is not needed");
    }
}

/// Whether the marked step leads beyond where the others are stuck: with what it concludes told to them, they get
/// farther.
fn is_turning_point(made: &Made, taught: TechniqueId, known: Known) -> bool {
    let trail = made.explained.walkthrough().trail();
    let others = known.techniques().filter(|it| it.id() != taught);
    let others: Vec<_> = others.collect();
    let go_on = |view: &mut View| {
        while let Some(it) = others.iter().find_map(|it| it.find(view).into_iter().next()) {
            view.take(it).unwrap();
        }
        view.trail().n_facts()
    };
    let mut view = View::new(&made.puzzle);
    let stuck = go_on(&mut view);
    let step = trail.step(made.moment(taught).unwrap());
    let news = step.concludes().iter().map(|it| trail.fact(*it).claim()).filter(|it| view.is_news(*it));
    let told: Vec<_> = news.map(|it| (it, Cites::default())).collect();
    let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
    let n_told = told.len();
    n_told > 0
        && view.take(Proposal { technique: taught, argument, conclusions: told }).is_ok()
        && go_on(&mut view) >= stuck + n_told
}

/// What could go and leave one solution, though neither look nor numbers ask for it: for a look that of which the
/// opposite could go with it.
fn spared(brief: &Brief, made: &Made) -> Vec<Printed> {
    let Made { puzzle, beyond_unique, .. } = made;
    let size = brief.size;
    let n_givens = puzzle.givens().filled().count();
    let all = Printed::all(puzzle);
    let opposite = |it: &Printed| match *it {
        Printed::Given(cell, _) if brief.look == Look::Symmetric => {
            let turned = size.cell(size.side() + 1 - cell.row(), size.side() + 1 - cell.column());
            all.iter().find(|it| matches!(it, Printed::Given(cell, _) if Some(*cell) == turned)).copied()
        }
        Printed::Clue(clue) if brief.clues == Clues::Symmetric => {
            let line = size.house(clue.line.kind(), size.side() + 1 - clue.line.number());
            all.iter().find(|it| matches!(it, Printed::Clue(clue) if Some(clue.line) == line)).copied()
        }
        _ => None,
    };
    let is_asked_for = |it: &Printed| match (it, brief.clues) {
        (Printed::Given(..), _) => n_givens <= brief.givens.least + usize::from(opposite(it).is_some()),
        (_, Clues::All) => true,
        (_, Clues::Within(span)) => puzzle.clues().len() <= span.least,
        _ => false,
    };
    let can_go = |it: &Printed| {
        let without = opposite(it)
            .filter(|other| other != it)
            .map_or(it.taken_from(puzzle), |other| other.taken_from(&it.taken_from(puzzle)));
        count(&without, 2, LIMIT) == Some(1)
    };
    beyond_unique.iter().filter(|it| !is_asked_for(it) && can_go(it)).copied().collect()
}

/// Whether a solver who knows what the brief says finishes the puzzle.
fn is_enough(brief: &Brief, puzzle: &Puzzle) -> bool {
    match verdict(puzzle, LIMIT) {
        Verdict::One(solution) => solve(puzzle, &solution, settings(brief.known)).is_ok(),
        _ => false,
    }
}

fn spare(brief: &Brief, made: &Made) -> Vec<Printed> {
    let all = Printed::all(&made.puzzle).into_iter();
    all.filter(|it| is_enough(brief, &it.taken_from(&made.puzzle))).collect()
}

#[test]
fn bug_most_made_puzzles_had_givens_or_clues_to_spare() {
    let names = ["crust-reach", "last-in-sum", "crusts-adjacent", "side-holds", "naked-pair"];
    for (seed, name) in (1..).zip(names) {
        let made = set(&brief(&[name]), seed, 1).made.remove(0);
        assert_eq!(made.beyond_unique, [], "{name}");
    }
}

#[test]
fn where_it_is_allowed_what_is_known_needs_whatever_is_to_spare() {
    let mut n_beyond = 0;
    for (seed, name) in (1..).zip(["crust-reach", "last-in-sum", "crusts-found", "held-digit", "naked-pair"])
    {
        let brief = Brief { is_spare_allowed: true, ..brief(&[name]) };
        for made in set(&brief, seed, 1).made {
            assert_eq!(spare(&brief, &made), [], "{name}");
            n_beyond += made.beyond_unique.len();
        }
    }
    assert!(n_beyond > 0);
}

#[test]
fn what_is_known_may_not_be_enough_for_a_page_with_nothing_to_spare() {
    // With all clues hardly a given is needed for the one solution.
    let known = Known::only([id("last-empty-cell")]);
    let brief = Brief { known, clues: Clues::All, ..brief(&[]) };
    let wanted = Wanted { count: 1, tries: 2 };
    let batch =
        make(&brief, 1, wanted, &Others::none(brief.kind), &Calibration::default(), &mut |_| {}, &|| false);
    assert!(batch.made.is_empty());
    let Some(Miss::NotFinished { left: 40.. }) = batch.tally.nearest else { panic!("{:?}", batch.tally) };
}

#[test]
fn several_techniques_are_each_needed() {
    set(&brief(&["filling-sets", "crust-reach"]), 1, 1);
}

#[test]
fn only_what_is_said_to_be_known_is_used() {
    let names = [
        "last-empty-cell",
        "hidden-single",
        "naked-single",
        "crust-distance",
        "crust-places",
        "crusts-found",
    ];
    let known = Known::only(names.map(id)).with(id("crust-reach"));
    set(&Brief { known, ..brief(&["crust-reach"]) }, 5, 1);
}

#[test]
fn classic_puzzles_are_made_too() {
    let brief = Brief {
        kind: Kind::Classic,
        clues: Clues::Needed,
        givens: Span { least: 0, most: 40 },
        ..brief(&["locked-candidates"])
    };
    let made = &set(&brief, 1, 1).made[0];
    assert!(made.puzzle.clues().is_empty());
}

#[test]
fn clues_are_where_the_brief_wants_them() {
    let with = |clues, most| Brief { clues, givens: Span { least: 0, most }, ..brief(&["crust-reach"]) };
    let made = |clues, most| set(&with(clues, most), 3, 1).made.remove(0).puzzle;
    assert_eq!(made(Clues::All, 24).clues().len(), 18);
    assert!(made(Clues::Few, 30).clues().len() < made(Clues::Needed, 30).clues().len());
    let within = Span { least: 8, most: 10 };
    assert!(within.has(made(Clues::Within(within), 35).clues().len()));
    // With many givens some clues can be spared.
    let many = Brief { givens: Span { least: 22, most: 30 }, ..with(Clues::Symmetric, 30) };
    let symmetric = set(&many, 3, 1).made.remove(0).puzzle;
    let lines: Vec<_> = symmetric.clues().iter().map(|it| it.line).collect();
    assert!(!lines.is_empty() && lines.len() < 18, "{lines:?}");
    for line in &lines {
        assert!(lines.contains(&Size::NINE.house(line.kind(), 10 - line.number()).unwrap()), "{lines:?}");
    }
}

#[test]
fn givens_look_the_same_after_a_half_turn() {
    let brief = Brief { look: Look::Symmetric, ..brief(&["crust-reach"]) };
    let puzzle = &set(&brief, 2, 1).made[0].puzzle;
    let turned = |it: grid::Cell| Size::NINE.cell(10 - it.row(), 10 - it.column()).unwrap();
    assert!(puzzle.givens().filled().count() > 0);
    assert!(puzzle.givens().filled().all(|(it, _)| puzzle.is_given(turned(it))));
}

#[test]
fn numbers_are_kept_at_both_ends() {
    let exactly = Span { least: 12, most: 12 };
    let made = &set(&Brief { givens: exactly, ..brief(&["crust-reach"]) }, 2, 1).made[0];
    assert_eq!(made.puzzle.givens().filled().count(), 12);
    let wanted = Span { least: 9, most: 12 };
    let made = &set(&Brief { minutes: Some(wanted), ..brief(&["crust-reach"]) }, 2, 1).made[0];
    assert!(wanted.has(made.minutes()), "{}", made.minutes());
}

#[test]
fn small_boards_are_made_too() {
    let size = Size::of_side(6).unwrap();
    let brief = Brief { size, givens: Span { least: 0, most: 6 }, ..brief(&["crust-reach"]) };
    let made = set(&brief, 4, 3).made;
    assert!(made.iter().all(|it| it.puzzle.size() == size));
}

#[test]
fn no_two_are_twins_and_none_is_another_packs() {
    let size = Size::of_side(4).unwrap();
    // There are few boards of this size, so that twins abound.
    let brief = Brief { size, givens: Span { least: 0, most: 8 }, ..brief(&[]) };
    let first = set(&brief, 1, 12);
    assert!(first.tally.missed.keys().any(|it| matches!(it, make::Reason::Twin)), "{:?}", first.tally);
    let forms: std::collections::BTreeSet<_> =
        first.made.iter().map(|it| prove::canonical(&it.puzzle, LIMIT).unwrap()).collect();
    assert_eq!(forms.len(), 12);

    let mut others = Others::none(brief.kind);
    let turned = |it: &Puzzle| {
        let upside_down =
            |cell: grid::Cell| size.cell(5 - cell.row(), cell.column()).and_then(|at| it.givens().get(at));
        let clues = it.clues().iter().map(|clue| {
            let number = clue.line.number();
            let number = if clue.line.kind() == grid::HouseKind::Row { 5 - number } else { number };
            rulebook::Clue { line: size.house(clue.line.kind(), number).unwrap(), ..*clue }
        });
        Puzzle::new(Grid::from_fn(size, upside_down), clues.collect::<Vec<_>>())
    };
    first.made.iter().for_each(|it| others.add(&turned(&it.puzzle), None));
    let wanted = Wanted { count: 3, tries: 400 };
    let second = make(&brief, 1, wanted, &others, &Calibration::default(), &mut |_| {}, &|| false);
    for it in &second.made {
        assert!(!forms.contains(&prove::canonical(&it.puzzle, LIMIT).unwrap()));
    }
}

#[test]
fn bug_two_briefs_with_one_seed_gave_puzzles_with_one_solution() {
    let solution = |it: &Brief| set(it, 7, 1).made.remove(0).solution;
    let with = |clues| Brief { clues, ..brief(&["crust-reach"]) };
    assert_ne!(solution(&with(Clues::Needed)), solution(&with(Clues::All)));
    assert_ne!(solution(&brief(&["last-in-sum"])), solution(&brief(&["outside-digits"])));
}

#[test]
fn equal_briefs_and_seeds_give_equal_puzzles_on_any_number_of_cores() {
    let brief = brief(&["crusts-confined"]);
    let on = |n_cores| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(n_cores).build().unwrap();
        let batch = pool.install(|| set(&brief, 8, 2));
        let puzzles: Vec<Puzzle> = batch.made.iter().map(|it| it.puzzle.clone()).collect();
        (puzzles, batch.tally)
    };
    let alone = on(1);
    assert_eq!(alone, on(3));
    assert_ne!(alone.0, set(&brief, 9, 2).made.into_iter().map(|it| it.puzzle).collect::<Vec<_>>());
}

#[test]
fn what_cannot_be_met_is_said_with_the_nearest_miss() {
    let brief = Brief { givens: Span { least: 0, most: 3 }, kind: Kind::Classic, ..brief(&["naked-pair"]) };
    let mut seen = 0;
    let mut watch = |tally: &make::Tally| seen = tally.tries;
    let batch = make(
        &brief,
        1,
        Wanted { count: 1, tries: 10 },
        &Others::none(brief.kind),
        &Calibration::default(),
        &mut watch,
        &|| false,
    );
    assert!(batch.made.is_empty() && !batch.is_stopped);
    assert_eq!((batch.tally.tries, seen), (10, 10));
    // No classic puzzle has one solution with fewer than 17 givens (G. McGuire and others, 2014).
    let Some(Miss::Givens { needs: 17.., most: 3 }) = batch.tally.nearest else {
        panic!("{:?}", batch.tally)
    };
}

#[test]
fn work_ends_when_it_is_asked_to() {
    let wanted = Wanted { count: 1, tries: 10 };
    let batch = make(
        &brief(&[]),
        1,
        wanted,
        &Others::none(Kind::Sandwich),
        &Calibration::default(),
        &mut |_| {},
        &|| true,
    );
    assert!(batch.is_stopped && batch.made.is_empty());
}
