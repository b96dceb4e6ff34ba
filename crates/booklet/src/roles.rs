//! Type sizes and places that say what something on a puzzle's page is.
//!
//! A puzzle's number, title and setter are each printed in sizes that nothing else in the booklet is
//! printed in, so that they can be told apart again on the finished page; clues stand in bands beside
//! the board, one a rule. The template takes these measures from here, and `read_back` reads by them.

use typst::foundations::{Dict, dict};

/// Titles, in points: the shorter, the larger.
const TITLES: [f64; 3] = [22.0, 16.5, 12.25];

/// The setter under a title.
const SETTER: f64 = 13.25;

/// The number beside a title.
const NUMBER: f64 = 45.0;

/// How wide the band of a rule's clues left of a board is, in cell sides.
pub(crate) const CLUE_LEFT: f64 = 0.86;

/// How high the band of a rule's clues above a board is, in cell sides.
pub(crate) const CLUE_ABOVE: f64 = 0.74;

/// What a text on a puzzle's page is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Role {
    /// The number of a puzzle.
    Number,
    /// The title of a puzzle.
    Title,
    /// Who set it.
    Setter,
}

/// The role of text of that size; none if it is any other text.
pub(crate) fn role(size: f64) -> Option<Role> {
    let is = |it: f64| (it - size).abs() < 0.05;
    match () {
        () if is(NUMBER) => Some(Role::Number),
        () if is(SETTER) => Some(Role::Setter),
        () if TITLES.into_iter().any(is) => Some(Role::Title),
        () => None,
    }
}

/// The size for a title.
pub(crate) fn title_size(title: &str) -> f64 {
    match title.chars().count() {
        0..=36 => TITLES[0],
        37..=110 => TITLES[1],
        _ => TITLES[2],
    }
}

/// The measures that the template needs by name.
pub(crate) fn value() -> Dict {
    dict! {
        "setter" => SETTER,
        "number" => NUMBER,
        "clue-left" => CLUE_LEFT,
        "clue-above" => CLUE_ABOVE,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_has_one_role() {
        assert_eq!(role(SETTER), Some(Role::Setter));
        assert_eq!(role(NUMBER), Some(Role::Number));
        assert!(TITLES.into_iter().all(|it| role(it) == Some(Role::Title)));
        assert_eq!([8.0, 9.0, 10.5, 12.0].map(role), [None; 4]);
        assert_eq!(role(title_size(&"x".repeat(300))), Some(Role::Title));
    }
}
