//! Files with their expected problems: `tests/data/puzzles/*.toml`, each with a `.problems` beside it,
//! and `tests/data/packs/*/`, each folder with an `expected.problems`.
//!
//! A case's name says what it shows. `UPDATE_CASES=1 cargo test -p packfile` writes the expectations
//! anew; read the difference before keeping it.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::path::{Path, PathBuf};

use pack::{PackInfo, Shelf, Weights};
use packfile::{Code, Problem, SourceFile, read_pack, read_puzzle};

fn data(folder: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(folder)
}

fn list(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap_or_else(|it| panic!("{}: {it}", folder.display()));
    let mut paths: Vec<PathBuf> = entries.map(|it| it.unwrap().path()).collect();
    paths.sort();
    paths
}

fn load(root: &Path, path: &Path) -> SourceFile {
    let name = path.strip_prefix(root).unwrap().to_str().unwrap().replace('\\', "/");
    SourceFile::new(name, std::fs::read(path).unwrap())
}

/// Compares with the expectation, or writes it; gives the difference.
fn compare(expected_at: &Path, got: &str) -> Option<String> {
    if std::env::var_os("UPDATE_CASES").is_some() {
        std::fs::write(expected_at, got).unwrap();
    }
    let expected = std::fs::read_to_string(expected_at).unwrap_or_default();
    let case = expected_at.display();
    (expected != got).then(|| format!("{case}\n--- expected\n{expected}--- got\n{got}"))
}

fn puzzle_cases() -> Vec<(PathBuf, SourceFile)> {
    let root = data("puzzles");
    let files = list(&root).into_iter().filter(|it| it.extension().is_some_and(|it| it == "toml"));
    files.map(|it| (it.with_extension("problems"), load(&root, &it))).collect()
}

fn pack_cases() -> Vec<(PathBuf, Option<SourceFile>, Vec<SourceFile>)> {
    let cases = list(&data("packs")).into_iter().map(|root| {
        let info = root.join("pack.toml");
        let info = info.exists().then(|| load(&root, &info));
        let mut puzzles = Vec::new();
        let mut folders = vec![root.join("puzzles")];
        while let Some(folder) = folders.pop() {
            for path in if folder.exists() { list(&folder) } else { Vec::new() } {
                match path.is_dir() {
                    true => folders.push(path),
                    false => puzzles.push(load(&root, &path)),
                }
            }
        }
        (root.join("expected.problems"), info, puzzles)
    });
    cases.collect()
}

fn shown(problems: &[Problem]) -> String {
    problems.iter().map(|it| format!("{it}\n")).collect()
}

#[test]
fn puzzles_have_the_problems_expected() {
    let mut differences = Vec::new();
    for (expected_at, file) in puzzle_cases() {
        let (read, problems) = read_puzzle(&file);
        let mut got = match read {
            Ok(entry) => {
                let plans = format!(
                    "{:?}, {:?}, {:?}, {:?}, {:?}",
                    entry.state, entry.shelf, entry.reason, entry.features, entry.said
                );
                let has_plans = plans != "Undecided, None, None, None, []";
                let plans = if has_plans { format!("{plans}\n") } else { String::new() };
                let chapters: Vec<String> =
                    entry.chapters.iter().map(|it| format!("{} {}\n", it.begins(), it.title)).collect();
                let recorded = match (&entry.recording, entry.release) {
                    (None, None) => String::new(),
                    (recording, release) => format!("recording {recording:?}, out on {release:?}\n"),
                };
                format!(
                    "reads as {}: \"{}\" by {}\n{plans}{recorded}{}",
                    entry.id,
                    entry.title,
                    entry.setter,
                    chapters.concat()
                )
            }
            Err(it) => format!("unreadable {}, title {:?}\n", it.name, it.title),
        };
        got.push_str(&shown(&problems));
        differences.extend(compare(&expected_at, &got));
    }
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}

#[test]
fn packs_have_the_problems_expected() {
    let mut differences = Vec::new();
    for (expected_at, info, puzzles) in pack_cases() {
        let (read, problems) = read_pack(info.as_ref(), &puzzles);
        let mut got = String::new();
        let (info, entries) = (&read.pack.info, &read.pack.entries);
        let shelves: Vec<&str> = info.shelves.iter().map(|it| &it.name[..]).collect();
        writeln!(got, "title {:?}, editor {:?}, shelves {shelves:?}", info.title, info.editor).unwrap();
        writeln!(got, "order {:?}", info.order).unwrap();
        if *info != (PackInfo { knows: Vec::new(), pins: BTreeMap::new(), ..info.clone() }) {
            writeln!(got, "knows {:?}, pins {:?}", info.knows, info.pins).unwrap();
        }
        if info.weights != Weights::default() {
            writeln!(got, "{:?}", info.weights).unwrap();
        }
        for it in info.shelves.iter().filter(|it| **it != Shelf::from(&it.name[..])) {
            writeln!(got, "limits of {}: {:?} minutes, {:?}", it.name, it.minutes, it.hardest).unwrap();
        }
        if !info.booklets.is_empty() || !info.errata.is_empty() {
            let forms: Vec<String> = info.booklets.iter().map(|it| format!("\"{it}\"")).collect();
            writeln!(got, "booklets [{}], errata {:?}", forms.join(", "), info.errata).unwrap();
        }
        for entry in entries {
            writeln!(got, "entry {} from {}", entry.id, read.files[&entry.id]).unwrap();
        }
        for it in &read.unreadable {
            writeln!(got, "unreadable {} from {}, title {:?}", it.name, it.file, it.title).unwrap();
        }
        got.push_str(&shown(&problems));
        differences.extend(compare(&expected_at, &got));
    }
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}

#[test]
fn every_code_has_a_case() {
    let mut seen: BTreeSet<Code> = BTreeSet::new();
    for (_, file) in puzzle_cases() {
        seen.extend(read_puzzle(&file).1.iter().map(|it| it.code));
    }
    for (_, info, puzzles) in pack_cases() {
        seen.extend(read_pack(info.as_ref(), &puzzles).1.iter().map(|it| it.code));
    }
    // Not kept as files: bytes that are no text, and a file of more than a megabyte; see `bytes.rs`.
    seen.extend([Code::NotUtf8, Code::FileTooLarge]);
    // Of test solves and calibrations; see `solves.rs`, whose cases show each of them.
    seen.extend([Code::NotJson, Code::NotAsWritten, Code::CalibrationOutdated]);
    seen.extend([Code::SolveUnknown, Code::SolveOutdated, Code::SolveNotHeld]);
    // Of notes and rehearsals; see `recordings.rs`.
    seen.extend([Code::NotALength, Code::RehearsalOutdated]);
    // Cannot lie in a folder: `bytes.rs` has the path that leaves the pack, too.
    let missing: Vec<&Code> = Code::ALL.iter().filter(|it| !seen.contains(it)).collect();
    assert!(missing.is_empty(), "no case shows {missing:?}");
}

#[test]
fn the_words_keep_to_the_rules() {
    let puzzles = puzzle_cases().into_iter().flat_map(|(_, it)| read_puzzle(&it).1);
    let packs = pack_cases().into_iter().flat_map(|(_, info, puzzles)| read_pack(info.as_ref(), &puzzles).1);
    for problem in puzzles.chain(packs) {
        let help = problem.help.clone().unwrap_or_default();
        assert!(!help.is_empty(), "{problem}");
        for text in [&problem.message, &help] {
            assert!(!text.ends_with('.') && !text.contains('\n'), "{problem}");
            assert!(!text.starts_with(|it: char| it.is_uppercase()) || text.starts_with("UTF"), "{problem}");
            assert!(!text.contains(&problem.file), "the file is named twice: {problem}");
        }
    }
}
