//! The demo's pack, and logs of rehearsals of it.
#![allow(dead_code)] // not every test uses all of it

use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use captions::Time;
use pack::{Event, Happening, PuzzleId, Rehearsal};
use packfile::{SourceFile, read_pack};
use rehearse::Script;
use study::{OneByOne, StudiedPack, study};

/// Some of the demo's puzzles, which Galley set itself, in the order that it proposes; none is sealed.
pub(crate) static PACK: LazyLock<StudiedPack> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo/lantern-room");
    let file = |path: &str| SourceFile::new(path, fs::read(root.join(path)).unwrap());
    let puzzles = ["first-light", "low-wick", "two-moths", "brass-hinge", "long-shadow"];
    let puzzles: Vec<SourceFile> = puzzles.iter().map(|it| file(&format!("puzzles/{it}.toml"))).collect();
    let (read, problems) = read_pack(Some(&file("pack.toml")), &puzzles);
    assert!(problems.iter().all(|it| !it.is_error()), "{problems:?}");
    let studies = read.pack.entries.into_iter().map(|it| study(it, true)).collect();
    let Ok(pack) = StudiedPack::as_syllabus(read.pack.info, studies, None, &mut OneByOne);
    pack.unwrap()
});

pub(crate) fn id(name: &str) -> PuzzleId {
    PuzzleId::new(name).unwrap()
}

/// A recording in which everything is said at that many times the planned time.
pub(crate) fn at_pace(script: &Script, times: f64) -> Rehearsal {
    let mut at = 0.0;
    let mut events = Vec::new();
    let mut push = |at: f64, is| events.push(Event { at: Time::of(at), is });
    push(at, Happening::Opening);
    at += times * script.opening.as_seconds();
    for cue in script.cues() {
        push(at, Happening::Step { number: cue.step.number(), key: cue.key.clone() });
        at += times * cue.takes.as_seconds();
    }
    push(at, Happening::Close);
    at += times * script.closing.as_seconds();
    let puzzle = "first-light".to_owned();
    Rehearsal { puzzle, is_recording: true, total: Time::of(at), events }
}
