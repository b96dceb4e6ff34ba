//! The planned days of a season as a calendar that other programs read (RFC 5545).

use std::hash::Hasher;

use fnv::FnvHasher;
use icalendar::{Calendar, Component, Event, Property};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use pack::{Day, PackInfo};

use crate::Season;

/// A day of each recording that is planned and of each release, as events that last all day.
///
/// `written` is the time of writing, in seconds since 1970 in the time of Greenwich; beyond what a calendar has years for,
/// it counts as the beginning. An event keeps its name (UID) as long as the puzzle keeps its id, and the pack its address
/// or, without one, its title: whoever reads the calendar again sees a day moved, not a second event.
pub fn calendar(season: &Season, info: &PackInfo, written: i64) -> String {
    let stamp = stamp(written);
    let of_pack = name_of_pack(info);
    let mut calendar = Calendar::empty();
    // RFC 5545, sections 3.7.3 and 3.7.4: both must be there.
    calendar.append_property(Property::new("VERSION", "2.0"));
    calendar.append_property(Property::new("PRODID", "-//Galley//Season//EN"));
    calendar.append_property(Property::new("CALSCALE", "GREGORIAN"));
    if !info.title.is_empty() {
        calendar.name(&info.title);
    }
    for row in &season.rows {
        let days = [("record", "Record", row.record), ("release", "Recording out:", row.release)];
        for (what, says, day) in days {
            let Some(day) = day else { continue };
            let mut event = Event::new();
            event.uid(&format!("{}-{what}-{of_pack}", row.id));
            event.append_property(Property::new("DTSTAMP", &*stamp));
            event.append_property(on(day));
            event.summary(&format!("{says} {}", row.title));
            let waits: Vec<String> =
                row.waiting.iter().map(|it| format!("{}: {}", it.who.name(), it.what)).collect();
            let set_by = format!("Set by {}.", row.setter);
            let waits = (!waits.is_empty()).then(|| format!("Waited for: {}.", waits.join("; ")));
            let lines: Vec<String> = [set_by].into_iter().chain(waits).collect();
            event.description(&lines.join("\n"));
            // A plan keeps nobody busy (section 3.8.2.7).
            event.append_property(Property::new("TRANSP", "TRANSPARENT"));
            calendar.push(event.done());
        }
    }
    folded(&calendar.to_string())
}

/// The lines of the text in parts of 75 octets at most (section 3.1). The library's own parts may be an octet longer where
/// characters take several.
fn folded(text: &str) -> String {
    const MOST: usize = 75;
    let mut folded = String::with_capacity(text.len());
    for line in text.replace("\r\n ", "").split_inclusive("\r\n") {
        let mut length = 0;
        for it in line.chars() {
            if it != '\r' && it != '\n' && length + it.len_utf8() > MOST {
                folded.push_str("\r\n ");
                length = 1;
            }
            folded.push(it);
            length += it.len_utf8();
        }
    }
    folded
}

/// The day of a time in seconds since 1970, in the time of Greenwich.
pub fn day_at(seconds: i64) -> Option<Day> {
    let it = TimeZone::UTC.to_datetime(Timestamp::from_second(seconds).ok()?);
    Day::new(u16::try_from(it.year()).ok()?, u8::try_from(it.month()).ok()?, u8::try_from(it.day()).ok()?)
}

/// The time at which a day begins in Greenwich, in seconds since 1970.
pub fn seconds_at(day: Day) -> i64 {
    let fits = |it: u8| i8::try_from(it).unwrap_or(1);
    let year = i16::try_from(day.year()).unwrap_or(1970);
    let date = jiff::civil::Date::new(year, fits(day.month()), fits(day.day())).ok();
    let begin = date.and_then(|it| it.to_zoned(TimeZone::UTC).ok());
    begin.map_or(0, |it| it.timestamp().as_second())
}

/// A whole day (section 3.3.4).
fn on(day: Day) -> Property {
    let value = format!("{:04}{:02}{:02}", day.year(), day.month(), day.day());
    Property::new("DTSTART", value).add_parameter("VALUE", "DATE").done()
}

/// A moment in the time of Greenwich (section 3.3.5, form 2).
fn stamp(seconds: i64) -> String {
    let moment = Timestamp::from_second(seconds).unwrap_or(Timestamp::UNIX_EPOCH);
    let it = TimeZone::UTC.to_datetime(moment);
    let date = format!("{:04}{:02}{:02}", it.year(), it.month(), it.day());
    format!("{date}T{:02}{:02}{:02}Z", it.hour(), it.minute(), it.second())
}

/// What tells the events of this pack from those of others.
fn name_of_pack(info: &PackInfo) -> String {
    let mut hasher = FnvHasher::default();
    hasher.write(info.base_url.as_deref().unwrap_or(&info.title).as_bytes());
    format!("{:016x}", hasher.finish())
}
