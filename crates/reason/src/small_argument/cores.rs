//! Which premises of a few houses prove something: cores, cut down until nothing can be spared.

use std::collections::BTreeSet;

use super::encode::Prover;
use super::premise::{Goal, Premise};

/// Premises that prove a goal, in the position's order of premises.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Core {
    pub(super) goal: Goal,
    pub(super) premises: Vec<Premise>,
}

/// Drops premises one at a time until none can be spared, and puts the bare house in the place of a
/// clue or fact wherever that is enough.
pub(super) fn shrink(prover: &mut Prover, core: &mut Core) {
    let mut needed: BTreeSet<Premise> = BTreeSet::new();
    while let Some(tried) = core.premises.iter().copied().find(|it| !needed.contains(it)) {
        let without: Vec<Premise> = core.premises.iter().copied().filter(|it| *it != tried).collect();
        let bare = Premise::House(tried.house());
        let with_bare = || without.iter().copied().chain([bare]).collect::<Vec<_>>();
        // A house is less to hold in view than what speaks of it, which brings the house along.
        let fewer = prover.core(core.goal, &without).or_else(|| match tried == bare {
            true => None,
            false => prover.core(core.goal, &with_bare()),
        });
        match fewer {
            Some(fewer) => core.premises = fewer,
            None => _ = needed.insert(tried),
        }
    }
}

/// Cores for the other goals that the same premises prove, each cut down for itself.
///
/// Where a cell is shown to be of a kind, the digits that go with it are not concluded again.
pub(super) fn others_proved(prover: &mut Prover, goals: &[Goal], core: &Core) -> Vec<Core> {
    let mut proved: Vec<Core> = vec![core.clone()];
    for &goal in goals {
        let implied = |it: &Core| it.goal.cell == goal.cell && (goal.denied - it.goal.denied).is_empty();
        if proved.iter().any(implied) {
            continue;
        }
        if let Some(premises) = prover.core(goal, &core.premises) {
            let mut other = Core { goal, premises };
            shrink(prover, &mut other);
            proved.push(other);
        }
    }
    proved.split_off(1)
}
