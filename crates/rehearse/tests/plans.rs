//! Plans of recordings: what is new, what was taught, how long, and what the editor has noted.

mod common;

use captions::Time;
use common::{PACK, at_pace, id};
use pack::{Notes, StepNote};
use rehearse::{Pace, Plan, Script, Setting, WORDS_A_MINUTE, reached, stops};
use study::Study;

fn setting(name: &str) -> Setting<'static> {
    Setting::in_pack(&PACK, &id(name)).unwrap()
}

fn script(name: &str) -> Script {
    Plan::new(&setting(name)).script
}

#[test]
fn each_technique_is_introduced_once_in_the_whole_pack() {
    let mut taught = Vec::new();
    for study in PACK.studies() {
        let plan = Plan::new(&Setting::in_pack(&PACK, &study.entry().id).unwrap());
        let known = PACK.info().knows.clone();
        for it in &plan.introductions {
            assert!(!taught.contains(&it.technique) && !known.contains(&it.technique), "{:?}", it.technique);
            assert!(!it.says.is_empty());
            taught.push(it.technique);
            // It is said where it is first used, and nowhere before.
            let first = plan.script.cues().find(|cue| cue.technique == it.technique).unwrap();
            assert_eq!(first.step, it.step);
        }
        for it in &plan.taught {
            assert_eq!(it.by.is_none(), known.contains(&it.technique), "{:?}", it.technique);
        }
    }
    assert!(taught.len() >= 4, "{taught:?}");
}

/// Every sum that is written out is right: digits of the filling in order, added up here.
#[test]
fn figures_are_right() {
    let mut n_figures = 0;
    for study in PACK.studies() {
        let plan = Plan::new(&Setting::in_pack(&PACK, &study.entry().id).unwrap());
        for line in plan.introductions.iter().flat_map(|it| &it.figures) {
            let (sum, sets) = line.split_once(": ").unwrap();
            let sum: u32 = sum.split(' ').next().unwrap().parse().unwrap();
            let mut written = 0;
            for set in sets.split("; ").flat_map(|it| it.split(", ")).filter(|it| it.contains('+')) {
                let digits: Vec<u32> = set
                    .split(' ')
                    .filter_map(|it| it.parse().ok())
                    .filter(|it| (2..=8).contains(it))
                    .collect();
                assert_eq!(digits.iter().sum::<u32>(), sum, "{line}");
                assert!(digits.is_sorted_by(|a, b| a < b), "{line}");
                written += 1;
            }
            n_figures += written;
        }
    }
    assert!(n_figures > 5, "{n_figures}");
}

#[test]
fn notes_stay_with_their_steps_and_none_is_lost() {
    let plain = script("two-moths");
    let key = plain.cue(3).unwrap().key.clone();
    let note = |key: &str| StepNote { key: key.to_owned(), says: "Slowly: <b>look</b>.".to_owned() };
    let gone = "naked-single: r1c1 is 99";
    let notes = Notes {
        opening: "Good evening.".to_owned(),
        close: "Good night.".to_owned(),
        questions: vec!["What now?".to_owned()],
        words_a_minute: Some(290),
        steps: vec![note(gone), note(&key)],
        ..Notes::default()
    };
    let setting = setting("two-moths").noted(notes);
    let plan = Plan::new(&setting);
    assert_eq!(plan.script.cue(3).unwrap().note.as_deref(), Some("Slowly: <b>look</b>."));
    assert_eq!(plan.script.cues().filter(|it| it.note.is_some()).count(), 1);
    assert_eq!(plan.orphans.iter().map(|it| &it.key[..]).collect::<Vec<_>>(), [gone]);
    assert_eq!((&plan.script.greeting[..], &plan.script.close[..]), ("Good evening.", "Good night."));
    assert_eq!(plan.questions.iter().map(|it| &it.asks[..]).collect::<Vec<_>>(), ["What now?"]);
    assert!(plan.script.total() < plain.total());
}

#[test]
fn keys_of_steps_are_their_own() {
    for study in PACK.studies() {
        let script = script(study.entry().id.as_str());
        let mut keys: Vec<&str> = script.cues().map(|it| &it.key[..]).collect();
        let n_steps = keys.len();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), n_steps);
    }
}

/// A plan names what viewers may stumble over, and asks before it tells.
#[test]
fn questions_come_before_what_answers_them() {
    for study in PACK.studies() {
        let plan = Plan::new(&setting(study.entry().id.as_str()));
        assert!((2..=3).contains(&plan.questions.len()), "{:?}", plan.questions);
        for it in &plan.questions {
            let says = &plan.script.cues().find(|cue| Some(cue.step) == it.step).unwrap().says;
            // The conclusion is not given away.
            let conclusion = says.rsplit(". So ").next().unwrap();
            assert!(!it.asks.contains(conclusion) && it.asks.ends_with('?'), "{}", it.asks);
        }
    }
}

#[test]
fn a_target_says_what_to_shorten() {
    let whole = script("two-moths").total();
    let plan = |target: Time| {
        let notes = Notes { target: Some(target), ..Notes::default() };
        Plan::new(&setting("two-moths").noted(notes))
    };
    let enough = plan(whole);
    assert_eq!(enough.shortened(), (&[][..], Time(0)));
    let shorter = plan(whole - Time::seconds(10));
    let (together, over) = shorter.shortened();
    let saved = together.iter().fold(Time(0), |sum, it| sum + it.saves);
    assert!(over == Time(0) && saved >= Time::seconds(10), "{together:?}");
    assert!(together.iter().all(|it| it.steps.len() >= 2));
    // One fewer would not be enough.
    assert!(saved - together.last().unwrap().saves < Time::seconds(10));
    let hopeless = plan(Time::seconds(5));
    assert!(hopeless.shortened().1 > Time(0));
    assert_eq!(hopeless.shortened().0.len(), hopeless.together.len());
}

#[test]
fn parts_hold_every_passage_once() {
    let plan = Plan::new(&setting("long-shadow"));
    for longest in [60, 180, 240, 360, 10_000] {
        let parts = plan.parts(Time::seconds(longest));
        let mut next = 0;
        for it in &parts {
            assert_eq!(it.passages.0, next);
            assert!(it.takes <= Time::seconds(longest) || it.passages.1 == next + 1, "{it:?}");
            next = it.passages.1;
        }
        assert_eq!(next, plan.script.passages.len());
        let sum = parts.iter().fold(Time(0), |sum, it| sum + it.takes);
        assert_eq!(sum, plan.script.total());
    }
    assert_eq!(plan.parts(Time::seconds(10_000)).len(), 1);
    assert!(plan.parts(Time::seconds(240)).len() > 1);
}

/// A pace is learnt back from rehearsals at that pace, whatever happened at a step or two.
#[test]
fn a_pace_is_learnt_back() {
    let script = script("two-moths");
    assert_eq!(Pace::learned([]), None);
    for times in [0.7, 1.0, 1.6] {
        let mut log = at_pace(&script, times);
        // A call of five minutes at the fourth step.
        for it in log.events.iter_mut().skip(5) {
            it.at = it.at + Time::seconds(300);
        }
        log.total = log.total + Time::seconds(300);
        let pace = Pace::learned([(&script, reached(&script, &log))]).unwrap();
        let expected = WORDS_A_MINUTE as f64 / times;
        assert!((pace.words_a_minute as f64 - expected).abs() < 0.06 * expected, "{pace:?}");
        assert_eq!(pace.n_steps, script.cues().count());
    }
}

/// Where a tester sat five minutes before a digit, or took a hint, the plan says so.
#[test]
fn stops_of_testers_are_found() {
    use grade::{Course, Entry, Outcome, REGULAR, Solve, Timed};
    use rulebook::Claim;

    let study: &Study = PACK.studies().iter().find(|it| it.entry().id == id("two-moths")).unwrap();
    let account = study.opened().unwrap().account.unwrap();
    let trail = account.explained.walkthrough().trail();
    let course: Course = account.course();
    let mut at = 0.0;
    let mut entries = Vec::new();
    let mut slow = None;
    for (id, step) in trail.steps() {
        for fact in step.concludes() {
            if let Claim::Is(cell, digit) = trail.fact(*fact).claim() {
                at += if entries.len() == 10 { 300.0 } else { 2.0 };
                if entries.len() == 10 {
                    slow = Some(id);
                }
                entries.push(Entry { at, cell, digit: Some(digit) });
            }
        }
    }
    let hint = entries[20].at - 1.0;
    let solve = Solve {
        puzzle: "two-moths".to_owned(),
        solver: "Yew".to_owned(),
        kind: REGULAR,
        is_aloud: false,
        entries,
        hints: vec![hint],
        pauses: Vec::new(),
        outcome: Outcome::Solved,
    };
    let timed = Timed::new(&solve, &course).unwrap();
    let found = stops(trail, &account.estimate, &[timed]);
    assert_eq!(found.len(), 2, "{found:?}");
    assert!(found[0].step <= slow.unwrap() && found[0].n_hints == 0);
    assert_eq!((found[1].n_stopped, found[1].n_hints, found[1].n_testers), (1, 1, 1));
    let plan = Plan::new(&setting("two-moths").tested(found));
    let said: Vec<&str> = plan.stumbles.iter().map(|it| &it.why[..]).collect();
    assert!(said.iter().any(|it| it.ends_with("The one tester stopped here.")), "{said:?}");
    assert!(said.iter().any(|it| it.ends_with("The one tester stopped here and took a hint.")), "{said:?}");
}
