//! Words for what makes a step stand out.

use study::Landmark;

use crate::lists::count;

/// `Narrow place: nothing else as easy leads on.`
pub fn landmark(landmark: Landmark) -> String {
    match landmark {
        Landmark::BreakIn => "The break-in.".to_owned(),
        Landmark::Narrow(open) => format!("Narrow place: {}.", as_easy(open)),
        Landmark::Several(open) => format!("Several ways lead on from here: {open} steps are as easy."),
    }
}

/// `nothing else as easy leads on`: what a narrow place is like, where `open` steps lead on that are no harder, itself
/// among them.
pub fn as_easy(open: usize) -> String {
    match open {
        0 => "no technique leads on".to_owned(),
        1 => "nothing else as easy leads on".to_owned(),
        2 => "one other step as easy leads on".to_owned(),
        n => format!("{} other steps as easy lead on", count(n - 1)),
    }
}
