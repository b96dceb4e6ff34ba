//! `galley check` on a list of grids.

use serde_json::Value;
use snapbox::str;

use crate::support::Folder;

/// 4x4 puzzles: several, none, one, and lines that are none.
const LIST: &str = "\
# some small ones
1234............
1134............

12343..1....4...,1234342121434312,easy
  12x4............
123
";

#[test]
fn each_line_is_proved() {
    let folder = Folder::new("each_line_is_proved");
    folder.write("small.txt", LIST);
    let check = folder.command().args(["check", "small.txt", "--quiet"]).assert();
    check
        .code(1)
        .stdout_eq(str![[r#"
5 puzzles: 1 with exactly one solution, 1 with no solution, 1 with more than one solution, 2 that cannot be read

"#]])
        .stderr_eq(str![[r#"
small.txt:2:1: error[several-solutions]: the puzzle has more than one solution: r3c2 can be 1 or 3
small.txt:3:1: error[no-solution]: the puzzle has no solution
small.txt:6:5: error[not-a-grid]: `x` is no digit of this board
  help: use the board's digits (A for 10 and so on), and `.` or 0 for an empty cell
small.txt:7:1: error[not-a-grid]: no board has 3 cells
  help: write a character a cell: 81 for 9x9, 36 for 6x6, and so on up to 256


"#]]);
    let note = folder.run(&["check", "small.txt"]).code(1).stderr;
    assert!(note.lines().last().unwrap().contains(" puzzles a second on "), "{note}");
}

#[test]
fn a_list_gives_a_document_a_line() {
    let folder = Folder::new("a_list_gives_a_document_a_line");
    folder.write("small.txt", LIST);
    let ran = folder.run(&["check", "small.txt", "--json"]).code(1);
    assert_eq!(ran.stderr, "");
    let records: Vec<Value> = ran.stdout.lines().map(|it| serde_json::from_str(it).unwrap()).collect();
    let told: Vec<(u64, &str)> =
        records.iter().map(|it| (it["line"].as_u64().unwrap(), it["verdict"].as_str().unwrap())).collect();
    let expected = [(2, "many"), (3, "none"), (5, "one"), (6, "unreadable"), (7, "unreadable")];
    assert_eq!(told, expected);
    assert_eq!(records[2]["solution"], "1234342121434312");
    assert!(records[2]["problem"].is_null());
    assert_eq!(
        (&records[3]["problem"]["code"], &records[3]["problem"]["column"]),
        (&"not-a-grid".into(), &5.into())
    );
}

#[test]
fn long_lists_name_the_first_lines_with_problems() {
    let folder = Folder::new("long_lists_name_the_first_lines_with_problems");
    folder.write("small.txt", "1234............\n".repeat(700) + "12343..1....4...\n");
    let ran =
        folder.run(&["check", "small.txt"]).code(1).says("and 680 such lines more; --json has them all");
    let ran = ran.says("small.txt:20:1: error[several-solutions]");
    assert!(!ran.stderr.contains("small.txt:21:1"), "{}", ran.stderr);
    assert!(
        ran.stdout.starts_with("701 puzzles: 1 with exactly one solution, 700 with more"),
        "{}",
        ran.stdout
    );
}

#[test]
fn sound_lists_are_all_good() {
    let folder = Folder::new("sound_lists_are_all_good");
    folder.write("small", "12343..1....4...\n");
    let ran = folder.run(&["check", "small"]).code(0);
    assert_eq!(ran.stdout, "1 puzzle: 1 with exactly one solution\n");
}

#[test]
fn files_that_are_no_lists_are_refused() {
    let folder = Folder::new("files_that_are_no_lists_are_refused");
    folder.write("empty.txt", "# nothing\n\n");
    folder.run(&["check", "empty.txt"]).code(2).says("there is no grid in `empty.txt`").says("  help: ");
    folder.write("bytes.bin", [0xff, 0xfe, 0x00]);
    folder.run(&["check", "bytes.bin"]).code(2).says("it is no text").says("ends in .toml");
}

#[test]
fn a_puzzle_file_of_another_name_is_no_list() {
    let folder = Folder::with_pack("a_puzzle_file_of_another_name_is_no_list");
    let text = folder.read("lamp-store/puzzles/low-tide.toml");
    folder.write("low-tide.bak", format!("# kept\n\n{text}"));
    let ran = folder.run(&["check", "low-tide.bak"]);
    assert!(!ran.stderr.contains("not-a-grid"), "{}", ran.stderr);
}
