//! Spent clue: the digits between the crusts are known, so the cells between hold only those, and
//! the cells outside only the others.
//!
//! ```text
//! 31 | 4 is the outside digit: no cell between the crusts is 4
//! ```

use grid::DigitSet;
use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, FactId, Proposal, Side, TechniqueId};

use super::line::Line;
use crate::{Technique, View};

pub(crate) struct SpentClue;

impl Technique for SpentClue {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("spent-clue") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        21
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("filling-sets")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let lines = spent_lines(view).filter(|it| it.claims(view).iter().any(is_wanted));
        lines.filter_map(|it| self.step(view, &it)).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        let claims = spent_lines(view).map(|it| it.claims(view));
        Some(claims.filter(|it| !it.is_empty()).map(<[Claim]>::to_vec).collect())
    }
}

impl SpentClue {
    fn step(&self, view: &View, spent: &Spent) -> Option<Proposal> {
        let Spent { line, fact, filling } = spent;
        let base = Cites::default().fact(*fact);
        let conclusions = line.lost_on_sides(view.filling_digits() - *filling, *filling, &base);
        let [between, outside] = [Side::Between, Side::Outside].map(|side| line.sure_cells(side));
        (!conclusions.is_empty()).then_some(Proposal {
            technique: self.id(),
            argument: Argument::SpentSplits { line: line.line, filling: *filling, between, outside },
            conclusions,
        })
    }
}

/// A line whose clue is spent, with the digits between its crusts and the fact that says so.
struct Spent<'v, 'a> {
    line: Line<'v, 'a>,
    fact: FactId,
    filling: DigitSet,
}

impl<'v> Spent<'v, '_> {
    /// What is new by it.
    fn claims(&self, view: &View) -> &'v [Claim] {
        let by_spent = &self.line.on_sides().by_spent;
        by_spent.get_or_init(|| self.line.claims_on_sides(view.filling_digits() - self.filling, self.filling))
    }
}

fn spent_lines<'v, 'a>(view: &'v View<'a>) -> impl Iterator<Item = Spent<'v, 'a>> {
    let spent = view.lines().iter().filter_map(|it| Some((*it, view.spent(*it)?)));
    spent.map(|(line, (fact, filling))| Spent { line: Line::new(view, line), fact, filling })
}
