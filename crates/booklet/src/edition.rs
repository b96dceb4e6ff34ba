//! What a booklet says of itself beside what the pack says.

use std::fmt;

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
    }
}
