//! The primer's page, read as a visitor's browser reads it.

mod common;

use std::collections::BTreeSet;

use common::{all, info, one, pack_of, pages, sample, site, text};
use scraper::{ElementRef, Selector};

#[test]
fn the_primer_has_a_section_a_technique_and_tells_right_from_wrong() {
    let files = site(&sample());
    let pages = pages(&files);
    let html = &pages["primer.html"];
    one(&pages["index.html"], "a.primer");
    let lessons = all(html, "section.lesson");
    let coverage = sample().coverage();
    let new = coverage.iter().filter(|it| it.taught_in().is_some()).map(|it| it.technique.name());
    let sections: BTreeSet<&str> = lessons.iter().filter_map(|it| it.attr("id")).collect();
    assert_eq!(sections, new.collect::<BTreeSet<_>>());
    let exercises = all(html, ".exercise");
    assert!(exercises.len() > lessons.len());
    let choices: Vec<String> = all(html, ".choices details").into_iter().map(text).collect();
    let said = |what: &str| choices.iter().filter(|it| it.contains(what)).count();
    assert!(said("Right.") > 0 && said("No.") > 0);
    assert_eq!(said("Right.") + said("No."), choices.len());
    let key = Selector::parse("details.key p").unwrap();
    assert!(exercises.iter().all(|it| it.select(&key).map(text).any(|it| !it.is_empty())));
}

#[test]
fn an_exercise_shows_its_houses_to_those_who_see_and_to_those_who_do_not() {
    let files = site(&sample());
    let pages = pages(&files);
    let exercises = all(&pages["primer.html"], ".exercise");
    assert!(!exercises.is_empty());
    let (strip, cell) = (Selector::parse(".strip[role=img]").unwrap(), Selector::parse(".cell").unwrap());
    for exercise in exercises {
        let strips: Vec<ElementRef> = exercise.select(&strip).collect();
        assert!(!strips.is_empty());
        for strip in strips {
            let words = strip.attr("aria-label").unwrap();
            let n_told = words.split("; ").count();
            assert_eq!(strip.select(&cell).count(), n_told, "{words}");
        }
    }
}

/// How far apart the outermost lines of a path of upright and level strokes are; a cell of a small board measures 24.
fn reach(path: &str) -> f64 {
    let (mut across, mut down) = (Vec::new(), Vec::new());
    let starts: Vec<usize> =
        path.match_indices(['M', 'L', 'H', 'V']).map(|it| it.0).chain([path.len()]).collect();
    for part in starts.windows(2).map(|it| &path[it[0]..it[1]]) {
        let numbers: Vec<f64> = part[1..].split_whitespace().map(|it| it.parse().unwrap()).collect();
        match (&part[..1], &numbers[..]) {
            ("H", [x]) => across.push(*x),
            ("V", [y]) => down.push(*y),
            (_, [x, y]) => (across.push(*x), down.push(*y)).0,
            _ => panic!("not a stroke: {part}"),
        }
    }
    let span = |it: &[f64]| {
        it.iter().copied().fold(f64::MIN, f64::max) - it.iter().copied().fold(f64::MAX, f64::min)
    };
    span(&across).max(span(&down))
}

/// A frame around one of them would be the answer.
#[test]
fn bug_of_the_cells_that_a_question_names_only_the_right_one_was_framed() {
    let files = site(&sample());
    let pages = pages(&files);
    let within =
        |it: ElementRef, what: &str| it.select(&Selector::parse(what).unwrap()).map(text).collect::<Vec<_>>();
    let mut n_named = 0;
    for exercise in all(&pages["primer.html"], ".exercise") {
        let [question] = &within(exercise, ".question")[..] else { panic!("not one question") };
        let Some(named) = question.strip_prefix("Which of r") else { continue };
        let n_cells = named.matches(", r").count() + named.matches(" and r").count() + 1;
        assert_eq!(within(exercise, ".choices details").len(), n_cells, "{question}");
        let blue = Selector::parse("figure path.line-blue").unwrap();
        let paths = exercise.select(&blue).filter_map(|it| it.attr("d"));
        // What has no corner is a bar beside a house, or a sign in a cell.
        let frame = paths.into_iter().find(|it| it.contains('H') && it.contains('V')).unwrap();
        assert!(reach(frame) > 30.0, "{question} frames one cell: {frame}");
        n_named += 1;
    }
    assert!(n_named > 0);
}

#[test]
fn a_pack_that_teaches_nothing_new_has_no_primer() {
    let files = site(&pack_of(info(), Vec::new()));
    assert!(!files.contains_key("primer.html"));
    assert!(all(&pages(&files)["index.html"], "a.primer").is_empty());
}
