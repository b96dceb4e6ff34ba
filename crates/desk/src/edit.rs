//! A file of the pack with one thing changed, and all else, comments and the order of keys too, as it was.
//!
//! Left out: whether the new text is right. It is read again, as any other, before it is written.

mod places;
pub(crate) mod texts;

use std::collections::BTreeMap;

use grid::{Digit, Size};
use toml_edit::{Array, DocumentMut, Item, RawString, Table, TableLike, Value};

use crate::typed::{TypedBoard, TypedClues};

pub(crate) use places::{with_pin, with_standing};

/// Why a text cannot be changed: it is not TOML, or holds something else where the change belongs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct NotChangeable;

/// The puzzle file with that board, which fits the size.
pub(crate) fn with_board(text: &str, size: Size, board: &TypedBoard) -> Result<String, NotChangeable> {
    changed(text, |document| {
        let old = document.get("grid").map(|it| it.as_str().ok_or(NotChangeable)).transpose()?;
        let grid = redrawn(old.unwrap_or_default(), size, &board.givens);
        set(document.as_table_mut(), "grid", Value::from(grid))?;
        for (rule, clues) in &board.clues {
            set_clues(document, rule, clues)?;
        }
        Ok(())
    })
}

/// The puzzle file that says whether it is sealed.
pub(crate) fn with_seal(text: &str, sealed: bool) -> Result<String, NotChangeable> {
    changed(text, |document| set(document.as_table_mut(), "sealed", Value::from(sealed)))
}

/// The pack file with that order.
pub(crate) fn with_order(text: &str, order: &[String]) -> Result<String, NotChangeable> {
    changed(text, |document| match document.get_mut("order") {
        None => {
            let items: Array = order.iter().map(|it| &it[..]).collect();
            set(document.as_table_mut(), "order", Value::from(items))
        }
        Some(item) => {
            let array = item.as_array_mut().ok_or(NotChangeable)?;
            *array = rearranged(array, order);
            Ok(())
        }
    })
}

fn changed(
    text: &str,
    change: impl FnOnce(&mut DocumentMut) -> Result<(), NotChangeable>,
) -> Result<String, NotChangeable> {
    // The parser takes a line's end of two characters as one; the file keeps its own.
    let has_crlf = text.contains("\r\n");
    let mut document: DocumentMut = text.parse().map_err(|_| NotChangeable)?;
    change(&mut document)?;
    let text = document.to_string();
    Ok(if has_crlf { text.replace("\r\n", "\n").replace('\n', "\r\n") } else { text })
}

/// Sets a value, with the comment beside the one that stood there.
fn set(table: &mut dyn TableLike, key: &str, mut value: Value) -> Result<(), NotChangeable> {
    match table.get_mut(key) {
        None => _ = table.insert(key, Item::Value(value)),
        Some(item) => {
            let old = item.as_value().ok_or(NotChangeable)?;
            *value.decor_mut() = old.decor().clone();
            *item = Item::Value(value);
        }
    }
    Ok(())
}

/// The grid as it was drawn, with other digits; drawn plainly if it was no grid of that size.
fn redrawn(old: &str, size: Size, givens: &[u8]) -> String {
    let is_cell = |it: char| it == '.' || Digit::from_char(it).is_some();
    let shown = |it: u8| Digit::new(it).map_or('.', Digit::to_char);
    if old.chars().filter(|it| is_cell(*it)).count() != givens.len() {
        let row = |row: &[u8]| {
            let cells: Vec<String> = row.iter().map(|it| shown(*it).to_string()).collect();
            cells.join(" ") + "\n"
        };
        return givens.chunks(usize::from(size.side())).map(row).collect();
    }
    let mut new = givens.iter();
    let redraw = |it: char| match is_cell(it).then(|| new.next().copied()).flatten() {
        None => it,
        Some(digit) => shown(digit),
    };
    old.chars().map(redraw).collect()
}

/// Sets the clues of a rule. Two lines that change are padded to the same columns; what says the same stays as it is.
fn set_clues(document: &mut DocumentMut, rule: &str, clues: &TypedClues) -> Result<(), NotChangeable> {
    let words = |of: &[Option<u16>]| -> Vec<String> {
        of.iter().map(|it| it.map_or(".".to_owned(), |it| it.to_string())).collect()
    };
    let new = [("rows", words(&clues.rows)), ("columns", words(&clues.columns))];
    let has_any = clues.rows.iter().chain(&clues.columns).any(Option::is_some);
    if !document.contains_key(rule) {
        if !has_any {
            return Ok(());
        }
        let mut table = Table::new();
        table.decor_mut().set_prefix("\n");
        document.insert(rule, Item::Table(table));
    }
    let table = document.get_mut(rule).and_then(Item::as_table_like_mut).ok_or(NotChangeable)?;
    let same = |key: &str, new: &[String]| match table.get(key) {
        None => new.iter().all(|it| it == "."),
        Some(it) => it.as_str().is_some_and(|it| it.split_whitespace().eq(new.iter().map(|it| &it[..]))),
    };
    if new.iter().all(|(key, words)| same(key, words)) {
        return Ok(());
    }
    let width = new.iter().flat_map(|it| &it.1).map(String::len).max().unwrap_or(1);
    for (key, words) in new {
        let padded: Vec<String> = words.iter().map(|it| format!("{it:>width$}")).collect();
        set(table, key, Value::from(padded.join(" ")))?;
    }
    Ok(())
}

/// The items of an array in another order. A comment above an item or behind it, on its line, goes where the item
/// goes; the breaks between lines stay.
fn rearranged(old: &Array, order: &[String]) -> Array {
    let raw = |it: Option<&RawString>| it.and_then(RawString::as_str).unwrap_or_default().to_owned();
    let mut leads = Vec::new();
    let mut behind: BTreeMap<String, String> = BTreeMap::new();
    let mut first = String::new();
    let mut before: Option<String> = None;
    let mut items: BTreeMap<String, (Value, String)> = BTreeMap::new();
    for value in old {
        let (tail, lead) = split_tail(&raw(value.decor().prefix()));
        match before.take() {
            Some(it) => _ = behind.insert(it, tail),
            None => first = tail,
        }
        let name = value.as_str().unwrap_or_default().to_owned();
        leads.push(lead.clone());
        items.insert(name.clone(), (value.clone(), lead));
        before = Some(name);
    }
    let (tail, end) = split_tail(&raw(Some(old.trailing())));
    if let Some(it) = before {
        behind.insert(it, tail);
    }
    let usual = if leads.iter().any(|it| it.contains('\n')) { "\n    " } else { " " };
    let mut new = Array::new();
    let mut tail = first;
    for (at, name) in order.iter().enumerate() {
        let place = leads.get(at).cloned().unwrap_or_else(|| usual.to_owned());
        let (mut value, own) =
            items.get(name).cloned().unwrap_or_else(|| (Value::from(&name[..]), String::new()));
        // What stood alone between the commas of this place, if that says nothing of the item that stood there.
        let lead = if own.contains('#') || place.contains('#') { own } else { place };
        let lead = if lead.is_empty() && at > 0 { usual.to_owned() } else { lead };
        value.decor_mut().set_prefix(tail + &lead);
        tail = behind.get(name).cloned().unwrap_or_default();
        new.push_formatted(value);
    }
    // A comment behind the last item needs a comma before it and a break after it.
    new.set_trailing_comma(old.trailing_comma() || tail.contains('#'));
    let end = if tail.contains('#') && !end.contains('\n') { format!("\n{end}") } else { end };
    new.set_trailing(tail + &end);
    *new.decor_mut() = old.decor().clone();
    new
}

/// What stands on the line of the item before, and what on the lines after it.
fn split_tail(prefix: &str) -> (String, String) {
    match prefix.split_once('\n') {
        Some((tail, _)) if tail.contains('#') => {
            (tail.to_owned(), prefix.get(tail.len()..).unwrap_or_default().to_owned())
        }
        _ => (String::new(), prefix.to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use packfile::{SourceFile, read_pack, read_puzzle};
    use proptest::prelude::*;

    use super::*;

    const PUZZLE: &str = "\
# Came by post.
format = 1
title = \"A\"   # as it was called
grid = \"\"\"
1 . | . .
. . | . 2
----+----
. . | . .
. . | 3 .
\"\"\"  # drawn by hand
setter = 'Fern'

# What stands at the side.
[sandwich] # four of them
columns = \". . 2 .\"
rows = \"0 . . 5\" # from the top
";

    fn board(givens: [u8; 16], rows: [Option<u16>; 4], columns: [Option<u16>; 4]) -> TypedBoard {
        let clues = TypedClues { rows: rows.into(), columns: columns.into() };
        TypedBoard { givens: givens.into(), clues: [("sandwich".to_owned(), clues)].into() }
    }

    fn four() -> Size {
        Size::of_side(4).unwrap()
    }

    #[test]
    fn only_what_changes_changes() {
        let same = board(
            [1, 0, 0, 0, 0, 0, 0, 2, 0, 0, 0, 0, 0, 0, 3, 0],
            [Some(0), None, None, Some(5)],
            [None, None, Some(2), None],
        );
        assert_eq!(with_board(PUZZLE, four(), &same).unwrap(), PUZZLE);
        let other = board(
            [1, 0, 0, 4, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 3, 0],
            [Some(0), None, None, Some(5)],
            [None, None, Some(2), None],
        );
        let expected = PUZZLE.replace("1 . | . .\n. . | . 2", "1 . | . 4\n. . | . .");
        assert_eq!(with_board(PUZZLE, four(), &other).unwrap(), expected);
    }

    #[test]
    fn clues_keep_their_comments() {
        let typed = board(
            [1, 0, 0, 0, 0, 0, 0, 2, 0, 0, 0, 0, 0, 0, 3, 0],
            [Some(0), None, Some(10), Some(5)],
            [None, None, Some(2), None],
        );
        let expected = PUZZLE
            .replace("columns = \". . 2 .\"", "columns = \" .  .  2  .\"")
            .replace("rows = \"0 . . 5\"", "rows = \" 0  . 10  5\"");
        assert_eq!(with_board(PUZZLE, four(), &typed).unwrap(), expected);
    }

    #[test]
    fn a_grid_of_another_shape_is_drawn_anew_and_clues_get_their_table() {
        let typed = board([0; 16], [None, None, Some(2), None], [None; 4]);
        let text = "format = 1 # one\r\ngrid = \"12\"\r\n";
        let expected = "format = 1 # one\r\ngrid = \"\"\"\r\n. . . .\r\n. . . .\r\n. . . .\r\n. . . .\r\n\"\"\"\r\n\r\n\
                        [sandwich]\r\nrows = \". . 2 .\"\r\ncolumns = \". . . .\"\r\n";
        assert_eq!(with_board(text, four(), &typed).unwrap(), expected);
        let none = board([0; 16], [None; 4], [None; 4]);
        assert!(!with_board(text, four(), &none).unwrap().contains("sandwich"));
        assert_eq!(with_board("grid = [1]", four(), &none), Err(NotChangeable));
        assert_eq!(with_board("grid = ", four(), &none), Err(NotChangeable));
    }

    #[test]
    fn a_seal_keeps_what_stands_around_it() {
        let text = "title = \"A\"\n# until the party\nsealed = true # all of it\nnote = \"x\"\n[sandwich]\n";
        assert_eq!(with_seal(text, false).unwrap(), text.replace("true", "false"));
        assert_eq!(with_seal("title = \"A\"\n[s]\n", true).unwrap(), "title = \"A\"\nsealed = true\n[s]\n");
        assert_eq!(with_seal("[sealed]\n", true), Err(NotChangeable));
    }

    fn order(ids: &[&str]) -> Vec<String> {
        ids.iter().map(|it| (*it).to_owned()).collect()
    }

    #[test]
    fn an_order_keeps_its_comments() {
        let text = "a = 1\norder = [ # easiest first\n  \"a\", # the first of all\n  # needs a friend\n  \"b\",\n  \"c\",\n] # so far\nb = 2\n";
        let expected = "a = 1\norder = [ # easiest first\n  \"c\",\n  \"a\", # the first of all\n  # needs a friend\n  \"b\",\n] # so far\nb = 2\n";
        assert_eq!(with_order(text, &order(&["c", "a", "b"])).unwrap(), expected);
        let behind = with_order(text, &order(&["c", "b", "a"])).unwrap();
        assert!(behind.contains("\"a\", # the first of all\n]"), "{behind}");
        let line = "order = [\"a\", \"b\"]\n";
        assert_eq!(with_order(line, &order(&["b", "a", "c"])).unwrap(), "order = [\"b\", \"a\", \"c\"]\n");
        assert_eq!(
            with_order("title = \"x\"\n", &order(&["b"])).unwrap(),
            "title = \"x\"\norder = [\"b\"]\n"
        );
        assert_eq!(
            with_order("title = \"x\"\n[pins]\nb = 1\n", &order(&["b"])).unwrap(),
            "title = \"x\"\norder = [\"b\"]\n[pins]\nb = 1\n"
        );
        assert_eq!(with_order("order = 3\n", &order(&["b"])), Err(NotChangeable));
    }

    proptest! {
        /// Whatever is typed is what is read of the file, and what stands around it stays.
        #[test]
        fn what_is_typed_is_read(
            givens in proptest::collection::vec(prop_oneof![9 => Just(0u8), 1 => 1u8..=4], 16),
            rows in proptest::collection::vec(proptest::option::of(prop::sample::select(vec![0u16, 2, 3, 5])), 4),
            columns in proptest::collection::vec(proptest::option::of(prop::sample::select(vec![0u16, 2, 3, 5])), 4),
        ) {
            let clues = TypedClues { rows, columns };
            let typed = TypedBoard { givens, clues: [("sandwich".to_owned(), clues)].into() };
            let text = with_board(&PUZZLE.replace("setter", "size = \"4x4\"\nsetter"), four(), &typed).unwrap();
            for it in ["# Came by post.", "# as it was called", "# drawn by hand", "# What stands at the side.", "# four of them", "# from the top", "----+----"] {
                prop_assert!(text.contains(it), "{it} is gone: {text}");
            }
            // Boards that are no puzzle are refused as such, never read as another.
            if let Ok(entry) = read_puzzle(&SourceFile::new("a.toml", &*text)).0 {
                prop_assert_eq!(TypedBoard::of(&entry.puzzle), typed);
            }
        }

        #[test]
        fn an_order_is_read_as_it_was_kept(
            order in Just(["a", "b", "c", "d"]).prop_shuffle(),
            before in prop::sample::select(vec![
                "order = [\"b\", \"a\", \"d\", \"c\"]\n",
                "order = [\n  \"a\", # one\n  # above\n  \"b\",\n  \"c\" # last\n]\n",
                "order = [ # all\n\"d\",\"c\" # x\n, \"b\", \"a\",\n\n]\n[pins]\n",
                "",
            ]),
        ) {
            let text = format!("format = 1\ntitle = \"T\"\neditor = \"E\"\n{before}");
            let new = with_order(&text, &order.map(str::to_owned)).unwrap();
            let n_comments = |it: &str| it.matches('#').count();
            prop_assert_eq!(n_comments(&new), n_comments(&text), "{}", new);
            let puzzles = order.map(|it| SourceFile::new(format!("puzzles/{it}.toml"), &*PUZZLE.replace("setter", "size = \"4x4\"\nsetter")));
            let (read, problems) = read_pack(Some(&SourceFile::new("pack.toml", &*new)), &puzzles);
            prop_assert!(problems.is_empty(), "{problems:?}");
            let ids: Vec<String> = read.pack.info.order.unwrap().iter().map(ToString::to_string).collect();
            prop_assert_eq!(ids, order.map(str::to_owned));
        }
    }
}
