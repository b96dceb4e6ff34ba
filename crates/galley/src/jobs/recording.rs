//! `galley recording`: what a log gives: chapters, captions, cuts, and the text under the recording.

use std::path::{Path, PathBuf};

use captions::{
    Chapter, Cut, Cuts, FrameRate, Time, chapter_lines, chapters_webvtt, cut_lines, edit_list, webvtt,
};
use packfile::read_rehearsal;
use rehearse::{Plan, Recorded, Setting, Under, gone, under};

use crate::folder::{Files, OutFolder};
use crate::job::With;
use crate::json;
use crate::load::{read_file, shown};
use crate::one::One;
use crate::outcome::{Failure, Outcome};
use crate::print;
use crate::recordings::Recordings;

/// The command.
#[derive(Debug)]
pub(crate) struct Recording {
    /// The puzzle.
    pub(crate) one: One,
    /// The log that the stage wrote.
    pub(crate) log: PathBuf,
    /// The cuts that have been made, if any.
    pub(crate) cuts: Option<PathBuf>,
    /// Frames a second of the edit list.
    pub(crate) frames: FrameRate,
    /// The folder to write.
    pub(crate) out: PathBuf,
}

impl Recording {
    /// Writes everything that the log gives.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let out = OutFolder::claim(&self.out)?;
        let (mut found, study) = self.one.find("what a recording gives", with)?;
        let recordings = Recordings::read(&self.one.target.path, &mut found)?;
        let study = study.and_then(|id| found.pack.all().find(|it| it.entry().id == id));
        let Some(setting) = study.and_then(|it| recordings.setting(&found, it)) else {
            return Ok(found.outcome_of_nothing(with));
        };
        let file = read_file(&self.log)?;
        let logged = read_rehearsal(&file).and_then(|it| it.check(setting.study().entry()).map(|()| it));
        let logged = match logged {
            Ok(it) => it,
            Err(problem) => {
                let (message, help) = (problem.message.clone(), problem.help.clone().unwrap_or_default());
                return Err(Failure::new(format!("{}: {message}", shown(&self.log)), help));
            }
        };
        let plan = Plan::new(&setting);
        let recorded = Recorded::new(&plan.script, &logged.rehearsal, plan.pace);
        let total = logged.rehearsal.total;
        let suggested = recorded.cuts();
        let made = cuts_made(self.cuts.as_deref(), total)?;
        let result = Given::new(&setting, &plan, &recorded, &made, total, recordings.template, &found)?;
        let files = result.files(&suggested, &made, total, self);
        let written = out.replace(&files)?;
        let gone = gone(&plan.script, &logged.rehearsal);
        let note = result.note(&self.out, &gone, with);
        Ok(Outcome {
            problems: found.problems(with),
            result: match with.is_json {
                true => {
                    let cuts = if made.is_empty() { &suggested } else { &made };
                    json::text(&result.document(
                        &recorded,
                        cuts,
                        (total, total - made.total()),
                        gone,
                        written,
                        &found,
                    ))
                }
                false => result.text(),
            },
            note: if with.is_json { String::new() } else { note },
            has_errors: found.has_errors(),
        })
    }
}

/// The cuts that a file says were made in a recording that long; none without a file.
///
/// # Errors
///
/// If it cannot be read, or a line of it is no cut.
pub(super) fn cuts_made(path: Option<&Path>, total: Time) -> Result<Cuts, Failure> {
    let Some(path) = path else { return Ok(Cuts::default()) };
    let file = read_file(path)?;
    let text = String::from_utf8_lossy(&file.bytes);
    let cuts: Vec<Cut> = captions::read_cuts(&text).map_err(|line| {
        Failure::new(
            format!("line {line} of {} is no cut", shown(path)),
            "write two times and why, such as 1:05 to 1:09.5 slip",
        )
    })?;
    Ok(Cuts::new(cuts, total))
}

/// What a log gives, after the cuts that were made.
struct Given {
    chapters: Vec<Chapter>,
    draft: rehearse::Draft,
    ran_long: Vec<rehearse::RanLong>,
    under: Under,
    id: String,
}

impl Given {
    fn new(
        setting: &Setting,
        plan: &Plan,
        recorded: &Recorded<'_>,
        made: &Cuts,
        total: Time,
        template: String,
        found: &crate::studies::Found,
    ) -> Result<Given, Failure> {
        let chapters = made.chapters(&recorded.parts(), total);
        let draft = recorded.captions(made);
        let after = total - made.total();
        let under = under(setting, &plan.script, found.pack.info(), (&chapters, after), &template)
            .map_err(|it| crate::recordings::template_failure(&it))?;
        let id = setting.study().entry().id.to_string();
        Ok(Given { chapters, draft, ran_long: recorded.ran_long(), under, id })
    }

    /// The files by their names.
    fn files(&self, suggested: &Cuts, made: &Cuts, total: Time, asked: &Recording) -> Files {
        let after = total - made.total();
        let cuts = if made.is_empty() { suggested } else { made };
        let head = match made.is_empty() {
            true => "# Suggested. Change what you like and give the file back with --cuts.\n",
            false => "# Made: chapters, captions and text are those of the recording without these.\n",
        };
        let title = &self.under.title;
        Files::from(
            [
                ("chapters.vtt", chapters_webvtt(&self.chapters, after)),
                ("chapters.txt", chapter_lines(&self.chapters)),
                ("captions.vtt", webvtt(&self.draft.captions)),
                ("cuts.txt", format!("{head}{}", cut_lines(cuts))),
                ("cuts.edl", edit_list(cuts, total, asked.frames, title, &self.id)),
                ("title.txt", format!("{title}\n")),
                ("text.txt", self.under.text.clone()),
            ]
            .map(|(name, text)| (name.to_owned(), text.into_bytes())),
        )
    }

    /// Title and chapters, for people.
    fn text(&self) -> String {
        format!("{}\n\n{}", print::visible(&self.under.title), chapter_lines(&self.chapters))
    }

    /// What an editor should know of what was written.
    fn note(&self, out: &Path, gone: &[String], with: &With) -> String {
        let mut said = Vec::new();
        for it in &self.ran_long {
            said.push(format!(
                "\"{}\" at {} ran long: {}, planned {}",
                it.title,
                it.at.clock(),
                it.took.clock(),
                it.planned.clock()
            ));
        }
        let numbers = |it: &[usize]| {
            let named = it.iter().map(|it| match it {
                0 => "opening or close".to_owned(),
                n => n.to_string(),
            });
            tell::list(&named.collect::<Vec<_>>())
        };
        if !self.draft.shortened.is_empty() {
            said.push(format!(
                "said faster than captions can be read, so only what follows is captioned: {}",
                numbers(&self.draft.shortened)
            ));
        }
        if !self.draft.left_out.is_empty() {
            said.push(format!("said too fast for any caption: {}", numbers(&self.draft.left_out)));
        }
        if !gone.is_empty() {
            said.push(format!(
                "the walkthrough no longer has {}, so what was said there counts to what came before",
                tell::list(&gone.iter().map(|it| print::visible(it)).collect::<Vec<_>>())
            ));
        }
        if !self.under.left_out.is_empty() {
            said.push(format!(
                "to keep the text short enough it is without {}",
                tell::list(&self.under.left_out)
            ));
        }
        if self.under.over > 0 {
            said.push(format!("the text is {} characters too long even so", self.under.over));
        }
        said.push(format!(
            "wrote chapters, captions, cuts and text in {}/",
            print::visible(&out.to_string_lossy())
        ));
        said.iter().map(|it| print::folded(it, with.stderr)).collect()
    }

    fn document(
        &self,
        recorded: &Recorded<'_>,
        cuts: &Cuts,
        (total, after): (Time, Time),
        gone: Vec<String>,
        written: Vec<String>,
        found: &crate::studies::Found,
    ) -> json::Recorded {
        let reached = recorded.reached().iter().map(|it| json::ReachedStep {
            step: it.step.map(|it| it + 1),
            from: it.from.as_seconds(),
            to: it.to.as_seconds(),
            away: it.away.as_seconds(),
        });
        json::Recorded {
            format: json::FORMAT,
            puzzle: self.id.clone(),
            total: total.as_seconds(),
            total_after_cuts: after.as_seconds(),
            reached: reached.collect(),
            chapters: (self.chapters.iter())
                .map(|it| json::Chapter { at: it.at.as_seconds(), title: it.title.clone() })
                .collect(),
            cuts: cuts
                .iter()
                .map(|it| json::Cut {
                    from: it.from.as_seconds(),
                    to: it.to.as_seconds(),
                    why: it.why.clone(),
                })
                .collect(),
            ran_long: (self.ran_long.iter())
                .map(|it| json::RanLong {
                    title: it.title.clone(),
                    at: it.at.as_seconds(),
                    planned: it.planned.as_seconds(),
                    took: it.took.as_seconds(),
                })
                .collect(),
            captions_shortened: self.draft.shortened.clone(),
            captions_left_out: self.draft.left_out.clone(),
            steps_gone: gone,
            title: self.under.title.clone(),
            left_out_of_text: self.under.left_out.clone(),
            text_over: self.under.over,
            written,
            problems: found.all_problems(),
        }
    }
}
