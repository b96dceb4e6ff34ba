//! When the program cannot do its work: exit code 2, a clear message, nothing written.

use std::io::Read;
use std::process::{Command, Stdio};

use crate::support::Folder;

#[test]
fn wrong_arguments() {
    let folder = Folder::new("wrong_arguments");
    let calls: [&[&str]; 15] = [
        &[],
        &["polish"],
        &["check"],
        &["check", "a", "b"],
        &["why"],
        &["why", "a"],
        &["judge", "a"],
        &["judge", "a", "b", "c", "d"],
        &["make"],
        &["make", "--seed", "x"],
        &["make", "--seed", "1", "--hardest", "luck"],
        &["make", "--seed", "1", "--hardest", "x-wing", "--knows", "x-wing"],
        &["make", "--seed", "1", "--givens", "many"],
        &["make", "--seed", "1", "--count", "0"],
        &["make", "--seed", "1", "--classic", "--clues", "3"],
    ];
    for args in calls {
        let ran = folder.run(args).code(2);
        assert_eq!(ran.stdout, "", "{args:?}");
    }
}

#[test]
fn a_path_with_nothing_there() {
    let folder = Folder::new("a_path_with_nothing_there");
    for command in ["check", "explain", "order", "table", "press"] {
        let ran = folder.run(&[command, "nowhere"]).code(2);
        let ran = ran.says("error: there is nothing at `nowhere`").says("  help: ");
        assert_eq!(ran.stdout, "", "{command}");
    }
    assert_eq!(folder.files(), [""; 0]);
}

#[test]
fn a_puzzle_that_is_not_there() {
    let folder = Folder::with_pack("a_puzzle_that_is_not_there");
    let ran = folder.run(&["explain", "lamp-store", "high-tide"]).code(2);
    ran.says("no puzzle `high-tide` in `lamp-store`").says("dark-stair, first-light, low-tide");
}

#[test]
fn puzzles_that_is_a_file() {
    let folder = Folder::new("puzzles_that_is_a_file");
    folder.write("odd/pack.toml", "format = 1\ntitle = \"Odd\"\n");
    folder.write("odd/puzzles", "");
    folder.run(&["check", "odd"]).code(2).says("`odd/puzzles` cannot be read: not a directory");
}

#[test]
fn a_new_pack_never_costs_a_file() {
    let folder = Folder::new("a_new_pack_never_costs_a_file");
    folder.write("full/notes.txt", "mine");
    folder.run(&["new", "full"]).code(2).says("`full` is not empty").says("help: ");
    folder.run(&["new", "full/notes.txt"]).code(2).says("is not a folder");
    assert_eq!(folder.files(), ["full/notes.txt"]);
    folder.run(&["new", "full/notes.txt/deeper"]).code(2);
    assert_eq!(folder.read("full/notes.txt"), "mine");
}

#[test]
fn briefs_that_contradict_themselves() {
    let folder = Folder::new("briefs_that_contradict_themselves");
    let make = |args: &[&str]| folder.run(&[&["make", "--seed", "1"], args].concat()).code(2);
    make(&["--hardest", "naked-single", "--teaches", "naked-pair"]).says("`naked-pair` is harder than");
    make(&["--classic", "--teaches", "crust-reach"]).says("`crust-reach` is about sandwich clues");
    make(&["--clues", "..0", "--teaches", "naked-single,crust-reach"]).says("the puzzle is to have none");
    make(&["--classic", "--givens", "..16"]).says("fewer than 17 givens").says("help: allow more givens");
    make(&["--givens", "12..8"]).says("did you mean 8..12?");
    make(&["--givens", "82"]).says("82 givens are more than a 9x9 board has room for").says("81 cells");
    make(&["--size", "6x6", "--clues", "13.."]).says("13 clues are more").says("12 rows and columns");
    make(&["--clues", "most"]).says("write all, symmetric, few or a range");
    make(&["--size", "7x7"]).says("no board of size `7x7`").says("4x4, 6x6, 8x8, 9x9");
    make(&["--size", "9x6"]).says("no board of size `9x6`");
    make(&["--size", "6", "--givens", "5", "--look", "symmetric"]).says("5 givens cannot look the same");
    make(&["--minutes", "..0"]).says("0 minutes");
    make(&["--teaches", "crust-reech"]).says("'crust-reach'");
    make(&["--knows", "lucky-guess"]).says("lucky-guess");
    make(&["--avoid", "nowhere"]).says("there is nothing at `nowhere`");
    make(&["--out", "No Name.toml"]).says("no name for a puzzle file").says("first-light.toml");
    make(&["--count", "2", "--out", "two.toml"]).says("is one file, and 2 puzzles are wanted");
    make(&["--classic", "--out", "nowhere/a.toml"]).says("cannot be written: no such file or directory");
    make(&["--title", " "]).says("the title is empty");
    make(&["--setter", "a\nb"]).says("the setter is not one line of text");
    assert_eq!(folder.files(), [""; 0]);
}

#[test]
fn briefs_that_nothing_meets() {
    let folder = Folder::new("briefs_that_nothing_meets");
    let brief = ["make", "--seed", "1", "--tries", "12", "--teaches", "naked-pair", "--classic"];
    let none = folder.run(&[&brief[..], &["--givens", "..17"]].concat()).code(1);
    none.says("none found in 12 tries (12 more givens needed); the nearest missed because it needs ")
        .says(" givens, and at most 17 are allowed")
        .says("help: allow more givens");
    let quick = ["make", "--seed", "1", "--tries", "4", "--classic", "--minutes", "400.."];
    folder.run(&quick).code(1).says("too few minutes").says("and 400 at least are wanted");
    // The reasons are in the document too, and no folder is begun for nothing.
    let document = folder.run(&[&quick[..], &["--json", "--out", "slow"]].concat()).code(1).json();
    assert_eq!(
        (&document["wanted"], &document["found"], &document["tries"]),
        (&1.into(), &0.into(), &4.into())
    );
    assert_eq!(document["missed"][0]["tries"], 4);
    assert!(document["nearest"].as_str().unwrap().contains("and 400 at least are wanted"), "{document}");
    assert_eq!(document["puzzles"].as_array().map(Vec::len), Some(0));
    assert!(!folder.exists("slow"));
    // Boards of 4x4 are few, and so are their solutions.
    let few = ["make", "--seed", "1", "--tries", "60", "--size", "4x4", "--count", "60", "--out", "small"];
    let few = folder.run(&few).code(1).says(" of 60 found in 60 tries (").says("same as another");
    let n_found: usize = few.stderr["error: ".len()..].split(' ').next().unwrap().parse().unwrap();
    assert!((1..60).contains(&n_found));
    assert_eq!(folder.files().len(), n_found);
}

#[test]
fn failures_are_documents_too() {
    let folder = Folder::new("failures_are_documents_too");
    let failed = folder.run(&["check", "nowhere", "--json"]).code(2).says("error: there is nothing");
    let document = failed.json();
    assert_eq!(document["error"]["message"], "there is nothing at `nowhere`");
    assert!(document["error"]["help"].is_string());
}

#[test]
fn a_reader_who_has_seen_enough_is_no_failure() {
    let folder = Folder::with_pack("a_reader_who_has_seen_enough_is_no_failure");
    let mut child = Command::new(env!("CARGO_BIN_EXE_galley"))
        .args(["explain", "lamp-store/puzzles/low-tide.toml", "--json"])
        .current_dir(folder.path())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let mut stderr = String::new();
    child.stderr.take().unwrap().read_to_string(&mut stderr).unwrap();
    assert_eq!(child.wait().unwrap().code(), Some(0), "{stderr}");
    assert_eq!(stderr, "");
}

#[cfg(target_os = "linux")]
#[test]
fn ctrl_c_ends_cleanly_and_writes_nothing() {
    let folder = Folder::new("ctrl_c_ends_cleanly_and_writes_nothing");
    // Takes several seconds if it is left alone.
    let brief =
        ["--seed", "1", "--givens", "..30", "--hardest", "hidden-triple", "--teaches", "hidden-triple"];
    let rest = ["--teaches", "crusts-at-ends", "--teaches", "naked-triple", "--out", "late.toml"];
    interrupted(&folder, &[&["make"], &brief[..], &rest[..]].concat());
    assert_eq!(folder.files(), [""; 0]);
}

#[cfg(target_os = "linux")]
#[test]
fn ctrl_c_ends_a_question_in_the_middle() {
    let folder = Folder::with_pack("ctrl_c_ends_a_question_in_the_middle");
    // To find the smallest conflict of each of these takes about a second.
    folder.replace("lamp-store/puzzles/low-tide.toml", "11  5  3", "11 13  3");
    let wrong = folder.read("lamp-store/puzzles/low-tide.toml");
    for n in 0..12 {
        folder.write(&format!("lamp-store/puzzles/low-tide-{n}.toml"), &wrong);
    }
    interrupted(&folder, &["mend", "lamp-store"]);
}

/// Runs the program and asks it to stop as soon as it listens.
#[cfg(target_os = "linux")]
fn interrupted(folder: &Folder, args: &[&str]) {
    let child = Command::new(env!("CARGO_BIN_EXE_galley"))
        .args(args)
        .current_dir(folder.path())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    wait_until_it_listens(child.id());
    let asked = Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
    assert!(asked.success());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    let stderr = String::from_utf8(output.stderr).unwrap();
    assert!(stderr.contains("stopped before the work was done; nothing was written"), "{stderr}");
    assert_eq!(output.stdout, b"");
}

/// Waits until the program has a handler for Ctrl-C, however busy the machine is.
#[cfg(target_os = "linux")]
fn wait_until_it_listens(process: u32) {
    const INTERRUPT: u64 = 1 << 1;
    for _ in 0..2_000 {
        let status = std::fs::read_to_string(format!("/proc/{process}/status")).unwrap_or_default();
        let caught = status.lines().find_map(|it| it.strip_prefix("SigCgt:"));
        let caught = caught.and_then(|it| u64::from_str_radix(it.trim(), 16).ok());
        if caught.is_some_and(|it| it & INTERRUPT != 0) {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    panic!("the program never listened");
}
