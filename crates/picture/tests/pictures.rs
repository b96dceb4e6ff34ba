//! Pictures read back by decoders of general use (`png`, `resvg`'s own tests aside).

use std::io::Cursor;

use draw::{Board, Marks, Scale};
use grid::{Cell, Grid, Size};
use picture::{Frame, MOST_PIXELS, Still, Words, film, png, sheet};
use rulebook::Puzzle;

fn board(size: Size, filled: Option<Cell>) -> String {
    let digits = Grid::from_fn(size, |it| if Some(it) == filled { size.digit(3) } else { None });
    let puzzle = Puzzle::new(Grid::empty(size), []);
    let (marks, title) = (Marks::default(), "board");
    draw::board(&Board {
        puzzle: &puzzle,
        digits: &digits,
        marks: &marks,
        title,
        scale: Scale::Large,
        coordinates: true,
    })
}

/// Width, height, and the colours of each picture in the file.
fn decoded(bytes: &[u8]) -> (u32, u32, Vec<Vec<u8>>) {
    let mut reader = ::png::Decoder::new(Cursor::new(bytes)).read_info().unwrap();
    let n = reader.info().animation_control.map_or(1, |it| it.num_frames);
    let mut pictures = Vec::new();
    for _ in 0..n {
        let mut buffer = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut buffer).unwrap();
        buffer.truncate(info.buffer_size());
        pictures.push(buffer);
    }
    (reader.info().width, reader.info().height, pictures)
}

#[test]
fn a_drawing_is_as_wide_as_asked() {
    for width in [200, 1_000, 3_840] {
        let (wide, high, pictures) = decoded(&png(&board(Size::NINE, None), width).unwrap());
        assert_eq!(wide, width);
        assert!((wide / 2..wide * 2).contains(&high) && pictures.len() == 1);
    }
    assert_eq!(png("no drawing", 100), None);
    assert_eq!(png(&board(Size::NINE, None), 0), None);
    assert_eq!(png(&board(Size::NINE, None), MOST_PIXELS + 1), None);
}

#[test]
fn a_film_shows_every_still_in_turn() {
    let cells: Vec<Cell> = Size::NINE.cells().take(5).collect();
    let still = |it: Option<Cell>| Still { svg: board(Size::NINE, it), milliseconds: 500 };
    let stills: Vec<Still> = std::iter::once(None).chain(cells.into_iter().map(Some)).map(still).collect();
    let bytes = film(&stills, 300).unwrap();
    assert_eq!(film(&stills, 300).unwrap(), bytes, "equal stills give equal bytes");
    let (wide, _, pictures) = decoded(&bytes);
    assert_eq!((wide, pictures.len()), (300, 6));
    for (still, shown) in stills.iter().zip(&pictures) {
        // Each picture of the film is the drawing by itself.
        let alone = decoded(&png(&still.svg, 300).unwrap()).2.remove(0);
        let opaque: Vec<u8> = alone.chunks_exact(4).flat_map(|it| [it[0], it[1], it[2]]).collect();
        assert_eq!(opaque, *shown);
    }
    assert!(pictures.windows(2).all(|it| it[0] != it[1]));
    assert_eq!(film(&[], 300), None);
    let other = Still {
        svg: "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='90'/>".into(),
        milliseconds: 9,
    };
    assert_eq!(film(&[stills[0].clone(), other], 300), None);
}

#[test]
fn a_sheet_has_the_shape_of_its_frame() {
    let puzzle = Puzzle::new(Grid::empty(Size::NINE), []);
    let words = Words { title: "First light".to_owned(), by: "Set by Fern".to_owned(), ..Words::default() };
    for (frame, size) in [(Frame::PREVIEW, (1_200, 630)), (Frame::COVER, (1_280, 720))] {
        let (wide, high, _) = decoded(&sheet(&[&puzzle], &words, frame).unwrap());
        assert_eq!((wide, high), size);
    }
}
