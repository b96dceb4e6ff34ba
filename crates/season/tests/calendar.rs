//! The calendar, held against RFC 5545 and read by the library's own reader.

mod common;

use common::{GRID, pack};
use icalendar::{Calendar, CalendarComponent, Component};
use proptest::prelude::*;
use season::{Season, Seen, calendar, day_at, seconds_at};
use study::StudiedPack;

const DAYS: &str = "record = \"2026-12-05\"\nrelease = \"2026-12-24\"\n";

fn written(title: &str, at: i64) -> String {
    let mut pack = pack("", &[("a", DAYS, GRID)]);
    let mut season = Season::of(&pack, &Seen::default());
    season.rows[0].title = title.to_owned();
    let mut info = pack.info().clone();
    info.title = title.to_owned();
    pack = StudiedPack::new(info, Vec::new());
    calendar(&season, pack.info(), at)
}

/// The lines as section 3.1 has them put together again.
fn unfolded(text: &str) -> Vec<String> {
    text.replace("\r\n ", "").replace("\r\n\t", "").split("\r\n").map(str::to_owned).collect()
}

#[test]
fn the_calendar_is_as_the_standard_has_it() {
    // 19 January 1998, 05:00 in the time of Greenwich, is the moment of section 3.3.5's form 2 but for two hours.
    let text = written("Low tide", 885_186_000);
    assert!(text.contains("DTSTAMP:19980119T050000Z\r\n"), "{text}");
    assert!(text.contains("DTSTART;VALUE=DATE:20261205\r\n"), "{text}");
    let lines = unfolded(&text);
    assert_eq!(lines[0], "BEGIN:VCALENDAR");
    assert_eq!(lines[lines.len() - 2..], ["END:VCALENDAR", ""]);
    for needed in ["VERSION:2.0", "PRODID:-//Galley//Season//EN"] {
        assert_eq!(lines.iter().filter(|it| *it == needed).count(), 1, "{text}");
    }
    // Section 3.6.1: each event has one of each.
    for needed in ["UID:", "DTSTAMP:", "DTSTART;", "SUMMARY:"] {
        assert_eq!(lines.iter().filter(|it| it.starts_with(needed)).count(), 2, "{needed} {text}");
    }
    assert!(lines.contains(&"SUMMARY:Record Low tide".to_owned()), "{text}");
}

#[test]
fn days_are_those_of_greenwich() {
    for (seconds, day) in
        [(0, "1970-01-01"), (86_399, "1970-01-01"), (86_400, "1970-01-02"), (885_186_000, "1998-01-19")]
    {
        assert_eq!(day_at(seconds), day.parse().ok(), "{seconds}");
    }
    for day in ["1970-01-01", "1998-01-19", "2028-02-29", "0001-01-01", "9998-12-31"] {
        let day = day.parse().unwrap();
        assert_eq!(day_at(seconds_at(day)), Some(day));
    }
    assert_eq!(day_at(i64::MAX), None);
}

#[test]
fn texts_are_escaped_as_section_3_3_11_says() {
    let text = written("Rise, set; and \\ again", 0);
    assert!(text.contains("SUMMARY:Record Rise\\, set\\; and \\\\ again\r\n"), "{text}");
    // A break within a text is a backslash and an n, never a break of the file.
    assert!(unfolded(&text).iter().any(|it| it.contains("Set by Fern.\\nWaited for:")), "{text}");
}

#[test]
fn equal_seasons_have_equal_bytes_and_a_moved_day_keeps_its_name() {
    let (one, other) = (written("Low tide", 7), written("Low tide", 7));
    assert_eq!(one, other);
    let uids = |text: &str| -> Vec<String> {
        unfolded(text).into_iter().filter(|it| it.starts_with("UID:")).collect()
    };
    let moved = pack("", &[("a", "record = \"2027-01-05\"\n", GRID)]);
    let season = Season::of(&moved, &Seen::default());
    let mut info = moved.info().clone();
    info.title = "Low tide".to_owned();
    assert_eq!(uids(&calendar(&season, &info, 99))[..], uids(&one)[..1]);
    assert_ne!(uids(&one)[0], uids(&one)[1]);
    info.title = "High tide".to_owned();
    assert_ne!(uids(&calendar(&season, &info, 99))[0], uids(&one)[0]);
}

/// The library folds some such lines after 76 octets.
#[test]
fn characters_of_several_octets_do_not_make_a_line_too_long() {
    for n in 0..80 {
        let title = format!("{}{}", "x".repeat(n), "𐍃é—漢".repeat(12));
        let text = written(&title, 0);
        assert!(text.split("\r\n").all(|it| it.len() <= 75), "{n}: {text}");
        assert!(unfolded(&text).contains(&format!("SUMMARY:Record {title}")), "{n}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Whatever a title is, no line is longer than 75 octets (section 3.1), and it reads back.
    #[test]
    fn every_title_reads_back(title in "[^\\p{C}]{1,120}") {
        let text = written(&title, 1_000_000_000);
        for line in text.split("\r\n") {
            prop_assert!(line.len() <= 75, "{} octets: {line}", line.len());
            prop_assert!(!line.contains(['\r', '\n']));
        }
        let read: Calendar = text.parse().map_err(|it| TestCaseError::fail(format!("{it}: {text}")))?;
        let summaries: Vec<String> = (read.components.iter())
            .filter_map(|it| match it { CalendarComponent::Event(it) => it.get_summary().map(str::to_owned), _ => None })
            .collect();
        prop_assert_eq!(summaries, vec![format!("Record {title}"), format!("Recording out: {title}")]);
    }
}
