//! `galley make --vary`: the same puzzle a little easier or harder, by one given or clue; in a pack, for somebody who knows
//! what the pack teaches before it.

use std::path::PathBuf;

use make::{Variant, Variation, Varied, vary};
use pack::Entry;
use packfile::write_puzzle;
use reason::{Known, Settings};
use study::Study;

use crate::args::RawMake;
use crate::asked::{Asked, solved};
use crate::job::With;
use crate::load::pack_with;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::studies::{Found, Target};
use crate::{json, print, progress, trouble, words};

/// How many variants of each kind are told; a document holds all.
const MOST_TOLD: usize = 8;

/// The command.
#[derive(Debug)]
pub(crate) struct Vary {
    target: Target,
    known: Option<Known>,
}

impl Vary {
    /// What was asked for, if that is what was asked for.
    pub(crate) fn asked(raw: &RawMake) -> Option<Vary> {
        let path = PathBuf::from(raw.vary.as_ref()?);
        let ids = |it: &Vec<String>| Known::only(it.iter().filter_map(|it| words::technique_named(it)));
        let hardest = raw.hardest.as_deref().and_then(words::technique_named);
        let known = raw.knows.as_ref().map(ids).or(hardest.map(Known::up_to));
        Some(Vary { target: Target { path, unseal: false }, known })
    }

    /// Tries every change of one thing printed.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.found(with)?;
        let sign = progress::waiting("trying every given and clue", with);
        let stop = || with.stop.is_asked();
        let answer = found.studies().next().and_then(|study| {
            let solved = solved(study)?;
            let settings = match self.known {
                None => study.opened()?.account?.settings(),
                Some(known) => Settings { known, ..Settings::TECHNIQUES_ALONE },
            };
            Some((study, vary(solved.puzzle, solved.solution, settings, study.calibration(), &stop)))
        });
        sign.finish_and_clear();
        with.stop.check()?;
        let answer = match answer {
            Some((_, None)) => {
                return Err(Failure::new(
                    "what is known is not enough to finish the puzzle",
                    "name more techniques, or leave out --knows and --hardest",
                ));
            }
            Some((study, Some(varied))) => Some((study, varied)),
            None => None,
        };
        Ok(Outcome {
            problems: found.problems(with),
            result: match (&answer, with.is_json) {
                (Some((study, varied)), false) => self.in_words(study, varied, with.stdout),
                (None, false) => String::new(),
                (answer, true) => {
                    json::text(&document(answer.as_ref().map(|it| (it.0, &it.1)), found.all_problems()))
                }
            },
            note: String::new(),
            has_errors: found.has_errors(),
        })
    }

    /// The puzzle as its pack has it, for somebody who knows what the pack teaches before it; else as it stands alone.
    fn found(&self, with: &With) -> Result<Found, Failure> {
        let Some((pack, file)) = pack_with(&self.target.path) else {
            return Asked::read(&self.target, None)?.study(with);
        };
        let target = Target { path: pack, unseal: self.target.unseal };
        let mut found = target.study(with)?;
        found.narrow(&file);
        let sealed: Vec<_> = found
            .studies()
            .filter(|it| it.is_sealed())
            .map(|it| trouble::sealed(it, "the answer", &file))
            .collect();
        found.troubles.extend(sealed);
        Ok(found)
    }

    fn in_words(&self, study: &Study, varied: &Varied, screen: Screen) -> String {
        let knows = match (self.known, study.known()) {
            (Some(_), _) => " who knows those techniques",
            (None, Some(_)) => " who knows what the pack teaches before it",
            (None, None) => "",
        };
        let minutes = format!(
            "It takes a regular{knows} about {:.1} minutes ({}).",
            varied.seconds / 60.0,
            tell::basis(study.minutes().map_or(0, |it| it.n_solves)),
        );
        let mut text = words::head(study) + &print::folded(&minutes, screen);
        for (what, variants) in [("Easier", &varied.easier), ("Harder", &varied.harder)] {
            text.push_str(&format!("\n{what}, the least changed first:\n"));
            if variants.is_empty() {
                text.push_str("no change of one thing does that\n");
                continue;
            }
            let mut table = print::table(&["change", "minutes", "techniques"], screen);
            for it in variants.iter().take(MOST_TOLD) {
                table.add_row([change(it.variation), minutes_of(it), techniques(it)]);
            }
            text.push_str(&print::drawn(&table));
            if variants.len() > MOST_TOLD {
                text.push_str(&format!(
                    "and {} more (all of them with --json)\n",
                    variants.len() - MOST_TOLD
                ));
            }
        }
        let rest = format!(
            "{} hardly a difference. Of what is printed, {} cannot go because there would be several solutions, \
             and {} because there would be no walkthrough for somebody who knows no more.",
            match varied.n_same {
                1 => "1 change makes".to_owned(),
                n => format!("{n} changes make"),
            },
            varied.n_unsound,
            varied.n_unfinished,
        );
        text + "\n" + &print::folded(&rest, screen)
    }
}

fn minutes_of(it: &Variant) -> String {
    format!("{:.1}", it.seconds / 60.0)
}

fn change(variation: Variation) -> String {
    match variation {
        Variation::Without(it) => format!("without {}", tell::to_print(it)),
        Variation::With(it) => format!("with {}", tell::to_print(it)),
    }
}

fn techniques(it: &Variant) -> String {
    match (&it.new[..], &it.gone[..]) {
        ([], []) => "the same".to_owned(),
        (new, []) => format!("new: {}", words::techniques(new)),
        ([], gone) => format!("gone: {}", words::techniques(gone)),
        (new, gone) => format!("new: {}; gone: {}", words::techniques(new), words::techniques(gone)),
    }
}

fn document(answer: Option<(&Study, &Varied)>, problems: Vec<json::Problem>) -> json::Varying {
    let variants = |study: &Study, all: &[Variant]| {
        let variant = |it: &Variant| {
            let (change, printed) = match it.variation {
                Variation::Without(it) => ("without", it),
                Variation::With(it) => ("with", it),
            };
            json::Variant {
                change,
                printed: json::Printed::of(printed),
                seconds: it.seconds.round() as u64,
                steps: it.explained.walkthrough().trail().n_steps(),
                new: words::ids(&it.new),
                gone: words::ids(&it.gone),
                text: write_puzzle(&Entry { puzzle: it.puzzle.clone(), ..study.entry().clone() }),
            }
        };
        all.iter().map(variant).collect()
    };
    json::Varying {
        format: json::FORMAT,
        seconds: answer.map(|it| it.1.seconds.round() as u64),
        solves: answer.and_then(|it| it.0.minutes()).map(|it| it.n_solves),
        easier: answer.map(|(study, it)| variants(study, &it.easier)).unwrap_or_default(),
        harder: answer.map(|(study, it)| variants(study, &it.harder)).unwrap_or_default(),
        same: answer.map(|it| it.1.n_same),
        several_solutions: answer.map(|it| it.1.n_unsound),
        no_walkthrough: answer.map(|it| it.1.n_unfinished),
        problems,
    }
}
