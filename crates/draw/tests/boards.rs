//! Pictures of boards: whole, safe, the same every time, and readable without colour.

mod common;

use std::collections::{BTreeMap, BTreeSet};

use common::{Element, SIDES, blank, elements, house, puzzle, size, texts};
use draw::{Board, Mark, Marks, Pointing, STYLE, Scale, board, pointing, standalone, swatch};
use grid::{Cell, CellSet, DigitSet, Grid, HouseKind, Size};
use rulebook::{ClueId, Puzzle};

/// Texts that have broken pages before. From memory.
fn hostile_titles() -> Vec<String> {
    let fixed = [
        "\"><script>alert(1)</script>",
        "' onload='alert(1)",
        "a & b &amp; &#60; ]]>",
        "</title></svg><!--",
        "<![CDATA[ <?php ?>",
        "bell\u{7} null\u{0} escape\u{1b} nel\u{85} \u{fffe}\u{ffff}",
        "\u{202e}desrever\u{202c} \u{2067}isolate",
        "שלום عليكم",
        "😀 é 宵の口",
        "line\r\nbreaks\tand  spaces",
        "",
        "   ",
    ];
    let long = "very <long> ".repeat(2_000);
    fixed.into_iter().map(str::to_owned).chain([long]).collect()
}

/// One mark of each kind, alone, on cells that hold no given.
fn single_marks(puzzle: &Puzzle) -> Vec<(&'static str, Marks)> {
    let size = puzzle.size();
    let cell = size.cell(2, 3).unwrap();
    let cells = CellSet::from_iter([cell]);
    let two = BTreeMap::from([(cell, DigitSet::from_bits(2))]);
    let clue: BTreeSet<ClueId> = puzzle.clue_ids().skip(1).take(1).map(|it| it.0).collect();
    let looked_at = |kind| Marks { looked_at: [house(size, kind, 2)].into(), ..Marks::default() };
    vec![
        ("nothing", Marks::default()),
        ("crust", Marks { crusts: cells, ..Marks::default() }),
        ("filling", Marks { filling: cells, ..Marks::default() }),
        ("premise", Marks { premises: cells, ..Marks::default() }),
        ("conclusion", Marks { conclusions: cells, ..Marks::default() }),
        ("candidate", Marks { pencilled: two.clone(), ..Marks::default() }),
        ("removed", Marks { removed: two, ..Marks::default() }),
        ("spent", Marks { spent: clue.clone(), ..Marks::default() }),
        ("clue used", Marks { clues_used: clue, ..Marks::default() }),
        ("row", looked_at(HouseKind::Row)),
        ("column", looked_at(HouseKind::Column)),
        ("box", looked_at(HouseKind::Box)),
    ]
}

/// All marks at once, everywhere.
fn everything(puzzle: &Puzzle) -> Marks {
    let size = puzzle.size();
    let cells: CellSet = size.cells().collect();
    let digits: BTreeMap<Cell, DigitSet> = size.cells().map(|it| (it, size.digits())).collect();
    Marks {
        crusts: cells,
        filling: cells,
        premises: cells,
        conclusions: cells,
        removed: digits.clone(),
        pencilled: digits,
        spent: puzzle.clue_ids().map(|it| it.0).collect(),
        looked_at: size.houses().collect(),
        clues_used: puzzle.clue_ids().map(|it| it.0).collect(),
    }
}

/// What is left of a picture when every colour is gone and nothing is told in words.
fn without_colour(picture: &str) -> Vec<Element> {
    let mut read = elements(picture);
    read.retain(|it| it.name != "title" && it.name != "desc");
    for element in &mut read {
        for colour in ["class", "fill", "stroke"] {
            element.attributes.remove(colour);
        }
    }
    read
}

/// Every point that the picture's shapes and texts are placed at.
fn points(picture: &str) -> Vec<(f64, f64)> {
    let mut points = Vec::new();
    for element in elements(picture) {
        let number = |name: &str| element.attributes.get(name).map(|it| it.parse::<f64>().unwrap());
        if let (Some(x), Some(y)) = (number("x"), number("y")) {
            points.push((x, y));
            points.push((x + number("width").unwrap_or(0.0), y + number("height").unwrap_or(0.0)));
        }
        if let (Some(x), Some(y), Some(r)) = (number("cx"), number("cy"), number("r")) {
            points.extend([(x - r, y - r), (x + r, y + r)]);
        }
        let (mut x, mut y) = (0.0, 0.0);
        let data = element.attributes.get("d").cloned().unwrap_or_default();
        for (at, _) in data.match_indices(char::is_alphabetic) {
            let rest = &data[at + 1..];
            let end = rest.find(char::is_alphabetic).unwrap_or(rest.len());
            let numbers: Vec<f64> = rest[..end].split_whitespace().map(|it| it.parse().unwrap()).collect();
            match (&data[at..=at], &numbers[..]) {
                ("M" | "L", &[to_x, to_y]) => (x, y) = (to_x, to_y),
                ("H", &[to_x]) => x = to_x,
                ("V", &[to_y]) => y = to_y,
                other => panic!("{other:?} in a path"),
            }
            points.push((x, y));
        }
    }
    points
}

fn paper(picture: &str) -> (f64, f64) {
    let root = &elements(picture)[0];
    let side = |name: &str| root.attributes[name].parse::<f64>().unwrap();
    (side("width"), side("height"))
}

#[test]
fn every_board_is_whole_and_the_same_twice() {
    for side in SIDES {
        let puzzle = puzzle(size(side));
        for (scale, coordinates) in [(Scale::Large, true), (Scale::Small, false)] {
            for (name, marks) in single_marks(&puzzle).into_iter().chain([("all", everything(&puzzle))]) {
                let drawn = Board { scale, coordinates, ..blank(&puzzle, &marks) };
                let picture = board(&drawn);
                assert_eq!(picture, board(&drawn), "{side} {scale:?} {name}");
                let (width, height) = paper(&picture);
                for (x, y) in points(&picture) {
                    let fits = (0.0..=width).contains(&x) && (0.0..=height).contains(&y);
                    assert!(fits, "{side} {scale:?} {name}: ({x}, {y}) is off {width} x {height}");
                }
                assert!(elements(&picture).iter().all(|it| !it.attributes.contains_key("id")));
            }
        }
    }
}

#[test]
fn every_mark_has_a_form_beside_its_colour() {
    for side in SIDES {
        let puzzle = puzzle(size(side));
        for scale in [Scale::Large, Scale::Small] {
            let drawn: Vec<(&str, Vec<Element>)> = single_marks(&puzzle)
                .iter()
                .map(|(name, marks)| {
                    (*name, without_colour(&board(&Board { scale, ..blank(&puzzle, marks) })))
                })
                .collect();
            for (at, (name, picture)) in drawn.iter().enumerate() {
                for (other, other_picture) in &drawn[..at] {
                    assert!(picture != other_picture, "{side} {scale:?}: {name} looks like {other}");
                }
            }
        }
    }
    let swatches: Vec<Vec<Element>> = Mark::ALL.iter().map(|it| without_colour(&swatch(*it, "x"))).collect();
    for (at, picture) in swatches.iter().enumerate() {
        assert!(!swatches[..at].contains(picture), "{:?}", Mark::ALL[at]);
    }
}

#[test]
fn marks_stay_readable_without_colour_when_a_digit_stands_on_them() {
    let puzzle = puzzle(Size::NINE);
    let cell = Size::NINE.cell(2, 3).unwrap();
    let digits = Grid::empty(Size::NINE).with(cell, Size::NINE.digit(5));
    let told_apart: Vec<Vec<Element>> = single_marks(&puzzle)
        .iter()
        .filter(|(name, _)| !["candidate", "removed"].contains(name))
        .map(|(_, marks)| without_colour(&board(&Board { digits: &digits, ..blank(&puzzle, marks) })))
        .collect();
    for (at, picture) in told_apart.iter().enumerate() {
        assert!(!told_apart[..at].contains(picture), "mark {at}");
    }
}

#[test]
fn givens_are_heavier_than_written_digits() {
    let puzzle = puzzle(Size::NINE);
    let (given, written) = (Size::NINE.cell(1, 1).unwrap(), Size::NINE.cell(9, 9).unwrap());
    let digits = Grid::empty(Size::NINE).with(given, Size::NINE.digit(2)).with(written, Size::NINE.digit(4));
    let marks = Marks::default();
    let read = elements(&board(&Board { digits: &digits, ..blank(&puzzle, &marks) }));
    let group_of = |text: &str| {
        // Cells are written before clues.
        let at = read.iter().position(|it| it.name == "text" && it.text == text).unwrap();
        read[..at].iter().rfind(|it| it.name == "g").unwrap().attributes.clone()
    };
    assert_eq!(group_of("9").get("font-weight").map(String::as_str), Some("700"), "a given stays as printed");
    assert_eq!(group_of("9")["class"], "fill-ink");
    assert_eq!(group_of("4").get("font-weight"), None);
    assert_eq!(group_of("4")["class"], "fill-pencil");
}

#[test]
fn digits_and_clues_of_every_size_are_written_as_numbers() {
    for side in SIDES {
        let puzzle = puzzle(size(side));
        let marks = Marks::default();
        let plain = texts(&board(&blank(&puzzle, &marks)), "text");
        let clues = puzzle.clues().iter().map(|it| it.value.to_string());
        let mut expected: Vec<String> = [side.to_string()].into_iter().chain(clues).collect();
        let mut found = plain.clone();
        expected.sort();
        found.sort();
        assert_eq!(found, expected, "{side}");
        let numbered = texts(&board(&Board { coordinates: true, ..blank(&puzzle, &marks) }), "text");
        assert_eq!(numbered.len(), plain.len() + 2 * usize::from(side));
    }
}

#[test]
fn what_the_board_does_not_have_is_left_out() {
    let (small, large) = (puzzle(size(4)), puzzle(size(16)));
    let beyond: CellSet = size(16).cells().filter(|it| it.row() > 4 || it.column() > 4).collect();
    let digits: BTreeMap<Cell, DigitSet> = beyond.iter().map(|it| (it, size(16).digits())).collect();
    let on_board = size(4).cell(2, 2).unwrap();
    let too_large = BTreeMap::from([(on_board, DigitSet::from_bits(0xfff0))]);
    let marks = Marks {
        crusts: beyond,
        filling: beyond,
        premises: beyond,
        conclusions: beyond,
        removed: digits.clone().into_iter().chain(too_large.clone()).collect(),
        pencilled: digits.into_iter().chain(too_large).collect(),
        spent: large.clue_ids().skip(8).map(|it| it.0).collect(),
        looked_at: size(16).houses().filter(|it| it.number() > 4).collect(),
        clues_used: large.clue_ids().skip(8).map(|it| it.0).collect(),
    };
    let full = Grid::from_fn(size(16), |_| size(4).digit(1));
    let none = Marks::default();
    assert_eq!(board(&Board { digits: &full, ..blank(&small, &marks) }), board(&blank(&small, &none)));
}

#[test]
fn connected_premises_share_one_outline() {
    let puzzle = puzzle(Size::NINE);
    let outline = |cells: &[(u8, u8)]| -> usize {
        let premises = cells.iter().filter_map(|(row, column)| Size::NINE.cell(*row, *column)).collect();
        let marks = Marks { premises, ..Marks::default() };
        let read = elements(&board(&blank(&puzzle, &marks)));
        let path = read.iter().find(|it| it.attributes.contains_key("stroke-linecap")).unwrap();
        path.attributes["d"].matches('M').count()
    };
    assert_eq!(outline(&[(5, 5)]), 4);
    assert_eq!(outline(&[(5, 5), (5, 6)]), 6, "no line between neighbours");
    assert_eq!(outline(&[(5, 5), (6, 6)]), 8, "cells that touch at a corner stay apart");
    assert_eq!(outline(&[(5, 5), (5, 6), (6, 5), (6, 6)]), 8);
}

#[test]
fn hostile_titles_stay_texts() {
    let puzzle = puzzle(size(4));
    let marks = Marks::default();
    let plain: Vec<String> =
        elements(&board(&blank(&puzzle, &marks))).into_iter().map(|it| it.name).collect();
    for title in hostile_titles() {
        for picture in
            [board(&Board { title: &title, ..blank(&puzzle, &marks) }), swatch(Mark::Crust, &title)]
        {
            let read = elements(&picture);
            elements(&standalone(&picture));
            let (label, shown) = (&read[0].attributes["aria-label"], &read[1]);
            assert_eq!((&shown.name[..], &shown.text), ("title", label));
            assert!(!label.contains(['\u{202e}', '\u{202c}', '\u{2067}', '\n']), "{label:?}");
        }
        let names = elements(&board(&Board { title: &title, ..blank(&puzzle, &marks) }));
        assert!(names.iter().map(|it| &it.name).eq(&plain), "{title:.40}");
    }
    let shown = |title| texts(&board(&Board { title, ..blank(&puzzle, &marks) }), "title");
    assert_eq!(shown("a & <b> \"c\" 'd'"), ["a & <b> \"c\" 'd'"]);
    assert_eq!(shown("שלום"), ["שלום"]);
    assert_eq!(shown(" \n"), ["4x4"], "a picture has a name");
}

#[test]
fn a_board_is_also_told_in_words() {
    let puzzle = puzzle(size(4));
    let all = everything(&puzzle);
    let told = texts(&board(&blank(&puzzle, &all)), "desc").concat();
    for part in [
        "Row 1: sandwich clue 3, column 1 is 4.",
        "Column 4: sandwich clue 12.",
        "Crusts: r1c1, r1c2,",
        "Filling: ",
        "Premises: ",
        "Conclusions: ",
        "Candidates: r1c2 1 2 3 4, ",
        "Removed: r1c2 1 2 3 4, ",
        "Spent: row 1, ",
        "Clues used: row 1, ",
        "Looked at: row 1, ",
        "box 4.",
    ] {
        assert!(told.contains(part), "{part:?} is missing from {told}");
    }
}

#[test]
fn alone_a_picture_brings_its_style() {
    let puzzle = puzzle(Size::NINE);
    let marks = everything(&puzzle);
    let alone = standalone(&board(&blank(&puzzle, &marks)));
    assert_eq!(elements(&alone)[1].name, "style");
    assert_eq!(elements(&alone)[1].text.trim(), STYLE.trim());
    // Without the style sheet the picture is complete, too: every class has its colour beside it.
    for element in elements(&board(&blank(&puzzle, &marks))).iter().skip(1) {
        let Some(class) = element.attributes.get("class") else { continue };
        let colour = if class.starts_with("fill-") { "fill" } else { "stroke" };
        assert!(element.attributes[colour].starts_with('#'), "{element:?}");
        assert!(STYLE.contains(&format!(".{class} {{ {colour}: var(--")), "{class}");
    }
    assert_eq!(standalone("no picture"), "no picture");
}

#[test]
fn a_nine_by_nine_board_fits_its_page() {
    let puzzle = puzzle(Size::NINE);
    let marks = Marks::default();
    let width = |scale| paper(&board(&Board { scale, ..blank(&puzzle, &marks) })).0;
    // At its own size in a margin of 260 pixels; in a column of 320 the large board shrinks to no less
    // than 30 pixels a cell. WCAG 2.2 (2.5.8) asks for 24 of anything one can tap.
    assert!(width(Scale::Small) <= 260.0, "{}", width(Scale::Small));
    assert!(44.0 * 320.0 / width(Scale::Large) >= 30.0, "{}", width(Scale::Large));
}

/// What is laid over a picture of the page is what a whole picture has.
#[test]
fn what_steps_point_at_is_drawn_as_on_a_whole_board() {
    for side in [4, 9, 12] {
        let puzzle = puzzle(size(side));
        let marks = everything(&puzzle);
        let whole = Board { ..blank(&puzzle, &marks) };
        let Pointing { below, above } = pointing(&whole);
        let picture = elements(&board(&whole));
        let laid = elements(&format!("<g>{below}{above}</g>"));
        assert!(laid.len() > 8, "{}", laid.len());
        assert!(laid.iter().skip(1).all(|it| picture.contains(it)), "{side}: {laid:?}");
        assert!(!below.is_empty() && !above.contains("<title>"));
        let none = Marks::default();
        let empty = pointing(&blank(&puzzle, &none));
        assert_eq!((empty.below, empty.above), (String::new(), String::new()));
    }
}
