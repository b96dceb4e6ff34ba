//! What is to be done, once it is clear what was meant.

use captions::FrameRate;
use reason::Known;

use crate::args::{
    RawArgs, RawCommand, RawDesk, RawEach, RawHeard, RawKnows, RawOne, RawPicture, RawPlan, RawRecording,
    RawReview, RawSeason, RawTarget, RawWhy,
};
use crate::each::Each;
use crate::jobs::{
    Accounts, AskedChange, Calibrate, Check, Drills, Explain, Gaps, Grade, HeardWith, Judge, Make, Mend, New,
    OpenDesk, Order, Picture, PlanRecording, Press, Recording, ReviewRecording, SeasonOf, Settle, Shown,
    Spare, Table, Teaches, Twins, Vary, Why, WhyAt,
};
use crate::one::One;
use crate::outcome::{Failure, Outcome};
use crate::progress::Told;
use crate::screen::Screen;
use crate::stop::Stop;
use crate::studies::Target;
use crate::words;

/// One run of the program.
#[derive(Debug)]
pub(crate) struct Job {
    task: Task,
    is_json: bool,
    is_quiet: bool,
}

#[derive(Debug)]
enum Task {
    New(New),
    Check(Check),
    Explain(Explain),
    Grade(Grade),
    Calibrate(Calibrate),
    Why(Why),
    Judge(Judge),
    Mend(Mend),
    Settle(Settle),
    Spare(Spare),
    Twins(Twins),
    Teaches(Teaches),
    Order(Order),
    Table(Table),
    Season(SeasonOf),
    Make(Box<Make>),
    Vary(Vary),
    Drill(Box<Drills>),
    Gaps(Box<Gaps>),
    Press(Press),
    Plan(PlanRecording),
    Recording(Recording),
    Picture(Picture),
    Review(ReviewRecording),
    WhyAt(WhyAt),
    Desk(OpenDesk),
    Accounts(Accounts),
}

/// What a job works with, beside what it is about.
#[derive(Debug)]
pub(crate) struct With {
    /// Whether the result is one JSON document.
    pub(crate) is_json: bool,
    /// Whether to leave out the progress bar and closing notes.
    pub(crate) is_quiet: bool,
    /// Whether somebody asked to stop.
    pub(crate) stop: Stop,
    /// Where results go.
    pub(crate) stdout: Screen,
    /// Where problems go.
    pub(crate) stderr: Screen,
    /// Who is told how far the work is, beside the terminal.
    pub(crate) told: Option<Told>,
}

impl TryFrom<RawArgs> for Job {
    type Error = Failure;

    fn try_from(raw: RawArgs) -> Result<Job, Failure> {
        let task = match raw.command {
            RawCommand::New { dir } => Task::New(New { dir }),
            RawCommand::Check { target, archive } => {
                Task::Check(Check { target: target.into(), archive: archive.archive })
            }
            RawCommand::Mend { each, all } => Task::Mend(Mend { each: each.into(), all }),
            RawCommand::Settle { each, solution } => Task::Settle(Settle { each: each.into(), solution }),
            RawCommand::Spare(each) => Task::Spare(Spare { each: each.into() }),
            RawCommand::Twins { packs, unseal } => Task::Twins(Twins { paths: packs, unseal }),
            RawCommand::Explain { each, knows } => {
                Task::Explain(Explain { each: each.into(), knows: knows.into() })
            }
            RawCommand::Grade { each, knows } => {
                Task::Grade(Grade { each: each.into(), knows: knows.into() })
            }
            RawCommand::Calibrate { target, write } => {
                Task::Calibrate(Calibrate { target: target.into(), write })
            }
            RawCommand::Why(raw) => why(raw)?,
            RawCommand::Desk(raw) => desk(raw),
            RawCommand::Review(RawReview { recording, one, heard, cuts, out }) => {
                Task::Review(ReviewRecording { recording, one: one.into(), heard: heard.into(), cuts, out })
            }
            RawCommand::Judge(raw) => Task::Judge(raw.into()),
            RawCommand::Teaches(each) => Task::Teaches(Teaches { each: each.into() }),
            RawCommand::Order { target, choose, moves } => {
                Task::Order(Order { target: target.into(), choose, moves })
            }
            RawCommand::Season(RawSeason { target, on, calendar }) => {
                Task::Season(SeasonOf { target: target.into(), on, calendar })
            }
            RawCommand::Table(target) => Task::Table(Table { target: target.into() }),
            RawCommand::Make(raw) => match (Vary::asked(&raw), Drills::asked(&raw)?) {
                (Some(it), _) => Task::Vary(it),
                (_, Some(it)) => Task::Drill(Box::new(it)),
                (None, None) => match Gaps::asked(*raw)? {
                    Ok(it) => Task::Gaps(Box::new(it)),
                    Err(raw) => Task::Make(Box::new(Make::try_from(raw)?)),
                },
            },
            RawCommand::Plan(RawPlan { each, divide, write, sheet }) => {
                Task::Plan(PlanRecording { each: each.into(), divide, write, sheet })
            }
            RawCommand::Recording(RawRecording { one, log, cuts, frames, out }) => {
                Task::Recording(Recording {
                    one: one.into(),
                    log,
                    cuts,
                    frames: FrameRate::new(frames).ok_or_else(no_frame_rate)?,
                    out,
                })
            }
            RawCommand::Picture(RawPicture { one, out, step, cover, film, frames, seconds, width }) => {
                // At most a minute, so it fits.
                let milliseconds = (seconds * 1_000.0).round() as u16;
                let what = match frames {
                    _ if cover => Shown::Cover,
                    _ if film => Shown::Film(milliseconds),
                    Some(rate) => Shown::Frames(rate, milliseconds),
                    None => Shown::Board(step),
                };
                Task::Picture(Picture { one: one.into(), what, width, out })
            }
            RawCommand::Press { target, out, issued, forms, strict, print_cues, archive } => {
                Task::Press(Press {
                    target: target.into(),
                    out,
                    issued,
                    forms,
                    is_strict: strict,
                    print_cues,
                    archive: archive.archive,
                })
            }
        };
        Ok(Job { task, is_json: raw.json, is_quiet: raw.quiet })
    }
}

impl From<RawKnows> for Option<Known> {
    fn from(raw: RawKnows) -> Option<Known> {
        let ids = |names: Vec<String>| names.into_iter().filter_map(|it| words::technique_named(&it));
        raw.knows.map(|it| Known::only(ids(it)))
    }
}

impl From<RawEach> for Each {
    fn from(raw: RawEach) -> Each {
        Each { target: raw.target.into(), puzzle: raw.puzzle }
    }
}

/// The desk, or its accounts.
fn desk(raw: RawDesk) -> Task {
    let RawDesk { pack, port, address, public_url, no_browser, .. } = raw;
    let add = raw.add_account.map(AskedChange::Add);
    let change = raw.change_password.map(AskedChange::ChangePassword);
    let remove = raw.remove_account.map(AskedChange::Remove);
    let list = raw.accounts.then_some(AskedChange::List);
    match add.or(change).or(remove).or(list) {
        Some(change) => Task::Accounts(Accounts { pack, change }),
        None => {
            let address = (address, port).into();
            Task::Desk(OpenDesk { pack, address, public_url, opens_browser: !no_browser })
        }
    }
}

/// A question about a cell, or about a time of a recording.
fn why(raw: RawWhy) -> Result<Task, Failure> {
    let Some(at) = raw.at else { return Ok(Task::Why(Why::try_from(raw)?)) };
    if raw.puzzle.is_some() && raw.cell.is_some() {
        return Err(Failure::new("a time is asked about, and a cell too", "leave out the cell or --at"));
    }
    let recording = raw.recording.ok_or_else(|| {
        Failure::new("a time is asked about, and of no recording", "name its captions with --recording")
    })?;
    Ok(Task::WhyAt(WhyAt {
        one: One { target: raw.target.into(), puzzle: raw.puzzle },
        at,
        recording,
        heard: raw.heard.into(),
        picture: raw.picture,
    }))
}

impl From<RawHeard> for HeardWith {
    fn from(raw: RawHeard) -> HeardWith {
        HeardWith { log: raw.log, glossary: raw.glossary }
    }
}

impl From<RawOne> for One {
    fn from(raw: RawOne) -> One {
        One { target: raw.target.into(), puzzle: raw.puzzle }
    }
}

/// Never met: the command line takes rates from 1 to 120 only.
fn no_frame_rate() -> Failure {
    Failure::new("there is no such frame rate", "name one from 1 to 120")
}

impl From<RawTarget> for Target {
    fn from(raw: RawTarget) -> Target {
        Target { path: raw.pack, unseal: raw.unseal }
    }
}

impl Job {
    /// Does it.
    ///
    /// # Errors
    ///
    /// If the program could not do its work.
    pub(crate) fn run(self) -> Result<Outcome, Failure> {
        let with = With {
            is_json: self.is_json,
            is_quiet: self.is_quiet,
            stop: Stop::listen(),
            stdout: Screen::of_stdout(),
            stderr: Screen::of_stderr(),
            told: None,
        };
        let mut outcome = match self.task {
            Task::New(it) => it.run(&with),
            Task::Check(it) => it.run(&with),
            Task::Explain(it) => it.run(&with),
            Task::Grade(it) => it.run(&with),
            Task::Calibrate(it) => it.run(&with),
            Task::Why(it) => it.run(&with),
            Task::Judge(it) => it.run(&with),
            Task::Mend(it) => it.run(&with),
            Task::Settle(it) => it.run(&with),
            Task::Spare(it) => it.run(&with),
            Task::Twins(it) => it.run(&with),
            Task::Teaches(it) => it.run(&with),
            Task::Order(it) => it.run(&with),
            Task::Table(it) => it.run(&with),
            Task::Season(it) => it.run(&with),
            Task::Make(it) => it.run(&with),
            Task::Vary(it) => it.run(&with),
            Task::Drill(it) => it.run(&with),
            Task::Gaps(it) => it.run(&with),
            Task::Press(it) => it.run(&with),
            Task::Plan(it) => it.run(&with),
            Task::Recording(it) => it.run(&with),
            Task::Picture(it) => it.run(&with),
            Task::Review(it) => it.run(&with),
            Task::WhyAt(it) => it.run(&with),
            Task::Desk(it) => it.run(&with),
            Task::Accounts(it) => it.run(&with),
        }?;
        if with.is_quiet {
            outcome.note.clear();
        }
        Ok(outcome)
    }
}
