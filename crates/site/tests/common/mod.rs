//! Packs to make sites of: the demo's puzzles, which Galley set itself, and boards of other sizes.
#![allow(dead_code)] // not every test uses all of it

use std::collections::BTreeMap;
use std::sync::{LazyLock, Mutex};

use grid::{Cell, Digit, Grid, Size};
use pack::{Entry, PackInfo, PuzzleId};
use packfile::{SourceFile, read_puzzle};
use primer::Primer;
use rulebook::{Clue, Puzzle, Rule, SANDWICH};
use scraper::{ElementRef, Html, Selector};
use site::Files;
use study::{StudiedPack, study};

macro_rules! demo {
    ($($id:literal),*) => {
        [$(($id, include_str!(concat!("../../../../demo/lantern-room/puzzles/", $id, ".toml")))),*]
    };
}

/// Puzzle files of the demo.
pub(crate) const DEMO: [(&str, &str); 5] =
    demo!["first-light", "low-wick", "two-moths", "north-window", "spent-match"];

/// One of the demo's puzzles; it may be sealed there.
pub(crate) fn demo(id: &str) -> Entry {
    let text = DEMO.iter().find(|it| it.0 == id).unwrap().1;
    let file = SourceFile::new(format!("puzzles/{id}.toml"), text);
    Entry { sealed: false, ..read_puzzle(&file).0.unwrap() }
}

pub(crate) fn id(name: &str) -> PuzzleId {
    PuzzleId::new(name).unwrap()
}

/// A board of that size that is filled but for a cell a row, with every clue.
pub(crate) fn nearly_full(name: &str, size: Size) -> Entry {
    let (side, width, height) = (size.side(), size.box_width(), size.box_height());
    // Each row is the first one shifted, by a box within a band and by one more from band to band.
    let digit = |cell: Cell| -> Option<Digit> {
        let (row, column) = (cell.row() - 1, cell.column() - 1);
        size.digit((u16::from(row % height * width + row / height + column) % u16::from(side)) as u8 + 1)
    };
    let solution = Grid::from_fn(size, digit);
    let clue = |line| {
        let digits: Vec<Digit> = size.cells_of(line).into_iter().filter_map(digit).collect();
        let value = SANDWICH.reachable(size).into_iter().find(|it| SANDWICH.allows(size, *it, &digits));
        Clue { rule: &SANDWICH, line, value: value.unwrap() }
    };
    let givens = Grid::from_fn(size, |it| solution.get(it).filter(|_| it.row() != it.column()));
    Entry::new(id(name), format!("Board of {side}"), "Moss", Puzzle::new(givens, size.lines().map(clue)))
}

pub(crate) fn info() -> PackInfo {
    PackInfo {
        title: "The lantern room".into(),
        editor: "Ash".into(),
        licence: Some("CC-BY-4.0".into()),
        base_url: Some("https://example.org/lantern-room".into()),
        shelves: vec!["Dusk".into(), "Night".into()],
        ..PackInfo::default()
    }
}

/// The pack with those puzzles, in that order.
pub(crate) fn pack_of(info: PackInfo, entries: Vec<Entry>) -> StudiedPack {
    let order = entries.iter().map(|it| it.id.clone()).collect();
    let studies = entries.into_iter().map(|it| study(it, false)).collect();
    StudiedPack::new(PackInfo { order: Some(order), ..info }, studies)
}

/// The usual pack, studied once.
pub(crate) fn sample() -> StudiedPack {
    static SAMPLE: LazyLock<StudiedPack> =
        LazyLock::new(|| pack_of(info(), DEMO.iter().map(|it| demo(it.0)).collect()));
    SAMPLE.clone()
}

/// The site of a pack with its lessons, whose exercises are looked for once a pack.
pub(crate) fn site(pack: &StudiedPack) -> Files {
    static KNOWN: Mutex<BTreeMap<String, Primer>> = Mutex::new(BTreeMap::new());
    let key =
        format!("{:?} {:?}", pack.info(), pack.studies().iter().map(|it| &it.entry().id).collect::<Vec<_>>());
    let mut known = KNOWN.lock().unwrap();
    let lessons = known.entry(key).or_insert_with(|| primer::primer(pack, &|| false).unwrap());
    site::site(pack, lessons, pack::Day::new(2026, 12, 1))
}

/// Texts that would become markup, turn the page around or push it apart.
pub(crate) const HOSTILE: [&str; 6] = [
    "</bdi></title><script>alert(1)</script>",
    "\" onload='x' & &lt;b> `",
    "\u{202e}drawkcab \u{2067}כותרת",
    "Donaudampfschifffahrtsgesellschaftskapitaenskajuetenschluesselbundhalterungsschraubengewindeschneider",
    "--> <!-- ]]> <svg><style>*{display:none}</style>",
    "a\u{0}b\r\nc\t\u{ffff}  d ",
];

/// A pack in which every text is hostile.
pub(crate) fn hostile() -> StudiedPack {
    let mut at = 0;
    let mut next = || {
        at += 1;
        HOSTILE[at % HOSTILE.len()].to_owned()
    };
    let entries = (0..HOSTILE.len()).map(|at| Entry {
        id: id(&format!("index{at}")),
        title: HOSTILE[at].to_owned(),
        setter: next(),
        note: Some(next()),
        intends: vec![next()],
        permission: Some(next()),
        ..nearly_full("any", Size::NINE)
    });
    let entries = entries.collect();
    let info = PackInfo {
        title: HOSTILE.concat(),
        editor: HOSTILE[1].into(),
        licence: Some(HOSTILE[0].into()),
        base_url: Some(format!("https://example.org/{}", HOSTILE[1])),
        shelves: HOSTILE.iter().map(|it| (*it).into()).collect(),
        ..PackInfo::default()
    };
    pack_of(info, entries)
}

/// A page as html5ever reads it, which follows the parsing rules of the HTML standard (WHATWG) and
/// names each error.
pub(crate) fn parsed(page: &str) -> Html {
    let html = Html::parse_document(page);
    assert_eq!(html.errors, Vec::<String>::new());
    html
}

/// The pages among the files, parsed, by path.
pub(crate) fn pages(files: &BTreeMap<String, Vec<u8>>) -> BTreeMap<&str, Html> {
    let pages = files.iter().filter(|it| it.0.ends_with(".html"));
    pages.map(|(path, bytes)| (path.as_str(), parsed(std::str::from_utf8(bytes).unwrap()))).collect()
}

pub(crate) fn all<'a>(html: &'a Html, selector: &str) -> Vec<ElementRef<'a>> {
    html.select(&Selector::parse(selector).unwrap()).collect()
}

pub(crate) fn one<'a>(html: &'a Html, selector: &str) -> ElementRef<'a> {
    let found = all(html, selector);
    assert_eq!(found.len(), 1, "{selector}");
    found[0]
}

/// What is read in an element, with single spaces.
pub(crate) fn text(element: ElementRef) -> String {
    element.text().collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}
