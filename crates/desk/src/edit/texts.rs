//! A file of the pack with single lines of text set or taken away.

use toml_edit::{Item, Table, Value};

use super::{NotChangeable, changed, set};

/// The puzzle file with these texts under their keys; one that is none is taken away.
pub(crate) fn with_texts(text: &str, texts: &[(&str, Option<String>)]) -> Result<String, NotChangeable> {
    changed(text, |document| {
        for (key, text) in texts {
            match text {
                Some(it) => set(document.as_table_mut(), key, Value::from(&it[..]))?,
                None => _ = document.remove(key),
            }
        }
        Ok(())
    })
}

/// The pack file with what is said of a setter; with nothing said, without them.
pub(crate) fn with_setter(
    text: &str,
    name: &str,
    texts: &[(&str, Option<String>)],
) -> Result<String, NotChangeable> {
    changed(text, |document| {
        if !document.contains_key("setters") {
            let mut setters = Table::new();
            setters.set_implicit(true);
            document.insert("setters", Item::Table(setters));
        }
        let setters = document.get_mut("setters").and_then(Item::as_table_like_mut).ok_or(NotChangeable)?;
        if texts.iter().all(|it| it.1.is_none()) {
            setters.remove(name);
            if setters.is_empty() {
                document.remove("setters");
            }
            return Ok(());
        }
        if !setters.contains_key(name) {
            setters.insert(name, Item::Table(Table::new()));
        }
        let setter = setters.get_mut(name).and_then(Item::as_table_like_mut).ok_or(NotChangeable)?;
        for (key, text) in texts {
            match text {
                Some(it) => set(setter, key, Value::from(&it[..]))?,
                None => _ = setter.remove(key),
            }
        }
        Ok(())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> Option<String> {
        Some(text.to_owned())
    }

    #[test]
    fn lines_come_and_go_and_all_else_stays() {
        let text = "# by post\ntitle = \"A\"\nrecord = \"2026-12-01\" # perhaps\n\n[sandwich] # none\nrows = \". .\"\n";
        let new = with_texts(text, &[("record", of("2026-12-05")), ("received", of("2026-09-14"))]).unwrap();
        let expected = "# by post\ntitle = \"A\"\nrecord = \"2026-12-05\" # perhaps\nreceived = \"2026-09-14\"\n\n[sandwich] # none\nrows = \". .\"\n";
        assert_eq!(new, expected);
        let none = with_texts(&new, &[("record", None), ("received", None), ("release", None)]).unwrap();
        assert_eq!(none, "# by post\ntitle = \"A\"\n\n[sandwich] # none\nrows = \". .\"\n");
        assert_eq!(with_texts("record = [1]\n", &[("record", of("x"))]).unwrap(), "record = \"x\"\n");
        assert_eq!(with_texts("record =", &[("record", None)]), Err(NotChangeable));
    }

    #[test]
    fn setters_get_tables_of_their_own() {
        let text = "title = \"A\" # so far\n\n[pins]\na = 1\n";
        let one =
            with_setter(text, "Fern \"the\" quick", &[("credit", of("F. <b>")), ("link", None)]).unwrap();
        assert_eq!(one, format!("{text}\n[setters.'Fern \"the\" quick']\ncredit = \"F. <b>\"\n"));
        let both = with_setter(&one, "Moss", &[("wishes", of("No clips.\nNone."))]).unwrap();
        assert!(both.starts_with(&one) && both.contains("[setters.Moss]\nwishes = "), "{both}");
        let gone = with_setter(&both, "Moss", &[("wishes", None)]).unwrap();
        assert_eq!(gone, one);
        let none = with_setter(&gone, "Fern \"the\" quick", &[("credit", None)]).unwrap();
        assert_eq!(none, text);
        assert_eq!(with_setter("setters = 3\n", "Moss", &[("credit", of("M"))]), Err(NotChangeable));
    }
}
