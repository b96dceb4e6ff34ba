//! Reads pictures back as XML, and makes the puzzles that the tests draw.
#![allow(dead_code, unreachable_pub)]

use std::collections::BTreeMap;

use draw::{Board, Marks, Scale};
use grid::{Grid, House, HouseKind, Size};
use quick_xml::XmlVersion;
use quick_xml::events::{BytesStart, Event};
use quick_xml::reader::Reader;
use rulebook::{Clue, Puzzle, SANDWICH};

/// Every usual side from 4 to 16.
pub const SIDES: [u8; 9] = [4, 6, 8, 9, 10, 12, 14, 15, 16];

/// An element as it was read: name, attributes, and the text directly inside it.
#[derive(Clone, PartialEq, Debug)]
pub struct Element {
    pub name: String,
    pub attributes: BTreeMap<String, String>,
    pub text: String,
}

/// Reads a document, in order of opening tags.
///
/// Fails on anything that is not well-formed, and on any character outside the `Char` production of
/// XML 1.0 (W3C, section 2.2), which the reader itself lets pass.
#[track_caller]
pub fn elements(document: &str) -> Vec<Element> {
    let legal = |it: char| matches!(it, '\t' | '\n' | '\r' | ' '..='\u{d7ff}' | '\u{e000}'..='\u{fffd}' | '\u{10000}'..);
    if let Some(it) = document.chars().find(|it| !legal(*it)) {
        panic!("{it:?} is not a character of XML");
    }
    let mut reader = Reader::from_str(document);
    reader.config_mut().enable_all_checks(true);
    let mut read: Vec<Element> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    loop {
        match reader.read_event().expect("well-formed") {
            Event::Start(tag) => {
                open.push(read.len());
                read.push(element(&tag));
            }
            Event::Empty(tag) => read.push(element(&tag)),
            Event::End(_) => drop(open.pop().expect("an open tag")),
            Event::Text(text) => add(&mut read, &open, &text.xml10_content()),
            Event::GeneralRef(it) => {
                let name = it.xml10_content();
                let text =
                    quick_xml::escape::unescape(&format!("&{name};")).expect("a known entity").into_owned();
                add(&mut read, &open, &text);
            }
            Event::Decl(_) => {}
            Event::Eof => break,
            other => panic!("pictures hold no {other:?}"),
        }
    }
    assert!(open.is_empty(), "{open:?} are left open");
    read
}

fn element(tag: &BytesStart) -> Element {
    let attributes = tag.attributes().map(|it| {
        let it = it.expect("a well-formed attribute");
        let value = it.normalized_value(XmlVersion::Explicit1_0).expect("a well-formed value");
        (name(it.key.as_ref()), value.into_owned())
    });
    Element { name: name(tag.name().as_ref()), attributes: attributes.collect(), text: String::new() }
}

fn name(it: impl AsRef<str>) -> String {
    it.as_ref().to_owned()
}

fn add(read: &mut [Element], open: &[usize], text: &str) {
    match open.last() {
        Some(at) => read[*at].text.push_str(text),
        None => assert!(text.trim().is_empty(), "{text:?} outside of the picture"),
    }
}

/// The texts of the elements with that name.
pub fn texts(document: &str, name: &str) -> Vec<String> {
    elements(document).into_iter().filter(|it| it.name == name).map(|it| it.text).collect()
}

/// The size with that side.
pub fn size(side: u8) -> Size {
    Size::of_side(side).expect("a usual side")
}

/// A house of a size.
pub fn house(size: Size, kind: HouseKind, number: u8) -> House {
    size.house(kind, number).expect("a house on the board")
}

/// A puzzle with the largest digit given in the upper left, and a clue of one, two or three figures
/// beside each line. It need not have a solution.
pub fn puzzle(size: Size) -> Puzzle {
    let corner = size.cells().next();
    let givens = Grid::from_fn(size, |it| size.digit(size.side()).filter(|_| Some(it) == corner));
    let value = |line: House| match size.side() {
        10.. => u16::from(line.number()) * 8,
        _ => u16::from(line.number()) * 3,
    };
    let clues = size.lines().map(|line| Clue { rule: &SANDWICH, line, value: value(line) });
    Puzzle::new(givens, clues)
}

/// A board without digits beside the givens.
pub fn blank<'a>(puzzle: &'a Puzzle, marks: &'a Marks) -> Board<'a> {
    Board { puzzle, digits: puzzle.givens(), marks, title: "Board", scale: Scale::Large, coordinates: false }
}
