//! Reading a whole pack: ids across files, and the order.

use std::collections::{BTreeMap, BTreeSet};

use pack::{Entry, Pack, PuzzleId};

use crate::nearest::nearest;
use crate::pack_info::{WrittenOrder, no_info, read_info};
use crate::puzzle::{Unreadable, id_like, read_puzzle_among};
use crate::read::Reader;
use crate::wording::Fault;
use crate::{Problem, SourceFile};

/// A pack as far as its files could be read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadPack {
    /// What could be read. Its order, if the pack has one, names each entry exactly once: what the file
    /// leaves out is at the end, in order of id. Title and editor are empty if they are not known.
    pub pack: Pack,
    /// The file each entry came from, as the caller named it.
    pub files: BTreeMap<PuzzleId, String>,
    /// The puzzle files that are no puzzle, in order of path.
    pub unreadable: Vec<Unreadable>,
}

/// Reads a pack.
///
/// `info` is `pack.toml`, none if the pack has none; `puzzles` are the files of its folder `puzzles`,
/// in any order. All problems of all files are given: those of `pack.toml` first, then those of the
/// puzzles in order of path, each file's in the order of their places.
pub fn read_pack(info: Option<&SourceFile>, puzzles: &[SourceFile]) -> (ReadPack, Vec<Problem>) {
    let mut puzzles: Vec<&SourceFile> = puzzles.iter().collect();
    puzzles.sort_by_key(|it| &it.path);
    let Shelf { mut entries, files, unreadable, problems: of_puzzles } = read_puzzles(&puzzles);
    entries.sort_by(|a, b| a.id.cmp(&b.id));

    let mut problems = Vec::new();
    let mut pack_info = no_info();
    match info.map(read_info) {
        None => problems.push(Fault::PackFileMissing.in_file("pack.toml")),
        Some(Err(problem)) => problems.push(problem),
        Some(Ok(mut read)) => {
            let readable: Vec<PuzzleId> = entries.iter().map(|it| it.id.clone()).collect();
            let known: BTreeSet<&str> = puzzles.iter().map(|it| it.stem()).collect();
            let order = read.order.and_then(|it| read_order(&mut read.reader, it, &readable, &known));
            pack_info = pack::PackInfo { order, ..read.info };
            problems.extend(read.reader.finish());
        }
    }
    if puzzles.is_empty() {
        problems.push(Fault::PackHasNoPuzzles.in_file("puzzles"));
    }
    problems.extend(of_puzzles);
    (ReadPack { pack: Pack { info: pack_info, entries }, files, unreadable }, problems)
}

/// The puzzles of a pack, and what was wrong with their files.
#[derive(Default)]
struct Shelf {
    entries: Vec<Entry>,
    files: BTreeMap<PuzzleId, String>,
    unreadable: Vec<Unreadable>,
    problems: Vec<Problem>,
}

/// Reads the files in that order.
fn read_puzzles(files: &[&SourceFile]) -> Shelf {
    let mut shelf = Shelf::default();
    let stems: BTreeSet<&str> = files.iter().map(|it| it.stem()).collect();
    let owners = owners_of_ids(files);
    for (at, &file) in files.iter().enumerate() {
        let unreadable = |title| Unreadable { file: file.path.clone(), name: file.stem().to_owned(), title };
        if leaves_pack(&file.path) {
            let path = file.path.clone();
            shelf.problems.push(Fault::PathLeavesPack { path }.in_file(&file.path));
            shelf.unreadable.push(unreadable(None));
            continue;
        }
        let (mut read, problems) = read_puzzle_among(file, &stems);
        let id = file.stem().to_lowercase();
        if let Some(owner) = owners.get(&id).copied().filter(|it| *it != at) {
            let other = files[owner].path.clone();
            shelf.problems.push(Fault::IdTwice { id, other }.in_file(&file.path));
            read = read.and_then(|it| Err(unreadable(Some(it.title))));
        }
        shelf.problems.extend(problems);
        match read {
            Ok(entry) => {
                shelf.files.insert(entry.id.clone(), file.path.clone());
                shelf.entries.push(entry);
            }
            Err(it) => shelf.unreadable.push(it),
        }
    }
    shelf
}

/// Which of the files keeps an id: the first, but one whose name is an id goes before one whose name
/// is not. Names count in lower case, because there are file systems that do not tell `a.toml` from
/// `A.toml`.
fn owners_of_ids(files: &[&SourceFile]) -> BTreeMap<String, usize> {
    let mut owners = BTreeMap::new();
    let inside = files.iter().enumerate().filter(|(_, it)| !leaves_pack(&it.path));
    let (ids, others): (Vec<_>, Vec<_>) = inside.partition(|(_, it)| PuzzleId::new(it.stem()).is_some());
    for (at, file) in ids.into_iter().chain(others) {
        owners.entry(file.stem().to_lowercase()).or_insert(at);
    }
    owners
}

/// The order as it can be followed; none if it is empty.
///
/// `readable` are the ids of the entries, rising; `known` are the names of all puzzle files, for an
/// order may well name one that has an error at the moment.
fn read_order(
    reader: &mut Reader<'_>,
    written: WrittenOrder,
    readable: &[PuzzleId],
    known: &BTreeSet<&str>,
) -> Option<Vec<PuzzleId>> {
    let mut named: BTreeSet<PuzzleId> = BTreeSet::new();
    let mut meant: BTreeSet<String> = BTreeSet::new();
    let mut order = Vec::new();
    let is_empty = written.value.is_empty();
    for item in written.value {
        let Some(id) = PuzzleId::new(&item.value) else {
            let last = item.value.rsplit('/').next().unwrap_or_default();
            let instead = id_like(last).filter(|it| known.contains(&it[..]));
            let fault = match leaves_pack(&item.value) {
                true => Fault::PathLeavesPack { path: item.value },
                false => {
                    meant.extend(instead.clone());
                    Fault::NotAnId { item: item.value, instead }
                }
            };
            reader.note(item.range, fault);
            continue;
        };
        if !known.contains(id.as_str()) {
            let near = nearest(id.as_str(), known.iter().copied()).map(str::to_owned);
            meant.extend(near.clone());
            reader.note(item.range, Fault::OrderUnknown { id: id.to_string(), meant: near });
        } else if !named.insert(id.clone()) {
            reader.note(item.range, Fault::OrderTwice { id: id.to_string() });
        } else if readable.contains(&id) {
            order.push(id);
        }
    }
    if is_empty {
        reader.note(written.range, Fault::OrderEmpty);
        return None;
    }
    let left_out: Vec<PuzzleId> = readable.iter().filter(|it| !named.contains(it)).cloned().collect();
    // A misspelt id is one problem, not two.
    let ids: Vec<String> =
        left_out.iter().map(PuzzleId::to_string).filter(|it| !meant.contains(it)).collect();
    if !ids.is_empty() {
        reader.note(written.range, Fault::OrderIncomplete { ids });
    }
    order.extend(left_out);
    Some(order)
}

/// Whether a path is absolute or climbs out of the folder it is meant to lie in.
fn leaves_pack(path: &str) -> bool {
    let mut letters = path.chars();
    let has_drive = letters.next().is_some_and(|it| it.is_ascii_alphabetic()) && letters.next() == Some(':');
    has_drive || path.starts_with(['/', '\\']) || path.split(['/', '\\']).any(|it| it == "..")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_that_leave_the_pack() {
        for path in
            ["../a.toml", "puzzles/../../a.toml", "/etc/a", "C:a", "c:\\a", "\\\\host\\a", "a\\..\\b", ".."]
        {
            assert!(leaves_pack(path), "{path}");
        }
        for path in ["puzzles/a.toml", "a..b", "puzzles/..a.toml", "", "a/./b"] {
            assert!(!leaves_pack(path), "{path}");
        }
    }
}
