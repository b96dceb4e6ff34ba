//! The pages of the stage read as a browser reads them, and the plan as their scripts do.

use std::collections::BTreeSet;

use captions::Time;
use grid::{Cell, Digit, Grid, Size};
use pack::{Entry, Notes, StepNote};
use packfile::{SourceFile, fingerprint, read_puzzle};
use rehearse::{Plan, Setting, presenter_path, stage, stage_path, stage_shared, step_key};
use rulebook::{Claim, Puzzle};
use scraper::{ElementRef, Html, Selector};
use serde_json::Value;
use study::{Study, study};

macro_rules! demo {
    ($($id:literal),*) => {
        [$(($id, include_str!(concat!("../../../demo/lantern-room/puzzles/", $id, ".toml")))),*]
    };
}

/// Puzzle files of the demo, which Galley set itself.
const DEMO: [(&str, &str); 2] = demo!["first-light", "north-window"];

fn entry((id, text): (&str, &str)) -> Entry {
    let file = SourceFile::new(format!("puzzles/{id}.toml"), text);
    Entry { sealed: false, ..read_puzzle(&file).0.unwrap() }
}

fn alone(study: &Study) -> Setting<'_> {
    Setting::alone(study, "The lantern room").unwrap()
}

/// The stage and the presenter's page.
fn pages(setting: &Setting) -> [String; 2] {
    let files = stage(setting);
    let id = &setting.study().entry().id;
    assert_eq!(files.len(), 2);
    [stage_path(id), presenter_path(id)].map(|it| String::from_utf8(files[&it].clone()).unwrap())
}

/// A page as html5ever reads it, which follows the parsing rules of the HTML standard (WHATWG) and names each error.
fn parsed(page: &str) -> Html {
    let html = Html::parse_document(page);
    assert_eq!(html.errors, Vec::<String>::new());
    html
}

fn all<'a>(html: &'a Html, selector: &str) -> Vec<ElementRef<'a>> {
    html.select(&Selector::parse(selector).unwrap()).collect()
}

fn json(html: &Html, id: &str) -> Value {
    let text: String = all(html, &format!("script#{id}"))[0].text().collect();
    serde_json::from_str(&text).unwrap()
}

#[test]
fn equal_puzzles_give_equal_bytes() {
    let once = || stage(&alone(&study(entry(DEMO[0]), false)));
    assert_eq!(once(), once());
}

#[test]
fn only_what_may_be_told_has_a_stage() {
    let sealed = Entry { sealed: true, ..entry(DEMO[0]) };
    assert!(Setting::alone(&study(sealed.clone(), false), "").is_none());
    assert_eq!(stage(&alone(&study(sealed, true))).len(), 2);
    let many = Entry { puzzle: Puzzle::new(Grid::empty(Size::NINE), []), ..entry(DEMO[0]) };
    assert!(Setting::alone(&study(many, false), "").is_none());
}

/// The scripts and styles are beside the pages, and nothing else may be fetched or run.
#[test]
fn the_pages_are_sound_and_need_only_what_is_beside_them() {
    let shared = stage_shared();
    for it in DEMO {
        let study = study(entry(it), false);
        for page in pages(&alone(&study)) {
            let html = parsed(&page);
            let policy = all(&html, "meta[http-equiv=Content-Security-Policy]")[0].attr("content").unwrap();
            assert!(policy.starts_with("default-src 'none'; script-src 'self' file:"), "{policy}");
            assert!(policy.ends_with("base-uri 'none'; form-action 'none'"), "{policy}");
            assert!(!policy.contains("unsafe-inline") && !policy.contains("'unsafe-eval'"), "{policy}");
            let asked = all(&html, "script[src], link[rel=stylesheet]");
            assert_eq!(asked.len(), 2);
            for it in asked {
                let path = it.attr("src").or(it.attr("href")).unwrap();
                assert!(shared.contains_key(path), "{path}");
            }
            // A script without an address is data.
            let inside = all(&html, "script:not([src])");
            assert!(inside.iter().all(|it| it.attr("type") == Some("application/json")));
            assert_eq!(all(&html, "img, iframe, object, embed, form, base, [style], style").len(), 0);
            let ids: Vec<&str> = all(&html, "[id]").iter().filter_map(|it| it.attr("id")).collect();
            assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
            assert_eq!(all(&html, "h1").len(), 1);
        }
    }
    // Only the presenter's page has the engine.
    let [stage, presenter] = pages(&alone(&study(entry(DEMO[0]), false)));
    assert!(!stage.contains("wasm") && presenter.contains("'wasm-unsafe-eval'; worker-src blob:;"));
    let presenter = String::from_utf8(shared["presenter.js"].clone()).unwrap();
    assert!(presenter.contains("\"engine.js\"") && shared.contains_key("engine.js"));
    for style in ["stage.css", "presenter.css"] {
        let css = std::str::from_utf8(&shared[style]).unwrap();
        assert!(!css.contains("url(") && !css.contains("@import"), "{style}");
    }
}

#[test]
fn no_presenters_page_is_another_puzzles_stage() {
    let id = |it: &str| pack::PuzzleId::new(it).unwrap();
    for (a, b) in [("moths", "moths-presenter"), ("moths", "moths"), ("a", "a-presenter")] {
        assert_ne!(presenter_path(&id(a)), stage_path(&id(b)));
    }
}

/// The pages say what the plan says, and write the whole solution.
#[test]
fn the_pages_hold_the_plan() {
    for it in DEMO {
        let study = study(entry(it), false);
        let opened = study.opened().unwrap();
        let trail = opened.account.unwrap().explained.walkthrough().trail();
        let puzzle = &study.entry().puzzle;
        let size = puzzle.size();
        let note = |key: &str, says: &str| StepNote { key: key.to_owned(), says: says.to_owned() };
        let first = step_key(size, trail, trail.steps().next().unwrap().0);
        let notes = Notes {
            target: Some(Time::seconds(600)),
            opening: "Good evening.".to_owned(),
            steps: vec![note(&first, "Wave.\u{202e}"), note("naked-single: r0c0 is 0", "Gone.")],
            ..Notes::default()
        };
        let setting = alone(&study).noted(notes);
        let plan = Plan::new(&setting);
        let [stage, presenter] = pages(&setting).map(|it| parsed(&it));
        assert!(stage.root_element().text().all(|it| it != "Gone."));
        assert_eq!(all(&presenter, ".orphans dd").len(), 1);
        assert_eq!(all(&presenter, ".new dt").len(), plan.introductions.len());
        for html in [stage, presenter] {
            let data = json(&html, "plan-data");
            let steps = data["steps"].as_array().unwrap();
            assert_eq!(steps.len(), trail.n_steps());
            assert_eq!(data["opening"]["lines"][0], "Good evening.");
            let mut ink = puzzle.givens().clone();
            let mut starts = Time::of(data["opening"]["takes"].as_f64().unwrap());
            for (step, (id, made)) in steps.iter().zip(trail.steps()) {
                assert_eq!(step["key"], step_key(size, trail, id));
                assert_eq!(step["technique"], made.technique().name());
                assert_eq!(Time::of(step["starts"].as_f64().unwrap()), starts);
                starts = starts + Time::of(step["takes"].as_f64().unwrap());
                for written in step["ink"].as_array().unwrap() {
                    let cell: Cell = size.cells().nth(written[0].as_u64().unwrap() as usize).unwrap();
                    let digit: Digit = size.digit(written[1].as_u64().unwrap() as u8).unwrap();
                    ink = ink.with(cell, Some(digit));
                }
                let claims = || made.concludes().iter().map(|it| trail.fact(*it).claim());
                let n_kinds = claims().filter(|it| matches!(it, Claim::Crust(_) | Claim::Filling(_))).count();
                assert_eq!(step["marks"].as_array().unwrap().len(), n_kinds);
                let n_removed = claims().filter(|it| matches!(it, Claim::IsNot(..))).count();
                assert_eq!(step["without"].as_array().unwrap().len(), n_removed);
                // What is concluded about a cell is seen.
                if !step["ink"].as_array().unwrap().is_empty() {
                    assert!(step["below"].as_str().unwrap().starts_with("<g"), "{step}");
                }
            }
            let closes = starts + Time::of(data["close"]["takes"].as_f64().unwrap());
            assert_eq!(Time::of(data["total"].as_f64().unwrap()), closes);
            assert_eq!(closes, plan.script.total());
            assert_eq!(Some(&ink), opened.solution);
            assert_eq!((&steps[0]["note"], &steps[1]["note"]), (&Value::from("Wave."), &Value::Null));
            assert_eq!(data["target"], 600.0);
            let n_of = |key: &str| steps.iter().map(|it| it[key].as_array().unwrap().len()).sum::<usize>();
            assert_eq!(n_of("stumbles"), plan.stumbles.len());
            assert_eq!(n_of("asks"), plan.questions.len());
            assert!(n_of("introduces") >= plan.introductions.len() && n_of("asks") > 1);
            assert_eq!(data["passages"].as_array().unwrap().len(), plan.script.passages.len());
            assert_eq!(json(&html, site::PUZZLE_DATA)["fingerprint"], fingerprint(puzzle));
        }
    }
}

#[test]
fn no_text_becomes_anything_but_text() {
    let hostile = [
        "</bdi></title><script>alert(1)</script>",
        "\" onload='x' & &lt;b> `",
        "\u{202e}drawkcab \u{2067}כותרת",
        "--> <!-- ]]> </style><style>*{display:none}</style>",
    ];
    let kinds = |html: &Html| -> BTreeSet<String> {
        all(html, "*").iter().map(|it| it.value().name().to_owned()).collect()
    };
    // With something noted on a step that is gone, as below.
    let noted = |key: &str, says: &str| Notes {
        steps: [key, says].map(|key| StepNote { key: key.to_owned(), says: says.to_owned() }).into(),
        opening: says.to_owned(),
        close: says.to_owned(),
        questions: vec![says.to_owned()],
        ..Notes::default()
    };
    let study_of = |title: &str, setter: &str| {
        study(Entry { title: title.to_owned(), setter: setter.to_owned(), ..entry(DEMO[0]) }, false)
    };
    let plain = pages(&alone(&study_of("a", "b")).noted(noted("c", "d"))).map(|it| kinds(&parsed(&it)));
    for (at, it) in hostile.iter().enumerate() {
        let study = study_of(it, hostile[(at + 1) % hostile.len()]);
        let trail = study.opened().unwrap().account.unwrap().explained.walkthrough().trail();
        let key = step_key(Size::NINE, trail, trail.steps().next().unwrap().0);
        let setting = Setting::alone(&study, it).unwrap().noted(noted(&key, it));
        for (page, known) in pages(&setting).iter().zip(&plain) {
            let html = parsed(page);
            assert!(kinds(&html).is_subset(known));
            assert_eq!(all(&html, "script").len(), 3);
            assert!(all(&html, "*").iter().all(|it| it.value().attrs().all(|it| !it.0.starts_with("on"))));
            // What would turn the direction of the rest is taken out.
            let shown = it.replace(['\u{202e}', '\u{2067}'], "");
            assert_eq!(all(&html, "h1")[0].text().collect::<String>(), shown);
            assert_eq!(json(&html, "plan-data")["steps"][0]["note"], shown);
            assert!(!page.contains(['\u{202e}', '\u{2067}']));
        }
    }
}

/// What is recorded keeps a contrast of 7 for everything that is read, and 3 for what is seen, light and dark: as WCAG
/// 2.2 asks at its strictest (W3C, 1.4.6 and 1.4.11), because a recording loses some.
#[test]
fn the_stage_is_high_in_contrast() {
    let css = include_str!("../src/stage/board.css");
    for ground in ["light", "dark"] {
        let part =
            css.split(&format!("[data-ground=\"{ground}\"] {{")).nth(1).unwrap().split('}').next().unwrap();
        let colour = |name: &str| {
            let value = part.split(&format!("--{name}: #")).nth(1).unwrap();
            u32::from_str_radix(&value[..6], 16).unwrap()
        };
        let between = |a: &str, b: &str| contrast(colour(a), colour(b));
        for it in ["ink", "pencil", "grey"] {
            assert!(between(it, "paper") >= 7.0, "{it} on {ground}: {}", between(it, "paper"));
        }
        assert!(between("pencil", "tint") >= 4.5, "{ground}: {}", between("pencil", "tint"));
        for it in ["blue", "rule"] {
            assert!(between(it, "paper") >= 3.0, "{it} on {ground}: {}", between(it, "paper"));
        }
    }
    // No other colours are used.
    let rest = [include_str!("../src/stage/stage.css"), include_str!("../src/stage/presenter.css")].concat();
    assert!(!rest.contains('#') && !rest.contains("rgb(") && !rest.contains("hsl("));
}

/// The ratio of relative luminances as WCAG 2.2 defines both (W3C, section 6).
fn contrast(a: u32, b: u32) -> f64 {
    let luminance = |colour: u32| {
        let linear = |shift: u32| {
            let it = f64::from(colour >> shift & 0xff) / 255.0;
            if it <= 0.04045 { it / 12.92 } else { ((it + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * linear(16) + 0.7152 * linear(8) + 0.0722 * linear(0)
    };
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}
