//! A pack as a syllabus: walkthroughs use what is known by then, and the loop of order and walkthroughs comes to rest.

use std::collections::BTreeSet;
use std::convert::Infallible;
use std::path::Path;

use pack::{Entry, PackInfo, PuzzleId, Said, State};
use packfile::{SourceFile, read_puzzle};
use reason::{Known, Settings, TECHNIQUES, solve};
use study::{OneByOne, StudiedPack, Study, Worth, proved, study};
use trail::TechniqueId;

const SIX: [&str; 6] = ["first-light", "two-moths", "low-wick", "small-hours", "salt-glass", "tide-bell"];

/// Six puzzles of the demo pack.
fn entries() -> Vec<Entry> {
    let entry = |id: &&str| {
        let path = format!("../../demo/lantern-room/puzzles/{id}.toml");
        let bytes = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap();
        read_puzzle(&SourceFile::new(format!("puzzles/{id}.toml"), bytes)).0.unwrap()
    };
    SIX.iter().map(entry).collect()
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
    assert_eq!(pack.at_least(), Some(pack.costs().total()));
    let shuffled = syllabus(&info, entries().into_iter().rev().collect(), None).unwrap();
    assert_eq!(shuffled.order(), pack.order());
    let minutes = |it: &StudiedPack| it.studies().iter().map(Study::minutes).collect::<Vec<_>>();
    assert_eq!(minutes(&shuffled), minutes(&pack));
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
    assert!(n_shown_only_so > 0);
}
