//! Words for what makes a step stand out.

use study::Landmark;

use crate::lists::count;

/// `Narrow place: nothing else open on this way is as easy.`
pub fn landmark(landmark: Landmark) -> String {
    match landmark {
        Landmark::BreakIn => "The break-in.".to_owned(),
        Landmark::Narrow(open) => format!("Narrow place: {}.", as_easy(open)),
        Landmark::Several(open) => format!("Several ways lead on from here: {open} steps are as easy."),
    }
}

/// `nothing else open on this way is as easy`: what a narrow place is like, where `open` steps lead on that are no
/// harder, itself among them. Of other ways to the end, which may go on elsewhere, nothing is claimed.
pub fn as_easy(open: usize) -> String {
    match open {
        0 => "no technique leads on".to_owned(),
        1 => "nothing else open on this way is as easy".to_owned(),
        2 => "one other step open on this way is as easy".to_owned(),
        n => format!("{} other steps open on this way are as easy", count(n - 1)),
    }
}
