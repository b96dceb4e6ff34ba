//! Writes the cue sheet of a puzzle's file, without its pack, as HTML and as PDF, to be looked at.
//!
//! `cargo run -p cue --example sheets -- demo/lantern-room/puzzles/first-light.toml OUT`

use std::error::Error;
use std::path::Path;

use packfile::{SourceFile, read_puzzle};
use rehearse::{Plan, Setting};
use study::study;

fn main() -> Result<(), Box<dyn Error>> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [puzzle, out] = &args[..] else { return Err("name a puzzle's file and a folder".into()) };
    let file = SourceFile::new(&**puzzle, std::fs::read(puzzle)?);
    let entry = read_puzzle(&file).0.map_err(|_| "the puzzle cannot be read")?;
    let study = study(entry, true);
    let setting = Setting::alone(&study, "The lantern room").ok_or("it has no walkthrough")?;
    let plan = Plan::new(&setting);
    std::fs::create_dir_all(out)?;
    std::fs::write(Path::new(out).join("cue.html"), cue::on_screen(&setting, &plan))?;
    std::fs::write(Path::new(out).join("cue.pdf"), cue::in_print(&setting, &plan)?)?;
    std::fs::write(Path::new(out).join("cover.png"), rehearse::cover(&setting).ok_or("no cover")?)?;
    let film = rehearse::silent_film(&setting, 640, 1_500).ok_or("no film")?;
    std::fs::write(Path::new(out).join("film.png"), film)?;
    Ok(())
}
