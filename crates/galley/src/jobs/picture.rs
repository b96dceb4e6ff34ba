//! `galley picture`: a cover, a board at any step, or the whole walkthrough as a silent film.

use std::path::{Path, PathBuf};

use rehearse::{Setting, board, cover, silent_film, stills};
use trail::StepId;

use crate::folder::{Files, OutFolder};
use crate::job::With;
use crate::json;
use crate::load::{shown, write_file};
use crate::one::One;
use crate::outcome::{Failure, Outcome};
use crate::print;
use crate::recordings::Recordings;

/// The command.
#[derive(Debug)]
pub(crate) struct Picture {
    /// The puzzle.
    pub(crate) one: One,
    /// What is shown.
    pub(crate) what: Shown,
    /// How many pixels wide.
    pub(crate) width: u32,
    /// The file to write, or the folder for frames.
    pub(crate) out: PathBuf,
}

/// What a picture shows.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Shown {
    /// The board as it is printed, or after a step.
    Board(Option<usize>),
    /// The cover.
    Cover,
    /// The walkthrough as one moving picture, with so many milliseconds a step.
    Film(u16),
    /// The walkthrough as numbered pictures: so many a second, and so many milliseconds a step.
    Frames(u8, u16),
}

impl Picture {
    /// Draws it and writes it.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let folder = match self.what {
            Shown::Frames(..) => Some(OutFolder::claim(&self.out)?),
            _ => None,
        };
        let (mut found, study) = self.one.find("its walkthrough", with)?;
        let recordings = Recordings::read(&self.one.target.path, &mut found)?;
        let study = study.and_then(|id| found.pack.all().find(|it| it.entry().id == id));
        let Some(setting) = study.and_then(|it| recordings.setting(&found, it)) else {
            return Ok(found.outcome_of_nothing(with));
        };
        let written = match folder {
            Some(folder) => folder.replace(&self.frames(&setting)?)?,
            None => {
                write_file(&self.out, &self.bytes(&setting)?)?;
                vec![self.out.to_string_lossy().into_owned()]
            }
        };
        let pictures = crate::words::counted(written.len(), "file");
        let note = format!("wrote {}, {pictures}", print::visible(&self.out.to_string_lossy()));
        Ok(Outcome {
            problems: found.problems(with),
            result: match with.is_json {
                true => json::text(&json::Pictured {
                    format: json::FORMAT,
                    puzzle: setting.study().entry().id.to_string(),
                    written,
                    problems: found.all_problems(),
                }),
                false => String::new(),
            },
            note: if with.is_json { String::new() } else { print::folded(&note, with.stderr) },
            has_errors: found.has_errors(),
        })
    }

    /// One file.
    fn bytes(&self, setting: &Setting) -> Result<Vec<u8>, Failure> {
        let is_svg = ending(&self.out) == "svg";
        if !is_svg && ending(&self.out) != "png" {
            let message = format!("{} is to be neither .png nor .svg", shown(&self.out));
            return Err(Failure::new(message, "name a file that ends in .png or .svg"));
        }
        let drawn = match (self.what, is_svg) {
            (Shown::Board(step), _) => {
                let svg = board(setting, step.map(|it| self.step(setting, it)).transpose()?);
                match is_svg {
                    true => Some(draw::standalone(&svg).into_bytes()),
                    false => picture::png(&svg, self.width),
                }
            }
            (_, true) => {
                return Err(Failure::new(
                    "covers and films are pictures of pixels",
                    "name a file that ends in .png",
                ));
            }
            (Shown::Film(milliseconds), _) => silent_film(setting, self.width, milliseconds),
            (Shown::Cover | Shown::Frames(..), _) => cover(setting),
        };
        drawn.ok_or_else(|| self.too_large())
    }

    /// Every frame, numbered from 1, each step for as many as its time asks for, at least one.
    fn frames(&self, setting: &Setting) -> Result<Files, Failure> {
        let Shown::Frames(rate, milliseconds) = self.what else { return Ok(Files::new()) };
        let mut files = Files::new();
        let each = (u32::from(rate) * u32::from(milliseconds) / 1_000).max(1);
        for it in stills(setting, milliseconds) {
            let png = picture::png(&it.svg, self.width).ok_or_else(|| self.too_large())?;
            for _ in 0..each {
                files.insert(format!("frame-{:06}.png", files.len() + 1), png.clone());
            }
        }
        Ok(files)
    }

    fn step(&self, setting: &Setting, number: usize) -> Result<StepId, Failure> {
        let trail = setting.account().explained.walkthrough().trail();
        let found = trail.steps().map(|it| it.0).find(|it| it.number() == number);
        found.ok_or_else(|| {
            let message = format!("the walkthrough has no step {number}");
            Failure::new(message, format!("its steps are 1 to {}", trail.n_steps()))
        })
    }

    fn too_large(&self) -> Failure {
        Failure::new(
            format!("a picture {} pixels wide cannot be drawn", self.width),
            format!("ask for 1 to {} pixels", picture::MOST_PIXELS),
        )
    }
}

fn ending(path: &Path) -> String {
    path.extension().map(|it| it.to_string_lossy().to_ascii_lowercase()).unwrap_or_default()
}
