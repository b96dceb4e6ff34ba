//! The site's own sentences.

use study::MinutesRange;
use trail::TechniqueId;

/// What a pack without a title is called.
pub(crate) const UNTITLED: &str = "Untitled pack";

/// What kind of thing the site is.
pub(crate) const KIND: &str = "Teaching pack";

/// `Twelve puzzles`.
pub(crate) fn n_puzzles(n: usize) -> String {
    tell::capital(&format!("{} {}", tell::count(n), if n == 1 { "puzzle" } else { "puzzles" }))
}

/// What the picture of a puzzle shows, for who cannot see it.
pub(crate) fn puzzle_picture(title: &str, setter: &str) -> String {
    format!("The empty board of {title}, set by {setter}")
}

/// What the picture of the pack shows.
pub(crate) fn pack_picture(title: &str) -> String {
    format!("Empty boards of {title}")
}

/// What the pack is.
pub(crate) fn about(n_puzzles: usize) -> String {
    match n_puzzles {
        0 => "No puzzle of this pack is published yet.".to_owned(),
        1 => "One puzzle. It has exactly one solution, and it never needs a guess: every step of its \
              walkthrough has a reason, and each reason was checked."
            .to_owned(),
        n => format!(
            "{} puzzles, best solved in this order: each brings something new or practises what came before. \
             Each has exactly one solution, and none needs a guess: every step of every walkthrough has a \
             reason, and each reason was checked.",
            tell::capital(&tell::count(n))
        ),
    }
}

/// How to use the pages.
pub(crate) const HOW_TO_USE: &str = "Each puzzle has a page to solve from, on paper if you like: board and rules fit \
     on one sheet. Three hints, the walkthrough and the solution wait there until you open them.";

/// `4 to 8 minutes`.
pub(crate) fn minutes(it: MinutesRange) -> String {
    format!("{} to {} minutes", it.from, it.to)
}

/// `hidden single, spent clue and last of the sum`.
pub(crate) fn techniques(ids: &[TechniqueId]) -> String {
    tell::list(&ids.iter().map(|it| tell::technique_name(*it)).collect::<Vec<_>>())
}

/// `63 steps in 9 passages`.
pub(crate) fn walkthrough(n_steps: usize, n_passages: usize) -> String {
    let counted = |n, one: &str| if n == 1 { format!("one {one}") } else { format!("{n} {one}s") };
    format!("{} in {}", counted(n_steps, "step"), counted(n_passages, "passage"))
}

/// `Six techniques`.
pub(crate) fn n_techniques(n: usize) -> String {
    tell::capital(&format!("{} {}", tell::count(n), if n == 1 { "technique" } else { "techniques" }))
}
