//! `galley make`: puzzles set to a brief.

use std::collections::BTreeSet;

use serde_json::Value;

use crate::support::Folder;

#[test]
fn make_prints_a_file_that_can_be_checked() {
    let folder = Folder::new("make_prints_a_file_that_can_be_checked");
    let brief = [
        "make",
        "--seed",
        "11",
        "--classic",
        "--look",
        "symmetric",
        "--title",
        "Tin \"cup\"",
        "--setter",
        "Ivy",
    ];
    let made = folder.run(&brief).code(0).says(" givens, 0 clues, ").prints("title = ");
    assert_eq!(folder.run(&brief).stdout, made.stdout, "one seed, one puzzle");
    assert_ne!(folder.run(&["make", "--seed", "12", "--classic"]).stdout, made.stdout);
    folder.write("tin-cup.toml", &made.stdout);
    folder.run(&["check", "tin-cup.toml"]).code(0).prints("exactly one solution");
    folder.run(&["table", "tin-cup.toml"]).code(0).prints("Tin \"cup\"").prints("Ivy");
}

#[test]
fn make_never_overwrites() {
    let folder = Folder::new("make_never_overwrites");
    let brief = ["make", "--seed", "11", "--classic", "--out", "tin-cup.toml"];
    folder.run(&brief).code(0).says("wrote tin-cup.toml");
    folder.write("tin-cup.toml", "mine");
    folder.run(&brief).code(2).says("`tin-cup.toml` is already there").says("help: name another file");
    assert_eq!(folder.read("tin-cup.toml"), "mine");
    // A folder that is there is written into; a file in it that would be written again is not.
    let several = ["make", "--seed", "11", "--classic", "--count", "2", "--out", "tins"];
    folder.write("tins/made-11-2.toml", "mine");
    folder.run(&several).code(2).says("made-11-2.toml` is already there");
    assert_eq!(folder.files(), ["tin-cup.toml", "tins/made-11-2.toml"]);
    folder.run(&[&several[..6], &["--out", "tin-cup.toml/tins"]].concat()).code(2);
}

#[test]
fn a_made_puzzle_turns_on_what_it_teaches() {
    let folder = Folder::new("a_made_puzzle_turns_on_what_it_teaches");
    let brief = ["make", "--seed", "3", "--teaches", "crust-reach", "--clues", "all", "--givens", "..10"];
    let made = folder.run(&[&brief[..], &["--out", "reach.toml"]].concat()).code(0);
    let made = made.says(", 18 clues, ").says(" is the first that takes reach of the crusts:");
    assert!(made.stderr.contains('*') && made.stderr.contains("---+---"), "no board: {}", made.stderr);
    assert!(folder.read("reach.toml").contains("intends = [\"crust-reach\"]"));

    let document = folder.run(&[&brief[..], &["--json"]].concat()).code(0).json();
    let puzzle = &document["puzzles"][0];
    let used: Vec<&str> =
        puzzle["techniques"].as_array().unwrap().iter().map(|it| it.as_str().unwrap()).collect();
    let beyond = &puzzle["beyond_unique"];
    let n_beyond = beyond["givens"].as_u64().unwrap() + beyond["clues"].as_u64().unwrap();
    let says_so = made.stderr.contains("for the walkthrough or the look");
    assert_eq!(says_so, n_beyond > 0, "{}", made.stderr);
    assert_eq!(beyond["givens"], 0, "the look asks for clues, not for givens");
    let moment = &puzzle["moments"][0];
    assert_eq!(moment["technique"], "crust-reach");

    // Whoever knows those finishes it in the same steps; whoever lacks the one does not.
    let explain =
        |knows: &str| folder.run(&["explain", "reach.toml", "--json", "--knows", knows]).code(0).json();
    let told = explain(&used.join(","));
    assert_eq!(told["knowing"]["enough"], true);
    let step = &told["steps"][moment["step"].as_u64().unwrap() as usize - 1];
    assert_eq!((&step["technique"], &step["says"]), (&moment["technique"], &moment["says"]));
    let others: Vec<&str> = used.iter().copied().filter(|it| *it != "crust-reach").collect();
    assert_eq!(explain(&others.join(","))["knowing"]["enough"], false);
}

#[test]
fn several_puzzles_differ_from_each_other_and_from_a_pack() {
    let folder = Folder::new("several_puzzles_differ_from_each_other_and_from_a_pack");
    let brief = ["make", "--seed", "5", "--size", "6x6", "--teaches", "crust-distance", "--count", "3"];
    let first = folder.run(&[&brief[..], &["--out", "first", "--title", "Wick"]].concat()).code(0);
    first.says("wrote first/crust-distance-5-1.toml: ").says("wrote first/crust-distance-5-3.toml: ");
    let names = ["crust-distance-5-1.toml", "crust-distance-5-2.toml", "crust-distance-5-3.toml"];
    assert_eq!(folder.all_in("first").keys().collect::<Vec<_>>(), names);
    assert!(folder.read("first/crust-distance-5-2.toml").contains("title = \"Wick, 2\""));
    let printed = folder.run(&brief).code(0).prints("# crust-distance-5-1.toml\nformat = 1");
    assert_eq!(printed.stdout.matches("format = 1").count(), 3);

    let paths: Vec<String> = names.iter().map(|it| format!("first/{it}")).collect();
    let avoid: Vec<&str> = paths.iter().flat_map(|it| ["--avoid", it.as_str()]).collect();
    folder.run(&[&brief[..], &avoid[..], &["--out", "second"]].concat()).code(0).says("3 same as another");
    let second: Vec<String> = names.iter().map(|it| format!("second/{it}")).collect();
    let all: Vec<&str> = paths.iter().chain(&second).map(String::as_str).collect();
    folder.run(&[&["twins"], &all[..]].concat()).code(0).prints("no twins among 6 puzzles");
}

#[test]
fn tries_are_accounted_for() {
    let folder = Folder::new("tries_are_accounted_for");
    let args =
        ["make", "--seed", "1", "--teaches", "crusts-found", "--count", "2", "--spare-allowed", "--json"];
    let document = folder.run(&args).code(0).json();
    let missed = document["missed"].as_array().unwrap();
    let n_missed: u64 = missed.iter().map(|it| it["tries"].as_u64().unwrap()).sum();
    assert_eq!(document["tries"].as_u64().unwrap(), n_missed + 2);
    assert_eq!((&document["wanted"], &document["found"]), (&2.into(), &2.into()));
    let texts: BTreeSet<&str> =
        document["puzzles"].as_array().unwrap().iter().map(|it| it["text"].as_str().unwrap()).collect();
    assert_eq!(texts.len(), 2);
    assert!(document["puzzles"].as_array().unwrap().iter().all(|it| it["written"] == Value::Null));
    // What may stay for those who know so little is counted.
    let beyond = |it: &Value| it["beyond_unique"]["givens"].as_u64().unwrap();
    assert!(document["puzzles"].as_array().unwrap().iter().any(|it| beyond(it) > 0));
}

#[test]
fn a_puzzle_is_varied_by_one_given_or_clue() {
    let folder = Folder::with_pack("a_puzzle_is_varied_by_one_given_or_clue");
    let vary = ["make", "--vary", "lamp-store/puzzles/low-tide.toml"];
    folder.run(&vary).code(0).prints("Easier, the least changed first:").prints("| with ");
    let document = folder.run(&[&vary[..], &["--json"]].concat()).code(0).json();
    let own = document["seconds"].as_u64().unwrap();
    let easier = document["easier"].as_array().unwrap();
    assert!(easier.len() > 8 && easier.iter().all(|it| it["seconds"].as_u64().unwrap() < own));
    folder.write("easier.toml", easier[0]["text"].as_str().unwrap());
    folder.run(&["check", "easier.toml"]).code(0).prints("exactly one solution");
    let few = [&vary[..], &["--knows", "last-empty-cell"]].concat();
    folder.run(&few).code(2).says("what is known is not enough");
    folder.run(&["make", "--vary", "lamp-store"]).code(2).says("is a pack");
    folder.run(&["make", "--vary", "lamp-store/puzzles/dark-stair.toml"]).code(1).says("sealed");
    folder.run(&[&vary[..], &["--seed", "1"]].concat()).code(2).says("cannot be used with");
}

#[test]
fn drills_come_with_a_key() {
    let folder = Folder::new("drills_come_with_a_key");
    let args = ["make", "--drill", "crust-reach", "--seed", "7"];
    let drills = folder.run(&args).code(0).prints("Reach of the crusts").prints("\n1. ").prints("\nKey\n");
    assert_eq!(drills.stdout.matches('?').count(), 3);
    assert!(!drills.stdout.contains("step"), "{}", drills.stdout);
    assert_eq!(folder.run(&args).stdout, drills.stdout);
    let document = folder.run(&[&args[..], &["--json", "--count", "5"]].concat()).code(0).json();
    let drills = document["drills"].as_array().unwrap();
    assert_eq!((drills.len(), &document["technique"]), (5, &"crust-reach".into()));
    for it in drills {
        assert_eq!(it["cells"].as_array().unwrap().len(), 9);
        assert!(!it["answer"].as_array().unwrap().is_empty() && it["houses"][0]["clue"].is_u64());
    }
    // A small board has no four lines that leave four.
    let small = ["make", "--drill", "jellyfish", "--size", "6x6", "--seed", "7", "--tries", "16"];
    let none = folder.run(&small).code(1);
    none.says("no drill for `jellyfish` found in 16 puzzles").says("--tries");
    let none = folder.run(&[&small[..], &["--json"]].concat()).code(1).json();
    assert_eq!((&none["wanted"], &none["drills"]), (&3.into(), &Value::Array(vec![])));
    // What spans houses is shown house by house, each with its name.
    let several = folder.run(&["make", "--drill", "crust-held", "--seed", "7"]).code(0);
    let several = several.prints("\n   box ").prints(" | ");
    let wide = folder.run(&["make", "--drill", "crusts-in-turn", "--seed", "3"]).code(0);
    for output in [several.stdout, wide.stdout] {
        assert!(output.lines().all(|it| it.chars().count() <= 100), "{output}");
    }
    folder.run(&["make", "--drill", "crust-reech", "--seed", "7"]).code(2).says("'crust-reach'");
}

#[test]
fn a_gap_of_a_pack_is_filled() {
    let folder = Folder::with_pack("a_gap_of_a_pack_is_filled");
    let table = folder.run(&["table", "lamp-store", "--json"]).code(0).json();
    let covered = table["coverage"].as_array().unwrap().iter();
    let covered: BTreeSet<&str> = covered.map(|it| it["technique"].as_str().unwrap()).collect();
    let args =
        ["make", "--gap", "lamp-store", "--seed", "2", "--count", "2", "--tries", "60", "--spare-allowed"];
    let document = folder.run(&[&args[..], &["--json"]].concat()).json();
    let gaps = document["gaps"].as_array().unwrap();
    assert_eq!(gaps.len(), 2);
    let mut n_made = 0;
    let coverage = table["coverage"].as_array().unwrap();
    for gap in gaps {
        let lacking = gap["technique"].as_str().unwrap();
        let row = coverage.iter().find(|it| it["technique"] == lacking);
        let n_uses = row.map_or(0, |it| it["puzzles"].as_array().unwrap().len());
        match gap["lacks"].as_str().unwrap() {
            "teaching" => assert_eq!(n_uses, 0, "{lacking}"),
            "practice" => assert_eq!(n_uses, 1, "{lacking}"),
            other => panic!("{other}"),
        }
        for puzzle in gap["made"]["puzzles"].as_array().unwrap() {
            n_made += 1;
            let uses: Vec<&str> =
                puzzle["techniques"].as_array().unwrap().iter().map(|it| it.as_str().unwrap()).collect();
            assert!(uses.contains(&lacking));
            assert!(uses.iter().all(|it| *it == lacking || covered.contains(it)), "{uses:?}");
        }
    }
    assert!(n_made > 0);
    folder.run(&[&args[..], &["--out", "new.toml"]].concat()).code(2).says("is one file");
    let ran = folder.run(&[&args[..], &["--out", "new"]].concat());
    assert_eq!(folder.all_in("new").len(), n_made, "{ran:?}");
}
