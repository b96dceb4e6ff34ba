//! A problem of a file: what is wrong, where, and what to do next.

use std::fmt;

/// One thing wrong with one file.
///
/// `message` says what was found and what was expected, `help` holds the next move; both are lower
/// case without a final dot, and neither repeats the file's name.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Problem {
    /// What kind of problem, for programs and for looking it up in `docs/format.md`.
    pub code: Code,
    /// Whether it keeps the file from being used.
    pub severity: Severity,
    /// The file, as it was named by the caller.
    pub file: String,
    /// Where in the file; none if it is about the file as a whole.
    pub at: Option<Span>,
    /// What was found, and what was expected.
    pub message: String,
    /// The next move.
    pub help: Option<String>,
}

impl Problem {
    /// Whether it is an error rather than a warning.
    pub fn is_error(&self) -> bool {
        self.severity == Severity::Error
    }
}

/// Prints `puzzles/x.toml:4:9: error[digit-out-of-range]: …`, and the help on a line of its own.
impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // A file name may hold anything, even a line break or an order to the terminal.
        for it in self.file.chars() {
            match it.is_control() {
                true => write!(f, "{}", it.escape_default())?,
                false => write!(f, "{it}")?,
            }
        }
        if let Some(at) = self.at {
            write!(f, ":{}:{}", at.line, at.column)?;
        }
        write!(f, ": {}[{}]: {}", self.severity, self.code, self.message)?;
        match &self.help {
            Some(help) => write!(f, "\n  help: {help}"),
            None => Ok(()),
        }
    }
}

/// A stretch of a file. It lies inside the file, and `start` is not after `end`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Span {
    /// Its first byte, from 0.
    pub start: usize,
    /// The byte after its last; equal to `start` where something is missing.
    pub end: usize,
    /// The line of `start`, from 1.
    pub line: usize,
    /// The column of `start`, in characters from 1. A byte order mark is no character.
    pub column: usize,
}

/// How bad a problem is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Severity {
    /// The file cannot be used, or not as it was meant.
    Error,
    /// The file can be used; the editor may want to know.
    Warning,
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Severity::Error => "error",
            Severity::Warning => "warning",
        })
    }
}

/// Declares [`Code`] with its list and its names, so that the three cannot differ.
macro_rules! codes {
    ($($(#[$doc:meta])* $variant:ident = $name:literal,)*) => {
        /// What kind of problem it is.
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
        pub enum Code { $($(#[$doc])* $variant,)* }

        impl Code {
            /// Every code, in the order in which `docs/format.md` lists them.
            pub const ALL: &[Code] = &[$(Code::$variant),*];

            /// The name that messages and JSON use, for instance `digit-out-of-range`.
            pub fn name(self) -> &'static str {
                match self { $(Code::$variant => $name,)* }
            }
        }
    };
}

codes! {
    /// `pack.toml` is missing.
    PackFileMissing = "pack-file-missing",
    /// The pack has no puzzle file.
    PackHasNoPuzzles = "pack-has-no-puzzles",
    /// A path names something outside the pack.
    PathLeavesPack = "path-leaves-pack",
    /// The file is larger than a pack's files are.
    FileTooLarge = "file-too-large",
    /// The file is not UTF-8 text.
    NotUtf8 = "not-utf-8",
    /// The text is not TOML.
    NotToml = "not-toml",
    /// A key is given twice.
    KeyTwice = "key-twice",
    /// There is no such key.
    UnknownKey = "unknown-key",
    /// A key that every file must have is not there.
    MissingKey = "missing-key",
    /// The value is of another type than the key takes.
    WrongType = "wrong-type",
    /// The format is not one this program reads.
    UnknownFormat = "unknown-format",
    /// A text is empty.
    EmptyText = "empty-text",
    /// A text that must fit on one line holds a line break or another control character.
    NotOneLine = "not-one-line",
    /// A list names the same thing twice.
    ListedTwice = "listed-twice",
    /// The value is not an address of the web.
    NotAnAddress = "not-an-address",
    /// The value is not a day of the calendar.
    NotADay = "not-a-day",
    /// The text is no approval: a day and a fingerprint.
    NotAnApproval = "not-an-approval",
    /// The puzzle has changed since its setter approved it.
    ApprovalOutdated = "approval-outdated",
    /// No puzzle is by that setter.
    SetterUnknown = "setter-unknown",
    /// The text is no chapter of a recording, or begins no later than the one before.
    NotAChapter = "not-a-chapter",
    /// The text is no length: minutes and seconds, more than nothing.
    NotALength = "not-a-length",
    /// The text does not say how a booklet is printed.
    UnknownForm = "unknown-form",
    /// The text is no erratum: a day, a colon, and what is wrong.
    NotAnErratum = "not-an-erratum",
    /// A file's name cannot be a puzzle's id.
    FileNameNoId = "file-name-no-id",
    /// Two puzzle files have the same id.
    IdTwice = "id-twice",
    /// An item of the order cannot be a puzzle's id.
    NotAnId = "not-an-id",
    /// The order names a puzzle that the pack does not have.
    OrderUnknown = "order-unknown",
    /// The order names a puzzle twice.
    OrderTwice = "order-twice",
    /// The order names a puzzle that has no place in the pack at the moment.
    OrderAside = "order-aside",
    /// The order leaves puzzles out.
    OrderIncomplete = "order-incomplete",
    /// The order is an empty list.
    OrderEmpty = "order-empty",
    /// A number is too small or too large.
    NotInRange = "not-in-range",
    /// There is no such technique.
    UnknownTechnique = "unknown-technique",
    /// The pack has no such shelf.
    UnknownShelf = "unknown-shelf",
    /// There is no such state.
    UnknownState = "unknown-state",
    /// Nothing of that kind can be held against an order.
    UnknownSaid = "unknown-said",
    /// Two puzzles are pinned to one place.
    PinTwice = "pin-twice",
    /// A puzzle is pinned to a place that the pack does not have.
    PinBeyond = "pin-beyond",
    /// The order gives a pinned puzzle another place.
    PinNotKept = "pin-not-kept",
    /// There is no such size.
    UnknownSize = "unknown-size",
    /// There are no such boxes.
    UnknownBox = "unknown-box",
    /// The boxes do not belong to the size.
    BoxMismatch = "box-mismatch",
    /// The grid is of another size than the file says.
    SizeMismatch = "size-mismatch",
    /// The grid has too few or too many rows.
    RowCount = "row-count",
    /// A row of the grid has too few or too many cells.
    CellCount = "cell-count",
    /// The grid holds a character that means nothing there.
    StrayCharacter = "stray-character",
    /// A digit is larger than the board has.
    DigitOutOfRange = "digit-out-of-range",
    /// A house holds a digit twice.
    DigitRepeated = "digit-repeated",
    /// There are too few or too many clues.
    ClueCount = "clue-count",
    /// A clue is not a number.
    ClueNotANumber = "clue-not-a-number",
    /// A clue is larger than any that the rule allows.
    ClueTooLarge = "clue-too-large",
    /// No digits have the sum that a clue asks for.
    SumNotReachable = "sum-not-reachable",
    /// The text is not JSON.
    NotJson = "not-json",
    /// A file of JSON has a key too few or too many, or a value that cannot be.
    NotAsWritten = "not-as-written",
    /// A solve is of a puzzle that the pack does not have.
    SolveUnknown = "solve-unknown",
    /// A solve's puzzle has changed since.
    SolveOutdated = "solve-outdated",
    /// A solve cannot be held against its puzzle.
    SolveNotHeld = "solve-not-held",
    /// A rehearsal is of another puzzle, or its puzzle has changed since.
    RehearsalOutdated = "rehearsal-outdated",
    /// A calibration names a technique that there is not.
    CalibrationOutdated = "calibration-outdated",
    /// The file has more problems than are shown.
    MoreProblems = "more-problems",
}

impl Code {
    /// Whether such a problem keeps the file from being used.
    pub fn severity(self) -> Severity {
        match self {
            Code::OrderIncomplete
            | Code::OrderEmpty
            | Code::OrderAside
            | Code::PinBeyond
            | Code::PinNotKept
            | Code::ApprovalOutdated
            | Code::SetterUnknown
            | Code::ListedTwice => Severity::Warning,
            // The solve may be as good as it was; it is only of no use for this pack as it is now.
            Code::SolveUnknown | Code::SolveOutdated | Code::SolveNotHeld => Severity::Warning,
            Code::RehearsalOutdated | Code::CalibrationOutdated => Severity::Warning,
            // The errors among a file's problems are shown before its warnings, so the rest adds none.
            Code::MoreProblems => Severity::Warning,
            _ => Severity::Error,
        }
    }
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}
