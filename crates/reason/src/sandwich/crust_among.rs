//! Crust among: where the two crusts of a house cannot both lie outside another, the cells that the houses
//! share have one of them at least, though nobody knows where.
//!
//! ```text
//! f a b | . f f | f f f      one crust of the row at most lies outside the first box:
//! . . . |                    one is at a or b
//! . . . |
//! ```
//!
//! Offered only where the crusts of the other house may be all there then; that is for crusts shared to say.

use grid::{CellSet, House};
use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use super::line::Line;
use crate::view::Pair;
use crate::{Technique, View};

pub(crate) struct CrustAmong;

impl Technique for CrustAmong {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-among") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        29
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crust-places")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let open = view.houses().iter().filter(|it| may_gain(view, **it));
        open.flat_map(|it| self.in_house(view, *it)).collect()
    }
}

impl CrustAmong {
    /// A step for each house that has a crust inside `into`, where that serves something.
    fn in_house(&self, view: &View, into: House) -> Vec<Proposal> {
        let known = view.members(into) & view.known_crusts();
        let all = held(view, into);
        let acts = |it: &Held| {
            let with =
                |other: CellSet| !(view.members(into) - it.cells - other - view.known_filling()).is_empty();
            // A line's crust beside a known one in a box is for crust held.
            let beside_known = !known.is_empty() && (into.is_line() || !it.of.is_line());
            let mut others = all.iter().map(|it| it.cells).filter(|other| (*other & it.cells).is_empty());
            (beside_known && with(known)) || others.any(with)
        };
        all.iter()
            .filter(|it| !is_told(view, it.of, into) && acts(it))
            .filter_map(|it| it.step(view, self.id()))
            .collect()
    }
}

/// Cells of a house that have a crust of it for certain, and all lie in another.
struct Held {
    of: House,
    into: House,
    cells: CellSet,
}

impl Held {
    fn step(&self, view: &View, technique: TechniqueId) -> Option<Proposal> {
        let &Held { of, into, cells } = self;
        let mut cites = Cites::default();
        let shown = match of.is_line() {
            true => {
                let line = Line::new(view, of);
                let misses =
                    |(left, right): Pair| ![left, right].iter().any(|it| cells.contains(line.cells[*it]));
                line.why_no_pair(misses, &mut cites)
            }
            false => {
                cites.houses.insert(of);
                let filling = (view.members(of) - cells) & view.known_filling();
                filling.iter().all(|it| view.why_filling(it, &mut cites))
            }
        };
        shown.then(|| Proposal {
            technique,
            argument: Argument::CrustAmong { of, into, cells },
            conclusions: vec![(Claim::CrustAmong { house: of, cells }, cites)],
        })
    }
}

/// Whether some cell of the house could turn out to be filling, at least two others having its crusts.
fn may_gain(view: &View, house: House) -> bool {
    let open = view.members(house) - view.known_filling();
    open.len() > 2 && (open & view.known_crusts()).len() < 2
}

/// The houses that have a crust inside `into` for certain, without one that is known there.
fn held(view: &View, into: House) -> Vec<Held> {
    let mut held = Vec::new();
    for &of in view.houses().iter().filter(|it| **it != into) {
        let shared = view.members(of) & view.members(into);
        let cells = shared - view.known_filling();
        if shared.len() < 2 || cells.is_empty() || !(cells & view.known_crusts()).is_empty() {
            continue;
        }
        let has_crust_there = match of.is_line() {
            true => {
                let line = Line::new(view, of);
                let is_there = |at: usize| cells.contains(line.cells[at]);
                line.crusts.pairs().iter().all(|it| is_there(it.0) || is_there(it.1))
            }
            false => (view.members(of) - view.known_filling() - cells).len() <= 1,
        };
        if has_crust_there {
            held.push(Held { of, into, cells });
        }
    }
    held
}

/// Whether a fact says already that the house has a crust inside `into`.
fn is_told(view: &View, of: House, into: House) -> bool {
    view.house_facts().any(|(_, claim)| match claim {
        Claim::CrustAmong { house, cells } => house == of && cells.is_subset(&view.members(into)),
        _ => false,
    })
}
