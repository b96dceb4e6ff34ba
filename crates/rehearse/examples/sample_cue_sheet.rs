//! Writes the cue sheet of a puzzle file, so that a person can look at it:
//! `cargo run -p rehearse --example sample_cue_sheet -- demo/lantern-room/puzzles/two-moths.toml > cue.html`.
//! A seal is broken, so that there is something to look at.
#![allow(clippy::print_stdout)]

use std::error::Error;
use std::path::Path;

use packfile::{SourceFile, read_puzzle};

fn main() -> Result<(), Box<dyn Error>> {
    let path = std::env::args().nth(1).ok_or("give a puzzle file")?;
    let name = Path::new(&path).file_name().unwrap_or_default().to_string_lossy().into_owned();
    let file = SourceFile::new(format!("puzzles/{name}"), std::fs::read(&path)?);
    let entry = read_puzzle(&file).0.map_err(|_| "the file is no puzzle")?;
    let study = study::study(entry, true);
    println!("{}", rehearse::cue_sheet(&study, "The lantern room").ok_or("the puzzle has no walkthrough")?);
    Ok(())
}
