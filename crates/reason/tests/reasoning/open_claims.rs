//! What a technique says is open, without looking for what to cite, is what it then finds; and it finds nothing new
//! while nothing changes that it looks at.

use std::collections::{BTreeMap, BTreeSet};

use reason::{Part, TECHNIQUES, View};
use rulebook::Claim;
use trail::TechniqueId;

use crate::corpus::corpus;

/// Only every so many positions of a walkthrough are looked at: neighbours have most in common.
const APART: usize = 9;

#[test]
fn what_is_said_to_be_open_is_found() {
    let mut said: BTreeSet<TechniqueId> = BTreeSet::new();
    for walked in corpus().iter().step_by(3) {
        let mut view = View::new(&walked.made.puzzle);
        for (at, (id, _)) in walked.trail().steps().enumerate() {
            for technique in TECHNIQUES.iter().filter(|_| at.is_multiple_of(APART)) {
                let Some(open) = technique.open_claims(&view) else { continue };
                let found = technique.find(&view);
                let found: Vec<Vec<Claim>> =
                    found.iter().map(|it| it.conclusions.iter().map(|it| it.0).collect()).collect();
                assert_eq!(open, found, "{}, before {id:?}: {}", walked.name, technique.id());
                said.extend((!open.is_empty()).then(|| technique.id()));
            }
            view.take(walked.trail().proposal(id)).unwrap();
        }
    }
    assert!(said.len() >= 8, "too few to tell: {said:?}");
}

#[test]
fn nothing_opens_until_something_changes_that_is_looked_at() {
    let selective = || TECHNIQUES.iter().filter(|it| it.looks_at() != Part::ALL);
    let mut told: BTreeSet<TechniqueId> = BTreeSet::new();
    for walked in corpus() {
        let mut view = View::new(&walked.made.puzzle);
        // By technique: how many facts there were when it was last seen to find nothing.
        let mut in_vain: BTreeMap<TechniqueId, usize> = BTreeMap::new();
        for (id, _) in walked.trail().steps() {
            for technique in selective() {
                let found_nothing = technique.n_open(&view) == 0;
                if let Some(since) = in_vain.get(&technique.id())
                    && !view.has_changed(*since, technique.looks_at())
                {
                    assert!(found_nothing, "{}, before {id:?}: {}", walked.name, technique.id());
                    told.insert(technique.id());
                }
                if found_nothing {
                    in_vain.insert(technique.id(), view.trail().n_facts());
                } else {
                    in_vain.remove(&technique.id());
                }
            }
            view.take(walked.trail().proposal(id)).unwrap();
        }
    }
    let all: BTreeSet<TechniqueId> = selective().map(|it| it.id()).collect();
    assert_eq!(told, all, "some are never seen to wait");
}
