//! `galley twins`: which puzzles are the same seen from another side, or have the same solution, in one pack
//! or across several.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use rayon::prelude::*;
use study::{Compared, Study, TwinKind, twins};

use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::studies::Found;
use crate::twins::{name, packs_at, real};
use crate::{print, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Twins {
    /// The packs and puzzle files.
    pub(crate) paths: Vec<PathBuf>,
    /// Whether sealed puzzles count as open.
    pub(crate) unseal: bool,
}

impl Twins {
    /// Compares every puzzle with every other.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = packs_at(&self.paths, self.unseal, with)?;
        let mut seen = BTreeSet::new();
        let puzzles: Vec<(&Study, String)> = found
            .iter()
            .flat_map(|it| it.pack.all().map(move |study| (study, it.path_of(study))))
            // A file may be named beside its pack.
            .filter(|it| seen.insert(real(Path::new(&it.1))))
            .collect();
        let compared: Vec<Compared> = puzzles
            .into_par_iter()
            .map(|(study, file)| with.stop.interrupting(|| Compared::of(study, file)))
            .collect::<Result<_, _>>()?;
        let groups = twins(&compared);
        Ok(Outcome {
            problems: found.iter().map(|it| it.problems(with)).collect(),
            result: match with.is_json {
                true => json::text(&document(&groups, &compared, &found)),
                false => in_words(&groups, &compared, with.stdout),
            },
            note: String::new(),
            has_errors: found.iter().any(Found::has_errors),
        })
    }
}

fn in_words(groups: &[study::Twins], compared: &[Compared], screen: Screen) -> String {
    let n_puzzles = words::counted(compared.len(), "puzzle");
    let mut text = String::new();
    for it in groups {
        let what = match it.kind {
            TwinKind::Puzzle => "The same puzzle, seen from another side or copied:",
            TwinKind::Solution => "The same solution, seen from another side or copied, with another page:",
        };
        text.push_str(&print::folded(what, screen));
        for it in &it.members {
            text.push_str(&format!("  {}\n", name(it)));
        }
        text.push('\n');
    }
    let not_compared: Vec<String> = compared.iter().filter(|it| it.page.is_none()).map(name).collect();
    if !not_compared.is_empty() {
        let text_of = format!("Not compared within the work allowed: {}.", tell::list(&not_compared));
        text.push_str(&print::folded(&text_of, screen));
    }
    let sealed = compared.iter().filter(|it| it.study.is_sealed()).count();
    let kept_back = match sealed {
        0 => String::new(),
        n => format!("; the solutions of {} were not compared", words::counted(n, "sealed puzzle")),
    };
    let summary = match groups.len() {
        0 => format!("no twins among {n_puzzles}{kept_back}"),
        n => format!("{} of twins among {n_puzzles}{kept_back}", words::counted(n, "group")),
    };
    text + &summary + "\n"
}

fn document(groups: &[study::Twins], compared: &[Compared], found: &[Found]) -> json::Twins {
    let twin = |it: &Compared| json::Twin {
        id: it.study.entry().id.to_string(),
        file: it.file.clone(),
        title: it.study.entry().title.clone(),
    };
    json::Twins {
        format: json::FORMAT,
        compared: compared.len(),
        groups: groups
            .iter()
            .map(|it| json::TwinGroup {
                same: match it.kind {
                    TwinKind::Puzzle => "puzzle",
                    TwinKind::Solution => "solution",
                },
                puzzles: it.members.iter().map(|it| twin(it)).collect(),
            })
            .collect(),
        undecided: compared.iter().filter(|it| it.page.is_none()).map(twin).collect(),
        problems: found.iter().flat_map(Found::all_problems).collect(),
    }
}
