//! What is written reads back as the same, and templates read without problems.

mod common;

use packfile::{SourceFile, pack_template, puzzle_template, read_pack, read_puzzle, write_puzzle};
use proptest::prelude::*;

#[test]
fn a_puzzle_is_written_for_people() {
    let source = "format = 1\ntitle = \"First light\"\nsetter = \"Fern\"\n\
        grid = \"\"\"\n8........\n.9..72.68\n.........\n.1.......\n..6......\n.4...7.3.\n..48...7.\n\
        ....9.6..\n...53..2.\n\"\"\"\n[sandwich]\nrows = \"5 . 0 22 . 13 . 15 8\"\n\
        columns = \"2 . 28 15 8 35 11 0 0\"\n";
    let (entry, problems) = read_puzzle(&SourceFile::new("puzzles/first-light.toml", source));
    assert_eq!(problems, []);
    let expected = r#"format = 1
title = "First light"
setter = "Fern"
grid = """
8 . . | . . . | . . .
. 9 . | . 7 2 | . 6 8
. . . | . . . | . . .
------+-------+------
. 1 . | . . . | . . .
. . 6 | . . . | . . .
. 4 . | . . 7 | . 3 .
------+-------+------
. . 4 | 8 . . | . 7 .
. . . | . 9 . | 6 . .
. . . | 5 3 . | . 2 .
"""

[sandwich]
rows    = " 5  .  0 22  . 13  . 15  8"
columns = " 2  . 28 15  8 35 11  0  0"
"#;
    assert_eq!(write_puzzle(&entry.unwrap()), expected);
}

#[test]
fn sizes_are_written_where_they_are_not_the_usual_ones() {
    let source = |size: &str| {
        let rows = "......\n".repeat(6);
        format!("format = 1\ntitle = \"t\"\nsetter = \"s\"\n{size}grid = \"\"\"\n{rows}\"\"\"\n")
    };
    for size in ["size = \"6x6\"\n", "size = \"6x6\"\nbox = \"2x3\"\n"] {
        let entry = read_puzzle(&SourceFile::new("a.toml", source(size))).0.unwrap();
        assert!(write_puzzle(&entry).contains(size), "{size}");
    }
    let entry = read_puzzle(&SourceFile::new("a.toml", source("box = \"3x2\"\n"))).0.unwrap();
    let written = write_puzzle(&entry);
    assert!(written.contains("size = \"6x6\"") && !written.contains("box"), "{written}");
    assert!(written.contains(". . . | . . .\n. . . | . . .\n------+------\n"), "{written}");
}

#[test]
fn templates_teach_and_read() {
    let info = SourceFile::new("pack.toml", pack_template("The lantern room"));
    let puzzle = SourceFile::new("puzzles/first-light.toml", puzzle_template("First light", "Fern"));
    let (read, problems) = read_pack(Some(&info), std::slice::from_ref(&puzzle));
    assert_eq!(problems, []);
    assert_eq!(read.pack.info.title, "The lantern room");
    assert_eq!((&read.pack.entries[0].title[..], &read.pack.entries[0].setter[..]), ("First light", "Fern"));

    // Every remark that shows a line shows one that works when its `#` is taken away.
    let uncommented = |it: &SourceFile| {
        let text = String::from_utf8(it.bytes.clone()).unwrap();
        let lines = text.lines().map(|it| match it.strip_prefix("# ") {
            Some(line) if line.contains(" = ") || line.starts_with('[') => line,
            _ => it,
        });
        let text = lines.collect::<Vec<_>>().join("\n").replace("9x9", "6x6");
        SourceFile::new(it.path.clone(), text.replace("\"low-tide\"", "\"first-light\""))
    };
    let (_, problems) = read_pack(Some(&uncommented(&info)), &[uncommented(&puzzle)]);
    let seen: Vec<&str> = problems.iter().map(|it| it.code.name()).collect();
    // The order names the one puzzle twice, and the grid is of the usual size: nothing else is wrong.
    assert_eq!(seen, ["order-twice", "size-mismatch"], "{problems:#?}");
    let (read, _) = read_pack(Some(&uncommented(&info)), &[puzzle]);
    assert_eq!(read.pack.info.shelves.len(), 3);
    assert!(read.pack.info.licence.is_some() && read.pack.info.base_url.is_some());
}

proptest! {
    #[test]
    fn what_is_written_reads_back(entry in common::entry()) {
        let text = write_puzzle(&entry);
        let (read, problems) = read_puzzle(&SourceFile::new(format!("puzzles/{}.toml", entry.id), text.clone()));
        prop_assert!(problems.is_empty(), "{problems:?}\n{text}");
        prop_assert_eq!(read.as_ref(), Ok(&entry), "{}", text);
        prop_assert_eq!(write_puzzle(&read.unwrap()), text);
    }

    #[test]
    fn templates_take_any_line(title in common::line(), setter in common::line()) {
        let info = SourceFile::new("pack.toml", pack_template(&title));
        let puzzle = SourceFile::new("puzzles/a.toml", puzzle_template(&title, &setter));
        let (read, problems) = read_pack(Some(&info), &[puzzle]);
        prop_assert!(problems.is_empty(), "{problems:?}");
        prop_assert_eq!(&read.pack.info.title, &title);
        prop_assert_eq!(&read.pack.entries[0].title, &title);
        prop_assert_eq!(&read.pack.entries[0].setter, &setter);
    }
}
