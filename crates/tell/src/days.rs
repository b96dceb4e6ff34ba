//! Days in words.

use pack::Day;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// `1 December 2026`.
pub fn day(day: Day) -> String {
    format!("{} {} {}", day.day(), MONTHS[usize::from(day.month()) - 1], day.year())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_said_as_people_say_it() {
        assert_eq!(day(Day::new(2026, 12, 1).unwrap()), "1 December 2026");
        assert_eq!(day(Day::new(2028, 2, 29).unwrap()), "29 February 2028");
    }
}
