//! Every way in which a pack's files can be wrong: exit code 1, and all of it said at once, with place
//! and next move. The words themselves are `packfile`'s and tested there.

use crate::support::Folder;

/// A pack in which one file holds this; gives what `check` says.
#[track_caller]
fn check(test: &str, file: &str, bytes: impl AsRef<[u8]>) -> crate::support::Ran {
    let folder = Folder::with_pack(test);
    folder.write(&format!("lamp-store/{file}"), bytes);
    let checked = folder.run(&["check", "lamp-store"]).code(1);
    // The rest of the pack is checked all the same.
    checked.prints("low-tide     exactly one solution").says("help: ")
}

/// The first lines of a puzzle file.
const HEAD: &str = "format = 1\ntitle = \"Brass hinge\"\nsetter = \"Fern\"\n";

fn grid(first_row: &str) -> String {
    let rows = ". . . . . . . . .\n".repeat(8);
    format!("{HEAD}grid = \"\"\"\n{first_row}\n{rows}\"\"\"\n")
}

#[test]
fn not_utf_8() {
    let checked = check("not_utf_8", "puzzles/hinge.toml", b"format = 1\ntitle = \"\xe9\"\n");
    checked
        .says("lamp-store/puzzles/hinge.toml:2:10: error[not-utf-8]")
        .prints("hinge        cannot be read");
}

#[test]
fn not_toml() {
    let checked = check("not_toml", "puzzles/hinge.toml", "format = 1\ntitle = Brass hinge\n");
    checked.says("lamp-store/puzzles/hinge.toml:2:9: error[not-toml]");
}

#[test]
fn unknown_key_and_all_else_at_once() {
    let text = "format = 1\ntitel = \"x\"\nsetter = \"\"\ngrid = \"\"\"\n1 1\n\"\"\"\n\n[sandwich]\nrows = \"34 36\"\n";
    let checked = check("unknown_key_and_all_else_at_once", "puzzles/hinge.toml", text);
    let codes =
        ["missing-key", "unknown-key", "empty-text", "row-count", "sum-not-reachable", "clue-too-large"];
    for code in codes {
        assert!(checked.stderr.contains(&format!("error[{code}]")), "no {code} in\n{}", checked.stderr);
    }
    checked.says("hinge.toml:2:1: error[unknown-key]").says("did you mean `title`?");
}

#[test]
fn wrong_counts() {
    let nine = ". . . . . . . . .";
    let test = "wrong_counts_cells";
    check(test, "puzzles/hinge.toml", grid(". . .")).says("hinge.toml:5:1: error[cell-count]");
    let text = format!("{}\n{nine}\n\"\"\"\n", grid(nine).trim_end_matches("\"\"\"\n"));
    check("wrong_counts_rows", "puzzles/hinge.toml", text)
        .says("error[row-count]")
        .says("10 rows, expected 9");
    let text = grid(nine) + "[sandwich]\nrows = \". . 6\"\n";
    check("wrong_counts_clues", "puzzles/hinge.toml", text)
        .says("error[clue-count]")
        .says("3 clues, expected 9");
}

#[test]
fn digit_out_of_range() {
    let text = grid(". . A . . . . . 0");
    let checked = check("digit_out_of_range", "puzzles/hinge.toml", text);
    checked
        .says("hinge.toml:5:5: error[digit-out-of-range]")
        .says("hinge.toml:5:17: error[digit-out-of-range]");
}

#[test]
fn sum_not_reachable() {
    // 1 and 34 cannot be made from the digits 2 to 8, 35 can: computed in `packfile` by brute force.
    let text = grid(". . . . . . . . .") + "[sandwich]\nrows = \"1 34 36 35 . . . . .\"\n";
    let checked = check("sum_not_reachable", "puzzles/hinge.toml", text);
    let checked = checked.says("error[sum-not-reachable]").says("use 0, a number from 2 to 33, or 35");
    assert_eq!(checked.stderr.matches("hinge.toml:16:").count(), 3, "{}", checked.stderr);
}

#[test]
fn digit_repeated() {
    let checked = check("digit_repeated", "puzzles/hinge.toml", grid("5 . . . . . . . 5"));
    checked.says("error[digit-repeated]").says("r1c1 and r1c9");
}

#[test]
fn unknown_format() {
    let text = grid(". . . . . . . . .").replace("format = 1", "format = 2");
    check("unknown_format", "puzzles/hinge.toml", text).says("hinge.toml:1:10: error[unknown-format]");
}

#[test]
fn two_puzzles_with_one_id() {
    let folder = Folder::with_pack("two_puzzles_with_one_id");
    folder.write("lamp-store/puzzles/low-tide.TOML", folder.read("lamp-store/puzzles/low-tide.toml"));
    folder.write("lamp-store/puzzles/Low-tide.toml", folder.read("lamp-store/puzzles/low-tide.toml"));
    folder.run(&["check", "lamp-store"]).code(1).says("error[id-twice]").prints("3 of 5 puzzles");
}

#[test]
fn order_with_a_stranger() {
    let order = "format = 1\ntitle = \"Lamps\"\norder = [\"low-tied\", \"first-light\", \"dark-stair\"]\n";
    let checked = check("order_with_a_stranger", "pack.toml", order);
    checked.says("lamp-store/pack.toml:3:10: error[order-unknown]").says("low-tide");
}

#[test]
fn order_that_leaves_the_pack() {
    let order = "format = 1\ntitle = \"Lamps\"\norder = [\"../secret\", \"low-tide\", \"first-light\", \"dark-stair\"]\n";
    check("order_that_leaves_the_pack", "pack.toml", order).says("error[path-leaves-pack]");
}

#[cfg(unix)]
#[test]
fn links_that_leave_the_pack_are_not_followed() {
    let folder = Folder::with_pack("links_that_leave_the_pack_are_not_followed");
    folder.write("secret.toml", "title = \"Not for you\"");
    let link = |to: &str, name: &str| {
        std::os::unix::fs::symlink(to, folder.path().join("lamp-store/puzzles").join(name)).unwrap();
    };
    link("../../secret.toml", "outside.toml");
    link("nowhere.toml", "dangling.toml");
    link("first-light.toml", "second-light.toml");
    let checked = folder.run(&["check", "lamp-store"]).code(1).says("2 errors");
    let checked = checked.says("puzzles/outside.toml: error[path-leaves-pack]");
    let checked = checked.says("puzzles/dangling.toml: error[path-leaves-pack]");
    assert!(!checked.stderr.contains("Not for you"));
    checked.prints("second-light  exactly one solution");
}

#[test]
fn an_empty_pack() {
    let folder = Folder::new("an_empty_pack");
    folder.write("empty/pack.toml", "format = 1\ntitle = \"Nothing yet\"\n");
    for command in ["check", "explain", "order", "table"] {
        let ran = folder.run(&[command, "empty"]).code(1).says("empty/puzzles: error[pack-has-no-puzzles]");
        assert_eq!(ran.stdout, "", "{command}");
    }
    folder.run(&["press", "empty"]).code(1).says("nothing was written");
    assert!(!folder.exists("out"));
    // A folder that is no pack at all.
    folder.write("void/readme.txt", "");
    folder.run(&["check", "void"]).code(1).says("void/pack.toml: error[pack-file-missing]");
}

#[test]
fn files_that_belong_to_editors_are_passed_over() {
    let folder = Folder::with_pack("files_that_belong_to_editors_are_passed_over");
    for file in [".first-light.toml.swp", ".hidden.toml", "notes.md", "first-light.toml~", "old/a.toml"] {
        folder.write(&format!("lamp-store/puzzles/{file}"), "not a puzzle");
    }
    folder.run(&["check", "lamp-store"]).code(0).prints("3 of 3 puzzles");
}

#[test]
fn a_warning_alone_is_no_failure() {
    let folder = Folder::with_pack("a_warning_alone_is_no_failure");
    let pack = folder.read("lamp-store/pack.toml");
    folder.write("lamp-store/pack.toml", pack + "order = [\"first-light\", \"low-tide\"]\n");
    folder.run(&["check", "lamp-store"]).code(0).says("warning[order-incomplete]").says("1 warning");
}

#[test]
fn a_file_cannot_speak_to_the_terminal() {
    let folder = Folder::with_pack("a_file_cannot_speak_to_the_terminal");
    folder.write("lamp-store/puzzles/a\u{1b}[2Jb.toml", "title = \"\u{1b}[2J\"\n");
    for command in ["check", "table", "order", "explain"] {
        let ran = folder.run(&[command, "lamp-store"]).code(1);
        assert!(!ran.stdout.contains('\u{1b}') && !ran.stderr.contains('\u{1b}'), "{command}");
    }
}

#[test]
fn a_film_is_no_puzzle() {
    let folder = Folder::with_pack("a_film_is_no_puzzle");
    folder.write("lamp-store/puzzles/film.toml", vec![b'#'; (1 << 20) + 100]);
    folder
        .run(&["check", "lamp-store"])
        .code(1)
        .says("film.toml: error[file-too-large]")
        .prints("3 of 4 puzzles");
}
