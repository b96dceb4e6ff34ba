//! Whatever the bytes, reading ends, says where each problem is, and gives a puzzle only without errors.

mod common;

use std::collections::BTreeSet;

use packfile::{Code, MOST_BYTES, Problem, SourceFile, Span, read_pack, read_puzzle, write_puzzle};
use proptest::prelude::*;

/// Checks all that is promised of the problems of one file, and reads the file as either kind.
fn check(bytes: &[u8]) {
    let file = SourceFile::new("puzzles/low-tide.toml", bytes);
    let (read, problems) = read_puzzle(&file);
    assert_eq!(read.is_ok(), !problems.iter().any(Problem::is_error), "{problems:?}");
    let info = SourceFile::new("pack.toml", bytes);
    let (pack, of_pack) = read_pack(Some(&info), std::slice::from_ref(&file));
    for problem in problems.iter().chain(&of_pack) {
        let lines = problem.to_string().lines().count();
        assert!(lines == 2 && !problem.message.chars().any(char::is_control), "{problem:?}");
        if let Some(at) = problem.at {
            assert!(at.start <= at.end && at.end <= bytes.len(), "{problem:?}");
            assert_eq!((at.line, at.column), place(bytes, at.start), "{problem:?}");
        }
    }
    for problems in problems.chunk_by(|a, b| a.at.is_some() && b.at.is_some()) {
        assert!(problems.is_sorted_by_key(|it| it.at.map(|it| it.start)), "{problems:?}");
    }
    if let Some(order) = pack.pack.info.order {
        let ids: BTreeSet<_> = pack.pack.entries.iter().map(|it| it.id.clone()).collect();
        assert_eq!(order.len(), ids.len());
        assert_eq!(order.into_iter().collect::<BTreeSet<_>>(), ids);
    }
}

/// Line and column of a byte, counted from the beginning of the file.
fn place(bytes: &[u8], offset: usize) -> (usize, usize) {
    let (mut line, mut column) = (1, 1);
    for it in String::from_utf8_lossy(&bytes[..offset]).chars() {
        match it {
            '\n' => (line, column) = (line + 1, 1),
            '\u{feff}' => {}
            _ => column += 1,
        }
    }
    (line, column)
}

const WHOLE: &str = include_str!("data/puzzles/nine-by-nine-reads.toml");

#[test]
fn a_byte_order_mark_and_windows_line_ends_are_accepted() {
    let windows = WHOLE.replace('\n', "\r\n");
    for text in [WHOLE.to_owned(), windows.clone(), format!("\u{feff}{WHOLE}"), format!("\u{feff}{windows}")]
    {
        let (read, problems) = read_puzzle(&SourceFile::new("low-tide.toml", text.clone()));
        assert_eq!(problems, []);
        let entry = read.unwrap();
        assert_eq!((&entry.title[..], entry.sealed, entry.puzzle.clues().len()), ("First light", true, 14));
        // The same problem at the same line and column, whatever the line ends.
        let slip = text.replacen("8 . .", "8 . x", 1);
        let at = read_puzzle(&SourceFile::new("low-tide.toml", slip)).1[0].at.unwrap();
        assert_eq!((at.line, at.column), (11, 5));
    }
}

#[test]
fn bytes_that_are_no_text_are_named() {
    let mut bytes = WHOLE.as_bytes().to_vec();
    let at = WHOLE.find("Fern").unwrap() + 1;
    bytes[at] = 0xe9;
    let (read, problems) = read_puzzle(&SourceFile::new("puzzles/first-light.toml", bytes));
    assert!(read.is_err());
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].at, Some(Span { start: at, end: at + 1, line: 3, column: 12 }));
    assert_eq!(
        problems[0].to_string(),
        "puzzles/first-light.toml:3:12: error[not-utf-8]: byte 45 of the file, 0xe9, is not UTF-8 text\n  \
         help: save the file again as UTF-8"
    );
}

#[test]
fn files_from_outside_are_not_read() {
    let paths =
        ["../low-tide.toml", "puzzles/../../low-tide.toml", "/tmp/low-tide.toml", "C:\\low-tide.toml"];
    let files = paths.map(|it| SourceFile::new(it, WHOLE));
    let info = SourceFile::new("pack.toml", "format = 1\ntitle = \"The lantern room\"\n");
    let (read, problems) = read_pack(Some(&info), &files);
    assert_eq!(read.pack.entries, []);
    assert_eq!(read.unreadable.len(), 4);
    assert!(problems.iter().all(|it| it.code == Code::PathLeavesPack) && problems.len() == 4);
    // Alone, a puzzle may lie anywhere.
    assert!(files.iter().all(|it| read_puzzle(it).0.is_ok() || it.path.contains('\\')));
}

#[test]
fn names_that_differ_by_case_are_one_id() {
    // Not kept as files: on some systems such a pair cannot even lie in one folder.
    let info = SourceFile::new("pack.toml", "format = 1\ntitle = \"The lantern room\"\n");
    let files = ["puzzles/Low-Tide.toml", "puzzles/low-tide.toml"].map(|it| SourceFile::new(it, WHOLE));
    let (read, problems) = read_pack(Some(&info), &files);
    assert_eq!(read.pack.entries.len(), 1);
    assert_eq!(read.files.values().collect::<Vec<_>>(), ["puzzles/low-tide.toml"]);
    let seen: Vec<(&str, Code)> = problems.iter().map(|it| (&it.file[..], it.code)).collect();
    assert_eq!(seen, [(&files[0].path[..], Code::IdTwice), (&files[0].path[..], Code::FileNameNoId)]);
    let help = problems[1].help.as_deref().unwrap();
    assert!(!help.contains("to `low-tide.toml`"), "that would overwrite the other: {help}");
}

#[test]
fn a_file_name_cannot_command_the_terminal() {
    let (_, problems) = read_puzzle(&SourceFile::new("a\n\u{1b}[31mb.toml", ""));
    assert!(problems.iter().all(|it| !it.to_string().contains('\u{1b}')));
}

#[test]
fn large_and_long_files_are_read_or_refused() {
    let too_large = SourceFile::new("a.toml", vec![b'#'; MOST_BYTES + 1]);
    assert_eq!(read_puzzle(&too_large).1[0].code, Code::FileTooLarge);
    let repeated = |it: &str| it.repeat(MOST_BYTES / 32 / it.len());
    for text in [
        repeated("#"),
        repeated("["),
        repeated("[a]\n"),
        repeated("a.b.c = 1\n"),
        repeated("a b\n"),
        repeated("x = \"\n"),
        format!("a = {}", repeated("[")),
        format!("grid = \"\"\"\n{}\"\"\"", repeated("? . ")),
        format!("grid = \"\"\"\n{}\"\"\"", repeated("1 9\n")),
        format!("grid = '{}'", repeated(".")),
        format!("[sandwich]\nrows = \"{}\"", repeated("34 ")),
        format!("order = [{}]", repeated("\"é\",")),
        format!("{} = 1", repeated("k")),
        (0..5_000).map(|it| format!("key-{it} = 1\n")).collect(),
    ] {
        check(text.as_bytes());
    }
}

#[test]
fn too_many_warnings_make_no_error() {
    let many = "\"outside digits\", ".repeat(150);
    let text = WHOLE.replace("\"outside digits\"", &many);
    let (read, problems) = read_puzzle(&SourceFile::new("a.toml", text.clone()));
    assert!(read.is_ok_and(|it| it.intends == ["outside digits"]));
    assert_eq!((problems.len(), problems[100].code), (101, Code::MoreProblems));
    // An error that comes after them all is still shown.
    let (read, problems) = read_puzzle(&SourceFile::new("a.toml", text.replace("8 . .", "8 . x")));
    assert!(read.is_err() && problems[99].code == Code::StrayCharacter);
}

/// One change to a file.
#[derive(Clone, Debug)]
enum Edit {
    Replace(usize, u8),
    Remove(usize, usize),
    Insert(usize, String),
    Repeat(usize, usize),
}

fn edits() -> impl Strategy<Value = Vec<Edit>> {
    let words = [
        "\"",
        "'",
        "\"\"\"",
        "'''",
        "[",
        "]",
        "[[",
        "=",
        "#",
        "\n",
        "\r",
        "\\",
        "\\u0037",
        "{",
        "}",
        ",",
        ".",
        "-",
        "|",
        "x",
        "é",
        "🌿",
        "\u{feff}",
        "\0",
        "0",
        "34",
        "99999999999",
        "size = \"6x6\"\n",
        "box = \"2x2\"\n",
        "grid",
        "order = [\"low-tide\", \"..\"]\n",
        "[sandwich]\n",
        "rows = \"1\"\n",
        "sealed = 1979-05-27\n",
    ];
    let edit = prop_oneof![
        (any::<usize>(), any::<u8>()).prop_map(|(at, byte)| Edit::Replace(at, byte)),
        (any::<usize>(), 1usize..40).prop_map(|(at, n)| Edit::Remove(at, n)),
        (any::<usize>(), prop::sample::select(words.to_vec()))
            .prop_map(|(at, it)| Edit::Insert(at, it.into())),
        (any::<usize>(), 1usize..200).prop_map(|(at, n)| Edit::Repeat(at, n)),
    ];
    prop::collection::vec(edit, 1..6)
}

fn edited(text: &str, edits: &[Edit]) -> Vec<u8> {
    let mut bytes = text.as_bytes().to_vec();
    for edit in edits {
        let place = |at: usize| at % (bytes.len() + 1);
        match edit {
            Edit::Replace(at, byte) => {
                let at = place(*at);
                bytes.splice(at..(at + 1).min(bytes.len()), [*byte]);
            }
            Edit::Remove(at, n) => {
                let at = place(*at);
                bytes.drain(at..(at + n).min(bytes.len()));
            }
            Edit::Insert(at, it) => {
                let at = place(*at);
                bytes.splice(at..at, it.bytes());
            }
            Edit::Repeat(at, n) => {
                let at = place(*at);
                let copy = bytes[at..(at + n).min(bytes.len())].to_vec();
                bytes.splice(at..at, copy);
            }
        }
    }
    bytes
}

proptest! {
    #[test]
    fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        check(&bytes);
    }

    #[test]
    fn any_text(text in "([a-z]{1,6} ?[=.]? ?|[\\[\\]{}\"'#=,\\\\\n\r0-9.é|-]){0,80}") {
        check(text.as_bytes());
    }

    #[test]
    fn puzzle_files_with_slips(entry in common::entry(), edits in edits()) {
        check(&edited(&write_puzzle(&entry), &edits));
    }

    #[test]
    fn pack_files_with_slips(edits in edits()) {
        check(&edited(include_str!("data/packs/reads/pack.toml"), &edits));
    }

    #[test]
    fn files_with_slips_and_windows_line_ends(edits in edits()) {
        check(&edited(&format!("\u{feff}{}", WHOLE.replace('\n', "\r\n")), &edits));
    }
}
