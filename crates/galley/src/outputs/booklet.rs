//! The booklet, read back from its finished pages.

use booklet::{Alteration, Edition, PrintedPuzzle};
use pack::Day;
use primer::Primer;
use study::StudiedPack;

use super::{differs, prove_again};
use crate::folder::Files;
use crate::outcome::Failure;

/// The file that is written.
const FILE: &str = "booklet.pdf";

/// The booklet of a pack, once it has been read back, compared and proved; and the texts that could not be
/// printed as they are.
pub(super) fn booklet(
    pack: &StudiedPack,
    lessons: &Primer,
    issued: Option<Day>,
) -> Result<(Files, Vec<Alteration>), Failure> {
    let failed = |how: String| differs("booklet", &how);
    let booklet =
        booklet::booklet(pack, lessons, &Edition { issued }).map_err(|it| failed(it.to_string()))?;
    let read = booklet::read_back(&booklet.bytes).map_err(|it| failed(it.to_string()))?;
    let published = pack.published();
    if read.len() != published.len() {
        return Err(failed(format!("it has {} puzzles, not {}", read.len(), published.len())));
    }
    for ((it, read), printed) in published.iter().zip(&read).zip(&booklet.printed) {
        let entry = it.study.entry();
        if let Some(how) = difference(read, printed) {
            return Err(failed(format!("of \"{}\", {how} differs", entry.title)));
        }
        // What was meant to be printed is the pack's own puzzle, whatever the booklet says of itself.
        if read.puzzle != entry.puzzle {
            return Err(failed(format!("\"{}\" is another puzzle there", entry.title)));
        }
        prove_again("booklet", entry, &read.puzzle)?;
    }
    Ok((Files::from([(FILE.to_owned(), booklet.bytes)]), booklet.alterations))
}

fn difference(read: &PrintedPuzzle, printed: &PrintedPuzzle) -> Option<&'static str> {
    match read {
        _ if read.number != printed.number => Some("the number"),
        _ if read.title != printed.title => Some("the title"),
        _ if read.setter != printed.setter => Some("the setter"),
        _ if read.puzzle != printed.puzzle => Some("the board"),
        _ => None,
    }
}
