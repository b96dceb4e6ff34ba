//! Tests that look into the pages, or change them.

use std::ops::Range;
use std::process::Command;

use grid::{Cell, CellSet};
use hayro_interpret::InterpreterCache;
use hayro_interpret::hayro_syntax::Pdf;
use pack::{Entry, PackInfo};
use packfile::{SourceFile, read_puzzle};
use study::{StudiedPack, study};
use trail::TechniqueId;

use super::*;
use crate::lattice::{Lattice, Place};
use crate::page::Marks;

fn pack() -> StudiedPack {
    let read = |(name, text): (&str, &str)| -> Entry {
        read_puzzle(&SourceFile::new(format!("puzzles/{name}.toml"), text.as_bytes())).0.unwrap()
    };
    let texts =
        [("nine", include_str!("../tests/data/nine.toml")), ("six", include_str!("../tests/data/six.toml"))];
    let entries = texts.map(read);
    let info = PackInfo {
        title: "Ferry nights".to_owned(),
        editor: "The reading room".to_owned(),
        knows: vec![TechniqueId::new("naked-single"), TechniqueId::new("last-empty-cell")],
        order: Some(entries.iter().map(|it| it.id.clone()).collect()),
        ..PackInfo::default()
    };
    StudiedPack::new(info, entries.map(|it| study(it, false)).to_vec())
}

fn plain_booklet(pack: &StudiedPack) -> Booklet {
    set(pack, &Primer::default(), &Edition { issued: None, form: pack::Form::default() }, true).unwrap()
}

/// Where in the file the glyphs of texts of that type size stand, each text's codes by itself.
fn texts_of_size(file: &[u8], size: &str) -> Vec<Range<usize>> {
    let find = |what: &[u8], from: usize| {
        file[from..].windows(what.len()).position(|it| it == what).map(|it| it + from)
    };
    let (font, mut from, mut found) = (format!(" {size} Tf\n"), 0, Vec::new());
    while let Some(at) = find(font.as_bytes(), from) {
        let open = find(b"(", at).unwrap();
        let close = find(b")", open).unwrap();
        found.push(open + 1..close);
        from = close;
    }
    found
}

/// A digit printed wrong makes another puzzle, as a journal once found out: its misprint had 9,734
/// solutions.
#[test]
fn a_tampered_digit_is_noticed() {
    let booklet = plain_booklet(&pack());
    assert_eq!(read_back(&booklet.bytes).as_ref(), Ok(&booklet.printed));
    // The type sizes of givens and of clues on a 9x9 board.
    for size in ["28.52", "19.32"] {
        let texts = texts_of_size(&booklet.bytes, size);
        assert!(texts.len() > 10, "no text of size {size}");
        let (mut n_changed, first) = (0, texts[0].clone());
        for other in &texts[1..] {
            let mut file = booklet.bytes.clone();
            let code = file[other.clone()].to_vec();
            if code.len() != first.len() || code == file[first.clone()] || n_changed == 4 {
                continue;
            }
            file[first.clone()].copy_from_slice(&code);
            let read = read_back(&file).unwrap();
            assert_ne!(read[0].puzzle, booklet.printed[0].puzzle);
            assert_eq!(read[0].title, booklet.printed[0].title);
            assert_eq!(read[1..], booklet.printed[1..]);
            n_changed += 1;
        }
        assert_eq!(n_changed, 4, "too few changes tried at size {size}");
    }
}

/// The texts of all pages, without white space.
fn page_texts(file: &[u8]) -> Vec<String> {
    let pdf = Pdf::new(file.to_vec()).unwrap();
    let cache = InterpreterCache::new();
    let text = |marks: Marks| marks.glyphs.into_iter().map(|it| it.text).collect::<String>();
    pdf.pages().iter().map(|it| squeezed(&text(Marks::of(it, &cache)))).collect()
}

fn squeezed(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn each_hint_is_printed_once_and_apart_from_the_others() {
    let pack = pack();
    let pages = page_texts(&plain_booklet(&pack).bytes);
    let mut pages_of_stages = Vec::new();
    for it in pack.published() {
        let puzzle = &it.study.entry().puzzle;
        let hints = tell::hints(puzzle, it.account.way_in().unwrap()).unwrap();
        let page_of = |hint: &String| {
            let on: Vec<usize> = (0..pages.len()).filter(|at| pages[*at].contains(&squeezed(hint))).collect();
            assert_eq!(on.len(), 1, "{hint}");
            on[0]
        };
        pages_of_stages.push(hints.each_ref().map(page_of));
    }
    for [first, second, third] in pages_of_stages {
        assert!(first < second && second < third);
    }
}

#[test]
fn the_pages_say_what_they_must() {
    let mut pack = pack();
    let pages = page_texts(&plain_booklet(&pack).bytes);
    let has = |page: usize, text: &str| assert!(pages[page].contains(&squeezed(text)), "{}", pages[page]);
    // What is taken to be known stands before the puzzles, easiest first.
    let known = pages.iter().position(|it| it.contains("Takentobeknown")).unwrap();
    let [first, second] =
        ["last-empty-cell", "naked-single"].map(TechniqueId::new).map(tell::technique_description);
    assert!(known < 4, "page {known}");
    let both = pages[1..4].concat();
    assert!(both.find(&squeezed(first)).unwrap() < both.find(&squeezed(second)).unwrap());
    has(0, "Ferry nights");
    has(0, "Edited by The reading room");
    has(1, "Sandwich on boards of 9 by 9");
    has(4, "(estimate, not yet calibrated)");
    has(4, "by Rowan");
    let last = pages.len() - 1;
    has(last, "granted for this test");
    has(last, "SIL Open Font License 1.1");
    // Its solution is on one page, row by row, and goes when the puzzle is sealed.
    let solution = pack.published()[0].solution.to_string();
    let row = |at: usize| &solution[9 * at..9 * at + 9];
    let holds = |it: &&String| (0..9).filter(|at| it.contains(row(*at))).count() == 9;
    assert_eq!(pages.iter().filter(holds).count(), 1);
    let mut entries: Vec<Entry> = pack.studies().iter().map(|it| it.entry().clone()).collect();
    entries[0].sealed = true;
    pack = StudiedPack::new(pack.info().clone(), entries.into_iter().map(|it| study(it, false)).collect());
    let pages = page_texts(&plain_booklet(&pack).bytes);
    assert!(pages.iter().all(|it| !(0..9).any(|at| it.contains(row(at)))));
}

/// No page before the solutions has a full board, in any form without walkthroughs.
#[test]
fn no_solution_stands_before_the_solutions() {
    for form in ["a4", "letter+black+two", "four", "large"] {
        let edition = Edition { issued: None, form: form.parse().unwrap() };
        let bytes = set(&pack(), &Primer::default(), &edition, false).unwrap().bytes;
        let texts = page_texts(&bytes);
        let solutions = texts.iter().rposition(|it| it.starts_with("FerrynightsSolutions")).unwrap();
        let first = texts.iter().position(|it| it.starts_with("FerrynightsSolutions")).unwrap();
        let pdf = Pdf::new(bytes).unwrap();
        let cache = InterpreterCache::new();
        let full: Vec<usize> = (0..pdf.pages().len())
            .filter(|at| {
                let marks = Marks::of(&pdf.pages()[*at], &cache);
                Lattice::all(&marks.strokes).iter().any(|board| {
                    let cells =
                        marks.glyphs.iter().filter_map(|it| match board.place(read_back::middle(it)) {
                            Place::In(cell) => Some(cell),
                            _ => None,
                        });
                    cells.collect::<CellSet>().len() == board.size.n_cells()
                })
            })
            .collect();
        assert!(
            !full.is_empty() && full.iter().all(|it| (first..=solutions).contains(it)),
            "{form}: {full:?}"
        );
    }
}

/// Two programs that share no code draw the same pages: poppler's and mupdf's. In each cell both have ink or neither has,
/// and on a puzzle's page it is where the givens are.
#[test]
#[expect(clippy::print_stdout, reason = "it says why it is skipped")]
fn two_renderers_agree_on_every_cell() {
    let is_there = |program: &str, ask: &str| Command::new(program).arg(ask).output().is_ok();
    if !is_there("pdftoppm", "-v") || !is_there("mutool", "-v") {
        println!("skipped: pdftoppm (poppler-utils) and mutool (mupdf-tools) are not both here");
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("booklet.pdf");
    let mut n_cells = 0;
    for form in ["a4", "letter+black+two", "large"] {
        let edition = Edition { issued: None, form: form.parse().unwrap() };
        let booklet = set(&pack(), &Primer::default(), &edition, false).unwrap();
        std::fs::write(&file, &booklet.bytes).unwrap();
        let run = |program: &str, arguments: &[&str]| {
            let done = Command::new(program).args(arguments).current_dir(folder.path()).output().unwrap();
            assert!(done.status.success(), "{program}: {}", String::from_utf8_lossy(&done.stderr));
        };
        let dots = DOTS.to_string();
        run(
            "mutool",
            &["draw", "-q", "-r", &dots, "-c", "gray", "-F", "pgm", "-o", "m-%d.pgm", "booklet.pdf"],
        );
        let pdf = Pdf::new(booklet.bytes.clone()).unwrap();
        let cache = InterpreterCache::new();
        for (at, page) in pdf.pages().iter().enumerate() {
            let boards = Lattice::all(&Marks::of(page, &cache).strokes);
            if boards.is_empty() {
                continue;
            }
            let number = (at + 1).to_string();
            run(
                "pdftoppm",
                &["-gray", "-r", &dots, "-f", &number, "-l", &number, "-singlefile", "booklet.pdf", "p"],
            );
            let pictures = ["p.pgm".to_owned(), format!("m-{number}.pgm")]
                .map(|name| Picture::read(&std::fs::read(folder.path().join(name)).unwrap()));
            for board in boards {
                let puzzle = booklet.printed.iter().find(|it| it.puzzle.size() == board.size).unwrap();
                let inked = |cell: Cell| pictures.each_ref().map(|it| it.has_ink(board.field(cell)));
                let is_solved = board.size.cells().all(|it| inked(it)[0]);
                for cell in board.size.cells() {
                    let expected = is_solved || puzzle.puzzle.is_given(cell);
                    assert_eq!(inked(cell), [expected; 2], "{form}, page {number}, {cell}");
                    n_cells += 1;
                }
            }
        }
    }
    assert!(n_cells > 600, "{n_cells}");
}

/// Dots an inch at which pages are drawn.
const DOTS: f64 = 144.0;

/// A drawn page in shades of grey, 255 for white.
struct Picture {
    width: usize,
    shades: Vec<u8>,
}

impl Picture {
    /// Reads a binary PGM file (netpbm: `P5`, width, height, 255, then the shades).
    fn read(file: &[u8]) -> Picture {
        let mut fields = file.split(|it| it.is_ascii_whitespace());
        let mut next = || std::str::from_utf8(fields.next().unwrap()).unwrap().to_owned();
        let [kind, width, height, white] = [next(), next(), next(), next()];
        assert_eq!((&kind[..], &white[..]), ("P5", "255"));
        let (width, height): (usize, usize) = (width.parse().unwrap(), height.parse().unwrap());
        Picture { width, shades: file[file.len() - width * height..].to_vec() }
    }

    /// Whether the field, in points, has more ink than the edge of a line would leave there.
    fn has_ink(&self, field: kurbo::Rect) -> bool {
        let dot = |points: f64| (points * DOTS / 72.0).round() as usize;
        let (across, down) = (dot(field.x0)..dot(field.x1), dot(field.y0)..dot(field.y1));
        let dots: Vec<u8> = down
            .flat_map(|y| across.clone().map(move |x| (x, y)))
            .map(|(x, y)| self.shades[y * self.width + x])
            .collect();
        let dark = dots.iter().filter(|it| **it < 160).count();
        dark * 50 > dots.len()
    }
}
