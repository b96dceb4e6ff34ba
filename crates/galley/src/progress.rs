//! Signs of life for those who wait: on a terminal only, and gone when the work is done.

use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::job::With;

/// A bar that counts puzzles up to `len`.
pub(crate) fn counting(len: usize, with: &With) -> ProgressBar {
    shown(Some(len as u64), "studying {pos} of {len} {bar:30}", with)
}

/// A sign that something goes on whose end cannot be foreseen.
pub(crate) fn waiting(what: &'static str, with: &With) -> ProgressBar {
    let sign = shown(None, "{spinner} {msg} ({elapsed}; Ctrl-C ends it)", with).with_message(what);
    sign.enable_steady_tick(Duration::from_millis(200));
    sign
}

fn shown(len: Option<u64>, template: &str, with: &With) -> ProgressBar {
    let target = match with.is_quiet {
        true => ProgressDrawTarget::hidden(),
        // Draws nothing where there is no terminal.
        false => ProgressDrawTarget::stderr(),
    };
    let style = ProgressStyle::with_template(template)
        .map_or_else(|_| ProgressStyle::default_bar(), |it| it.progress_chars("=>.").tick_chars("-\\|/ "));
    ProgressBar::with_draw_target(len, target).with_style(style)
}
