//! `galley make --gap`: the brief is what a pack lacks.

use std::path::PathBuf;

use grade::Calibration;
use make::Tally;
use reason::{Known, by_ease, technique};
use study::{Gap, Lacks};
use trail::TechniqueId;

use super::files::Place;
use super::{Finished, Make, printed, told};
use crate::args::RawMake;
use crate::job::With;
use crate::outcome::{Failure, Outcome};
use crate::studies::Target;
use crate::{json, print, words};

/// The command: a puzzle for each of the easiest techniques that the pack never teaches, or teaches and never practises,
/// for a solver who knows what the pack teaches. What builds on something that the pack does not teach has to wait.
#[derive(Debug)]
pub(crate) struct Gaps {
    pack: Target,
    /// How many techniques.
    count: usize,
    /// Everything but what to teach.
    brief: Make,
}

/// What came of one technique.
struct Filled {
    lacks: Lacks,
    make: Make,
    finished: Vec<Finished>,
    tally: Tally,
}

impl Gaps {
    /// What was asked for, if that is what was asked for.
    pub(crate) fn asked(raw: RawMake) -> Result<Result<Gaps, RawMake>, Failure> {
        let Some(path) = raw.gap.clone() else { return Ok(Err(raw)) };
        let count = usize::from(raw.count.unwrap_or(1));
        let mut brief = Make::try_from(raw)?;
        // One for each technique.
        brief.wanted.count = 1;
        brief.avoid.push(PathBuf::clone(&path));
        Ok(Ok(Gaps { pack: Target { path, unseal: false }, count, brief }))
    }

    /// Looks what the pack lacks, and makes the puzzles.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.pack.study(with)?;
        let (chosen, waiting) = self.chosen(found.pack.gaps());
        let known = found.pack.taught();
        let calibration = found.pack.calibration();
        let makes: Vec<(Lacks, Make)> =
            chosen.iter().map(|it| (it.lacks, self.make(it.technique, known, calibration.clone()))).collect();
        makes.iter().try_for_each(|it| it.1.check_is_free())?;
        let (mut others, mut note) = self.brief.others(with)?;
        let mut filled = Vec::new();
        for (lacks, make) in makes {
            let (finished, tally) = make.set(&others, with)?;
            finished.iter().for_each(|it| others.add(&it.made.puzzle, Some(&it.made.solution)));
            filled.push(Filled { lacks, make, finished, tally });
        }
        with.stop.check()?;
        let files = filled.iter().flat_map(|it| &it.finished);
        let files: Vec<_> = files.filter_map(|it| Some((it.file.clone()?, it.text.clone()))).collect();
        if !files.is_empty() {
            self.brief.place.write(&files)?;
        }
        let mut problems = String::new();
        for it in &filled {
            let name = it.make.brief.teaches[0];
            match (it.finished.is_empty(), it.lacks) {
                (true, _) => {
                    problems.push_str(&format!("error: for `{name}`, {}\n", told::none_found(&it.tally)))
                }
                (false, lacks) => {
                    note.push_str(&format!("`{name}`, which the pack {}:\n", lacking(lacks)));
                    note.push_str(&told::in_words(&it.make.brief, &it.finished, &it.tally, with.stderr));
                }
            }
        }
        if !problems.is_empty() {
            problems.push_str(&format!("  help: {}\n", told::NEXT_MOVE_FOR_GAP));
        }
        if filled.is_empty() {
            note.push_str("the pack lacks no technique that such a puzzle could teach or practise\n");
        }
        note.push_str(&print::folded(&in_wait(&waiting), with.stderr));
        let has_errors = !problems.is_empty();
        let texts = filled.iter().filter(|it| !it.finished.is_empty()).map(|it| printed(&it.finished));
        Ok(Outcome {
            problems: if with.is_json { String::new() } else { problems },
            result: match (with.is_json, &self.brief.place) {
                (true, _) => json::text(&document(&filled, &waiting)),
                (false, Place::Nowhere) => texts.collect::<Vec<_>>().join("\n"),
                (false, _) => String::new(),
            },
            note: if with.is_json { String::new() } else { note },
            has_errors,
        })
    }

    /// The easiest that such a puzzle could teach or practise, as many as are wanted; and those no harder than they are
    /// that have to wait.
    fn chosen(&self, gaps: Vec<Gap>) -> (Vec<Gap>, Vec<Gap>) {
        let has_clues = self.brief.brief.kind == make::Kind::Sandwich;
        let could = |it: &Gap| technique(it.technique).is_some_and(|it| has_clues || it.rule().is_none());
        let (mut chosen, mut waiting) = (Vec::new(), Vec::new());
        for gap in gaps.into_iter().filter(could) {
            if chosen.len() == self.count {
                break;
            }
            if gap.not_shown.is_empty() { chosen.push(gap) } else { waiting.push(gap) }
        }
        (chosen, waiting)
    }

    fn make(&self, teaches: TechniqueId, known: Known, calibration: Calibration) -> Make {
        let mut make = Make { calibration, ..self.brief.clone() };
        make.brief.teaches = vec![teaches];
        make.brief.known = known.with(teaches);
        make
    }
}

/// Completes "the pack".
fn lacking(lacks: Lacks) -> &'static str {
    match lacks {
        Lacks::Teaching => "never teaches",
        Lacks::Practice => "teaches and never practises",
    }
}

/// What has to wait, and for what; nothing if nothing has.
fn in_wait(waiting: &[Gap]) -> String {
    if waiting.is_empty() {
        return String::new();
    }
    let one = |it: &Gap| {
        let below = words::techniques(&by_ease(it.not_shown.iter().copied()));
        format!("{} on {below}", tell::technique_name(it.technique))
    };
    let all: Vec<String> = waiting.iter().map(one).collect();
    format!("Passed over, because it builds on what the pack does not teach: {}.", all.join("; "))
}

fn document(filled: &[Filled], waiting: &[Gap]) -> json::Gaps {
    let gap = |it: &Filled| json::Gap {
        technique: it.make.brief.teaches[0].name(),
        lacks: match it.lacks {
            Lacks::Teaching => "teaching",
            Lacks::Practice => "practice",
        },
        made: told::document(&it.make, &it.finished, &it.tally),
    };
    let passed_over = |it: &Gap| json::PassedOver {
        technique: it.technique.name(),
        builds_on: words::ids(&by_ease(it.not_shown.iter().copied())),
    };
    json::Gaps {
        format: json::FORMAT,
        gaps: filled.iter().map(gap).collect(),
        passed_over: waiting.iter().map(passed_over).collect(),
    }
}
