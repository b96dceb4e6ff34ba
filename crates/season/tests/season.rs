//! Where puzzles stand, by what is in their files and beside them.

mod common;

use common::{GRID, pack, print};
use packfile::{LoggedRehearsal, LoggedSolve, SourceFile, read_rehearsal, read_solve};
use season::{Approved, Reached, Season, Seen, Stage, Who};

/// The digits of [`GRID`] that are to be found, by cell.
const FOUND: [(&str, u8); 12] = [
    ("r1c2", 2),
    ("r1c3", 3),
    ("r1c4", 4),
    ("r2c2", 4),
    ("r2c4", 1),
    ("r3c1", 4),
    ("r3c2", 3),
    ("r3c3", 1),
    ("r3c4", 2),
    ("r4c1", 2),
    ("r4c2", 1),
    ("r4c4", 3),
];

fn solve(fingerprint: &str, outcome: &str) -> LoggedSolve {
    solve_with(&FOUND, fingerprint, outcome)
}

fn solve_with(found: &[(&str, u8)], fingerprint: &str, outcome: &str) -> LoggedSolve {
    let entry = |(cell, digit): &(&str, u8)| format!(r#"{{"at": 60, "cell": "{cell}", "digit": {digit}}}"#);
    let entries = found.iter().map(entry).collect::<Vec<_>>().join(", ");
    let text = format!(
        r#"{{"format": 1, "puzzle": "a", "fingerprint": "{fingerprint}", "solver": "Sorrel", "kind": "regular", "aloud": false,
        "started": "2026-11-02T19:30:00Z", "entries": [{entries}], "hints": [], "pauses": [],
        "outcome": "{outcome}"}}"#
    );
    read_solve(&SourceFile::new("solves/a.json", text)).unwrap()
}

fn log(fingerprint: &str, kind: &str) -> LoggedRehearsal {
    let text = format!(
        r#"{{"format": 1, "puzzle": "a", "fingerprint": "{fingerprint}", "kind": "{kind}", "started": "2026-11-20T19:30:00Z",
        "seconds": 10, "events": [{{"at": 0, "is": "opening"}}]}}"#
    );
    read_rehearsal(&SourceFile::new("rehearsals/a.json", text)).unwrap()
}

fn reached(season: &Season, at: usize) -> Vec<(Stage, Reached)> {
    season.rows[at].standings.iter().map(|it| (it.stage, it.reached)).collect()
}

fn waits(season: &Season, at: usize) -> Vec<(Who, &str)> {
    season.rows[at].waiting.iter().map(|it| (it.who, &it.what[..])).collect()
}

#[test]
fn a_puzzle_that_has_only_come_is_waited_for() {
    let pack = pack("", &[("a", "received = \"2026-09-14\"\n", GRID)]);
    let season = Season::of(&pack, &Seen::default());
    let row = &season.rows[0];
    assert_eq!(row.standings[0].on, "2026-09-14".parse().ok());
    let yes = |stages: &[Stage]| {
        season::STAGES.map(|it| (it, if stages.contains(&it) { Reached::Yes } else { Reached::No })).to_vec()
    };
    assert_eq!(reached(&season, 0), yes(&[Stage::Received, Stage::Sound]));
    let expected = [
        (Who::Setter, "approve it"),
        (Who::Tester, "solve it"),
        (Who::Editor, "give it a place in the order"),
    ];
    assert_eq!(waits(&season, 0), expected);
    assert!(row.breaks.is_empty(), "{:?}", row.breaks);
}

#[test]
fn the_whole_way_is_seen_and_a_change_afterwards_too() {
    let print = print();
    let lines = format!(
        "approved = \"2026-10-02 {print}\"\nrecording = \"https://example.org/a\"\nrelease = \"2026-12-01\"\n\
         chapters = [\"0:00 Opening\", \"1:05 Row 4\"]\nsaid = [\"first of the pack\"]\n"
    );
    let (solves, logs) = ([solve(&print, "solved")], [log(&print, "rehearsal"), log(&print, "recording")]);
    let seen = |today: &str| Seen {
        solves: &solves,
        rehearsals: &logs,
        notes: [("a".to_owned(), 2)].into(),
        captioned: ["a".to_owned()].into(),
        today: today.parse().ok(),
    };
    let whole = pack("order = [\"a\"]\n", &[("a", &lines, GRID)]);
    let season = Season::of(&whole, &seen("2026-12-01"));
    assert!(reached(&season, 0).iter().all(|it| it.1 == Reached::Yes), "{:?}", season.rows[0].standings);
    assert_eq!(waits(&season, 0), []);
    assert_eq!(season.to_record, []);
    assert_eq!(season.rows[0].breaks.len(), 9, "{:#?}", season.rows[0].breaks);
    let before = Season::of(&whole, &seen("2026-11-30"));
    assert_eq!(waits(&before, 0), [(Who::Editor, "bring the recording out")]);

    // One more given: what was approved, solved and recorded was another puzzle.
    let changed = pack("order = [\"a\"]\n", &[("a", &lines, &GRID.replace("1 . | . .", "1 2 | . ."))]);
    let season = Season::of(&changed, &seen("2026-12-01"));
    let row = &season.rows[0];
    assert_eq!(row.approved, Approved::Outdated("2026-10-02".parse().unwrap()));
    for stage in [Stage::TestSolved, Stage::Rehearsed, Stage::Recorded, Stage::Published] {
        assert!(reached(&season, 0).contains(&(stage, Reached::Before)), "{stage:?}: {row:?}");
    }
    assert_eq!(waits(&season, 0)[0], (Who::Setter, "approve it again: it has changed since"));
    assert_eq!(season.to_record.len(), 1);
}

#[test]
fn a_solve_that_was_given_up_is_no_test_solve() {
    let pack = pack("", &[("a", "", GRID)]);
    let solves = [solve(&print(), "gave up")];
    let season = Season::of(&pack, &Seen { solves: &solves, ..Seen::default() });
    assert!(reached(&season, 0).contains(&(Stage::TestSolved, Reached::No)));
}

#[test]
fn a_solve_that_only_says_that_it_was_solved_is_no_test_solve() {
    let pack = pack("", &[("a", "", GRID)]);
    let mut wrong = FOUND;
    (wrong[0].1, wrong[1].1) = (3, 2);
    for found in [&[][..], &FOUND[1..], &wrong] {
        let solves = [solve_with(found, &print(), "solved")];
        let season = Season::of(&pack, &Seen { solves: &solves, ..Seen::default() });
        assert!(reached(&season, 0).contains(&(Stage::TestSolved, Reached::No)), "{found:?}");
        let told = season::TestedBy::of(pack.studies()[0].entry(), &solves);
        assert!(!told[0].is_solved, "{found:?}");
    }
}

#[test]
fn what_is_ready_is_recorded_first_and_what_stalls_last() {
    let print = print();
    let approved = format!("approved = \"2026-10-02 {print}\"\n");
    let planned = format!("{approved}record = \"2026-12-05\"\n");
    let pack = pack(
        "order = [\"stalled\", \"ready\", \"held\", \"a\", \"planned\", \"none\"]\n[pins]\nheld = 3\n",
        &[
            ("stalled", "record = \"2026-01-01\"\n", GRID),
            ("ready", &approved, GRID),
            ("held", &approved, GRID),
            ("a", &approved, GRID),
            ("planned", &planned, GRID),
            ("none", "", "1 . | . .\n3 . | 2 .\n----+----\n. . | . .\n. . | 4 1\n"),
        ],
    );
    let logs = [log(&print, "rehearsal")];
    let season = Season::of(&pack, &Seen { rehearsals: &logs, ..Seen::default() });
    let ids: Vec<&str> = season.to_record.iter().map(|it| it.id.as_str()).collect();
    assert_eq!(ids, ["planned", "a", "held", "ready", "stalled"]);
    let says: Vec<&str> = season.to_record.iter().map(|it| &it.says[..]).collect();
    assert_eq!(
        says,
        [
            "Planned for 5 December 2026; approved and placed; not yet test-solved or rehearsed.",
            "Approved, placed and rehearsed; not yet test-solved.",
            "Approved and placed; not yet test-solved or rehearsed; its place is pinned.",
            "Approved and placed; not yet test-solved or rehearsed.",
            "It waits for its setter's approval; planned for 1 January 2026; placed; not yet test-solved or rehearsed.",
        ]
    );
}

#[test]
fn nothing_is_waited_for_of_what_was_put_aside_and_a_sealed_puzzle_keeps_its_technique() {
    let pack = pack(
        "",
        &[
            (
                "a",
                "sealed = true\nsaid = [\"first with hidden-single\"]\nrecording = \"https://example.org/a\"\n",
                GRID,
            ),
            ("b", "state = \"later\"\n", GRID),
        ],
    );
    let season = Season::of(&pack, &Seen::default());
    assert_eq!(waits(&season, 1), []);
    assert!(!format!("{season:?}").contains("single"), "{season:?}");
}
