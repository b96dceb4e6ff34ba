//! What a solver who knows some of the techniques can do with a puzzle.

use std::collections::BTreeSet;

use reason::{Known, Settings, TECHNIQUES, Technique, solve};
use trail::TechniqueId;

use crate::puzzle::account;
use crate::{Account, Study};

/// How far a set of known techniques goes.
#[derive(Clone, Debug)]
pub enum Knowing {
    /// They are enough: the walkthrough with those alone.
    Enough(Account),
    /// They are enough with one more, the easiest that does: that one, and the walkthrough with it.
    OneMore(TechniqueId, Account),
    /// It takes more than one more: those that the puzzle's own walkthrough uses and that are not known,
    /// small arguments among them.
    More(BTreeSet<TechniqueId>),
}

impl Study {
    /// What a solver who knows these techniques, and argues by none, can do with the puzzle. None while it
    /// is sealed, and if it has no walkthrough.
    pub fn knowing(&self, known: Known) -> Option<Knowing> {
        let opened = self.opened()?;
        let (own, solution) = opened.account.zip(opened.solution)?;
        let with = |known| Settings { known, ..Settings::TECHNIQUES_ALONE };
        let puzzle = &self.entry().puzzle;
        let account = |known| {
            let account = account(self.entry(), solution, with(known));
            account.map(|it| it.calibrated(&self.calibration))
        };
        if let Ok(account) = account(known) {
            return Some(Knowing::Enough(account));
        }
        // A last resort opens nearly anything; it is no advice where the puzzle can do without.
        let is_advice = |it: &&dyn Technique| !it.is_last_resort() || own.techniques().contains(&it.id());
        let unknown = TECHNIQUES.iter().copied().filter(|it| is_advice(it));
        let unknown = unknown.map(|it| it.id()).filter(|it| !known.has(*it));
        for id in unknown.filter(|it| solve(puzzle, solution, with(known.with(*it))).is_ok()) {
            if let Ok(account) = account(known.with(id)) {
                return Some(Knowing::OneMore(id, account));
            }
        }
        Some(Knowing::More(own.techniques().iter().copied().filter(|it| !known.has(*it)).collect()))
    }
}
