//! Questions to put to viewers, so that they look before they are told.

use trail::StepId;

use crate::introductions::Introduction;
use crate::{Setting, Stumble};

/// So many questions at least.
const FEWEST: usize = 2;

/// A question, and before which step it is put.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Question {
    /// The step that answers it; none if the editor's own says nothing of that.
    pub step: Option<StepId>,
    /// The question.
    pub asks: String,
}

/// The editor's own questions, or two or three: where the puzzle opens, before the first new technique, and at the
/// hardest place to see; where these are one, at what else is seen late.
pub(crate) fn questions(
    setting: &Setting,
    introductions: &[Introduction],
    stumbles: &[Stumble],
) -> Vec<Question> {
    let own = &setting.notes.questions;
    if !own.is_empty() {
        return own.iter().map(|it| Question { step: None, asks: page::bare(it) }).collect();
    }
    let puzzle = &setting.study.entry().puzzle;
    let trail = setting.account.explained.walkthrough().trail();
    let look_at = |step: StepId| tell::where_what_why(puzzle, trail, step)[0].clone();
    let mut questions: Vec<Question> = Vec::new();
    let mut ask = |step: StepId, asks: String| {
        if !questions.iter().any(|it| it.step == Some(step)) {
            questions.push(Question { step: Some(step), asks });
        }
    };
    // The way in is a trail of its own: its step is known again by what it concludes.
    let break_in = setting.account.way_in().and_then(|way| {
        let (_, last) = way.steps().next_back()?;
        let goal = way.fact(*last.concludes().first()?).claim();
        let found = trail.facts().find(|(_, it)| it.claim() == goal && it.step().is_some());
        found.and_then(|(_, it)| it.step())
    });
    if let Some(step) = break_in {
        ask(step, format!("{} Where would you begin there?", look_at(step)));
    }
    if let Some(new) = introductions.first() {
        ask(new.step, format!("{} What must be so there, before I say it?", look_at(new.step)));
    }
    // Where nothing is narrow, testers may have stopped all the same.
    let narrowest = setting.account.estimate.narrow_places().first().map(|it| it.step);
    if let Some(hard) = stumbles.iter().find(|it| narrowest.is_none_or(|step| step == it.step)) {
        ask(hard.step, format!("{} Little else is open here: what do you see?", look_at(hard.step)));
    }
    // A walkthrough with nothing new and nothing narrow still has steps that are later seen than others.
    for it in setting.account.estimate.narrowest(FEWEST) {
        if questions.len() < FEWEST && !questions.iter().any(|known| known.step == Some(it.step)) {
            let asks = format!("{} What follows there?", look_at(it.step));
            questions.push(Question { step: Some(it.step), asks });
        }
    }
    questions.sort_by_key(|it| it.step);
    questions
}
