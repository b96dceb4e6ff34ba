//! `galley why --at`: what is spoken at a time of a published recording, for a viewer's question.

use std::path::PathBuf;

use captions::Time;
use rehearse::board;
use review::{Match, Spoken, answer, spoken_at};

use super::review::HeardWith;
use crate::job::With;
use crate::json;
use crate::load::{shown, write_file};
use crate::one::One;
use crate::outcome::{Failure, Outcome};
use crate::print;
use crate::recordings::Recordings;

/// The command.
#[derive(Debug)]
pub(crate) struct WhyAt {
    /// The puzzle.
    pub(crate) one: One,
    /// The moment.
    pub(crate) at: Time,
    /// The captions.
    pub(crate) recording: PathBuf,
    /// What was noted of it beside.
    pub(crate) heard: HeardWith,
    /// Where to put a picture of the board, if anywhere.
    pub(crate) picture: Option<PathBuf>,
}

impl WhyAt {
    /// Tells the step that is spoken there, or between which it must be. A recording of another puzzle is a problem.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let (mut found, study) = self.one.find("what is spoken", with)?;
        let recordings = Recordings::read(&self.one.target.path, &mut found)?;
        let study = study.and_then(|id| found.pack.all().find(|it| it.entry().id == id));
        let Some(setting) = study.and_then(|it| recordings.setting(&found, it)) else {
            return Ok(found.outcome_of_nothing(with));
        };
        let heard = self.heard.hear(&self.recording, &setting)?;
        if heard.review.matches == Match::No {
            let message = format!("{} sounds like a recording of another puzzle", shown(&self.recording));
            return Err(Failure::new(message, "name the puzzle that it is of"));
        }
        let spoken = spoken_at(&heard.review, self.at);
        let number = |it: usize| heard.expected.steps[it].number;
        let address = site::puzzle_address(found.pack.info(), &setting.study().entry().id);
        let mut document = json::SpokenAt {
            format: json::FORMAT,
            puzzle: setting.study().entry().id.to_string(),
            at: self.at.as_seconds(),
            step: None,
            sure: None,
            between: [None, None],
            answer: None,
            address: None,
            picture: None,
            problems: found.all_problems(),
        };
        let said = match spoken {
            Spoken::BeforeFirst => "the first step is not reached yet".to_owned(),
            Spoken::Unsure { after, before } => {
                document.between = [after.map(number), before.map(number)];
                match (after, before) {
                    (Some(after), Some(before)) => {
                        format!(
                            "unsure: somewhere between step {} and step {}",
                            number(after),
                            number(before)
                        )
                    }
                    (Some(after), None) => format!("unsure: somewhere after step {}", number(after)),
                    _ => "unsure".to_owned(),
                }
            }
            Spoken::Step { step, sure } => {
                document.step = Some(number(step));
                document.sure = Some((sure * 100.0).round() / 100.0);
                document.answer = Some(answer(&heard.expected, step));
                // The site's walkthrough has an anchor for each step.
                document.address = address.map(|it| format!("{it}#step-{}", number(step)));
                if let Some(path) = &self.picture {
                    self.draw(path, &setting, number(step))?;
                    document.picture = Some(path.to_string_lossy().into_owned());
                }
                let lines = [document.answer.as_ref(), document.address.as_ref(), document.picture.as_ref()];
                let lines: String = lines.into_iter().flatten().map(|it| format!("\n{it}")).collect();
                format!("step {}, {:.0}% sure{lines}", number(step), 100.0 * sure)
            }
        };
        let result = match with.is_json {
            true => json::text(&document),
            false => said.lines().map(|it| print::folded(&print::visible(it), with.stdout)).collect(),
        };
        Ok(Outcome {
            problems: found.problems(with),
            result,
            note: String::new(),
            has_errors: found.has_errors(),
        })
    }

    fn draw(
        &self,
        path: &std::path::Path,
        setting: &rehearse::Setting,
        number: usize,
    ) -> Result<(), Failure> {
        let trail = setting.account().explained.walkthrough().trail();
        let step = trail.steps().map(|it| it.0).find(|it| it.number() == number);
        write_file(path, draw::standalone(&board(setting, step)).as_bytes())
    }
}
