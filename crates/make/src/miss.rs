//! Why a try came to nothing, and how often.

use std::collections::BTreeMap;
use std::fmt;

use trail::TechniqueId;

/// Why a try was turned down. The later in this list, the nearer it came.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Miss {
    /// It needs more givens than the brief allows.
    Givens {
        /// How many it needs.
        needs: usize,
        /// How many are allowed.
        most: usize,
    },
    /// It needs more clues than the brief allows.
    Clues {
        /// How many it needs.
        needs: usize,
        /// How many are allowed.
        most: usize,
    },
    /// Those who know what the brief says cannot finish it.
    NotFinished {
        /// How many cells they leave open.
        left: usize,
    },
    /// The technique is not needed: the others finish the puzzle.
    NotNeeded {
        /// One that is not needed.
        technique: TechniqueId,
        /// How many of those to be taught are needed.
        needed: usize,
    },
    /// Its walkthrough was refused, which is a fault of a technique.
    Unexplained,
    /// It takes too few or too many minutes.
    Minutes {
        /// How many it takes.
        takes: usize,
        /// How many are wanted: the nearer end.
        wanted: usize,
    },
    /// It is the twin of another, or has the same solution, seen from another side or not.
    Twin,
}

impl Miss {
    /// How far off it is among those of its kind.
    fn distance(&self) -> usize {
        match self {
            Miss::Givens { needs, most } | Miss::Clues { needs, most } => needs - most,
            Miss::Minutes { takes, wanted } => takes.abs_diff(*wanted),
            Miss::NotFinished { left } => *left,
            Miss::NotNeeded { needed, .. } => usize::MAX - needed,
            Miss::Unexplained | Miss::Twin => 0,
        }
    }

    /// What it missed, without numbers.
    pub fn reason(&self) -> Reason {
        match self {
            Miss::Givens { .. } => Reason::Givens,
            Miss::Clues { .. } => Reason::Clues,
            Miss::NotFinished { .. } => Reason::NotFinished,
            Miss::NotNeeded { technique, .. } => Reason::NotNeeded(*technique),
            Miss::Unexplained => Reason::Unexplained,
            Miss::Minutes { takes, wanted } if takes < wanted => Reason::Quick,
            Miss::Minutes { .. } => Reason::Long,
            Miss::Twin => Reason::Twin,
        }
    }

    fn is_nearer_than(&self, other: &Miss) -> bool {
        let stage = |it: &Miss| match it.reason() {
            Reason::Givens => 0,
            Reason::Clues => 1,
            Reason::NotFinished => 2,
            Reason::NotNeeded(_) => 3,
            Reason::Unexplained => 4,
            Reason::Quick | Reason::Long => 5,
            Reason::Twin => 6,
        };
        stage(self) > stage(other) || stage(self) == stage(other) && self.distance() < other.distance()
    }
}

/// Completes "the nearest missed because …".
impl fmt::Display for Miss {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Miss::Givens { needs, most } => {
                write!(f, "it needs {needs} givens, and at most {most} are allowed")
            }
            Miss::Clues { needs, most } => {
                write!(f, "it needs {needs} clues, and at most {most} are allowed")
            }
            Miss::NotFinished { left } => {
                write!(f, "what is known leaves {left} of its cells open")
            }
            Miss::NotNeeded { technique, needed: 0 } => {
                write!(f, "it can be finished without `{technique}`")
            }
            Miss::NotNeeded { technique, needed } => {
                write!(
                    f,
                    "it can be finished without `{technique}`, though not without {needed} of the others"
                )
            }
            Miss::Unexplained => write!(f, "its walkthrough did not pass the checker"),
            Miss::Minutes { takes, wanted } if takes < wanted => {
                write!(f, "it takes a regular {takes} minutes, and {wanted} at least are wanted")
            }
            Miss::Minutes { takes, wanted } => {
                write!(f, "it takes a regular {takes} minutes, and {wanted} at most are wanted")
            }
            Miss::Twin => {
                write!(f, "it is the same as another, or has the same solution, seen from another side")
            }
        }
    }
}

/// What tries are turned down for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Reason {
    /// Too many givens.
    Givens,
    /// Too many clues.
    Clues,
    /// What is known does not finish it.
    NotFinished,
    /// That technique is not needed.
    NotNeeded(TechniqueId),
    /// No walkthrough that passed the checker.
    Unexplained,
    /// Too few minutes.
    Quick,
    /// Too many minutes.
    Long,
    /// The same as another.
    Twin,
}

/// Prints `more givens needed`.
impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Reason::Givens => write!(f, "more givens needed"),
            Reason::Clues => write!(f, "more clues needed"),
            Reason::NotFinished => write!(f, "what is known not enough"),
            Reason::NotNeeded(it) => write!(f, "`{it}` not needed"),
            Reason::Unexplained => write!(f, "walkthrough not accepted"),
            Reason::Quick => write!(f, "too few minutes"),
            Reason::Long => write!(f, "too many minutes"),
            Reason::Twin => write!(f, "same as another"),
        }
    }
}

/// What has come of the tries so far.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Tally {
    /// How many there were.
    pub tries: u64,
    /// How many met the brief.
    pub found: usize,
    /// How many were turned down, by reason.
    pub missed: BTreeMap<Reason, u64>,
    /// The one that came nearest; of equals the first.
    pub nearest: Option<Miss>,
}

/// Prints `120 tries (80 more givens needed, 39 …)`: the commonest first; of equals, the one that stands first in the list.
impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.tries, if self.tries == 1 { "try" } else { "tries" })?;
        let mut reasons: Vec<_> = self.missed.iter().collect();
        reasons.sort_by_key(|it| std::cmp::Reverse(it.1));
        let reasons: Vec<String> = reasons.into_iter().map(|(it, n)| format!("{n} {it}")).collect();
        if reasons.is_empty() { Ok(()) } else { write!(f, " ({})", reasons.join(", ")) }
    }
}

impl Tally {
    pub(crate) fn count(&mut self, miss: Option<Miss>) {
        self.tries += 1;
        let Some(miss) = miss else {
            self.found += 1;
            return;
        };
        *self.missed.entry(miss.reason()).or_default() += 1;
        if self.nearest.is_none_or(|it| miss.is_nearer_than(&it)) {
            self.nearest = Some(miss);
        }
    }
}
