//! A pack as a syllabus: walkthroughs use what is known by then, and the loop of order and walkthroughs comes to rest.

use std::collections::{BTreeMap, BTreeSet};
use std::convert::Infallible;
use std::path::Path;

use pack::{Entry, PackInfo, PuzzleId, Said, State, Weights};
use packfile::{SourceFile, read_puzzle};
use reason::{Known, Settings, TECHNIQUES, solve};
use study::{OneByOne, StudiedPack, Study, Unsettled, Walker, Worth, proved, study};
use trail::TechniqueId;

const SIX: [&str; 6] = ["first-light", "two-moths", "low-wick", "small-hours", "salt-glass", "tide-bell"];

/// Six puzzles of the demo pack.
fn entries() -> Vec<Entry> {
    SIX.iter().map(|it| entry(it)).collect()
}

/// A puzzle of the demo pack.
fn entry(id: &str) -> Entry {
    let path = format!("../../demo/lantern-room/puzzles/{id}.toml");
    let bytes = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap();
    read_puzzle(&SourceFile::new(format!("puzzles/{id}.toml"), bytes)).0.unwrap()
}

fn singles() -> Vec<TechniqueId> {
    TECHNIQUES.iter().map(|it| it.id()).take(12).collect()
}

fn syllabus(info: &PackInfo, entries: Vec<Entry>, n_places: Option<usize>) -> Option<StudiedPack> {
    let studies = entries.into_iter().map(|it| proved(it, false)).collect();
    let Ok::<_, Infallible>(pack) = StudiedPack::as_syllabus(info.clone(), studies, n_places, &mut OneByOne);
    pack
}

fn techniques(study: &Study) -> BTreeSet<TechniqueId> {
    study.opened().unwrap().account.unwrap().techniques().clone()
}

#[test]
fn each_walkthrough_uses_what_is_known_by_then_and_as_little_else_as_will_do() {
    let info = PackInfo { knows: singles(), ..PackInfo::default() };
    let pack = syllabus(&info, entries(), None).unwrap();
    let mut known = Known::only(info.knows.iter().copied());
    for study in pack.studies() {
        assert_eq!(study.known(), Some(known), "{}", study.entry().id);
        let opened = study.opened().unwrap();
        let placed = opened.placed.unwrap();
        let used = techniques(study);
        let new: BTreeSet<TechniqueId> = used.iter().copied().filter(|it| !known.has(*it)).collect();
        assert_eq!(placed.new, new);
        // None of what is new can be spared, unless it is what another new one builds on.
        let is_ground = |it: &TechniqueId| {
            new.iter().any(|other| reason::technique(*other).unwrap().prerequisites().contains(it))
        };
        for spared in new.iter().filter(|it| !is_ground(it)) {
            let others = new.iter().filter(|it| *it != spared).fold(known, |known, it| known.with(*it));
            let settings = Settings { known: others, ..Settings::TECHNIQUES_ALONE };
            assert!(solve(&study.entry().puzzle, opened.solution.unwrap(), settings).is_err(), "{spared}");
        }
        known = used.iter().fold(known, |known, it| known.with(*it));
    }
}

#[test]
fn order_and_walkthroughs_come_to_rest_together() {
    let info = PackInfo { knows: singles(), ..PackInfo::default() };
    let pack = syllabus(&info, entries(), None).unwrap();
    // What these walkthroughs ask for is the order that they were made for.
    let again = StudiedPack::new(info.clone(), pack.studies().to_vec());
    assert_eq!(again.order(), pack.order());
    assert_eq!((pack.at_least(), pack.unsettled()), (Some(pack.costs().total()), None));
    let shuffled = syllabus(&info, entries().into_iter().rev().collect(), None).unwrap();
    assert_eq!(shuffled.order(), pack.order());
    let minutes = |it: &StudiedPack| it.studies().iter().map(Study::minutes).collect::<Vec<_>>();
    assert_eq!(minutes(&shuffled), minutes(&pack));
}

#[test]
fn no_exchange_of_two_puzzles_costs_less_once_they_are_walked_through_in_it() {
    let info = PackInfo { knows: singles(), ..PackInfo::default() };
    let pack = syllabus(&info, entries(), None).unwrap();
    let mut dearer = 0;
    for a in 0..SIX.len() {
        for b in a + 1..SIX.len() {
            let mut order = pack.order();
            order.swap(a, b);
            let by_hand = PackInfo { order: Some(order), ..info.clone() };
            let other = syllabus(&by_hand, entries(), None).unwrap().costs().total();
            assert!(other >= pack.costs().total(), "{a} and {b}: {other}, not {}", pack.costs().total());
            dearer += usize::from(other > pack.costs().total());
        }
    }
    assert!(dearer > 10, "{dearer}");
}

/// A walker for whom a puzzle is another one to each solver, of those of the demo pack: which, says a function of its id
/// and of what is known; with none nobody can be led through. So orders can be made to depend on walkthroughs as no real
/// puzzles' do.
struct Shifting<F> {
    which: F,
    /// By id and puzzle.
    studied: BTreeMap<(PuzzleId, Option<&'static str>), Study>,
}

impl<F: Fn(&str, Known) -> Option<&'static str>> Walker for Shifting<F> {
    type Error = Infallible;

    fn walk(&mut self, puzzles: Vec<(Study, Known)>) -> Result<Vec<Study>, Infallible> {
        let one = |(it, known): (Study, Known)| {
            let Entry { id, sealed, .. } = it.entry().clone();
            let which = (self.which)(id.as_str(), known);
            let anew = || match which {
                Some(which) => walked(Entry { id: id.clone(), sealed, ..entry(which) }),
                None => proved(it.entry().clone(), false),
            };
            self.studied.entry((id.clone(), which)).or_insert_with(anew).clone()
        };
        Ok(puzzles.into_iter().map(one).collect())
    }
}

fn walked(entry: Entry) -> Study {
    proved(entry, false).for_solver(Known::ALL)
}

fn seconds(study: &Study) -> u64 {
    study.opened().unwrap().account.unwrap().estimate.seconds().round() as u64
}

/// The order of puzzles of these ids.
fn shifting(
    ids: &[&str],
    weights: Weights,
    which: impl Fn(&str, Known) -> Option<&'static str>,
) -> StudiedPack {
    let entry = |id: &&str| Entry { id: PuzzleId::new(id).unwrap(), ..entry(SIX[0]) };
    let studies = ids.iter().map(|it| proved(entry(it), false)).collect();
    let walker = &mut Shifting { which, studied: BTreeMap::new() };
    let info = PackInfo { weights, ..PackInfo::default() };
    let Ok::<_, Infallible>(pack) = StudiedPack::as_syllabus(info, studies, None, walker);
    pack.unwrap()
}

const NOTHING: Weights = Weights {
    new_at_once: 0,
    prerequisite: 0,
    minute_back: 0,
    same_setter: 0,
    same_break_in: 0,
    shelf_back: 0,
    not_taught: 0,
    said_untrue: 0,
};

#[test]
fn of_two_orders_that_ask_for_each_other_the_better_is_taken() {
    let mut three = ["first-light", "low-wick", "tide-bell"].map(|it| (seconds(&walked(entry(it))), it));
    three.sort_unstable();
    let [(_, quick), (_, medium), (_, long)] = three;
    // Whoever comes to `a` knowing nothing has a long way, so it wants to be last; and there it is quick.
    let which = |id: &str, known: Known| match (id, known == Known::only([])) {
        ("a", true) => Some(long),
        ("a", false) => Some(quick),
        _ => Some(medium),
    };
    let rising = Weights { minute_back: 4, ..NOTHING };
    let pack = shifting(&["a", "b"], rising, which);
    assert_eq!(pack.unsettled(), None);
    let cost = |before: usize, after: usize| 4 * (three[before].0 - three[after].0) / 60;
    let (a_first, b_first) = (cost(2, 1), cost(1, 0));
    assert_ne!(a_first, b_first);
    assert_eq!(pack.costs().total(), a_first.min(b_first));
    assert_eq!(pack.order()[0].as_str(), if a_first < b_first { "a" } else { "b" });
    // With the same walkthroughs for everybody neither asks for the other.
    assert_eq!(shifting(&["a", "b"], rising, |_, _| Some(medium)).unsettled(), None);
}

/// Eight puzzles of the demo.
const EIGHT: [&str; 8] = [
    "brass-hinge",
    "keepers-stair",
    "long-shadow",
    "low-wick",
    "north-window",
    "salt-glass",
    "spent-match",
    "two-moths",
];

/// Any of them for whoever knows anything else, so that what was found for one solver tells nothing of another.
fn any_of_eight(id: &str, known: Known) -> Option<&'static str> {
    // FNV-1a, a common way to mix bits.
    let mix = |it: u64, byte| (it ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3);
    let mixed = format!("{id} {known:?}").bytes().fold(0xcbf2_9ce4_8422_2325, mix);
    Some(EIGHT[(mixed >> 40) as usize % EIGHT.len()])
}

#[test]
fn a_loop_that_always_learns_something_new_is_broken_off() {
    for n in [8, 17] {
        let ids: Vec<&str> = "abcdefghijklmnopq".split("").filter(|it| !it.is_empty()).take(n).collect();
        let pack = shifting(&ids, Weights { minute_back: 4, ..NOTHING }, any_of_eight);
        assert_eq!(pack.unsettled(), Some(Unsettled(12)));
        assert!(pack.at_least() <= Some(pack.costs().total()));
        assert_eq!(pack.order().into_iter().collect::<BTreeSet<_>>().len(), n);
    }
}

#[test]
fn bug_a_pack_with_a_puzzle_that_nobody_can_be_led_through_comes_to_rest() {
    let which = |id: &str, _: Known| EIGHT.into_iter().find(|it| *it == id);
    let pack = shifting(&["a-puzzle", "low-wick", "salt-glass"], Weights::default(), which);
    assert_eq!((pack.unsettled(), pack.order()[2].as_str()), (None, "a-puzzle"));
    assert_eq!(pack.studies()[2].known(), None);
}

#[test]
fn a_puzzle_stands_where_somebody_can_be_led_through_it() {
    // Without what `b` teaches there is no way through `a`, which costs least as the first, where it would cost nothing.
    let which = |id: &str, known: Known| match (id, known == Known::only([])) {
        ("a", true) => None,
        ("a", false) => Some("low-wick"),
        _ => Some("tide-bell"),
    };
    let pack = shifting(&["a", "b", "c"], Weights { minute_back: 4, ..NOTHING }, which);
    assert!(pack.studies().iter().all(Study::is_publishable));
    assert_eq!(pack.unsettled(), None);
    // And where nobody comes to it who could be led through it, it teaches nothing.
    let which = |id: &str, known: Known| which(if id == "b" { "a" } else { id }, known);
    let pack = shifting(&["a", "b"], NOTHING, which);
    assert!(pack.studies().iter().all(|it| !it.is_publishable()));
}

#[test]
fn what_a_sealed_puzzle_uses_is_not_known_after_it_in_a_proposed_order_either() {
    let mut entries = entries();
    entries[2].sealed = true;
    let sealed = entries[2].id.clone();
    let info = PackInfo { knows: singles(), ..PackInfo::default() };
    let pack = syllabus(&info, entries, None).unwrap();
    let mut known = Known::only(info.knows.iter().copied());
    for study in pack.studies() {
        assert_eq!(study.known(), Some(known), "{}", study.entry().id);
        if study.entry().id != sealed {
            known = techniques(study).into_iter().fold(known, Known::with);
        }
    }
    assert_ne!(pack.order().last(), Some(&sealed));
}

#[test]
fn the_editors_order_is_kept_and_taught_in_turn() {
    let order: Vec<PuzzleId> = entries().into_iter().rev().map(|it| it.id).collect();
    let info = PackInfo { knows: singles(), order: Some(order.clone()), ..PackInfo::default() };
    let pack = syllabus(&info, entries(), None).unwrap();
    assert_eq!(pack.order(), order);
    assert!(!pack.is_proposed() && pack.at_least().is_none());
    let first = techniques(&pack.studies()[0]);
    assert!(first.iter().all(|it| pack.studies()[1].known().unwrap().has(*it)));
}

#[test]
fn a_sealed_puzzle_teaches_nobody() {
    let order: Vec<PuzzleId> = entries().into_iter().map(|it| it.id).collect();
    let info = PackInfo { order: Some(order), ..PackInfo::default() };
    let mut entries = entries();
    entries[0].sealed = true;
    let pack = syllabus(&info, entries, None).unwrap();
    assert_eq!(pack.studies()[1].known(), Some(Known::only([])));
}

#[test]
fn puzzles_without_a_place_are_set_aside_and_chosen_from() {
    let mut entries = entries();
    entries[0].state = State::Declined;
    entries[1].state = State::Pool;
    entries[2].state = State::In;
    let names = |it: &[Study]| it.iter().map(|it| it.entry().id.to_string()).collect::<BTreeSet<_>>();
    let info = PackInfo { knows: singles(), ..PackInfo::default() };
    let all = entries.len();
    let pack = syllabus(&info, entries.clone(), None).unwrap();
    let aside: BTreeSet<String> = entries[..2].iter().map(|it| it.id.to_string()).collect();
    assert_eq!(names(pack.aside()), aside);
    assert!(pack.aside().iter().all(|it| it.opened().unwrap().placed.is_none()));

    let chosen = syllabus(&info, entries.clone(), Some(2)).unwrap();
    assert_eq!((chosen.studies().len(), chosen.aside().len()), (2, all - 2));
    assert!(names(chosen.studies()).contains(&entries[2].id.to_string()));
    assert!(!names(chosen.studies()).contains(&entries[0].id.to_string()));
    entries.iter_mut().for_each(|it| it.state = State::In);
    assert!(syllabus(&info, entries, Some(2)).is_none());
}

#[test]
fn what_was_said_is_held_against_the_order_and_shelves_against_their_limits() {
    let mut entries = entries();
    let last = entries.len() - 1;
    entries[last].said = vec![Said::First, Said::Last];
    entries[0].said = vec![Said::First];
    entries[1].shelf = Some("Dusk".into());
    let order: Vec<PuzzleId> = entries.iter().map(|it| it.id.clone()).collect();
    let shelves = vec![pack::Shelf { minutes: Some(1), hardest: None, name: "Dusk".into() }];
    let info = PackInfo { order: Some(order.clone()), shelves, ..PackInfo::default() };
    let pack = syllabus(&info, entries, None).unwrap();
    assert_eq!(pack.untrue(), [(order[last].clone(), Said::First)]);
    let misfits = pack.misfits();
    assert!(misfits.iter().any(|it| it.id == order[1] && it.minutes.is_some()), "{misfits:?}");
}

#[test]
fn what_was_said_of_a_puzzle_that_is_left_out_is_not_true() {
    let mut entries = entries();
    let n = entries.len();
    entries[0].said = vec![Said::First];
    entries[0].state = State::Pool;
    entries[1].said = vec![Said::Last];
    entries[1].state = State::Declined;
    entries[2..].iter_mut().for_each(|it| it.state = State::In);
    let info = PackInfo { knows: singles(), ..PackInfo::default() };
    // From the pool nothing is chosen, and what was turned down is in no pack of which anything could be true.
    assert!(syllabus(&info, entries.clone(), None).unwrap().untrue().is_empty());
    let chosen = syllabus(&info, entries.clone(), Some(n - 2)).unwrap();
    assert_eq!(chosen.untrue(), [(entries[0].id.clone(), Said::First)]);
    // What the choice costs is what it was chosen for: that too, and what none of those chosen teaches.
    assert_eq!(chosen.costs().said_untrue, chosen.info().weights.said_untrue);
    assert_eq!(chosen.at_least(), Some(chosen.costs().total()));
    entries[0].state = State::Undecided;
    entries[2].state = State::Pool;
    let chosen = syllabus(&info, entries.clone(), Some(n - 2)).unwrap();
    assert_eq!((chosen.untrue(), chosen.order()[0].clone()), (vec![], entries[0].id.clone()));
}

#[test]
fn what_a_technique_is_worth_is_measured_by_doing_without() {
    let info = PackInfo { knows: singles(), ..PackInfo::default() };
    let pack = syllabus(&info, entries(), None).unwrap();
    let mut kinds = BTreeSet::new();
    for study in pack.studies() {
        let opened = study.opened().unwrap();
        let used = techniques(study);
        let worths = study.worth(|_| true).unwrap();
        assert_eq!(worths.iter().map(|it| it.0).collect::<BTreeSet<_>>(), used);
        let known = used.iter().fold(study.known().unwrap(), |known, it| known.with(*it));
        for (id, worth) in worths {
            let others = Known::only(known.techniques().map(|it| it.id()).filter(|it| *it != id));
            let settings = Settings { known: others, ..Settings::TECHNIQUES_ALONE };
            let is_stuck = solve(&study.entry().puzzle, opened.solution.unwrap(), settings).is_err();
            assert_eq!(worth == Worth::Needed, is_stuck, "{id}");
            kinds.insert(matches!(worth, Worth::Needed));
        }
        // What is new and no other new one builds on is needed: else it would not have been learnt.
        let asked = study.worth(|it| it == opened.account.unwrap().break_in().unwrap()).unwrap();
        assert_eq!(asked.len(), 1);
    }
    assert!(kinds.len() >= 2);
}

#[test]
fn what_is_featured_is_shown_earlier_for_hardly_more_effort() {
    let mut n_shown_only_so = 0;
    for entry in entries().into_iter().take(3) {
        let explained = |features| {
            let it = study(Entry { features, ..entry.clone() }, false);
            it.opened().unwrap().account.unwrap().explained.walkthrough().trail().clone()
        };
        let plain = explained(None);
        for technique in TECHNIQUES.iter().map(|it| it.id()).take(26) {
            let featured = explained(Some(technique));
            let first = |trail: &trail::Trail| {
                let at = trail.steps().position(|(_, it)| it.technique() == technique);
                at.map(|at| at * 100 / trail.n_steps())
            };
            match (first(&plain), first(&featured)) {
                (None, Some(_)) => n_shown_only_so += 1,
                (Some(plain), featured) => assert!(featured.is_some_and(|it| it <= plain), "{technique}"),
                (None, None) => {}
            }
            let (least, effort) = (reason::effort(&plain), reason::effort(&featured));
            assert!(effort * 100 <= least * (100 + reason::FEATURED), "{technique}: {effort}, not {least}");
        }
    }
    // By taking every step of it as soon as it is open, as was done at first, only 13 are shown.
    assert!(n_shown_only_so > 20, "{n_shown_only_so}");
}
