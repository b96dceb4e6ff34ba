//! Invented recordings of the demo pack's puzzles, reviewed from file to findings.

mod demo;
mod talk;

use captions::{LEAST_CHAPTER, Time, webvtt};
use review::{
    Expected, Glossary, Match, Placing, Review, Spoken, answer, review, review_captions, spoken_at,
};
use talk::{HELD, TUNED, Talk};

/// A talk about a puzzle of the demo pack, with what was to be said.
fn recorded(number: usize, seed: u64, stamp: u64) -> (Talk, Expected) {
    // Both phrase books are used; what is measured on which is for `examples/recordings.rs`.
    let book = if number.is_multiple_of(2) { &TUNED } else { &HELD };
    let puzzles = demo::demo(|it| it == number);
    let (_, puzzle, walkthrough) = &puzzles[0];
    (talk::talk(puzzle, walkthrough, book, seed, stamp), Expected::of(puzzle, walkthrough))
}

fn reviewed(talk: &Talk, expected: &Expected) -> Review {
    review_captions(&talk.captions, expected, &Glossary::of_galley())
}

/// The share of the steps spoken that are placed while they are spoken, give or take a caption.
fn placed(talk: &Talk, review: &Review, stamp: u64) -> f64 {
    let off = Time::seconds(stamp);
    let right = talk.spoken.iter().filter(|(step, first, last)| match review.steps[*step] {
        Placing::At { from, .. } => from + off >= *first && from <= *last + off,
        Placing::Unsure { .. } | Placing::NotSpoken => false,
    });
    right.count() as f64 / talk.spoken.len() as f64
}

#[test]
fn most_steps_are_placed_and_most_slips_found() {
    for (number, stamp) in [(0, 5), (1, 8), (4, 25)] {
        let (talk, expected) = recorded(number, 77, stamp);
        let review = reviewed(&talk, &expected);
        assert_eq!(review.matches, Match::Yes);
        let share = placed(&talk, &review, stamp);
        assert!(share > 0.7, "{share}");
        let close = |a: Time, b: Time| a.since(b).max(b.since(a)) <= Time::seconds(5);
        let found = talk.slips.iter().filter(|planted| {
            let found = review.slips.iter().find(|it| close(it.at, planted.at) && it.right == planted.right);
            found.is_some_and(|it| it.corrected.is_some() || !planted.corrected)
        });
        let n = found.count();
        assert!(n * 10 >= talk.slips.len() * 8, "{n} of {}", talk.slips.len());
        let known = |it: &review::Slip| talk.slips.iter().any(|planted| close(it.at, planted.at));
        assert!(review.slips.iter().filter(|it| !known(it)).count() <= 1);
    }
}

#[test]
fn a_log_makes_placings_surer() {
    let (talk, mut expected) = recorded(2, 5, 3);
    let without = placed(&talk, &reviewed(&talk, &expected), 3);
    expected.log = talk.spoken.iter().map(|it| (it.1, it.0)).collect();
    expected.log.sort();
    let with = placed(&talk, &reviewed(&talk, &expected), 3);
    assert!(with > without && with > 0.75, "{without} without the log, {with} with it");
}

#[test]
fn another_puzzles_recording_does_not_match() {
    let (talk, _) = recorded(0, 9, 5);
    let (_, other) = recorded(2, 9, 5);
    let review = reviewed(&talk, &other);
    assert_eq!(review.matches, Match::No);
    assert!(review.chapters.is_empty() && review.unspoken().count() == 0);
    assert!(!review.slips.is_empty(), "sums are proof-read all the same");
}

#[test]
fn what_is_reviewed_can_be_asked() {
    let (talk, expected) = recorded(4, 3, 15);
    let review = reviewed(&talk, &expected);
    assert_eq!(spoken_at(&review, Time(0)), Spoken::BeforeFirst);
    let mut right = 0;
    for (step, first, last) in &talk.spoken {
        let middle = Time((first.0 + last.0) / 2);
        let Spoken::Step { step: told, .. } = spoken_at(&review, middle) else { continue };
        right += usize::from(told == *step);
        assert!(answer(&expected, told).split_whitespace().count() <= review::MOST_WORDS);
        assert!(!answer(&expected, told).is_empty());
    }
    assert!(right * 10 > talk.spoken.len() * 6, "{right} of {}", talk.spoken.len());
}

#[test]
fn chapters_keep_their_rules() {
    let (talk, expected) = recorded(4, 8, 8);
    let review = reviewed(&talk, &expected);
    assert!(review.chapters.len() > 2, "{:?}", review.chapters);
    assert_eq!(review.chapters[0].at, Time(0));
    let ends = review.chapters.iter().skip(1).map(|it| it.at).chain([review.total]);
    for (it, end) in review.chapters.iter().zip(ends) {
        assert!(end.since(it.at) >= LEAST_CHAPTER, "{it:?}");
    }
}

#[test]
fn a_step_that_nobody_speaks_is_told() {
    let (mut talk, expected) = recorded(4, 21, 5);
    // The second half of the recording is lost.
    let half = Time(talk.captions.last().unwrap().to.0 / 2);
    talk.captions.retain(|it| it.to <= half);
    let review = reviewed(&talk, &expected);
    assert_eq!(review.matches, Match::Yes);
    let late: Vec<usize> =
        talk.spoken.iter().filter(|it| it.1 > half + Time::seconds(60)).map(|it| it.0).collect();
    let unspoken = late.iter().filter(|it| review.unspoken().any(|unspoken| unspoken == **it)).count();
    let placed = late.iter().filter(|it| matches!(review.steps[**it], Placing::At { .. })).count();
    assert!(late.len() > 10 && unspoken * 10 >= late.len() * 7, "{unspoken} of {}", late.len());
    assert!(placed * 10 <= late.len(), "{placed} of {}", late.len());
}

#[test]
fn terms_are_corrected_and_nothing_else_is() {
    let (_, expected) = recorded(0, 1, 5);
    let file = "WEBVTT\n\n00:00.000 --> 00:04.000\nThis sand witch has a\nnaked\n\n\
                00:04.000 --> 00:08.000\npear. 3, 5 and 6 make 13.\n\n00:30.000 --> 00:31.000\n[music]\n";
    let review = review(file.as_bytes(), &expected, &Glossary::of_galley());
    assert_eq!(review.matches, Match::Unknown, "too little is said");
    let heard: Vec<(&str, &str)> =
        review.misheard.iter().map(|it| (it.heard.as_str(), it.say.as_str())).collect();
    assert_eq!(heard, [("sand witch", "sandwich"), ("naked pear", "naked pair")]);
    assert_eq!(
        webvtt(&review.captions),
        "WEBVTT\n\n00:00:00.000 --> 00:00:04.000\nThis sandwich has a\nnaked pair\n\n\
         00:00:04.000 --> 00:00:08.000\n. 3, 5 and 6 make 13.\n\n00:00:30.000 --> 00:00:31.000\n[music]\n"
            .replace("\n. 3", "\n3")
    );
    assert_eq!(review.slips.len(), 1, "what was said wrongly stays as it was said, and is told");
    assert_eq!((review.slips[0].said, review.slips[0].right), (13, 14));
    assert_eq!(review.silences.len(), 1);
}

#[test]
fn nothing_said_is_no_failure() {
    let (_, expected) = recorded(0, 1, 5);
    for file in ["", "WEBVTT\n", "[0:00] [music]", "no times at all"] {
        let review = review(file.as_bytes(), &expected, &Glossary::of_galley());
        assert_eq!((review.matches, review.slips.len(), review.chapters.len()), (Match::Unknown, 0, 0));
    }
    let nothing = Expected { side: 9, clues: Vec::new(), steps: Vec::new(), log: vec![(Time(0), 7)] };
    assert!(review(b"[0:00] five and six make twelve", &nothing, &Glossary::of_galley()).steps.is_empty());
}

#[test]
fn equal_recordings_give_equal_reviews() {
    let (talk, expected) = recorded(0, 4, 3);
    assert_eq!(reviewed(&talk, &expected), reviewed(&talk, &expected));
}

proptest::proptest! {
    #[test]
    fn no_captions_are_too_strange(
        file in "([0-9:.\\[\\]() \n]|-->|WEBVTT\n\n|one|nine|35|makes|sand witch|\\PC){0,80}",
        log in proptest::collection::vec((0_u64..100_000, 0_usize..4), 0..4),
    ) {
        let step = review::ExpectedStep {
            number: 1,
            passage: "Finish".to_owned(),
            technique: "hidden-single".to_owned(),
            name: "hidden single".to_owned(),
            clues: vec![35],
            places: vec![5],
            names: vec![5, 1, 9],
            counts: vec![2],
            houses: vec![review::House::Box],
            says: "So it is 5.".to_owned(),
        };
        let log = log.into_iter().map(|it| (Time(it.0), it.1)).collect();
        let expected = Expected { side: 9, clues: vec![35], steps: vec![step; 5], log };
        let it = review(file.as_bytes(), &expected, &Glossary::of_galley());
        proptest::prop_assert_eq!(it.steps.len(), 5);
        proptest::prop_assert!(it.captions.iter().all(|it| !it.text.is_empty()));
        spoken_at(&it, Time(500));
    }
}
