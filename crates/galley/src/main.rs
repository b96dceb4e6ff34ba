//! The program `galley`: a pack folder goes in, a proved, explained, graded and ordered pack comes out.
//!
//! This is the only crate with files, clock, environment and exit codes. What was typed
//! ([`RawArgs`]) becomes a [`Job`]; the job gives an [`Outcome`], which is text and nothing else; only
//! this file prints it. All judgement about puzzles is made by the crates below; the seal of a puzzle
//! is kept by `study`, so nothing here can break it by oversight.

mod args;
mod asked;
mod boards;
mod each;
mod folder;
mod job;
mod jobs;
mod json;
mod list;
mod load;
mod one;
mod outcome;
mod outputs;
mod places;
mod print;
mod progress;
mod range;
mod recordings;
mod screen;
mod solves;
mod steps;
mod stop;
mod studies;
mod trouble;
mod twins;
mod typed;
mod words;

use std::io::{self, Write};
use std::process::ExitCode;

use clap::Parser;

use crate::args::RawArgs;
use crate::job::Job;
use crate::outcome::{Failure, Outcome};

fn main() -> ExitCode {
    let raw = RawArgs::parse();
    let json = raw.json;
    let outcome = Job::try_from(raw).and_then(|job| job.run());
    let printed = match &outcome {
        Ok(outcome) => print(outcome),
        Err(failure) => print_failure(failure, json),
    };
    match (printed, outcome) {
        // Whoever was reading has seen enough: `galley explain … | head` is no failure.
        (Err(error), _) if error.kind() != io::ErrorKind::BrokenPipe => ExitCode::from(outcome::FAILED),
        (_, Ok(outcome)) => ExitCode::from(outcome.exit_code()),
        (_, Err(_)) => ExitCode::from(outcome::FAILED),
    }
}

/// Problems and closing notes go to stderr, results to stdout, in the order in which they are read.
fn print(outcome: &Outcome) -> io::Result<()> {
    io::stderr().write_all(outcome.problems.as_bytes())?;
    let mut stdout = io::stdout().lock();
    stdout.write_all(outcome.result.as_bytes())?;
    stdout.flush()?;
    io::stderr().write_all(outcome.note.as_bytes())
}

/// A failure is told to people on stderr, and with `--json` to programs on stdout too.
fn print_failure(failure: &Failure, json: bool) -> io::Result<()> {
    io::stderr().write_all(failure.to_string().as_bytes())?;
    if json {
        io::stdout().write_all(json::text(&json::Failed::of(failure)).as_bytes())?;
    }
    Ok(())
}
