//! What is typed after `galley season`.

use std::path::PathBuf;

use clap::Args;
use pack::Day;

use super::RawTarget;

/// Print where every puzzle stands: received, sound, test-solved, placed, rehearsed, recorded, captioned, published; who
/// is waited for, and what to record next
///
/// All of it is seen in the pack's files: puzzles, solves, rehearsals, captions. Only days are typed: `received`, `record` and
/// `release` in a puzzle's file.
#[derive(Args, Debug)]
pub(crate) struct RawSeason {
    #[command(flatten)]
    pub(crate) target: RawTarget,

    /// The day it is, such as 2026-12-01: recordings are out from their day of release on [default: today in
    /// Greenwich]
    #[arg(long, value_name = "DATE")]
    pub(crate) on: Option<Day>,

    /// Write the planned days to this file too, as a calendar that other programs read (iCalendar, RFC 5545)
    #[arg(long, value_name = "FILE")]
    pub(crate) calendar: Option<PathBuf>,
}
