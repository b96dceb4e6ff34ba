//! Everything that can be wrong with a file, as data: a catalogue. The words are in [`wording`](crate::wording).

use grid::{Cell, Digit, DigitSet, House, Size};
use pack::Day;

use crate::{Problem, Span};

/// What a reader found wrong, with what a sentence about it needs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum Fault {
    PackFileMissing,
    PackHasNoPuzzles,
    PathLeavesPack { path: String },
    FileTooLarge,
    NotUtf8 { byte: u8, place: usize },
    Utf16,
    NotToml { message: String },
    NeverClosed { quotes: &'static str },
    KeyTwice { key: String },
    UnknownKey { key: String, place: &'static str, hint: KeyHint },
    MissingKey { key: &'static str, example: &'static str },
    WrongType { key: String, found: String, expected: Kind },
    UnknownFormat { found: String },
    EmptyText { key: String },
    NotOneLine { key: String, found: char },
    ListedTwice { key: &'static str, item: String },
    NotAnAddress { found: String },
    NotADay { found: String },
    NotAnApproval { found: String },
    ApprovalOutdated { on: Day },
    SetterUnknown { name: String, meant: Option<String> },
    NotAChapter { found: String },
    NotALength { found: String },
    UnknownForm { found: String },
    NotAnErratum { found: String },
    FileNameNoId { stem: String, instead: Option<String> },
    IdTwice { id: String, other: String },
    NotAnId { item: String, instead: Option<String> },
    OrderUnknown { id: String, meant: Option<String> },
    OrderTwice { id: String },
    OrderAside { id: String, state: &'static str },
    OrderIncomplete { ids: Vec<String> },
    OrderEmpty,
    NotInRange { key: String, found: String, least: u64, most: u64 },
    UnknownTechnique { found: String, meant: Option<&'static str> },
    UnknownShelf { found: String, meant: Option<String>, shelves: Vec<String> },
    UnknownState { found: String },
    UnknownSaid { found: String },
    PinTwice { place: usize, other: String },
    PinBeyond { place: usize, n_places: usize },
    PinNotKept { id: String, place: usize, actual: usize },
    UnknownSize { found: String },
    UnknownBox { found: String, side: Option<u8> },
    BoxMismatch { found: String, cells: u8, size: Size },
    SizeMismatch { said: Size, by_key: bool, actual: Size },
    RowCount { found: usize, size: Size, by_key: bool, one_line: bool },
    CellCount { row: usize, found: usize, size: Size },
    StrayCharacter { row: usize, found: String },
    DigitOutOfRange { found: char, size: Size },
    DigitRepeated { digit: Digit, house: House, cells: [Cell; 2] },
    ClueCount { key: &'static str, found: usize, size: Size },
    ClueNotANumber { found: String },
    ClueTooLarge { found: String, summands: Option<DigitSet>, reachable: Vec<u16> },
    SumNotReachable { found: u16, rule: &'static str, summands: Option<DigitSet>, reachable: Vec<u16> },
    MoreProblems { n_more: usize },
}

impl Fault {
    /// The problem at that place.
    pub(crate) fn at(self, file: &str, at: Span) -> Problem {
        Problem { at: Some(at), ..self.in_file(file) }
    }

    /// The problem of the file as a whole.
    pub(crate) fn in_file(self, file: &str) -> Problem {
        let (code, message, help) = self.words();
        Problem {
            code,
            severity: code.severity(),
            file: file.to_owned(),
            at: None,
            message,
            help: Some(help),
        }
    }
}

/// What may have been meant by a key that is not known.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum KeyHint {
    /// Probably this one.
    Meant(&'static str),
    /// It is known in another place.
    Move(Move),
    /// No telling; these are known.
    OneOf(Vec<&'static str>),
}

/// Where a line belongs that stands in the wrong place.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Move {
    ToPackFile,
    ToPuzzleFile,
    /// Out of a table, to the beginning of the file.
    AboveHeadings,
    /// Into the table of a rule, for instance this one.
    BelowHeading(&'static str),
}

/// What kind of value a key takes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Kind {
    Text,
    Flag,
    Number,
    Count,
    Texts,
    Table,
}
