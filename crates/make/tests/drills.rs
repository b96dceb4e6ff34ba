//! Exercises of a house or a few, each held against what it promises by a plain search through the board's fillings.

use grid::{Cell, Digit, Grid, Size};
use make::{Brief, Clues, Drill, Kind, Look, Span, drill, usually_known};
use reason::{TECHNIQUES, technique};
use replay::{Cap, judge};
use rulebook::Claim;
use trail::TechniqueId;

const OF_ONE_HOUSE: [&str; 6] =
    ["crust-distance", "crust-reach", "last-in-sum", "outside-digits", "hidden-single", "spent-clue"];
const OF_SEVERAL: [&str; 8] = [
    "crusts-shared",
    "crusts-confined",
    "crusts-in-turn",
    "crust-held",
    "crust-among",
    "x-wing",
    "neighbour-trials",
    "chain-through-clues",
];

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

/// What is shown, as claims: what is told and the digits of the page.
fn shown(drill: &Drill) -> Vec<Claim> {
    let first = drill.trail.step(drill.step).concludes()[0];
    drill.trail.facts().filter(|(id, _)| *id < first).map(|(_, it)| it.claim()).collect()
}

/// Whether some filling of the whole board agrees with what is shown, and with these digits in these cells, and passes
/// the test.
///
/// A search that knows the rules and nothing else: the cells that are shown before others, those with the fewest digits
/// first, and every clue and every claim looked at as soon as its cells are full.
struct Search<'a> {
    drill: &'a Drill,
    shown: Vec<Claim>,
    /// What the filling must break, if anything.
    denied: Option<Claim>,
}

impl Search<'_> {
    fn has_filling(&self, board: &Grid) -> bool {
        let size = board.size();
        let open = size.cells().filter(|it| board.get(*it).is_none());
        let is_elsewhere = |cell: Cell| self.drill.cells.iter().all(|it| it.cell != cell);
        let open = open.map(|it| (self.digits(board, it), it));
        let tightest = open.min_by_key(|it| (is_elsewhere(it.1), it.0.len()));
        let Some((digits, cell)) = tightest else { return true };
        digits.iter().any(|it| {
            let next = board.clone().with(cell, Some(*it));
            self.is_fine(&next, cell) && self.has_filling(&next)
        })
    }

    fn digits(&self, board: &Grid, cell: Cell) -> Vec<Digit> {
        let size = board.size();
        let is_seen = |digit: Digit| size.peers(cell).iter().any(|it| board.get(it) == Some(digit));
        let is_left = |digit: Digit| {
            let about = self.shown.iter().filter(|it| it.cell() == Some(cell));
            about.into_iter().all(|it| it.holds(size, |_| digit))
        };
        size.digits().iter().filter(|it| !is_seen(*it) && is_left(*it)).collect()
    }

    /// Whether what has just been filled agrees with clues and claims.
    fn is_fine(&self, board: &Grid, cell: Cell) -> bool {
        let size = board.size();
        let full = |house| -> Option<Vec<Digit>> {
            size.cells_of(house).into_iter().map(|it| board.get(it)).collect()
        };
        let at = |it: Cell| board.get(it).unwrap();
        let of_clues = self.drill.puzzle.clues().iter().filter(|it| size.houses_of(cell).contains(&it.line));
        let holds = |claim: &Claim, wanted: bool| match (claim.cell(), claim.house()) {
            (Some(it), _) => board.get(it).is_none() || claim.holds(size, at) == wanted,
            (None, Some(house)) => full(house).is_none() || claim.holds(size, at) == wanted,
            (None, None) => panic!("a claim about nothing"),
        };
        of_clues.into_iter().all(|it| full(it.line).is_none_or(|full| it.rule.allows(size, it.value, &full)))
            && self.shown.iter().all(|it| holds(it, true))
            && self.denied.is_none_or(|it| holds(&it, false))
    }
}

/// Whether the claim follows from what is shown.
fn is_sure(drill: &Drill, claim: &Claim) -> bool {
    !Search { drill, shown: shown(drill), denied: Some(*claim) }.has_filling(drill.puzzle.givens())
}

fn check(name: &'static str, drill: &Drill) {
    assert_eq!(drill.trail.step(drill.step).technique().name(), name);
    let concluded = drill.trail.step(drill.step).concludes().iter();
    let concluded: Vec<Claim> = concluded.map(|it| drill.trail.fact(*it).claim()).collect();
    assert_eq!(concluded, drill.answer, "{name}");
    for id in drill.trail.step(drill.step).concludes() {
        let fact = drill.trail.fact(*id);
        let cites = fact.cites().unwrap();
        judge(&drill.puzzle, &drill.trail, &fact.claim(), cites, Cap(100_000)).unwrap();
    }
    let size = drill.puzzle.size();
    let told = shown(drill);
    let is_possible = Search { drill, shown: told.clone(), denied: None };
    assert!(is_possible.has_filling(drill.puzzle.givens()), "{name}: what is shown contradicts itself");
    assert!(!drill.answer.is_empty());
    for it in &drill.answer {
        assert!(is_sure(drill, it), "{name}: {it:?}");
    }
    // What is known of cells that are not shown would be a help that nobody sees.
    let is_shown = |cell: Cell| drill.cells.iter().any(|it| it.cell == cell);
    assert!(
        told.iter().all(
            |it| it.cell().is_none_or(is_shown) && it.house().is_none_or(|it| drill.houses.contains(&it))
        )
    );
    assert!(drill.cell.is_none_or(is_shown));
    match (drill.cell, drill.answer[0]) {
        (Some(cell), Claim::IsNot(..)) => {
            let left = drill.cells.iter().find(|it| it.cell == cell).unwrap().digits;
            for digit in left.iter().filter(|it| !drill.answer.contains(&Claim::IsNot(cell, *it))) {
                assert!(!is_sure(drill, &Claim::IsNot(cell, digit)), "{name}: not {digit:?} either");
            }
        }
        (Some(cell), Claim::Crust(_) | Claim::Filling(_)) => {
            assert!(size.digits().iter().all(|it| !is_sure(drill, &Claim::Is(cell, it))), "{name}");
        }
        _ => {}
    }
    nothing_easier_proves(drill, name);
}

fn nothing_easier_proves(drill: &Drill, name: &str) {
    let mut view = reason::View::new(&drill.puzzle);
    for (id, _) in drill.trail.steps().filter(|it| it.0 != drill.step) {
        view.take(drill.trail.proposal(id)).unwrap();
    }
    let easier: Vec<_> = TECHNIQUES.iter().take_while(|it| it.id().name() != name).collect();
    while let Some(it) = easier.iter().find_map(|it| it.find(&view).into_iter().next()) {
        view.take(it).unwrap();
    }
    assert!(drill.answer.iter().all(|it| view.is_news(*it)), "{name}: {:?}", drill.answer);
}

#[test]
fn each_drill_of_one_house_has_one_answer() {
    for name in OF_ONE_HOUSE {
        let drills = drills(name, 1);
        assert_eq!(drills.len(), 3, "{name}");
        for drill in &drills {
            assert_eq!(drill.houses.len(), 1);
            check(name, drill);
        }
    }
}

#[test]
fn what_spans_houses_is_asked_of_a_few_houses() {
    for name in OF_SEVERAL {
        let drills = drills(name, 1);
        assert_eq!(drills.len(), 3, "{name}");
        for drill in &drills {
            let n_cells = drill.puzzle.size().n_cells();
            assert!(drill.houses.len() < 7 && drill.cells.len() < n_cells, "{name}: {:?}", drill.houses);
            check(name, drill);
        }
        assert!(drills.iter().any(|it| it.houses.len() > 1 || it.cells.len() > 6), "{name}");
    }
}

#[test]
fn equal_seeds_give_equal_drills() {
    let shown = |seed| format!("{:?}", drills("last-in-sum", seed));
    assert_eq!(shown(4), shown(4));
    assert_ne!(shown(4), shown(5));
}
