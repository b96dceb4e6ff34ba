//! The registry of techniques: what holds for all of them together.

use std::collections::BTreeSet;
use std::path::Path;

use reason::{TECHNIQUES, Technique, technique};
use trail::TechniqueId;

use crate::support::case_file;

#[test]
fn ids_are_unique_and_lead_back_to_their_techniques() {
    let ids: BTreeSet<TechniqueId> = TECHNIQUES.iter().map(|it| it.id()).collect();
    assert_eq!(ids.len(), TECHNIQUES.len());
    for it in TECHNIQUES {
        assert_eq!(technique(it.id()).map(|found| found.id()), Some(it.id()));
    }
    assert!(technique(TechniqueId::SMALL_ARGUMENT).is_none(), "an argument by cases is no technique");
}

#[test]
fn weights_rise_strictly() {
    let weights: Vec<u32> = TECHNIQUES.iter().map(|it| it.weight()).collect();
    assert!(weights.is_sorted_by(|a, b| a < b), "{weights:?}");
}

#[test]
fn prerequisites_are_lighter_techniques_and_lead_back_to_none() {
    for it in TECHNIQUES {
        let needed: Vec<&dyn Technique> = it
            .prerequisites()
            .iter()
            .map(|id| technique(*id).unwrap_or_else(|| panic!("{}: there is no {id}", it.id())))
            .collect();
        assert!(needed.iter().all(|other| other.weight() < it.weight()), "{}: {needed:?}", it.id());
        assert!(needed.is_sorted_by(|a, b| a.weight() < b.weight()), "{}: {needed:?}", it.id());
        // Going back on and on comes to an end, so there is no circle.
        let mut open = needed;
        let mut n_seen = 0;
        while let Some(other) = open.pop() {
            assert!(other.id() != it.id() && n_seen < 1_000, "{} needs itself", it.id());
            open.extend(other.prerequisites().iter().filter_map(|id| technique(*id)));
            n_seen += 1;
        }
    }
    let n_free = TECHNIQUES.iter().filter(|it| it.prerequisites().is_empty()).count();
    assert!(n_free < 10, "{n_free} techniques need nothing");
}

#[test]
fn every_technique_has_cases_in_which_it_finds_something_and_one_in_which_it_does_not() {
    let cases = case_file::all();
    for id in TECHNIQUES.iter().map(|it| it.id()).chain([TechniqueId::SMALL_ARGUMENT]) {
        let of_it = cases.get(id.name()).map_or(&[][..], Vec::as_slice);
        let n_firing = of_it.iter().filter(|it| !it.steps.is_empty()).count();
        assert!(
            n_firing >= 2 && n_firing < of_it.len(),
            "{id}: {n_firing} of {} find something",
            of_it.len()
        );
    }
}

#[test]
fn one_case_of_each_technique_is_the_guides_example() {
    for (folder, cases) in case_file::all() {
        let examples: Vec<_> = cases.iter().filter(|it| it.is_example).collect();
        assert_eq!(examples.len(), 1, "{folder}: mark one case with `example = true`");
        assert!(!examples[0].steps.is_empty(), "{folder}: the example finds nothing");
    }
}

#[test]
fn every_file_of_techniques_says_what_it_is_and_shows_an_example() {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut n_files = 0;
    for folder in ["classic", "sandwich"] {
        for entry in std::fs::read_dir(source.join(folder)).unwrap() {
            let path = entry.unwrap().path();
            let text = std::fs::read_to_string(&path).unwrap();
            let header: Vec<&str> = text.lines().take_while(|it| it.starts_with("//!")).collect();
            assert!(!header.is_empty(), "{}: no header", path.display());
            if text.contains("impl Technique for") {
                let pictured = header.contains(&"//! ```text") && header.contains(&"//! ```");
                assert!(pictured, "{}: no example", path.display());
                n_files += 1;
            }
        }
    }
    // Pairs, triples and quads share a file each way, and so do crossing lines, those with spare cells,
    // wings, the two sides of a sum and of a remainder, partners with the crusts known and anywhere,
    // and the two things that crusts in turn show.
    assert_eq!(n_files, TECHNIQUES.len() - 13);
}
