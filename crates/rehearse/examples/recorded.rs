//! Writes what the log of a recording gives, of a puzzle of the demo whose walkthrough is said at the planned pace with a
//! pause and an undone entry in it, before and after those are cut: for readers of such files that are not ours.
//!
//! `cargo run -p rehearse --example recorded -- demo/lantern-room/puzzles/first-light.toml OUT`

use std::error::Error;
use std::fs;
use std::path::Path;

use captions::{Cuts, FrameRate, Time, chapters_webvtt, edit_list, webvtt};
use pack::{Event, Happening, Rehearsal};
use packfile::{SourceFile, read_puzzle};
use rehearse::{Pace, Plan, Recorded, Script, Setting};
use study::study;

fn main() -> Result<(), Box<dyn Error>> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [puzzle, out] = &args[..] else { return Err("name a puzzle's file and a folder".into()) };
    let entry = read_puzzle(&SourceFile::new(&**puzzle, fs::read(puzzle)?)).0;
    let study = study(entry.map_err(|_| "the puzzle cannot be read")?, true);
    let setting = Setting::alone(&study, "The <lantern> & room").ok_or("it has no walkthrough")?;
    let script = Plan::new(&setting).script;
    let log = log(&script);
    let recorded = Recorded::new(&script, &log, Pace::default());
    for (folder, cuts) in [("before", Cuts::default()), ("after", recorded.cuts())] {
        let folder = Path::new(out).join(folder);
        fs::create_dir_all(&folder)?;
        let after = log.total - cuts.total();
        fs::write(folder.join("captions.vtt"), webvtt(&recorded.captions(&cuts).captions))?;
        let chapters = cuts.chapters(&recorded.parts(), log.total);
        fs::write(folder.join("chapters.vtt"), chapters_webvtt(&chapters, after))?;
        let rate = FrameRate::new(25).ok_or("25 frames a second are a rate")?;
        fs::write(folder.join("cuts.edl"), edit_list(&cuts, log.total, rate, "First light", "take1"))?;
        fs::write(folder.join("seconds.txt"), after.as_seconds().to_string())?;
    }
    Ok(())
}

/// Everything at its planned time, with half a minute away after three steps, and an entry undone after ten.
fn log(script: &Script) -> Rehearsal {
    let mut at = Time(0);
    let mut events = vec![Event { at, is: Happening::Opening }];
    at = at + script.opening;
    for (n, cue) in script.cues().enumerate() {
        events.push(Event { at, is: Happening::Step { number: n + 1, key: cue.key.clone() } });
        at = at + cue.takes;
        if n == 3 {
            events.push(Event { at, is: Happening::Pause });
            at = at + Time(30_120);
            events.push(Event { at, is: Happening::Resume });
        }
        if let (10, Some(cell)) = (n, grid::Size::NINE.cell(1, 1)) {
            events.push(Event { at, is: Happening::Undone { cell, since: at - Time(2_040) } });
        }
    }
    events.push(Event { at, is: Happening::Close });
    Rehearsal { puzzle: "first-light".to_owned(), is_recording: true, total: at + script.closing, events }
}
