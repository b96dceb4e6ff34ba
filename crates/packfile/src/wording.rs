//! The words for everything that can be wrong with a file.
//!
//! Readers say what they found as a [`Fault`]; only here does it become sentences. A message says what
//! was found and what was expected, lower case, without a final dot; a help line holds the next move.

use grid::{Digit, DigitSet, Size};

use pack::{FORM_WORDS, SAID_PLAINLY};

use crate::fault::{Fault, KeyHint, Kind, Move};
use crate::phrases::{all_of, any_of, counted, quoted, shown};
use crate::plans::STATES;
use crate::{Code, FORMAT, MOST_BYTES};

impl Fault {
    /// The code, the message and the help.
    pub(crate) fn words(self) -> (Code, String, String) {
        match self {
            Fault::PackFileMissing => (
                Code::PackFileMissing,
                "the file is missing; every pack has one".to_owned(),
                format!("write it, with the lines `format = {FORMAT}` and `title = \"…\"`"),
            ),
            Fault::PackHasNoPuzzles => (
                Code::PackHasNoPuzzles,
                "the pack has no puzzle, expected at least one".to_owned(),
                "put each puzzle into a file of its own, such as first-light.toml".to_owned(),
            ),
            Fault::PathLeavesPack { path } => (
                Code::PathLeavesPack,
                format!("{} names something outside the pack", quoted(&path)),
                "keep every puzzle in the pack's folder `puzzles`, and name it by its id".to_owned(),
            ),
            Fault::FileTooLarge => (
                Code::FileTooLarge,
                format!("the file is too large, expected at most {MOST_BYTES} bytes"),
                "look whether this is the file you meant; a puzzle needs about a thousand bytes".to_owned(),
            ),
            Fault::NotUtf8 { byte, place } => (
                Code::NotUtf8,
                format!("byte {} of the file, {byte:#04x}, is not UTF-8 text", place + 1),
                "save the file again as UTF-8".to_owned(),
            ),
            Fault::Utf16 => (
                Code::NotUtf8,
                "the file is UTF-16 text, expected UTF-8".to_owned(),
                "save the file again as UTF-8".to_owned(),
            ),
            Fault::NotToml { message } => {
                let (message, help) = in_our_words(&message);
                (Code::NotToml, message, help.to_owned())
            }
            Fault::NeverClosed { quotes } => (
                Code::NotToml,
                format!("the text that begins with {quotes} here is never closed"),
                format!("write {quotes} on a line of its own where the text ends"),
            ),
            Fault::KeyTwice { key } => (
                Code::KeyTwice,
                format!("{} is given a second time", quoted(&key)),
                "keep one of the two".to_owned(),
            ),
            Fault::UnknownKey { key, place, hint } => (
                Code::UnknownKey,
                format!("{} is no key of {place}", quoted(&key)),
                match hint {
                    KeyHint::Meant(meant) => format!("did you mean {}?", quoted(meant)),
                    KeyHint::Move(Move::ToPackFile) => "move the line to pack.toml".to_owned(),
                    KeyHint::Move(Move::ToPuzzleFile) => "move the line to the puzzle's own file".to_owned(),
                    KeyHint::Move(Move::AboveHeadings) => {
                        "move the line up, above every heading in square brackets".to_owned()
                    }
                    KeyHint::Move(Move::BelowHeading(rule)) => {
                        format!("put it below a heading, such as [{rule}], on a line of its own")
                    }
                    KeyHint::OneOf(known) => format!("use {}", any_of(known.into_iter().map(quoted))),
                },
            ),
            Fault::MissingKey { key, example } => (
                Code::MissingKey,
                format!("{} is missing", quoted(key)),
                format!("add the line {}", quoted(example)),
            ),
            Fault::WrongType { key, found, expected } => (
                Code::WrongType,
                format!("{} is {found}, expected {}", quoted(&key), expected.name()),
                match expected {
                    Kind::Text => "put the text in straight quotes: \"…\"".to_owned(),
                    Kind::Flag => "write true or false, without quotes".to_owned(),
                    Kind::Number => format!("write {FORMAT}, without quotes"),
                    Kind::Count => "write a number without quotes and without a dot".to_owned(),
                    Kind::Texts => "write the texts in square brackets: [\"…\", \"…\"]".to_owned(),
                    Kind::Table => {
                        format!("write [{}] on a line of its own, with its lines below it", shown(&key))
                    }
                },
            ),
            Fault::UnknownFormat { found } => (
                Code::UnknownFormat,
                format!("format {} is not known, expected {FORMAT}", shown(&found)),
                format!("write `format = {FORMAT}`, or read the file with a newer Galley"),
            ),
            Fault::EmptyText { key } => (
                Code::EmptyText,
                format!("{} holds an empty text", quoted(&key)),
                "write something between the quotes, or take it out".to_owned(),
            ),
            Fault::NotOneLine { key, found } => (
                Code::NotOneLine,
                match found {
                    '\n' | '\r' => format!("{} runs over several lines, expected one", quoted(&key)),
                    it => format!("{} holds the control character {it:?}", quoted(&key)),
                },
                "keep it to plain text on one line".to_owned(),
            ),
            Fault::ListedTwice { key, item } => (
                Code::ListedTwice,
                format!("{} lists {} a second time", quoted(key), quoted(&item)),
                "keep one of the two".to_owned(),
            ),
            Fault::NotAnAddress { found } => (
                Code::NotAnAddress,
                format!("{} is no address of a site", quoted(&found)),
                "write the whole address, such as \"https://example.org/lantern-room/\"".to_owned(),
            ),
            Fault::NotADay { found } => (
                Code::NotADay,
                format!("{} is no day of the calendar", quoted(&found)),
                "write year, month and day, such as \"2026-12-01\"".to_owned(),
            ),
            Fault::NotAnApproval { found } => (
                Code::NotAnApproval,
                format!("{} is no day with a fingerprint", quoted(&found)),
                "write both, such as \"2026-10-02 5fc199382fb2741f\"; the desk does it on one press".to_owned(),
            ),
            Fault::ApprovalOutdated { on } => (
                Code::ApprovalOutdated,
                format!("the puzzle has changed since its setter approved it on {on}"),
                "ask the setter again, or take the change back".to_owned(),
            ),
            Fault::SetterUnknown { name, meant } => (
                Code::SetterUnknown,
                format!("no puzzle is by {}", quoted(&name)),
                meant.map_or("write the name as `setter` has it".to_owned(), |it| format!("did you mean {}?", quoted(&it))),
            ),
            Fault::NotAChapter { found } => (
                Code::NotAChapter,
                format!("{} is no next chapter of a recording", quoted(&found)),
                "write minutes:seconds and a title, the first at 0:00 and each later than the one before".to_owned(),
            ),
            Fault::NotALength { found } => (
                Code::NotALength,
                format!("{} is no length of a recording", quoted(&found)),
                "write minutes:seconds, such as \"12:00\"".to_owned(),
            ),
            Fault::UnknownForm { found } => (
                Code::UnknownForm,
                format!("{} does not say how a booklet is printed", quoted(&found)),
                format!("join words with `+`, such as \"letter+black\"; there are {}", FORM_WORDS.join(", ")),
            ),
            Fault::NotAnErratum { found } => (
                Code::NotAnErratum,
                format!("{} is no day with what is wrong", quoted(&found)),
                "write the day, a colon and a sentence, such as \"2026-12-05: in Low wick, the 7 of row 4 is a 1\""
                    .to_owned(),
            ),
            Fault::FileNameNoId { stem, instead } => (
                Code::FileNameNoId,
                format!("{} cannot be a puzzle's id", quoted(&stem)),
                match instead {
                    Some(instead) => format!("rename the file to {}", quoted(&format!("{instead}.toml"))),
                    None => format!("rename the file: {ID_LETTERS}, then `.toml`"),
                },
            ),
            Fault::IdTwice { id, other } => (
                Code::IdTwice,
                format!("{} already gives a puzzle the id {}", quoted(&other), quoted(&id)),
                "rename one of the two files; upper and lower case do not tell them apart".to_owned(),
            ),
            Fault::NotAnId { item, instead } => (
                Code::NotAnId,
                format!("{} cannot be a puzzle's id", quoted(&item)),
                match instead {
                    Some(instead) => format!("write {}", quoted(&instead)),
                    None => "name the puzzle's file without its folder and without `.toml`".to_owned(),
                },
            ),
            Fault::OrderUnknown { id, meant } => (
                Code::OrderUnknown,
                format!("the pack has no puzzle {}", quoted(&id)),
                match meant {
                    Some(meant) => format!("did you mean {}?", quoted(&meant)),
                    None => format!("add puzzles/{id}.toml, or take the id out of the order"),
                },
            ),
            Fault::OrderTwice { id } => (
                Code::OrderTwice,
                format!("the order names {} a second time", quoted(&id)),
                "keep one of the two".to_owned(),
            ),
            Fault::OrderAside { id, state } => (
                Code::OrderAside,
                format!("{} is in the order, but its file says `state = \"{state}\"`", quoted(&id)),
                "take the id out of the order, or the state out of the file; it has no place now".to_owned(),
            ),
            Fault::OrderIncomplete { ids } => (
                Code::OrderIncomplete,
                format!("the order leaves out {}", all_of(ids.iter().map(|it| quoted(it)))),
                match ids.len() {
                    1 => "it is placed at the end; add its id where it belongs".to_owned(),
                    _ => "they are placed at the end; add their ids where they belong".to_owned(),
                },
            ),
            Fault::OrderEmpty => (
                Code::OrderEmpty,
                "the order is empty, so one will be proposed".to_owned(),
                "take the line out, or list the puzzles' ids".to_owned(),
            ),
            Fault::NotInRange { key, found, least, most } => (
                Code::NotInRange,
                format!("{} is {}, expected a number from {least} to {most}", quoted(&key), shown(&found)),
                "write another number".to_owned(),
            ),
            Fault::UnknownTechnique { found, meant } => (
                Code::UnknownTechnique,
                format!("there is no technique {}", quoted(&found)),
                match meant {
                    Some(meant) => format!("did you mean {}?", quoted(meant)),
                    None => "docs/techniques.md lists all of them".to_owned(),
                },
            ),
            Fault::UnknownShelf { found, meant, shelves } => (
                Code::UnknownShelf,
                format!("the pack has no shelf {}", quoted(&found)),
                match (meant, shelves.is_empty()) {
                    (Some(meant), _) => format!("did you mean {}?", quoted(&meant)),
                    (None, true) => "name the shelves in pack.toml: `shelves = [\"…\"]`".to_owned(),
                    (None, false) => format!("use {}", any_of(shelves.iter().map(|it| quoted(it)))),
                },
            ),
            Fault::UnknownState { found } => (
                Code::UnknownState,
                format!("{} is no state of a puzzle", quoted(&found)),
                format!("use {}", any_of(STATES.map(|it| quoted(it.0)))),
            ),
            Fault::UnknownSaid { found } => (
                Code::UnknownSaid,
                format!("{} says nothing that can be held against an order", quoted(&found)),
                format!(
                    "use {}, `number 3`, `after ID`, `before ID`, `right after ID`, or `first with TECHNIQUE`",
                    SAID_PLAINLY.map(|it| quoted(it.0)).join(", "),
                ),
            ),
            Fault::PinTwice { place, other } => (
                Code::PinTwice,
                format!("{} is pinned to place {place} too", quoted(&other)),
                "give one of the two another place".to_owned(),
            ),
            Fault::PinBeyond { place, n_places } => (
                Code::PinBeyond,
                format!("there is no place {place}: the pack has {}", counted(n_places, "puzzle")),
                "the pin is passed over; write a smaller number, or take it out".to_owned(),
            ),
            Fault::PinNotKept { id, place, actual } => (
                Code::PinNotKept,
                format!("{} is pinned to place {place}, but is number {actual} in the order", quoted(&id)),
                "the order is kept; change the pin or the order, or take one of them out".to_owned(),
            ),
            Fault::UnknownSize { found } => (
                Code::UnknownSize,
                format!("{} is no size of a board", quoted(&found)),
                format!("use {}", any_of((4..=16).filter_map(Size::of_side).map(|it| it.to_string()))),
            ),
            Fault::UnknownBox { found, side } => (
                Code::UnknownBox,
                format!("{} is no shape of a box, expected columns x rows", quoted(&found)),
                match side.map(boxes_of).filter(|it| !it.is_empty()) {
                    Some(boxes) => format!("use {}", any_of(boxes)),
                    None => "use two numbers from 2 to 8, such as 3x2".to_owned(),
                },
            ),
            Fault::BoxMismatch { found, cells, size } => (
                Code::BoxMismatch,
                format!("a box of {found} has {cells} cells, expected {} on a {size} board", size.side()),
                format!("use {}", any_of(boxes_of(size.side()))),
            ),
            Fault::SizeMismatch { said, by_key, actual } => (
                Code::SizeMismatch,
                match by_key {
                    true => format!("the grid is {actual}, but the file says {said}"),
                    false => format!("the grid is {actual}, expected {said} because no size is given"),
                },
                match by_key {
                    true => format!("write `size = \"{actual}\"`, or a grid of {said}"),
                    false => format!("add the line `size = \"{actual}\"`, or write a grid of {said}"),
                },
            ),
            Fault::RowCount { found, size, by_key, one_line } => (
                Code::RowCount,
                format!("the grid has {}, expected {}", counted(found, "row"), size.side()),
                match () {
                    () if one_line => format!("break the line after every {} cells", size.side()),
                    () if by_key => "write one row a line, with . for each empty cell".to_owned(),
                    () => {
                        "write one row a line, with . for each empty cell; other sizes than 9x9 need a line \
                           such as `size = \"6x6\"`"
                            .to_owned()
                    }
                },
            ),
            Fault::CellCount { row, found, size } => (
                Code::CellCount,
                format!("row {row} of the grid has {}, expected {}", counted(found, "cell"), size.side()),
                match found < usize::from(size.side()) {
                    true => "write . for each empty cell".to_owned(),
                    false => "take out what is too much; each cell is one character".to_owned(),
                },
            ),
            Fault::StrayCharacter { row, found } => (
                Code::StrayCharacter,
                format!("{} in row {row} of the grid is neither digit nor dot", quoted(&found)),
                match found.chars().all(|it| "-+| ".contains(it)) {
                    true => "write . for an empty cell; lines of - and + stand between rows".to_owned(),
                    false => "write a digit, or . for an empty cell".to_owned(),
                },
            ),
            Fault::DigitOutOfRange { found, size } => (
                Code::DigitOutOfRange,
                format!("`{found}` is no digit of a {size} board"),
                format!("use {}, or . for an empty cell", digits_of(size)),
            ),
            Fault::DigitRepeated { digit, house, cells: [first, second] } => (
                Code::DigitRepeated,
                format!("{house} holds {} twice, in {first} and {second}", digit.to_char()),
                "change one of the two, or write . for it".to_owned(),
            ),
            Fault::ClueCount { key, found, size } => (
                Code::ClueCount,
                format!("{} has {}, expected {}", quoted(key), counted(found, "clue"), size.side()),
                "write . for a line without a clue".to_owned(),
            ),
            Fault::ClueNotANumber { found } => (
                Code::ClueNotANumber,
                format!("{} is not a number", quoted(&found)),
                "write numbers with spaces between them, and . for a line without a clue".to_owned(),
            ),
            Fault::ClueTooLarge { found, summands, reachable } => (
                Code::ClueTooLarge,
                match (summands, reachable.last()) {
                    (Some(digits), Some(most)) => {
                        format!("{} add up to {most}, found {}", the_digits(digits), shown(&found))
                    }
                    (_, Some(most)) => format!("{} is too large, expected at most {most}", shown(&found)),
                    (_, None) => format!("{} is too large", shown(&found)),
                },
                help_with_values(&reachable),
            ),
            Fault::SumNotReachable { found, rule, summands, reachable } => (
                Code::SumNotReachable,
                match summands {
                    Some(digits) => format!("no set of {} adds up to {found}", digits_named(digits)),
                    None => format!("no line has {found} as its {rule} clue"),
                },
                help_with_values(&reachable),
            ),
            Fault::MoreProblems { n_more } => (
                Code::MoreProblems,
                format!("the file has {}", counted(n_more, "more problem")),
                "mend those above first".to_owned(),
            ),
        }
    }
}

impl Kind {
    fn name(self) -> &'static str {
        match self {
            Kind::Text => "a text",
            Kind::Flag => "true or false",
            Kind::Number | Kind::Count => "a whole number",
            Kind::Texts => "a list of texts",
            Kind::Table => "a table",
        }
    }
}

/// What an id is made of.
const ID_LETTERS: &str = "1 to 64 lower-case letters, digits and hyphens";

/// What the parser said and the next move, in plainer words where its message is a known one. An
/// unknown message is passed on.
fn in_our_words(message: &str) -> (String, &'static str) {
    const NOT_CLOSED: &str = "the text in quotes is not closed on its line";
    const CLOSE: &str = "close it with the quote it begins with, or use three quotes for several lines";
    const BACKSLASH: &str = "a backslash before this means nothing";
    const DOUBLE: &str = "write \\\\ for a backslash, or put the text in single quotes";
    const KNOWN: [(&str, &str, &str); 14] = [
        (
            "string values must be quoted",
            "a text without quotes",
            "put it in straight quotes: \"…\"; only numbers, true and false go without",
        ),
        (
            "key with no value",
            "a line without `=`, expected `key = value`",
            "write `key = value`; a line that is only a remark begins with #",
        ),
        (
            "unexpected key or value",
            "the line goes on after its value",
            "write one `key = value` a line, with text in straight quotes",
        ),
        ("invalid basic string, expected `\"`", NOT_CLOSED, CLOSE),
        ("invalid literal string, expected `'`", NOT_CLOSED, CLOSE),
        ("missing escaped value", BACKSLASH, DOUBLE),
        ("too few unicode value digits", BACKSLASH, DOUBLE),
        ("missing comma", "a comma is missing before this", "put a comma between the items"),
        ("unclosed array table", "the heading is not closed", "close it with ]]"),
        ("unclosed table", "the heading is not closed", "close it with ]"),
        ("unclosed array", "the list is not closed", "close it with ]"),
        (
            "carriage return must be followed by newline",
            "a carriage return without a line feed",
            "save the file with ordinary line ends",
        ),
        (
            "cannot extend value",
            "this belongs to a table that is written elsewhere as a value",
            "write each heading, such as [sandwich], once, with its lines below it",
        ),
        ("unexpected leading zero", "a number that begins with zero", "leave out the zeros before it"),
    ];
    match KNOWN.into_iter().find(|it| message.starts_with(it.0)) {
        Some((_, plainer, help)) => (plainer.to_owned(), help),
        None => (shown(message), "write `key = value`, one a line, with text in straight quotes"),
    }
}

/// The values that a clue can have, as an order to use one.
fn help_with_values(reachable: &[u16]) -> String {
    let mut runs: Vec<(u16, u16)> = Vec::new();
    for &it in reachable {
        match runs.last_mut() {
            Some(run) if run.1 + 1 == it => run.1 = it,
            _ => runs.push((it, it)),
        }
    }
    let named = runs.into_iter().flat_map(|(first, last)| match last - first {
        0 => vec![first.to_string()],
        1 => vec![first.to_string(), last.to_string()],
        _ => vec![format!("a number from {first} to {last}")],
    });
    format!("use {}", any_of(named))
}

/// `the digits from 2 to 8 together`.
fn the_digits(digits: DigitSet) -> String {
    format!("the {} together", digits_named(digits))
}

/// `digits from 2 to 8`, or `digits 2 and 3` where they are few or have gaps.
fn digits_named(digits: DigitSet) -> String {
    let values: Vec<u8> = digits.iter().map(Digit::get).collect();
    match values[..] {
        [first, _, .., last] if usize::from(last - first) + 1 == values.len() => {
            format!("digits from {first} to {last}")
        }
        _ => format!("digits {}", all_of(values.iter().map(u8::to_string))),
    }
}

/// How the digits of a board are written: `a digit from 1 to 9`, or with the letters of larger boards.
fn digits_of(size: Size) -> String {
    match size.digits().iter().next_back().filter(|it| it.get() > 9) {
        None => format!("a digit from 1 to {}", size.side()),
        Some(last) if last.get() == 10 => "a digit from 1 to 9, A for 10".to_owned(),
        Some(last) => format!("a digit from 1 to 9, a letter from A to {} for 10 to {last}", last.to_char()),
    }
}

/// Every shape of box on a board of that side.
fn boxes_of(side: u8) -> Vec<String> {
    let sizes = (2..=8).flat_map(|width| (2..=8).filter_map(move |height| Size::new(width, height)));
    sizes.filter(|it| it.side() == side).map(|it| format!("{}x{}", it.box_width(), it.box_height())).collect()
}
