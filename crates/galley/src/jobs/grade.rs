//! `galley grade`: how long a puzzle takes three kinds of solver, and why.

use grade::{Estimate, Solver};
use reason::Known;
use study::{Account, Knowing, MinutesRange, Study};

use super::explain;
use crate::each::Each;
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::screen::Screen;
use crate::studies::Depth;
use crate::{print, words};

/// The command.
#[derive(Debug)]
pub(crate) struct Grade {
    /// What to grade.
    pub(crate) each: Each,
    /// The techniques that the solvers know; none for all of them, and small arguments.
    pub(crate) knows: Option<Known>,
}

/// The walkthrough that is graded.
enum Graded<'a> {
    Own(&'a Account),
    Knowing(Box<Knowing>),
}

impl Grade {
    /// Tells the minutes. Of a sealed puzzle only the range is told, which is no trouble.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let found = self.each.find(Depth::Walkthrough, with)?;
        Ok(found.outcome(with, |it| self.in_words(it, with.stdout), |it| self.document(it)))
    }

    fn graded<'a>(&self, study: &'a Study) -> Option<Graded<'a>> {
        match self.knows {
            None => Some(Graded::Own(study.opened()?.account?)),
            Some(known) => Some(Graded::Knowing(Box::new(study.knowing(known)?))),
        }
    }

    /// None for a puzzle without a walkthrough.
    fn in_words(&self, study: &Study, screen: Screen) -> Option<String> {
        let head = words::head(study);
        if study.is_sealed() {
            let range = study.minutes()?;
            let (minutes, basis) = (words::minutes(range), tell::basis(range.n_solves));
            let said =
                format!("Sealed: {minutes} minutes for a regular ({basis}), and nothing more is told.");
            return Some(head + &print::folded(&said, screen));
        }
        let graded = self.graded(study)?;
        let mut text = head;
        if let Graded::Knowing(it) = &graded {
            text.push_str(&print::folded(&words::knowing(it), screen));
        }
        let Some(account) = graded.account() else { return Some(text) };
        let mut table = print::table(&["solver", "minutes, in the middle", "eight solves in ten"], screen);
        for (solver, times) in account.estimate.solvers() {
            let minutes = (times.median / 60.0).round().max(1.0).to_string();
            let range = words::minutes(MinutesRange::of(times, account.estimate.n_solves));
            table.add_row([solver.name.to_owned(), minutes, range]);
        }
        text.push_str(&print::drawn(&table));
        let why = tell::why_minutes(account.explained.walkthrough().trail(), &account.estimate);
        for it in why.into_iter().chain(quarters(account)) {
            text.push_str(&print::folded(&it, screen));
        }
        text.push_str(&print::folded(&basis(&account.estimate), screen));
        Some(text)
    }

    fn document(&self, study: Option<&Study>) -> json::Graded {
        let graded = study.and_then(|it| self.graded(it));
        let account = graded.as_ref().and_then(Graded::account);
        let mut document = json::Graded::default();
        document.knowing = graded.as_ref().and_then(Graded::knowing).map(explain::knowing_document);
        document.minutes = match account {
            Some(it) => Some(it.minutes().into()),
            None if graded.is_none() => study.and_then(Study::minutes).map(json::Minutes::from),
            None => None,
        };
        if let Some(account) = account {
            document.fill(account);
        }
        document
    }
}

impl Graded<'_> {
    fn account(&self) -> Option<&Account> {
        match self {
            Graded::Own(it) => Some(it),
            Graded::Knowing(it) => match &**it {
                Knowing::Enough(it) | Knowing::OneMore(_, it) => Some(it),
                Knowing::More(_) => None,
            },
        }
    }

    fn knowing(&self) -> Option<&Knowing> {
        match self {
            Graded::Own(_) => None,
            Graded::Knowing(it) => Some(it),
        }
    }
}

/// On how many solves the minutes rest, and whose.
fn basis(estimate: &Estimate) -> String {
    let note = words::minutes_note(estimate.n_solves);
    if estimate.n_solves == 0 {
        return note;
    }
    let by = Solver::ALL.iter().zip(estimate.n_solves_by).map(|(solver, n)| {
        let is = if n == 1 { "is" } else { "are" };
        format!("{n} {is} by {}", words::kinds(*solver))
    });
    format!("{note} Of these solves {}.", tell::list(&by.collect::<Vec<_>>()))
}

/// When a quarter, half and three quarters of the open cells are filled; none if there is hardly anything to
/// fill.
fn quarters(account: &Account) -> Option<String> {
    let curve = account.estimate.curve();
    let all = curve.last()?.1;
    let after = |quarter: usize| {
        let point = curve.iter().find(|it| it.1 * 4 >= all * quarter)?;
        Some(words::counted((point.0 / 60.0).round().max(1.0) as usize, "minute"))
    };
    Some(format!(
        "A quarter of the open cells is filled after {}, half after {}, three quarters after {}.",
        after(1)?,
        after(2)?,
        after(3)?
    ))
}
