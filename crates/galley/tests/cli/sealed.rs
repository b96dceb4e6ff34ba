//! A sealed puzzle: nothing that would spoil it is in any output, until `--unseal`.

use std::collections::BTreeSet;

use crate::support::Folder;

/// What must not be found, and where it comes from: the puzzle's own walkthrough, unsealed.
struct Spoilers {
    rows: Vec<String>,
    techniques: BTreeSet<String>,
    sentences: Vec<String>,
}

/// Everything that every command writes about the pack.
fn outputs(folder: &Folder) -> Vec<(String, String)> {
    let file = "lamp-store/puzzles/dark-stair.toml";
    let calls: [&[&str]; 15] = [
        &["check", "lamp-store"],
        &["explain", "lamp-store"],
        &["explain", "lamp-store", "dark-stair"],
        &["why", "lamp-store", "dark-stair", "r1c1"],
        &["why", file, "r5c5", "--not", "1"],
        &["why", file, "r5c5", "--filling"],
        &["judge", "lamp-store", "dark-stair", "r1c1 is 1"],
        &["judge", file, "r5c5 is not 1"],
        &["judge", file, "r5c5 is a crust", "--within", "40"],
        &["order", "lamp-store"],
        &["table", "lamp-store"],
        &["check", file],
        &["explain", file],
        &["order", file],
        &["table", file],
    ];
    let mut outputs = Vec::new();
    for args in calls {
        for args in [args.to_vec(), [args, &["--json"]].concat()] {
            let ran = folder.run(&args);
            assert!(matches!(ran.code, Some(0 | 1)), "{args:?}: {}", ran.stderr);
            outputs.push((format!("stdout of {args:?}"), ran.stdout));
            outputs.push((format!("stderr of {args:?}"), ran.stderr));
        }
    }
    for (pack, out) in [("lamp-store", "out"), (file, "out-of-one")] {
        let words = folder.run(&["press", pack, "--out", out]).code(0);
        let json = folder.run(&["press", pack, "--out", out, "--json"]).code(0);
        outputs.extend([words, json].map(|it| (format!("press {pack}"), it.stdout + &it.stderr)));
        for (name, bytes) in folder.all_in(out) {
            // The booklet's own tests read its pages; here it is enough which puzzles it has.
            let text = match name.rsplit('.').next() {
                Some("pdf") => format!("{:?}", booklet::read_back(&bytes).unwrap()),
                // The engine knows every technique by name, and is the same for every pack.
                Some("wasm") => {
                    assert!(bytes == include_bytes!("../../../site/engine/player_bg.wasm"));
                    String::new()
                }
                // A cover shows a board as it is printed, and its title; a sealed puzzle has none.
                Some("png") => {
                    assert!(!name.contains("dark-stair"), "{name}");
                    String::new()
                }
                _ => String::from_utf8(bytes).unwrap(),
            };
            let text = if name.starts_with("stage/") { without_weights(text) } else { text };
            outputs.push((format!("{out}/{name}"), text));
        }
    }
    outputs
}

/// A stage knows how heavy each technique is: all that there are, the same for every pack.
fn without_weights(text: String) -> String {
    let weights: Vec<String> =
        reason::TECHNIQUES.iter().map(|it| format!("\"{}\":{}", it.id().name(), it.weight())).collect();
    weights.iter().fold(text, |text, it| text.replacen(it, "", 1))
}

/// One space for any white space, so that folded lines are searched too.
fn unfolded(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn spoilers(folder: &Folder, by_itself_too: bool) -> Spoilers {
    // As the pack walks through it, and perhaps as it is walked through by itself. What the open ones say is
    // what they say while the other is sealed: it teaches nobody then.
    let texts = |id: &str, key: &str| -> Vec<String> {
        let unseal: &[&str] = if id == "dark-stair" { &["--unseal"] } else { &[] };
        let file = format!("lamp-store/puzzles/{id}.toml");
        let calls = [&["explain", "lamp-store", id][..], &["explain", &file]];
        let documents = calls[..if by_itself_too { 2 } else { 1 }]
            .iter()
            .map(|it| folder.run(&[it, &["--json"][..], unseal].concat()).code(0).json());
        let steps = documents.flat_map(|it| it["steps"].as_array().unwrap().clone());
        steps.map(|it| it[key].as_str().unwrap().to_owned()).collect()
    };
    // What the open ones build on is theirs too.
    let order = folder.run(&["order", "lamp-store", "--json"]).code(0).json();
    let ground = order["puzzles"].as_array().unwrap().iter().filter_map(|it| it["not_shown"].as_array());
    let ground = ground.flatten().map(|it| it.as_str().unwrap().to_owned());
    let others: BTreeSet<String> =
        ["first-light", "low-tide"].into_iter().flat_map(|id| texts(id, "technique")).chain(ground).collect();
    let own: BTreeSet<String> = texts("dark-stair", "technique").into_iter().collect();
    let told_elsewhere: BTreeSet<String> =
        ["first-light", "low-tide"].into_iter().flat_map(|id| texts(id, "says")).collect();

    let checked = folder.run(&["check", "lamp-store", "--json", "--unseal"]).code(0).json();
    let is_meant = |it: &&serde_json::Value| it["id"] == "dark-stair";
    let solution = checked["puzzles"].as_array().unwrap().iter().find(is_meant).unwrap()["solution"].clone();
    let solution = solution.as_str().unwrap().to_owned();
    let row = |at: usize| solution[9 * at..9 * at + 9].to_owned();
    let column = |at: usize| (0..9).map(|row| &solution[9 * row + at..9 * row + at + 1]).collect::<String>();
    Spoilers {
        rows: (0..9).map(row).chain((0..9).map(column)).collect(),
        techniques: own.difference(&others).cloned().collect(),
        sentences: texts("dark-stair", "says")
            .into_iter()
            .filter(|it| !told_elsewhere.contains(it))
            .collect(),
    }
}

#[test]
fn nothing_that_is_written_spoils_a_sealed_puzzle() {
    let folder = Folder::with_pack("nothing_that_is_written_spoils_a_sealed_puzzle");
    let spoilers = spoilers(&folder, true);
    assert!(
        !spoilers.techniques.is_empty(),
        "the puzzle has techniques of its own: {:?}",
        spoilers.techniques
    );
    assert!(spoilers.sentences.len() > 50);
    let names = spoilers.techniques.iter().map(|it| words_for(it));
    let forms = |row: &String| {
        let spaced = row.chars().map(String::from).collect::<Vec<_>>();
        [row.clone(), spaced.join(" "), spaced.join(",")]
    };
    let forbidden: Vec<String> = (spoilers.rows.iter().flat_map(forms))
        .chain(spoilers.techniques.iter().cloned())
        .chain(names)
        .chain(spoilers.sentences.iter().map(|it| unfolded(it)))
        .collect();
    for (place, text) in outputs(&folder) {
        let text = unfolded(&text);
        for it in &forbidden {
            assert!(!text.contains(it.as_str()), "{place} holds {it:?}");
        }
        // A picture of the board holds its digits one by one, with markup between them.
        let bare: String = text.split('<').filter_map(|it| it.rsplit('>').next()).collect();
        let digits: String = bare.chars().filter(char::is_ascii_digit).collect();
        for two in spoilers.rows.windows(2) {
            assert!(!digits.contains(&two.concat()), "{place} shows {two:?}");
        }
    }
}

/// The name that people read.
fn words_for(technique: &str) -> String {
    let known = tell::known_techniques().iter().find(|it| it.id.name() == technique);
    known.unwrap_or_else(|| panic!("no words for {technique}")).name.to_owned()
}

#[test]
fn the_search_would_find_a_spoiler() {
    let folder = Folder::with_pack("the_search_would_find_a_spoiler");
    let spoilers = spoilers(&folder, false);
    let press = folder.run(&["press", "lamp-store", "--unseal"]).code(0);
    let site = folder.read("out/site/puzzles/dark-stair.html");
    let everything = unfolded(&(press.stdout + &folder.read("out/report.html")));
    let published = unfolded(&(site + &folder.read("out/cue/dark-stair.html")));
    for it in spoilers.techniques.iter().map(|it| words_for(it)) {
        assert!(everything.contains(&it) && published.contains(&it), "{it}");
    }
    let explained = unfolded(&folder.run(&["explain", "lamp-store", "--unseal"]).code(0).stdout);
    for it in &spoilers.sentences {
        assert!(explained.contains(&unfolded(it)), "{it}");
    }
}

#[test]
fn a_sealed_walkthrough_is_refused() {
    let folder = Folder::with_pack("a_sealed_walkthrough_is_refused");
    let refused = folder.run(&["explain", "lamp-store", "dark-stair"]).code(1);
    let refused = refused.says("error[sealed]: \"Dark stair\" is sealed").says("--unseal");
    assert_eq!(refused.stdout, "");
    let refused = folder.run(&["explain", "lamp-store", "dark-stair", "--json"]).code(1).json();
    assert_eq!((&refused["sealed"], &refused["complete"]), (&true.into(), &false.into()));
    assert_eq!(refused["steps"].as_array().unwrap().len(), 0);
    assert_eq!(refused["problems"][0]["code"], "sealed");
    // In a pack, the others are told all the same.
    folder.run(&["explain", "lamp-store"]).code(1).prints("Low tide, by Juniper").says("error[sealed]");
    folder.run(&["explain", "lamp-store", "dark-stair", "--unseal"]).code(0).prints("Dark stair, by Fern");
}

#[test]
fn a_sealed_puzzle_without_one_solution_shows_no_digit_of_any() {
    let folder = Folder::with_pack("a_sealed_puzzle_without_one_solution_shows_no_digit_of_any");
    let file = "lamp-store/puzzles/first-light.toml";
    folder.replace(file, ". 6 7 |", ". 6 . |");
    folder.replace(file, "grid =", "sealed = true\ngrid =");
    let check = folder.run(&["check", file]).code(1).says("error[several-solutions]").says("--unseal");
    assert!(!check.stderr.contains("can be"), "{}", check.stderr);
    folder.run(&["check", file, "--unseal"]).code(1).says("can be");
}
