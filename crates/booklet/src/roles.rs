//! Type sizes and places that say what something on a puzzle's page is.
//!
//! A puzzle's number, title and setter are each printed in sizes that nothing else in the booklet is
//! printed in, so that they can be told apart again on the finished page; clues stand in bands beside
//! the board, one a rule. The template takes these measures from here, and `read_back` reads by them.

use pack::Layout;
use typst::foundations::{Dict, dict};

/// Titles, in points: the shorter, the larger.
const TITLES: [f64; 3] = [22.0, 16.5, 12.25];

/// The setter under a title: of one puzzle a page, in large print, of several.
const SETTERS: [f64; 3] = [13.25, 18.25, 10.25];

/// The number beside a title, in the same order.
const NUMBERS: [f64; 3] = [45.0, 46.0, 27.5];

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
        () if NUMBERS.into_iter().any(is) => Some(Role::Number),
        () if SETTERS.into_iter().any(is) => Some(Role::Setter),
        () if TITLES.into_iter().any(is) => Some(Role::Title),
        () => None,
    }
}

/// The size for a title.
pub(crate) fn title_size(title: &str, layout: Layout) -> f64 {
    match (title.chars().count(), layout) {
        (0..=36, Layout::One | Layout::Large) => TITLES[0],
        (0..=36, Layout::Two) | (37..=110, Layout::One | Layout::Large) => TITLES[1],
        _ => TITLES[2],
    }
}

/// The measures that the template needs by name.
pub(crate) fn value(layout: Layout) -> Dict {
    let at = match layout {
        Layout::One => 0,
        Layout::Large => 1,
        Layout::Two | Layout::Four => 2,
    };
    dict! {
        "setter" => SETTERS[at],
        "number" => NUMBERS[at],
        "clue-left" => CLUE_LEFT,
        "clue-above" => CLUE_ABOVE,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_has_one_role() {
        assert!(SETTERS.into_iter().all(|it| role(it) == Some(Role::Setter)));
        assert!(NUMBERS.into_iter().all(|it| role(it) == Some(Role::Number)));
        assert!(TITLES.into_iter().all(|it| role(it) == Some(Role::Title)));
        assert_eq!([8.0, 9.0, 10.5, 12.0].map(role), [None; 4]);
        for layout in [Layout::One, Layout::Two, Layout::Four, Layout::Large] {
            assert!(
                [1, 50, 300]
                    .into_iter()
                    .all(|n| role(title_size(&"x".repeat(n), layout)) == Some(Role::Title))
            );
        }
    }
}
