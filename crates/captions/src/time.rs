//! A moment of a recording.

use std::fmt;
use std::ops::{Add, Sub};
use std::str::FromStr;

/// Milliseconds from the beginning of a recording, or a length of so many.
///
/// Prints as WebVTT has it: `00:01:05.250`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash)]
pub struct Time(pub u64);

impl Time {
    /// So many whole seconds.
    pub const fn seconds(seconds: u64) -> Time {
        Time(seconds * 1_000)
    }

    /// The nearest millisecond to that many seconds; the beginning for what is no time (negative, not a number).
    pub fn of(seconds: f64) -> Time {
        // A float turned into a whole number is cut off at the ends of its range, and no number is 0.
        Time((seconds * 1_000.0).round() as u64)
    }

    /// In seconds.
    pub fn as_seconds(self) -> f64 {
        self.0 as f64 / 1_000.0
    }

    /// `1:05`, `1:02:03`: how people write a time. What is less than a second is cut off, so that whoever
    /// goes there misses nothing.
    pub fn clock(self) -> String {
        let seconds = self.0 / 1_000;
        let (hours, minutes, seconds) = (seconds / 3_600, seconds / 60 % 60, seconds % 60);
        match hours {
            0 => format!("{minutes}:{seconds:02}"),
            _ => format!("{hours}:{minutes:02}:{seconds:02}"),
        }
    }

    /// The length from another time to this one; nothing if that is later.
    #[must_use]
    pub fn since(self, from: Time) -> Time {
        Time(self.0.saturating_sub(from.0))
    }
}

/// Never beyond what can be counted.
impl Add for Time {
    type Output = Time;
    fn add(self, other: Time) -> Time {
        Time(self.0.saturating_add(other.0))
    }
}

/// Never below nothing.
impl Sub for Time {
    type Output = Time;
    fn sub(self, other: Time) -> Time {
        self.since(other)
    }
}

/// Reads `1:05`, `1:02:03`, `00:01:05.250`: at least minutes and seconds.
impl FromStr for Time {
    type Err = NoTime;

    fn from_str(text: &str) -> Result<Time, NoTime> {
        crate::read::stamps::time(text).ok_or(NoTime)
    }
}

/// The text is no time.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoTime;

impl fmt::Display for NoTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a time is written as minutes and seconds, such as 12:05")
    }
}

impl std::error::Error for NoTime {}

impl fmt::Display for Time {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let seconds = self.0 / 1_000;
        let (hours, minutes, seconds) = (seconds / 3_600, seconds / 60 % 60, seconds % 60);
        write!(f, "{hours:02}:{minutes:02}:{seconds:02}.{:03}", self.0 % 1_000)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_written_for_machines_and_for_people() {
        for (milliseconds, machine, people) in [
            (0, "00:00:00.000", "0:00"),
            (65_250, "00:01:05.250", "1:05"),
            (59_999, "00:00:59.999", "0:59"),
            (3_723_004, "01:02:03.004", "1:02:03"),
            (360_000_000, "100:00:00.000", "100:00:00"),
        ] {
            assert_eq!(Time(milliseconds).to_string(), machine);
            assert_eq!(Time(milliseconds).clock(), people);
        }
    }

    #[test]
    fn seconds_are_rounded_to_the_nearest_millisecond() {
        assert_eq!([1.0004, 1.0006, -3.0, f64::NAN].map(Time::of), [1_000, 1_001, 0, 0].map(Time));
    }
}
