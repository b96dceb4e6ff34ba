//! `galley why` and `galley judge`: one question, one answer.

use serde_json::Value;

use crate::support::{BLANK, Folder};

const FILE: &str = "lamp-store/puzzles/low-tide.toml";

/// What the puzzle holds there, from its proof.
fn holds(folder: &Folder, cell: &str) -> u64 {
    let document = folder.run(&["check", FILE, "--json"]).code(0).json();
    let solution = document["puzzles"][0]["solution"].as_str().unwrap().to_owned();
    let (row, column) = cell[1..].split_once('c').unwrap();
    let at = 9 * (row.parse::<usize>().unwrap() - 1) + column.parse::<usize>().unwrap() - 1;
    u64::from(solution.as_bytes()[at] - b'0')
}

fn steps(document: &Value) -> &Vec<Value> {
    document["steps"].as_array().unwrap()
}

/// The steps lead to `by`, each is used, and the board is the only other thing they rest on.
fn leads_to_its_end(document: &Value) {
    let steps = steps(document);
    let concluded = steps.last().unwrap()["concludes"].as_array().unwrap();
    assert!(concluded.contains(&document["by"]), "{document}");
    for number in 1..steps.len() as u64 {
        let is_cited = |it: &Value| it["cites"].as_array().unwrap().contains(&number.into());
        assert!(steps.iter().any(is_cited), "step {number} of {document}");
    }
}

#[test]
fn why_tells_the_steps_to_a_digit() {
    let folder = Folder::with_pack("why_tells_the_steps_to_a_digit");
    let digit = holds(&folder, "r9c9");
    let document = folder.run(&["why", "lamp-store", "low-tide", "r9c9", "--json"]).code(0).json();
    assert_eq!(document["asked"], serde_json::json!({ "cell": "r9c9", "is": digit }));
    assert_eq!((&document["by"], &document["house"]), (&document["asked"], &Value::Null));
    assert_eq!((&document["id"], &document["sealed"]), (&"low-tide".into(), &false.into()));
    leads_to_its_end(&document);

    let words = folder.run(&["why", FILE, "R9C9"]).code(0);
    let head = format!("Low tide, by Juniper\nr9c9 is {digit}: that takes ");
    assert!(words.stdout.starts_with(&head), "{}", words.stdout);
    assert_eq!(words.stderr, "");
    let last = format!("\n {}  ", steps(&document).len());
    assert!(words.stdout.contains(&last), "{}", words.stdout);
    assert!(words.stdout.trim_end().ends_with('.'), "{}", words.stdout);
}

#[test]
fn why_answers_for_what_a_cell_is_not_and_for_its_kind() {
    let folder = Folder::with_pack("why_answers_for_what_a_cell_is_not_and_for_its_kind");
    let why = |args: &[&str]| folder.run(&[&["why", FILE], args].concat()).code(0).stdout;
    assert_eq!(why(&["r1c8"]), "Low tide, by Juniper\nr1c8 is 7: that stands on the board.\n");
    assert_eq!(
        why(&["r1c1", "--not", "7"]),
        "Low tide, by Juniper\nr1c1 is not 7, because r1c8 is 7 and row 1 has only one 7. That r1c8 is 7 \
         stands on the board.\n"
    );
    assert!(why(&["r3c1", "--crust"]).contains("r3c1 is a crust, because it is 1."));
    assert!(why(&["r1c8", "--filling"]).contains("r1c8 is filling, because it is 7."));
}

#[test]
fn questions_without_an_answer_say_the_next_move() {
    let folder = Folder::with_pack("questions_without_an_answer_say_the_next_move");
    let fails = |args: &[&str]| {
        let ran = folder.run(args).code(2).says("  help: ");
        assert_eq!(ran.stdout, "", "{args:?}");
        ran
    };
    fails(&["why", "lamp-store", "r4c7"]).says("`lamp-store` is a pack").says("dark-stair, first-light");
    fails(&["why", "lamp-store", "high-tide", "r4c7"]).says("no puzzle `high-tide` in `lamp-store`");
    fails(&["why", FILE, "r4c10"]).says("no cell `r4c10` on a 9x9 board").says("r1c1 to r9c9");
    fails(&["why", FILE, "r4c7", "--not", "12"]).says("no digit `12` on a 9x9 board").says("1 to 9");
    fails(&["why", FILE, "r1c8", "--not", "7"]).says("r1c8 is 7").says("leave out --not");
    fails(&["why", FILE, "r1c8", "--crust"]).says("r1c8 is no crust").says("--filling");
    fails(&["judge", FILE, "r4c7 or 5"]).says("`r4c7 or 5` is no claim").says("r4c3 is 2");
    fails(&["judge", FILE, "r4c7 is 5", "--at", "12"]).says("has 2 characters, but 81 cells");
    let board = "x".to_owned() + &".".repeat(80);
    fails(&["judge", FILE, "r4c7 is 5", "--at", &board]).says("has a `x`, in r1c1");
    for args in
        [&["why", FILE, "r1c1", "--crust", "--filling"][..], &["judge", FILE, "r1c1 is 1", "--within", "0"]]
    {
        folder.run(args).code(2);
    }
}

#[test]
fn puzzles_without_one_solution_have_no_answers() {
    let folder = Folder::new("puzzles_without_one_solution_have_no_answers");
    folder.write("blank.toml", BLANK);
    for args in [&["why", "blank.toml", "r4c7"][..], &["judge", "blank.toml", "r4c7 is 5"]] {
        assert_eq!(folder.run(args).code(1).says("error[several-solutions]").stdout, "");
        let document = folder.run(&[args, &["--json"]].concat()).code(1).json();
        assert_eq!((&document["says"], &document["by"]), (&Value::Null, &Value::Null));
        assert_eq!(document["problems"][0]["code"], "several-solutions");
    }
}

#[test]
fn sealed_puzzles_give_no_answer() {
    let folder = Folder::with_pack("sealed_puzzles_give_no_answer");
    for args in [
        &["why", "lamp-store", "dark-stair", "r1c1"][..],
        &["why", "lamp-store", "dark-stair", "r1c1", "--crust"],
        &["judge", "lamp-store", "dark-stair", "r1c1 is 1"],
    ] {
        let refused = folder.run(args).code(1).says("error[sealed]").says("--unseal");
        assert_eq!(refused.stdout, "");
        let document = folder.run(&[args, &["--json"]].concat()).code(1).json();
        assert_eq!((&document["sealed"], &document["says"]), (&true.into(), &Value::Null));
        assert_eq!(document["problems"][0]["code"], "sealed");
    }
    folder
        .run(&["why", "lamp-store", "dark-stair", "r1c1", "--unseal"])
        .code(0)
        .prints("Dark stair, by Fern");
}

#[test]
fn judge_says_what_is_missing_and_then_what_follows() {
    let folder = Folder::with_pack("judge_says_what_is_missing_and_then_what_follows");
    let claim = format!("r9c9 is {}", holds(&folder, "r9c9"));
    let judge = |args: &[&str]| folder.run(&[&["judge", FILE, &claim], args].concat()).code(0);
    let document = judge(&["--within", "2", "--json"]).json();
    assert_eq!(document["answer"], "not-yet", "{document}");
    assert!((1..=2).contains(&document["steps_then"].as_u64().unwrap()), "{document}");
    judge(&["--within", "2"]).prints("True, but it does not follow yet");

    // With the digits that were missing, it does.
    let mut board: Vec<u8> = document["board"].as_str().unwrap().bytes().collect();
    for it in document["missing"].as_array().unwrap() {
        let (row, column) = it["cell"].as_str().unwrap()[1..].split_once('c').unwrap();
        let at = 9 * (row.parse::<usize>().unwrap() - 1) + column.parse::<usize>().unwrap() - 1;
        board[at] = b'0' + it["is"].as_u64().expect("a single digit") as u8;
    }
    let board = String::from_utf8(board).unwrap();
    let document = judge(&["--within", "2", "--at", &board, "--json"]).json();
    assert_eq!((&document["answer"], &document["board"]), (&"follows".into(), &board.as_str().into()));
    leads_to_its_end(&document);
    judge(&["--at", &board])
        .prints("True, and it follows from this board.")
        .prints(&format!("{claim}: that takes"));
}

#[test]
fn judge_tells_untrue_claims_and_wrong_boards() {
    let folder = Folder::with_pack("judge_tells_untrue_claims_and_wrong_boards");
    let judge = |args: &[&str]| folder.run(&[&["judge", "lamp-store", "low-tide"], args].concat()).code(0);
    let digit = holds(&folder, "r1c1");
    let untrue = format!("r1c1 is not {digit}");
    let document = judge(&[&untrue, "--json"]).json();
    assert_eq!((&document["answer"], &document["holds"]), (&"untrue".into(), &digit.into()));
    assert!(document["open"].as_array().unwrap().contains(&digit.into()), "{document}");
    let full = document["counterexample"].as_str().unwrap();
    assert!(full.len() == 81 && full.starts_with(&digit.to_string()) && !full.contains('.'), "{full}");
    judge(&[&untrue])
        .prints(&format!("Not true: r1c1 is {digit}."))
        .prints("A full board on which everything holds but the claim:")
        .prints(&format!("  {digit}*"));
    judge(&["r1c1 is 7"]).prints("opposite follows from this board.").prints("row 1 has only one 7");

    // Row 1 has its 7 already, so a 7 in its first cell is wrong.
    let board = "7".to_owned() + &".".repeat(80);
    let document = judge(&["r9c9 is 1", "--at", &board, "--json"]).json();
    assert_eq!(document["answer"], "wrong-board");
    assert_eq!(document["wrong"], serde_json::json!([{ "cell": "r1c1", "is": 7 }]));
    judge(&["r9c9 is 1", "--at", &board]).prints("This board is wrong").prints("r1c1 is not 7.");
}

#[test]
fn grade_tells_three_solvers_minutes_and_why() {
    let folder = Folder::with_pack("grade_tells_three_solvers_minutes_and_why");
    let words = folder.run(&["grade", "lamp-store", "low-tide"]).code(0);
    let words = words.prints("Low tide, by Juniper\n").prints("| newcomer | ").prints("| old hand | ");
    words.prints("Most of the time goes to ").prints("A quarter of the open cells is filled after ");
    let document = folder.run(&["grade", FILE, "--json"]).code(0).json();
    let solvers = document["solvers"].as_array().unwrap();
    let names: Vec<&str> = solvers.iter().map(|it| it["solver"].as_str().unwrap()).collect();
    assert_eq!(names, ["newcomer", "regular", "old hand"]);
    let median = |at: usize| solvers[at]["median"].as_u64().unwrap();
    assert!(median(0) > median(1) && median(1) > median(2), "{document}");
    for it in solvers {
        assert!(
            it["tenth"].as_u64() < it["median"].as_u64() && it["median"].as_u64() < it["ninetieth"].as_u64()
        );
    }
    // The range that is printed holds eight solves in ten of a regular.
    let minutes = &document["minutes"];
    let seconds = |key: &str| 60 * minutes[key].as_u64().unwrap();
    assert!(seconds("from") <= solvers[1]["tenth"].as_u64().unwrap().max(60), "{document}");
    assert!(seconds("to") >= solvers[1]["ninetieth"].as_u64().unwrap(), "{document}");
    assert_eq!(document["why"].as_array().unwrap().len(), 3);
    // The curve ends where every open cell is filled.
    let open = 81
        - folder.read(FILE).split("\"\"\"").nth(1).unwrap().matches(|it: char| it.is_ascii_digit()).count();
    assert_eq!(document["curve"].as_array().unwrap().last().unwrap()["filled"], open);
}

#[test]
fn grade_keeps_to_what_is_known_and_to_the_seal() {
    let folder = Folder::with_pack("grade_keeps_to_what_is_known_and_to_the_seal");
    let few = folder.run(&["grade", FILE, "--knows", "hidden-single"]).code(0);
    few.prints("It takes more than one technique more");
    let document = folder.run(&["grade", FILE, "--knows", "hidden-single", "--json"]).code(0).json();
    assert_eq!((&document["minutes"], &document["knowing"]["enough"]), (&Value::Null, &false.into()));
    // Those of its own walkthrough are enough.
    let explained = folder.run(&["explain", FILE, "--json"]).code(0).json();
    let used: std::collections::BTreeSet<&str> =
        explained["steps"].as_array().unwrap().iter().map(|it| it["technique"].as_str().unwrap()).collect();
    let knows = used.into_iter().collect::<Vec<_>>().join(",");
    let document = folder.run(&["grade", FILE, "--knows", &knows, "--json"]).code(0).json();
    assert_eq!(document["knowing"]["enough"], true);
    assert_eq!(document["solvers"].as_array().unwrap().len(), 3);

    let sealed = folder.run(&["grade", "lamp-store", "dark-stair"]).code(0);
    let sealed = sealed
        .prints("Dark stair, by Fern\nSealed: ")
        .prints(" minutes for a regular (estimate, not yet calibrated), and nothing more");
    assert_eq!(sealed.stdout.lines().count(), 2);
    let document = folder.run(&["grade", "lamp-store", "dark-stair", "--json"]).code(0).json();
    assert!(document["minutes"]["from"].is_u64());
    for key in ["solvers", "why", "narrow", "techniques", "curve"] {
        assert_eq!(document[key].as_array().unwrap().len(), 0, "{key}");
    }
}
