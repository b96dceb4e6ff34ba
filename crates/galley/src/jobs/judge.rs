//! `galley judge`: whether a claim is true, and whether it follows from a board.

use grid::{Cell, CellSet, Digit, Grid, Size};
use reason::{Judged, Judgement, Settings, judge_claim};
use rulebook::{Claim, Puzzle};
use study::Study;

use super::why::{reason_document, reason_in_words};
use crate::args::RawJudge;
use crate::asked::{self, Asked};
use crate::boards::{self, Marks};
use crate::job::With;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::steps::conclusion;
use crate::studies::Target;
use crate::{json, print, typed};

/// The command.
#[derive(Debug)]
pub(crate) struct Judge {
    /// Where the puzzle is.
    target: Target,
    /// Its id, if a pack was named.
    puzzle: Option<String>,
    /// The claim as it was typed.
    claim: String,
    /// The board as it was typed; none for the givens alone.
    at: Option<String>,
    /// The most steps in which the claim has to follow.
    within: u16,
}

impl From<RawJudge> for Judge {
    fn from(raw: RawJudge) -> Judge {
        let RawJudge { target, puzzle, claim, at, within } = raw;
        Judge { target: target.into(), puzzle, claim, at, within }
    }
}

/// An answer, and what it is about.
struct Answered<'a> {
    study: &'a Study,
    claim: Claim,
    judged: Judged,
}

impl Judge {
    /// Judges the claim. A sealed puzzle is refused, which is a trouble of the pack.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let asked = Asked::read(&self.target, self.puzzle.as_deref())?;
        let question = asked.size().map(|it| self.question(it)).transpose()?;
        let found = asked.study(with)?;
        let study = found.pack.all().next();
        let answer = match study.zip(question) {
            Some((study, (claim, board))) => self.answer(study, claim, &board)?,
            None => None,
        };
        let result = match (&answer, with.is_json) {
            (answer, true) => json::text(&found.document_of_one(|_| self.document(answer.as_ref()))),
            (Some(it), false) => self.in_words(it, with.stdout),
            (None, false) => String::new(),
        };
        Ok(Outcome {
            problems: found.problems(with),
            result,
            note: String::new(),
            has_errors: found.has_errors(),
        })
    }

    /// The claim, and the board it is weighed from.
    fn question(&self, size: Size) -> Result<(Claim, Grid), Failure> {
        let board = self.at.as_ref().map_or(Ok(Grid::empty(size)), |it| typed::board("--at", size, it));
        Ok((typed::claim(size, &self.claim)?, board?))
    }

    /// The answer; none if the puzzle is not open, or has not one solution and a walkthrough.
    fn answer<'a>(
        &self,
        study: &'a Study,
        claim: Claim,
        board: &Grid,
    ) -> Result<Option<Answered<'a>>, Failure> {
        let Some(solved) = asked::solved(study) else { return Ok(None) };
        let within = usize::from(self.within);
        let judged = judge_claim(solved, board, claim, within, Settings::THOROUGH);
        let judged = judged.map_err(|it| asked::unanswered(&it))?;
        Ok(Some(Answered { study, claim, judged }))
    }

    fn in_words(&self, answer: &Answered<'_>, screen: Screen) -> String {
        let entry = answer.study.entry();
        let Judged { board, judgement } = &answer.judged;
        let head = format!("{}, by {}\n", entry.title, entry.setter);
        let says = print::folded(&self.says(answer), screen);
        let reason = match judgement {
            Judgement::Follows(why) | Judgement::Untrue { against: Some(why), .. } => {
                reason_in_words(board, why, screen)
            }
            _ => String::new(),
        };
        let counterexample = match judgement {
            Judgement::Untrue { counterexample, .. } => drawn(board, answer.claim, counterexample),
            _ => String::new(),
        };
        head + &says + &reason + &counterexample
    }

    /// The answer without the reason for it.
    fn says(&self, answer: &Answered<'_>) -> String {
        tell::judged(&answer.judged, answer.claim, usize::from(self.within))
    }

    fn document(&self, answer: Option<&Answered<'_>>) -> json::Judged {
        let mut document = json::Judged { within: self.within, ..json::Judged::default() };
        if let Some(it) = answer {
            self.fill(&mut document, it);
        }
        document
    }

    fn fill(&self, document: &mut json::Judged, answer: &Answered<'_>) {
        let Judged { board, judgement } = &answer.judged;
        let size = board.size();
        document.claim = Some(conclusion(size, answer.claim));
        document.board = Some(board.givens().to_string());
        document.answer = Some(name(judgement));
        match judgement {
            Judgement::WrongBoard(wrong) => {
                let digit = |&(cell, digit): &(Cell, Digit)| conclusion(size, Claim::Is(cell, digit));
                document.wrong = wrong.iter().map(digit).collect();
            }
            Judgement::Follows(why) => document.reason = reason_document(board, why),
            Judgement::NotYet { missing, n_steps } => {
                document.missing = missing.iter().map(|it| conclusion(size, *it)).collect();
                document.steps_then = Some(*n_steps);
            }
            Judgement::Untrue { answer: digit, open, against, counterexample } => {
                document.counterexample = Some(counterexample.to_string());
                document.holds = Some(digit.get());
                document.open = open.iter().map(Digit::get).collect();
                document.reason = against.as_ref().map(|it| reason_document(board, it)).unwrap_or_default();
            }
        }
        // The whole answer in words: the verdict, then the reason for it.
        let reason = document.reason.says.take();
        document.reason.says =
            Some([Some(self.says(answer)), reason].into_iter().flatten().collect::<Vec<_>>().join(" "));
    }
}

/// The full board that shows that the claim is not true, with a mark at its cell.
fn drawn(puzzle: &Puzzle, claim: Claim, full: &Grid) -> String {
    let marks = Marks {
        board: full.clone(),
        crusts: CellSet::EMPTY,
        filling: CellSet::EMPTY,
        marked: claim.cell().into_iter().collect(),
    };
    format!("\n{}\n\n{}", tell::counterexample(), boards::with_clues(puzzle, &marks))
}

/// The answer's name in documents.
fn name(judgement: &Judgement) -> &'static str {
    match judgement {
        Judgement::WrongBoard(_) => "wrong-board",
        Judgement::Follows(_) => "follows",
        Judgement::NotYet { .. } => "not-yet",
        Judgement::Untrue { .. } => "untrue",
    }
}
