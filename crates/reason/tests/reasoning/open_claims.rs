//! What a technique says is open, without looking for what to cite, is what it then finds.

use std::collections::BTreeSet;

use reason::{TECHNIQUES, View};
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
