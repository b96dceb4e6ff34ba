//! What the two outputs can show: width, colour, box-drawing characters.

use std::io::{IsTerminal, stderr, stdout};

use comfy_table::Table;

/// Lines longer than this are hard to read, and this is the width of what is not a terminal.
const WIDEST: u16 = 100;

/// Narrower than this, a table has no room for its words.
const NARROWEST: u16 = 40;

/// What one output can show.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Screen {
    /// Characters in a line of text.
    pub(crate) width: u16,
    /// Whether a person is looking: pictures made of characters are drawn for people only.
    pub(crate) is_terminal: bool,
    /// Whether colour is welcome.
    pub(crate) has_color: bool,
}

impl Screen {
    /// A file or another program: plain text.
    pub(crate) const PLAIN: Screen = Screen { width: WIDEST, is_terminal: false, has_color: false };

    /// Standard output as it is now.
    pub(crate) fn of_stdout() -> Screen {
        Screen::of(stdout().is_terminal(), Table::new().width())
    }

    /// Standard error as it is now.
    pub(crate) fn of_stderr() -> Screen {
        Screen::of(stderr().is_terminal(), Table::new().use_stderr().width())
    }

    fn of(is_terminal: bool, width: Option<u16>) -> Screen {
        let set = |name| std::env::var_os(name).filter(|it| !it.is_empty());
        if !is_terminal || set("TERM").is_some_and(|it| it == "dumb") {
            return Screen::PLAIN;
        }
        let width = width.unwrap_or(WIDEST).clamp(NARROWEST, WIDEST);
        Screen { width, is_terminal, has_color: set("NO_COLOR").is_none() }
    }
}
