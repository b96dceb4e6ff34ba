//! Writes the stage of every puzzle of a pack that is open: `cargo run -p rehearse --example stage -- PACK FOLDER`.
//!
//! For tests in a browser and for looking at it, without all the rest that `galley press` makes. Puzzles are taken by
//! themselves, in the order of their names, so all techniques are introduced; the first step has a note of the editor's.

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};

use captions::Time;
use pack::{Notes, StepNote};
use packfile::{SourceFile, read_puzzle};
use rehearse::{Plan, Setting, stage, stage_shared};
use study::study;

fn main() -> Result<(), Box<dyn Error>> {
    let mut args = std::env::args().skip(1);
    let (Some(pack), Some(folder)) = (args.next(), args.next()) else {
        return Err("name the folder of a pack and the folder to write to".into());
    };
    let folder = Path::new(&folder);
    fs::create_dir_all(folder)?;
    let mut paths: Vec<PathBuf> = Vec::new();
    for it in fs::read_dir(Path::new(&pack).join("puzzles"))? {
        paths.push(it?.path());
    }
    paths.sort();
    let mut files = stage_shared();
    for path in paths {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let (entry, _) = read_puzzle(&SourceFile::new(name, fs::read_to_string(&path)?));
        let Ok(entry) = entry else { continue };
        let study = study(entry, false);
        let Some(setting) = Setting::alone(&study, "The lantern room") else { continue };
        let first = Plan::new(&setting).script.cue(0).map(|it| it.key.clone());
        let note = |key| StepNote { key, says: "Wave at the back row.".to_owned() };
        let notes = Notes {
            target: Some(Time::seconds(900)),
            steps: first.into_iter().map(note).collect(),
            ..Notes::default()
        };
        files.extend(stage(&setting.noted(notes)));
    }
    for (path, bytes) in files {
        fs::write(folder.join(path), bytes)?;
    }
    Ok(())
}
