//! A pack to look at: four sound puzzles, one of them sealed, one with two solutions, one with none,
//! and a file that is no puzzle. Galley set the puzzles itself.
#![allow(dead_code)] // the example does not use all of it

use std::sync::OnceLock;

use packfile::{Problem, ReadPack, SourceFile, Unreadable, read_pack};
use report::Worths;
use scraper::{ElementRef, Html, Selector};
use study::{StudiedPack, study};

/// `pack.toml` of the sample, without its order.
pub(crate) const PACK: &str = r#"
format = 1
title = "The lantern room"
editor = "Ash"
licence = "CC-BY-4.0"
shelves = ["Dusk", "Night", "Small hours"]
"#;

/// Each file of the sample's folder `puzzles`.
pub(crate) const PUZZLES: [(&str, &str); 8] = [
    ("cold-grate", include_str!("../data/cold-grate.toml")),
    ("first-light", include_str!("../data/first-light.toml")),
    ("night-ferry", include_str!("../data/night-ferry.toml")),
    ("small-hours", include_str!("../data/small-hours.toml")),
    ("smoked-glass", include_str!("../data/smoked-glass.toml")),
    ("tide-bell", include_str!("../data/tide-bell.toml")),
    ("twin-flames", include_str!("../data/twin-flames.toml")),
    ("two-moths", include_str!("../data/two-moths.toml")),
];

/// A pack that has been read and studied.
#[derive(Debug)]
pub(crate) struct Sample {
    pub(crate) pack: StudiedPack,
    pub(crate) problems: Vec<Problem>,
    pub(crate) unreadable: Vec<Unreadable>,
    pub(crate) worths: Worths,
}

impl Sample {
    /// The whole sample, with its seal broken or not; studied once.
    pub(crate) fn whole(unseal: bool) -> &'static Sample {
        static SAMPLES: [OnceLock<Sample>; 2] = [const { OnceLock::new() }; 2];
        SAMPLES[usize::from(unseal)].get_or_init(|| Sample::of(PACK, &PUZZLES, unseal))
    }

    /// The pack with those files.
    pub(crate) fn of(info: &str, puzzles: &[(&str, &str)], unseal: bool) -> Sample {
        let info = SourceFile::new("pack.toml", info);
        let file = |(id, text): &(&str, &str)| SourceFile::new(format!("puzzles/{id}.toml"), *text);
        let puzzles: Vec<SourceFile> = puzzles.iter().map(file).collect();
        let (ReadPack { pack, unreadable, .. }, problems) = read_pack(Some(&info), &puzzles);
        let studies = pack.entries.into_iter().map(|it| study(it, unseal)).collect();
        Sample { pack: StudiedPack::new(pack.info, studies), problems, unreadable, worths: Worths::new() }
    }

    /// The report on it.
    pub(crate) fn report(&self) -> String {
        report::report(&self.pack, &self.worths, &self.problems, &self.unreadable)
    }
}

/// The text of one of the sample's puzzles.
pub(crate) fn puzzle(id: &str) -> &'static str {
    PUZZLES.iter().find(|it| it.0 == id).map_or("", |it| it.1)
}

/// The page as html5ever reads it, which follows the parsing rules of the HTML standard (WHATWG) and
/// names each error.
pub(crate) fn parsed(page: &str) -> Html {
    let html = Html::parse_document(page);
    assert_eq!(html.errors, Vec::<String>::new());
    html
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
