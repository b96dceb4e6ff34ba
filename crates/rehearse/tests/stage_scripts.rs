//! The scripts of the stage are as new as what they were made from.

use std::fs;
use std::hash::Hasher;
use std::path::{Path, PathBuf};

use fnv::FnvHasher;

/// Everything that goes into them.
const SOURCES: [&str; 4] = [
    "crates/rehearse/build-stage",
    "crates/rehearse/stage",
    "crates/site/play",
    "crates/site/engine/player.js",
];

/// The hash in `made-from` is that of the sources as they are. `build-stage` sets it anew.
#[test]
fn the_scripts_of_the_stage_are_as_new_as_their_sources() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut files = Vec::new();
    SOURCES.iter().for_each(|it| list(&root.join(it), &mut files));
    files.sort();
    assert!(files.len() > 20, "{files:?}");
    let mut hasher = FnvHasher::default();
    for path in files {
        let name = path.strip_prefix(&root).unwrap().to_str().unwrap().to_owned();
        // Line ends do not count: a checkout may change them.
        let text = fs::read_to_string(&path).unwrap().replace("\r\n", "\n");
        hasher.write(format!("{name}\n{text}\n").as_bytes());
    }
    let is_now = format!("{:016x}\n", hasher.finish());
    let path = root.join("crates/rehearse/stage-built/made-from");
    if std::env::var_os("UPDATE_STAGE").is_some() {
        fs::write(&path, &is_now).unwrap();
    }
    let was = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        was == is_now,
        "the stage's scripts are older than their sources: run crates/rehearse/build-stage"
    );
}

fn list(path: &Path, into: &mut Vec<PathBuf>) {
    if !path.is_dir() {
        return into.push(path.to_owned());
    }
    for entry in fs::read_dir(path).unwrap() {
        list(&entry.unwrap().path(), into);
    }
}
