//! What `press` writes, and the folder it is written to.

use prove::{Limit, Verdict, verdict};

use crate::support::{BLANK, Folder};

#[test]
fn press_writes_everything_and_prints_the_table() {
    let folder = Folder::with_pack("press_writes_everything_and_prints_the_table");
    let press = folder.run(&["press", "lamp-store"]).code(0);
    let press = press
        .says("wrote report.html, booklet.pdf, site/index.html, cue/ and stage/ in out/")
        .says("left out of booklet and site: \"Dark stair\", which is sealed (--unseal");
    let table = folder.run(&["table", "lamp-store"]).code(0);
    assert_eq!(press.stdout, table.stdout, "the terminal shows the pack's table");
    let written: Vec<String> = folder.all_in("out").into_keys().collect();
    let expected = [
        ".galley",
        "booklet.pdf",
        "cue/first-light.html",
        "cue/first-light.png",
        "cue/first-light.txt",
        "cue/low-tide.html",
        "cue/low-tide.png",
        "cue/low-tide.txt",
        "report.html",
        "site/404.html",
        "site/icon.svg",
        "site/index.html",
        "site/offline.js",
        "site/play/engine.js",
        "site/play/engine.wasm",
        "site/play/sheet.js",
        "site/primer.html",
        "site/puzzles/first-light.html",
        "site/puzzles/low-tide.html",
        "site/sheet.css",
        "site/sw.js",
        "stage/engine.js",
        "stage/first-light.html",
        "stage/first-light.presenter.html",
        "stage/low-tide.html",
        "stage/low-tide.presenter.html",
        "stage/presenter.css",
        "stage/presenter.js",
        "stage/stage.css",
        "stage/stage.js",
    ];
    assert_eq!(written, expected);
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
    assert_eq!(folder.all_in("once"), folder.all_in("again"));
    // Over itself, on one core.
    folder
        .command()
        .args(["press", "lamp-store", "--out", "once"])
        .env("RAYON_NUM_THREADS", "1")
        .assert()
        .code(0);
    assert_eq!(folder.all_in("once"), folder.all_in("again"));
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
    press.says("error[missing-key]").says("wrote report.html, booklet.pdf").prints("cannot be read");
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
fn unsealed_puzzles_are_published_too_and_an_issue_has_its_day() {
    let folder = Folder::with_pack("unsealed_puzzles_are_published_too_and_an_issue_has_its_day");
    let press = folder.run(&["press", "lamp-store", "--unseal", "--issued", "2026-12-01"]).code(0);
    assert!(!press.stderr.contains("left out"), "{}", press.stderr);
    for file in ["out/cue/dark-stair.html", "out/site/puzzles/dark-stair.html"] {
        assert!(folder.read(file).contains("Dark stair"));
    }
    let read = booklet::read_back(&folder.bytes("out/booklet.pdf")).unwrap();
    let titles: Vec<&str> = read.iter().map(|it| it.title.as_str()).collect();
    assert_eq!(titles.len(), 3);
    assert!(titles.contains(&"Dark stair"));
    let holds = |it: &[u8]| folder.bytes("out/booklet.pdf").windows(it.len()).any(|at| at == it);
    assert!(holds(b"2026-12-01"));
    folder.run(&["press", "lamp-store", "--issued", "yesterday"]).code(2).says("such as 2026-12-01");
}

/// What a solver gets is the pack's own puzzles and provable as it stands on the pages.
#[test]
fn booklet_and_site_hold_the_same_puzzles() {
    let folder = Folder::with_pack("booklet_and_site_hold_the_same_puzzles");
    folder.run(&["press", "lamp-store"]).code(0);
    let printed = booklet::read_back(&folder.bytes("out/booklet.pdf")).unwrap();
    let drawn = site::read_back(&folder.all_in("out/site")).unwrap();
    assert_eq!(printed.len(), 2);
    for (printed, drawn) in printed.iter().zip(&drawn) {
        assert_eq!((printed.title.as_str(), &printed.puzzle), (drawn.title.as_str(), &drawn.puzzle));
        assert!(matches!(verdict(&printed.puzzle, Limit(1_000_000)), Verdict::One(_)), "{}", printed.title);
    }
}

#[test]
fn what_is_not_proved_is_not_published() {
    let folder = Folder::with_pack("what_is_not_proved_is_not_published");
    folder.write("lamp-store/puzzles/blank.toml", BLANK);
    let press = folder.run(&["press", "lamp-store"]).code(1);
    press.says("\"Blank page\", which is not proved to have exactly one solution");
    let files = folder.all_in("out");
    assert!(files.keys().all(|it| !it.contains("blank")), "{:?}", files.keys());
    let (site, report) = (folder.all_in("out/site"), folder.read("out/report.html"));
    assert!(site.values().all(|it| !String::from_utf8_lossy(it).contains("Blank page")));
    assert!(report.contains("Blank page"));

    // Alone, it leaves nothing to publish.
    let press = folder.run(&["press", "lamp-store/puzzles/blank.toml", "--out", "alone"]).code(1);
    press.says("wrote report.html and no booklet or site, for want of a puzzle to publish in alone/");
    assert_eq!(folder.all_in("alone").into_keys().collect::<Vec<_>>(), [".galley", "report.html"]);
}

#[test]
fn texts_that_cannot_be_printed_are_named() {
    let folder = Folder::with_pack("texts_that_cannot_be_printed_are_named");
    folder.replace("lamp-store/puzzles/low-tide.toml", "Low tide", "Low \u{706f} tide");
    let press = folder.run(&["press", "lamp-store"]).code(0).says("no font of the booklet has U+706F");
    press.says("Low \u{706f} tide");
    let press = folder.run(&["press", "lamp-store", "--json"]).code(0).json();
    assert!(press["altered"][0].as_str().unwrap().contains("U+706F"));
    assert!(folder.read("out/site/index.html").contains("Low \u{706f} tide"));
}

#[test]
fn a_failed_press_leaves_the_old_files() {
    let folder = Folder::with_pack("a_failed_press_leaves_the_old_files");
    folder.run(&["press", "lamp-store"]).code(0);
    let before = folder.all_in("out");
    folder.run(&["press", "nowhere"]).code(2);
    // No puzzle can be read: nothing new is written, and the old stays.
    std::fs::rename(folder.path().join("lamp-store/puzzles"), folder.path().join("away")).unwrap();
    folder.run(&["press", "lamp-store"]).code(1).says("nothing was written");
    std::fs::rename(folder.path().join("away"), folder.path().join("lamp-store/puzzles")).unwrap();
    assert_eq!(folder.all_in("out"), before);
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
