//! What a pack lacks: what it never teaches, and what it teaches once and never practises.

use std::collections::BTreeSet;
use std::convert::Infallible;
use std::path::Path;

use pack::{Entry, PackInfo};
use packfile::{SourceFile, read_puzzle};
use reason::{TECHNIQUES, technique};
use study::{Lacks, OneByOne, StudiedPack, proved};
use trail::TechniqueId;

fn entry(id: &str) -> Entry {
    let path = format!("../../demo/lantern-room/puzzles/{id}.toml");
    let bytes = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap();
    read_puzzle(&SourceFile::new(format!("puzzles/{id}.toml"), bytes)).0.unwrap()
}

fn pack(ids: &[&str], knows: &[TechniqueId]) -> StudiedPack {
    let studies = ids.iter().map(|it| proved(entry(it), false)).collect();
    let info = PackInfo { knows: knows.to_vec(), ..PackInfo::default() };
    let Ok::<_, Infallible>(pack) = StudiedPack::as_syllabus(info, studies, None, &mut OneByOne);
    pack.unwrap()
}

#[test]
fn gaps_are_counted_in_the_walkthroughs_and_what_they_build_on_is_named() {
    let knows: Vec<TechniqueId> = TECHNIQUES.iter().map(|it| it.id()).take(4).collect();
    let pack = pack(&["first-light", "two-moths", "tide-bell"], &knows);
    let uses: Vec<BTreeSet<TechniqueId>> =
        pack.studies().iter().map(|it| it.opened().unwrap().account.unwrap().techniques().clone()).collect();
    let gaps = pack.gaps();
    let mut kinds = [0; 3];
    for id in TECHNIQUES.iter().map(|it| it.id()) {
        let n_uses = uses.iter().filter(|it| it.contains(&id)).count();
        let lacks = match (knows.contains(&id), n_uses) {
            (false, 0) => Some(Lacks::Teaching),
            (false, 1) => Some(Lacks::Practice),
            _ => None,
        };
        let gap = gaps.iter().find(|it| it.technique == id);
        assert_eq!(gap.map(|it| it.lacks), lacks, "{id}");
        kinds[lacks.map_or(2, |it| it as usize)] += 1;
        let Some(gap) = gap else { continue };
        let is_shown = |id: &TechniqueId| knows.contains(id) || uses.iter().any(|it| it.contains(id));
        let below = technique(id).unwrap().prerequisites();
        let not_shown: BTreeSet<TechniqueId> = below.iter().copied().filter(|it| !is_shown(it)).collect();
        assert_eq!(gap.not_shown, not_shown, "{id}");
        assert_eq!(pack.taught().has(id), lacks == Some(Lacks::Practice));
    }
    assert!(kinds.iter().all(|it| *it > 0), "{kinds:?}");
    assert!(gaps.iter().any(|it| !it.not_shown.is_empty()) && gaps.iter().any(|it| it.not_shown.is_empty()));
    // Easiest first.
    let ranks: Vec<usize> = gaps.iter().map(|it| reason::rank(it.technique)).collect();
    assert!(ranks.is_sorted());
}
