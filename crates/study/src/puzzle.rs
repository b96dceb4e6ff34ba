//! One puzzle: is it sound, how does a person solve it, how long does that take?

use std::collections::BTreeSet;

use ::pack::{Entry, PackInfo, Placed, State, Studied};
use grade::{Calibration, Times};
use grid::{Digit, Grid};
use prove::{Limit, Many, Verdict};
use reason::{Known, Settings, Stopped, View};

use crate::learning::account_for;
use crate::{Account, Mending, Opened, Repair, Settlings};

/// Nodes a proof may take: far more than any puzzle a person could solve.
const PROOF: Limit = Limit(20_000_000);

/// What a study may say of a puzzle even while it is sealed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Finding {
    /// Exactly one solution.
    One,
    /// No solution.
    None,
    /// More than one solution.
    Many,
    /// The proof was given up: the limit was reached.
    Undecided,
}

/// Expected minutes as a range of round numbers: eight solves in ten fall into it, as far as the model holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct MinutesRange {
    /// At least about so many.
    pub from: u32,
    /// At most about so many.
    pub to: u32,
    /// On how many logged solves they are calibrated; with none they are an estimate.
    pub n_solves: usize,
}

/// One puzzle with everything found out about it.
#[derive(Clone, Debug)]
pub struct Study {
    entry: Entry,
    verdict: Verdict,
    repair: Option<Repair>,
    account: Option<Result<Account, Stopped>>,
    /// What a solver is taken to know before the walkthrough; none if it is for nobody in particular.
    known: Option<Known>,
    /// What corrects the minutes of its walkthroughs.
    pub(crate) calibration: Calibration,
    unsealed: bool,
    pub(crate) placed: Option<Placed>,
}

/// Proves the puzzle and, if it has exactly one solution, explains it, replays the explanation and
/// grades it; if it has none or several, looks for what would repair it. `unseal` opens a sealed puzzle.
pub fn study(entry: Entry, unseal: bool) -> Study {
    study_with(entry, unseal, Settings::THOROUGH)
}

/// The same, explained with other settings: with fewer techniques, for instance.
pub fn study_with(entry: Entry, unseal: bool, settings: Settings) -> Study {
    let proved = proved(entry, unseal);
    let account = match &proved.verdict {
        Verdict::One(solution) => Some(account(&proved.entry, solution, settings)),
        _ => None,
    };
    Study { account, ..proved }
}

/// The same without a walkthrough, for questions that take none: such a study is never publishable.
pub fn proved(entry: Entry, unseal: bool) -> Study {
    let verdict = prove::verdict(&entry.puzzle, PROOF);
    let mut study = Study {
        entry,
        verdict,
        repair: None,
        account: None,
        known: None,
        calibration: Calibration::default(),
        unsealed: unseal,
        placed: None,
    };
    if !study.is_sealed() {
        study.repair = match &study.verdict {
            Verdict::None => Some(Repair::Mending(Mending::of(&study.entry.puzzle))),
            Verdict::Many(many) => Some(Repair::Settlings(Settlings::of(&study.entry.puzzle, many))),
            Verdict::One(_) | Verdict::Undecided => None,
        };
    }
    study
}

/// The walkthrough of a puzzle, and how long it takes.
pub(crate) fn account(entry: &Entry, solution: &Grid, settings: Settings) -> Result<Account, Stopped> {
    let settings = Settings { features: entry.features, ..settings };
    let explained = reason::explain_within(&entry.puzzle, solution, settings)?;
    let surveys = reason::survey(View::new(&entry.puzzle), explained.told.walkthrough().trail());
    Ok(Account::new(explained, surveys, settings))
}

impl Study {
    /// The same with the walkthrough for somebody who knows these techniques: it uses only those where they are
    /// enough, else as few others as will do.
    #[must_use]
    pub fn for_solver(self, known: Known) -> Study {
        let account = match &self.verdict {
            Verdict::One(solution) => Some(account_for(&self.entry, solution, known)),
            _ => None,
        };
        let account = account.map(|it| it.map(|it| it.calibrated(&self.calibration)));
        Study { account, known: Some(known), ..self }
    }

    /// The same with minutes that are corrected by what logged solves have taught, here and wherever it is walked
    /// through anew.
    #[must_use]
    pub fn calibrated(self, calibration: &Calibration) -> Study {
        let account = self.account.map(|it| it.map(|it| it.calibrated(calibration)));
        Study { account, calibration: calibration.clone(), ..self }
    }

    /// What a solver is taken to know before the walkthrough; none if it is for nobody in particular.
    pub fn known(&self) -> Option<Known> {
        self.known
    }

    /// What corrects its minutes, here and wherever it is walked through anew.
    pub fn calibration(&self) -> &Calibration {
        &self.calibration
    }

    /// The puzzle as its file has it.
    pub fn entry(&self) -> &Entry {
        &self.entry
    }

    /// Whether it is sound.
    pub fn finding(&self) -> Finding {
        match self.verdict {
            Verdict::One(_) => Finding::One,
            Verdict::None => Finding::None,
            Verdict::Many(_) => Finding::Many,
            Verdict::Undecided => Finding::Undecided,
        }
    }

    /// Two digits that nothing on the page tells apart, if that is why there are several solutions.
    pub fn exchange(&self) -> Option<(Digit, Digit)> {
        match &self.verdict {
            Verdict::Many(many) => many.exchange,
            _ => None,
        }
    }

    /// Whether the puzzle has exactly one solution and a walkthrough that replays: only then may it be
    /// published.
    pub fn is_publishable(&self) -> bool {
        matches!(self.account, Some(Ok(_)))
    }

    /// Whether a walkthrough was looked for in vain.
    pub fn lacks_walkthrough(&self) -> bool {
        matches!(self.account, Some(Err(_)))
    }

    /// Whether the seal keeps back what would spoil the puzzle.
    pub fn is_sealed(&self) -> bool {
        self.entry.sealed && !self.unsealed
    }

    /// Expected minutes, if there is a walkthrough.
    pub fn minutes(&self) -> Option<MinutesRange> {
        let Some(Ok(account)) = &self.account else { return None };
        Some(account.minutes())
    }

    /// What would spoil the puzzle; none while it is sealed.
    pub fn opened(&self) -> Option<Opened<'_>> {
        if self.is_sealed() {
            return None;
        }
        let (solution, many) = match &self.verdict {
            Verdict::One(solution) => (Some(solution), None),
            Verdict::Many(many) => (None, Some::<&Many>(many)),
            Verdict::None | Verdict::Undecided => (None, None),
        };
        Some(Opened {
            solution,
            many,
            repair: self.repair.as_ref(),
            account: self.account.as_ref().and_then(|it| it.as_ref().ok()),
            stopped: self.account.as_ref().and_then(|it| it.as_ref().err()),
            placed: self.placed.as_ref(),
        })
    }

    /// What the order of a pack weighs; none if there is no walkthrough. Sealed or not: the order
    /// itself spoils nothing.
    pub(crate) fn for_order(&self, info: &PackInfo) -> Option<Studied> {
        let Some(Ok(account)) = &self.account else { return None };
        Some(Studied {
            seconds: account.estimate.seconds().round() as u64,
            techniques: account.techniques().clone(),
            break_in: account.break_in(),
            ..self.without_walkthrough(info)
        })
    }

    /// The same, with nothing in it that comes of the walkthrough.
    pub(crate) fn without_walkthrough(&self, info: &PackInfo) -> Studied {
        let own = self.entry.shelf.as_ref();
        Studied {
            id: self.entry.id.clone(),
            setter: self.entry.setter.clone(),
            seconds: 0,
            techniques: BTreeSet::new(),
            break_in: None,
            shelf: own.and_then(|own| info.shelves.iter().position(|it| it.name == *own)),
            is_optional: self.entry.state != State::In,
            said: self.entry.said.clone(),
        }
    }
}

impl MinutesRange {
    /// From the tenth to the ninetieth percentile of what it takes, each rounded outwards: to whole minutes below
    /// ten, to fives below sixty, to tens beyond; calibrated on so many solves.
    pub fn of(times: Times, n_solves: usize) -> MinutesRange {
        let step = |it: f64| match it {
            ..10.0 => 1.0,
            ..60.0 => 5.0,
            _ => 10.0,
        };
        let (least, most) = (times.tenth / 60.0, times.ninetieth / 60.0);
        let from = ((least / step(least)).floor() * step(least)).max(1.0);
        let to = ((most / step(most)).ceil() * step(most)).max(from + 1.0);
        MinutesRange { from: from as u32, to: to as u32, n_solves }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_are_round_and_hold_the_estimate() {
        for (tenth, ninetieth, from, to) in [
            (0.1, 0.3, 1, 2),
            (2.3, 4.0, 2, 4),
            (6.8, 12.0, 6, 15),
            (9.8, 17.3, 9, 20),
            (30.0, 53.0, 30, 55),
            (67.5, 120.0, 60, 120),
        ] {
            let times = Times { tenth: tenth * 60.0, median: f64::NAN, ninetieth: ninetieth * 60.0 };
            let range = MinutesRange::of(times, 0);
            assert_eq!((range.from, range.to), (from, to), "{tenth} to {ninetieth} minutes");
        }
    }
}
