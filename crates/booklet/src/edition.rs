//! What a booklet says of itself beside what the pack says.

use std::fmt;
use std::str::FromStr;

use typst::foundations::Datetime;

/// A printing of the booklet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Edition {
    /// The day it is issued, printed on the title page and written into the file; none leaves both
    /// without a date. It comes from the caller, because nothing here reads a clock.
    pub issued: Option<Date>,
}

/// A day of the calendar.
///
/// Invariant: there is such a day.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// The day of that year, month and day of the month (both from 1), if there is such a day.
    pub fn new(year: u16, month: u8, day: u8) -> Option<Date> {
        let date = Date { year, month, day };
        date.datetime().map(|_| date)
    }

    /// As the typesetter has it.
    pub(crate) fn datetime(self) -> Option<Datetime> {
        Datetime::from_ymd(i32::from(self.year), self.month, self.day)
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

/// Reads a calendar date in the extended format of ISO 8601, `2026-12-01`.
impl FromStr for Date {
    type Err = NoSuchDay;

    fn from_str(text: &str) -> Result<Date, NoSuchDay> {
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts[..] else { return Err(NoSuchDay) };
        let has_lengths = (year.len(), month.len(), day.len()) == (4, 2, 2);
        let is_plain = text.bytes().all(|it| it.is_ascii_digit() || it == b'-');
        let number = |it: &str| it.parse().map_err(|_| NoSuchDay);
        if !has_lengths || !is_plain {
            return Err(NoSuchDay);
        }
        Date::new(year.parse().map_err(|_| NoSuchDay)?, number(month)?, number(day)?).ok_or(NoSuchDay)
    }
}

/// Prints `2026-12-01`.
impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_days_that_exist() {
        assert_eq!(Date::new(2028, 2, 29).map(|it| it.to_string()).as_deref(), Some("2028-02-29"));
        assert_eq!(Date::new(2026, 2, 29), None);
        assert_eq!(Date::new(2026, 13, 1), None);
        assert_eq!("2026-12-01".parse(), Ok(Date { year: 2026, month: 12, day: 1 }));
        for it in ["2026-02-29", "2026-12", "2026-1-01", "+026-12-01", "1.12.2026", "2026-12-01-", ""] {
            assert_eq!(it.parse::<Date>(), Err(NoSuchDay), "{it}");
        }
    }
}
