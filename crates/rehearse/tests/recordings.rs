//! What a log gives: chapters, captions, what ran long, what may be cut, and the text under the recording.

mod common;

use captions::{Cut, Cuts, LEAST_CHAPTER, READABLE, Time, chapter_lines};
use common::{PACK, at_pace, id};
use pack::{Event, Happening, PackInfo, Rehearsal, TextLimits};
use rehearse::{Pace, Plan, Recorded, Script, Setting, TEMPLATE, gone, reached, under};

fn setting() -> Setting<'static> {
    Setting::in_pack(&PACK, &id("first-light")).unwrap()
}

fn script() -> Script {
    Plan::new(&setting()).script
}

fn happens(log: &mut Rehearsal, at: u64, is: Happening) {
    log.events.push(Event { at: Time::seconds(at), is });
    log.events.sort_by_key(|it| it.at);
}

#[test]
fn chapters_are_the_passages_that_are_long_enough() {
    let script = script();
    let log = at_pace(&script, 1.0);
    let recorded = Recorded::new(&script, &log, Pace::default());
    let chapters = recorded.chapters();
    assert_eq!(chapters[0].at, Time(0));
    assert_eq!(chapters[0].title, "Credit and rules");
    let ends = chapters.iter().skip(1).map(|it| it.at).chain([log.total]);
    for (it, end) in chapters.iter().zip(ends) {
        assert!(end.since(it.at) >= LEAST_CHAPTER, "{chapters:?}");
    }
    // At the planned pace, parts begin when the plan says.
    let planned = script.passages.iter().map(|it| (it.starts, &it.title));
    let parts = recorded.parts();
    assert!(parts[1..parts.len() - 1].iter().map(|it| (it.at, &it.title)).eq(planned));
    assert!(chapter_lines(&chapters).starts_with("0:00 Credit and rules\n"));
}

/// Captions keep the BBC's limits whatever the pace: what was said too fast is said shorter, and that is said.
#[test]
fn captions_can_always_be_read() {
    let script = script();
    let n_steps = script.cues().count();
    let mut shortened = Vec::new();
    for times in [0.3, 0.6, 0.8, 1.0, 2.0] {
        let log = at_pace(&script, times);
        let draft = Recorded::new(&script, &log, Pace::default()).captions(&Cuts::default());
        let mut last = Time(0);
        for it in &draft.captions {
            assert!(last <= it.from && it.from < it.to && it.to <= log.total, "{it:?}");
            assert!(it.words_a_minute() <= READABLE.words_a_minute as f64, "{it:?}");
            assert!(it.text.lines().count() <= 2 && it.text.lines().all(|it| it.chars().count() <= 42));
            last = it.to;
        }
        let all = draft.captions.iter().map(|it| it.n_words()).sum::<usize>();
        assert!(all > 0 && draft.shortened.len() + draft.left_out.len() <= n_steps + 2);
        shortened.push(draft.shortened.len() + draft.left_out.len());
    }
    assert!(shortened.is_sorted_by(|a, b| a >= b), "{shortened:?}");
    assert!(shortened[0] > n_steps / 2 && shortened[4] == 0, "{shortened:?}");
}

#[test]
fn what_took_longer_than_planned_is_named() {
    let script = script();
    let planned = at_pace(&script, 1.0);
    assert_eq!(Recorded::new(&script, &planned, Pace::default()).ran_long(), []);
    let mut slow = planned.clone();
    // A minute more within the second passage, and a pause that does not count in the first.
    let second = script.passages[1].starts;
    for it in slow.events.iter_mut().filter(|it| it.at > second) {
        it.at = it.at + Time::seconds(60);
    }
    slow.total = slow.total + Time::seconds(60);
    let long = Recorded::new(&script, &slow, Pace::default()).ran_long();
    assert_eq!(long.iter().map(|it| &it.title[..]).collect::<Vec<_>>(), [&script.passages[1].title[..]]);
    assert_eq!(long[0].took - long[0].planned, Time::seconds(60));
    let until = second + Time::seconds(58);
    slow.events.push(Event { at: second + Time(1), is: Happening::Pause });
    slow.events.push(Event { at: until, is: Happening::Resume });
    slow.events.sort_by_key(|it| it.at);
    assert_eq!(Recorded::new(&script, &slow, Pace::default()).ran_long(), []);
}

#[test]
fn pauses_and_undone_entries_are_offered_as_cuts() {
    let script = script();
    let mut log = at_pace(&script, 1.0);
    let cell = grid::Size::NINE.cell(4, 7).unwrap();
    happens(&mut log, 100, Happening::Pause);
    happens(&mut log, 130, Happening::Resume);
    happens(&mut log, 150, Happening::Undone { cell, since: Time::seconds(145) });
    let recorded = Recorded::new(&script, &log, Pace::default());
    let cuts = recorded.cuts();
    let listed: Vec<_> = cuts.iter().map(|it| (it.from.0, it.to.0, &it.why[..])).collect();
    assert_eq!(listed, [(100_000, 130_000, "away"), (145_000, 150_000, "undone at r4c7")]);
    // Nothing is shown while the presenter was away.
    let captions = recorded.captions(&Cuts::default()).captions;
    assert!(captions.iter().all(|it| it.to.0 <= 100_000 || it.from.0 >= 130_000), "{captions:?}");
    // After the cuts everything is that much earlier, and what was said around a cut can still be read.
    let after = recorded.captions(&cuts).captions;
    assert_eq!(after.last().unwrap().to, captions.last().unwrap().to - Time::seconds(35));
    assert!(after.last().unwrap().to <= log.total - cuts.total());
    for it in &after {
        assert!(it.words_a_minute() <= READABLE.words_a_minute as f64, "{it:?}");
    }
    assert!(after.windows(2).all(|it| it[0].to <= it[1].from));
}

/// A cut that leaves a second of a step leaves no caption that would take five to read.
#[test]
fn what_is_cut_short_is_said_shorter() {
    let script = script();
    let log = at_pace(&script, 1.0);
    let recorded = Recorded::new(&script, &log, Pace::default());
    let step = recorded.reached().iter().find(|it| it.step == Some(2)).unwrap();
    let cut = Cut { from: step.from + Time::seconds(1), to: step.to, why: "slip".to_owned() };
    let draft = recorded.captions(&Cuts::new([cut], log.total));
    assert_eq!((draft.shortened, draft.left_out), (vec![], vec![3]));
    assert!(draft.captions.iter().all(|it| it.words_a_minute() <= READABLE.words_a_minute as f64));
}

/// A step is known by its key: in a walkthrough that has changed since, and when it was gone back to.
#[test]
fn logs_of_another_walkthrough_are_read_as_far_as_they_go() {
    let script = script();
    let mut log = at_pace(&script, 1.0);
    let first = script.cue(0).unwrap();
    let again = Happening::Step { number: first.step.number(), key: first.key.clone() };
    happens(&mut log, 120, again);
    happens(&mut log, 121, Happening::Step { number: 7, key: "no-such-step: r1c1 is 1".to_owned() });
    let said = reached(&script, &log);
    assert_eq!(said.len(), script.cues().count() + 2);
    assert_eq!(said.iter().filter(|it| it.step == Some(0)).count(), 1);
    assert!(said.windows(2).all(|it| it[0].to == it[1].from));
    assert_eq!(gone(&script, &log), ["no-such-step: r1c1 is 1"]);
    let nothing = Rehearsal { events: Vec::new(), ..log };
    assert_eq!(reached(&script, &nothing), []);
    let recorded = Recorded::new(&script, &nothing, Pace::default());
    assert_eq!(
        (recorded.chapters(), recorded.captions(&Cuts::default()).captions, recorded.cuts()),
        (vec![], vec![], Cuts::default())
    );
}

#[test]
fn the_text_says_everything_or_what_it_leaves_out() {
    let (setting, script) = (setting(), script());
    let log = at_pace(&script, 1.0);
    let chapters = Recorded::new(&script, &log, Pace::default()).chapters();
    let text = |title: Option<usize>, text: Option<usize>| {
        let info = PackInfo { text_limits: TextLimits { title, text }, ..PACK.info().clone() };
        under(&setting, &script, &info, (&chapters, log.total), TEMPLATE).unwrap()
    };
    let whole = text(None, None);
    assert_eq!(whole.title, "First light by Fern, from The lantern room");
    for it in [
        "First light, set by Fern, from The lantern room\n",
        "https://example.org/lantern-room/puzzles/first-light.html",
        "\n0:00 Credit and rules\n",
        "Techniques: ",
        "licence CC-BY-4.0",
    ] {
        assert!(whole.text.contains(it), "{it} in {}", whole.text);
    }
    assert!(!whole.text.contains("\n\n\n") && whole.left_out.is_empty() && whole.over == 0);
    let n = whole.text.chars().count();
    assert_eq!(text(None, Some(n)), whole);
    for most in (100..n).step_by(37) {
        let shorter = text(None, Some(most));
        let length = shorter.text.chars().count();
        assert_eq!(length.saturating_sub(most), shorter.over);
        assert_eq!(shorter.left_out[0], "the techniques");
        assert!(shorter.text.contains("First light, set by Fern"), "credit stays");
    }
    assert_eq!(text(Some(20), None).title, "First light by Fern");
    assert_eq!(text(Some(11), None).title, "First light");
    assert_eq!(text(Some(10), None).title, "First lig…");
}

#[test]
fn a_mistake_in_a_template_is_named_with_its_line() {
    let (setting, script) = (setting(), script());
    let fill = |template: &str| under(&setting, &script, PACK.info(), (&[], Time(0)), template);
    assert_eq!(fill("{{ title }}\n\n\n\nby {{ setter }}").unwrap().text, "First light\n\nby Fern\n");
    assert_eq!(fill("{{ title }}\n{{ tilte }}").unwrap_err().line, Some(2));
    assert_eq!(fill("a\nb\n{% if %}").unwrap_err().line, Some(3));
    assert_eq!(fill("").unwrap().text, "\n");
}
