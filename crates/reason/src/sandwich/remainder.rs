//! Last in the sum, last outside: both crusts are known and all cells of one side but one are filled;
//! the last takes what is left of the side's sum.
//!
//! ```text
//! 13 | . . 1 2 . 5 9 . .      13 - 2 - 5 = 6
//! 26 | 4 9 . . . . . 1 .      35 - 26 - 4 = 5 is left for the last outside cell
//! ```

use grid::DigitSet;
use rulebook::{Claim, RuleId, filling_total};
use trail::{Argument, Cites, Proposal, Side, TechniqueId};

use super::line::Line;
use crate::view::{CluedLine, is_on};
use crate::{Part, Technique, View};

pub(crate) static LAST_OUTSIDE: Remainder = Remainder {
    side: Side::Outside,
    name: "last-outside",
    weight: 16,
    needs: &[TechniqueId::new("last-empty-cell")],
};
pub(crate) static LAST_IN_SUM: Remainder = Remainder {
    side: Side::Between,
    name: "last-in-sum",
    weight: 17,
    needs: &[TechniqueId::new("last-empty-cell")],
};

pub(crate) struct Remainder {
    side: Side,
    name: &'static str,
    weight: u32,
    needs: &'static [TechniqueId],
}

impl Technique for Remainder {
    fn id(&self) -> TechniqueId {
        TechniqueId::new(self.name)
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        self.weight
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        self.needs
    }

    fn looks_at(&self) -> &'static [Part] {
        &[Part::Digits, Part::Kinds, Part::Lines]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        view.clued_lines().iter().filter_map(|it| self.in_line(view, it)).collect()
    }
}

impl Remainder {
    fn in_line(&self, view: &View, clued: &CluedLine) -> Option<Proposal> {
        let size = view.size();
        let CluedLine { line: house, clue, .. } = *clued;
        let line = Line::new(view, house);
        let &[pair] = line.crusts.pairs() else { return None };
        let cells = line.cells.iter().copied().enumerate();
        let on_side = || cells.clone().filter(|it| is_on(self.side, pair, it.0)).map(|it| it.1);
        let mut open = on_side().filter(|it| view.digit(*it).is_none());
        let (Some(cell), None) = (open.next(), open.next()) else { return None };
        let placed: DigitSet = on_side().filter_map(|it| view.digit(it)).collect();
        let sum = match self.side {
            Side::Between => clued.sum,
            Side::Outside => filling_total(size) - clued.sum,
        };
        let digit = size.digit(u8::try_from(sum.checked_sub(placed.sum())?).ok()?)?;
        let filled = on_side().filter_map(|it| view.fact(Claim::Is(it, view.digit(it)?)));
        let mut cites = filled.fold(Cites::default().clue(clue), Cites::fact);
        let shown = line.why_no_pair(|it| it != pair, &mut cites);
        (shown && view.candidates(cell).contains(digit)).then(|| Proposal {
            technique: self.id(),
            argument: Argument::Remainder { clue, line: house, side: self.side, sum, placed, cell, digit },
            conclusions: vec![(Claim::Is(cell, digit), cites)],
        })
    }
}
