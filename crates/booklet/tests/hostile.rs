//! Texts that would break a page or reach into it, if they could.

mod common;

use booklet::{Alteration, read_back};
use common::{booklet_of, entry, info};
use pack::{Entry, PackInfo, PuzzleId};

/// Each text with what is printed of it.
const TEXTS: [(&str, &str); 19] = [
    ("\"Quotes\" and 'quotes'", "\"Quotes\" and 'quotes'"),
    ("#panic(\"no\") #include \"x.typ\"", "#panic(\"no\") #include \"x.typ\""),
    ("*bold* _italic_ `code` $x^2$ [a] {b}", "*bold* _italic_ `code` $x^2$ [a] {b}"),
    ("= Heading <label> @ref \\ ~ -- --- ...", "= Heading <label> @ref \\ ~ -- --- ..."),
    ("// comment /* comment */", "// comment /* comment */"),
    ("- item + item / term: x", "- item + item / term: x"),
    ("<b>&amp;</b> </text> ]]>", "<b>&amp;</b> </text> ]]>"),
    ("(paren\\) Tj ET endstream", "(paren\\) Tj ET endstream"),
    ("office fjord ffi fl, waffle", "office fjord ffi fl, waffle"),
    ("two\nlines\tand a tab", "two lines and a tab"),
    ("Ünïcödé naïve Ελλάδα Жук", "Ünïcödé naïve Ελλάδα Жук"),
    ("e\u{301} and e\u{301}\u{323}", "e\u{301} and e\u{301}\u{323}"),
    ("שלום 12 abc עולם", "שלום 12 abc עולם"),
    ("مرحبا لا", "مرحبا لا"),
    ("שָׁלוֹם עֲלֵיכֶם", "שָׁלוֹם עֲלֵיכֶם"),
    ("مَرْحَبًا", "مَرْحَبًا"),
    (
        "a\u{323}\u{302}a\u{323}\u{302} q\u{307}\u{323}q\u{307}\u{323}",
        "a\u{323}\u{302}a\u{323}\u{302} q\u{307}\u{323}q\u{307}\u{323}",
    ),
    ("\u{202e}turned\u{202c} \u{2067}round", "turned round"),
    ("1234567890", "1234567890"),
];

fn titled(title: &str, setter: &str) -> Entry {
    Entry { title: title.to_owned(), setter: setter.to_owned(), ..entry("four") }
}

/// A puzzle with each of the texts as its title, its setter and its permission.
fn all_titled<'a>(texts: impl Iterator<Item = &'a str>) -> Vec<Entry> {
    let entry = |(at, text): (usize, &str)| Entry {
        id: PuzzleId::new(&format!("puzzle-{at}")).unwrap(),
        permission: Some(text.to_owned()),
        ..titled(text, text)
    };
    texts.enumerate().map(entry).collect()
}

#[test]
fn texts_are_set_as_they_are_and_read_back() {
    let joined = TEXTS.map(|it| it.0)[..8].join(" ");
    let all = PackInfo {
        title: joined.clone(),
        editor: joined.clone(),
        licence: Some(joined.clone()),
        base_url: Some(joined.clone()),
        shelves: TEXTS.map(|it| it.0.into()).to_vec(),
        ..PackInfo::default()
    };
    let booklet = booklet_of(all, all_titled(TEXTS.iter().map(|it| it.0)));
    assert_eq!(booklet.alterations, []);
    let read = read_back(&booklet.bytes).unwrap();
    assert_eq!(read, booklet.printed);
    for ((_, expected), (read, printed)) in TEXTS.iter().zip(read.iter().zip(&booklet.printed)) {
        assert_eq!((printed.title.as_str(), printed.setter.as_str()), (*expected, *expected));
        if expected.is_ascii() {
            assert_eq!((read.title.as_str(), read.setter.as_str()), (*expected, *expected));
        }
    }
}

#[test]
fn long_texts_stay_on_their_page() {
    let words = "a rather long title that goes on ".repeat(8);
    let long = [
        words.trim().to_owned(),
        "x".repeat(290),
        "שלום ".repeat(50),
        "W".repeat(5000),
        "lo ng ".repeat(900),
    ];
    let info = PackInfo { title: long[3].clone(), editor: long[1].clone(), ..info() };
    let booklet = booklet_of(info, all_titled(long.iter().map(String::as_str)));
    assert_eq!(read_back(&booklet.bytes).unwrap(), booklet.printed);
    let cut = |it: &Alteration| matches!(it, Alteration::Cut { text, .. } if long[3..].contains(text));
    assert!(booklet.alterations.len() >= 2 && booklet.alterations.iter().all(cut));
}

#[test]
fn what_no_font_has_is_replaced_and_said() {
    let booklet = booklet_of(info(), vec![titled("灯 and 🏮", "\u{7}bell")]);
    let replaced = |text: &str, characters: &[char]| Alteration::Replaced {
        text: text.to_owned(),
        characters: characters.to_vec(),
    };
    assert_eq!(
        booklet.alterations,
        [replaced("灯 and 🏮", &['灯', '🏮']), replaced("\u{7}bell", &['\u{7}'])]
    );
    let read = read_back(&booklet.bytes).unwrap();
    assert_eq!(read, booklet.printed);
    assert_eq!(read[0].title.as_str(), "\u{fffd} and \u{fffd}");
}

#[test]
fn what_is_no_booklet_is_refused() {
    assert!(read_back(b"").is_err());
    assert!(read_back(b"%PDF-1.7\nnothing").is_err());
    let bytes = booklet_of(info(), vec![entry("four")]).bytes;
    // Half a file may still show pages; it must not show a whole booklet, and must not panic.
    for length in [bytes.len() / 4, bytes.len() / 2, bytes.len() * 3 / 4] {
        assert!(read_back(&bytes[..length]).map_or(true, |it| it.len() <= 1));
    }
}
