//! House rules that a compiler does not hold.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|it| panic!("{path}: {it}"))
}

/// The crates of ARCHITECTURE.md, in its order, each with what is said of it.
fn mapped_crates() -> Vec<(String, String)> {
    let text = read("ARCHITECTURE.md");
    let sections = text.split("\n### crates/").skip(1).filter_map(|it| it.split_once('\n'));
    sections
        .map(|(name, body)| (name.to_owned(), body.split("\n## ").next().unwrap_or_default().to_owned()))
        .collect()
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|it| it.unwrap().path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|it| it == "rs") {
            found.push(path);
        }
    }
}

/// Every Rust file of the project, with its text.
fn all_sources() -> Vec<(String, String)> {
    let mut found = Vec::new();
    sources(&root().join("crates"), &mut found);
    sources(&root().join("checks"), &mut found);
    assert!(found.len() > 100, "only {} files found: is the root right?", found.len());
    let named = |path: PathBuf| {
        let text = fs::read_to_string(&path).unwrap();
        (path.strip_prefix(root()).unwrap().display().to_string(), text)
    };
    found.into_iter().map(named).collect()
}

#[test]
fn architecture_maps_the_crates_that_exist() {
    let folders = fs::read_dir(root().join("crates")).unwrap().map(|it| it.unwrap());
    let exist: BTreeSet<String> =
        folders.filter(|it| it.path().is_dir()).map(|it| it.file_name().into_string().unwrap()).collect();
    let mapped = mapped_crates();
    assert_eq!(mapped.iter().map(|it| it.0.clone()).collect::<BTreeSet<_>>(), exist);
    for (name, body) in mapped {
        assert!(body.contains("**Invariant:**"), "{name} has no invariant");
    }
}

#[test]
fn a_crate_uses_only_crates_above_it() {
    let order: Vec<String> = mapped_crates().into_iter().map(|it| it.0).collect();
    for (at, name) in order.iter().enumerate() {
        let manifest = read(&format!("crates/{name}/Cargo.toml"));
        let dependencies = manifest.split("[dependencies]").nth(1).unwrap_or_default();
        let dependencies = dependencies.split("\n[").next().unwrap_or_default();
        for used in dependencies.lines().filter_map(|it| it.split(['.', ' ', '=']).next()) {
            let used = used.to_owned();
            let above = order[..at].contains(&used);
            assert!(above || !order.contains(&used), "{name} uses {used}, which is not above it");
        }
    }
}

#[test]
fn every_dependency_says_why_it_is_there() {
    let text = read("Cargo.toml");
    let theirs = text.split("# Other people's.").nth(1).unwrap_or_default();
    let theirs = theirs.split("\n[").next().unwrap_or_default();
    let mut before = "";
    for line in theirs.lines().skip(1).filter(|it| !it.is_empty()) {
        // Members of one family stand together under one reason.
        let family = |it: &str| it.split(['_', '-', ' ']).next().unwrap_or_default().to_owned();
        let has_reason = before.starts_with('#') || (!before.is_empty() && family(before) == family(line));
        assert!(line.starts_with('#') || has_reason, "no reason beside: {line}");
        before = line;
    }
    assert!(before.contains('='), "no dependency was looked at");
}

#[test]
fn every_file_opens_with_what_it_is() {
    for (path, text) in all_sources() {
        assert!(text.starts_with("//!"), "{path} does not begin with a //! header");
    }
}

#[test]
fn files_are_short_and_finished() {
    // Put together here, so that this file does not find itself.
    let unfinished = [["to", "do!("].concat(), ["unimplemented", "!("].concat(), ["#[ig", "nore"].concat()];
    for (path, text) in all_sources() {
        let is_test = path.contains("/tests/");
        assert!(is_test || text.lines().count() <= 500, "{path} has more than 500 lines");
        for it in &unfinished {
            assert!(!text.contains(it.as_str()), "{path} has {it}");
        }
    }
}

#[test]
fn nothing_points_into_one_machine() {
    for (path, text) in all_sources() {
        for it in [["/ro", "ot/"].concat(), ["/wo", "rk/"].concat()] {
            assert!(!text.contains(&it), "{path} has {it}");
        }
    }
}
