//! The site, read back from its finished pages.

use pack::Day;
use primer::Primer;
use study::StudiedPack;

use super::{differs, prove_again};
use crate::folder::Files;
use crate::outcome::Failure;

/// The folder that it is written to.
const FOLDER: &str = "site/";

/// The site of a pack, once it has been read back, compared and proved.
pub(super) fn site(pack: &StudiedPack, lessons: &Primer, issued: Option<Day>) -> Result<Files, Failure> {
    let failed = |how: String| differs("site", &how);
    let files = site::site(pack, lessons, issued);
    let read = site::read_back(&files).map_err(|it| failed(it.to_string()))?;
    let published = pack.published();
    if read.len() != published.len() {
        return Err(failed(format!("it has {} puzzles, not {}", read.len(), published.len())));
    }
    for (it, read) in published.iter().zip(read) {
        let entry = it.study.entry();
        if read.id != entry.id {
            return Err(failed(format!("\"{}\" is not in its place", entry.title)));
        }
        if let Some(how) = read.differs_from(entry) {
            return Err(failed(format!("of \"{}\", {how}", entry.title)));
        }
        prove_again("site", entry, &read.puzzle)?;
    }
    Ok(files.into_iter().map(|(path, bytes)| (format!("{FOLDER}{path}"), bytes)).collect())
}
