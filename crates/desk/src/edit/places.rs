//! Where a puzzle stands: its pinned place in the pack's file; shelf, state and reason in its own.

use toml_edit::{DocumentMut, Item, RawString, Table, TableLike, Value};

use super::{NotChangeable, changed, set};

/// The pack file with a puzzle pinned to that place, or to none.
pub(crate) fn with_pin(text: &str, id: &str, place: Option<usize>) -> Result<String, NotChangeable> {
    changed(text, |document| {
        if !document.contains_key("pins") && place.is_some() {
            let mut table = Table::new();
            table.decor_mut().set_prefix("\n");
            document.insert("pins", Item::Table(table));
        }
        let Some(pins) = document.get_mut("pins") else { return Ok(()) };
        let pins = pins.as_table_like_mut().ok_or(NotChangeable)?;
        match place {
            Some(it) => set(pins, id, Value::from(i64::try_from(it).map_err(|_| NotChangeable)?)),
            None => {
                let left = remove(pins, id);
                // What was said of the last pin stays above where the next one goes.
                put_after(document, left);
                Ok(())
            }
        }
    })
}

/// The puzzle file with these; what is none is taken away.
pub(crate) fn with_standing(
    text: &str,
    shelf: Option<&str>,
    state: Option<&str>,
    reason: Option<&str>,
) -> Result<String, NotChangeable> {
    changed(text, |document| {
        for (key, value) in [("shelf", shelf), ("state", state), ("reason", reason)] {
            match value {
                Some(it) if document.get(key).and_then(Item::as_str) == Some(it) => {}
                Some(it) => set(document.as_table_mut(), key, Value::from(it))?,
                None => {
                    let left = remove(document.as_table_mut(), key);
                    put_after(document, left);
                }
            }
        }
        Ok(())
    })
}

/// Takes a key away. Its comments go to the key behind it; if there is none, they are given back.
fn remove(table: &mut dyn TableLike, key: &str) -> String {
    let raw = |it: Option<&RawString>| it.and_then(RawString::as_str).unwrap_or_default().to_owned();
    let keys: Vec<String> = table.iter().map(|it| it.0.to_owned()).collect();
    let Some(at) = keys.iter().position(|it| it == key) else { return String::new() };
    let above = table.key(key).map(|it| raw(it.leaf_decor().prefix())).unwrap_or_default();
    let behind =
        table.get(key).and_then(Item::as_value).map(|it| raw(it.decor().suffix())).unwrap_or_default();
    table.remove(key);
    let above = if above.contains('#') { above } else { String::new() };
    let behind = if behind.contains('#') { format!("{}\n", behind.trim()) } else { String::new() };
    let left = above + &behind;
    let next = keys.get(at + 1);
    let is_value = next.and_then(|it| table.get(it)).is_some_and(Item::is_value);
    match next.and_then(|it| table.key_mut(it)).filter(|_| is_value) {
        Some(mut next) => {
            let own = raw(next.leaf_decor().prefix());
            next.leaf_decor_mut().set_prefix(left + &own);
            String::new()
        }
        None => left,
    }
}

/// Puts comments behind everything else that the file says by itself: above its first table, or at its end.
fn put_after(document: &mut DocumentMut, left: String) {
    if left.is_empty() {
        return;
    }
    let trailing = document.trailing().as_str().unwrap_or_default().to_owned();
    let has_break = document.to_string().ends_with('\n');
    let lead = if has_break { "" } else { "\n" };
    document.set_trailing(format!("{lead}{trailing}{left}"));
}

#[cfg(test)]
mod tests {
    use super::*;

    const PACK: &str = "\
format = 1 # one
title = \"T\"

[pins] # settled
# the opener
a = 1 # for good
b = 2
";

    #[test]
    fn a_pin_is_set_moved_and_taken_away_and_every_comment_stays() {
        let moved = with_pin(PACK, "a", Some(3)).unwrap();
        assert_eq!(moved, PACK.replace("a = 1", "a = 3"));
        let added = with_pin(PACK, "c", Some(4)).unwrap();
        assert_eq!(added, format!("{PACK}c = 4\n"));
        let gone = with_pin(PACK, "a", None).unwrap();
        assert_eq!(gone, PACK.replace("a = 1 # for good\n", "# for good\n"));
        let last = with_pin(&gone, "b", None).unwrap();
        for it in ["# one", "# settled", "# the opener", "# for good"] {
            assert!(last.contains(it), "{it} is gone: {last}");
        }
        assert_eq!(with_pin("title = \"x\"\n", "a", Some(2)).unwrap(), "title = \"x\"\n\n[pins]\na = 2\n");
        assert_eq!(with_pin("title = \"x\"\n", "a", None).unwrap(), "title = \"x\"\n");
        assert_eq!(with_pin("pins = 3\n", "a", Some(2)), Err(NotChangeable));
        assert_eq!(with_pin("pins = { a = 1 }\n", "b", Some(2)).unwrap(), "pins = { a = 1 , b = 2 }\n");
    }

    const PUZZLE: &str = "\
format = 1
# for the end
shelf = \"Night\" # so far
setter = \"Fern\"

[sandwich] # clues
rows = \"0\"
";

    #[test]
    fn a_standing_is_set_and_taken_away_and_every_comment_stays() {
        let same = with_standing(PUZZLE, Some("Night"), None, None).unwrap();
        assert_eq!(same, PUZZLE);
        let declined = with_standing(PUZZLE, Some("Night"), Some("declined"), Some("too long")).unwrap();
        let added = "setter = \"Fern\"\nstate = \"declined\"\nreason = \"too long\"\n";
        assert_eq!(declined, PUZZLE.replace("setter = \"Fern\"\n", added));
        assert_eq!(with_standing(&declined, Some("Night"), None, None).unwrap(), PUZZLE);
        let none = with_standing(PUZZLE, None, None, None).unwrap();
        assert_eq!(none, PUZZLE.replace("shelf = \"Night\" # so far\n", "# so far\n"));
        let line = "format = 1\r\nstate = \"pool\"\r\n";
        assert_eq!(with_standing(line, None, None, None).unwrap(), "format = 1\r\n");
    }
}
