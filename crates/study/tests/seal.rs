//! The seal: nothing of a sealed puzzle can be had, not even through its neighbours.

use std::path::Path;

use pack::{Entry, PackInfo};
use packfile::{SourceFile, read_puzzle};
use study::{Finding, StudiedPack, Study, study};

/// A puzzle of the demo pack.
fn entry(id: &str) -> Entry {
    let path = format!("../../demo/lantern-room/puzzles/{id}.toml");
    let bytes = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap();
    read_puzzle(&SourceFile::new(format!("puzzles/{id}.toml"), bytes)).0.unwrap()
}

fn sealed(id: &str) -> Entry {
    Entry { sealed: true, ..entry(id) }
}

fn pack(studies: Vec<Study>) -> StudiedPack {
    let ids = studies.iter().map(|it| it.entry().id.clone()).collect();
    let info = PackInfo {
        title: "Test".into(),
        shelves: vec!["Low".into(), "High".into()],
        order: Some(ids),
        ..PackInfo::default()
    };
    StudiedPack::new(info, studies)
}

#[test]
fn a_sealed_puzzle_says_verdict_and_minutes_only() {
    let it = study(sealed("first-light"), false);
    assert!(it.is_sealed() && it.opened().is_none());
    assert_eq!(it.finding(), Finding::One);
    assert!(it.minutes().is_some() && it.is_publishable());
}

#[test]
fn unsealing_opens_it() {
    let it = study(sealed("first-light"), true);
    let opened = it.opened().unwrap();
    let solution = opened.solution.unwrap();
    assert!(it.entry().puzzle.is_solved_by(solution));
    let account = opened.account.unwrap();
    let walkthrough = account.explained.walkthrough();
    assert_eq!(walkthrough.board(&it.entry().puzzle), *solution);
    let way_in = account.way_in().unwrap();
    assert!((1..=3).contains(&way_in.n_steps()));
}

#[test]
fn ways_in_begin_on_the_page_and_have_no_step_in_common() {
    for id in ["first-light", "two-moths", "low-wick", "small-hours"] {
        let it = study(entry(id), false);
        let account = it.opened().unwrap().account.unwrap();
        let ways = account.ways_in(&it.entry().puzzle);
        assert_eq!(ways.first(), account.way_in(), "{id}");
        assert!((1..=3).contains(&ways.len()), "{id}: {}", ways.len());
        let trail = account.explained.walkthrough().trail();
        let mut taken = std::collections::BTreeSet::new();
        for way in &ways {
            let concluded: Vec<_> =
                way.facts().filter(|(_, it)| it.step().is_some()).map(|(_, it)| it.claim()).collect();
            let of_them = trail.facts().filter(|(_, it)| concluded.contains(&it.claim()));
            let steps: std::collections::BTreeSet<_> = of_them.filter_map(|(_, it)| it.step()).collect();
            // Two crusts of one step were once two ways.
            assert!(steps.iter().all(|it| taken.insert(*it)), "{id}: a step is on two ways");
        }
        // Each is a trail of its own: what it says follows from the page.
        for way in &ways {
            let puzzle = &it.entry().puzzle;
            let facts = way.facts().filter_map(|(_, it)| Some((it.claim(), it.cites()?)));
            let cap = replay::Cap(100_000);
            let judged = facts.map(|(claim, cites)| replay::judge(puzzle, way, &claim, cites, cap));
            assert!(judged.into_iter().all(|it| it.is_ok()), "{id}");
        }
    }
}

#[test]
fn neighbours_tell_nothing_of_a_sealed_puzzle() {
    let neighbour = |first: Entry| {
        let pack = pack(vec![study(first, false), study(entry("low-wick"), false)]);
        let placed = pack.studies()[1].opened().unwrap().placed.cloned().unwrap();
        (placed.new, placed.practised, placed.step_up)
    };
    // The same whichever puzzle the sealed one is.
    assert_eq!(neighbour(sealed("first-light")), neighbour(sealed("two-moths")));
    assert_ne!(neighbour(entry("first-light")), neighbour(entry("two-moths")));
    let (new, practised, step_up) = neighbour(sealed("first-light"));
    assert!(!new.is_empty() && practised.is_empty() && step_up.is_none());
}

#[test]
fn coverage_leaves_sealed_puzzles_out() {
    let pack = pack(vec![study(sealed("first-light"), false), study(entry("low-wick"), false)]);
    let ids: Vec<String> =
        pack.coverage().iter().flat_map(|it| &it.puzzles).map(|it| it.to_string()).collect();
    assert!(ids.contains(&"low-wick".to_owned()) && !ids.contains(&"first-light".to_owned()));
}

#[test]
fn only_sound_puzzles_have_a_shelf() {
    let mut broken = entry("two-moths");
    broken.puzzle = rulebook::Puzzle::new(grid::Grid::empty(broken.puzzle.size()), []);
    let pack =
        pack(vec![study(entry("first-light"), false), study(broken, false), study(entry("low-wick"), false)]);
    let shelves: Vec<Option<&str>> = (0..3).map(|at| pack.placement(at).shelf).collect();
    assert_eq!(shelves, [Some("Low"), None, Some("High")]);
    assert_eq!(pack.studies()[1].finding(), Finding::Many);
    assert!(pack.studies()[1].exchange().is_some() && !pack.studies()[1].is_publishable());
}
