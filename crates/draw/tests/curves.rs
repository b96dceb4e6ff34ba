//! Pictures of a whole pack: the curve of minutes, and the chart of what it teaches.

mod common;

use common::{elements, texts};
use draw::{CoverageRow, CurvePoint, Met, coverage_chart, minutes_curve, standalone};

fn point(label: &str, minutes: f64) -> CurvePoint<'_> {
    CurvePoint { label, minutes: Some(minutes), range: Some((minutes * 0.5, minutes * 2.0)), shelf: None }
}

#[test]
fn every_puzzle_has_a_dot_a_title_and_a_sentence() {
    let points = [
        point("First light", 4.25),
        CurvePoint { shelf: Some("Dusk"), ..point("Moths", 1.0) },
        CurvePoint { minutes: None, range: None, ..point("Unread", 0.0) },
        point("Glow", 18.0),
    ];
    let picture = minutes_curve("The lantern room", &points);
    assert_eq!(picture, minutes_curve("The lantern room", &points));
    let sentences = [
        "1. First light: 4.2 minutes, from 2.1 to 8.5",
        "2. Moths (Dusk): 1 minute, from 0.5 to 2",
        "3. Unread: minutes not known",
        "4. Glow: 18 minutes, from 9 to 36",
    ];
    assert_eq!(texts(&picture, "title")[1..], sentences);
    assert_eq!(texts(&picture, "desc"), [sentences.map(|it| format!("{it}.")).join(" ")]);
    let read = elements(&picture);
    assert_eq!(read.iter().filter(|it| it.name == "circle").count(), 3);
    let line = read.iter().find(|it| it.attributes.contains_key("stroke-linejoin")).unwrap();
    let commands: String = line.attributes["d"].matches(char::is_alphabetic).collect();
    assert_eq!(commands, "MLM", "the curve breaks at the unknown value");
    assert!(texts(&picture, "text").contains(&"Dusk".to_owned()));
}

#[test]
fn dots_are_higher_for_more_minutes_and_stay_on_the_picture() {
    let minutes = [0.0, 0.3, 5.0, 5.1, 1000.0, 1e300, f64::MAX];
    for last in 1..=minutes.len() {
        let points: Vec<CurvePoint> = minutes[..last].iter().map(|it| point("x", *it)).collect();
        let read = elements(&minutes_curve("", &points));
        let heights: Vec<f64> = read
            .iter()
            .filter(|it| it.name == "circle")
            .map(|it| it.attributes["cy"].parse().unwrap())
            .collect();
        assert_eq!(heights.len(), last);
        assert!(heights.is_sorted_by(|a, b| a >= b), "{heights:?}");
        assert!(heights.iter().all(|it| (30.0..=200.0).contains(it)), "{heights:?}");
    }
}

#[test]
fn values_that_are_no_minutes_count_as_unknown() {
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0] {
        let points = [point("a", 3.0), CurvePoint { range: Some((odd, 3.0)), ..point("b", odd) }];
        let picture = minutes_curve("odd", &points);
        assert_eq!(texts(&picture, "title")[2], "2. b: minutes not known");
        assert!(!picture.contains("NaN") && !picture.contains("inf"), "{picture}");
    }
}

#[test]
fn packs_of_any_size_are_numbered_without_crowding() {
    for n_points in (0..140).chain([999, 2500]) {
        let points = vec![point("x", 3.0); n_points];
        let read = elements(&minutes_curve("sizes", &points));
        let foot = |y: &String| (205.0..225.0).contains(&y.parse::<f64>().unwrap());
        let numbers = read.iter().filter(|it| it.name == "text" && it.attributes.get("y").is_some_and(foot));
        let placed: Vec<(f64, f64)> = numbers
            .map(|it| (it.attributes["x"].parse().unwrap(), it.text.len() as f64 * 13.0 * 0.64))
            .collect();
        assert_eq!(placed.is_empty(), n_points == 0);
        for pair in placed.windows(2) {
            let free = pair[1].0 - pair[0].0 - (pair[0].1 + pair[1].1) / 2.0;
            assert!(free > 0.0, "{n_points} puzzles: {pair:?} touch");
        }
    }
}

#[test]
fn hostile_labels_stay_texts() {
    let hostile = "\"><script>&\u{0}\u{202e}</svg>";
    let long = "very <long> ".repeat(5000);
    for label in [hostile, &long, "", "שלום"] {
        let points = [CurvePoint { label, shelf: Some(label), ..point("x", 2.0) }];
        let picture = minutes_curve(label, &points);
        let known = ["svg", "title", "desc", "rect", "path", "g", "text", "circle"];
        assert!(elements(&picture).iter().all(|it| known.contains(&it.name.as_str())));
        elements(&standalone(&picture));
        assert!(
            texts(&picture, "text").iter().all(|it| it.chars().count() <= 60),
            "names are cut to their room"
        );
    }
}

#[test]
fn a_technique_has_a_mark_wherever_it_is_met_and_a_sentence() {
    let rows = [
        CoverageRow { label: "hidden single", cells: vec![Met::Introduced, Met::Practised, Met::Practised] },
        CoverageRow { label: "X-wing", cells: vec![Met::Not, Met::Introduced] },
        CoverageRow { label: "swordfish", cells: vec![] },
    ];
    let picture = coverage_chart("What is taught", &["One", "Two", "Three"], &rows);
    assert_eq!(picture, coverage_chart("What is taught", &["One", "Two", "Three"], &rows));
    let sentences =
        "hidden single: introduced in 1; practised in 2, 3. X-wing: introduced in 2. swordfish: not met.";
    assert_eq!(texts(&picture, "desc"), [sentences]);
    let titles = [
        "1. One introduces hidden single",
        "2. Two practises hidden single",
        "3. Three practises hidden single",
        "2. Two introduces X-wing",
    ];
    assert_eq!(texts(&picture, "title")[1..], titles);
    let read = elements(&picture);
    assert_eq!(read.iter().filter(|it| it.name == "circle").count(), 2);
}

#[test]
fn charts_of_any_size_hold_together() {
    for n in [0, 1, 12, 60, 200] {
        let titles = vec!["\"><script>&"; n];
        let row = |at: usize| CoverageRow {
            label: "</svg> a very long name of a technique that nobody would give",
            cells: (0..n + 3).map(|it| if it == at { Met::Introduced } else { Met::Practised }).collect(),
        };
        let picture = coverage_chart("sizes", &titles, &(0..n.min(50)).map(row).collect::<Vec<_>>());
        let read = elements(&picture);
        let known = ["svg", "title", "desc", "rect", "path", "g", "text", "circle"];
        assert!(read.iter().all(|it| known.contains(&it.name.as_str())));
        assert_eq!(read.iter().filter(|it| it.name == "circle").count(), n.min(50) * n.saturating_sub(1));
        elements(&standalone(&picture));
    }
}
