//! What each command prints for people when all is well.

use std::collections::BTreeSet;

use snapbox::str;

use crate::support::{BLANK, Folder};

#[test]
fn check_says_the_verdicts() {
    let folder = Folder::with_pack("check_says_the_verdicts");
    let check = folder.command().args(["check", "lamp-store"]).assert();
    check.code(0).stderr_eq(str![""]).stdout_eq(str![[r#"
dark-stair   exactly one solution (sealed)
first-light  exactly one solution
low-tide     exactly one solution

3 of 3 puzzles have exactly one solution

"#]]);
}

#[test]
fn check_says_why_there_are_several_solutions() {
    let folder = Folder::with_pack("check_says_why_there_are_several_solutions");
    folder.replace("lamp-store/puzzles/first-light.toml", ". 6 7 |", ". 6 . |");
    folder.replace("lamp-store/puzzles/low-tide.toml", "11  5  3", "11 13  3");
    folder.write("lamp-store/puzzles/blank.toml", BLANK);
    let check = folder.command().args(["check", "lamp-store"]).assert();
    check
        .code(1)
        .stdout_eq(str![[r#"
blank        more than one solution
dark-stair   exactly one solution (sealed)
first-light  more than one solution
low-tide     no solution

1 of 4 puzzles has exactly one solution

"#]])
        .stderr_eq(str![[r#"
lamp-store/puzzles/blank.toml: error[several-solutions]: "Blank page" has more than one solution
  No given is 1 or 9, and a sandwich sum stays the same when its 1 and its 9 change places. So exchanging every 1 with every 9 turns any solution into another one. The number of solutions is therefore never one: it is none, or even. A given 1 or 9 would tell them apart.
  help: it takes more: [..] givens or clues are enough, and `galley settle` shows which
lamp-store/puzzles/first-light.toml: error[several-solutions]: "First light" has more than one solution
  row 1 column 1 can be 1 or 7; row 1 column 3 can be 7 or 1
  help: printing 1 in r1c1 leaves one solution; `galley settle` shows other ways
lamp-store/puzzles/low-tide.toml: error[no-solution]: "Low tide" has no solution
  A part of the page contradicts itself. Givens: 1 in r3c1 and 9 in r9c2. Clues: 11 beside column 1, 13 beside column 2 and 3 beside column 3. Each digit once in: boxes 4 and 7. Without any one of these, the others can hold together. No fewer things on this page contradict each other.
  help: 2 changes of one thing leave exactly one solution, such as column 2: 5 instead of 13; `galley mend` shows them all
3 errors


"#]]);
}

#[test]
fn explain_tells_the_steps_in_passages() {
    let folder = Folder::with_pack("explain_tells_the_steps_in_passages");
    let explain = folder.run(&["explain", "lamp-store", "low-tide"]).code(0);
    let lines: Vec<&str> = explain.stdout.lines().collect();
    assert_eq!(lines[0], "Low tide, by Juniper");
    assert!(lines[1].contains(" steps, ") && lines[1].contains("not yet calibrated"), "{}", lines[1]);
    let is_titled =
        |word: &str| lines.iter().any(|it| !it.starts_with(' ') && it.to_lowercase().contains(word));
    assert!(is_titled("sum of row"), "{}", explain.stdout);
    let numbered = |it: &&&str| it.trim().split(' ').next().is_some_and(|it| it.parse::<usize>().is_ok());
    let numbers: Vec<usize> = lines[2..]
        .iter()
        .filter(|it| it.starts_with(' '))
        .filter(numbered)
        .filter_map(|it| it.trim().split(' ').next()?.parse().ok())
        .collect();
    // A line that goes on with a number may look like a step; the steps themselves are all there.
    assert!((1..=50).all(|it| numbers.contains(&it)), "{numbers:?}");
    assert!(lines.iter().all(|it| it.chars().count() <= 100), "a line is too wide");
}

#[test]
fn order_gives_a_reason_for_each_place() {
    let folder = Folder::with_pack("order_gives_a_reason_for_each_place");
    let order = folder.run(&["order", "lamp-store"]).code(0);
    assert_eq!(order.stderr, "");
    let order = order.prints("The order that Galley proposes.\n\n 1  First light: First: it takes ");
    let order =
        order.prints("\n 2  Low tide: Second: the first to take crusts side by side").prints("practises");
    let order = order.prints("\n 3  Dark stair: Sealed: its reasons are kept back.\n");
    order.prints("kept back while a puzzle is sealed").prints("not yet");
    let order = folder.run(&["order", "lamp-store", "--unseal"]).code(0);
    order
        .prints("The order that Galley proposes, which costs ")
        .prints("\n 3  Dark stair: Third: ")
        .prints("No order of these");
}

/// Two orders of the demo ask for each other, each as long as walkthroughs stay as they are in it, which was once a warning
/// wherever its order was looked at.
#[test]
fn orders_that_ask_for_each_other_come_to_rest() {
    let folder = Folder::with_pack("orders_that_ask_for_each_other_come_to_rest");
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/lantern-room");
    let order = folder.run(&["order", demo]).code(0);
    assert_eq!(order.stderr, "");
    let document = folder.run(&["order", demo, "--json"]).code(0).json();
    assert_eq!((&document["by"], &document["problems"]), (&"galley".into(), &serde_json::json!([])));
}

#[test]
fn the_editors_order_stands_beside_the_proposal() {
    let folder = Folder::with_pack("the_editors_order_stands_beside_the_proposal");
    let order = "order = [\"low-tide\", \"first-light\", \"dark-stair\"]\n";
    let pack = folder.read("lamp-store/pack.toml");
    folder.write("lamp-store/pack.toml", pack + order);
    let order = folder.run(&["order", "lamp-store"]).code(0);
    let order = order.prints("The editor's order").prints("| 1 | Low tide").prints("kept back");
    assert!(!order.stdout.contains("| costs"), "{}", order.stdout);
    let order = folder.run(&["order", "lamp-store", "--unseal"]).code(0).prints("| costs | ");
    let costs = order.stdout.lines().find(|it| it.contains("costs |")).unwrap();
    let costs: Vec<u64> = costs.split('|').filter_map(|it| it.trim().parse().ok()).collect();
    assert!(costs.len() == 2 && costs[1] <= costs[0], "{costs:?}");
}

#[test]
fn a_move_says_what_recordings_and_shelves_no_longer_bear_out() {
    let folder = Folder::with_pack("a_move_says_what_recordings_and_shelves_no_longer_bear_out");
    let file = "lamp-store/puzzles/dark-stair.toml";
    folder.replace(file, "format = 1\n", "format = 1\nsaid = [\"last of the pack\"]\n");
    // Two puzzles of one title are told apart by their ids.
    folder.replace("lamp-store/puzzles/low-tide.toml", "\"Low tide\"", "\"Dark stair\"");
    let stays = folder.run(&["order", "lamp-store", "--unseal"]).code(0);
    assert!(!stays.stderr.contains("said-untrue"), "{}", stays.stderr);
    let arguments = ["order", "lamp-store", "--unseal", "--move", "dark-stair=1"];
    let moved = folder.run(&arguments).code(0).says("warning[said-untrue]");
    moved.prints("- Dark stair (dark-stair): A recording says \"last of the pack\" of it, which is not true");
    let json = folder.run(&[&arguments[..], &["--json"]].concat()).code(0).json();
    let worse = json["worse"].as_array().unwrap();
    assert!(worse.iter().any(|it| it["id"] == "dark-stair" && it["says"].as_str().unwrap().contains("last")));
    assert_eq!(json["costs"]["said_untrue"], 100);
    assert!(json["problems"].as_array().unwrap().iter().any(|it| it["code"] == "said-untrue"));
}

#[test]
fn a_move_says_what_gets_worse() {
    let folder = Folder::with_pack("a_move_says_what_gets_worse");
    let moved = folder.run(&["order", "lamp-store", "--unseal", "--move", "dark-stair=1"]).code(0);
    let moved =
        moved.prints("The order after the move.\n\n 1  Dark stair: First: ").prints("What gets worse:\n- ");
    moved.prints("Before, the order costs ").prints("shorter than the one before.");
    let sealed = folder.run(&["order", "lamp-store", "--move", "low-tide=1"]).code(0);
    sealed.prints("kept back while a puzzle is sealed");
    let json =
        folder.run(&["order", "lamp-store", "--unseal", "--move", "dark-stair=1", "--json"]).code(0).json();
    assert!(json["cost"].as_u64().unwrap() > json["cost_before"].as_u64().unwrap());
    assert!(!json["worse"].as_array().unwrap().is_empty());
    let both = folder.run(&["order", "lamp-store", "--choose", "2", "--move", "low-tide=1"]).code(2);
    assert!(both.stderr.contains("cannot be used with"), "{}", both.stderr);
    for (wrong, said) in [
        ("nobody=1", "no place"),
        ("low-tide=4", "there is no place 4"),
        ("low-tide", "first-light=3"),
        ("low-tide=0", "first-light=3"),
    ] {
        let failed = folder.run(&["order", "lamp-store", "--move", wrong]).code(2);
        assert!(failed.stderr.contains(said), "{wrong}: {}", failed.stderr);
    }
}

#[test]
fn what_a_puzzle_teaches_is_told() {
    let folder = Folder::with_pack("what_a_puzzle_teaches_is_told");
    let teaches = folder.run(&["teaches", "lamp-store", "dark-stair", "--unseal"]).code(0);
    let teaches =
        teaches.prints("Dark stair, by Fern\n").prints("needed: there is no walkthrough without it");
    teaches.prints("Meant to teach hidden pair: ");
    folder.run(&["teaches", "lamp-store", "dark-stair"]).code(1).says("error[sealed]");
    let json = folder.run(&["teaches", "lamp-store", "low-tide", "--json"]).code(0).json();
    let techniques = json["techniques"].as_array().unwrap();
    assert!(techniques.iter().any(|it| it["worth"] == "needed" && it["saves"].is_null()));
}

#[test]
fn twins_are_named_in_the_pack_and_in_the_archive() {
    let folder = Folder::with_pack("twins_are_named_in_the_pack_and_in_the_archive");
    let low_tide = folder.read("lamp-store/puzzles/low-tide.toml");
    assert!(!folder.run(&["check", "lamp-store"]).code(0).stderr.contains("[twin"));
    folder.write("earlier/pack.toml", "format = 1\ntitle = \"Earlier\"\n");
    folder.write("earlier/puzzles/high-tide.toml", low_tide.clone());
    let check = folder.run(&["check", "lamp-store", "--archive", "earlier"]).code(0);
    let warning = "lamp-store/puzzles/low-tide.toml: warning[twin]: \"Low tide\" is the same puzzle as \"Low tide\" \
                   (earlier/puzzles/high-tide.toml)";
    assert!(check.stderr.contains(warning), "{}", check.stderr);
    // The pack may be in the archive itself.
    assert!(
        !folder.run(&["check", "lamp-store", "--archive", "lamp-store"]).code(0).stderr.contains("[twin")
    );
    folder.write("lamp-store/puzzles/spring-tide.toml", low_tide);
    let press = folder.run(&["press", "lamp-store"]).code(0);
    assert!(press.stderr.contains("low-tide.toml: warning[twin]"), "{}", press.stderr);
    assert!(press.stderr.contains("spring-tide.toml: warning[twin]"), "{}", press.stderr);
}

#[test]
fn puzzles_are_chosen_and_set_aside() {
    let folder = Folder::with_pack("puzzles_are_chosen_and_set_aside");
    let chosen = folder.run(&["order", "lamp-store", "--unseal", "--choose", "2"]).code(0);
    let chosen = chosen.prints("The choice and order that Galley proposes").prints("Without a place:\n");
    chosen.prints("not chosen. It");
    let low_tide = folder.read("lamp-store/puzzles/low-tide.toml");
    let later =
        low_tide.replace("format = 1\n", "format = 1\nstate = \"later\"\nreason = \"kept for spring\"\n");
    folder.write("lamp-store/puzzles/low-tide.toml", later);
    let order = folder.run(&["order", "lamp-store"]).code(0);
    order.prints("Low tide: for later (kept for spring). It alone would teach ");
    folder.run(&["table", "lamp-store"]).code(0).prints("(for later)");
    let check = folder.run(&["check", "lamp-store"]).code(0);
    check.prints("low-tide").prints("3 of 3 puzzles");
    let press = folder.run(&["press", "lamp-store"]).code(0);
    assert!(press.stderr.contains("\"Low tide\", which has no place in the pack"), "{}", press.stderr);
    for id in ["first-light", "dark-stair"] {
        let file = format!("lamp-store/puzzles/{id}.toml");
        let text = folder.read(&file);
        folder.write(&file, text.replace("format = 1\n", "format = 1\nstate = \"in\"\n"));
    }
    let few = folder.run(&["order", "lamp-store", "--choose", "1"]).code(2);
    assert!(few.stderr.contains("more puzzles must have a place"), "{}", few.stderr);
}

#[test]
fn what_a_recording_said_and_a_shelf_allows_is_watched() {
    let folder = Folder::with_pack("what_a_recording_said_and_a_shelf_allows_is_watched");
    let pack = folder.read("lamp-store/pack.toml");
    folder.write(
        "lamp-store/pack.toml",
        pack + "\n[limits.Dusk]\nminutes = 1\nhardest = \"last-empty-cell\"\n",
    );
    let low_tide = folder.read("lamp-store/puzzles/low-tide.toml");
    let first_light = folder.read("lamp-store/puzzles/first-light.toml");
    let features = first_light.replace("format = 1\n", "format = 1\nfeatures = \"jellyfish\"\n");
    folder.write("lamp-store/puzzles/first-light.toml", features);
    let said = low_tide.replace("format = 1\n", "format = 1\nsaid = [\"first of the pack\", \"number 2\"]\n");
    folder.write("lamp-store/puzzles/low-tide.toml", said);
    let order = folder.run(&["order", "lamp-store"]).code(0);
    let untrue = "warning[said-untrue]: a recording says of \"Low tide\" \"first of the pack\"";
    assert!(order.stderr.contains(untrue) && !order.stderr.contains("number 2"), "{}", order.stderr);
    let misfit =
        "warning[shelf-misfit]: \"First light\" is on the shelf \"Dusk\", but takes a regular about ";
    assert!(order.stderr.contains(misfit), "{}", order.stderr);
    assert!(
        order
            .stderr
            .contains("; it needs hidden single, and the shelf takes nothing harder than last empty cell")
    );
    let not_shown =
        "warning[feature-not-shown]: \"First light\" should show jellyfish, and no walkthrough does";
    assert!(order.stderr.contains(not_shown), "{}", order.stderr);
}

#[test]
fn table_is_plain_where_there_is_no_terminal() {
    let folder = Folder::with_pack("table_is_plain_where_there_is_no_terminal");
    let table = folder.run(&["table", "lamp-store"]).code(0);
    assert_eq!(table.stderr, "");
    // How wide a column is and what the minutes are is for others to say.
    let rows: Vec<Vec<&str>> = (table.stdout.lines().filter(|it| it.starts_with('|')))
        .map(|it| it.trim_matches('|').split('|').map(str::trim).collect())
        .collect();
    assert_eq!(rows[0], ["", "puzzle", "setter", "solutions", "minutes", "shelf", "new in it"]);
    let firsts: Vec<&[&str]> = rows[1..].iter().filter(|it| !it[0].is_empty()).map(|it| &it[..4]).collect();
    let expected = [
        ["1", "First light", "Fern", "one"],
        ["2", "Low tide", "Juniper", "one"],
        ["3", "Dark stair", "Fern", "one"],
    ];
    assert_eq!(firsts, expected);
    let dark = rows.iter().find(|it| it[1] == "Dark stair").unwrap();
    assert!(dark[4].contains(" to ") && dark[5] == "Night" && dark[6] == "(sealed)", "{dark:?}");
    assert!(table.stdout.starts_with("The lamp store\n+---+--"), "{}", table.stdout);
    assert!(!table.stdout.contains("No puzzle teaches yet"), "{}", table.stdout);
    folder.run(&["table", "lamp-store", "--unseal"]).code(0).prints("No puzzle teaches yet: ");
    assert!(folder.run(&["table", "lamp-store", "--unseal"]).code(0).stdout.is_ascii());
}

#[test]
fn a_puzzle_file_works_wherever_a_pack_does() {
    let folder = Folder::with_pack("a_puzzle_file_works_wherever_a_pack_does");
    let file = "lamp-store/puzzles/first-light.toml";
    folder.run(&["check", file]).code(0).prints("first-light  exactly one solution");
    folder.run(&["explain", file]).code(0).prints("First light, by Fern");
    folder.run(&["explain", file, "first-light"]).code(0).prints("First light, by Fern");
    folder.run(&["order", file]).code(0).prints("First light: First: it takes ");
    folder.run(&["table", file]).code(0).prints("| 1 | First light | Fern");
    folder.run(&["press", file]).code(0).says("wrote report.html, booklet.pdf");
    // The pack's own file stands for the pack.
    folder.run(&["check", "lamp-store/pack.toml"]).code(0).prints("3 of 3 puzzles");
}

#[test]
fn a_new_pack_says_what_to_do_next() {
    let folder = Folder::new("a_new_pack_says_what_to_do_next");
    let new = folder.command().args(["new", "wick-shelf"]).assert();
    new.code(0).stderr_eq(str![""]).stdout_eq(str![[r#"
wrote wick-shelf/pack.toml and wick-shelf/puzzle-template.toml

Next:
  1. say in wick-shelf/pack.toml what the pack is called and who edits it
  2. copy wick-shelf/puzzle-template.toml to wick-shelf/puzzles/first-light.toml, and fill it in; one file a puzzle
  3. galley check wick-shelf

"#]]);
    assert_eq!(folder.files(), ["wick-shelf/pack.toml", "wick-shelf/puzzle-template.toml"]);
    assert!(folder.read("wick-shelf/pack.toml").contains("title = \"Wick shelf\""));
    // All that is wrong with it is that it has no puzzles.
    let check = folder.run(&["check", "wick-shelf"]).code(1).says("pack-has-no-puzzles").says("1 error");
    assert_eq!(check.stdout, "");
    // The template is a puzzle file, if not yet a puzzle.
    folder.write("wick-shelf/puzzles/first.toml", folder.read("wick-shelf/puzzle-template.toml"));
    folder.run(&["check", "wick-shelf"]).code(1).says("several-solutions").says("1 error");
}

#[test]
fn help_is_complete() {
    let folder = Folder::new("help_is_complete");
    for command in ["new", "check", "explain", "order", "table", "make", "press"] {
        folder.run(&[command, "--help"]).code(0).prints("Examples:").prints("Exit codes:").prints("--json");
        folder.run(&["--help"]).code(0).prints(&format!("\n  {command} "));
    }
    folder.run(&["--version"]).code(0).prints("galley ");
}

#[test]
fn explain_keeps_to_what_is_known() {
    let folder = Folder::with_pack("explain_keeps_to_what_is_known");
    let explain = |knows: &str| folder.run(&["explain", "lamp-store", "low-tide", "--knows", knows]).code(0);
    let full = folder.run(&["explain", "lamp-store", "low-tide", "--json"]).code(0).json();
    let used: BTreeSet<&str> =
        full["steps"].as_array().unwrap().iter().map(|it| it["technique"].as_str().unwrap()).collect();
    let all: Vec<&str> = used.iter().copied().collect();
    explain(&all.join(",")).prints("What is known is enough.").prints("steps, ");

    // Each of them is needed, or another does as well: either way nothing else is used.
    for missing in &all {
        let known: Vec<&str> = all.iter().copied().filter(|it| it != missing).collect();
        let args = ["explain", "lamp-store", "low-tide", "--json", "--knows", &known.join(",")];
        let told = folder.run(&args).code(0).json();
        let knowing = &told["knowing"];
        assert_eq!(told["complete"], true, "{missing}: {knowing}");
        let opens = knowing["opens"].as_str();
        assert_eq!(knowing["enough"], opens.is_none(), "{missing}: {knowing}");
        for step in told["steps"].as_array().unwrap() {
            let technique = step["technique"].as_str().unwrap();
            assert!(known.contains(&technique) || opens == Some(technique), "{missing}: {technique}");
        }
    }
    let few = explain("last-empty-cell").prints("It takes more than one technique more");
    assert!(!few.stdout.contains("steps, "), "{}", few.stdout);
    folder.run(&["explain", "lamp-store", "--knows", "luck"]).code(2).says("luck");
}
