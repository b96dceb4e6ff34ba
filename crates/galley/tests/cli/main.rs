//! The program from outside: what was typed goes in; output, exit code and files come out.
//!
//! Each test works in a folder of its own, and the program is run inside it, so that every path is
//! relative. Puzzles come from `tests/packs`, which `galley make` set (the seeds stand in
//! `lamp-store/pack.toml`). `SNAPSHOTS=overwrite cargo test -p galley` writes expected outputs anew; read
//! the difference before keeping it.

mod bad_files;
mod calibrate;
mod commands;
mod documents;
mod failures;
mod lists;
mod making;
mod press;
mod questions;
mod recordings;
mod repairs;
mod sealed;
mod season;
mod support;
