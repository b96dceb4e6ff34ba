//! A day of the calendar.

use std::fmt;
use std::str::FromStr;

use jiff::civil::Date;

/// A day of the calendar. Invariant: there is such a day, in a year from 1 on.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Day(Date);

impl Day {
    /// The day of that year, month and day of the month (both from 1), if there is such a day.
    pub fn new(year: u16, month: u8, day: u8) -> Option<Day> {
        let year = i16::try_from(year).ok().filter(|it| *it > 0)?;
        Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok().map(Day)
    }

    /// The year.
    pub fn year(self) -> u16 {
        self.0.year().unsigned_abs()
    }

    /// The month, from 1.
    pub fn month(self) -> u8 {
        self.0.month().unsigned_abs()
    }

    /// The day of the month, from 1.
    pub fn day(self) -> u8 {
        self.0.day().unsigned_abs()
    }
}

/// Why a text is no day.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoSuchDay;

impl fmt::Display for NoSuchDay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a day is written as year, month and day, such as 2026-12-01")
    }
}

impl std::error::Error for NoSuchDay {}

/// Reads a calendar date in the extended format of ISO 8601, `2026-12-01`, and in no other.
impl FromStr for Day {
    type Err = NoSuchDay;

    fn from_str(text: &str) -> Result<Day, NoSuchDay> {
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts[..] else { return Err(NoSuchDay) };
        let has_lengths = (year.len(), month.len(), day.len()) == (4, 2, 2);
        let is_plain = text.bytes().all(|it| it.is_ascii_digit() || it == b'-');
        let number = |it: &str| it.parse().map_err(|_| NoSuchDay);
        if !has_lengths || !is_plain {
            return Err(NoSuchDay);
        }
        Day::new(year.parse().map_err(|_| NoSuchDay)?, number(month)?, number(day)?).ok_or(NoSuchDay)
    }
}

/// Prints `2026-12-01`.
impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year(), self.month(), self.day())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_days_that_exist() {
        assert_eq!(Day::new(2028, 2, 29).map(|it| it.to_string()).as_deref(), Some("2028-02-29"));
        assert_eq!(Day::new(2026, 2, 29), None);
        assert_eq!(Day::new(2026, 13, 1), None);
        assert_eq!("2026-12-01".parse::<Day>().ok(), Day::new(2026, 12, 1));
        for it in
            ["2026-02-29", "2026-12", "2026-1-01", "+026-12-01", "1.12.2026", "2026-12-01-", "0000-01-01", ""]
        {
            assert_eq!(it.parse::<Day>(), Err(NoSuchDay), "{it}");
        }
    }
}
