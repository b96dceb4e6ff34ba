//! `galley mend`: of a puzzle without a solution, what contradicts itself, and every change of one thing
//! printed that leaves a solution.

use prove::{Mend as Change, Solutions};
use study::{Finding, Mending, Repair, Study};

use crate::each::Each;
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::studies::Depth;
use crate::{print, words};

/// So many changes are printed of each kind, unless all are asked for.
const MOST_SHOWN: usize = 15;

/// The command.
#[derive(Debug)]
pub(crate) struct Mend {
    /// What to mend.
    pub(crate) each: Each,
    /// Whether to print every change, however many there are.
    pub(crate) all: bool,
}

impl Mend {
    /// Tells the changes. A sealed puzzle without a solution is refused, which is a trouble of the pack.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.each.find(Depth::Verdict, with)?;
        let found = found.refusing_sealed("what would mend it", |it| it.finding() == Finding::None);
        Ok(found.outcome(with, |it| self.in_words(it, with.stdout), document))
    }

    /// None while the puzzle is sealed and there would be something to tell.
    fn in_words(&self, study: &Study, screen: Screen) -> Option<String> {
        let head = words::head(study);
        let Some(mending) = mending(study) else {
            let verdict = words::verdict(study.finding());
            return match study.finding() {
                Finding::None => None,
                _ => Some(head + &print::folded(&format!("There is nothing to mend: {verdict}."), screen)),
            };
        };
        let conflict = match &mending.conflict {
            Some(it) => tell::conflict(it),
            None => "The part that contradicts itself was not found within the work allowed.".to_owned(),
        };
        let summary = tell::mends_summary(&mending.mends);
        Some(format!(
            "{head}{}\n{}{}",
            print::folded(&conflict, screen),
            print::folded(&summary, screen),
            self.tables(&mending.mends.mends, screen)
        ))
    }

    /// Changes that leave one solution, then the others: in each group the likeliest slips first.
    fn tables(&self, mends: &[Change], screen: Screen) -> String {
        let n_one = mends.iter().take_while(|it| it.solutions == Some(Solutions::Exactly(1))).count();
        let (one, others) = mends.split_at(n_one);
        [one, others].map(|it| self.table(it, screen)).concat()
    }

    fn table(&self, mends: &[Change], screen: Screen) -> String {
        if mends.is_empty() {
            return String::new();
        }
        let n_shown = if self.all { mends.len() } else { mends.len().min(MOST_SHOWN) };
        let mut table = print::table(&["change", "solutions", "if so, what happened"], screen);
        for it in &mends[..n_shown] {
            let slips: Vec<&str> = it.slips.iter().map(|it| tell::slip(*it)).collect();
            table.add_row([tell::change(it.change), tell::n_solutions(it.solutions), slips.join("; ")]);
        }
        let more = match mends.len() - n_shown {
            0 => String::new(),
            more => format!("and {more} more such changes, which --all shows\n"),
        };
        format!("\n{}{more}", print::drawn(&table))
    }
}

fn mending(study: &Study) -> Option<&Mending> {
    match study.opened()?.repair? {
        Repair::Mending(it) => Some(it),
        Repair::Settlings(_) => None,
    }
}

fn document(study: Option<&Study>) -> json::Mending {
    let mending = study.and_then(mending);
    json::Mending {
        verdict: json::verdict_on(study),
        conflict: mending.and_then(|it| it.conflict.as_ref()).map(json::Conflict::of),
        changes: mending.map(|it| it.mends.n_changes),
        mends: mending.map(|it| it.mends.mends.iter().map(json::Mend::of).collect()).unwrap_or_default(),
    }
}
