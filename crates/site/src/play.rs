//! What makes a puzzle's page a sheet to write on: the script, and the engine that helps from the solver's own position.
//!
//! Both are made by `build-engine` and kept with the sources, so that Rust alone builds Galley; a test fails when they
//! are older than what they were made from.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

/// Where the script is.
pub(crate) const SCRIPT_PATH: &str = "play/sheet.js";
/// Where the engine is.
const ENGINE_PATH: &str = "play/engine.wasm";
/// Where it is once more, as a script: a page that is read from a disk may load nothing else.
pub(crate) const ENGINE_ON_DISK_PATH: &str = "play/engine.js";

const SCRIPT: &str = include_str!("../engine/sheet.js");
const ENGINE: &[u8] = include_bytes!("../engine/player_bg.wasm");

/// The engine as a script, for whatever page is read from a disk.
pub fn engine_script() -> Vec<u8> {
    format!("globalThis.galleyEngine=\"{}\";\n", STANDARD.encode(ENGINE)).into_bytes()
}

/// The files, by their paths within the site.
pub(crate) fn files() -> [(String, Vec<u8>); 3] {
    [
        (SCRIPT_PATH.to_owned(), SCRIPT.as_bytes().to_vec()),
        (ENGINE_PATH.to_owned(), ENGINE.to_vec()),
        (ENGINE_ON_DISK_PATH.to_owned(), engine_script()),
    ]
}
