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

/// Those of which a board of six holds none, or hardly any: what is left of its houses, or of its lines, is so little that
/// something easier says the same. Beside three cells that hide a triple there are three that show one, and beside four
/// lines of a jellyfish two of an X-wing.
const NEED_LARGER: [&str; 6] =
    ["hidden-triple", "naked-quad", "swordfish", "hidden-quad", "jellyfish", "jellyfish-with-spare"];

/// Those whose positions are built, because ordinary puzzles hardly ever hold any.
const BUILT: [&str; 5] =
    ["crust-turn-settled", "chain-of-equal-pairs", "line-and-box-share-a-set", "hidden-quad", "jellyfish"];

fn drills(name: &'static str, seed: u64) -> Vec<Drill> {
    drills_of(6, name, seed, 200)
}

fn drills_of(side: u8, name: &'static str, seed: u64, tries: u64) -> Vec<Drill> {
    let teaches = vec![TechniqueId::new(name)];
    assert!(technique(teaches[0]).is_some());
    let brief = Brief {
        size: Size::of_side(side).unwrap(),
        kind: Kind::Sandwich,
        known: usually_known(&teaches),
        teaches: Vec::new(),
        minutes: None,
        givens: Span { least: 0, most: 10 },
        clues: Clues::Needed,
        look: Look::Any,
        is_spare_allowed: true,
    };
    drill(&brief, teaches[0], seed, (3, tries), &|| false).unwrap()
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
    if let (Claim::IsNot(cell, digit), true) = (*claim, is_of_one_digit(drill)) {
        return !has_places(drill, digit, &mut vec![cell]);
    }
    !Search { drill, shown: shown(drill), denied: Some(*claim) }.has_filling(drill.puzzle.givens())
}

/// Whether it is a jellyfish: so many cells, of which so little is told, are too much for a search through fillings.
fn is_of_one_digit(drill: &Drill) -> bool {
    drill.trail.step(drill.step).technique().name() == "jellyfish"
}

/// Whether the digit can be in these cells and once in each of the houses besides.
fn has_places(drill: &Drill, digit: Digit, taken: &mut Vec<Cell>) -> bool {
    let size = drill.puzzle.size();
    let is_without = |it: &&grid::House| !taken.iter().any(|cell| size.houses_of(*cell).contains(it));
    let Some(house) = drill.houses.iter().find(is_without) else { return true };
    let is_open = |cell: &Cell| {
        let shown = drill.cells.iter().find(|it| it.cell == *cell);
        shown.is_some_and(|it| it.digits.contains(digit))
            && taken.iter().all(|it| size.shared_house(*it, *cell).is_none())
    };
    let places: Vec<Cell> = size.cells_of(*house).into_iter().filter(is_open).collect();
    places.into_iter().any(|cell| {
        taken.push(cell);
        let is_possible = has_places(drill, digit, taken);
        taken.pop();
        is_possible
    })
}

/// What the checker and the easier techniques have to say of it, however large the board.
fn is_proved_and_not_easily(name: &'static str, drill: &Drill) {
    assert_eq!(drill.trail.step(drill.step).technique().name(), name);
    let concluded = drill.trail.step(drill.step).concludes().iter();
    let concluded: Vec<Claim> = concluded.map(|it| drill.trail.fact(*it).claim()).collect();
    assert_eq!(concluded, drill.answer, "{name}");
    for id in drill.trail.step(drill.step).concludes() {
        let fact = drill.trail.fact(*id);
        let cites = fact.cites().unwrap();
        judge(&drill.puzzle, &drill.trail, &fact.claim(), cites, Cap(100_000)).unwrap();
    }
    assert!(!drill.answer.is_empty());
    nothing_easier_proves(drill, name);
}

/// The same, and what a search through all fillings has to say.
fn check(name: &'static str, drill: &Drill) {
    is_proved_and_not_easily(name, drill);
    let size = drill.puzzle.size();
    let told = shown(drill);
    let is_possible = match drill.answer[0] {
        Claim::IsNot(_, digit) if is_of_one_digit(drill) => has_places(drill, digit, &mut Vec::new()),
        _ => Search { drill, shown: told.clone(), denied: None }.has_filling(drill.puzzle.givens()),
    };
    assert!(is_possible, "{name}: what is shown contradicts itself");
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
            let others = left.iter().filter(|_| !is_of_one_digit(drill));
            for digit in others.filter(|it| !drill.answer.contains(&Claim::IsNot(cell, *it))) {
                assert!(!is_sure(drill, &Claim::IsNot(cell, digit)), "{name}: not {digit:?} either");
            }
        }
        (Some(cell), Claim::Crust(_) | Claim::Filling(_)) => {
            assert!(size.digits().iter().all(|it| !is_sure(drill, &Claim::Is(cell, it))), "{name}");
            let same_of = |it| match drill.answer[0] {
                Claim::Crust(_) => Claim::Crust(it),
                _ => Claim::Filling(it),
            };
            for it in drill.beside.iter() {
                assert!(it != cell && is_shown(it), "{name}: {it} is no alternative");
                assert!(!is_sure(drill, &same_of(it)), "{name}: of {it} the same is sure");
            }
        }
        _ => {}
    }
}

fn nothing_easier_proves(drill: &Drill, name: &str) {
    let mut view = reason::View::new(&drill.puzzle);
    for (id, _) in drill.trail.steps().filter(|it| it.0 != drill.step) {
        view.take(drill.trail.proposal(id)).unwrap();
    }
    let easier: Vec<_> = TECHNIQUES.iter().take_while(|it| it.id().name() != name).collect();
    // What a chain of equal pairs says at once several easier steps always say too.
    if name == "chain-of-equal-pairs" {
        for step in easier.iter().flat_map(|it| it.find(&view)) {
            let mut after = view.clone();
            after.take(step).unwrap();
            assert!(drill.answer.iter().all(|it| after.is_news(*it)), "{name}: {:?}", drill.answer);
        }
        return;
    }
    while let Some(it) = easier.iter().find_map(|it| it.find(&view).into_iter().next()) {
        view.take(it).unwrap();
    }
    assert!(drill.answer.iter().all(|it| view.is_news(*it)), "{name}: {:?}", drill.answer);
}

#[test]
fn each_technique_gives_three_drills_each_with_one_answer() {
    for name in TECHNIQUES.iter().map(|it| it.id().name()) {
        let is_large = NEED_LARGER.contains(&name);
        let side = if is_large { 9 } else { 6 };
        let drills = drills_of(side, name, 1, 200);
        assert_eq!(drills.len(), 3, "{name}");
        for drill in &drills {
            let n_cells = drill.puzzle.size().n_cells();
            assert!(drill.houses.len() < 7 && drill.cells.len() < n_cells, "{name}: {:?}", drill.houses);
            assert!(drill.houses.len() == 1 || !OF_ONE_HOUSE.contains(&name), "{name}: {:?}", drill.houses);
            // A search through all fillings needs a small board.
            if is_large { is_proved_and_not_easily(name, drill) } else { check(name, drill) }
        }
        let is_wide = |it: &Drill| it.houses.len() > 1 || it.cells.len() > usize::from(side);
        assert!(drills.iter().any(is_wide) || !OF_SEVERAL.contains(&name), "{name}");
    }
}

/// The primer of a booklet looks through as few, whatever technique its pack teaches.
#[test]
fn three_drills_come_from_as_few_puzzles_as_a_primer_looks_through() {
    let mut drills = Vec::new();
    for name in TECHNIQUES.iter().map(|it| it.id().name()) {
        let found = drills_of(9, name, 0, 96);
        assert_eq!(found.len(), 3, "{name}");
        drills.extend(found);
    }
    few_can_be_answered_unseen(&drills);
}

/// Most techniques find only crusts, or only filling: of those that are asked which of the two a cell is, the third needs no
/// look. That is asked only where no other cell is open.
fn few_can_be_answered_unseen(drills: &[Drill]) {
    let of_kinds = drills.iter().filter(|it| matches!(it.answer[0], Claim::Crust(_) | Claim::Filling(_)));
    // Where the right one stands among those that are named.
    let places: Vec<(usize, usize)> = of_kinds
        .map(|it| (it.beside.iter().filter(|other| Some(*other) < it.cell).count(), it.beside.len()))
        .collect();
    let n_named = places.iter().filter(|it| it.1 > 0).count();
    assert!(n_named * 5 >= places.len() * 4, "{places:?}");
    assert!((0..4).all(|at| places.iter().any(|it| it.0 == at)), "{places:?}");
}

#[test]
fn bug_what_hardly_ever_comes_up_had_no_drills() {
    // A search through all fillings needs a small board, and four of a kind a large one.
    let sides = [6, 6, 6, 9, 9];
    for (side, name) in sides.into_iter().zip(BUILT) {
        let [some, others] = [1, 2].map(|seed| drills_of(side, name, seed, 96));
        for drill in some.iter().chain(&others) {
            assert!(drill.houses.len() < 7, "{name}: {:?}", drill.houses);
            check(name, drill);
        }
        assert_eq!((some.len(), others.len()), (3, 3), "{name}");
        let answers = |drills: &[Drill]| drills.iter().map(|it| it.answer.clone()).collect::<Vec<_>>();
        assert_ne!(answers(&some), answers(&others), "{name}");
    }
}

#[test]
fn a_board_that_is_too_small_for_it_has_no_drill_of_a_technique() {
    for name in NEED_LARGER {
        assert!(drills_of(6, name, 1, 48).len() < 3, "{name}");
    }
}

#[test]
fn equal_seeds_give_equal_drills() {
    for name in ["last-in-sum", "chain-of-equal-pairs"] {
        let shown = |seed| format!("{:?}", drills(name, seed));
        assert_eq!(shown(4), shown(4));
        assert_ne!(shown(4), shown(5));
    }
}
