//! Signs of life for those who wait: on a terminal, gone when the work is done; or told to whoever began the work.

use std::fmt;
use std::sync::Arc;
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::job::With;

/// Is told what is being done, and how much of it is done if that can be counted: so many of so many.
#[derive(Clone)]
pub(crate) struct Told(pub(crate) Arc<Telling>);

type Telling = dyn Fn(&str, Option<(u64, u64)>) + Send + Sync;

impl fmt::Debug for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Told")
    }
}

/// A sign that is there until the work is done.
pub(crate) struct Sign {
    bar: ProgressBar,
    what: String,
    told: Option<Told>,
}

/// A bar that counts puzzles up to `len`.
pub(crate) fn counting(len: usize, with: &With) -> Sign {
    shown(Some(len as u64), "studying {pos} of {len} {bar:30}", "studying the puzzles", with)
}

/// A sign that something goes on whose end cannot be foreseen.
pub(crate) fn waiting(what: &'static str, with: &With) -> Sign {
    let sign = shown(None, "{spinner} {msg} ({elapsed}; Ctrl-C ends it)", what, with);
    sign.bar.set_message(what);
    if sign.told.is_none() {
        sign.bar.enable_steady_tick(Duration::from_millis(200));
    }
    sign
}

impl Sign {
    /// So much more is done.
    pub(crate) fn inc(&self, by: u64) {
        self.bar.inc(by);
        self.tell();
    }

    /// It is at something else now.
    pub(crate) fn set_message(&mut self, what: String) {
        self.bar.set_message(what.clone());
        self.what = what;
        self.tell();
    }

    /// Takes the sign away.
    pub(crate) fn finish_and_clear(&self) {
        self.bar.finish_and_clear();
    }

    fn tell(&self) {
        if let Some(told) = &self.told {
            (told.0)(&self.what, self.bar.length().map(|it| (self.bar.position(), it)));
        }
    }
}

fn shown(len: Option<u64>, template: &str, what: &str, with: &With) -> Sign {
    let target = match with.is_quiet {
        true => ProgressDrawTarget::hidden(),
        // Draws nothing where there is no terminal.
        false => ProgressDrawTarget::stderr(),
    };
    let style = ProgressStyle::with_template(template)
        .map_or_else(|_| ProgressStyle::default_bar(), |it| it.progress_chars("=>.").tick_chars("-\\|/ "));
    let bar = ProgressBar::with_draw_target(len, target).with_style(style);
    let sign = Sign { bar, what: what.to_owned(), told: with.told.clone() };
    sign.tell();
    sign
}
