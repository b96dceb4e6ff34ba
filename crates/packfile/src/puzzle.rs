//! Reading one puzzle file.

use std::collections::BTreeSet;

use pack::{Entry, PuzzleId};
use rulebook::{Puzzle, RULES};
use toml::de::DeTable;

use crate::board::{Board, read_board};
use crate::clues::read_clues;
use crate::fault::{Fault, Move};
use crate::plans::{self, Plans, read_plans};
use crate::read::Reader;
use crate::source::Source;
use crate::syntax::Syntax;
use crate::{Problem, SourceFile, clues, fingerprint, pack_info};

/// A puzzle file that is no puzzle, as far as it can be named in a list.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Unreadable {
    /// The file, as it was named by the caller.
    pub file: String,
    /// Its name without folders and `.toml`. It need not be able to be an id, nor be the only one.
    pub name: String,
    /// The title, if that much could be read.
    pub title: Option<String>,
}

/// Reads one puzzle file, alone or as part of a pack.
///
/// All its problems are given, in the order of their places. It is a puzzle exactly if none of them is
/// an error. The id is the file's name without folders and `.toml`.
pub fn read_puzzle(file: &SourceFile) -> (Result<Entry, Unreadable>, Vec<Problem>) {
    read_puzzle_among(file, &BTreeSet::new(), None)
}

/// The same for a file that stands among others: a name that one of them has is not suggested, and its shelf must be
/// one of the pack's, if there is a pack to ask.
pub(crate) fn read_puzzle_among(
    file: &SourceFile,
    taken: &BTreeSet<&str>,
    shelves: Option<&[String]>,
) -> (Result<Entry, Unreadable>, Vec<Problem>) {
    let unreadable = |title| Unreadable { file: file.path.clone(), name: file.stem().to_owned(), title };
    let id = PuzzleId::new(file.stem());
    let mut problems = Vec::new();
    if id.is_none() {
        let stem = file.stem().to_owned();
        let instead = id_like(&stem).filter(|it| !taken.contains(&it[..]));
        problems.push(Fault::FileNameNoId { stem, instead }.in_file(&file.path));
    }
    let source = match Source::open(file) {
        Ok(source) => source,
        Err(problem) => {
            problems.push(problem);
            return (Err(unreadable(None)), problems);
        }
    };
    let syntax = Syntax::of(source.text());
    let (mut reader, table) = Reader::new(source, &syntax);
    let draft =
        if reader.format(&table) { read_all(&mut reader, &table, shelves) } else { title_only(&table) };
    problems.extend(reader.finish());
    let any_error = problems.iter().any(Problem::is_error);
    let entry = match id.filter(|_| !any_error) {
        Some(id) => draft.entry(id),
        None => Err(draft.title),
    };
    (entry.map_err(unreadable), problems)
}

/// The id nearest to a name that is none: `first-light` for `First Light`. None for letters that would
/// have to be spelt another way.
pub(crate) fn id_like(name: &str) -> Option<String> {
    let name = name.strip_suffix(".toml").unwrap_or(name);
    if !name.is_ascii() {
        return None;
    }
    let hyphens: String = (name.to_ascii_lowercase().chars())
        .map(|it| if it.is_ascii_lowercase() || it.is_ascii_digit() { it } else { '-' })
        .collect();
    let words: Vec<&str> = hyphens.split('-').filter(|it| !it.is_empty()).collect();
    PuzzleId::new(&words.join("-")).map(|it| it.to_string())
}

/// What was read of a puzzle file. What is missing has been noted.
#[derive(Default)]
struct Draft {
    title: Option<String>,
    setter: Option<String>,
    permission: Option<String>,
    intends: Vec<String>,
    sealed: bool,
    note: Option<String>,
    plans: Plans,
    puzzle: Option<Puzzle>,
}

impl Draft {
    /// The entry, or the title alone.
    fn entry(self, id: PuzzleId) -> Result<Entry, Option<String>> {
        let Draft { title, setter, permission, intends, sealed, note, plans, puzzle } = self;
        let Plans {
            shelf,
            state,
            reason,
            features,
            received,
            approved,
            record,
            recording,
            release,
            chapters,
            said,
        } = plans;
        match (title, setter, puzzle) {
            (Some(title), Some(setter), Some(puzzle)) => Ok(Entry {
                received,
                permission,
                approved: approved.map(|it| it.value),
                intends,
                sealed,
                note,
                shelf,
                state,
                reason,
                features,
                record,
                recording,
                release,
                chapters,
                said,
                ..Entry::new(id, title, setter, puzzle)
            }),
            (title, ..) => Err(title),
        }
    }
}

/// The keys of a puzzle file beside those of its [`plans`] and the names of rules.
pub(crate) const KEYS: [&str; 10] =
    ["format", "title", "setter", "permission", "intends", "sealed", "note", "size", "box", "grid"];

fn read_all(reader: &mut Reader<'_>, table: &DeTable<'_>, shelves: Option<&[String]>) -> Draft {
    let rules = RULES.into_iter().map(|it| it.id().name());
    let of_clues = clues::LINES.map(|it| it.0);
    let elsewhere =
        [(&pack_info::KEYS[..], Move::ToPackFile), (&of_clues[..], Move::BelowHeading(RULES[0].id().name()))];
    let known: Vec<&str> = KEYS.into_iter().chain(plans::KEYS).chain(rules).collect();
    reader.only_keys(table, &known, "this file", &elsewhere);
    let title = reader.needed_line(table, "title", "title = \"…\"").map(|it| it.value);
    let setter = reader.needed_line(table, "setter", "setter = \"…\"").map(|it| it.value);
    let permission = reader.line(table, "permission").map(|it| it.value);
    let intends = reader.names(table, "intends");
    let sealed = reader.flag(table, "sealed");
    let note = reader.text(table, "note").map(|it| it.value);
    let plans = read_plans(reader, table, shelves);
    let Board { size, givens } = read_board(reader, table);
    let clues = read_clues(reader, table, size);
    let puzzle = givens.map(|it| Puzzle::new(it, clues));
    if let (Some(approved), Some(puzzle)) = (&plans.approved, &puzzle)
        && approved.value.fingerprint() != fingerprint(puzzle)
    {
        reader.note(approved.range.clone(), Fault::ApprovalOutdated { on: approved.value.on });
    }
    Draft { title, setter, permission, intends, sealed, note, plans, puzzle }
}

/// The title of a file whose format is not known, if it is where it is expected.
fn title_only(table: &DeTable<'_>) -> Draft {
    let title = table.get("title").and_then(|it| it.get_ref().as_str()).map(str::to_owned);
    Draft { title, ..Draft::default() }
}
