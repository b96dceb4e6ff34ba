//! `docs/format.md` tells the truth: its examples read without problems, and its table of problems and
//! tables of keys are complete.

use std::path::Path;

use packfile::{
    Code, MOST_BYTES, SourceFile, fingerprint, read_calibration, read_notes, read_pack, read_puzzle,
    read_rehearsal, read_solve, write_calibration, write_puzzle,
};

fn page() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/format.md");
    std::fs::read_to_string(&path).unwrap_or_else(|it| panic!("{}: {it}", path.display()))
}

/// The examples: each block of TOML, named by the remark it begins with.
fn examples() -> Vec<SourceFile> {
    let page = page();
    let blocks = page.split("```toml\n# ").skip(1).map(|it| it.split("```").next().unwrap());
    let named = blocks.map(|it| it.split_once('\n').unwrap());
    named.map(|(name, text)| SourceFile::new(name, text)).collect()
}

/// The names in the first column of the table that begins with those headings.
fn first_column(page: &str, headings: &str) -> Vec<Vec<String>> {
    let tables = page.split(headings).skip(1).map(|table| {
        let rows = table.lines().skip(2).take_while(|it| it.starts_with("| `"));
        rows.map(|it| it.split('`').nth(1).unwrap().to_owned()).collect()
    });
    tables.collect()
}

#[test]
fn the_examples_read_as_one_pack() {
    let (infos, puzzles): (Vec<_>, Vec<_>) = examples().into_iter().partition(|it| it.path == "pack.toml");
    let (notes, puzzles): (Vec<_>, Vec<_>) =
        puzzles.into_iter().partition(|it| it.path.starts_with("notes/"));
    assert_eq!(read_notes(&notes[0]).1, []);
    assert_eq!(read_notes(&notes[0]).0.steps.len(), 1);
    let ids: Vec<&str> = puzzles.iter().map(|it| it.path.as_str()).collect();
    assert_eq!(ids, ["puzzles/first-light.toml", "puzzles/six-panes.toml", "puzzles/night-watch.toml"]);
    assert_eq!(infos.len(), 1);
    let (read, problems) = read_pack(Some(&infos[0]), &puzzles[..2]);
    assert_eq!(problems, []);
    assert_eq!(read.pack.info.order.map(|it| it.len()), Some(2));
    assert_eq!(read_puzzle(&puzzles[2]).1, []);
    // The page shows grids and clues as they are written by `write_puzzle`.
    for file in &puzzles {
        let written = write_puzzle(&read_puzzle(file).0.unwrap());
        let layout = |it: &str| it[it.find("grid =").unwrap()..].to_owned();
        assert_eq!(layout(&written), layout(std::str::from_utf8(&file.bytes).unwrap()), "{}", file.path);
    }
}

#[test]
fn the_example_of_a_problem_is_a_real_one() {
    let page = page();
    let expected =
        page.split("```text\npuzzles/first-light.toml:").nth(1).unwrap().split("```").next().unwrap();
    let file = examples().into_iter().find(|it| it.path == "puzzles/first-light.toml").unwrap();
    let text = String::from_utf8(file.bytes).unwrap().replace(" 5  .  0 22", " 5  .  0 34");
    // The remark with the file's name is the first line on the page.
    let problems = read_puzzle(&SourceFile::new(file.path, format!("\n{text}"))).1;
    assert_eq!(problems.len(), 1);
    assert_eq!(format!("{}\n", problems[0]), format!("puzzles/first-light.toml:{expected}"));
}

#[test]
fn every_problem_is_listed() {
    let codes: Vec<&str> = Code::ALL.iter().map(|it| it.name()).collect();
    assert_eq!(first_column(&page(), "| code | what is wrong |"), [codes]);
    assert!(page().contains(&format!(
        "{},{:03},{:03} bytes",
        MOST_BYTES / 1_000_000,
        MOST_BYTES / 1000 % 1000,
        MOST_BYTES % 1000
    )));
}

#[test]
fn every_key_is_listed() {
    // What the reader suggests for a key that is like no other is the list of all it knows.
    let known = |path: &str| -> Vec<String> {
        let file = SourceFile::new(path, "zzzzzzzz = 1\n");
        let problems = match path {
            "pack.toml" => read_pack(Some(&file), &[]).1,
            _ => read_puzzle(&file).1,
        };
        let unknown = problems.into_iter().find(|it| it.code == Code::UnknownKey).unwrap();
        let help = unknown.help.unwrap();
        help.split('`').skip(1).step_by(2).map(str::to_owned).collect()
    };
    let listed = first_column(&page(), "| key | needed | what it says |");
    let listed: Vec<Vec<String>> = listed
        .into_iter()
        .map(|it| it.iter().map(|it| it.trim_matches(['[', ']']).to_owned()).collect())
        .collect();
    assert_eq!(listed, [known("pack.toml"), known("puzzles/a.toml")]);
}

/// The blocks of JSON.
fn json_examples() -> Vec<SourceFile> {
    let page = page();
    let blocks = page.split("```json\n").skip(1).map(|it| it.split("```").next().unwrap());
    blocks.map(|it| SourceFile::new("example.json", it)).collect()
}

#[test]
fn the_example_of_a_solve_reads_and_every_key_is_listed() {
    let example = &json_examples()[0];
    let logged = read_solve(example).unwrap();
    let puzzle = examples().into_iter().find(|it| it.path == "puzzles/first-light.toml").unwrap();
    let puzzle = read_puzzle(&puzzle).0.unwrap();
    assert_eq!(logged.check(Some(&puzzle)), Ok(()), "{}", fingerprint(&puzzle.puzzle));
    let solve = logged.solve;
    assert_eq!((solve.entries.len(), solve.hints.len(), solve.pauses.len()), (3, 1, 1));
    let text = String::from_utf8(example.bytes.clone()).unwrap().replace("\"puzzle\"", "\"zzzzzzzz\"");
    let help = read_solve(&SourceFile::new("a.json", text)).unwrap_err().help.unwrap();
    let known: Vec<String> = help.split('`').skip(1).step_by(2).map(str::to_owned).collect();
    assert_eq!(first_column(&page(), "| key | needed | what it holds |")[0], known);
}

#[test]
fn the_example_of_a_rehearsal_reads_and_every_key_is_listed() {
    let example = &json_examples()[2];
    let logged = read_rehearsal(example).unwrap();
    let puzzle = examples().into_iter().find(|it| it.path == "puzzles/first-light.toml").unwrap();
    assert_eq!(logged.check(&read_puzzle(&puzzle).0.unwrap()), Ok(()));
    assert_eq!(logged.rehearsal.events.len(), 7);
    let text = String::from_utf8(example.bytes.clone()).unwrap().replace("\"puzzle\"", "\"zzzzzzzz\"");
    let help = read_rehearsal(&SourceFile::new("a.json", text)).unwrap_err().help.unwrap();
    let known: Vec<String> = help.split('`').skip(1).step_by(2).map(str::to_owned).collect();
    assert_eq!(first_column(&page(), "| key | needed | what it holds |")[1], known);
}

#[test]
fn every_key_of_notes_is_listed() {
    let (_, problems) = read_notes(&SourceFile::new("notes/a.toml", "format = 1\nzzzzzzzz = 1\n"));
    let help = problems[0].help.clone().unwrap();
    let known: Vec<String> = help.split('`').skip(1).step_by(2).map(str::to_owned).collect();
    assert_eq!(first_column(&page(), "| key | what it holds |"), [known]);
}

#[test]
fn the_example_of_a_calibration_is_one_as_it_is_written() {
    let example = &json_examples()[1];
    let (read, problems) = read_calibration(example);
    assert_eq!((problems, read.silent.n_solves()), (vec![], 14));
    // The page has short lines where the file has long lists of them.
    let dense = |it: &str| it.split_whitespace().collect::<String>();
    assert_eq!(dense(&write_calibration(&read)), dense(std::str::from_utf8(&example.bytes).unwrap()));
}
