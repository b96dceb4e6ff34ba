//! The cue sheet: the plan of a recording, laid out to be read at a glance.
//!
//! [`on_screen`] is one HTML page that stands alone (no script, nothing fetched), [`in_print`] the same as PDF. Both have what
//! to keep in mind first, then what is said in the order in which it is said: credit and rules, the walkthrough passage by
//! passage beside small boards, the close. What is said, and how long it takes, is `rehearse`'s.

mod print;
mod screen;

pub use print::in_print;
pub use screen::on_screen;

use rehearse::{Cue, Plan};

/// At most so many steps are spoken beside one board: about as much as a presenter's eye keeps hold of.
const MOST_STEPS: usize = 6;

/// A line as it is read: its premises, and what it comes to, which stands out.
fn said(line: &str) -> (&str, &str) {
    // A step ends in its conclusions, after "So"; a line without one has nothing that stands out.
    match line.rfind(". So ") {
        Some(at) => line.split_at(at + 2),
        None => (line, ""),
    }
}

/// Whether a step is the first of a technique that is new here.
fn is_new(plan: &Plan, cue: &Cue) -> bool {
    plan.introductions.iter().any(|it| it.step == cue.step)
}

/// What the times rest on.
fn basis(plan: &Plan) -> String {
    let mark = seconds(plan.pace.mark);
    let rests_on = match plan.pace.n_steps {
        0 => "Estimated, not timed.".to_owned(),
        n => format!("Your own pace, from {n} steps of rehearsals."),
    };
    let words = plan.pace.words_a_minute;
    format!("{words} words a minute, and {mark} for each mark put on the board. {rests_on}")
}

/// `1.5 seconds`.
fn seconds(captions::Time(milliseconds): captions::Time) -> String {
    let (whole, tenths) = (milliseconds / 1_000, milliseconds % 1_000 / 100);
    if tenths == 0 { format!("{whole} seconds") } else { format!("{whole}.{tenths} seconds") }
}
