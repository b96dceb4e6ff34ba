//! The words and `reason`'s registry know the same techniques.

use std::collections::BTreeSet;

use trail::TechniqueId;

#[test]
fn there_are_words_for_each_technique_and_for_nothing_else() {
    let registered = reason::TECHNIQUES.iter().map(|it| it.id());
    let expected: BTreeSet<TechniqueId> = registered.chain([TechniqueId::SMALL_ARGUMENT]).collect();
    let known: Vec<TechniqueId> = tell::known_techniques().iter().map(|it| it.id).collect();
    assert_eq!(known.len(), expected.len(), "some technique has words twice, or none");
    assert_eq!(known.into_iter().collect::<BTreeSet<_>>(), expected);
}
