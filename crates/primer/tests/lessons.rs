//! Lessons of a small pack: what they show is the pack's own, and what they ask is proved.

use std::collections::BTreeSet;

use grid::{Cell, Size};
use make::{Brief, Clues, Kind, Look, Span, drill, usually_known};
use pack::{Entry, PackInfo};
use packfile::{SourceFile, read_puzzle};
use primer::{Exercise, Primer, WANTED, primer};
use replay::Cap;
use rulebook::Claim;
use study::{StudiedPack, study};
use trail::TechniqueId;

const FILES: [(&str, &str); 3] = [
    ("first-light", include_str!("../../../demo/lantern-room/puzzles/first-light.toml")),
    ("two-moths", include_str!("../../../demo/lantern-room/puzzles/two-moths.toml")),
    ("spent-match", include_str!("../../../demo/lantern-room/puzzles/spent-match.toml")),
];

fn pack() -> StudiedPack {
    let entry = |(id, text): (&str, &str)| {
        let read = read_puzzle(&SourceFile::new(format!("puzzles/{id}.toml"), text)).0.unwrap();
        Entry { sealed: false, ..read }
    };
    let entries: Vec<Entry> = FILES.into_iter().map(entry).collect();
    let order = Some(entries.iter().map(|it| it.id.clone()).collect());
    let info = PackInfo { order, ..PackInfo::default() };
    StudiedPack::new(info, entries.into_iter().map(|it| study(it, false)).collect())
}

fn lessons(pack: &StudiedPack) -> Primer {
    primer(pack, &|| false).unwrap()
}

#[test]
fn every_technique_that_the_pack_teaches_has_a_lesson_in_its_order() {
    let pack = pack();
    let primer = lessons(&pack);
    let taught = pack.coverage().into_iter().filter(|it| it.taught_in().is_some()).map(|it| it.technique);
    let in_lessons: BTreeSet<_> = primer.lessons.iter().map(|it| it.technique).collect();
    assert_eq!(in_lessons, taught.collect::<BTreeSet<_>>());
    assert!(primer.lessons.is_sorted_by_key(|it| it.first.published));
    for it in &primer.lessons {
        let published = pack.published()[it.first.published];
        assert_eq!(published.number, it.first.number);
        let trail = published.account.explained.walkthrough().trail();
        let techniques: Vec<_> = trail.steps().map(|it| it.1.technique()).collect();
        let first = techniques.iter().position(|id| *id == it.technique).unwrap();
        assert_eq!(it.first.step.number(), first + 1);
        assert!(!it.first.says.is_empty());
    }
}

#[test]
fn answers_are_proved_and_choices_are_right_or_wrong() {
    let primer = lessons(&pack());
    let exercises: Vec<_> = primer.lessons.iter().flat_map(|it| &it.exercises).collect();
    assert!(primer.lessons.iter().all(|it| it.exercises.len() <= WANTED));
    assert!(exercises.len() > primer.lessons.len(), "{} exercises", exercises.len());
    let mut n_choices = 0;
    for it in exercises {
        let drill = &it.drill;
        for fact in drill.trail.step(drill.step).concludes().iter().map(|it| drill.trail.fact(*it)) {
            let cites = fact.cites().unwrap();
            replay::judge(&drill.puzzle, &drill.trail, &fact.claim(), cites, Cap(100_000)).unwrap();
        }
        assert!(it.question.ends_with('?') && it.answer.ends_with('.'), "{} {}", it.question, it.answer);
        assert!(!it.answer.contains("step"), "{}", it.answer);
        assert!(it.strips.iter().all(|it| it.cells.len().is_multiple_of(it.across)));
        let n_right = it.choices.iter().filter(|it| it.is_right).count();
        match drill.answer.first().unwrap() {
            Claim::Is(..) | Claim::Crust(_) | Claim::Filling(_) => assert_eq!(n_right, 1),
            Claim::IsNot(..) => assert_eq!(n_right, drill.answer.len()),
            _ => assert!(it.choices.is_empty()),
        }
        assert!(it.choices.is_empty() || n_right < it.choices.len(), "{}: nothing is wrong", it.question);
        for choice in &it.choices {
            assert_eq!(choice.says == it.answer, choice.is_right, "{}: {}", it.question, choice.says);
            let is_named = choice.says.to_lowercase().contains(&choice.label.to_lowercase());
            assert!(choice.is_right || is_named, "{}: {}", it.question, choice.says);
        }
        let cells = drill.named().iter().filter(|_| !drill.beside.is_empty());
        assert!(cells.into_iter().all(|cell| it.question.contains(&cell.to_string())), "{}", it.question);
        n_choices += it.choices.len();
    }
    assert!(n_choices > 10, "{n_choices}");
}

/// Four boxes below one another, each with all digits, said nothing at great length.
#[test]
fn bug_each_cell_apart_from_the_houses_had_a_strip_of_its_own() {
    let exercises = ["sees-both-crusts", "crusts-shared"].map(TechniqueId::new).map(|technique| {
        let brief = Brief {
            size: Size::NINE,
            kind: Kind::Sandwich,
            teaches: Vec::new(),
            known: usually_known(&[technique]).with(technique),
            minutes: None,
            givens: Span { least: 0, most: 24 },
            clues: Clues::Needed,
            look: Look::Any,
            is_spare_allowed: true,
        };
        drill(&brief, technique, 0, (WANTED, 96), &|| false).unwrap().into_iter().map(Exercise::new)
    });
    let (mut n_shown, mut n_said) = (0, 0);
    for it in exercises.into_iter().flatten() {
        let within: BTreeSet<_> = it.strips.iter().flat_map(|it| &it.cells).map(|it| it.cell).collect();
        let said = it.known.last().filter(|it| it.starts_with("nothing of r"));
        let is_said = |cell: &Cell| said.is_some_and(|it| it.contains(&cell.to_string()));
        assert!(it.drill.named().iter().all(|it| within.contains(&it) != is_said(&it)), "{}", it.question);
        let apart: Vec<_> = it.strips.iter().filter(|it| it.house.is_none()).collect();
        assert!(apart.len() <= 1, "{apart:?}");
        n_shown += apart.len();
        n_said += usize::from(said.is_some());
    }
    assert!(n_shown > 0 && n_said > 0, "{n_shown} {n_said}");
}

#[test]
fn equal_packs_have_equal_lessons_and_a_stop_is_heard() {
    let pack = pack();
    assert_eq!(format!("{:?}", lessons(&pack)), format!("{:?}", lessons(&pack)));
    assert!(primer(&pack, &|| true).is_none());
}
