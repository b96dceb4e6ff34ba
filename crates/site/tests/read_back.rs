//! Puzzles read back from finished pages: the same ones, and no slip goes unnoticed.

mod common;

use std::collections::BTreeMap;

use common::{demo, hostile, id, info, nearly_full, pack_of, sample, site};
use grid::Size;
use pack::Entry;
use prove::{Limit, Verdict};
use rulebook::Puzzle;
use scraper::{Html, Selector};
use site::{Difference, Fault, ReadError, ReadPuzzle, read_back};
use study::StudiedPack;

type Files = BTreeMap<String, Vec<u8>>;

/// A pack of one puzzle, published.
fn published(entry: &Entry) -> Files {
    site(&pack_of(info(), vec![entry.clone()]))
}

const PAGE: &str = "puzzles/north-window.html";

/// The files with each `from` in that file turned into `to`.
fn changed(files: &Files, path: &str, from: &str, to: &str) -> Files {
    let text = String::from_utf8(files[path].clone()).unwrap();
    assert!(text.contains(from), "{path} has no {from}");
    let mut files = files.clone();
    files.insert(path.to_owned(), text.replace(from, to).into_bytes());
    files
}

fn fault(files: &Files) -> Fault {
    read_back(files).unwrap_err().fault
}

fn assert_read_back(pack: &StudiedPack) {
    let read = read_back(&site(pack)).unwrap();
    assert_eq!(read.len(), pack.studies().len());
    for (read, study) in read.iter().zip(pack.studies()) {
        let entry = study.entry();
        assert_eq!((&read.id, &read.puzzle), (&entry.id, &entry.puzzle));
        assert_eq!(read.differs_from(entry), None);
        let Verdict::One(solution) = prove::verdict(&read.puzzle, Limit(1_000_000)) else {
            panic!("{} is not proved as published", read.id)
        };
        assert_eq!(Some(&solution), study.opened().unwrap().solution);
    }
}

#[test]
fn what_is_read_is_what_was_published() {
    assert_read_back(&sample());
    assert_read_back(&hostile());
    for read in read_back(&site(&sample())).unwrap() {
        let entry = demo(read.id.as_str());
        assert_eq!((read.title, read.setter), (entry.title, entry.setter));
    }
}

#[test]
fn boards_of_every_shape_are_read() {
    let shapes = [(2, 2), (3, 2), (2, 3), (4, 2), (2, 4), (5, 2), (4, 3), (3, 4), (5, 3), (4, 4)];
    let sizes = shapes.map(|(width, height)| Size::new(width, height).unwrap());
    let entry = |size: Size| {
        let name = format!("board-{}-by-{}", size.box_width(), size.box_height());
        nearly_full(&name, size)
    };
    assert_read_back(&pack_of(info(), sizes.into_iter().map(entry).collect()));
    // A classic puzzle has no clues, and its page tells no rule for them.
    let classic = nearly_full("classic", Size::NINE);
    let classic = Entry { puzzle: Puzzle::new(classic.puzzle.givens().clone(), []), ..classic };
    assert_read_back(&pack_of(info(), vec![classic]));
}

/// The figures of the large board as they stand in the page's text, with what a tampered page has in
/// their place.
fn figures(page: &str) -> Vec<(String, String)> {
    let html = Html::parse_document(page);
    let texts = Selector::parse(".board svg text").unwrap();
    html.select(&texts)
        .map(|it| {
            let text: String = it.text().collect();
            let number: u16 = text.parse().unwrap();
            let other = if number < 8 { number + 1 } else { number - 1 };
            let place = format!("x=\"{}\" y=\"{}\">", it.attr("x").unwrap(), it.attr("y").unwrap());
            (format!("{place}{text}<"), format!("{place}{other}<"))
        })
        .collect()
}

/// Every figure of a board in turn: another digit, another clue, another row number.
#[test]
fn a_tampered_figure_is_noticed() {
    let entry = demo("north-window");
    let files = published(&entry);
    let page = String::from_utf8(files[PAGE].clone()).unwrap();
    let figures = figures(&page);
    assert_eq!(figures.len(), entry.puzzle.givens().filled().count() + entry.puzzle.clues().len() + 18);
    let (board, rest) = page.split_once("</figure>").unwrap();
    let mut n_descriptions = 0;
    for (from, to) in figures {
        assert_eq!(board.matches(&from).count(), 1, "{from}");
        let mut files = files.clone();
        files.insert(PAGE.into(), format!("{}</figure>{rest}", board.replace(&from, &to)).into_bytes());
        match fault(&files) {
            Fault::DescriptionDiffers => n_descriptions += 1,
            Fault::StrayFigure(_) => {}
            other => panic!("{from}: {other}"),
        }
    }
    assert_eq!(n_descriptions, entry.puzzle.givens().filled().count() + entry.puzzle.clues().len());
}

/// Where drawing and description agree on something else, the comparison with the entry finds it.
#[test]
fn another_puzzle_is_told_from_the_entry() {
    let entry = demo("north-window");
    let read = |entry: &Entry| -> ReadPuzzle { read_back(&published(entry)).unwrap().remove(0) };
    let other = |change: &dyn Fn(&mut Entry)| {
        let mut other = entry.clone();
        change(&mut other);
        read(&entry).differs_from(&other)
    };
    assert_eq!(other(&|_| {}), None);
    assert_eq!(other(&|it| it.title.push('s')), Some(Difference::Title));
    assert_eq!(other(&|it| it.setter = "Moss".into()), Some(Difference::Setter));
    assert_eq!(other(&|it| it.note = None), None);

    let (size, puzzle) = (Size::NINE, &entry.puzzle);
    let (first, digit) = puzzle.givens().filled().next().unwrap();
    let another = size.digits().iter().find(|it| *it != digit);
    for changed in [None, another] {
        let givens = puzzle.givens().clone().with(first, changed);
        let changed = Puzzle::new(givens, puzzle.clues().iter().copied());
        assert_eq!(other(&|it| it.puzzle = changed.clone()), Some(Difference::Given(first)));
    }
    let mut clues = puzzle.clues().to_vec();
    let dropped = clues.pop().unwrap();
    let without = Puzzle::new(puzzle.givens().clone(), clues);
    assert_eq!(other(&|it| it.puzzle = without.clone()), Some(Difference::Clue(dropped.line)));
    assert_eq!(
        other(&|it| it.puzzle = nearly_full("a", Size::new(3, 2).unwrap()).puzzle),
        Some(Difference::Size)
    );
}

#[test]
fn a_tampered_page_is_noticed() {
    let files = published(&demo("north-window"));
    let slip = |from: &str, to: &str| fault(&changed(&files, PAGE, from, to));
    assert_eq!(slip("<h1><bdi>North", "<h1><bdi>South"), Fault::IndexDiffers);
    assert_eq!(slip("Set by <bdi>Fern", "Set by <bdi>Moss"), Fault::IndexDiffers);
    assert_eq!(slip("<h1>", "<h1>X</h1><h1>"), Fault::NotOne("main heading"));
    assert_eq!(slip("class=\"board\"", "class=\"picture\""), Fault::NotOne("large board"));
    assert_eq!(slip("sum of the digits", "product of the digits"), Fault::RulesDiffer);
    assert_eq!(slip("from 1 to 9 once", "from 1 to 6 once"), Fault::RulesDiffer);
    assert_eq!(slip("<dt>Sandwich</dt>", ""), Fault::RulesDiffer);
    assert_eq!(
        slip("<desc>Row 1: sandwich clue 25", "<desc>Row 1: sandwich clue 24"),
        Fault::DescriptionDiffers
    );
    assert_eq!(slip("column 1 is 3, column 4 is 5", "column 1 is 3"), Fault::DescriptionDiffers);
    assert!(matches!(slip("font-weight=\"700\"", "font-weight=\"400\""), Fault::StrayFigure(_)));
    assert!(matches!(slip("</main>", "</div></main>"), Fault::NotSound(_)));
    // What is played is read too.
    assert_eq!(slip("\"value\":", "\"value\":1"), Fault::DataDiffers);
    assert_eq!(slip("\"givens\":[3", "\"givens\":[7"), Fault::DataDiffers);
    assert_eq!(slip("\"fingerprint\"", "\"finger\""), Fault::DataDiffers);
    assert_eq!(slip("id=\"puzzle-data\"", "id=\"data\""), Fault::NotOne("embedded puzzle"));
}

/// The lines of the drawing decide its size: a line less, a line elsewhere, another frame.
#[test]
fn tampered_lines_are_noticed() {
    let files = published(&demo("north-window"));
    let page = String::from_utf8(files[PAGE].clone()).unwrap();
    let html = Html::parse_document(&page);
    let of = |selector: &str, attribute: &str| -> String {
        let found: Vec<_> = html.select(&Selector::parse(selector).unwrap()).collect();
        assert_eq!(found.len(), 1, "{selector}");
        found[0].attr(attribute).unwrap().to_owned()
    };
    let thin = of(".board path.line-rule", "d");
    let thick = of(".board path.line-ink", "d");
    let width = of(".board rect.line-ink", "width");
    let last = |path: &str| path[path.rfind('M').unwrap()..].to_owned();
    let moved = |path: &str| path.replacen('M', "M1", 1);
    for (from, to) in [
        (thin.clone(), thin.replace(&last(&thin), "")),
        (thin.clone(), moved(&thin)),
        (thick.clone(), thick.replace(&last(&thick), "")),
        (thick.clone(), moved(&thick)),
        (thick.clone(), thin.clone()),
        (thick.clone(), thick.replacen('V', "Q", 1)),
        (format!("width=\"{width}\""), "width=\"100\"".to_owned()),
    ] {
        assert_eq!(fault(&changed(&files, PAGE, &from, &to)), Fault::NoBoard, "{to}");
    }
}

#[test]
fn index_and_pages_have_to_agree() {
    let files = site(&pack_of(info(), vec![demo("first-light"), demo("north-window")]));
    let error = |path: &str, fault| Err(ReadError { path: path.into(), fault });
    assert_eq!(read_back(&Files::new()), error("index.html", Fault::Missing));

    let mut missing = files.clone();
    missing.remove(PAGE);
    assert_eq!(read_back(&missing), error(PAGE, Fault::Missing));

    let mut extra = files.clone();
    extra.insert("puzzles/stray.html".into(), files[PAGE].clone());
    assert_eq!(read_back(&extra), error("puzzles/stray.html", Fault::NotLinkedOnce));

    let first = "puzzles/first-light.html";
    let twice = changed(&files, "index.html", PAGE, first);
    assert_eq!(read_back(&twice), error(first, Fault::NotLinkedOnce));
    let elsewhere = changed(&files, "index.html", PAGE, "../north-window.html");
    assert_eq!(read_back(&elsewhere), error("../north-window.html", Fault::NotLinkedOnce));

    let renamed = changed(&files, "index.html", "North window", "South window");
    assert_eq!(read_back(&renamed), error(PAGE, Fault::IndexDiffers));

    let mut bytes = files.clone();
    bytes.insert(PAGE.into(), vec![0xff]);
    assert_eq!(read_back(&bytes), error(PAGE, Fault::NotText));

    let read: Vec<_> = read_back(&files).unwrap().into_iter().map(|it| it.id).collect();
    assert_eq!(read, [id("first-light"), id("north-window")]);
}

#[test]
fn faults_say_what_is_wrong() {
    let error = ReadError { path: "puzzles/a.html".into(), fault: Fault::StrayFigure("x".into()) };
    assert_eq!(error.to_string(), "puzzles/a.html: the figure \"x\" does not belong where it stands");
    assert_eq!(Difference::Given(Size::NINE.cell(4, 7).unwrap()).to_string(), "the given in r4c7 differs");
}
