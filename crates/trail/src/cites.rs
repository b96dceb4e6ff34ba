//! What a conclusion cites: what it follows from, and what else is told with it.

use std::collections::BTreeSet;
use std::fmt;

use grid::House;
use rulebook::ClueId;

use crate::FactId;

/// What a conclusion rests on. Nothing else may be used to prove it.
///
/// A cited clue, and a cited fact about a house, bring the classic rule of their line with them.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub struct Cites {
    /// Houses whose digits are used to be different, and to be all there.
    pub houses: BTreeSet<House>,
    /// Clues.
    pub clues: BTreeSet<ClueId>,
    /// Earlier facts, givens among them.
    pub facts: BTreeSet<FactId>,
    /// Those of all these that are no premises: the conclusion follows without them, but its technique would not be
    /// seen, or its links not be followed.
    pub beside: BTreeSet<Cited>,
}

impl Cites {
    /// Adds everything that `other` cites. What is a premise of either is one of both.
    pub fn merge(&mut self, other: &Cites) {
        let is_premise = |cites: &Cites, it: &Cited| cites.has(*it) && !cites.beside.contains(it);
        let beside: BTreeSet<Cited> = self.beside.union(&other.beside).copied().collect();
        self.beside =
            beside.into_iter().filter(|it| !is_premise(self, it) && !is_premise(other, it)).collect();
        self.houses.extend(&other.houses);
        self.clues.extend(&other.clues);
        self.facts.extend(&other.facts);
    }

    /// These citations with a house added.
    #[must_use]
    pub fn house(mut self, house: House) -> Cites {
        self.houses.insert(house);
        self
    }

    /// These citations with a clue added.
    #[must_use]
    pub fn clue(mut self, clue: ClueId) -> Cites {
        self.clues.insert(clue);
        self
    }

    /// These citations with a fact added.
    #[must_use]
    pub fn fact(mut self, fact: FactId) -> Cites {
        self.facts.insert(fact);
        self
    }

    /// These citations and those of `other`.
    #[must_use]
    pub fn and(mut self, other: &Cites) -> Cites {
        self.merge(other);
        self
    }

    /// Whether that is cited, as a premise or beside.
    pub fn has(&self, cited: Cited) -> bool {
        match cited {
            Cited::House(it) => self.houses.contains(&it),
            Cited::Clue(it) => self.clues.contains(&it),
            Cited::Fact(it) => self.facts.contains(&it),
        }
    }

    /// What the conclusion follows from.
    #[must_use]
    pub fn premises(&self) -> Cites {
        self.beside.iter().fold(self.clone(), |premises, it| it.left_out_of(&premises))
    }

    /// All of it, of which nothing but `premises` is a premise.
    #[must_use]
    pub fn resting_on(mut self, premises: &Cites) -> Cites {
        self.beside = self.each().filter(|it| !premises.has(*it)).collect();
        self
    }

    /// Everything cited, what takes most to see first: facts, the latest before earlier ones, then clues, then houses.
    pub fn each(&self) -> impl Iterator<Item = Cited> + use<> {
        let facts = self.facts.iter().rev().map(|it| Cited::Fact(*it));
        let clues = self.clues.iter().map(|it| Cited::Clue(*it));
        let all: Vec<Cited> =
            facts.chain(clues).chain(self.houses.iter().map(|it| Cited::House(*it))).collect();
        all.into_iter()
    }

    /// Counts the facts anew; those without a new id go.
    pub(crate) fn renumber(&mut self, new_id: impl Fn(FactId) -> Option<FactId>) {
        self.facts = self.facts.iter().filter_map(|it| new_id(*it)).collect();
        let renumbered = |it: &Cited| match *it {
            Cited::Fact(it) => new_id(it).map(Cited::Fact),
            other => Some(other),
        };
        self.beside = self.beside.iter().filter_map(renumbered).collect();
    }
}

/// One thing of [`Cites`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Cited {
    /// A house.
    House(House),
    /// A clue.
    Clue(ClueId),
    /// A fact.
    Fact(FactId),
}

impl Cited {
    /// The citations without this one.
    #[must_use]
    pub fn left_out_of(self, cites: &Cites) -> Cites {
        let mut fewer = cites.clone();
        _ = match self {
            Cited::House(it) => fewer.houses.remove(&it),
            Cited::Clue(it) => fewer.clues.remove(&it),
            Cited::Fact(it) => fewer.facts.remove(&it),
        };
        fewer.beside.remove(&self);
        fewer
    }
}

/// Names the citation for messages, in lower case; facts and clues by number.
impl fmt::Display for Cited {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Cited::House(it) => write!(f, "{it}"),
            Cited::Clue(it) => write!(f, "clue {}", it.index() + 1),
            Cited::Fact(it) => write!(f, "fact {}", it.index()),
        }
    }
}
