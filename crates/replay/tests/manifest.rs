//! The checker is worth something only as long as it knows no solving technique: it may depend on what
//! the rules mean and on what a trail is, and on nothing else.

use std::collections::BTreeSet;
use std::path::Path;

#[test]
fn only_meaning_is_depended_on() {
    let manifest = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml");
    let text = std::fs::read_to_string(manifest).unwrap();
    let mut table = "";
    let mut dependencies = BTreeSet::new();
    for line in text.lines().map(str::trim).filter(|it| !it.is_empty() && !it.starts_with('#')) {
        if line.starts_with('[') {
            // A table of another name could bring dependencies in by another door, such as
            // `[dependencies.other]` or `[build-dependencies]`.
            let known = ["[package]", "[lints]", "[dependencies]", "[dev-dependencies]"];
            assert!(known.contains(&line), "unexpected table {line}");
            table = line;
        } else if table == "[dependencies]" {
            dependencies.insert(line.split(['.', '=', ' ']).next().unwrap());
        }
    }
    assert_eq!(dependencies, BTreeSet::from(["grid", "rulebook", "trail"]));
}
