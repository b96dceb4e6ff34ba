//! The report and the folder it is written to.

use crate::support::Folder;

#[test]
fn press_writes_the_report_and_prints_the_table() {
    let folder = Folder::with_pack("press_writes_the_report_and_prints_the_table");
    let press = folder.run(&["press", "lamp-store"]).code(0).says("wrote out/report.html");
    let table = folder.run(&["table", "lamp-store"]).code(0);
    assert_eq!(press.stdout, table.stdout, "the terminal shows the pack's table");
    let files = folder.files();
    let written: Vec<&str> = files.iter().map(String::as_str).filter(|it| it.starts_with("out/")).collect();
    assert_eq!(written, ["out/.galley", "out/report.html"]);
    let report = folder.read("out/report.html");
    for text in ["The lamp store", "First light", "Low tide", "Juniper", "<svg", "</html>"] {
        assert!(report.contains(text), "the report has no {text}");
    }
    assert!(!report.contains(env!("CARGO_TARGET_TMPDIR")), "a path of this machine");
}

#[test]
fn equal_packs_give_equal_bytes() {
    let folder = Folder::with_pack("equal_packs_give_equal_bytes");
    let once = folder.run(&["press", "lamp-store", "--out", "once"]).code(0);
    let again = folder.run(&["press", "lamp-store", "--out", "again"]).code(0);
    assert_eq!(once.stdout, again.stdout);
    assert_eq!(folder.read("once/report.html"), folder.read("again/report.html"));
    // Over itself, on one core.
    folder
        .command()
        .args(["press", "lamp-store", "--out", "once"])
        .env("RAYON_NUM_THREADS", "1")
        .assert()
        .code(0);
    assert_eq!(folder.read("once/report.html"), folder.read("again/report.html"));
    for command in ["check", "explain", "order", "table"] {
        let run = || folder.run(&[command, "lamp-store", "--json", "--unseal"]).code(0).stdout;
        assert_eq!(run(), run(), "{command}");
    }
}

#[test]
fn a_pack_with_problems_is_pressed_as_far_as_it_goes() {
    let folder = Folder::with_pack("a_pack_with_problems_is_pressed_as_far_as_it_goes");
    folder.write("lamp-store/puzzles/hinge.toml", "format = 1\n");
    let press = folder.run(&["press", "lamp-store"]).code(1);
    press.says("error[missing-key]").says("wrote out/report.html").prints("cannot be read");
    assert!(folder.read("out/report.html").contains("missing-key"));
    folder.run(&["press", "lamp-store", "--quiet"]).code(1).says("error[missing-key]");
}

#[test]
fn quiet_leaves_out_the_closing_note() {
    let folder = Folder::with_pack("quiet_leaves_out_the_closing_note");
    let press = folder.run(&["press", "-q", "lamp-store/puzzles/first-light.toml"]).code(0);
    assert_eq!(press.stderr, "");
}

#[test]
fn a_failed_press_leaves_the_old_report() {
    let folder = Folder::with_pack("a_failed_press_leaves_the_old_report");
    folder.run(&["press", "lamp-store"]).code(0);
    let before = (folder.files(), folder.read("out/report.html"));
    folder.run(&["press", "nowhere"]).code(2);
    // No puzzle can be read: there is no new report, and the old one stays.
    std::fs::rename(folder.path().join("lamp-store/puzzles"), folder.path().join("away")).unwrap();
    folder.run(&["press", "lamp-store"]).code(1).says("no report was written");
    std::fs::rename(folder.path().join("away"), folder.path().join("lamp-store/puzzles")).unwrap();
    assert_eq!((folder.files(), folder.read("out/report.html")), before);
}

#[test]
fn a_folder_of_somebody_else_is_refused() {
    let folder = Folder::with_pack("a_folder_of_somebody_else_is_refused");
    folder.write("out/thesis.txt", "ten years of work");
    let refused = folder.run(&["press", "lamp-store"]).code(2);
    let refused =
        refused.says("`out` holds `thesis.txt`, which Galley did not write").says("help: move it away");
    assert_eq!(refused.stdout, "");
    assert_eq!(folder.read("out/thesis.txt"), "ten years of work");
    assert!(!folder.exists("out/report.html"));

    // One file among Galley's own is enough.
    folder.run(&["press", "lamp-store", "--out", "mine"]).code(0);
    folder.write("mine/notes.txt", "call the printer");
    folder.run(&["press", "lamp-store", "--out", "mine"]).code(2).says("`notes.txt`");
    assert_eq!(folder.read("mine/notes.txt"), "call the printer");

    // The pack itself is no place to write to.
    let before = folder.files();
    folder.run(&["press", "lamp-store", "--out", "lamp-store"]).code(2);
    folder.run(&["press", "lamp-store", "--out", "."]).code(2);
    assert_eq!(folder.files(), before);
}

#[test]
fn a_folder_that_cannot_be_written() {
    let folder = Folder::with_pack("a_folder_that_cannot_be_written");
    // Permissions do not bind every user; a file in the way does.
    folder.write("out", "a file");
    folder.run(&["press", "lamp-store"]).code(2).says("`out` is not a folder").says("help: ");
    folder
        .run(&["press", "lamp-store", "--out", "out/deeper"])
        .code(2)
        .says("cannot be written")
        .says("help: ");
    folder.run(&["press", "lamp-store", "--out", "no/such/place"]).code(2).says("cannot be written");
    assert_eq!(folder.read("out"), "a file");
    assert!(!folder.exists("no"));
}
