//! Crust held: when a line must have a crust inside a box, and the box has a crust known elsewhere,
//! the box's other cells are filling.
//!
//! ```text
//! C f f |
//! f f f |      the third row has a crust among a, b; with C that makes two
//! a b . |
//! ```

use grid::House;
use rulebook::{Claim, RuleId};
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::has_sandwiches;
use super::line::Line;
use crate::view::Pair;
use crate::{Technique, View};

pub(crate) struct CrustHeld;

impl Technique for CrustHeld {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("crust-held") }
    }

    fn rule(&self) -> Option<RuleId> {
        crate::sandwich::rule()
    }

    fn weight(&self) -> u32 {
        28
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("crusts-found")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        if !has_sandwiches(view) {
            return Vec::new();
        }
        let boxes = || view.houses().iter().filter(|it| !it.is_line());
        let mut found = Vec::new();
        for &house in view.lines() {
            let line = Line::new(view, house);
            let crossed = boxes().filter(|it| !(view.members(**it) & view.members(house)).is_empty());
            found.extend(crossed.filter_map(|into| self.in_box(view, &line, *into)));
        }
        found
    }
}

impl CrustHeld {
    fn in_box(&self, view: &View, line: &Line, into: House) -> Option<Proposal> {
        let within = view.members(into);
        let off_line = within - view.members(line.line);
        let known = off_line & view.known_crusts();
        let news = off_line - known - view.known_filling();
        let cells = within - off_line - view.known_filling();
        let touches =
            |(left, right): Pair| within.contains(line.cells[left]) || within.contains(line.cells[right]);
        if known.len() != 1 || news.is_empty() || cells.is_empty() {
            return None;
        }
        let known = known.first()?;
        let mut cites = Cites::default().house(into);
        if !view.why_crust(known, &mut cites) || !line.why_no_pair(|it| !touches(it), &mut cites) {
            return None;
        }
        Some(Proposal {
            technique: self.id(),
            argument: Argument::CrustHeld { into, line: line.line, known, cells },
            conclusions: news.iter().map(|it| (Claim::Filling(it), cites.clone())).collect(),
        })
    }
}
