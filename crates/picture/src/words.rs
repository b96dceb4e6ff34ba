//! The words of a sheet, as SVG: a few lines in the look of a page's head.

use maud::{Markup, html};

use crate::Frame;

/// What is said beside the boards. A part without text is left out.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Words {
    /// A small line above the title.
    pub above: String,
    /// The title.
    pub title: String,
    /// Whose it is.
    pub by: String,
    /// A small line below.
    pub below: String,
}

/// How a part is set: the space above it, the height of its letters, the most letters of a line, the most lines.
struct Look {
    space: u16,
    size: u16,
    n_letters: usize,
    n_lines: usize,
    is_italic: bool,
    colour: &'static str,
}

const PAPER: &str = "#fcfaf5";
const INK: &str = "#1b1b1b";
const GREY: &str = "#5e5e5a";

const ABOVE: Look = Look { space: 0, size: 34, n_letters: 28, n_lines: 1, is_italic: true, colour: GREY };
const TITLE: Look = Look { space: 12, size: 76, n_letters: 14, n_lines: 4, is_italic: false, colour: INK };
const BY: Look = Look { space: 22, size: 40, n_letters: 26, n_lines: 2, is_italic: true, colour: INK };
const BELOW: Look = Look { space: 34, size: 34, n_letters: 28, n_lines: 2, is_italic: false, colour: GREY };

/// The empty paper.
pub(crate) fn paper(frame: Frame) -> String {
    let Frame { width, height } = frame;
    let paper = html! {
        svg xmlns="http://www.w3.org/2000/svg" width=(width) height=(height) {
            rect width=(width) height=(height) fill=(PAPER) {}
        }
    };
    paper.into_string()
}

/// The words, as large as they like to be.
pub(crate) fn drawn(words: &Words, frame: Frame) -> String {
    let mut y = 0;
    let parts = [(&words.above, ABOVE), (&words.title, TITLE), (&words.by, BY), (&words.below, BELOW)].map(
        |(text, look)| {
            y += look.space;
            part(text, &look, &mut y)
        },
    );
    let drawing = html! {
        svg xmlns="http://www.w3.org/2000/svg" width=(frame.width) height=(frame.height) { @for it in parts { (it) } }
    };
    drawing.into_string()
}

fn part(words: &str, look: &Look, y: &mut u16) -> Markup {
    html! {
        @for line in lines(words, look.n_letters, look.n_lines) {
            @let baseline = { *y += look.size * 23 / 20; *y };
            text x="0" y=(baseline) font-size=(look.size) fill=(look.colour)
                font-style=(if look.is_italic { "italic" } else { "normal" }) { (line) }
        }
    }
}

/// The words in lines of at most so many letters, about. A word that is longer than a line is parted; what does not fit
/// in all lines gives way to `…`.
fn lines(words: &str, n_letters: usize, n_lines: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let letters: Vec<char> = word.chars().collect();
        for piece in letters.chunks(n_letters) {
            let fits = |it: &&mut String| it.chars().count() + 1 + piece.len() <= n_letters;
            match lines.last_mut().filter(fits) {
                Some(line) => line.extend(std::iter::once(' ').chain(piece.iter().copied())),
                None => lines.push(piece.iter().collect()),
            }
        }
    }
    if lines.len() > n_lines {
        lines.truncate(n_lines);
        lines.iter_mut().last().into_iter().for_each(|it| it.push('…'));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_colours_are_those_of_the_pages_on_light_paper() {
        for (name, colour) in [("paper", PAPER), ("ink", INK), ("grey", GREY)] {
            assert!(draw::STYLE.contains(&format!("--{name}: {colour};")), "{name}");
        }
    }

    #[test]
    fn long_texts_are_broken_and_then_cut() {
        assert_eq!(lines("  First \u{a0}light ", 14, 4), ["First light"]);
        assert_eq!(lines("The lantern room in winter", 14, 4), ["The lantern", "room in winter"]);
        assert_eq!(lines("abcdefghij kl", 4, 4), ["abcd", "efgh", "ij", "kl"]);
        assert_eq!(lines("abcdefghij kl", 4, 2), ["abcd", "efgh…"]);
        assert_eq!(lines(" ", 4, 2), [""; 0]);
    }

    #[test]
    fn words_do_not_become_markup() {
        let hostile = "</text><script>&\"";
        let words = Words {
            above: String::new(),
            title: hostile.to_owned(),
            by: hostile.to_owned(),
            below: String::new(),
        };
        let svg = drawn(&words, Frame::PREVIEW);
        assert!(!svg.contains("<script") && svg.matches("<text").count() == 3, "{svg}");
    }
}
