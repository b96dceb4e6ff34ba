//! What stands out in walkthroughs of the demo's puzzles.

use std::path::Path;

use pack::Entry;
use packfile::{SourceFile, read_puzzle};
use study::{Landmark, study};

fn entries() -> Vec<Entry> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo/lantern-room/puzzles");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|it| it.unwrap().path()).collect();
    paths.sort();
    let name = |path: &Path| format!("puzzles/{}", path.file_name().unwrap().to_str().unwrap());
    let read = |path: &Path| SourceFile::new(name(path), std::fs::read(path).unwrap());
    paths.iter().map(|it| read_puzzle(&read(it)).0.unwrap()).collect()
}

#[test]
fn one_step_is_the_break_in_and_every_narrow_place_is_marked() {
    let (mut n_narrow, mut n_several) = (0, 0);
    for entry in entries() {
        let id = entry.id.clone();
        let studied = study(entry, false);
        let account = studied.opened().unwrap().account.unwrap();
        let trail = account.explained.walkthrough().trail();
        let landmarks = account.landmarks();
        assert!(landmarks.is_sorted_by_key(|it| it.0), "{id}");

        let break_ins: Vec<_> = landmarks.iter().filter(|it| it.1 == Landmark::BreakIn).collect();
        let [(step, _)] = break_ins[..] else { panic!("{id}: {break_ins:?}") };
        let way = account.way_in().unwrap();
        let opens = way.fact(way.steps().last().unwrap().1.concludes()[0]).claim();
        let concluded = trail.step(*step).concludes().iter().map(|it| trail.fact(*it).claim());
        assert!(concluded.into_iter().any(|it| it == opens), "{id}: {opens:?} is not of {step:?}");

        let mut narrow: Vec<_> =
            account.estimate.narrow_places().iter().map(|it| (it.step, it.open)).collect();
        narrow.sort();
        let marked = landmarks.iter().filter_map(|it| match it.1 {
            Landmark::Narrow(open) => Some((it.0, open)),
            _ => None,
        });
        assert_eq!(marked.collect::<Vec<_>>(), narrow, "{id}");
        n_narrow += narrow.len();

        // Between two stretches with several ways little leads on.
        let several: Vec<usize> = landmarks
            .iter()
            .filter(|it| matches!(it.1, Landmark::Several(_)))
            .map(|it| it.0.index())
            .collect();
        for pair in several.windows(2) {
            let between = &account.estimate.steps[pair[0]..pair[1]];
            assert!(between.iter().any(|it| it.open <= 2), "{id}: {pair:?}");
        }
        n_several += several.len();
    }
    assert!(n_narrow > 10 && n_several > 10, "{n_narrow} narrow places, {n_several} with several ways");
}
