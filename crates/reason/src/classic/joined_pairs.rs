//! Joined pairs: two cells far apart have the same two digits left, and every place of one of the digits in
//! some house sees one or the other. So one of the cells has the other digit, and what sees both loses it.
//!
//! ```text
//! p{2 7} . . | . x      .      7 has no other places in row 4 than a and b: where a is 7, p is 2,
//! .      . . | . q{2 7} .      where b is 7, q is 2
//! -----------+-----------      x sees both, so it is not 2
//! a      . . | . b      .
//! ```

use grid::{Cell, Digit, House};
use rulebook::Claim;
use trail::{Argument, Cites, Proposal, TechniqueId};

use super::{each_pair, sights};
use crate::{Technique, View};

pub(crate) struct JoinedPairs;

impl Technique for JoinedPairs {
    fn id(&self) -> TechniqueId {
        const { TechniqueId::new("joined-pairs") }
    }

    fn weight(&self) -> u32 {
        104
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("naked-pair"), TechniqueId::new("two-colour-chain")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        let mut found = Vec::new();
        let pairs: Vec<Cell> = view.cells_with(2).iter().collect();
        for ends in each_pair(&pairs) {
            let digits = view.candidates(ends[0]);
            if view.candidates(ends[1]) != digits || view.peers(ends[0]).contains(ends[1]) {
                continue;
            }
            for joint in digits.iter() {
                let Some(digit) = digits.without(joint).single() else { continue };
                let seen = view.peers(ends[0]) & view.peers(ends[1]);
                let lost = view.places_among(seen, digit);
                let lost: Vec<Cell> =
                    lost.iter().filter(|it| view.is_news(Claim::IsNot(*it, digit))).collect();
                if !lost.is_empty() {
                    let houses = view.houses().iter();
                    found.extend(houses.filter_map(|it| self.offer(view, ends, *it, joint, digit, &lost)));
                }
            }
        }
        found
    }
}

impl JoinedPairs {
    /// The step in which the places of `joint` in the house join the ends; none if they do not.
    fn offer(
        &self,
        view: &View,
        ends: [Cell; 2],
        house: House,
        joint: Digit,
        digit: Digit,
        lost: &[Cell],
    ) -> Option<Proposal> {
        let places = view.places(house, joint);
        let [by_first, by_second] = ends.map(|it| places & view.peers(it));
        // Seen by one end alone, the digit would be lost to that end.
        if by_first == places || by_second == places || by_first | by_second != places {
            return None;
        }
        let mut cites = Cites::default().house(house);
        for place in places.iter() {
            let end = if by_first.contains(place) { ends[0] } else { ends[1] };
            view.cite_sight(place, end, &mut cites);
        }
        let nowhere = (view.members(house) - places).iter().map(|it| (it, joint));
        let others = view.size().digits() - view.candidates(ends[0]);
        let ends_hold = ends.into_iter().flat_map(|cell| others.iter().map(move |it| (cell, it)));
        view.why_none(nowhere.chain(ends_hold), &mut cites).then(|| Proposal {
            technique: self.id(),
            argument: Argument::JoinedPairs { ends, house, joint, places, digit },
            conclusions: sights(view, lost, &ends, digit, &cites),
        })
    }
}
