//! What makes the site work offline after one visit: a service worker that keeps every file of this version.

use std::hash::Hasher;

use fnv::FnvHasher;

use crate::{Files, not_found, play};

/// Where the worker is: at the root, so that every page is in its reach.
pub(crate) const WORKER_PATH: &str = "sw.js";

/// Where the script is that every page starts it with.
pub(crate) const SCRIPT_PATH: &str = "offline.js";

/// The script.
pub(crate) const SCRIPT: &str = include_str!("../offline/offline.js");

const WORKER: &str = include_str!("../offline/worker.js");

/// The worker for a site of those files. Its cache is named after all their bytes, so that another site, however little
/// it differs, has another.
pub(crate) fn worker(files: &Files) -> String {
    let kept: Vec<&String> = files.keys().filter(|it| is_kept(it)).collect();
    let mut hasher = FnvHasher::default();
    for (path, bytes) in files {
        hasher.write(path.as_bytes());
        hasher.write(bytes);
    }
    let list = serde_json::to_string(&kept).unwrap_or_else(|it| unreachable!("a list of texts: {it}"));
    format!(
        "const VERSION = \"{:016x}\";\nconst FILES = {list};\nconst NOT_FOUND = \"{}\";\n\n{WORKER}",
        hasher.finish(),
        not_found::PATH
    )
}

/// Whether visitors need the file: pictures for link previews and files for machines are for others, and the engine
/// for pages read from a disk is of no use where a worker runs.
fn is_kept(path: &str) -> bool {
    let is_for_others = [".png", ".xml", ".txt"].iter().any(|it| path.ends_with(it));
    !is_for_others && path != play::ENGINE_ON_DISK_PATH
}
