//! Where every puzzle of a pack stands on its way from the setter to the public, and what is told of it.
//!
//! [`Season::of`] derives it from what the pack's files say: nothing is typed that can be seen. [`calendar()`] gives the
//! planned days as RFC 5545 has them, [`letter()`] what a setter is told of a puzzle. All are pure: files, today's day
//! and the time of writing come from outside.
//!
//! Left out: whether what is written at an address is still there, and whether captions fit their recording.

mod approval;
mod breaks;
mod calendar;
mod letter;
mod recording;
mod row;
mod stage;
mod waiting;

pub use approval::Approved;
pub use calendar::{calendar, day_at, seconds_at};
pub use letter::{Letter, TestedBy, letter};
pub use recording::ToRecord;
pub use row::{Row, Season, Seen};
pub use stage::{Reached, STAGES, Stage, Standing};
pub use waiting::{Waiting, Who};
