//! Pictures for link previews: a puzzle's bare board beside its title and setter, and the first boards of the pack beside
//! its title. The page says title and setter in text besides.

use pack::PuzzleId;
use picture::{Frame, Words, sheet};
use rulebook::Puzzle;

use crate::contents::Contents;
use crate::frame::{bare_pack_title, is_untitled};
use crate::words;
use page::bare;
use study::Published;

/// Width and height in pixels.
pub(crate) const SIZE: Frame = Frame::PREVIEW;

/// Where the pack's picture is.
pub(crate) const PACK_PATH: &str = "preview.png";

/// Where a puzzle's picture is.
pub(crate) fn path(id: &PuzzleId) -> String {
    format!("previews/{id}.png")
}

/// The picture of a puzzle; none only if the drawing library refuses a drawing of ours.
pub(crate) fn of_puzzle(contents: &Contents, it: &Published) -> Option<Vec<u8>> {
    let entry = it.study.entry();
    let words = Words {
        above: format!("Puzzle {}", it.number),
        title: bare(&entry.title),
        by: format!("Set by {}", bare(entry.credited())),
        below: bare_pack_title(contents.info),
    };
    sheet(&[&entry.puzzle], &words, SIZE)
}

/// The picture of the pack, with its first boards, four at most.
pub(crate) fn of_pack(contents: &Contents) -> Option<Vec<u8>> {
    let info = contents.info;
    let n_shown = if contents.published.len() < 4 { 1 } else { 4 };
    let shown: Vec<&Puzzle> =
        contents.published.iter().take(n_shown).map(|it| &it.study.entry().puzzle).collect();
    let editor = bare(&info.editor);
    let words = Words {
        above: if is_untitled(info) { String::new() } else { words::KIND.to_owned() },
        title: bare_pack_title(info),
        by: if editor.trim().is_empty() { String::new() } else { format!("Edited by {editor}") },
        below: words::n_puzzles(contents.published.len()),
    };
    sheet(&shown, &words, SIZE)
}
