//! Test solves: what they teach, what is refused, and that every figure says what it rests on.

use serde_json::{Value, json};

use crate::support::Folder;

const PUZZLES: [&str; 3] = ["first-light", "low-tide", "dark-stair"];

/// A pack with solves of its three puzzles by these people: who, how many times the estimate they take, and whether
/// they talk. Each step takes equally long.
fn with_solves(test: &str, people: &[(&str, f64, bool)]) -> Folder {
    let folder = Folder::with_pack(test);
    for puzzle in PUZZLES {
        for (name, slow, aloud) in people {
            folder.write(
                &format!("lamp-store/solves/{name}-{puzzle}.json"),
                solve(&folder, puzzle, name, *slow, *aloud),
            );
        }
    }
    folder
}

fn solve(folder: &Folder, puzzle: &str, name: &str, slow: f64, aloud: bool) -> String {
    let explained = folder.run(&["explain", "lamp-store", puzzle, "--unseal", "--json"]).code(0).json();
    let graded = folder.run(&["grade", "lamp-store", puzzle, "--unseal", "--json"]).code(0).json();
    let median = graded["solvers"][1]["median"].as_f64().unwrap();
    let steps = explained["steps"].as_array().unwrap();
    let mut entries: Vec<Value> = Vec::new();
    for (at, step) in steps.iter().enumerate() {
        let seconds = slow * median * (at + 1) as f64 / steps.len() as f64;
        for it in step["concludes"].as_array().unwrap() {
            if it["is"].is_u64() {
                entries.push(json!({ "at": seconds, "cell": it["cell"], "digit": it["is"] }));
            }
        }
    }
    let solve = json!({
        "format": 1, "puzzle": puzzle, "solver": name, "kind": "regular", "aloud": aloud,
        "entries": entries, "outcome": "solved",
    });
    solve.to_string()
}

#[test]
fn too_little_moves_nothing_and_says_what_is_missing() {
    let folder = Folder::with_pack("too_little_moves_nothing");
    let none = folder.run(&["calibrate", "lamp-store"]).code(0);
    let none = none
        .prints("Solves in silence: 0 solves of 0 puzzles\nEstimate: too little to move anything; 5 solves");
    none.prints("the pack's folder `solves`.").prints("Solves that were talked aloud: 0 solves");
    folder.write("lamp-store/solves/one.json", solve(&folder, "first-light", "Sorrel", 1.5, false));
    let one = folder.run(&["calibrate", "lamp-store", "--write"]).code(0);
    assert!(one.stderr.contains("nothing was written"), "{}", one.stderr);
    one.prints("1 solve of 1 puzzle\n").prints("4 solves and 2 puzzles more are wanted.");
    assert!(!folder.exists("lamp-store/calibration.json"));
    let one = folder.run(&["calibrate", "lamp-store", "--json"]).code(0).json();
    assert_eq!(
        (&one["silent"]["verdict"], &one["silent"]["missing"]["solves"]),
        (&json!("too-little"), &json!(4))
    );
    assert_eq!(one["solves"][0]["held"], true);
    let file = folder.run(&["calibrate", "lamp-store/puzzles/low-tide.toml"]).code(2);
    assert!(file.stderr.contains("test solves belong to a pack"), "{}", file.stderr);
}

#[test]
fn what_solves_teach_goes_into_every_figure() {
    let folder = with_solves("what_solves_teach", &[("Sorrel", 1.6, false), ("Tansy", 2.2, false)]);
    let before = folder.run(&["table", "lamp-store", "--unseal", "--json"]).code(0).json();
    let found = folder.run(&["calibrate", "lamp-store", "--unseal"]).code(0);
    assert!(found.stderr.contains("nothing was written; with --write"), "{}", found.stderr);
    assert!(!folder.exists("lamp-store/calibration.json"));
    let found =
        found.prints("Calibrated on 6 solves. Half of the solves are foretold to within a factor of 1.");
    found.prints("| regular ").prints("| Sorrel ").prints("Estimate: too little to move anything");

    let written = folder.run(&["calibrate", "lamp-store", "--unseal", "--write", "--json"]).code(0).json();
    assert_eq!(written["written"], "lamp-store/calibration.json");
    let silent = &written["silent"];
    assert!(silent["off_after"].as_f64().unwrap() < silent["off_before"].as_f64().unwrap(), "{silent}");
    assert!(silent["kinds"][1]["ratio"].as_f64().unwrap() > 1.3, "{silent}");
    assert!(silent["people"][0]["ratio"].as_f64() < silent["people"][1]["ratio"].as_f64(), "{silent}");
    // The same again, from the pack as it now is: a calibration does not feed on itself.
    let bytes = folder.bytes("lamp-store/calibration.json");
    let again = folder.run(&["calibrate", "lamp-store", "--unseal", "--write", "--json"]).code(0).json();
    assert_eq!((again, folder.bytes("lamp-store/calibration.json")), (written, bytes));

    let after = folder.run(&["table", "lamp-store", "--unseal", "--json"]).code(0).json();
    let to = |document: &Value, id: &str| {
        let puzzles = document["puzzles"].as_array().unwrap();
        puzzles.iter().find(|it| it["id"] == id).unwrap()["minutes"].clone()
    };
    for id in PUZZLES {
        let (before, after) = (to(&before, id), to(&after, id));
        assert_eq!((&before["calibrated"], &before["solves"]), (&json!(false), &json!(0)));
        assert_eq!((&after["calibrated"], &after["solves"]), (&json!(true), &json!(6)));
        assert!(after["to"].as_u64() > before["to"].as_u64(), "{before} {after}");
    }
    for command in ["table", "grade", "explain", "order"] {
        let words = folder.run(&[command, "lamp-store", "--unseal"]).code(0).prints("calibrated on 6 solves");
        assert!(!words.stdout.contains("not yet calibrated"), "{}", words.stdout);
    }
    let graded = folder.run(&["grade", "lamp-store", "low-tide"]).code(0).stdout;
    let graded = graded.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(graded.contains("0 are by newcomers, 6 are by regulars"), "{graded}");
    folder.run(&["press", "lamp-store"]).code(0).prints("calibrated on 6 solves");
    let mut pages = vec!["out/report.html".to_owned(), "out/site/index.html".to_owned()];
    pages.extend(
        folder.files().into_iter().filter(|it| it.starts_with("out/site/") && it.contains("low-tide")),
    );
    for page in pages.iter().filter(|it| it.ends_with(".html")) {
        let text = folder.read(page);
        assert!(text.contains("calibrated on 6 solves") && !text.contains("not yet calibrated"), "{page}");
    }
    a_file_by_itself(&folder);
}

/// A puzzle file that is named by itself is given the calibration of the pack that it lies in, and that is said.
fn a_file_by_itself(folder: &Folder) {
    let corrected = "minutes are corrected by lamp-store/calibration.json";
    let grade = |file: &str| folder.run(&["grade", file]);
    let inside = "lamp-store/puzzles/low-tide.toml";
    grade(inside).code(0).says(corrected).prints("calibrated on 6 solves");
    folder.write("lamp-store/loose.toml", folder.read(inside));
    grade("lamp-store/loose.toml").code(0).says(corrected).prints("calibrated on 6 solves");
    // Two folders down is no place for a puzzle of the pack.
    for outside in ["low-tide.toml", "lamp-store/puzzles/old/low-tide.toml"] {
        folder.write(outside, folder.read(inside));
        let alone = grade(outside).code(0).prints("not yet calibrated");
        assert!(!alone.stderr.contains("corrected"), "{}", alone.stderr);
    }
    what_a_change_does_is_told_in_the_same_minutes(folder);
    folder.write("lamp-store/calibration.json", "{");
    let broken = grade(inside).code(1).says("lamp-store/calibration.json:1:");
    assert!(!broken.stderr.contains("corrected"), "{}", broken.stderr);
    let broken = folder.run(&["grade", inside, "--json"]).code(1).json();
    assert_eq!(broken["problems"][0]["file"], "lamp-store/calibration.json", "{broken}");
}

/// A variation of a puzzle of the pack is for whom the puzzle is, in the pack or, in a file that is none of it, alone.
fn what_a_change_does_is_told_in_the_same_minutes(folder: &Folder) {
    let median = |args: &[&str]| {
        let graded = folder.run(&[&["grade", "--json"], args].concat()).code(0).json();
        graded["solvers"][1]["median"].clone()
    };
    let in_pack = median(&["lamp-store", "low-tide"]);
    let alone = median(&["lamp-store/loose.toml"]);
    assert_ne!(in_pack, alone);
    for (file, expected, knows) in [
        ("lamp-store/puzzles/low-tide.toml", in_pack, "who knows what the pack teaches before it about"),
        ("lamp-store/loose.toml", alone, "It takes a regular about"),
    ] {
        let varied = folder.run(&["make", "--vary", file, "--json"]).code(0).json();
        assert_eq!((&varied["seconds"], &varied["solves"]), (&expected, &json!(6)), "{file}");
        folder.run(&["make", "--vary", file]).code(0).prints(knows).prints("(calibrated");
    }
    // A puzzle that the pack lacks is for its solvers too.
    let gap = ["make", "--gap", "lamp-store", "--seed", "2", "--tries", "60", "--spare-allowed"];
    folder.run(&gap).code(0).says("(calibrated on 6 solves)");
    let gap = folder.run(&[&gap[..], &["--json"]].concat()).code(0).json();
    assert_eq!(gap["gaps"][0]["made"]["puzzles"][0]["minutes"]["solves"], 6);
}

#[test]
fn solves_of_no_use_are_named_and_kept() {
    let folder = with_solves("solves_of_no_use", &[("Sorrel", 1.5, false), ("Tansy", 2.0, false)]);
    let sound = folder.read("lamp-store/solves/Sorrel-low-tide.json");
    let fingerprints = folder.run(&["calibrate", "lamp-store", "--json"]).code(0).json()["puzzles"].clone();
    let low_tide = fingerprints.as_array().unwrap().iter().find(|it| it["id"] == "low-tide").unwrap();
    let marked = |mark: &str| sound.replacen('{', &format!("{{\"fingerprint\":\"{mark}\","), 1);
    folder.write("lamp-store/solves/a-cut-off.json", &sound[..200]);
    folder.write("lamp-store/solves/b-later.json", "{\"format\": 2}");
    folder.write("lamp-store/solves/c-gone.json", sound.replace("\"low-tide\"", "\"high-tide\""));
    folder.write("lamp-store/solves/d-changed.json", marked("0123456789abcdef"));
    folder.write("lamp-store/solves/e-other.json", sound.replace("\"low-tide\"", "\"first-light\""));
    folder.write("lamp-store/solves/f-sound.json", marked(low_tide["fingerprint"].as_str().unwrap()));
    folder.write("lamp-store/solves/readme.txt", "not a solve");
    let solves = folder.all_in("lamp-store/solves");
    let found = folder.run(&["calibrate", "lamp-store", "--unseal"]).code(1).prints("7 solves of 3 puzzles");
    for said in [
        "lamp-store/solves/a-cut-off.json:1:",
        "a-cut-off.json:1:200: error[not-json]: the file ends within",
        "b-later.json: error[unknown-format]: format 2 is not known",
        "c-gone.json: warning[solve-unknown]: the pack has no puzzle `high-tide`",
        "d-changed.json: warning[solve-outdated]: `low-tide` has changed since it was solved",
        "e-other.json: warning[solve-outdated]: `first-light` has changed since it was solved",
        "2 errors and 3 warnings",
    ] {
        assert!(found.stderr.contains(said), "no {said:?} in:\n{}", found.stderr);
    }
    assert!(!found.stderr.contains("f-sound") && !found.stderr.contains("readme"), "{}", found.stderr);
    assert_eq!(folder.all_in("lamp-store/solves"), solves, "all are kept");
}

#[test]
fn sealed_puzzles_teach_nothing_yet_and_aloud_is_apart() {
    let folder = with_solves("sealed_teach_nothing", &[("Sorrel", 1.5, false), ("Tansy", 3.0, true)]);
    let found =
        folder.run(&["calibrate", "lamp-store"]).code(0).prints("Solves in silence: 2 solves of 2 puzzles");
    let said = "Sorrel-dark-stair.json: warning[solve-not-held]: `dark-stair` is sealed";
    assert!(found.stderr.contains(said), "{}", found.stderr);
    let found = folder.run(&["calibrate", "lamp-store", "--unseal", "--json"]).code(0).json();
    let counted = |manner: &str| found[manner]["solves"].as_u64();
    assert_eq!((counted("silent"), counted("aloud")), (Some(3), Some(3)));
}

#[test]
fn a_calibration_that_cannot_be_read_leaves_estimates() {
    let folder = Folder::with_pack("a_calibration_that_cannot_be_read");
    folder.write("lamp-store/calibration.json", "{ \"format\": 1,");
    let graded = folder.run(&["grade", "lamp-store", "low-tide"]).code(1).prints("not yet calibrated");
    let said = "lamp-store/calibration.json:1:14: error[not-json]: the file ends within";
    assert!(graded.stderr.contains(said), "{}", graded.stderr);
    let graded = folder.run(&["grade", "lamp-store", "low-tide", "--json"]).code(1).json();
    assert_eq!(
        (&graded["minutes"]["solves"], &graded["problems"][0]["code"]),
        (&json!(0), &json!("not-json"))
    );
}
