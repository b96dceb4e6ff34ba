//! What runs in the browser is as new as what it was made from.

use std::collections::BTreeSet;
use std::fs;
use std::hash::Hasher;
use std::path::{Path, PathBuf};

use fnv::FnvHasher;
use toml::{Table, Value};

/// The hash in `made-from` is that of the sources as they are. `build-engine` sets it anew.
#[test]
fn what_runs_in_the_browser_is_as_new_as_its_sources() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let is_now = format!("{}\n", hash_of_sources(&root));
    let path = root.join("crates/site/engine/made-from");
    if std::env::var_os("UPDATE_ENGINE").is_some() {
        fs::write(&path, &is_now).unwrap();
    }
    let was = fs::read_to_string(&path).unwrap_or_default();
    assert!(was == is_now, "the engine is older than its sources: run crates/site/build-engine");
}

/// FNV-1a over every file that goes in, and over the other people's crates by version and checksum.
fn hash_of_sources(root: &Path) -> String {
    let lock: Table = fs::read_to_string(root.join("Cargo.lock")).unwrap().parse().unwrap();
    let packages = lock["package"].as_array().unwrap();
    let mut hasher = FnvHasher::default();
    let mut n_ours = 0;
    for package in needed_by("player", packages) {
        let name = package["name"].as_str().unwrap();
        match package.get("checksum") {
            Some(checksum) => hasher.write(format!("{name} {checksum}\n").as_bytes()),
            None => {
                n_ours += 1;
                let folder = root.join("crates").join(name);
                let mut files = vec![folder.join("Cargo.toml")];
                list(&folder.join("src"), &mut files);
                hash_files(root, files, &mut hasher);
            }
        }
    }
    assert!(n_ours > 5);
    let mut scripts = vec![root.join("crates/site/build-engine")];
    list(&root.join("crates/site/play"), &mut scripts);
    assert!(scripts.len() > 5);
    hash_files(root, scripts, &mut hasher);
    format!("{:016x}", hasher.finish())
}

/// The packages that one depends on, itself among them, by name.
fn needed_by<'a>(name: &str, packages: &'a [Value]) -> Vec<&'a Value> {
    let mut names = BTreeSet::from([name]);
    let mut next = vec![name];
    while let Some(name) = next.pop() {
        for it in packages.iter().filter(|it| it["name"].as_str() == Some(name)) {
            let dependencies = it.get("dependencies").and_then(Value::as_array);
            // A name may have its version behind it.
            let named = dependencies.into_iter().flatten().filter_map(|it| it.as_str()?.split(' ').next());
            next.extend(named.filter(|it| names.insert(it)));
        }
    }
    packages.iter().filter(|it| it["name"].as_str().is_some_and(|it| names.contains(it))).collect()
}

fn list(folder: &Path, into: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap().map(|it| it.unwrap().path()) {
        if entry.is_dir() { list(&entry, into) } else { into.push(entry) }
    }
}

fn hash_files(root: &Path, mut files: Vec<PathBuf>, hasher: &mut FnvHasher) {
    files.sort();
    for path in files {
        let name = path.strip_prefix(root).unwrap().to_str().unwrap().to_owned();
        // Line ends do not count: a checkout may change them.
        let text: String = fs::read_to_string(&path).unwrap().replace("\r\n", "\n");
        hasher.write(format!("{name}\n{text}\n").as_bytes());
    }
}
