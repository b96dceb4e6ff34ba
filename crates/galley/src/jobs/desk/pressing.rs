//! `galley press` as the desk has it done: the same work and the same words, told as it goes on, and broken off when asked.

use std::sync::Arc;

use desk::{Failure, Pressed, WantedPress, Watched};

use crate::job::With;
use crate::jobs::Press;
use crate::progress::Told;
use crate::screen::Screen;
use crate::stop::Stop;
use crate::studies::Target;

/// What the desk presses with.
#[derive(Debug)]
pub(super) struct Pressing;

impl desk::Press for Pressing {
    fn press(&self, wanted: &WantedPress, watched: &Watched) -> Result<Pressed, Failure> {
        let (asked, telling) = (watched.clone(), watched.clone());
        let tell = move |what: &str, counted| telling.tell(&format!("{}.", tell::capital(what)), counted);
        let with = With {
            is_json: false,
            is_quiet: true,
            stop: Stop::when(move || asked.is_cancelled()),
            stdout: Screen::PLAIN,
            stderr: Screen::PLAIN,
            told: Some(Told(Arc::new(tell))),
        };
        let press = Press {
            target: Target { path: wanted.pack.clone(), unseal: wanted.unseal },
            out: wanted.out.clone(),
            issued: wanted.issued,
            forms: wanted.forms.clone(),
            print_cues: wanted.print_cues,
            archive: Vec::new(),
            is_strict: wanted.is_strict,
        };
        // On the desk's pages the pack's folder goes without saying.
        let pack = format!("{}/", wanted.pack.to_string_lossy());
        let within = |text: String| text.replace(&pack, "");
        match press.run(&with) {
            Ok(it) => Ok(Pressed {
                problems: within(it.problems),
                note: within(it.note),
                has_errors: it.has_errors,
            }),
            Err(it) => Err(Failure {
                message: within(it.message),
                help: within(it.help.unwrap_or_else(|| "begin it again".to_owned())),
            }),
        }
    }
}
