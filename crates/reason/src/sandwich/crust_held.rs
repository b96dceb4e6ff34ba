//! Crust held: when a line must have a crust inside a box, and the box has a crust known elsewhere,
//! the box's other cells are filling.
//!
//! ```text
//! C f f |
//! f f f |      the third row has a crust among a, b; with C that makes two
//! a b . |
//! ```

use grid::{Cell, CellSet, House};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use super::line::Line;
use crate::{Technique, View};

pub(crate) struct CrustHeld;

impl Technique for CrustHeld {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-held") }
    }

    fn weight(&self) -> u32 {
        28
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let size = view.size();
        let boxes: Vec<House> = size.houses().filter(|it| !it.is_line()).collect();
        let mut found = Vec::new();
        for house in size.lines() {
            let line = Line::new(view, house);
            for &into in &boxes {
                let within: CellSet = size.cells_of(into).into_iter().collect();
                if line.cells.iter().any(|it| within.contains(*it)) {
                    found.extend(self.in_box(view, &line, into, within));
                }
            }
        }
        found
    }
}

impl CrustHeld {
    fn in_box(&self, view: &View, line: &Line, into: House, within: CellSet) -> Option<Proposal> {
        let on_line: CellSet = line.cells.iter().copied().collect();
        let touches = |(left, right): (usize, usize)| {
            within.contains(line.cells[left]) || within.contains(line.cells[right])
        };
        let known: Vec<Cell> = (within - on_line).iter().filter(|it| view.is_crust(*it)).collect();
        let (&[known], true) = (known.as_slice(), line.pairs.iter().all(|it| touches(*it))) else {
            return None;
        };
        let cells: CellSet = (within & on_line).iter().filter(|it| !view.is_filling(*it)).collect();
        let mut cites = Cites::default().house(into);
        if cells.is_empty()
            || !view.why_crust(known, &mut cites)
            || !line.why_no_pair(|it| !touches(it), &mut cites)
        {
            return None;
        }
        let rest = (within - on_line).iter().filter(|it| *it != known).map(Claim::Filling);
        let conclusions: Vec<_> = rest.filter(|it| view.is_news(*it)).map(|it| (it, cites.clone())).collect();
        (!conclusions.is_empty()).then(|| Proposal {
            technique: self.id(),
            argument: Argument::CrustHeld { into, line: line.line, known, cells },
            conclusions,
        })
    }
}
