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

#[test]
fn a_pack_that_teaches_nothing_new_has_no_primer() {
    let files = site(&pack_of(info(), Vec::new()));
    assert!(!files.contains_key("primer.html"));
    assert!(all(&pages(&files)["index.html"], "a.primer").is_empty());
}
