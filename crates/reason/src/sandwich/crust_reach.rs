//! Crust reach: from the places left for the two crusts of a line, cells that no placement uses, and
//! cells between the crusts in every placement, are filling; a cell that every placement uses is a
//! crust.
//!
//! ```text
//! 24 | . . . . f . . . .      four or five cells between: the middle is always one of them
//! ```

use grid::House;
use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use super::line::Line;
use crate::view::{Pair, uses};
use crate::{Part, Technique, View};

pub(crate) struct CrustReach;

impl Technique for CrustReach {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-reach") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        22
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crust-distance")] }
    }

    fn looks_at(&self) -> &'static [Part] {
        &[Part::Kinds, Part::Lines]
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        self.find_wanted(view, &|_| true)
    }

    fn find_wanted(&self, view: &View, is_wanted: &dyn Fn(&Claim) -> bool) -> Vec<Proposal> {
        let lines = open_lines(view).filter(|(_, claims)| claims.iter().any(|it| is_wanted(&it.1)));
        lines.filter_map(|(line, claims)| self.step(&line, &claims)).collect()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        let lines = open_lines(view).filter(|it| !it.1.is_empty());
        Some(lines.map(|it| it.1.into_iter().map(|it| it.1).collect()).collect())
    }
}

impl CrustReach {
    fn step(&self, line: &Line, claims: &[(usize, Claim)]) -> Option<Proposal> {
        let cite = |&(at, claim): &(usize, Claim)| {
            let breaks_it = |pair: Pair| uses(pair, at) != matches!(claim, Claim::Crust(_));
            let mut cites = Cites::default();
            line.why_no_pair(breaks_it, &mut cites).then_some((claim, cites))
        };
        let conclusions: Vec<(Claim, Cites)> = claims.iter().filter_map(cite).collect();
        let cells = |(left, right): &Pair| (line.cells[*left], line.cells[*right]);
        let (fewest, most) = line.crusts.spread()?;
        (!conclusions.is_empty()).then(|| Proposal {
            technique: self.id(),
            argument: Argument::Reach {
                line: line.line,
                fewest: fewest as u8,
                most: most as u8,
                pairs: line.crusts.pairs().iter().map(cells).collect(),
            },
            conclusions,
        })
    }
}

/// Each line of which something is unknown and that has a place for its crusts, with what is new about its cells, by
/// their places in it.
fn open_lines<'v, 'a>(view: &'v View<'a>) -> impl Iterator<Item = (Line<'v, 'a>, Vec<(usize, Claim)>)> {
    let known = view.known_crusts() | view.known_filling();
    let unknown = move |it: &&House| has_sandwiches(view) && !view.members(**it).is_subset(&known);
    let lines = view.lines().iter().filter(unknown).map(|it| Line::new(view, *it));
    lines.filter(|it| !it.crusts.pairs().is_empty()).map(|line| {
        let news = line.cells.iter().enumerate().filter_map(|(at, &cell)| {
            let claim = if line.crusts.must_be_crust(at) {
                Claim::Crust(cell)
            } else if !line.crusts.may_be_crust(at) {
                Claim::Filling(cell)
            } else {
                return None;
            };
            view.is_news(claim).then_some((at, claim))
        });
        let news = news.collect();
        (line, news)
    })
}
