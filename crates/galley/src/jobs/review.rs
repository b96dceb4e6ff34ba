//! `galley review`: what was really said in a recording, held against the walkthrough.

use std::fmt::Write;
use std::path::PathBuf;

use captions::{Cut, Cuts, FrameRate, Time, chapter_lines, chapters_webvtt, cut_lines, edit_list, webvtt};
use packfile::read_rehearsal;
use rehearse::{Plan, Recorded, Setting};
use review::{Expected, GLOSSARY, Glossary, Match, Placing, Review, correction_note};

use super::recording::cuts_made;
use crate::folder::{Files, OutFolder};
use crate::job::With;
use crate::json;
use crate::load::{read_file, shown};
use crate::one::One;
use crate::outcome::{Failure, Outcome};
use crate::print;
use crate::recordings::Recordings;
use crate::screen::Screen;

/// What is left of a long silence at each end when it is cut.
const BREATH: Time = Time(500);

/// Frames a second of the edit list.
const FRAMES: u8 = 25;

/// The command.
#[derive(Debug)]
pub(crate) struct ReviewRecording {
    /// The captions.
    pub(crate) recording: PathBuf,
    /// The puzzle.
    pub(crate) one: One,
    /// What was noted of it beside.
    pub(crate) heard: HeardWith,
    /// The cuts that have been made since, if any.
    pub(crate) cuts: Option<PathBuf>,
    /// The folder to write, if any.
    pub(crate) out: Option<PathBuf>,
}

/// What helps to hear a recording right.
#[derive(Debug)]
pub(crate) struct HeardWith {
    /// The stage's log of it.
    pub(crate) log: Option<PathBuf>,
    /// Terms that are commonly misheard.
    pub(crate) glossary: Option<PathBuf>,
}

/// A recording that has been heard.
pub(crate) struct HeardRecording {
    /// What was to be said.
    pub(crate) expected: Expected,
    /// What was said.
    pub(crate) review: Review,
    /// What the log offers to cut.
    logged_cuts: Vec<Cut>,
}

impl HeardWith {
    /// Holds the captions in that file against the walkthrough.
    ///
    /// # Errors
    ///
    /// If a file cannot be read, or a log or a glossary is none.
    pub(crate) fn hear(
        &self,
        recording: &std::path::Path,
        setting: &Setting,
    ) -> Result<HeardRecording, Failure> {
        let glossary = match &self.glossary {
            None => Glossary::read(GLOSSARY),
            Some(path) => {
                let file = read_file(path)?;
                Glossary::read(&String::from_utf8_lossy(&file.bytes))
            }
        };
        let glossary = glossary.map_err(|it| {
            let path = self.glossary.as_deref().unwrap_or(recording);
            Failure::new(
                format!("{} is no glossary: {}", shown(path), print::visible(&it.to_string())),
                "see docs/format.md for how a glossary is written",
            )
        })?;
        let puzzle = &setting.study().entry().puzzle;
        let mut expected = Expected::of(puzzle, setting.account().explained.walkthrough());
        let mut logged_cuts = Vec::new();
        if let Some(path) = &self.log {
            let file = read_file(path)?;
            let logged = read_rehearsal(&file).and_then(|it| it.check(setting.study().entry()).map(|()| it));
            let logged = logged.map_err(|it| {
                Failure::new(format!("{}: {}", shown(path), it.message), it.help.unwrap_or_default())
            })?;
            let plan = Plan::new(setting);
            let recorded = Recorded::new(&plan.script, &logged.rehearsal, plan.pace);
            expected.log = recorded.reached().iter().filter_map(|it| Some((it.from, it.step?))).collect();
            logged_cuts = recorded.cuts().iter().cloned().collect();
        }
        let file = read_file(recording)?;
        let review = review::review(&file.bytes, &expected, &glossary);
        Ok(HeardRecording { expected, review, logged_cuts })
    }
}

impl ReviewRecording {
    /// Tells what was found, and writes what it gives. A recording of another puzzle is a problem.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let out = self.out.as_deref().map(OutFolder::claim).transpose()?;
        let (mut found, study) = self.one.find("a review", with)?;
        let recordings = Recordings::read(&self.one.target.path, &mut found)?;
        let study = study.and_then(|id| found.pack.all().find(|it| it.entry().id == id));
        let Some(setting) = study.and_then(|it| recordings.setting(&found, it)) else {
            return Ok(found.outcome_of_nothing(with));
        };
        let heard = self.heard.hear(&self.recording, &setting)?;
        let made = cuts_made(self.cuts.as_deref(), heard.review.total)?;
        let written = match out {
            Some(out) => out.replace(&heard.files(setting.study().entry(), &made))?,
            None => Vec::new(),
        };
        let matches = heard.review.matches != Match::No;
        let note = match &self.out {
            Some(out) => format!(
                "wrote captions, chapters, cuts and corrections in {}/",
                print::visible(&out.to_string_lossy())
            ),
            None => "nothing was written; --out writes captions, chapters, cuts and corrections".to_owned(),
        };
        Ok(Outcome {
            problems: found.problems(with),
            result: match with.is_json {
                true => {
                    let id = setting.study().entry().id.to_string();
                    json::text(&heard.document(id, written, found.all_problems()))
                }
                false => heard.in_words(with.stdout),
            },
            note: if with.is_json { String::new() } else { print::folded(&note, with.stderr) },
            has_errors: found.has_errors() || !matches,
        })
    }
}

impl HeardRecording {
    /// What may be cut: long silences, slips that were put right, and what the log offers.
    fn cuts(&self) -> Cuts {
        let silences = self.review.silences.iter().map(|it| Cut {
            from: it.from + BREATH,
            to: it.to - BREATH,
            why: "silence".to_owned(),
        });
        let slips = self.review.slips.iter().filter_map(|it| {
            let put_right = it.corrected?;
            Some(Cut { from: it.from, to: put_right, why: format!("slip: {}", it.quote) })
        });
        Cuts::new(silences.chain(slips).chain(self.logged_cuts.iter().cloned()), self.review.total)
    }

    /// The files by their names: captions and chapters as they are after the cuts that were made.
    fn files(&self, entry: &pack::Entry, made: &Cuts) -> Files {
        let review = &self.review;
        let cuts = if made.is_empty() { self.cuts() } else { made.clone() };
        let chapters = made.chapters(&review.chapters, review.total);
        // From 1 to 120 frames a second there is a rate.
        let list = FrameRate::new(FRAMES)
            .map(|it| edit_list(&cuts, review.total, it, &entry.title, entry.id.as_str()))
            .unwrap_or_default();
        let notes: String = (review.slips.iter())
            .filter(|it| it.corrected.is_none())
            .map(|it| format!("{}\n", correction_note(it)))
            .collect();
        Files::from(
            [
                ("captions.vtt", webvtt(&made.captions(&review.captions))),
                ("chapters.vtt", chapters_webvtt(&chapters, review.total - made.total())),
                ("chapters.txt", chapter_lines(&chapters)),
                (
                    "cuts.txt",
                    format!(
                        "# Suggested. Change what you like; `galley recording --cuts` takes it.\n{}",
                        cut_lines(&cuts)
                    ),
                ),
                ("cuts.edl", list),
                ("corrections.txt", notes),
            ]
            .map(|(name, text)| (name.to_owned(), text.into_bytes())),
        )
    }

    /// Everything that was found out, under headings.
    fn in_words(&self, screen: Screen) -> String {
        let review = &self.review;
        let n = |of: fn(&Placing) -> bool| review.steps.iter().filter(|it| of(it)).count();
        let mut text = match review.matches {
            Match::Yes => format!(
                "of {} steps {} are placed, {} unsure, {} not spoken\n",
                review.steps.len(),
                n(|it| matches!(it, Placing::At { .. })),
                n(|it| matches!(it, Placing::Unsure { .. })),
                n(|it| matches!(it, Placing::NotSpoken)),
            ),
            Match::No => "this does not match: it sounds like a recording of another puzzle\n".to_owned(),
            Match::Unknown => "too little is said to tell whether it is of this puzzle\n".to_owned(),
        };
        let faults: Vec<String> = review.faults.iter().map(ToString::to_string).collect();
        let slips: Vec<String> = (review.slips.iter())
            .map(|it| match it.corrected {
                Some(then) => format!(
                    "{} \"{}\": {}, put right at {}",
                    it.at.clock(),
                    it.quote,
                    it.because,
                    then.clock()
                ),
                None => format!("{} \"{}\": {}", it.at.clock(), it.quote, it.because),
            })
            .collect();
        let silences: Vec<String> =
            (review.silences.iter()).map(|it| format!("{} to {}", it.from.clock(), it.to.clock())).collect();
        let numbers: Vec<String> =
            review.unspoken().map(|it| self.expected.steps[it].number.to_string()).collect();
        let unspoken =
            if numbers.is_empty() { Vec::new() } else { vec![format!("steps {}", tell::list(&numbers))] };
        let misheard: Vec<String> = (review.misheard.iter())
            .map(|it| format!("{} \"{}\" is now \"{}\"", it.at.clock(), it.heard, it.say))
            .collect();
        let chapters: Vec<String> = chapter_lines(&review.chapters).lines().map(str::to_owned).collect();
        for (heading, lines) in [
            ("In the file", faults),
            ("Chapters", chapters),
            ("Reckoned wrongly", slips),
            ("Long silences", silences),
            ("Never spoken", unspoken),
            ("Misheard", misheard),
        ] {
            if !lines.is_empty() {
                _ = writeln!(text, "\n{heading}");
                text.extend(
                    lines.iter().map(|it| print::folded(&format!("- {}", print::visible(it)), screen)),
                );
            }
        }
        text
    }

    fn document(&self, puzzle: String, written: Vec<String>, problems: Vec<json::Problem>) -> json::Reviewed {
        let review = &self.review;
        let steps = review.steps.iter().zip(&self.expected.steps).map(|(it, step)| {
            let (placed, from, to, sure) = match *it {
                Placing::At { from, to, sure } => ("sure", Some(from), Some(to), Some(sure)),
                Placing::Unsure { perhaps, sure } => ("unsure", perhaps, None, Some(sure)),
                Placing::NotSpoken => ("not-spoken", None, None, None),
            };
            json::PlacedStep {
                step: step.number,
                placed,
                from: from.map(Time::as_seconds),
                to: to.map(Time::as_seconds),
                // Two decimals say as much as there is to say.
                sure: sure.map(|it| (it * 100.0).round() / 100.0),
            }
        });
        json::Reviewed {
            format: json::FORMAT,
            puzzle,
            matches: match review.matches {
                Match::Yes => "yes",
                Match::No => "no",
                Match::Unknown => "unknown",
            },
            total: review.total.as_seconds(),
            steps: steps.collect(),
            chapters: (review.chapters.iter())
                .map(|it| json::Chapter { at: it.at.as_seconds(), title: it.title.clone() })
                .collect(),
            slips: (review.slips.iter())
                .map(|it| json::Slip {
                    at: it.at.as_seconds(),
                    quote: it.quote.clone(),
                    said: it.said,
                    right: it.right,
                    because: it.because.clone(),
                    corrected: it.corrected.map(Time::as_seconds),
                    note: correction_note(it),
                })
                .collect(),
            silences: (review.silences.iter()).map(|it| [it.from.as_seconds(), it.to.as_seconds()]).collect(),
            misheard: (review.misheard.iter())
                .map(|it| json::Misheard {
                    at: it.at.as_seconds(),
                    heard: it.heard.clone(),
                    say: it.say.clone(),
                })
                .collect(),
            cuts: self
                .cuts()
                .iter()
                .map(|it| json::Cut {
                    from: it.from.as_seconds(),
                    to: it.to.as_seconds(),
                    why: it.why.clone(),
                })
                .collect(),
            faults: (review.faults.iter())
                .map(|it| json::CaptionFault { line: it.line, says: it.fault.to_string() })
                .collect(),
            written,
            problems,
        }
    }
}
