//! Exercises of one line or box, each held against what it promises by trying every filling of its cells.

use grid::{Cell, Digit, Size};
use make::{Brief, Clues, Drill, Kind, Look, Span, drill, usually_known};
use reason::{TECHNIQUES, technique};
use rulebook::Claim;
use trail::TechniqueId;

fn drills(name: &'static str, seed: u64) -> Vec<Drill> {
    let teaches = vec![TechniqueId::new(name)];
    assert!(technique(teaches[0]).is_some());
    let brief = Brief {
        size: Size::of_side(6).unwrap(),
        kind: Kind::Sandwich,
        known: usually_known(&teaches),
        teaches: Vec::new(),
        minutes: None,
        givens: Span { least: 0, most: 10 },
        clues: Clues::Needed,
        look: Look::Any,
    };
    drill(&brief, teaches[0], seed, (3, 200), &|| false).unwrap()
}

/// Every filling of the house that agrees with what is shown.
fn fillings(drill: &Drill) -> Vec<Vec<(Cell, Digit)>> {
    let size = drill.puzzle.size();
    let cells = size.cells_of(drill.house);
    let mut orders: Vec<Vec<Digit>> = vec![Vec::new()];
    for _ in &cells {
        orders = orders
            .into_iter()
            .flat_map(|begun| {
                let rest = size.digits().iter().filter(|it| !begun.contains(it)).collect::<Vec<_>>();
                rest.into_iter().map(move |it| begun.iter().copied().chain([it]).collect())
            })
            .collect();
    }
    let first = drill.trail.step(drill.step).concludes()[0];
    let shown: Vec<Claim> =
        drill.trail.facts().filter(|(id, _)| *id < first).map(|(_, it)| it.claim()).collect();
    let agrees = |order: &Vec<Digit>| {
        let at = |cell: Cell| order[cells.iter().position(|it| *it == cell).unwrap()];
        drill.puzzle.clues().iter().all(|it| it.rule.allows(size, it.value, order))
            && shown.iter().all(|it| it.holds(size, at))
    };
    let with_cells = |order: Vec<Digit>| cells.iter().copied().zip(order).collect();
    orders.into_iter().filter(agrees).map(with_cells).collect()
}

#[test]
fn each_drill_has_one_answer() {
    for name in
        ["crust-distance", "crust-reach", "last-in-sum", "outside-digits", "hidden-single", "spent-clue"]
    {
        let drills = drills(name, 1);
        assert_eq!(drills.len(), 3, "{name}");
        for drill in &drills {
            assert_eq!(drill.trail.step(drill.step).technique().name(), name);
            let concluded = drill.trail.step(drill.step).concludes().iter();
            let concluded: Vec<Claim> = concluded.map(|it| drill.trail.fact(*it).claim()).collect();
            assert_eq!(concluded, drill.answer, "{name}");
            let size = drill.puzzle.size();
            let fillings = fillings(drill);
            assert!(!fillings.is_empty(), "{name}: what is shown contradicts itself");
            let is_sure = |claim: &Claim| {
                fillings.iter().all(|filling| {
                    claim.holds(size, |cell| filling.iter().find(|it| it.0 == cell).unwrap().1)
                })
            };
            assert!(
                !drill.answer.is_empty() && drill.answer.iter().all(is_sure),
                "{name}: {:?}",
                drill.answer
            );
            if let (Some(cell), Claim::IsNot(..)) = (drill.cell, drill.answer[0]) {
                let shown: Vec<Claim> = drill.trail.facts().map(|it| it.1.claim()).collect();
                for digit in size.digits().iter() {
                    let claim = Claim::IsNot(cell, digit);
                    let is_seen = drill.puzzle.givens().filled().any(|it| it.1 == digit);
                    let is_shown = is_seen || shown.contains(&claim) || shown.contains(&Claim::Filling(cell));
                    assert!(!is_sure(&claim) || is_shown, "{name}: {claim:?} too");
                }
            }
        }
    }
}

#[test]
fn nothing_easier_proves_the_answer() {
    let drills = drills("crust-reach", 2);
    for drill in &drills {
        let mut view = reason::View::new(&drill.puzzle);
        for (id, _) in drill.trail.steps().filter(|it| it.0 != drill.step) {
            view.take(drill.trail.proposal(id)).unwrap();
        }
        let easier: Vec<_> = TECHNIQUES.iter().take_while(|it| it.id().name() != "crust-reach").collect();
        while let Some(it) = easier.iter().find_map(|it| it.find(&view).into_iter().next()) {
            view.take(it).unwrap();
        }
        assert!(drill.answer.iter().all(|it| view.is_news(*it)), "{:?}", drill.answer);
    }
}

#[test]
fn equal_seeds_give_equal_drills() {
    let shown = |seed| format!("{:?}", drills("last-in-sum", seed));
    assert_eq!(shown(4), shown(4));
    assert_ne!(shown(4), shown(5));
}
