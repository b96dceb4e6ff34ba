//! `galley mend`, `settle`, `spare` and `twins`: what would make a puzzle sound, or smaller, and whether it is
//! new.

use serde_json::{Value, json};
use snapbox::str;

use crate::support::{BLANK, Folder};

const LOW_TIDE: &str = "lamp-store/puzzles/low-tide.toml";
const FIRST_LIGHT: &str = "lamp-store/puzzles/first-light.toml";

/// The lamp store with a wrong sum beside column 2 of "Low tide" and a given missing in "First light".
fn unsound(test: &str) -> Folder {
    let folder = Folder::with_pack(test);
    folder.replace(LOW_TIDE, "11  5  3", "11 13  3");
    folder.replace(FIRST_LIGHT, ". 6 7 |", ". 6 . |");
    folder
}

/// Writes a value into a puzzle's file as a person would: `place` and `index` as documents have them.
fn write(folder: &Folder, file: &str, place: &str, index: &Value, value: Option<u64>) {
    let text = folder.read(file);
    let value = value.map_or(".".to_owned(), |it| it.to_string());
    let changed = match place {
        "given" => {
            let (row, column) = index.as_str().unwrap()[1..].split_once('c').unwrap();
            let (row, column) = (row.parse::<usize>().unwrap(), column.parse::<usize>().unwrap());
            let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
            let grid = lines.iter().position(|it| it.starts_with("grid")).unwrap();
            let at = (grid + 1..lines.len()).filter(|it| !lines[*it].starts_with('-')).nth(row - 1).unwrap();
            let line = &mut lines[at];
            let mut cells: Vec<&str> = line.split_whitespace().filter(|it| *it != "|").collect();
            cells[column - 1] = &value;
            *line = cells.join(" ");
            lines.join("\n")
        }
        _ => {
            let key = format!("{place}s");
            let line = text.lines().find(|it| it.starts_with(&key)).unwrap_or_else(|| panic!("{text}"));
            let mut clues: Vec<&str> = line.split('"').nth(1).unwrap().split_whitespace().collect();
            clues[index.as_u64().unwrap() as usize - 1] = &value;
            text.replace(line, &format!("{key} = \"{}\"", clues.join(" ")))
        }
    };
    folder.write(file, changed);
}

#[test]
fn mend_says_what_contradicts_itself_and_what_would_mend_it() {
    let folder = unsound("mend_says_what_contradicts_itself_and_what_would_mend_it");
    folder.command().args(["mend", "lamp-store", "low-tide"]).assert().code(1).stdout_eq(str![[r#"
Low tide, by Juniper
A part of the page contradicts itself. Givens: 1 in r3c1 and 9 in r9c2. Clues: 11 beside column 1,
13 beside column 2 and 3 beside column 3. Each digit once in: boxes 4 and 7. Without any one of
these, the others can hold together. No fewer things on this page contradict each other.

765 changes of one thing printed were tried: two leave exactly one solution.

+---------------------------------+-----------+----------------------+
| change                          | solutions | if so, what happened |
+====================================================================+
| column 2: 5 instead of 13       | 1         |                      |
| column 2: no clue instead of 13 | 1         |                      |
+---------------------------------+-----------+----------------------+

"#]]);
    let pack = folder.run(&["mend", "lamp-store"]).code(1).says("error[no-solution]");
    let nothing = "There is nothing to mend: ";
    pack.prints(&format!("Dark stair, by Fern\n{nothing}exactly one solution.\n"))
        .prints(&format!("First light, by Fern\n{nothing}more than one solution.\n"))
        .prints("Low tide, by Juniper\nA part of the page");
}

/// A 4x4 puzzle without a solution; some changes leave one, some several.
const SMALL: &str = "\
format = 1
title = \"Small\"
setter = \"Fern\"
size = \"4x4\"
grid = \"\"\"
. . . .
. . 1 2
. 1 . .
. . 2 .
\"\"\"

[sandwich]
rows    = \"3 . . .\"
columns = \"0 . . 5\"
";

#[test]
fn every_mend_of_the_document_does_what_it_says() {
    let folder = Folder::new("every_mend_of_the_document_does_what_it_says");
    folder.write("small.toml", SMALL);
    let document = folder.run(&["mend", "small.toml", "--json"]).code(1).json();
    assert_eq!((&document["verdict"], &document["id"]), (&json!("none"), &json!("small")));
    // Five other sums and a blank for each of three clues; three other digits and a blank for each of four givens.
    let sums = [0, 2, 3, 5];
    assert_eq!(document["changes"], 3 * sums.len() + 4 * 4);
    let mends = document["mends"].as_array().unwrap();
    let counts: Vec<u64> = mends.iter().map(|it| it["solutions"].as_u64().unwrap()).collect();
    assert_eq!(counts, [1, 1, 2, 2], "those with one solution come first");
    assert_eq!(mends[2]["slips"], json!(["one-off"]));

    // Every change is tried here once more, one by one, as an editor would.
    let mut found = Vec::new();
    let clues = [("row", json!(1), 3), ("column", json!(1), 0), ("column", json!(4), 5)];
    let givens = [("r2c3", 1), ("r2c4", 2), ("r3c2", 1), ("r4c3", 2)];
    let clues = clues.map(|(place, index, from)| (place, index, from, sums.map(Some).to_vec()));
    let givens = givens.map(|(cell, from)| ("given", json!(cell), from, [1, 2, 3, 4].map(Some).to_vec()));
    for (place, index, from, values) in clues.into_iter().chain(givens) {
        for to in values.into_iter().filter(|it| *it != Some(from)).chain([None]) {
            folder.write("small.toml", SMALL);
            write(&folder, "small.toml", place, &index, to);
            let checked = folder.run(&["check", "small.toml", "--json"]).json();
            let verdict = checked["puzzles"][0]["verdict"].as_str().unwrap();
            // A digit that stands twice in a house is no puzzle at all.
            if !["none", "unreadable"].contains(&verdict) {
                found.push((place, index.clone(), from, to, verdict == "one"));
            }
        }
    }
    assert_eq!(found.len(), mends.len(), "{found:?}");
    for (place, index, from, to, is_one) in found {
        let is_it = |it: &&Value| it["place"] == place && it["index"] == index && it["to"] == json!(to);
        let told = mends.iter().find(is_it).unwrap_or_else(|| panic!("{place} {index} to {to:?}"));
        assert_eq!(
            (&told["from"], told["solutions"] == 1, &told["or_more"]),
            (&json!(from), is_one, &json!(false))
        );
    }
}

#[test]
fn the_conflict_of_the_document_is_one() {
    let folder = unsound("the_conflict_of_the_document_is_one");
    let document = folder.run(&["mend", LOW_TIDE, "--json"]).code(1).json();
    let conflict = &document["conflict"];
    assert_eq!(conflict["smallest"], true);
    assert!(conflict["says"].as_str().unwrap().contains("13 beside column 2"));
    // With these alone printed there is still no solution; without any one of them there is.
    let printed = conflict["printed"].as_array().unwrap();
    let with = |kept: &[&Value]| {
        folder.write(
            "part.toml",
            format!("{BLANK}\n[sandwich]\nrows = \". . . . . . . . .\"\ncolumns = \". . . . . . . . .\"\n"),
        );
        for it in kept {
            write(&folder, "part.toml", it["place"].as_str().unwrap(), &it["index"], it["value"].as_u64());
        }
        folder.run(&["check", "part.toml", "--json"]).json()["puzzles"][0]["verdict"].clone()
    };
    let all: Vec<&Value> = printed.iter().collect();
    assert_eq!(with(&all), "none");
    for at in 0..all.len() {
        let others: Vec<&Value> = [&all[..at], &all[at + 1..]].concat();
        assert_eq!(with(&others), "many", "without {}", all[at]);
    }
}

#[test]
fn settle_shows_two_solutions_and_what_to_add() {
    let folder = unsound("settle_shows_two_solutions_and_what_to_add");
    folder.command().args(["settle", "lamp-store", "first-light"]).assert().code(1).stdout_eq(str![[r#"
First light, by Fern
Two of its solutions; * marks where they differ.

1*6 7*| 2 9 4 | 8 3 5     7*6 1*| 2 9 4 | 8 3 5
8 4 3 | 1 7 5 | 2 9 6     8 4 3 | 1 7 5 | 2 9 6
9 2 5 | 3 8 6 | 1 7 4     9 2 5 | 3 8 6 | 1 7 4
------+-------+------     ------+-------+------
6 9 2 | 8 5 3 | 7 4 1     6 9 2 | 8 5 3 | 7 4 1
4 3 8 | 7 1 2 | 5 6 9     4 3 8 | 7 1 2 | 5 6 9
7*5 1*| 4 6 9 | 3 8 2     1*5 7*| 4 6 9 | 3 8 2
------+-------+------     ------+-------+------
5 1 4 | 9 3 8 | 6 2 7     5 1 4 | 9 3 8 | 6 2 7
3 7 9 | 6 2 1 | 4 5 8     3 7 9 | 6 2 1 | 4 5 8
2 8 6 | 5 4 7 | 9 1 3     2 8 6 | 5 4 7 | 9 1 3

They differ in 4 cells: r1c1 (1 or 7), r1c3 (7 or 1), r6c1 (7 or 1) and r6c3 (1 or 7).
Eight givens leave one solution, each by itself: 1 in r1c1, 7 in r1c1, 1 in r1c3, 7 in r1c3, 1 in
r6c1, 7 in r6c1, 1 in r6c3 and 7 in r6c3.
So that the first is left. The fewest givens to add: 1 in r1c1.
So that the second is left. The fewest givens to add: 7 in r1c1.

"#]]);
    folder
        .run(&["settle", "lamp-store", "low-tide"])
        .code(1)
        .prints("There is nothing to settle: no solution.\n");
}

#[test]
fn what_settles_a_puzzle_settles_it() {
    let folder = Folder::with_pack("what_settles_a_puzzle_settles_it");
    let file = "lamp-store/puzzles/dark-stair.toml";
    folder.replace(file, "sealed = true\n", "");
    let solution = folder.run(&["check", file, "--json"]).json()["puzzles"][0]["solution"].clone();
    let solution = solution.as_str().unwrap();
    folder.replace(file, " 2 14  0 24 33", " 2  .  0  . 33");
    let printed = folder.read(file);
    let document = folder.run(&["settle", file, "--solution", solution, "--json"]).code(1).json();
    assert_eq!(document["verdict"], "many");
    assert_eq!(document["solutions"].as_array().unwrap().len(), 2);
    let [towards] = &document["towards"].as_array().unwrap()[..] else { panic!("{document}") };
    assert_eq!(towards["solution"], solution);
    for kind in ["givens", "clues"] {
        folder.write(file, &printed);
        let settling = &towards[kind];
        let added = settling["add"].as_array().unwrap();
        assert!(!added.is_empty() && settling["at_least"].as_u64().unwrap() <= added.len() as u64);
        for it in added {
            write(&folder, file, it["place"].as_str().unwrap(), &it["index"], it["value"].as_u64());
        }
        let checked = folder.run(&["check", file, "--json"]).json();
        assert_eq!(checked["puzzles"][0]["solution"], solution, "{kind}: {checked}");
    }
    let single = document["single"].as_array().unwrap();
    assert!(!single.is_empty());
    for it in single.iter().take(3) {
        folder.write(file, &printed);
        write(&folder, file, "given", &it["index"], it["value"].as_u64());
        folder.run(&["settle", file]).code(0).prints("There is nothing to settle: exactly one solution.");
    }
}

#[test]
fn solutions_that_are_none_are_refused() {
    let folder = unsound("solutions_that_are_none_are_refused");
    let settle = |args: &[&str]| folder.run(&[&["settle"], args].concat()).code(2).says("  help: ");
    settle(&["lamp-store", "--solution", "1"]).says("--solution is about one puzzle");
    settle(&[FIRST_LIGHT, "--solution", "1"])
        .says("the board after --solution has 1 characters, but 81 cells");
    let empty = ".".repeat(81);
    settle(&[FIRST_LIGHT, "--solution", &empty]).says("has nothing in r1c1");
    let wrong = "123456789".repeat(9);
    settle(&[FIRST_LIGHT, "--solution", &wrong]).says("does not solve the puzzle");
}

#[test]
fn spare_says_what_can_go() {
    let folder = Folder::with_pack("spare_says_what_can_go");
    let words = folder.run(&["spare", "lamp-store", "low-tide"]).code(0);
    let words =
        words.prints("Low tide, by Juniper\nAny one of these could go").prints("Needed, each by itself: ");
    let words = words.prints("These can go together, and then nothing more can: ");

    let document = folder.run(&["spare", LOW_TIDE, "--json"]).code(0).json();
    let printed = folder.read(LOW_TIDE);
    let verdict_without = |it: &Value| {
        folder.write(LOW_TIDE, &printed);
        write(&folder, LOW_TIDE, it["place"].as_str().unwrap(), &it["index"], None);
        folder.run(&["check", LOW_TIDE, "--json"]).json()["puzzles"][0]["verdict"].clone()
    };
    let list = |key: &str| document[key].as_array().unwrap().clone();
    let (spare, needed) = (list("spare"), list("needed"));
    assert!(!spare.is_empty() && !needed.is_empty() && list("undecided").is_empty());
    assert!(spare.iter().all(|it| verdict_without(it) == "one"));
    assert!(needed.iter().take(6).all(|it| verdict_without(it) == "many"));

    // The form with nothing to spare is a puzzle file, and nothing can be spared of it.
    let least = document["irreducible"]["text"].as_str().unwrap();
    assert!(words.stdout.ends_with(&least[least.find("grid").unwrap()..]), "{}", words.stdout);
    folder.write("least.toml", least);
    folder.run(&["check", "least.toml"]).code(0);
    folder
        .run(&["spare", "least.toml"])
        .code(0)
        .prints("Nothing can be spared: without any one given or clue");
}

#[test]
fn sealed_puzzles_keep_their_repairs_back() {
    let folder = Folder::with_pack("sealed_puzzles_keep_their_repairs_back");
    let sealed = "lamp-store/puzzles/dark-stair.toml";
    let refused = |args: &[&str], what: &str| {
        let ran = folder.run(args).code(1).says("error[sealed]").says(what).says("--unseal");
        assert_eq!(ran.stdout, "", "{args:?}");
        let document = folder.run(&[args, &["--json"]].concat()).code(1).json();
        for key in ["conflict", "mends", "solutions", "differ", "single", "towards", "spare", "irreducible"] {
            let kept = &document[key];
            assert!(kept.is_null() || kept.as_array().is_some_and(Vec::is_empty), "{key}: {document}");
        }
        folder.run(&[args, &["--unseal"]].concat()).prints("Dark stair, by Fern\n");
    };
    refused(&["spare", "lamp-store", "dark-stair"], "what it could do without");
    folder.replace(sealed, "4 . .", ". . .");
    refused(&["settle", "lamp-store", "dark-stair"], "what would settle it");
    folder.replace(sealed, "\" 7 12", "\" 8 12");
    folder.replace(sealed, "| . . .\n. . . | . . . | . 5 .", "| 4 . .\n. . . | . . . | . 5 .");
    refused(&["mend", "lamp-store", "dark-stair"], "what would mend it");
    // Of a sound one there is nothing to keep back.
    let folder = Folder::with_pack("sealed_puzzles_keep_their_repairs_back");
    folder.run(&["mend", "lamp-store", "dark-stair"]).code(0).prints("There is nothing to mend");
}

#[test]
fn twins_are_found_across_packs() {
    let folder = Folder::with_pack("twins_are_found_across_packs");
    let sums = folder.run(&["twins", "lamp-store"]).code(0);
    assert_eq!(sums.stdout, "no twins among 3 puzzles; the solutions of 1 sealed puzzle were not compared\n");

    // "Low tide" upside down, and the same grid with other givens and no clue.
    let text = folder.read(LOW_TIDE);
    let grid: Vec<&str> = text.split("\"\"\"").nth(1).unwrap().trim().lines().collect();
    let turned: String = grid.iter().rev().map(|it| format!("{it}\n")).collect();
    let turned = text.replace(&grid.join("\n"), turned.trim());
    let rows = text.lines().find(|it| it.starts_with("rows")).unwrap();
    let values: Vec<&str> = rows.split('"').nth(1).unwrap().split_whitespace().rev().collect();
    let turned = turned.replace(rows, &format!("rows = \"{}\"", values.join(" ")));
    folder.write("old/pack.toml", "format = 1\ntitle = \"Old\"\neditor = \"Ash\"\n");
    folder.write("old/puzzles/ebb.toml", turned.replace("Low tide", "Ebb"));
    let solution = folder.run(&["check", LOW_TIDE, "--json"]).json()["puzzles"][0]["solution"].clone();
    let rows: Vec<String> =
        (0..9).map(|at| solution.as_str().unwrap()[9 * at..9 * at + 9].to_owned()).collect();
    let full = BLANK.replace("Blank page", "Given away");
    let blank_row = ". . . . . . . . .\n";
    let full = full.replace(&blank_row.repeat(9), &(rows.join("\n") + "\n"));
    folder.write("given-away.toml", &full);

    let twins = folder
        .run(&["twins", "lamp-store", "old", "given-away.toml", "old/", "old/puzzles/ebb.toml"])
        .code(0);
    assert_eq!(
        twins.stdout,
        "\
The same puzzle, seen from another side or copied:
  \"Low tide\" (lamp-store/puzzles/low-tide.toml)
  \"Ebb\" (old/puzzles/ebb.toml)

The same solution, seen from another side or copied, with another page:
  \"Low tide\" (lamp-store/puzzles/low-tide.toml)
  \"Ebb\" (old/puzzles/ebb.toml)
  \"Given away\" (given-away.toml)

2 groups of twins among 5 puzzles; the solutions of 1 sealed puzzle were not compared
"
    );
    let document = folder.run(&["twins", "lamp-store", "old", "given-away.toml", "--json"]).code(0).json();
    assert_eq!(document["compared"], 5);
    let groups = document["groups"].as_array().unwrap();
    let told: Vec<(&str, usize)> = groups
        .iter()
        .map(|it| (it["same"].as_str().unwrap(), it["puzzles"].as_array().unwrap().len()))
        .collect();
    assert_eq!(told, [("puzzle", 2), ("solution", 3)]);
    let ebb = json!({ "id": "ebb", "file": "old/puzzles/ebb.toml", "title": "Ebb" });
    assert_eq!(groups[0]["puzzles"][1], ebb);
}

#[test]
fn the_solution_of_a_sealed_puzzle_is_not_compared() {
    let folder = Folder::with_pack("the_solution_of_a_sealed_puzzle_is_not_compared");
    let sealed = "lamp-store/puzzles/dark-stair.toml";
    let solution =
        folder.run(&["check", sealed, "--json", "--unseal"]).json()["puzzles"][0]["solution"].clone();
    let rows: Vec<&str> = (0..9).map(|at| &solution.as_str().unwrap()[9 * at..9 * at + 9]).collect();
    let full = BLANK.replace(&". . . . . . . . .\n".repeat(9), &(rows.join("\n") + "\n"));
    folder.write("given-away.toml", &full);
    folder.run(&["twins", sealed, "given-away.toml"]).code(0).prints("no twins among 2 puzzles; ");
    let open = folder.run(&["twins", sealed, "given-away.toml", "--unseal"]).code(0);
    open.prints("1 group of twins among 2 puzzles\n");
}
