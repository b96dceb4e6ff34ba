//! A puzzle with one given or clue less or more.

use grade::Calibration;
use grid::Size;
use make::{Brief, Clues, Kind, Look, Others, Span, Variation, Wanted, make, usually_known, vary};
use prove::{Limit, count};
use reason::{Settings, technique};
use trail::TechniqueId;

#[test]
fn every_change_of_one_thing_is_judged() {
    let teaches = vec![TechniqueId::new("crust-reach")];
    assert!(technique(teaches[0]).is_some());
    let size = Size::of_side(6).unwrap();
    let known = usually_known(&teaches);
    let givens = Span { least: 4, most: 12 };
    let brief = Brief {
        size,
        kind: Kind::Sandwich,
        teaches,
        known,
        minutes: None,
        givens,
        clues: Clues::Within(Span { least: 6, most: 10 }),
        look: Look::Any,
        is_spare_allowed: false,
    };
    let wanted = Wanted { count: 1, tries: 400 };
    let made =
        make(&brief, 2, wanted, &Others::none(Kind::Sandwich), &Calibration::default(), &mut |_| {}, &|| {
            false
        })
        .made
        .remove(0);

    let settings = Settings { known, ..Settings::TECHNIQUES_ALONE };
    let varied = vary(&made.puzzle, &made.solution, settings, &Calibration::default(), &|| false).unwrap();
    let n_judged =
        varied.easier.len() + varied.harder.len() + varied.n_same + varied.n_unsound + varied.n_unfinished;
    // Each cell is given or not, and each line has a clue or not: one change for each.
    assert_eq!(n_judged, 36 + 12);
    assert!(!varied.easier.is_empty() && varied.easier.iter().all(|it| it.seconds < varied.seconds));
    assert!(varied.harder.iter().all(|it| it.seconds > varied.seconds));
    for it in varied.easier.iter().chain(&varied.harder) {
        assert_eq!(count(&it.puzzle, 2, Limit(100_000)), Some(1));
        assert!(it.puzzle.is_solved_by(&made.solution) && it.explained.walkthrough().is_complete(&it.puzzle));
        let more = it.puzzle.givens().filled().count() + it.puzzle.clues().len();
        let before = made.puzzle.givens().filled().count() + made.puzzle.clues().len();
        match it.variation {
            Variation::With(_) => assert_eq!(more, before + 1),
            Variation::Without(_) => assert_eq!(more, before - 1),
        }
        let uses = |id: TechniqueId| {
            it.explained.walkthrough().trail().steps().any(|(_, step)| step.technique() == id)
        };
        assert!(it.new.iter().all(|it| uses(*it)) && !it.gone.iter().any(|it| uses(*it)));
    }
    let n_techniques: Vec<usize> = varied.easier.iter().map(|it| it.new.len() + it.gone.len()).collect();
    assert!(n_techniques.is_sorted(), "{n_techniques:?}");
    assert!(vary(&made.puzzle, &made.solution, settings, &Calibration::default(), &|| true).is_none());
}
