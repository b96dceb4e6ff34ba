//! Reading a whole pack: ids across files, and the order.

use std::collections::{BTreeMap, BTreeSet};

use pack::{Entry, Pack, PackInfo, PuzzleId, Setter};

use crate::fault::Fault;
use crate::nearest::nearest;
use crate::pack_info::{ReadInfo, WrittenOrder, WrittenPins, WrittenSetters, read_info};
use crate::plans::state_name;
use crate::puzzle::{Unreadable, id_like, read_puzzle_among};
use crate::read::{At, Reader};
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
    let (read, mut problems) = match info.map(read_info) {
        None => (None, vec![Fault::PackFileMissing.in_file("pack.toml")]),
        Some(Err(problem)) => (None, vec![problem]),
        Some(Ok(read)) => (Some(read), Vec::new()),
    };
    let shelves =
        read.as_ref().map(|it| it.info.shelves.iter().map(|it| it.name.clone()).collect::<Vec<_>>());
    let Shelf { mut entries, files, unreadable, problems: of_puzzles } =
        read_puzzles(&puzzles, shelves.as_deref());
    entries.sort_by(|a, b| a.id.cmp(&b.id));

    let mut pack_info = PackInfo::default();
    if let Some(ReadInfo { info, order, pins, setters, mut reader }) = read {
        let known: BTreeSet<&str> = puzzles.iter().map(|it| it.stem()).collect();
        let order = order.and_then(|it| read_order(&mut reader, it, &entries, &known));
        let pins = read_pins(&mut reader, pins, &entries, order.as_deref(), &known);
        let setters = credit(&mut reader, setters, &mut entries, unreadable.is_empty());
        pack_info = PackInfo { order, pins, setters, ..info };
        problems.extend(reader.finish());
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
fn read_puzzles(files: &[&SourceFile], shelves: Option<&[String]>) -> Shelf {
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
        let (mut read, problems) = read_puzzle_among(file, &stems, shelves);
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
/// `entries` are in order of id; `known` are the names of all puzzle files, for an order may well name one
/// that has an error at the moment.
fn read_order(
    reader: &mut Reader<'_>,
    written: WrittenOrder,
    entries: &[Entry],
    known: &BTreeSet<&str>,
) -> Option<Vec<PuzzleId>> {
    let mut named: BTreeSet<PuzzleId> = BTreeSet::new();
    let mut meant: BTreeSet<String> = BTreeSet::new();
    let mut order = Vec::new();
    let is_empty = written.value.is_empty();
    for item in written.value {
        let range = item.range.clone();
        let id = match id_among(item, known) {
            Ok(id) => id,
            Err(fault) => {
                if let Fault::NotAnId { instead: Some(it), .. }
                | Fault::OrderUnknown { meant: Some(it), .. } = &fault
                {
                    meant.insert(it.clone());
                }
                reader.note(range, fault);
                continue;
            }
        };
        if !named.insert(id.clone()) {
            reader.note(range, Fault::OrderTwice { id: id.to_string() });
        } else if let Ok(at) = entries.binary_search_by(|it| it.id.cmp(&id)) {
            match state_name(entries[at].state).filter(|_| !entries[at].state.has_place()) {
                Some(state) => reader.note(range, Fault::OrderAside { id: id.to_string(), state }),
                None => order.push(id),
            }
        }
    }
    if is_empty {
        reader.note(written.range, Fault::OrderEmpty);
        return None;
    }
    let with_place = entries.iter().filter(|it| it.state.has_place()).map(|it| &it.id);
    let left_out: Vec<PuzzleId> = with_place.filter(|it| !named.contains(it)).cloned().collect();
    // A misspelt id is one problem, not two.
    let ids: Vec<String> =
        left_out.iter().map(PuzzleId::to_string).filter(|it| !meant.contains(it)).collect();
    if !ids.is_empty() {
        reader.note(written.range, Fault::OrderIncomplete { ids });
    }
    order.extend(left_out);
    Some(order)
}

/// The pins that can be kept, as far as files go.
fn read_pins(
    reader: &mut Reader<'_>,
    written: WrittenPins,
    entries: &[Entry],
    order: Option<&[PuzzleId]>,
    known: &BTreeSet<&str>,
) -> BTreeMap<PuzzleId, usize> {
    // A file that cannot be read now may well become a puzzle.
    let n_places = known.len() - entries.iter().filter(|it| !it.state.has_place()).count();
    let mut pins: BTreeMap<PuzzleId, usize> = BTreeMap::new();
    for (name, At { value: place, range: at_place }) in written {
        let at_name = name.range.clone();
        let place = usize::try_from(place).unwrap_or(usize::MAX);
        let id = match id_among(name, known) {
            Ok(id) => id,
            Err(fault) => {
                reader.note(at_name, fault);
                continue;
            }
        };
        if let Some((other, _)) = pins.iter().find(|it| *it.1 == place) {
            reader.note(at_place, Fault::PinTwice { place, other: other.to_string() });
            continue;
        }
        if place > n_places {
            reader.note(at_place, Fault::PinBeyond { place, n_places });
        } else if let Some(at) =
            order.and_then(|it| it.iter().position(|it| *it == id)).filter(|at| at + 1 != place)
        {
            reader.note(at_place, Fault::PinNotKept { id: id.to_string(), place, actual: at + 1 });
        }
        pins.insert(id, place);
    }
    pins
}

/// What is said of setters, told to each of their puzzles. `are_all` is whether every puzzle could be read: the setter of
/// one that could not is not known.
fn credit(
    reader: &mut Reader<'_>,
    written: WrittenSetters,
    entries: &mut [Entry],
    are_all: bool,
) -> BTreeMap<String, Setter> {
    let mut setters = BTreeMap::new();
    for (At { value: name, range }, setter) in written {
        let mut is_known = false;
        for entry in entries.iter_mut().filter(|it| it.setter == name) {
            entry.credit = setter.clone();
            is_known = true;
        }
        if !is_known && are_all {
            let meant = nearest(&name, entries.iter().map(|it| &it.setter[..])).map(str::to_owned);
            reader.note(range, Fault::SetterUnknown { name: name.clone(), meant });
        }
        setters.insert(name, setter);
    }
    setters
}

/// The id of one of the pack's files.
fn id_among(item: At<String>, known: &BTreeSet<&str>) -> Result<PuzzleId, Fault> {
    let Some(id) = PuzzleId::new(&item.value) else {
        let last = item.value.rsplit('/').next().unwrap_or_default();
        let instead = id_like(last).filter(|it| known.contains(&it[..]));
        return Err(match leaves_pack(&item.value) {
            true => Fault::PathLeavesPack { path: item.value },
            false => Fault::NotAnId { item: item.value, instead },
        });
    };
    if known.contains(id.as_str()) {
        return Ok(id);
    }
    let meant = nearest(id.as_str(), known.iter().copied()).map(str::to_owned);
    Err(Fault::OrderUnknown { id: id.to_string(), meant })
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
