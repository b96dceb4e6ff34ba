//! `galley why`: the shortest proof found for one cell's digit, kind or missing candidate.

use grid::{Cell, Size};
use reason::{Settings, Unanswered, why};
use rulebook::Claim;
use study::Study;

use crate::args::RawWhy;
use crate::asked::{self, Asked};
use crate::job::With;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::steps::{conclusion, steps};
use crate::studies::Target;
use crate::{json, print, typed};

/// The command.
#[derive(Debug)]
pub(crate) struct Why {
    /// Where the puzzle is.
    target: Target,
    /// Its id, if a pack was named.
    puzzle: Option<String>,
    /// The cell as it was typed.
    cell: String,
    what: What,
}

/// What is asked about the cell.
#[derive(Debug)]
enum What {
    Digit,
    Not(String),
    Crust,
    Filling,
}

impl TryFrom<RawWhy> for Why {
    type Error = Failure;

    /// Of a puzzle's file the cell is the only thing named after it; of a pack the puzzle comes first.
    fn try_from(raw: RawWhy) -> Result<Why, Failure> {
        let (puzzle, cell) = match (raw.puzzle, raw.cell) {
            (puzzle, Some(cell)) => (puzzle, cell),
            (Some(cell), None) => (None, cell),
            (None, None) => {
                let help = "name a cell, such as r4c7, or a time with --at";
                return Err(Failure::new("it is not said what is asked about", help));
            }
        };
        let what = match raw.not {
            Some(digit) => What::Not(digit),
            None if raw.crust => What::Crust,
            None if raw.filling => What::Filling,
            None => What::Digit,
        };
        Ok(Why { target: raw.target.into(), puzzle, cell, what })
    }
}

impl Why {
    /// Tells the proof. A sealed puzzle is refused, which is a trouble of the pack.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let asked = Asked::read(&self.target, self.puzzle.as_deref())?;
        let question = asked.size().map(|it| self.question(it)).transpose()?;
        let found = asked.study(with)?;
        let study = found.pack.all().next();
        let answer = study.zip(question).and_then(|(study, it)| answer(study, it)).transpose()?;
        let result = match (&answer, with.is_json) {
            (answer, true) => json::text(&found.document_of_one(|_| document(answer.as_ref()))),
            (Some((study, it)), false) => in_words(study, it, with.stdout),
            (None, false) => String::new(),
        };
        Ok(Outcome {
            problems: found.problems(with),
            result,
            note: String::new(),
            has_errors: found.has_errors(),
        })
    }

    fn question(&self, size: Size) -> Result<Question, Failure> {
        let cell = typed::cell(size, &self.cell)?;
        Ok(match &self.what {
            What::Digit => Question::Digit(cell),
            What::Not(digit) => Question::Claim(Claim::IsNot(cell, typed::digit(size, digit)?)),
            What::Crust => Question::Claim(Claim::Crust(cell)),
            What::Filling => Question::Claim(Claim::Filling(cell)),
        })
    }
}

/// What is asked, before the solution is looked at.
#[derive(Clone, Copy)]
enum Question {
    Digit(Cell),
    Claim(Claim),
}

/// The answer; none if the puzzle is not open or has none.
fn answer(study: &Study, question: Question) -> Option<Result<(&Study, reason::Why), Failure>> {
    let solved = asked::solved(study)?;
    let goal = match question {
        Question::Digit(cell) => Claim::Is(cell, solved.solution.get(cell)?),
        Question::Claim(it) => it,
    };
    Some(match why(solved, goal, Settings::THOROUGH) {
        Ok(it) => Ok((study, it)),
        Err(Unanswered::Untrue) => Err(untrue(goal)),
        Err(it) => Err(asked::unanswered(&it)),
    })
}

/// The failure of asking for the reason of something that is not so.
fn untrue(goal: Claim) -> Failure {
    match goal {
        Claim::IsNot(cell, digit) => Failure::new(
            format!("{cell} is {digit}, so nothing shows that it is not"),
            format!("leave out --not to see why it is {digit}"),
        ),
        Claim::Crust(cell) => {
            Failure::new(format!("{cell} is no crust"), "ask for --filling, or leave out --crust")
        }
        Claim::Filling(cell) => {
            Failure::new(format!("{cell} is a crust"), "ask for --crust, or leave out --filling")
        }
        _ => asked::unanswered(&Unanswered::Untrue),
    }
}

fn in_words(study: &Study, why: &reason::Why, screen: Screen) -> String {
    let entry = study.entry();
    let head = format!("{}, by {}\n", entry.title, entry.setter);
    head + &reason_in_words(&entry.puzzle, why, screen)
}

/// What settles the question, and the steps that lead there.
pub(super) fn reason_in_words(board: &rulebook::Puzzle, why: &reason::Why, screen: Screen) -> String {
    let trail = why.trail();
    let told = trail.steps().map(|(it, _)| (it.number(), tell::says(board, trail, it)));
    let says = print::folded(&tell::because_of(board.size(), why), screen);
    match trail.n_steps() {
        0 => says,
        _ => format!("{says}\n{}", print::numbered(told, screen)),
    }
}

/// The same for a document.
pub(super) fn reason_document(board: &rulebook::Puzzle, why: &reason::Why) -> json::Reason {
    json::Reason {
        says: Some(tell::because_of(board.size(), why)),
        by: Some(conclusion(board.size(), why.by)),
        house: why.seen_in.map(|it| it.to_string()),
        steps: steps(board, why.trail()),
    }
}

fn document(answer: Option<&(&Study, reason::Why)>) -> json::Why {
    json::Why {
        asked: answer.map(|(study, it)| conclusion(study.entry().puzzle.size(), it.goal)),
        reason: answer.map(|(study, it)| reason_document(&study.entry().puzzle, it)).unwrap_or_default(),
    }
}
