//! What speaks against an order, puzzle by puzzle, and what of it another order changes.

use ::pack::{PuzzleId, Said};
use study::{Misfit, StudiedPack, Unsettled};

use crate::places::{flaws, step};
use crate::technique_name;

/// That what puzzles teach depends on their order, and the order on that, without end; in lower case.
pub fn unsettled(Unsettled(n): Unsettled) -> String {
    format!(
        "no order came to rest: {n} were walked through, and what was learnt of them asks for yet another; the one \
         that costs least of them is taken"
    )
}

/// What speaks against the place of a puzzle.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Against {
    /// The puzzle.
    pub id: PuzzleId,
    /// Its title.
    pub title: String,
    /// What it is: a sentence.
    pub says: String,
}

/// What becomes of an order when puzzles are moved.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct OrderChanges {
    /// What speaks against a place and did not before.
    pub worse: Vec<Against>,
    /// What spoke against a place and does not now.
    pub better: Vec<Against>,
}

/// What of all that speaks against places is different in another order of the same pack, as far as the seals allow.
pub fn order_changes(before: &StudiedPack, after: &StudiedPack) -> OrderChanges {
    let (before, after) = (against(before), against(after));
    // Titles may be alike; two puzzles are not.
    let is_in = |all: &[Against], it: &Against| {
        all.iter().any(|other| (&other.id, &other.says) == (&it.id, &it.says))
    };
    let only_in = |one: &[Against], other: &[Against]| -> Vec<Against> {
        one.iter().filter(|it| !is_in(other, it)).cloned().collect()
    };
    OrderChanges { worse: only_in(&after, &before), better: only_in(&before, &after) }
}

/// What speaks against the places of a pack: how each compares with those before it, what its shelf does not take, and
/// what recordings say and is not so.
fn against(pack: &StudiedPack) -> Vec<Against> {
    let title = |id: &PuzzleId| {
        let study = pack.all().find(|it| it.entry().id == *id);
        study.map(|it| it.entry().title.clone()).unwrap_or_default()
    };
    let one = |id: &PuzzleId, says| Against { id: id.clone(), title: title(id), says };
    let mut all = Vec::new();
    for (at, study) in pack.studies().iter().enumerate() {
        let Some(placed) = study.opened().and_then(|it| it.placed) else { continue };
        let falls =
            placed.step_up.filter(|it| *it <= -30).map(|it| format!("It is {} one before.", step(it)));
        all.extend(flaws(at + 1, placed).into_iter().chain(falls).map(|says| one(&study.entry().id, says)));
    }
    let misfit =
        |it: &Misfit| format!("It is on the shelf \"{}\", but {}.", it.shelf, too_much_for_shelf(it));
    all.extend(pack.misfits().iter().map(|it| one(&it.id, misfit(it))));
    let untrue = |said: &Said| format!("A recording says \"{said}\" of it, which is not true of this order.");
    all.extend(pack.untrue().iter().map(|(id, said)| one(id, untrue(said))));
    all
}

/// `takes a regular about 12 minutes, and the shelf takes puzzles up to 10`: why a puzzle does not fit its shelf.
pub fn too_much_for_shelf(misfit: &Misfit) -> String {
    let minutes = misfit.minutes.map(|(taken, most)| {
        format!("takes a regular about {taken} minutes, and the shelf takes puzzles up to {most}")
    });
    let hardest = misfit.hardest.map(|(hardest, most)| {
        let [hardest, most] = [hardest, most].map(technique_name);
        format!("needs {hardest}, and the shelf takes nothing harder than {most}")
    });
    [minutes, hardest].into_iter().flatten().collect::<Vec<_>>().join("; it ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_loop_that_was_broken_off_says_what_is_taken() {
        assert_eq!(
            unsettled(Unsettled(12)),
            "no order came to rest: 12 were walked through, and what was learnt of them asks for yet another; the one \
             that costs least of them is taken"
        );
    }
}
