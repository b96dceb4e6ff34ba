//! `galley press`: the whole job, and everything that is written of it.

use std::path::PathBuf;

use pack::{Day, Form};
use season::Approved;
use study::{LeftOut, StudiedPack};

use super::table;
use crate::folder::OutFolder;
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::outputs::{Alteration, Outputs, Wanted, outputs};
use crate::print;
use crate::recordings::Recordings;
use crate::studies::{Found, Target};

/// The command.
#[derive(Debug)]
pub(crate) struct Press {
    /// The pack.
    pub(crate) target: Target,
    /// The folder to write.
    pub(crate) out: PathBuf,
    /// The day to print in the booklet.
    pub(crate) issued: Option<Day>,
    /// The forms of the booklet; none for those that the pack names.
    pub(crate) forms: Vec<Form>,
    /// Whether a puzzle that has changed since its setter approved it is refused.
    pub(crate) is_strict: bool,
    /// Whether to print the cue sheets.
    pub(crate) print_cues: bool,
    /// Packs in which no twin of a puzzle should be.
    pub(crate) archive: Vec<PathBuf>,
}

impl Press {
    /// Reads, proves, explains, grades and orders the pack, and writes report, booklet, site and cue
    /// sheets. Of a pack in which no puzzle can be read, nothing is written.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let out = OutFolder::claim(&self.out)?;
        let mut found = self.target.study(with)?;
        found.watch_for_twins(&self.archive, with)?;
        let refused = if self.is_strict { changed_since(&found.pack) } else { Vec::new() };
        let outputs = match found.pack.studies().is_empty() || !refused.is_empty() {
            true => Outputs::default(),
            false => {
                let recordings = Recordings::read(&self.target.path, &mut found)?;
                let forms = self.forms_of(&found);
                let asked = Wanted { issued: self.issued, forms: &forms, print_cues: self.print_cues };
                outputs(&found, &asked, &recordings, with)?
            }
        };
        let written = match outputs.files.is_empty() {
            true => Vec::new(),
            false => out.replace(&outputs.files)?,
        };
        Ok(Outcome {
            problems: found.problems(with),
            note: match (with.is_json, &refused[..]) {
                (true, _) => String::new(),
                (false, []) => self.note(&found, &outputs, with),
                (false, titles) => {
                    let it =
                        format!("changed since approved, so nothing was written: {}", tell::list(titles));
                    print::folded(&it, with.stderr)
                }
            },
            has_errors: found.has_errors() || !refused.is_empty(),
            result: match with.is_json {
                true => json::text(&document(&found, outputs, written)),
                false => table::in_words(&found, with.stdout),
            },
        })
    }

    /// The forms of the booklet, each once: those asked for, or else the pack's, or else the usual one.
    fn forms_of(&self, found: &Found) -> Vec<Form> {
        let asked = if self.forms.is_empty() { &found.pack.info().booklets } else { &self.forms };
        let mut forms: Vec<Form> = Vec::new();
        for form in asked {
            if !forms.contains(form) {
                forms.push(*form);
            }
        }
        if forms.is_empty() { vec![Form::default()] } else { forms }
    }

    /// What was written, what is not in it and why, and what was printed otherwise than it was typed.
    fn note(&self, found: &Found, outputs: &Outputs, with: &With) -> String {
        if outputs.files.is_empty() {
            return "no puzzle could be read, so nothing was written\n".to_owned();
        }
        let said = left_out(&found.pack)
            .into_iter()
            .chain(outputs.alterations.iter().map(alteration))
            .map(|it| print::folded(&it, with.stderr));
        let parts = match outputs.is_published {
            true => "report.html, booklet.pdf, site/index.html, cue/ and stage/",
            false => "report.html and no booklet or site, for want of a puzzle to publish",
        };
        let wrote = format!("wrote {} in {}/", parts, print::visible(&self.out.to_string_lossy()));
        said.chain([print::folded(&wrote, with.stderr)]).collect()
    }
}

/// The titles of the puzzles with a place that have changed since their setters approved them.
fn changed_since(pack: &StudiedPack) -> Vec<String> {
    let is_changed = |it: &&study::Study| matches!(Approved::of(it.entry()), Approved::Outdated(_));
    let changed = pack.studies().iter().filter(is_changed);
    changed.map(|it| format!("\"{}\"", print::visible(&it.entry().title))).collect()
}

/// A sentence for each reason why puzzles are in neither booklet nor site.
fn left_out(pack: &StudiedPack) -> Vec<String> {
    let sentence = |why: LeftOut| {
        let meant = pack.left_out().into_iter().filter(|it| it.1 == why).map(|it| it.0);
        let meant = pack.all().filter(|it| meant.clone().any(|id| id == it.entry().id));
        let titles: Vec<String> =
            meant.map(|it| format!("\"{}\"", print::visible(&it.entry().title))).collect();
        let (is, has) = if titles.len() == 1 { ("is", "has") } else { ("are", "have") };
        let reason = match why {
            LeftOut::Sealed => format!("{is} sealed (--unseal publishes sealed puzzles too)"),
            LeftOut::NotProved => format!("{is} not proved to have exactly one solution"),
            LeftOut::NotExplained => format!("{has} no walkthrough that can be read out"),
            LeftOut::NoPlace => format!("{has} no place in the pack"),
        };
        (!titles.is_empty())
            .then(|| format!("left out of booklet and site: {}, which {reason}", tell::list(&titles)))
    };
    [LeftOut::Sealed, LeftOut::NotProved, LeftOut::NotExplained, LeftOut::NoPlace]
        .into_iter()
        .filter_map(sentence)
        .collect()
}

/// What was printed otherwise than it was typed.
fn alteration(it: &Alteration) -> String {
    match it {
        Alteration::Replaced { text, characters } => {
            let characters: Vec<String> =
                characters.iter().map(|it| format!("U+{:04X}", u32::from(*it))).collect();
            format!(
                "no font of the booklet has {}, so a replacement sign stands for it in \"{}\"",
                tell::list(&characters),
                print::visible(text)
            )
        }
        Alteration::Cut { text, kept } => {
            let start: String = text.chars().take(40).collect();
            format!("the booklet prints the first {kept} characters of \"{}…\"", print::visible(&start))
        }
    }
}

fn document(found: &Found, outputs: Outputs, written: Vec<String>) -> json::Pressed {
    let left_out = outputs.left_out.iter().map(|(id, why)| json::LeftOut {
        id: id.to_string(),
        why: match why {
            LeftOut::Sealed => "sealed",
            LeftOut::NotProved => "not-proved",
            LeftOut::NotExplained => "not-explained",
            LeftOut::NoPlace => "no-place",
        },
    });
    json::Pressed {
        table: table::document(found),
        left_out: left_out.collect(),
        altered: outputs.alterations.iter().map(alteration).collect(),
        written,
    }
}
