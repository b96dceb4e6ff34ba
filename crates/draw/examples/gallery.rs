//! Boards and curves in all states on one page, so that a person can look at them:
//! `cargo run -p draw --example gallery > gallery.html`.
#![allow(clippy::print_stdout)]

use std::collections::{BTreeMap, BTreeSet};

use draw::{Board, CurvePoint, Mark, Marks, STYLE, Scale, board, minutes_curve, swatch};
use grid::{Cell, CellSet, DigitSet, Grid, HouseKind, Size};
use rulebook::{Clue, Puzzle, SANDWICH, crusts};

/// Rules of the page around the pictures.
const PAGE: &str = "
body { margin: 2rem auto; padding: 0 1rem; max-width: 60rem; background: var(--paper); color: var(--ink);
  font: 17px/1.5 Charter, 'Bitstream Charter', 'Palatino Linotype', Palatino, 'URW Palladio L', serif; }
h1, h2 { font-weight: 400; }
.row { display: flex; flex-wrap: wrap; gap: 1.5rem; align-items: flex-start; }
dl { display: grid; grid-template-columns: auto 1fr; gap: .3rem .8rem; align-items: center; margin: 0; }
dd { margin: 0; }
";

fn main() {
    println!("<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Gallery</title>");
    println!("<meta name=\"viewport\" content=\"width=device-width\"><style>{STYLE}{PAGE}</style>");
    println!("<h1>Boards and curves</h1><h2>On the page, and half solved</h2><div class=\"row\">");
    let nine = Size::NINE;
    show(nine, Scale::Large, 0, &Marks::default());
    show(nine, Scale::Large, 2, &every_mark(nine));
    println!("</div><h2>In the margin</h2><div class=\"row\">");
    show(nine, Scale::Small, 0, &Marks::default());
    show(nine, Scale::Small, 2, &every_mark(nine));
    show(nine, Scale::Small, 9, &Marks::default());
    show(nine, Scale::Small, 0, &written_over(nine));
    println!("<dl>");
    for mark in Mark::ALL {
        println!("<dt>{}</dt><dd>{mark:?}</dd>", swatch(mark, &format!("{mark:?}")));
    }
    println!("</dl></div><h2>A pack</h2><div class=\"row\">");
    println!("{}{}", minutes_curve("Twelve puzzles", &pack(12)), minutes_curve("Sixty puzzles", &pack(60)));
    println!("{}{}", minutes_curve("One puzzle", &pack(1)), minutes_curve("No puzzle", &[]));
    println!("</div><h2>Other sizes</h2><div class=\"row\">");
    for side in [4, 6, 8, 10, 12, 16] {
        let size = Size::of_side(side).expect("a usual size");
        show(size, Scale::Small, 2, &every_mark(size));
    }
    println!("</div>");
    for side in [4, 6, 16] {
        let size = Size::of_side(side).expect("a usual size");
        show(size, Scale::Large, 2, &every_mark(size));
    }
    println!("</html>");
}

/// A full grid of that size: each row is the first one shifted.
fn full(size: Size) -> Grid {
    let (side, width, height) = (size.side(), size.box_width(), size.box_height());
    Grid::from_fn(size, |it| {
        let row = it.row() - 1;
        size.digit((row % height * width + row / height + (it.column() - 1) * 7 % side) % side + 1)
    })
}

/// A puzzle with the sums of that grid (some left out) and one given in five.
fn puzzle(size: Size) -> Puzzle {
    let full = full(size);
    let (one, last) = crusts(size);
    let sums = size.lines().filter(|it| (it.number() + u8::from(it.kind() == HouseKind::Row)) % 5 != 3);
    let clues = sums.map(|line| {
        let digits = size.cells_of(line).into_iter().filter_map(|it| full.get(it));
        let is_crust = |it: &grid::Digit| *it == one || *it == last;
        let between = digits.skip_while(|it| !is_crust(it)).skip(1).take_while(|it| !is_crust(it));
        Clue { rule: &SANDWICH, line, value: between.map(|it| u16::from(it.get())).sum() }
    });
    let givens = Grid::from_fn(size, |it| full.get(it).filter(|_| size.index(it) * 7 % 11 < 2));
    Puzzle::new(givens, clues)
}

/// Shows the puzzle with its givens, some in `tenths` of its digits known, and marks.
fn show(size: Size, scale: Scale, tenths: usize, marks: &Marks) {
    let (puzzle, full) = (puzzle(size), full(size));
    let digits = Grid::from_fn(size, |it| full.get(it).filter(|_| size.index(it) * 3 % 10 < tenths));
    let mut marks = marks.clone();
    for (at, (id, _)) in puzzle.clue_ids().enumerate() {
        if !marks.looked_at.is_empty() && at % 4 == 1 {
            marks.spent.insert(id);
        }
        if !marks.looked_at.is_empty() && at % 6 == 1 {
            marks.clues_used.insert(id);
        }
    }
    let empty = |cells: CellSet| {
        cells.iter().filter(|it| digits.get(*it).is_none() && !puzzle.is_given(*it)).collect()
    };
    marks.crusts = if tenths > 0 { empty(marks.crusts) } else { marks.crusts };
    marks.filling = if tenths > 0 { empty(marks.filling) } else { marks.filling };
    let title = format!("{size} board");
    let coordinates = scale == Scale::Large && tenths > 0;
    println!(
        "{}",
        board(&Board { puzzle: &puzzle, digits: &digits, marks: &marks, title: &title, scale, coordinates })
    );
}

fn cells(size: Size, every: usize, rest: usize) -> impl Iterator<Item = Cell> {
    size.cells().filter(move |it| (size.index(*it) * 5 + usize::from(it.row())) % every == rest)
}

fn digits(values: &[u8]) -> DigitSet {
    values.iter().filter_map(|it| grid::Digit::new(*it)).collect()
}

/// Some of every mark.
fn every_mark(size: Size) -> Marks {
    let house = |kind, number| size.house(kind, number);
    let open = |it: &Cell| size.index(*it) * 7 % 11 > 1 && size.index(*it) * 3 % 10 > 1;
    let small: Vec<Cell> = size.cells().filter(open).skip(2).step_by(4).take(6).collect();
    let sets: [&[u8]; 6] =
        [&[3], &[2, 4], &[2, 3, 4], &[1, 2, 3, 4, 5], &[1, 2, 3, 4, 5, 6, 7, 8, 9], &[1, 10, 12]];
    Marks {
        crusts: cells(size, 6, 2).collect(),
        filling: cells(size, 5, 0).collect(),
        premises: cells(size, 9, 3)
            .chain((1..=3).flat_map(|it| [size.cell(2, it), size.cell(it, 2)]).flatten())
            .collect(),
        conclusions: cells(size, 13, 4).collect(),
        removed: small.iter().zip(sets).map(|(cell, set)| (*cell, digits(set))).collect(),
        pencilled: small.iter().map(|cell| (*cell, digits(&[2, 4, 7]))).collect(),
        looked_at: [house(HouseKind::Row, 2), house(HouseKind::Column, 3), house(HouseKind::Box, 4)]
            .into_iter()
            .flatten()
            .collect(),
        ..Marks::default()
    }
}

/// Marks under digits and candidates, which must stay readable.
fn written_over(size: Size) -> Marks {
    let all: CellSet = size.cells().collect();
    let struck: BTreeMap<Cell, DigitSet> = size.cells().map(|it| (it, digits(&[3, 7]))).collect();
    Marks {
        crusts: size.cells().filter(|it| it.row() % 2 == 0).collect(),
        filling: size.cells().filter(|it| it.row() % 2 == 1).collect(),
        conclusions: size.cells().filter(|it| it.column() > 6).collect(),
        premises: all.iter().filter(|it| it.column() < 4 && it.row() != 5).collect(),
        removed: struck,
        looked_at: BTreeSet::new(),
        ..Marks::default()
    }
}

fn pack(n_puzzles: usize) -> Vec<CurvePoint<'static>> {
    let shelves = ["Dusk", "Night", "Small hours"];
    (0..n_puzzles)
        .map(|at| {
            let minutes =
                4.0 + (at * at) as f64 * 40.0 / (n_puzzles * n_puzzles) as f64 + (at % 3) as f64 * 2.5;
            CurvePoint {
                label: "A puzzle",
                minutes: (at != 7).then_some(minutes),
                range: (at != 7).then_some((minutes * 0.7, minutes * 1.5)),
                shelf: Some(shelves[(at * 3 / n_puzzles).min(2)]),
            }
        })
        .collect()
}
