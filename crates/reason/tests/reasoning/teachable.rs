//! What is fit to be read out: a walkthrough of few small arguments.

use grid::Size;
use reason::{Known, Search, Settings, Stopped, explain};
use trail::TechniqueId;

use crate::support::seeded;

/// With singles alone this puzzle takes more than ten small arguments, which are told to whoever asks for
/// whatever it takes, and to nobody else.
#[test]
fn a_walkthrough_of_too_many_small_arguments_is_not_teachable() {
    let made = seeded::puzzle(Size::NINE, 18, 0);
    let known = Known::up_to(TechniqueId::new("naked-single"));
    let settings = Settings { known, search: Search::EasiestNext, ..Settings::WHATEVER_IT_TAKES };
    let told = explain(&made.puzzle, &made.solution, settings).unwrap();
    let n = told.walkthrough().trail().steps().filter(|it| it.1.is_small_argument()).count();
    assert!(n > Settings::THOROUGH.readable, "{n}");

    let readable = Settings { readable: Settings::THOROUGH.readable, ..settings };
    assert_eq!(explain(&made.puzzle, &made.solution, readable).unwrap_err(), Stopped::NotTeachable(n));
}
