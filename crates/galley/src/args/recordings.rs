//! What was typed about recordings.

use std::path::PathBuf;

use captions::Time;
use clap::Args;

use super::{RawEach, RawTarget};

#[derive(Args, Debug)]
pub(crate) struct RawPlan {
    #[command(flatten)]
    pub(crate) each: RawEach,

    /// Write the cue sheet, to a file that ends in .pdf or .html; of one puzzle only
    #[arg(long, value_name = "FILE")]
    pub(crate) sheet: Option<PathBuf>,

    /// Divide the walkthrough into recordings of at most this length, between passages
    #[arg(long, value_name = "M:SS")]
    pub(crate) divide: Option<Time>,

    /// Start notes/PUZZLE.toml, with the keys of all steps as remarks; one that is there is left as it is
    #[arg(long)]
    pub(crate) write: bool,
}

#[derive(Args, Debug)]
pub(crate) struct RawRecording {
    #[command(flatten)]
    pub(crate) one: RawOne,

    /// The log
    pub(crate) log: PathBuf,

    /// The cuts that were made, a line each: 1:05 to 1:09.5 why
    #[arg(long, value_name = "FILE")]
    pub(crate) cuts: Option<PathBuf>,

    /// Frames a second, for the edit list
    #[arg(long, value_name = "N", default_value = "25", value_parser = clap::value_parser!(u8).range(1..=120))]
    pub(crate) frames: u8,

    /// The folder to write
    #[arg(long, value_name = "DIR")]
    pub(crate) out: PathBuf,
}

#[derive(Args, Debug)]
pub(crate) struct RawPicture {
    #[command(flatten)]
    pub(crate) one: RawOne,

    /// The file to write, .png or .svg; with --frames the folder
    #[arg(long, value_name = "FILE")]
    pub(crate) out: PathBuf,

    /// The board after this step [default: as it is printed]
    #[arg(long, value_name = "N", conflicts_with_all = ["cover", "film", "frames"])]
    pub(crate) step: Option<usize>,

    /// The cover: 1280 by 720 pixels
    #[arg(long, conflicts_with_all = ["film", "frames"])]
    pub(crate) cover: bool,

    /// One moving picture (APNG)
    #[arg(long, conflicts_with = "frames")]
    pub(crate) film: bool,

    /// Numbered pictures for a video editor, so many a second
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=120))]
    pub(crate) frames: Option<u8>,

    /// Seconds for each step of a film or of frames, at most 60
    #[arg(long, value_name = "S", default_value = "2", value_parser = a_minute_at_most)]
    pub(crate) seconds: f64,

    /// Pixels across
    #[arg(long, value_name = "N", default_value = "1000", value_parser = clap::value_parser!(u32).range(1..=15_360))]
    pub(crate) width: u32,
}

#[derive(Args, Debug)]
pub(crate) struct RawReview {
    /// The recording's captions
    pub(crate) recording: PathBuf,

    #[command(flatten)]
    pub(crate) one: RawOne,

    #[command(flatten)]
    pub(crate) heard: RawHeard,

    /// The cuts that were made since: captions and chapters that are written are those of what is left
    #[arg(long, value_name = "FILE", requires = "out")]
    pub(crate) cuts: Option<PathBuf>,

    /// Write corrected captions, chapters, a list of cuts and notes of corrections into this folder
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Args, Debug)]
pub(crate) struct RawOne {
    #[command(flatten)]
    pub(crate) target: RawTarget,

    /// The id of one puzzle: its file's name without .toml; left out after a puzzle file
    pub(crate) puzzle: Option<String>,
}

#[derive(Args, Debug)]
pub(crate) struct RawHeard {
    /// The stage's log of the recording, which makes placings surer
    #[arg(long, value_name = "FILE")]
    pub(crate) log: Option<PathBuf>,

    /// Terms that captions commonly get wrong, in place of Galley's own list
    #[arg(long, value_name = "FILE")]
    pub(crate) glossary: Option<PathBuf>,
}

/// A number of seconds that is more than nothing and at most a minute.
fn a_minute_at_most(text: &str) -> Result<f64, String> {
    let read = text.parse::<f64>().ok().filter(|it| *it > 0.0 && *it <= 60.0);
    read.ok_or_else(|| "not a number of seconds above 0 and up to 60".to_owned())
}
