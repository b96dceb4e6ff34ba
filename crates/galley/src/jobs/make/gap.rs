//! `galley make --gap`: the brief is what a pack lacks.

use std::path::PathBuf;

use make::Tally;
use pack::Coverage;
use reason::{Known, technique};
use trail::TechniqueId;

use super::files::Place;
use super::{Finished, Make, printed, told};
use crate::args::RawMake;
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::studies::Target;

/// The command: a puzzle for each of the easiest techniques that no puzzle of the pack uses, for a solver who knows
/// what the pack teaches.
#[derive(Debug)]
pub(crate) struct Gap {
    pack: Target,
    /// How many techniques.
    count: usize,
    /// Everything but what to teach.
    brief: Make,
}

/// What came of one technique.
struct Filled {
    make: Make,
    finished: Vec<Finished>,
    tally: Tally,
}

impl Gap {
    /// What was asked for, if that is what was asked for.
    pub(crate) fn asked(raw: RawMake) -> Result<Result<Gap, RawMake>, Failure> {
        let Some(path) = raw.gap.clone() else { return Ok(Err(raw)) };
        let count = usize::from(raw.count.unwrap_or(1));
        let mut brief = Make::try_from(raw)?;
        // One for each technique.
        brief.wanted.count = 1;
        brief.avoid.push(PathBuf::clone(&path));
        Ok(Ok(Gap { pack: Target { path, unseal: false }, count, brief }))
    }

    /// Looks what the pack lacks, and makes the puzzles.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.pack.study(with)?;
        let coverage = found.pack.coverage();
        let lacking = self.lacking(&coverage);
        if lacking.is_empty() {
            let help = "a puzzle is set with --teaches, whatever the pack holds";
            return Err(Failure::new("the pack lacks no technique that such a puzzle could teach", help));
        }
        let taught =
            coverage.iter().filter(|it| it.is_known || !it.puzzles.is_empty()).map(|it| it.technique);
        let known = Known::only(taught);
        let makes: Vec<Make> = lacking.into_iter().take(self.count).map(|it| self.make(it, known)).collect();
        makes.iter().try_for_each(Make::check_is_free)?;
        let (mut others, mut note) = self.brief.others(with)?;
        let mut filled = Vec::new();
        for make in makes {
            let (finished, tally) = make.set(&others, with)?;
            finished.iter().for_each(|it| others.add(&it.made.puzzle, Some(&it.made.solution)));
            filled.push(Filled { make, finished, tally });
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
            match it.finished.is_empty() {
                true => problems.push_str(&format!("error: for `{name}`, {}\n", told::none_found(&it.tally))),
                false => note.push_str(&told::in_words(&it.make.brief, &it.finished, &it.tally, with.stderr)),
            }
        }
        let has_errors = !problems.is_empty();
        let texts = filled.iter().filter(|it| !it.finished.is_empty()).map(|it| printed(&it.finished));
        Ok(Outcome {
            problems: if with.is_json { String::new() } else { problems },
            result: match (with.is_json, &self.brief.place) {
                (true, _) => json::text(&self.document(&filled)),
                (false, Place::Nowhere) => texts.collect::<Vec<_>>().join("\n"),
                (false, _) => String::new(),
            },
            note: if with.is_json { String::new() } else { note },
            has_errors,
        })
    }

    /// The techniques that no puzzle uses and such a puzzle could, easiest first.
    fn lacking(&self, coverage: &[Coverage]) -> Vec<TechniqueId> {
        let has_clues = self.brief.brief.kind == make::Kind::Sandwich;
        let lacking =
            coverage.iter().filter(|it| it.puzzles.is_empty() && !it.is_known).map(|it| it.technique);
        lacking.filter(|it| technique(*it).is_some_and(|it| has_clues || it.rule().is_none())).collect()
    }

    fn make(&self, teaches: TechniqueId, known: Known) -> Make {
        let mut make = self.brief.clone();
        make.brief.teaches = vec![teaches];
        make.brief.known = known.with(teaches);
        make
    }

    fn document(&self, filled: &[Filled]) -> json::Gaps {
        let gap = |it: &Filled| json::Gap {
            technique: it.make.brief.teaches[0].name(),
            made: told::document(&it.make, &it.finished, &it.tally),
        };
        json::Gaps { format: json::FORMAT, gaps: filled.iter().map(gap).collect() }
    }
}
