//! Reads the puzzles back out of a finished site, as a visitor would: from the index to each page.
//!
//! The files are parsed as a browser parses them. Title and setter are the words that stand there.
//! Size, givens and clues come from the drawing itself (its lines and figures and where they lie; see
//! `drawing`), not from attributes that nobody sees, and the picture's description for those who do
//! not see it must say the same. Which rule the clues belong to is decided by the rules that the page
//! prints. So a slip anywhere between a puzzle and the finished markup, in `draw` too, is noticed.
//!
//! Left out: boards on which clues of two rules stand, because there are no such boards yet; they are
//! refused.

mod drawing;
mod spoken;

use std::collections::BTreeMap;
use std::fmt;

use grid::{Cell, House};
use pack::{Entry, PuzzleId};
use rulebook::{Clue, Puzzle, RULES};
use scraper::{ElementRef, Html, Selector};

use crate::{embedded, index, puzzle};
use drawing::Drawn;
use page::bare;

/// A puzzle as it is published.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadPuzzle {
    /// Its name, from its page's path.
    pub id: PuzzleId,
    /// Its title.
    pub title: String,
    /// Who set it.
    pub setter: String,
    /// The puzzle that is drawn.
    pub puzzle: Puzzle,
}

/// In what a published puzzle is not the one that was to be published.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Difference {
    /// The title.
    Title,
    /// The setter.
    Setter,
    /// The size of the board or its boxes.
    Size,
    /// What is given in this cell.
    Given(Cell),
    /// The clues beside this row or column.
    Clue(House),
}

impl fmt::Display for Difference {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Difference::Title => write!(f, "the title differs"),
            Difference::Setter => write!(f, "the setter differs"),
            Difference::Size => write!(f, "the size of the board differs"),
            Difference::Given(cell) => write!(f, "the given in {cell} differs"),
            Difference::Clue(line) => write!(f, "the clue of {line} differs"),
        }
    }
}

impl ReadPuzzle {
    /// The first difference from the entry, if there is any. Unseen characters of its texts, which no
    /// page can show, do not count.
    pub fn differs_from(&self, entry: &Entry) -> Option<Difference> {
        if self.title != bare(&entry.title) {
            return Some(Difference::Title);
        }
        if self.setter != bare(entry.credited()) {
            return Some(Difference::Setter);
        }
        first_difference(&self.puzzle, &entry.puzzle)
    }
}

fn first_difference(a: &Puzzle, b: &Puzzle) -> Option<Difference> {
    let size = a.size();
    if size != b.size() {
        return Some(Difference::Size);
    }
    let clues = |puzzle: &Puzzle, line| puzzle.clues().iter().filter(|it| it.line == line).copied().collect();
    let differ = |line: &House| -> bool {
        let (of_a, of_b): (Vec<Clue>, Vec<Clue>) = (clues(a, *line), clues(b, *line));
        of_a != of_b
    };
    let given = size.cells().find(|it| a.givens().get(*it) != b.givens().get(*it)).map(Difference::Given);
    given.or_else(|| size.lines().find(differ).map(Difference::Clue))
}

/// Why a site cannot be read back.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReadError {
    /// The file.
    pub path: String,
    /// What is wrong with it.
    pub fault: Fault,
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.path, self.fault)
    }
}

impl std::error::Error for ReadError {}

/// What is wrong with a file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Fault {
    /// There is no such file, although it is expected or linked.
    Missing,
    /// It is not UTF-8.
    NotText,
    /// It is not sound HTML; the parser's word for it.
    NotSound(String),
    /// The index does not link to it, or more than once.
    NotLinkedOnce,
    /// It does not have exactly one of these.
    NotOne(&'static str),
    /// The index gives it another title or setter.
    IndexDiffers,
    /// The lines of the board make no board.
    NoBoard,
    /// A figure stands where none belongs, or is no number that could stand there.
    StrayFigure(String),
    /// The description says something else than the drawing shows.
    DescriptionDiffers,
    /// The rules that are printed are not those of the board.
    RulesDiffer,
    /// The puzzle that is embedded for playing is not the one that is drawn.
    DataDiffers,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Missing => write!(f, "there is no such file"),
            Fault::NotText => write!(f, "it is not UTF-8"),
            Fault::NotSound(it) => write!(f, "it is not sound HTML: {it}"),
            Fault::NotLinkedOnce => write!(f, "the index does not link to it exactly once"),
            Fault::NotOne(it) => write!(f, "it does not have exactly one {it}"),
            Fault::IndexDiffers => write!(f, "the index gives another title or setter"),
            Fault::NoBoard => write!(f, "the lines that are drawn make no board"),
            Fault::StrayFigure(it) => write!(f, "the figure \"{it}\" does not belong where it stands"),
            Fault::DescriptionDiffers => write!(f, "the board's description differs from its drawing"),
            Fault::DataDiffers => write!(f, "the puzzle that is played is not the one that is drawn"),
            Fault::RulesDiffer => write!(f, "the rules that are printed are not those of the board"),
        }
    }
}

/// Every puzzle of the site whose files these are, in the order of its index.
///
/// # Errors
///
/// The first file in which something is missing, unsound or at odds with the rest.
pub fn read_back(files: &BTreeMap<String, Vec<u8>>) -> Result<Vec<ReadPuzzle>, ReadError> {
    let index = open(files, index::PATH)?;
    let in_index = |fault| ReadError { path: index::PATH.to_owned(), fault };
    let mut puzzles: Vec<ReadPuzzle> = Vec::new();
    for entry in all(index.root_element(), ".puzzles .entry") {
        let link = one(entry, "a[href]", "link a puzzle").map_err(in_index)?;
        let path = link.attr("href").unwrap_or_default();
        let error = |fault| ReadError { path: path.to_owned(), fault };
        let Some(id) = id_of(path).filter(|id| puzzles.iter().all(|it| it.id != *id)) else {
            return Err(error(Fault::NotLinkedOnce));
        };
        let read = read_page(id, &open(files, path)?).map_err(error)?;
        let said = |what, name| one(entry, what, name).map(text).map_err(in_index);
        if (said(".title", "title a puzzle")?, said(".setter bdi", "setter a puzzle")?)
            != (read.title.clone(), read.setter.clone())
        {
            return Err(error(Fault::IndexDiffers));
        }
        puzzles.push(read);
    }
    let is_linked = |path: &String| id_of(path).is_none_or(|id| puzzles.iter().any(|it| it.id == id));
    match files.keys().find(|it| !is_linked(it)) {
        Some(path) => Err(ReadError { path: path.clone(), fault: Fault::NotLinkedOnce }),
        None => Ok(puzzles),
    }
}

/// The id of the puzzle whose page is at that path.
fn id_of(path: &str) -> Option<PuzzleId> {
    let name = path.rsplit('/').next()?.strip_suffix(".html")?;
    PuzzleId::new(name).filter(|it| puzzle::path(it) == path)
}

fn open(files: &BTreeMap<String, Vec<u8>>, path: &str) -> Result<Html, ReadError> {
    let error = |fault| ReadError { path: path.to_owned(), fault };
    let bytes = files.get(path).ok_or_else(|| error(Fault::Missing))?;
    let text = std::str::from_utf8(bytes).map_err(|_| error(Fault::NotText))?;
    let html = Html::parse_document(text);
    match html.errors.first() {
        Some(it) => Err(error(Fault::NotSound(it.to_string()))),
        None => Ok(html),
    }
}

fn read_page(id: PuzzleId, html: &Html) -> Result<ReadPuzzle, Fault> {
    let root = html.root_element();
    let title = text(one(root, "h1", "main heading")?);
    let setter = text(one(root, ".heading .setter bdi", "setter")?);
    let picture = one(root, ".board svg", "large board")?;
    let drawn = Drawn::read(picture)?;
    let description = text(one(picture, "desc", "description of the board")?);
    if spoken::read(&description).as_ref() != Some(&drawn.contents) {
        return Err(Fault::DescriptionDiffers);
    }
    let printed: Vec<String> = all(root, "dl.rules > *").into_iter().map(text).collect();
    let puzzle = with_rules(&drawn, &printed).ok_or(Fault::RulesDiffer)?;
    let data = text(one(root, &format!("script#{}", embedded::PUZZLE_DATA), "embedded puzzle")?);
    if embedded::read(&data).as_ref() != Some(&puzzle) {
        return Err(Fault::DataDiffers);
    }
    Ok(ReadPuzzle { id, title, setter, puzzle })
}

/// The puzzle whose clues are of the rule that the page prints: names and rules in turn.
fn with_rules(drawn: &Drawn, printed: &[String]) -> Option<Puzzle> {
    let size = drawn.givens.size();
    let puzzles = RULES.into_iter().map(|rule| {
        let clues = drawn.contents.clues.iter();
        let clue = |(line, value): (&House, &u16)| Clue { rule, line: *line, value: *value };
        Puzzle::new(drawn.givens.clone(), clues.map(clue))
    });
    let says = |puzzle: &Puzzle| {
        tell::rules(puzzle).into_iter().flat_map(|it| [it.name, it.short]).eq(printed.iter().cloned())
    };
    let can_be =
        |puzzle: &Puzzle| puzzle.clues().iter().all(|it| it.rule.reachable(size).contains(&it.value));
    puzzles.into_iter().filter(can_be).find(says)
}

/// The elements below that one which the selector names.
fn all<'a>(element: ElementRef<'a>, selector: &str) -> Vec<ElementRef<'a>> {
    let selector = Selector::parse(selector).unwrap_or_else(|_| unreachable!("{selector} is written here"));
    element.select(&selector).collect()
}

/// The only such element; `name` is what it is called if it is not.
fn one<'a>(element: ElementRef<'a>, selector: &str, name: &'static str) -> Result<ElementRef<'a>, Fault> {
    match all(element, selector)[..] {
        [only] => Ok(only),
        _ => Err(Fault::NotOne(name)),
    }
}

fn text(element: ElementRef) -> String {
    element.text().collect()
}
