//! The demo pack keeps what its README promises.

use std::convert::Infallible;
use std::path::Path;

use packfile::{SourceFile, read_pack};
use study::{OneByOne, StudiedPack, proved};

fn demo() -> StudiedPack {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo/lantern-room");
    let read = |name: &str| SourceFile::new(name, std::fs::read(folder.join(name)).unwrap());
    let puzzles = std::fs::read_dir(folder.join("puzzles")).unwrap();
    let mut names: Vec<String> =
        puzzles.map(|it| format!("puzzles/{}", it.unwrap().file_name().to_str().unwrap())).collect();
    names.sort();
    let puzzles: Vec<SourceFile> = names.iter().map(|it| read(it)).collect();
    let pack = read_pack(Some(&read("pack.toml")), &puzzles).0.pack;
    let studies = pack.entries.into_iter().map(|it| proved(it, false)).collect();
    let Ok::<_, Infallible>(pack) = StudiedPack::as_syllabus(pack.info, studies, None, &mut OneByOne);
    pack.unwrap()
}

#[test]
fn each_puzzle_introduces_at_most_one_technique() {
    let pack = demo();
    assert_eq!((pack.studies().len(), pack.info().knows.len()), (12, 10));
    let mut n_introduced = 0;
    for study in pack.studies() {
        let placed = study.opened().unwrap().placed.unwrap();
        assert!(placed.new.len() <= 1, "{}: {:?}", placed.id, placed.new);
        n_introduced += placed.new.len();
    }
    assert!(n_introduced >= 6, "{n_introduced}: it hardly teaches anything");
}

/// What nobody needs was open everywhere, and took for progress: one narrow place was left in twelve puzzles, and
/// "several ways" nearly everywhere.
#[test]
fn bug_hard_places_are_not_hidden_by_what_leads_nowhere() {
    let pack = demo();
    let accounts = || pack.studies().iter().map(|it| it.opened().unwrap().account.unwrap());
    let n_narrow = accounts().filter(|it| !it.estimate.narrow_places().is_empty()).count();
    assert!(n_narrow >= 8, "{n_narrow} puzzles have a narrow place");
    let steps: Vec<usize> = accounts().flat_map(|it| it.estimate.steps.iter().map(|it| it.open)).collect();
    let n_wide = steps.iter().filter(|it| **it >= 10).count();
    assert!(4 * n_wide < steps.len(), "at {n_wide} of {} steps ten or more lead on", steps.len());
}
