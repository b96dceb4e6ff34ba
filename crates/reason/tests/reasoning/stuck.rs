//! Who is stuck has nothing open that they know, whatever is open that they do not know.

use reason::{Known, Settings, View, solve_as_far, technique};
use trail::TechniqueId;

use crate::corpus::corpus;

const FOLLOWED: TechniqueId = TechniqueId::new("followed-to-an-end");

#[test]
fn nothing_known_is_open_to_whoever_is_stuck() {
    let (mut n_stuck, mut n_beside_unknown) = (0, 0);
    for walked in corpus().iter().step_by(2) {
        for unknown in walked.trail().techniques() {
            let name = format!("{} without {unknown}", walked.name);
            let known = Known::ALL.without(unknown);
            let settings = Settings { known, ..Settings::TECHNIQUES_ALONE };
            let trail = solve_as_far(&walked.made.puzzle, &walked.made.solution, settings).unwrap();

            let mut view = View::new(&walked.made.puzzle);
            for (id, step) in trail.steps() {
                let is_beside =
                    step.technique() == FOLLOWED && technique(unknown).is_some_and(|it| it.n_open(&view) > 0);
                n_beside_unknown += usize::from(is_beside);
                view.take(trail.proposal(id)).unwrap();
            }
            if !view.is_finished() {
                n_stuck += 1;
                let open = known.techniques().find(|it| !it.find(&view).is_empty());
                assert!(open.is_none(), "{name}: {open:?} is open");
            }
        }
    }
    // The last resort was once not looked for while anything unknown was open.
    assert!(
        n_stuck > 0 && n_beside_unknown > 0,
        "{n_stuck} stuck, {n_beside_unknown} beside what is not known"
    );
}
