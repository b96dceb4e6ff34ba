//! The booklet, read back from its finished pages.

use booklet::{Alteration, Edition, PrintedPuzzle};
use pack::{Day, Form};
use primer::Primer;
use rayon::prelude::*;
use study::StudiedPack;

use super::{differs, prove_again};
use crate::folder::Files;
use crate::outcome::Failure;

/// The file that a form is written to: `booklet.pdf`, `booklet-letter-black.pdf`.
fn file(form: Form) -> String {
    match form.to_string() {
        it if it.is_empty() => "booklet.pdf".to_owned(),
        it => format!("booklet-{it}.pdf"),
    }
}

/// The booklet of a pack in each of the forms; and the texts that could not be printed as they are.
pub(super) fn booklets(
    pack: &StudiedPack,
    lessons: &Primer,
    issued: Option<Day>,
    forms: &[Form],
) -> Result<(Files, Vec<Alteration>), Failure> {
    let made = forms.par_iter().map(|form| booklet(pack, lessons, Edition { issued, form: *form }));
    let made: Vec<(Files, Vec<Alteration>)> = made.collect::<Result<_, _>>()?;
    // What cannot be printed as it is is the same in all forms.
    let alterations = made.first().map(|it| it.1.clone()).unwrap_or_default();
    Ok((made.into_iter().flat_map(|it| it.0).collect(), alterations))
}

/// The booklet of a pack, once it has been read back, compared and proved; and the texts that could not be
/// printed as they are.
fn booklet(
    pack: &StudiedPack,
    lessons: &Primer,
    edition: Edition,
) -> Result<(Files, Vec<Alteration>), Failure> {
    let failed = |how: String| differs("booklet", &how);
    let booklet = booklet::booklet(pack, lessons, &edition).map_err(|it| failed(it.to_string()))?;
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
    Ok((Files::from([(file(edition.form), booklet.bytes)]), booklet.alterations))
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
