//! What `--json` prints: shapes, and that other programs can rely on them.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;

use crate::support::{BLANK, Folder};

#[test]
fn check_has_the_shape_that_is_promised() {
    let folder = Folder::with_pack("check_has_the_shape_that_is_promised");
    folder.write("lamp-store/puzzles/blank.toml", BLANK);
    folder.write("lamp-store/puzzles/hinge.toml", "format = 1\ntitle = \"Brass hinge\"\n");
    folder.replace("lamp-store/puzzles/low-tide.toml", "11  5  3", "11 13  3");
    folder.replace("lamp-store/pack.toml", "editor", "editr");
    let document = folder.run(&["check", "lamp-store", "--json"]).code(1).json();
    let puzzles = document["puzzles"].as_array().unwrap();
    let verdicts: Vec<(&str, &str)> =
        puzzles.iter().map(|it| (it["id"].as_str().unwrap(), it["verdict"].as_str().unwrap())).collect();
    let expected = [
        ("blank", "many"),
        ("dark-stair", "one"),
        ("first-light", "one"),
        ("hinge", "unreadable"),
        ("low-tide", "none"),
    ];
    assert_eq!(verdicts, expected);
    let solution = |at: usize| puzzles[at]["solution"].as_str().map(str::len);
    assert_eq!([0, 1, 2, 3, 4].map(solution), [None, None, Some(81), None, None]);
    let codes = |of: &Value| -> Vec<String> {
        of.as_array().unwrap().iter().map(|it| it["code"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(codes(&puzzles[0]["problems"]), ["several-solutions"]);
    assert_eq!(codes(&puzzles[3]["problems"]), ["missing-key", "missing-key"]);
    assert_eq!(codes(&puzzles[4]["problems"]), ["no-solution"]);
    assert_eq!(codes(&document["problems"]), ["unknown-key"], "those of the pack itself");
    assert_eq!(document["problems"][0]["file"], "pack.toml");
    assert_eq!(document["problems"][0]["line"], 8);
}

/// The digits that the conclusions of a walkthrough place, with those printed in the file.
fn filled(document: &Value, givens: &str) -> Vec<u8> {
    let mut cells: Vec<u8> = givens.bytes().collect();
    assert_eq!(cells.len(), 81);
    for conclusion in
        document["steps"].as_array().unwrap().iter().flat_map(|it| it["concludes"].as_array().unwrap())
    {
        let Some(digit) = conclusion["is"].as_u64() else { continue };
        let (row, column) = conclusion["cell"].as_str().unwrap()[1..].split_once('c').unwrap();
        let at = 9 * (row.parse::<usize>().unwrap() - 1) + column.parse::<usize>().unwrap() - 1;
        assert_eq!(cells[at], b'.', "{conclusion} is placed twice");
        cells[at] = b'0' + u8::try_from(digit).unwrap();
    }
    cells
}

/// The 81 characters of a puzzle file's grid.
fn givens(file: &str) -> String {
    let grid = file.split("\"\"\"").nth(1).unwrap();
    grid.chars().filter(|it| it.is_ascii_digit() || *it == '.').collect()
}

#[test]
fn the_digits_of_a_walkthrough_fill_the_grid() {
    let folder = Folder::with_pack("the_digits_of_a_walkthrough_fill_the_grid");
    for id in ["first-light", "low-tide", "dark-stair"] {
        let explained = folder.run(&["explain", "lamp-store", id, "--json", "--unseal"]).code(0).json();
        assert_eq!(explained["complete"], true);
        let text = folder.read(&format!("lamp-store/puzzles/{id}.toml"));
        let cells = filled(&explained, &givens(&text));
        // Checked by hand, so to say: no code of Galley's, only what the rules say.
        let at = |row: usize, column: usize| cells[9 * row + column] - b'0';
        let houses = (0..9).flat_map(|n| {
            let (top, left) = (n / 3 * 3, n % 3 * 3);
            [
                (0..9).map(|it| at(n, it)).collect::<Vec<u8>>(),
                (0..9).map(|it| at(it, n)).collect(),
                (0..9).map(|it| at(top + it / 3, left + it % 3)).collect(),
            ]
        });
        for house in houses {
            assert_eq!(house.iter().copied().collect::<BTreeSet<u8>>(), (1..=9).collect(), "{id}: {house:?}");
        }
        for (key, is_row) in [("rows", true), ("columns", false)] {
            let Some(clues) = text.lines().find(|it| it.starts_with(key)) else { continue };
            for (n, clue) in clues.split('"').nth(1).unwrap().split_whitespace().enumerate() {
                let line: Vec<u8> = (0..9).map(|it| if is_row { at(n, it) } else { at(it, n) }).collect();
                let crusts: Vec<usize> = (0..9).filter(|it| [1, 9].contains(&line[*it])).collect();
                let sum: u32 = line[crusts[0] + 1..crusts[1]].iter().map(|it| u32::from(*it)).sum();
                assert!(
                    clue == "." || clue == sum.to_string(),
                    "{id}: {key} {n} adds up to {sum}, not {clue}"
                );
            }
        }
    }
}

#[test]
fn steps_cite_earlier_steps_and_conclude_something() {
    let folder = Folder::with_pack("steps_cite_earlier_steps_and_conclude_something");
    let explained = folder.run(&["explain", "lamp-store/puzzles/low-tide.toml", "--json"]).code(0).json();
    let steps = explained["steps"].as_array().unwrap();
    let mut shapes: BTreeMap<Vec<&str>, usize> = BTreeMap::new();
    for (at, step) in steps.iter().enumerate() {
        assert_eq!(step["number"], at + 1);
        assert!(
            step["cites"]
                .as_array()
                .unwrap()
                .iter()
                .all(|it| (1..=at as u64).contains(&it.as_u64().unwrap()))
        );
        assert!(step["says"].as_str().is_some_and(|it| it.ends_with('.')));
        let concludes = step["concludes"].as_array().unwrap();
        assert!(!concludes.is_empty());
        for it in concludes {
            let keys = it.as_object().unwrap().keys().map(String::as_str).collect();
            *shapes.entry(keys).or_default() += 1;
        }
    }
    let shapes: Vec<Vec<&str>> = shapes.into_keys().collect();
    assert_eq!(shapes, [vec!["cell", "is"], vec!["cell", "kind"], vec!["cell", "not"], vec!["says"]]);
    let passages =
        explained["passages"].as_array().unwrap().iter().flat_map(|it| it["steps"].as_array().unwrap());
    let numbers: Vec<u64> = passages.map(|it| it.as_u64().unwrap()).collect();
    assert_eq!(numbers, (1..=steps.len() as u64).collect::<Vec<_>>(), "the passages hold each step once");
}

#[test]
fn explain_names_every_puzzle_of_a_pack() {
    let folder = Folder::with_pack("explain_names_every_puzzle_of_a_pack");
    folder.write("lamp-store/puzzles/hinge.toml", "format = 1\n");
    let document = folder.run(&["explain", "lamp-store", "--json"]).code(1).json();
    let ids: BTreeSet<&str> =
        document["puzzles"].as_array().unwrap().iter().map(|it| it["id"].as_str().unwrap()).collect();
    assert_eq!(ids, BTreeSet::from(["dark-stair", "first-light", "hinge", "low-tide"]));
    let one = folder.run(&["explain", "lamp-store", "hinge", "--json"]).code(1).json();
    assert_eq!((&one["id"], &one["complete"]), (&"hinge".into(), &false.into()));
}

#[test]
fn order_and_table_say_the_same() {
    let folder = Folder::with_pack("order_and_table_say_the_same");
    let order = folder.run(&["order", "lamp-store", "--json", "--unseal"]).code(0).json();
    let table = folder.run(&["table", "lamp-store", "--json", "--unseal"]).code(0).json();
    let ids = |it: &Value| -> Vec<Value> {
        it["puzzles"].as_array().unwrap().iter().map(|it| it["id"].clone()).collect()
    };
    assert_eq!(ids(&order), ids(&table));
    assert_eq!(Value::Array(ids(&order)), order["proposed"]["puzzles"]);
    assert_eq!((&order["by"], &order["cost"]), (&"galley".into(), &order["proposed"]["cost"]));
    for (place, row) in order["puzzles"].as_array().unwrap().iter().zip(table["puzzles"].as_array().unwrap())
    {
        assert_eq!((&place["new"], &place["practised"]), (&row["new"], &row["practised"]));
    }
    // What is new in one puzzle is new in no other, and is all that the pack covers.
    let new = order["puzzles"].as_array().unwrap().iter().flat_map(|it| it["new"].as_array().unwrap());
    let new: Vec<&str> = new.map(|it| it.as_str().unwrap()).collect();
    let covered = table["coverage"].as_array().unwrap().iter().map(|it| it["technique"].as_str().unwrap());
    let covered: BTreeSet<&str> = covered.collect();
    assert_eq!(new.len(), covered.len());
    assert_eq!(new.into_iter().collect::<BTreeSet<_>>(), covered);
}

#[test]
fn make_new_and_press_have_documents() {
    let folder = Folder::with_pack("make_new_and_press_have_documents");
    let made = folder.run(&["make", "--seed", "11", "--classic", "--json", "--out", "tin-cup.toml"]).code(0);
    assert_eq!(made.stderr, "");
    let made = &made.json()["puzzles"][0];
    assert_eq!(made["text"].as_str().unwrap(), folder.read("tin-cup.toml"));
    assert_eq!((&made["written"], &made["clues"]), (&"tin-cup.toml".into(), &0.into()));
    let new = folder.run(&["new", "wicks", "--json"]).code(0).json();
    assert_eq!(new["written"], serde_json::json!(["wicks/pack.toml", "wicks/puzzle-template.toml"]));
    let press = folder.run(&["press", "lamp-store", "--json"]).code(0);
    assert_eq!(press.stderr, "");
    let press = press.json();
    let written: Vec<String> = serde_json::from_value(press["written"].clone()).unwrap();
    let in_folder: Vec<String> =
        folder.files().into_iter().filter(|it| it.starts_with("out/") && it != "out/.galley").collect();
    assert_eq!(written, in_folder);
    assert_eq!(press["left_out"], serde_json::json!([{ "id": "dark-stair", "why": "sealed" }]));
    assert_eq!(press["altered"], serde_json::json!([]));
    let table = folder.run(&["table", "lamp-store", "--json"]).code(0).json();
    assert_eq!(press["puzzles"], table["puzzles"]);
}

/// The keys of a document, at any depth.
fn keys(document: &Value, found: &mut BTreeSet<String>) {
    match document {
        Value::Object(map) => map.iter().for_each(|(key, it)| {
            found.insert(key.clone());
            keys(it, found);
        }),
        Value::Array(items) => items.iter().for_each(|it| keys(it, found)),
        _ => {}
    }
}

#[test]
fn every_key_is_described() {
    let folder = Folder::with_pack("every_key_is_described");
    folder.write("lamp-store/puzzles/blank.toml", BLANK);
    folder.write("lamp-store/puzzles/hinge.toml", "format = 1\n");
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/json.md");
    let described = std::fs::read_to_string(&path).unwrap();
    let sections: BTreeMap<&str, &str> = described
        .split("\n## ")
        .skip(1)
        .map(|it| (it.lines().next().unwrap().trim_matches('`'), it))
        .collect();
    let calls: [(&str, &[&str]); 13] = [
        ("check", &["check", "lamp-store"]),
        ("explain", &["explain", "lamp-store"]),
        ("teaches", &["teaches", "lamp-store"]),
        ("order", &["order", "lamp-store"]),
        ("table", &["table", "lamp-store"]),
        ("season", &["season", "lamp-store"]),
        ("press", &["press", "lamp-store"]),
        ("plan", &["plan", "lamp-store", "--divide", "2:00"]),
        ("make", &["make", "--seed", "11", "--teaches", "crusts-found"]),
        ("make", &["make", "--vary", "lamp-store/puzzles/low-tide.toml"]),
        ("make", &["make", "--drill", "crust-reach", "--seed", "7"]),
        ("new", &["new", "wicks"]),
        ("Failures", &["check", "nowhere"]),
    ];
    let common = sections["Problems"].to_owned() + sections["Minutes"];
    for (section, args) in calls {
        let mut found = BTreeSet::new();
        keys(&folder.run(&[args, &["--json"]].concat()).json(), &mut found);
        assert!(found.len() > 2);
        for key in found {
            let text = sections.get(section).unwrap_or_else(|| panic!("no section on {section}"));
            // `press` prints what `table` prints and more.
            let text = format!("{text}{common}{}", if section == "press" { sections["table"] } else { "" });
            assert!(
                text.contains(&format!("`{key}`")) || text.contains(&format!("\"{key}\"")),
                "{section}: {key}"
            );
        }
    }
}
