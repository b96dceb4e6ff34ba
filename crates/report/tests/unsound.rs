//! What the report shows of puzzles that are not sound, or not fit to be told.

mod common;

use common::{PACK, Sample, all, one, parsed, puzzle, text};
use reason::{Known, Search, Settings, Stopped};
use scraper::ElementRef;
use study::{Finding, Repair, StudiedPack, study_with};
use trail::TechniqueId;

#[test]
fn what_is_not_sound_is_shown() {
    let sample = Sample::whole(false);
    let html = parsed(&sample.report());
    let twins = text(one(&html, "#puzzle-twin-flames"));
    let study = sample.pack.studies().iter().find(|it| it.entry().id.as_str() == "twin-flames").unwrap();
    let (a, b) = study.exchange().unwrap();
    assert!(twins.contains(&tell::exchange_explanation(study.entry().puzzle.size(), a, b)));
    // Every 1 and every 9 of a solved 9x9 board: 18 cells.
    assert!(twins.contains("They differ in the 18 filled cells."), "{twins}");
    let boards = all(&html, "#puzzle-twin-flames .pair svg");
    let names: Vec<&str> = boards.iter().filter_map(|it| it.attr("aria-label")).collect();
    assert_eq!(names, ["Twin flames: one solution", "Twin flames: another solution"]);

    let none = text(one(&html, "#puzzle-cold-grate"));
    assert!(none.contains("No solution") && !none.contains("Walkthrough"), "{none}");
    assert_eq!(all(&html, "#puzzle-cold-grate details").len(), 0);
}

#[test]
fn what_would_make_a_puzzle_sound_is_shown() {
    let sample = Sample::whole(false);
    let html = parsed(&sample.report());
    let opened = |id: &str| {
        sample.pack.studies().iter().find(|it| it.entry().id.as_str() == id).unwrap().opened().unwrap()
    };
    let Some(Repair::Mending(mending)) = opened("cold-grate").repair else { panic!("it has no solution") };
    let none = text(one(&html, "#puzzle-cold-grate"));
    assert!(none.contains(&tell::conflict(mending.conflict.as_ref().unwrap())), "{none}");
    assert!(none.contains(&tell::mends_summary(&mending.mends)), "{none}");
    let rows = all(&html, "#puzzle-cold-grate .changes tbody tr");
    assert!(!rows.is_empty() && rows.len() <= 24, "{}", rows.len());
    assert!(text(rows[0]).starts_with(&tell::change(mending.mends.mends[0].change)), "{}", text(rows[0]));
    // The part that contradicts itself is marked on a board of its own.
    let boards = all(&html, "#puzzle-cold-grate svg");
    let named = |it: &&ElementRef| it.attr("aria-label") == Some("Cold grate: what contradicts itself");
    assert_eq!(boards.iter().filter(named).count(), 1);

    let Some(Repair::Settlings(settlings)) = opened("twin-flames").repair else { panic!("it has several") };
    let several = text(one(&html, "#puzzle-twin-flames"));
    assert!(several.contains(&tell::single_givens(&settlings.single)), "{several}");
    assert_eq!(all(&html, "#puzzle-twin-flames .settlings dt").len(), 2);
}

/// To somebody who knows nothing but singles, this puzzle takes more small arguments than can be read out.
#[test]
fn a_puzzle_that_is_not_teachable_yet_says_how_many_last_resorts_it_takes() {
    let sample = Sample::of(PACK, &[("small-hours", puzzle("small-hours"))], false);
    let entry = sample.pack.studies()[0].entry().clone();
    let known = Known::up_to(TechniqueId::new("naked-single"));
    let singles = Settings { known, search: Search::EasiestNext, ..Settings::THOROUGH };
    let study = study_with(entry, true, singles);
    let Some(Stopped::NotTeachable(n)) = study.opened().unwrap().stopped else { panic!("{study:?}") };
    assert!(*n > 10 && study.finding() == Finding::One && !study.is_publishable());
    let said = format!("takes {n} steps of last resort (");
    let pack = StudiedPack::new(sample.pack.info().clone(), vec![study]);
    let html = parsed(&report::report(&pack, &Default::default(), &[], &[]));
    let text = text(one(&html, "#puzzle-small-hours"));
    assert!(text.contains("Not teachable yet") && text.contains(&said), "{text}");
}
