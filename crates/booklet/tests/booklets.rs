//! What a booklet holds, and that the same pack gives the same bytes.

mod common;

use booklet::{BookletError, Edition, booklet};
use common::{SIZES, booklet_of, entry, info, pack_of, try_booklet};
use hayro_interpret::hayro_syntax::Pdf;
use pack::{Day, Erratum, Form, PackInfo, Paper};
use primer::Primer;
use prove::{Limit, Verdict, verdict};

#[test]
fn the_same_pack_gives_the_same_bytes() {
    let entries = || vec![entry("four"), entry("six")];
    let once = booklet_of(info(), entries());
    assert!(once.bytes.starts_with(b"%PDF-1.7"));
    assert!(once == booklet_of(info(), entries()), "two runs differ");
    let other = booklet_of(PackInfo { title: "Other".to_owned(), ..info() }, entries());
    assert!(once.bytes != other.bytes, "the title is not in the file");
}

#[test]
fn every_puzzle_has_a_page_between_those_of_the_pack() {
    let pages = |names: &[&str]| {
        let booklet = booklet_of(info(), names.iter().map(|it| entry(it)).collect());
        assert_eq!(booklet.printed.len(), names.len());
        Pdf::new(booklet.bytes).unwrap().pages().len()
    };
    // Title, how to play, list, a shelf, three pages of hints, solutions, index and credits; a card for each size.
    assert_eq!(pages(&["classic"]), 10 + 1);
    assert_eq!(pages(&["four"]), 10 + 1 + 1);
    assert_eq!(pages(&["four", "classic"]), 11 + 2 + 1);
    // A 9x9 card has two pages.
    assert_eq!(pages(&["nine"]), 10 + 1 + 2);
}

#[test]
fn every_form_holds_the_same_puzzles() {
    let forms = [
        "a4",
        "letter",
        "black+two",
        "four",
        "letter+four+black",
        "large",
        "letter+large+black",
        "walkthroughs+two",
    ];
    let pack = pack_of(
        info(),
        ["nine", "four", "sixteen", "classic", "six", "nine"]
            .iter()
            .enumerate()
            .map(|(at, it)| pack::Entry {
                id: pack::PuzzleId::new(&format!("puzzle-{at}")).unwrap(),
                ..entry(it)
            })
            .collect(),
    );
    let mut pages = Vec::new();
    for form in forms.map(|it| it.parse::<Form>().unwrap()) {
        let edition = Edition { issued: None, form };
        let booklet =
            booklet(&pack, &Primer::default(), &edition).unwrap_or_else(|it| panic!("{form}: {it}"));
        assert_eq!(booklet::read_back(&booklet.bytes).as_ref(), Ok(&booklet.printed), "{form}");
        assert_eq!(booklet.printed.len(), 6);
        let pdf = Pdf::new(booklet.bytes).unwrap();
        let size = pdf.pages()[0].render_dimensions();
        // ISO 216, and ANSI/ASME Y14.1, in points of 1/72 inch.
        let expected = match form.paper {
            Paper::A4 => (595.28, 841.89),
            Paper::Letter => (612.0, 792.0),
        };
        assert!((size.0 - expected.0).abs() < 0.1 && (size.1 - expected.1).abs() < 0.1, "{size:?}");
        pages.push(pdf.pages().len());
    }
    // Six puzzles on two shelves of three: six pages of one, two of two or one and two of four or fewer.
    assert_eq!((pages[0] - pages[2], pages[2] - pages[3]), (2, 2));
    assert!(pages[5] > pages[0] && pages[7] > pages[2] + 4, "{pages:?}");
}

/// The pages of a puzzle say where its page on the web is, and errata are printed.
#[test]
fn errata_are_printed_and_links_lead_to_each_puzzles_page() {
    let erratum =
        Erratum { noted: Day::new(2026, 12, 5).unwrap(), says: "In \"Low\", the 7 is a 1.".to_owned() };
    let info =
        PackInfo { base_url: Some("https://example.org/ferry/".to_owned()), errata: vec![erratum], ..info() };
    let booklet = booklet_of(info, vec![entry("four"), entry("classic")]);
    assert_eq!(booklet::read_back(&booklet.bytes).unwrap(), booklet.printed);
    let holds = |text: &str| booklet.bytes.windows(text.len()).any(|it| it == text.as_bytes());
    for id in ["four", "classic"] {
        assert!(holds(&format!("https://example.org/ferry/puzzles/{id}.html")), "{id}");
    }
}

#[test]
fn boards_of_every_size_are_printed() {
    let booklet = booklet_of(info(), SIZES.map(entry).to_vec());
    let puzzles: Vec<_> = booklet.printed.iter().map(|it| it.puzzle.clone()).collect();
    assert_eq!(puzzles, SIZES.map(|it| entry(it).puzzle));
    let read = booklet::read_back(&booklet.bytes).unwrap();
    assert_eq!(read, booklet.printed);
    // As it is printed, each has one solution.
    for it in read {
        assert!(matches!(verdict(&it.puzzle, Limit(1_000_000)), Verdict::One(_)), "{}", it.title);
    }
}

#[test]
fn what_may_not_be_published_is_left_out() {
    let mut sealed = entry("six");
    sealed.sealed = true;
    let booklet = booklet_of(info(), vec![entry("four"), sealed.clone(), entry("several"), entry("classic")]);
    let numbers: Vec<usize> = booklet.printed.iter().map(|it| it.number).collect();
    assert_eq!(numbers, [1, 4], "puzzles keep their numbers");

    let nothing = try_booklet(info(), vec![sealed, entry("several")]);
    assert_eq!(nothing, Err(BookletError::Empty));
}

#[test]
fn the_file_says_what_it_is() {
    let pack = pack_of(info(), vec![entry("four")]);
    let edition = Edition { issued: pack::Day::new(2026, 12, 1), form: pack::Form::default() };
    let bytes = booklet(&pack, &Primer::default(), &edition).unwrap().bytes;
    let has = |bytes: &[u8], it: &str| bytes.windows(it.len()).any(|at| at == it.as_bytes());
    // ISO 14289-1, which names this marker of a PDF/UA-1 file.
    assert!(has(&bytes, "<pdfuaid:part>1</pdfuaid:part>"));
    assert!(has(&bytes, "/Lang(en-GB)") && has(&bytes, "/Outlines"));
    assert!(has(&bytes, "2026-12-01"));
    assert!(!has(
        &booklet(&pack, &Primer::default(), &Edition { issued: None, form: pack::Form::default() })
            .unwrap()
            .bytes,
        "CreateDate"
    ));
    let pdf = Pdf::new(bytes).unwrap();
    assert_eq!(pdf.metadata().title.as_deref(), Some(&b"Ferry nights"[..]));
    assert_eq!(pdf.metadata().author.as_deref(), Some(&b"The reading room"[..]));
}

#[test]
fn a_primer_takes_nothing_from_what_is_read_back() {
    let pack = pack_of(info(), vec![entry("nine"), entry("classic")]);
    let lessons = primer::primer(&pack, &|| false).unwrap();
    assert!(lessons.lessons.iter().any(|it| !it.exercises.is_empty()));
    let edition = Edition { issued: None, form: pack::Form::default() };
    let with = booklet(&pack, &lessons, &edition).unwrap();
    let without = booklet(&pack, &Primer::default(), &edition).unwrap();
    let n_pages = |it: &booklet::Booklet| Pdf::new(it.bytes.clone()).unwrap().pages().len();
    assert!(n_pages(&with) >= n_pages(&without) + lessons.lessons.len());
    assert_eq!(booklet::read_back(&with.bytes).unwrap(), with.printed);
    assert_eq!(with.printed, without.printed);
    assert_eq!(with.bytes, booklet(&pack, &lessons, &edition).unwrap().bytes);
}
