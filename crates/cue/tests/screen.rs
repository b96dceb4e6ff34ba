//! Cue sheets read as a presenter's browser reads them.

use std::collections::BTreeSet;

use cue::on_screen;
use grid::{Grid, Size};
use pack::{Entry, Notes, StepNote};
use packfile::{SourceFile, read_puzzle};
use rehearse::{MARK_MILLISECONDS, Plan, Setting, WORDS_A_MINUTE};
use rulebook::Puzzle;
use scraper::{ElementRef, Html, Selector};
use study::{Study, study};
use tell::Voice;

const PACK: &str = "The lantern room";

macro_rules! demo {
    ($($id:literal),*) => {
        [$(($id, include_str!(concat!("../../../demo/lantern-room/puzzles/", $id, ".toml")))),*]
    };
}

/// Puzzle files of the demo, which Galley set itself.
const DEMO: [(&str, &str); 3] = demo!["first-light", "north-window", "small-hours"];

fn entry((id, text): (&str, &str)) -> Entry {
    let file = SourceFile::new(format!("puzzles/{id}.toml"), text);
    Entry { sealed: false, ..read_puzzle(&file).0.unwrap() }
}

fn first_light() -> Entry {
    entry(DEMO[0])
}

fn sheet(entry: Entry) -> String {
    sheet_of(&study(entry, false), PACK).unwrap()
}

fn sheet_of(study: &Study, pack_title: &str) -> Option<String> {
    let setting = Setting::alone(study, pack_title)?;
    Some(on_screen(&setting, &Plan::new(&setting)))
}

/// A page as html5ever reads it, which follows the parsing rules of the HTML standard (WHATWG) and
/// names each error.
fn parsed(page: &str) -> Html {
    let html = Html::parse_document(page);
    assert_eq!(html.errors, Vec::<String>::new());
    html
}

fn all<'a>(html: &'a Html, selector: &str) -> Vec<ElementRef<'a>> {
    html.select(&Selector::parse(selector).unwrap()).collect()
}

fn texts(html: &Html, selector: &str) -> Vec<String> {
    all(html, selector).into_iter().map(text).collect()
}

/// What is read in an element, with single spaces.
fn text(element: ElementRef) -> String {
    element.text().collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// `m:ss` in seconds.
fn seconds(time: &str) -> u64 {
    let (minutes, seconds) = time.split_once(':').unwrap();
    assert!(seconds.len() == 2, "{time}");
    let seconds: u64 = seconds.parse().unwrap();
    assert!(seconds < 60, "{time}");
    minutes.parse::<u64>().unwrap() * 60 + seconds
}

#[test]
fn equal_puzzles_give_equal_bytes() {
    assert_eq!(sheet(first_light()), sheet(first_light()));
}

#[test]
fn only_what_may_be_told_has_a_sheet() {
    let sealed = Entry { sealed: true, ..first_light() };
    assert_eq!(sheet_of(&study(sealed.clone(), false), PACK), None);
    assert!(sheet_of(&study(sealed, true), PACK).is_some());
    let many = Entry { puzzle: Puzzle::new(Grid::empty(Size::NINE), []), ..first_light() };
    assert_eq!(sheet_of(&study(many, false), PACK), None);
}

#[test]
fn the_page_is_sound_and_stands_alone() {
    for it in DEMO {
        let html = parsed(&sheet(entry(it)));
        assert_eq!(all(&html, "html[lang=en] > head > meta[name=viewport]").len(), 1);
        let policy = all(&html, "meta[http-equiv=Content-Security-Policy]")[0].attr("content");
        assert_eq!(policy, Some("default-src 'none'; style-src 'unsafe-inline'"));
        let foreign = "script, link, img, iframe, object, embed, form, base, [src], [style]";
        assert_eq!(all(&html, foreign).len(), 0);
        let style = texts(&html, "style").concat();
        assert!(!style.contains("url(") && !style.contains("@import"));

        let ids: Vec<&str> = all(&html, "[id]").iter().filter_map(|it| it.attr("id")).collect();
        let unique: BTreeSet<&str> = ids.iter().copied().collect();
        assert_eq!(unique.len(), ids.len());
        let links = all(&html, "a");
        assert!(links.len() > 3);
        for link in links {
            let target = link.attr("href").unwrap().strip_prefix('#').unwrap();
            assert!(unique.contains(target), "{target}");
        }
        let levels = all(&html, "h1, h2, h3, h4, h5, h6");
        let levels: Vec<u32> = levels.iter().map(|it| it.value().name()[1..].parse().unwrap()).collect();
        assert_eq!((levels[0], levels.iter().filter(|it| **it == 1).count()), (1, 1));
        assert!(levels.windows(2).all(|it| it[1] <= it[0] + 1), "{levels:?}");
    }
}

#[test]
fn everything_is_there_to_be_said_in_order() {
    for it in DEMO {
        let study: Study = study(entry(it), false);
        let (entry, account) = (study.entry(), study.opened().unwrap().account.unwrap());
        let html = parsed(&sheet_of(&study, PACK).unwrap());
        assert_eq!(text(all(&html, "h1")[0]), entry.title);
        let credit = format!("Set by {}. From {PACK}.", entry.setter);
        assert_eq!(texts(&html, ".credit"), [credit]);

        let rules = tell::rules(&entry.puzzle).into_iter().flat_map(|it| it.full);
        let opening = [format!("{}, set by {}, from {PACK}.", entry.title, entry.setter)];
        assert!(texts(&html, "#opening p").into_iter().eq(opening.into_iter().chain(rules)));

        let walkthrough = account.explained.walkthrough();
        let steps = all(&html, ".passage li");
        assert_eq!(steps.len(), walkthrough.trail().n_steps());
        for (item, (id, step)) in steps.iter().zip(walkthrough.trail().steps()) {
            let lines: Vec<String> = item.child_elements().skip(1).map(text).collect();
            let told = tell::says_in(Voice::Spoken, &entry.puzzle, walkthrough.trail(), id);
            assert!(lines.iter().map(String::as_str).eq(told.lines()));
            let technique = Selector::parse(".technique").unwrap();
            assert!(item.select(&technique).map(text).eq([tell::technique_name(step.technique())]));
            // What stands out is the conclusion, and nothing is left that only the eye could use.
            assert!(!told.contains(['(', '+', '=']), "{told}");
            for strong in item.select(&Selector::parse("strong").unwrap()).map(text) {
                assert!(strong.starts_with("So ") && told.contains(&strong), "{strong}");
            }
        }
        let mut next = 1;
        for list in all(&html, ".passage ol") {
            assert_eq!(list.attr("start"), Some(&*next.to_string()));
            next += list.child_elements().count();
        }
        // A board for every passage, and never more than six steps beside one; and one for the opening.
        let boards = all(&html, "svg").len() - 1;
        assert!(boards >= walkthrough.passages().len() && boards * 6 >= steps.len());
    }
}

#[test]
fn times_add_up() {
    for it in DEMO {
        let html = parsed(&sheet(entry(it)));
        let rows = all(&html, ".times tbody tr");
        let cells = Selector::parse("td").unwrap();
        let mut starts = 0;
        for (at, row) in rows.iter().enumerate() {
            let times: Vec<u64> = row.select(&cells).map(|it| seconds(&text(it))).collect();
            let [begins, takes] = times[..] else { panic!("two times a row") };
            assert_eq!(begins, starts);
            if at > 0 && at + 1 < rows.len() {
                let cues = texts(&html, &format!("#passage-{at} .takes"));
                assert_eq!(cues.iter().map(|it| seconds(it)).sum::<u64>(), takes);
            }
            starts += takes;
        }
        assert_eq!(texts(&html, "tfoot td")[1], texts(&html, "caption strong")[0]);
        assert_eq!(seconds(&texts(&html, "tfoot td")[1]), starts);
        // Headings repeat the table.
        let headings = texts(&html, "h2 .times");
        assert_eq!(headings.len(), rows.len());
        let table = rows.iter().map(|row| {
            let times: Vec<String> = row.select(&cells).map(text).collect();
            format!("from {}, takes {}", times[0], times[1])
        });
        assert!(headings.into_iter().eq(table));
        let caption = texts(&html, "caption").concat();
        assert!(caption.contains("145 words a minute") && caption.contains("1.5 seconds"), "{caption}");
    }
    assert_eq!((WORDS_A_MINUTE, MARK_MILLISECONDS), (145, 1_500));
}

/// No step is shorter than its words as they are written, each of which is at least one spoken word.
#[test]
fn no_step_is_too_short_to_be_said() {
    let study = study(entry(DEMO[1]), false);
    let account = study.opened().unwrap().account.unwrap();
    let trail = account.explained.walkthrough().trail();
    let html = parsed(&sheet_of(&study, PACK).unwrap());
    let times = texts(&html, ".takes");
    for (time, (id, _)) in times.iter().zip(trail.steps()) {
        let told = tell::says_in(Voice::Spoken, &study.entry().puzzle, trail, id);
        let words = told.split_whitespace().filter(|it| it.contains(char::is_alphanumeric)).count() as u64;
        assert!(seconds(time) * 1_000 + 500 >= words * 60_000 / WORDS_A_MINUTE, "{told}");
        assert!(seconds(time) < 120, "{told}");
    }
}

#[test]
fn no_text_becomes_anything_but_text() {
    let hostile = [
        "</bdi></title><script>alert(1)</script>",
        "\" onload='x' & &lt;b> `",
        "\u{202e}drawkcab \u{2067}כותרת",
        "Donaudampfschifffahrtsgesellschaftskapitaenskajuetenschluesselbundhalterungsschrauben",
        "--> <!-- ]]> </style><style>*{display:none}</style>",
    ];
    let kinds = |html: &Html| -> BTreeSet<String> {
        all(html, "*").iter().map(|it| it.value().name().to_owned()).collect()
    };
    let known = kinds(&parsed(&sheet(first_light())));
    for (at, it) in hostile.iter().enumerate() {
        let entry = Entry {
            title: (*it).to_owned(),
            setter: hostile[(at + 1) % hostile.len()].to_owned(),
            ..first_light()
        };
        let page = sheet_of(&study(entry, false), it).unwrap();
        let html = parsed(&page);
        assert!(kinds(&html).is_subset(&known));
        assert_eq!(all(&html, "style").len(), 1);
        assert!(all(&html, "*").iter().all(|it| it.value().attrs().all(|it| !it.0.starts_with("on"))));
        // What would turn the direction of the rest is taken out.
        let shown = it.replace(['\u{202e}', '\u{2067}'], "");
        assert_eq!(all(&html, "h1")[0].text().collect::<String>(), shown);
        assert!(!page.contains(['\u{202e}', '\u{2067}']));
    }
    let unseen = Entry { title: "a\u{0}b\u{7f}".into(), ..first_light() };
    assert_eq!(texts(&parsed(&sheet(unseen)), "h1"), ["a\u{fffd}b\u{fffd}"]);
    let page = sheet_of(&study(first_light(), false), "  ").unwrap();
    assert_eq!(texts(&parsed(&page), ".credit"), ["Set by Fern."]);
    assert_eq!(texts(&parsed(&page), "#opening p")[0], "First light, set by Fern.");
}

#[test]
fn notes_stand_beside_their_steps_and_none_is_lost() {
    let study = study(first_light(), false);
    let setting = Setting::alone(&study, PACK).unwrap();
    let key = Plan::new(&setting).script.cue(1).unwrap().key.clone();
    let note = |key: &str| StepNote { key: key.to_owned(), says: "Slowly: <b>look</b>.".to_owned() };
    let gone = "naked-single: r1c1 is 99";
    let notes = Notes {
        target: Some(captions::Time::seconds(60)),
        questions: vec!["What now?".to_owned()],
        steps: vec![note(gone), note(&key)],
        ..Notes::default()
    };
    let setting = setting.noted(notes);
    let html = parsed(&on_screen(&setting, &Plan::new(&setting)));
    assert_eq!(texts(&html, "li .note"), ["Slowly: <b>look</b>."]);
    assert_eq!(texts(&html, "#orphans dt"), [gone]);
    assert_eq!(texts(&html, "#orphans dd"), ["Slowly: <b>look</b>."]);
    let beforehand = texts(&html, "#beforehand").concat();
    for it in ["What now?", "To keep to 1:00", "too long even then", "New here"] {
        assert!(beforehand.contains(it), "{it} in {beforehand}");
    }
}

/// The style sheet adds no colour to those of `page`, whose contrast is computed there.
#[test]
fn colours_are_those_of_the_boards() {
    let css = include_str!("../src/cue.css");
    assert!(!css.contains('#') && !css.contains("rgb(") && !css.contains("hsl("));
    let declarations = || css.split(['{', ';', '}']).filter_map(|it| it.trim().split_once(": "));
    let colours: Vec<&str> = declarations().filter(|it| it.0 == "color").map(|it| it.1).collect();
    assert!(colours.len() > 3, "{colours:?}");
    for it in colours {
        assert!(matches!(it, "var(--ink)" | "var(--pencil)" | "var(--grey)" | "inherit"), "{it}");
    }
    assert!(declarations().filter(|it| it.0 == "background").all(|it| it.1 == "var(--paper)"));
}
