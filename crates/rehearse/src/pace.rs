//! The pace of speaking: two numbers, and why they are what they are.

/// Words a minute.
///
/// Captions follow the speech, so the speech should have a pace that captions can be read at. Of
/// the paces tried on 578 viewers, 145 words a minute was the most comfortable to read (C. Jensema,
/// 1998); the BBC's subtitle guidelines allow 160 to 180. The slower one leaves a pupil time to find
/// the cell.
pub const WORDS_A_MINUTE: u64 = 145;

/// Milliseconds of pause for each mark that is put on the board: a digit, a struck candidate, a
/// crust, a ring, a struck clue.
///
/// An estimate, no source: half the three seconds that a solver is given to write a conclusion down
/// (`grade`), because a presenter speaks while writing.
pub const MARK_MILLISECONDS: u64 = 1_500;
